/**
 * Setting a top slide by a master, a taper plug or a true cylinder held in the spindle: an indicator
 * carried by the slide runs along the master, its plunger square across the axis at centre height.
 */
import { number, options, positive, representable } from '../core/checks.js';
import { refuse } from '../core/errors.js';
import { asinDeg, atanDeg, cosDeg } from '../core/trigonometry.js';
import { readTaper, type Taper } from '../taper/taper.js';
import { type TaperCut, taperCut } from './cuts.js';

/** What {@link topSlideFromMaster} needs. */
export interface TopSlideMasterOptions {
  /** The taper of the master, or `cylinder`. */
  readonly master: Taper | 'cylinder';
  /** The taper wanted; the master's own if left out. */
  readonly taper?: Taper;
  /** Travel of the slide, along itself, over which the indicator is watched. */
  readonly travel: number;
  /** Axial length of the taper that will be cut. */
  readonly length: number;
  /** How far the difference of its end diameters may be off, either way. */
  readonly diameterTolerance: number;
  /** What the indicator did show, if the slide was tried. */
  readonly shown?: number;
}

/** What the indicator must show along the master. Positive: away from the axis as the diameter grows. */
export interface TopSlideMaster {
  /** What it shows when the slide is set right: 0 along a master of the wanted taper. */
  readonly needle: number;
  /** Least movement that keeps within the tolerance. */
  readonly needleFrom: number;
  /** Largest movement that keeps within the tolerance. */
  readonly needleTo: number;
  /** Half angle at the least movement, in degrees. */
  readonly angleFromDeg: number;
  /** Half angle at the largest movement, in degrees. */
  readonly angleToDeg: number;
  /** How the slide stands, from what the indicator did show. */
  readonly found?: {
    /** Half angle to which the slide is set, and what it would cut. */
    readonly cuts: TaperCut;
    /** Error of the difference of the end diameters over the length. */
    readonly diameterError: number;
    /** How much the slide must be turned: positive for a steeper taper. */
    readonly changeDeg: number;
    /** Whether the error lies within the tolerance. */
    readonly withinTolerance: boolean;
  };
}

/**
 * How far an indicator may move along a master taper for a wanted tolerance, when the slide that
 * carries it is set by that master; and how the slide stands, once it was tried.
 *
 * Over a travel t of a slide at α the radius under the plunger changes by t cos α (tan α - tan α_m),
 * α_m being the master's half angle; along a true cylinder that is t sin α.
 *
 * @param set - The master, the taper wanted if it is another, travel, length and tolerance. Lengths in one unit.
 * @throws GeneratrixError `impossible-geometry` if no slide could make the indicator move as far as it did.
 * @example
 * ```ts
 * import { topSlideFromMaster } from 'generatrix';
 * const set = topSlideFromMaster({ master: { oneIn: 20 }, travel: 60, length: 80, diameterTolerance: 0.01 });
 * set.needle; // => 0
 * set.needleTo.toFixed(5); // => '0.00375'
 * ```
 */
export function topSlideFromMaster(set: TopSlideMasterOptions): TopSlideMaster {
  const given = options(set, 'set', ['master', 'travel', 'length', 'diameterTolerance'], ['taper', 'shown']);
  const cylinder = given['master'] === 'cylinder';
  const master = cylinder ? { tan: 0, cos: 1, halfAngleDeg: 0 } : readTaper(given['master'] as Taper, 'master');
  if (cylinder && given['taper'] === undefined) {
    return refuse('missing-option', 'set.taper', undefined, 'must be given where the master is a cylinder');
  }
  const wanted = given['taper'] === undefined ? master : readTaper(given['taper'] as Taper);
  const travel = positive(given['travel'], 'travel');
  const length = positive(given['length'], 'length');
  const tolerance = positive(given['diameterTolerance'], 'diameterTolerance');
  // Deviations are taken from the difference of wanted and master, which is exactly 0 where they are one.
  const needle = (deviation: number): number => {
    const tan = wanted.tan + deviation;
    return representable((travel * (wanted.tan - master.tan + deviation)) / Math.sqrt(1 + tan * tan), 'travel');
  };
  const deviation = representable(tolerance / 2 / length, 'diameterTolerance');
  return {
    needle: needle(0),
    needleFrom: needle(-deviation),
    needleTo: needle(deviation),
    angleFromDeg: atanDeg(wanted.tan - deviation),
    angleToDeg: atanDeg(wanted.tan + deviation),
    ...(given['shown'] !== undefined && { found: found(number(given['shown'], 'shown')) }),
  };

  /** n = t sin(α - α_m)/cos α_m, solved for α. */
  function found(shown: number): NonNullable<TopSlideMaster['found']> {
    if (Math.abs(shown) >= travel) {
      return refuse('impossible-geometry', 'shown', shown, `must be less than the travel, ${travel}, either way`);
    }
    const angleDeg = master.halfAngleDeg + asinDeg((shown / travel) * master.cos);
    // tan α - tan α_m = n / (t cos α)
    const tan = representable(master.tan + shown / travel / cosDeg(angleDeg), 'shown');
    const cuts = taperCut(tan, wanted.tan);
    const diameterError = cuts.rateError * length;
    return {
      cuts,
      diameterError,
      changeDeg: wanted.halfAngleDeg - angleDeg,
      withinTolerance: Math.abs(diameterError) <= tolerance,
    };
  }
}
