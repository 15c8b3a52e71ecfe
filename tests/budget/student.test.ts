/** Student's t against published tables, closed forms at 40 and 90 digits, mpmath and stdlib. */
import erfc from '@stdlib/math-base-special-erfc';
import tCdf from '@stdlib/stats-base-dists-t-cdf';
import tQuantile from '@stdlib/stats-base-dists-t-quantile';
import { Decimal } from 'decimal.js';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { coverageFactor } from '../../src/budget/index.js';
import { normalBelow, studentBelow, studentQuantile } from '../../src/budget/student.js';
import { runs } from '../oracle/seed.js';
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

describe('other routines', () => {
  // Quantiles at 90 digits by mpmath 1.3.0: hyp2f1 for the probability, Newton's steps for its inverse.
  const PROBABILITIES = [1e-10, 1e-4, 0.025, 0.07, 0.3, 0.499999];
  const MPMATH: readonly (readonly [number | null, readonly string[]])[] = [
    [
      1.3,
      [
        '21802572.749242974412',
        '528.59423800583702925',
        '7.5005293255620329952',
        '3.2909308903426532677',
        '0.67397272163555227882',
        '2.9993796133269977646e-6',
      ],
    ],
    [
      2.5,
      [
        '8765.437771364571623',
        '34.867969321114772105',
        '3.5746548420036831273',
        '2.1376074608904878291',
        '0.59730773825231749483',
        '2.7638913424688798855e-6',
      ],
    ],
    [
      7.7,
      [
        '42.648474821016304956',
        '6.6037573343788873403',
        '2.3217367528308647104',
        '1.6452893912973875147',
        '0.54679754705479431048',
        '2.5891161395003902917e-6',
      ],
    ],
    [
      16.5,
      [
        '13.675806049584446782',
        '4.7512565403992677132',
        '2.1146963410178375586',
        '1.5504530893483504448',
        '0.53468424021086999836',
        '2.5448731686921591914e-6',
      ],
    ],
    [
      333.3,
      [
        '6.5645749720343804182',
        '3.7608032822283945991',
        '1.9671069867099258684',
        '1.4793174170864630762',
        '0.52490240137456024201',
        '2.5085091362720837055e-6',
      ],
    ],
    [
      31622.8,
      [
        '6.3634268786896735871',
        '3.7194525856040339016',
        '1.9600390051102766969',
        '1.4758281068323191804',
        '0.52440579856094382019',
        '2.5066480912667132349e-6',
      ],
    ],
    [
      1e6,
      [
        '6.3614068488767426196',
        '3.7190302747625433909',
        '1.9599663568141070115',
        '1.4757922006810207513',
        '0.52440067986020892095',
        '2.5066289012237063555e-6',
      ],
    ],
    [
      null,
      [
        '6.3613409024040561991',
        '3.7190164854556805523',
        '1.9599639845400542118',
        '1.4757910281791706856',
        '0.52440051270804081597',
        '2.5066282745665593779e-6',
      ],
    ],
  ];

  it.each(MPMATH)('quantiles for %s degrees of freedom agree with mpmath to 1e-14', (nu, quantiles) => {
    for (const [i, t] of quantiles.entries()) {
      const p = PROBABILITIES[i] as number;
      expect(Math.abs(studentQuantile(p, nu) / -Number(t) - 1), `${p}`).toBeLessThan(1e-14);
      // Back again: an error of one unit in t costs t f/p units in p, here 40 at most.
      expect(Math.abs(studentBelow(-Number(t), nu) / p - 1), `${p}`).toBeLessThan(2e-14);
    }
  });

  // Abramowitz and Stegun, Handbook of Mathematical Functions (1964), 26.7.3 and 26.7.4: finite sums in the angle
  // whose tangent is t/sqrt(nu), here at 90 digits so that a tail of 1e-48 keeps its own after the subtraction.
  it('probabilities for whole degrees of freedom agree with the finite sums to 2e-14', () => {
    const E = Decimal.clone({ precision: 90 });
    for (const nu of [1, 2, 3, 4, 5, 8, 15, 30, 61, 120, 200]) {
      for (const t of [1e-9, 0.003, 0.4, 0.99, 1.3, 1.49, 1.51, 2.2, 4, 7.5, 20]) {
        const T = new E(t.toPrecision(40));
        const cos2 = new E(nu).div(T.times(T).plus(nu));
        const sine = T.div(T.times(T).plus(nu).sqrt());
        const odd = nu % 2 === 1;
        let term = odd ? cos2.sqrt() : new E(1);
        let sum = new E(0);
        for (let k = odd ? 2 : 1; k < nu; k += 2) {
          sum = sum.plus(term);
          term = term
            .times(cos2)
            .times(k)
            .div(k + 1);
        }
        const within = odd
          ? E.atan(T.div(new E(nu).sqrt()))
              .plus(sine.times(sum))
              .times(2)
              .div(E.acos(-1))
          : sine.times(sum);
        const truth = new E(1).minus(within).div(2);
        expect(Math.abs(studentBelow(-t, nu) / Number(truth) - 1), `${nu} ${t}`).toBeLessThan(2e-14);
        expect(Math.abs(studentBelow(t, nu) - Number(new E(1).minus(truth))), `${nu} ${t}`).toBeLessThan(1e-15);
      }
    }
  });

  it('agrees with stdlib anywhere to 2e-14', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 5, noNaN: true }),
        fc.double({ min: -10, max: -0.31, noNaN: true }),
        (decadesOfFreedom, decadesOfProbability) => {
          const [nu, p] = [10 ** decadesOfFreedom, 10 ** decadesOfProbability];
          const t = tQuantile(p, nu);
          expect(Math.abs(studentQuantile(p, nu) / t - 1)).toBeLessThan(2e-14);
          expect(Math.abs(studentBelow(t, nu) / tCdf(t, nu) - 1)).toBeLessThan(2e-14);
        },
      ),
      { numRuns: runs(2000, 600) },
    );
  });

  it('the normal distribution agrees with the error function out to -30', () => {
    // Halves of units in the last place: x² of them from rounding x/√2, as many again from rounding x²/2.
    for (let x = -30; x < 8; x += 0.0137) {
      expect(Math.abs(normalBelow(x) / (erfc(-x / Math.SQRT2) / 2) - 1), `${x}`).toBeLessThan(5e-15 + 2.3e-16 * x * x);
    }
  });

  it('stays a number at the ends', () => {
    expect(Object.is(studentQuantile(0.5, 3), 0)).toBe(true);
    // Tail of one degree of freedom: 1/(pi t).
    expect(studentBelow(-1e200, 1) * Math.PI * 1e200).toBeCloseTo(1, 12);
    expect(studentBelow(1e200, 1)).toBe(1);
    expect(studentBelow(-1e200, null)).toBe(0);
    expect(studentQuantile(1e-300, 1) * -Math.PI * 1e-300).toBeCloseTo(1, 12);
    expect(studentBelow(0, 5)).toBe(0.5);
  });
});
