import fc from 'fast-check';
import { type BallInSocketOptions, ballInSocket, type Sweep } from 'generatrix/sphere';
import { describe, expect, it } from 'vitest';
import { refusal } from '../oracle/refusal.js';
import { seeded } from '../oracle/seed.js';
import { uniform } from './search.js';

const DEG = Math.PI / 180;

/** The ball's centre found by lowering it onto the nose spheres of the whole sweep, densely sampled in space. */
function bruteCentre(
  sweep: Required<Pick<Sweep, 'tiltDeg' | 'sweepRadius' | 'distance' | 'skew' | 'noseRadius'>>,
  ball: number,
): number {
  const alpha = sweep.tiltDeg * DEG;
  const touch = ball - sweep.noseRadius;
  let best = Number.POSITIVE_INFINITY;
  const count = 200_000;
  for (let k = 0; k < count; k++) {
    const t = (2 * Math.PI * k) / count;
    const x = sweep.distance * Math.sin(alpha) + sweep.sweepRadius * Math.cos(t) * Math.cos(alpha);
    const y = sweep.skew + sweep.sweepRadius * Math.sin(t);
    const z = sweep.distance * Math.cos(alpha) - sweep.sweepRadius * Math.cos(t) * Math.sin(alpha);
    if (Math.sin(t) * sweep.skew < 0) continue; // the half that the other one cuts away
    if (Math.hypot(x, y) <= touch) best = Math.min(best, z - Math.sqrt(touch * touch - x * x - y * y));
  }
  return best;
}

describe('a ball in a socket', () => {
  it('rests where it stops on the surface of a sweep in space, skew and nose included', () => {
    const random = uniform(seeded(8));
    for (let trial = 0; trial < 30; trial++) {
      const noseRadius = trial % 2 === 0 ? 0 : 0.1;
      const half = (20 + 20 * random()) * DEG;
      const path = 1 - noseRadius;
      const sweep = {
        tiltDeg: half / DEG + 2 * random(),
        sweepRadius: path * Math.sin(half),
        distance: path * Math.cos(half),
        skew: 0.02 + 0.1 * random(),
        noseRadius,
      };
      const ballRadius = 0.97 + 0.08 * random();
      const seat = ballInSocket({ ballRadius, sweep });
      // 200,000 places: a smooth least value is met to (2π/200000)², one at an end of the sweep the same.
      expect(Math.abs(seat.ballBottomDepth - ballRadius - bruteCentre(sweep, ballRadius))).toBeLessThan(1e-9);
    }
  });

  it('stops at the mouth where a ball cannot pass it, and wherever else the surface comes back into its way', () => {
    // Past half a sphere, and skew sweeps whose mouth draws in: the surface leaves the ball's shadow and comes back.
    const deep = { tiltDeg: 0, sweepRadius: 0, distance: 0, skew: 0, noseRadius: 0 };
    const opening = Math.acos((25 - 35) / 25) / 2;
    const sphere = {
      ...deep,
      tiltDeg: opening / DEG,
      sweepRadius: 25 * Math.sin(opening),
      distance: 25 * Math.cos(opening),
    };
    const cases: [typeof deep, number][] = [
      [sphere, 24.9],
      [sphere, 22.95],
      [sphere, 22.9],
      [{ tiltDeg: 40.738, sweepRadius: 0.63475, distance: 0.772718, skew: 0.096164, noseRadius: 0 }, 1.005531],
    ];
    const random = uniform(seeded(12));
    for (let trial = 0; trial < 25; trial++) {
      const half = (38 + 12 * random()) * DEG;
      const sweep = {
        ...deep,
        tiltDeg: half / DEG,
        sweepRadius: Math.sin(half),
        distance: Math.cos(half),
        skew: 0.1 * random(),
      };
      cases.push([sweep, 0.95 + 0.12 * random()]);
    }
    for (const [sweep, ballRadius] of cases) {
      const seat = ballInSocket({ ballRadius, sweep });
      // 200,000 places; where the surface just reaches into the shadow, the depth changes with the root of a step.
      const brute = bruteCentre(sweep, ballRadius);
      expect(seat.ballBottomDepth - ballRadius).toBeLessThan(brute + 1e-12 * ballRadius);
      expect(seat.ballBottomDepth - ballRadius).toBeGreaterThan(brute - 1e-5 * ballRadius);
    }
    // Radius 25, depth 35: a mouth of 22.91 in radius. A ball of 24.9 rests on it, one of 22.9 goes in.
    const mouth = ballInSocket({ ballRadius: 24.9, sweep: sphere });
    expect(mouth.contact).toBe('outer-edge');
    expect(mouth.contactDiameter / 2).toBeCloseTo(Math.sqrt(25 ** 2 - 10 ** 2), 10);
    // Its centre stands 10 + sqrt(24.9² - 525) before the sphere's.
    expect(mouth.gapAtBottom).toBeCloseTo(25 + 10 + Math.sqrt(24.9 ** 2 - 525) - 24.9, 10);
    expect(ballInSocket({ ballRadius: 22.9, sweep: sphere }).gapAtBottom).toBeCloseTo(0, 10);
  });

  it('touches a cone where the radius to the contact is square to the flank', () => {
    fc.assert(
      fc.property(fc.double({ min: 10, max: 80, noNaN: true }), (halfAngle) => {
        const [sin, cos] = [Math.sin(halfAngle * DEG), Math.cos(halfAngle * DEG)];
        const points = [
          { radius: 0, depth: (20 * cos) / sin },
          { radius: 20, depth: 0 },
        ];
        const seat = ballInSocket({ ballRadius: 5, points });
        expect(seat.contact).toBe('surface');
        expect(seat.contactDiameter / (10 * cos)).toBeCloseTo(1, 12);
        expect(seat.gapAtBottom).toBeCloseTo(5 / sin - 5, 11);
      }),
    );
  });

  it('rests at the bottom, all over, or on the rim as the ball is smaller, equal or larger', () => {
    const sweep = { tiltDeg: 30, sweepRadius: 10 * Math.sin(30 * DEG), distance: 10 * Math.cos(30 * DEG) };
    const small = ballInSocket({ ballRadius: 9, sweep });
    expect(small.contactDiameter).toBeCloseTo(0, 7);
    // The ball's centre lies 1 below the socket's; the rim 60 degrees from the pole.
    expect(small.gapAtRim).toBeCloseTo(Math.hypot(10 * Math.sin(60 * DEG), 10 * Math.cos(60 * DEG) - 1) - 9, 10);
    const large = ballInSocket({ ballRadius: 11, sweep });
    expect(large.contact).toBe('outer-edge');
    expect(large.contactDiameter).toBeCloseTo(2 * 10 * Math.sin(60 * DEG), 10);
    expect(large.gapAtBottom).toBeCloseTo(10 - (5 - Math.sqrt(121 - 75)) - 11, 10);
    const equal = ballInSocket({ ballRadius: 10, sweep });
    expect(equal.gapAtBottom).toBeLessThan(1e-14);
    expect(equal.gapAtRim).toBeLessThan(1e-14);
  });

  it('touches the edge of a relief hole, and the hole found for a circle puts the contact there', () => {
    const sweep = { tiltDeg: 30, sweepRadius: 10 * Math.sin(30 * DEG), distance: 10 * Math.cos(30 * DEG) };
    const small = ballInSocket({ ballRadius: 9, sweep, reliefDiameter: 6, wantedContactDiameter: 8 });
    expect(small).toMatchObject({ contact: 'inner-edge' });
    expect(small.contactDiameter).toBeCloseTo(6, 10);
    expect(small.reliefForContact).toBeCloseTo(8, 7);
    // A W-shaped bottom: the middle stops the ball until it is drilled away.
    const points = [
      { radius: 0, depth: 4 },
      { radius: 3, depth: 5 },
      { radius: 9, depth: 0 },
    ];
    const before = ballInSocket({ ballRadius: 5, points });
    expect(before.contactDiameter).toBe(0);
    const wanted = 2 * 5 * Math.sin(Math.atan(5 / 6));
    const { reliefForContact } = ballInSocket({ ballRadius: 5, points, wantedContactDiameter: wanted });
    const drilled = ballInSocket({ ballRadius: 5, points, reliefDiameter: (reliefForContact ?? 0) * (1 + 1e-9) });
    expect(drilled.contactDiameter).toBeCloseTo(wanted, 9);
    const less = ballInSocket({ ballRadius: 5, points, reliefDiameter: (reliefForContact ?? 0) * (1 - 1e-3) });
    expect(less.contact).toBe('inner-edge');
    // No hole in the middle helps where the ball stops farther out.
    expect(ballInSocket({ ballRadius: 11, sweep, wantedContactDiameter: 8 }).reliefForContact).toBeNull();
    expect(
      ballInSocket({ ballRadius: 5, points: points.slice(1), wantedContactDiameter: wanted }).reliefForContact,
    ).toBe(0);
  });

  const points = [
    { radius: 2, depth: 5 },
    { radius: 9, depth: 0 },
  ];
  it.each<[string, unknown]>([
    ['missing-option points', { ballRadius: 5 }],
    ['contradiction sweep', { ballRadius: 5, points, sweep: { tiltDeg: 30, sweepRadius: 5, distance: 8 } }],
    ['impossible-geometry ballRadius', { ballRadius: 1, points }],
    ['impossible-geometry ballRadius', { ballRadius: 5, points, reliefDiameter: 30 }],
    ['impossible-geometry wantedContactDiameter', { ballRadius: 5, points, wantedContactDiameter: 1 }],
    ['out-of-range points', { ballRadius: 5, points: points.slice(1) }],
    ['out-of-range points[1].radius', { ballRadius: 5, points: [points[1], points[0]] }],
    ['not-finite points[0].depth', { ballRadius: 5, points: [{ radius: 0, depth: Number.NaN }, points[1]] }],
    ['out-of-range ballRadius', { ballRadius: 1, sweep: { tiltDeg: 30, sweepRadius: 5, distance: 8, noseRadius: 1 } }],
  ])('refuses %s', (wanted, given) => {
    expect(refusal(() => ballInSocket(given as BallInSocketOptions))).toBe(wanted);
  });
});
