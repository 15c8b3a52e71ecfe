/**
 * Error budgets of any model.
 *
 * @module budget
 */
export type { Arithmetic, Model, Quantity } from './model.js';
