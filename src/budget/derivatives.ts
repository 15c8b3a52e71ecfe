/**
 * What first and second order need of a function: its value and its derivatives at the estimates, exact for a
 * model (dual numbers), extrapolated with a stated error for any other function.
 */
import { refuse } from '../core/errors.js';
import { representable } from '../core/read.js';
import { type Dual, dualArithmetic, plainArithmetic, variable } from './arithmetic.js';
import { differences, type Estimated, type Slopes } from './differences.js';
import { type BudgetFunction, byName } from './functions.js';
import type { NamedInput } from './known.js';
import type { Model } from './model.js';

/** Value and derivatives at the estimates; variables are numbered in the order of the inputs. */
export interface Derivatives extends Slopes {
  /** How the derivatives were found. */
  readonly kind: 'exact' | 'numerical';
  /** Value of the function. */
  readonly value: number;
}

/** Derivatives of a function at the estimates of its inputs. */
export function derivatives(f: BudgetFunction, inputs: readonly NamedInput[]): Derivatives {
  return typeof f === 'function' ? numerical(f, inputs) : exact(f, inputs);
}

/** The function's value as a number that is one, at named inputs. */
export function valueAt(f: BudgetFunction, inputs: Readonly<Record<string, number>>): number {
  const value: unknown = typeof f === 'function' ? f(inputs) : f.evaluate(plainArithmetic, inputs);
  if (typeof value !== 'number') return refuse('wrong-kind', 'model', value, 'must give a number');
  return representable(value, 'model');
}

const certain = (value: number | undefined): Estimated => ({ value: value ?? 0, error: 0 });

function exact(model: Model, inputs: readonly NamedInput[]): Derivatives {
  const first = dualArithmetic(plainArithmetic);
  const variables = byName(inputs, ({ estimate }, i) => variable(plainArithmetic, estimate, i));
  const result = model.evaluate(first, variables);
  return {
    kind: 'exact',
    value: representable(result.value, 'model'),
    first: inputs.map((_, i) => certain(result.partials[i])),
    // Twice along j, then along every variable: dual numbers over dual numbers over dual numbers.
    higher: (j) => {
      const second = dualArithmetic(first);
      const third = dualArithmetic(second);
      const thrice = byName(inputs, ({ estimate: x }, i): Dual<Dual<Dual<number>>> => {
        const inner = i === j ? variable(plainArithmetic, x, 0) : first.constant(x);
        const middle = i === j ? variable(first, inner, 0) : { value: inner, partials: [] };
        return variable(second, middle, i);
      });
      const { partials } = model.evaluate(third, thrice);
      return {
        second: inputs.map((_, i) => certain(partials[i]?.value.partials[0])),
        third: inputs.map((_, i) => certain(partials[i]?.partials[0]?.partials[0])),
      };
    },
  };
}

/** How far each input is expected to move is the step that differences start from. */
function numerical(f: Exclude<BudgetFunction, Model>, inputs: readonly NamedInput[]): Derivatives {
  const names = inputs.map(({ name }) => name);
  const point = inputs.map(({ estimate }) => estimate);
  const value = valueAt(
    f,
    byName(inputs, ({ estimate }) => estimate),
  );
  // One object for all evaluations: with many inputs, making it would take longer than the function.
  const moved = byName(inputs, ({ estimate }) => estimate);
  if (!Object.is(f(moved), value)) {
    refuse('contradiction', 'model', value, 'must give the same result for the same inputs');
  }
  // No smaller than 2^-10 of the estimate: below, rounding would drown the difference.
  const steps = inputs.map(({ standardUncertainty: u, estimate: x }) => Math.max(u, Math.abs(x) / 1024) || 1);
  const shifted = (i: number, a: number, j = i, b = 0): number => {
    const [first, second] = [names[i] as string, names[j] as string];
    moved[first] = (point[i] as number) + a;
    moved[second] = (moved[second] as number) + b;
    const found = f(moved);
    moved[first] = point[i] as number;
    moved[second] = point[j] as number;
    return found;
  };
  return { kind: 'numerical', value, ...differences(shifted, value, point, steps) };
}
