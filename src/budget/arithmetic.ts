/**
 * The arithmetics that a model runs over: plain numbers for a value, dual numbers for exact derivatives.
 *
 * A dual number is a + b₁ε₁ + … + bₙεₙ with εᵢεⱼ = 0: carried through a function, bᵢ becomes the partial
 * derivative by the i-th variable, with no step and so with no error but rounding. Dual numbers are built
 * over any arithmetic: over plain numbers they give first derivatives, over dual numbers second ones, over
 * intervals bounds of the derivatives (W. K. Clifford 1873; Griewank and Walther, Evaluating Derivatives, 2008).
 */
import { acosDeg, asinDeg, atanDeg, cosDeg, sinDeg, tanDeg } from '../core/trigonometry.js';
import { type Arithmetic, plainAlgebra } from './model.js';

/** The operations on ordinary numbers. */
export const plainArithmetic: Arithmetic<number> = {
  ...plainAlgebra,
  sinDeg,
  cosDeg,
  tanDeg,
  asinDeg,
  acosDeg,
  atanDeg,
  exp: Math.exp,
  log: Math.log,
};

/** A value with its partial derivatives. */
export interface Dual<T> {
  /** The value itself. */
  readonly value: T;
  /**
   * Partial derivatives by variable. A variable that does not enter at all has `undefined`, not 0: it stays
   * without influence where a slope is infinite, while √(x²) at x = 0 has no derivative and must not look as
   * if it had.
   */
  readonly partials: readonly (T | undefined)[];
}

/**
 * The i-th variable of a function: derivative 1 by itself.
 * @param arithmetic - The arithmetic that the dual numbers stand on, as given to {@link dualArithmetic}.
 * @param value - Where the function is looked at.
 * @param index - Place of this variable among the partial derivatives.
 * @returns The dual number to hand to the function.
 */
export function variable<T>(arithmetic: Arithmetic<T>, value: T, index: number): Dual<T> {
  const partials = new Array<T | undefined>(index + 1).fill(undefined);
  partials[index] = arithmetic.constant(1);
  return { value, partials };
}

/**
 * Arithmetic of dual numbers over another arithmetic. Where a function has no derivative (√ at 0, |x| at 0,
 * asin at ±1) the partial derivative is infinite or NaN: who asks for derivatives must look.
 * @param base - Arithmetic of the values and of the derivatives; dual numbers over dual numbers give second derivatives.
 * @returns The operations.
 */
export function dualArithmetic<T>(base: Arithmetic<T>): Arithmetic<Dual<T>> {
  const { constant, add, subtract, multiply, divide, negate, square } = base;
  const one = constant(1);
  const two = constant(2);
  // Slopes by degrees: a degree in radians, and a radian in degrees.
  const radian = constant(Math.PI / 180);
  const degree = constant(180 / Math.PI);

  /** f(a) from its value and its slope at a. */
  const chain = (a: Dual<T>, value: T, slope: T): Dual<T> => ({
    value,
    partials: a.partials.map((partial) => (partial === undefined ? undefined : multiply(slope, partial))),
  });
  /** Joins the partial derivatives of two numbers; `only` says what becomes of one that stands alone. */
  const join = (
    a: Dual<T>,
    b: Dual<T>,
    value: T,
    left: (p: T) => T,
    right: (q: T) => T,
    both: (p: T, q: T) => T,
  ): Dual<T> => {
    const partials = new Array<T | undefined>(Math.max(a.partials.length, b.partials.length));
    for (let i = 0; i < partials.length; i++) {
      const p = a.partials[i];
      const q = b.partials[i];
      partials[i] = p === undefined ? q && right(q) : q === undefined ? left(p) : both(p, q);
    }
    return { value, partials };
  };
  const same = (p: T): T => p;

  return {
    constant: (value) => ({ value: constant(value), partials: [] }),
    add: (a, b) => join(a, b, add(a.value, b.value), same, same, add),
    subtract: (a, b) => join(a, b, subtract(a.value, b.value), same, negate, subtract),
    multiply: (a, b) => {
      const left = (p: T): T => multiply(p, b.value);
      const right = (q: T): T => multiply(a.value, q);
      return join(a, b, multiply(a.value, b.value), left, right, (p, q) => add(left(p), right(q)));
    },
    divide: (a, b) => {
      const quotient = divide(a.value, b.value);
      return join(
        a,
        b,
        quotient,
        (p) => divide(p, b.value),
        (q) => negate(divide(multiply(quotient, q), b.value)),
        (p, q) => divide(subtract(p, multiply(quotient, q)), b.value),
      );
    },
    negate: (a) => ({ value: negate(a.value), partials: a.partials.map((p) => (p === undefined ? p : negate(p))) }),
    square: (a) => chain(a, square(a.value), multiply(two, a.value)),
    sqrt: (a) => {
      const root = base.sqrt(a.value);
      return chain(a, root, divide(one, multiply(two, root)));
    },
    abs: (a) => {
      const size = base.abs(a.value);
      return chain(a, size, divide(a.value, size));
    },
    sinDeg: (a) => chain(a, base.sinDeg(a.value), multiply(radian, base.cosDeg(a.value))),
    cosDeg: (a) => chain(a, base.cosDeg(a.value), negate(multiply(radian, base.sinDeg(a.value)))),
    tanDeg: (a) => chain(a, base.tanDeg(a.value), divide(radian, square(base.cosDeg(a.value)))),
    // (1 - a)(1 + a) keeps the digits that 1 - a² loses near ±1.
    asinDeg: (a) => chain(a, base.asinDeg(a.value), divide(degree, base.sqrt(complement(base, a.value)))),
    acosDeg: (a) => chain(a, base.acosDeg(a.value), negate(divide(degree, base.sqrt(complement(base, a.value))))),
    atanDeg: (a) => chain(a, base.atanDeg(a.value), divide(degree, add(one, square(a.value)))),
    exp: (a) => {
      const value = base.exp(a.value);
      return chain(a, value, value);
    },
    log: (a) => chain(a, base.log(a.value), divide(one, a.value)),
  };
}

function complement<T>({ constant, add, subtract, multiply }: Arithmetic<T>, a: T): T {
  return multiply(subtract(constant(1), a), add(constant(1), a));
}
