/**
 * A sweep: the circle on which a tool runs, and how it lies to the work axis. Its tilt is the angle
 * between the two axes; its distance is from the point where the axes meet (or pass each other) to
 * the plane of the circle. Frame: the work axis is z, the circle's axis n = (sin α, 0, cos α), the
 * circle's centre h n + e y.
 */
import { nonNegative, number, options, positive } from '../core/checks.js';
import { radians } from './target.js';

/** A sweep of a tool as it is set, or as it really is. */
export interface Sweep {
  /** Angle between the spindle axis and the work axis, above 0 and below 180 degrees. */
  readonly tiltDeg: number;
  /** Radius of the circle on which the tip runs; with a nose radius, the circle of the nose's centre. */
  readonly sweepRadius: number;
  /** From the sphere's centre to the plane of that circle, along the spindle axis. */
  readonly distance: number;
  /** By how much the two axes pass each other; either sign, 0 where they meet. Default 0. */
  readonly skew?: number;
  /** Sideways error in the plane of the two axes, positive away from the work axis. Default 0. */
  readonly miss?: number;
  /** Radius of the tool's nose. Default 0: a sharp point. */
  readonly noseRadius?: number;
}

/** A sweep in radians, its miss already turned into distance. */
export interface ReadSweep {
  readonly tilt: number;
  readonly radius: number;
  readonly distance: number;
  readonly skew: number;
  readonly noseRadius: number;
  /** Where the axes meet, from where they would meet without the miss, along the work axis. */
  readonly shift: number;
}

/** Reads a sweep and refuses what cannot cut a sphere: a tilt of 0 sweeps one ring. */
export function readSweep(sweep: Sweep, parameter = 'sweep'): ReadSweep {
  const given = options(sweep, parameter, ['tiltDeg', 'sweepRadius', 'distance'], ['skew', 'miss', 'noseRadius']);
  const tilt = radians(number(given['tiltDeg'], `${parameter}.tiltDeg`, { above: 0, below: 180 }));
  const miss = number(given['miss'] ?? 0, `${parameter}.miss`);
  return {
    tilt,
    radius: positive(given['sweepRadius'], `${parameter}.sweepRadius`),
    // Moved sideways by x, the spindle axis meets the work axis x / sin α sooner, x cot α further down.
    distance: number(given['distance'], `${parameter}.distance`) + miss / Math.sin(tilt),
    skew: number(given['skew'] ?? 0, `${parameter}.skew`),
    noseRadius: nonNegative(given['noseRadius'] ?? 0, `${parameter}.noseRadius`),
    shift: miss === 0 ? 0 : -miss / Math.tan(tilt),
  };
}
