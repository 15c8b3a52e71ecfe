import fc from 'fast-check';
import { ballCutterSteps, type SphereTarget } from 'generatrix/sphere';
import { describe, expect, it } from 'vitest';
import { refusal } from '../oracle/refusal.js';
import { golden } from './search.js';

const DEG = Math.PI / 180;

describe('a sphere by a ball-ended cutter', () => {
  it.each<[SphereTarget, number, number]>([
    [{ part: 'cap', radius: 1, height: 0.7 }, 0.2, 9],
    [{ part: 'ball-on-stem', radius: 1, stemDiameter: 0.5 }, 0.1, 20],
    [{ part: 'ball-between-stems', radius: 1, stemDiameter: 0.5, freeStemDiameter: 0.4 }, 0.1, 20],
    [{ part: 'socket', radius: 1, depth: 0.6 }, 0.3, 6],
    [{ part: 'ball-end', radius: 1, stemDiameter: 0.5, flatDiameter: 0.3 }, 2, 3],
  ])('leaves what the balls at all places leave: %j', (target, cutterRadius, steps) => {
    const { leftover, passes } = ballCutterSteps({ target, cutterRadius, steps });
    const ball = target.part !== 'socket';
    // A ray from the centre, cut by the ball of each pass (its centre in the ray's own half-plane).
    const left = (polar: number): number =>
      Math.min(
        ...passes.map(({ centreRadius, centreHeight }) => {
          const along = centreRadius * Math.sin(polar) + centreHeight * Math.cos(polar);
          const beside2 = centreRadius ** 2 + centreHeight ** 2 - along * along;
          const root = Math.sqrt(cutterRadius ** 2 - beside2);
          if (Number.isNaN(root)) return Number.POSITIVE_INFINITY;
          return ball ? along - root - 1 : 1 - along - root;
        }),
      );
    for (let k = 0; k < steps; k++) {
      const [a = 0, b = 0] = [passes[k]?.polarAngleDeg, passes[k + 1]?.polarAngleDeg];
      const { value } = golden(left, a * DEG, b * DEG);
      expect(Math.abs(value - leftover)).toBeLessThan(1e-13);
      expect(Math.abs(left(a * DEG))).toBeLessThan(1e-14);
    }
  });

  it('touches the stem with the last pass and does not cut into it', () => {
    const target: SphereTarget = { part: 'ball-on-stem', radius: 20, stemDiameter: 12 };
    const { passes, notes } = ballCutterSteps({ target, cutterRadius: 3, steps: 50 });
    const last = passes.at(-1);
    expect(last?.centreRadius).toBeCloseTo(6 + 3, 12);
    expect(last?.centreHeight).toBeCloseTo(-Math.sqrt(23 ** 2 - 9 ** 2), 12);
    expect(notes.map(({ code }) => code)).toEqual(['past-widest-place']);
  });

  it('keeps to the height allowed with no more steps than needed', () => {
    const target: SphereTarget = { part: 'socket', radius: 20, depth: 12 };
    fc.assert(
      fc.property(fc.double({ min: 1e-5, max: 1, noNaN: true }), (leftover) => {
        const found = ballCutterSteps({ target, cutterRadius: 4, leftover });
        const steps = found.passes.length - 1;
        expect(found.leftover).toBeLessThanOrEqual(leftover * (1 + 1e-9));
        const fewer = (): number => ballCutterSteps({ target, cutterRadius: 4, steps: steps - 1 }).leftover;
        if (refusal(fewer) === 'accepted') expect(fewer()).toBeGreaterThan(leftover);
      }),
      { numRuns: 40 },
    );
  });

  const target: SphereTarget = { part: 'socket', radius: 5, depth: 4 };
  it.each<[string, unknown]>([
    ['missing-option steps', { target, cutterRadius: 1 }],
    ['contradiction leftover', { target, cutterRadius: 1, steps: 9, leftover: 1 }],
    ['out-of-range cutterRadius', { target, cutterRadius: 5, steps: 9 }],
    ['out-of-range cutterRadius', { target: { part: 'cap', radius: 1, height: 1 }, cutterRadius: 1.7e308, steps: 9 }],
    ['impossible-geometry steps', { target, cutterRadius: 0.1, steps: 9 }],
    ['beyond-machine leftover', { target, cutterRadius: 0.001, leftover: 1e-12 }],
  ])('refuses %s', (wanted, given) => {
    expect(refusal(() => ballCutterSteps(given as Parameters<typeof ballCutterSteps>[0]))).toBe(wanted);
  });
});
