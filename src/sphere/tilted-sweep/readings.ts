/**
 * What a person can measure on a ball or a socket, and what each measurement would read for a given sweep.
 * Closed forms in the frame of sweep.ts; `place` is how far the sphere's centre lies from where it should,
 * along the work axis towards the free end (towards the bottom of a socket).
 */

import { refuse } from '../../core/errors.js';
import {
  anyNumber,
  choice,
  type Fields,
  nonNegative,
  number,
  object,
  optional,
  positive,
  type Reader,
  readValue,
  vouched,
} from '../../core/read.js';
import { circleRhoAt } from '../../revolve/circle-meridian.js';
import { isOnStem, type Zone } from '../target.js';

/** A length read on the part, with its standard uncertainty. */
export interface Reading {
  /** What was read. */
  readonly value: number;
  /** Standard uncertainty of the reading, above 0. */
  readonly uncertainty: number;
}

/**
 * One measurement on the part: `largest-diameter` over the equator of a ball; `diameter-at` a place along the axis;
 * `pip-diameter`, 0 if none is seen; `end-diameter` where the cut ends at the stem or the rim; `cut-length` along the
 * axis from where the cut begins to where it ends; `opening-diameter` and `depth` of a socket; `out-of-round`, the
 * largest less the smallest radius, as a ring gauge wandering over the surface shows it.
 */
export type SphereMeasurement =
  | ({
      /** What was measured. */
      readonly kind:
        | 'largest-diameter'
        | 'pip-diameter'
        | 'end-diameter'
        | 'cut-length'
        | 'opening-diameter'
        | 'depth'
        | 'out-of-round';
    } & Reading)
  | ({
      /** What was measured. */
      readonly kind: 'diameter-at';
      /** Height of the place over where the sphere's centre should be, positive towards the free end. */
      readonly height: number;
    } & Reading);

/** A sweep as plain numbers, radians; skew counts as a size, continued smoothly below 0. */
export interface TrialSweep {
  readonly tilt: number;
  readonly radius: number;
  readonly distance: number;
  readonly skew: number;
  readonly place: number;
}

/** A measurement reduced to what the search needs. */
export interface ReadMeasurement extends Reading {
  /** What it was, as given. */
  readonly kind: SphereMeasurement['kind'];
  /** Whether it depends on where along the axis the sphere lies. */
  readonly needsPlace: boolean;
  /** What it would read. */
  readonly predict: (sweep: TrialSweep) => number;
}

const KINDS = [
  'largest-diameter',
  'diameter-at',
  'pip-diameter',
  'end-diameter',
  'cut-length',
  'opening-diameter',
  'depth',
  'out-of-round',
] as const;

/** A measurement before it is checked whether its kind has a height. */
interface Stated extends Reading {
  readonly kind: SphereMeasurement['kind'];
  readonly height?: number;
}

const STATED: Fields<Stated> = {
  kind: choice(...KINDS),
  value: nonNegative,
  uncertainty: positive,
  height: optional(anyNumber),
};

/** Reads one measurement. */
export const measurement: Reader<SphereMeasurement> = vouched(object(STATED), ({ kind, height }) => {
  const needed = kind === 'diameter-at';
  if (needed && height === undefined) refuse('missing-option', 'height', undefined, 'must be given for this kind');
  if (!needed && height !== undefined) refuse('unknown-option', 'height', 'height', 'must be left out for this kind');
}) as Reader<unknown> as Reader<SphereMeasurement>;

/** Checks measurements against the part, and gives each the function that predicts it; lengths in radii from here. */
export function readMeasurements(
  given: readonly SphereMeasurement[],
  zone: Zone,
  noseRadius: number,
  inRadii: (length: number) => number,
): readonly ReadMeasurement[] {
  const nose = inRadii(zone.side === 'ball' ? -noseRadius : noseRadius);
  const within = number({ min: 0, max: 10 * zone.radius });
  const along = number({ above: zone.rims.toHeight, below: zone.rims.fromHeight });
  return given.map((item, i) => {
    const at = (key: string): string => `measurements[${i}].${key}`;
    const { kind } = item;
    if ((kind === 'opening-diameter' || kind === 'depth') && zone.side !== 'socket') {
      return refuse('contradiction', at('kind'), kind, 'must be one that a ball has');
    }
    if (kind === 'largest-diameter' && (zone.side !== 'ball' || zone.to <= Math.PI / 2)) {
      return refuse('contradiction', at('kind'), kind, 'must be left out: the surface does not reach its equator');
    }
    const height = kind === 'diameter-at' ? readValue(item.height, along, at('height')) : zone.rims.toHeight;
    return {
      kind,
      value: inRadii(readValue(item.value, within, at('value'))),
      uncertainty: inRadii(item.uncertainty),
      needsPlace: kind === 'diameter-at' || kind === 'opening-diameter' || kind === 'depth',
      predict: predictor(kind, zone.side === 'ball' ? -1 : 1, nose, inRadii(height), isOnStem(zone)),
    };
  });
}

/** `branch` is -1 for a ball, which keeps the part of the path nearer to the axis, and 1 for a socket. */
function predictor(
  kind: SphereMeasurement['kind'],
  branch: 1 | -1,
  nose: number,
  height: number,
  onStem: boolean,
): (sweep: TrialSweep) => number {
  /** The nose touches on the line to the centre: places on the path, scaled. */
  const scaled = ({ radius, distance, skew }: TrialSweep): number =>
    1 + nose / Math.sqrt(radius * radius + distance * distance + skew * skew);
  const diameterAt = (sweep: TrialSweep, z: number): number => {
    const { tilt, radius, distance, skew } = sweep;
    // Beyond its end the sweep, fed in along the axis, leaves a hole or a post of the end's diameter.
    const [middle, reach] = [distance * Math.cos(tilt), radius * Math.sin(tilt)];
    const path = Math.min(middle + reach, Math.max(middle - reach, z / scaled(sweep)));
    const rho = circleRhoAt(Math.sin(tilt), Math.cos(tilt), radius, distance, branch * skew, path);
    return 2 * rho * (1 + nose / Math.sqrt(rho * rho + path * path));
  };
  /** Diameter of the path at its far (1) or its near end (-1). */
  const pathAcross = (sweep: TrialSweep, sign: 1 | -1): number => {
    const { tilt, radius, distance, skew } = sweep;
    const inPlane = distance * Math.sin(tilt) + sign * radius * Math.cos(tilt);
    return 2 * Math.sqrt(inPlane * inPlane + skew * skew);
  };
  switch (kind) {
    case 'largest-diameter':
      return (sweep) => diameterAt(sweep, 0);
    case 'diameter-at':
    case 'opening-diameter':
      return (sweep) => diameterAt(sweep, height - sweep.place);
    case 'pip-diameter':
      return (sweep) => scaled(sweep) * pathAcross(sweep, -1);
    case 'end-diameter':
      // A stem is measured where the nose runs against it; only without one the surface itself has an edge.
      return onStem ? (sweep) => pathAcross(sweep, 1) + 2 * nose : (sweep) => scaled(sweep) * pathAcross(sweep, 1);
    case 'cut-length':
      return (sweep) => 2 * scaled(sweep) * sweep.radius * Math.sin(sweep.tilt);
    case 'depth':
      return (sweep) => {
        const { tilt, radius, distance, place } = sweep;
        return scaled(sweep) * (distance * Math.cos(tilt) + radius * Math.sin(tilt)) + place - height;
      };
    case 'out-of-round':
      return ({ radius, distance, skew }) => {
        const ends = Math.sqrt(distance * distance + radius * radius + skew * skew);
        const middle = Math.sqrt(distance * distance + (radius + branch * skew) ** 2);
        return branch * (middle - ends);
      };
  }
}
