import { GeneratrixError } from 'generatrix/core';
import { expect, it, vi } from 'vitest';
import {
  choice,
  flag,
  list,
  nonNegative,
  number,
  options,
  positive,
  representable,
  text,
  whole,
} from '../../src/core/checks.js';
import { refusal } from '../oracle/refusal.js';

it.each<[string, () => unknown]>([
  ['wrong-kind a', () => number('1', 'a')],
  ['not-finite a', () => number(Number.NaN, 'a')],
  ['not-finite a', () => number(-Infinity, 'a')],
  ['out-of-range a', () => number(1, 'a', { min: 1.1 })],
  ['out-of-range a', () => number(1, 'a', { max: 0.9 })],
  ['out-of-range a', () => number(1, 'a', { above: 1 })],
  ['out-of-range a', () => number(1, 'a', { below: 1 })],
  ['accepted', () => number(1, 'a', { min: 1, max: 1 })],
  ['out-of-range a', () => positive(0, 'a')],
  ['accepted', () => nonNegative(0, 'a')],
  ['out-of-range a', () => whole(1.5, 'a')],
  ['accepted', () => whole(2, 'a')],
  ['wrong-kind a', () => choice(1, 'a', ['x'])],
  ['out-of-range a', () => choice('y', 'a', ['x'])],
  ['wrong-kind a', () => flag(1, 'a')],
  ['wrong-kind a', () => text(1, 'a')],
  ['out-of-range a', () => text('x'.repeat(201), 'a')],
  ['wrong-kind a', () => list({}, 'a')],
  ['out-of-range a', () => list([], 'a', 1)],
  ['wrong-kind a', () => options([], 'a', ['x'])],
  ['unknown-option a.y', () => options({ x: 1, y: 1 }, 'a', ['x'])],
  ['missing-option a.x', () => options({ y: 1 }, 'a', ['x'], ['y'])],
  ['not-representable a', () => representable(Infinity, 'a')],
])('%s', (wanted, call) => {
  expect(refusal(call)).toBe(wanted);
});

it('keeps messages short whatever arrives', () => {
  expect(() => number('9'.repeat(1e6), 'a')).toThrow(/^a: must be a number; got "9{57}\.\.\."$/);
  expect(() => options({ ['k'.repeat(1e6)]: 1 }, 'a', [])).toThrow(/^.{0,200}$/);
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
