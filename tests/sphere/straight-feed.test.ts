import { Decimal } from 'decimal.js';
import fc from 'fast-check';
import { straightFeedModel, straightFeedSettings, straightFeedSurface } from 'generatrix/sphere';
import { describe, expect, it } from 'vitest';
import { plainArithmetic } from '../../src/budget/arithmetic.js';
import { refusal } from '../oracle/refusal.js';

const DEG = Math.PI / 180;

describe('straight feed with a tilted sweep', () => {
  it('agrees with the lowest tip of the sweep at each place across the face', () => {
    // The tips in space: the circle tilted about the x axis, fed along y; the face is the lowest tip at each x.
    for (const [tiltDeg, sweepRadius, width] of [
      [3, 40, 70],
      [12, 25, 50],
      [0.1, 100, 30],
    ] as const) {
      const tip = (x: number): number => {
        const t = Math.acos(x / sweepRadius);
        return Math.min(sweepRadius * Math.sin(t), -sweepRadius * Math.sin(t)) * Math.sin(tiltDeg * DEG);
      };
      const { hollow } = straightFeedSurface({ tiltDeg, sweepRadius, width });
      expect(Math.abs(tip(width / 2) - tip(0) - hollow)).toBeLessThan(1e-13 * sweepRadius);
    }
  });

  it('keeps its digits for a narrow face, against 50-digit arithmetic', () => {
    const Exact = Decimal.clone({ precision: 60 });
    fc.assert(
      fc.property(
        // Whole numbers of 1/1024, whose decimals are exact: a double's own digits would not be its value.
        fc.integer({ min: 1, max: 1e6 }),
        fc.integer({ min: 1, max: 2e6 }),
        fc.integer({ min: 1, max: 90 * 1024 }),
        (radius, wide, tilt) => {
          const [sweepRadius, width, tiltDeg] = [radius / 1024, Math.min(wide, 2 * radius) / 1024, tilt / 1024];
          const r = new Exact(sweepRadius);
          const rise = r.minus(r.pow(2).minus(new Exact(width).div(2).pow(2)).sqrt());
          const exact = rise.times(new Exact(tiltDeg).times(Exact.acos(-1)).div(180).sin());
          const { hollow } = straightFeedSurface({ tiltDeg, sweepRadius, width });
          // Eight roundings, half a unit each; near W = 2r the difference r - W/2 adds none.
          expect(new Exact(hollow).div(exact).minus(1).abs().toNumber()).toBeLessThan(1.5e-15);
        },
      ),
      { numRuns: 200 },
    );
  });

  it('bends in the middle as a circle of radius r / sin δ', () => {
    const { hollow, middleRadius } = straightFeedSurface({ tiltDeg: 2, sweepRadius: 80, width: 0.01 });
    expect(0.005 ** 2 / (2 * hollow) / (middleRadius ?? 0)).toBeCloseTo(1, 8);
  });

  it('finds the tilt for a hollow, and 90 where no tilt is too much', () => {
    fc.assert(
      fc.property(fc.double({ min: 1e-4, max: 60, noNaN: true }), (tiltDeg) => {
        const face = { sweepRadius: 50, width: 60 };
        const { hollow } = straightFeedSurface({ ...face, tiltDeg });
        expect(straightFeedSettings({ ...face, hollow }).tiltDeg / tiltDeg).toBeCloseTo(1, 13);
      }),
    );
    expect(straightFeedSettings({ sweepRadius: 50, width: 60, hollow: 10 })).toEqual({ tiltDeg: 90 });
    expect(straightFeedSettings({ sweepRadius: 50, width: 60, hollow: 0 })).toEqual({ tiltDeg: 0 });
  });

  it('has a model that gives the same hollow', () => {
    const face = { tiltDeg: 1.5, sweepRadius: 50, width: 60 };
    expect(straightFeedModel.evaluate(plainArithmetic, face)).toBeCloseTo(straightFeedSurface(face).hollow, 14);
  });

  it.each<[string, unknown]>([
    ['out-of-range width', { tiltDeg: 1, sweepRadius: 5, width: 10.1 }],
    ['out-of-range tiltDeg', { tiltDeg: -1, sweepRadius: 5, width: 1 }],
    ['not-finite sweepRadius', { tiltDeg: 1, sweepRadius: Number.NaN, width: 1 }],
    ['missing-option width', { tiltDeg: 1, sweepRadius: 5 }],
  ])('refuses %s', (wanted, given) => {
    expect(refusal(() => straightFeedSurface(given as Parameters<typeof straightFeedSurface>[0]))).toBe(wanted);
  });
});
