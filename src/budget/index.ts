/**
 * Error budgets of any model.
 *
 * @module budget
 */
export { type Dual, degrees, dualArithmetic, plainArithmetic, radians, variable } from './arithmetic.js';
export type { Correlation, CorrelationMatrix, Correlations } from './correlation.js';
export type { BudgetFunction } from './derivatives.js';
export { type Budget, type BudgetOptions, type BudgetRow, budget } from './first-order.js';
export { type BoundedShape, type Distribution, type Input, type KnownInput, readInput, type Spread } from './inputs.js';
export type { Arithmetic, Model, Quantity } from './model.js';
export type { SecondOrder } from './second-order.js';
export { coverageFactor } from './student.js';
