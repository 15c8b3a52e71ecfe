import { revolveLine, type Spacing, sampleCircle, sampleLine } from 'generatrix';
import { describe, expect, it } from 'vitest';
import { pointInSpace } from './brute-circle.js';

const into = new Float64Array(20_000);
const points = (count: number): { z: number; rho: number }[] =>
  Array.from({ length: count }, (_, i) => ({ z: into[2 * i] as number, rho: into[2 * i + 1] as number }));

const sphere = { tiltDeg: 60, radius: 6, distance: 8 };
const skew = { tiltDeg: 40, radius: 10, distance: 12, skew: 0.5 };
const stretch = { part: 'ball', fromZ: 3, toZ: 15 } as const;

/** The inner branch of `skew` between the same heights, from space, densely. */
const dense = Array.from({ length: 400_001 }, (_, i) => pointInSpace(skew, Math.PI + (Math.PI * i) / 400_000))
  .filter(([, , z]) => z >= 3 && z <= 15)
  .map(([x, y, z]) => ({ z, rho: Math.hypot(x, y) }));

describe('equal steps', () => {
  it('on a sphere are equal angles about its centre', () => {
    const count = sampleCircle({ sweep: sphere, part: 'socket', noseRadius: 2, spacing: { step: 0.5 } }, into);
    const polar = points(count).map(({ z, rho }) => Math.atan2(rho, z));
    const angle = Math.abs((polar.at(-1) as number) - (polar[0] as number));
    expect(count).toBe(1 + Math.ceil((angle * 12) / 0.5));
    for (let i = 1; i < count; i++) {
      const step = Math.abs((polar[i] as number) - (polar[i - 1] as number));
      // Richardson's rule on a thousandth of the sweep is good to (1/1000)^4.
      expect(step / (angle / (count - 1))).toBeCloseTo(1, 8);
    }
    for (const { z, rho } of points(count)) expect(Math.hypot(z, rho)).toBeCloseTo(12, 12);
  });

  it('on a skew sweep divide the length measured along points in space', () => {
    const count = sampleCircle({ sweep: skew, ...stretch, spacing: { step: 0.25 } }, into);
    let length = 0;
    for (let i = 1; i < dense.length; i++) {
      const [a, b] = [dense[i - 1], dense[i]] as { z: number; rho: number }[];
      if (a && b) length += Math.hypot(a.z - b.z, a.rho - b.rho);
    }
    expect(count).toBe(1 + Math.ceil(length / 0.25));
    // Each chord of a quarter on a radius of 15 is shorter than its arc by one part in 10,000.
    const list = points(count);
    for (let i = 1; i < count; i++) {
      const [a, b] = [list[i - 1], list[i]] as { z: number; rho: number }[];
      const chord = a && b ? Math.hypot(a.z - b.z, a.rho - b.rho) : 0;
      expect(Math.abs(chord / (length / (count - 1)) - 1)).toBeLessThan(2e-4);
    }
    const ends = [list[0]?.z, list.at(-1)?.z].map((z) => Math.round((z as number) * 1e9) / 1e9);
    expect(ends).toEqual([15, 3]);
  });
});

describe('a chordal tolerance', () => {
  it.each([1, 1e-2, 1e-4])('of %d is kept everywhere, with no more than a few points to spare', (chordalTolerance) => {
    const count = sampleCircle({ sweep: skew, ...stretch, spacing: { chordalTolerance } }, into);
    const list = points(count);
    let farthest = 0;
    let k = 1;
    for (const p of dense) {
      while (k < count - 1 && p.z < (list[k]?.z as number)) k++;
      const [a, b] = [list[k - 1], list[k]] as [{ z: number; rho: number }, { z: number; rho: number }];
      const chord = Math.hypot(b.z - a.z, b.rho - a.rho);
      farthest = Math.max(farthest, Math.abs((b.z - a.z) * (p.rho - a.rho) - (b.rho - a.rho) * (p.z - a.z)) / chord);
    }
    expect(farthest).toBeLessThanOrEqual(chordalTolerance);
    if (chordalTolerance < 0.5) expect(farthest).toBeGreaterThan(0.97 * chordalTolerance);
  });

  it('needs on a sphere the points that its sagitta asks for', () => {
    const count = sampleCircle({ sweep: sphere, part: 'ball', spacing: { chordalTolerance: 1e-3 } }, into);
    // A chord under the angle 2 a stands off R (1 - cos a); the sweep covers twice asin(6/10).
    const angle = 2 * Math.acos(1 - 1e-3 / 10);
    const least = 1 + Math.ceil((2 * Math.asin(0.6)) / angle);
    expect(count).toBeGreaterThanOrEqual(least);
    expect(count).toBeLessThanOrEqual(Math.ceil(least * 1.02));
  });
});

describe('a line', () => {
  const cone = revolveLine({ point: [5, 0, 0], direction: [1, 0, 4] });
  const hyperboloid = revolveLine({ point: [0, 3, 5], direction: [1, 0, 1] });
  const line = (surface: typeof cone, spacing: Spacing) => sampleLine({ surface, fromZ: 0, toZ: 8, spacing }, into);

  it('on a cone needs as few points as the longest stretch allows, and equal steps are equal heights', () => {
    expect(line(cone, { chordalTolerance: 1e-6 })).toBe(5);
    const count = line(cone, { step: 1 });
    // The side is 8 / cos(14.04°) = 8.246 long.
    expect(count).toBe(10);
    points(count).forEach(({ z, rho }, i) => {
      expect(z).toBeCloseTo((8 * i) / 9, 12);
      expect(rho).toBeCloseTo(5 + z / 4, 12);
    });
  });

  it('on a hyperboloid lies on it', () => {
    const count = line(hyperboloid, { chordalTolerance: 1e-3 });
    expect(count).toBeGreaterThan(20);
    for (const { z, rho } of points(count)) expect(rho).toBeCloseTo(Math.sqrt(9 + (z - 5) ** 2), 12);
  });

  it('and bad requests are refused', () => {
    const face = revolveLine({ point: [1, 0, 0], direction: [1, 0, 0] });
    expect(() => line(face, { step: 1 })).toThrow(/face/);
    expect(() => line(cone, { step: 1, chordalTolerance: 1 } as never)).toThrow(/either/);
    expect(() => line(cone, {} as never)).toThrow(/either/);
    expect(() => line(cone, { step: 1e-9 })).toThrow(/at least \d{11} numbers/);
    expect(() => line(cone, { step: 0 })).toThrow('spacing.step');
    const short = new Float64Array(4);
    const request = { surface: cone, fromZ: 0, toZ: 8, spacing: { step: 1 } };
    expect(() => sampleLine(request, short)).toThrow('at least 20 numbers');
    expect(() => sampleLine({ ...request, spacing: { chordalTolerance: 1 } }, short)).toThrow('more numbers');
    expect(() => sampleLine(request, [] as never)).toThrow('Float64Array');
    expect(() => sampleLine({ ...request, toZ: 0 }, into)).toThrow('sampling.toZ');
  });
});
