/**
 * Numbers of about 32 digits as the unevaluated sum of two doubles, for the few places where the last digit of a result
 * would otherwise be lost. Source: T. J. Dekker, A floating-point technique for extending the available precision,
 * Numerische Mathematik 18 (1971), 224-242; D. E. Knuth, The Art of Computer Programming, volume 2, section 4.2.2.
 */

/** The number hi + lo, where hi is the nearest double to the sum. */
export type Pair = readonly [hi: number, lo: number];

/** Exactly a + b. */
export function sum(a: number, b: number): Pair {
  const hi = a + b;
  const second = hi - a;
  return [hi, a - (hi - second) + (b - second)];
}

/** Exactly a b, unless the product lies within 16 digits of the ends of the range of doubles. */
export function product(a: number, b: number): Pair {
  const hi = a * b;
  const a1 = highHalf(a);
  const a2 = a - a1;
  const b1 = highHalf(b);
  const b2 = b - b1;
  const lo = a2 * b2 - (hi - a1 * b1 - a2 * b1 - a1 * b2);
  // Splitting overflows above 1e300: the plain product is then all there is.
  return [hi, Number.isFinite(lo) ? lo : 0];
}

/** The upper 26 bits. */
function highHalf(a: number): number {
  const scaled = a * 134217729; // 2^27 + 1
  return scaled - (scaled - a);
}

/** a + b, to about 31 digits where nothing cancels. */
export function plus(a: Pair, b: Pair): Pair {
  const [hi, lo] = sum(a[0], b[0]);
  return normal(hi, lo + (a[1] + b[1]));
}

/** a b, to about 31 digits. */
export function times(a: Pair, b: Pair): Pair {
  const [hi, lo] = product(a[0], b[0]);
  return normal(hi, lo + (a[0] * b[1] + a[1] * b[0]));
}

/** a / b, to about 31 digits. */
export function quotient(a: Pair, b: Pair): Pair {
  const hi = a[0] / b[0];
  const [back, lost] = product(hi, b[0]);
  const lo = (a[0] - back - lost + a[1] - hi * b[1]) / b[0];
  return Number.isFinite(lo) ? normal(hi, lo) : [hi, 0];
}

/** The square root of a, to about 31 digits. */
export function squareRoot(a: Pair): Pair {
  const hi = Math.sqrt(a[0]);
  if (hi === 0) return [0, 0];
  const [back, lost] = product(hi, hi);
  return normal(hi, (a[0] - back - lost + a[1]) / (2 * hi));
}

/** hi + lo again as a pair, where lo has grown but is still the smaller. */
export function normal(hi: number, lo: number): Pair {
  const total = hi + lo;
  return [total, lo - (total - hi)];
}
