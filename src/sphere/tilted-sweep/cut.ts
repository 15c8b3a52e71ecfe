/**
 * A true cut, as marks, infeed and clearance take it: the part that is wanted, cut by the sweep that covers just
 * this part or by one that is set, or a sweep alone with the side on which it cuts. Its axis meets the work axis.
 * Radians inside.
 */
import { plainArithmetic } from '../../budget/arithmetic.js';
import { refuse } from '../../core/errors.js';
import { type AnyOf, type Fields, nonNegative, optional } from '../../core/read.js';
import { type Sweep, sweepOf, sweepReader, sweptSide } from '../../revolve/sweep.js';
import { noseOnSphere } from '../scallop.js';
import { nosePath, type SphereTarget, sphereTarget, zoneOf } from '../target.js';
import { cutRadius } from './models.js';

/** A sphere being cut: by the part that is wanted, by the sweep that is set, or both. */
export type SphereCut =
  | {
      /** The part that is wanted; the sweep is the one that covers just this part and cuts no stem. */
      readonly target: SphereTarget;
      /** Radius of the tool's nose. @defaultValue 0: a sharp point. */
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

/** A cut as it may be stated; {@link cutOf} says which of its keys belong together. */
export type StatedCut = AnyOf<SphereCut>;

/** Readers of a cut's keys, for the options of functions that take one. */
export const CUT: Fields<StatedCut> = {
  target: optional(sphereTarget),
  noseRadius: optional(nonNegative),
  sweep: optional(sweepReader),
  side: optional(sweptSide),
};

/** A cut whose keys have been read, reduced; refuses keys that do not belong together. */
export function cutOf({ target, noseRadius: nose, sweep, side: stated }: StatedCut): ReadCut {
  if (!target && !sweep) return refuse('missing-option', 'target', undefined, 'must be given, or the sweep, or both');
  if (target && stated !== undefined) {
    return refuse('contradiction', 'side', stated, 'must be left out: the target says it');
  }
  const zone = target && zoneOf(target);
  if (zone && !sweep) {
    const { side, radius, noseRadius } = noseOnSphere(zone.side, zone.radius, nose ?? 0, 'noseRadius');
    const { middle, half } = nosePath(zone, noseRadius);
    return { side, radius, noseRadius, tilt: middle.rad, half: half.rad, said: 'target' };
  }
  if (nose !== undefined) return refuse('contradiction', 'noseRadius', nose, 'must be given within the sweep');
  const side = zone
    ? zone.side
    : (stated ?? refuse('missing-option', 'side', undefined, 'must be given, or the target'));
  const { noseRadius, tilt, skew, radius: r, distance: h } = sweepOf(sweep as Sweep);
  if (skew !== 0) return refuse('out-of-range', 'sweep.skew', skew, 'must be 0: with skew no sphere is cut');
  const radius = cutRadius(plainArithmetic, side, r, h, noseRadius);
  if (radius <= 0) {
    return refuse('impossible-geometry', 'sweep.noseRadius', noseRadius, 'must leave a ball standing');
  }
  return { side, radius, noseRadius, tilt, half: Math.atan2(r, h), said: 'sweep.tiltDeg' };
}
