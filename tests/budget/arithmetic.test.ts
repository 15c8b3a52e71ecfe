/** Derivatives by dual numbers against central differences at 60 digits (decimal.js): no formula is shared. */
import { Decimal } from 'decimal.js';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Dual, dualArithmetic, plainArithmetic, variable } from '../../src/budget/arithmetic.js';
import type { Arithmetic } from '../../src/budget/index.js';
import * as quick from '../../src/budget/quick-trigonometry.js';
import { runs } from '../oracle/seed.js';

const D = Decimal.clone({ precision: 60 });

/** A floating-point number in all its digits; the constructor alone would take the shortest decimal. */
const exact = (x: number): Decimal => new D(x.toPrecision(60));

/** A degree in radians. */
const DEGREE = D.acos(-1).div(180);

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
  sinDeg: (a) => a.times(DEGREE).sin(),
  cosDeg: (a) => a.times(DEGREE).cos(),
  tanDeg: (a) => a.times(DEGREE).tan(),
  asinDeg: (a) => a.asin().div(DEGREE),
  acosDeg: (a) => a.acos().div(DEGREE),
  atanDeg: (a) => a.atan().div(DEGREE),
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
  sinDeg: (m, x, y) => m.sinDeg(m.multiply(m.constant(60), m.multiply(x, y))),
  cosDeg: (m, x, y) => m.cosDeg(m.multiply(m.constant(60), m.multiply(x, y))),
  tanDeg: (m, x, y) => m.tanDeg(m.multiply(m.constant(60), m.multiply(x, y))),
  asinDeg: (m, x, y) => m.asinDeg(m.multiply(x, y)),
  acosDeg: (m, x, y) => m.acosDeg(m.multiply(x, y)),
  atanDeg: (m, x, y) => m.atanDeg(m.multiply(x, y)),
  exp: (m, x, y) => m.exp(m.multiply(x, y)),
  log: (m, x, y) => m.log(m.add(x, y)),
  'a set-over with a roll': (m, x, y) => m.multiply(m.tanDeg(m.asinDeg(m.divide(x, m.constant(7)))), m.cosDeg(y)),
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
      // This seed alone: the scale leaves slopes out that are larger than all that it counts (atanDeg at 0.44, 0.05).
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
    const truth = new D(1).div(new D(1).minus(exact(x).times(exact(x))).sqrt()).div(DEGREE);
    const got = first.asinDeg(variable(plainArithmetic, x, 0)).partials[0] ?? 0;
    expect(Math.abs(got / Number(truth) - 1)).toBeLessThan(6e-16);
  });
});

it('quick trigonometry lies within 2.5 units of 2^-52 of the truth, far angles and quarters included', () => {
  const angles = fc.oneof(
    fc.double({ min: -1e4, max: 1e4, noNaN: true }),
    fc
      .integer({ min: -40, max: 40 })
      .chain((k) => fc.double({ min: -1e-3, max: 1e-3, noNaN: true }).map((d) => 90 * k + d)),
  );
  const near = (got: number, truth: Decimal): void =>
    expect(
      exact(got)
        .minus(truth)
        .abs()
        .lte(
          truth
            .abs()
            .times(2.5 * 2 ** -52)
            .plus('1e-50'),
        ),
    ).toBe(true);
  fc.assert(
    fc.property(angles, (x) => {
      const radians = exact(x).times(DEGREE);
      near(quick.sinDeg(x), radians.sin());
      near(quick.cosDeg(x), radians.cos());
      if (x % 90 !== 0) near(quick.tanDeg(x), radians.tan());
    }),
    { numRuns: runs(300, 100) },
  );
  fc.assert(
    fc.property(fc.double({ min: -1, max: 1, noNaN: true }), (x) => {
      near(quick.asinDeg(x), exact(x).asin().div(DEGREE));
      near(quick.acosDeg(x), exact(x).acos().div(DEGREE));
      near(quick.atanDeg(x), exact(x).atan().div(DEGREE));
    }),
    { numRuns: runs(200, 80) },
  );
});
