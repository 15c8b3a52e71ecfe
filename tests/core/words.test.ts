import { expect, it } from 'vitest';
import { note, plusMinus, say, tell } from '../../src/core/words.js';

it.each([
  [tell(1 / 3), '0.333333'],
  [tell(-0), '0'],
  [tell(2.34965617514e17), '234966000000000000'],
  [tell(12.3456, { limit: 0.01 }), '12.346'],
  [tell(12.3456, { limit: 0.05, unit: 'mm' }), '12.346 mm'],
  [tell(12.3456, { limit: 2, unit: '°' }), '12.3°'],
  [tell(20.1611, { step: 0.02, unit: 'mm' }), '20.16 mm'],
  [tell(20.1611, { step: 1 }), '20'],
  [tell(0.48, { step: 0.001, unit: 'in' }), '0.480 in'],
  [tell(-0.0001, { step: 0.01 }), '0.00'],
  [tell(5, { step: 1e-7, limit: 0.1 }), '5.00'],
  [plusMinus(0.05, 'mm'), '± 0.050 mm'],
])('tells a number as finely as it is set or read: %s', (got, wanted) => {
  expect(got).toBe(wanted);
});

it('makes a note from its table, and no bare number goes into a sentence', () => {
  const table = {
    short: ({ needed }: { readonly needed: number }): string => say`it needs ${tell(needed, { unit: 'mm' })}`,
  };
  expect(note(table, 'short', { needed: 0.1 + 0.2 })).toEqual({
    code: 'short',
    message: 'it needs 0.3 mm',
    values: { needed: 0.1 + 0.2 },
  });
  // @ts-expect-error a bare number does not compile
  expect(say`it needs ${3}`).toBe('it needs 3');
  // @ts-expect-error a code that is not in the table does not compile
  expect(() => note(table, 'shrot', { needed: 1 })).toThrow(TypeError);
});
