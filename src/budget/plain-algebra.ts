/** Algebra of ordinary numbers: a file of its own, so that who measures without angles carries no trigonometry. */
import type { Algebra } from './model.js';

/** The operations on ordinary numbers. */
export const plainAlgebra: Algebra<number> = {
  constant: (value) => value,
  add: (a, b) => a + b,
  subtract: (a, b) => a - b,
  multiply: (a, b) => a * b,
  divide: (a, b) => a / b,
  negate: (a) => -a,
  square: (a) => a * a,
  sqrt: Math.sqrt,
  abs: Math.abs,
};
