/**
 * Sine bar: a bar on two rollers whose axes are L apart, one of them raised on gauge blocks of height H, so that
 * sin θ = H / L. Errors of length, stack and rollers follow from the same triangle. Lengths in any one unit, angles
 * in degrees. Source: elementary geometry.
 */
import { type Algebra, type Arithmetic, frozen, type Model, plainAlgebra, scaled } from '../budget/model.js';
import { refuse } from '../core/errors.js';
import { anyNumber, defaulted, type Fields, nonNegative, positive, read, sound } from '../core/read.js';
import { asinDeg } from '../core/trigonometry.js';

/** A sine bar over a stack. */
export interface SineBarAngleOptions {
  /** Height of the stack. */
  readonly height: number;
  /** Distance of the roller axes. */
  readonly length: number;
  /**
   * Diameter of the raised roller less that of the other, for what a worn or wrongly made bar really does: both seat
   * against steps of the bar, so the difference counts once at the plate and once at the bar.
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
  return sound(angleOf(BY_NUMBERS, given), 'height');
}

/** All that the formula needs, so that the function carries no more. */
type SineArithmetic<T> = Algebra<T> & Pick<Arithmetic<T>, 'asinDeg'>;
const BY_NUMBERS: SineArithmetic<number> = { ...plainAlgebra, asinDeg };

function angleOf<T>(a: SineArithmetic<T>, x: Readonly<Record<'height' | 'length' | 'rollerDifference', T>>): T {
  const half = scaled(a, 0.5, x.rollerDifference);
  return a.add(a.asinDeg(a.divide(a.add(x.height, half), x.length)), a.asinDeg(a.divide(half, x.length)));
}

/** Angle of a sine bar, in degrees, from stack, roller distance, roller difference and the bar's own face error. */
export const sineBarModel: Model<'height' | 'length', 'rollerDifference' | 'faceErrorDeg'> = /* @__PURE__ */ frozen({
  name: 'sine-bar',
  result: { kind: 'angleDeg', meaning: 'angle set by the sine bar' },
  inputs: {
    height: { kind: 'length', meaning: 'height of the stack' },
    length: { kind: 'length', meaning: 'distance of the roller axes' },
    rollerDifference: {
      kind: 'length',
      meaning: 'diameter of the raised roller less that of the other',
      isError: true,
    },
    faceErrorDeg: { kind: 'angleDeg', meaning: 'working face out of parallel with the rollers', isError: true },
  },
  evaluate: (a, x) => a.add(angleOf(a, x), x.faceErrorDeg),
});
