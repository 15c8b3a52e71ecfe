/** Angles and lengths as text: what is read, what is printed, and what is refused, quickly. */
import fc from 'fast-check';
import { formatAngle, formatFraction, type LengthUnit, parseAngle, parseLength } from 'generatrix';
import { describe, expect, it } from 'vitest';
import { Exact, exact } from '../oracle/ulps.js';

describe('parseAngle', () => {
  const sixty = (d: number, m: string, s: string): number => new Exact(s).div(60).plus(m).div(60).plus(d).toNumber();
  it.each<[string, number]>([
    ['2°51\'40.9"', sixty(2, '51', '40.9')],
    ['2 51 40.9', sixty(2, '51', '40.9')],
    ['2:51:40.9', sixty(2, '51', '40.9')],
    ['2d51m40.9s', sixty(2, '51', '40.9')],
    ['2 deg 51 min 40.9 sec', sixty(2, '51', '40.9')],
    ['2° 51′ 40.9″', sixty(2, '51', '40.9')],
    ["2°51'40.9''", sixty(2, '51', '40.9')],
    ['2d51m', sixty(2, '51', '0')],
    ["2°51.5'", sixty(2, '51.5', '0')],
    ['2.86', 2.86],
    ['2.86°', 2.86],
    ['2,86°', 2.86],
    ['0,250', 0.25],
    ['2,8600', 2.86],
    ['2°51\'40,9"', sixty(2, '51', '40.9')],
    ['.5', 0.5],
    ['5.', 5],
    ["-0°30'", -0.5],
    ['- 1 30', -1.5],
    ['+1°30', 1.5],
    ['  90  ', 90],
    ['-0', 0],
    ['0°59\'59.9"', sixty(0, '59', '59.9')],
  ])('%s', (text, angle) => expect(parseAngle(text)).toBe(angle));

  it.each<[string, unknown, string]>([
    ['no text', 2.86, 'wrong-kind'],
    ['nothing', '', 'unreadable'],
    ['a sign', '-', 'unreadable'],
    ['two signs', '--1', 'unreadable'],
    ['a sign inside', "1°-30'", 'unreadable'],
    ['words', 'a bit', 'unreadable'],
    ['a power', '1e3', 'unreadable'],
    ['a comma that may part thousands', '1,250', 'unreadable'],
    ['two decimal marks', '1,2.5', 'unreadable'],
    ['a comma before minutes', "2,5°30'", 'unreadable'],
    ['sixty minutes with a comma', "2°60,0'", 'out-of-range'],
    ['four parts', '1 2 3 4', 'unreadable'],
    ['decimals before minutes', "2.5°30'", 'unreadable'],
    ['minutes first', "30'2°", 'unreadable'],
    ['sixty minutes', "2°60'", 'out-of-range'],
    ['sixty seconds', '2°0\'60"', 'out-of-range'],
    ['a flood', '1'.repeat(100_000), 'out-of-range'],
    ['a crowd of spaces', `1${' '.repeat(98)}x`, 'unreadable'],
    ['Infinity', 'Infinity', 'unreadable'],
  ])('refuses %s', (_, text, code) => {
    expect(() => parseAngle(text as string)).toThrow(expect.objectContaining({ code, parameter: 'angle' }));
  });
});

describe('formatAngle', () => {
  it.each<[number, Parameters<typeof formatAngle>[1], string]>([
    [59.99999999 / 60, {}, '1°0\'0"'],
    [59.99999999, {}, '60°0\'0"'],
    [2 + 59.96 / 3600, { decimals: 1 }, '2°1\'0.0"'],
    [2 + 59.94 / 3600, { decimals: 1 }, '2°0\'59.9"'],
    [1.5, { smallest: 'degree' }, '2°'],
    [0.5, { smallest: 'degree' }, '0°'],
    [-0.0001, { smallest: 'minute' }, "0°0'"],
    [-1.5, {}, '-1°30\'0"'],
    [0, { decimals: 3 }, '0°0\'0.000"'],
  ])('%d with %o is %s', (angle, format, text) => expect(formatAngle(angle, format)).toBe(text));

  it('never prints 60, and is read back within half a unit of its last digit', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -720, max: 720, noNaN: true }),
        fc.constantFrom('degree', 'minute', 'second'),
        fc.integer({ min: 0, max: 6 }),
        (angle, smallest, decimals) => {
          const text = formatAngle(angle, { smallest, decimals });
          expect(text).not.toMatch(/\D60['".]/);
          const unit = { degree: 1, minute: 60, second: 3600 }[smallest] * 10 ** decimals;
          // 1e-13: reading back rounds an angle of up to 720 degrees to a double.
          expect(Math.abs(parseAngle(text) - angle)).toBeLessThanOrEqual(0.5 / unit + 1e-13);
        },
      ),
      { numRuns: 1000 },
    );
  });

  // Angles of ISO 3040 tapers to a tenth of a second and better, as tabulated for ISO 1119 (seen in a transcription).
  it.each([
    [5, 11.421186, '11°25\'16.27"'],
    [20, 2.864192, '2°51\'51.09"'],
  ])('1 : %d', (oneIn, listed, text) => {
    const included = (2 * Math.atan(0.5 / oneIn) * 180) / Math.PI;
    expect(included).toBeCloseTo(listed, 6);
    expect(formatAngle(included, { decimals: 2 })).toBe(text);
  });

  it.each<[string, () => unknown, string]>([
    ['NaN', () => formatAngle(Number.NaN), 'not-finite'],
    ['a million turns', () => formatAngle(1e7), 'out-of-range'],
    ['half a decimal', () => formatAngle(1, { decimals: 0.5 }), 'out-of-range'],
    ['an unknown part', () => formatAngle(1, { smallest: 'third' as 'second' }), 'out-of-range'],
    ['an unknown key', () => formatAngle(1, { digits: 3 } as object), 'unknown-option'],
  ])('refuses %s', (_, call, code) => expect(call).toThrow(expect.objectContaining({ code })));
});

describe('parseLength', () => {
  it.each<[string, LengthUnit, number]>([
    ['5/8', 'in', 0.625],
    ['1 5/8', 'in', 1.625],
    ['1-5/8', 'in', 1.625],
    ['-1 5/8', 'in', -1.625],
    ['0.6235', 'in', 0.6235],
    ['.250', 'in', 0.25],
    ['41,3', 'mm', 41.3],
    ['0,250', 'mm', 0.25],
    ['5/8"', 'mm', 15.875],
    ['5 / 8 inch', 'mm', 15.875],
    ['1 ft', 'mm', 304.8],
    ["2'", 'in', 24],
    ['25.4 mm', 'in', 1],
    ['254 MM', 'in', 10],
    ['0.5 thou', 'in', 0.0005],
    ['3 µm', 'mm', 0.003],
    ['-0', 'mm', 0],
    ['1/3', 'in', 1 / 3],
    ['0.1 in', 'mm', 2.54],
  ])('%s in %s', (text, unit, value) => expect(parseLength(text, { unit })).toBe(value));

  it('takes bare figures in the unit said', () => {
    expect(parseLength('5/8', { unit: 'mm', bareUnit: 'in' })).toBe(15.875);
    expect(parseLength('5 mm', { unit: 'mm', bareUnit: 'in' })).toBe(5);
  });

  it('rounds once, whatever the units', () => {
    const metres = { mm: '0.001', cm: '0.01', m: '1', um: '0.000001', in: '0.0254', ft: '0.3048', thou: '0.0000254' };
    const unit = fc.constantFrom(...(Object.keys(metres) as LengthUnit[]));
    const whole = fc.nat(999);
    fc.assert(
      fc.property(whole, whole, fc.integer({ min: 1, max: 999 }), unit, unit, (wholes, over, under, from, to) => {
        const truth = new Exact(over).div(under).plus(wholes).times(metres[from]).div(metres[to]);
        expect(parseLength(`${wholes} ${over}/${under} ${from}`, { unit: to })).toBe(truth.toNumber());
        const decimal = `${wholes}.${over}`;
        expect(parseLength(decimal + from, { unit: to })).toBe(
          new Exact(decimal).times(metres[from]).div(metres[to]).toNumber(),
        );
      }),
      { numRuns: 500 },
    );
  });

  it.each<[string, unknown, string]>([
    ['a number', 5, 'wrong-kind'],
    ['nothing', '', 'unreadable'],
    ['words', 'half', 'unreadable'],
    ['nothing below', '5/0', 'unreadable'],
    ['two fractions', '1/2/3', 'unreadable'],
    ['a sign inside', '5/-8', 'unreadable'],
    ['nested signs', '-+-5', 'unreadable'],
    ['thousands, perhaps', '1,250', 'unreadable'],
    ['both marks', '1,250.5', 'unreadable'],
    ['a power', '1e5', 'unreadable'],
    ['an unknown unit', '5 ells', 'unreadable'],
    ['a hidden word', '5 toString', 'unreadable'],
    ['another one', '5 valueO', 'unreadable'],
    ['a flood', '9'.repeat(1_000_000), 'out-of-range'],
    ['a long fraction', `${'9'.repeat(40)}/${'9'.repeat(40)}`, 'unreadable'],
  ])('refuses %s', (_, text, code) => {
    expect(() => parseLength(text as string, { unit: 'in' })).toThrow(expect.objectContaining({ code }));
  });

  it('refuses a unit that is none', () => {
    expect(() => parseLength('5', { unit: 'ell' as 'mm' })).toThrow(expect.objectContaining({ code: 'out-of-range' }));
  });
});

describe('formatFraction', () => {
  it.each<[number, number, string]>([
    [0.625, 64, '5/8'],
    [1.625, 64, '1 5/8'],
    [-1.625, 64, '-1 5/8'],
    [0.6235, 64, '5/8'],
    [0.6235, 1000, '78/125'],
    [1.999, 64, '2'],
    [0.001, 64, '0'],
    [-0.001, 64, '0'],
    [1 / 3, 3, '1/3'],
    [0.0078125, 64, '0'],
    [0.0234375, 64, '1/32'],
  ])('%d in parts of %d is %s', (value, denominator, text) => {
    expect(formatFraction(value, { denominator }).text).toBe(text);
  });

  it('with its remainder is the number again, and the nearest such', () => {
    fc.assert(
      fc.property(fc.double({ min: -1000, max: 1000, noNaN: true }), fc.integer({ min: 1, max: 1000 }), (x, parts) => {
        const { text, value, remainder } = formatFraction(x, { denominator: parts });
        expect(parseLength(text, { unit: 'in' })).toBe(value);
        expect(Math.abs(remainder)).toBeLessThanOrEqual(0.5 / parts);
        // The value itself was rounded to a double.
        expect(exact(value).plus(exact(remainder)).minus(exact(x)).abs().toNumber()).toBeLessThan(1e-13);
        expect(Object.is(remainder, -0) || Object.is(value, -0)).toBe(false);
      }),
      { numRuns: 500 },
    );
  });

  it.each<[string, () => unknown, string]>([
    ['NaN', () => formatFraction(Number.NaN), 'not-finite'],
    ['nothing below', () => formatFraction(1, { denominator: 0 }), 'out-of-range'],
    ['parts of parts', () => formatFraction(1, { denominator: 2.5 }), 'out-of-range'],
    ['an unknown key', () => formatFraction(1, { parts: 2 } as object), 'unknown-option'],
  ])('refuses %s', (_, call, code) => expect(call).toThrow(expect.objectContaining({ code })));
});
