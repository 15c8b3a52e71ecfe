/**
 * How well a measurement is known, from the limits of the instruments it was taken with. Every measurement of
 * this room has a model whose inputs bear the names of the function's own options; this puts what was read
 * beside how far each reading may be off.
 */
import { type Budget, type BudgetOptions, budget } from '../budget/first-order.js';
import type { Input } from '../budget/inputs.js';
import type { Model } from '../budget/model.js';
import { number, options } from '../core/checks.js';
import { refuse } from '../core/errors.js';

/** A measurement and its instruments. */
export interface MeasurementBudgetOptions<Name extends string> {
  /** Model of the measurement: `boreFromTwoBallsModel`, `sineBarModel`, … */
  readonly model: Model<Name>;
  /** What was read, by name. */
  readonly values: Readonly<Record<Name, number>>;
  /**
   * How far each may be off, either way, by name: the instrument's own limit, any value within it being as
   * likely as another. What is left out is taken as exact.
   */
  readonly limits: Readonly<Partial<Record<Name, number>>>;
  /** Coverage probability, 0.95 by default, or a fixed coverage factor. */
  readonly coverage?: Exclude<BudgetOptions['coverage'], undefined>;
}

/**
 * The uncertainty of a measurement from its instruments' limits: the error budget of first order of its model.
 *
 * For readings that are better known in another way (repeated, with a certificate's expanded uncertainty,
 * correlated) call `budget` with the same model; `monteCarlo` and `worstCase` take it, too.
 *
 * @param request - The model, what was read and the limits; see {@link MeasurementBudgetOptions}.
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
export function measurementBudget<Name extends string>(request: MeasurementBudgetOptions<Name>): Budget {
  options(request, 'request', ['model', 'values', 'limits'], ['coverage']);
  const names = Object.keys(
    (request.model as Partial<Model<Name>>).inputs ?? refuse('wrong-kind', 'model', request.model, 'must be a model'),
  );
  const values = options(request.values, 'values', names);
  const limits = options(request.limits, 'limits', [], names);
  const inputs = Object.fromEntries(
    names.map((name): [string, Input] => {
      const value = number(values[name], `values.${name}`);
      const plusMinus = number(limits[name] ?? 0, `limits.${name}`, { min: 0 });
      return [name, { value, plusMinus }];
    }),
  );
  const { model, coverage } = request;
  return budget({ model, inputs, ...(coverage !== undefined && { coverage }) });
}
