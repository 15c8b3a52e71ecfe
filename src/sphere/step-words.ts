/** Sentences of the steps that the ways to a sphere share, by code. */
import { plusMinus, say, tell } from '../core/words.js';

/** The steps, in the order of work. */
export const STEPS = {
  again: ({ promise, chance, only }: { promise: string; chance: string; only: string }): string =>
    say`Repeat trial cut and measurement after every correction. By the plan the tolerance ${promise} with a probability of ${chance}${only}.`,
  'final-check': (values: {
    unit: string;
    radius: number;
    limit: number;
    form: number | undefined;
    diameterLimit: number;
  }): string => {
    const { unit, radius, limit, form, diameterLimit } = values;
    const within = form === undefined ? '' : say`; form within ${tell(form, { unit, limit: form })}`;
    return say`Finish to size and measure cold: radius ${tell(radius, { unit, limit })}, ${plusMinus(limit, unit)}${within}. Measure in several directions, each ${plusMinus(diameterLimit, unit)}, and prove the form with a ring of sharp edge and marking blue: it must bear all round wherever it is laid.`;
  },
} as const;

/** Codes of the steps that the ways to a sphere share. */
export type SharedStep = keyof typeof STEPS;
