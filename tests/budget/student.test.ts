/** Student's t against published tables and against closed forms at 40 digits. */
import { Decimal } from 'decimal.js';
import { describe, expect, it } from 'vitest';
import { coverageFactor } from '../../src/budget/index.js';
import { studentBelow, studentQuantile } from '../../src/budget/student.js';
import { halfUnit, published, publishedExamples } from '../reference/published.js';

const D = Decimal.clone({ precision: 40 });
const exact = (x: number): Decimal => new D(x.toPrecision(40));

const tables = publishedExamples.filter(({ id }) => /^T7-(t|G2)-/.test(id)).map(({ id }) => id);

it.each(tables)('%s: published value of t', (id) => {
  const { inputs, published: printed } = published(id);
  const value = printed['t']?.value ?? '';
  const k = coverageFactor({
    probability: Number(inputs['p_two_sided'] ?? inputs['p']),
    degreesOfFreedom: Number(inputs['nu']),
  });
  expect(Math.abs(k - Number(value))).toBeLessThanOrEqual(halfUnit(value) * (1 + 1e-9));
});

describe('closed forms', () => {
  const probabilities = Array.from({ length: 400 }, (_, i) => (i + 0.37) / 801);

  it('quantiles for 1, 2 and 4 degrees of freedom agree to 2e-15', () => {
    for (const p of probabilities) {
      const P = exact(p);
      const a = P.times(4).times(new D(1).minus(P));
      const cosine = D.cos(D.acos(a.sqrt()).div(3)).div(a.sqrt());
      const truth = {
        1: D.tan(D.acos(-1).times(P.minus(0.5))),
        2: P.times(2)
          .minus(1)
          .div(P.times(2).times(new D(1).minus(P)).sqrt()),
        4: cosine.minus(1).sqrt().times(-2),
      };
      for (const [nu, t] of Object.entries(truth)) {
        expect(Math.abs(studentQuantile(p, Number(nu)) / Number(t) - 1)).toBeLessThan(2e-15);
      }
    }
  });

  it('probabilities for 2 degrees of freedom agree to 2e-15', () => {
    for (const p of probabilities) {
      const x = -30 * p;
      const X = exact(x);
      const truth = new D(0.5).plus(X.div(new D(2).plus(X.times(X)).sqrt()).div(2));
      expect(Math.abs(studentBelow(x, 2) / Number(truth) - 1)).toBeLessThan(2e-15);
    }
  });

  it('goes over to the normal distribution without a step', () => {
    // Third term of the expansion: below 1e-15 at 1e8 degrees of freedom.
    expect(studentQuantile(0.01, 1e8) / studentQuantile(0.01, 1e8 + 1)).toBeCloseTo(1, 14);
    expect(studentBelow(-2, 1e8) / studentBelow(-2, 1e8 + 1)).toBeCloseTo(1, 14);
    expect(studentQuantile(0.01, 1e300)).toBe(studentQuantile(0.01, null));
    expect(studentBelow(-2, null)).toBeCloseTo(0.02275013194817921, 16);
  });

  it('takes degrees of freedom that are no whole numbers, between their neighbours', () => {
    const k = (degreesOfFreedom: number): number => coverageFactor({ probability: 0.99, degreesOfFreedom });
    expect(k(16)).toBeGreaterThan(k(16.5));
    expect(k(16.5)).toBeGreaterThan(k(17));
    expect(2 * studentBelow(-k(16.5), 16.5)).toBeCloseTo(0.01, 14);
  });
});
