/** Work between balls: lengths, settings, limits and surface, against places of the balls in space. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { dualArithmetic, plainArithmetic, variable } from '../../src/budget/arithmetic.js';
import {
  type BallCentresOptions,
  type BetweenBalls,
  ballCentreDistance,
  ballCentresCorrection,
  ballCentresModel,
  ballCentresSettings,
  ballCentresSurface,
  setoverModel,
} from '../../src/offset/index.js';

const between = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const hole = { ballDiameter: 10, mouthDiameter: 9 };
const edge = { ballDiameter: 10, mouthDiameter: 8 };
const holder = { faceDistance: 3, faceDiameter: 8 };

describe('the distance of the balls', () => {
  it('is the same from the faces as over the balls', () => {
    const { centreDistance, headstockSeat, tailstockSeat } = ballCentreDistance({
      faceLength: 150,
      headstock: hole,
      tailstock: edge,
    });
    expect([headstockSeat?.seat, tailstockSeat?.seat]).toEqual(['flank', 'edge']);
    // 30-60-90 triangle: the ball's centre is a whole diameter from the hole's apex.
    expect(centreDistance).toBeCloseTo(150 + (10 - 4.5 * Math.sqrt(3)) + 3, 12);
    const lengthOverBalls = centreDistance + 10;
    expect(ballCentreDistance({ lengthOverBalls, headstock: hole, tailstock: edge }).centreDistance).toBeCloseTo(
      centreDistance,
      12,
    );
  });
});

describe('settings', () => {
  it('put the balls where the work, laid between them, stands at the angle wanted', () => {
    fc.assert(
      fc.property(
        between(0.01, 20),
        between(60, 900),
        between(3, 20),
        between(3, 20),
        (halfAngleDeg, over, one, other) => {
          const set = ballCentresSettings({
            taper: { halfAngleDeg },
            lengthOverBalls: over,
            headstock: { ballDiameter: one },
            tailstock: { ballDiameter: other },
          });
          const apart = over - one / 2 - other / 2;
          const along = Math.sqrt((apart - set.offset) * (apart + set.offset));
          expect(Math.atan2(set.offset, along) * (180 / Math.PI)).toBeCloseTo(halfAngleDeg, 11);
        },
      ),
      { numRuns: 300 },
    );
  });

  it('read on a diameter dial twice the movement, within its range', () => {
    const set: BallCentresOptions = {
      taper: { oneIn: 12 },
      faceLength: 150,
      headstock: edge,
      tailstock: edge,
      dial: { reads: 'diameter', step: 0.02, from: 0, to: 25 },
    };
    const { centreDistance, offset, reading, reach } = ballCentresSettings(set);
    expect(centreDistance).toBe(156);
    expect(reading).toBe(2 * offset);
    expect(reach?.halfAngleDeg).toBeCloseTo((Math.asin(12.5 / 156) * 180) / Math.PI, 12);
    expect(() => ballCentresSettings({ ...set, taper: { oneIn: 5 } })).toThrow(
      expect.objectContaining({ code: 'beyond-machine', parameter: 'dial' }),
    );
  });

  it('warn of balls on the edge and of a tilt near the limit, and refuse one beyond it', () => {
    const end = { ...edge, faceDiameter: 30, holder };
    const set = { faceLength: 60, headstock: end, tailstock: { ...hole, faceDiameter: 30, holder } } as const;
    const wide = ballCentresSettings({ ...set, taper: { halfAngleDeg: 5 } });
    expect(wide.notes.map(({ code }) => code)).toEqual(['rule-differs', 'headstock-ball-on-edge']);
    const limit = Math.min(wide.headstockLimit?.tiltLimitDeg as number, wide.tailstockLimit?.tiltLimitDeg as number);
    expect(limit).toBe(wide.tailstockLimit?.tiltLimitDeg);
    const near = ballCentresSettings({ ...set, taper: { halfAngleDeg: 0.95 * limit } });
    const note = near.notes.find(({ code }) => code === 'tailstock-tilt-near-limit');
    expect(note?.values['marginDeg']).toBeCloseTo(0.05 * limit, 10);
    expect(() => ballCentresSettings({ ...set, taper: { halfAngleDeg: limit + 0.01 } })).toThrow(
      expect.objectContaining({ code: 'beyond-machine', parameter: 'tailstock.holder' }),
    );
  });
});

describe('the surface', () => {
  const work = { faceLength: 150, headstock: edge, tailstock: edge } as const;

  it('is that of work set over between the balls, and gives its taper back', () => {
    fc.assert(
      fc.property(between(0.05, 10), between(0, 1), (halfAngleDeg, part) => {
        const { offset } = ballCentresSettings({ ...work, taper: { halfAngleDeg } });
        const cut = ballCentresSurface({
          ...work,
          offset,
          length: 60,
          smallDiameter: 20,
          fromPivot: 100 * part,
          rollDeg: 0,
        });
        expect(cut.surface.kind).toBe('cone');
        expect(cut.cuts.halfAngleDeg).toBeCloseTo(halfAngleDeg, 11);
      }),
      { numRuns: 100 },
    );
  });

  it('bulges the more the further the head is rolled, whichever way', () => {
    const straightness = [0, 1, 2, 4, 8].map((rollDeg) => {
      const [high, low] = [rollDeg, -rollDeg].map((roll) =>
        ballCentresSurface({ ...work, offset: 6.5, rollDeg: roll, fromPivot: 30, length: 100, largeDiameter: 25 }),
      );
      expect(low?.waist).toBeCloseTo(high?.waist as number, 12);
      return high?.departure.bestFit.straightness as number;
    });
    for (let i = 1; i < straightness.length; i++)
      expect(straightness[i]).toBeGreaterThan(straightness[i - 1] as number);
  });

  it('is put right by a correction that finds the zero error it was cut with', () => {
    const cut = ballCentresSurface({ ...work, offset: 6.5, zeroError: -0.07, length: 100, largeDiameter: 25 });
    const { zeroError, reading, cuts } = ballCentresCorrection({
      ...work,
      taper: { oneIn: 12 },
      trials: [{ reading: 13, largeDiameter: cut.largeDiameter, smallDiameter: cut.smallDiameter, length: 100 }],
      dial: { reads: 'diameter' },
    });
    expect(zeroError).toBeCloseTo(-0.07, 11);
    expect(cuts.rate).toBeCloseTo(1 / 12, 13);
    const again = ballCentresSurface({
      ...work,
      offset: reading / 2,
      zeroError: -0.07,
      length: 100,
      largeDiameter: 25,
    });
    expect(again.smallDiameter).toBeCloseTo(25 - 100 / 12, 11);
  });
});

describe('the model', () => {
  it('is that of set-over with the distance over the balls, a ball counting half', () => {
    const common = {
      offset: 6.5,
      zeroError: 0.02,
      touchOffError: 0.01,
      centreDistanceError: -0.05,
      rollDeg: 1.5,
      fromPivot: 30,
      largeDiameter: 25,
      length: 90,
      toolHeight: 0.2,
    };
    const inputs = { lengthOverBalls: 166, headstockBall: 9, tailstockBall: 11, ...common };
    const { evaluate } = ballCentresModel;
    expect(evaluate(plainArithmetic, inputs)).toBe(
      setoverModel.evaluate(plainArithmetic, { centreDistance: 156, ...common }),
    );
    const dual = dualArithmetic(plainArithmetic);
    const constants = Object.fromEntries(Object.entries(inputs).map(([name, value]) => [name, dual.constant(value)]));
    const sensitivity = (name: keyof typeof inputs): number => {
      const all = { ...constants, [name]: variable(plainArithmetic, inputs[name], 0) };
      return evaluate(dual, all as Parameters<typeof evaluate<ReturnType<typeof dual.constant>>>[1])
        .partials[0] as number;
    };
    expect(sensitivity('headstockBall')).toBeCloseTo(-sensitivity('lengthOverBalls') / 2, 14);
    expect(sensitivity('lengthOverBalls')).toBeGreaterThan(0);
    expect(Object.keys(ballCentresModel.inputs).sort()).toEqual(Object.keys(inputs).sort());
  });
});

describe('refused', () => {
  it.each([
    ['missing-option', 'faceLength', { headstock: hole, tailstock: hole }],
    ['contradiction', 'faceLength', { headstock: hole, tailstock: hole, faceLength: 100, lengthOverBalls: 120 }],
    [
      'missing-option',
      'headstock.mouthDiameter',
      { headstock: { ballDiameter: 10 }, tailstock: hole, faceLength: 100 },
    ],
    [
      'missing-option',
      'tailstock.mouthDiameter',
      { headstock: hole, tailstock: { ballDiameter: 10, depth: 3 }, lengthOverBalls: 100 },
    ],
    [
      'impossible-geometry',
      'tailstock.ballDiameter',
      { headstock: hole, tailstock: { ballDiameter: 3, mouthDiameter: 9 }, faceLength: 100 },
    ],
    ['impossible-geometry', 'lengthOverBalls', { headstock: hole, tailstock: hole, lengthOverBalls: 10 }],
    ['missing-option', 'headstock.faceDiameter', { headstock: { ...hole, holder }, tailstock: hole, faceLength: 100 }],
    ['unknown-option', 'headstock.length', { headstock: { ...hole, length: 3 }, tailstock: hole, faceLength: 100 }],
    ['missing-option', 'tailstock', { headstock: hole, faceLength: 100 }],
  ])('%s (%s): %j', (code, parameter, work) => {
    expect(() => ballCentreDistance(work as unknown as BetweenBalls)).toThrow(
      expect.objectContaining({ code, parameter }),
    );
  });

  it('as set-over is', () => {
    const work = { faceLength: 150, headstock: edge, tailstock: edge } as const;
    const cut = { ...work, offset: 5, length: 50, largeDiameter: 30 };
    expect(() => ballCentresSurface({ ...cut, rollDeg: 1 })).toThrow(
      expect.objectContaining({ code: 'missing-option' }),
    );
    expect(() => ballCentresSurface({ ...cut, offset: 156 })).toThrow(
      expect.objectContaining({ code: 'out-of-range' }),
    );
    const correction = { ...work, taper: { oneIn: 12 }, trials: [] };
    expect(() => ballCentresCorrection(correction)).toThrow(
      expect.objectContaining({ code: 'out-of-range', parameter: 'trials' }),
    );
    expect(() => ballCentresCorrection({ ...correction, centreDistance: 3 } as typeof correction)).toThrow(
      expect.objectContaining({ code: 'unknown-option' }),
    );
  });
});
