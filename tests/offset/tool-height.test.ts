import fc from 'fast-check';
import { toolHeightModel, toolHeightSurface, toolHeightTolerance } from 'generatrix';
import { describe, expect, it } from 'vitest';
import { plainArithmetic as numbers } from '../../src/budget/arithmetic.js';
import { refusal } from '../oracle/refusal.js';
import { runs } from '../oracle/seed.js';
import { bruteHollow, brutePath } from './brute-path.js';

/** Tapers that end well short of the axis, with a tool up to a third of the small radius off. */
const cut = fc
  .record({
    halfAngleDeg: fc.double({ min: 0.01, max: 70, noNaN: true }),
    largeDiameter: fc.double({ min: 1, max: 500, noNaN: true }),
    share: fc.double({ min: 0.01, max: 0.9, noNaN: true }),
    off: fc.double({ min: -0.33, max: 0.33, noNaN: true }),
  })
  .map(({ halfAngleDeg, largeDiameter, share, off }) => {
    const fall = (share * largeDiameter) / 2;
    return {
      taper: { halfAngleDeg },
      largeDiameter,
      length: fall / Math.tan((halfAngleDeg * Math.PI) / 180),
      toolHeight: off * (largeDiameter / 2 - fall),
    };
  });

describe('toolHeightSurface', () => {
  it('agrees with points on the path in space', () => {
    fc.assert(
      fc.property(cut, (given) => {
        const angle = (given.taper.halfAngleDeg * Math.PI) / 180;
        const path = brutePath(angle, given.toolHeight, given.largeDiameter / 2);
        const found = toolHeightSurface(given);
        // 1e-12 relative: the bisection and the subtraction of the fall (at most 90 %) cost a few units.
        expect(Math.abs(found.smallDiameter / 2 / path(given.length) - 1)).toBeLessThan(1e-12);
        expect(found.largeDiameter).toBe(given.largeDiameter);
        // Differences of radii carry the rounding of the radii.
        const rounding = 1e-14 * given.largeDiameter;
        expect(Math.abs(found.hollow - bruteHollow(path, given.length))).toBeLessThan(rounding);
        const straight = given.largeDiameter - 2 * given.length * Math.tan(angle);
        expect(Math.abs(found.heightError - (found.smallDiameter - straight))).toBeLessThan(10 * rounding);
        expect(found.heightError).toBeGreaterThanOrEqual(0);
      }),
      { numRuns: runs(2000, 400) },
    );
  });

  it('gives the surface that holds both end circles', () => {
    fc.assert(
      fc.property(cut, (given) => {
        const { surface, largeDiameter, smallDiameter } = toolHeightSurface(given);
        const at = (z: number): number => {
          if (surface.kind === 'cone') return Math.abs((z - surface.apexZ) * surface.perSide);
          if (surface.kind !== 'hyperboloid') throw new Error(surface.kind);
          return Math.hypot(surface.waist, (z - surface.waistZ) * surface.perSide);
        };
        expect(Math.abs((2 * at(0)) / largeDiameter - 1)).toBeLessThan(1e-12);
        expect(Math.abs((2 * at(given.length)) / smallDiameter - 1)).toBeLessThan(1e-12);
      }),
    );
  });

  it('is the same surface whichever end was sized', () => {
    fc.assert(
      fc.property(cut, ({ largeDiameter, ...given }) => {
        const { smallDiameter, hollow } = toolHeightSurface({ ...given, largeDiameter });
        const back = toolHeightSurface({ ...given, smallDiameter });
        expect(Math.abs(back.largeDiameter / largeDiameter - 1)).toBeLessThan(1e-13);
        expect(Math.abs(back.hollow - hollow)).toBeLessThan(1e-14 * largeDiameter);
        expect(back.heightError).toBeLessThanOrEqual(0);
      }),
    );
  });

  it('does not know up from down, nor inch from millimetre', () => {
    fc.assert(
      fc.property(cut, ({ taper, largeDiameter, length, toolHeight }) => {
        const found = toolHeightSurface({ taper, largeDiameter, length, toolHeight });
        expect(toolHeightSurface({ taper, largeDiameter, length, toolHeight: -toolHeight }).cuts).toEqual(found.cuts);
        const scaled = toolHeightSurface({
          taper,
          largeDiameter: 25.4 * largeDiameter,
          length: 25.4 * length,
          toolHeight: 25.4 * toolHeight,
        });
        expect(Math.abs(scaled.smallDiameter / found.smallDiameter / 25.4 - 1)).toBeLessThan(1e-13);
        expect(Math.abs(scaled.cuts.rate / found.cuts.rate - 1)).toBeLessThan(1e-12);
      }),
    );
  });

  it('at centre height is the cone that was wanted', () => {
    const { surface, cuts, heightError, hollow } = toolHeightSurface({
      taper: { perSide: 0.25 },
      length: 8,
      largeDiameter: 10,
      toolHeight: 0,
    });
    expect(surface).toMatchObject({ kind: 'cone', apexZ: 20 });
    expect({ cuts: cuts.rate, heightError, hollow }).toEqual({ cuts: 0.5, heightError: 0, hollow: 0 });
  });

  it('cuts to the waist, and to a point', () => {
    const waist = toolHeightSurface({ taper: { perSide: 1 }, length: 4, largeDiameter: 10, toolHeight: 3 });
    expect(waist.smallDiameter).toBeCloseTo(6, 13);
    const point = toolHeightSurface({ taper: { perSide: 1 }, length: 5, largeDiameter: 10, toolHeight: 0 });
    expect(point.smallDiameter).toBe(0);
    const grown = toolHeightSurface({ taper: { perSide: 1 }, length: 5, smallDiameter: 0, toolHeight: 0 });
    expect(grown.largeDiameter).toBeCloseTo(10, 13);
  });
});

describe('toolHeightTolerance', () => {
  it('is the height at which the surface is just that much off', () => {
    fc.assert(
      fc.property(cut, fc.constantFrom('largeDiameter', 'smallDiameter'), (given, sized) => {
        const { taper, length, toolHeight } = given;
        const large = { largeDiameter: given.largeDiameter } as const;
        const size = sized === 'largeDiameter' ? large : sizedSmall(given);
        const { heightError } = toolHeightSurface({ taper, length, toolHeight, ...size });
        const diameterTolerance = Math.abs(heightError);
        if (diameterTolerance < 1e-300) return;
        const height = toolHeightTolerance({ taper, length, diameterTolerance, ...size });
        expect(Math.abs(height / Math.abs(toolHeight) - 1)).toBeLessThan(1e-11);
      }),
      { numRuns: runs(1000, 300) },
    );
    function sizedSmall(given: Parameters<typeof toolHeightSurface>[0]): { readonly smallDiameter: number } {
      return { smallDiameter: toolHeightSurface(given).smallDiameter };
    }
  });

  it('stops where the tool no longer cuts to the end', () => {
    const taper = { perSide: 1 } as const;
    const loose = { taper, length: 3, diameterTolerance: 1000 };
    expect(toolHeightTolerance({ ...loose, largeDiameter: 10 })).toBeCloseTo(4, 14);
    expect(toolHeightTolerance({ ...loose, smallDiameter: 4 })).toBe(2);
    expect(toolHeightTolerance({ ...loose, smallDiameter: 0 })).toBe(0);
    expect(toolHeightSurface({ taper, length: 3, largeDiameter: 10, toolHeight: 4 }).smallDiameter).toBe(8);
  });
});

const level = { touchOffError: 0, headstockPlanDeg: 0, headstockUprightDeg: 0 };
it('toolHeightModel is the surface', () => {
  fc.assert(
    fc.property(cut, ({ taper, ...given }) => {
      const value = toolHeightModel.evaluate(numbers, { ...given, ...taper, ...level });
      expect(Math.abs(value / toolHeightSurface({ taper, ...given }).smallDiameter - 1)).toBeLessThan(1e-12);
    }),
  );
});

const good = { taper: { oneIn: 10 }, length: 50, largeDiameter: 20, toolHeight: 0 } as const;
it.each<[string, () => unknown]>([
  ['accepted', () => toolHeightSurface(good)],
  ['wrong-kind ', () => toolHeightSurface(null as never)],
  ['unknown-option height', () => toolHeightSurface({ ...good, height: 1 } as never)],
  ['missing-option toolHeight', () => toolHeightSurface({ ...good, toolHeight: undefined } as never)],
  ['missing-option largeDiameter', () => toolHeightSurface({ ...good, largeDiameter: undefined } as never)],
  ['contradiction largeDiameter', () => toolHeightSurface({ ...good, smallDiameter: 1 } as never)],
  ['out-of-range toolHeight', () => toolHeightSurface({ ...good, toolHeight: 10.1 })],
  ['not-finite toolHeight', () => toolHeightSurface({ ...good, toolHeight: Number.NaN })],
  ['out-of-range length', () => toolHeightSurface({ ...good, length: 0 })],
  ['impossible-geometry length', () => toolHeightSurface({ ...good, length: 201 })],
  ['impossible-geometry length', () => toolHeightSurface({ ...good, length: 199.9, toolHeight: 1 })],
  [
    'out-of-range smallDiameter',
    () => toolHeightSurface({ ...good, largeDiameter: undefined, smallDiameter: -1 } as never),
  ],
  ['not-representable length', () => toolHeightSurface({ ...good, largeDiameter: 1e200, toolHeight: 1e199 })],
  [
    'not-representable length',
    () => toolHeightSurface({ taper: { perSide: 1 }, length: 1e200 - 1e150, largeDiameter: 2e200, toolHeight: 1e100 }),
  ],
  [
    'not-representable diameterTolerance',
    () => toolHeightTolerance({ ...strip(), length: 1e200, largeDiameter: 1e200, diameterTolerance: 1e200 }),
  ],
  ['out-of-range diameterTolerance', () => toolHeightTolerance({ ...strip(), diameterTolerance: 0 })],
  ['impossible-geometry length', () => toolHeightTolerance({ ...strip(), length: 201, diameterTolerance: 1 })],
  ['unknown-option toolHeight', () => toolHeightTolerance({ ...good, diameterTolerance: 1 } as never)],
])('%s', (wanted, call) => {
  expect(refusal(call)).toBe(wanted);
});

function strip(): { taper: { oneIn: number }; length: number; largeDiameter: number } {
  const { toolHeight: _, ...rest } = good;
  return { ...rest };
}
