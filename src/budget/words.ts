/**
 * The sentences of this room, by code: what a result notes beside its numbers, which stand in the note's values. A
 * table for each kind of result, so that a bundle takes only what it tells.
 */
import { say, tell } from '../core/words.js';

/** Sentences on a budget of first order; some take the name of the input, which is no number. */
export const FIRST_ORDER = {
  'second-order-unknown': (_: Readonly<Record<never, number>>): string =>
    'The terms of second order could not be found with a stated accuracy, or not in good time; Monte Carlo shows them.',
  'second-order-correlated': (_: Readonly<Record<never, number>>): string =>
    'The terms of second order are known for independent inputs only; Monte Carlo shows them.',
  'first-order-vanishes': (_: { readonly firstOrder: number; readonly secondOrder: number }): string =>
    'All sensitivities vanish at the estimates: first order sees no uncertainty where second order does.',
  'second-order-matters': (_: { readonly firstOrder: number; readonly secondOrder: number }): string =>
    'Terms of second order change the standard uncertainty by more than 5 %.',
  'not-linear': ({ name }: { readonly name: string }): string =>
    say`Over the range of ${name} the function is no straight line: check with Monte Carlo.`,
  'one-input-rules': ({ name }: { readonly name: string }): string =>
    say`${name} rules, and is not normal: the interval does not hold as much as it says; the convolution of the distributions does.`,
  'interval-beyond-limits': (_: { readonly expandedUncertainty: number; readonly possible: number }): string =>
    'The interval reaches, to first order, beyond what the limits of the inputs allow; the convolution of the distributions does not.',
  'mean-shifted': (_: { readonly meanShift: number; readonly standardUncertainty: number }): string =>
    'The mean lies off the value at the estimates by more than 0.3 of the standard uncertainty: the interval holds less than it says unless second order is included.',
  'few-degrees-of-freedom': ({ name }: { readonly name: string }): string =>
    say`With two degrees of freedom or fewer the distribution of ${name} has no finite variance: more readings make the interval much shorter.`,
  'degrees-of-freedom-ignored': (_: { readonly inputs: number }): string =>
    'Degrees of freedom of limits have no part in a convolution: the interval takes the limits as certain.',
  'degrees-of-freedom-mixed': (_: { readonly fewest: number; readonly most?: number }): string =>
    'Correlated inputs have different degrees of freedom: the fewest were taken for all of them.',
} as const;

/** Codes of the notes of a budget of first order. */
export type FirstOrderNoteCode = keyof typeof FIRST_ORDER;

/** Sentences on a tolerance that was shared out. */
export const ALLOCATION = {
  'not-linear': (_: { readonly firstOrder: number; readonly found?: number }): string =>
    'At the extremes of these tolerances the result lies more than 1 % from what first order says.',
} as const;

/** Sentences on a Monte Carlo run. */
export const RUN = {
  'few-trials': ({ advised }: { readonly trials: number; readonly advised: number }): string =>
    say`JCGM 101 advises ${tell(advised)} trials or more for this coverage; the ends of the intervals are known less well than it takes for granted.`,
  'degrees-of-freedom-ignored': (_: { readonly inputs: number }): string =>
    'Degrees of freedom of limits have no part in the distributions drawn: the interval takes the limits as certain.',
} as const;

/** Sentences on a first-order budget that was checked by Monte Carlo. */
export const VALIDATION = {
  'first-order-fails': (_: {
    readonly lowDifference: number;
    readonly highDifference: number;
    readonly tolerance: number;
  }): string =>
    'First order and Monte Carlo differ by more than the digits that matter: use the interval of Monte Carlo.',
  'not-steady': (_: { readonly trials: number; readonly tolerance: number }): string =>
    'Trials ran out before Monte Carlo was steady to a fifth of the tolerance: a verdict near the limit is not certain.',
} as const;

/** Sentences on extremes. */
export const EXTREMES = {
  searched: (_: { readonly inputs: number }): string =>
    'The ends were searched for from corners and scattered starts; a narrow peak can be missed. A model over the arithmetic of the library is certain.',
  'bounds-not-reached': (_: { readonly gap: number; readonly range: number }): string =>
    'The search of boxes ended before the bounds met the values reached; the bounds are certain all the same.',
} as const;

/** Codes of the notes of this room. */
export type BudgetNoteCode =
  | FirstOrderNoteCode
  | keyof typeof ALLOCATION
  | keyof typeof RUN
  | keyof typeof VALIDATION
  | keyof typeof EXTREMES;
