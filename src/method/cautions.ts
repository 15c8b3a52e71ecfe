/**
 * Where a hand or a machine can come to harm, by code: the usual cautions of the trade (common practice, no source),
 * in our own words; they remind, they do not teach. The machine's manual, the rules of the place and people who are
 * trained for it come first.
 */
import type { Caution } from './steps.js';

/** Cautions for every method, in the order of reading. */
export const GENERAL = {
  authority:
    'The manual of the machine, the rules of the workshop and the people trained for this machine come before this sheet. Whoever is not trained for it works under supervision or not at all.',
  guards: 'Guards in place, eye protection on; no gloves, rings, loose sleeves or open hair near anything that turns.',
  'try-by-hand':
    'Try every swing and travel by hand with the power switched off and locked, over the whole range, before the first cut.',
  'stopped-to-measure':
    'Set, read and measure only with the spindle stopped, the tool drawn back and the key out of the chuck. New sizes deserve a cold part: hot work burns and measures wrong.',
  swarf: 'Swarf cuts and burns: clear it with a hook or a brush and the spindle stopped, never by hand.',
  'work-pulls-out':
    'Hold enough of the stock: a side load far from the chuck or clamp can lever it out. Support long work at its free end, and take light cuts.',
} as const;

/** Cautions of a table, by their codes. */
export function cautions<C extends string>(
  codes: readonly C[],
  table: Readonly<Record<C, string>>,
): readonly Caution<C>[] {
  return codes.map((code) => ({ code, message: table[code] }));
}
