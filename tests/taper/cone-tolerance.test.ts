import { readFileSync } from 'node:fs';
import { Decimal } from 'decimal.js';
import fc from 'fast-check';
import {
  angleToleranceFromDiameter,
  type ConeAngleGrade,
  coneAngleTolerance,
  diameterToleranceFromAngle,
  frustum,
} from 'generatrix/taper';
import { expect, it } from 'vitest';
import { refusal } from '../oracle/refusal.js';

/** Where the values come from stands in the file. */
const { grades, over, upTo, printed } = JSON.parse(
  readFileSync(new URL('../reference/cone-angle-grades.json', import.meta.url), 'utf8'),
) as { grades: Record<ConeAngleGrade, number[]>; over: number[]; upTo: number[]; printed: Printed[] };

/** A cone 7 : 24 of grade AT4 with its tolerance on the diameter, as printed. */
interface Printed {
  readonly cone: string;
  readonly gaugeDiameter: number;
  readonly length: number;
  readonly diameterToleranceUm: number;
  readonly smallDiameter: number;
  readonly source: string;
}

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
    { numRuns: 300 },
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

it.each(Object.entries(grades) as [ConeAngleGrade, number[]][])(
  '%s has the tabled value in all ranges',
  (grade, row) => {
    row.forEach((microradians, i) => {
      for (const lengthMm of [(over[i] ?? 0) * (1 + 1e-12), upTo[i] ?? 0]) {
        const found = coneAngleTolerance({ grade, lengthMm });
        expect(found.microradians).toBe(microradians);
        expect(found.angleToleranceDeg).toBeCloseTo((microradians * 1e-6 * 180) / Math.PI, 15);
        expect(found.confidence).toBe(grade === 'AT4' && i >= 4 && i <= 7 ? 'two-sources' : 'memory');
      }
    });
  },
);

it.each(printed)('$cone 7 : 24: AT4 gives the diameter tolerance printed in $source', (row) => {
  const { microradians, confidence } = coneAngleTolerance({ grade: 'AT4', lengthMm: row.length });
  expect(confidence).toBe('two-sources');
  // The standard's own rule, angle in radians times length; printed to 0.1 µm.
  expect(Math.abs((microradians * row.length) / 1000 - row.diameterToleranceUm)).toBeLessThanOrEqual(0.05);
  const { smallDiameter } = frustum({ largeDiameter: row.gaugeDiameter, length: row.length, taper: { perFoot: 3.5 } });
  // Printed to 0.001 mm; the small end of spindle 30 is a misprint, 0.010 too large.
  const off = Math.abs(smallDiameter - row.smallDiameter);
  if (row.cone === 'spindle 30') expect(off).toBeCloseTo(0.01, 6);
  else expect(off).toBeLessThanOrEqual(0.0005 * (1 + 1e-9));
});

it('at the edges is a number or a refusal', () => {
  const flat = { halfAngleDeg: 89.99999999 };
  expect(refusal(() => diameterToleranceFromAngle({ taper: flat, angleToleranceDeg: 1e-9, length: 1e300 }))).toBe(
    'not-representable angleToleranceDeg',
  );
  expect(refusal(() => angleToleranceFromDiameter({ taper: flat, diameterTolerance: 1e308, length: 1e-308 }))).toBe(
    'not-representable diameterTolerance',
  );
  for (const perSide of [1e-300, 1, 1e300]) {
    for (const diameterTolerance of [5e-324, 1, 1.7e308]) {
      const angle = angleToleranceFromDiameter({ taper: { perSide }, diameterTolerance, length: 1 });
      expect(angle >= 0 && angle <= 180 && !Object.is(angle, -0)).toBe(true);
    }
  }
});

it.each<[string, () => unknown]>([
  ['no-data lengthMm', () => coneAngleTolerance({ grade: 'AT5', lengthMm: 6 })],
  ['no-data lengthMm', () => coneAngleTolerance({ grade: 'AT5', lengthMm: 630.1 })],
  ['out-of-range lengthMm', () => coneAngleTolerance({ grade: 'AT5', lengthMm: -1 })],
  ['out-of-range grade', () => coneAngleTolerance({ grade: 'AT0' as 'AT1', lengthMm: 10 })],
  [
    'impossible-geometry angleToleranceDeg',
    () => diameterToleranceFromAngle({ taper: { halfAngleDeg: 80 }, angleToleranceDeg: 20, length: 1 }),
  ],
  [
    'out-of-range angleToleranceDeg',
    () => diameterToleranceFromAngle({ taper: { halfAngleDeg: 8 }, angleToleranceDeg: 0, length: 1 }),
  ],
  [
    'out-of-range length',
    () => angleToleranceFromDiameter({ taper: { halfAngleDeg: 8 }, diameterTolerance: 1, length: -1 }),
  ],
  [
    'out-of-range taper.halfAngleDeg',
    () => angleToleranceFromDiameter({ taper: { halfAngleDeg: 90 }, diameterTolerance: 1, length: 1 }),
  ],
])('refuses with %s', (wanted, call) => {
  expect(refusal(call)).toBe(wanted);
});
