/** The one reader of tapers: results are tapers too, and a refusal names the key however deep the taper stands. */
import { frustum, setoverCorrection, setoverSettings, taperFromDiameters } from 'generatrix';
import { convertTaper, type Taper } from 'generatrix/taper';
import { describe, expect, it } from 'vitest';
import { read, readAll } from '../../src/core/read.js';
import { slopeOf, taper } from '../../src/taper/taper.js';
import { refusal } from '../oracle/refusal.js';

const told = (value: unknown): string => refusal(() => read({ taper: value }, { taper }));

describe('a result that states a taper is taken as that taper', () => {
  it.each<[string, number, Taper]>([
    ['a frustum', 0.05, frustum({ largeDiameter: 2.5, smallDiameter: 2, length: 10 })],
    ['two diameters measured', 0.05, taperFromDiameters({ largeDiameter: 32, smallDiameter: 30, length: 40 })],
    ['what a setting cuts', 0.05, setoverSettings({ taper: { oneIn: 20 }, centreDistance: 200 }).cuts],
    [
      'what a shop rule cuts',
      0.05 / Math.sqrt(1 - 0.025 ** 2), // sin α = L tan α' / L: the rule takes the tangent for the sine
      setoverSettings({ taper: { oneIn: 20 }, centreDistance: 200 }).rule?.cuts as Taper,
    ],
    [
      'what a corrected setting cuts',
      0.05,
      setoverCorrection({
        taper: { oneIn: 20 },
        centreDistance: 200,
        trials: [{ reading: 4, largeDiameter: 20, smallDiameter: 18.4, length: 40 }],
      }).cuts,
    ],
  ])('%s', (_, rate, result) => {
    expect(convertTaper(result, 'rate')).toBeCloseTo(rate, 12);
    expect(convertTaper(JSON.parse(JSON.stringify(result)), 'rate')).toBeCloseTo(rate, 12);
  });

  it('by its rate, with which its half angle must agree', () => {
    expect(read({ taper: { rate: 2, halfAngleDeg: 45, rateError: -3 } }, { taper })).toEqual({
      taper: { rate: 2, halfAngleDeg: 45 },
    });
    expect(told({ rate: 2, halfAngleDeg: 44, rateError: 0 })).toBe('contradiction taper.halfAngleDeg');
    expect(told({ rate: -0.1, halfAngleDeg: -2.86, rateError: 0 })).toBe('out-of-range taper.rate');
    expect(told({ rate: 2, halfAngleDeg: undefined, rateError: 0 })).toBe('unknown-option taper.rateError');
  });
});

it.each<[string, unknown]>([
  ['missing-option taper', undefined],
  ['wrong-kind taper', null],
  ['wrong-kind taper', [0.1]],
  ['missing-option taper', { perFoot: undefined }],
  ['out-of-range taper.perFoot', { perFoot: -1 }],
  ['out-of-range taper.perFoot', { perFoot: -0 }],
  ['unknown-option taper.toString', { toString: 1 }],
  ['unknown-option taper.radius', { largeDiameter: 2, radius: 1 }],
  ['missing-option taper.smallDiameter', { largeDiameter: 2, rate: 1 }],
  ['missing-option taper', Object.create({ perFoot: 1 })],
])('refuses with a path from the argument: %s', (wanted, value) => {
  expect(told(value)).toBe(wanted);
});

it('reads sizes written as text where a parser is given, and gives plain numbers', () => {
  const parse = (text: string): number | undefined => (text === '5/8' ? 0.625 : undefined);
  const found = readAll<Taper>({ perFoot: '5/8' }, taper, parse);
  expect(found).toEqual({ value: { perFoot: 0.625 } });
  expect(slopeOf({ perFoot: 0.625 }).tan).toBe(0.625 / 24);
});

it('mixtures that state no taper do not compile', () => {
  // @ts-expect-error: a radius states no taper
  expect(refusal(() => convertTaper({ largeDiameter: 2, smallDiameter: 1, radius: 3 }, 'rate'))).toBe(
    'unknown-option radius',
  );
  // @ts-expect-error: the length is missing
  expect(refusal(() => convertTaper({ largeDiameter: 2, smallDiameter: 1 }, 'rate'))).toBe('missing-option length');
  // @ts-expect-error: a bare number
  expect(refusal(() => convertTaper(0.6, 'rate'))).toBe('wrong-kind ');
});
