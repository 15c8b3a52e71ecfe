/**
 * Arithmetic on intervals: every result holds all values that the operation can give for operands in their
 * intervals, rounding included. So a model evaluated over intervals cannot exceed the bounds that come out.
 * Source: R. E. Moore, R. B. Kearfott, M. J. Cloud, Introduction to Interval Analysis, SIAM 2009; IEEE 1788-2015.
 *
 * Where an operand leaves the domain of a function (the root of a negative number) the part inside counts: bounds
 * are those of the values that exist.
 */
import type { Arithmetic } from './model.js';
import { acosDeg, asinDeg, atanDeg, cosDeg, sinDeg, tanDeg } from './quick-trigonometry.js';

/** All numbers from `low` to `high`; ends may be infinite. */
export interface Interval {
  /** Lower end. */
  readonly low: number;
  /** Upper end. */
  readonly high: number;
}

const EPSILON = Number.EPSILON;

/** One rounded operation is right to half a unit in the last place; a whole one outward is on the safe side. */
const outward = (low: number, high: number): Interval => widen(low, high, 1);

/** Elementary functions of engines are right to within a unit in the last place; with the angle's rounding, see quick-trigonometry.ts, three are on the safe side. */
const loosely = (low: number, high: number): Interval => widen(low, high, 3);

function widen(low: number, high: number, units: number): Interval {
  const down = low - (Math.abs(low) * units * EPSILON + units * Number.MIN_VALUE);
  const up = high + (Math.abs(high) * units * EPSILON + units * Number.MIN_VALUE);
  // An infinite end less infinity is no number: it stays as it is. What has no value at all may be anything.
  return {
    low: Number.isNaN(down) ? -Infinity : down,
    high: Number.isNaN(up) ? Infinity : up,
  };
}

/** Interval arithmetic, to evaluate models over. */
export const intervalArithmetic: Arithmetic<Interval> = {
  constant: (value) => ({ low: value, high: value }),
  add: (a, b) => outward(a.low + b.low, a.high + b.high),
  subtract: (a, b) => outward(a.low - b.high, a.high - b.low),
  multiply,
  divide: (a, b) => {
    if (b.low <= 0 && b.high >= 0) return reciprocalOverZero(a, b);
    return multiply(a, outward(1 / b.high, 1 / b.low));
  },
  negate: (a) => ({ low: -a.high, high: -a.low }),
  square: (a) => {
    const [p, q] = [a.low * a.low, a.high * a.high];
    const low = a.low <= 0 && a.high >= 0 ? 0 : Math.min(p, q);
    return notBelow(0, outward(low, Math.max(p, q)));
  },
  sqrt: (a) => notBelow(0, outward(Math.sqrt(Math.max(0, a.low)), Math.sqrt(Math.max(0, a.high)))),
  abs: (a) =>
    a.low >= 0 ? a : a.high <= 0 ? { low: -a.high, high: -a.low } : { low: 0, high: Math.max(-a.low, a.high) },
  sinDeg: (a) => wave(a, sinDeg, 0.5),
  cosDeg: (a) => wave(a, cosDeg, 0),
  tanDeg: (a) => {
    const pole = holds(a, 0.5, 180);
    return pole ? { low: -Infinity, high: Infinity } : loosely(tanDeg(a.low), tanDeg(a.high));
  },
  asinDeg: (a) => loosely(asinDeg(within(a.low)), asinDeg(within(a.high))),
  acosDeg: (a) => loosely(acosDeg(within(a.high)), acosDeg(within(a.low))),
  atanDeg: (a) => loosely(atanDeg(a.low), atanDeg(a.high)),
  exp: (a) => notBelow(0, loosely(Math.exp(a.low), Math.exp(a.high))),
  log: (a) => loosely(Math.log(Math.max(0, a.low)), Math.log(Math.max(0, a.high))),
};

/**
 * The same arithmetic, which tells when an operand reaches a pole or leaves a domain: until it does, what is computed
 * is continuous over its operands (the decorations of IEEE 1788-2015, 11.2, say the same of each interval).
 */
export function watchedArithmetic(doubt: () => void): Arithmetic<Interval> {
  const { divide, sqrt, tanDeg: tan, asinDeg: asin, acosDeg: acos, log } = intervalArithmetic;
  const beyond = ({ low, high }: Interval, from: number, to: number): void => {
    if (!(low >= from && high <= to)) doubt();
  };
  return {
    ...intervalArithmetic,
    divide: (a, b) => {
      if (b.low <= 0 && b.high >= 0) doubt();
      return divide(a, b);
    },
    sqrt: (a) => {
      beyond(a, 0, Infinity);
      return sqrt(a);
    },
    tanDeg: (a) => {
      if (holds(a, 0.5, 180)) doubt();
      return tan(a);
    },
    asinDeg: (a) => {
      beyond(a, -1, 1);
      return asin(a);
    },
    acosDeg: (a) => {
      beyond(a, -1, 1);
      return acos(a);
    },
    log: (a) => {
      beyond(a, Number.MIN_VALUE, Infinity);
      return log(a);
    },
  };
}

/** Product of ends; nothing times infinity is nothing, for an infinite end only says that there is no bound. */
const times = (x: number, y: number): number => (x === 0 || y === 0 ? 0 : x * y);

function multiply(a: Interval, b: Interval): Interval {
  const p = times(a.low, b.low);
  const q = times(a.low, b.high);
  const r = times(a.high, b.low);
  const s = times(a.high, b.high);
  return outward(Math.min(p, q, r, s), Math.max(p, q, r, s));
}

/** A divisor that may vanish: unbounded, on one side only if it reaches zero from one side. */
function reciprocalOverZero(a: Interval, b: Interval): Interval {
  if (b.low === 0 && b.high > 0) return multiply(a, { low: outward(1 / b.high, 0).low, high: Infinity });
  if (b.high === 0 && b.low < 0) return multiply(a, { low: -Infinity, high: outward(0, 1 / b.low).high });
  return { low: -Infinity, high: Infinity };
}

function notBelow(least: number, { low, high }: Interval): Interval {
  return { low: Math.max(least, low), high };
}

function within(x: number): number {
  return Math.min(1, Math.max(-1, x));
}

/** Whether some (k + part) period lies in the interval, for whole k; if rounding leaves a doubt, it does. */
function holds({ low, high }: Interval, part: number, period: number): boolean {
  const doubt = 4 * EPSILON * (1 + Math.max(Math.abs(low), Math.abs(high)) / period);
  return !(Math.ceil(low / period - part - doubt) > high / period - part + doubt);
}

/** Sine or cosine, whose crests stand at 360° (k + crest/2) and troughs half a turn on. */
function wave(a: Interval, f: (x: number) => number, crest: number): Interval {
  const [p, q] = [f(a.low), f(a.high)];
  const high = holds(a, crest / 2, 360) ? 1 : Math.max(p, q);
  const low = holds(a, crest / 2 + 0.5, 360) ? -1 : Math.min(p, q);
  const { low: l, high: h } = loosely(low, high);
  return { low: Math.max(-1, l), high: Math.min(1, h) };
}
