/**
 * The line kernel against points taken on the path in space and revolved, and, near each degenerate
 * case, against the same geometry at 60 digits.
 */
import type { Decimal } from 'decimal.js';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type LineSurface, lineMeridian, revolveLine } from '../../src/revolve/index.js';
import { lineRadiusAt } from '../../src/revolve/line-meridian.js';
import { runs } from '../oracle/seed.js';
import { exact, exactRadius, type Vector } from '../reference/exact.js';

/** Places and directions of ordinary machine sizes, to a thousandth. */
const coordinate = fc.integer({ min: -500_000, max: 500_000 }).map((thousandths) => thousandths / 1000);
const vector = fc.tuple(coordinate, coordinate, coordinate);

/** Least distance between the path and the axis, at 60 digits. */
function exactWaist(point: Vector, direction: Vector): Decimal {
  const [dx, dy] = [exact(direction[0]), exact(direction[1])];
  const cross = dy.times(exact(point[0])).minus(dx.times(exact(point[1])));
  return cross.abs().div(dx.times(dx).plus(dy.times(dy)).sqrt());
}

describe('a line revolved about the work axis', () => {
  it('has at each z the radius of the point of the path that passes there', () => {
    fc.assert(
      fc.property(vector, vector, coordinate, (point, direction, z) => {
        fc.pre(Math.abs(direction[2]) > 0.5 && Math.hypot(direction[0], direction[1]) > 0);
        const surface = revolveLine({ point, direction });
        const wanted = exactRadius(point, direction, exact(z)).toNumber();
        // What cancels near the waist sets the scale of the rounding, not the radius that is left.
        const slope = Math.hypot(direction[0], direction[1]) / Math.abs(direction[2]);
        const scale = Math.hypot(point[0], point[1]) + slope * (Math.abs(z) + Math.abs(point[2]));
        expect(Math.abs(lineRadiusAt(surface, z) - wanted)).toBeLessThanOrEqual(8 * Number.EPSILON * scale);
      }),
      { numRuns: runs(2000, 400) },
    );
  });

  it('is the same surface whichever point and sense of the path describes it, and however far it is turned', () => {
    fc.assert(
      fc.property(vector, vector, fc.double({ min: 0, max: 6.3, noNaN: true }), (point, direction, turn) => {
        fc.pre(Math.abs(direction[2]) > 0.5 && Math.hypot(direction[0], direction[1]) > 0.5);
        const [c, s] = [Math.cos(turn), Math.sin(turn)];
        const rotated = ([x, y, z]: Vector): Vector => [c * x - s * y, s * x + c * y, z];
        const moved = point.map((p, i) => p + 0.7 * (direction[i] as number)) as unknown as Vector;
        const reversed = direction.map((d) => -d) as unknown as Vector;
        const one = revolveLine({ point, direction });
        const other = revolveLine({ point: rotated(moved), direction: rotated(reversed) });
        for (const z of [-300, 0, 450]) {
          expect(Math.abs(lineRadiusAt(one, z) - lineRadiusAt(other, z))).toBeLessThan(
            1e-10 * (1000 + Math.abs(z)) * 500,
          );
        }
      }),
      { numRuns: runs(500, 200) },
    );
  });

  it('keeps the digits of a waist that nearly vanishes', () => {
    for (const miss of [1e-3, 1e-6, 1e-9, 1e-12]) {
      const point: Vector = [30, 40 + miss, 5];
      const direction: Vector = [0.3, 0.4, 10];
      const surface = revolveLine({ point, direction });
      const waist = exactWaist(point, direction);
      expect(surface.kind).toBe('hyperboloid');
      if (surface.kind !== 'hyperboloid') continue;
      expect(Math.abs(waist.minus(surface.waist).div(waist).toNumber())).toBeLessThan(4 * Number.EPSILON);
    }
  });

  it('takes a path to meet the axis where its distance is lost in the rounding of its coordinates', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 1e-9, max: 6.3, noNaN: true }),
        fc.double({ min: 1, max: 500, noNaN: true }),
        fc.double({ min: 0.001, max: 1.5, noNaN: true }),
        (azimuth, radius, angle) => {
          const [c, s] = [Math.cos(azimuth), Math.sin(azimuth)];
          const across = Math.sin(angle);
          const surface = revolveLine({
            point: [radius * c, radius * s, 3],
            direction: [across * c, across * s, Math.cos(angle)],
          });
          expect(surface.kind).toBe('cone');
        },
      ),
      { numRuns: runs(1000, 300) },
    );
  });

  it('approaches the cylinder, the cone and the face without a jump', () => {
    for (const small of [1e-3, 1e-8, 1e-14, 1e-150]) {
      const nearCylinder = revolveLine({ point: [3, 4, 0], direction: [small, 0, 1] });
      expect(lineRadiusAt(nearCylinder, 10)).toBeCloseTo(Math.hypot(3 + 10 * small, 4), 13);
      const nearCone = revolveLine({ point: [0, small, 0], direction: [1, 0, 2] });
      expect(nearCone).toEqual({
        kind: 'hyperboloid',
        waist: small,
        waistZ: 0,
        halfAngleDeg: expect.closeTo(26.56505117707799, 13),
        perSide: 0.5,
      });
      const nearFace = revolveLine({ point: [0, 4, 7], direction: [1, 0, small] });
      expect(nearFace.kind).toBe('hyperboloid');
      expect(lineRadiusAt(nearFace, 7)).toBe(4);
      expect(lineRadiusAt(nearFace, 7 + 3 * small)).toBeGreaterThanOrEqual(4);
    }
    expect(revolveLine({ point: [3, 4, 0], direction: [0, 0, -2] })).toEqual({ kind: 'cylinder', radius: 5 });
    expect(revolveLine({ point: [0, 4, 7], direction: [1, 0, 0] })).toEqual({ kind: 'face', z: 7, innerRadius: 4 });
  });

  it('does not depend on the unit, even at the ends of the range of numbers', () => {
    for (const power of [-900, -30, 0, 30, 900]) {
      const unit = 2 ** power;
      const surface = revolveLine({ point: [3 * unit, 4 * unit, 5 * unit], direction: [unit, 0, 2 * unit] });
      expect(surface).toEqual({
        kind: 'hyperboloid',
        waist: 4 * unit,
        waistZ: -unit,
        halfAngleDeg: expect.closeTo(26.56505117707799, 13),
        perSide: 0.5,
      });
    }
  });
});

describe('the meridian', () => {
  const surfaces: readonly LineSurface[] = [
    { kind: 'cylinder', radius: 12 },
    { kind: 'cone', apexZ: -4, halfAngleDeg: 45, perSide: 1 },
    { kind: 'hyperboloid', waist: 3, waistZ: 2, halfAngleDeg: 45, perSide: 1 },
  ];

  it('has the slope of its neighbouring points', () => {
    for (const surface of surfaces) {
      const { radius, diameter, slope } = lineMeridian({ surface, z: 6 });
      expect(diameter).toBe(2 * radius);
      // Central difference: its own error is of the order of the square of the step.
      expect(slope).toBeCloseTo((lineRadiusAt(surface, 6.001) - lineRadiusAt(surface, 5.999)) / 0.002, 7);
    }
    expect(lineMeridian({ surface: surfaces[1] as LineSurface, z: -4 })).toEqual({ radius: 0, diameter: 0, slope: 0 });
  });

  it('refuses what has none', () => {
    const face = { kind: 'face', z: 1, innerRadius: 0 } as const;
    expect(() => lineMeridian({ surface: face, z: 1 })).toThrow(
      expect.objectContaining({ code: 'impossible-geometry' }),
    );
    expect(() => lineRadiusAt(face, 1)).toThrow(expect.objectContaining({ code: 'impossible-geometry' }));
  });
});

describe('refused', () => {
  it.each([
    ['impossible-geometry', { point: [1, 0, 0], direction: [0, 0, 0] }],
    ['impossible-geometry', { point: [0, 0, 5], direction: [0, 0, 1] }],
    ['not-finite', { point: [1, Number.NaN, 0], direction: [0, 0, 1] }],
    ['wrong-kind', { point: [1, '2', 0], direction: [0, 0, 1] }],
    ['out-of-range', { point: [1, 2], direction: [0, 0, 1] }],
    ['out-of-range', { point: [1, 2, 3, 4], direction: [0, 0, 1] }],
    ['unknown-option', { point: [1, 2, 3], direction: [0, 0, 1], radius: 1 }],
    ['missing-option', { point: [1, 2, 3] }],
    ['not-representable', { point: [1e10, 1, 0], direction: [1e-305, 0, 1] }],
    ['not-representable', { point: [1, 1, 0], direction: [1, 0, 1e-310] }],
  ])('%s: %j', (code, line) => {
    expect(() => revolveLine(line as unknown as Parameters<typeof revolveLine>[0])).toThrow(
      expect.objectContaining({ code }),
    );
  });

  it.each([
    ['out-of-range', { kind: 'sphere', radius: 1 }],
    ['out-of-range', { kind: 'cylinder', radius: 0 }],
    ['unknown-option', { kind: 'cylinder', radius: 1, waist: 2 }],
    ['missing-option', { kind: 'cone', apexZ: 1 }],
    ['out-of-range', { kind: 'face', z: 0, innerRadius: -1 }],
  ])('%s: a surface of %j', (code, surface) => {
    expect(() => lineMeridian({ surface: surface as unknown as LineSurface, z: 0 })).toThrow(
      expect.objectContaining({ code }),
    );
  });
});
