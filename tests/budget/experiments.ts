/**
 * Simulated measurements, to see how often a 95 % interval holds the truth. Errors are drawn by inverse transforms
 * of `Math`'s own making, with another generator than the library's, and are added to true values that change from
 * experiment to experiment; the library sees only what is indicated.
 */
import { mersenne } from 'pure-rand/generator/mersenne';
import { type Input, monteCarlo } from '../../src/budget/index.js';

/** A way to be wrong: an error of mean 0, and how the user states what is known of the indicated value. */
interface Shape {
  readonly error: (random: () => number) => number;
  readonly state?: (indicated: number) => Input;
  /** Repeated readings are many errors; the other shapes have one. */
  readonly readings?: number;
}

const gauss = (random: () => number): number =>
  Math.sqrt(-2 * Math.log(1 - random())) * Math.cos(2 * Math.PI * random());

const LIMIT = 0.05;

/** Exponential and gamma say what is believed of a quantity, not how a value errs: there the truth is drawn. */
const believed = (distribution: 'exponential' | 'gamma', draw: (random: () => number) => number): Shape => ({
  error: draw,
  state: () => (distribution === 'exponential' ? { distribution, mean: 1 } : { distribution, count: 4 }),
});

export const shapes: Readonly<Record<string, Shape>> = {
  rectangular: {
    error: (random) => LIMIT * (2 * random() - 1),
    state: (value) => ({ value, plusMinus: LIMIT }),
  },
  triangular: {
    error: (random) => LIMIT * (random() - random()),
    state: (value) => ({ value, plusMinus: LIMIT, distribution: 'triangular' }),
  },
  trapezoidal: {
    // Two rectangular errors of half widths 3 : 1 make a top of half the width.
    error: (random) => LIMIT * (0.75 * (2 * random() - 1) + 0.25 * (2 * random() - 1)),
    state: (value) => ({ value, plusMinus: LIMIT, distribution: 'trapezoidal', topRatio: 0.5 }),
  },
  arcsine: {
    error: (random) => LIMIT * Math.cos(Math.PI * random()),
    state: (value) => ({ value, plusMinus: LIMIT, distribution: 'arcsine' }),
  },
  'curvilinear-trapezoid': {
    error: (random) => (LIMIT + 0.02 * (2 * random() - 1)) * (2 * random() - 1),
    state: (value) => ({ value, plusMinus: LIMIT, distribution: 'curvilinear-trapezoid', inexactness: 0.02 }),
  },
  normal: {
    error: (random) => LIMIT * gauss(random),
    state: (value) => ({ value, standardUncertainty: LIMIT }),
  },
  t: {
    // Nine readings with normal errors, whose size is known from these readings alone.
    error: (random) => LIMIT * gauss(random),
    readings: 9,
  },
  exponential: believed('exponential', (random) => -Math.log(1 - random())),
  gamma: believed(
    'gamma',
    (random) => -Math.log((1 - random()) * (1 - random()) * (1 - random()) * (1 - random()) * (1 - random())),
  ),
};

/** Part of so many experiments whose interval held the truth. */
export function coverage(name: string, experiments: number, trials = 2000): number {
  const shape = shapes[name] as Shape;
  const generator = mersenne(4711);
  const random = (): number => (generator.next() >>> 0) / 2 ** 32;
  // Intervals from several t distributions together hold the truth more often than stated; one alone is exact.
  const inputs = shape.readings ? 1 : 3;
  const model = (x: Readonly<Record<string, number>>): number =>
    Math.sin(0.5 + 0.1 * (x['a'] as number)) + 0.06 * (x['b'] ?? 0) - 0.03 * (x['c'] ?? 0);
  let held = 0;
  for (let seed = 0; seed < experiments; seed++) {
    const truth: Record<string, number> = {};
    const known: Record<string, Input> = {};
    for (const key of ['a', 'b', 'c'].slice(0, inputs)) {
      if (shape.readings) {
        const middle = random();
        const readings = Array.from({ length: shape.readings }, () => middle + shape.error(random));
        truth[key] = middle;
        known[key] = { readings };
      } else if (name === 'exponential' || name === 'gamma') {
        truth[key] = shape.error(random);
        known[key] = shape.state?.(0) as Input;
      } else {
        truth[key] = random();
        known[key] = shape.state?.((truth[key] as number) + shape.error(random)) as Input;
      }
    }
    const { symmetric } = monteCarlo({ model, inputs: known, trials, seed });
    const value = model(truth);
    if (symmetric.low <= value && value <= symmetric.high) held++;
  }
  return held / experiments;
}
