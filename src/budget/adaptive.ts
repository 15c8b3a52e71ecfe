/**
 * Monte Carlo that goes on until its result is steady, and the check of a first-order budget against it.
 * Source: JCGM 101:2008, 7.9 (adaptive procedure) and clause 8 (validation).
 */
import { choice, options, positive, whole } from '../core/checks.js';
import type { Note } from '../core/notes.js';
import { intervalEnds, moments } from './coverage.js';
import { type Budget, type BudgetOptions, budget } from './first-order.js';
import {
  drain,
  JOB_KEYS,
  type LongRun,
  leastTrials,
  type MonteCarloJob,
  type MonteCarloResult,
  pace,
  readJob,
  summarise,
} from './monte-carlo.js';
import { BLOCK, runTrials } from './trials.js';

/** Options of a run that ends when its result is steady. */
export interface AdaptiveOptions extends MonteCarloJob {
  /** Significant digits of the standard uncertainty that matter, 1 or 2; 2 by default. They set the tolerance. */
  readonly digits?: 1 | 2;
  /** The numerical tolerance itself, instead of one from the digits. */
  readonly tolerance?: number;
  /** Which interval has to be steady, the probabilistically symmetric one by default. */
  readonly interval?: 'symmetric' | 'shortest';
  /** Trials after which the run ends steady or not, 10 000 000 by default. */
  readonly mostTrials?: number;
}

/** What a run found, and whether it became steady. */
export interface AdaptiveResult extends MonteCarloResult {
  /** Whether mean, standard uncertainty and both ends became steady within the tolerance. */
  readonly steady: boolean;
  /** Numerical tolerance δ: half a unit of the last significant digit of the standard uncertainty, or as given. */
  readonly tolerance: number;
}

const ADAPTIVE_KEYS = [...JOB_KEYS, 'digits', 'tolerance', 'interval', 'mostTrials'] as const;

/**
 * Monte Carlo with as many trials as it takes: batches are added until twice the standard deviation of the averages
 * of mean, standard uncertainty and both ends of the interval is below the numerical tolerance (JCGM 101, 7.9.4).
 *
 * @param options - As of {@link monteCarlo}, with the digits that matter instead of the number of trials.
 * @returns What {@link monteCarlo} with as many trials gives, to the last bit, and whether it became steady.
 * @throws {@link GeneratrixError} as {@link monteCarlo}.
 *
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
export function adaptiveMonteCarlo(options: AdaptiveOptions): AdaptiveResult {
  return drain(readAdaptive(options, []).run);
}

/**
 * The same as {@link adaptiveMonteCarlo}, with pauses; it can report and be ended.
 *
 * @param options - As of {@link adaptiveMonteCarlo}, with `signal` and `progress`.
 * @returns The same result to the last bit.
 * @throws {@link GeneratrixError} as {@link adaptiveMonteCarlo}, and `aborted`.
 *
 * @example
 * ```ts
 * import { adaptiveMonteCarloAsync } from 'generatrix/budget';
 * const found = await adaptiveMonteCarloAsync({ model: ({ a }) => a, inputs: { a: { from: 0, to: 1 } }, digits: 1 });
 * found.steady; // => true
 * ```
 */
export async function adaptiveMonteCarloAsync(options: AdaptiveOptions & LongRun): Promise<AdaptiveResult> {
  const { run, most } = readAdaptive(options, ['signal', 'progress']);
  return pace(run, most, options);
}

function readAdaptive(
  given: AdaptiveOptions,
  also: readonly string[],
): { readonly run: Generator<number, AdaptiveResult>; readonly most: number } {
  const read = options(given, 'options', ['model', 'inputs'], [...ADAPTIVE_KEYS, ...also]);
  const job = readJob(read);
  const digits = whole(read['digits'] ?? 2, 'digits', { min: 1, max: 2 });
  const fixed = read['tolerance'] === undefined ? null : positive(read['tolerance'], 'tolerance');
  const interval = choice(read['interval'] ?? 'symmetric', 'interval', ['symmetric', 'shortest']);
  const size = BLOCK * Math.ceil(Math.max(10_000, leastTrials(job.coverage)) / BLOCK);
  const most = whole(read['mostTrials'] ?? 10_000_000, 'mostTrials', { min: 2 * size, max: 1e9 });

  function* run(): Generator<number, AdaptiveResult> {
    const batches: Float64Array[] = [];
    // One list each of mean, standard uncertainty, lower and upper end, batch by batch.
    const seen: readonly number[][] = [[], [], [], []];
    for (;;) {
      const values = new Float64Array(size);
      const done = batches.length * size;
      for (const more of runTrials(job.ready, job.seed, done / BLOCK, values)) yield done + more;
      batches.push(values);
      const { mean, standardUncertainty } = moments(values);
      for (const [i, x] of [mean, standardUncertainty, ...intervalEnds(values, job.coverage, interval)].entries()) {
        seen[i]?.push(x);
      }
      if (batches.length < 2) continue;
      const tolerance = fixed ?? numericalTolerance(overall(seen[0] as number[], seen[1] as number[]), digits);
      const steady = seen.every((list) => 2 * errorOfAverage(list) < tolerance || errorOfAverage(list) === 0);
      if (!steady && done + 2 * size <= most) continue;
      const all = new Float64Array(batches.length * size);
      for (const [i, batch] of batches.entries()) all.set(batch, i * size);
      return { ...summarise(all, job.seed, job.coverage), steady, tolerance };
    }
  }
  return { run: run(), most };
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
export interface ValidationOptions extends Pick<BudgetOptions, 'model' | 'inputs' | 'correlations'> {
  /** Coverage probability, 0.95 by default. */
  readonly coverage?: number;
  /** Significant digits of the standard uncertainty that matter, 1 or 2; 2 by default. */
  readonly digits?: 1 | 2;
  /** Which of Monte Carlo's intervals is compared, the probabilistically symmetric one by default. */
  readonly interval?: 'symmetric' | 'shortest';
  /** Seed, 1 by default. */
  readonly seed?: number;
  /** Most trials, 10 000 000 by default. */
  readonly mostTrials?: number;
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
  readonly notes: readonly Note[];
}

/**
 * Validates a first-order budget by Monte Carlo: both ends of the coverage interval must agree to the significant
 * digits that matter (JCGM 101, clause 8). Where they do not, Monte Carlo's interval is the one to use.
 *
 * @param options - Function, inputs, coverage and digits.
 * @returns The verdict, the differences, and both results.
 * @throws {@link GeneratrixError} as {@link budget} and {@link monteCarlo}.
 *
 * @example
 * ```ts
 * import { validateFirstOrder } from 'generatrix/budget';
 * const inputs = { a: { value: 0, standardUncertainty: 0.1 }, b: { value: 5, standardUncertainty: 0.1 } };
 * validateFirstOrder({ model: ({ a, b }) => a + b, inputs, digits: 1 }).valid; // => true
 * // A cosine at its crest has no slope: first order sees no uncertainty at all.
 * validateFirstOrder({ model: ({ a, b }) => Math.cos(a) + 1e-4 * b, inputs, digits: 1 }).valid; // => false
 * ```
 */
export function validateFirstOrder(options: ValidationOptions): Validation {
  const { firstOrder, digits, interval, job } = readValidation(options);
  const delta = numericalTolerance(firstOrder.standardUncertainty, digits);
  let monteCarlo = adaptiveMonteCarlo({ ...job, digits });
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
  const notes: Note[] = [];
  if (!valid) {
    notes.push({
      code: 'first-order-fails',
      message:
        'First order and Monte Carlo differ by more than the digits that matter: use the interval of Monte Carlo.',
      values: { lowDifference, highDifference, tolerance },
    });
  }
  if (!monteCarlo.steady) {
    notes.push({
      code: 'not-steady',
      message:
        'Trials ran out before Monte Carlo was steady to a fifth of the tolerance: a verdict near the limit is not certain.',
      values: { trials: monteCarlo.trials, tolerance },
    });
  }
  return { valid, tolerance, lowDifference, highDifference, firstOrder, monteCarlo, notes };
}

function readValidation(given: ValidationOptions): {
  readonly firstOrder: Budget;
  readonly digits: 1 | 2;
  readonly interval: 'symmetric' | 'shortest';
  readonly job: AdaptiveOptions;
} {
  const read = options(given, 'options', ['model', 'inputs'], [...JOB_KEYS, 'digits', 'interval', 'mostTrials']);
  const { digits, ...job } = given;
  const { model, inputs, correlations, coverage = 0.95 } = given;
  return {
    firstOrder: budget({ model, inputs, coverage, ...(correlations && { correlations }) }),
    digits: whole(digits ?? 2, 'digits', { min: 1, max: 2 }) as 1 | 2,
    interval: choice(read['interval'] ?? 'symmetric', 'interval', ['symmetric', 'shortest']),
    job,
  };
}
