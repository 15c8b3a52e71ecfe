/**
 * What a good plug measures over rollers: `rollers.ts` the other way round. With cot(c/2) = (1 + sin α)/cos α on the
 * small end and cos α/(1 + sin α) on the large end. Lengths in any one unit.
 */
import { refuse } from '../core/errors.js';
import { defaulted, type Fields, nonNegative, positive, read, sound } from '../core/read.js';
import { slopeOf, type Taper, taper } from '../taper/taper.js';
import { type PlugEnd, standsOn } from './rollers.js';

/** A good plug between rollers. */
export interface PlugOverRollersOptions {
  /** Taper of the plug, stated in any way. */
  readonly taper: Taper;
  /** Diameter of the end that stands on the plate. */
  readonly endDiameter: number;
  /** Diameter of the two equal rollers. */
  readonly rollerDiameter: number;
  /** Height of the blocks under the rollers. @defaultValue 0 */
  readonly blockHeight?: number;
  /** Which end of the plug stands on the plate. */
  readonly standsOn: PlugEnd;
}

const OVER: Fields<PlugOverRollersOptions, 'blockHeight'> = {
  taper,
  endDiameter: positive,
  rollerDiameter: positive,
  blockHeight: defaulted(nonNegative, 0),
  standsOn,
};

/**
 * What a good plug measures over rollers.
 * @returns M, the distance over both rollers.
 * @throws GeneratrixError `impossible-geometry` if the rollers would touch above the plug's point.
 * @example
 * ```ts
 * import { plugOverRollers } from 'generatrix';
 * const M = plugOverRollers({ taper: { oneIn: 20 }, endDiameter: 0.572, rollerDiameter: 0.25, standsOn: 'small-end' });
 * Math.round(M * 1e6) / 1e6; // => 1.078328
 * ```
 */
export function plugOverRollers(options: PlugOverRollersOptions): number {
  const { taper, endDiameter, rollerDiameter, blockHeight, standsOn } = read(options, OVER);
  const { tan, sin, cos } = slopeOf(taper);
  const onSmallEnd = standsOn === 'small-end';
  const atBlocks = endDiameter + 2 * (onSmallEnd ? tan : -tan) * blockHeight;
  if (atBlocks <= 0) {
    const phrase = `must leave the rollers beside the plug, below ${endDiameter / 2 / tan}`;
    return refuse('impossible-geometry', 'blockHeight', blockHeight, phrase);
  }
  const cot = onSmallEnd ? (1 + sin) / cos : cos / (1 + sin);
  return sound(atBlocks + rollerDiameter * (1 + cot), 'rollerDiameter');
}
