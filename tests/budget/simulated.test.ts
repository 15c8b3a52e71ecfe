/**
 * Does the interval hold the truth as often as it says? Simulated experiments: a truth is chosen, measured with
 * errors of each distribution, budgeted, and looked for in the interval. The draws are this test's own. Degrees of
 * freedom are taken as they are: rounded down, as is the default, they widen the intervals from few readings.
 */
import { uniformFloat64 } from 'pure-rand/distribution/uniformFloat64';
import { xoroshiro128plus } from 'pure-rand/generator/xoroshiro128plus';
import { expect, it } from 'vitest';
import { budget, type Input, type Model } from '../../src/budget/index.js';
import { runs } from '../oracle/seed.js';

const generator = xoroshiro128plus(42);
const uniform = (): number => uniformFloat64(generator);
const normal = (): number => Math.sqrt(-2 * Math.log(1 - uniform())) * Math.cos(2 * Math.PI * uniform());
const exponential = (): number => -Math.log(1 - uniform());

/** Bent a little: four lengths of about 100, of which one divides. */
const model: Model<'a' | 'b' | 'c' | 'd'> = {
  name: 'bent',
  result: { kind: 'number', meaning: 'result' },
  inputs: {
    a: { kind: 'length', meaning: 'a' },
    b: { kind: 'length', meaning: 'b' },
    c: { kind: 'length', meaning: 'c' },
    d: { kind: 'length', meaning: 'd' },
  },
  evaluate: (m, { a, b, c, d }) => m.subtract(m.add(a, b), m.divide(m.multiply(c, m.constant(100)), d)),
};
const NAMES = ['a', 'b', 'c', 'd'] as const;

/** What an experiment says of a truth. */
const kinds: Record<string, (truth: number) => Input> = {
  rectangular: (x) => ({ value: x + 2 * uniform() - 1, plusMinus: 1 }),
  triangular: (x) => ({ value: x + uniform() - uniform(), plusMinus: 1, distribution: 'triangular' }),
  trapezoidal: (x) => ({
    value: x + 0.75 * (2 * uniform() - 1) + 0.25 * (2 * uniform() - 1),
    plusMinus: 1,
    distribution: 'trapezoidal',
    topRatio: 0.5,
  }),
  arcsine: (x) => ({ value: x + Math.sin(2 * Math.PI * uniform()), plusMinus: 1, distribution: 'arcsine' }),
  'curvilinear trapezoid': (x) => ({
    value: x + (1 + 0.3 * (2 * uniform() - 1)) * (2 * uniform() - 1),
    plusMinus: 1,
    distribution: 'curvilinear-trapezoid',
    inexactness: 0.3,
  }),
  normal: (x) => ({ value: x + normal(), standardUncertainty: 1 }),
  'four readings': (x) => ({ readings: [0, 0, 0, 0].map(() => x + normal()) }),
  'eight readings': (x) => ({ readings: [0, 0, 0, 0, 0, 0, 0, 0].map(() => x + normal()) }),
};

const EXPERIMENTS = runs(20_000, 4000);
/** 0.01 among 20,000 experiments; four standard deviations of a share of 0.95 where fewer scatter by more. */
const ROOM = Math.max(0.01, 4 * Math.sqrt((0.95 * 0.05) / EXPERIMENTS));

it.each(Object.keys(kinds))('%s: intervals of 95 in 100 hold the truth in 95 of 100 experiments', (kind) => {
  const measure = kinds[kind] as (truth: number) => Input;
  let held = 0;
  for (let i = 0; i < EXPERIMENTS; i++) {
    const truth = NAMES.map(() => 90 + 20 * uniform());
    const inputs = Object.fromEntries(NAMES.map((name, k) => [name, measure(truth[k] as number)])) as Record<
      (typeof NAMES)[number],
      Input
    >;
    const [a, b, c, d] = truth as [number, number, number, number];
    const { low, high } = budget({ model, inputs, degreesOfFreedomRounding: 'none' }).interval;
    const value = a + b - (100 * c) / d;
    if (value >= low && value <= high) held++;
  }
  expect(Math.abs(held / EXPERIMENTS - 0.95)).toBeLessThan(ROOM);
});

// Exponential and gamma describe what is known of a truth once x or q is given: the truth is drawn.
it.each<{ input: Input & { distribution: string }; draw: () => number }>([
  { input: { distribution: 'exponential', mean: 2 }, draw: () => 2 * exponential() },
  {
    input: { distribution: 'gamma', count: 9 },
    draw: () => Array.from({ length: 10 }, exponential).reduce((sum, x) => sum + x, 0),
  },
])('$input.distribution: intervals of 95 in 100 hold 95 of 100 truths', ({ input, draw }) => {
  const { low, high } = budget({
    model: (x) => NAMES.reduce((sum, name) => sum + (x[name] as number), 0),
    inputs: Object.fromEntries(NAMES.map((name) => [name, input])),
  }).interval;
  let held = 0;
  for (let i = 0; i < EXPERIMENTS; i++) {
    const value = draw() + draw() + draw() + draw();
    if (value >= low && value <= high) held++;
  }
  expect(Math.abs(held / EXPERIMENTS - 0.95)).toBeLessThan(ROOM);
});
