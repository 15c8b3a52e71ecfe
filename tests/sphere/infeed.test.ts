import fc from 'fast-check';
import { type SphereInfeedOptions, type SphereTarget, sphereInfeed } from 'generatrix/sphere';
import { describe, expect, it } from 'vitest';
import { refusal } from '../oracle/refusal.js';
import { seeded } from '../oracle/seed.js';
import { uniform } from './search.js';

const DEG = Math.PI / 180;

/** Whether any place of the nose, carried round the sweep with s left to feed, is in the stock. */
function meets(o: {
  ball: boolean;
  tilt: number;
  half: number;
  centres: number;
  nose: number;
  feed: string;
  a: number;
  end: number;
  s: number;
}): boolean {
  const out = o.ball ? 1 : -1;
  const n = [Math.sin(o.tilt), 0, Math.cos(o.tilt)];
  const dir = o.feed === 'spindle' ? n : [0, 0, 1];
  for (let k = 0; k < 4000; k++) {
    const t = (2 * Math.PI * k) / 4000;
    const p = [0, 1, 2].map((i) => {
      const u = [Math.cos(o.tilt), 0, -Math.sin(o.tilt)][i] as number;
      const y = i === 1 ? 1 : 0;
      const on = Math.cos(o.half) * (n[i] as number) + Math.sin(o.half) * (Math.cos(t) * u + Math.sin(t) * y);
      return o.centres * on + out * o.s * (dir[i] as number);
    }) as [number, number, number];
    const beside = Math.max(0, Math.hypot(p[0], p[1]) - o.a);
    const beyond = Math.max(0, out * (p[2] - o.end));
    if (Math.hypot(beside, beyond) <= o.nose) return true;
  }
  return false;
}

describe('infeed to a sphere', () => {
  it('first meets the stock where the sweep in space does', () => {
    const random = uniform(seeded(21));
    for (let trial = 0; trial < 40; trial++) {
      const ball = trial % 2 === 0;
      const feed = trial % 4 < 2 ? ('spindle' as const) : ('work' as const);
      const nose = trial % 3 === 0 ? 0 : 0.05;
      const half = (feed === 'work' || !ball ? 10 + 34 * random() : 10 + 75 * random()) * DEG;
      const target: SphereTarget = ball
        ? { part: 'cap', radius: 1, height: 1 - Math.cos(2 * half) }
        : { part: 'socket', radius: 1, depth: 1 - Math.cos(2 * half) };
      const a = Math.sin(Math.min(2 * half, Math.PI / 2)) * (1 + random());
      const end = ball ? 1 + 0.2 * random() : Math.cos(2 * half);
      const { firstContact } = sphereInfeed({
        target,
        noseRadius: nose,
        feed,
        stockDiameter: 2 * a,
        stockEndHeight: end,
        passes: 4,
      });
      const centres = ball ? 1 + nose : 1 - nose;
      const at = (s: number): boolean => meets({ ball, tilt: half, half, centres, nose, feed, a, end, s });
      // 4000 places are 1.6e-3 apart: near an edge that the sweep passes at a slant the brute force is late by as much.
      expect(at(firstContact.distance - 2e-3)).toBe(true);
      expect(at(firstContact.distance + 1e-9)).toBe(false);
      expect(firstContact.place).not.toBe('nothing');
    }
  });

  it('changes the radius along the spindle as points on the moved sweep say, and never along the work axis', () => {
    const target: SphereTarget = { part: 'ball-on-stem', diameter: 50, stemDiameter: 20 };
    const alpha = (Math.PI - Math.asin(0.4)) / 2;
    const [sweepRadius, distance] = [25.8 * Math.sin(alpha), 25.8 * Math.cos(alpha)];
    const sweep = { tiltDeg: (alpha * 180) / Math.PI, sweepRadius, distance, noseRadius: 0.8 };
    const { passes, perPass } = sphereInfeed({ target, sweep, feed: 'spindle', stockDiameter: 55, passes: 6 });
    passes.forEach(({ distance, radius, layer, coreDiameter }, index) => {
      const [h, r] = [25.8 * Math.cos(alpha) + distance, 25.8 * Math.sin(alpha)];
      expect(radius).toBeCloseTo(Math.hypot(h, r) - 0.8, 11);
      expect(layer).toBeCloseTo(Math.hypot(h + perPass, r) - Math.hypot(h, r), 11);
      // The nose touches its sphere on the line to the centre; there the core ends.
      expect(coreDiameter).toBeCloseTo(
        (2 * Math.abs(h * Math.sin(alpha) - r * Math.cos(alpha)) * radius) / (radius + 0.8),
        11,
      );
      expect(distance).toBeCloseTo(perPass * (5 - index), 11);
    });
    expect(passes.at(-1)?.radius).toBeCloseTo(25, 13);
    const whole = sphereInfeed({ target, noseRadius: 0.8, feed: 'spindle', stockDiameter: 55, passes: 6 });
    expect(whole.passes.at(-1)?.radius).toBe(25);
    const work = sphereInfeed({ target: { part: 'socket', radius: 20, depth: 8 }, feed: 'work', perPass: 1.5 });
    expect(work.passes.map(({ radius }) => radius)).toEqual([20, 20, 20, 20, 20, 20]);
    expect(work.firstContact).toMatchObject({ place: 'end-face' });
    expect(work.firstContact.distance).toBeCloseTo(8, 7);
  });

  it('finds the thickest layer of a feed along the work axis at the pole', () => {
    for (const side of ['cap', 'socket'] as const) {
      const target: SphereTarget =
        side === 'cap' ? { part: 'cap', radius: 20, height: 8 } : { part: 'socket', radius: 20, depth: 8 };
      const { passes, perPass } = sphereInfeed({ target, feed: 'work', stockDiameter: 40, passes: 5 });
      expect(passes[2]?.layer).toBeCloseTo(perPass, 11);
      expect(passes[2]?.layerPolarAngleDeg).toBeCloseTo(0, 9);
      expect(passes[2]?.chipThickness).toBeNull();
    }
  });

  it('finds the thickest chip, against the two nose circles sampled ray by ray', () => {
    const random = uniform(seeded(4));
    for (let trial = 0; trial < 40; trial++) {
      const ball = trial % 2 === 0;
      const [R, n] = [1, 0.05 + 0.2 * random()];
      const turn = (0.5 + 3 * random()) * DEG;
      const target: SphereTarget = ball
        ? { part: 'cap', radius: R, height: 0.9 }
        : { part: 'socket', radius: R, depth: 0.6 };
      const { passes } = sphereInfeed({
        target,
        noseRadius: n,
        feed: 'spindle',
        stockDiameter: 3,
        passes: 100,
        workPerSweepDeg: turn / DEG,
      });
      const { layer = 0, chipThickness = 0 } = passes.at(-1) ?? {};
      const alpha = Math.acos(ball ? 0.1 : 0.4) / 2;
      const C = ball ? R + n : R - n;
      // Neighbouring axes are apart by the angle between two lines at α, Δ apart in azimuth.
      const apart = Math.acos(Math.cos(alpha) ** 2 + Math.sin(alpha) ** 2 * Math.cos(turn));
      const [c0, c1] = [
        [0, C],
        [C * Math.sin(apart), C * Math.cos(apart)],
      ] as const;
      let best = 0;
      for (let k = 0; k < 20_000; k++) {
        const angle = (2 * Math.PI * k) / 20_000;
        const e = [Math.sin(angle), Math.cos(angle)] as const;
        // Along the ray from the new nose's centre: the chip is outside the old nose and within the stock.
        const inStock = (q: number): boolean => {
          const [x, y] = [c1[0] + q * e[0], c1[1] + q * e[1]];
          return (
            (ball ? Math.hypot(x, y) < R + layer : Math.hypot(x, y) > R - layer) && Math.hypot(x - c0[0], y - c0[1]) > n
          );
        };
        if (!inStock(n * (1 - 1e-12))) continue;
        let [inside, outside] = [n, 0];
        for (let turnNo = 0; turnNo < 50; turnNo++) {
          const middle = (inside + outside) / 2;
          if (inStock(middle)) inside = middle;
          else outside = middle;
        }
        best = Math.max(best, n - inside);
      }
      // 20,000 rays: the corner is met within 3e-4 rad.
      expect(Math.abs(best - (chipThickness ?? 0))).toBeLessThan(2e-4 * n);
    }
  });

  it('does not change but in scale', () => {
    fc.assert(
      fc.property(fc.double({ min: 1e-3, max: 1e3, noNaN: true }), (k) => {
        const run = (scale: number): number =>
          sphereInfeed({
            target: { part: 'ball-on-stem', diameter: 50 * scale, stemDiameter: 20 * scale },
            noseRadius: 0.8 * scale,
            feed: 'spindle',
            stockDiameter: 55 * scale,
            passes: 3,
            workPerSweepDeg: 1,
          }).passes[1]?.chipThickness ?? 0;
        expect(run(k) / k / run(1)).toBeCloseTo(1, 6);
      }),
      { numRuns: 10 },
    );
  });

  const ball: SphereTarget = { part: 'ball-on-stem', diameter: 50, stemDiameter: 20 };
  const bowl: SphereTarget = { part: 'socket', radius: 20, depth: 8 };
  it.each<[string, unknown]>([
    ['impossible-geometry feed', { target: ball, feed: 'work', stockDiameter: 60, passes: 2 }],
    ['impossible-geometry feed', { target: { part: 'socket', radius: 20, depth: 24 }, feed: 'work', passes: 2 }],
    ['impossible-geometry feed', { target: { part: 'socket', radius: 20, depth: 29 }, feed: 'spindle', passes: 2 }],
    ['missing-option stockDiameter', { target: ball, feed: 'spindle', passes: 2 }],
    ['missing-option passes', { target: bowl, feed: 'spindle' }],
    ['contradiction perPass', { target: bowl, feed: 'spindle', passes: 2, perPass: 1 }],
    ['out-of-range perPass', { target: bowl, feed: 'spindle', perPass: 1e-9 }],
    [
      'out-of-range sweep.tiltDeg',
      {
        sweep: { tiltDeg: 95, sweepRadius: 5, distance: 5 },
        side: 'ball',
        feed: 'spindle',
        stockDiameter: 20,
        passes: 2,
      },
    ],
  ])('refuses %s', (wanted, given) => {
    expect(refusal(() => sphereInfeed(given as SphereInfeedOptions))).toBe(wanted);
  });
});
