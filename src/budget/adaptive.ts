/**
 * Monte Carlo that goes on until its result is steady, and the check of a first-order budget against it.
 * Source: JCGM 101:2008, 7.9 (adaptive procedure) and clause 8 (validation).
 */

import {
  choice,
  defaulted,
  type Fields,
  type Filled,
  optional,
  positive,
  type Reader,
  read,
  whole,
} from '../core/read.js';
import { type Note, note } from '../core/words.js';
import { intervalEnds, moments } from './coverage.js';
import { type Budget, budget } from './first-order.js';
import { type BudgetFunction, budgetFunction } from './functions.js';
import {
  drain,
  JOB,
  LONG_RUN,
  type LongRun,
  leastTrials,
  MOST_TRIALS,
  type MonteCarloJob,
  type MonteCarloResult,
  pace,
  refuseFewer,
  summarise,
} from './monte-carlo.js';
import { BLOCK, readTrials, runTrials } from './trials.js';
import { VALIDATION as SENTENCES } from './words.js';

/** Options of a run that ends when its result is steady. */
export interface AdaptiveOptions<Name extends string = string, ErrorName extends string = never>
  extends MonteCarloJob<Name, ErrorName> {
  /** Significant digits of the standard uncertainty that matter, 1 or 2: they set the tolerance. @defaultValue 2 */
  readonly digits?: 1 | 2;
  /**
   * The numerical tolerance itself, instead of one from the digits.
   * @defaultValue half a unit of the last digit that matters
   */
  readonly tolerance?: number;
  /** Which interval has to be steady. @defaultValue 'symmetric', the probabilistically symmetric one */
  readonly interval?: 'symmetric' | 'shortest';
  /** Trials after which the run ends steady or not, at most 10 000 000. @defaultValue 10 000 000 */
  readonly mostTrials?: number;
}

/** What a run found, and whether it became steady. */
export interface AdaptiveResult extends MonteCarloResult {
  /** Whether mean, standard uncertainty and both ends became steady within the tolerance. */
  readonly steady: boolean;
  /** Numerical tolerance δ: half a unit of the last significant digit of the standard uncertainty, or as given. */
  readonly tolerance: number;
}

const DIGITS = whole({ min: 1, max: 2 }) as unknown as Reader<1 | 2>;
const MOST = whole({ min: 2 * BLOCK, max: MOST_TRIALS });
const INTERVAL = choice('symmetric', 'shortest');
type Defaults = 'seed' | 'coverage' | 'digits' | 'interval' | 'mostTrials';
const ADAPTIVE: Fields<AdaptiveOptions, Defaults> = {
  ...JOB,
  digits: defaulted(DIGITS, 2),
  tolerance: optional(positive),
  interval: defaulted(INTERVAL, 'symmetric'),
  mostTrials: defaulted(MOST, MOST_TRIALS),
};
const ADAPTIVE_LONG: Fields<AdaptiveOptions & LongRun, Defaults> = { ...ADAPTIVE, ...LONG_RUN };

/**
 * Monte Carlo with as many trials as it takes: batches are added until twice the standard deviation of the averages
 * of mean, standard uncertainty and both ends of the interval is below the numerical tolerance (JCGM 101, 7.9.4).
 * @returns What {@link monteCarlo} with as many trials gives, to the last bit, and whether it became steady.
 * @throws GeneratrixError as {@link monteCarlo}.
 * @example
 * ```ts
 * import { adaptiveMonteCarlo, monteCarlo } from 'generatrix/budget';
 * const job = { model: ({ a, b }) => a * b, inputs: { a: { value: 3, plusMinus: 0.1 }, b: { value: 5, plusMinus: 0.1 } } };
 * const { steady, tolerance, trials, mean } = adaptiveMonteCarlo({ ...job, digits: 1 });
 * steady; // => true
 * tolerance; // => 0.05
 * mean === monteCarlo({ ...job, trials }).mean; // => true
 * ```
 */
export function adaptiveMonteCarlo<Name extends string, ErrorName extends string = never>(
  options: AdaptiveOptions<Name, ErrorName>,
): AdaptiveResult {
  return drain(adaptiveRun(read(options, ADAPTIVE)));
}

/**
 * The same as {@link adaptiveMonteCarlo}, with pauses; it can report and be ended.
 * @returns The same result to the last bit.
 * @throws GeneratrixError as {@link adaptiveMonteCarlo}, and `aborted`.
 * @example
 * ```ts
 * import { adaptiveMonteCarloAsync } from 'generatrix/budget';
 * const found = await adaptiveMonteCarloAsync({ model: ({ a }) => a, inputs: { a: { from: 0, to: 1 } }, digits: 1 });
 * found.steady; // => true
 * ```
 */
export async function adaptiveMonteCarloAsync<Name extends string, ErrorName extends string = never>(
  options: AdaptiveOptions<Name, ErrorName> & LongRun,
): Promise<AdaptiveResult> {
  const job = read(options, ADAPTIVE_LONG);
  return pace(adaptiveRun(job), job.mostTrials, job);
}

function* adaptiveRun(job: Filled<AdaptiveOptions, Defaults>): Generator<number, AdaptiveResult> {
  const { digits, interval, mostTrials: most, seed, coverage } = job;
  const ready = readTrials(job);
  const size = BLOCK * Math.ceil(Math.max(10_000, leastTrials(coverage)) / BLOCK);
  refuseFewer(2 * size, 'mostTrials', most, coverage);
  const batches: Float64Array[] = [];
  // One list each of mean, standard uncertainty, lower and upper end, batch by batch.
  const seen: readonly number[][] = [[], [], [], []];
  for (;;) {
    const values = new Float64Array(size);
    const done = batches.length * size;
    for (const more of runTrials(ready, seed, done / BLOCK, values)) yield done + more;
    batches.push(values);
    const { mean, standardUncertainty } = moments(values);
    for (const [i, x] of [mean, standardUncertainty, ...intervalEnds(values, coverage, interval)].entries()) {
      seen[i]?.push(x);
    }
    if (batches.length < 2) continue;
    const tolerance = job.tolerance ?? numericalTolerance(overall(seen[0] as number[], seen[1] as number[]), digits);
    const steady = seen.every((list) => 2 * errorOfAverage(list) < tolerance || errorOfAverage(list) === 0);
    if (!steady && done + 2 * size <= most) continue;
    const all = new Float64Array(batches.length * size);
    for (const [i, batch] of batches.entries()) all.set(batch, i * size);
    return { ...summarise(all, job, ready.freedomIgnored), steady, tolerance };
  }
}

/** Standard deviation of the average of a list, from the spread in it. */
function errorOfAverage(list: readonly number[]): number {
  return moments(Float64Array.from(list)).meanError;
}

/** Standard uncertainty of all batches together: the spread within them and between them. */
function overall(means: readonly number[], uncertainties: readonly number[]): number {
  const within = uncertainties.reduce((sum, u) => sum + u * u, 0) / uncertainties.length;
  return Math.sqrt(within + moments(Float64Array.from(means)).standardUncertainty ** 2);
}

/** Half a unit of the last of so many significant digits of u (JCGM 101, 7.9.2). */
function numericalTolerance(u: number, digits: number): number {
  if (u === 0) return 0;
  // The exponent is read off the rounded number, so that 0.0996 counts as 0.10.
  return 0.5 * 10 ** (Number(u.toExponential(digits - 1).split('e')[1]) - (digits - 1));
}

/** What to validate. */
export interface ValidationOptions<Name extends string = string, ErrorName extends string = never>
  extends Pick<
    AdaptiveOptions<Name, ErrorName>,
    'inputs' | 'correlations' | 'coverage' | 'digits' | 'interval' | 'seed' | 'mostTrials'
  > {
  /** A model, or a function of named inputs. */
  readonly model: BudgetFunction<Name, ErrorName>;
}

/** Whether the first-order budget is good enough. */
export interface Validation {
  /** Whether both ends of its interval agree with Monte Carlo's within the tolerance. */
  readonly valid: boolean;
  /** Numerical tolerance δ of the comparison. */
  readonly tolerance: number;
  /** Distance between the lower ends. */
  readonly lowDifference: number;
  /** Distance between the upper ends. */
  readonly highDifference: number;
  /** The first-order budget. */
  readonly firstOrder: Budget;
  /** The Monte Carlo result that it is compared with; steady to a fifth of the tolerance where the call is close. */
  readonly monteCarlo: AdaptiveResult;
  /** Remarks: `first-order-fails`, `not-steady`. */
  readonly notes: readonly Note<'first-order-fails' | 'not-steady'>[];
}

const VALIDATION: Fields<ValidationOptions, Defaults> = {
  model: budgetFunction,
  inputs: JOB.inputs,
  correlations: JOB.correlations,
  seed: JOB.seed,
  coverage: JOB.coverage,
  digits: ADAPTIVE.digits,
  interval: ADAPTIVE.interval,
  mostTrials: ADAPTIVE.mostTrials,
};

/**
 * Validates a first-order budget by Monte Carlo: both ends of the coverage interval must agree to the significant
 * digits that matter (JCGM 101, clause 8). Where they do not, Monte Carlo's interval is the one to use.
 * @throws GeneratrixError as {@link budget} and {@link monteCarlo}.
 * @example
 * ```ts
 * import { validateFirstOrder } from 'generatrix/budget';
 * const inputs = { a: { value: 0, standardUncertainty: 0.1 }, b: { value: 5, standardUncertainty: 0.1 } };
 * validateFirstOrder({ model: ({ a, b }) => a + b, inputs, digits: 1 }).valid; // => true
 * // A cosine at its crest has no slope: first order sees no uncertainty at all.
 * validateFirstOrder({ model: ({ a, b }) => Math.cos(a) + 1e-4 * b, inputs, digits: 1 }).valid; // => false
 * ```
 */
export function validateFirstOrder<Name extends string, ErrorName extends string = never>(
  options: ValidationOptions<Name, ErrorName>,
): Validation {
  const job = read(options, VALIDATION);
  const { model, inputs, correlations, coverage, digits, interval } = job;
  const call = { model, inputs, coverage };
  const firstOrder = budget(correlations ? { ...call, correlations } : call);
  const delta = numericalTolerance(firstOrder.standardUncertainty, digits);
  let monteCarlo = adaptiveMonteCarlo(job);
  const differences = (): readonly [number, number] => [
    Math.abs(firstOrder.interval.low - monteCarlo[interval].low),
    Math.abs(firstOrder.interval.high - monteCarlo[interval].high),
  ];
  // A first run tells a clear failure; only a closer call needs the trials that a fifth of the tolerance takes.
  const tolerance = delta || monteCarlo.tolerance;
  if (tolerance > 0 && Math.max(...differences()) < tolerance + 2 * monteCarlo.tolerance) {
    monteCarlo = adaptiveMonteCarlo({ ...job, tolerance: tolerance / 5 });
  }
  const [lowDifference, highDifference] = differences();
  const valid = lowDifference <= tolerance && highDifference <= tolerance;
  const notes: Note<'first-order-fails' | 'not-steady'>[] = [];
  if (!valid) notes.push(note(SENTENCES, 'first-order-fails', { lowDifference, highDifference, tolerance }));
  if (!monteCarlo.steady) notes.push(note(SENTENCES, 'not-steady', { trials: monteCarlo.trials, tolerance }));
  return { valid, tolerance, lowDifference, highDifference, firstOrder, monteCarlo, notes };
}
