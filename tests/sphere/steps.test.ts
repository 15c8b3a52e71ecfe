import fc from 'fast-check';
import { type SphereStep, type SphereTarget, sphereSteps } from 'generatrix/sphere';
import { describe, expect, it } from 'vitest';
import { refusal } from '../oracle/refusal.js';
import { runs, seeded } from '../oracle/seed.js';
import { golden, uniform } from './search.js';

/**
 * What the steps leave on a ray from the centre. A step clears every point within the corner's radius
 * of the quadrant that the corner's centre has run over; where the ray enters that region is bisected.
 */
function left(steps: readonly SphereStep[], ball: boolean, radius: number, nose: number, polar: number): number {
  const [sin, cos] = [Math.sin(polar), Math.abs(Math.cos(polar))];
  const cleared = (q: number): boolean =>
    steps.some(({ centreRadius: x, centreHeight }) => {
      const z = Math.abs(centreHeight);
      const dx = ball ? Math.max(0, x - q * sin) : Math.max(0, q * sin - x);
      const dz = ball ? Math.max(0, z - q * cos) : Math.max(0, q * cos - z);
      return Math.hypot(dx, dz) <= nose;
    });
  let [inside, outside] = ball ? [0.5 * radius, 4 * radius] : [radius * 1.5, 0];
  for (let turn = 0; turn < 60; turn++) {
    const middle = (inside + outside) / 2;
    if (cleared(middle)) outside = middle;
    else inside = middle;
  }
  return ball ? outside - radius : radius - outside;
}

function worst(steps: readonly SphereStep[], ball: boolean, nose: number, from: number, to: number): number {
  const f = (polar: number): number => left(steps, ball, 1, nose, polar);
  const count = 800;
  const at = (k: number): number => from + ((to - from) * k) / count;
  let best = 0;
  for (let k = 1; k <= count; k++) if (f(at(k)) > f(at(best))) best = k;
  return golden(f, at(Math.max(0, best - 1)), at(Math.min(count, best + 1))).value;
}

describe('a sphere by steps', () => {
  it('leaves what the cleared regions leave, and never cuts into the sphere', () => {
    const random = uniform(seeded(11));
    for (let trial = 0; trial < runs(30, 15); trial++) {
      const ball = trial % 2 === 0;
      const nose = trial % 5 === 0 ? 0 : 0.002 + 0.4 * random() ** 2;
      const height = ball ? 1 : 0.3 + 0.7 * random();
      const target: SphereTarget = ball
        ? { part: 'cap', radius: 1, height }
        : { part: 'socket', radius: 1, depth: height };
      const { leftover, steps } = sphereSteps({ target, noseRadius: nose, steps: 2 + Math.floor(8 * random()) });
      // A socket ends in its face: the last ray that meets a step is at the last stop but one.
      const end = ball ? Math.PI / 2 : ((steps.at(-1)?.polarAngleDeg ?? 0) * Math.PI) / 180;
      const inSocket = ball ? steps : steps.filter(({ depth }) => depth > 0);
      const found = worst(inSocket, ball, nose, 0, end);
      if (ball || inSocket.length > 2) expect(Math.abs(found - leftover)).toBeLessThan(1e-12);
      for (let k = 0; k <= 300; k++) {
        expect(left(inSocket, ball, 1, nose, (k * end) / 300)).toBeGreaterThan(-1e-14);
      }
    }
  });

  it('steps evenly in the square of the diameter with a square corner', () => {
    for (const steps of [1, 4, 37]) {
      const dome = sphereSteps({ target: { part: 'cap', radius: 20, height: 20 }, steps });
      expect(dome.leftover / (20 * (Math.sqrt(1 + 1 / steps) - 1))).toBeCloseTo(1, 12);
      dome.steps.forEach(({ diameter }, index) => {
        expect(diameter ** 2 / 1600).toBeCloseTo(index / steps, 12);
      });
      const bowl = sphereSteps({ target: { part: 'socket', radius: 20, depth: 20 }, steps });
      expect(bowl.leftover / (20 * (1 - Math.sqrt(1 - 1 / steps)))).toBeCloseTo(1, 12);
    }
  });

  it('turns the stem, both stems and the flat to size first', () => {
    const onStem = sphereSteps({
      target: { part: 'ball-on-stem', diameter: 50, stemDiameter: 20 },
      noseRadius: 0.8,
      steps: 30,
    });
    const far = onStem.steps.filter(({ from }) => from === 'far-end');
    expect(far[0]?.diameter).toBeCloseTo(20, 12);
    expect(onStem.steps[0]).toMatchObject({ polarAngleDeg: 0, diameter: 0, depth: 0 });
    expect(onStem.steps.filter(({ diameter }) => diameter > 49.9999)).toHaveLength(1);
    expect(onStem.steps).toHaveLength(31);
    const between: SphereTarget = { part: 'ball-between-stems', diameter: 50, stemDiameter: 20, freeStemDiameter: 12 };
    expect(sphereSteps({ target: between, noseRadius: 0.8, steps: 20 }).steps[0]?.diameter).toBeCloseTo(12, 12);
    const flat: SphereTarget = { part: 'ball-end', diameter: 50, stemDiameter: 20, flatDiameter: 14 };
    const first = sphereSteps({ target: flat, noseRadius: 0.8, steps: 20 }).steps[0];
    expect(first?.height).toBeCloseTo(24, 12);
    expect(first?.depth).toBeCloseTo(0, 12);
  });

  it('keeps to the height allowed with no more steps than needed', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.02, max: 3, noNaN: true }),
        fc.double({ min: 0, max: 5, noNaN: true }),
        (leftover, noseRadius) => {
          const target: SphereTarget = { part: 'ball-on-stem', diameter: 50, stemDiameter: 20 };
          const found = sphereSteps({ target, noseRadius, leftover });
          expect(found.leftover).toBeLessThanOrEqual(leftover * (1 + 1e-12));
          const count = found.steps.length;
          if (count > 4)
            expect(sphereSteps({ target, noseRadius, steps: count - 2 }).leftover).toBeGreaterThan(
              leftover * (1 - 1e-9),
            );
        },
      ),
      { numRuns: runs(30, 8) },
    );
  });

  it('does not change but in scale', () => {
    const one = sphereSteps({ target: { part: 'socket', radius: 10, depth: 6 }, noseRadius: 1, steps: 7 });
    const inch = sphereSteps({
      target: { part: 'socket', radius: 10 / 25.4, depth: 6 / 25.4 },
      noseRadius: 1 / 25.4,
      steps: 7,
    });
    expect((inch.leftover * 25.4) / one.leftover).toBeCloseTo(1, 11);
    expect(inch.steps.map(({ diameter }) => diameter * 25.4)).toEqual(
      one.steps.map(({ diameter }) => expect.closeTo(diameter, 9)),
    );
  });

  const target: SphereTarget = { part: 'ball-on-stem', diameter: 50, stemDiameter: 20 };
  it.each<[string, unknown]>([
    ['missing-option steps', { target }],
    ['contradiction leftover', { target, steps: 3, leftover: 1 }],
    ['out-of-range steps', { target, steps: 1 }],
    ['beyond-machine leftover', { target, leftover: 1e-6 }],
    ['out-of-range noseRadius', { target: { part: 'socket', radius: 5, depth: 2 }, noseRadius: 5, steps: 3 }],
    ['out-of-range noseRadius', { target, noseRadius: 1.7e308, steps: 5 }],
    ['missing-option target', { steps: 5 }],
    ['impossible-geometry target', { target: { part: 'socket', radius: 5, depth: 6 }, steps: 3 }],
  ])('refuses %s', (wanted, given) => {
    expect(refusal(() => sphereSteps(given as Parameters<typeof sphereSteps>[0]))).toBe(wanted);
  });
});
