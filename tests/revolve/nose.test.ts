import { circleMeridian, circlePoint, revolveCircle } from 'generatrix';
import { describe, expect, it } from 'vitest';
import { runs, seeded } from '../oracle/seed.js';
import { leastAround, pointInSpace, randomFrom, randomSetup } from './brute-circle.js';

describe('what a round nose leaves', () => {
  it('touches the nose at its nearest turn, for random set-ups: brute force over the whole sweep', () => {
    const random = randomFrom(seeded(31));
    for (let i = 0; i < runs(100, 30); i++) {
      const sweep = randomSetup(random);
      const noseRadius = sweep.sweepRadius * 10 ** random(-1.5, 0.5);
      const { zMin, zMax } = revolveCircle(sweep);
      const z = zMin - noseRadius + (zMax - zMin + 2 * noseRadius) * random(0.02, 0.98);
      const reach = (t: number, side: 1 | -1): number => {
        const [x, y, pz] = pointInSpace(sweep, t);
        const below = noseRadius ** 2 - (z - pz) ** 2;
        return below < 0 ? Infinity : side * Math.hypot(x, y) - Math.sqrt(below);
      };
      const size = sweep.sweepRadius + Math.abs(sweep.distance) + Math.abs(sweep.skew);
      const ball = Math.max(
        0,
        leastAround((t) => reach(t, 1), 1500),
      );
      const socket = -leastAround((t) => reach(t, -1), 1500);
      // The brute force may step over a narrow stretch, so only a better place than the library's is certain.
      expect(circleMeridian({ sweep: { ...sweep, noseRadius }, z, side: 'ball' }).radius).toBeLessThan(
        ball + 1e-13 * size,
      );
      expect(circleMeridian({ sweep: { ...sweep, noseRadius }, z, side: 'socket' }).radius).toBeGreaterThan(
        socket - 1e-13 * size,
      );
      for (const side of ['ball', 'socket'] as const) {
        const { radius: rho, turnDeg } = circleMeridian({ sweep: { ...sweep, noseRadius }, z, side });
        const sign = side === 'ball' ? 1 : -1;
        const there = sign * reach((turnDeg * Math.PI) / 180, sign);
        expect(Math.abs(Math.max(0, there) - rho)).toBeLessThan(1e-7 * size);
      }
    }
  });

  it('is the parallel sphere where the axes meet, and beyond it the ring of the last place of the sweep', () => {
    const sweep = { tiltDeg: 50, sweepRadius: 6, distance: 8 };
    const { polarFromDeg, zMax, pipRadius } = revolveCircle(sweep);
    for (const z of [7, 5, 3, 1]) {
      expect(circleMeridian({ sweep: { ...sweep, noseRadius: 1.5 }, z, side: 'ball' }).radius).toBeCloseTo(
        Math.sqrt(8.5 ** 2 - z * z),
        12,
      );
      expect(circleMeridian({ sweep: { ...sweep, noseRadius: 1.5 }, z, side: 'socket' }).radius).toBeCloseTo(
        Math.sqrt(11.5 ** 2 - z * z),
        12,
      );
    }
    const touch = 8.5 * Math.cos((polarFromDeg * Math.PI) / 180);
    const beyond = (touch + zMax) / 2;
    const flank = pipRadius - Math.sqrt(1.5 ** 2 - (zMax - beyond) ** 2);
    expect(circleMeridian({ sweep: { ...sweep, noseRadius: 1.5 }, z: beyond, side: 'ball' }).radius).toBeCloseTo(
      Math.max(0, flank),
      12,
    );
  });

  it('on a part of the sweep follows that part only', () => {
    const sweep = { tiltDeg: 50, sweepRadius: 6, distance: 8, skew: 0.4 };
    const nose = { ...sweep, noseRadius: 0.5 };
    const { radius, z } = circlePoint({ sweep: nose, turnDeg: 90, side: 'ball' });
    const half = circleMeridian({ sweep: nose, z, side: 'ball', arc: { fromDeg: 0, toDeg: 180 } });
    expect(half.radius).toBeCloseTo(radius, 12);
    expect(half.turnDeg).toBeCloseTo(90, 5);
    expect(half.branch).toBe('outer');
    expect(circleMeridian({ sweep: nose, z, side: 'ball' }).radius).toBeLessThan(half.radius - 0.5);
    const small = { sweep: nose, z, side: 'ball', arc: { fromDeg: 0, toDeg: 5 } } as const;
    expect(() => circleMeridian(small)).toThrow('arc: ');
    expect(() => circleMeridian({ sweep: { ...nose, tiltDeg: 180 }, z, side: 'ball' })).toThrow('sweep.tiltDeg');
  });

  it('tends to the sharp tool as the nose vanishes', () => {
    const sweep = { tiltDeg: 70, sweepRadius: 6, distance: 5, skew: 0.4 };
    for (const side of ['ball', 'socket'] as const) {
      const sharp = circleMeridian({ sweep, z: 2, side }).radius;
      expect(
        Math.abs(circleMeridian({ sweep: { ...sweep, noseRadius: 1e-9 }, z: 2, side }).radius - sharp),
      ).toBeLessThan(3e-9);
    }
  });
});
