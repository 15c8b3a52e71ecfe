/**
 * Draws against the distributions that they claim: moments from the closed forms of the distributions, and the
 * Kolmogorov-Smirnov distance from their distribution functions. All seeded, so that a pass stays a pass.
 */
import { describe, expect, it } from 'vitest';
import { drawFrom, drawTogether } from '../../src/budget/draw.js';
import { readInputs } from '../../src/budget/functions.js';
import type { Input } from '../../src/budget/inputs.js';
import type { Distribution } from '../../src/budget/known.js';
import { normal, streamOf, uniform } from '../../src/budget/random.js';

const N = 200_000;

/** erf by its series (Abramowitz and Stegun 7.1.5), summed until terms vanish; good to 1e-9 for |x| < 4. */
function erf(x: number): number {
  let [term, sum] = [x, x];
  for (let n = 1; Math.abs(term) > 1e-17 * Math.abs(sum); n++) {
    term *= (-x * x) / n;
    sum += term / (2 * n + 1);
  }
  return (2 / Math.sqrt(Math.PI)) * sum;
}

/** Integral of a density by Simpson's rule, cumulated on a grid and interpolated: an oracle that knows only densities. */
function cumulative(density: (x: number) => number, from: number, to: number): (x: number) => number {
  const steps = 20_000;
  const h = (to - from) / steps;
  const sums = new Float64Array(steps + 1);
  for (let i = 0; i < steps; i++) {
    const x = from + i * h;
    sums[i + 1] = (sums[i] as number) + (h / 6) * (density(x) + 4 * density(x + h / 2) + density(x + h));
  }
  const whole = sums[steps] as number;
  return (x) => {
    const place = Math.min(Math.max((x - from) / h, 0), steps - 1e-9);
    const i = Math.floor(place);
    const [a, b] = [sums[i] as number, sums[i + 1] as number];
    return (a + (place - i) * (b - a)) / whole;
  };
}

interface Case {
  readonly distribution: Distribution;
  readonly mean: number;
  readonly variance: number;
  readonly probability: (x: number) => number;
}

const normalBelow = (x: number): number => (Math.abs(x) > 5 ? Number(x > 0) : 0.5 * (1 + erf(x / Math.SQRT2)));
/** Density of t up to a factor: JCGM 101, 6.4.9.2. The tails beyond ±400 hold less than 1e-7 for 3 or more. */
const student = (nu: number): ((x: number) => number) =>
  cumulative((x) => (1 + (x * x) / nu) ** (-(nu + 1) / 2), -400, 400);
const ofHalf = student(3.5);
/** Density of the curvilinear trapezoid, JCGM 101, 6.4.3.2. */
const curvilinear = (a: number, b: number, d: number): ((x: number) => number) => {
  const [x, w] = [(a + b) / 2, (b - a) / 2];
  const density = (at: number): number => {
    const away = Math.abs(at - x);
    return away < w - d ? Math.log((w + d) / (w - d)) : away < w + d ? Math.log((w + d) / away) : 0;
  };
  return cumulative(density, a - d, b + d);
};

const cases: Record<string, Case> = {
  rectangular: {
    distribution: { kind: 'rectangular', from: 2, to: 5 },
    mean: 3.5,
    variance: 9 / 12,
    probability: (x) => (x - 2) / 3,
  },
  triangular: {
    distribution: { kind: 'triangular', from: -1, to: 3 },
    mean: 1,
    variance: 16 / 24,
    probability: (x) => (x < 1 ? (x + 1) ** 2 / 8 : 1 - (3 - x) ** 2 / 8),
  },
  trapezoidal: {
    distribution: { kind: 'trapezoidal', from: 0, to: 4, topRatio: 0.5 },
    mean: 2,
    variance: (16 * (1 + 0.25)) / 24,
    // The slopes are 1 wide, the top 2, so the density is 1/3 on top.
    probability: (x) => (x < 1 ? x ** 2 / 6 : x < 3 ? 1 / 6 + (x - 1) / 3 : 1 - (4 - x) ** 2 / 6),
  },
  'curvilinear trapezoid': {
    distribution: { kind: 'curvilinear-trapezoid', from: 9, to: 11, inexactness: 0.6 },
    mean: 10,
    variance: 4 / 12 + 0.36 / 9,
    probability: curvilinear(9, 11, 0.6),
  },
  arcsine: {
    distribution: { kind: 'arcsine', from: -2, to: 4 },
    mean: 1,
    variance: 36 / 8,
    probability: (x) => 0.5 + Math.asin((x - 1) / 3) / Math.PI,
  },
  normal: {
    distribution: { kind: 'normal', mean: -3, standardDeviation: 0.5 },
    mean: -3,
    variance: 0.25,
    probability: (x) => normalBelow((x + 3) / 0.5),
  },
  't of 3.5 degrees of freedom': {
    distribution: { kind: 't', location: 1, scale: 2, degreesOfFreedom: 3.5 },
    mean: 1,
    variance: (4 * 3.5) / 1.5,
    probability: (x) => ofHalf((x - 1) / 2),
  },
  't of 9 degrees of freedom': {
    distribution: { kind: 't', location: 0, scale: 1, degreesOfFreedom: 9 },
    mean: 0,
    variance: 9 / 7,
    probability: student(9),
  },
  't of 1 degree of freedom': {
    distribution: { kind: 't', location: 0, scale: 1, degreesOfFreedom: 1 },
    mean: Number.NaN, // Cauchy: no moments exist
    variance: Number.NaN,
    probability: (x) => 0.5 + Math.atan(x) / Math.PI,
  },
  exponential: {
    distribution: { kind: 'exponential', mean: 3 },
    mean: 3,
    variance: 9,
    probability: (x) => -Math.expm1(-x / 3),
  },
  'gamma of shape 1': {
    distribution: { kind: 'gamma', shape: 1 },
    mean: 1,
    variance: 1,
    probability: (x) => -Math.expm1(-x),
  },
  'gamma of shape 5': {
    distribution: { kind: 'gamma', shape: 5 },
    mean: 5,
    variance: 5,
    probability: cumulative((x) => x ** 4 * Math.exp(-x), 0, 60),
  },
};

describe.each(Object.entries(cases))('%s', (_, { distribution, mean, variance, probability }) => {
  const values = new Float64Array(N);
  drawFrom(distribution)(streamOf(20, 0, 'x'), values, N);

  it('has the mean and the variance of its closed form', () => {
    if (Number.isNaN(mean)) return expect(distribution.kind).toBe('t');
    const average = values.reduce((sum, x) => sum + x, 0) / N;
    const squares = values.reduce((sum, x) => sum + (x - mean) ** 2, 0) / N;
    // Four standard deviations of an average of N: one seed in 16 000 would miss. The variance of squares is
    // estimated from the draws themselves.
    expect(Math.abs(average - mean)).toBeLessThan(4 * Math.sqrt(variance / N));
    const fourths = values.reduce((sum, x) => sum + (x - mean) ** 4, 0) / N;
    expect(Math.abs(squares - variance)).toBeLessThan(4 * Math.sqrt((fourths - squares ** 2) / N));
  });

  it('follows its distribution function', () => {
    const sorted = values.slice().sort();
    let distance = 0;
    const below = probability;
    for (let i = 0; i < N; i++) {
      const p = below(sorted[i] as number);
      distance = Math.max(distance, p - i / N, (i + 1) / N - p);
    }
    // Kolmogorov-Smirnov: 1.63/sqrt(N) is exceeded by one seed in a hundred.
    expect(distance).toBeLessThan(1.63 / Math.sqrt(N));
  });
});

it('a constant is a constant', () => {
  const out = new Float64Array(3);
  drawFrom({ kind: 'constant', value: 7 })(streamOf(1, 0, 'x'), out, 2);
  expect([...out]).toEqual([7, 7, 0]);
});

it('normal numbers reach into the tail with the right frequency', () => {
  const stream = streamOf(3, 0, 'tail');
  const count = 4_000_000;
  let [beyondTail, far] = [0, 0];
  for (let i = 0; i < count; i++) {
    const x = Math.abs(normal(stream));
    if (x > 3.654152885361009) beyondTail++;
    if (x > 4.2) far++;
  }
  // 1 - erf(x/√2) is 0.000258032 beyond the ziggurat's tail and 2.66915e-5 beyond 4.2; four Poisson standard deviations.
  for (const [found, p] of [
    [beyondTail, 0.000258032],
    [far, 2.66915e-5],
  ] as const) {
    expect(Math.abs(found - p * count)).toBeLessThan(4 * Math.sqrt(p * count));
  }
});

describe('streams', () => {
  const first = (seed: number, block: number, name: string): number => uniform(streamOf(seed, block, name));

  it('differ by seed, block and name, and repeat', () => {
    const all = [
      first(1, 0, 'a'),
      first(2, 0, 'a'),
      first(1, 1, 'a'),
      first(1, 0, 'b'),
      first(1, 0, 'ab'),
      first(1, 0, 'ba'),
      first(2 ** 32 + 1, 0, 'a'),
      first(0, 0, ''),
      first(0, 0, '\0'),
    ];
    expect(new Set(all).size).toBe(all.length);
    expect(first(1, 0, 'a')).toBe(all[0]);
  });

  it.each([
    ['blocks', (i: number) => first(5, i, 'x')],
    ['seeds', (i: number) => first(i, 0, 'x')],
    ['names', (i: number) => first(5, 0, `x${i}`)],
  ])('of neighbouring %s are uniform and uncorrelated in their first numbers', (_, one) => {
    const n = 100_000;
    const values = Float64Array.from({ length: n }, (__, i) => one(i));
    const mean = values.reduce((sum, x) => sum + x, 0) / n;
    let product = 0;
    for (let i = 1; i < n; i++) product += ((values[i] as number) - 0.5) * ((values[i - 1] as number) - 0.5);
    expect(Math.abs(mean - 0.5)).toBeLessThan(4 / Math.sqrt(12 * n));
    expect(Math.abs((12 * product) / n)).toBeLessThan(4 / Math.sqrt(n));
  });
});

describe('inputs drawn together', () => {
  const draw = (inputs: Record<string, Input>, matrix: readonly (readonly number[])[]): readonly Float64Array[] => {
    const known = readInputs(null, inputs);
    const columns = known.map(() => new Float64Array(N));
    drawTogether(known, matrix)(11, 0, columns, N);
    return columns;
  };
  const correlation = (a: Float64Array, b: Float64Array): number => {
    const mean = (x: Float64Array): number => x.reduce((sum, v) => sum + v, 0) / N;
    const [ma, mb] = [mean(a), mean(b)];
    let [ab, aa, bb] = [0, 0, 0];
    for (let i = 0; i < N; i++) {
      const [x, y] = [(a[i] as number) - ma, (b[i] as number) - mb];
      ab += x * y;
      aa += x * x;
      bb += y * y;
    }
    return ab / Math.sqrt(aa * bb);
  };
  const gauss = { value: 1, standardUncertainty: 2 };

  it('have the correlations asked for, and the rest none', () => {
    const matrix = [
      [1, 0.6, 0, -0.3],
      [0.6, 1, 0, 0.2],
      [0, 0, 1, 0],
      [-0.3, 0.2, 0, 1],
    ];
    const columns = draw({ a: gauss, b: gauss, c: { from: 0, to: 1 }, d: gauss }, matrix);
    for (const i of [0, 1, 2, 3]) {
      for (const j of [0, 1, 2, 3]) {
        const found = correlation(columns[i] as Float64Array, columns[j] as Float64Array);
        // The standard deviation of a correlation is (1 - r²)/√N, at most 1/√N.
        expect(Math.abs(found - (matrix[i]?.[j] as number))).toBeLessThan(4 / Math.sqrt(N));
      }
    }
  });

  it('fully correlated inputs go in step', () => {
    const [a, b] = draw({ a: gauss, b: { value: 5, standardUncertainty: 4 } }, [
      [1, 1],
      [1, 1],
    ]);
    for (let i = 0; i < 100; i++) expect(b?.[i]).toBeCloseTo(5 + 2 * ((a?.[i] as number) - 1), 12);
  });

  it('readings taken together share their chi-square', () => {
    const readings = { value: 0, standardUncertainty: 1, degreesOfFreedom: 8 };
    const [a, b] = draw({ a: readings, b: readings }, [
      [1, 0.5],
      [0.5, 1],
    ]) as [Float64Array, Float64Array];
    expect(Math.abs(correlation(a, b) - 0.5)).toBeLessThan(0.02);
    // Where t numbers share their divisor, large ones come together although they are otherwise independent: the
    // squares of the parts a and b - a/2 that would be independent normals correlate positively.
    const rest = a.map((x, i) => ((b[i] as number) - x / 2) ** 2);
    expect(
      correlation(
        a.map((x) => x * x),
        rest,
      ),
    ).toBeGreaterThan(0.1);
  });

  it('shapes without a joint distribution are refused, and so are unequal degrees of freedom', () => {
    const both = [
      [1, 0.5],
      [0.5, 1],
    ];
    expect(() => draw({ a: gauss, b: { from: 0, to: 1 } }, both)).toThrow(/b.*|rectangular/);
    expect(() => draw({ a: { ...gauss, degreesOfFreedom: 4 }, b: { ...gauss, degreesOfFreedom: 5 } }, both)).toThrow(
      'degrees of freedom',
    );
    expect(() => draw({ a: gauss, b: 3 }, both)).not.toThrow();
  });
});
