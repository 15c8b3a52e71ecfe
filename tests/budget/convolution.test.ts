/**
 * Convolved distributions against closed forms, published intervals and simulated experiments; what a budget says of
 * its own 95 %.
 */
import erfc from '@stdlib/math-base-special-erfc';
import { uniformFloat64 } from 'pure-rand/distribution/uniformFloat64';
import { xoroshiro128plus } from 'pure-rand/generator/xoroshiro128plus';
import { describe, expect, it } from 'vitest';
import {
  adaptiveMonteCarlo,
  type Budget,
  type BudgetOptions,
  budget,
  type Input,
  mergeMonteCarlo,
  monteCarlo,
  monteCarloPart,
} from '../../src/budget/index.js';
import { halfUnit, published } from '../reference/published.js';

/** Budget of a sum. */
const sum = (inputs: readonly Input[], options: Partial<BudgetOptions> = {}): Budget =>
  budget({
    model: (x) => Object.values(x).reduce((total, value) => total + value, 0),
    inputs: Object.fromEntries(inputs.map((input, i) => [`x${i}`, input])),
    ...options,
  });
const convolved = (inputs: readonly Input[], coverage = 0.95): Budget =>
  sum(inputs, { coverage, resultDistribution: 'convolution' });
const codes = ({ notes }: Budget): string[] => notes.map(({ code }) => code);
const rectangle = (u: number): Input => ({ value: 0, plusMinus: u * Math.sqrt(3) });

/** Where a rising function reaches a value, by halving. */
function inverse(f: (x: number) => number, value: number, high: number): number {
  let [a, b] = [0, high];
  for (let i = 0; i < 100; i++) [a, b] = f((a + b) / 2) < value ? [(a + b) / 2, b] : [a, (a + b) / 2];
  return a;
}

describe('closed forms', () => {
  it.each([0.5, 0.9, 0.95, 0.99, 0.9999])('one and two rectangles, coverage %s', (p) => {
    expect(convolved([{ value: 3, plusMinus: 2 }], p).expandedUncertainty).toBeCloseTo(2 * p, 9);
    for (const small of [1e-3, 0.1, 0.5, 1]) {
      // A trapezoid of half width 1 + b and half top 1 - b: the corner of the slope has area (1 - p)/2 = y²/(8b).
      const y = Math.sqrt(4 * small * (1 - p));
      const exact = y <= 2 * small ? 1 + small - y : p;
      const { expandedUncertainty: found, standardUncertainty: u } = convolved(
        [rectangle(1 / Math.sqrt(3)), rectangle(small / Math.sqrt(3))],
        p,
      );
      expect(Math.abs(found - exact)).toBeLessThan(1e-5 * u);
    }
  });

  it.each([3, 4, 7, 12])('%i equal rectangles: the distribution of Irwin and Hall (1927)', (n) => {
    const factorial = (k: number): number => (k < 2 ? 1 : k * factorial(k - 1));
    const below = (x: number): number => {
      let total = 0;
      for (let k = 0; k <= x; k++) total += ((-1) ** k * (x - k) ** n) / factorial(k) / factorial(n - k);
      return total;
    };
    const high = inverse(below, 0.975, n) - n / 2;
    const found = convolved(Array.from({ length: n }, () => ({ from: -0.5, to: 0.5 }) as const));
    expect(found.interval.high).toBeCloseTo(high, 5);
    expect(found.interval.low).toBeCloseTo(-high, 5);
  });

  it('normal ones stay normal, an exponential one is cut on both sides, its negative is its mirror', () => {
    const normal = [3, 4].map((u): Input => ({ value: 0, standardUncertainty: u }));
    // 1.959964 is the normal distribution's, JCGM 100, table G.1 to more digits.
    expect(convolved(normal).coverageFactor).toBeCloseTo(1.959964, 5);
    const { interval } = convolved([{ distribution: 'exponential', mean: 2 }]);
    expect([interval.low, interval.high].map((x) => x.toFixed(4))).toEqual(
      [-2 * Math.log(0.975), -2 * Math.log(0.025)].map((x) => x.toFixed(4)),
    );
    const mirror = budget({
      model: ({ x }) => -(x as number),
      inputs: { x: { distribution: 'exponential', mean: 2 } },
      resultDistribution: 'convolution',
    });
    expect(mirror.interval.low).toBeCloseTo(-interval.high, 4);
    expect(mirror.expandedUncertainty).toBeCloseTo(interval.high - 2, 4);
    expect(convolved([3]).interval).toEqual({ low: 3, high: 3 });
  });

  it.each([0.05, 0.5, 2])('a rectangle and a normal one of %s of its half width', (u) => {
    // The average of the normal distribution from x - 1 to x + 1, from its integral x Φ(x) + φ(x).
    const phi = (z: number): number => erfc(-z / Math.SQRT2) / 2;
    const integral = (x: number): number =>
      x * phi(x / u) + (u * Math.exp(-((x / u) ** 2) / 2)) / Math.sqrt(2 * Math.PI);
    const high = inverse((x) => (integral(x + 1) - integral(x - 1)) / 2, 0.975, 10);
    const found = convolved([rectangle(1 / Math.sqrt(3)), { value: 0, standardUncertainty: u }]);
    expect(Math.abs(found.interval.high - high)).toBeLessThan(1e-4 * found.standardUncertainty);
  });

  it('t of any degrees of freedom alone is t', () => {
    // JCGM 100, table G.2, 95 %.
    for (const [degreesOfFreedom, t] of [
      [1, 12.71],
      [2, 4.3],
      [5, 2.57],
      [20, 2.09],
    ] as const) {
      const { coverageFactor } = convolved([{ value: 0, standardUncertainty: 1, degreesOfFreedom }]);
      expect(Math.abs(coverageFactor - t)).toBeLessThan(0.0051);
    }
    // Two of one degree of freedom add up to one of twice the scale (A.-L. Cauchy): the hardest case, to 1 %.
    const cauchy: Input = { value: 0, standardUncertainty: 1, degreesOfFreedom: 1 };
    expect(Math.abs(convolved([cauchy, cauchy]).interval.high / 25.4124 - 1)).toBeLessThan(0.01);
  });
});

describe('published intervals', () => {
  it('JCGM 101, 9.2.3: four equal rectangles', () => {
    // Table 3 prints [-3.88, 3.88] for the analytic solution (from memory).
    const found = convolved([1, 1, 1, 1].map(rectangle));
    expect([found.interval.low.toFixed(2), found.interval.high.toFixed(2)]).toEqual(['-3.88', '3.88']);
  });

  it('T7-S1-924, JCGM 101, 9.2.4: one rectangle ten times the others', () => {
    const text = published('T7-S1-924').published['MCM_high95']?.value ?? '';
    expect(Math.abs(convolved([1, 1, 1, 10].map(rectangle)).interval.high - Number(text))).toBeLessThan(halfUnit(text));
  });

  it('EA-4/02, S9.14: k = 1.65 where one rectangle rules', () => {
    // √3 times 0.95; the guide counts a contribution as ruling that the rest comes to 0.3 of (from memory).
    expect(convolved([rectangle(1)]).coverageFactor.toFixed(2)).toBe('1.65');
    expect(codes(sum([rectangle(1), { value: 0, standardUncertainty: 0.29 }]))).toContain('one-input-rules');
    expect(codes(sum([rectangle(1), { value: 0, standardUncertainty: 0.31 }]))).not.toContain('one-input-rules');
  });
});

const generator = xoroshiro128plus(7);
const uniform = (): number => uniformFloat64(generator);
const gauss = (): number => Math.sqrt(-2 * Math.log(1 - uniform())) * Math.cos(2 * Math.PI * uniform());
const chiSquare = (n: number): number => Array.from({ length: n }, gauss).reduce((total, x) => total + x * x, 0);

describe('simulated truths', () => {
  const shapes: Record<string, readonly [Input, () => number]> = {
    rectangle: [{ from: -2, to: 2 }, () => 4 * uniform() - 2],
    triangle: [{ from: -2, to: 2, distribution: 'triangular' }, () => 2 * (uniform() - uniform())],
    arcsine: [{ from: -2, to: 2, distribution: 'arcsine' }, () => 2 * Math.sin(2 * Math.PI * uniform())],
    curvilinear: [
      { from: -2, to: 2, distribution: 'curvilinear-trapezoid', inexactness: 0.8 },
      () => (2 + 0.8 * (2 * uniform() - 1)) * (2 * uniform() - 1),
    ],
    trapezoid: [
      { from: -2, to: 2, distribution: 'trapezoidal', topRatio: 0.5 },
      () => 1.5 * (2 * uniform() - 1) + 0.5 * (2 * uniform() - 1),
    ],
    normal: [{ value: 0, standardUncertainty: 0.5 }, () => 0.5 * gauss()],
    exponential: [{ distribution: 'exponential', mean: 1 }, () => -Math.log(1 - uniform())],
    'four readings': [
      { value: 0, standardUncertainty: 0.6, degreesOfFreedom: 3 },
      () => (0.6 * gauss()) / Math.sqrt(chiSquare(3) / 3),
    ],
    'three readings': [
      { value: 0, standardUncertainty: 0.3, degreesOfFreedom: 2 },
      () => (0.3 * gauss()) / Math.sqrt(chiSquare(2) / 2),
    ],
  };
  const names = Object.keys(shapes);

  it.each(names.flatMap((a, i) => names.slice(i).map((b) => [a, b] as const)))('%s and %s', (a, b) => {
    const [[one, drawOne], [other, drawOther]] = [shapes[a], shapes[b]] as [
      (typeof shapes)[string],
      (typeof shapes)[string],
    ];
    const inputs = { x: one as Input, y: other as Input };
    const { interval } = budget({
      model: ({ x, y }) => (x as number) - 0.7 * (y as number),
      inputs,
      resultDistribution: 'convolution',
    });
    const trials = 20_000;
    let [below, above] = [0, 0];
    for (let i = 0; i < trials; i++) {
      const value = (drawOne as () => number)() - 0.7 * (drawOther as () => number)();
      if (value < interval.low) below++;
      if (value > interval.high) above++;
    }
    // Each tail of 0.025: five standard deviations of the count, for there are ninety of them.
    const room = 5 * Math.sqrt(0.025 * 0.975 * trials);
    expect(Math.abs(below - 0.025 * trials)).toBeLessThan(room);
    expect(Math.abs(above - 0.025 * trials)).toBeLessThan(room);
  });
});

describe('what a budget says of its own coverage', () => {
  it('an interval beyond what limits allow', () => {
    const inputs: Input[] = [
      { value: 0, plusMinus: 1 },
      { value: 0, plusMinus: 0.1 },
    ];
    const byStudent = sum(inputs);
    expect(codes(byStudent)).toEqual(['one-input-rules', 'interval-beyond-limits']);
    const beyond = byStudent.notes.find(({ code }) => code === 'interval-beyond-limits');
    expect(beyond?.values['possible']).toBeCloseTo(1.1, 12);
    expect(beyond?.values['expandedUncertainty']).toBeCloseTo(1.959964 * Math.sqrt(1.01 / 3), 5);
    expect(codes(convolved(inputs))).toEqual([]);
    expect(convolved(inputs).expandedUncertainty).toBeLessThan(1.1);
    // An unbounded input allows everything; a quantity that cannot be negative does not go below zero.
    expect(codes(sum([...inputs, { value: 0, standardUncertainty: 0.01 }]))).toEqual(['one-input-rules']);
    expect(codes(sum([{ distribution: 'exponential', mean: 1 }]))).toContain('interval-beyond-limits');
  });

  it('few readings, and degrees of freedom that have no part', () => {
    expect(codes(sum([{ readings: [1, 3] }]))).toEqual(['few-degrees-of-freedom']);
    expect(codes(sum([{ readings: [1, 2, 3, 4] }]))).toEqual([]);
    const limits: Input[] = [1, 2, 3, 4].map((plusMinus) => ({ value: 0, plusMinus, degreesOfFreedom: 8 }));
    expect(codes(sum(limits))).toEqual([]);
    expect(convolved(limits).notes).toEqual([
      expect.objectContaining({ code: 'degrees-of-freedom-ignored', values: { inputs: 4 } }),
    ]);
  });

  it('Monte Carlo says so too, in one piece, in parts and until steady', () => {
    const job = {
      model: ({ a }: { readonly a: number }) => a,
      inputs: { a: { value: 0, plusMinus: 1, degreesOfFreedom: 8 } },
      trials: 200_000,
    };
    const one = monteCarlo(job);
    expect(one.notes).toEqual([expect.objectContaining({ code: 'degrees-of-freedom-ignored', values: { inputs: 1 } })]);
    const parts = [0, 1].map((part) => monteCarloPart({ ...job, part, parts: 2 }));
    expect(mergeMonteCarlo(parts)).toEqual(one);
    const { notes } = adaptiveMonteCarlo({ model: job.model, inputs: job.inputs });
    expect(notes.map(({ code }) => code)).toContain('degrees-of-freedom-ignored');
    expect(monteCarlo({ ...job, inputs: { a: { value: 0, plusMinus: 1 } } }).notes).toEqual([]);
  });

  it('JCGM 100, G.4.1: 18.98 degrees of freedom, rounded down or interpolated', () => {
    // Table G.2, 95 %: 2.10 at 18, 2.09 at 19; between them 2.10 - 0.98 × 0.01.
    const input: Input = { value: 0, standardUncertainty: 1, degreesOfFreedom: 18.98 };
    expect(sum([input]).coverageFactor.toFixed(2)).toBe('2.10');
    expect(sum([input], { degreesOfFreedomRounding: 'none' }).coverageFactor.toFixed(2)).toBe('2.09');
  });

  it('a mean that is off: second order brings it in, and then 95 % hold 95 %', () => {
    // x² at x = 0.5 ± 0.4: mean 0.25 + 0.16, standard deviation √(4·0.25·0.16 + 2·0.16²), both exact for normal x.
    const square = (includeSecondOrder: boolean): Budget =>
      budget({
        model: ({ x }) => (x as number) ** 2,
        inputs: { x: { value: 0.5, standardUncertainty: 0.4 } },
        includeSecondOrder,
      });
    expect(codes(square(false))).toContain('mean-shifted');
    expect(codes(square(true))).not.toContain('mean-shifted');
    expect(square(true).value).toBeCloseTo(0.41, 9);
    expect(square(true).standardUncertainty).toBeCloseTo(Math.sqrt(0.16 + 2 * 0.0256), 9);
    const { low, high } = square(true).interval;
    expect((low + high) / 2).toBeCloseTo(0.41, 9);
    // Twelve squares of which none is seen by first order: a sum near the normal distribution, about 12 u².
    const inputs = Object.fromEntries(
      Array.from({ length: 12 }, (_, i) => [`x${i}`, { value: 0, standardUncertainty: 1 }]),
    );
    const sumOfSquares = budget({
      model: (x) => Object.values(x).reduce((total, value) => total + value * value, 0),
      inputs,
      includeSecondOrder: true,
    });
    let held = 0;
    const trials = 20_000;
    for (let i = 0; i < trials; i++) {
      const truth = chiSquare(12);
      if (truth >= sumOfSquares.interval.low && truth <= sumOfSquares.interval.high) held++;
    }
    // The chi-square distribution of 12 has 95.4 % within 12 ± 1.96 √24; four standard deviations of the count more.
    expect(Math.abs(held / trials - 0.954)).toBeLessThan(0.003 + 4 * Math.sqrt((0.05 * 0.95) / trials));
  });

  it.each<[string, Partial<BudgetOptions>, readonly Input[], string, string]>([
    ['a factor', { coverage: { factor: 2 } }, [{ value: 0, plusMinus: 1 }], 'contradiction', 'resultDistribution'],
    ['second order', { includeSecondOrder: true }, [{ value: 0, plusMinus: 1 }], 'contradiction', 'resultDistribution'],
    ['a coverage too high', { coverage: 0.99999 }, [{ value: 0, plusMinus: 1 }], 'out-of-range', 'coverage'],
    ['counts', {}, [{ distribution: 'gamma', count: 3 }], 'out-of-range', 'inputs.x0'],
    [
      'correlation',
      { correlations: [{ between: ['x0', 'x1'], coefficient: 0.5 }] },
      [
        { value: 0, plusMinus: 1 },
        { value: 0, plusMinus: 1 },
      ],
      'contradiction',
      'resultDistribution',
    ],
  ])('a convolution with %s is refused', (_, options, inputs, code, parameter) => {
    expect(() => sum(inputs, { ...options, resultDistribution: 'convolution' })).toThrow(
      expect.objectContaining({ code, parameter }),
    );
  });
});
