/**
 * How well a measurement is known, from the limits of the instruments it was taken with. Every measurement of
 * this room has a model whose inputs bear the names of the function's own options; this puts what was read
 * beside how far each reading may be off.
 */
import { type Budget, type BudgetOptions, budget, coverage } from '../budget/first-order.js';
import { type ByInput, quantityOf, readByName, wholeModel } from '../budget/functions.js';
import type { Input } from '../budget/inputs.js';
import type { Model } from '../budget/model.js';
import { refuse } from '../core/errors.js';
import { anyNumber, type Fields, later, nonNegative, optional, read, statedAt } from '../core/read.js';

/** A measurement and its instruments. */
export interface MeasurementBudgetOptions<Name extends string, ErrorName extends string = never> {
  /** Model of the measurement: `boreFromTwoBallsModel`, `sineBarModel`, … */
  readonly model: Model<Name, ErrorName>;
  /** What was read, by name; an error that is left out is 0. */
  readonly values: Readonly<Record<Name, number>> & Readonly<Partial<Record<ErrorName, number>>>;
  /**
   * How far each may be off, either way, by name: the instrument's own limit, any value within it being as
   * likely as another. What is left out is taken as exact.
   */
  readonly limits: ByInput<Name | ErrorName, number>;
  /** Coverage probability, 0.95 by default, or a fixed coverage factor. */
  readonly coverage?: Exclude<BudgetOptions['coverage'], undefined>;
}

const OPTIONS: Fields<MeasurementBudgetOptions<string>> = {
  model: wholeModel,
  values: later(),
  limits: later(),
  coverage: optional(coverage),
};

/**
 * The uncertainty of a measurement from its instruments' limits: the error budget of first order of its model.
 *
 * For readings that are better known in another way (repeated, with a certificate's expanded uncertainty,
 * correlated) call `budget` with the same model; `monteCarlo` and `worstCase` take it, too.
 * @returns The budget: value, expanded uncertainty, and a row per reading that says what it contributes.
 * @throws GeneratrixError `unknown-option` or `missing-option` for names that are not the model's; `out-of-range`
 * for a negative limit; the codes of `budget`.
 * @example
 * ```ts
 * import { boreFromTwoBallsModel, measurementBudget } from 'generatrix';
 * const { value, expandedUncertainty, rows } = measurementBudget({
 *   model: boreFromTwoBallsModel,
 *   values: { smallBall: 10, largeBall: 12, smallTopDepth: 45, largeTopDepth: 4 },
 *   limits: { smallBall: 0.001, largeBall: 0.001, smallTopDepth: 0.02, largeTopDepth: 0.02 },
 * });
 * `${value.toFixed(4)} ± ${expandedUncertainty.toFixed(4)}`; // => '1.4325 ± 0.0016'
 * rows.map(({ name }) => name); // => ['smallBall', 'largeBall', 'smallTopDepth', 'largeTopDepth']
 * ```
 */
export function measurementBudget<Name extends string, ErrorName extends string = never>(
  options: MeasurementBudgetOptions<Name, ErrorName>,
): Budget {
  const { model, coverage, ...given } = read(options, OPTIONS);
  const names = Object.keys(model.inputs);
  const values = readByName(given.values, anyNumber, names, 'values');
  const limits = readByName(given.limits, nonNegative, names, 'limits');
  const inputs = names.map((name): [string, Input] => {
    const error = quantityOf(model, name)?.isError && 0;
    const value = values.get(name) ?? error ?? refuse('missing-option', `values.${name}`, undefined, 'must be given');
    return [name, { value, plusMinus: limits.get(name) ?? 0 }];
  });
  const call = { model, inputs: Object.fromEntries(inputs) };
  return statedAt(
    (parameter) => parameter.replace(/^inputs\b/, 'values').replace(/^values$|^model\..*/, ''),
    () => budget(coverage === undefined ? call : { ...call, coverage }),
  );
}
