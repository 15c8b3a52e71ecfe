/**
 * What first and second order need of a function: its value and its derivatives at the estimates, exact for a
 * model (dual numbers), extrapolated with a stated error for any other function.
 */
import { refuse } from '../core/errors.js';
import { representable } from '../core/read.js';
import { type Dual, dualArithmetic, plainArithmetic, variable } from './arithmetic.js';
import { differences, type Estimated } from './differences.js';
import type { BudgetFunction } from './functions.js';
import type { Model } from './model.js';

/** Value and derivatives at a point; variables are numbered in the order of their names. */
export interface Derivatives {
  /** How the derivatives were found. */
  readonly kind: 'exact' | 'numerical';
  /** Value of the function. */
  readonly value: number;
  /** First derivatives. */
  readonly first: readonly Estimated[];
  /** Second derivatives ∂²f/∂xᵢ∂xⱼ and third ones ∂³f/∂xᵢ∂xⱼ², for all i, for one j. */
  readonly higher: (j: number) => { readonly second: readonly Estimated[]; readonly third: readonly Estimated[] };
}

/**
 * Derivatives of a function at `point`. `scale` holds how far each input is expected to move, which is the step
 * that numerical differences start from.
 */
export function derivatives(
  f: BudgetFunction,
  names: readonly string[],
  point: readonly number[],
  scale: readonly number[],
): Derivatives {
  return typeof f === 'function' ? numerical(f, names, point, scale) : exact(f, names, point);
}

/** The function's value as a number that is one, at named inputs. */
export function valueAt(f: BudgetFunction, inputs: Readonly<Record<string, number>>): number {
  const value: unknown = typeof f === 'function' ? f(inputs) : f.evaluate(plainArithmetic, inputs);
  if (typeof value !== 'number') return refuse('wrong-kind', 'model', value, 'must give a number');
  return representable(value, 'model');
}

/** Numbers by name, as functions take them. */
export function byName<T>(names: readonly string[], values: readonly T[]): Record<string, T> {
  return Object.fromEntries(names.map((name, i) => [name, values[i] as T]));
}

const certain = (value: number | undefined): Estimated => ({ value: value ?? 0, error: 0 });

function exact(model: Model, names: readonly string[], point: readonly number[]): Derivatives {
  const first = dualArithmetic(plainArithmetic);
  const result = model.evaluate(
    first,
    byName(
      names,
      point.map((x, i) => variable(plainArithmetic, x, i)),
    ),
  );
  return {
    kind: 'exact',
    value: representable(result.value, 'model'),
    first: names.map((_, i) => certain(result.partials[i])),
    // Twice along j, then along every variable: dual numbers over dual numbers over dual numbers.
    higher: (j) => {
      const second = dualArithmetic(first);
      const third = dualArithmetic(second);
      const inputs = point.map((x, i): Dual<Dual<Dual<number>>> => {
        const inner = i === j ? variable(plainArithmetic, x, 0) : first.constant(x);
        const middle = i === j ? variable(first, inner, 0) : { value: inner, partials: [] };
        return variable(second, middle, i);
      });
      const { partials } = model.evaluate(third, byName(names, inputs));
      return {
        second: names.map((_, i) => certain(partials[i]?.value.partials[0])),
        third: names.map((_, i) => certain(partials[i]?.partials[0]?.partials[0])),
      };
    },
  };
}

function numerical(
  f: (inputs: Readonly<Record<string, number>>) => number,
  names: readonly string[],
  point: readonly number[],
  scale: readonly number[],
): Derivatives {
  const value = valueAt(f, byName(names, point));
  if (!Object.is(f(byName(names, point)), value)) {
    refuse('contradiction', 'model', value, 'must give the same result for the same inputs');
  }
  // No smaller than 2^-10 of the estimate: below, rounding would drown the difference.
  const steps = scale.map((u, i) => Math.max(u, Math.abs(point[i] as number) / 1024) || 1);
  // One object for all evaluations: with many inputs, making it would take longer than the function.
  const inputs: Record<string, number> = byName(names, point);
  const by = differences(
    (shifts) => {
      for (const [i, x] of shifts) inputs[names[i] as string] = x;
      const found = f(inputs);
      for (const [i] of shifts) inputs[names[i] as string] = point[i] as number;
      return found;
    },
    point,
    steps,
  );
  return {
    kind: 'numerical',
    value,
    first: names.map((_, i) => by.first(i)),
    higher: (j) => ({ second: names.map((_, i) => by.second(i, j)), third: names.map((_, i) => by.third(i, j)) }),
  };
}
