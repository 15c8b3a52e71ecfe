import fc from 'fast-check';
import { topSlideCorrection, topSlideFromMaster, topSlideModel, topSlideSettings, topSlideSurface } from 'generatrix';
import { describe, expect, it } from 'vitest';
import { plainArithmetic } from '../../src/budget/arithmetic.js';
import { refusal } from '../oracle/refusal.js';
import { published } from '../reference/published.js';
import { brutePath } from './brute-path.js';

const radians = (deg: number): number => (deg * Math.PI) / 180;
const angle = fc.double({ min: 0.01, max: 80, noNaN: true });
const length = fc.double({ min: 0.1, max: 500, noNaN: true });
const scales = fc.constantFrom({ reads: 'from-axis' } as const, { reads: 'from-across' } as const);

describe('published settings', () => {
  const fromAcross = { reads: 'from-across', stepDeg: 1, fromDeg: 0, toDeg: 90 } as const;
  // The sources print whole degrees, which these settings are exactly.
  it('T2-ARMY-1: truing a 60° lathe centre', () => {
    const { inputs, published: printed } = published('T2-ARMY-1');
    expect(inputs).toEqual({ included: '60 deg' });
    const { readingDeg, settableReadingDeg } = topSlideSettings({
      taper: { includedAngleDeg: 60 },
      length: 20,
      scale: { reads: 'from-axis', stepDeg: 1 },
    });
    expect(readingDeg).toBeCloseTo(Number(printed['setting']?.value), 13);
    expect(settableReadingDeg).toBe(Number(printed['setting']?.value));
  });

  it('T2-JON-3: a valve face of 90°, on a scale that reads from across', () => {
    const { inputs, published: printed } = published('T2-JON-3');
    expect(inputs).toEqual({ included: '90 deg' });
    const set = topSlideSettings({ taper: { includedAngleDeg: 90 }, length: 5, scale: fromAcross });
    expect(set.settableReadingDeg).toBe(Number(printed['setting_from_cross']?.value));
  });

  it('T2-JON-4: a face at 30° to the axis, on a scale that reads from across', () => {
    const { inputs, published: printed } = published('T2-JON-4');
    expect(inputs).toEqual({ angle_with_axis: '30 deg' });
    const set = topSlideSettings({ taper: { halfAngleDeg: 30 }, length: 5, scale: fromAcross });
    expect(set.settableReadingDeg).toBe(Number(printed['setting_from_cross']?.value));
    expect(set.readingDeg).toBeCloseTo(60, 13);
  });
});

describe('topSlideSettings', () => {
  it('gives travel and indicator movements of a slide drawn in the plane', () => {
    fc.assert(
      fc.property(angle, length, length, (halfAngleDeg, cut, indicatorTravel) => {
        const set = topSlideSettings({ taper: { halfAngleDeg }, length: cut, indicatorTravel });
        // The slide as a unit vector: along the axis and across it.
        const [along, across] = [Math.cos(radians(halfAngleDeg)), Math.sin(radians(halfAngleDeg))];
        expect(Math.abs((set.travelNeeded * along) / cut - 1)).toBeLessThan(1e-14);
        expect(Math.abs(set.indicatorOnCylinder / (indicatorTravel * across) - 1)).toBeLessThan(1e-14);
        // The edge passes a fixed plunger: where the edge's line meets it after the carriage moved.
        expect(Math.abs(set.indicatorOnSlide / ((indicatorTravel / along) * across) - 1)).toBeLessThan(1e-14);
      }),
    );
  });

  it('gives the sensitivity that a small turn shows', () => {
    fc.assert(
      fc.property(angle, length, (halfAngleDeg, cut) => {
        const { diameterPerDegree, diameterPerMinute } = topSlideSettings({ taper: { halfAngleDeg }, length: cut });
        const turn = 1e-4;
        const difference =
          (2 * cut * (Math.tan(radians(halfAngleDeg + turn)) - Math.tan(radians(halfAngleDeg - turn)))) / (2 * turn);
        // Central difference: its own error is of order (turn/cot)², below 1e-9 up to 80°, and rounding 1e-11.
        expect(Math.abs(difference / diameterPerDegree - 1)).toBeLessThan(1e-8);
        expect(diameterPerMinute * 60).toBeCloseTo(diameterPerDegree, 9);
      }),
    );
  });

  it('says what the nearest graduation cuts, and what the rule of thumb would', () => {
    const set = topSlideSettings({
      taper: { oneIn: 5 },
      length: 40,
      scale: { reads: 'from-across', stepDeg: 0.5 },
      travel: 60,
    });
    // atan 0.1 = 5.7106°, so 5.5° or 84.5°.
    expect(set.settableReadingDeg).toBe(84.5);
    expect(set.cuts.halfAngleDeg).toBeCloseTo(5.5, 13);
    expect(set.cuts.rate).toBeCloseTo(2 * Math.tan(radians(5.5)), 15);
    expect(set.differenceError).toBeCloseTo(80 * (Math.tan(radians(5.5)) - 0.1), 13);
    expect(set.longestLength).toBeCloseTo(60 * Math.cos(Math.atan(0.1)), 12);
    // 28.65 × 0.2 = 5.73°, two thousandths of the taper (0.34 %) too steep.
    expect(set.rule?.value).toBeCloseTo(5.73, 13);
    expect(set.rule?.cuts.rateError).toBeCloseTo(2 * (Math.tan(radians(5.73)) - 0.1), 14);
    expect(set.notes.map(({ code }) => code)).toEqual(['dial-rounded', 'rule-differs']);
    expect(topSlideSettings({ taper: { oneIn: 50 }, length: 40 }).notes).toEqual([]);
    expect(topSlideSettings({ taper: { halfAngleDeg: 70 }, length: 40 })).not.toHaveProperty('rule');
  });

  it('cuts just as long as the travel reaches', () => {
    fc.assert(
      fc.property(angle, length, (halfAngleDeg, cut) => {
        const { travelNeeded } = topSlideSettings({ taper: { halfAngleDeg }, length: cut });
        const found = topSlideSettings({ taper: { halfAngleDeg }, length: cut, travel: travelNeeded });
        expect(Math.abs((found.longestLength ?? 0) / cut - 1)).toBeLessThan(1e-14);
      }),
    );
  });

  it('does not depend on the unit', () => {
    const by = (unit: number): readonly number[] => {
      const set = topSlideSettings({
        taper: { oneIn: 7 },
        length: 3 * unit,
        scale: { reads: 'from-axis', stepDeg: 0.25 },
      });
      return [
        set.travelNeeded,
        set.indicatorOnCylinder,
        set.indicatorOnSlide,
        set.diameterPerDegree,
        set.differenceError,
      ];
    };
    by(25.4).forEach((value, i) => {
      expect(Math.abs(value / 25.4 / (by(1)[i] ?? 0) - 1)).toBeLessThan(1e-14);
    });
  });
});

const set = fc.record({ wanted: angle, scale: scales, zeroErrorDeg: fc.double({ min: -1, max: 1, noNaN: true }) });

describe('topSlideSurface', () => {
  it('is what points on the slide cut, its errors included', () => {
    fc.assert(
      fc.property(
        set.filter(({ wanted, zeroErrorDeg }) => wanted + zeroErrorDeg > 0.001),
        fc.double({ min: 0.05, max: 0.9, noNaN: true }),
        fc.double({ min: -0.3, max: 0.3, noNaN: true }),
        ({ wanted, scale, zeroErrorDeg }, share, off) => {
          const readingDeg = scale.reads === 'from-axis' ? wanted : 90 - wanted;
          const real = radians(wanted + zeroErrorDeg);
          const cut = (share * 20) / Math.tan(real);
          const toolHeight = off * 20 * (1 - share);
          const path = brutePath(real, toolHeight, 20);
          const found = topSlideSurface({
            readingDeg,
            scale,
            zeroErrorDeg,
            toolHeight,
            length: cut,
            largeDiameter: 40,
          });
          // 90 - reading loses what the reading's own last digit, up to 1.4e-14°, is worth of 0.001°.
          expect(Math.abs(found.smallDiameter / 2 / path(cut) - 1)).toBeLessThan(
            scale.reads === 'from-axis' ? 1e-12 : 1e-9,
          );
        },
      ),
    );
  });

  it('is a cylinder with the slide along the axis, and grows the other way beyond it', () => {
    const along = topSlideSurface({ readingDeg: 0, length: 10, largeDiameter: 20 });
    expect(along.surface).toEqual({ kind: 'cylinder', radius: 10 });
    expect(along).toMatchObject({ smallDiameter: 20, heightError: 0, differenceError: 0, hollow: 0 });
    const beyond = topSlideSurface({ readingDeg: 0, zeroErrorDeg: -1, toolHeight: 1, length: 10, largeDiameter: 20 });
    expect(beyond.smallDiameter).toBeGreaterThan(20);
    expect(topSlideSurface({ readingDeg: 0, toolHeight: 10, length: 10, largeDiameter: 20 }).hollow).toBe(0);
  });
});

it('a touching off that is off is another diameter', () => {
  const set = { readingDeg: 5, zeroErrorDeg: 0.1, toolHeight: 0.3, length: 40 };
  const off = topSlideSurface({ ...set, smallDiameter: 20, touchOffError: -0.25 });
  expect(off).toEqual(topSlideSurface({ ...set, smallDiameter: 19.75 }));
});

describe('topSlideCorrection', () => {
  it('undoes what the surface shows', () => {
    fc.assert(
      fc.property(
        // A trial that came out about half as steep as its setting is doubted, and gets a note.
        set.filter(({ wanted, zeroErrorDeg }) => wanted + zeroErrorDeg > Math.max(0.001, 0.75 * wanted)),
        angle,
        ({ wanted, scale, zeroErrorDeg }, target) => {
          const readingDeg = scale.reads === 'from-axis' ? wanted : 90 - wanted;
          const distance = 5 / Math.tan(radians(wanted + zeroErrorDeg));
          const { largeDiameter, smallDiameter } = topSlideSurface({
            readingDeg,
            scale,
            zeroErrorDeg,
            length: distance,
            largeDiameter: 20,
          });
          const found = topSlideCorrection({
            taper: { halfAngleDeg: target },
            largeDiameter,
            smallDiameter,
            length: distance,
            readingDeg,
            scale,
          });
          // A rounding of the diameters is worth about 1e-16 rad × tan; degrees are rounded near 90.
          expect(Math.abs((found.zeroErrorDeg ?? Number.NaN) - zeroErrorDeg)).toBeLessThan(1e-12);
          const newAngle = target - zeroErrorDeg;
          const newReading = scale.reads === 'from-axis' ? newAngle : 90 - newAngle;
          expect(Math.abs((found.setting?.readingDeg ?? Number.NaN) - newReading)).toBeLessThan(1e-12);
          expect(found.cuts?.halfAngleDeg).toBeCloseTo(target, 11);
          expect(found.notes).toEqual([]);
        },
      ),
    );
  });

  it('gives the change in degrees, minutes and movements of an indicator', () => {
    const found = topSlideCorrection({
      taper: { halfAngleDeg: 10 },
      largeDiameter: 40,
      smallDiameter: 40 - 2 * 50 * Math.tan(radians(9.9)),
      length: 50,
      indicatorTravel: 30,
      edgeDistance: 80,
      readingDeg: 10,
      scale: { reads: 'from-axis', stepDeg: 0.25 },
    });
    expect(found.changeDeg).toBeCloseTo(0.1, 12);
    expect(found.changeMinutes).toBeCloseTo(6, 10);
    expect(found.indicatorOnCylinder).toBeCloseTo(30 * (Math.sin(radians(10)) - Math.sin(radians(9.9))), 12);
    expect(found.indicatorOnSlide).toBeCloseTo(30 * (Math.tan(radians(10)) - Math.tan(radians(9.9))), 12);
    expect(found.edgeMovement).toBeCloseTo(80 * Math.tan(radians(0.1)), 10);
    // 10.1° is wanted on a scale 0.1° low; 10° is nearest and cuts 9.9° as before.
    expect(found.setting?.settableReadingDeg).toBe(10);
    expect(found.cuts?.halfAngleDeg).toBeCloseTo(9.9, 12);
    expect(found.notes.map(({ code }) => code)).toEqual(['dial-rounded']);
    expect(found).not.toHaveProperty('changeStandardUncertaintyDeg');
  });

  it('notes a trial that looks mistyped, against its reading or else against the taper wanted', () => {
    const codes = (largeDiameter: number, smallDiameter: number, more: object = {}) =>
      topSlideCorrection({ taper: { oneIn: 10 }, largeDiameter, smallDiameter, length: 40, ...more }).notes.map(
        ({ code }) => code,
      );
    expect(codes(30, 26.1)).toEqual([]);
    expect(codes(26.1, 30)).toEqual(['diameters-swapped']);
    expect(codes(15, 13.05)).toEqual(['radii-for-diameters']);
    // Half the taper at half the angle is what was set.
    expect(codes(30, 28.05, { readingDeg: 1.4 })).toEqual([]);
    expect(codes(28.05, 30, { readingDeg: 1.4 })).toEqual(['diameters-swapped']);
  });

  it('carries uncertainties as differences of the measured numbers do', () => {
    const measured = { taper: { halfAngleDeg: 20 }, largeDiameter: 40, smallDiameter: 25, length: 20 } as const;
    const at = (change: object): number => topSlideCorrection({ ...measured, ...change }).changeDeg;
    const h = 1e-4;
    const slopes = [
      (at({ largeDiameter: 40 + h }) - at({ largeDiameter: 40 - h })) / (2 * h),
      (at({ smallDiameter: 25 + h }) - at({ smallDiameter: 25 - h })) / (2 * h),
      (at({ length: 20 + h }) - at({ length: 20 - h })) / (2 * h),
    ];
    const [large = 0, small = 0, distance = 0] = slopes;
    const { changeStandardUncertaintyDeg } = topSlideCorrection({
      ...measured,
      diameterStandardUncertainty: 0.01,
      lengthStandardUncertainty: 0.05,
    });
    // Central differences with a step of 1e-4 of some tens: good to 1e-9.
    expect(changeStandardUncertaintyDeg).toBeCloseTo(Math.hypot(0.01 * large, 0.01 * small, 0.05 * distance), 8);
  });
});

describe('topSlideFromMaster', () => {
  it('gives the movement of a plunger between two lines in the plane', () => {
    fc.assert(
      fc.property(angle, angle, length, (master, wanted, travel) => {
        const found = topSlideFromMaster({
          master: { halfAngleDeg: master },
          taper: { halfAngleDeg: wanted },
          travel,
          length: 10,
          differenceTolerance: 0.01,
        });
        const [along, across] = [travel * Math.cos(radians(wanted)), travel * Math.sin(radians(wanted))];
        const gap = across - along * Math.tan(radians(master));
        // Differences of movements up to travel times the master's tangent, 6 at the most.
        expect(Math.abs(found.needle - gap)).toBeLessThan(1e-13 * travel);
      }),
    );
  });

  it('is the sine of the slide along a true cylinder', () => {
    const found = topSlideFromMaster({
      master: 'cylinder',
      taper: { halfAngleDeg: 30 },
      travel: 50,
      length: 10,
      differenceTolerance: 0.01,
    });
    expect(found.needle).toBeCloseTo(25, 13);
  });

  it('bounds the needle by slides that are just within the tolerance', () => {
    fc.assert(
      fc.property(angle, length, (halfAngleDeg, travel) => {
        const given = { master: { halfAngleDeg }, travel, length: 80, differenceTolerance: 0.02 } as const;
        const { needle, needleFrom, needleTo, angleFromDeg, angleToDeg } = topSlideFromMaster(given);
        expect(needle).toBe(0);
        for (const [shown, at, error] of [
          [needleFrom, angleFromDeg, -0.02],
          [needleTo, angleToDeg, 0.02],
        ] as const) {
          const { found } = topSlideFromMaster({ ...given, shown });
          // Diameters up to 900 are differenced.
          expect(Math.abs((found?.differenceError ?? Number.NaN) - error)).toBeLessThan(1e-11);
          expect(found?.cuts.halfAngleDeg).toBeCloseTo(at, 11);
          expect(found?.changeDeg).toBeCloseTo(halfAngleDeg - at, 11);
          const errorOfAngle = 160 * (Math.tan(radians(at)) - Math.tan(radians(halfAngleDeg)));
          expect(Math.abs(errorOfAngle - error)).toBeLessThan(1e-10);
        }
        expect(topSlideFromMaster({ ...given, shown: 0.99 * needleTo }).found?.withinTolerance).toBe(true);
        expect(topSlideFromMaster({ ...given, shown: 1.01 * needleTo }).found?.withinTolerance).toBe(false);
      }),
    );
  });
});

it('topSlideModel is the surface', () => {
  const inputs = {
    angleDeg: 12,
    zeroErrorDeg: 0.2,
    touchOffError: 0.1,
    largeDiameter: 40,
    length: 60,
    toolHeight: 1.5,
    headstockPlanDeg: 0.1,
    headstockUprightDeg: 0.3,
  };
  const { angleDeg, ...cut } = inputs;
  const { smallDiameter } = topSlideSurface({ readingDeg: angleDeg, ...cut });
  expect(topSlideModel.evaluate(plainArithmetic, inputs)).toBeCloseTo(smallDiameter, 12);
});

const cut = { readingDeg: 5, length: 20, largeDiameter: 40 } as const;
const trial = { taper: { oneIn: 10 }, largeDiameter: 40, smallDiameter: 36, length: 40 } as const;
const master = { master: { oneIn: 10 }, travel: 50, length: 40, differenceTolerance: 0.01 } as const;
const settings = { taper: { oneIn: 10 }, length: 40 } as const;
it.each<[string, () => unknown]>([
  ['accepted', () => topSlideSettings(settings)],
  ['unknown-option angle', () => topSlideSettings({ ...settings, angle: 1 } as never)],
  ['missing-option length', () => topSlideSettings({ taper: { oneIn: 10 } } as never)],
  ['out-of-range length', () => topSlideSettings({ ...settings, length: 0 })],
  ['out-of-range travel', () => topSlideSettings({ ...settings, travel: 0 })],
  ['out-of-range indicatorTravel', () => topSlideSettings({ ...settings, indicatorTravel: 0 })],
  ['beyond-machine length', () => topSlideSettings({ ...settings, travel: 40 })],
  ['beyond-machine scale', () => topSlideSettings({ ...settings, scale: { reads: 'from-across', toDeg: 60 } })],
  [
    'out-of-range scale',
    () => topSlideSettings({ taper: { halfAngleDeg: 80 }, length: 1, scale: { reads: 'from-axis', stepDeg: 45 } }),
  ],
  ['wrong-kind scale', () => topSlideSettings({ ...settings, scale: 1 as never })],
  ['out-of-range taper.halfAngleDeg', () => topSlideSettings({ ...settings, taper: { halfAngleDeg: 90 } })],
  ['not-representable length', () => topSlideSettings({ taper: { halfAngleDeg: 89 }, length: 1e308 })],
  [
    'not-representable indicatorTravel',
    () => topSlideSettings({ taper: { halfAngleDeg: 89 }, length: 1, indicatorTravel: 1e308 }),
  ],
  ['accepted', () => topSlideSurface(cut)],
  ['out-of-range readingDeg', () => topSlideSurface({ ...cut, readingDeg: 90 })],
  ['out-of-range readingDeg', () => topSlideSurface({ ...cut, readingDeg: -1, scale: { reads: 'from-across' } })],
  ['out-of-range zeroErrorDeg', () => topSlideSurface({ ...cut, zeroErrorDeg: 85 })],
  ['out-of-range zeroErrorDeg', () => topSlideSurface({ ...cut, zeroErrorDeg: 90 })],
  ['impossible-geometry length', () => topSlideSurface({ ...cut, length: 2000 })],
  ['out-of-range toolHeight', () => topSlideSurface({ ...cut, toolHeight: -21 })],
  ['accepted', () => topSlideCorrection(trial)],
  ['missing-option length', () => topSlideCorrection({ ...trial, length: undefined as never })],
  ['out-of-range smallDiameter', () => topSlideCorrection({ ...trial, smallDiameter: -1 })],
  ['out-of-range edgeDistance', () => topSlideCorrection({ ...trial, edgeDistance: 0 })],
  [
    'out-of-range edgeDistance',
    () => topSlideCorrection({ ...trial, smallDiameter: 1e6, taper: { halfAngleDeg: 80 }, edgeDistance: 9 }),
  ],
  ['out-of-range readingDeg', () => topSlideCorrection({ ...trial, taper: { halfAngleDeg: 89 }, readingDeg: 5 })],
  ['not-finite readingDeg', () => topSlideCorrection({ ...trial, readingDeg: Number.NaN })],
  [
    'beyond-machine scale',
    () => topSlideCorrection({ ...trial, readingDeg: 2, smallDiameter: 37, scale: { reads: 'from-axis', toDeg: 2 } }),
  ],
  ['not-representable length', () => topSlideCorrection({ ...trial, length: 1e-310 })],
  ['accepted', () => topSlideFromMaster(master)],
  ['missing-option taper', () => topSlideFromMaster({ ...master, master: 'cylinder' })],
  ['wrong-kind master', () => topSlideFromMaster({ ...master, master: 'plug' as never })],
  ['out-of-range travel', () => topSlideFromMaster({ ...master, travel: 0 })],
  ['out-of-range differenceTolerance', () => topSlideFromMaster({ ...master, differenceTolerance: 0 })],
  ['not-finite shown', () => topSlideFromMaster({ ...master, shown: Infinity })],
  ['impossible-geometry shown', () => topSlideFromMaster({ ...master, shown: 51 })],
  ['impossible-geometry shown', () => topSlideFromMaster({ ...master, shown: -50 })],
  ['accepted', () => topSlideFromMaster({ ...master, shown: 49.9 })],
])('%s', (wanted, call) => {
  expect(refusal(call)).toBe(wanted);
});
