import fc from 'fast-check';
import {
  type GuideBarScale,
  guideBarBedModel,
  guideBarCorrection,
  guideBarModel,
  guideBarSettings,
  guideBarSurface,
} from 'generatrix';
import { describe, expect, it } from 'vitest';
import { plainArithmetic } from '../../src/budget/arithmetic.js';
import { refusal } from '../oracle/refusal.js';
import { brutePath } from './brute-path.js';

const radians = (deg: number): number => (deg * Math.PI) / 180;
const angle = fc.double({ min: 0.01, max: 45, noNaN: true });
const bar = { by: 'offset', radius: 250, radiusAlong: 'bar' } as const;
const bed = { by: 'offset', radius: 250, radiusAlong: 'bed' } as const;
const scales = fc.constantFrom<GuideBarScale>(
  { by: 'half-angle' },
  { by: 'included-angle' },
  { by: 'per-foot' },
  bar,
  bed,
);

/** What a bar at this angle shows on its scale, found by turning points of the bar in the plane. */
function shows(scale: GuideBarScale, halfAngleDeg: number): number {
  const turn = ([along, across]: readonly [number, number]): readonly [number, number] => {
    const [c, s] = [Math.cos(radians(halfAngleDeg)), Math.sin(radians(halfAngleDeg))];
    return [along * c - across * s, along * s + across * c];
  };
  const [along, across] = turn([250, 0]);
  if (scale.by === 'half-angle') return halfAngleDeg;
  if (scale.by === 'included-angle') return 2 * halfAngleDeg;
  // Per foot: the diameter grows by twice the tool's way across in 12 along the bed.
  if (scale.by === 'per-foot') return (12 * 2 * across) / along;
  return scale.radiusAlong === 'bar' ? across : (250 * across) / along;
}

describe('guideBarSettings', () => {
  it('reads what a bar turned in the plane shows, on every scale', () => {
    fc.assert(
      fc.property(angle, scales, (halfAngleDeg, scale) => {
        const { reading, crossTravel, cuts } = guideBarSettings({ taper: { halfAngleDeg }, length: 80, scale });
        expect(Math.abs(reading / shows(scale, halfAngleDeg) - 1)).toBeLessThan(1e-14);
        expect(Math.abs(crossTravel / 80 / Math.tan(radians(halfAngleDeg)) - 1)).toBeLessThan(1e-14);
        expect(cuts.rateError).toBe(0);
      }),
    );
  });

  it('gives the sensitivity that a small change of the reading shows', () => {
    fc.assert(
      fc.property(angle, scales, (halfAngleDeg, scale) => {
        const { reading, diameterPerReading } = guideBarSettings({ taper: { halfAngleDeg }, length: 80, scale });
        const step = 1e-5 * reading;
        const at = (shown: number): number =>
          guideBarSurface({ reading: shown, scale, length: 80, largeDiameter: 400 }).smallDiameter;
        const difference = (at(reading - step) - at(reading + step)) / (2 * step);
        // The diameter, 400, is rounded to 1e-13; it changes by 1e-5 of at least 0.03.
        expect(Math.abs(difference / diameterPerReading - 1)).toBeLessThan(1e-6);
      }),
    );
  });

  it('says what the nearest graduation cuts, and what a shop rule would', () => {
    const foot = guideBarSettings({
      taper: { perFoot: 0.602 },
      length: 4,
      scale: { by: 'per-foot', step: 1 / 16 },
      travel: 10,
    });
    expect(foot.settableReading).toBe(0.625);
    // 0.023 in per foot over 4 in.
    expect(foot.differenceError).toBeCloseTo((0.023 * 4) / 12, 15);
    expect(foot.longestLength).toBe(10);
    expect(foot).not.toHaveProperty('rule');
    expect(foot.notes.map(({ code }) => code)).toEqual(['dial-rounded']);

    const included = guideBarSettings({ taper: { oneIn: 5 }, length: 40, scale: { by: 'included-angle' } });
    expect(included.rule?.value).toBeCloseTo(2 * 28.65 * 0.2, 13);
    expect(included.notes.map(({ code }) => code)).toEqual(['rule-differs']);

    // Like the set-over rule: ϱ tan α on a mark of the bar is too much by 1/cos α.
    const mark = guideBarSettings({ taper: { halfAngleDeg: 8 }, length: 40, scale: bar });
    expect((mark.rule?.value ?? 0) / mark.reading).toBeCloseTo(1 / Math.cos(radians(8)), 14);
    expect(mark.rule?.cuts.halfAngleDeg).toBeCloseTo((Math.asin(Math.tan(radians(8))) * 180) / Math.PI, 12);
    expect(guideBarSettings({ taper: { halfAngleDeg: 46 }, length: 40, scale: bar })).not.toHaveProperty('rule');
    expect(guideBarSettings({ taper: { halfAngleDeg: 8 }, length: 40, scale: bed })).not.toHaveProperty('rule');
  });

  it('does not depend on the unit', () => {
    const by = (unit: number): readonly number[] => {
      const scale = { by: 'offset', radius: 10 * unit, radiusAlong: 'bar', step: 0.01 * unit } as const;
      const found = guideBarSettings({ taper: { oneIn: 7 }, length: 3 * unit, scale });
      return [found.reading, found.settableReading, found.differenceError, found.crossTravel];
    };
    by(25.4).forEach((value, i) => {
      // The error is a difference of tangents, a thousandth of them.
      expect(Math.abs(value / 25.4 / (by(1)[i] ?? 0) - 1)).toBeLessThan(1e-12);
    });
  });
});

const set = fc.record({ wanted: angle, scale: scales, zeroErrorDeg: fc.double({ min: -1, max: 1, noNaN: true }) });

it('guideBarSurface is what points on the path cut, errors included', () => {
  fc.assert(
    fc.property(
      set.filter(({ wanted, zeroErrorDeg }) => wanted + zeroErrorDeg > 0.01),
      fc.double({ min: 0.05, max: 0.9, noNaN: true }),
      fc.double({ min: -0.3, max: 0.3, noNaN: true }),
      ({ wanted, scale, zeroErrorDeg }, share, off) => {
        const real = radians(wanted + zeroErrorDeg);
        const length = (share * 20) / Math.tan(real);
        const toolHeight = off * 20 * (1 - share);
        const path = brutePath(real, toolHeight, 20);
        const found = guideBarSurface({
          reading: shows(scale, wanted),
          scale,
          zeroErrorDeg,
          toolHeight,
          length,
          largeDiameter: 40,
        });
        // 45° and 1° are rounded in the last place; against an angle of 0.01° that is a thousandth of 1e-12 …
        // times the fall, up to nine times the small radius.
        expect(Math.abs(found.smallDiameter / 2 / path(length) - 1)).toBeLessThan(1e-12);
      },
    ),
  );
});

describe('guideBarCorrection', () => {
  it('undoes what the surface shows', () => {
    fc.assert(
      fc.property(
        set.filter(({ wanted, zeroErrorDeg }) => wanted + zeroErrorDeg > 0.01),
        angle,
        ({ wanted, scale, zeroErrorDeg }, target) => {
          const reading = shows(scale, wanted);
          const distance = 5 / Math.tan(radians(wanted + zeroErrorDeg));
          const ends = guideBarSurface({ reading, scale, zeroErrorDeg, length: distance, largeDiameter: 20 });
          const found = guideBarCorrection({
            taper: { halfAngleDeg: target },
            reading,
            scale,
            largeDiameter: ends.largeDiameter,
            smallDiameter: ends.smallDiameter,
            length: distance,
          });
          expect(Math.abs(found.zeroErrorDeg - zeroErrorDeg)).toBeLessThan(1e-12);
          // 1e-12° on the scale of 250, or of 24 times the tangent: some 1e-11 of a reading.
          expect(Math.abs(found.reading - shows(scale, target - zeroErrorDeg))).toBeLessThan(1e-11);
          expect(found.cuts.halfAngleDeg).toBeCloseTo(target, 11);
          expect(found.changeDeg).toBeCloseTo(target - wanted - zeroErrorDeg, 11);
        },
      ),
    );
  });

  it('says how far the tool must follow: z times the change of the tangent', () => {
    const trial = {
      taper: { oneIn: 20 },
      reading: 1.5,
      largeDiameter: 30,
      smallDiameter: 24.8,
      length: 100,
    } as const;
    expect(guideBarCorrection({ ...trial, sliderFromPivot: 150 }).toolMove).toBeCloseTo(150 * (0.025 - 0.026), 13);
    expect(guideBarCorrection({ ...trial, sliderFromPivot: -150 }).toolMove).toBeCloseTo(150 * (0.026 - 0.025), 13);
    expect(guideBarCorrection(trial)).not.toHaveProperty('toolMove');
  });

  it('tells what a graduation will cut on a scale whose zero is off', () => {
    const found = guideBarCorrection({
      taper: { halfAngleDeg: 3 },
      reading: 3,
      scale: { by: 'half-angle', step: 0.5 },
      largeDiameter: 40,
      smallDiameter: 40 - 200 * Math.tan(radians(2.8)),
      length: 100,
      diameterStandardUncertainty: 0.01,
    });
    expect(found.reading).toBeCloseTo(3.2, 11);
    expect(found.settableReading).toBe(3);
    expect(found.cuts.halfAngleDeg).toBeCloseTo(2.8, 11);
    expect(found.notes.map(({ code }) => code)).toEqual(['dial-rounded']);
    // Two diameters of 0.01 over 100: 0.01/√2/100 of tangent.
    expect(found.changeStandardUncertaintyDeg).toBeCloseTo(
      ((0.01 / Math.SQRT2 / 100) * Math.cos(radians(2.8)) ** 2 * 180) / Math.PI,
      12,
    );
  });
});

it.each([
  [guideBarModel, bar],
  [guideBarBedModel, bed],
])('$name is the surface', (model, scale) => {
  const lie = { headstockPlanDeg: 0.1, headstockUprightDeg: 0.3 };
  const cut = { zeroErrorDeg: 0.3, touchOffError: -0.1, largeDiameter: 60, length: 120, toolHeight: 2, ...lie };
  const { smallDiameter } = guideBarSurface({ reading: 20, scale, ...cut });
  expect(model.evaluate(plainArithmetic, { offset: 20, radius: 250, ...cut })).toBeCloseTo(smallDiameter, 12);
});

const settings = { taper: { oneIn: 10 }, length: 40 } as const;
const cut = { reading: 5, length: 20, largeDiameter: 40 } as const;
const trial = { taper: { oneIn: 10 }, reading: 3, largeDiameter: 40, smallDiameter: 36, length: 40 } as const;
it.each<[string, () => unknown]>([
  ['accepted', () => guideBarSettings(settings)],
  ['unknown-option angle', () => guideBarSettings({ ...settings, angle: 1 } as never)],
  ['missing-option length', () => guideBarSettings({ taper: { oneIn: 10 } } as never)],
  ['beyond-machine length', () => guideBarSettings({ ...settings, travel: 39.9 })],
  ['beyond-machine scale', () => guideBarSettings({ ...settings, scale: { by: 'per-foot', to: 1 } })],
  ['missing-option scale.by', () => guideBarSettings({ ...settings, scale: {} as never })],
  ['out-of-range scale.by', () => guideBarSettings({ ...settings, scale: { by: 'eye' as never } })],
  ['out-of-range scale.step', () => guideBarSettings({ ...settings, scale: { by: 'per-foot', step: 0 } })],
  ['missing-option scale.radius', () => guideBarSettings({ ...settings, scale: { by: 'offset' } })],
  ['missing-option scale.radiusAlong', () => guideBarSettings({ ...settings, scale: { by: 'offset', radius: 9 } })],
  ['out-of-range scale.radius', () => guideBarSettings({ ...settings, scale: { ...bar, radius: 0 } })],
  [
    'out-of-range scale.radiusAlong',
    () => guideBarSettings({ ...settings, scale: { ...bar, radiusAlong: 'x' as never } }),
  ],
  ['contradiction scale.radius', () => guideBarSettings({ ...settings, scale: { by: 'per-foot', radius: 9 } })],
  [
    'contradiction scale.radiusAlong',
    () => guideBarSettings({ ...settings, scale: { by: 'half-angle', radiusAlong: 'bar' } }),
  ],
  ['not-representable length', () => guideBarSettings({ taper: { halfAngleDeg: 89 }, length: 1e308 })],
  [
    'not-representable scale',
    () => guideBarSettings({ taper: { halfAngleDeg: 89 }, length: 1, scale: { ...bed, radius: 1e308 } }),
  ],
  ['accepted', () => guideBarSurface(cut)],
  ['out-of-range reading', () => guideBarSurface({ ...cut, reading: 90 })],
  ['out-of-range reading', () => guideBarSurface({ ...cut, reading: 250, scale: bar })],
  ['not-finite reading', () => guideBarSurface({ ...cut, reading: Number.NaN })],
  ['missing-option largeDiameter', () => guideBarSurface({ reading: 1, length: 2 } as never)],
  ['impossible-geometry length', () => guideBarSurface({ ...cut, length: 2000 })],
  ['accepted', () => guideBarCorrection(trial)],
  ['missing-option reading', () => guideBarCorrection({ ...trial, reading: undefined as never })],
  ['out-of-range reading', () => guideBarCorrection({ ...trial, taper: { halfAngleDeg: 89.9 } })],
  [
    'out-of-range scale',
    () =>
      guideBarCorrection({ ...trial, reading: 2, taper: { halfAngleDeg: 80 }, scale: { by: 'half-angle', step: 45 } }),
  ],
  ['not-finite sliderFromPivot', () => guideBarCorrection({ ...trial, sliderFromPivot: Infinity })],
])('%s', (wanted, call) => {
  expect(refusal(call)).toBe(wanted);
});

it('leaves no -0 where a length is too small for the error of its diameter (found by fuzzing)', () => {
  const { differenceError } = guideBarSettings({
    taper: { halfAngleDeg: 0.4524 },
    length: 5e-324,
    scale: { by: 'half-angle', step: 0.001 },
  });
  expect(Object.is(differenceError, -0)).toBe(false);
});
