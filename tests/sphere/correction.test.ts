import fc from 'fast-check';
import {
  ballDistanceModel,
  ballSweepModel,
  type SphereTarget,
  socketDistanceModel,
  socketSweepModel,
  socketTiltCorrection,
  sweepCorrection,
  sweepFormModel,
  sweepPoleModel,
  sweepPosition,
  sweepSettings,
  sweepSurface,
  testRing,
} from 'generatrix/sphere';
import { describe, expect, it } from 'vitest';
import { plainArithmetic as plain } from '../../src/budget/arithmetic.js';
import { refusal } from '../oracle/refusal.js';
import { runs } from '../oracle/seed.js';
import { revolved, sweepPoints } from './space.js';

const sin = (deg: number): number => Math.sin((deg / 180) * Math.PI);
const tan = (deg: number): number => Math.tan((deg / 180) * Math.PI);
const unit = fc.double({ min: -1, max: 1, noNaN: true });
const anyPart = fc.constantFrom<SphereTarget>(
  { part: 'ball-on-stem', radius: 20, stemDiameter: 20 },
  { part: 'ball-on-stem', radius: 20, stemDiameter: 35 },
  { part: 'cap', radius: 20, height: 9 },
  { part: 'socket', radius: 20, depth: 8 },
);

describe('correction to size', () => {
  it('leads from any mis-set sweep to the wanted size with the pole covered', () => {
    fc.assert(
      fc.property(
        anyPart,
        unit,
        unit,
        unit,
        fc.constantFrom(0, 0.8),
        (target, dTilt, dRadius, dDistance, noseRadius) => {
          const { sweep: set } = sweepSettings({ target, noseRadius });
          // What really stands on the machine; the user believes the sweep's radius, and the tilt of the settings.
          const real = {
            tiltDeg: set.tiltDeg + dTilt,
            sweepRadius: set.sweepRadius + 0.3 * dRadius,
            distance: set.distance + 0.5 * dDistance,
            noseRadius,
          };
          const cut = sweepSurface({ target, sweep: real });
          const { freeEnd } = cut.coverage;
          const state = freeEnd.state === 'past-pole' ? 'past-pole' : 'not-reached';
          const change = sweepCorrection({
            target,
            sweep: { ...set, sweepRadius: real.sweepRadius },
            measuredDiameter: 2 * cut.radius,
            pip: { diameter: freeEnd.diameter, state },
          });
          expect(change.trueTiltDeg).toBeCloseTo(real.tiltDeg, 9);
          expect(change.trueDistance).toBeCloseTo(real.distance, 9);
          // The changes applied to what really stands there.
          const after = {
            ...real,
            sweepRadius: real.sweepRadius + change.sweepRadiusChange,
            distance: real.distance + change.distanceChange,
          };
          const sign = target.part === 'socket' ? -1 : 1;
          const points = revolved(sweepPoints(after, 360));
          for (const [rho, z] of points) expect(Math.hypot(rho, z) - sign * noseRadius).toBeCloseTo(20, 9);
          expect(Math.min(...points.map(([rho]) => rho))).toBeCloseTo(0, 6);
          const sideways = { ...real, sweepRadius: after.sweepRadius, miss: change.sidewaysChange };
          const moved = sweepSurface({ target, sweep: sideways });
          expect(moved.radius).toBeCloseTo(20, 9);
        },
      ),
    );
  });

  it('says when the part is past its size, and refuses what cannot be', () => {
    const target = { part: 'ball-on-stem', radius: 20, stemDiameter: 20 } as const;
    const { sweep } = sweepSettings({ target });
    expect(sweepCorrection({ target, sweep, measuredDiameter: 39.5 }).notes.map(({ code }) => code)).toEqual([
      'past-size',
    ]);
    expect(sweepCorrection({ target, sweep, measuredDiameter: 40.5 }).notes).toEqual([]);
    // A socket is past its size when it is larger: 0.25 too much on the radius is an allowance of -0.25.
    const socket = { part: 'socket', radius: 20, depth: 8 } as const;
    const sunk = (measuredDiameter: number): unknown =>
      sweepCorrection({ target: socket, sweep: sweepSettings({ target: socket }).sweep, measuredDiameter }).notes;
    expect(sunk(40.5)).toEqual([
      expect.objectContaining({ code: 'past-size', values: expect.objectContaining({ allowance: -0.25 }) }),
    ]);
    expect(sunk(39.5)).toEqual([]);
    const state = 'past-pole';
    expect(() => sweepCorrection({ target, sweep, measuredDiameter: 40, pip: { diameter: 41, state } })).toThrow(/pip/);
    expect(() => sweepCorrection({ target, sweep, measuredDiameter: 60, pip: { diameter: 50, state } })).toThrow(
      expect.objectContaining({ code: 'contradiction' }),
    );
  });

  it('refuses a size beyond all that a sweep is corrected from, and a nose that fills the socket', () => {
    const target = { part: 'socket', radius: 20, depth: 8 } as const;
    const { sweep } = sweepSettings({ target });
    expect(refusal(() => sweepCorrection({ target, sweep, measuredDiameter: 5e7 }))).toBe(
      'contradiction measuredDiameter',
    );
    expect(refusal(() => sweepCorrection({ target, sweep: { ...sweep, noseRadius: 20 }, measuredDiameter: 60 }))).toBe(
      'impossible-geometry sweep.noseRadius',
    );
  });

  it('corrects every ball on a thin stem that ordinary errors of setting and measuring can leave', () => {
    const target = { part: 'ball-on-stem', diameter: 40, stemDiameter: 5 } as const;
    const { sweep: set } = sweepSettings({ target });
    const many = runs(400, 120);
    let refused = 0;
    fc.assert(
      fc.property(unit, unit, unit, unit, unit, (a, b, c, d, f) => {
        // Tilt ± 0.1°, sweep ± 0.02, tip over the centre ± 0.05, skew ± 0.05; the diameter is measured ± 0.01.
        const [tiltDeg, sweepRadius] = [set.tiltDeg + 0.1 * a, set.sweepRadius + 0.02 * b];
        const real = { tiltDeg, sweepRadius, distance: sweepRadius / tan(tiltDeg), miss: 0.05 * c, skew: 0.05 * f };
        // With skew a ball is smallest half-way round the sweep, where a micrometer across the work measures it.
        const measuredDiameter = 2 * sweepSurface({ target, sweep: real }).smallestRadius + 0.01 * d;
        if (measuredDiameter / 2 < set.sweepRadius) refused++;
        const change = sweepCorrection({ target, sweep: set, measuredDiameter });
        const after = {
          ...real,
          sweepRadius: sweepRadius + change.sweepRadiusChange,
          distance: real.distance + change.distanceChange,
        };
        // What was measured wrongly stays; the tilt may be out by 3°, on changes of 0.08: second order.
        expect(Math.abs(sweepSurface({ target, sweep: after }).smallestRadius - 20)).toBeLessThan(0.005 + 0.004);
      }),
      { numRuns: many },
    );
    // Taken at their word, sweep and ball contradict each other on many of these.
    expect(refused).toBeGreaterThan(many / 20);
    const notes = sweepCorrection({ target, sweep: set, measuredDiameter: 39.9 }).notes.map(({ code }) => code);
    expect(notes).toEqual(['smaller-than-sweep', 'past-size']);
    expect(
      refusal(() => sweepCorrection({ target, sweep: set, measuredDiameter: 39.9, sweepRadiusLimit: 0.001 })),
    ).toBe('contradiction measuredDiameter');
  });

  it('keeps a ball between stems on its share of the sphere', () => {
    const target = { part: 'ball-between-stems', radius: 20, stemDiameter: 20, freeStemDiameter: 16 } as const;
    const { sweep } = sweepSettings({ target });
    const change = sweepCorrection({ target, sweep, measuredDiameter: 40 });
    expect(change.sweepRadiusChange).toBeCloseTo(0, 12);
    expect(change.distanceChange).toBeCloseTo(0, 12);
  });
});

describe('a socket being sunk', () => {
  it('shows its radius by opening and depth, that the tilt, that the change', () => {
    fc.assert(
      fc.property(unit, unit, fc.constantFrom(0, 1.5), (dTilt, k, noseRadius) => {
        const target = { part: 'socket', radius: 20, depth: 8 } as const;
        const { sweep } = sweepSettings({ target, noseRadius });
        const trueTiltDeg = sweep.tiltDeg + 2 * dTilt;
        const radius = sweep.sweepRadius / sin(trueTiltDeg) + noseRadius;
        const depth = 6 + k;
        const openingDiameter = 2 * Math.sqrt(depth * (2 * radius - depth));
        const { sweepRadius } = sweep;
        const input = { radius: 20, sweepRadius, noseRadius, openingDiameter, depth };
        const change = socketTiltCorrection(input);
        expect(change.trueTiltDeg).toBeCloseTo(trueTiltDeg, 9);
        expect(sweepRadius / sin(trueTiltDeg + change.tiltChangeDeg) + noseRadius).toBeCloseTo(20, 9);
        // Uncertainty against differences: opening and depth changed one at a time.
        const by = (key: 'openingDiameter' | 'depth'): number =>
          (socketTiltCorrection({ ...input, [key]: input[key] + 1e-4 }).tiltChangeDeg -
            socketTiltCorrection({ ...input, [key]: input[key] - 1e-4 }).tiltChangeDeg) /
          2e-4;
        const u = socketTiltCorrection({ ...input, openingUncertainty: 0.02, depthUncertainty: 0.03 });
        expect(u.tiltChangeUncertaintyDeg).toBeCloseTo(Math.hypot(0.02 * by('openingDiameter'), 0.03 * by('depth')), 6);
      }),
    );
  });

  it('refuses a sweep that is too wide', () => {
    expect(() => socketTiltCorrection({ radius: 26, sweepRadius: 26, openingDiameter: 30, depth: 5 })).toThrow(
      /measured/,
    );
    expect(() => socketTiltCorrection({ radius: 12, sweepRadius: 13, openingDiameter: 30, depth: 5 })).toThrow(
      /wanted/,
    );
  });
});

describe('where to put the tool', () => {
  it('touching the face over the centre and feeding by what is said reaches the finished pole', () => {
    fc.assert(
      fc.property(
        anyPart,
        fc.constantFrom(0, 0.8),
        fc.double({ min: 0, max: 5, noNaN: true }),
        (target, noseRadius, stock) => {
          const { sweep } = sweepSettings({ target, noseRadius });
          const socket = target.part === 'socket';
          const at = sweepPosition({ target, sweep, ...(socket ? {} : { faceStock: stock }) });
          expect(at.tipFromCentre).toBe(0);
          if (target.part === 'socket') expect(at.feedFromTouch).toBeCloseTo(8, 12);
          else expect(at.feedFromTouch).toBeCloseTo(stock, 12);
          expect(at.centreFromFace).toBeCloseTo(socket ? 12 : -(20 + stock), 12);
          // The centre of the swept points is the centre of the sweep.
          const points = sweepPoints(sweep as Required<typeof sweep>, 360);
          const mean = (axis: 0 | 2): number => points.reduce((sum, p) => sum + p[axis], 0) / points.length;
          expect(at.sweepCentreAcross).toBeCloseTo(mean(0), 10);
          expect(at.sweepCentreHeight).toBeCloseTo(mean(2), 10);
          expect(at.spindleAtFace).toBeCloseTo((socket ? 12 : 20 + stock) * tan(sweep.tiltDeg), 9);
        },
      ),
    );
    const off = sweepPosition({
      target: { part: 'ball-on-stem', radius: 20, stemDiameter: 20 },
      sweep: { tiltDeg: 75, sweepRadius: 19, distance: 6 },
    });
    expect(off.notes.map(({ code }) => code)).toEqual(['tip-off-centre']);
    const target = { part: 'socket', radius: 20, depth: 8 } as const;
    expect(() => sweepPosition({ target, sweep: sweepSettings({ target }).sweep, faceStock: 1 })).toThrow(/faceStock/);
  });

  it('a spindle square to the work never meets the plane of its face', () => {
    const target = { part: 'ball-on-stem', radius: 20, stemDiameter: 20 } as const;
    const at = sweepPosition({ target, sweep: { tiltDeg: 90, sweepRadius: 20, distance: 0 } });
    expect([at.spindleAtFace, at.spindleFromFaceCentre]).toEqual([null, 20]);
  });

  it('a test ring gives the zero error, on a dial of either kind', () => {
    const onRadius = testRing({
      ringDiameter: 40.5,
      reading: 20,
      dial: { reads: 'radius', step: 0.01 },
      tipDiameter: 48,
    });
    expect(onRadius.zeroError).toBe(-0.25);
    expect(onRadius.dial.settableReading).toBe(23.75);
    expect(onRadius.dial.settableValue).toBe(24);
    const dial = { reads: 'diameter', step: 0.01 } as const;
    const onDiameter = testRing({ ringDiameter: 40.5, reading: 40, dial, tipDiameter: 48 });
    expect([onDiameter.zeroError, onDiameter.dial.settableReading, onDiameter.dial.settableValue]).toEqual([
      -0.5, 47.5, 24,
    ]);
  });
});

describe('models', () => {
  it('give what the surface has', () => {
    fc.assert(
      fc.property(unit, unit, unit, unit, (a, b, c, d) => {
        const tiltDeg = 70 + 5 * a;
        const sweepRadius = 19 + b;
        const noseRadius = 0.4;
        const miss = 0.2 * c;
        const skew = 0.1 * d;
        for (const [part, sweepModel, distanceModel] of [
          ['ball', ballSweepModel, ballDistanceModel],
          ['socket', socketSweepModel, socketDistanceModel],
        ] as const) {
          const target: SphereTarget =
            part === 'ball'
              ? { part: 'ball-on-stem', radius: 20, stemDiameter: 20 }
              : { part: 'socket', radius: 20, depth: 8 };
          const sweep = { tiltDeg, sweepRadius, distance: sweepRadius / tan(tiltDeg), noseRadius, miss };
          const cut = sweepSurface({ target, sweep });
          expect(sweepModel.evaluate(plain, { tiltDeg, sweepRadius, miss, noseRadius })).toBeCloseTo(cut.radius, 10);
          const distance = 7;
          const flat = sweepSurface({ target, sweep: { tiltDeg, sweepRadius, distance, noseRadius } });
          expect(distanceModel.evaluate(plain, { sweepRadius, distance, noseRadius })).toBeCloseTo(flat.radius, 10);
          const sharp = sweepSurface({ target, sweep: { tiltDeg, sweepRadius, distance, skew } });
          if (part === 'ball') {
            expect(
              Math.abs(sweepFormModel.evaluate(plain, { sweepRadius, distance, skew: Math.abs(skew) })),
            ).toBeCloseTo(sharp.largestRadius - sharp.smallestRadius, 10);
          }
        }
        // The tip in space: the point of the sweep that lies lowest in the plane of the axes.
        const points = sweepPoints({ tiltDeg, sweepRadius, distance: 7, miss }, 360);
        const tip = points[180];
        expect(sweepPoleModel.evaluate(plain, { tiltDeg, sweepRadius, distance: 7, miss })).toBeCloseTo(
          tip?.[0] ?? Number.NaN,
          10,
        );
      }),
    );
  });
});
