/**
 * After trial cuts between centres or between balls: what the dial's zero is really worth, how long
 * the work really acts, what to set next, and how far the tool must follow. sin α = (S + S₀)/L.
 */
import { type Dial, type DialSetting, dial, NO_DIAL, perMovement, readingChange, setOnDial } from '../../core/dial.js';
import { refuse } from '../../core/errors.js';
import {
  anyNumber,
  array,
  defaulted,
  type Fields,
  type Filled,
  nonNegative,
  object,
  optional,
  positive,
  read,
  representable,
} from '../../core/read.js';
import { slopeOf, type Taper, taper } from '../../taper/taper.js';
import { MEASURED, type MeasuringUncertainty, statedUncertainty, UNCERTAINTY } from '../measured.js';
import { type Draft, settingNotes, type TaperCut, taperCut } from '../taper-cut.js';
import type { OffsetNote } from '../words.js';
import { place, radiusChange, type TouchOffPlace } from './touch-off.js';
import { fitTrials, offsetFor, type TrialFit } from './trial-fit.js';
import { fitNotes, type SetoverTrial, trialNotes, trialPoints } from './trials.js';

/** What a correction takes beside the distance of the pivots. */
export interface SetoverTrialOptions extends MeasuringUncertainty {
  /** The taper wanted. */
  readonly taper: Taper;
  /** The trials, in the order they were cut: the last one is how the machine stands now. */
  readonly trials: readonly SetoverTrial[];
  /** The dial that was read. @defaultValue on the radius, without step or range */
  readonly dial?: Dial;
  /** Standard uncertainty of the centre distance given. @defaultValue 0 */
  readonly centreDistanceStandardUncertainty?: number;
  /**
   * Standard uncertainty with which a reading can be set, as the dial reads; needs `diameterStandardUncertainty` too.
   * @defaultValue 0
   */
  readonly readingStandardUncertainty?: number;
  /** Where the tool will be touched off again. @defaultValue none: no move of the tool is given */
  readonly touchOffPlace?: TouchOffPlace;
}

/** What {@link setoverCorrection} needs. */
export interface SetoverCorrectionOptions extends SetoverTrialOptions {
  /** Distance of the pivots along the work. @defaultValue fitted from trials at two or more different settings */
  readonly centreDistance?: number;
}

/** Readers of {@link SetoverTrialOptions}. */
export const TRIALS: Fields<SetoverTrialOptions, 'dial' | 'readingStandardUncertainty'> = {
  taper,
  trials: array(object<SetoverTrial>({ reading: anyNumber, ...MEASURED }), 1),
  dial: defaulted(dial, NO_DIAL),
  centreDistanceStandardUncertainty: optional(nonNegative),
  readingStandardUncertainty: defaulted(nonNegative, 0),
  touchOffPlace: optional(place),
  ...UNCERTAINTY,
};

const OPTIONS: Fields<SetoverCorrectionOptions, 'dial' | 'readingStandardUncertainty'> = {
  ...TRIALS,
  centreDistance: optional(positive),
};

/** Standard uncertainties of a correction (JCGM 100), to first order. */
export interface SetoverStandardUncertainty {
  /** `stated`: from the uncertainties given; `residuals`: from how far the trials miss the fit. */
  readonly basis: 'stated' | 'residuals';
  /** With `residuals`: the degrees of freedom, so that Student's t can widen the interval. */
  readonly degreesOfFreedom?: number;
  /** Of the zero error. */
  readonly zeroError: number;
  /** Of the centre distance. */
  readonly centreDistance: number;
  /** Of the new reading as computed; setting it on the dial comes on top. */
  readonly reading: number;
  /** Of the tool's move at the place where it is touched off. */
  readonly toolMove?: number;
}

/** What to change after trial cuts. */
export interface SetoverCorrection extends DialSetting {
  /** New reading minus the last trial's: how far to turn, to the nearest graduation. */
  readonly readingChange: number;
  /** True set-over minus the one that the dial shows, on the radius. */
  readonly zeroError: number;
  /** Distance of the pivots: the one given, or the one fitted. */
  readonly centreDistance: number;
  /** What the nearest graduation will cut, by the fit. */
  readonly cuts: TaperCut;
  /**
   * How much the radius that the tool would cut at the place grows when the work is set over anew: the
   * tool has to be moved this much towards the work to touch it again, away from it if negative.
   */
  readonly toolMove?: number;
  /** Standard uncertainties; left out if none is stated and the trials are too few to tell. */
  readonly standardUncertainty?: SetoverStandardUncertainty;
  /** Trials that disagree or look mistyped, readings beyond the trials, a graduation that is not exact. */
  readonly notes: readonly OffsetNote[];
}

/**
 * The change to make after one or several trial cuts between centres, or between a headstock ball and
 * one on a boring head in the tailstock.
 *
 * With the centre distance L known, the trials give the zero error of the dial; without it, trials at
 * two or more different readings give the zero error and the effective length, by least squares
 * weighted by how well each trial's sine is known. Source: sin α = (S + S₀)/L, linear in 1/L and S₀/L;
 * uncertainties by JCGM 100, 5.1.
 * @param options - The taper wanted, the trials, and what is known of the machine. Lengths in one unit.
 * @throws GeneratrixError `missing-option` if neither the length nor two different readings are given,
 * `impossible-geometry` if the measured taper does not grow with the reading, `beyond-machine` if the dial
 * cannot reach the new reading.
 * @example
 * ```ts
 * import { setoverCorrection } from 'generatrix';
 * const { reading, zeroError } = setoverCorrection({
 *   taper: { oneIn: 20 },
 *   centreDistance: 200,
 *   trials: [{ reading: 5, largeDiameter: 30, smallDiameter: 24.9, length: 100 }],
 *   dial: { reads: 'radius', step: 0.05 },
 * });
 * reading.toFixed(4); // => '4.9001'
 * zeroError.toFixed(4); // => '0.0983'
 * ```
 */
export function setoverCorrection(options: SetoverCorrectionOptions): SetoverCorrection {
  const given = read(options, OPTIONS);
  return correctSetOver(given, given.centreDistance);
}

/** As {@link setoverCorrection}, for pivots at a distance. */
export function correctSetOver(
  given: Filled<SetoverTrialOptions, 'dial' | 'readingStandardUncertainty'>,
  centreDistance: number | undefined,
): SetoverCorrection {
  const { dial, trials, touchOffPlace } = given;
  const target = slopeOf(given.taper);
  const perReading = 1 / perMovement(dial.reads);
  const settingUncertainty = perReading * given.readingStandardUncertainty;
  const stated = statedUncertainty(given, settingUncertainty > 0 ? 'readingStandardUncertainty' : undefined);
  const points = trialPoints(trials, perReading, stated);
  const known = knownLength(centreDistance, given.centreDistanceStandardUncertainty, points);
  const basis = stated ? 'stated' : 'residuals';
  const fit = fitTrials(points, { known, offsetUncertainty: settingUncertainty, basis });
  if (!(fit.length > 0 && Number.isFinite(fit.length))) {
    return refuse('impossible-geometry', 'trials', points.length, 'must show a taper that grows with the reading');
  }
  const last = points.at(-1)?.offset ?? 0;
  const wanted = offsetFor(fit, target.sin);
  const zero = offsetFor(fit, 0);
  const set = setOnDial(representable(wanted.offset, 'trials'), dial, 'dial');
  const next = sineAt(fit, set.settableValue);
  const cuts = taperCut(next / Math.sqrt((1 - next) * (1 + next)), target.tan);
  const correction: Draft<SetoverCorrection> = {
    ...set,
    readingChange: readingChange(last / perReading, set.settableReading),
    zeroError: representable(0 - zero.offset, 'trials'),
    centreDistance: fit.length,
    cuts,
    notes: [
      ...(known ? trialNotes(points, known.length) : []),
      ...settingNotes(set.reading, set.settableReading, cuts),
      ...fitNotes(set.settableValue, fit, points, basis),
    ],
  };
  if (touchOffPlace) {
    correction.toolMove = representable(radiusChange(touchOffPlace, sineAt(fit, last), next), 'touchOffPlace');
  }
  if (wanted.variance === undefined || zero.variance === undefined) return correction;
  const lengthUncertainty = Math.sqrt(fit.lengthVariance ?? 0);
  const uncertainty: Draft<SetoverStandardUncertainty> = {
    basis,
    zeroError: representable(Math.sqrt(zero.variance), 'trials'),
    centreDistance: representable(lengthUncertainty, 'trials'),
    reading: representable(Math.sqrt(wanted.variance) / perReading, 'trials'),
  };
  if (!stated) uncertainty.degreesOfFreedom = fit.redundancy;
  if (touchOffPlace) {
    // Both settings are off by as much as the dial can be set; the length scales what lies between them.
    const scaled = ((set.settableValue - last) / fit.length) * lengthUncertainty;
    const turned = Math.hypot(settingUncertainty * Math.SQRT2, scaled) / fit.length;
    const moved = (touchOffPlace.fromPivot * turned) / Math.sqrt((1 - next) * (1 + next));
    uncertainty.toolMove = representable(moved, 'touchOffPlace');
  }
  correction.standardUncertainty = uncertainty;
  return correction;
}

/** The distance of the pivots if it is known; the trials must tell it otherwise. */
function knownLength(
  centreDistance: number | undefined,
  standardUncertainty: number | undefined,
  points: readonly { readonly offset: number }[],
): { readonly length: number; readonly uncertainty: number } | undefined {
  if (centreDistance !== undefined) return { length: centreDistance, uncertainty: standardUncertainty ?? 0 };
  if (standardUncertainty !== undefined || points.every(({ offset }) => offset === points[0]?.offset)) {
    const phrase = 'must be given with its uncertainty, or if the trials do not hold two different readings';
    return refuse('missing-option', 'centreDistance', undefined, phrase);
  }
  return undefined;
}

/** Sine of the angle that the fit gives for an offset of the dial. */
function sineAt(fit: TrialFit, offset: number): number {
  const sine = fit.meanSine + (offset - fit.meanOffset) / fit.length;
  return Math.abs(sine) < 1
    ? sine
    : refuse('impossible-geometry', 'trials', sine, 'must give a set-over less than the centre distance');
}
