/**
 * What the compiler checks of a call: the marks below are errors of their own if the line below them compiles. And
 * what happens at run time to those who do not ask the compiler.
 */
import { describe, expect, it } from 'vitest';
import {
  adaptiveMonteCarlo,
  allocate,
  atTemperature,
  budget,
  compareResults,
  type Model,
  monteCarlo,
  monteCarloPart,
  validateFirstOrder,
  worstCase,
} from '../../src/budget/index.js';
import { refusal } from '../oracle/refusal.js';

const slide: Model<'angleDeg' | 'length', 'zeroErrorDeg'> = {
  name: 'slide',
  result: { kind: 'length', meaning: 'rise' },
  inputs: {
    angleDeg: { kind: 'angleDeg', meaning: 'angle set' },
    length: { kind: 'length', meaning: 'length' },
    zeroErrorDeg: { kind: 'angleDeg', meaning: 'zero of the scale', isError: true },
  },
  evaluate: (a, { angleDeg, length, zeroErrorDeg }) => a.multiply(length, a.sinDeg(a.add(angleDeg, zeroErrorDeg))),
};
const inputs = { angleDeg: { value: 30, plusMinus: 0.1 }, length: { value: 100, plusMinus: 0.1 } } as const;
const zero = { ...inputs, zeroErrorDeg: 0 };

describe('an error that is left out', () => {
  it('counts as 0 everywhere', () => {
    expect(budget({ model: slide, inputs }).standardUncertainty).toBe(
      budget({ model: slide, inputs: zero }).standardUncertainty,
    );
    const job = { model: slide, trials: 2000 };
    expect(monteCarlo({ ...job, inputs }).mean).toBe(monteCarlo({ ...job, inputs: zero }).mean);
    expect(monteCarloPart({ ...job, inputs, part: 0, parts: 1 }).values).toEqual(
      monteCarloPart({ ...job, inputs: zero, part: 0, parts: 1 }).values,
    );
    expect(worstCase({ model: slide, inputs }).highest.value).toBe(
      worstCase({ model: slide, inputs: zero }).highest.value,
    );
    const limited = { model: slide, mostTrials: 20_000 };
    expect(adaptiveMonteCarlo({ ...limited, inputs }).mean).toBe(adaptiveMonteCarlo({ ...limited, inputs: zero }).mean);
    expect(validateFirstOrder({ ...limited, inputs }).lowDifference).toBe(
      validateFirstOrder({ ...limited, inputs: zero }).lowDifference,
    );
    const first = { model: slide, inputs };
    expect(compareResults({ first, second: { model: slide, inputs: zero } }).difference).toBe(0);
  });

  it('is no setting to be allocated', () => {
    const shared = allocate({
      model: slide,
      inputs: { angleDeg: 30, length: 100 },
      tolerance: 0.01,
      method: 'equal-share',
      combination: 'worst-case',
    });
    expect(shared.settings.map(({ name }) => name)).toEqual(['angleDeg', 'length']);
  });

  it('stays one in a model at temperature', () => {
    const warm = atTemperature(slide, { lengths: { length: 'work' }, result: 'work' });
    const room = { workTemperature: 25, instrumentTemperature: 20, workExpansion: 1e-5, instrumentExpansion: 1e-5 };
    expect(budget({ model: warm, inputs: { ...inputs, ...room } }).value).toBeCloseTo(50, 12);
  });
});

it('a name that is misspelt or missing does not compile, and is refused', () => {
  const misspelt = { ...inputs, lenght: 3 };
  const missing = { angleDeg: 30 };
  // @ts-expect-error
  expect(refusal(() => budget({ model: slide, inputs: missing }))).toBe('missing-option inputs.length');
  // @ts-expect-error
  expect(refusal(() => budget({ model: slide, inputs: { ...inputs, lenght: 3 } }))).toBe(
    'unknown-option inputs.lenght',
  );
  // @ts-expect-error
  expect(refusal(() => monteCarlo({ model: slide, inputs: missing }))).toBe('missing-option inputs.length');
  // @ts-expect-error
  expect(refusal(() => worstCase({ model: slide, inputs: missing }))).toBe('missing-option inputs.length');
  // @ts-expect-error
  expect(refusal(() => validateFirstOrder({ model: slide, inputs: missing }))).toBe('missing-option inputs.length');
  // @ts-expect-error
  expect(refusal(() => adaptiveMonteCarlo({ model: slide, inputs: missing }))).toBe('missing-option inputs.length');
  // @ts-expect-error
  expect(refusal(() => compareResults({ first: 3, second: { model: slide, inputs: missing } }))).toBe(
    'missing-option second.inputs.length',
  );
  // @ts-expect-error
  expect(refusal(() => atTemperature(slide, { lengths: { lenght: 'work' } }))).toBe('unknown-option lengths.lenght');
  // @ts-expect-error
  expect(refusal(() => budget({ model: slide, inputs, meanings: { lenght: '' } }))).toBe(
    'unknown-option meanings.lenght',
  );
  // What a variable holds beyond the model's own is for the call to refuse.
  expect(refusal(() => budget({ model: slide, inputs: misspelt }))).toBe('unknown-option inputs.lenght');
  // @ts-expect-error: a function's names are those of its inputs
  expect(refusal(() => budget({ model: ({ a, b }) => a + b, inputs: { a: 1 } }))).toBe('not-representable model');
});

it('an error must be marked in the model', () => {
  const unmarked: Model<'a', 'b'> = {
    ...slide,
    inputs: {
      a: { kind: 'number', meaning: 'a' },
      // @ts-expect-error
      b: { kind: 'number', meaning: 'b' },
    },
  };
  expect(unmarked.name).toBe('slide');
});

describe('names that every object has', () => {
  it.each(['constructor', 'toString', '__proto__', 'hasOwnProperty'])('%s is a name like any other', (name) => {
    const quantity = { kind: 'number', meaning: 'odd' } as const;
    const odd: Model = {
      name: 'odd',
      result: quantity,
      inputs: Object.fromEntries([[name, quantity]]),
      evaluate: (a, x) => a.multiply(a.constant(2), x[name] as never),
    };
    const one = Object.fromEntries([[name, { value: 1, plusMinus: 0.5 }]]);
    expect(budget({ model: odd, inputs: one }).rows[0]).toMatchObject({ name, meaning: 'odd', sensitivity: 2 });
    const plain = budget({ model: (x: Readonly<Record<string, number>>) => 2 * (x[name] as number), inputs: one });
    expect(plain.rows[0]).toMatchObject({ name, meaning: '' });
    expect(plain.rows[0]?.sensitivity).toBeCloseTo(2, 9);
    expect(monteCarlo({ model: odd, inputs: one, trials: 2000 }).mean).toBeCloseTo(2, 1);
    expect(worstCase({ model: odd, inputs: one }).highest.value).toBe(3);
    expect(refusal(() => budget({ model: slide, inputs: { ...inputs, ...one } }))).toBe(
      `unknown-option inputs.${name}`,
    );
  });
});
