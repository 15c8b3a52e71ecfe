/**
 * The trials of a Monte Carlo run: draw all inputs, evaluate the function, block after block. A block is the unit
 * of reproducibility: it is the same numbers whoever runs it, so a run may be cut anywhere between blocks.
 */
import { refuse } from '../core/errors.js';
import { either, later, type Reader } from '../core/read.js';
import { batchArithmetic } from './batch.js';
import { type Correlations, readCorrelations } from './correlation.js';
import { type DrawBlock, drawTogether } from './draw.js';
import { freedomIgnored } from './freedom.js';
import { type BudgetFunction, budgetFunction, byName, readInputs } from './functions.js';
import type { NamedInput } from './known.js';

/** A function that works through many trials in one call: the fastest way to bring a function of one's own. */
export interface BatchFunction<Name extends string = string> {
  /**
   * Writes the first `count` results.
   * @param columns - Values of each input by name, one for each trial; not to be changed or kept.
   * @param count - How many trials there are; columns may be longer.
   * @param results - Where the results go.
   */
  readonly batch: (columns: Readonly<Record<Name, Float64Array>>, count: number, results: Float64Array) => void;
}

/**
 * What a Monte Carlo run can evaluate: a model, a function of one's own, or one that takes many trials at once. A
 * function must be pure; the object of inputs that it gets is used again for the next trial, so it must not be kept.
 */
export type MonteCarloModel<Name extends string = string, ErrorName extends string = never> =
  | BudgetFunction<Name, ErrorName>
  | BatchFunction<Name | ErrorName>;

const isBatch = (model: unknown): model is BatchFunction =>
  typeof model === 'object' &&
  model !== null &&
  Object.hasOwn(model, 'batch') &&
  typeof (model as BatchFunction).batch === 'function';

/** Reads what a run can evaluate. */
export const monteCarloModel: Reader<MonteCarloModel> = either(isBatch, later<BatchFunction>(), budgetFunction, {
  kind: 'function',
  phrase: 'must be a model, a function, or an object with a function `batch`',
});

/** Trials in a block; small enough for its columns to stay in a processor's cache. */
export const BLOCK = 1000;

/** Evaluates `count` trials whose inputs stand in columns. */
type Evaluate = (columns: readonly Float64Array[], count: number, results: Float64Array) => void;

/** A run made ready: what to draw and what to evaluate. */
export interface Trials {
  /** Names of the inputs, in the order of the columns. */
  readonly names: readonly string[];
  /** Draws a block of inputs. */
  readonly draw: DrawBlock;
  /** Evaluates a block. */
  readonly evaluate: Evaluate;
  /** How many inputs state degrees of freedom of their limits, which no distribution of JCGM 101, table 1, takes in. */
  readonly freedomIgnored: number;
}

/** Reads what is to be run. */
export function readTrials(job: {
  readonly model: MonteCarloModel;
  readonly inputs: unknown;
  readonly correlations?: Correlations;
}): Trials {
  const { model } = job;
  const inputs = readInputs(isBatch(model) ? null : model, job.inputs);
  const names = inputs.map(({ name }) => name);
  const draw = drawTogether(inputs, readCorrelations(job.correlations, names));
  return { names, draw, evaluate: evaluation(model, inputs), freedomIgnored: freedomIgnored(inputs) };
}

function evaluation(model: MonteCarloModel, inputs: readonly NamedInput[]): Evaluate {
  if (typeof model === 'function') return oneByOne(model, inputs);
  const named = (columns: readonly Float64Array[]): Record<string, Float64Array> =>
    byName(inputs, (_, i) => columns[i] as Float64Array);
  if (isBatch(model)) return (columns, count, results) => model.batch(named(columns), count, results);
  const { arithmetic, restart } = batchArithmetic(BLOCK);
  return (columns, count, results) => {
    restart();
    results.set(model.evaluate(arithmetic, named(columns)).subarray(0, count));
  };
}

function oneByOne(evaluate: (inputs: Record<string, number>) => number, inputs: readonly NamedInput[]): Evaluate {
  const names = inputs.map(({ name }) => name);
  const trial = byName(inputs, () => 0.5);
  return (columns, count, results) => {
    for (let i = 0; i < count; i++) {
      for (let k = 0; k < names.length; k++) trial[names[k] as string] = (columns[k] as Float64Array)[i] as number;
      results[i] = evaluate(trial);
    }
  };
}

/**
 * Runs the trials from a block's first on, as many as there is room for in `results`. Yields after each block how
 * many are done, so that the caller can report, pause or stop.
 */
export function* runTrials(
  trials: Trials,
  seed: number,
  firstBlock: number,
  results: Float64Array,
): Generator<number, void> {
  const { names, draw, evaluate } = trials;
  const columns = names.map(() => new Float64Array(BLOCK));
  for (let done = 0; done < results.length; done += BLOCK) {
    const block = firstBlock + done / BLOCK;
    const count = Math.min(BLOCK, results.length - done);
    const part = results.subarray(done, done + count);
    draw(seed, block, columns, count);
    evaluate(columns, count, part);
    for (let i = 0; i < count; i++) {
      if (!Number.isFinite(part[i])) refuseTrial(names, columns, i, block * BLOCK + i, part[i] as number);
    }
    yield done + count;
  }
}

function refuseTrial(
  names: readonly string[],
  columns: readonly Float64Array[],
  i: number,
  trial: number,
  got: number,
): never {
  const wild = names.find((_, k) => !Number.isFinite(columns[k]?.[i]));
  if (wild !== undefined) {
    const phrase = 'must have a spread within the range of floating-point numbers';
    return refuse('not-representable', `inputs.${wild}`, wild, phrase);
  }
  const values = names.map((name, k) => `${name} = ${columns[k]?.[i]}`).join(', ');
  const phrase = `must give a finite number for every trial; trial ${trial} has ${values}`;
  return refuse('not-representable', 'model', got, phrase);
}
