/** Temperature: against the full expression written out, and against facts that need none. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { plainArithmetic } from '../../src/budget/arithmetic.js';
import { atTemperature, budget, type Model, type TemperatureOptions } from '../../src/budget/index.js';

const sineBar: Model<'stack' | 'bar'> = {
  name: 'sine-bar',
  result: { kind: 'angleDeg', meaning: 'angle' },
  inputs: { stack: { kind: 'length', meaning: 'stack' }, bar: { kind: 'length', meaning: 'bar' } },
  evaluate: (m, { stack, bar }) => m.asinDeg(m.divide(stack, bar)),
};
const sum: Model<'a' | 'b' | 'n'> = {
  name: 'sum',
  result: { kind: 'length', meaning: 'sum' },
  inputs: {
    a: { kind: 'length', meaning: 'a' },
    b: { kind: 'length', meaning: 'b' },
    n: { kind: 'number', meaning: 'n' },
  },
  evaluate: (m, { a, b, n }) => m.add(a, m.multiply(b, n)),
};
const room = { workTemperature: 31, instrumentTemperature: 24, workExpansion: 23e-6, instrumentExpansion: 11.5e-6 };

describe('atTemperature', () => {
  it('grows each length on its own material and takes the result back', () => {
    const model = atTemperature(sum, { lengths: { a: 'work', b: 'instrument' }, result: 'work' });
    const value = model.evaluate(plainArithmetic, { a: 50, b: 30, n: 2, ...room });
    const [work, instrument] = [1 + 23e-6 * 11, 1 + 11.5e-6 * 4];
    expect(value).toBeCloseTo((50 * work + 60 * instrument) / work, 12);
    expect(model.inputs.workTemperature.kind).toBe('temperature');
  });

  it('changes nothing at the reference temperature', () => {
    const options: TemperatureOptions<'a' | 'b' | 'n'> = {
      lengths: { a: 'work', b: 'instrument' },
      result: 'instrument',
    };
    const cold = atTemperature(sum, { ...options, referenceTemperature: 68 });
    const at68 = { ...room, workTemperature: 68, instrumentTemperature: 68 };
    expect(cold.evaluate(plainArithmetic, { a: 50, b: 30, n: 2, ...at68 })).toBe(110);
  });

  it('leaves an angle of one material alone, at any temperature', () => {
    const model = atTemperature(sineBar, { lengths: { stack: 'instrument', bar: 'instrument' } });
    fc.assert(
      fc.property(
        fc.double({ min: 1, max: 90, noNaN: true }),
        fc.double({ min: -20, max: 60, noNaN: true }),
        (stack, t) => {
          const hot = model.evaluate(plainArithmetic, { stack, bar: 100, ...room, instrumentTemperature: t });
          expect(hot).toBeCloseTo(sineBar.evaluate(plainArithmetic, { stack, bar: 100 }), 11);
        },
      ),
      { numRuns: 200 },
    );
  });

  it('one common temperature and expansion cancel where correlation says they are one', () => {
    const model = atTemperature(sum, { lengths: { a: 'instrument', b: 'instrument' }, result: 'work' });
    const { standardUncertainty } = budget({
      model,
      inputs: {
        a: 100,
        b: 0,
        n: 0,
        workTemperature: { value: 20, standardUncertainty: 2 },
        instrumentTemperature: { value: 20, standardUncertainty: 2 },
        workExpansion: 11.5e-6,
        instrumentExpansion: 11.5e-6,
      },
      correlations: [{ between: ['workTemperature', 'instrumentTemperature'], coefficient: 1 }],
    });
    expect(standardUncertainty).toBeLessThan(1e-12);
  });

  it.each<[string, () => unknown, string]>([
    ['a length that is none', () => atTemperature(sum, { lengths: { n: 'work' } }), 'contradiction'],
    ['an unknown input', () => atTemperature(sum, { lengths: { z: 'work' } as never }), 'unknown-option'],
    ['an unknown carrier', () => atTemperature(sum, { lengths: { a: 'bench' as never } }), 'out-of-range'],
    ['an angle taken back', () => atTemperature(sineBar, { lengths: {}, result: 'work' }), 'contradiction'],
    [
      'temperature twice',
      () => atTemperature(atTemperature(sum, { lengths: { a: 'work' } }), { lengths: { b: 'work' } }),
      'contradiction',
    ],
  ])('refuses %s', (_, call, code) => {
    expect(call).toThrow(expect.objectContaining({ code }));
  });
});
