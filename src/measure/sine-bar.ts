/**
 * Sine bar and sine table: a bar on two rollers whose axes are L apart, one of them raised on gauge
 * blocks of height H, so that sin θ = H / L. Errors of length, stack and rollers follow from the same
 * triangle. Compound tables tilt twice, the upper tilt about an axis that the lower one carries along.
 */
import type { Model } from '../budget/model.js';
import { nonNegative, number, options, positive } from '../core/checks.js';
import { refuse } from '../core/errors.js';
import { asinDeg, atanDeg, cosDeg, sinDeg, tanDeg } from '../core/trigonometry.js';
import { type GaugeBlockOptions, type GaugeBlockStack, gaugeBlockStack } from './gauge-blocks.js';

/** What to set under a sine bar. */
export interface SineBarSettings {
  /** Exact height to set, L sin θ. */
  readonly height: number;
  /** The stack for it, if blocks were named. */
  readonly stack?: GaugeBlockStack;
  /** Angle that the stack really sets, in degrees; the angle asked for if no blocks were named. */
  readonly angleSetDeg: number;
  /** Angle set less angle asked for, in degrees. */
  readonly roundingErrorDeg: number;
  /** Change of angle for a change of height, in degrees per unit of length: 1 / (L cos θ). */
  readonly degPerLength: number;
}

/**
 * Height to put under a sine bar for an angle, and the gauge blocks for it.
 *
 * Above 45° a sine bar loses its sharpness (`degPerLength` grows as 1/cos θ): set the
 * complement from a square then.
 *
 * @param request - Angle in degrees, distance of the roller axes, and optionally the gauge blocks at hand.
 * @returns Height, stack, the angle that the stack sets, and the sensitivity.
 * @throws GeneratrixError for an angle outside 0 < θ < 90° or a length that is not positive.
 * @example
 * ```ts
 * import { sineBarSettings } from 'generatrix';
 * sineBarSettings({ angleDeg: 30, length: 5 }).height; // => 2.5
 * sineBarSettings({ angleDeg: 30, length: 5, blocks: { set: 'inch-81' } }).stack?.blocks; // => ['2', '0.5']
 * ```
 */
export function sineBarSettings(request: {
  readonly angleDeg: number;
  readonly length: number;
  readonly blocks?: GaugeBlockOptions;
}): SineBarSettings {
  options(request, 'request', ['angleDeg', 'length'], ['blocks']);
  const angleDeg = number(request.angleDeg, 'angleDeg', { above: 0, below: 90 });
  const length = positive(request.length, 'length');
  const height = length * sinDeg(angleDeg);
  const degPerLength = 180 / Math.PI / (length * cosDeg(angleDeg));
  if (request.blocks === undefined) return { height, angleSetDeg: angleDeg, roundingErrorDeg: 0, degPerLength };
  const stack = gaugeBlockStack({ height: height.toFixed(9), ...request.blocks });
  const angleSetDeg = sineBarAngle({ height: Number(stack.sum), length });
  return { height, stack, angleSetDeg, roundingErrorDeg: angleSetDeg - angleDeg, degPerLength };
}

/**
 * Angle of a sine bar over a stack.
 *
 * @param request - Height of the stack and distance of the roller axes, in the same unit; and, for what a
 * worn or wrongly made bar really does: `rollerDifference`, diameter of the raised roller less that of the
 * other (both seat against steps of the bar, so the difference counts once at the plate and once at the bar).
 * @returns The angle in degrees.
 * @throws GeneratrixError `impossible-geometry` for a stack as high as the bar is long, or higher.
 * @example
 * ```ts
 * import { sineBarAngle } from 'generatrix';
 * sineBarAngle({ height: 2.5, length: 5 }); // => 30
 * ```
 */
export function sineBarAngle(request: {
  readonly height: number;
  readonly length: number;
  readonly rollerDifference?: number;
}): number {
  options(request, 'request', ['height', 'length'], ['rollerDifference']);
  const height = nonNegative(request.height, 'height');
  const length = positive(request.length, 'length');
  const half = number(request.rollerDifference ?? 0, 'rollerDifference') / 2;
  if (Math.abs(height + half) >= length || Math.abs(half) >= length) {
    return refuse(
      'impossible-geometry',
      'height',
      height,
      `must be less than the distance of the roller axes, ${length}`,
    );
  }
  return asinDeg((height + half) / length) + asinDeg(half / length) + 0;
}

/** Angle of a sine bar, in degrees, from stack, roller distance, roller difference and the bar's own face error. */
export const sineBarModel: Model<'height' | 'length' | 'rollerDifference' | 'faceErrorDeg'> = {
  name: 'sine-bar',
  result: { kind: 'angleDeg', meaning: 'angle set by the sine bar' },
  inputs: {
    height: { kind: 'length', meaning: 'height of the stack' },
    length: { kind: 'length', meaning: 'distance of the roller axes' },
    rollerDifference: { kind: 'length', meaning: 'diameter of the raised roller less that of the other' },
    faceErrorDeg: { kind: 'angleDeg', meaning: 'working face out of parallel with the rollers' },
  },
  evaluate: (a, { height, length, rollerDifference, faceErrorDeg }) => {
    const half = a.multiply(rollerDifference, a.constant(0.5));
    const angle = a.add(a.asinDeg(a.divide(a.add(height, half), length)), a.asinDeg(a.divide(half, length)));
    return a.add(angle, faceErrorDeg);
  },
};

/** What to set on a compound sine table. */
export interface CompoundSineSettings {
  /** Tilt of the lower plate, in degrees: the angle seen in the front view. */
  readonly lowerAngleDeg: number;
  /** Tilt of the upper plate about its own hinge, in degrees. */
  readonly upperAngleDeg: number;
  /** Height under the lower plate. */
  readonly lowerHeight: number;
  /** Height under the upper plate. */
  readonly upperHeight: number;
  /** Angle between the table's face and the base, in degrees. */
  readonly tiltDeg: number;
}

/**
 * Settings of a compound sine table, two plates hinged square to each other, for a face that shows the
 * wanted angles in front and side view. The lower plate takes the front angle a as it is; the upper
 * one, carried along, needs tan b cos a.
 *
 * @param request - Angles in the two views (sections by the two vertical planes through the hinges), and
 * the roller distance of each plate.
 * @returns Tilts and heights of both plates.
 * @throws GeneratrixError for an angle outside 0 ≤ angle < 90° or a length that is not positive.
 * @example
 * ```ts
 * import { compoundSineSettings } from 'generatrix';
 * const { upperAngleDeg } = compoundSineSettings({ frontAngleDeg: 0, sideAngleDeg: 30, lowerLength: 5, upperLength: 5 });
 * Math.round(upperAngleDeg * 1e9) / 1e9; // => 30
 * ```
 */
export function compoundSineSettings(request: {
  readonly frontAngleDeg: number;
  readonly sideAngleDeg: number;
  readonly lowerLength: number;
  readonly upperLength: number;
}): CompoundSineSettings {
  options(request, 'request', ['frontAngleDeg', 'sideAngleDeg', 'lowerLength', 'upperLength']);
  const lowerAngleDeg = number(request.frontAngleDeg, 'frontAngleDeg', { min: 0, below: 90 });
  const sideAngleDeg = number(request.sideAngleDeg, 'sideAngleDeg', { min: 0, below: 90 });
  const upperAngleDeg = atanDeg(tanDeg(sideAngleDeg) * cosDeg(lowerAngleDeg));
  const tan = Math.sqrt(tanDeg(lowerAngleDeg) ** 2 + tanDeg(sideAngleDeg) ** 2);
  return {
    lowerAngleDeg,
    upperAngleDeg,
    lowerHeight: positive(request.lowerLength, 'lowerLength') * sinDeg(lowerAngleDeg),
    upperHeight: positive(request.upperLength, 'upperLength') * sinDeg(upperAngleDeg),
    tiltDeg: atanDeg(tan),
  };
}
