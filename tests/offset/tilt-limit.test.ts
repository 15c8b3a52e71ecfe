/**
 * The tilt limit against holder and work as solids in space: both rims walked all round, each point
 * asked whether it lies inside the other solid, the tilt raised until one does. No formula of the
 * library; points off the plane of the tilt count as well.
 */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type TiltLimitOptions, tiltLimit } from '../../src/offset/index.js';
import { runs } from '../oracle/seed.js';

interface Solids {
  readonly g: number;
  readonly q: number;
  readonly c: number;
  readonly w: number;
  readonly m: number;
  readonly half: number;
}

/** Whether anything touches at this tilt (radians). Work's axis along z; the holder's tilted about y. */
function touches({ g, q, c, w, m, half }: Solids, tilt: number): boolean {
  const [cos, sin] = [Math.cos(tilt), Math.sin(tilt)];
  // Rotation about y that takes the holder's frame into the work's, and back.
  const toWork = (x: number, y: number, z: number) => [cos * x - sin * z, y, sin * x + cos * z] as const;
  const toHolder = (x: number, y: number, z: number) => [cos * x + sin * z, y, cos * z - sin * x] as const;
  const inWork = ([x, y, z]: readonly [number, number, number]): boolean => {
    const radius = Math.hypot(x, y);
    const hole = m - (z - c) * Math.tan(half);
    return z > c && radius < w && radius > (m === 0 ? -1 : hole);
  };
  const inHolder = ([x, y, z]: readonly [number, number, number]): boolean => z < -g && Math.hypot(x, y) < q;
  const around = 180;
  for (let i = 0; i <= around; i++) {
    const turn = (Math.PI * i) / around;
    const [a, b] = [Math.cos(turn), Math.sin(turn)];
    if (inWork(toWork(q * a, q * b, -g))) return true;
    if (inHolder(toHolder(w * a, w * b, c))) return true;
    if (m > 0 && inHolder(toHolder(m * a, m * b, c))) return true;
  }
  return false;
}

/** The first tilt at which something touches, in degrees, or undefined below a right angle. */
function first(solids: Solids): number | undefined {
  const step = Math.PI / 2 / 450;
  for (let i = 1; i < 450; i++) {
    if (!touches(solids, i * step)) continue;
    let [low, high] = [(i - 1) * step, i * step];
    for (let k = 0; k < 50; k++) {
      const middle = (low + high) / 2;
      if (touches(solids, middle)) high = middle;
      else low = middle;
    }
    return (high * 180) / Math.PI;
  }
  return undefined;
}

const between = (min: number, max: number) =>
  fc.integer({ min: min * 100, max: max * 100 }).map((parts) => parts / 100);

function set({ g, q, c, w, m, half }: Solids): TiltLimitOptions {
  return {
    holder: { faceDistance: g, faceDiameter: 2 * q },
    work: {
      protrusion: c,
      faceDiameter: 2 * w,
      ...(m > 0 ? { mouthDiameter: 2 * m, holeAngleDeg: (half * 360) / Math.PI } : {}),
    },
  };
}

function agree(solids: Solids): string {
  const { tiltLimitDeg, contact } = tiltLimit(set(solids));
  const found = first(solids);
  if (found === undefined) expect(tiltLimitDeg).toBeGreaterThan(89.8);
  else expect(Math.abs(tiltLimitDeg - found)).toBeLessThan(1e-9 * tiltLimitDeg + 1e-11);
  return contact;
}

describe('the tilt limit', () => {
  it('is where the solids first meet: work without a hole', () => {
    const seen = new Set<string>();
    fc.assert(
      fc.property(between(-2, 8), between(1, 15), between(-2, 8), between(1, 30), (g, q, c, w) => {
        fc.pre(g + c > 0.1);
        seen.add(agree({ g, q, c, w, m: 0, half: 0.5 }));
      }),
      { numRuns: runs(120, 50) },
    );
    expect([...seen].sort()).toEqual(['holder-edge-on-work-face', 'none', 'work-edge-on-holder-face']);
  });

  it('is where the solids first meet: slender shanks that dip into the centre hole', () => {
    const seen = new Set<string>();
    fc.assert(
      fc.property(
        between(1, 5),
        between(1, 6),
        between(-3, 4),
        between(3, 8),
        between(20, 55),
        (g, q, c, m, halfDeg) => {
          const half = (halfDeg * Math.PI) / 180;
          // A real shank's edge stands outside the ball that the hole's flank holds, and outside the hole.
          fc.pre(g + c > 0.1 && Math.hypot(q, g) > m * Math.cos(half) + c * Math.sin(half) + 0.05 && q < m + 2);
          seen.add(agree({ g, q, c, w: 12, m, half }));
        },
      ),
      { numRuns: runs(150, 60) },
    );
    expect(seen).toContain('holder-edge-in-hole');
    expect(seen).toContain('holder-edge-on-work-face');
    expect(seen).toContain('hole-edge-on-holder-side');
  });

  it('is decided by which edge is nearer to the ball, not by which face is smaller', () => {
    // The holder's face is the smaller, and yet it is the work's edge that touches first.
    const solids = { g: 5, q: 9.9, c: 1, w: 10, m: 0, half: 0.5 };
    expect(agree(solids)).toBe('work-edge-on-holder-face');
    // Taken for the other case the limit would read 32.0 degrees instead of 35.5.
    const { tiltLimitDeg } = tiltLimit(set(solids));
    expect(tiltLimitDeg).toBeCloseTo((Math.atan2(1, 10) + Math.asin(5 / Math.hypot(10, 1))) * (180 / Math.PI), 12);
  });

  it('does not depend on the unit', () => {
    const [one, other] = [1, 25.4].map((unit) =>
      tiltLimit(set({ g: 3 * unit, q: 4 * unit, c: 2 * unit, w: 12 * unit, m: 0, half: 0.5 })),
    );
    expect(one?.tiltLimitDeg).toBeCloseTo(other?.tiltLimitDeg as number, 12);
  });

  it.each([
    ['impossible-geometry', { g: 2, q: 5, c: -2, w: 10, m: 0, half: 0.5 }],
    ['out-of-range', { g: 2, q: 0, c: 1, w: 10, m: 0, half: 0.5 }],
    ['out-of-range', { g: 2, q: 5, c: 1, w: 10, m: 11, half: 0.5 }],
    ['not-finite', { g: Number.NaN, q: 5, c: 1, w: 10, m: 0, half: 0.5 }],
  ])('%s: %j', (code, solids) => {
    expect(() => tiltLimit(set(solids))).toThrow(expect.objectContaining({ code }));
  });
});
