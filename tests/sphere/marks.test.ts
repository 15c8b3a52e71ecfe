import fc from 'fast-check';
import { type SphereTarget, type Sweep, sphereMarks, sphereMarksLimit } from 'generatrix/sphere';
import { describe, expect, it } from 'vitest';
import { ridgeHeight, ridgeSine } from '../../src/sphere/scallop.js';
import { refusal } from '../oracle/refusal.js';
import { runs, seeded } from '../oracle/seed.js';
import { golden, uniform } from './search.js';

const DEG = Math.PI / 180;
type Side = 'ball' | 'socket';

/**
 * How far from the centre a nose sphere, carried round one half of its circle, reaches on a ray: the
 * nose is intersected with the ray at each place of the sweep, and the place is searched. Knows
 * nothing of the angles that the library works with.
 */
function reach(side: Side, sweep: Sweep, azimuth: number, ray: readonly [number, number, number]): number {
  const [alpha, r, h, n] = [sweep.tiltDeg * DEG, sweep.sweepRadius, sweep.distance, sweep.noseRadius ?? 0];
  const [ca, sa] = [Math.cos(azimuth), Math.sin(azimuth)];
  const depth = (t: number): number => {
    const x = h * Math.sin(alpha) + r * Math.cos(t) * Math.cos(alpha);
    const y = r * Math.sin(t);
    const z = h * Math.cos(alpha) - r * Math.cos(t) * Math.sin(alpha);
    const along = ray[0] * (x * ca - y * sa) + ray[1] * (x * sa + y * ca) + ray[2] * z;
    const beside2 = x * x + y * y + z * z - along * along;
    if (beside2 > n * n) return -Infinity;
    return side === 'ball' ? Math.sqrt(n * n - beside2) - along : along + Math.sqrt(n * n - beside2);
  };
  let [best, most] = [0, depth(0)];
  for (let k = 1; k < 400; k++) {
    const found = depth((k * Math.PI) / 400);
    if (found > most) [best, most] = [k, found];
  }
  return golden(depth, ((best - 1) * Math.PI) / 400, ((best + 1) * Math.PI) / 400).value;
}

/** Height of the ridge between two passes on one parallel: the highest place that neither pass has cut. */
function ridgeOnParallel(side: Side, sweep: Sweep, radius: number, turn: number, polar: number): number {
  const [alpha, beta] = [sweep.tiltDeg * DEG, Math.atan2(sweep.sweepRadius, sweep.distance)];
  const eta = Math.acos((Math.cos(beta) - Math.cos(alpha) * Math.cos(polar)) / (Math.sin(alpha) * Math.sin(polar)));
  const left = (azimuth: number): number => {
    const ray = [Math.sin(polar) * Math.cos(azimuth), Math.sin(polar) * Math.sin(azimuth), Math.cos(polar)] as const;
    const cut = Math.max(reach(side, sweep, 0, ray), reach(side, sweep, turn, ray));
    return side === 'ball' ? -cut - radius : radius - cut;
  };
  return golden(left, eta, eta + turn).value;
}

const target: SphereTarget = { part: 'ball-on-stem', diameter: 50, stemDiameter: 20 };

describe('marks of a tilted sweep', () => {
  it('agree with noses intersected in space, place by place and at the highest', () => {
    const random = uniform(seeded(3));
    for (let trial = 0; trial < runs(24, 12); trial++) {
      const side: Side = trial % 2 === 0 ? 'ball' : 'socket';
      const radius = 1;
      const noseRadius = 0.05 + 0.3 * random();
      const centre = side === 'ball' ? radius + noseRadius : radius - noseRadius;
      const half = (20 + 40 * random()) * DEG;
      const tiltDeg = trial % 3 === 0 ? half / DEG : 20 + 40 * random();
      const sweep = { tiltDeg, sweepRadius: centre * Math.sin(half), distance: centre * Math.cos(half), noseRadius };
      const workPerSweepDeg = 1 + 4 * random();
      const { largest, along } = sphereMarks({ sweep, side, workPerSweepDeg });
      for (const { polarAngleDeg, height } of along.slice(3, 10)) {
        const brute = ridgeOnParallel(side, sweep, radius, workPerSweepDeg * DEG, polarAngleDeg * DEG);
        // 1e-9: a golden section finds a place to about 1e-8, and across a ridge the height falls off linearly.
        expect(Math.abs(brute - height)).toBeLessThan(1e-9);
      }
      const polar = largest.polarAngleDeg * DEG;
      const f = (p: number): number => ridgeOnParallel(side, sweep, radius, workPerSweepDeg * DEG, p);
      expect(f(polar)).toBeGreaterThan(f(polar + 0.02));
      expect(f(polar)).toBeGreaterThan(f(polar - 0.02));
    }
  });

  it('are exact on the great circle through two neighbouring axes, to 1e-12', () => {
    // Two nose circles in one plane: their crossing by Heron's formula, an independent way to the height.
    fc.assert(
      fc.property(
        fc.constantFrom<Side>('ball', 'socket'),
        fc.double({ min: 0.01, max: 0.9, noNaN: true }),
        fc.double({ min: 0.1, max: 0.95, noNaN: true }),
        (side, noseRadius, share) => {
          const nose = { side, radius: 1, noseRadius };
          const centre = side === 'ball' ? 1 + noseRadius : 1 - noseRadius;
          const sine = share * Math.min(1, noseRadius / centre);
          const chord = 2 * centre * sine;
          const apothem = centre * Math.sqrt(1 - sine * sine);
          const lens = Math.sqrt(noseRadius ** 2 - (chord / 2) ** 2);
          const brute = side === 'ball' ? apothem - lens - 1 : 1 - (apothem + lens);
          expect(Math.abs(ridgeHeight(nose, sine) - brute)).toBeLessThan(1e-14);
          expect(Math.abs(ridgeSine(nose, ridgeHeight(nose, sine)) / sine - 1)).toBeLessThan(1e-11);
        },
      ),
    );
  });

  it('tend to the flat rule, with the curvature terms (1 + n/R) for a ball and (1 - n/R) for a socket', () => {
    for (const side of ['ball', 'socket'] as const) {
      for (const noseRadius of [0.001, 0.1, 0.5]) {
        const sine = 1e-5;
        const flat = (2 * sine) ** 2 / (8 * noseRadius);
        const bend = side === 'ball' ? 1 + noseRadius : 1 - noseRadius;
        const ratio = ridgeHeight({ side, radius: 1, noseRadius }, sine) / flat;
        // The next term of the series is of the order (sin δ / n)².
        expect(Math.abs(ratio / bend - 1)).toBeLessThan((2 * sine * sine) / noseRadius ** 2 + 1e-9);
      }
    }
  });

  it('are R sin α |sin t| Δ apart for a small Δ, at most half-way, nothing at both ends', () => {
    const alpha = (180 - Math.asin(0.4) / DEG) / 2;
    const [sweepRadius, distance] = [30 * Math.sin(alpha * DEG), 30 * Math.cos(alpha * DEG)];
    const sweep = { tiltDeg: alpha, sweepRadius, distance, noseRadius: 5 };
    const { largest, along } = sphereMarks({ target, sweep, workPerSweepDeg: 1e-4 });
    expect(largest.spacing / (25 * Math.sin(alpha * DEG) * 1e-4 * DEG)).toBeCloseTo(1, 10);
    expect(along.map(({ spacing }) => spacing / largest.spacing)).toEqual(
      along.map(({ sweepAngleDeg }) => expect.closeTo(Math.sin(sweepAngleDeg * DEG), 10)),
    );
    expect(along.at(-1)?.polarAngleDeg).toBeCloseTo(0, 12);
    expect(along[0]?.polarAngleDeg).toBeCloseTo(2 * alpha, 3);
  });

  it('do not change but in scale when all lengths are scaled', () => {
    fc.assert(
      fc.property(fc.double({ min: 1e-6, max: 1e6, noNaN: true }), (scale) => {
        const one = sphereMarks({ target, noseRadius: 0.8, workPerSweepDeg: 2 });
        const other = sphereMarks({
          target: { part: 'ball-on-stem', diameter: 50 * scale, stemDiameter: 20 * scale },
          noseRadius: 0.8 * scale,
          workPerSweepDeg: 2,
        });
        expect(other.largest.height / scale / one.largest.height).toBeCloseTo(1, 12);
        expect(other.largest.polarAngleDeg).toBeCloseTo(one.largest.polarAngleDeg, 10);
      }),
    );
  });
});

describe('limit of the angle per sweep', () => {
  it('is the inverse of the marks', () => {
    fc.assert(
      fc.property(fc.double({ min: 1e-7, max: 1e-2, noNaN: true }), (height) => {
        const { workPerSweepDeg, marks, notes } = sphereMarksLimit({ target, noseRadius: 0.8, height });
        expect(notes).toEqual([]);
        expect(marks.largest.height / height).toBeCloseTo(1, 11);
        const forward = sphereMarks({ target, noseRadius: 0.8, workPerSweepDeg });
        expect(forward.largest.height / height).toBeCloseTo(1, 11);
      }),
    );
  });

  it('says when the width of the nose is the limit', () => {
    const found = sphereMarksLimit({ target, noseRadius: 0.1, height: 5 });
    expect(found.notes.map(({ code }) => code)).toEqual(['passes-barely-meet']);
    expect(found.marks.largest.height).toBeLessThan(0.11);
    expect(sphereMarks({ target, noseRadius: 0.1, workPerSweepDeg: found.workPerSweepDeg }).largest.height).toBeCloseTo(
      found.marks.largest.height,
      9,
    );
  });

  it('allows half a turn where the nose fills the socket nearly', () => {
    const socket: SphereTarget = { part: 'socket', radius: 10, depth: 5 };
    const found = sphereMarksLimit({ target: socket, noseRadius: 9.9, height: 1 });
    expect(found.workPerSweepDeg).toBe(180);
  });
});

describe('refusals', () => {
  const sweep: Sweep = { tiltDeg: 40, sweepRadius: 8, distance: 6, noseRadius: 1 };
  it.each<[string, unknown]>([
    ['missing-option target', { workPerSweepDeg: 1 }],
    ['contradiction side', { workPerSweepDeg: 1, target, sweep, side: 'ball' }],
    ['contradiction side', { workPerSweepDeg: 1, target, side: 'ball' }],
    ['contradiction noseRadius', { workPerSweepDeg: 1, sweep, side: 'ball', noseRadius: 1 }],
    ['out-of-range noseRadius', { workPerSweepDeg: 1, target }],
    ['out-of-range noseRadius', { workPerSweepDeg: 1, target: { part: 'socket', radius: 5, depth: 2 }, noseRadius: 5 }],
    ['out-of-range sweep.skew', { workPerSweepDeg: 1, sweep: { ...sweep, skew: 0.1 }, side: 'ball' }],
    ['impossible-geometry sweep.noseRadius', { workPerSweepDeg: 1, sweep: { ...sweep, noseRadius: 10 }, side: 'ball' }],
    ['impossible-geometry workPerSweepDeg', { workPerSweepDeg: 20, target, noseRadius: 0.5 }],
    ['out-of-range workPerSweepDeg', { workPerSweepDeg: 0, target, noseRadius: 0.5 }],
    ['unknown-option speed', { workPerSweepDeg: 1, target, noseRadius: 0.5, speed: 1 }],
  ])('%s', (wanted, given) => {
    expect(refusal(() => sphereMarks(given as Parameters<typeof sphereMarks>[0]))).toBe(wanted);
  });
});
