import { GeneratrixError } from 'generatrix/core';
import { expect, it } from 'vitest';
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
    allowed: 'must be less',
  });
});
