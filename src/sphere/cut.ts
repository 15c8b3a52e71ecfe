/**
 * A true cut, as marks, infeed and clearance take it: either the part that is wanted, cut by the
 * sweep that covers just this part, or any sweep whose axis meets the work axis, with the side on
 * which it cuts. Radians inside.
 */
import { choice, nonNegative, representable } from '../core/checks.js';
import { refuse } from '../core/errors.js';
import { readSweep, type Sweep } from './sweep.js';
import { readTarget, type SphereTarget } from './target.js';

/** A sphere being cut: by the part that is wanted, or by the sweep that is set. */
export type SphereCut =
  | {
      /** The part that is wanted; the sweep is the one that covers just this part. */
      readonly target: SphereTarget;
      /** Radius of the tool's nose. Default 0. */
      readonly noseRadius?: number;
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
}

/** The keys of a cut, for the option lists of functions that take one. */
export const CUT_KEYS = ['target', 'noseRadius', 'sweep', 'side'] as const;

/** Reads a cut from options whose keys have been checked. */
export function readCut(given: Readonly<Record<string, unknown>>, parameter: string): ReadCut {
  const { target, sweep } = given;
  if ((target === undefined) === (sweep === undefined)) {
    const code = target === undefined ? 'missing-option' : 'contradiction';
    return refuse(code, parameter, Object.keys(given), 'must give either target or sweep');
  }
  if (target !== undefined) {
    if (given['side'] !== undefined) {
      return refuse('contradiction', `${parameter}.side`, given['side'], 'must be left out: the target says it');
    }
    const { side, radius, middle, half } = readTarget(target as SphereTarget);
    const noseRadius = nonNegative(given['noseRadius'] ?? 0, `${parameter}.noseRadius`);
    fits(side, radius, noseRadius, `${parameter}.noseRadius`);
    return { side, radius, noseRadius, tilt: middle.rad, half: half.rad };
  }
  if (given['noseRadius'] !== undefined) {
    return refuse('contradiction', `${parameter}.noseRadius`, given['noseRadius'], 'must be given within the sweep');
  }
  const side = choice(given['side'], `${parameter}.side`, ['ball', 'socket']);
  const read = readSweep(sweep as Sweep, `${parameter}.sweep`);
  if (read.skew !== 0) {
    return refuse('out-of-range', `${parameter}.sweep.skew`, read.skew, 'must be 0: with skew no sphere is cut');
  }
  const noseCentres = representable(Math.hypot(read.radius, read.distance), `${parameter}.sweep`);
  const radius = side === 'ball' ? noseCentres - read.noseRadius : noseCentres + read.noseRadius;
  if (radius <= 0) {
    return refuse(
      'impossible-geometry',
      `${parameter}.sweep.noseRadius`,
      read.noseRadius,
      'must leave a ball standing',
    );
  }
  return {
    side,
    radius,
    noseRadius: read.noseRadius,
    tilt: read.tilt,
    half: Math.atan2(read.radius, read.distance),
  };
}

/** Refuses a nose that does not fit into a socket. */
export function fits(side: 'ball' | 'socket', radius: number, noseRadius: number, parameter: string): void {
  if (side === 'socket' && noseRadius >= radius) {
    refuse('out-of-range', parameter, noseRadius, `must be less than the socket's radius, ${radius}`);
  }
}
