/** Decimal conversions against integer arithmetic of 260 decimals, digit for digit. */
import fc from 'fast-check';
import { convertTaper, convertTaperExact, type ExactTaper, type Taper, type TaperStatement } from 'generatrix';
import { describe, expect, it } from 'vitest';
import { exactConversion, plain } from '../oracle/exact-tapers.js';
import { runs } from '../oracle/seed.js';
import { halfAngle, STATEMENTS, stated } from '../oracle/tapers.js';

const unit = fc.double({ min: 0, max: 1, noNaN: true });
const ways: readonly (TaperStatement | 'sizes')[] = [...STATEMENTS, 'sizes'];

describe('convertTaperExact', () => {
  it('is correctly rounded', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...ways),
        fc.constantFrom(...STATEMENTS),
        fc.tuple(unit, unit).map(([kind, where]) => halfAngle(kind, where)),
        fc.double({ min: 0.001, max: 1, noNaN: true }),
        fc.integer({ min: 1, max: 17 }),
        fc.integer({ min: 1, max: 60 }),
        (from, to, half, size, given, digits) => {
          const sizes = Object.entries(stated(from, half, size)).map(([key, value]) => [key, plain(value, given)]);
          const taper = Object.fromEntries(sizes) as ExactTaper;
          // Cut to a few digits, the two ends may have become one, and an angle a flat face.
          fc.pre(!('length' in taper) || Number(taper.largeDiameter) > Number(taper.smallDiameter));
          fc.pre(Number((taper as { halfAngleDeg?: string }).halfAngleDeg ?? 0) < 90);
          fc.pre(Number((taper as { includedAngleDeg?: string }).includedAngleDeg ?? 0) < 180);
          expect(convertTaperExact(taper, to, { digits })).toBe(exactConversion(taper, to, digits));
        },
      ),
      { numRuns: runs(600, 150) },
    );
  });

  it('ends where the result is a fraction', () => {
    expect(convertTaperExact({ halfAngleDeg: '45' }, 'perFoot', { digits: 40 })).toBe('24');
    expect(convertTaperExact({ includedAngleDeg: '90.000' }, 'oneIn', { digits: 40 })).toBe('0.5');
    expect(convertTaperExact({ perSide: '1.0' }, 'includedAngleDeg', { digits: 40 })).toBe('90');
    expect(convertTaperExact({ includedAngleDeg: '3' }, 'halfAngleDeg', { digits: 5 })).toBe('1.5');
  });

  it('rounds ties to the even digit', () => {
    expect(convertTaperExact({ rate: '0.125' }, 'perInch', { digits: 2 })).toBe('0.12');
    expect(convertTaperExact({ rate: '0.375' }, 'perInch', { digits: 2 })).toBe('0.38');
  });

  it('keeps its digits next to a rounding boundary', () => {
    // One part in 10^60 above and below a tie.
    const nearly = `0.125${'0'.repeat(57)}1`;
    expect(convertTaperExact({ rate: nearly }, 'perInch', { digits: 2 })).toBe('0.13');
    expect(convertTaperExact({ rate: `0.1249${'9'.repeat(57)}` }, 'perInch', { digits: 2 })).toBe('0.12');
    // An angle whose tangent is 1.5 within 1e-60: the precision must be raised to see on which side.
    const angle = convertTaperExact({ perSide: '1.5' }, 'halfAngleDeg', { digits: 62 });
    const tangent = exactConversion({ halfAngleDeg: angle }, 'perSide', 1);
    expect(convertTaperExact({ halfAngleDeg: angle }, 'perSide', { digits: 1 })).toBe(tangent);
  });

  it('reads the standards exactly', () => {
    expect(convertTaperExact({ standard: 'morse-1' }, 'rate', { digits: 12 })).toBe('0.0498816666667');
    expect(convertTaperExact({ standard: 'steep-7-24-40' }, 'rate', { digits: 12 })).toBe('0.291666666667');
    expect(convertTaperExact({ standard: 'metric-80' }, 'perFoot', { digits: 12 })).toBe('0.6');
  });

  it('agrees with the floating-point form', () => {
    fc.assert(
      fc.property(fc.double({ min: 1e-6, max: 89.9, noNaN: true }), fc.constantFrom(...STATEMENTS), (half, to) => {
        const text = plain(half, 17);
        const exact = Number(convertTaperExact({ halfAngleDeg: text }, to, { digits: 25 }));
        // The double nearest the text may be half a unit off, which a tangent magnifies by up to 2x/sin 2x = 900.
        expect(Math.abs(convertTaper({ halfAngleDeg: Number(text) }, to) / exact - 1)).toBeLessThan(1000 * 2 ** -53);
      }),
    );
  });

  const refused: readonly [string, unknown, unknown, string, string][] = [
    ['a number for text', { perFoot: 0.6 }, 20, 'wrong-kind', 'perFoot'],
    ['words', { perFoot: 'a little' }, 20, 'unreadable', 'perFoot'],
    ['nothing', { perFoot: '' }, 20, 'unreadable', 'perFoot'],
    ['two signs', { perFoot: '+-1' }, 20, 'unreadable', 'perFoot'],
    ['a comma', { perFoot: '0,6' }, 20, 'unreadable', 'perFoot'],
    ['Infinity', { perFoot: 'Infinity' }, 20, 'unreadable', 'perFoot'],
    ['a hexadecimal', { perFoot: '0x10' }, 20, 'unreadable', 'perFoot'],
    ['a flood', { perFoot: '1'.repeat(201) }, 20, 'out-of-range', 'perFoot'],
    ['a huge power', { perFoot: '1e999999999999' }, 20, 'out-of-range', 'perFoot'],
    ['a negative', { perFoot: '-0.6' }, 20, 'out-of-range', 'perFoot'],
    ['zero', { oneIn: '0' }, 20, 'out-of-range', 'oneIn'],
    ['a flat face', { halfAngleDeg: '90' }, 20, 'out-of-range', 'halfAngleDeg'],
    ['ends swapped', { largeDiameter: '1', smallDiameter: '2', length: '3' }, 20, 'out-of-range', 'smallDiameter'],
    ['a missing length', { largeDiameter: '2', smallDiameter: '1' }, 20, 'missing-option', 'length'],
    ['two ways', { perFoot: '0.6', oneIn: '20' }, 20, 'contradiction', ''],
    ['no way', {}, 20, 'missing-option', ''],
    ['an unknown key', { perYard: '1' }, 20, 'unknown-option', 'perYard'],
    ['an unknown standard', { standard: 'morse-9' }, 20, 'no-data', 'standard'],
    ['no digits', { perFoot: '1' }, 0, 'out-of-range', 'digits'],
    ['half a digit', { perFoot: '1' }, 1.5, 'out-of-range', 'digits'],
    ['too many digits', { perFoot: '1' }, 201, 'out-of-range', 'digits'],
    ['digits not given', { perFoot: '1' }, undefined, 'missing-option', 'digits'],
  ];
  it.each(refused)('refuses %s', (_, taper, digits, code, parameter) => {
    expect(() => convertTaperExact(taper as ExactTaper, 'rate', { digits: digits as number })).toThrow(
      expect.objectContaining({ name: 'GeneratrixError', code, parameter }),
    );
  });

  it('never leaves the floating-point form behind', () => {
    const half: Taper = { perFoot: 0.60235 };
    expect(convertTaper(half, 'halfAngleDeg')).toBe(
      Number(convertTaperExact({ perFoot: '0.60235' }, 'halfAngleDeg', { digits: 17 })),
    );
  });
});
