/** Set-over between centres: published settings, brute force in space, properties, refusals. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { dualArithmetic, plainArithmetic, variable } from '../../src/budget/arithmetic.js';
import { setoverModel, setoverSettings, setoverSurface } from '../../src/offset/index.js';
import { lineRadiusAt } from '../../src/revolve/line-meridian.js';
import { runs } from '../oracle/seed.js';
import { D, exact, highest } from '../reference/exact.js';
import { halfUnit, published } from '../reference/published.js';
import { levelTouchOff, nearest, radiusCut, type SetUp, touchOff } from './brute-setover.js';

const between = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const relative = (found: number, wanted: InstanceType<typeof D>): number =>
  exact(found).minus(wanted).div(wanted).abs().toNumber();

describe('published settings', () => {
  // Franklin D. Jones, Turning and Boring (c. 1914), and US Navy training manual 14345, both by the rule L(D - d)/2l.
  it.each([
    ['T2-JON-1', { perFoot: 1 }, 9],
    ['T2-JON-2', { perFoot: 1.5 }, 8],
    ['T2-NAV-1', { largeDiameter: 3, smallDiameter: 2, length: 12 }, 12],
  ] as const)('%s is the shop rule; the exact set-over is smaller by the cosine', (id, taper, centreDistance) => {
    const printed = published(id).published['S']?.value as string;
    const { rule, offset, cuts, notes } = setoverSettings({ taper, centreDistance });
    expect(Math.abs((rule?.value as number) - Number(printed))).toBeLessThan(halfUnit(printed));
    const cosine = Math.cos((cuts.halfAngleDeg * Math.PI) / 180);
    expect(offset / (rule?.value as number)).toBeCloseTo(cosine, 14);
    expect(offset).toBeLessThan(Number(printed));
    // The rule makes the sine what the tangent should be: tan(asin(tan α)) is too large by about 1/cos α.
    const tangent = cuts.rate / 2;
    expect(rule?.cuts.rate).toBeCloseTo(2 * Math.tan(Math.asin(tangent)), 14);
    expect(notes.some(({ code }) => code === 'rule-differs')).toBe(1 / cosine > 1.001);
  });
});

describe('settings', () => {
  it('turn the work by the angle wanted, in space', () => {
    fc.assert(
      fc.property(
        between(-4, 1).map((power) => 10 ** power),
        between(50, 2000),
        (perSide, centreDistance) => {
          const { offset, tailstockAdvance } = setoverSettings({ taper: { perSide }, centreDistance });
          // Pivot to pivot: aside by the set-over, along the bed by what is left of the length.
          const [s, length] = [exact(offset), exact(centreDistance)];
          const along = length.times(length).minus(s.times(s)).sqrt();
          // Steep work magnifies the rounding of the set-over by 1/cos² in the tangent.
          expect(relative(perSide, s.div(along))).toBeLessThan(4 * Number.EPSILON * (1 + perSide * perSide));
          expect(relative(tailstockAdvance, length.minus(along))).toBeLessThan(1e-13);
        },
      ),
      { numRuns: 500 },
    );
  });

  it('show on a coarse dial what the nearest graduation cuts, and its error over the length', () => {
    const set = { taper: { oneIn: 20 }, centreDistance: 200, length: 80, backlash: 0.1 };
    const fine = setoverSettings(set);
    expect(fine).toMatchObject({ roundingError: 0, differenceError: 0 });
    expect(fine.settableValue).toBe(fine.offset);
    expect(fine.rule?.value).toBe(5);
    const coarse = setoverSettings({ ...set, dial: { reads: 'diameter', step: 0.2 } });
    expect(coarse).toMatchObject({ settableReading: 10, settableValue: 5, tiltDeg: coarse.cuts.halfAngleDeg });
    expect(coarse.cuts.halfAngleDeg).toBeCloseTo((Math.asin(5 / 200) * 180) / Math.PI, 13);
    const rate = 2 * Math.tan(Math.asin(5 / 200));
    expect(coarse.differenceError).toBeCloseTo((rate - 0.05) * 80, 13);
    // Error and slope agree to first order.
    expect(coarse.differenceError).toBeCloseTo(2 * coarse.roundingError * (coarse.diameterPerReading as number), 6);
    const backlash = coarse.notes.find(({ code }) => code === 'backlash');
    expect(backlash?.values['rateError']).toBeCloseTo(2 * Math.tan(Math.asin(4.9 / 200)) - rate, 13);
    expect(coarse.notes.map(({ code }) => code)).toEqual(['dial-rounded', 'backlash']);
  });

  it('leave out a rule that would set the tailstock farther over than the work is long', () => {
    expect(setoverSettings({ taper: { halfAngleDeg: 50 }, centreDistance: 10 }).rule).toBeUndefined();
    expect(setoverSettings({ taper: { halfAngleDeg: 44 }, centreDistance: 10 }).rule?.cuts.rateError).toBeGreaterThan(
      0,
    );
  });

  it('tell what the travel allows, and refuse what it does not', () => {
    const { reach } = setoverSettings({ taper: { oneIn: 20 }, centreDistance: 200, travel: 8 });
    expect(reach?.rate).toBeCloseTo(2 * Math.tan(Math.asin(0.04)), 14);
    // The ends of the reach can themselves be set.
    const farthest = setoverSettings({ taper: { rate: reach?.rate as number }, centreDistance: 200, travel: 8 });
    expect(farthest.offset).toBeCloseTo(8, 13);
    const centreDistance = reach?.centreDistance as number;
    expect(setoverSettings({ taper: { oneIn: 20 }, centreDistance, travel: 8 }).offset).toBeCloseTo(8, 13);
    const beyond = { taper: { oneIn: 10 }, centreDistance: 200, travel: 8 } as const;
    expect(() => setoverSettings(beyond)).toThrow(
      expect.objectContaining({
        code: 'beyond-machine',
        parameter: 'travel',
        message: expect.stringContaining('0.0800'),
      }),
    );
    const dial = { reads: 'diameter', from: 0, to: 16 } as const;
    expect(setoverSettings({ taper: { oneIn: 20 }, centreDistance: 200, dial }).reach).toEqual(reach);
    expect(() => setoverSettings({ ...beyond, travel: 20, dial })).toThrow(
      expect.objectContaining({ code: 'beyond-machine' }),
    );
    expect(setoverSettings({ taper: { oneIn: 20 }, centreDistance: 200, travel: 300 }).reach).toBeUndefined();
  });

  it('do not depend on the unit', () => {
    fc.assert(
      fc.property(between(0.01, 40), between(50, 2000), (halfAngleDeg, centreDistance) => {
        const one = setoverSettings({ taper: { halfAngleDeg }, centreDistance, length: 30, travel: 2000 });
        const other = setoverSettings({
          taper: { halfAngleDeg },
          centreDistance: centreDistance * 1024,
          length: 30 * 1024,
          travel: 2000 * 1024,
        });
        expect(other.offset).toBe(one.offset * 1024);
        expect(other.cuts).toEqual(one.cuts);
        expect(other.diameterPerReading).toBe(one.diameterPerReading);
      }),
      { numRuns: 200 },
    );
  });
});

/** A set-up that cuts: small errors and gross ones, both ends sized, both senses. */
const problem = fc.record({
  rate: between(-3, 0).map((power) => 10 ** power),
  centreDistance: between(100, 1000),
  rollDeg: fc.integer({ min: -30_000, max: 30_000 }).map((thousandths) => thousandths / 1000),
  toolHeight: fc.integer({ min: -10_000, max: 10_000 }).map((parts) => parts / 10_000),
  distance: fc.integer({ min: 0, max: 700 }).map((thousandths) => thousandths / 1000),
  length: between(0.05, 0.3),
  small: between(4, 40),
  headstockEnd: fc.constantFrom('large' as const, 'small' as const),
  sized: fc.constantFrom('large' as const, 'small' as const),
});

function surfaceAndTruth(given: typeof problem extends fc.Arbitrary<infer T> ? T : never) {
  const { rate, centreDistance, rollDeg, toolHeight, headstockEnd, sized } = given;
  const length = given.length * centreDistance;
  const distance = given.distance * centreDistance;
  const { offset } = setoverSettings({ taper: { rate }, centreDistance });
  // Thick enough that the tool's path stays clear of the axis.
  const diameter =
    sized === 'small' ? given.small + Math.abs(distance * rate) : given.small + (length + distance) * rate * 1.5;
  const end = sized === 'small' ? { smallDiameter: diameter } : { largeDiameter: diameter };
  const work = { offset, centreDistance, rollDeg, toolHeight, fromPivot: distance, headstockEnd, length, ...end };
  const set: SetUp = { offset, centreDistance, rollDeg, toolHeight, towards: headstockEnd === 'large' };
  const x = touchOff(set, diameter / 2, distance);
  // Towards the large end z falls; the large end lies at the headstock, or at the tailstock.
  const sign = headstockEnd === 'large' ? 1 : -1;
  const zero = sized === 'large' ? exact(distance) : exact(distance).minus(exact(length).times(sign));
  const radiusAt = (z: InstanceType<typeof D>) => radiusCut(set, x, zero.plus(z.times(sign)));
  return { work, set, x, diameter, distance, length, radiusAt };
}

describe('the surface', () => {
  it('is the tool line seen from the work, place by place, for rolled heads and tools off centre', () => {
    fc.assert(
      fc.property(problem, (given) => {
        const { work, set, x, radiusAt, length } = surfaceAndTruth(given);
        const cut = setoverSurface(work);
        for (const part of [0, 0.3, 0.5, 1]) {
          const z = part * length;
          expect(relative(lineRadiusAt(cut.surface, z), radiusAt(exact(z)))).toBeLessThan(1e-12);
        }
        expect(relative(cut.largeDiameter / 2, radiusAt(new D(0)))).toBeLessThan(1e-12);
        expect(relative(cut.smallDiameter / 2, radiusAt(exact(length)))).toBeLessThan(1e-12);
        // The waist is a difference of height and roll: measured against the larger of the two.
        const scale = Math.max(
          Math.abs(given.toolHeight),
          Math.abs(x.toNumber() * Math.sin((given.rollDeg * Math.PI) / 180)),
        );
        expect(exact(cut.waist).minus(nearest(set, x)).abs().toNumber()).toBeLessThanOrEqual(1e-12 * scale);
      }),
      { numRuns: runs(60, 30), endOnFailure: true },
    );
  });

  it('has the departure, the hollow, the error at the other end and the shift that a search finds', () => {
    fc.assert(
      fc.property(problem, (given) => {
        const { work, set, radiusAt, length, diameter, distance } = surfaceAndTruth(given);
        const cut = setoverSurface(work);
        const [from, to] = [new D(0), exact(length)];
        const chord = (z: InstanceType<typeof D>) =>
          radiusAt(from).plus(z.div(to).times(radiusAt(to).minus(radiusAt(from))));
        const [, hollow] = highest((z) => chord(z).minus(radiusAt(z)), from, to);
        // The waist enters squared, and it keeps its digits relative to what it is the difference of.
        const lever = Math.abs(work.toolHeight) + diameter * Math.abs(Math.sin((work.rollDeg * Math.PI) / 180));
        const room = (value: number) =>
          cut.waist === 0 ? 1e-40 : 4e-12 * Math.abs(value) * Math.max(1, lever / cut.waist);
        expect(exact(cut.hollow).minus(hollow).abs().toNumber()).toBeLessThan(room(cut.hollow));
        expect(exact(cut.departure.bestFit.largest).times(2).minus(hollow).abs().toNumber()).toBeLessThan(
          room(cut.hollow),
        );
        // The other end of a level, centred cut with the same set-over and the same sized end.
        const level = { ...set, rollDeg: 0, toolHeight: 0 };
        const levelX = levelTouchOff(set, diameter / 2, distance);
        const towardsOther = given.headstockEnd === given.sized ? 1 : -1;
        const other = exact(distance).plus(exact(length).times(towardsOther));
        const straight = radiusCut(level, levelX, other);
        const real = given.sized === 'large' ? radiusAt(to) : radiusAt(from);
        expect(exact(cut.heightError).minus(real.minus(straight).times(2)).abs().toNumber()).toBeLessThan(
          room(cut.heightError),
        );
        const shifted = radiusCut(set, levelX, exact(distance)).times(2).minus(exact(diameter));
        const size = Math.abs(cut.diameterShift) + (lever * lever) / diameter + 1e-40;
        expect(exact(cut.diameterShift).minus(shifted).abs().toNumber()).toBeLessThanOrEqual(1e-12 * size);
      }),
      { numRuns: runs(30, 15), endOnFailure: true },
    );
  });

  it('holds every point of the path, turned about the tilted axis by a rotation matrix', () => {
    const work = {
      offset: 12,
      centreDistance: 240,
      rollDeg: 7,
      toolHeight: 0.4,
      fromPivot: 60,
      length: 90,
      largeDiameter: 36,
    };
    const { surface } = setoverSurface(work);
    const roll = (7 * Math.PI) / 180;
    const axis = [12 * Math.cos(roll), 12 * Math.sin(roll), Math.sqrt(240 ** 2 - 12 ** 2)].map(
      (part) => part / 240,
    ) as [number, number, number];
    const set: SetUp = { offset: 12, centreDistance: 240, rollDeg: 7, toolHeight: 0.4, towards: true };
    const x = touchOff(set, 18, 60).toNumber();
    const [a, b, c] = axis;
    for (let turn = 0.3; turn < 6.3; turn += 0.7) {
      const [cos, sin] = [Math.cos(turn), Math.sin(turn)];
      const k = 1 - cos;
      for (let t = 55; t < 150; t += 10) {
        const [px, py, pz] = [x, 0.4, t];
        const rotated = [
          (cos + a * a * k) * px + (a * b * k - c * sin) * py + (a * c * k + b * sin) * pz,
          (b * a * k + c * sin) * px + (cos + b * b * k) * py + (b * c * k - a * sin) * pz,
          (c * a * k - b * sin) * px + (c * b * k + a * sin) * py + (cos + c * c * k) * pz,
        ] as [number, number, number];
        const along = a * rotated[0] + b * rotated[1] + c * rotated[2];
        const radius = Math.hypot(...rotated.map((part, i) => part - along * (axis[i] as number)));
        expect(lineRadiusAt(surface, along - 60)).toBeCloseTo(radius, 12);
      }
    }
  });

  it('is the cone of the settings where nothing is wrong', () => {
    fc.assert(
      fc.property(between(0.05, 20), between(100, 1000), (halfAngleDeg, centreDistance) => {
        const { offset } = setoverSettings({ taper: { halfAngleDeg }, centreDistance });
        const cut = setoverSurface({ offset, centreDistance, length: 50, smallDiameter: 0 });
        expect(cut.surface.kind).toBe('cone');
        expect(cut).toMatchObject({ waist: 0, diameterShift: 0, heightError: 0, hollow: 0, smallDiameter: 0 });
        expect(cut.cuts.halfAngleDeg).toBeCloseTo(halfAngleDeg, 12);
        expect(cut.departure.bestFit.straightness).toBe(0);
        expect(Math.abs(cut.departure.touchedOff.largest)).toBeLessThan(1e-13);
      }),
      { numRuns: 200 },
    );
  });

  it('counts errors of touching off and of the pivots as what they change', () => {
    const work = { offset: 5, centreDistance: 200, length: 50, rollDeg: 3, fromPivot: 40, toolHeight: 0.2 };
    const off = setoverSurface({ ...work, largeDiameter: 30, touchOffError: 0.5, centreDistanceError: -8 });
    const true_ = setoverSurface({ ...work, centreDistance: 192, largeDiameter: 30.5 });
    expect(off.surface).toEqual(true_.surface);
    expect([off.largeDiameter, off.smallDiameter]).toEqual([true_.largeDiameter, true_.smallDiameter]);
    // Its rates are compared with what the pivots were taken for.
    expect(off.differenceError).toBeCloseTo(
      off.largeDiameter - off.smallDiameter - 100 * Math.tan(Math.asin(0.025)),
      12,
    );
  });

  it('counts a zero error as set-over, and an untouched tailstock as a cylinder', () => {
    const one = setoverSurface({ offset: 5, zeroError: 0.25, centreDistance: 200, length: 50, largeDiameter: 30 });
    const other = setoverSurface({ offset: 5.25, centreDistance: 200, length: 50, largeDiameter: 30 });
    expect(one.surface).toEqual(other.surface);
    expect(one.cuts.rateError).toBeCloseTo(2 * Math.tan(Math.asin(5.25 / 200)) - 2 * Math.tan(Math.asin(5 / 200)), 14);
    const straight = setoverSurface({ offset: 0, centreDistance: 200, length: 50, largeDiameter: 30, toolHeight: 1 });
    expect(straight.surface).toEqual({ kind: 'cylinder', radius: 15 });
    expect(straight.heightError).toBe(0);
  });
});

describe('the model', () => {
  it('gives the small end of the surface, and its sensitivities by differences', () => {
    fc.assert(
      fc.property(problem, (given) => {
        const { work, length, distance } = surfaceAndTruth({ ...given, headstockEnd: 'large', sized: 'large' });
        const { offset, centreDistance, rollDeg, toolHeight, largeDiameter } = work as typeof work & {
          largeDiameter: number;
        };
        const inputs = {
          offset,
          zeroError: 0,
          touchOffError: 0,
          centreDistanceError: 0,
          centreDistance,
          rollDeg,
          toolHeight,
          fromPivot: distance,
          largeDiameter,
          length,
        };
        const found = setoverModel.evaluate(plainArithmetic, inputs);
        expect(found / setoverSurface(work).smallDiameter).toBeCloseTo(1, 11);
        const dual = dualArithmetic(plainArithmetic);
        const names = Object.keys(inputs) as (keyof typeof inputs)[];
        const variables = Object.fromEntries(
          names.map((name, i) => [name, variable(plainArithmetic, inputs[name], i)]),
        );
        const { partials } = setoverModel.evaluate(
          dual,
          variables as Parameters<typeof setoverModel.evaluate<ReturnType<typeof dual.constant>>>[1],
        );
        const step = 1e-4;
        for (const [i, name] of names.entries()) {
          const [up, down] = [step, -step].map((d) =>
            setoverModel.evaluate(plainArithmetic, { ...inputs, [name]: inputs[name] + d }),
          ) as [number, number];
          expect(partials[i]).toBeCloseTo((up - down) / (2 * step), 5);
        }
      }),
      { numRuns: 50 },
    );
  });
});

describe('refused', () => {
  const work = { offset: 5, centreDistance: 200, length: 50, largeDiameter: 30 };

  it.each([
    ['out-of-range', { ...work, offset: 200 }],
    ['out-of-range', { ...work, offset: -1 }],
    ['impossible-geometry', { ...work, zeroError: -6 }],
    ['impossible-geometry', { ...work, zeroError: 196 }],
    ['missing-option', { ...work, rollDeg: 1 }],
    ['impossible-geometry', { ...work, touchOffError: -31 }],
    ['impossible-geometry', { ...work, centreDistanceError: -200 }],
    ['out-of-range', { ...work, rollDeg: 91, fromPivot: 1 }],
    ['out-of-range', { ...work, toolHeight: 16 }],
    ['impossible-geometry', { ...work, toolHeight: -14.9, rollDeg: 60, fromPivot: 190 }],
    ['impossible-geometry', { ...work, length: 650 }],
    ['out-of-range', { ...work, headstockEnd: 'left' }],
    ['contradiction', { ...work, smallDiameter: 3 }],
    ['unknown-option', { ...work, taper: 3 }],
    ['not-finite', { ...work, fromPivot: Number.POSITIVE_INFINITY }],
  ])('%s: %j', (code, cut) => {
    expect(() => setoverSurface(cut as Parameters<typeof setoverSurface>[0])).toThrow(
      expect.objectContaining({ code }),
    );
  });

  it.each([
    ['missing-option', { taper: { rate: 0.1 } }],
    ['out-of-range', { taper: { rate: 0.1 }, centreDistance: 0 }],
    ['out-of-range', { taper: { rate: 0.1 }, centreDistance: 100, backlash: -1 }],
    ['out-of-range', { taper: { rate: 0.1 }, centreDistance: 100, length: 0 }],
    ['out-of-range', { taper: { rate: 0.1 }, centreDistance: 100, travel: 0 }],
    ['unknown-option', { taper: { rate: 0.1 }, centreDistance: 100, roll: 1 }],
    ['not-representable', { taper: { halfAngleDeg: 60 }, centreDistance: 1, dial: { reads: 'radius', step: 1 } }],
  ])('%s: settings for %j', (code, set) => {
    expect(() => setoverSettings(set as Parameters<typeof setoverSettings>[0])).toThrow(
      expect.objectContaining({ code }),
    );
  });
});
