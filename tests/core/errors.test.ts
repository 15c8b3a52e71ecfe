import { GeneratrixError } from 'generatrix/core';
import { expect, it, vi } from 'vitest';
import {
  array,
  choice,
  flag,
  nonNegative,
  number,
  object,
  optional,
  positive,
  readValue,
  representable,
  text,
  whole,
} from '../../src/core/read.js';
import { refusal } from '../oracle/refusal.js';

it.each<[string, () => unknown]>([
  ['wrong-kind a', () => readValue('1', number(), 'a')],
  ['not-finite a', () => readValue(Number.NaN, number(), 'a')],
  ['not-finite a', () => readValue(-Infinity, number(), 'a')],
  ['out-of-range a', () => readValue(1, number({ min: 1.1 }), 'a')],
  ['out-of-range a', () => readValue(1, number({ max: 0.9 }), 'a')],
  ['out-of-range a', () => readValue(1, number({ above: 1 }), 'a')],
  ['out-of-range a', () => readValue(1, number({ below: 1 }), 'a')],
  ['accepted', () => readValue(1, number({ min: 1, max: 1 }), 'a')],
  ['out-of-range a', () => readValue(0, positive, 'a')],
  ['accepted', () => readValue(0, nonNegative, 'a')],
  ['out-of-range a', () => readValue(1.5, whole(), 'a')],
  ['accepted', () => readValue(2, whole(), 'a')],
  ['wrong-kind a', () => readValue(1, choice('x'), 'a')],
  ['out-of-range a', () => readValue('y', choice('x'), 'a')],
  ['wrong-kind a', () => readValue(1, flag, 'a')],
  ['wrong-kind a', () => readValue(1, text(), 'a')],
  ['out-of-range a', () => readValue('x'.repeat(201), text(), 'a')],
  ['wrong-kind a', () => readValue({}, array(number()), 'a')],
  ['out-of-range a', () => readValue([], array(number(), 1), 'a')],
  ['wrong-kind a', () => readValue([], object({ x: number() }), 'a')],
  ['unknown-option a.y', () => readValue({ x: 1, y: 1 }, object({ x: number() }), 'a')],
  [
    'missing-option a.x',
    () => readValue({ y: 1 }, object<{ x: number; y?: number }>({ x: number(), y: optional(number()) }), 'a'),
  ],
  ['not-representable a', () => representable(Infinity, 'a')],
])('%s', (wanted, call) => {
  expect(refusal(call)).toBe(wanted);
});

it('keeps messages short whatever arrives', () => {
  expect(() => readValue('9'.repeat(1e6), number(), 'a')).toThrow(/^a: must be a number; got "9{57}\.\.\."$/);
  expect(() => readValue({ ['k'.repeat(1e6)]: 1 }, object({}), 'a')).toThrow(/^.{0,200}$/);
});

it('survives JSON with all that a program needs', () => {
  const { code, parameter, value, allowed } = new GeneratrixError('out-of-range', 'a.b', 3, 'must be less');
  expect(JSON.parse(JSON.stringify({ code, parameter, value, allowed }))).toEqual({
    code: 'out-of-range',
    parameter: 'a.b',
    value: 3,
    allowed: { kind: 'relation', phrase: 'must be less' },
  });
});

it('is one class for both module systems, and for subclasses of a user in the ordinary way', async () => {
  vi.resetModules();
  const again = await import('../../src/core/errors.js');
  expect(again.GeneratrixError).not.toBe(GeneratrixError);
  const error = new again.GeneratrixError('aborted', '', undefined, 'must run on');
  expect(error).toBeInstanceOf(GeneratrixError);
  class Mine extends GeneratrixError {}
  expect(error).not.toBeInstanceOf(Mine);
  expect(new Mine('aborted', '', 0, 'x')).toBeInstanceOf(again.GeneratrixError);
  expect(new Error('other')).not.toBeInstanceOf(GeneratrixError);
});

it('becomes plain data that clones, whatever the value was', () => {
  for (const value of [Number.NaN, () => 1, Symbol('s'), 1n, { a: () => 1 }, 'x'.repeat(1e6), undefined]) {
    const data = new GeneratrixError('wrong-kind', 'a', value, {
      kind: 'number',
      above: 0,
      phrase: 'must be',
    }).toJSON();
    expect(structuredClone(data)).toEqual(data);
    expect(JSON.parse(JSON.stringify(data))).toEqual(data);
    expect(data.allowed.above).toBe(0);
    expect(JSON.stringify(data).length).toBeLessThan(2000);
  }
});

it('lets no control character or change of direction through', () => {
  const error = new GeneratrixError('unknown-option', 'a\u202eb\nc\u0000', '\u2066x', 'must be known');
  expect(error.parameter).toBe('a\ufffdb\ufffdc\ufffd');
  expect(/[\p{Cc}\p{Cf}]/u.test(error.message)).toBe(false);
});
