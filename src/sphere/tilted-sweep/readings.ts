/**
 * What a person can measure on a ball or a socket, and what each measurement would read for a given sweep. Closed
 * forms in the frame of sweep.ts; `place` is how far the sphere's centre lies from where it should, along the work
 * axis towards the free end (towards the bottom of a socket).
 */
import { normalBelow } from '../../budget/student.js';
import { refuse } from '../../core/errors.js';
import {
  anyNumber,
  byTag,
  choice,
  type Fields,
  nonNegative,
  number,
  object,
  optional,
  positive,
  type Reader,
  readValue,
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
 * Measurements of lengths: `largest-diameter` over the equator of a ball; `pip-diameter`, 0 if none is seen;
 * `end-diameter` where the cut ends at the stem or the rim; `cut-length` along the axis from where the cut begins to
 * where it ends; `opening-diameter` of a socket; `depth`, of a socket or of a dome's base below the place where the cut
 * begins; `radius` by gauge or spherometer, half-way between largest and smallest; `out-of-round`, the largest less the
 * smallest radius, as a ring gauge wandering over the surface shows it.
 */
export type SphereLength =
  | 'largest-diameter'
  | 'pip-diameter'
  | 'end-diameter'
  | 'cut-length'
  | 'opening-diameter'
  | 'depth'
  | 'radius'
  | 'out-of-round';

/** One of these, as it was read. */
export interface LengthReading<K extends SphereLength> extends Reading {
  /** What was measured. */
  readonly kind: K;
}

/** A measurement on the part, or of the tip against the part. */
export type SphereMeasurement =
  | { readonly [K in SphereLength]: LengthReading<K> }[SphereLength]
  | ({
      /** What was measured: a diameter at a place along the axis. */
      readonly kind: 'diameter-at';
      /** Height of the place over where the sphere's centre should be, positive towards the free end. */
      readonly height: number;
    } & Reading)
  | ({
      /**
       * The tip turned by hand to half-way between its ends, on either side of the plane of the axes: how much farther
       * from the work's axis it passes on the side of +y than on that of -y, by feeler or by the table's dial. Either
       * sign: it tells on which side the axes pass each other. Seen with the free end up and the spindle's upper end
       * leaning to the right, +y is away from you.
       */
      readonly kind: 'tip-side-to-side';
    } & Reading)
  | {
      /** The tip turned by hand to its place nearest the pole: short of the work's axis, or past it. */
      readonly kind: 'tip-at-pole';
      /** What was seen. */
      readonly value: 'not-reached' | 'past-pole';
      /** How far from the axis the tip must be for the eye to be as sure as one standard deviation is, above 0. */
      readonly uncertainty: number;
    };

/** Any kind of measurement. */
export type SphereMeasurementKind = SphereMeasurement['kind'];

/** What can be measured, and how well. */
export interface SphereInstrument {
  /** What is measured. */
  readonly kind: SphereMeasurementKind;
  /** Standard uncertainty of the reading. */
  readonly uncertainty: number;
  /** Height of the place, only of `diameter-at`. */
  readonly height?: number;
}

/**
 * Smooth pieces of readings that bend: an opening on the sphere, or past its end; the diameter of a small pip as twice the
 * tip's distance from the pole with its sign.
 */
export interface Piece {
  readonly opening?: 'on-sphere' | 'past-end';
  readonly signedPip?: boolean;
}

/** A sweep as it may truly be. */
export interface TrialSweep {
  readonly sin: number;
  readonly cos: number;
  readonly radius: number;
  readonly distance: number;
  readonly skew: number;
  readonly place: number;
  /** Which smooth piece of a reading that bends to take, to know where to look. */
  readonly piece?: Piece;
}

/** A measurement reduced to what the search needs. */
export interface ReadMeasurement {
  readonly kind: SphereMeasurementKind;
  /** What was read; of the tip at the pole 1 short of it, -1 past it. */
  readonly value: number;
  readonly uncertainty: number;
  /** What it would read; of the tip at the pole how far short of it the tip is. */
  readonly predict: (sweep: TrialSweep) => number;
}

const LENGTH = { value: nonNegative, uncertainty: positive };
const length = <K extends SphereLength>(kind: K): Fields<LengthReading<K>> =>
  ({ kind: choice(kind), ...LENGTH }) as Fields<Reading> as Fields<LengthReading<K>>;

/** Reads one measurement. */
export const measurement: Reader<SphereMeasurement> = byTag<SphereMeasurement, 'kind'>('kind', {
  'largest-diameter': length('largest-diameter'),
  'pip-diameter': length('pip-diameter'),
  'end-diameter': length('end-diameter'),
  'cut-length': length('cut-length'),
  'opening-diameter': length('opening-diameter'),
  depth: length('depth'),
  radius: length('radius'),
  'out-of-round': length('out-of-round'),
  'diameter-at': { kind: choice('diameter-at'), height: anyNumber, ...LENGTH },
  'tip-side-to-side': { kind: choice('tip-side-to-side'), value: anyNumber, uncertainty: positive },
  'tip-at-pole': { kind: choice('tip-at-pole'), value: choice('not-reached', 'past-pole'), uncertainty: positive },
});

/** All kinds but the one that needs a place of its own. */
export const KINDS = [
  'largest-diameter',
  'pip-diameter',
  'end-diameter',
  'cut-length',
  'opening-diameter',
  'depth',
  'radius',
  'out-of-round',
  'tip-side-to-side',
  'tip-at-pole',
] as const;

/** Reads what can be measured. */
export const instrument: Reader<SphereInstrument> = object<SphereInstrument>({
  kind: choice(...KINDS, 'diameter-at'),
  uncertainty: positive,
  height: optional(anyNumber),
});

/** Measurements that depend on where along the axis the sphere lies. */
export function needsPlace(kind: SphereMeasurementKind): boolean {
  return kind === 'diameter-at' || kind === 'opening-diameter' || kind === 'depth';
}

/** Why a part does not have a measurement; undefined if it has. */
export function missingOn({ side, part, to, from }: Zone, kind: SphereMeasurementKind): string | undefined {
  if (kind === 'opening-diameter' && side === 'ball') return 'must be one that a ball has';
  if (kind === 'depth' && side === 'ball' && part !== 'cap') return 'must be one that a ball has';
  if (kind === 'largest-diameter' && (side === 'socket' || to <= Math.PI / 2)) {
    return 'must be left out: the surface does not reach its equator';
  }
  return kind === 'tip-at-pole' && from > 0 ? 'must be left out: the sweep need not reach the pole' : undefined;
}

/** Checks a measurement against the part, and gives it the function that predicts it; lengths in radii from here. */
export function readMeasurement(
  item: SphereMeasurement | SphereInstrument,
  zone: Zone,
  nose: number,
  inRadii: (length: number) => number,
  at: string,
): ReadMeasurement {
  const { kind, uncertainty } = item;
  const missing = missingOn(zone, kind);
  if (missing) return refuse('contradiction', `${at}.kind`, kind, missing);
  const { toHeight, fromHeight } = zone.rims;
  const stated = 'height' in item ? item.height : undefined;
  const height =
    kind === 'diameter-at'
      ? readValue(stated, number({ above: toHeight, below: fromHeight }), `${at}.height`)
      : toHeight;
  const within = number({ min: -10 * zone.radius, max: 10 * zone.radius });
  const told = 'value' in item ? item.value : 0;
  const value = typeof told === 'string' ? sideOf(told) : inRadii(readValue(told, within, `${at}.value`));
  const small = isSmallPip({ kind, value, uncertainty: inRadii(uncertainty) });
  return {
    kind,
    value,
    uncertainty: inRadii(uncertainty),
    predict: predictor(kind, zone, nose, inRadii(height), small),
  };
}

/** A pip so small, beside its uncertainty, that the bend of its diameter at the pole matters. */
export function isSmallPip({ kind, value, uncertainty }: Omit<ReadMeasurement, 'predict'>): boolean {
  return kind === 'pip-diameter' && value < 5 * uncertainty;
}

/** 1 short of the pole, -1 past it. */
export function sideOf(value: 'not-reached' | 'past-pole'): 1 | -1 {
  return value === 'not-reached' ? 1 : -1;
}

/**
 * A reading less its prediction, over its uncertainty. What the eye says of the tip at the pole is right with the
 * normal probability p of the distance in units of the eye's uncertainty: its square is -2 ln p, as a length's is but
 * for a constant.
 */
export function residual({ kind, value, uncertainty, predict }: ReadMeasurement, sweep: TrialSweep): number {
  if (kind !== 'tip-at-pole') return (value - predict(sweep)) / uncertainty;
  const z = (value * predict(sweep)) / uncertainty;
  // Far out p vanishes: there -2 ln p is z² + ln(2π z²), nearly. The other way it is 1 to the last digit.
  if (z > 8.5) return 0;
  return Math.sqrt(z < -30 ? z * z + Math.log(2 * Math.PI * z * z) : -2 * Math.log(normalBelow(z)));
}

/** Where the tip passes the pole, in the plane of the axes: positive short of it. */
export function shortOfPole({ sin, cos, radius, distance }: TrialSweep): number {
  return distance * sin - radius * cos;
}

/** `nose` is below 0 on a ball. A ball keeps the part of the path nearer to the axis, a socket the one farther away. */
function predictor(
  kind: SphereMeasurementKind,
  zone: Zone,
  nose: number,
  height: number,
  small: boolean,
): (sweep: TrialSweep) => number {
  const branch = zone.side === 'ball' ? -1 : 1;
  /** The nose touches on the line to the centre: places on the path, scaled. */
  const scaled = ({ radius, distance, skew }: TrialSweep): number =>
    1 + nose / Math.sqrt(radius * radius + distance * distance + skew * skew);
  const diameterAt = (sweep: TrialSweep, z: number): number => {
    const { sin, cos, radius, distance, skew } = sweep;
    // Beyond its end the sweep, fed in along the axis, leaves a hole or a post of the end's diameter.
    const [middle, reach] = [distance * cos, radius * sin];
    const path = Math.min(middle + reach, Math.max(middle - reach, z / scaled(sweep)));
    const rho = circleRhoAt(sin, cos, radius, distance, branch * Math.abs(skew), path);
    return 2 * rho * (1 + nose / Math.sqrt(rho * rho + path * path));
  };
  /** Diameter of the path at its far (1) or its near end (-1). */
  const pathAcross = ({ sin, cos, radius, distance, skew }: TrialSweep, sign: 1 | -1): number => {
    const inPlane = distance * sin + sign * radius * cos;
    return 2 * Math.sqrt(inPlane * inPlane + skew * skew);
  };
  /** Distance of the path from the foot at its ends, and half-way on the side that cuts. */
  const atEnds = ({ radius, distance, skew }: TrialSweep): number =>
    Math.sqrt(distance * distance + radius * radius + skew * skew);
  const halfWay = ({ radius, distance, skew }: TrialSweep): number =>
    Math.sqrt(distance * distance + (radius + branch * Math.abs(skew)) ** 2);
  switch (kind) {
    case 'largest-diameter':
      return (sweep) => diameterAt(sweep, 0);
    case 'diameter-at':
      return (sweep) => diameterAt(sweep, height - sweep.place);
    case 'opening-diameter':
      return (sweep) => {
        const { piece, place, radius, distance } = sweep;
        if (!piece?.opening) return diameterAt(sweep, height - place);
        const scale = scaled(sweep);
        if (piece.opening === 'past-end') return scale * pathAcross(sweep, 1);
        const z = (height - place) / scale;
        return 2 * scale * Math.sqrt(Math.max(0, radius * radius + distance * distance - z * z));
      };
    case 'pip-diameter':
      return (sweep) =>
        scaled(sweep) * (small && sweep.piece?.signedPip ? 2 * shortOfPole(sweep) : pathAcross(sweep, -1));
    case 'end-diameter':
      // A stem is measured where the nose runs against it; only without one the surface itself has an edge.
      if (isOnStem(zone)) return (sweep) => pathAcross(sweep, 1) + 2 * nose;
      return (sweep) => scaled(sweep) * pathAcross(sweep, 1);
    case 'cut-length':
      return (sweep) => 2 * scaled(sweep) * sweep.radius * sweep.sin;
    case 'depth':
      return (sweep) => {
        const { sin, cos, radius, distance, place } = sweep;
        return scaled(sweep) * (distance * cos + radius * sin) + place - height;
      };
    case 'radius':
      return (sweep) => (atEnds(sweep) + halfWay(sweep)) / 2 + nose;
    case 'out-of-round':
      return (sweep) => branch * (halfWay(sweep) - atEnds(sweep));
    case 'tip-side-to-side':
      return ({ sin, radius, distance, skew }) => {
        const inPlane = distance * sin;
        const from = (across: number): number => Math.sqrt(inPlane * inPlane + across * across);
        return from(radius + skew) - from(radius - skew);
      };
    case 'tip-at-pole':
      return shortOfPole;
  }
}
