/**
 * After trial cuts between centres or between balls: what the dial's zero is really worth, how long
 * the work really acts, what to set next, and how far the tool must follow. sin α = (S + S₀)/L.
 */
import { choice, list, nonNegative, number, options, positive, representable } from '../core/checks.js';
import { type Dial, type DialSetting, readDial, readingChange, setOnDial } from '../core/dial.js';
import { refuse } from '../core/errors.js';
import type { Note } from '../core/notes.js';
import { readTaper, type Taper } from '../taper/taper.js';
import { dialRounded, type TaperCut, taperCut } from './cuts.js';
import {
  MEASURED,
  type MeasuredTaper,
  type MeasuringUncertainty,
  readMeasured,
  readUncertainty,
  tangentUncertainty,
  UNCERTAINTY,
} from './measured.js';
import { fitTrials, offsetFor, type TrialFit, type TrialPoint } from './trial-fit.js';

/** One trial cut: what the dial read, and what came out. */
export interface SetoverTrial extends MeasuredTaper {
  /** Reading of the dial when the trial was cut. */
  readonly reading: number;
}

/** Where the tool stands on the work when it is touched off again. */
export interface TouchOffPlace {
  /** Distance of the place from the pivot in the headstock, along the work. */
  readonly distance: number;
  /** Diameter of the work there. */
  readonly diameter: number;
  /** Which end of the taper lies towards the headstock; `large` if left out. */
  readonly headstockEnd?: 'large' | 'small';
}

/** What {@link setoverCorrection} needs. */
export interface SetoverCorrectionOptions extends MeasuringUncertainty {
  /** The taper wanted. */
  readonly taper: Taper;
  /** The trials, in the order they were cut: the last one is how the machine stands now. */
  readonly trials: readonly SetoverTrial[];
  /** The dial that was read; on the radius, without step or range, if left out. */
  readonly dial?: Dial;
  /** Distance of the pivots along the work, if it is known; fitted from different settings if not. */
  readonly centreDistance?: number;
  /** Standard uncertainty of the centre distance given. */
  readonly centreDistanceUncertainty?: number;
  /** Standard uncertainty with which a reading can be set, as the dial reads. */
  readonly readingUncertainty?: number;
  /** Where the tool will be touched off again. */
  readonly touchOff?: TouchOffPlace;
}

/** The keys of {@link SetoverCorrectionOptions} that may be left out, beyond the centre distance. */
export const CORRECTION: readonly string[] = [
  'dial',
  'centreDistanceUncertainty',
  'readingUncertainty',
  'touchOff',
  ...UNCERTAINTY,
];

/** Standard uncertainties of a correction, to first order. */
export interface SetoverCorrectionUncertainty {
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
  /** Of the change at the place where the tool is touched off. */
  readonly touchOff?: number;
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
  readonly touchOff?: number;
  /** Standard uncertainties; left out if none is stated and the trials are too few to tell. */
  readonly uncertainty?: SetoverCorrectionUncertainty;
  /** Trials that disagree, readings beyond the trials, a graduation that is not exact. */
  readonly notes: readonly Note[];
}

/**
 * The change to make after one or several trial cuts between centres, or between a headstock ball and
 * one on a boring head in the tailstock.
 *
 * With the centre distance L known, the trials give the zero error of the dial; without it, trials at
 * two or more different readings give the zero error and the effective length, by least squares
 * weighted by how well each trial's sine is known. Source: sin α = (S + S₀)/L, linear in 1/L and S₀/L;
 * uncertainties by JCGM 100, 5.1.
 *
 * @param correction - The taper wanted, the trials, and what is known of the machine. Lengths in one unit.
 * @returns The new reading, what it will cut, zero error and length, and their standard uncertainties.
 * @throws GeneratrixError `missing-option` if neither the length nor two different readings are given,
 * `impossible-geometry` if the measured taper does not grow with the reading, `beyond-machine` if the dial
 * cannot reach the new reading.
 * @example
 * ```ts
 * import { setoverCorrection } from 'generatrix';
 * const { reading, zeroError } = setoverCorrection({
 *   taper: { oneIn: 20 },
 *   centreDistance: 200,
 *   trials: [{ reading: 5, largeDiameter: 30, smallDiameter: 24.9, distance: 100 }],
 *   dial: { reads: 'radius', step: 0.05 },
 * });
 * reading.toFixed(4); // => '4.9001'
 * zeroError.toFixed(4); // => '0.0983'
 * ```
 */
export function setoverCorrection(correction: SetoverCorrectionOptions): SetoverCorrection {
  const given = options(correction, 'correction', ['taper', 'trials'], ['centreDistance', ...CORRECTION]);
  const target = readTaper(given['taper'] as Taper);
  const dial = given['dial'] === undefined ? ({ reads: 'radius' } as const) : readDial(given['dial'], 'dial');
  const perReading = dial.reads === 'diameter' ? 0.5 : 1;
  const stated = readUncertainty(given);
  const setting = perReading * nonNegative(given['readingUncertainty'] ?? 0, 'readingUncertainty');
  if (setting > 0 && !stated) {
    return refuse('missing-option', 'diameterUncertainty', undefined, 'must be given with readingUncertainty');
  }
  const points = readTrials(given['trials'], perReading, stated);
  const fit = fitTrials(points, {
    known: readLength(given, points),
    offsetUncertainty: setting,
    basis: stated ? 'stated' : 'residuals',
  });
  if (!(fit.length > 0 && Number.isFinite(fit.length))) {
    return refuse('impossible-geometry', 'trials', points.length, 'must show a taper that grows with the reading');
  }
  const last = (points.at(-1) as TrialPoint).offset;
  const wanted = offsetFor(fit, target.sin);
  const zero = offsetFor(fit, 0);
  const set = setOnDial(representable(wanted.offset, 'trials'), dial, 'dial');
  const sineAt = (offset: number): number => sine(fit.meanSine + (offset - fit.meanOffset) / fit.length);
  const next = sineAt(set.settableValue);
  const place = given['touchOff'] === undefined ? undefined : readPlace(given['touchOff']);
  const touchOff = place && representable(radiusChange(place, sineAt(last), next), 'touchOff');
  const cuts = taperCut(next / Math.sqrt((1 - next) * (1 + next)), target.tan);
  return {
    ...set,
    readingChange: readingChange(last / perReading, set.settableReading),
    zeroError: representable(0 - zero.offset, 'trials'),
    centreDistance: fit.length,
    cuts,
    ...(touchOff === undefined ? {} : { touchOff }),
    ...uncertainties(),
    notes: [
      ...dialRounded(set.reading, set.settableReading, cuts.rateError),
      ...remarks(set.settableValue, fit, points, stated !== undefined),
    ],
  };

  function uncertainties(): { readonly uncertainty?: SetoverCorrectionUncertainty } {
    if (wanted.variance === undefined || zero.variance === undefined) return {};
    const length = Math.sqrt(fit.lengthVariance as number);
    // Both settings are off by as much as the dial can be set; the length scales what lies between them.
    const turned = Math.hypot(setting * Math.SQRT2, ((set.settableValue - last) / fit.length) * length) / fit.length;
    return {
      uncertainty: {
        basis: stated ? 'stated' : 'residuals',
        ...(stated ? {} : { degreesOfFreedom: fit.redundancy }),
        zeroError: representable(Math.sqrt(zero.variance), 'trials'),
        centreDistance: representable(length, 'trials'),
        reading: representable(Math.sqrt(wanted.variance) / perReading, 'trials'),
        ...(place && {
          touchOff: representable((place.distance * turned) / ((1 - next) * (1 + next)) ** 1.5, 'touchOff'),
        }),
      },
    };
  }
}

function readTrials(
  value: unknown,
  perReading: number,
  stated: { readonly diameter: number; readonly distance: number } | undefined,
): readonly TrialPoint[] {
  return list(value, 'trials', 1).map((item, index) => {
    const name = `trials[${index}]`;
    const trial = options(item, name, ['reading', ...MEASURED]);
    const slope = readMeasured(trial, `${name}.`);
    // d sin = cos³ d tan. Where nothing is stated, diameters are taken as equally good in all trials.
    const uncertainty = slope.cos ** 3 * tangentUncertainty(slope, stated ?? { diameter: 1, distance: 0 });
    return {
      offset: perReading * number(trial['reading'], `${name}.reading`),
      sine: slope.sin,
      sineUncertainty: uncertainty,
    };
  });
}

function readLength(
  given: Readonly<Record<string, unknown>>,
  points: readonly TrialPoint[],
): { readonly length: number; readonly uncertainty: number } | undefined {
  const { centreDistance, centreDistanceUncertainty } = given;
  if (centreDistance !== undefined) {
    const uncertainty = nonNegative(centreDistanceUncertainty ?? 0, 'centreDistanceUncertainty');
    return { length: positive(centreDistance, 'centreDistance'), uncertainty };
  }
  if (centreDistanceUncertainty !== undefined || points.every(({ offset }) => offset === points[0]?.offset)) {
    return refuse(
      'missing-option',
      'centreDistance',
      undefined,
      'must be given with its uncertainty, or if the trials do not hold two different readings',
    );
  }
  return undefined;
}

function readPlace(value: unknown): Required<TouchOffPlace> {
  const { distance, diameter, headstockEnd } = options(value, 'touchOff', ['distance', 'diameter'], ['headstockEnd']);
  return {
    distance: nonNegative(distance, 'touchOff.distance'),
    diameter: positive(diameter, 'touchOff.diameter'),
    headstockEnd: choice(headstockEnd ?? 'large', 'touchOff.headstockEnd', ['large', 'small']),
  };
}

/**
 * The work turns about the headstock pivot while the tool stays in its line at c = ρ cos α + z sin α
 * from the pivot; solved for ρ at both angles, with the cosines' difference by their sines'.
 */
function radiusChange(
  { distance, diameter, headstockEnd }: Required<TouchOffPlace>,
  old: number,
  next: number,
): number {
  const cosine = (s: number): number => Math.sqrt((1 - s) * (1 + s));
  const towards = headstockEnd === 'large' ? -distance : distance;
  const tilting = ((diameter / 2) * (old + next)) / (cosine(old) + cosine(next));
  return ((next - old) * (towards + tilting)) / cosine(next) + 0;
}

function sine(value: number): number {
  return Math.abs(value) < 1
    ? value
    : refuse('impossible-geometry', 'trials', value, 'must give a set-over less than the centre distance');
}

function remarks(set: number, fit: TrialFit, points: readonly TrialPoint[], stated: boolean): readonly Note[] {
  const notes: Note[] = [];
  // The mean square of ν residuals scatters about 1 with standard deviation sqrt(2/ν).
  if (stated && fit.spread !== undefined && fit.spread > 1 + 3 * Math.sqrt(2 / fit.redundancy)) {
    notes.push({
      code: 'trials-disagree',
      message: 'The trials miss the fit by more than their stated uncertainties explain.',
      values: { ratio: Math.sqrt(fit.spread), degreesOfFreedom: fit.redundancy },
    });
  }
  const offsets = points.map(({ offset }) => offset);
  const [least, most] = [Math.min(...offsets), Math.max(...offsets)];
  if (least < most && (set < least || set > most)) {
    const beyond = Math.max(least - set, set - most);
    notes.push({
      code: 'beyond-trials',
      message: 'The new setting lies outside those tried; a further trial near it would be worth more.',
      values: { beyond, least, most },
    });
  }
  return notes;
}
