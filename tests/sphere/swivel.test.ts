import fc from 'fast-check';
import { swivelCorrection, swivelModel, swivelSettings, swivelSurface } from 'generatrix/sphere';
import { describe, expect, it } from 'vitest';
import { plainArithmetic } from '../../src/budget/arithmetic.js';
import { refusal } from '../oracle/refusal.js';
import { uniform } from './search.js';

const DEG = Math.PI / 180;

describe('a tool that swivels about an upright axis', () => {
  it('cuts what its path in space, revolved, cuts', () => {
    const random = uniform(5);
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
      expect(surface.radialSpread).toBeCloseTo(surface.largestRadius - surface.smallestRadius, 13);
      expect(Math.abs(surface.diameter - wide)).toBeLessThan(1e-7);
      expect(slim - surface.pipDiameter).toBeGreaterThan(-1e-14);
      expect(slim - surface.pipDiameter).toBeLessThan(1e-3);
    }
  });

  it('names the shape, and is a sphere on centre', () => {
    expect(swivelSurface({ swivelRadius: 5 })).toEqual({
      shape: 'sphere',
      diameter: 10,
      pipDiameter: 0,
      endHeight: 5,
      smallestRadius: 5,
      largestRadius: 5,
      radialSpread: 0,
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
    expect(at(90)).toBeCloseTo(surface.largestRadius, 13);
    expect(at(0)).toBeCloseTo(surface.smallestRadius, 13);
  });

  it.each<[string, () => unknown]>([
    ['impossible-geometry setUp.centreOffset', () => swivelSurface({ swivelRadius: 5, centreOffset: -5 })],
    ['out-of-range setUp.swingToDeg', () => swivelSurface({ swivelRadius: 5, swingFromDeg: 30, swingToDeg: 30 })],
    [
      'out-of-range input.leanDeg',
      () => swivelCorrection({ radius: 1, diameterAcross: 2, diameterLeaning: 2, leanDeg: 89 }),
    ],
    [
      'impossible-geometry input.diameterLeaning',
      () => swivelCorrection({ radius: 1, diameterAcross: 2, diameterLeaning: 1 }),
    ],
    [
      'out-of-range input.noseRadius',
      () => swivelSettings({ target: { part: 'socket', radius: 5, depth: 2 }, noseRadius: 6 }),
    ],
  ])('refuses %s', (wanted, call) => {
    expect(refusal(call)).toBe(wanted);
  });
});
