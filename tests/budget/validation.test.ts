/**
 * First order against Monte Carlo (JCGM 101, clause 8) on every model that the library exports, at a real job's
 * nominal values and with the limits of a real shop. A model exported later needs its row here.
 *
 * Limits are taken as certificates state them, an expanded uncertainty with k = 2: then inputs are normal, and a
 * verdict speaks of the model alone. (A rectangular input that outweighs all others makes first order fail on the
 * straightest of models: JCGM 101, 9.2.4; that is tested in adaptive.test.ts.)
 */
import * as generatrix from 'generatrix';
import { describe, expect, it } from 'vitest';
import { budget, type Input, type Model, monteCarlo, validateFirstOrder } from '../../src/budget/index.js';

const isModel = (value: unknown): value is Model =>
  typeof value === 'object' && value !== null && 'evaluate' in value && 'inputs' in value;
const models = new Map(
  Object.entries(generatrix as Readonly<Record<string, unknown>>).filter((entry): entry is [string, Model] =>
    isModel(entry[1]),
  ),
);

/** By input: nominal value and limit either way. */
type Job = Readonly<Record<string, readonly [value: number, limit: number]>>;

// Limits, all common practice, no source: rule or bed scale 0.1 to 0.25, dial and micrometer 0.005 to 0.01 mm, depth
// gauge 0.02, protractor scale of a slide or head 0.05 to 0.1°, vernier or sine-set 0.01°, balls and rollers 0.001,
// gauge blocks 0.0005, roller distance of a 100 mm sine bar 0.003, tool set to centre by a rule 0.2, by a gauge 0.05.
const CUT: Job = { largeDiameter: [30, 0.01], length: [80, 0.1], toolHeight: [0.1, 0.05] };
// A test bar out of line by 0.02 in 300 in plan, 0.03 in 300 upright: common practice, no source.
const CHUCKED: Job = { headstockPlanDeg: [0, 0.004], headstockUprightDeg: [0, 0.006], ...CUT };
const SETOVER: Job = { offset: [4, 0.02], zeroError: [0, 0.03], rollDeg: [0.2, 0.1], fromPivot: [150, 1], ...CUT };
const TILT: Job = { tiltDeg: [60, 0.1], sweepRadius: [17.3205, 0.02], miss: [0, 0.05], noseRadius: [0.4, 0.02] };
const DISTANCE: Job = { sweepRadius: [17.3205, 0.02], distance: [10, 0.05], noseRadius: [0.4, 0.02] };
const ROLLERS: Job = {
  lowerHeight: [5, 0.0005],
  upperHeight: [45, 0.0005],
  lowerOver: [30, 0.005],
  upperOver: [32, 0.005],
};
const BALLS: Job = {
  smallBall: [10, 0.001],
  largeBall: [12, 0.001],
  smallTopDepth: [45, 0.02],
  largeTopDepth: [4, 0.02],
};
const DIAMETERS: Job = { largeDiameter: [32, 0.005], smallDiameter: [30, 0.005], length: [40, 0.05] };
const RIM: Job = { largeBall: [34, 0.001], largeTopHeight: [32, 0.02] };

const JOBS: Readonly<Record<string, Job>> = {
  // A taper of 1 : 20 on 200 mm of work.
  setoverModel: { centreDistance: [200, 0.2], ...SETOVER },
  ballCentresModel: { lengthOverBalls: [212, 0.1], headstockBall: [12, 0.001], tailstockBall: [12, 0.001], ...SETOVER },
  toolHeightModel: { halfAngleDeg: [1.432, 0.02], ...CHUCKED },
  topSlideModel: { angleDeg: [1.5, 0.05], zeroErrorDeg: [0, 0.05], ...CHUCKED },
  // A seat of 20° on 6 mm: an edge set by a protractor, levelled by eye.
  formToolModel: { angleDeg: [20, 0], angleErrorDeg: [0, 0.2], tipDeg: [0.5, 0.5], ...CUT, length: [6, 0.05] },
  guideBarModel: { offset: [6.25, 0.05], radius: [250, 0.25], zeroErrorDeg: [0, 0.01], ...CHUCKED },
  guideBarBedModel: { offset: [6.25, 0.05], radius: [250, 0.25], zeroErrorDeg: [0, 0.01], ...CHUCKED },
  // A ball and a socket of 40 mm.
  ballSweepModel: TILT,
  socketSweepModel: TILT,
  ballDistanceModel: DISTANCE,
  socketDistanceModel: DISTANCE,
  sweepPoleModel: { tiltDeg: [60, 0.1], sweepRadius: [17.3205, 0.02], distance: [10, 0.05], miss: [0, 0.05] },
  sweepFormModel: { sweepRadius: [17.3205, 0.02], distance: [10, 0.05], skew: [0, 0.05] },
  swivelModel: { swivelRadius: [20, 0.02], centreOffset: [0, 0.05], centreHeight: [0.1, 0.05], swingDeg: [30, 0.5] },
  straightFeedModel: { tiltDeg: [0.05, 0.01], sweepRadius: [50, 0.1], width: [60, 0.1] },
  // Measurements of the same parts.
  sineBarModel: {
    height: [26.05, 0.0005],
    length: [100, 0.003],
    rollerDifference: [0, 0.002],
    faceErrorDeg: [0, 0.001],
  },
  plugAngleFromRollersModel: ROLLERS,
  plugDiameterFromRollersModel: { rollerDiameter: [6, 0.001], ...ROLLERS },
  boreFromTwoBallsModel: BALLS,
  boreMouthFromTwoBallsModel: BALLS,
  boreFromMouthAndBallModel: { mouthDiameter: [12, 0.02], ball: [10, 0.001], topDepth: [35, 0.02] },
  halfAngleFromDisksModel: { smallDisk: [25, 0.002], largeDisk: [38, 0.002], centreDistance: [120, 0.01] },
  diameterFromStandOffModel: { rate: [0.05, 0.00005], standOff: [1.2, 0.05] },
  angleFromDiametersModel: DIAMETERS,
  rateFromDiametersModel: DIAMETERS,
  endFromDiametersModel: { endDistance: [5, 0.05], ...DIAMETERS },
  spherometerModel: { radius: [25, 0.01], sagitta: [3.2, 0.003], footRadius: [-2, 0.005] },
  radiusFromChordModel: { chord: [34.641, 0.02], height: [10, 0.02] },
  socketOpeningFromBallModel: RIM,
  socketFromBallsModel: { smallBall: [6, 0.001], smallTopHeight: [2, 0.02], ...RIM },
};

const inputsOf = (job: Job): Readonly<Record<string, Input>> =>
  Object.fromEntries(
    Object.entries(job).map(([name, [value, limit]]) => [
      name,
      { value, expandedUncertainty: limit, coverageFactor: 2 },
    ]),
  );

it('every exported model has a job here', () => {
  expect(Object.keys(JOBS).sort()).toEqual([...models.keys()].sort());
});

describe.each([...models])('%s, near its nominal', (name, model) => {
  const inputs = inputsOf(JOBS[name] ?? {});

  it('is linear enough: first order agrees with Monte Carlo', () => {
    const { valid, firstOrder, monteCarlo: trial, notes } = validateFirstOrder({ model, inputs, digits: 1 });
    expect(notes).toEqual([]);
    expect(valid).toBe(true);
    // Sharper than a digit: the standard uncertainties within four times what the trials leave open and 1 %.
    const { standardUncertainty: u, standardUncertaintyError: error } = trial;
    expect(Math.abs(firstOrder.standardUncertainty - u)).toBeLessThan(4 * error + 0.01 * u);
    expect(firstOrder.notes).toEqual([]);
  });
});

describe('where the sensitivity that matters vanishes or runs away', () => {
  /** Only what matters is uncertain, so that nothing linear hides it. */
  const alone = (
    name: string,
    change: Job,
  ): { readonly model: Model; readonly inputs: Readonly<Record<string, Input>> } => {
    const exact = Object.fromEntries(
      Object.entries(JOBS[name] ?? {}).map(([key, [value]]) => [key, [value, 0] as const]),
    );
    return { model: models.get(name) as Model, inputs: inputsOf({ ...exact, ...change }) };
  };

  it.each<[string, string, Job, string]>([
    ['a tool about centre height', 'toolHeightModel', { toolHeight: [0, 0.5] }, 'first-order-vanishes'],
    ['a tool about centre height', 'topSlideModel', { toolHeight: [0, 0.5] }, 'first-order-vanishes'],
    ['an edge about centre height', 'formToolModel', { tipDeg: [0, 0], toolHeight: [0, 0.5] }, 'first-order-vanishes'],
    ['a tool about centre height', 'guideBarModel', { toolHeight: [0, 0.5] }, 'first-order-vanishes'],
    ['a swivel about centre height', 'swivelModel', { centreHeight: [0, 0.3] }, 'first-order-vanishes'],
    ['a level set-over', 'setoverModel', { toolHeight: [0, 0], rollDeg: [0, 1] }, 'first-order-vanishes'],
    ['a spherometer on a flat cap', 'spherometerModel', { sagitta: [0.1, 0.04] }, 'second-order-matters'],
    ['a flat chord', 'radiusFromChordModel', { height: [0.1, 0.04] }, 'second-order-matters'],
  ])('%s (%s): the validation says so, and second order is nearer', (_, name, change, code) => {
    const job = alone(name, change);
    const { valid, notes, firstOrder, monteCarlo: trial } = validateFirstOrder({ ...job, mostTrials: 100_000 });
    expect(valid).toBe(false);
    expect(notes.map((note) => note.code)).toContain('first-order-fails');
    expect(firstOrder.notes.map((note) => note.code)).toContain(code);
    const second = budget({ ...job, includeSecondOrder: true });
    const off = (u: number): number => Math.abs(u - trial.standardUncertainty);
    expect(off(second.standardUncertainty)).toBeLessThan(0.5 * off(firstOrder.standardUncertainty));
    // The mean of the trials lies where second order says, not at the value.
    const shift = trial.mean - firstOrder.value;
    const told = second.secondOrder?.meanShift ?? 0;
    expect(Math.abs(shift - told)).toBeLessThan(Math.max(4 * trial.meanError, 0.3 * Math.abs(shift)));
  });

  it('a square of a normal height has the uncertainty that second order gives, to the last digit', () => {
    // To second order the small diameter changes by c y² about centre height, with c from the two end radii:
    // d(2 sqrt(x² + y²)), x = sqrt(R² - y²) - L tan α, is y² (1/r - 1/R). Its standard deviation is √2 c u².
    const tan = 0.025;
    const [R, r] = [15, 15 - 80 * tan];
    const u = 0.25;
    const halfAngleDeg = (Math.atan(tan) * 180) / Math.PI;
    const { model, inputs } = alone('toolHeightModel', { halfAngleDeg: [halfAngleDeg, 0], toolHeight: [0, 2 * u] });
    const { standardUncertainty } = budget({ model, inputs, includeSecondOrder: true });
    expect(standardUncertainty / (Math.SQRT2 * (1 / r - 1 / R) * u * u)).toBeCloseTo(1, 9);
  });

  it('the size of an uneven form, about no skew, has no slope: first order refuses, Monte Carlo answers', () => {
    // The model gives the form signed; who wants its size folds it, and a fold has no derivative at its crease.
    const { sweepFormModel } = generatrix;
    const folded: Model = {
      ...(sweepFormModel as Model),
      evaluate: (a, x) => a.abs((sweepFormModel as Model).evaluate(a, x)),
    };
    const inputs = inputsOf(JOBS['sweepFormModel'] ?? {});
    expect(() => validateFirstOrder({ model: folded, inputs })).toThrow(
      expect.objectContaining({ name: 'GeneratrixError', code: 'out-of-range' }),
    );
    // Half a normal: its mean is sqrt(2/π) of the standard deviation, here r u / R of the skew's 0.025.
    const { mean, meanError } = monteCarlo({ model: folded, inputs, trials: 100_000 });
    expect(Math.abs(mean - Math.sqrt(2 / Math.PI) * ((17.3205 / 20) * 0.025))).toBeLessThan(
      4 * meanError + 1e-4 * mean,
    );
  });
});
