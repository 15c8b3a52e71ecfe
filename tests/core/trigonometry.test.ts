/** Degree trigonometry against 60-digit arithmetic and the angles whose values are known exactly. */
import type { Decimal } from 'decimal.js';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  acosDeg,
  asinDeg,
  atan2Deg,
  atanDeg,
  cosDeg,
  sinDeg,
  tanDeg,
  toDegrees,
  toRadians,
} from '../../src/core/trigonometry.js';
import { runs } from '../oracle/seed.js';
import { Exact, exact, PI, ulpsOff } from '../oracle/ulps.js';

/** What a correct rounding of a result known to some 55 bits can cost: half a unit and a little. */
const BOUND = 0.6;
const draws = { numRuns: runs(300, 100) };

/** Half of the draws are spread over all magnitudes, since digits are lost at the ends. */
const spread = (least: number, most: number): fc.Arbitrary<number> =>
  fc
    .tuple(fc.double({ min: Math.log10(least), max: Math.log10(most), noNaN: true }), fc.boolean())
    .map(([power, negative]) => (negative ? -1 : 1) * 10 ** power);
const angles = fc.oneof(
  fc.double({ min: -720, max: 720, noNaN: true }),
  spread(1e-12, 1e5),
  spread(1e-12, 1).map((near) => 90 + near),
);
const radians = (deg: number): Decimal => exact(deg).mod(360).times(PI).div(180);
const degrees = (rad: Decimal): Decimal => rad.times(180).div(PI);

describe('against 60 digits', () => {
  it.each([
    ['sin', sinDeg, (x: number) => Exact.sin(radians(x)), 180],
    ['cos', cosDeg, (x: number) => Exact.cos(radians(x)), 90],
    ['tan', tanDeg, (x: number) => Exact.tan(radians(x)), 90],
  ] as const)('%s keeps the last digit', (_, ours, truth, special) => {
    fc.assert(
      fc.property(angles, (x) => {
        fc.pre(x % special !== 0);
        expect(ulpsOff(ours(x), truth(x))).toBeLessThan(BOUND);
      }),
      draws,
    );
  });

  it('the inverse functions keep it', () => {
    const sines = fc.oneof(
      fc.double({ min: -1, max: 1, noNaN: true }),
      spread(1e-12, 1),
      spread(1e-15, 1e-3).map((near) => 1 - Math.abs(near)),
    );
    fc.assert(
      fc.property(sines, spread(1e-200, 1e200), fc.double({ min: -2, max: 2, noNaN: true }), (s, y, x) => {
        fc.pre(s !== 0 && x !== 0 && Math.abs(s) < 1);
        expect(ulpsOff(asinDeg(s), degrees(Exact.asin(exact(s))))).toBeLessThan(BOUND);
        expect(ulpsOff(acosDeg(s), degrees(Exact.acos(exact(s))))).toBeLessThan(BOUND);
        expect(ulpsOff(atanDeg(x), degrees(Exact.atan(exact(x))))).toBeLessThan(BOUND);
        expect(ulpsOff(atan2Deg(y, x), degrees(Exact.atan2(exact(y), exact(x))))).toBeLessThan(BOUND);
        expect(ulpsOff(toRadians(x), exact(x).times(PI).div(180))).toBeLessThan(BOUND);
        expect(ulpsOff(toDegrees(x), degrees(exact(x)))).toBeLessThan(BOUND);
      }),
      draws,
    );
  });
});

describe('known values', () => {
  it('are exact at multiples of 30 and 45 degrees', () => {
    for (const turn of [-720, -360, 0, 360, 3600]) {
      expect([0, 30, 90, 150, 180, 210, 270, 330].map((x) => sinDeg(turn + x))).toEqual([
        0, 0.5, 1, 0.5, 0, -0.5, -1, -0.5,
      ]);
      expect([0, 60, 90, 120, 180, 240, 270, 300].map((x) => cosDeg(turn + x))).toEqual([
        1, 0.5, 0, -0.5, -1, -0.5, 0, 0.5,
      ]);
      expect([0, 45, 90, 135, 180, 225].map((x) => tanDeg(turn + x))).toEqual([0, 1, Infinity, -1, 0, 1]);
    }
    expect([sinDeg(45), cosDeg(45), sinDeg(60), cosDeg(30), tanDeg(60)]).toEqual([
      Math.SQRT1_2,
      Math.SQRT1_2,
      Math.sqrt(3) / 2,
      Math.sqrt(3) / 2,
      Math.sqrt(3),
    ]);
  });

  it('come back from the inverse functions', () => {
    expect([-1, -0.5, 0, 0.5, 1].map(asinDeg)).toEqual([-90, -30, 0, 30, 90]);
    expect([-1, -0.5, 0, 0.5, 1].map(acosDeg)).toEqual([180, 120, 90, 60, 0]);
    expect([-Infinity, -1, 0, 1, Infinity].map(atanDeg)).toEqual([-90, -45, 0, 45, 90]);
    expect(
      [
        [0, 0],
        [0, 1],
        [1, 1],
        [1, 0],
        [1, -1],
        [0, -1],
        [-1, 0],
        [-1, -1],
      ].map(([y = 0, x = 0]) => atan2Deg(y, x)),
    ).toEqual([0, 0, 45, 90, 135, 180, -90, -135]);
  });

  it('hold at the ends of the range of doubles', () => {
    expect(atan2Deg(1e308, 1e308)).toBe(45);
    expect(atan2Deg(5e-324, 5e-324)).toBe(45);
    expect(atanDeg(1e-300)).toBe(toDegrees(1e-300));
    expect(Math.abs(sinDeg(1e-310) - 1e-310 * (Math.PI / 180))).toBeLessThanOrEqual(1e-323); // two steps of subnormals
    expect(toDegrees(1e306)).toBe(1e306 * (180 / Math.PI));
  });
});
