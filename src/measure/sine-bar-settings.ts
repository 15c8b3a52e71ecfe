/**
 * What to set under a sine bar for an angle: the height L sin θ, and the gauge blocks that come nearest to it.
 * Lengths in any one unit, angles in degrees.
 */
import { refuse } from '../core/errors.js';
import { type Fields, number, optional, positive, read, sound } from '../core/read.js';
import { cosDeg, sinDeg } from '../core/trigonometry.js';
import { unitsOf } from './gauge-block-sets.js';
import { type GaugeBlockOptions, type GaugeBlockStack, gaugeBlocks, stackOf } from './gauge-blocks.js';
import { sineBarAngle } from './sine-bar.js';

/** An angle to be set with a sine bar. */
export interface SineBarSettingsOptions {
  /** The angle in degrees, between 0 and 90. */
  readonly angleDeg: number;
  /** Distance of the roller axes. */
  readonly length: number;
  /** The gauge blocks at hand, in the unit of the length. @defaultValue no stack is looked for */
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
 * Above 45° a sine bar loses its sharpness (`degPerLength` grows as 1/cos θ): set the complement from a square then.
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
  const angleSetDeg = sineBarAngle({ height: sum, length });
  const roundingErrorDeg = angleSetDeg - angleDeg;
  return sound({ height, stack, angleSetDeg, roundingErrorDeg, degPerLength }, 'length');
}
