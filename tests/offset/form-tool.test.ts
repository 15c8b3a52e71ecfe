import fc from 'fast-check';
import {
  type FormToolSurfaceOptions,
  formToolCorrection,
  formToolModel,
  formToolSettings,
  formToolSurface,
  toolHeightSurface,
} from 'generatrix';
import { describe, expect, it } from 'vitest';
import { plainArithmetic } from '../../src/budget/arithmetic.js';
import { refusal } from '../oracle/refusal.js';
import { runs } from '../oracle/seed.js';
import { bruteHollow } from './brute-path.js';

const radians = (deg: number): number => (deg * Math.PI) / 180;
const between = (min: number, max: number): fc.Arbitrary<number> => fc.double({ min, max, noNaN: true });

type Point = readonly [x: number, y: number, z: number];

/** Where an increasing function passes zero. */
function zero(f: (x: number) => number, low: number, high: number): number {
  let [a, b] = [low, high];
  for (let i = 0; i < 200; i++) {
    const middle = (a + b) / 2;
    if (f(middle) < 0) a = middle;
    else b = middle;
  }
  return b;
}

/** A vector turned about a unit vector (Rodrigues' formula, any textbook of mechanics). */
function turned(v: Point, [x, y, z]: Point, deg: number): Point {
  const [sin, cos] = [Math.sin(radians(deg)), Math.cos(radians(deg))];
  const along = (v[0] * x + v[1] * y + v[2] * z) * (1 - cos);
  const cross: Point = [y * v[2] - z * v[1], z * v[0] - x * v[2], x * v[1] - y * v[0]];
  return [0, 1, 2].map((i) => (v[i] ?? 0) * cos + (cross[i] ?? 0) * sin + ([x, y, z][i] ?? 0) * along) as never;
}

/**
 * The edge as points in space: laid along the axis, turned in plan by the angle, tipped about its level normal, put
 * where it cuts a radius at z = 0. The radius that each of its points leaves, by its place along the axis.
 */
function bruteEdge(angleDeg: number, tipDeg: number, height: number, radius: number): (z: number) => number {
  const inPlan = (v: Point): Point => turned(v, [0, 1, 0], -angleDeg);
  const direction = turned(inPlan([0, 0, 1]), inPlan([1, 0, 0]), -tipDeg);
  const start = zero((x) => Math.hypot(x, height) - radius, 0, radius);
  return (z) => {
    const s = zero((far) => far * direction[2] - z, 0, 1e6);
    return Math.hypot(start + s * direction[0], height + s * direction[1]);
  };
}

/** Short tapers that end before the axis, the edge anywhere up to a third of the small radius off, tipped either way. */
const cut = fc
  .record({
    angleDeg: between(1, 80),
    angleErrorDeg: between(-0.9, 0.9),
    tipDeg: between(-20, 20),
    largeDiameter: between(2, 200),
    share: between(0.01, 0.6),
    off: between(-0.3, 0.3),
  })
  .map(({ angleDeg, angleErrorDeg, tipDeg, largeDiameter, share, off }) => ({
    angleDeg,
    angleErrorDeg,
    tipDeg,
    largeDiameter,
    length: (share * largeDiameter) / 2 / Math.tan(radians(angleDeg + angleErrorDeg)),
    toolHeight: (off * largeDiameter * (1 - share)) / 2,
  }));

describe('formToolSurface', () => {
  it('is what the points of the edge leave in turning work, its errors included', () => {
    fc.assert(
      fc.property(cut, between(0, 1), (given, part) => {
        const { angleDeg, angleErrorDeg, tipDeg, toolHeight, largeDiameter, length } = given;
        const leaves = bruteEdge(angleDeg + angleErrorDeg, tipDeg, toolHeight, largeDiameter / 2);
        const found = formToolSurface(given);
        // A few units in the last place of the large radius and of the way along the edge, some 60 times as long at 1°;
        // the small radius is 0.4 of the large one at least.
        const rounding = 1e-13 * (largeDiameter + length);
        expect(Math.abs(found.smallDiameter / 2 - leaves(length))).toBeLessThan(rounding);
        expect(found.largeDiameter).toBe(largeDiameter);
        const { surface } = found;
        const at = (z: number): number =>
          surface.kind === 'cone'
            ? Math.abs((z - surface.apexZ) * surface.perSide)
            : surface.kind === 'hyperboloid'
              ? Math.hypot(surface.waist, (z - surface.waistZ) * surface.perSide)
              : Number.NaN;
        expect(Math.abs(at(part * length) - leaves(part * length))).toBeLessThan(10 * rounding);
        expect(Math.abs(found.hollow - bruteHollow(leaves, length))).toBeLessThan(10 * rounding);
        const straight = largeDiameter - 2 * length * Math.tan(radians(angleDeg + angleErrorDeg));
        expect(Math.abs(found.heightError - (found.smallDiameter - straight))).toBeLessThan(10 * rounding);
        const shown = largeDiameter - 2 * length * Math.tan(radians(angleDeg));
        expect(Math.abs(found.differenceError - (shown - found.smallDiameter))).toBeLessThan(10 * rounding);
        expect(formToolModel.evaluate(plainArithmetic, { ...given, touchOffError: 0 })).toBeCloseTo(
          found.smallDiameter,
          10,
        );
      }),
      { numRuns: runs(500, 100) },
    );
  });

  it('is left by the whole infeed: fed square to the axis, no earlier position of the edge cut deeper', () => {
    fc.assert(
      fc.property(cut, between(0, 1), (given, part) => {
        const z = part * given.length;
        const inPlan = (v: Point): Point => turned(v, [0, 1, 0], -given.angleDeg - given.angleErrorDeg);
        const [dx, dy, dz] = turned(inPlan([0, 0, 1]), inPlan([1, 0, 0]), -given.tipDeg);
        const start = zero((x) => Math.hypot(x, given.toolHeight) - given.largeDiameter / 2, 0, given.largeDiameter);
        const left = Array.from({ length: 101 }, (_, i) =>
          Math.hypot(start + (z / dz) * dx + (i * given.length) / 50, given.toolHeight + (z / dz) * dy),
        );
        expect(Math.min(...left)).toBe(left[0]);
      }),
    );
  });

  it('is the same surface whichever end is sized, the height being that of the edge there', () => {
    fc.assert(
      fc.property(cut, ({ largeDiameter, ...given }) => {
        const rise = Math.tan(radians(given.tipDeg)) / Math.cos(radians(given.angleDeg + given.angleErrorDeg));
        const { smallDiameter, hollow } = formToolSurface({ ...given, largeDiameter });
        const toolHeight = given.toolHeight + given.length * rise;
        const back = formToolSurface({ ...given, toolHeight, smallDiameter });
        const rounding = 1e-12 * (largeDiameter + given.length);
        expect(Math.abs(back.largeDiameter - largeDiameter)).toBeLessThan(rounding);
        expect(Math.abs(back.hollow - hollow)).toBeLessThan(rounding);
      }),
    );
  });

  it('cuts as any level path does where it is level, and a cone at the height of the axis', () => {
    const given = { length: 6, largeDiameter: 40, toolHeight: 0.7 };
    const level = formToolSurface({ angleDeg: 30, ...given });
    const path = toolHeightSurface({ taper: { halfAngleDeg: 30 }, ...given });
    expect(level.smallDiameter).toBeCloseTo(path.smallDiameter, 13);
    expect(formToolSurface({ angleDeg: 30, length: 6, largeDiameter: 40 }).surface.kind).toBe('cone');
    // By hand: 40 - 2 · 6 tan 45° = 28; tipped by 10° the other end stands 6 tan 10°/cos 45° = 1.4962 high:
    // 2 · √(14² + 1.4962²) = 28.1594.
    const tipped = formToolSurface({ angleDeg: 45, tipDeg: 10, length: 6, largeDiameter: 40 });
    expect(tipped.smallDiameter).toBeCloseTo(28.1594, 4);
    expect(tipped.heightError).toBeCloseTo(0.1594, 4);
  });

  it('takes a touching off that is off as another diameter', () => {
    const given = { angleDeg: 20, tipDeg: 1, toolHeight: 0.3, length: 4 };
    const off = formToolSurface({ ...given, smallDiameter: 20, touchOffError: -0.25 });
    expect(off).toEqual(formToolSurface({ ...given, smallDiameter: 19.75 }));
  });
});

describe('formToolSettings', () => {
  it('gives a 45° chamfer of 4 by hand', () => {
    const set = formToolSettings({ taper: { includedAngleDeg: 90 }, length: 4, overlap: 1.5, allowance: 0.5 });
    expect(set.halfAngleDeg).toBe(45);
    expect(set.fromFaceDeg).toBe(45);
    expect(set.edgeInCut).toBeCloseTo(4 * Math.SQRT2, 13);
    expect(set.widthNeeded).toBeCloseTo(4 * Math.SQRT2 + 1.5, 13);
    expect(set.indicatorOnEdge).toBeCloseTo(4, 13);
    expect(set.indicatorOnCylinder).toBeCloseTo(4 / Math.SQRT2, 13);
    // 0.5 over the large end and the 4 of the chamfer; at 45° that is 4.5/√2 along the normal, 2.25 along the axis.
    expect(set.squareInfeed).toBeCloseTo(4.5, 13);
    expect(set.normalInfeed).toBeCloseTo(4.5 / Math.SQRT2, 13);
    expect(set.normalShift).toBeCloseTo(2.25, 13);
    // 2 · 4 / cos² 45° = 16 a radian.
    expect(set.diameterPerDegree).toBeCloseTo((16 * Math.PI) / 180, 13);
    expect(set.diameterPerMinute).toBeCloseTo((16 * Math.PI) / 10800, 14);
  });

  it('feeds in from where the edge first touches the corner of the stock, either way', () => {
    fc.assert(
      fc.property(between(1, 80), between(0.5, 20), between(0, 5), (halfAngleDeg, length, allowance) => {
        const set = formToolSettings({ taper: { halfAngleDeg }, length, allowance });
        // In plan: the finished large end at x = 100, z = 0, the stock's corner at the small end.
        const [s, c] = [Math.sin(radians(halfAngleDeg)), Math.cos(radians(halfAngleDeg))];
        const corner = [100 + allowance, length] as const;
        /** How far the edge, drawn back, has come off the corner. */
        const gap = (x: number, z: number): number => (100 + x - corner[0]) * c + (z - corner[1]) * s;
        const most = 10 * (allowance + length / c);
        const square = zero((back) => gap(back, 0), 0, most);
        const normal = zero((back) => gap(back * c, back * s), 0, most);
        // Places near 100 keep 1e-14 of it; the sine of 1° loses a factor of 60.
        expect(Math.abs(set.squareInfeed - square)).toBeLessThan(1e-10);
        expect(Math.abs(set.normalInfeed - normal)).toBeLessThan(1e-11);
        expect(Math.abs(set.normalShift - normal * s)).toBeLessThan(1e-11);
      }),
    );
  });

  it('shows on an indicator what points of the edge do, and answers a degree as the surface does', () => {
    fc.assert(
      fc.property(between(1, 80), between(0.5, 20), (halfAngleDeg, travel) => {
        const length = 2;
        const set = formToolSettings({ taper: { halfAngleDeg }, length, indicatorTravel: travel });
        const [x, , z] = turned([0, 0, 1], [0, 1, 0], halfAngleDeg);
        expect(Math.abs(set.indicatorOnEdge - travel * (x / z))).toBeLessThan(1e-12 * travel);
        expect(Math.abs(set.indicatorOnCylinder - travel * x)).toBeLessThan(1e-13 * travel);
        const h = 1e-4;
        const at = (angleErrorDeg: number): number =>
          formToolSurface({ angleDeg: halfAngleDeg, angleErrorDeg, length, largeDiameter: 100 }).smallDiameter;
        // A central difference: the rest is h² times the third derivative, below 1e-6 of the slope up to 80°.
        expect((at(-h) - at(h)) / (2 * h) / set.diameterPerDegree).toBeCloseTo(1, 6);
      }),
    );
  });

  it('takes an edge that is just long enough', () => {
    const { widthNeeded } = formToolSettings({ taper: { halfAngleDeg: 20 }, length: 5, overlap: 1 });
    const set = (width: number) => formToolSettings({ taper: { halfAngleDeg: 20 }, length: 5, overlap: 1, width });
    expect(set(widthNeeded).widthNeeded).toBe(widthNeeded);
    expect(refusal(() => set(widthNeeded * (1 - 1e-12)))).toBe('beyond-machine width');
  });
});

describe('formToolCorrection', () => {
  it('undoes what the surface shows', () => {
    fc.assert(
      fc.property(between(1, 80), between(-0.9, 0.9), between(1, 80), (angleDeg, angleErrorDeg, target) => {
        const length = 5 / Math.tan(radians(angleDeg + angleErrorDeg));
        const trial = { angleDeg, angleErrorDeg, length, largeDiameter: 20 };
        const { largeDiameter, smallDiameter } = formToolSurface(trial);
        const taper = { halfAngleDeg: target };
        const found = formToolCorrection({ taper, largeDiameter, smallDiameter, length, indicatorTravel: 3 });
        // A rounding of the diameters is worth about 1e-16 rad × tan; degrees are rounded near 80.
        expect(Math.abs(found.changeDeg - (target - angleDeg - angleErrorDeg))).toBeLessThan(1e-11);
        expect(found.changeMinutes).toBe(60 * found.changeDeg);
        const shows = (halfAngleDeg: number) => formToolSettings({ taper: { halfAngleDeg }, length: 3 });
        const [was, will] = [shows(angleDeg + angleErrorDeg), shows(target)];
        expect(Math.abs(found.indicatorOnEdge - (will.indicatorOnEdge - was.indicatorOnEdge))).toBeLessThan(1e-11);
        expect(Math.abs(found.indicatorOnCylinder - (will.indicatorOnCylinder - was.indicatorOnCylinder))).toBeLessThan(
          1e-12,
        );
      }),
    );
  });

  it('notes a trial that looks mistyped, and states the uncertainty of the change', () => {
    const codes = (largeDiameter: number, smallDiameter: number) =>
      formToolCorrection({ taper: { halfAngleDeg: 45 }, largeDiameter, smallDiameter, length: 4 }).notes.map(
        ({ code }) => code,
      );
    expect(codes(30, 22.1)).toEqual([]);
    expect(codes(22.1, 30)).toEqual(['diameters-swapped']);
    expect(codes(15, 11.05)).toEqual(['radii-for-diameters']);
    // By hand at 45°: dα = cos² α · √((u_d/√2)² + u_ℓ²)/ℓ = 0.5 · √(0.00005 + 0.0001)/4 rad.
    const { changeStandardUncertaintyDeg } = formToolCorrection({
      taper: { halfAngleDeg: 45 },
      largeDiameter: 30,
      smallDiameter: 22,
      length: 4,
      diameterStandardUncertainty: 0.01,
      lengthStandardUncertainty: 0.01,
    });
    expect(changeStandardUncertaintyDeg).toBeCloseTo(((0.5 * Math.sqrt(0.00015)) / 4 / Math.PI) * 180, 12);
  });
});

const settings = { taper: { halfAngleDeg: 30 }, length: 5 } as const;
const set: FormToolSurfaceOptions = { angleDeg: 30, length: 5, largeDiameter: 20 };
const trial = { taper: { halfAngleDeg: 30 }, largeDiameter: 20, smallDiameter: 14, length: 5 } as const;
it.each<[string, () => unknown]>([
  ['accepted', () => formToolSettings(settings)],
  ['unknown-option angle', () => formToolSettings({ ...settings, angle: 1 } as never)],
  ['missing-option length', () => formToolSettings({ taper: { oneIn: 1 } } as never)],
  ['out-of-range length', () => formToolSettings({ ...settings, length: 0 })],
  ['out-of-range overlap', () => formToolSettings({ ...settings, overlap: -1 })],
  ['out-of-range allowance', () => formToolSettings({ ...settings, allowance: -1 })],
  ['out-of-range width', () => formToolSettings({ ...settings, width: 0 })],
  ['beyond-machine width', () => formToolSettings({ ...settings, width: 5.77 })],
  ['accepted', () => formToolSettings({ ...settings, width: 5.78 })],
  ['out-of-range indicatorTravel', () => formToolSettings({ ...settings, indicatorTravel: 0 })],
  ['not-finite indicatorTravel', () => formToolSettings({ ...settings, indicatorTravel: Infinity })],
  ['out-of-range taper.halfAngleDeg', () => formToolSettings({ ...settings, taper: { halfAngleDeg: 90 } })],
  ['not-representable length', () => formToolSettings({ taper: { halfAngleDeg: 89 }, length: 1e308 })],
  ['accepted', () => formToolSurface(set)],
  ['out-of-range angleDeg', () => formToolSurface({ ...set, angleDeg: 90 })],
  ['out-of-range angleErrorDeg', () => formToolSurface({ ...set, angleErrorDeg: 60 })],
  ['out-of-range tipDeg', () => formToolSurface({ ...set, tipDeg: -90 })],
  ['not-finite tipDeg', () => formToolSurface({ ...set, tipDeg: Number.NaN })],
  ['out-of-range toolHeight', () => formToolSurface({ ...set, toolHeight: 10.1 })],
  ['impossible-geometry length', () => formToolSurface({ ...set, length: 20 })],
  ['impossible-geometry touchOffError', () => formToolSurface({ ...set, touchOffError: -21 })],
  ['missing-option largeDiameter', () => formToolSurface({ angleDeg: 30, length: 5 } as never)],
  ['contradiction largeDiameter', () => formToolSurface({ ...set, smallDiameter: 9 } as never)],
  ['accepted', () => formToolCorrection(trial)],
  ['missing-option smallDiameter', () => formToolCorrection({ ...trial, smallDiameter: undefined as never })],
  ['out-of-range indicatorTravel', () => formToolCorrection({ ...trial, indicatorTravel: -1 })],
  [
    'missing-option diameterStandardUncertainty',
    () => formToolCorrection({ ...trial, lengthStandardUncertainty: 0.01 }),
  ],
  ['not-representable length', () => formToolCorrection({ ...trial, length: 1e-310 })],
])('%s', (wanted, call) => {
  expect(refusal(call)).toBe(wanted);
});
