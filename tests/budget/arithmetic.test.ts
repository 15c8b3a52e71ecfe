/** Derivatives by dual numbers against central differences at 60 digits (decimal.js): no formula is shared. */
import { Decimal } from 'decimal.js';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  type Arithmetic,
  type Dual,
  degrees,
  dualArithmetic,
  plainArithmetic,
  radians,
  variable,
} from '../../src/budget/index.js';

const D = Decimal.clone({ precision: 60 });

/** A floating-point number in all its digits; the constructor alone would take the shortest decimal. */
const exact = (x: number): Decimal => new D(x.toPrecision(60));

/** The same operations on 60-digit decimals. */
const decimalArithmetic: Arithmetic<Decimal> = {
  constant: exact,
  add: (a, b) => a.plus(b),
  subtract: (a, b) => a.minus(b),
  multiply: (a, b) => a.times(b),
  divide: (a, b) => a.div(b),
  negate: (a) => a.neg(),
  square: (a) => a.times(a),
  sqrt: (a) => a.sqrt(),
  abs: (a) => a.abs(),
  sin: (a) => a.sin(),
  cos: (a) => a.cos(),
  tan: (a) => a.tan(),
  asin: (a) => a.asin(),
  acos: (a) => a.acos(),
  atan: (a) => a.atan(),
  exp: (a) => a.exp(),
  log: (a) => a.ln(),
};

type Two = <T>(arithmetic: Arithmetic<T>, x: T, y: T) => T;

/** Functions of x and y in 0.05 to 0.95, each operation among them, alone and combined. */
const functions: Record<string, Two> = {
  add: (m, x, y) => m.add(x, y),
  subtract: (m, x, y) => m.subtract(x, y),
  'subtract from a constant': (m, x, y) => m.subtract(m.constant(3), m.multiply(x, y)),
  multiply: (m, x, y) => m.multiply(x, y),
  divide: (m, x, y) => m.divide(x, y),
  'divide a constant': (m, x, y) => m.divide(m.constant(3), m.add(x, y)),
  negate: (m, x, y) => m.negate(m.multiply(x, y)),
  square: (m, x, y) => m.square(m.add(x, y)),
  sqrt: (m, x, y) => m.sqrt(m.multiply(x, y)),
  abs: (m, x, y) => m.abs(m.subtract(m.multiply(x, y), m.constant(2))),
  sin: (m, x, y) => m.sin(m.multiply(x, y)),
  cos: (m, x, y) => m.cos(m.multiply(x, y)),
  tan: (m, x, y) => m.tan(m.multiply(x, y)),
  asin: (m, x, y) => m.asin(m.multiply(x, y)),
  acos: (m, x, y) => m.acos(m.multiply(x, y)),
  atan: (m, x, y) => m.atan(m.multiply(x, y)),
  exp: (m, x, y) => m.exp(m.multiply(x, y)),
  log: (m, x, y) => m.log(m.add(x, y)),
  'a set-over with a roll': (m, x, y) => m.multiply(m.tan(m.asin(m.divide(x, m.constant(7)))), m.cos(radians(m, y))),
};

const H = new D('1e-15');
const at = (f: Two, x: Decimal, y: Decimal): Decimal => f(decimalArithmetic, x, y);
/** Central differences of step 1e-15: their own error is about 1e-30. */
const slope = (f: (x: Decimal) => Decimal, x: Decimal): Decimal =>
  f(x.plus(H))
    .minus(f(x.minus(H)))
    .div(H.times(2));
const curve = (f: (x: Decimal) => Decimal, x: Decimal): Decimal =>
  f(x.plus(H))
    .minus(f(x).times(2))
    .plus(f(x.minus(H)))
    .div(H.times(H));

const inside = fc.double({ min: 0.05, max: 0.95, noNaN: true });

describe('dual numbers', () => {
  const first = dualArithmetic(plainArithmetic);
  const second = dualArithmetic(first);

  it.each(Object.entries(functions))('%s: value, first and second derivatives', (_, f) => {
    fc.assert(
      fc.property(inside, inside, (x, y) => {
        const [dx, dy] = [exact(x), exact(y)];
        const fx = (a: Decimal): Decimal => at(f, a, dy);
        const fy = (a: Decimal): Decimal => at(f, dx, a);
        const got = f(
          second,
          variable(first, variable(plainArithmetic, x, 0), 0),
          variable(first, variable(plainArithmetic, y, 1), 1),
        );
        const scale = 1 + Math.abs(Number(curve(fx, dx))) + Math.abs(Number(curve(fy, dy)));
        // A handful of roundings of 1.1e-16 each, of terms no larger than `scale`.
        const near = (value: number | undefined, truth: Decimal, size: number): void =>
          expect(Math.abs((value ?? 0) - Number(truth))).toBeLessThan(3e-15 * size);
        near(got.value.value, at(f, dx, dy), 1 + Math.abs(Number(at(f, dx, dy))));
        near(got.partials[0]?.value, slope(fx, dx), scale);
        near(got.partials[1]?.value, slope(fy, dy), scale);
        near(got.partials[0]?.partials[0], curve(fx, dx), 4 * scale);
        near(got.partials[1]?.partials[1], curve(fy, dy), 4 * scale);
        const mixed = slope((a) => slope((b) => at(f, a, b), dy), dx);
        near(got.partials[0]?.partials[1], mixed, 4 * scale + Math.abs(Number(mixed)));
        expect(got.partials[1]?.partials[0] ?? 0).toBeCloseTo(got.partials[0]?.partials[1] ?? 0, 8);
      }),
      { numRuns: 12, seed: 4 },
    );
  });

  it('tells a variable that does not enter from a slope of zero at a corner', () => {
    const x = variable(plainArithmetic, 0, 0);
    const { sqrt, square, constant, add, abs } = first;
    expect(sqrt(square(x)).partials[0]).toBeNaN();
    expect(abs(x).partials[0]).toBeNaN();
    const still: Dual<number> = add(sqrt(constant(0)), x);
    expect(still.partials).toEqual([1]);
  });

  it('keeps the derivative of asin near 1, where 1 - x² loses digits', () => {
    const x = 1 - 2 ** -40;
    const truth = new D(1).div(new D(1).minus(exact(x).times(exact(x))).sqrt());
    const got = first.asin(variable(plainArithmetic, x, 0)).partials[0] ?? 0;
    expect(Math.abs(got / Number(truth) - 1)).toBeLessThan(4e-16);
  });
});

it('degrees and radians are each other’s inverse', () => {
  expect(radians(plainArithmetic, 30)).toBeCloseTo(Math.PI / 6, 15);
  expect(degrees(plainArithmetic, radians(plainArithmetic, 7.125))).toBeCloseTo(7.125, 14);
});
