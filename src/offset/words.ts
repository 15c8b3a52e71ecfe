/**
 * The sentences of this room: what a result notes beside its numbers, by code; the numbers themselves, which may be
 * in any unit, stand in the note's values. A table for each kind of result, so that a bundle takes only what it tells.
 */
import { type Note, say, tell } from '../core/words.js';

/** A table of sentences for notes that speak of these values. */
type Table<V> = { readonly [C in keyof V]: (values: V[C]) => string };

/** What the notes on a setting speak of. */
type SettingValues = {
  readonly 'dial-rounded': { readonly reading: number; readonly settableReading: number; readonly rateError: number };
  readonly 'rule-differs': { readonly relativeError: number; readonly rateError: number };
  readonly backlash: { readonly backlash: number; readonly rateError: number };
};

/** Sentences on a setting. */
export const SETTING: Table<SettingValues> = {
  'dial-rounded': () => 'There is no graduation for the exact reading; the nearest one changes the taper.',
  'rule-differs': () => 'The usual shop rule would be off by more than a thousandth of the taper.',
  backlash: () => 'Come to the reading from the same side each time; from the other side the lost motion is missing.',
};

/** A trial's rate of taper, and the one that its setting lets expect. */
type Doubtful = { readonly measuredRate: number; readonly expectedRate: number };

/** What the notes on trial cuts speak of. */
type TrialValues = {
  readonly 'trials-disagree': { readonly ratio: number; readonly degreesOfFreedom: number };
  readonly 'beyond-trials': { readonly beyond: number; readonly least: number; readonly most: number };
  readonly 'diameters-swapped': Doubtful;
  readonly 'radii-for-diameters': Doubtful;
};

/** Sentences on trial cuts. */
export const TRIAL: Table<TrialValues> = {
  'trials-disagree': ({ ratio }) =>
    say`The trials miss the fit by ${tell(ratio, { step: 0.1 })} times what their stated uncertainties explain.`,
  'beyond-trials': () => 'The new setting lies outside those tried; a further trial near it would be worth more.',
  'diameters-swapped': () =>
    'A trial came out as steep as its setting, but the other way round: its two diameters may be swapped.',
  'radii-for-diameters': () =>
    'A trial came out half as steep as its setting: its diameters may be radii, or the scale may read the double.',
};

type OnEdge = { readonly ballDiameter: number; readonly contactDiameter: number };
type NearLimit = { readonly tiltDeg: number; readonly tiltLimitDeg: number; readonly marginDeg: number };

/** What the notes on balls speak of. */
type BallValues = {
  readonly 'headstock-ball-on-edge': OnEdge;
  readonly 'tailstock-ball-on-edge': OnEdge;
  readonly 'headstock-tilt-near-limit': NearLimit;
  readonly 'tailstock-tilt-near-limit': NearLimit;
};

/** Sentences on balls in their holes. */
export const BALL: Table<BallValues> = {
  'headstock-ball-on-edge': () => onEdge('headstock'),
  'tailstock-ball-on-edge': () => onEdge('tailstock'),
  'headstock-tilt-near-limit': (values) => nearLimit('headstock', values),
  'tailstock-tilt-near-limit': (values) => nearLimit('tailstock', values),
};

function onEdge(end: string): string {
  return say`The ${end} ball bears on the edge of its hole, which wears and dents; the pivot moves with it.`;
}

function nearLimit(end: string, { tiltDeg, tiltLimitDeg }: NearLimit): string {
  const [tilt, most] = [tell(tiltDeg, { unit: '°' }), tell(tiltLimitDeg, { unit: '°' })];
  return say`The work nearly touches what holds the ${end} ball: it tilts by ${tilt} of ${most}.`;
}

/** Codes of the notes of the ways to cut a taper. */
export type OffsetNoteCode = keyof SettingValues | keyof TrialValues | keyof BallValues;

/** A note of a way to cut a taper. */
export type OffsetNote = Note<OffsetNoteCode>;
