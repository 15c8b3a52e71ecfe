/**
 * Do two results agree? Judged by the uncertainty of their difference, in which everything that both share
 * cancels. Source: JCGM 100:2008, clause 5 for the difference; ISO/IEC 17043 for the normalised error.
 */
import { refuse } from '../core/errors.js';
import {
  array,
  defaulted,
  type Fields,
  later,
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
import { type BudgetFunction, budgetFunction, byName, type Inputs, quantityOf, readInputs } from './functions.js';
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

/** An input of one of the results. */
interface SideInput {
  readonly name: string;
  /** Its name in the budget of the difference. */
  readonly full: string;
  /** Where the caller stated it. */
  readonly path: string;
  readonly stated: Input;
  readonly known: KnownInput;
}

interface Side {
  readonly model: BudgetFunction;
  readonly inputs: readonly SideInput[];
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
  const { first: one, second: other, shared, ...rest } = read(options, OPTIONS);
  const [first, second] = [side(one, 'first', shared), side(other, 'second', shared)];
  for (const [i, name] of shared.entries()) {
    const known = ({ inputs }: Side): KnownInput | undefined => inputs.find((input) => input.name === name)?.known;
    const [a, b] = [first, second].map((of) => JSON.stringify({ ...known(of), name: '' }));
    if (a !== b) refuse('contradiction', `shared[${i}]`, name, 'must be stated alike in both results');
  }
  const all = [...first.inputs, ...second.inputs];
  const inputs = Object.fromEntries(all.map(({ full, stated }) => [full, stated]));
  const paths = new Map(all.map(({ full, path }) => [`inputs.${full}`, path]));
  // What stands in the options of the budget alone is none of the caller's: '' then.
  const own = (path: string): string => paths.get(path) ?? (/^(?:inputs|model)\b/.test(path) ? '' : path);
  return statedAt(own, () => budget({ model: difference(first, second), inputs, ...rest }));
}

function side(given: ComparedResult, label: string, shared: readonly string[]): Side {
  if (typeof given !== 'object' || given === null || !Object.hasOwn(given, 'model')) {
    const known = readInput(given, label);
    const phrase = `must be an input of ${label}, which has none`;
    if (shared.length > 0) refuse('out-of-range', 'shared[0]', shared[0], phrase);
    return { model: IDENTITY, inputs: [{ name: 'result', full: label, path: label, stated: given as Input, known }] };
  }
  const { model, inputs } = readValue(given, SIDE, label);
  const stated = new Map(Object.entries(inputs));
  const known = readInputs(model, inputs, `${label}.inputs`);
  for (const [i, name] of shared.entries()) {
    if (!stated.has(name)) refuse('out-of-range', `shared[${i}]`, name, `must be an input of ${label}`);
  }
  return {
    model,
    inputs: known.map((one) => ({
      name: one.name,
      full: shared.includes(one.name) ? one.name : `${label}.${one.name}`,
      path: `${label}.inputs.${one.name}`,
      stated: stated.get(one.name) ?? 0,
      known: one,
    })),
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
  const pick = <T>({ inputs }: Side, all: Readonly<Record<string, T>>): Readonly<Record<string, T>> =>
    byName(inputs, ({ full }) => all[full] as T);
  const [a, b] = [first.model, second.model];
  if (typeof a === 'function' || typeof b === 'function') {
    const number = (f: BudgetFunction, inputs: Readonly<Record<string, number>>): number =>
      typeof f === 'function' ? f(inputs) : f.evaluate(plainArithmetic, inputs);
    return (inputs) => number(a, pick(first, inputs)) - number(b, pick(second, inputs));
  }
  const quantities = [first, second].flatMap(({ model, inputs }) =>
    inputs.map(({ name, full }) => [full, quantityOf(model, name) as Quantity] as const),
  );
  return {
    name: 'difference',
    result: { kind: a.result.kind, meaning: 'difference of two results' },
    inputs: Object.fromEntries(quantities),
    evaluate: <T>(m: Arithmetic<T>, inputs: Readonly<Record<string, T>>): T =>
      m.subtract(a.evaluate(m, pick(first, inputs)), b.evaluate(m, pick(second, inputs))),
  };
}
