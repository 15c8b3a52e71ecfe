import { leastSquaresSphere, type MeridianPoint, minimumZoneSphere } from 'generatrix';
import { describe, expect, it } from 'vitest';
import { runs, seeded } from '../oracle/seed.js';
import { randomFrom } from './brute-circle.js';

type Random = ReturnType<typeof randomFrom>;

/** Least value of f on a stretch, by 1000 samples and a ternary search about each of the ten lowest. */
function scan(f: (x: number) => number, from: number, to: number): number {
  const step = (to - from) / 1000;
  const samples = Array.from({ length: 1001 }, (_, i) => ({ x: from + i * step, y: f(from + i * step) }));
  const lowest = samples.sort((a, b) => a.y - b.y).slice(0, 10);
  return Math.min(
    ...lowest.map(({ x }) => {
      let [low, high] = [x - step, x + step];
      for (let i = 0; i < 120; i++) {
        const [a, b] = [low + (high - low) / 3, high - (high - low) / 3];
        if (f(a) < f(b)) high = b;
        else low = a;
      }
      return f((low + high) / 2);
    }),
  );
}

const width = (values: number[]): number => Math.max(...values) - Math.min(...values);

/** Points near a sphere: any part of it, form errors from one part in a million to a tenth. */
function nearSphere(random: Random): { points: MeridianPoint[]; radius: number; noise: number } {
  const radius = 10 ** random(-1, 2);
  const noise = radius * 10 ** random(-6, -1);
  const [from, to] = [random(0.05, 1), random(1.6, 3.1)];
  const centre = radius * random(-5, 5);
  const points = Array.from({ length: Math.floor(random(3, 60)) }, () => {
    const polar = random(from, to);
    const at = radius + random(-noise, noise);
    return { z: centre + at * Math.cos(polar), radius: at * Math.sin(polar) };
  });
  return { points, radius, noise };
}

describe('minimum-zone sphere', () => {
  it('is certified by three alternating points, and a scan of all centres finds no smaller zone', () => {
    const random = randomFrom(seeded(1));
    let cases = 0;
    for (let i = 0; i < runs(100, 40); i++) {
      const { points, radius } = nearSphere(random);
      const extent = width(points.map(({ z }) => z));
      const zone = (c: number): number => width(points.map((p) => Math.hypot(p.z - c, p.radius)));
      const fit = minimumZoneSphere({ points });
      const { alternation } = fit;
      const size = radius + Math.abs(fit.centreZ) + fit.radius;
      expect(fit.formDeviation).toBeLessThanOrEqual(extent);
      // The zone is what its own centre gives, and each touching point stands at half of it, sign by sign.
      expect(Math.abs(zone(fit.centreZ) - fit.formDeviation)).toBeLessThan(1e-13 * size);
      const sign = Math.sign(alternation[0].deviation);
      alternation.forEach(({ index, z, radius: rho, deviation }, k) => {
        expect(points[index]).toEqual({ z, radius: rho });
        expect(Math.abs(Math.hypot(z - fit.centreZ, rho) - fit.radius - deviation)).toBeLessThan(1e-13 * size);
        expect(Math.abs(deviation - ((k % 2 ? -sign : sign) * fit.formDeviation) / 2)).toBeLessThan(1e-13 * size);
      });
      const polar = alternation.map((p) => Math.atan2(p.radius, p.z - fit.centreZ));
      expect(polar).toEqual([...polar].sort((a, b) => a - b));
      // A scan near the result and one far out; it may only come as near as its own search does.
      for (const reach of [2 * radius, 100 * radius]) {
        const found = scan(zone, fit.centreZ - reach, fit.centreZ + reach);
        expect(found).toBeGreaterThan(fit.formDeviation - 1e-13 * size);
        if (reach === 2 * radius) expect(found).toBeLessThan(fit.formDeviation + 1e-7 * radius);
      }
      cases++;
    }
    expect(cases).toBe(runs(100, 40));
  });

  it('refuses points that a plane fits better than any sphere', () => {
    const points = [0, 1, 2, 3].map((radius) => ({ z: radius % 2 ? 1e-3 : 0, radius }));
    expect(() => minimumZoneSphere({ points })).toThrow(/plane/);
    expect(() => minimumZoneSphere({ points: points.map(({ radius }) => ({ z: 1, radius })) })).toThrow(
      /along the axis/,
    );
    expect(() => leastSquaresSphere({ points: points.slice(2) })).toThrow(/at least 3/);
    expect(() => leastSquaresSphere({ points: new Float64Array(7) })).toThrow(/at least 3/);
    expect(() => leastSquaresSphere({ points: [...points, { z: 1, radius: -1 }] })).toThrow('points[4].radius');
  });
});

describe('least-squares sphere', () => {
  it('has a smaller sum of squares than any other centre that a scan finds', () => {
    const random = randomFrom(seeded(2));
    for (let i = 0; i < runs(100, 40); i++) {
      const { points, radius } = nearSphere(random);
      const error = (c: number): number => {
        const distances = points.map((p) => Math.hypot(p.z - c, p.radius));
        const mean = distances.reduce((a, b) => a + b) / distances.length;
        return Math.sqrt(distances.reduce((sum, d) => sum + (d - mean) ** 2, 0) / distances.length);
      };
      const fit = leastSquaresSphere({ points });
      const size = radius + Math.abs(fit.centreZ) + fit.radius;
      expect(Math.abs(error(fit.centreZ) - fit.rootMeanSquare)).toBeLessThan(1e-13 * size);
      const found = scan(error, fit.centreZ - 2 * radius, fit.centreZ + 2 * radius);
      expect(found).toBeGreaterThan(fit.rootMeanSquare - 1e-13 * size);
      const flat = new Float64Array(points.flatMap((p) => [p.z, p.radius]));
      expect(leastSquaresSphere({ points: flat })).toEqual(fit);
    }
  });

  it('recovers a sphere without noise', () => {
    const polar = [0.3, 0.9, 1.4, 2.2, 2.9];
    const points = polar.map((phi) => ({ z: 1000 + 25 * Math.cos(phi), radius: 25 * Math.sin(phi) }));
    const fit = leastSquaresSphere({ points });
    expect(fit.centreZ).toBeCloseTo(1000, 12);
    expect(fit.radius).toBeCloseTo(25, 12);
    expect(minimumZoneSphere({ points }).radius).toBeCloseTo(25, 12);
  });
});
