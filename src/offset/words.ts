/**
 * The sentences of this room: what a result notes beside its numbers, by code. A refusal's phrase stands where
 * it is refused.
 */
import { type Note, say, tell } from '../core/words.js';

/** A trial's rate of taper, and the one that its setting lets expect. */
type Doubtful = { readonly measuredRate: number; readonly expectedRate: number };
type OnEdge = { readonly ballDiameter: number; readonly contactDiameter: number };
type NearLimit = { readonly tiltDeg: number; readonly tiltLimitDeg: number; readonly marginDeg: number };

/** What each note speaks of, by its code. */
type Values = {
  readonly 'dial-rounded': { readonly reading: number; readonly settableReading: number; readonly rateError: number };
  readonly 'rule-differs': { readonly relativeError: number; readonly rateError: number };
  readonly backlash: { readonly backlash: number; readonly rateError: number };
  readonly 'trials-disagree': { readonly ratio: number; readonly degreesOfFreedom: number };
  readonly 'beyond-trials': { readonly beyond: number; readonly least: number; readonly most: number };
  readonly 'diameters-swapped': Doubtful;
  readonly 'radii-for-diameters': Doubtful;
  readonly 'headstock-ball-on-edge': OnEdge;
  readonly 'tailstock-ball-on-edge': OnEdge;
  readonly 'headstock-tilt-near-limit': NearLimit;
  readonly 'tailstock-tilt-near-limit': NearLimit;
};

const SENTENCES: { readonly [C in keyof Values]: (values: Values[C]) => string } = {
  'dial-rounded': ({ reading, settableReading }) =>
    say`There is no graduation for the exact reading, ${tell(reading)}; the nearest one, ${tell(settableReading)}, changes the taper.`,
  'rule-differs': ({ relativeError }) =>
    say`The usual shop rule would be off by ${tell(1000 * relativeError, { step: 0.1 })} thousandths of the taper.`,
  backlash: ({ backlash }) =>
    say`Come to the reading from the same side each time; from the other side the lost motion, ${tell(backlash)}, is missing.`,
  'trials-disagree': ({ ratio }) =>
    say`The trials miss the fit by ${tell(ratio, { step: 0.1 })} times what their stated uncertainties explain.`,
  'beyond-trials': ({ least, most }) =>
    say`The new setting lies outside those tried, ${tell(least)} to ${tell(most)}; a further trial near it would be worth more.`,
  'diameters-swapped': () =>
    'A trial came out as steep as its setting, but the other way round: its two diameters may be swapped.',
  'radii-for-diameters': () =>
    'A trial came out half as steep as its setting: its diameters may be radii, or the scale may read the double.',
  'headstock-ball-on-edge': onEdge('headstock'),
  'tailstock-ball-on-edge': onEdge('tailstock'),
  'headstock-tilt-near-limit': nearLimit('headstock'),
  'tailstock-tilt-near-limit': nearLimit('tailstock'),
};

function onEdge(end: string): (values: OnEdge) => string {
  return ({ contactDiameter }) =>
    say`The ${end} ball bears on the edge of its hole, ${tell(contactDiameter)} across, which wears and dents; the pivot moves with it.`;
}

function nearLimit(end: string): (values: NearLimit) => string {
  return ({ tiltDeg, tiltLimitDeg }) =>
    say`The work nearly touches what holds the ${end} ball: it tilts by ${tell(tiltDeg, { unit: '°' })} of ${tell(tiltLimitDeg, { unit: '°' })}.`;
}

/** Codes of the notes of the ways to cut a taper. */
export type OffsetNoteCode = keyof Values;

/** A note of a way to cut a taper. */
export type OffsetNote = Note<OffsetNoteCode>;

/** A note by its code, from the numbers that it speaks of. */
export function offsetNote<C extends OffsetNoteCode>(code: C, values: Values[C]): Note<C> {
  return { code, message: SENTENCES[code](values), values };
}
