import fc from 'fast-check';
import { halfAngleDegOfRate, rateOfHalfAngleDeg } from 'generatrix/taper';
import { expect, it } from 'vitest';
import { runs } from '../oracle/seed.js';
import { exact, PI, ulpsOff } from '../oracle/ulps.js';

it('agree with 50-digit arithmetic within one unit in the last place, from 1e-6° to 89.9°', () => {
  // Evenly in the logarithm below 1°, evenly above it.
  const angle = fc.oneof(
    fc.double({ min: -6, max: 0, noNaN: true }).map((x) => 10 ** x),
    fc.double({ min: 1, max: 89.9, noNaN: true }),
  );
  fc.assert(
    fc.property(angle, (halfAngleDeg) => {
      const rate = rateOfHalfAngleDeg(halfAngleDeg);
      expect(ulpsOff(rate, exact(halfAngleDeg).times(PI).div(180).tan().times(2))).toBeLessThan(1);
      expect(ulpsOff(halfAngleDegOfRate(rate), exact(rate).div(2).atan().times(180).div(PI))).toBeLessThan(1);
    }),
    { numRuns: runs(300, 100) },
  );
});

it.each<[string, () => unknown]>([
  ['out-of-range', () => halfAngleDegOfRate(0)],
  ['not-finite', () => halfAngleDegOfRate(Infinity)],
  ['wrong-kind', () => halfAngleDegOfRate('2' as unknown as number)],
  ['out-of-range', () => rateOfHalfAngleDeg(90)],
  ['out-of-range', () => rateOfHalfAngleDeg(-1)],
  ['not-finite', () => rateOfHalfAngleDeg(Number.NaN)],
])('refuses with %s', (code, call) => {
  expect(call).toThrow(expect.objectContaining({ name: 'GeneratrixError', code }));
});
