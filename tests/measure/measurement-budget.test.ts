/**
 * Uncertainty of measurements. The oracle knows neither models nor derivatives: readings are drawn within the
 * instruments' limits by a plain loop, and the measuring functions themselves, proved in space in contact.test.ts
 * and sine-bar.test.ts, are evaluated on each draw.
 */
import fc from 'fast-check';
import * as measure from 'generatrix/measure';
import { uniformFloat64 } from 'pure-rand/distribution/uniformFloat64';
import { xoroshiro128plus } from 'pure-rand/generator/xoroshiro128plus';
import { describe, expect, it } from 'vitest';
import { plainArithmetic } from '../../src/budget/arithmetic.js';
import { atTemperature, type Model } from '../../src/budget/index.js';
import { runs } from '../oracle/seed.js';

type Numbers = Readonly<Record<string, number>>;
interface Job {
  readonly model: Model;
  /** The function that is measured with, from the same names. */
  readonly direct: (x: Numbers) => number;
  readonly values: Numbers;
  /** Limits of common instruments, in mm: 0.001 balls and rollers, 0.002 micrometer, 0.02 depth gauge. */
  readonly limits: Numbers;
}

const twoBalls = {
  values: { smallBall: 10, largeBall: 12, smallTopDepth: 45, largeTopDepth: 4 },
  limits: { smallBall: 0.001, largeBall: 0.001, smallTopDepth: 0.02, largeTopDepth: 0.02 },
};
const rollers = {
  values: { lowerHeight: 0, upperHeight: 40, lowerOver: 30, upperOver: 32 },
  limits: { upperHeight: 0.0005, lowerOver: 0.002, upperOver: 0.002 },
};
const fromRollers = (x: Numbers): ReturnType<typeof measure.plugFromRollers> =>
  measure.plugFromRollers({
    rollerDiameter: x['rollerDiameter'] ?? 6,
    lower: { blockHeight: x['lowerHeight'] as number, overRollers: x['lowerOver'] as number },
    upper: { blockHeight: x['upperHeight'] as number, overRollers: x['upperOver'] as number },
    standsOn: 'small-end',
  });
const twoDiameters = {
  values: { largeDiameter: 32, smallDiameter: 30, length: 40 },
  limits: { largeDiameter: 0.002, smallDiameter: 0.002, length: 0.02 },
};
const balls = {
  values: { largeBall: 34, largeTopHeight: 32, smallBall: 6, smallTopHeight: 2 },
  limits: { largeBall: 0.001, largeTopHeight: 0.02, smallBall: 0.001, smallTopHeight: 0.02 },
};
const only = (
  { values, limits }: typeof balls,
  ...names: (keyof typeof balls.values)[]
): Pick<Job, 'values' | 'limits'> => ({
  values: Object.fromEntries(names.map((name) => [name, values[name]])),
  limits: Object.fromEntries(names.map((name) => [name, limits[name]])),
});

/** A function's own options object, from names that are its keys. */
const from =
  <R, O>(call: (options: O) => R) =>
  (x: Numbers): R =>
    call(x as O);

const jobs: readonly Job[] = [
  { model: measure.boreFromTwoBallsModel, direct: (x) => from(measure.boreFromTwoBalls)(x).halfAngleDeg, ...twoBalls },
  {
    model: measure.boreMouthFromTwoBallsModel,
    direct: (x) => from(measure.boreFromTwoBalls)(x).mouthDiameter,
    ...twoBalls,
  },
  {
    model: measure.boreFromMouthAndBallModel,
    direct: (x) => from(measure.boreFromMouthAndBall)(x).halfAngleDeg,
    values: { mouthDiameter: 12, ball: 10, topDepth: 35 },
    limits: { mouthDiameter: 0.02, ball: 0.001, topDepth: 0.02 },
  },
  {
    model: measure.halfAngleFromDisksModel,
    direct: from(measure.halfAngleFromDisks),
    values: { smallDisk: 25, largeDisk: 38, centreDistance: 120 },
    limits: { smallDisk: 0.002, largeDisk: 0.002, centreDistance: 0.01 },
  },
  {
    model: measure.diameterFromStandOffModel,
    direct: ({ rate = 0, standOff = 0 }) => measure.diameterFromStandOff({ taper: { rate }, standOff }),
    values: { rate: 0.05, standOff: 1.2 },
    limits: { rate: 0.00005, standOff: 0.05 },
  },
  { model: measure.plugAngleFromRollersModel, direct: (x) => fromRollers(x).halfAngleDeg, ...rollers },
  {
    model: measure.plugDiameterFromRollersModel,
    direct: (x) => fromRollers(x).endDiameter,
    values: { ...rollers.values, rollerDiameter: 6 },
    limits: { ...rollers.limits, rollerDiameter: 0.001 },
  },
  {
    model: measure.sineBarModel,
    direct: ({ faceErrorDeg = 0, ...rest }) => from(measure.sineBarAngle)(rest) + faceErrorDeg,
    values: { height: 26.05, length: 100, rollerDifference: 0, faceErrorDeg: 0 },
    limits: { height: 0.0005, length: 0.003, rollerDifference: 0.002, faceErrorDeg: 0.001 },
  },
  {
    model: measure.spherometerModel,
    direct: ({ footRadius = 0, ...rest }) =>
      measure.radiusFromSpherometer({
        ...(rest as { radius: number; sagitta: number }),
        footRadius: Math.abs(footRadius),
        side: footRadius < 0 ? 'socket' : 'ball',
      }),
    values: { radius: 25, sagitta: 3.2, footRadius: -2 },
    limits: { radius: 0.01, sagitta: 0.003, footRadius: 0.005 },
  },
  {
    model: measure.radiusFromChordModel,
    direct: from(measure.radiusFromChord),
    values: { chord: 80, height: 20 },
    limits: { chord: 0.05, height: 0.02 },
  },
  { model: measure.socketFromBallsModel, direct: (x) => from(measure.socketFromBalls)(x).radius, ...balls },
  {
    model: measure.socketOpeningFromBallModel,
    direct: (x) => from(measure.socketFromBalls)({ ...balls.values, ...x }).opening,
    ...only(balls, 'largeBall', 'largeTopHeight'),
  },
  {
    model: measure.angleFromDiametersModel,
    direct: (x) => from(measure.taperFromDiameters)(x).halfAngleDeg,
    ...twoDiameters,
  },
  { model: measure.rateFromDiametersModel, direct: (x) => from(measure.taperFromDiameters)(x).rate, ...twoDiameters },
  {
    model: measure.endFromDiametersModel,
    direct: (x) => from(measure.taperFromDiameters)(x).endDiameter,
    values: { ...twoDiameters.values, endDistance: 5 },
    limits: { ...twoDiameters.limits, endDistance: 0.02 },
  },
];

it('every model of the room is here', () => {
  const exported = Object.entries(measure).filter(([name]) => name.endsWith('Model'));
  expect(new Set(jobs.map(({ model }) => model))).toEqual(new Set(exported.map(([, model]) => model)));
});

describe.each(jobs.map((job) => [job.model.name, job] as const))('%s', (_, { model, direct, values, limits }) => {
  const found = measure.measurementBudget({ model, values, limits });

  it('gives what the measuring function gives', () => {
    // A few roundings each.
    expect(found.value / direct(values)).toBeCloseTo(1, 13);
  });

  it('states the spread of readings drawn within the limits', () => {
    const generator = xoroshiro128plus(5);
    const trials = runs(20_000, 4000);
    const errors = Array.from({ length: trials }, () => {
      const drawn = Object.entries(values).map(([name, value]) => [
        name,
        value + (2 * uniformFloat64(generator) - 1) * (limits[name] ?? 0),
      ]);
      return direct(Object.fromEntries(drawn)) - found.value;
    });
    const spread = Math.sqrt(errors.reduce((sum, e) => sum + e * e, 0) / trials);
    // The spread of so many trials is off by at most 1/sqrt(2 trials) of itself, 0.5 % of 20,000: four of these.
    expect(Math.abs(spread / found.standardUncertainty - 1)).toBeLessThan(4 / Math.sqrt(2 * trials));
    // One rectangular input alone stays within 0.87 of U; many of them make a normal law: 95 % and more.
    const held = errors.filter((e) => Math.abs(e) <= found.expandedUncertainty).length / trials;
    // 0.945 of 20,000: 3.2 standard deviations of that share.
    expect(held).toBeGreaterThan(0.95 - 0.005 * Math.sqrt(20_000 / trials));
  });
});

describe('two diameters', () => {
  it('find the cone that they lie on, by points of it in space', () => {
    const between = (min: number, max: number): fc.Arbitrary<number> => fc.double({ min, max, noNaN: true });
    fc.assert(
      fc.property(between(0.1, 40), between(5, 50), between(0, 20), between(5, 80), (half, end, from, length) => {
        // Radius at z from the small end, on a line that leaves the axis at the half angle.
        const [sin, cos] = [Math.sin((half * Math.PI) / 180), Math.cos((half * Math.PI) / 180)];
        const diameter = (z: number): number => end + 2 * (z / cos) * sin;
        const found = measure.taperFromDiameters({
          largeDiameter: diameter(from + length),
          smallDiameter: diameter(from),
          length,
          endDistance: from,
        });
        // The difference of the diameters keeps at least 1e-4 of them here.
        expect(found.halfAngleDeg / half).toBeCloseTo(1, 10);
        expect(found.endDiameter / end).toBeCloseTo(1, 10);
        expect(found.rate).toBeCloseTo((2 * sin) / cos, 10);
      }),
    );
  });

  it.each<[string, () => unknown]>([
    ['out-of-range', () => measure.taperFromDiameters({ largeDiameter: 30, smallDiameter: 30, length: 40 })],
    ['out-of-range', () => measure.taperFromDiameters({ largeDiameter: 32, smallDiameter: 30, length: 0 })],
    [
      'impossible-geometry',
      () => measure.taperFromDiameters({ largeDiameter: 32, smallDiameter: 30, length: 4, endDistance: 61 }),
    ],
    ['not-representable', () => measure.taperFromDiameters({ largeDiameter: 9, smallDiameter: 1, length: 5e-324 })],
    ['unknown-option', () => measure.taperFromDiameters({ ...twoDiameters.values, limits: 1 } as never)],
  ])('are refused with %s', (code, call) => {
    expect(call).toThrow(expect.objectContaining({ name: 'GeneratrixError', code }));
  });
});

describe('at a temperature', () => {
  const cold = { instrumentTemperature: 20, instrumentExpansion: 11.5e-6 };
  // Steel, 11.5e-6 per degree (common practice, no source), just off the machine at 30 °C.
  const warm = { ...cold, workTemperature: 30, workExpansion: 11.5e-6 };
  const lengths = { largeDiameter: 'instrument', smallDiameter: 'instrument', length: 'instrument' } as const;

  it('warm work read with a cold micrometer comes out smaller, by hand: 29.75 / 1.000115', () => {
    const model = atTemperature(measure.endFromDiametersModel, {
      lengths: { ...lengths, endDistance: 'instrument' },
      result: 'work',
    });
    const values = { ...twoDiameters.values, endDistance: 5, ...warm };
    // 10 degrees times 11.5e-6 is 0.000115; 29.75 - 29.75 × 0.000115 + 29.75 × 0.000115² = 29.74657914…
    expect(model.evaluate(plainArithmetic, values).toFixed(7)).toBe('29.7465791');
    // One degree of doubt about the work is 29.75 × 11.5e-6 = 0.000342 of the diameter, to a few parts in 10,000.
    const { rows } = measure.measurementBudget({ model, values, limits: { workTemperature: 1 } });
    expect(rows[0]?.name).toBe('workTemperature');
    expect(rows[0]?.sensitivity).toBeCloseTo(-0.000342, 6);
  });

  it('the angle does not care, as long as the work is warm all through', () => {
    const model = atTemperature(measure.angleFromDiametersModel, { lengths });
    const values = { ...twoDiameters.values, ...warm };
    expect(model.evaluate(plainArithmetic, values)).toBeCloseTo(
      measure.taperFromDiameters(twoDiameters.values).halfAngleDeg,
      12,
    );
  });
});

const { model, values, limits } = jobs[0] as Job;
it.each<[string, () => unknown]>([
  ['missing-option', () => measure.measurementBudget({ model, values: { smallBall: 10 }, limits })],
  ['unknown-option', () => measure.measurementBudget({ model, values: { ...values, ball: 3 }, limits })],
  ['unknown-option', () => measure.measurementBudget({ model, values, limits: { ball: 0.1 } })],
  ['out-of-range', () => measure.measurementBudget({ model, values, limits: { smallBall: -0.1 } })],
  ['wrong-kind', () => measure.measurementBudget({ model: 'sine-bar' as never, values, limits })],
  ['out-of-range', () => measure.measurementBudget({ model, values, limits, coverage: 1 })],
])('refuses with %s', (code, call) => {
  expect(call).toThrow(expect.objectContaining({ name: 'GeneratrixError', code }));
});

it.each<[string, string, () => unknown]>([
  ['missing-option', 'limits', () => measure.measurementBudget({ model, values } as never)],
  ['unknown-option', 'limit', () => measure.measurementBudget({ model, values, limits, limit: 1 } as never)],
  ['out-of-range', 'limits.smallBall', () => measure.measurementBudget({ model, values, limits: { smallBall: -1 } })],
])('refuses with %s at %s', (code, parameter, call) => {
  expect(call).toThrow(expect.objectContaining({ name: 'GeneratrixError', code, parameter }));
});

it('takes a fixed coverage factor', () => {
  const { coverageFactor } = measure.measurementBudget({ model, values, limits, coverage: { factor: 2 } });
  expect(coverageFactor).toBe(2);
});
