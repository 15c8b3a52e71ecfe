import { circleMeridian, circlePoint, noseCut, revolveCircle } from 'generatrix';
import { describe, expect, it } from 'vitest';
import { leastAround, pointInSpace, randomFrom, randomSetup } from './brute-circle.js';

describe('what a round nose leaves', () => {
  it('touches the nose at its nearest turn, for 100 random set-ups: brute force over the whole sweep', () => {
    const random = randomFrom(31);
    for (let i = 0; i < 100; i++) {
      const sweep = randomSetup(random);
      const noseRadius = sweep.radius * 10 ** random(-1.5, 0.5);
      const { zMin, zMax } = revolveCircle(sweep);
      const z = zMin - noseRadius + (zMax - zMin + 2 * noseRadius) * random(0.02, 0.98);
      const reach = (t: number, side: 1 | -1): number => {
        const [x, y, pz] = pointInSpace(sweep, t);
        const below = noseRadius ** 2 - (z - pz) ** 2;
        return below < 0 ? Infinity : side * Math.hypot(x, y) - Math.sqrt(below);
      };
      const size = sweep.radius + Math.abs(sweep.distance) + Math.abs(sweep.skew);
      const ball = Math.max(
        0,
        leastAround((t) => reach(t, 1), 1500),
      );
      const socket = -leastAround((t) => reach(t, -1), 1500);
      // The brute force may step over a narrow stretch, so only a better place than the library's is certain.
      expect(noseCut({ sweep, noseRadius, z, part: 'ball' }).rho).toBeLessThan(ball + 1e-13 * size);
      expect(noseCut({ sweep, noseRadius, z, part: 'socket' }).rho).toBeGreaterThan(socket - 1e-13 * size);
      for (const part of ['ball', 'socket'] as const) {
        const { rho, turnDeg } = noseCut({ sweep, noseRadius, z, part });
        const side = part === 'ball' ? 1 : -1;
        const there = side * reach((turnDeg * Math.PI) / 180, side);
        expect(Math.abs(Math.max(0, there) - rho)).toBeLessThan(1e-7 * size);
      }
    }
  });

  it('is the parallel sphere where the axes meet, and beyond it the ring of the last place of the sweep', () => {
    const sweep = { tiltDeg: 50, radius: 6, distance: 8 };
    const { polarFromDeg, zMax, pipRadius } = revolveCircle(sweep);
    for (const z of [7, 5, 3, 1]) {
      expect(noseCut({ sweep, noseRadius: 1.5, z, part: 'ball' }).rho).toBeCloseTo(Math.sqrt(8.5 ** 2 - z * z), 12);
      expect(noseCut({ sweep, noseRadius: 1.5, z, part: 'socket' }).rho).toBeCloseTo(Math.sqrt(11.5 ** 2 - z * z), 12);
    }
    const touch = 8.5 * Math.cos((polarFromDeg * Math.PI) / 180);
    const beyond = (touch + zMax) / 2;
    const flank = pipRadius - Math.sqrt(1.5 ** 2 - (zMax - beyond) ** 2);
    expect(noseCut({ sweep, noseRadius: 1.5, z: beyond, part: 'ball' }).rho).toBeCloseTo(Math.max(0, flank), 12);
  });

  it('on a part of the sweep follows that part only', () => {
    const sweep = { tiltDeg: 50, radius: 6, distance: 8, skew: 0.4 };
    const { rho } = circlePoint({ sweep, turnDeg: 90, part: 'ball', noseRadius: 0.5 });
    const { z } = circlePoint({ sweep, turnDeg: 90, part: 'ball', noseRadius: 0.5 });
    const half = noseCut({ sweep, noseRadius: 0.5, z, part: 'ball', arc: { fromDeg: 0, toDeg: 180 } });
    expect(half.rho).toBeCloseTo(rho, 12);
    expect(half.turnDeg).toBeCloseTo(90, 5);
    expect(noseCut({ sweep, noseRadius: 0.5, z, part: 'ball' }).rho).toBeLessThan(half.rho - 0.5);
    const small = { sweep, noseRadius: 0.5, z, part: 'ball', arc: { fromDeg: 0, toDeg: 5 } } as const;
    expect(() => noseCut(small)).toThrow('query.arc');
    expect(() => noseCut({ sweep: { ...sweep, tiltDeg: 180 }, noseRadius: 1, z, part: 'ball' })).toThrow(/parallel/);
  });

  it('tends to the sharp tool as the nose vanishes', () => {
    const sweep = { tiltDeg: 70, radius: 6, distance: 5, skew: 0.4 };
    for (const part of ['ball', 'socket'] as const) {
      const sharp = circleMeridian({ sweep, z: 2, part }).rho;
      expect(Math.abs(noseCut({ sweep, noseRadius: 1e-9, z: 2, part }).rho - sharp)).toBeLessThan(3e-9);
    }
  });
});
