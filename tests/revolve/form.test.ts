import { Decimal } from 'decimal.js';
import {
  circleMeridian,
  circlePoint,
  leastSquaresSphere,
  minimumZoneSphere,
  revolveCircle,
  sweepForm,
} from 'generatrix';
import { describe, expect, it } from 'vitest';
import { seeded } from '../oracle/seed.js';
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
    const random = randomFrom(seeded(11));
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
    const random = randomFrom(seeded(12));
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
    const random = randomFrom(seeded(13));
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

  it('of a whole sharp sweep has the minimum zone of its closed form, on domes as flat as 30 to a million', () => {
    // The squared distance from the foot is h² + e² + r² + 2 r e sin t: level at both ends of the sweep and extreme
    // half-way, so that the foot itself is the best centre and the zone is the difference of the two distances.
    for (const side of ['ball', 'socket'] as const) {
      for (const sphere of [100, 1e3, 2e3, 1e4, 1e5, 1e6]) {
        const half = Math.asin(30 / sphere) / 2;
        const [r, h, e] = [sphere * Math.sin(half), sphere * Math.cos(half), 0.01];
        const sweep = { tiltDeg: (half * 180) / Math.PI, sweepRadius: r, distance: h, skew: e };
        const { leastSquares, minimumZone } = sweepForm({ sweep, side });
        const [ends, middle] = [Math.hypot(h, r, e), Math.hypot(h, side === 'ball' ? r - e : r + e)];
        const width = (2 * r * e) / (ends + middle);
        expect(minimumZone.formDeviation / width).toBeCloseTo(1, 11);
        expect(minimumZone.radius / ((ends + middle) / 2)).toBeCloseTo(1, 14);
        expect(leastSquares.formDeviation).toBeGreaterThanOrEqual(minimumZone.formDeviation);
        expect(leastSquares.rootMeanSquare).toBeLessThan(minimumZone.rootMeanSquare);
      }
    }
  });

  it('by least squares balances its deviations at 30 digits, on a dome of 60 on a radius of a million too', () => {
    const D = Decimal.clone({ precision: 30 });
    for (const sphere of [50, 2e3, 1e6]) {
      const half = Math.asin(30 / sphere) / 2;
      const sweep = { tiltDeg: (half * 180) / Math.PI, sweepRadius: 15, distance: 15 / Math.tan(half), skew: -0.01 };
      const { leastSquares } = sweepForm({ sweep, side: 'ball' });
      const tilt = D.acos(-1).times(sweep.tiltDeg).div(180);
      const [sin, cos] = [tilt.sin(), tilt.cos()];
      // Skew below 0: a ball keeps the half of the sweep with t from 0 to 180 degrees. Near the pole it turns at
      // once, where the tip passes nearest to the axis, so that must be one of the points.
      const turn = D.acos(-1).minus(D.asin(new D(-sweep.skew).div(15)));
      const turns = Array.from({ length: 1001 }, (_, i) => D.acos(-1).times(i).div(1000)).concat(turn);
      const points = turns
        .sort((a, b) => a.cmp(b))
        .map((t) => {
          const x = sin.times(sweep.distance).plus(cos.times(t.cos()).times(15));
          const y = t.sin().times(15).plus(sweep.skew);
          return {
            z: cos.times(sweep.distance).minus(sin.times(t.cos()).times(15)),
            rho: x.pow(2).plus(y.pow(2)).sqrt(),
          };
        });
      const gradient = (c: number): Decimal => {
        const places = points.slice(1).map((p, i) => {
          const q = points[i] as typeof p;
          const [z, rho] = [p.z.plus(q.z).div(2), p.rho.plus(q.rho).div(2)];
          const distance = z.minus(c).pow(2).plus(rho.pow(2)).sqrt();
          const weight = p.z.minus(q.z).pow(2).plus(p.rho.minus(q.rho).pow(2)).sqrt();
          return { weight, distance, by: z.minus(c).neg().div(distance) };
        });
        const total = Decimal.sum(...places.map(({ weight }) => weight));
        const mean = (f: (p: (typeof places)[number]) => Decimal): Decimal =>
          places.reduce((sum, p) => sum.plus(p.weight.times(f(p))), new D(0)).div(total);
        const radius = mean(({ distance }) => distance);
        const by = mean((p) => p.by);
        return mean((p) => p.distance.minus(radius).times(p.by.minus(by)));
      };
      // The middle of a chord lies off the curve by less than a thousandth of the deviations looked at.
      const c = leastSquares.centreZ;
      expect(
        gradient(c - Math.abs(c) * 1e-3)
          .times(gradient(c + Math.abs(c) * 1e-3))
          .isNegative(),
      ).toBe(true);
    }
  });

  it('with a nose is that of what the nose leaves between the rays through the ends of its path', () => {
    const random = randomFrom(seeded(16));
    for (let i = 0; i < 12; i++) {
      const radius = 10 ** random(0, 2);
      const tiltDeg = random(25, 80);
      // Near the pole, where the surface ends in all: the default stretch.
      const half = ((tiltDeg + random(-2, 2)) * Math.PI) / 180;
      const [skew, noseRadius] = [radius * 10 ** random(-4, -2), radius * 10 ** random(-2, -0.5)];
      const sweep = {
        tiltDeg,
        sweepRadius: radius * Math.sin(half),
        distance: radius * Math.cos(half),
        skew: random(0, 1) < 0.5 ? skew : -skew,
        noseRadius,
      };
      const side = i % 2 === 0 ? 'ball' : 'socket';
      const { leastSquares, minimumZone } = sweepForm({ sweep, side });
      const { zMin, zMax, pipRadius, farPipRadius } = revolveCircle(sweep);
      const [last, first] = [Math.atan2(farPipRadius, zMin), Math.atan2(pipRadius, zMax)];
      const left = side === 'ball' ? radius - noseRadius : radius + noseRadius;
      const points = Array.from({ length: 600 }, (_, k) => {
        const z = left * Math.cos(first + ((last - first) * (k + 0.5)) / 600);
        return { z, radius: circleMeridian({ sweep, z, side }).radius };
      }).filter((p) => p.radius > 0 && Math.atan2(p.radius, p.z) > first && Math.atan2(p.radius, p.z) < last);
      const sampled = minimumZoneSphere({ points });
      expect(points.length).toBeGreaterThan(550);
      expect(sampled.formDeviation).toBeLessThan(minimumZone.formDeviation * (1 + 1e-6));
      // Samples stop short of the very ends, where the last thousandth of the way may hold some hundredths.
      expect(sampled.formDeviation).toBeGreaterThan(0.95 * minimumZone.formDeviation);
      expect(leastSquares.formDeviation).toBeGreaterThanOrEqual(minimumZone.formDeviation);
      // A nose does not spoil the form: the parallel curve strays as its path does.
      expect(minimumZone.formDeviation).toBeLessThan(1.05 * skew);
    }
  });

  it('on an arc is that of the branches that the arc reaches', () => {
    const sweep = { tiltDeg: 55, sweepRadius: 10, distance: 9, skew: 0.2 };
    const outer = sweepForm({ sweep, side: 'ball', arc: { fromDeg: 0, toDeg: 180 } });
    expect(outer.minimumZone.formDeviation).toBeCloseTo(
      sweepForm({ sweep, side: 'socket' }).minimumZone.formDeviation,
      12,
    );
    const { zMin, zMax } = revolveCircle(sweep);
    for (const arc of [
      { fromDeg: 0, toDeg: 270 },
      { fromDeg: -60, toDeg: 120 },
      { fromDeg: 200, toDeg: 330 },
    ]) {
      const { minimumZone, leastSquares } = sweepForm({ sweep, side: 'ball', arc });
      const points = Array.from({ length: 4000 }, (_, k) => zMin + ((zMax - zMin) * (k + 0.5)) / 4000).flatMap((z) => {
        try {
          return [{ z, radius: circleMeridian({ sweep, z, side: 'ball', arc }).radius }];
        } catch (error) {
          expect(error).toMatchObject({ code: 'impossible-geometry', parameter: 'arc' });
          return [];
        }
      });
      const sampled = minimumZoneSphere({ points }).formDeviation;
      expect(sampled).toBeLessThan(minimumZone.formDeviation * (1 + 1e-9));
      expect(sampled).toBeGreaterThan(0.99 * minimumZone.formDeviation);
      expect(leastSquares.formDeviation).toBeGreaterThanOrEqual(minimumZone.formDeviation);
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
    const random = randomFrom(seeded(14));
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
    const random = randomFrom(seeded(15));
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
