/**
 * Worst cases against a dense search and against extremes known by calculus; interval arithmetic against values of
 * the operations at points inside.
 */
import { Decimal } from 'decimal.js';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { plainArithmetic } from '../../src/budget/arithmetic.js';
import { type Arithmetic, type Input, type Model, worstCase } from '../../src/budget/index.js';
import { type Interval, intervalArithmetic } from '../../src/budget/interval.js';
import { runs } from '../oracle/seed.js';

/** Sine of radians. */
const sine = <T>(m: Arithmetic<T>, x: T): T => m.sinDeg(m.multiply(x, m.constant(180 / Math.PI)));

type Term = readonly [kind: number, i: number, j: number, a: number, b: number];

/** A random function of n inputs: sums of waves, products, squares and quotients, so that extremes lie inside too. */
function randomModel(n: number, terms: readonly Term[]): Model {
  const names = Array.from({ length: n }, (_, i) => `x${i}`);
  return {
    name: 'random',
    result: { kind: 'number', meaning: 'a random function' },
    inputs: Object.fromEntries(names.map((name) => [name, { kind: 'number', meaning: 'any' }])),
    evaluate: <T>(m: Arithmetic<T>, inputs: Readonly<Record<string, T>>): T => {
      const x = (i: number): T => inputs[names[i % n] as string] as T;
      return terms
        .map(([kind, i, j, a, b]) => {
          const [A, B] = [m.constant(a), m.constant(b)];
          if (kind === 0) return m.multiply(A, sine(m, m.add(m.multiply(B, x(i)), x(j))));
          if (kind === 1) return m.multiply(A, m.multiply(x(i), x(j)));
          if (kind === 2) return m.multiply(A, m.square(m.subtract(x(i), B)));
          if (kind === 3) return m.divide(m.multiply(A, x(i)), m.add(m.constant(2), m.square(x(j))));
          return m.multiply(A, m.sqrt(m.add(m.constant(1), m.square(m.add(x(i), m.multiply(B, x(j)))))));
        })
        .reduce((sum, term) => m.add(sum, term));
    },
  };
}

const term = fc.tuple(
  fc.integer({ min: 0, max: 4 }),
  fc.nat(5),
  fc.nat(5),
  fc.double({ min: -3, max: 3, noNaN: true }),
  fc.double({ min: -1, max: 1, noNaN: true }),
);

/** A regular grid with its corners, about 4000 points, and as many scattered by an irrational step. */
function denseSearch(f: (at: readonly number[]) => number, n: number, low: number, high: number): [number, number] {
  const steps = Math.max(3, Math.floor(4000 ** (1 / n)));
  const total = steps ** n;
  let [least, most] = [Infinity, -Infinity];
  const look = (at: readonly number[]): void => {
    const value = f(at);
    least = Math.min(least, value);
    most = Math.max(most, value);
  };
  for (let k = 0; k < total; k++) {
    look(
      Array.from({ length: n }, (_, i) => low + ((high - low) * (Math.floor(k / steps ** i) % steps)) / (steps - 1)),
    );
    look(
      Array.from(
        { length: n },
        (_, i) => low + (high - low) * ((k * Math.sqrt([2, 3, 5, 7, 11, 13][i] as number)) % 1),
      ),
    );
  }
  return [least, most];
}

describe('random models of up to six inputs', () => {
  it('are never exceeded by a dense search, and the values are reached', () => {
    let [inside, closed, all] = [0, 0, 0];
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 6 }), fc.array(term, { minLength: 2, maxLength: 7 }), (n, terms) => {
        const model = randomModel(n, terms as readonly Term[]);
        const names = Object.keys(model.inputs);
        const inputs = Object.fromEntries(names.map((name): [string, Input] => [name, { from: -1, to: 1.5 }]));
        const { lowest, highest, certainty, gap, cornersSuffice } = worstCase({ model, inputs });
        const f = (at: readonly number[]): number =>
          model.evaluate(plainArithmetic, Object.fromEntries(names.map((name, i) => [name, at[i] as number])));
        const [least, most] = denseSearch(f, n, -1, 1.5);
        expect(certainty).toBe('certified');
        expect(lowest.bound).toBeLessThanOrEqual(Math.min(least, lowest.value));
        expect(highest.bound).toBeGreaterThanOrEqual(Math.max(most, highest.value));
        expect(f(names.map((name) => highest.at[name] as number)) + 0).toBe(highest.value);
        if (!cornersSuffice) inside++;
        if ((gap as number) <= 1e-4 * (highest.value - lowest.value) + 1e-9) closed++;
        all++;
      }),
      { numRuns: runs(60, 20) },
    );
    expect(inside).toBeGreaterThan(all / 4);
    expect(closed).toBeGreaterThan(0.9 * all);
  });
});

const number = { kind: 'number', meaning: 'any' } as const;
const modelOf = <Name extends string>(names: readonly Name[], evaluate: Model<Name>['evaluate']): Model<Name> => ({
  name: 'test',
  result: number,
  inputs: Object.fromEntries(names.map((name) => [name, number])) as unknown as Model<Name>['inputs'],
  evaluate,
});

describe('extremes known by calculus', () => {
  it('a bowl and a saddle: inside, and at the limits', () => {
    const model = modelOf(['x', 'y'], (m, { x, y }) => m.subtract(m.square(x), m.square(y)));
    const { lowest, highest, cornersSuffice } = worstCase({
      model,
      inputs: { x: { from: -1, to: 2 }, y: { from: -1, to: 3 } },
    });
    // x² - y² is largest at x = 2, y = 0 and smallest at x = 0, y = 3.
    expect(highest.value).toBeCloseTo(4, 5);
    expect(highest.bound).toBeGreaterThanOrEqual(4);
    expect(lowest.value).toBeCloseTo(-9, 5);
    expect(lowest.bound).toBeLessThanOrEqual(-9);
    expect(cornersSuffice).toBe(false);
  });

  it('a monotonic model: corners suffice and the bounds stand within rounding', () => {
    const model = modelOf(['bar', 'angle'], (m, { bar, angle }) => m.multiply(bar, m.sinDeg(angle)));
    const exact = (angleDeg: number): Decimal => new Decimal(angleDeg).times(Decimal.acos(-1)).div(180);
    const { lowest, highest, cornersSuffice, gap, notes } = worstCase({
      model,
      inputs: { bar: { value: 100, plusMinus: 0.01 }, angle: { value: 30, plusMinus: 0.0625 } },
    });
    expect(lowest.value).toBe(99.99 * Number(exact(29.9375).sin()));
    expect(highest.value).toBe(100.01 * Number(exact(30.0625).sin()));
    expect([cornersSuffice, notes]).toEqual([true, []]);
    // A product and a sine: a few units in the last place of 50.
    expect(gap).toBeLessThan(16 * Number.EPSILON * 50);
  });

  it('six waves with their crests inside', () => {
    const names = ['a', 'b', 'c', 'd', 'e', 'f'] as const;
    const model = modelOf(names, (m, x) => names.map((name) => sine(m, x[name])).reduce((p, q) => m.add(p, q)));
    const inputs = Object.fromEntries(names.map((name) => [name, { from: -2, to: 2.5 }])) as Record<
      (typeof names)[number],
      Input
    >;
    const { lowest, highest } = worstCase({ model, inputs });
    // Crests at ±π/2.
    expect(highest.value).toBeCloseTo(6, 4);
    expect(highest.bound).toBeGreaterThanOrEqual(6);
    expect(lowest.bound).toBeLessThanOrEqual(-6);
    expect((highest.bound as number) - 6).toBeLessThan(1e-4);
  });

  it('limits of every bounded shape, and those of a normal input where asked for', () => {
    const model = modelOf(['a', 'b', 'c'], (m, { a, b, c }) => m.add(a, m.add(b, c)));
    const inputs: Record<'a' | 'b' | 'c', Input> = {
      a: { from: 0, to: 1, distribution: 'curvilinear-trapezoid', inexactness: 0.25 },
      b: { nominal: 10, upperDeviation: 0.5, lowerDeviation: -0.25 },
      c: { value: 0, standardUncertainty: 2 },
    };
    const { lowest, highest } = worstCase({ model, inputs, standardUncertainties: 3 });
    expect([lowest.value, highest.value]).toEqual([-0.25 + 9.75 - 6, 1.25 + 10.5 + 6]);
    expect(() => worstCase({ model, inputs })).toThrow(expect.objectContaining({ parameter: 'inputs.c' }));
  });

  it('a function without influence, and a constant', () => {
    const model = modelOf(['a'], (m) => m.constant(3));
    const { lowest, highest, cornersSuffice, gap } = worstCase({ model, inputs: { a: { from: 0, to: 1 } } });
    expect([lowest.value, highest.value, cornersSuffice, gap]).toEqual([3, 3, true, 0]);
    expect(worstCase({ model, inputs: { a: 2 } }).highest.at).toEqual({ a: 2 });
  });

  it('a pole within the limits is refused', () => {
    const model = modelOf(['a'], (m, { a }) => m.divide(m.constant(1), a));
    expect(() => worstCase({ model, inputs: { a: { from: -1, to: 2 } } })).toThrow(
      expect.objectContaining({ code: 'not-representable' }),
    );
  });
});

describe('poles and ends of domains', () => {
  const degrees = modelOf(['a'], (m, { a }) => m.tanDeg(a));

  it('a tangent that passes its pole is refused, and has its bounds up to close beside it', () => {
    // tan x over 1 to 2 radians: without bound on both sides of π/2.
    const radians = modelOf(['a'], (m, { a }) => m.tanDeg(m.multiply(a, m.constant(180 / Math.PI))));
    expect(() => worstCase({ model: radians, inputs: { a: { from: 1, to: 2 } } })).toThrow(
      expect.objectContaining({ code: 'not-representable', parameter: 'model' }),
    );
    const { highest } = worstCase({ model: degrees, inputs: { a: { from: 57, to: 89.9990234375 } } });
    // 90° less 1/1024, a number that binary holds exactly.
    const Fifty = Decimal.clone({ precision: 50 });
    const exact = Fifty.acos(-1).times(89.9990234375).div(180).tan();
    expect(exact.lte(highest.bound as number)).toBe(true);
    expect(
      exact
        .minus(highest.bound as number)
        .abs()
        .toNumber(),
    ).toBeLessThan(1e-9 * exact.toNumber());
  });

  it('a jump between values that are all finite is bounded on both sides', () => {
    // The angle of a tangent, and 1/(1 + exp(1/x)): finite everywhere, rising or falling but for one jump.
    const angle = modelOf(['a'], (m, { a }) => m.atanDeg(m.tanDeg(a)));
    const turned = worstCase({ model: angle, inputs: { a: { from: 57, to: 115 } } });
    expect(turned.lowest.bound as number).toBeLessThanOrEqual(-89.9999);
    expect(turned.highest.bound as number).toBeGreaterThanOrEqual(89.9999);
    const step = modelOf(['a'], (m, { a }) => {
      const one = m.constant(1);
      return m.divide(one, m.add(one, m.exp(m.divide(one, a))));
    });
    const jump = worstCase({ model: step, inputs: { a: { from: -1, to: 2.1 } } });
    expect(jump.lowest.bound as number).toBeLessThanOrEqual(1e-6); // just above 0
    expect(jump.highest.bound as number).toBeGreaterThanOrEqual(1 - 1e-6); // just below 0
  });

  it.each<[string, Model<'a'>['evaluate'], number, number]>([
    ['a root', (m, { a }) => m.sqrt(a), -1, 4],
    ['a root with both ends outside', (m, { a }) => m.add(m.sqrt(a), m.sqrt(m.subtract(m.constant(1), a))), -1, 2],
    ['an arc sine', (m, { a }) => m.asinDeg(a), 0.5, 1.001],
    ['an arc cosine', (m, { a }) => m.acosDeg(a), -1.001, 0.5],
    ['a logarithm', (m, { a }) => m.log(a), -0.5, 1],
  ])('%s beyond its domain is refused', (_, evaluate, from, to) => {
    expect(() => worstCase({ model: modelOf(['a'], evaluate), inputs: { a: { from, to } } })).toThrow(
      expect.objectContaining({ code: 'not-representable', parameter: 'model' }),
    );
  });

  it('whatever is stated is not exceeded, with poles and ends of domains anywhere', () => {
    let [stated, refused] = [0, 0];
    // Hundredths, for doubles are mostly next to nothing.
    const part = fc.integer({ min: -200, max: 200 }).map((hundredths) => hundredths / 100);
    const broken = fc.tuple(fc.integer({ min: 0, max: 9 }), fc.nat(1), part, part);
    fc.assert(
      fc.property(fc.array(broken, { minLength: 1, maxLength: 3 }), fc.nat(2), part, (terms, around, width) => {
        const model = modelOf(['x', 'y'], (m, inputs) => {
          const sum = terms
            .map(([kind, i, a, b]) => {
              const z = m.add(m.multiply(m.constant(a), [inputs.x, inputs.y][i] as typeof inputs.x), m.constant(b));
              if (kind === 0 || kind > 5) return m.tanDeg(m.multiply(m.constant(60), z));
              if (kind === 1) return m.divide(m.constant(1), z);
              if (kind === 2) return m.sqrt(z);
              if (kind === 3) return m.log(z);
              if (kind === 4) return m.divide(inputs.x, m.add(z, inputs.y));
              return m.asinDeg(z);
            })
            .reduce((p, q) => m.add(p, q));
          // As it is, or brought back to a finite range in two ways.
          return around === 0 ? sum : around === 1 ? m.atanDeg(sum) : m.divide(sum, m.add(m.constant(1), m.abs(sum)));
        });
        const limits = { value: 0.3, plusMinus: Math.abs(width) };
        let found: ReturnType<typeof worstCase>;
        try {
          found = worstCase({ model, inputs: { x: limits, y: limits } });
        } catch (error) {
          expect(error).toMatchObject({ code: 'not-representable' });
          refused++;
          return;
        }
        stated++;
        const f = ([x, y]: readonly number[]): number =>
          model.evaluate(plainArithmetic, { x: x as number, y: y as number });
        const finite = (none: number) => (at: readonly number[]) => (Number.isFinite(f(at)) ? f(at) : none);
        const [from, to] = [0.3 - limits.plusMinus, 0.3 + limits.plusMinus];
        expect(found.lowest.bound).toBeLessThanOrEqual(denseSearch(finite(Infinity), 2, from, to)[0]);
        expect(found.highest.bound).toBeGreaterThanOrEqual(denseSearch(finite(-Infinity), 2, from, to)[1]);
      }),
      { numRuns: runs(300, 15) },
    );
    expect(stated).toBeGreaterThan(0);
    expect(refused).toBeGreaterThan(0);
  });
});

describe("a function of one's own", () => {
  it('is searched inside too, and says that it was a search', () => {
    const { lowest, highest, certainty, gap, notes } = worstCase({
      // Himmelblau's function: largest at a corner, zero at (3, 2) and three more places (D. Himmelblau, 1972).
      model: ({ x, y }) =>
        ((x as number) ** 2 + (y as number) - 11) ** 2 + ((x as number) + (y as number) ** 2 - 7) ** 2,
      inputs: { x: { from: -5, to: 5 }, y: { from: -5, to: 5 } },
    });
    expect(lowest.value).toBeLessThan(1e-9);
    expect(highest.value).toBe(890); // at (5, 5): (25 + 5 - 11)² + (5 + 25 - 7)²
    expect([certainty, gap, lowest.bound]).toEqual(['searched', null, null]);
    expect(notes.map(({ code }) => code)).toEqual(['searched']);
  });
});

describe('interval arithmetic', () => {
  const ends = fc
    .tuple(fc.double({ min: -8, max: 8, noNaN: true }), fc.double({ min: -8, max: 8, noNaN: true }))
    .map(([a, b]): Interval => ({ low: Math.min(a, b), high: Math.max(a, b) }));
  const part = fc.double({ min: 0, max: 1, noNaN: true });
  const at = ({ low, high }: Interval, t: number): number => Math.min(high, Math.max(low, low + t * (high - low)));

  it.each(['add', 'subtract', 'multiply', 'divide'] as const)('%s holds every result', (rule) => {
    fc.assert(
      fc.property(ends, ends, part, part, (a, b, s, t) => {
        const exact = plainArithmetic[rule](at(a, s), at(b, t));
        fc.pre(Number.isFinite(exact));
        const { low, high } = intervalArithmetic[rule](a, b);
        expect(low <= exact && exact <= high).toBe(true);
      }),
      { numRuns: runs(3000, 1000) },
    );
  });

  it.each([
    'negate',
    'square',
    'sqrt',
    'abs',
    'sinDeg',
    'cosDeg',
    'tanDeg',
    'asinDeg',
    'acosDeg',
    'atanDeg',
    'exp',
    'log',
  ] as const)('%s holds every result, and little more', (rule) => {
    fc.assert(
      fc.property(ends, part, (wide, t) => {
        const scale = { asinDeg: 1 / 8, acosDeg: 1 / 8, sinDeg: 60, cosDeg: 60, tanDeg: 60 }[rule as string] ?? 1;
        const a = { low: scale * wide.low, high: scale * wide.high };
        const exact = plainArithmetic[rule](at(a, t));
        fc.pre(Number.isFinite(exact));
        const { low, high } = intervalArithmetic[rule](a);
        expect(low <= exact && exact <= high).toBe(true);
        // At a single number the bounds are a few units in the last place apart.
        const point = intervalArithmetic[rule]({ low: at(a, t), high: at(a, t) });
        if (rule !== 'tanDeg')
          expect(point.high - point.low).toBeLessThanOrEqual(8 * Number.EPSILON * (Math.abs(exact) + 1e-300));
      }),
      { numRuns: runs(3000, 1000) },
    );
  });

  it('knows crests, poles and what reaches to infinity', () => {
    expect(intervalArithmetic.sinDeg({ low: 89, high: 91 }).high).toBe(1);
    expect(intervalArithmetic.cosDeg({ low: 179, high: 181 }).low).toBe(-1);
    expect(intervalArithmetic.tanDeg({ low: 89, high: 91 })).toEqual({ low: -Infinity, high: Infinity });
    expect(intervalArithmetic.sinDeg({ low: -Infinity, high: Infinity })).toEqual({ low: -1, high: 1 });
    expect(intervalArithmetic.divide({ low: 1, high: 2 }, { low: 0, high: 4 }).low).toBeCloseTo(0.25, 12);
    expect(intervalArithmetic.divide({ low: 1, high: 2 }, { low: -4, high: 0 }).high).toBeCloseTo(-0.25, 12);
    expect(intervalArithmetic.divide({ low: 1, high: 2 }, { low: -1, high: 1 })).toEqual({
      low: -Infinity,
      high: Infinity,
    });
    expect(intervalArithmetic.multiply({ low: 0, high: 0 }, { low: -Infinity, high: Infinity }).high).toBeLessThan(
      1e-300,
    );
    expect(intervalArithmetic.sqrt({ low: -1, high: 4 })).toEqual({ low: 0, high: expect.closeTo(2, 12) });
  });
});
