import fc from 'fast-check';
import { budget } from 'generatrix/budget';
import { swivelCorrection, swivelModel, swivelSettings, swivelSurface } from 'generatrix/sphere';
import { describe, expect, it } from 'vitest';
import { plainArithmetic } from '../../src/budget/arithmetic.js';
import { refusal } from '../oracle/refusal.js';
import { seeded } from '../oracle/seed.js';
import { uniform } from './search.js';

const DEG = Math.PI / 180;

describe('a tool that swivels about an upright axis', () => {
  it('cuts what its path in space, revolved, cuts', () => {
    const random = uniform(seeded(5));
    for (let trial = 0; trial < 200; trial++) {
      const s = 0.5 + random();
      const e = 0.4 * (random() - 0.5);
      const v = trial % 2 === 0 ? 0 : 0.2 * (random() - 0.5);
      const from = trial % 3 === 0 ? 0 : 60 * random();
      const to = 100 + 80 * random();
      const surface = swivelSurface({
        swivelRadius: s,
        centreOffset: e,
        centreHeight: v,
        swingFromDeg: from,
        swingToDeg: to,
      });
      let [far, near, wide, slim] = [0, Infinity, 0, Infinity];
      const count = 20_000;
      for (let k = 0; k <= count; k++) {
        const swing = (from + ((to - from) * k) / count) * DEG;
        const [x, z] = [e + s * Math.sin(swing), s * Math.cos(swing)];
        if (x < 0) continue; // past the work axis
        far = Math.max(far, Math.hypot(x, v, z));
        near = Math.min(near, Math.hypot(x, v, z));
        wide = Math.max(wide, 2 * Math.hypot(x, v));
        if (z > 0) slim = Math.min(slim, 2 * Math.hypot(x, v));
      }
      // Extremes inside the swing are met to (π/count)²; at its ends, where the path crosses the axis, to π/count.
      expect(surface.largestRadius - far).toBeGreaterThan(-1e-14);
      expect(surface.largestRadius - far).toBeLessThan(1e-4);
      expect(near - surface.smallestRadius).toBeGreaterThan(-1e-14);
      expect(near - surface.smallestRadius).toBeLessThan(1e-4);
      expect(surface.formDeviation).toBeCloseTo(surface.largestRadius - surface.smallestRadius, 13);
      expect(Math.abs(surface.diameter - wide)).toBeLessThan(1e-7);
      expect(slim - surface.pipDiameter).toBeGreaterThan(-1e-14);
      expect(slim - surface.pipDiameter).toBeLessThan(1e-3);
    }
  });

  it('with a round nose cuts the same circle, and turns a stem as the nose in space does', () => {
    const random = uniform(seeded(6));
    for (let trial = 0; trial < 60; trial++) {
      const [s, n] = [1, 0.05 + 0.4 * random()];
      const [e, v] = [0.1 * (random() - 0.5), 0.1 * (random() - 0.5)];
      const to = 120 + 40 * random();
      const given = { swivelRadius: s, centreOffset: e, centreHeight: v, swingToDeg: to, noseRadius: n };
      const surface = swivelSurface(given);
      // The edge is a circle in the level plane: its nearest and farthest places from the swivel's centre there.
      let [slim, near] = [Infinity, Infinity];
      for (let k = 0; k <= 400; k++) {
        const swing = ((to * k) / 400) * DEG;
        const [x, z] = [e + (s + n) * Math.sin(swing), (s + n) * Math.cos(swing)];
        for (let j = 0; j < 400; j++) {
          const [px, pz] = [x + n * Math.cos((j * Math.PI) / 200), z + n * Math.sin((j * Math.PI) / 200)];
          near = Math.min(near, Math.hypot(px - e, pz));
          // Beyond the end of the swing a stem, which lies where the nose's centre looks from, is turned.
          if (k === 400) slim = Math.min(slim, 2 * Math.hypot(Math.max(0, px), v));
        }
      }
      // A nose of 400 places misses its nearest one by n (π/400)² / 2 at most.
      expect(near - s).toBeGreaterThan(-1e-14);
      expect(near - s).toBeLessThan(2e-5);
      if (surface.stemDiameter !== 0) expect(slim - (surface.stemDiameter ?? 0)).toBeLessThan(4e-5);
      expect(slim - (surface.stemDiameter ?? 0)).toBeGreaterThan(-1e-14);
      const { noseRadius: _, ...sharp } = given;
      expect(swivelSurface(sharp).formDeviation).toBe(surface.formDeviation);
      expect(swivelSurface(sharp).diameter).toBe(surface.diameter);
    }
    const target = { part: 'ball-on-stem', radius: 20, stemDiameter: 12 } as const;
    const { swivelRadius, swingToDeg } = swivelSettings({ target, noseRadius: 3 });
    expect(swivelSurface({ swivelRadius, swingToDeg, noseRadius: 3 }).stemDiameter).toBeCloseTo(12, 12);
    const bored = swivelSurface({ swivelRadius: 20, swingToDeg: 90, noseRadius: 3, side: 'socket' });
    expect(bored).toMatchObject({ shape: 'sphere', diameter: 40, stemDiameter: null });
  });

  it('names the shape, and is a sphere on centre', () => {
    expect(swivelSurface({ swivelRadius: 5 })).toEqual({
      shape: 'sphere',
      diameter: 10,
      pipDiameter: 0,
      endHeight: 5,
      stemDiameter: 0,
      smallestRadius: 5,
      largestRadius: 5,
      formDeviation: 0,
    });
    expect(swivelSurface({ swivelRadius: 5, centreOffset: 0.1 }).shape).toBe('stump');
    expect(swivelSurface({ swivelRadius: 5, centreOffset: -0.1 }).shape).toBe('point');
    expect(swivelSurface({ swivelRadius: 5, centreHeight: 0.1 })).toMatchObject({ shape: 'stump', pipDiameter: 0.2 });
    expect(swivelSurface({ swivelRadius: 5, swingFromDeg: 120 }).endHeight).toBeCloseTo(-2.5, 14);
  });

  it('finds offset and radius from two widths of the meridian, taken as supports of its points', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -0.2, max: 0.2, noNaN: true }),
        fc.double({ min: 15, max: 75, noNaN: true }),
        (e, leanDeg) => {
          // Width of the section in a direction: the farthest point less the farthest the other way.
          const width = (deg: number): number => {
            const far = (sign: 1 | -1): number => {
              let best = 0;
              for (let k = -300; k <= 300; k++) {
                const swing = (deg + k * 0.01) * DEG;
                const mirrored = sign === 1 ? swing : Math.PI - swing;
                const [x, z] = [e + 2 * Math.sin(mirrored), 2 * Math.cos(mirrored)];
                best = Math.max(best, x * Math.sin(deg * DEG) + sign * z * Math.cos(deg * DEG));
              }
              return best;
            };
            return far(1) + far(-1);
          };
          const found = swivelCorrection({
            radius: 2.1,
            diameterAcross: width(90),
            diameterLeaning: width(leanDeg),
            leanDeg,
          });
          expect(found.centreOffset).toBeCloseTo(e, 9);
          expect(found.swivelRadius).toBeCloseTo(2, 9);
          expect(found.moveCentre).toBeCloseTo(-e, 9);
          expect(found.changeRadius).toBeCloseTo(0.1, 9);
        },
      ),
      { numRuns: 40 },
    );
  });

  it('is set to the radius, with the nose clear of the stem', () => {
    const set = swivelSettings({ target: { part: 'ball-on-stem', radius: 20, stemDiameter: 12 }, noseRadius: 3 });
    expect(set.noseCentreRadius).toBe(23);
    expect(23 * Math.sin(set.swingToDeg * DEG) - 3).toBeCloseTo(6, 12);
    const between = { part: 'ball-between-stems', radius: 20, stemDiameter: 12, freeStemDiameter: 8 } as const;
    expect(23 * Math.sin(swivelSettings({ target: between, noseRadius: 3 }).swingFromDeg * DEG) - 3).toBeCloseTo(4, 12);
    const bowl = swivelSettings({ target: { part: 'socket', radius: 20, depth: 20 }, noseRadius: 3 });
    expect(bowl).toMatchObject({ swivelRadius: 20, noseCentreRadius: 17, swingFromDeg: 0 });
    expect(bowl.swingToDeg).toBeCloseTo(90, 12);
  });

  it('has a model that gives the radius at a swing', () => {
    const at = (swingDeg: number): number =>
      swivelModel.evaluate(plainArithmetic, { swivelRadius: 5, centreOffset: 0.1, centreHeight: 0.2, swingDeg });
    const surface = swivelSurface({ swivelRadius: 5, centreOffset: 0.1, centreHeight: 0.2 });
    // Errors may be left out of a budget, and are 0; the model belongs to all callers.
    const alone = budget({
      model: swivelModel,
      inputs: { swivelRadius: { value: 5, plusMinus: 0.1 }, swingDeg: { value: 30, plusMinus: 0 } },
    });
    expect(alone.value).toBe(5);
    expect(Object.isFrozen(swivelModel.inputs)).toBe(true);
    expect(at(90)).toBeCloseTo(surface.largestRadius, 13);
    expect(at(0)).toBeCloseTo(surface.smallestRadius, 13);
  });

  it.each<[string, () => unknown]>([
    ['impossible-geometry centreOffset', () => swivelSurface({ swivelRadius: 5, centreOffset: -5 })],
    ['out-of-range swingToDeg', () => swivelSurface({ swivelRadius: 5, swingFromDeg: 30, swingToDeg: 30 })],
    ['out-of-range noseRadius', () => swivelSurface({ swivelRadius: 5, noseRadius: 5, side: 'socket' })],
    ['out-of-range noseRadius', () => swivelSurface({ swivelRadius: 5, noseRadius: 5.1e6 })],
    ['unknown-option nose', () => swivelSurface({ swivelRadius: 5, nose: 1 } as { swivelRadius: number })],
    ['missing-option swivelRadius', () => swivelSurface({} as { swivelRadius: number })],
    ['not-representable ', () => swivelSurface({ swivelRadius: 1.7e308 })],
    ['out-of-range leanDeg', () => swivelCorrection({ radius: 1, diameterAcross: 2, diameterLeaning: 2, leanDeg: 89 })],
    [
      'impossible-geometry diameterLeaning',
      () => swivelCorrection({ radius: 1, diameterAcross: 2, diameterLeaning: 1 }),
    ],
    [
      'out-of-range noseRadius',
      () => swivelSettings({ target: { part: 'socket', radius: 5, depth: 2 }, noseRadius: 6 }),
    ],
  ])('refuses %s', (wanted, call) => {
    expect(refusal(call)).toBe(wanted);
  });
});
