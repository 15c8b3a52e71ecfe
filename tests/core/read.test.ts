import { GeneratrixError } from 'generatrix/core';
import { describe, expect, it } from 'vitest';
import {
  anyNumber,
  array,
  byKey,
  byTag,
  callable,
  choice,
  defaulted,
  either,
  type Fields,
  flag,
  number,
  object,
  optional,
  positive,
  read,
  readAll,
  readValue,
  sound,
  text,
  vouched,
  whole,
} from '../../src/core/read.js';
import { refusal } from '../oracle/refusal.js';

type Rate = { readonly rate: number } | { readonly large: number; readonly small: number };
type Shape = { readonly kind: 'ball'; readonly size: number } | { readonly kind: 'cone'; readonly rate: Rate };
interface Options {
  readonly length: number;
  readonly side?: 'near' | 'far';
  readonly turns?: number;
  readonly rate?: Rate;
  readonly shapes?: readonly Shape[];
  readonly name?: string;
  readonly level?: boolean;
  readonly model?: (x: number) => number;
}

const SIZES = { large: positive, small: positive };
const rate = byKey<Rate>({ rate: { rate: anyNumber }, large: SIZES, small: SIZES });
const shape = byTag<Shape, 'kind'>('kind', {
  ball: { kind: choice('ball'), size: number({ min: 1, below: 9 }) },
  cone: { kind: choice('cone'), rate },
});
const OPTIONS: Fields<Options, 'turns'> = {
  length: positive,
  side: optional(choice('near', 'far')),
  turns: defaulted(whole({ min: 0, max: 5 }), 2),
  rate: optional(rate),
  shapes: optional(array(shape, 1, 3)),
  name: optional(text(5)),
  level: optional(flag),
  model: optional(callable<(x: number) => number>()),
};
const told = (value: unknown): string => refusal(() => read(value, OPTIONS));

describe('a reader of an options object', () => {
  it('gives typed values, with defaults, without keys that hold undefined, and 0 for -0', () => {
    const given = { length: 1, side: undefined, rate: { rate: -0 } };
    expect(read(given, OPTIONS)).toStrictEqual({ length: 1, turns: 2, rate: { rate: 0 } });
    expect(Object.is(read(given, OPTIONS).rate, given.rate)).toBe(false);
  });

  it.each<[string, unknown]>([
    ['wrong-kind ', 5],
    ['wrong-kind ', null],
    ['wrong-kind ', []],
    ['missing-option length', {}],
    ['missing-option length', { length: undefined }],
    ['missing-option length', Object.create({ length: 1 })],
    ['wrong-kind length', { length: '1' }],
    ['wrong-kind length', { length: null }],
    ['not-finite length', { length: Number.NaN }],
    ['not-finite length', { length: Infinity }],
    ['out-of-range length', { length: -0 }],
    ['unknown-option lenght', { lenght: 1 }],
    ['unknown-option constructor', { length: 1, constructor: 1 }],
    ['out-of-range side', { length: 1, side: 'left' }],
    ['wrong-kind side', { length: 1, side: 1 }],
    ['out-of-range turns', { length: 1, turns: 1.5 }],
    ['out-of-range turns', { length: 1, turns: 6 }],
    ['missing-option rate', { length: 1, rate: {} }],
    ['unknown-option rate.toString', { length: 1, rate: { toString: 1 } }],
    ['missing-option rate.small', { length: 1, rate: { large: 1 } }],
    ['unknown-option rate.large', { length: 1, rate: { rate: 1, large: 1 } }],
    ['out-of-range shapes', { length: 1, shapes: [] }],
    ['wrong-kind shapes', { length: 1, shapes: { length: 1 } }],
    // biome-ignore lint/suspicious/noSparseArray: a hole is what is tested
    ['wrong-kind shapes[0]', { length: 1, shapes: [, { kind: 'ball', size: 2 }] }],
    ['missing-option shapes[0].kind', { length: 1, shapes: [{ size: 2 }] }],
    ['out-of-range shapes[0].kind', { length: 1, shapes: [{ kind: 'egg' }] }],
    [
      'out-of-range shapes[1].size',
      {
        length: 1,
        shapes: [
          { kind: 'ball', size: 1 },
          { kind: 'ball', size: 9 },
        ],
      },
    ],
    ['wrong-kind shapes[0].rate.rate', { length: 1, shapes: [{ kind: 'cone', rate: { rate: '1' } }] }],
    ['out-of-range name', { length: 1, name: 'longer' }],
    ['wrong-kind level', { length: 1, level: 0 }],
    ['wrong-kind model', { length: 1, model: {} }],
  ])('refuses with a path from the argument itself: %s', (wanted, value) => {
    expect(told(value)).toBe(wanted);
  });

  it('tells what is allowed as data and as a phrase', () => {
    try {
      read({ length: 1, shapes: [{ kind: 'ball', size: 9 }] }, OPTIONS);
    } catch (error) {
      const { allowed, message } = error as GeneratrixError;
      expect(allowed).toEqual({
        kind: 'number',
        min: 1,
        below: 9,
        phrase: 'must be a number, at least 1 and less than 9',
      });
      expect(message).toBe('shapes[0].size: must be a number, at least 1 and less than 9; got 9');
    }
    expect.assertions(2);
  });

  it('finds everything that is wrong at once, 100 faults at most', () => {
    const found = readAll({ lenght: 1, side: 3, rate: { large: -1 }, shapes: [{ kind: 'egg' }] }, object(OPTIONS));
    expect('errors' in found && found.errors.map(({ code, parameter }) => `${code} ${parameter}`)).toEqual([
      'unknown-option lenght',
      'missing-option length',
      'wrong-kind side',
      'out-of-range rate.large',
      'missing-option rate.small',
      'out-of-range shapes[0].kind',
    ]);
    const many = readAll(new Array(1e5).fill('x'), array(anyNumber));
    expect('errors' in many && many.errors.length).toBe(100);
  });

  it('reads numbers written as text only where a parser is given', () => {
    const parse = (given: string): number | undefined => (given === '1/2' ? 0.5 : undefined);
    expect(readAll({ length: '1/2' }, object(OPTIONS), parse)).toEqual({ value: { length: 0.5, turns: 2 } });
    const refused = readAll({ length: '1/3' }, object(OPTIONS), parse);
    expect('errors' in refused && refused.errors[0]?.parameter).toBe('length');
    expect(told({ length: '1/2' })).toBe('wrong-kind length');
  });

  it('puts its path before what a function of ours refuses, and lets other errors through', () => {
    const checked = vouched(anyNumber, (value) => {
      if (value > 1) throw new GeneratrixError('contradiction', 'sum', value, 'must be 1');
      if (value < 0) throw new TypeError('a fault of ours');
    });
    expect(refusal(() => read({ a: { b: 2 } }, { a: object({ b: checked }) }))).toBe('contradiction a.b.sum');
    expect(() => read({ a: { b: -1 } }, { a: object({ b: checked }) })).toThrow(TypeError);
  });
});

it('lets no infinity, NaN or -0 out of a result', () => {
  expect(sound({ a: -0, b: [{ c: -0 }], d: null, e: 'x' })).toStrictEqual({ a: 0, b: [{ c: 0 }], d: null, e: 'x' });
  expect(refusal(() => sound({ a: [{ b: Infinity }] }, 'p'))).toBe('not-representable p');
  expect(refusal(() => sound(new Float64Array([1, Number.NaN])))).toBe('not-representable ');
});

it('either reads by the first what it is for, by the second anything else', () => {
  const count = either((value) => typeof value === 'string', text(), object({ size: number({ min: 2 }) }));
  expect(readValue('a few', count, 'count')).toBe('a few');
  expect(readValue({ size: 3 }, count, 'count')).toEqual({ size: 3 });
  expect(refusal(() => readValue({ size: 1 }, count, 'count'))).toBe('out-of-range count.size');
});
