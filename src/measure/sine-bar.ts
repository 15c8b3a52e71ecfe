/**
 * Sine bar and sine table: a bar on two rollers whose axes are L apart, one of them raised on gauge
 * blocks of height H, so that sin θ = H / L. Errors of length, stack and rollers follow from the same
 * triangle. Compound tables tilt twice, the upper tilt about an axis that the lower one carries along.
 * Lengths in any one unit, angles in degrees. Source: elementary geometry.
 */
import { plainArithmetic } from '../budget/arithmetic.js';
import type { Arithmetic, Model } from '../budget/model.js';
import { refuse } from '../core/errors.js';
import {
  anyNumber,
  defaulted,
  type Fields,
  nonNegative,
  number,
  optional,
  positive,
  read,
  sound,
} from '../core/read.js';
import { atanDeg, cosDeg, sinDeg, tanDeg } from '../core/trigonometry.js';
import { unitsOf } from './gauge-block-sets.js';
import { type GaugeBlockOptions, type GaugeBlockStack, gaugeBlocks, stackOf } from './gauge-blocks.js';

/** An angle to be set with a sine bar. */
export interface SineBarSettingsOptions {
  /** The angle in degrees, between 0 and 90. */
  readonly angleDeg: number;
  /** Distance of the roller axes. */
  readonly length: number;
  /**
   * The gauge blocks at hand, in the unit of the length.
   *
   * @defaultValue no stack is looked for
   */
  readonly blocks?: GaugeBlockOptions;
}

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

const SETTINGS: Fields<SineBarSettingsOptions> = {
  angleDeg: number({ above: 0, below: 90 }),
  length: positive,
  blocks: optional(gaugeBlocks),
};

/**
 * Height to put under a sine bar for an angle, and the gauge blocks for it.
 *
 * Above 45° a sine bar loses its sharpness (`degPerLength` grows as 1/cos θ): set the
 * complement from a square then.
 *
 * @param options - The angle, the bar, and perhaps the gauge blocks at hand; see {@link SineBarSettingsOptions}.
 * @returns Height, stack, the angle that the stack sets, and the sensitivity.
 * @throws GeneratrixError for an angle outside 0 < θ < 90° or a length that is not positive; `impossible-geometry` if
 * the nearest stack is as high as the bar is long; the codes of `gaugeBlockStack`.
 * @example
 * ```ts
 * import { sineBarSettings } from 'generatrix';
 * sineBarSettings({ angleDeg: 30, length: 5 }).height; // => 2.5
 * sineBarSettings({ angleDeg: 30, length: 5, blocks: { set: 'inch-81' } }).stack?.blocks; // => ['2', '0.5']
 * ```
 */
export function sineBarSettings(options: SineBarSettingsOptions): SineBarSettings {
  const { angleDeg, length, blocks } = read(options, SETTINGS);
  const height = length * sinDeg(angleDeg);
  const degPerLength = 180 / Math.PI / (length * cosDeg(angleDeg));
  if (!blocks) return sound({ height, angleSetDeg: angleDeg, roundingErrorDeg: 0, degPerLength }, 'length');
  if (height >= 1e9) refuse('out-of-range', 'length', length, 'must need a height of less than 1e9 of gauge blocks');
  const stack = stackOf(unitsOf(height.toFixed(9)), blocks, 'blocks.wearBlock', 'blocks.');
  const sum = Number(stack.sum);
  if (sum >= length) {
    refuse('impossible-geometry', 'blocks', stack.sum, `must make a stack lower than the bar is long, ${length}`);
  }
  const angleSetDeg = angleOf(plainArithmetic, { height: sum, length, rollerDifference: 0 });
  const roundingErrorDeg = angleSetDeg - angleDeg;
  return sound({ height, stack, angleSetDeg, roundingErrorDeg, degPerLength }, 'length');
}

/** A sine bar over a stack. */
export interface SineBarAngleOptions {
  /** Height of the stack. */
  readonly height: number;
  /** Distance of the roller axes. */
  readonly length: number;
  /**
   * Diameter of the raised roller less that of the other, for what a worn or wrongly made bar really does: both seat
   * against steps of the bar, so the difference counts once at the plate and once at the bar.
   *
   * @defaultValue 0
   */
  readonly rollerDifference?: number;
}

const ANGLE: Fields<SineBarAngleOptions, 'rollerDifference'> = {
  height: nonNegative,
  length: positive,
  rollerDifference: defaulted(anyNumber, 0),
};

/**
 * Angle of a sine bar over a stack.
 *
 * @param options - The stack and the bar; see {@link SineBarAngleOptions}.
 * @returns The angle in degrees.
 * @throws GeneratrixError `impossible-geometry` for a stack as high as the bar is long, or higher.
 * @example
 * ```ts
 * import { sineBarAngle } from 'generatrix';
 * sineBarAngle({ height: 2.5, length: 5 }); // => 30
 * ```
 */
export function sineBarAngle(options: SineBarAngleOptions): number {
  const given = read(options, ANGLE);
  const { height, length, rollerDifference } = given;
  const half = rollerDifference / 2;
  if (Math.abs(height + half) >= length || Math.abs(half) >= length) {
    const phrase = `must be less than the distance of the roller axes, ${length}`;
    return refuse('impossible-geometry', 'height', height, phrase);
  }
  return sound(angleOf(plainArithmetic, given), 'height');
}

function angleOf<T>(a: Arithmetic<T>, x: Readonly<Record<'height' | 'length' | 'rollerDifference', T>>): T {
  const half = a.multiply(a.constant(0.5), x.rollerDifference);
  return a.add(a.asinDeg(a.divide(a.add(x.height, half), x.length)), a.asinDeg(a.divide(half, x.length)));
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
  evaluate: (a, x) => a.add(angleOf(a, x), x.faceErrorDeg),
};

/** A face to be set on a compound sine table. */
export interface CompoundSineSettingsOptions {
  /** Angle in the front view, in degrees, 0 or more and less than 90: a section by the plane square to the lower hinge. */
  readonly frontAngleDeg: number;
  /** Angle in the side view, in degrees, 0 or more and less than 90. */
  readonly sideAngleDeg: number;
  /** Distance of the roller axes of the lower plate. */
  readonly lowerLength: number;
  /** Distance of the roller axes of the upper plate. */
  readonly upperLength: number;
}

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

const COMPOUND: Fields<CompoundSineSettingsOptions> = {
  frontAngleDeg: number({ min: 0, below: 90 }),
  sideAngleDeg: number({ min: 0, below: 90 }),
  lowerLength: positive,
  upperLength: positive,
};

/**
 * Settings of a compound sine table, two plates hinged square to each other, for a face that shows the
 * wanted angles in front and side view. The lower plate takes the front angle a as it is; the upper
 * one, carried along, needs tan b cos a.
 *
 * @param options - Angles in the two views and the two plates; see {@link CompoundSineSettingsOptions}.
 * @returns Tilts and heights of both plates.
 * @throws GeneratrixError for an angle outside 0 ≤ angle < 90° or a length that is not positive.
 * @example
 * ```ts
 * import { compoundSineSettings } from 'generatrix';
 * const { upperAngleDeg } = compoundSineSettings({ frontAngleDeg: 0, sideAngleDeg: 30, lowerLength: 5, upperLength: 5 });
 * Math.round(upperAngleDeg * 1e9) / 1e9; // => 30
 * ```
 */
export function compoundSineSettings(options: CompoundSineSettingsOptions): CompoundSineSettings {
  const { frontAngleDeg, sideAngleDeg, lowerLength, upperLength } = read(options, COMPOUND);
  const upperAngleDeg = atanDeg(tanDeg(sideAngleDeg) * cosDeg(frontAngleDeg));
  const tan = Math.sqrt(tanDeg(frontAngleDeg) ** 2 + tanDeg(sideAngleDeg) ** 2);
  const settings = {
    lowerAngleDeg: frontAngleDeg,
    upperAngleDeg,
    lowerHeight: lowerLength * sinDeg(frontAngleDeg),
    upperHeight: upperLength * sinDeg(upperAngleDeg),
    tiltDeg: atanDeg(tan),
  };
  return sound(settings, 'lowerLength');
}
