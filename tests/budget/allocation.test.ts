/** Allocation: fed back through the budget, and against a search among all other ways to share out. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  type Allocation,
  type AllocationOptions,
  allocate,
  budget,
  type Input,
  type Model,
} from '../../src/budget/index.js';
import { runs } from '../oracle/seed.js';

/** Radius of a ball cut by a sweep of radius r in a head tilted by `tilt` degrees: R = r / sin(tilt). */
const ball: Model<'radius' | 'tiltDeg' | 'play'> = {
  name: 'ball',
  result: { kind: 'length', meaning: 'radius of the ball' },
  inputs: {
    radius: { kind: 'length', meaning: 'radius of the sweep' },
    tiltDeg: { kind: 'angleDeg', meaning: 'tilt of the head' },
    play: { kind: 'length', meaning: 'play of the spindle' },
  },
  evaluate: (m, { radius, tiltDeg, play }) => m.add(m.divide(radius, m.sinDeg(tiltDeg)), play),
};

/** Tolerance of the result that these settings give, by the budget. */
function fedBack(options: AllocationOptions, { settings }: Allocation): number {
  const inputs = Object.fromEntries(
    Object.entries(options.inputs).map(([name, input]): [string, Input] => {
      const tolerance = settings.find((setting) => setting.name === name)?.tolerance;
      return [name, typeof tolerance === 'number' ? { value: input as number, plusMinus: tolerance } : input];
    }),
  );
  const { standardUncertainty, rows } = budget({ model: options.model, inputs });
  return options.combination === 'worst-case'
    ? rows.reduce((sum, { contribution }) => sum + Math.sqrt(3) * contribution, 0)
    : Math.sqrt(3) * standardUncertainty;
}

const methods = ['equal-share', 'equal-ratio', 'least-cost'] as const;
const combinations = ['worst-case', 'root-sum-square'] as const;
const cases = methods.flatMap((method) => combinations.map((combination) => ({ method, combination })));

describe.each(cases)('$method, $combination', ({ method, combination }) => {
  it('fed back through the budget gives the tolerance asked for, to 1e-9', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 5, max: 50, noNaN: true }),
        fc.double({ min: 5, max: 85, noNaN: true }),
        fc.double({ min: 1e-4, max: 0.5, noNaN: true }),
        fc.double({ min: 0, max: 0.9, noNaN: true }),
        fc.double({ min: 1e-6, max: 0.05, noNaN: true }),
        (radius, tiltDeg, tolerance, played, step) => {
          // Known play and half a graduation of the radius use that much up: a tolerance must be left to allocate.
          fc.pre(played + step / 2 / Math.sin((tiltDeg * Math.PI) / 180) < 0.999);
          const options: AllocationOptions = {
            model: ball,
            inputs: { radius, tiltDeg, play: { value: 0, plusMinus: played * tolerance } },
            tolerance,
            method,
            combination,
            steps: { radius: step * tolerance },
          };
          expect(fedBack(options, allocate(options)) / tolerance).toBeCloseTo(1, 9);
        },
      ),
      { numRuns: 100 },
    );
  });

  it('works for a function of the caller’s own', () => {
    const options: AllocationOptions = {
      model: ({ a, b, c }) => ((a as number) * (b as number)) / Math.sqrt(c as number),
      inputs: { a: 2, b: 3, c: 4 },
      tolerance: 0.01,
      method,
      combination,
    };
    expect(fedBack(options, allocate(options)) / 0.01).toBeCloseTo(1, 9);
  });
});

const linear = (options: Partial<AllocationOptions>): Allocation =>
  allocate({
    model: ({ a, b, c }) => 1 * (a as number) + 5 * (b as number) - 20 * (c as number),
    inputs: { a: 1, b: 1, c: 1 },
    tolerance: 0.3,
    method: 'least-cost',
    combination: 'root-sum-square',
    ...options,
  });
const tolerances = ({ settings }: Allocation): number[] => settings.map(({ tolerance }) => tolerance as number);

describe('least cost', () => {
  it.each(combinations)('%s: nothing else that fits is cheaper', (combination) => {
    const costs = { a: 3, b: 0.2, c: 1 };
    const best = linear({ combination, costs });
    const c = [1, 5, 20];
    const k = [3, 0.2, 1];
    const cost = (t: readonly number[]): number => t.reduce((sum, x, i) => sum + (k[i] as number) / x, 0);
    const size = (t: readonly number[]): number =>
      combination === 'worst-case'
        ? t.reduce((sum, x, i) => sum + (c[i] as number) * x, 0)
        : Math.hypot(...t.map((x, i) => (c[i] as number) * x));
    const found = tolerances(best);
    expect(size(found)).toBeCloseTo(0.3, 12);
    expect(best.cost).toBeCloseTo(cost(found), 9);
    fc.assert(
      fc.property(fc.array(fc.double({ min: -3, max: 3, noNaN: true }), { minLength: 3, maxLength: 3 }), (bend) => {
        // Any other direction, scaled until it just fits.
        const other = found.map((t, i) => t * Math.exp(bend[i] as number));
        const fitting = other.map((t) => (t * 0.3) / size(other));
        expect(cost(fitting)).toBeGreaterThanOrEqual(best.cost * (1 - 1e-12));
      }),
      { numRuns: runs(2000, 500) },
    );
  });

  it('follows the shop’s rule: tolerance as the cube root of cost over sensitivity squared', () => {
    const [a = 0, b = 0] = tolerances(linear({ costs: { a: 8, b: 1, c: 1 } }));
    expect(a / b).toBeCloseTo(Math.cbrt(8 * 25), 9);
  });
});

it('equal share: contributions are equal', () => {
  const { settings } = linear({ method: 'equal-share', combination: 'worst-case' });
  for (const { contribution, share } of settings) {
    expect(contribution).toBeCloseTo(0.1, 12);
    expect(share).toBeCloseTo(1 / 3, 12);
  }
});

it('equal ratio: tolerances stand in the ratios given, or in those of the settings', () => {
  const [a = 0, b = 0, c = 0] = tolerances(linear({ method: 'equal-ratio', ratios: { a: 3, b: 2, c: 1 } }));
  expect([a / c, b / c]).toEqual([expect.closeTo(3, 12), expect.closeTo(2, 12)]);
  const own = allocate({
    model: ({ a: x, b: y }) => (x as number) + (y as number),
    inputs: { a: 10, b: -40 },
    tolerance: 1,
    method: 'equal-ratio',
    combination: 'worst-case',
  });
  expect(tolerances(own)).toEqual([expect.closeTo(0.2, 12), expect.closeTo(0.8, 12)]);
});

describe('graduations', () => {
  it('hold what they can and leave the rest to the others', () => {
    const free = linear({ method: 'equal-share', combination: 'worst-case' });
    const held = linear({ method: 'equal-share', combination: 'worst-case', steps: { c: 0.02 } });
    expect(free.settings[2]?.tolerance).toBeCloseTo(0.005, 12);
    expect(held.settings[2]).toMatchObject({ tolerance: 0.01, atGraduation: true });
    expect(held.settings[0]?.contribution).toBeCloseTo(0.05, 12);
    expect(held.settings.map(({ atGraduation }) => atGraduation)).toEqual([false, false, true]);
  });

  it('push a second setting to its own, when the first has used too much', () => {
    const held = linear({ method: 'equal-share', combination: 'worst-case', steps: { c: 0.02, b: 0.03 } });
    expect(held.settings.map(({ contribution }) => contribution)).toEqual(
      [0.025, 0.075, 0.2].map((x) => expect.closeTo(x, 12)),
    );
  });

  it('that are too coarse altogether are refused with what they use up', () => {
    expect(() => linear({ combination: 'worst-case', steps: { c: 0.04 } })).toThrow(
      expect.objectContaining({ code: 'beyond-machine', parameter: 'tolerance', value: 0.3 }),
    );
  });
});

describe('improvements', () => {
  it('names first what pays most, inputs of known uncertainty among them', () => {
    const { improvements, used } = linear({
      inputs: { a: { value: 1, plusMinus: 0.2 }, b: 1, c: 1 },
      method: 'equal-share',
      combination: 'worst-case',
    });
    expect(used).toBeCloseTo(0.2, 12);
    expect(improvements[0]).toEqual({ name: 'a', tolerance: expect.closeTo(0.2, 12) });
  });
});

it('a setting that does nothing may be off by anything', () => {
  const { settings } = linear({ model: ({ a, b }) => (a as number) - (b as number) });
  expect(settings[2]).toMatchObject({ name: 'c', tolerance: null, contribution: 0 });
});

it('says where the extremes are not linear', () => {
  const { notes } = allocate({
    model: ball,
    inputs: { radius: 10, tiltDeg: 10, play: 0 },
    tolerance: 10,
    method: 'equal-share',
    combination: 'worst-case',
  });
  expect(notes.map(({ code }) => code)).toEqual(['not-linear']);
  expect(linear({}).notes).toEqual([]);
});

it.each<[string, Partial<AllocationOptions>, string]>([
  [
    'no setting to allocate',
    { inputs: { a: { value: 1, plusMinus: 1 }, b: { value: 1, plusMinus: 1 }, c: { value: 1, plusMinus: 1 } } },
    'missing-option',
  ],
  ['costs without least cost', { method: 'equal-share', costs: { a: 1 } }, 'contradiction'],
  ['ratios without equal ratio', { ratios: { a: 1 } }, 'contradiction'],
  ['a step of no setting', { steps: { z: 1 } }, 'unknown-option'],
  ['a ratio to a setting of 0', { method: 'equal-ratio', inputs: { a: 0, b: 1, c: 1 } }, 'missing-option'],
  [
    'a worst case without limits',
    { combination: 'worst-case', inputs: { a: { value: 1, standardUncertainty: 1 }, b: 1, c: 1 } },
    'out-of-range',
  ],
  ['no tolerance', { tolerance: 0 }, 'out-of-range'],
  ['no influence', { model: () => 3 }, 'out-of-range'],
  ['known inputs that use up all', { inputs: { a: { value: 1, plusMinus: 1 }, b: 1, c: 1 } }, 'beyond-machine'],
  ['a corner', { model: ({ a }) => Math.abs((a as number) - 1) }, 'not-converged'],
])('refuses %s', (_, options, code) => {
  expect(() => linear(options)).toThrow(expect.objectContaining({ code }));
});
