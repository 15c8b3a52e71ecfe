/**
 * What each measurement on a ball or a socket would read for a given sweep. Closed forms in the frame of sweep.ts, in
 * radii of the sphere wanted; `place` is how far its centre lies from where it should, along the work axis towards the
 * free end (towards the bottom of a socket).
 */
import { normalBelow } from '../../budget/student.js';
import { refuse } from '../../core/errors.js';
import { number, readValue } from '../../core/read.js';
import { circleRhoAt } from '../../revolve/circle-meridian.js';
import { isOnStem, type Zone } from '../target.js';
import { missingOn, type SphereInstrument, type SphereMeasurement, type SphereMeasurementKind } from './readings.js';

/** A sweep as it may truly be, in radii of the sphere wanted. */
export interface TrialSweep {
  readonly sin: number;
  readonly cos: number;
  readonly radius: number;
  readonly distance: number;
  readonly skew: number;
  readonly place: number;
}

/** A measurement reduced to what the search needs, in radii. */
export interface ReadMeasurement {
  readonly kind: SphereMeasurementKind;
  /** As it was stated. */
  readonly height: number | undefined;
  /** What was read; of the tip at the pole 1 short of it, -1 past it. */
  readonly value: number;
  readonly uncertainty: number;
  /** What it would read; of the tip at the pole how far short of it the tip is. */
  readonly predict: (sweep: TrialSweep) => number;
}

/** Where the tip passes the pole, in the plane of the axes: positive short of it. */
export function shortOfPole({ sin, cos, radius, distance }: TrialSweep): number {
  return distance * sin - radius * cos;
}

/** Measurements that depend on where along the axis the sphere lies. */
export function needsPlace({ kind }: Pick<ReadMeasurement, 'kind'>): boolean {
  return kind === 'diameter-at' || kind === 'opening-diameter' || kind === 'depth';
}

/** Checks a measurement against the part, and gives it the function that predicts it. */
export function readMeasurement(
  item: SphereMeasurement | SphereInstrument,
  zone: Zone,
  nose: number,
  inRadii: (length: number) => number,
  at: string,
): ReadMeasurement {
  const { kind } = item;
  const missing = missingOn(zone, kind);
  if (missing) return refuse('contradiction', `${at}.kind`, kind, missing);
  const { toHeight, fromHeight } = zone.rims;
  const height = 'height' in item ? item.height : undefined;
  if (kind === 'diameter-at') readValue(height, number({ above: toHeight, below: fromHeight }), `${at}.height`);
  else if (height !== undefined) refuse('contradiction', `${at}.height`, height, 'must be left out but of diameter-at');
  const within = number({ min: -10 * zone.radius, max: 10 * zone.radius });
  const told = 'value' in item ? item.value : 0;
  return {
    kind,
    height,
    value: told === 'not-reached' ? 1 : told === 'past-pole' ? -1 : inRadii(readValue(told, within, `${at}.value`)),
    uncertainty: inRadii(item.uncertainty),
    predict: predictor(kind, zone, nose, inRadii(height ?? toHeight)),
  };
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

/**
 * The same for the search: a pip's as a vector from the pole, as long as it, since the diameter alone has no slope
 * where there is no pip.
 */
export function smoothResidual(one: ReadMeasurement, sweep: TrialSweep): number | readonly number[] {
  const off = residual(one, sweep);
  if (one.kind !== 'pip-diameter') return off;
  const [short, across] = [shortOfPole(sweep), sweep.skew];
  const away = Math.sqrt(short * short + across * across);
  return away > 0 ? [(off * short) / away, (off * across) / away] : [off, 0];
}

/** `nose` is below 0 on a ball. A ball keeps the part of the path nearer to the axis, a socket the one farther away. */
function predictor(kind: SphereMeasurementKind, zone: Zone, nose: number, height: number) {
  const branch = zone.side === 'ball' ? -1 : 1;
  const onStem = isOnStem(zone);
  return (sweep: TrialSweep): number => {
    const { sin, cos, radius, distance, skew, place } = sweep;
    // Distance of the path from the foot at its ends, and half-way on the side that cuts.
    const atEnds = Math.sqrt(radius * radius + distance * distance + skew * skew);
    const halfWay = Math.sqrt(distance * distance + (radius + branch * Math.abs(skew)) ** 2);
    // The nose touches on the line to the centre: places on the path, scaled.
    const scale = 1 + nose / atEnds;
    const [middle, reach] = [distance * cos, radius * sin];
    const diameterAt = (z: number): number => {
      // Beyond its end the sweep, fed in along the axis, leaves a hole or a post of the end's diameter.
      const path = Math.min(middle + reach, Math.max(middle - reach, z / scale));
      const rho = circleRhoAt(sin, cos, radius, distance, branch * Math.abs(skew), path);
      return 2 * rho * (1 + nose / Math.sqrt(rho * rho + path * path));
    };
    /** Diameter of the path where it passes the axis at this distance in the plane of the axes. */
    const across = (inPlane: number): number => 2 * Math.sqrt(inPlane * inPlane + skew * skew);
    switch (kind) {
      case 'largest-diameter':
        return diameterAt(0);
      case 'diameter-at':
      case 'opening-diameter':
        return diameterAt(height - place);
      case 'pip-diameter':
        return scale * across(shortOfPole(sweep));
      case 'end-diameter': {
        const end = across(distance * sin + radius * cos);
        // A stem is measured where the nose runs against it; only without one the surface itself has an edge.
        return onStem ? end + 2 * nose : scale * end;
      }
      case 'cut-length':
        return 2 * scale * reach;
      case 'depth':
        return scale * (middle + reach) + place - height;
      case 'radius':
        return (atEnds + halfWay) / 2 + nose;
      case 'out-of-round':
        return branch * (halfWay - atEnds);
      case 'tip-side-to-side': {
        const from = (y: number): number => Math.sqrt((distance * sin) ** 2 + y * y);
        return from(radius + skew) - from(radius - skew);
      }
      case 'tip-at-pole':
        return shortOfPole(sweep);
    }
  };
}
