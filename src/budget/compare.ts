/**
 * Do two results agree? Judged by the uncertainty of their difference, in which everything that both share
 * cancels. Source: JCGM 100:2008, clause 5 for the difference; ISO/IEC 17043 for the normalised error.
 */
import { list, options, text } from '../core/checks.js';
import { refuse } from '../core/errors.js';
import { plainArithmetic } from './arithmetic.js';
import type { Correlations } from './correlation.js';
import type { BudgetFunction } from './derivatives.js';
import { type Budget, type BudgetOptions, budget, readFunction, readInputsOf } from './first-order.js';
import { type Input, readInput } from './inputs.js';
import type { Arithmetic, Model, Quantity } from './model.js';
import { studentBelow } from './student.js';

/** One of two results: stated like any input, or as the function and the inputs that it comes from. */
export type ComparedResult =
  | Input
  | {
      /** A model of the library, or any pure function of named numbers. */
      readonly model: BudgetFunction;
      /** What is known of each input, by name. */
      readonly inputs: Readonly<Record<string, Input>>;
    };

/** What to compare. */
export interface ComparisonOptions {
  /** One result. */
  readonly first: ComparedResult;
  /** The other result. */
  readonly second: ComparedResult;
  /** Names of inputs that are one and the same quantity in both: the same instrument, the same room. */
  readonly shared?: readonly string[];
  /**
   * Correlations. Inputs are named `first.x` and `second.x`, shared ones by their name alone; results without
   * inputs `first` and `second`.
   */
  readonly correlations?: Correlations;
  /** Coverage probability, 0.95 by default, or a fixed coverage factor. */
  readonly coverage?: Required<BudgetOptions>['coverage'];
}

/** What a comparison says. */
export interface Comparison {
  /** First result less the second. */
  readonly difference: number;
  /** Whether the difference is no more than its expanded uncertainty. */
  readonly agrees: boolean;
  /** Normalised error: difference over its expanded uncertainty, with its sign; null if both are known exactly. */
  readonly normalisedError: number | null;
  /** Probability of a difference at least as large, either way, if both results were of one true value. */
  readonly probability: number;
  /** The budget of the difference. */
  readonly budget: Budget;
}

/**
 * Compares two results by the uncertainty of their difference.
 *
 * @param options - The two results, and what they share; see {@link ComparisonOptions}.
 * @returns The difference, whether it can be chance, and its budget.
 * @throws {@link GeneratrixError} `contradiction` if a shared input is not stated alike on both sides, `out-of-range`
 * if it is not there, and the codes of {@link budget}.
 *
 * @example
 * ```ts
 * import { compare } from 'generatrix/budget';
 * const apart = compare({
 *   first: { value: 25.012, standardUncertainty: 0.003 },
 *   second: { value: 25.002, standardUncertainty: 0.004 },
 * });
 * apart.agrees; // => false
 * apart.normalisedError?.toFixed(2); // => '1.02'
 * ```
 */
export function compare(options: ComparisonOptions): Comparison {
  const result = budget(readComparison(options));
  const { value, standardUncertainty: u, expandedUncertainty, coverageDegreesOfFreedom } = result;
  return {
    difference: value,
    agrees: Math.abs(value) <= expandedUncertainty,
    normalisedError: u === 0 ? null : value / expandedUncertainty,
    probability: u === 0 ? Number(value === 0) : 2 * studentBelow(-Math.abs(value) / u, coverageDegreesOfFreedom),
    budget: result,
  };
}

interface Side {
  readonly model: BudgetFunction;
  /** Name in the budget of the difference, by name in the function. */
  readonly names: ReadonlyMap<string, string>;
  readonly inputs: Readonly<Record<string, Input>>;
}

function readComparison(given: ComparisonOptions): BudgetOptions {
  options(given, 'options', ['first', 'second'], ['shared', 'correlations', 'coverage']);
  const shared = list(given.shared ?? [], 'shared').map((name, i) => text(name, `shared[${i}]`));
  const [first, second] = [side(given.first, 'first', shared), side(given.second, 'second', shared)];
  for (const name of shared) {
    if (
      JSON.stringify(readInput(first.inputs[name] as Input)) !== JSON.stringify(readInput(second.inputs[name] as Input))
    ) {
      refuse('contradiction', `shared.${name}`, name, 'must be stated alike in both results');
    }
  }
  const inputs = Object.fromEntries(
    [first, second].flatMap(({ names, inputs: by }) => [...names].map(([name, full]) => [full, by[name] as Input])),
  );
  const { correlations, coverage } = given;
  return {
    model: difference(first, second),
    inputs,
    ...(correlations === undefined ? {} : { correlations }),
    ...(coverage === undefined ? {} : { coverage }),
  };
}

function side(given: ComparedResult, label: string, shared: readonly string[]): Side {
  if (typeof given === 'number' || !('model' in given)) {
    if (shared.length > 0) refuse('out-of-range', 'shared', shared[0], `must be an input of ${label}, which has none`);
    return { model: IDENTITY, names: new Map([['result', label]]), inputs: { result: given } };
  }
  const { inputs } = options(given, label, ['model', 'inputs']) as { inputs: Readonly<Record<string, Input>> };
  const model = readFunction(given.model);
  readInputsOf(model, inputs);
  for (const name of shared) {
    if (inputs[name] === undefined) refuse('out-of-range', 'shared', name, `must be an input of ${label}`);
  }
  const names = Object.keys(inputs).map((name) => [name, shared.includes(name) ? name : `${label}.${name}`] as const);
  return { model, names: new Map(names), inputs };
}

const IDENTITY: Model<'result'> = {
  name: 'result',
  result: { kind: 'number', meaning: 'result' },
  inputs: { result: { kind: 'number', meaning: 'result as stated' } },
  evaluate: (_, { result }) => result,
};

/** First less second: a model where both are, else a plain function. */
function difference(first: Side, second: Side): BudgetFunction {
  const pick = <T>({ names }: Side, inputs: Readonly<Record<string, T>>): Readonly<Record<string, T>> =>
    Object.fromEntries([...names].map(([name, full]) => [name, inputs[full] as T]));
  const [a, b] = [first.model, second.model];
  if (typeof a === 'function' || typeof b === 'function') {
    const number = (f: BudgetFunction, inputs: Readonly<Record<string, number>>): number =>
      typeof f === 'function' ? f(inputs) : f.evaluate(plainArithmetic, inputs);
    return (inputs) => number(a, pick(first, inputs)) - number(b, pick(second, inputs));
  }
  const quantities = [first, second].flatMap(({ names }, k) =>
    [...names].map(([name, full]) => [full, (k === 0 ? a : b).inputs[name] as Quantity] as const),
  );
  return {
    name: 'difference',
    result: { kind: a.result.kind, meaning: 'difference of two results' },
    inputs: Object.fromEntries(quantities),
    evaluate: <T>(m: Arithmetic<T>, inputs: Readonly<Record<string, T>>): T =>
      m.subtract(a.evaluate(m, pick(first, inputs)), b.evaluate(m, pick(second, inputs))),
  };
}
