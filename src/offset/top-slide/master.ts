/**
 * Setting a top slide by a master, a taper plug or a true cylinder held in the spindle: an indicator
 * carried by the slide runs along the master, its plunger square across the axis at centre height.
 */
import { refuse } from '../../core/errors.js';
import { anyNumber, type Fields, optional, positive, type Reader, read, representable } from '../../core/read.js';
import { asinDeg, atanDeg, cosDeg } from '../../core/trigonometry.js';
import { slopeOf, type Taper, taper } from '../../taper/taper.js';
import { type Draft, type TaperCut, taperCut } from '../taper-cut.js';

/** What {@link topSlideFromMaster} needs. */
export interface TopSlideMasterOptions {
  /** The taper of the master, or `cylinder`. */
  readonly master: Taper | 'cylinder';
  /** The taper wanted; must be given where the master is a cylinder. @defaultValue the master's own */
  readonly taper?: Taper;
  /** Travel of the slide, along itself, over which the indicator is watched. */
  readonly travel: number;
  /** Axial length of the taper that will be cut. */
  readonly length: number;
  /** How far the difference of its end diameters may be off, either way. */
  readonly differenceTolerance: number;
  /** What the indicator did show, if the slide was tried. @defaultValue none: only what it must show is given */
  readonly shown?: number;
}

const master: Reader<Taper | 'cylinder'> = {
  allowed: { ...taper.allowed, phrase: `${taper.allowed.phrase}, or cylinder` },
  read: (value, reading) => (value === 'cylinder' ? value : taper.read(value, reading)),
};

const OPTIONS: Fields<TopSlideMasterOptions> = {
  master,
  taper: optional(taper),
  travel: positive,
  length: positive,
  differenceTolerance: positive,
  shown: optional(anyNumber),
};

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
    readonly differenceError: number;
    /** How much the slide must be turned: positive for a steeper taper. */
    readonly changeDeg: number;
    /** Whether the error lies within the tolerance. */
    readonly withinTolerance: boolean;
  };
}

/** A slope of which a cylinder has one too. */
interface Lie {
  readonly tan: number;
  readonly cos: number;
  readonly halfAngleDeg: number;
}

/**
 * How far an indicator may move along a master taper for a wanted tolerance, when the slide that
 * carries it is set by that master; and how the slide stands, once it was tried.
 *
 * Over a travel t of a slide at α the radius under the plunger changes by t cos α (tan α - tan α_m),
 * α_m being the master's half angle; along a true cylinder that is t sin α.
 * @param options - The master, the taper wanted if it is another, travel, length and tolerance. Lengths in one unit.
 * @throws GeneratrixError `impossible-geometry` if no slide could make the indicator move as far as it did.
 * @example
 * ```ts
 * import { topSlideFromMaster } from 'generatrix';
 * const set = topSlideFromMaster({ master: { oneIn: 20 }, travel: 60, length: 80, differenceTolerance: 0.01 });
 * set.needle; // => 0
 * set.needleTo.toFixed(5); // => '0.00375'
 * ```
 */
export function topSlideFromMaster(options: TopSlideMasterOptions): TopSlideMaster {
  const given = read(options, OPTIONS);
  const { travel, length, differenceTolerance: tolerance, shown } = given;
  const cylinder = given.master === 'cylinder';
  if (cylinder && given.taper === undefined) {
    return refuse('missing-option', 'taper', undefined, 'must be given where the master is a cylinder');
  }
  const along: Lie = given.master === 'cylinder' ? { tan: 0, cos: 1, halfAngleDeg: 0 } : slopeOf(given.master);
  const wanted: Lie = given.taper === undefined ? along : slopeOf(given.taper);
  // Deviations are taken from the difference of wanted and master, which is exactly 0 where they are one.
  const needle = (deviation: number): number => {
    const tan = wanted.tan + deviation;
    return representable((travel * (wanted.tan - along.tan + deviation)) / Math.sqrt(1 + tan * tan), 'travel');
  };
  const deviation = representable(tolerance / 2 / length, 'differenceTolerance');
  const result: Draft<TopSlideMaster> = {
    needle: needle(0),
    needleFrom: needle(-deviation),
    needleTo: needle(deviation),
    angleFromDeg: atanDeg(wanted.tan - deviation),
    angleToDeg: atanDeg(wanted.tan + deviation),
  };
  if (shown === undefined) return result;
  if (Math.abs(shown) >= travel) {
    return refuse('impossible-geometry', 'shown', shown, `must be less than the travel, ${travel}, either way`);
  }
  // n = t sin(α - α_m)/cos α_m, solved for α; tan α - tan α_m = n / (t cos α)
  const angleDeg = along.halfAngleDeg + asinDeg((shown / travel) * along.cos);
  const cuts = taperCut(representable(along.tan + shown / travel / cosDeg(angleDeg), 'shown'), wanted.tan);
  const differenceError = representable(cuts.rateError * length, 'length');
  const changeDeg = wanted.halfAngleDeg - angleDeg;
  result.found = { cuts, differenceError, changeDeg, withinTolerance: Math.abs(differenceError) <= tolerance };
  return result;
}
