/**
 * Do two results agree? Judged by the uncertainty of their difference, in which everything that both share
 * cancels. Source: JCGM 100:2008, clause 5 for the difference; ISO/IEC 17043 for the normalised error.
 */
import { refuse } from '../core/errors.js';
import {
  array,
  defaulted,
  type Fields,
  object,
  optional,
  read,
  readValue,
  representable,
  statedAt,
  text,
} from '../core/read.js';
import { plainArithmetic } from './arithmetic.js';
import type { Correlations } from './correlation.js';
import { type Budget, type BudgetOptions, budget, coverage } from './first-order.js';
import { type BudgetFunction, budgetFunction, type Inputs, later, quantityOf, readInputs } from './functions.js';
import type { Input } from './inputs.js';
import { type KnownInput, readInput } from './known.js';
import type { Arithmetic, Model, Quantity } from './model.js';
import { studentBelow } from './student.js';

/** One of two results: stated like any input, or as the function and the inputs that it comes from. */
export type ComparedResult<Name extends string = string, ErrorName extends string = never> =
  | Input
  | {
      /** A model of the library, or any pure function of named numbers. */
      readonly model: BudgetFunction<Name, ErrorName>;
      /** What is known of each input, by name. */
      readonly inputs: Inputs<Name, ErrorName>;
    };

/** What to compare. */
export interface ComparisonOptions<
  First extends string = string,
  Second extends string = string,
  FirstError extends string = never,
  SecondError extends string = never,
> {
  /** One result. */
  readonly first: ComparedResult<First, FirstError>;
  /** The other result. */
  readonly second: ComparedResult<Second, SecondError>;
  /**
   * Names of inputs that are one and the same quantity in both: the same instrument, the same room.
   * @defaultValue none
   */
  readonly shared?: readonly string[];
  /**
   * Correlations. Inputs are named `first.x` and `second.x`, shared ones by their name alone; results without
   * inputs `first` and `second`.
   * @defaultValue none
   */
  readonly correlations?: Correlations;
  /** Coverage probability, or a fixed coverage factor. @defaultValue 0.95 */
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
 * @param options - The two results, and what they share; see {@link ComparisonOptions}.
 * @returns The difference, whether it can be chance, and its budget.
 * @throws GeneratrixError `contradiction` if a shared input is not stated alike on both sides, `out-of-range`
 * if it is not there, and the codes of {@link budget}.
 * @example
 * ```ts
 * import { compareResults } from 'generatrix/budget';
 * const apart = compareResults({
 *   first: { value: 25.012, standardUncertainty: 0.003 },
 *   second: { value: 25.002, standardUncertainty: 0.004 },
 * });
 * apart.agrees; // => false
 * apart.normalisedError?.toFixed(2); // => '1.02'
 * ```
 */
export function compareResults<
  First extends string,
  Second extends string,
  FirstError extends string = never,
  SecondError extends string = never,
>(options: ComparisonOptions<First, Second, FirstError, SecondError>): Comparison {
  const result = budgetOfDifference(options);
  const { value, standardUncertainty: u, expandedUncertainty, coverageDegreesOfFreedom } = result;
  return {
    difference: value,
    agrees: Math.abs(value) <= expandedUncertainty,
    normalisedError: u === 0 ? null : representable(value / expandedUncertainty, 'first'),
    probability: u === 0 ? Number(value === 0) : 2 * studentBelow(-Math.abs(value) / u, coverageDegreesOfFreedom),
    budget: result,
  };
}

interface Side {
  readonly model: BudgetFunction;
  /** Name in the budget of the difference, by name in the function. */
  readonly names: ReadonlyMap<string, string>;
  /** What is known of each input, as stated and as read. */
  readonly inputs: ReadonlyMap<string, { readonly stated: Input; readonly known: KnownInput }>;
}

const OPTIONS: Fields<ComparisonOptions, 'shared' | 'coverage'> = {
  first: later(),
  second: later(),
  shared: defaulted(array(text()), []),
  correlations: optional(later()),
  coverage: defaulted(coverage, 0.95),
};
const SIDE = object<{ readonly model: BudgetFunction; readonly inputs: Inputs }>({
  model: budgetFunction,
  inputs: later(),
});

function budgetOfDifference(options: unknown): Budget {
  const given = read(options, OPTIONS);
  const { shared } = given;
  const [first, second] = [side(given.first, 'first', shared), side(given.second, 'second', shared)];
  for (const [i, name] of shared.entries()) {
    const [a, b] = [first, second].map(({ inputs }) => JSON.stringify({ ...inputs.get(name)?.known, name: '' }));
    if (a !== b) refuse('contradiction', `shared[${i}]`, name, 'must be stated alike in both results');
  }
  const inputs = [first, second].flatMap(({ names, inputs: by }) =>
    [...names].map(([name, full]) => [full, by.get(name)?.stated as Input] as const),
  );
  const call = { model: difference(first, second), inputs: Object.fromEntries(inputs), coverage: given.coverage };
  const { correlations } = given;
  return statedAt(
    (parameter) => ownPath(parameter, { first, second }),
    () => budget(correlations === undefined ? call : { ...call, correlations }),
  );
}

/** Where the caller stated what stands at a path in the options of the budget; '' where it is none of the options. */
function ownPath(parameter: string, sides: Readonly<Record<'first' | 'second', Side>>): string {
  for (const [label, { model, names }] of Object.entries(sides)) {
    for (const [name, full] of names) {
      if (parameter === `inputs.${full}`) return model === IDENTITY ? label : `${label}.inputs.${name}`;
    }
  }
  return /^(?:inputs|model)\b/.test(parameter) ? '' : parameter;
}

function side(given: ComparedResult, label: string, shared: readonly string[]): Side {
  if (typeof given !== 'object' || given === null || !Object.hasOwn(given, 'model')) {
    const known = readInput(given, label);
    if (shared.length > 0)
      refuse('out-of-range', 'shared[0]', shared[0], `must be an input of ${label}, which has none`);
    return {
      model: IDENTITY,
      names: new Map([['result', label]]),
      inputs: new Map([['result', { stated: given as Input, known }]]),
    };
  }
  const { model, inputs } = readValue(given, SIDE, label);
  const stated = new Map(Object.entries(inputs));
  const known = readInputs(model, inputs, `${label}.inputs`);
  for (const [i, name] of shared.entries()) {
    if (!stated.has(name)) refuse('out-of-range', `shared[${i}]`, name, `must be an input of ${label}`);
  }
  return {
    model,
    names: new Map(known.map(({ name }) => [name, shared.includes(name) ? name : `${label}.${name}`])),
    inputs: new Map(known.map((one) => [one.name, { stated: stated.get(one.name) ?? 0, known: one }])),
  };
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
    [...names].map(([name, full]) => [full, quantityOf(k === 0 ? a : b, name) as Quantity] as const),
  );
  return {
    name: 'difference',
    result: { kind: a.result.kind, meaning: 'difference of two results' },
    inputs: Object.fromEntries(quantities),
    evaluate: <T>(m: Arithmetic<T>, inputs: Readonly<Record<string, T>>): T =>
      m.subtract(a.evaluate(m, pick(first, inputs)), b.evaluate(m, pick(second, inputs))),
  };
}
