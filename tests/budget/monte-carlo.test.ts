/**
 * Monte Carlo against the worked examples of JCGM 101 clause 9 and closed forms. A printed value is compared within
 * half a unit of its last digit and four standard deviations of our own numerical error, plus those of the source
 * where it was found by Monte Carlo too (there the last digit printed is the least that the source vouches for).
 */
import { describe, expect, it } from 'vitest';
import {
  type Input,
  type Model,
  type MonteCarloJob,
  type MonteCarloResult,
  mergeMonteCarlo,
  monteCarlo,
  monteCarloAsync,
  monteCarloPart,
} from '../../src/budget/index.js';
import { halfUnit, published } from '../reference/published.js';

const sum: Model<'x1' | 'x2' | 'x3' | 'x4'> = {
  name: 'sum',
  result: { kind: 'number', meaning: 'sum of four' },
  inputs: {
    x1: { kind: 'number', meaning: 'first' },
    x2: { kind: 'number', meaning: 'second' },
    x3: { kind: 'number', meaning: 'third' },
    x4: { kind: 'number', meaning: 'fourth' },
  },
  evaluate: ({ add }, { x1, x2, x3, x4 }) => add(add(x1, x2), add(x3, x4)),
};
const four = (input: Input): Record<'x1' | 'x2' | 'x3' | 'x4', Input> => ({
  x1: input,
  x2: input,
  x3: input,
  x4: input,
});
const ofUnitDeviation: Input = { value: 0, plusMinus: Math.sqrt(3) };
const near = (found: number, error: number, printed: string, unit = 1): void => {
  expect(Math.abs(found - Number(printed) * unit)).toBeLessThanOrEqual(halfUnit(printed) * unit + 4 * error);
};
const value = (id: string, key: string): string => {
  const printed = published(id).published[key];
  if (!printed) throw new Error(`${id} prints no ${key}`);
  return printed.value;
};

describe('worked examples', () => {
  it('9.2.2: four normal inputs', () => {
    const found = monteCarlo({ model: sum, inputs: four({ value: 0, standardUncertainty: 1 }) });
    near(found.standardUncertainty, found.standardUncertaintyError, value('T7-S1-92n', 'u'));
    near(found.symmetric.low, found.symmetric.lowError, value('T7-S1-92n', 'low95'));
    near(found.symmetric.high, found.symmetric.highError, value('T7-S1-92n', 'high95'));
    near(found.shortest.low, found.shortest.lowError, value('T7-S1-92n', 'low95'));
    near(found.shortest.high, found.shortest.highError, value('T7-S1-92n', 'high95'));
  });

  it('9.2.3: four rectangular inputs, whose interval has a closed form', () => {
    const found = monteCarlo({ model: sum, inputs: four(ofUnitDeviation) });
    const end = 2 * Math.sqrt(3) * (2 - 0.6 ** 0.25);
    expect(end).toBeCloseTo(3.879407, 6);
    expect(Math.abs(found.symmetric.high - end)).toBeLessThan(4 * found.symmetric.highError);
    expect(Math.abs(found.symmetric.low + end)).toBeLessThan(4 * found.symmetric.lowError);
    expect(Math.abs(found.standardUncertainty - 2)).toBeLessThan(4 * found.standardUncertaintyError);
    // The ends are known to about 3 in 1000, so that these are tests.
    expect(found.symmetric.highError).toBeLessThan(0.005);
  });

  it('9.2.4: four rectangular inputs, one of them ten times as wide', () => {
    const found = monteCarlo({
      model: sum,
      inputs: { ...four(ofUnitDeviation), x4: { value: 0, plusMinus: 10 * Math.sqrt(3) } },
    });
    near(found.standardUncertainty, found.standardUncertaintyError, value('T7-S1-924', 'u'));
    near(found.symmetric.high, found.symmetric.highError, value('T7-S1-924', 'MCM_high95'));
  });

  it('9.3: mass calibration, where an input has no first-order effect', () => {
    const [reference, nominal, conventional] = [100_000, 100_000, 1.2];
    const found = monteCarlo({
      model: ({ m, dm, air, weight, standard }) =>
        (reference + (m as number) + (dm as number)) *
          (1 + ((air as number) - conventional) * (1 / (weight as number) - 1 / (standard as number))) -
        nominal,
      inputs: {
        m: { value: 0, standardUncertainty: 0.05 },
        dm: { value: 1.234, standardUncertainty: 0.02 },
        air: { from: 1.1, to: 1.3 },
        weight: { from: 7000, to: 9000 },
        standard: { from: 7950, to: 8050 },
      },
    });
    // The source's own trials were 1e6 or fewer, so its error is no less than ours: the root of 2 times in all.
    const both = Math.SQRT2;
    near(found.mean, both * found.meanError, value('T7-S1-93', 'MCM_mean'));
    near(found.standardUncertainty, both * found.standardUncertaintyError, value('T7-S1-93', 'MCM_u'));
    near(found.shortest.low, both * found.shortest.lowError, value('T7-S1-93', 'MCM_low'));
    near(found.shortest.high, both * found.shortest.highError, value('T7-S1-93', 'MCM_high'));
  });

  it.each([
    ['T7-S1-94-0', 0],
    ['T7-S1-94-0.010', 0.01],
    ['T7-S1-94-0.050', 0.05],
  ])('9.4: comparison loss %s', (id, x1) => {
    const found = monteCarlo({
      model: ({ x1, x2 }) => (x1 as number) ** 2 + (x2 as number) ** 2,
      inputs: { x1: { value: x1, standardUncertainty: 0.005 }, x2: { value: 0, standardUncertainty: 0.005 } },
    });
    near(found.mean, found.meanError, value(id, 'MCM_mean'), 1e-6);
    near(found.standardUncertainty, found.standardUncertaintyError, value(id, 'MCM_u'), 1e-6);
    near(found.shortest.low, found.shortest.lowError, value(id, 'MCM_low95'), 1e-6);
    near(found.shortest.high, found.shortest.highError, value(id, 'MCM_high95'), 1e-6);
    // Closed form of u: for X of mean x and deviation u, var X² = 4x²u² + 2u⁴; there are two.
    const u = 0.005;
    const exact = Math.sqrt(4 * x1 * x1 * u * u + 4 * u ** 4);
    expect(Math.abs(found.standardUncertainty - exact)).toBeLessThan(4 * found.standardUncertaintyError);
  });

  it('falling-ball viscometer of NIST TN 1900, E3', () => {
    const found = monteCarlo({
      model: ({ mu, tm, tc, ball, m, c }) =>
        ((mu as number) * ((ball as number) - (m as number)) * (tm as number)) /
        (((ball as number) - (c as number)) * (tc as number)),
      inputs: {
        mu: { value: 4.63, standardUncertainty: 0.0463 },
        tm: { value: 61, standardUncertainty: 6.1 },
        tc: { value: 36.6, standardUncertainty: 5.49 },
        ball: { value: 2217, standardUncertainty: 0.5 },
        m: { value: 1180, standardUncertainty: 0.5 },
        c: { value: 810, standardUncertainty: 0.5 },
      },
    });
    near(found.mean, found.meanError, value('T7-E3', 'MC_mean'));
    near(found.standardUncertainty, found.standardUncertaintyError, value('T7-E3', 'MC_u'));
    near(found.symmetric.low, found.symmetric.lowError, value('T7-E3', 'MC_low95'));
    near(found.symmetric.high, found.symmetric.highError, value('T7-E3', 'MC_high95'));
  });
});

describe('one seed, one result', () => {
  const job: MonteCarloJob & { trials: number } = {
    model: ({ a, b }) => Math.sin(a as number) / (b as number),
    inputs: { a: { value: 1, standardUncertainty: 0.2 }, b: { from: 3, to: 4 } },
    trials: 12_345,
    seed: 42,
  };
  const whole = monteCarlo(job);

  it.each([1, 2, 3, 7, 13, 40])('in %s parts, in any order, also through JSON', (parts) => {
    const split = Array.from({ length: parts }, (_, part) => monteCarloPart({ ...job, part, parts }));
    expect(mergeMonteCarlo(split.reverse())).toEqual(whole);
    const sent = split.map((one) => JSON.parse(JSON.stringify({ ...one, values: [...one.values] })));
    expect(mergeMonteCarlo(sent)).toEqual(whole);
  });

  it('pausing', async () => {
    const seen: number[] = [];
    expect(await monteCarloAsync({ ...job, progress: (done, all) => seen.push(done / all) })).toEqual(whole);
    expect(seen.at(-1)).toBe(1);
  });

  it('whatever the order of the inputs', () => {
    const inputs = Object.fromEntries(Object.entries(job.inputs).reverse());
    expect(monteCarlo({ ...job, inputs })).toEqual(whole);
  });

  it('by model, by function and by batch', () => {
    const inputs = four({ value: 1, plusMinus: 0.1 });
    const byModel = monteCarlo({ model: sum, inputs, trials: 5500 });
    const byFunction = monteCarlo({
      model: ({ x1, x2, x3, x4 }) => (x1 as number) + (x2 as number) + ((x3 as number) + (x4 as number)),
      inputs,
      trials: 5500,
    });
    const byBatch = monteCarlo({
      model: {
        batch: ({ x1, x2, x3, x4 }, count, results) => {
          for (let i = 0; i < count; i++) {
            results[i] = (x1?.[i] as number) + (x2?.[i] as number) + ((x3?.[i] as number) + (x4?.[i] as number));
          }
        },
      },
      inputs,
      trials: 5500,
    });
    expect(byFunction).toEqual(byModel);
    expect(byBatch).toEqual(byModel);
  });

  it('and another seed, another one', () => {
    expect(monteCarlo({ ...job, seed: 43 }).mean).not.toBe(whole.mean);
  });
});

it('numerical errors are those seen from seed to seed', () => {
  const skew: MonteCarloJob = {
    model: ({ a, b }) => (a as number) ** 2 + (b as number),
    inputs: { a: { value: 1, standardUncertainty: 0.3 }, b: { value: 0, standardUncertainty: 0.5 } },
  };
  const runs = Array.from({ length: 60 }, (_, seed) => monteCarlo({ ...skew, seed, trials: 20_000 }));
  const scatter = (of: (run: MonteCarloResult) => number): number => {
    const mean = runs.reduce((total, run) => total + of(run), 0) / runs.length;
    return Math.sqrt(runs.reduce((total, run) => total + (of(run) - mean) ** 2, 0) / (runs.length - 1));
  };
  const stated = (of: (run: MonteCarloResult) => number): number =>
    runs.reduce((total, run) => total + of(run), 0) / runs.length;
  // A standard deviation from 60 runs is itself known to 9 %: 1.4 is four times that. The shortest interval's
  // errors come from a rule of scale on ten samples and claim no more than their order.
  for (const [of, error, factor] of [
    [(r) => r.mean, (r) => r.meanError, 1.4],
    [(r) => r.standardUncertainty, (r) => r.standardUncertaintyError, 1.4],
    [(r) => r.symmetric.low, (r) => r.symmetric.lowError, 1.4],
    [(r) => r.symmetric.high, (r) => r.symmetric.highError, 1.4],
    [(r) => r.shortest.low, (r) => r.shortest.lowError, 2],
    [(r) => r.shortest.high, (r) => r.shortest.highError, 2],
  ] as [(r: MonteCarloResult) => number, (r: MonteCarloResult) => number, number][]) {
    const ratio = stated(error) / scatter(of);
    expect(ratio).toBeLessThan(factor);
    expect(ratio).toBeGreaterThan(1 / factor);
  }
});

it('the tails give what a full sort gives', () => {
  // A run long enough for the sampled limits, against sorting and JCGM 101 7.7 by the letter.
  const job: MonteCarloJob & { trials: number } = {
    model: ({ a }) => a as number,
    inputs: { a: { distribution: 'exponential', mean: 1 } },
    trials: 40_000,
  };
  const { values } = monteCarloPart({ ...job, part: 0, parts: 1 });
  const sorted = Float64Array.from(values).sort();
  const q = 0.95 * 40_000;
  let best = 0;
  for (let r = 0; r + q < 40_000; r++) {
    const length = (i: number): number => (sorted[i + q] as number) - (sorted[i] as number);
    if (length(r) < length(best)) best = r;
  }
  const found = monteCarlo(job);
  expect([found.symmetric.low, found.symmetric.high]).toEqual([sorted[999], sorted[999 + q]]);
  expect([found.shortest.low, found.shortest.high]).toEqual([sorted[best], sorted[best + q]]);
});

it('a function that never changes has no uncertainty', () => {
  const { mean, standardUncertainty, symmetric, shortest } = monteCarlo({
    model: () => 5,
    inputs: { a: 1 },
    trials: 10_000,
  });
  expect([mean, standardUncertainty, symmetric.low, symmetric.high, shortest.low, shortest.highError]).toEqual([
    5, 0, 5, 5, 5, 0,
  ]);
});

describe('refusals', () => {
  const inputs = { a: { from: -1, to: 1 } };
  const model = ({ a }: Readonly<Record<string, number>>): number => a as number;

  it('a trial without a finite result is named', () => {
    const root = (): unknown => monteCarlo({ model: ({ a }) => Math.sqrt(a as number), inputs, trials: 2000 });
    expect(root).toThrow(/finite number for every trial; trial \d+ has a = -0\.\d+/);
    expect(() => monteCarlo({ model: () => undefined as unknown as number, inputs, trials: 2000 })).toThrow(
      'finite number',
    );
  });

  it.each([
    ['few trials', { trials: 1999 }, 'trials'],
    ['few trials for the coverage', { trials: 2000, coverage: 0.999 }, 'trials'],
    ['half a trial', { trials: 2000.5 }, 'trials'],
    ['no coverage', { coverage: 0 }, 'coverage'],
    ['a seed below 0', { seed: -1 }, 'seed'],
    ['no inputs', { inputs: {} }, 'inputs'],
    ['an unknown option', { trails: 1000 }, 'trails'],
    ['a model that is none', { model: {} }, 'model'],
    ['an input that the model lacks', { model: sum, inputs: { ...four(1), x5: 1 } }, 'inputs.x5'],
    ['a missing input', { model: sum, inputs: { x1: 1 } }, 'inputs.x2'],
  ])('%s', (_, change, parameter) => {
    const broken = { model, inputs, trials: 2000, ...change } as Parameters<typeof monteCarlo>[0];
    expect(() => monteCarlo(broken)).toThrow(expect.objectContaining({ name: 'GeneratrixError', parameter }));
  });

  it('parts of different runs, parts that are missing or short', () => {
    const job = { model, inputs, trials: 4000, parts: 2 };
    const [first, second] = [monteCarloPart({ ...job, part: 0 }), monteCarloPart({ ...job, part: 1 })];
    for (const parts of [
      [first],
      [first, first],
      [first, { ...second, seed: 2 }],
      [first, { ...second, values: [] }],
    ]) {
      expect(() => mergeMonteCarlo(parts)).toThrow(expect.objectContaining({ code: 'contradiction' }));
    }
  });

  it('an aborted run', async () => {
    const signal = { aborted: false };
    const run = monteCarloAsync({
      model,
      inputs,
      signal,
      trials: 3_000_000,
      progress: () => {
        signal.aborted = true;
      },
    });
    await expect(run).rejects.toThrow(expect.objectContaining({ code: 'aborted' }));
  });
});
