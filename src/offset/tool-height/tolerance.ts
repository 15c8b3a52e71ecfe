/** How far off centre height a tool may stand: the inverse of what it cuts there. */
import { refuse } from '../../core/errors.js';
import { type Fields, positive, read, representable } from '../../core/read.js';
import { slopeOf, type Taper, taper } from '../../taper/taper.js';
import { type EitherEnd, SIZED, type SizedEnd, sizedCut } from '../straight-cut.js';

/** The path, and what it may be off. */
export interface ToolHeightAllowance {
  /** The taper that the tool's path is set to. */
  readonly taper: Taper;
  /** Axial length of the taper. */
  readonly length: number;
  /** How far the diameter at the other end may be off because of the tool's height. */
  readonly diameterTolerance: number;
}

/** What {@link toolHeightTolerance} needs. */
export type ToolHeightToleranceOptions = SizedEnd & ToolHeightAllowance;

const OPTIONS: Fields<Pick<EitherEnd, 'length' | keyof SizedEnd> & ToolHeightAllowance> = {
  ...SIZED,
  taper,
  diameterTolerance: positive,
};

/**
 * How far off centre height the tool may stand for a given error of the taper: the inverse of
 * `toolHeightSurface`. An error of the rate of taper counts as that error times the length.
 * @returns The largest height, above or below the axis. If any height at which the tool still cuts
 * to the end stays within the tolerance, it is the largest such height.
 * @throws GeneratrixError `impossible-geometry` if the taper would end beyond the axis.
 * @example
 * ```ts
 * import { toolHeightTolerance } from 'generatrix';
 * const taper = { oneIn: 10 };
 * const height = toolHeightTolerance({ taper, length: 100, largeDiameter: 30, diameterTolerance: 0.01 });
 * height.toFixed(3); // => '0.548'
 * ```
 */
export function toolHeightTolerance(options: ToolHeightToleranceOptions): number {
  const given = read(options, OPTIONS);
  const { end, radius } = sizedCut(given);
  const tolerance = given.diameterTolerance / 2;
  const fall = representable(given.length * slopeOf(given.taper).tan, 'length');
  const other = end === 'largeDiameter' ? radius - fall : radius + fall;
  if (other < 0) {
    return refuse('impossible-geometry', 'length', given.length, 'must not take the tool past the axis of the work');
  }
  // The sized end's x is R - q; the other end's ρ² then changes by 2 q fall, up or down.
  const [most, squares] =
    end === 'largeDiameter'
      ? [other, tolerance * (2 * other + tolerance)]
      : [radius, Math.min(tolerance, other) * (2 * other - Math.min(tolerance, other))];
  const q = Math.min(most, squares / (2 * fall));
  return representable(Math.sqrt(q * (2 * radius - q)), 'diameterTolerance');
}
