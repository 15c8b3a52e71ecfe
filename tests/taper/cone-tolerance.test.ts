import { Decimal } from 'decimal.js';
import fc from 'fast-check';
import { angleToleranceFromDiameter, coneAngleGrade, diameterToleranceFromAngle } from 'generatrix/taper';
import { expect, it } from 'vitest';

const Big = Decimal.clone({ precision: 50 });
const between = (min: number, max: number): fc.Arbitrary<number> => fc.double({ min, max, noNaN: true });

it('an angle tolerance shows on the diameter as 50-digit arithmetic says, and back', () => {
  fc.assert(
    fc.property(between(0.01, 60), between(1e-4, 2), between(1, 500), (halfAngleDeg, angleToleranceDeg, length) => {
      const tolerance = diameterToleranceFromAngle({ taper: { halfAngleDeg }, angleToleranceDeg, length });
      const tan = (deg: Decimal): Decimal => deg.times(Big.acos(-1)).div(180).tan();
      const exact = tan(new Big(halfAngleDeg).plus(new Big(angleToleranceDeg).div(2)))
        .minus(tan(new Big(halfAngleDeg)))
        .times(2)
        .times(length);
      expect(exact.div(tolerance).minus(1).abs().toNumber()).toBeLessThan(2e-15);
      const back = angleToleranceFromDiameter({ taper: { halfAngleDeg }, diameterTolerance: tolerance, length });
      expect(Math.abs(back / angleToleranceDeg - 1)).toBeLessThan(4e-15);
    }),
    { seed: 1947, numRuns: 300 },
  );
});

it('for slender cones is the angle in radians times the length (rule of ISO 1947, from memory)', () => {
  const AT = 1e-4;
  const tolerance = diameterToleranceFromAngle({
    taper: { oneIn: 50 },
    angleToleranceDeg: (AT * 180) / Math.PI,
    length: 100,
  });
  expect(tolerance / (AT * 100)).toBeCloseTo(1, 3);
});

it.each<[string, () => unknown]>([
  ['no-data', () => coneAngleGrade('AT5')],
  [
    'impossible-geometry',
    () => diameterToleranceFromAngle({ taper: { halfAngleDeg: 80 }, angleToleranceDeg: 20, length: 1 }),
  ],
  ['out-of-range', () => diameterToleranceFromAngle({ taper: { halfAngleDeg: 8 }, angleToleranceDeg: 0, length: 1 })],
  ['out-of-range', () => angleToleranceFromDiameter({ taper: { halfAngleDeg: 8 }, diameterTolerance: 1, length: -1 })],
])('refuses with %s', (code, call) => {
  expect(call).toThrow(expect.objectContaining({ name: 'GeneratrixError', code }));
});
