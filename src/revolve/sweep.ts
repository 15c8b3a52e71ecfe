/**
 * A sweep: the circle on which a tool runs, and how it lies to the work's axis.
 *
 * Frame of all files that take a sweep: z is the work's axis, the origin is the foot, on it, of the common
 * perpendicular of the two axes (where they meet, if they do). The head's axis has the direction
 * n = (sin α, 0, cos α); with u = (cos α, 0, -sin α) and y = (0, 1, 0) the tip, or the centre of the tool's
 * nose, runs on
 *
 *     P(t) = h n + e y + r (cos t u + sin t y)
 *
 * so that z = h cos α - r sin α cos t, the distance from the axis is ρ² = x² + y² with
 * x = h sin α + r cos α cos t and y = e + r sin t, and ρ² + z² = h² + e² + r² + 2 r e sin t.
 * Lengths in any one unit, angles in degrees outside. Derived from the frame alone; tests revolve P(t) in space.
 */
import { nonNegative, number, options, representable } from '../core/checks.js';
import { refuse } from '../core/errors.js';
import { cosDeg, sinDeg, toRadians } from '../core/trigonometry.js';
import { length2 } from './solve.js';

/** A sweep of a tool as it is set, or as it really is. */
export interface Sweep {
  /**
   * Angle α between the spindle axis and the work axis, above 0 and below 180 degrees. Only `revolveCircle`
   * also takes 0 and 180, which cut no sphere.
   */
  readonly tiltDeg: number;
  /** Radius r of the circle on which the tip runs; with a nose radius, of the circle of the nose's centre. */
  readonly sweepRadius: number;
  /** Distance h from the sphere's centre to the plane of that circle, along the spindle axis. */
  readonly distance: number;
  /**
   * Distance e by which the two axes pass each other, either sign.
   *
   * @defaultValue 0: the axes meet.
   */
  readonly skew?: number;
  /**
   * Sideways error in the plane of the two axes, positive away from the work axis.
   *
   * @defaultValue 0
   */
  readonly miss?: number;
  /**
   * Radius of the tool's nose.
   *
   * @defaultValue 0: a sharp point.
   */
  readonly noseRadius?: number;
}

/** On which side of the tool's path the finished part is: within it (a ball) or around it (a socket). */
export type SweptSide = 'ball' | 'socket';

/**
 * The part of its sweep on which the tool cuts, in degrees of the sweep's own angle t: 0 at the lowest place
 * along the work's axis, 180 at the highest, 90 at the +y side.
 */
export interface SweepArc {
  /** Where the tool starts to cut, -360 to 360 degrees. */
  readonly fromDeg: number;
  /** Where it ends: above `fromDeg`, by a full turn at most. */
  readonly toDeg: number;
}

/** A checked sweep, its miss already turned into distance. */
export interface ReadSweep {
  /** Tilt as given. */
  readonly tiltDeg: number;
  /** Tilt in radians. */
  readonly tilt: number;
  /** Sine of the tilt. */
  readonly sin: number;
  /** Cosine of the tilt. */
  readonly cos: number;
  readonly radius: number;
  readonly distance: number;
  readonly skew: number;
  readonly noseRadius: number;
  /** Where the axes meet, from where they would meet without the miss, along the work axis. */
  readonly shift: number;
}

/** Largest length that is taken: its square must stay a number. Smallest sweep: its inverse. */
export const LONGEST = 1e100;

/** Reads a sweep. Axes that are parallel sweep one ring or a flat face and are refused, unless that is wanted. */
export function readSweep(sweep: Sweep, parameter = 'sweep', parallel: 'refused' | 'taken' = 'refused'): ReadSweep {
  const given = options(sweep, parameter, ['tiltDeg', 'sweepRadius', 'distance'], ['skew', 'miss', 'noseRadius']);
  const at = (key: string): string => (parameter === '' ? key : `${parameter}.${key}`);
  const anywhere = (key: string): number => number(given[key] ?? 0, at(key), { min: -LONGEST, max: LONGEST }) + 0;
  const tiltDeg = number(
    given['tiltDeg'],
    at('tiltDeg'),
    parallel === 'taken' ? { min: 0, max: 180 } : { above: 0, below: 180 },
  );
  const [sin, cos] = [sinDeg(tiltDeg), cosDeg(tiltDeg)];
  if (sin === 0 && parallel === 'refused') {
    return refuse('out-of-range', at('tiltDeg'), tiltDeg, 'must be a tilt whose sine is not lost to rounding');
  }
  const radius = number(given['sweepRadius'], at('sweepRadius'), { min: 1 / LONGEST, max: LONGEST });
  const noseRadius = number(nonNegative(given['noseRadius'] ?? 0, at('noseRadius')), at('noseRadius'), {
    max: LONGEST,
  });
  const [distance, skew, miss] = [anywhere('distance'), anywhere('skew'), anywhere('miss')];
  const read = { tiltDeg, tilt: toRadians(tiltDeg), sin, cos, radius, noseRadius: noseRadius + 0 };
  // Parallel axes have no foot; a miss then adds to the skew.
  if (sin === 0) return { ...read, distance, skew: miss === 0 ? skew : length2(miss, skew), shift: 0 };
  if (miss === 0) return { ...read, distance, skew, shift: 0 };
  // Moved sideways by x, the spindle axis meets the work axis x / sin α sooner, x cot α further down.
  const moved = distance + miss / sin;
  if (!(Math.abs(moved) <= LONGEST))
    return refuse('not-representable', at('miss'), miss, 'must be far less for so small a tilt');
  return { ...read, distance: moved, skew, shift: representable(0 - (miss * cos) / sin, at('miss')) + 0 };
}

/** Checks an arc. */
export function readArc(arc: SweepArc | undefined, parameter = 'arc'): SweepArc | undefined {
  if (arc === undefined) return undefined;
  const given = options(arc, parameter, ['fromDeg', 'toDeg']);
  const fromDeg = number(given['fromDeg'], `${parameter}.fromDeg`, { min: -360, max: 360 });
  return { fromDeg, toDeg: number(given['toDeg'], `${parameter}.toDeg`, { above: fromDeg, max: fromDeg + 360 }) };
}
