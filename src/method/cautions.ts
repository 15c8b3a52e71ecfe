/**
 * Where a hand or a machine can come to harm, by code: the usual cautions of the trade (common practice, no source),
 * in our own words; they remind, they do not teach. The machine's manual, the rules of the place and people who are
 * trained for it come first.
 */
import type { Caution } from './steps.js';

/** Cautions for every method, in the order of reading. */
export const GENERAL = {
  authority:
    "The machine's manual, the workshop's rules and the people trained for this machine come before this sheet; whoever is not trained works under supervision or not at all.",
  guards: 'Guards in place, eyes protected; no gloves, rings, loose sleeves or open hair near anything that turns.',
  'try-by-hand': 'With the power off and locked, try every swing and travel by hand, over its whole range, first.',
  'stopped-to-measure':
    'Set and measure with the spindle stopped, the tool drawn back, the chuck key out, the part cold.',
  swarf: 'Swarf cuts and burns: clear it with hook or brush, the spindle stopped, never by hand.',
  'work-pulls-out':
    'Hold enough of the stock, support long work at its free end, cut lightly: a load from the side levers work out.',
} as const;

/** What a caution says, and the steps beside which it stands, the first that there is. */
export type Told = readonly [message: string, ...beside: readonly string[]];

/** Cautions of a table, by their codes. */
export function cautions<C extends string>(
  codes: readonly C[],
  table: Readonly<Record<C, Told>>,
): readonly Caution<C>[] {
  return codes.map((code) => {
    const [message, ...beside] = table[code];
    return { code, message, beside };
  });
}
