/**
 * What to change on a swivelling tool after measuring a ball. A micrometer whose line makes the angle θ with the work
 * axis shows 2 (s + e sin θ), square to it 2 (s + e): s the swivel radius, e the swivel's centre off the work axis.
 */
import { refuse } from '../../core/errors.js';
import { defaulted, type Fields, number, positive, read, sound } from '../../core/read.js';
import { sinDeg } from '../../core/trigonometry.js';

/** What was measured on a ball, and what was wanted. */
export interface SwivelCorrectionOptions {
  /** Radius wanted. */
  readonly radius: number;
  /** Diameter measured square to the work axis, at the widest place. */
  readonly diameterAcross: number;
  /** Diameter measured with a micrometer leaning towards the work axis. */
  readonly diameterLeaning: number;
  /** Angle between the micrometer's line and the work axis, 10 to 80 degrees. @defaultValue 45 */
  readonly leanDeg?: number;
}

/** What to change on a swivelling tool. */
export interface SwivelCorrection {
  /** Swivel's centre found off the work axis, positive to the tool's side. */
  readonly centreOffset: number;
  /** Swivel radius found. */
  readonly swivelRadius: number;
  /** How far to move the swivel's centre, positive to the tool's side. */
  readonly moveCentre: number;
  /** How much to change the swivel radius. */
  readonly changeRadius: number;
}

const OPTIONS: Fields<SwivelCorrectionOptions, 'leanDeg'> = {
  radius: positive,
  diameterAcross: positive,
  diameterLeaning: positive,
  leanDeg: defaulted(number({ min: 10, max: 80 }), 45),
};

/**
 * What to change after measuring a ball across its widest place and at a lean.
 * @param options - The radius wanted and two diameters. Both places of contact must have been cut.
 * @throws GeneratrixError `impossible-geometry` for diameters that no swivel radius explains.
 * @example
 * ```ts
 * import { swivelCorrection } from 'generatrix/sphere';
 * const found = swivelCorrection({ radius: 25, diameterAcross: 51, diameterLeaning: 50.8, leanDeg: 30 });
 * found.centreOffset.toFixed(6); // => '0.200000'
 * found.changeRadius.toFixed(6); // => '-0.300000'
 * ```
 */
export function swivelCorrection(options: SwivelCorrectionOptions): SwivelCorrection {
  const { radius, diameterAcross, diameterLeaning, leanDeg } = read(options, OPTIONS);
  const centreOffset = (diameterAcross - diameterLeaning) / 2 / (1 - sinDeg(leanDeg));
  const swivelRadius = diameterAcross / 2 - centreOffset;
  if (swivelRadius <= Math.abs(centreOffset)) {
    return refuse('impossible-geometry', 'diameterLeaning', diameterLeaning, 'must be near the diameter across');
  }
  return sound({ centreOffset, swivelRadius, moveCentre: -centreOffset, changeRadius: radius - swivelRadius });
}
