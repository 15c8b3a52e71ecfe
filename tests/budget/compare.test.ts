/** Comparison of results: what is shared cancels. */
import { describe, expect, it } from 'vitest';
import {
  type ComparisonOptions,
  compareResults as compare,
  coverageFactor,
  type Model,
} from '../../src/budget/index.js';

const scaled: Model<'reading' | 'scale'> = {
  name: 'scaled',
  result: { kind: 'length', meaning: 'length' },
  inputs: { reading: { kind: 'length', meaning: 'reading' }, scale: { kind: 'ratio', meaning: 'scale' } },
  evaluate: (m, { reading, scale }) => m.multiply(reading, scale),
};
const gauge = { value: 1, plusMinus: 0.001 } as const;
const at = (value: number): { readonly value: number; readonly standardUncertainty: number } => ({
  value,
  standardUncertainty: 0.001,
});

describe('two stated results', () => {
  it('add their uncertainties by squares and judge by the sum', () => {
    const { difference, budget, agrees, normalisedError, probability } = compare({
      first: { value: 10.01, standardUncertainty: 0.003 },
      second: { value: 10, standardUncertainty: 0.004 },
    });
    expect(difference).toBeCloseTo(0.01, 12);
    expect(budget.standardUncertainty).toBeCloseTo(0.005, 12);
    expect(agrees).toBe(false);
    expect(normalisedError).toBeCloseTo(2 / coverageFactor({ probability: 0.95 }), 9);
    // Two standard deviations: 4.55 % of a normal distribution lies beyond.
    expect(probability).toBeCloseTo(0.0455, 4);
  });

  it('with correlation in full, equal uncertainties cancel', () => {
    const { budget, probability } = compare({
      first: at(10),
      second: at(10),
      correlations: [{ between: ['first', 'second'], coefficient: 1 }],
    });
    expect(budget.standardUncertainty).toBe(0);
    expect(probability).toBe(1);
  });

  it('known exactly, agree only if equal', () => {
    expect(compare({ first: 2, second: 2 })).toMatchObject({ agrees: true, normalisedError: null, probability: 1 });
    expect(compare({ first: 2, second: 3 })).toMatchObject({ agrees: false, normalisedError: null, probability: 0 });
  });
});

describe('two functions', () => {
  const both = (shared: readonly string[]): ComparisonOptions => ({
    first: { model: scaled, inputs: { reading: at(50), scale: gauge } },
    second: { model: scaled, inputs: { reading: at(49.99), scale: gauge } },
    shared,
  });

  it('share what they share: a common scale acts on the difference alone', () => {
    const u = gauge.plusMinus / Math.sqrt(3);
    const readings = Math.SQRT2 * 0.001;
    expect(compare(both(['scale'])).budget.standardUncertainty).toBeCloseTo(Math.hypot(readings, 0.01 * u), 12);
    expect(compare(both([])).budget.standardUncertainty).toBeCloseTo(Math.hypot(readings, 50 * u, 49.99 * u), 10);
    expect(
      compare(both(['scale']))
        .budget.rows.map(({ name }) => name)
        .sort(),
    ).toEqual(['first.reading', 'scale', 'second.reading']);
  });

  it('may be a model and a plain function, with the same outcome', () => {
    const options = both(['scale']);
    const plain = {
      model: ({ reading, scale }: Readonly<Record<string, number>>) => (reading as number) * (scale as number),
      inputs: { reading: at(49.99), scale: gauge },
    };
    const mixed = compare({ ...options, second: plain });
    expect(mixed.budget.derivatives).toBe('numerical');
    expect(mixed.budget.standardUncertainty / compare(options).budget.standardUncertainty).toBeCloseTo(1, 8);
  });

  it.each<[string, Partial<ComparisonOptions>, string]>([
    [
      'a shared input stated twice differently',
      { second: { model: scaled, inputs: { reading: at(1), scale: 1 } } },
      'contradiction',
    ],
    ['a shared input that is not there', { shared: ['room'] }, 'out-of-range'],
    ['a shared input of a stated result', { second: at(50) }, 'out-of-range'],
    ['a model without an input', { second: { model: scaled, inputs: { scale: gauge } } }, 'missing-option'],
  ])('refuse %s', (_, options, code) => {
    expect(() => compare({ ...both(['scale']), ...options })).toThrow(expect.objectContaining({ code }));
  });
});
