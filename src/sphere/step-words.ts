/** Sentences of the steps that the ways to a sphere share, by code, made of their actions. */
import { say } from '../core/words.js';
import { held, told } from '../method/action-words.js';
import type { Measure, Repeat } from '../method/actions.js';

/** The steps, in the order of work. */
export const STEPS = {
  again: ({ promise, chance, only }: { again: Repeat; promise: string; chance: string; only: string }): string =>
    say`Repeat trial cut and measurement after every correction. By the plan the tolerance ${promise} with a probability of ${chance}${only}.`,
  'final-check': ({ radius, form }: { radius: Measure; form: Measure | undefined }): string => {
    const within = form === undefined ? '' : say`; form within ${told({ ...form.must, value: form.must.limit ?? 0 })}`;
    const each = radius.doubt ? say`, each ${held(radius.doubt)}` : '';
    return say`Finish to size and measure cold: radius ${told(radius.must)}, ${held(radius.must)}${within}. Measure in several directions${each}, and prove the form with a ring of sharp edge and marking blue: it must bear all round wherever it is laid.`;
  },
} as const;

/** Codes of the steps that the ways to a sphere share. */
export type SharedStep = keyof typeof STEPS;
