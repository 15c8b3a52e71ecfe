/**
 * Arithmetic on whole columns of numbers: a model that runs over it gives many results in one evaluation, each
 * the same as over plain numbers, to the rounding of its angles, with loops as short and fast as if written by hand for the model.
 */
import type { Arithmetic } from './model.js';
import * as quick from './quick-trigonometry.js';

/** The arithmetic, and how to use its memory again. */
export interface Batch {
  /** Operations on columns; no operand is changed. */
  readonly arithmetic: Arithmetic<Float64Array>;
  /** Declares all results so far as no longer needed; their memory serves the next evaluation. */
  readonly restart: () => void;
}

/** Arithmetic on columns of `size` numbers. */
export function batchArithmetic(size: number): Batch {
  const pool: Float64Array[] = [];
  let used = 0;
  const fresh = (): Float64Array => {
    const column = pool[used] ?? new Float64Array(size);
    pool[used++] = column;
    return column;
  };
  const unary =
    (f: (x: number) => number) =>
    (a: Float64Array): Float64Array => {
      const out = fresh();
      for (let i = 0; i < size; i++) out[i] = f(a[i] as number);
      return out;
    };

  return {
    restart: () => {
      used = 0;
    },
    arithmetic: {
      constant: (value) => fresh().fill(value),
      // The four rules, negation, square and root are written out: a call per number would cost more than they do.
      add: (a, b) => {
        const out = fresh();
        for (let i = 0; i < size; i++) out[i] = (a[i] as number) + (b[i] as number);
        return out;
      },
      subtract: (a, b) => {
        const out = fresh();
        for (let i = 0; i < size; i++) out[i] = (a[i] as number) - (b[i] as number);
        return out;
      },
      multiply: (a, b) => {
        const out = fresh();
        for (let i = 0; i < size; i++) out[i] = (a[i] as number) * (b[i] as number);
        return out;
      },
      divide: (a, b) => {
        const out = fresh();
        for (let i = 0; i < size; i++) out[i] = (a[i] as number) / (b[i] as number);
        return out;
      },
      negate: (a) => {
        const out = fresh();
        for (let i = 0; i < size; i++) out[i] = -(a[i] as number);
        return out;
      },
      square: (a) => {
        const out = fresh();
        for (let i = 0; i < size; i++) out[i] = (a[i] as number) * (a[i] as number);
        return out;
      },
      sqrt: (a) => {
        const out = fresh();
        for (let i = 0; i < size; i++) out[i] = Math.sqrt(a[i] as number);
        return out;
      },
      abs: unary(Math.abs),
      sinDeg: unary(quick.sinDeg),
      cosDeg: unary(quick.cosDeg),
      tanDeg: unary(quick.tanDeg),
      asinDeg: unary(quick.asinDeg),
      acosDeg: unary(quick.acosDeg),
      atanDeg: unary(quick.atanDeg),
      exp: unary(Math.exp),
      log: unary(Math.log),
    },
  };
}
