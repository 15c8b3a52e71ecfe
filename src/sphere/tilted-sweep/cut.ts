/**
 * A true cut, as marks, infeed and clearance take it: the part that is wanted, cut by the sweep that covers just
 * this part or by one that is set, or a sweep alone with the side on which it cuts. Its axis meets the work axis.
 * Radians inside.
 */
import { choice, nonNegative, representable } from '../../core/checks.js';
import { refuse } from '../../core/errors.js';
import { readSweep, type Sweep } from '../../revolve/sweep.js';
import { nosePath, readTarget, type SphereTarget } from '../target.js';

/** A sphere being cut: by the part that is wanted, by the sweep that is set, or both. */
export type SphereCut =
  | {
      /** The part that is wanted; the sweep is the one that covers just this part and cuts no stem. */
      readonly target: SphereTarget;
      /**
       * Radius of the tool's nose.
       *
       * @defaultValue 0: a sharp point.
       */
      readonly noseRadius?: number;
    }
  | {
      /** The part that is wanted. */
      readonly target: SphereTarget;
      /** The sweep as it is set; without skew, since only then a sphere is cut. */
      readonly sweep: Sweep;
    }
  | {
      /** The sweep as it is set; without skew, since only then a sphere is cut. */
      readonly sweep: Sweep;
      /** On which side of the sphere the material lies. */
      readonly side: 'ball' | 'socket';
    };

/** A cut reduced to what calculations need. */
export interface ReadCut {
  readonly side: 'ball' | 'socket';
  /** Radius of the sphere that is cut. */
  readonly radius: number;
  readonly noseRadius: number;
  /** Angle between the two axes, up to 90 degrees or beyond. */
  readonly tilt: number;
  /** Angular radius of the sweep, seen from the sphere's centre. */
  readonly half: number;
  /** Which argument says how the sweep lies, for refusals. */
  readonly said: string;
}

/** The keys of a cut, for the option lists of functions that take one. */
export const CUT_KEYS = ['target', 'noseRadius', 'sweep', 'side'] as const;

/** Reads a cut from options whose keys have been checked. */
export function readCut(given: Readonly<Record<string, unknown>>, parameter: string): ReadCut {
  const { target, sweep } = given;
  if (target === undefined && sweep === undefined) {
    return refuse('missing-option', parameter, Object.keys(given), 'must give target, sweep or both');
  }
  const zone = target === undefined ? undefined : readTarget(target as SphereTarget);
  if (zone && given['side'] !== undefined) {
    return refuse('contradiction', `${parameter}.side`, given['side'], 'must be left out: the target says it');
  }
  if (zone && sweep === undefined) {
    const { side, radius } = zone;
    const noseRadius = nonNegative(given['noseRadius'] ?? 0, `${parameter}.noseRadius`);
    fits(side, radius, noseRadius, `${parameter}.noseRadius`);
    const { middle, half } = nosePath(zone, noseRadius);
    return { side, radius, noseRadius, tilt: middle.rad, half: half.rad, said: `${parameter}.target` };
  }
  if (given['noseRadius'] !== undefined) {
    return refuse('contradiction', `${parameter}.noseRadius`, given['noseRadius'], 'must be given within the sweep');
  }
  const side = zone ? zone.side : choice(given['side'], `${parameter}.side`, ['ball', 'socket']);
  const read = readSweep(sweep as Sweep, `${parameter}.sweep`);
  if (read.skew !== 0) {
    return refuse('out-of-range', `${parameter}.sweep.skew`, read.skew, 'must be 0: with skew no sphere is cut');
  }
  const { noseRadius, tilt } = read;
  const path = representable(Math.hypot(read.radius, read.distance), `${parameter}.sweep`);
  const radius = side === 'ball' ? path - noseRadius : path + noseRadius;
  if (radius <= 0) {
    return refuse('impossible-geometry', `${parameter}.sweep.noseRadius`, noseRadius, 'must leave a ball standing');
  }
  const half = Math.atan2(read.radius, read.distance);
  return { side, radius, noseRadius, tilt, half, said: `${parameter}.sweep.tiltDeg` };
}

/** Refuses a nose that does not fit into a socket. */
export function fits(side: 'ball' | 'socket', radius: number, noseRadius: number, parameter: string): void {
  if (side === 'socket' && noseRadius >= radius) {
    refuse('out-of-range', parameter, noseRadius, "must be less than the socket's radius");
  }
}
