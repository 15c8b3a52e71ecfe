/**
 * What a method will make of one toleranced quantity: the error of the first cut and of the cut after one correction,
 * each with its interval and the probability of meeting the tolerance, by Monte Carlo (a linear budget would promise
 * the wrong interval where one rectangular error rules); and the budget that says which setting rules.
 */

import { intervalEnds } from '../budget/coverage.js';
import { type Budget, budget } from '../budget/first-order.js';
import type { BudgetFunction } from '../budget/functions.js';
import { monteCarloPart } from '../budget/monte-carlo.js';
import { GeneratrixError } from '../core/errors.js';
import { representable } from '../core/read.js';

/** An expected error. */
export interface ExpectedError {
  /** Mean error. */
  readonly error: number;
  /** Lower end of the interval that holds the error with the job's coverage. */
  readonly low: number;
  /** Upper end of that interval. */
  readonly high: number;
  /** Probability that the error lies within the tolerance. */
  readonly probability: number;
}

/** The input that limits a result most. */
export interface RulingInput {
  /** Its name. */
  readonly input: string;
  /** What it is. */
  readonly meaning: string;
  /** Expanded uncertainty of the result. */
  readonly expandedUncertainty: number;
  /** What would be left of that if this input were held twice as well. */
  readonly ifHalved: number;
}

/** What a tolerance is on. */
export type ToleranceOf =
  | 'small-diameter'
  | 'half-angle'
  | 'radius'
  | 'form'
  | 'pip-diameter'
  | 'stem-diameter'
  | 'free-stem-diameter'
  | 'flat-diameter'
  | 'base-diameter'
  | 'opening-diameter';

/** Whether a tolerance is the most that a quantity may be, counted from 0, and not a limit either way. */
export function isOneSided(quantity: ToleranceOf): boolean {
  return quantity === 'form' || quantity === 'pip-diameter';
}

/** What is expected of one toleranced quantity. */
export interface Expectation {
  /** What the tolerance is on. */
  readonly quantity: ToleranceOf;
  /** Its tolerance, plus or minus (form and pip: from 0). */
  readonly tolerance: number;
  /** Error of the first cut, before any correction. */
  readonly first: ExpectedError;
  /** The same after one correction from a measured trial cut. */
  readonly corrected: ExpectedError;
  /** Budget of the first cut. */
  readonly budget: Budget;
  /** What limits it most at the first cut. */
  readonly limitedBy: RulingInput;
  /** What limits it most after one correction; null where first order cannot tell. */
  readonly correctedLimitedBy: RulingInput | null;
}

/** An input with its limit, plus or minus; errors are taken as evenly spread between the limits. */
export type Limited<Input extends string = string> = Readonly<
  Record<Input, { readonly value: number; readonly plusMinus: number }>
>;

interface ModelRun {
  readonly model: BudgetFunction;
  readonly inputs: Limited;
}

/** What {@link expect} needs. */
export interface ExpectationInput {
  readonly quantity: ToleranceOf;
  /** Plus or minus; for a form or a pip, the most it may be. */
  readonly tolerance: number;
  /** The value wanted: errors are counted from it. */
  readonly wanted: number;
  /**
   * The quantity from the settings and their errors, and these at the first cut; `values` where the parts have
   * been simulated by other means, the model then being for the budget alone.
   */
  readonly first: ModelRun & { readonly values?: Float64Array };
  /** The same after one correction, errors of measuring and of setting again included. */
  readonly corrected: ModelRun | { readonly values: Float64Array };
  readonly coverage: number;
  readonly trials: number;
}

/** What is expected of all quantities of a part, and how probably it meets all tolerances at once. */
export interface Expected {
  readonly expectations: readonly Expectation[];
  readonly chance: { readonly first: number; readonly corrected: number };
}

/**
 * Expectations of the quantities of one part. Inputs of one name are drawn alike for every quantity, so that
 * the n-th trial of each is the same part, and the parts that meet all tolerances can be counted.
 */
export function expectAll(quantities: readonly ExpectationInput[]): Expected {
  const runs = quantities.map((input) => ({
    first: errorsOf(input, input.first),
    corrected: errorsOf(input, input.corrected),
  }));
  const chance = (when: 'first' | 'corrected'): number => {
    const trials = quantities[0]?.trials ?? 0;
    const missed = new Uint8Array(trials);
    for (const [q, { tolerance }] of quantities.entries()) {
      const errors = runs[q]?.[when] ?? new Float64Array();
      for (let i = 0; i < trials; i++) if (Math.abs(errors[i] as number) > tolerance) missed[i] = 1;
    }
    return trials === 0 ? 1 : 1 - missed.reduce((sum, one) => sum + one, 0) / trials;
  };
  return {
    chance: { first: chance('first'), corrected: chance('corrected') },
    expectations: quantities.map((input, q) => {
      const { quantity, tolerance, first, coverage } = input;
      const { model, inputs } = first;
      const linear = budget({ model, inputs, coverage });
      const again = 'model' in input.corrected ? input.corrected : null;
      const run = runs[q] as { first: Float64Array; corrected: Float64Array };
      return {
        quantity,
        tolerance,
        first: summary(input, run.first),
        corrected: summary(input, run.corrected),
        budget: linear,
        limitedBy: ruling(linear),
        correctedLimitedBy: again && rulingAgain(again, coverage),
      };
    }),
  };
}

/** Errors of the simulated parts, in the order of the trials. */
function errorsOf(
  { wanted, coverage, trials }: ExpectationInput,
  run: ExpectationInput['first' | 'corrected'],
): Float64Array {
  const values = 'values' in run && run.values ? run.values : simulated(run as ModelRun, { coverage, trials });
  const errors = new Float64Array(values.length);
  for (let i = 0; i < errors.length; i++) errors[i] = (values[i] as number) - wanted + 0;
  return errors;
}

/** The quantity of simulated parts; one seed for all, so that the same names draw the same errors. */
export function simulated(
  { model, inputs }: ModelRun,
  { coverage, trials }: Pick<ExpectationInput, 'coverage' | 'trials'>,
): Float64Array {
  return monteCarloPart({ model, inputs, coverage, trials, seed: 1, part: 0, parts: 1 }).values as Float64Array;
}

/** Error, interval and probability of meeting the tolerance. */
function summary({ tolerance, coverage }: ExpectationInput, errors: Float64Array): Expectation['first'] {
  let [sum, within] = [0, 0];
  for (const error of errors) {
    sum += error;
    if (Math.abs(error) <= tolerance) within++;
  }
  const [low, high] = intervalEnds(errors, coverage, 'symmetric');
  const error = representable(sum / errors.length, 'error');
  return { error: error + 0, low, high, probability: within / errors.length };
}

/** The input with the largest share, and what a setting twice as good would bring: to first order, independent. */
function ruling({ rows, standardUncertainty: u, coverageFactor, expandedUncertainty }: Budget): RulingInput {
  const { name = '', meaning = '', contribution = 0 } = rows[0] ?? {};
  const ifHalved = coverageFactor * Math.sqrt(Math.max(0, u * u - 0.75 * contribution * contribution));
  return { input: name, meaning, expandedUncertainty, ifHalved };
}

/** The same after a correction; none where the function has no derivative. */
function rulingAgain(run: ModelRun, coverage: number): RulingInput | null {
  try {
    return ruling(budget({ model: run.model, inputs: run.inputs, coverage }));
  } catch (error) {
    if (error instanceof GeneratrixError) return null;
    throw error;
  }
}
