/**
 * Monte Carlo: the distribution of a result from the distributions of its inputs, by trying it out.
 * Source: JCGM 101:2008, clause 7. One seed, one result: run in one piece, cut up over workers, or pausing.
 */
import { refuse } from '../core/errors.js';
import {
  anyNumber,
  array,
  callable,
  defaulted,
  either,
  type Fields,
  type Filled,
  later,
  number,
  object,
  optional,
  type Reader,
  read,
  readValue,
  representable,
  whole,
} from '../core/read.js';
import { type Note, note } from '../core/words.js';
import type { Correlations } from './correlation.js';
import { type CoverageInterval, coverageIntervals, type Moments, moments } from './coverage.js';
import type { Inputs } from './functions.js';
import { BLOCK, type MonteCarloModel, monteCarloModel, readTrials, runTrials, type Trials } from './trials.js';
import { RUN as SENTENCES } from './words.js';

/** What to run. */
export interface MonteCarloJob<Name extends string = string, ErrorName extends string = never> {
  /** A model, a function of named inputs, or one that takes many trials at once. */
  readonly model: MonteCarloModel<Name, ErrorName>;
  /** What is known of each input, by name. */
  readonly inputs: Inputs<Name, ErrorName>;
  /** Correlation between normal inputs, or between inputs known from as many readings. @defaultValue none */
  readonly correlations?: Correlations;
  /**
   * Where the random numbers start, a whole number of 0 or more. The same seed gives the same result to the last
   * bit, on engines whose elementary functions round alike.
   * @defaultValue 1
   */
  readonly seed?: number;
  /** Coverage probability of the intervals, at most 0.9999. @defaultValue 0.95 */
  readonly coverage?: number;
}

/** Options of a run of fixed length. */
export interface MonteCarloOptions<Name extends string = string, ErrorName extends string = never>
  extends MonteCarloJob<Name, ErrorName> {
  /**
   * Number of trials: at least 1000 and 100/(1 - coverage), so 2000 for 0.95, and at most 10 000 000.
   * @defaultValue 1 000 000 (JCGM 101, 7.2.2)
   */
  readonly trials?: number;
}

/** How a long run keeps in touch. */
export interface LongRun {
  /** Ends the run: an `AbortSignal`, or anything with this property. @defaultValue none: the run goes to its end */
  readonly signal?: {
    /** True once the run shall end. */
    readonly aborted: boolean;
  };
  /**
   * Called now and then.
   * @defaultValue nothing is called
   * @param done - Trials done.
   * @param trials - Trials in all, as far as is known.
   */
  readonly progress?: (done: number, trials: number) => void;
}

/** What a run found. */
export interface MonteCarloResult extends Moments {
  /** Number of trials. */
  readonly trials: number;
  /** Seed. */
  readonly seed: number;
  /** Coverage probability of the intervals. */
  readonly coverage: number;
  /** Interval with as much probability below as above it. */
  readonly symmetric: CoverageInterval;
  /** Shortest interval of that coverage. */
  readonly shortest: CoverageInterval;
  /** Remarks: few trials for the coverage wanted, limits whose degrees of freedom have no part. */
  readonly notes: readonly Note<keyof typeof SENTENCES>[];
}

/** Options of one part of a run. */
export interface MonteCarloPartOptions<Name extends string = string, ErrorName extends string = never>
  extends MonteCarloOptions<Name, ErrorName> {
  /** Which part to run, from 0. */
  readonly part: number;
  /** Into how many parts the run is cut. */
  readonly parts: number;
}

/** A part of a run, with all that is needed to put it together with the others. */
export interface MonteCarloPart
  extends Pick<MonteCarloPartOptions, 'part' | 'parts'>,
    Pick<MonteCarloResult, 'trials' | 'seed' | 'coverage'> {
  /** Results of this part's trials, in their order. */
  readonly values: Float64Array | readonly number[];
  /** Inputs with degrees of freedom of their limits, which have no part in the draws. @defaultValue 0 */
  readonly freedomIgnored?: number;
}

/** Fewest trials that tell anything of the ends of an interval (JCGM 101, 7.9.4 b). */
export function leastTrials(coverage: number): number {
  return Math.max(1000, Math.ceil(100 / (1 - coverage) - 1e-6));
}

/** Most trials: 80 MB of results. */
export const MOST_TRIALS = 1e7;
const SEED = whole({ min: 0, max: Number.MAX_SAFE_INTEGER });
const COVERAGE = number({ above: 0, max: 0.9999 });
const TRIALS = whole({ min: 1000, max: MOST_TRIALS });

/** Readers of what all runs have in common. */
export const JOB: Fields<MonteCarloJob, 'seed' | 'coverage'> = {
  model: monteCarloModel,
  inputs: later(),
  correlations: optional(later()),
  seed: defaulted(SEED, 1),
  coverage: defaulted(COVERAGE, 0.95),
};
/** Readers of how a long run keeps in touch. */
export const LONG_RUN: Fields<LongRun> = { signal: optional(later()), progress: optional(callable()) };

type Defaults = 'seed' | 'coverage' | 'trials';
const RUN: Fields<MonteCarloOptions, Defaults> = { ...JOB, trials: defaulted(TRIALS, 1_000_000) };
const LONG: Fields<MonteCarloOptions & LongRun, Defaults> = { ...RUN, ...LONG_RUN };
const PART: Fields<MonteCarloPartOptions, Defaults> = {
  ...RUN,
  parts: whole({ min: 1, max: MOST_TRIALS / BLOCK }),
  part: whole({ min: 0 }),
};

/** Refuses fewer trials than tell anything at a coverage. */
export function refuseFewer(least: number, parameter: string, trials: number, coverage: number): void {
  if (trials >= least) return;
  const phrase = `must be a whole number, at least ${least} for a coverage of ${coverage}`;
  refuse('out-of-range', parameter, trials, { kind: 'number', min: least, max: MOST_TRIALS, whole: true, phrase });
}

function readyRun(job: Filled<MonteCarloOptions, Defaults>): Trials {
  refuseFewer(leastTrials(job.coverage), 'trials', job.trials, job.coverage);
  return readTrials(job);
}

function* run(job: Filled<MonteCarloOptions, Defaults>): Generator<number, MonteCarloResult> {
  const ready = readyRun(job);
  const values = new Float64Array(job.trials);
  yield* runTrials(ready, job.seed, 0, values);
  return summarise(values, job, ready.freedomIgnored);
}

/**
 * Monte Carlo estimate of a result's distribution.
 * @throws GeneratrixError for options that are none, and `not-representable`, naming the inputs of the trial,
 * if the function gives anything but a finite number.
 * @example
 * ```ts
 * import { monteCarlo } from 'generatrix/budget';
 * const { mean, symmetric } = monteCarlo({
 *   model: ({ bar, sine }) => bar * sine,
 *   inputs: { bar: { value: 100, plusMinus: 0.002 }, sine: { value: 0.5, standardUncertainty: 0.00002 } },
 *   trials: 100_000,
 * });
 * mean.toFixed(4); // => '50.0000'
 * (symmetric.high - symmetric.low).toFixed(3); // => '0.008'
 * ```
 */
export function monteCarlo<Name extends string, ErrorName extends string = never>(
  options: MonteCarloOptions<Name, ErrorName>,
): MonteCarloResult {
  return drain(run(read(options, RUN)));
}

/**
 * The same as {@link monteCarlo}, in slices of a few hundredths of a second, so that the page or the server stays
 * alive; it can report and be ended.
 * @returns The same result to the last bit.
 * @throws GeneratrixError as {@link monteCarlo}, and `aborted`.
 * @example
 * ```ts
 * import { monteCarlo, monteCarloAsync } from 'generatrix/budget';
 * const job = { model: ({ a, b }) => a / b, inputs: { a: { from: 1, to: 2 }, b: { from: 4, to: 5 } }, trials: 10_000 };
 * (await monteCarloAsync(job)).mean === monteCarlo(job).mean; // => true
 * ```
 */
export async function monteCarloAsync<Name extends string, ErrorName extends string = never>(
  options: MonteCarloOptions<Name, ErrorName> & LongRun,
): Promise<MonteCarloResult> {
  const job = read(options, LONG);
  return pace(run(job), job.trials, job);
}

/**
 * One part of a run, for a worker of its own. Parts hold whole blocks of 1000 trials,
 * and go to {@link mergeMonteCarlo}.
 * @throws GeneratrixError as {@link monteCarlo}.
 * @example
 * ```ts
 * import { mergeMonteCarlo, monteCarlo, monteCarloPart } from 'generatrix/budget';
 * const job = { model: ({ a }) => a * a, inputs: { a: { value: 1, plusMinus: 0.5 } }, trials: 10_000 };
 * const parts = [0, 1, 2].map((part) => monteCarloPart({ ...job, part, parts: 3 }));
 * mergeMonteCarlo(parts).standardUncertainty === monteCarlo(job).standardUncertainty; // => true
 * ```
 */
export function monteCarloPart<Name extends string, ErrorName extends string = never>(
  options: MonteCarloPartOptions<Name, ErrorName>,
): MonteCarloPart {
  const job = read(options, PART);
  const { part, parts, trials, seed, coverage } = job;
  const ready = readyRun(job);
  readValue(part, whole({ min: 0, max: parts - 1 }), 'part');
  const { from, to } = partBounds(part, parts, trials);
  const values = new Float64Array(to - from);
  drain(runTrials(ready, seed, from / BLOCK, values));
  return { part, parts, trials, seed, coverage, values, freedomIgnored: ready.freedomIgnored };
}

/**
 * Puts the parts of a run together, in whatever order they arrive.
 * @param parts - All parts of one run; paths of refusals start with `parts`.
 * @returns What the run in one piece gives, to the last bit.
 * @throws GeneratrixError `contradiction`, if they are not all the parts of one run.
 * @example
 * ```ts
 * import { mergeMonteCarlo, monteCarloPart } from 'generatrix/budget';
 * const job = { model: ({ a }) => 2 * a, inputs: { a: { from: 0, to: 1 } }, trials: 2000, parts: 2 };
 * mergeMonteCarlo([monteCarloPart({ ...job, part: 1 }), monteCarloPart({ ...job, part: 0 })]).trials; // => 2000
 * mergeMonteCarlo([monteCarloPart({ ...job, part: 1 })]); // throws contradiction
 * ```
 */
export function mergeMonteCarlo(parts: readonly MonteCarloPart[]): MonteCarloResult {
  const given = readValue(parts, array(ONE_PART, 1), 'parts');
  const first = given[0] as MonteCarloPart;
  const { seed, trials, coverage } = first;
  const values = new Float64Array(trials);
  const missing = new Set(given.keys());
  for (const [i, one] of given.entries()) {
    const path = `parts[${i}]`;
    if (one.parts !== given.length || one.trials !== trials || one.seed !== seed || one.coverage !== coverage) {
      refuse('contradiction', path, one, 'must be one of as many parts of the same run');
    }
    if (!missing.delete(one.part)) refuse('contradiction', `${path}.part`, one.part, 'must be there once');
    const { from, to } = partBounds(one.part, one.parts, trials);
    if (one.values.length !== to - from) {
      refuse('contradiction', `${path}.values`, one.values.length, `must hold ${to - from} results`);
    }
    for (let k = 0; k < one.values.length; k++) {
      values[from + k] = readValue(one.values[k], anyNumber, `${path}.values[${k}]`);
    }
  }
  return summarise(values, first, first.freedomIgnored);
}

const ONE_PART: Reader<MonteCarloPart> = object<MonteCarloPart>({
  part: whole({ min: 0 }),
  parts: whole({ min: 1 }),
  trials: TRIALS,
  seed: SEED,
  coverage: COVERAGE,
  values: either((given) => given instanceof Float64Array, later<Float64Array>(), array<number>(later()), {
    kind: 'array',
    phrase: 'must be an array of results',
  }),
  freedomIgnored: optional(whole({ min: 0 })),
});

/** The trials of a part: whole blocks, as evenly as they go. */
function partBounds(part: number, parts: number, trials: number): { readonly from: number; readonly to: number } {
  const blocks = Math.ceil(trials / BLOCK);
  const start = (k: number): number => Math.min(trials, Math.floor((blocks * k) / parts) * BLOCK);
  return { from: start(part), to: part + 1 === parts ? trials : start(part + 1) };
}

/** What the results of all trials say. */
export function summarise(
  values: Float64Array,
  { seed, coverage }: Pick<MonteCarloResult, 'seed' | 'coverage'>,
  ignored = 0,
): MonteCarloResult {
  const trials = values.length;
  const found = moments(values);
  representable(found.standardUncertaintyError, 'inputs');
  const advised = Math.ceil(1e4 / (1 - coverage) - 1e-6);
  const notes: Note<keyof typeof SENTENCES>[] = [];
  if (trials < advised) notes.push(note(SENTENCES, 'few-trials', { trials, advised }));
  if (ignored > 0) notes.push(note(SENTENCES, 'degrees-of-freedom-ignored', { inputs: ignored }));
  return { trials, seed, coverage, ...found, ...coverageIntervals(values, coverage), notes };
}

/** Runs to the end. */
export function drain<T>(run: Iterator<number, T>): T {
  for (;;) {
    const { done, value } = run.next();
    if (done) return value;
  }
}

declare const setTimeout: (then: () => void, milliseconds: number) => unknown;

/** Milliseconds between pauses: long against a pause, short enough to feel alive. */
const SLICE = 40;

/** Runs to the end, pausing after each slice of time. */
export async function pace<T>(run: Iterator<number, T>, trials: number, { signal, progress }: LongRun): Promise<T> {
  let from = Date.now();
  for (;;) {
    const { done, value } = run.next();
    if (signal?.aborted) refuse('aborted', 'signal', signal, 'ended the run');
    if (done) return value;
    if (Date.now() - from < SLICE && value < trials) continue;
    progress?.(value, trials);
    await new Promise<void>((resume) => setTimeout(resume, 0));
    from = Date.now();
  }
}
