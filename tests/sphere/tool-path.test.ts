import fc from 'fast-check';
import {
  type MeridianPoint,
  minimumZoneSphere,
  revolveLine,
  type Sweep,
  sphereShape,
  toolPathPoints,
} from 'generatrix';
import { describe, expect, it } from 'vitest';
import { refusal } from '../oracle/refusal.js';
import { runs } from '../oracle/seed.js';
import { revolved, sweepPoints } from './space.js';

const ball = { part: 'ball-on-stem', radius: 20, stemDiameter: 20 } as const;
const socket = { part: 'socket', radius: 20, depth: 8 } as const;

/** Farthest that any of the places lies from a polyline, by all its chords. */
function farthest(places: readonly (readonly [rho: number, z: number])[], points: readonly MeridianPoint[]): number {
  let most = 0;
  for (const [rho, z] of places) {
    let least = Infinity;
    for (let i = 1; i < points.length; i++) {
      const [a, b] = [points[i - 1], points[i]] as [MeridianPoint, MeridianPoint];
      const [dz, dr] = [b.z - a.z, b.radius - a.radius];
      const share = ((z - a.z) * dz + (rho - a.radius) * dr) / (dz * dz + dr * dr || 1);
      const along = Math.min(1, Math.max(0, share));
      least = Math.min(least, Math.hypot(z - a.z - along * dz, rho - a.radius - along * dr));
    }
    most = Math.max(most, least);
  }
  return most;
}

const unit = fc.double({ min: -1, max: 1, noNaN: true });
const misset = fc.record({ tilt: unit, r: unit, h: unit, e: unit, x: unit }).map(
  ({ tilt, r, h, e, x }): Required<Omit<Sweep, 'noseRadius'>> => ({
    tiltDeg: 60 + 20 * tilt,
    sweepRadius: 18 + 2 * r,
    distance: 8 + 3 * h,
    skew: 0.5 * e,
    miss: 0.5 * x,
  }),
);

describe('points for the tool path of a sphere', () => {
  it('keep every chord within the tolerance of the way of a mis-set tip in space', () => {
    fc.assert(
      fc.property(misset, fc.constantFrom(0.3, 0.03, 0.003), (sweep, chordalTolerance) => {
        const points = toolPathPoints({ target: ball, sweep, chordalTolerance });
        // A ball keeps the half of the sweep that lies nearer to the axis; a miss moves the place of the foot.
        const foot = -sweep.miss / Math.tan((sweep.tiltDeg * Math.PI) / 180);
        const kept = sweepPoints(sweep, 6000)
          .filter((_, i) => (sweep.skew > 0 ? i >= 3000 : i <= 3000) || i === 0)
          .map(([x, y, z]) => [Math.hypot(x, y), z - foot] as const);
        expect(farthest(kept, points)).toBeLessThanOrEqual(chordalTolerance);
        const [first, last] = [points[0], points.at(-1)] as [MeridianPoint, MeridianPoint];
        expect(first.z).toBeCloseTo(Math.max(...kept.map(([, z]) => z)), 9);
        expect(last.z).toBeCloseTo(Math.min(...kept.map(([, z]) => z)), 9);
        // Points every arc of 2 sqrt(2 R tolerance) would do on a circle; a skew's turn at the pole takes some more.
        const arc = 2 * Math.sqrt(2 * 20 * chordalTolerance);
        expect(points.length).toBeLessThan((1.06 * Math.PI * 20) / arc + 30);
      }),
      { numRuns: runs(25, 10) },
    );
  });

  it('are as few on a true sphere as its sagitta asks for', () => {
    for (const chordalTolerance of [0.1, 1e-3, 1e-5]) {
      const points = toolPathPoints({ target: ball, noseRadius: 0.8, chordalTolerance });
      for (const { z, radius } of points) expect(Math.hypot(z, radius)).toBeCloseTo(20.8, 12);
      const swept = Math.PI - Math.asin(10.8 / 20.8);
      const least = Math.ceil(swept / (2 * Math.acos(1 - chordalTolerance / 20.8)));
      expect(points.length - 1).toBeGreaterThanOrEqual(least);
      expect(points.length - 1).toBeLessThanOrEqual(Math.ceil(least * 1.02) + 1);
      // Beside the stem the nose stops where it touches it.
      expect((points.at(-1)?.radius ?? 0) - 0.8).toBeCloseTo(10, 12);
      expect(points[0]?.radius).toBeCloseTo(0, 12);
    }
  });

  it('give with a nose the envelope of its path in space, on either side', () => {
    for (const [target, sign] of [
      [ball, 1],
      [socket, -1],
    ] as const) {
      const { radius } = sphereShape(target);
      const half = (sign > 0 ? 70 : 26) * (Math.PI / 180);
      const path = radius + sign * 1.5;
      const sweep = {
        tiltDeg: (half * 180) / Math.PI + 0.4,
        sweepRadius: path * Math.sin(half),
        distance: path * Math.cos(half),
        skew: 0.2,
        noseRadius: 1.5,
      };
      const surface = toolPathPoints({ target, sweep, chordalTolerance: 1e-3, pointsOf: 'surface' });
      // Half a step of 50,000 about 20 leaves a chord of 1.5 by less than 6e-7.
      const centres = revolved(sweepPoints(sweep, runs(200_000, 50_000)));
      for (const { z, radius: rho } of surface.filter((_, i) => i % 7 === 0)) {
        // No place of the nose's centre comes nearer to the surface than the nose's radius, and one comes as near.
        let nearest = Infinity;
        for (const [r, zc] of centres) nearest = Math.min(nearest, Math.hypot(r - rho, zc - z));
        expect(Math.abs(nearest - 1.5)).toBeLessThan(1e-6);
      }
      const nose = toolPathPoints({ target, sweep, chordalTolerance: 1e-3 });
      expect(
        farthest(
          nose.map((p) => [p.radius, p.z] as const),
          centres.filter((_, i) => i % (centres.length / 2000) === 0).map(([r, z]) => ({ z, radius: r })),
        ),
      ).toBeLessThan(1e-3);
      // The surface under the chords of the nose's way is as near to the true one as they are.
      const under = surface.map((p) => [p.radius, p.z] as const);
      for (const [rho, z] of under.slice(3, -3).filter((_, i) => i % 11 === 0)) {
        expect(Math.abs(farthest([[rho, z]], nose) - 1.5)).toBeLessThan(2e-3);
      }
    }
  });

  it('end where the part ends: at a flat, at an opening', () => {
    const end = { part: 'ball-end', radius: 20, stemDiameter: 20, flatDiameter: 16 } as const;
    const shape = sphereShape(end);
    const wide = {
      tiltDeg: 74,
      sweepRadius: 20 * Math.sin((76 * Math.PI) / 180),
      distance: 20 * Math.cos((76 * Math.PI) / 180),
    };
    const onBall = toolPathPoints({ target: end, sweep: wide, chordalTolerance: 0.01 });
    expect(onBall[0]?.z).toBeCloseTo(shape.fromHeight, 12);
    const bowl = toolPathPoints({ target: socket, chordalTolerance: 0.01, noseRadius: 1 });
    expect(bowl[0]).toEqual({ z: expect.closeTo(19, 12), radius: expect.closeTo(0, 12) });
    const deep = {
      tiltDeg: 35,
      sweepRadius: 20 * Math.sin((35 * Math.PI) / 180),
      distance: 20 * Math.cos((35 * Math.PI) / 180),
    };
    const open = toolPathPoints({ target: socket, sweep: deep, chordalTolerance: 0.01 });
    expect(open.at(-1)?.z).toBeCloseTo(sphereShape(socket).toHeight, 12);
    expect(open.at(-1)?.radius).toBeCloseTo(sphereShape(socket).toDiameter / 2, 12);
  });

  it('can be fitted: the form of a mis-set part comes back', () => {
    const sweep = { tiltDeg: 75, sweepRadius: 19.3, distance: 5.2, skew: 0.3 };
    const points = toolPathPoints({ target: ball, sweep, chordalTolerance: 1e-4, pointsOf: 'surface' });
    const width = (2 * 19.3 * 0.3) / (Math.hypot(5.2, 19.3, 0.3) + Math.hypot(5.2, 19));
    expect(Math.abs(minimumZoneSphere({ points }).formDeviation - width)).toBeLessThan(1e-4);
  });
});

describe('points for the tool path of a taper', () => {
  const cone = revolveLine({ point: [5, 0, 0], direction: [1, 0, 4] });
  const hyperboloid = revolveLine({ point: [0, 3, 5], direction: [1, 0, 1] });

  it('are the ends of a cone, a nose moved square to its side', () => {
    const ends = { surface: cone, fromZ: 0, toZ: 8, chordalTolerance: 1e-6 };
    expect(toolPathPoints(ends)).toEqual([
      { z: 0, radius: 5 },
      { z: 8, radius: 7 },
    ]);
    // Square to a side that rises 1 in 4: (-1, 4) / sqrt(17).
    const [z, radius] = [0.4 / Math.sqrt(17), 1.6 / Math.sqrt(17)];
    const outside = toolPathPoints({ ...ends, noseRadius: 0.4 });
    expect(outside.map((p) => [p.z, p.radius])).toEqual([
      [expect.closeTo(-z, 14), expect.closeTo(5 + radius, 14)],
      [expect.closeTo(8 - z, 14), expect.closeTo(7 + radius, 14)],
    ]);
    const bore = toolPathPoints({ ...ends, noseRadius: 0.4, cuts: 'bore' });
    expect(bore[1]?.radius).toBeCloseTo(7 - radius, 14);
    expect(toolPathPoints({ ...ends, noseRadius: 0.4, pointsOf: 'surface' })).toEqual(toolPathPoints(ends));
    const backwards = toolPathPoints({ ...ends, fromZ: 8, toZ: 0 });
    expect(backwards.map((p) => p.z)).toEqual([8, 0]);
  });

  it('follow a hyperboloid within the tolerance, and its nose a nose radius off', () => {
    const ends = { surface: hyperboloid, fromZ: 0, toZ: 8, chordalTolerance: 1e-3 };
    const dense = Array.from(
      { length: 20_001 },
      (_, i) => [Math.hypot(3, (8 * i) / 20_000 - 5), (8 * i) / 20_000] as const,
    );
    const points = toolPathPoints(ends);
    expect(farthest(dense, points)).toBeLessThanOrEqual(1e-3);
    expect(farthest(dense, points)).toBeGreaterThan(0.96e-3);
    for (const { z, radius } of toolPathPoints({ ...ends, noseRadius: 0.5 })) {
      const nearest = Math.min(...dense.map(([r, at]) => Math.hypot(r - radius, at - z)));
      expect(Math.abs(nearest - 0.5)).toBeLessThan(1e-7);
    }
  });

  const ends = { surface: cone, fromZ: 0, toZ: 8, chordalTolerance: 1e-3 };
  const face = { kind: 'face', z: 0, innerRadius: 1 } as const;
  it.each<[string, unknown]>([
    ['missing-option target', { chordalTolerance: 1 }],
    ['missing-option chordalTolerance', { target: ball }],
    ['out-of-range chordalTolerance', { target: ball, chordalTolerance: 0 }],
    ['out-of-range chordalTolerance', { target: ball, chordalTolerance: 1e-12 }],
    ['out-of-range chordalTolerance', { target: ball, chordalTolerance: 1e-9 }],
    [
      'contradiction noseRadius',
      { target: ball, sweep: { tiltDeg: 60, sweepRadius: 9, distance: 9 }, noseRadius: 1, chordalTolerance: 1 },
    ],
    ['out-of-range noseRadius', { target: socket, noseRadius: 20, chordalTolerance: 1 }],
    [
      'out-of-range sweep.tiltDeg',
      { target: ball, sweep: { tiltDeg: 0, sweepRadius: 9, distance: 9 }, chordalTolerance: 1 },
    ],
    [
      'unknown-option sweep.radius',
      { target: ball, sweep: { tiltDeg: 9, sweepRadius: 9, distance: 9, radius: 1 }, chordalTolerance: 1 },
    ],
    ['impossible-geometry surface.kind', { ...ends, surface: face }],
    ['out-of-range toZ', { ...ends, toZ: 0 }],
    ['impossible-geometry toZ', { ...ends, toZ: -40 }],
    ['impossible-geometry noseRadius', { ...ends, cuts: 'bore', noseRadius: 6 }],
    ['out-of-range cuts', { ...ends, cuts: 'inside' }],
    ['out-of-range pointsOf', { ...ends, pointsOf: 'tip' }],
  ])('refuses %s', (wanted, given) => {
    expect(refusal(() => toolPathPoints(given as never))).toBe(wanted);
  });
});
