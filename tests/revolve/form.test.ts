import {
  circleMeridian,
  circlePoint,
  leastSquaresSphere,
  minimumZoneSphere,
  revolveCircle,
  sweepForm,
} from 'generatrix';
import { describe, expect, it } from 'vitest';
import { leastAround, pointInSpace, randomFrom, type Setup, turned } from './brute-circle.js';

/** A set-up as a shop might have it, with a skew up to a twentieth of the sweep, and a stretch of it. */
function shopSweep(random: ReturnType<typeof randomFrom>) {
  const radius = 10 ** random(0, 2);
  const tiltDeg = random(15, 90);
  const sweep = { tiltDeg, sweepRadius: radius, distance: radius * random(0.2, 3), skew: radius * random(-0.05, 0.05) };
  const { zMin, zMax } = revolveCircle(sweep);
  const fromZ = zMin + (zMax - zMin) * random(0.05, 0.3);
  const toZ = zMin + (zMax - zMin) * random(0.6, 0.95);
  const side = random(0, 1) < 0.5 ? ('ball' as const) : ('socket' as const);
  return { sweep, side, fromZ, toZ };
}

/** Points of the kept branch from space: the half of the sweep on which the distance from the axis is the kept one. */
function cutPoints(sweep: Setup, side: 'ball' | 'socket', fromZ: number, toZ: number, count: number) {
  const half = (side === 'ball') === sweep.skew > 0 ? Math.PI : 0;
  return Array.from({ length: count }, (_, i) => pointInSpace(sweep, half + (Math.PI * (i + 0.5)) / count))
    .filter(([, , z]) => z >= fromZ && z <= toZ)
    .map(([x, y, z]) => ({ z, radius: Math.hypot(x, y) }));
}

describe('the form of a sweep', () => {
  it('has the minimum zone that the exact fit to 4000 points in space approaches from below', () => {
    const random = randomFrom(11);
    for (let i = 0; i < 60; i++) {
      const { sweep, side, fromZ, toZ } = shopSweep(random);
      const { minimumZone } = sweepForm({ sweep, side, fromZ, toZ });
      const points = cutPoints(sweep, side, fromZ, toZ, 4000);
      const sampled = minimumZoneSphere({ points });
      // Sampling clips the ends of the stretch by up to one step, so by that much of the deviation's slope.
      expect(sampled.formDeviation).toBeLessThan(minimumZone.formDeviation * (1 + 1e-9) + 1e-13 * minimumZone.radius);
      expect(sampled.formDeviation).toBeGreaterThan(minimumZone.formDeviation * 0.99);
      const touched = minimumZoneSphere({
        points: [...points, ...minimumZone.alternation.map(({ z, radius }) => ({ z, radius }))],
      });
      expect(Math.abs(touched.formDeviation - minimumZone.formDeviation)).toBeLessThan(1e-12 * minimumZone.radius);
      expect(Math.abs(touched.centreZ - minimumZone.centreZ)).toBeLessThan(1e-9 * minimumZone.radius);
      const signs = minimumZone.alternation.map(({ deviation }) => deviation / (minimumZone.formDeviation / 2));
      expect(signs.map((s) => Math.round(s * 1e6) / 1e6)).toEqual(side === 'ball' ? [1, -1, 1] : [-1, 1, -1]);
    }
  });

  it('by exchange, with a nose, is certified, and tends to the closed form as the nose vanishes', () => {
    const random = randomFrom(12);
    for (let i = 0; i < 30; i++) {
      const query = shopSweep(random);
      const sharp = sweepForm(query).minimumZone;
      const nearly = sweepForm({
        ...query,
        sweep: { ...query.sweep, noseRadius: 1e-9 * query.sweep.sweepRadius },
      }).minimumZone;
      expect(Math.abs(nearly.formDeviation - sharp.formDeviation)).toBeLessThan(1e-8 * sharp.radius);
      expect(nearly.uncertainty).toBeLessThan(1e-9 * nearly.formDeviation + 1e-14 * nearly.radius);
    }
  });

  it('by least squares agrees with points at equal lengths along the meridian', () => {
    const random = randomFrom(13);
    for (let i = 0; i < 6; i++) {
      const { sweep, side, fromZ, toZ } = shopSweep(random);
      const { leastSquares } = sweepForm({ sweep, side, fromZ, toZ });
      const fine = cutPoints(sweep, side, fromZ, toZ, 100_000);
      // Walk along and keep the middle of every 2000th of the length.
      const lengths = fine.map((p, k) =>
        k ? Math.hypot(p.z - (fine[k - 1]?.z ?? 0), p.radius - (fine[k - 1]?.radius ?? 0)) : 0,
      );
      const total = lengths.reduce((a, b) => a + b);
      let run = 0;
      let next = total / 4000;
      const points = fine.filter((_, k) => {
        run += lengths[k] as number;
        if (run < next) return false;
        next += total / 2000;
        return true;
      });
      const sampled = leastSquaresSphere({ points });
      const size = Math.abs(sweep.skew);
      expect(Math.abs(sampled.centreZ - leastSquares.centreZ)).toBeLessThan(1e-3 * size);
      expect(Math.abs(sampled.radius - leastSquares.radius)).toBeLessThan(1e-3 * size);
      expect(Math.abs(sampled.rootMeanSquare - leastSquares.rootMeanSquare)).toBeLessThan(1e-3 * size);
    }
  });

  it('without skew is a sphere, with or without a nose', () => {
    const sweep = { tiltDeg: 45, sweepRadius: 3, distance: 4, noseRadius: 2 };
    const { leastSquares, minimumZone } = sweepForm({ sweep, side: 'socket' });
    const exact = { centreZ: 0, radius: 7, formDeviation: 0, peak: 0, valley: 0, rootMeanSquare: 0 };
    expect(leastSquares).toEqual(exact);
    expect(minimumZone).toEqual({ ...exact, uncertainty: 0, alternation: [] });
    expect(() => sweepForm({ sweep: { ...sweep, tiltDeg: 0 }, side: 'ball' })).toThrow('sweep.tiltDeg');
    expect(() => sweepForm({ sweep, side: 'ball', fromZ: 1, toZ: 1 })).toThrow('toZ');
  });

  it('refuses a nose that is larger than the sphere on which it runs', () => {
    const sphere = { tiltDeg: 90, sweepRadius: 3, distance: 4, noseRadius: 5 };
    expect(() => sweepForm({ sweep: sphere, side: 'ball' })).toThrow('sweep.noseRadius');
  });
});

describe('shape at a point', () => {
  /** Radius of the circle through three points of the meridian, from space. */
  const threePoint = (setup: Setup, t: number, d: number): number => {
    const [a, b, c] = [t - d, t, t + d].map((s) => {
      const [x, y, z] = pointInSpace(setup, s);
      return [z, Math.hypot(x, y)] as const;
    }) as [readonly [number, number], readonly [number, number], readonly [number, number]];
    const side = (p: readonly [number, number], q: readonly [number, number]) => Math.hypot(p[0] - q[0], p[1] - q[1]);
    const area = ((b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])) / 2;
    return (side(a, b) * side(b, c) * side(c, a)) / (4 * area);
  };

  it('has the curvature of the circle through three close points, and a normal square to the chord', () => {
    const random = randomFrom(14);
    for (let i = 0; i < 200; i++) {
      const { sweep, side } = shopSweep(random);
      const t = random(0.3, 2.8) + (random(0, 1) < 0.5 ? Math.PI : 0);
      const point = circlePoint({ sweep, turnDeg: (t * 180) / Math.PI, side });
      // Three points 1e-3 rad apart: their circle's curvature is off by the square of that, times what a skew
      // of a twentieth makes of it.
      const measured = 1 / threePoint(sweep, t, 1e-3);
      expect(Math.abs(Math.abs(measured) - Math.abs(point.curvature)) * sweep.sweepRadius).toBeLessThan(1e-4);
      const [before, after] = [t - 1e-4, t + 1e-4].map((s) => pointInSpace(sweep, s)) as [number, number, number][] as [
        [number, number, number],
        [number, number, number],
      ];
      const dz = (after[2] as number) - (before[2] as number);
      const dRho =
        Math.hypot(after[0] as number, after[1] as number) - Math.hypot(before[0] as number, before[1] as number);
      expect(Math.abs(dz * point.normalZ + dRho * point.normalRadius) / Math.hypot(dz, dRho)).toBeLessThan(1e-6);
      expect(Math.abs(point.normalZ ** 2 + point.normalRadius ** 2 - 1)).toBeLessThan(1e-14);
    }
  });

  it('with a nose lies exactly a nose radius from the nearest place that the turning sweep reaches', () => {
    const random = randomFrom(15);
    for (let i = 0; i < 200; i++) {
      const { sweep, side } = shopSweep(random);
      const t = (side === 'ball') === sweep.skew > 0 ? random(3.6, 5.8) : random(0.5, 2.6);
      const noseRadius = 0.02 * sweep.sweepRadius;
      const point = circlePoint({ sweep: { ...sweep, noseRadius }, turnDeg: (t * 180) / Math.PI, side });
      // Of all turns of the work the one that brings a place of the sweep into the point's own half-plane is
      // the nearest.
      const nearest = leastAround((s) => {
        const [x, y, z] = pointInSpace(sweep, s);
        const [nx, ny, nz] = turned([x, y, z], -Math.atan2(y, x));
        return Math.hypot(nx - point.radius, ny, nz - point.z);
      });
      expect(Math.abs(nearest - noseRadius)).toBeLessThan(1e-12 * sweep.sweepRadius);
    }
  });

  it('agrees with the meridian by height', () => {
    const sweep = { tiltDeg: 60, sweepRadius: 5, distance: 6, skew: 0.3 };
    const { z, radius } = circlePoint({ sweep, turnDeg: 250, side: 'ball' });
    expect(circleMeridian({ sweep, z, side: 'ball' }).radius).toBeCloseTo(radius, 13);
    expect(() => circlePoint({ sweep: { ...sweep, noseRadius: -1 }, turnDeg: 250, side: 'ball' })).toThrow(
      'sweep.noseRadius',
    );
  });
});
