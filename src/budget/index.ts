/**
 * Error budgets of any model.
 *
 * @module budget
 */
export { type Dual, degrees, dualArithmetic, plainArithmetic, radians, variable } from './arithmetic.js';
export type { Correlation, CorrelationMatrix, Correlations } from './correlation.js';
export { type BoundedShape, type Distribution, type Input, type KnownInput, readInput, type Spread } from './inputs.js';
export type { Arithmetic, Model, Quantity } from './model.js';
export { coverageFactor } from './student.js';
