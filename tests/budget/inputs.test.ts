/** Inputs: standard uncertainties against the guides' formulas and against integrals of the densities. */
import { describe, expect, it } from 'vitest';
import { readCorrelations } from '../../src/budget/correlation.js';
import { type Correlations, correlationsOfReadings, type Input } from '../../src/budget/index.js';
import { readInput } from '../../src/budget/known.js';

const u = (input: Input): number => readInput(input).standardUncertainty;

/** Mean and standard deviation of a density by the midpoint rule. */
function moments(density: (x: number) => number, from: number, to: number): [number, number] {
  const n = 200_000;
  let [mass, mean, square] = [0, 0, 0];
  for (let i = 0; i < n; i++) {
    const x = from + ((i + 0.5) * (to - from)) / n;
    const p = density(x);
    mass += p;
    mean += p * x;
    square += p * x * x;
  }
  mean /= mass;
  return [mean, Math.sqrt(square / mass - mean * mean)];
}

describe('limits', () => {
  // Densities from JCGM 101:2008, 6.4.2 to 6.4.6 and 6.4.10 to 6.4.11, unnormalised.
  it.each<[string, Input, (x: number) => number, number, number]>([
    ['rectangular', { from: 2, to: 5 }, () => 1, 2, 5],
    ['triangular', { from: 2, to: 5, distribution: 'triangular' }, (x) => 1.5 - Math.abs(x - 3.5), 2, 5],
    [
      'trapezoidal',
      { value: 3.5, plusMinus: 1.5, distribution: 'trapezoidal', topRatio: 0.4 },
      (x) => Math.min(1, (1.5 - Math.abs(x - 3.5)) / 0.9),
      2,
      5,
    ],
    [
      'curvilinear trapezoid',
      { from: 2, to: 5, distribution: 'curvilinear-trapezoid', inexactness: 0.6 },
      (x) => {
        const [w, far] = [Math.abs(x - 3.5), 2.1];
        return w < 0.9 ? Math.log(2.1 / 0.9) : Math.log(far / w);
      },
      1.4,
      5.6,
    ],
    ['exponential', { distribution: 'exponential', mean: 2 }, (x) => Math.exp(-x / 2), 0, 90],
    ['gamma', { distribution: 'gamma', count: 3 }, (x) => x ** 3 * Math.exp(-x), 0, 90],
  ])('%s: mean and standard deviation of the density', (_, input, density, from, to) => {
    const [mean, deviation] = moments(density, from, to);
    const known = readInput(input);
    // The midpoint rule's own error here is below 1e-6.
    expect(known.estimate).toBeCloseTo(mean, 5);
    expect(known.standardUncertainty).toBeCloseTo(deviation, 5);
  });

  it('arcsine: the standard deviation of a sine swing', () => {
    const n = 10_000;
    let square = 0;
    for (let i = 0; i < n; i++) square += Math.sin((2 * Math.PI * (i + 0.5)) / n) ** 2;
    expect(u({ value: 0, plusMinus: 1, distribution: 'arcsine' })).toBeCloseTo(Math.sqrt(square / n), 12);
  });

  it('asymmetric deviations give the middle as estimate', () => {
    const known = readInput({ nominal: 25, upperDeviation: 0.05, lowerDeviation: -0.01 });
    expect(known.estimate).toBeCloseTo(25.02, 14);
    expect(known.limits).toEqual({ from: 24.99, to: 25.05 });
    expect(known.standardUncertainty).toBeCloseTo(0.06 / Math.sqrt(12), 14);
  });

  it('no width is a constant', () => {
    expect(readInput({ from: 3, to: 3 })).toEqual(readInput(3));
    expect(readInput({ readings: [3, 3] })).toEqual(readInput(3));
  });
});

describe('readings', () => {
  // JCGM 100:2008, 4.4.3, table 1: 20 readings of a temperature; mean 100.14 °C, s 1.49 °C, s/√n 0.33 °C (memory).
  it('gives the guide’s mean and experimental standard deviation of the mean', () => {
    const readings = [
      96.9, 98.18, 98.25, 98.61, 99.03, 99.49, 99.56, 99.74, 99.89, 100.07, 100.33, 100.42, 100.68, 100.95, 101.11,
      101.2, 101.57, 101.84, 102.36, 102.72,
    ];
    const known = readInput({ readings });
    // The guide gives 100.145 rounded to 100.14.
    expect(Math.abs(known.estimate - 100.14)).toBeLessThan(0.0051);
    expect(known.standardUncertainty.toFixed(2)).toBe('0.33');
    expect((known.standardUncertainty * Math.sqrt(20)).toFixed(2)).toBe('1.49');
    expect(known.degreesOfFreedom).toBe(19);
  });

  it('keeps the digits of readings that agree to ten places', () => {
    expect(u({ readings: [1e6 + 2 ** -13, 1e6 - 2 ** -13] })).toBe(2 ** -13);
  });
});

it('certificates: expanded uncertainty over its factor', () => {
  const known = readInput({ value: 50, expandedUncertainty: 0.09, coverageFactor: 3, degreesOfFreedom: 18 });
  expect(known.standardUncertainty).toBeCloseTo(0.03, 15);
  expect(known.distribution).toMatchObject({ kind: 't', location: 50, degreesOfFreedom: 18 });
});

it.each<[string, unknown, string]>([
  ['text', 'x', 'wrong-kind'],
  ['NaN', Number.NaN, 'not-finite'],
  ['nothing', {}, 'contradiction'],
  ['a value without more', { value: 1 }, 'contradiction'],
  ['two ways', { value: 1, plusMinus: 1, standardUncertainty: 1 }, 'contradiction'],
  ['unknown key', { value: 1, plusminus: 1 }, 'unknown-option'],
  ['limits the wrong way round', { from: 2, to: 1 }, 'out-of-range'],
  ['deviations the wrong way round', { nominal: 1, upperDeviation: -1, lowerDeviation: 1 }, 'out-of-range'],
  ['one reading', { readings: [1] }, 'out-of-range'],
  ['unknown shape', { from: 1, to: 2, distribution: 'bell' }, 'out-of-range'],
  ['trapezoid without top', { from: 1, to: 2, distribution: 'trapezoidal' }, 'missing-option'],
  ['top ratio without trapezoid', { from: 1, to: 2, topRatio: 0.5 }, 'contradiction'],
  [
    'inexactness beyond the middle',
    { from: 1, to: 2, distribution: 'curvilinear-trapezoid', inexactness: 1 },
    'out-of-range',
  ],
  ['half a degree of freedom', { value: 1, standardUncertainty: 1, degreesOfFreedom: 0.5 }, 'out-of-range'],
  ['count of 1.5', { distribution: 'gamma', count: 1.5 }, 'out-of-range'],
  ['mean of 0', { distribution: 'exponential', mean: 0 }, 'out-of-range'],
  ['limits beyond all numbers', { value: 1e308, plusMinus: 1e308 }, 'not-representable'],
])('refuses %s', (_, input, code) => {
  expect(() => readInput(input as Input)).toThrow(expect.objectContaining({ code }));
});

describe('correlations of readings', () => {
  it('leave out what never changed, and refuse readings that do not pair', () => {
    expect(correlationsOfReadings({ a: [1, 2], b: [3, 3] })).toEqual([]);
    expect(correlationsOfReadings({ a: [1e200, 2e200], b: [1e-200, 3e-200] })[0]?.coefficient).toBeCloseTo(1, 12);
    const pair = (): unknown => correlationsOfReadings({ a: [1, 2], b: [1, 2, 3] });
    expect(pair).toThrow(expect.objectContaining({ code: 'contradiction' }));
    expect(() => correlationsOfReadings(3 as never)).toThrow(expect.objectContaining({ code: 'wrong-kind' }));
  });
});

describe('correlations', () => {
  const names = ['a', 'b', 'c'];
  it('reads pairs and matrices alike', () => {
    const pairs = readCorrelations([{ between: ['c', 'a'], coefficient: 0.5 }], names);
    const matrix = readCorrelations(
      {
        names: ['a', 'c'],
        matrix: [
          [1, 0.5],
          [0.5, 1],
        ],
      },
      names,
    );
    expect(pairs).toEqual([
      [1, 0, 0.5],
      [0, 1, 0],
      [0.5, 0, 1],
    ]);
    expect(matrix).toEqual(pairs);
  });

  it('accepts what is just possible: three quantities in step', () => {
    const r = (a: string, b: string): { between: [string, string]; coefficient: number } => ({
      between: [a, b],
      coefficient: 1,
    });
    expect(readCorrelations([r('a', 'b'), r('b', 'c'), r('a', 'c')], names)).toEqual([
      [1, 1, 1],
      [1, 1, 1],
      [1, 1, 1],
    ]);
  });

  it.each<[string, Correlations, string]>([
    [
      'a and b in step, b and c in step, a and c opposed',
      [
        { between: ['a', 'b'], coefficient: 0.9 },
        { between: ['b', 'c'], coefficient: 0.9 },
        { between: ['a', 'c'], coefficient: -0.9 },
      ],
      'contradiction',
    ],
    ['an unknown name', [{ between: ['a', 'x'], coefficient: 0 }], 'out-of-range'],
    ['a name with itself', [{ between: ['a', 'a'], coefficient: 1 }], 'contradiction'],
    [
      'a pair twice',
      [
        { between: ['a', 'b'], coefficient: 0 },
        { between: ['b', 'a'], coefficient: 0 },
      ],
      'contradiction',
    ],
    ['more than 1', [{ between: ['a', 'b'], coefficient: 1.1 }], 'out-of-range'],
    [
      'a matrix that is not symmetric',
      {
        names: ['a', 'b'],
        matrix: [
          [1, 0.5],
          [0.4, 1],
        ],
      },
      'contradiction',
    ],
    ['a matrix of the wrong size', { names: ['a', 'b'], matrix: [[1]] }, 'out-of-range'],
    ['a diagonal other than 1', { names: ['a'], matrix: [[2]] }, 'out-of-range'],
  ])('refuses %s', (_, given, code) => {
    expect(() => readCorrelations(given, names)).toThrow(expect.objectContaining({ code }));
  });
});
