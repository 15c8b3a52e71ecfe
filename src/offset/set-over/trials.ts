/** Trial cuts of work set over: what they measured as points of a fit, and what is odd about them. */

import { note } from '../../core/words.js';
import { doubtNotes, type MeasuredTaper, measuredSlope, type Stated, tangentUncertainty } from '../measured.js';
import { type OffsetNote, TRIAL } from '../words.js';
import type { FitOptions, TrialFit, TrialPoint } from './trial-fit.js';

/** One trial cut: what the dial read, and what came out. */
export interface SetoverTrial extends MeasuredTaper {
  /** Reading of the dial when the trial was cut. */
  readonly reading: number;
}

/** The trials as points of the line that is fitted through them. */
export function trialPoints(
  trials: readonly SetoverTrial[],
  perReading: number,
  stated: Stated | undefined,
): readonly TrialPoint[] {
  return trials.map((trial, i) => {
    const slope = measuredSlope(trial, `trials[${i}].`);
    // d sin = cos³ d tan. Where nothing is stated, diameters are taken as equally good in all trials.
    const sineUncertainty = slope.cos ** 3 * tangentUncertainty(slope, stated ?? { diameter: 1, length: 0 });
    return { offset: perReading * trial.reading, sine: slope.sin, sineUncertainty };
  });
}

/** Trials that look mistyped, from what their settings lead to expect between pivots at a known distance. */
export function trialNotes(points: readonly TrialPoint[], centreDistance: number): OffsetNote[] {
  const tan = (sine: number): number => sine / Math.sqrt((1 - sine) * (1 + sine));
  return points.flatMap(({ offset, sine }) =>
    Math.abs(offset) < centreDistance ? doubtNotes(tan(sine), tan(offset / centreDistance)) : [],
  );
}

/** Trials that disagree with each other, a new offset beyond those tried. */
export function fitNotes(
  offset: number,
  fit: TrialFit,
  points: readonly TrialPoint[],
  basis: FitOptions['basis'],
): OffsetNote[] {
  const notes: OffsetNote[] = [];
  const { spread, redundancy } = fit;
  // The mean square of ν residuals scatters about 1 with standard deviation sqrt(2/ν).
  if (basis === 'stated' && spread !== undefined && spread > 1 + 3 * Math.sqrt(2 / redundancy)) {
    notes.push(note(TRIAL, 'trials-disagree', { ratio: Math.sqrt(spread), degreesOfFreedom: redundancy }));
  }
  const least = points.reduce((found, point) => Math.min(found, point.offset), Infinity);
  const most = points.reduce((found, point) => Math.max(found, point.offset), -Infinity);
  const beyond = Math.max(least - offset, offset - most);
  if (least < most && beyond > 0) notes.push(note(TRIAL, 'beyond-trials', { beyond, least, most }));
  return notes;
}
