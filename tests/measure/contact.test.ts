/**
 * Rollers, balls, disks and spherometers against bodies in space: the instrument is put where the
 * formula says, the distance between the bodies is found by a numerical search, and must be zero at the
 * touching points: within 1e-12 of the bodies' size, the agreement asked for where closed forms exist.
 */
import fc from 'fast-check';
import {
  advanceFromDiameter,
  boreFromMouthAndBall,
  boreFromTwoBalls,
  coneContact,
  cornerOverRoller,
  diameterFromStandOff,
  diskCentreDistance,
  halfAngleFromDisks,
  plugFromRollers,
  plugOverRollers,
  radiusFromChord,
  radiusFromSpherometer,
  sagittaOnSpherometer,
  socketFromBalls,
  touchingDisk,
} from 'generatrix/measure';
import { describe, expect, it } from 'vitest';
import { halfUnit, published } from '../reference/published.js';

const RAD = Math.PI / 180;
const CLOSE = 1e-12;
const between = (min: number, max: number): fc.Arbitrary<number> => fc.double({ min, max, noNaN: true });

/** Least value of a smooth function with one minimum in [from, to], by golden section. */
function least(f: (x: number) => number, from: number, to: number): number {
  const golden = (Math.sqrt(5) - 1) / 2;
  let [a, b] = [from, to];
  for (let i = 0; i < 120; i++) {
    const [x, y] = [b - golden * (b - a), a + golden * (b - a)];
    if (f(x) < f(y)) b = y;
    else a = x;
  }
  return f((a + b) / 2);
}

describe('plug over rollers', () => {
  const plug = fc.record({
    halfAngleDeg: between(0.1, 40),
    endDiameter: between(10, 50),
    rollerDiameter: between(2, 12),
    blockHeight: between(0, 5),
    standsOn: fc.constantFrom('small-end' as const, 'large-end' as const),
  });

  it('puts rollers where they touch plate (or blocks) and plug', () => {
    fc.assert(
      fc.property(plug, ({ halfAngleDeg, endDiameter, rollerDiameter: p, blockHeight, standsOn }) => {
        const lean = (standsOn === 'small-end' ? 1 : -1) * Math.tan(halfAngleDeg * RAD);
        fc.pre(endDiameter / 2 + lean * (blockHeight + p) > 0.5);
        const M = plugOverRollers({ taper: { halfAngleDeg }, endDiameter, rollerDiameter: p, blockHeight, standsOn });
        // The roller's axis runs along y at (x0, z0); a point of the plug is (ρ cos φ, ρ sin φ, z).
        const [x0, z0] = [(M - p) / 2, blockHeight + p / 2];
        const distanceAt = (phi: number): number =>
          least((z) => Math.hypot((endDiameter / 2 + lean * z) * Math.cos(phi) - x0, z - z0), z0 - 3 * p, z0 + 3 * p);
        expect(Math.abs(distanceAt(0) - p / 2)).toBeLessThan(CLOSE * M);
        for (const phi of [0.01, 0.1, -0.3]) expect(distanceAt(phi)).toBeGreaterThan(distanceAt(0));
      }),
      { numRuns: 300 },
    );
  });

  it('is found again from two measurements', () => {
    fc.assert(
      fc.property(plug, between(5, 9), ({ halfAngleDeg, endDiameter, blockHeight, ...rest }, more) => {
        const lean = (rest.standsOn === 'small-end' ? 1 : -1) * Math.tan(halfAngleDeg * RAD);
        fc.pre(endDiameter / 2 + lean * (blockHeight + more) > 0.5);
        const at = (height: number): { blockHeight: number; overRollers: number } => ({
          blockHeight: height,
          overRollers: plugOverRollers({ taper: { halfAngleDeg }, endDiameter, blockHeight: height, ...rest }),
        });
        const found = plugFromRollers({ ...rest, lower: at(blockHeight), upper: at(blockHeight + more) });
        // Differences of M lose M / (2 more tan α) of its digits: at most a factor 1e4 here.
        expect(found.halfAngleDeg / halfAngleDeg).toBeCloseTo(1, 10);
        expect(found.endDiameter / endDiameter).toBeCloseTo(1, 10);
      }),
      { numRuns: 300 },
    );
  });

  it('agrees with the disk and square of the published example (T4-DISK-SQ, reference book on dividing methods)', () => {
    const { x, cot_half: cot } = published('T4-DISK-SQ').published;
    const distance = cornerOverRoller({ cornerAngleDeg: 15 + 10 / 60, rollerDiameter: 2 });
    expect(Math.abs(distance - Number(x?.value))).toBeLessThanOrEqual(halfUnit(x?.value ?? ''));
    // The corner lies cot(half) radii, of 1 in each, before the foot of the disk's centre, its far side one more.
    expect(Math.abs(distance - 1 - Number(cot?.value))).toBeLessThanOrEqual(halfUnit(cot?.value ?? ''));
  });
});

describe('balls in a bore', () => {
  const bore = fc.record({
    halfAngleDeg: between(0.1, 40),
    small: between(2, 10),
    larger: between(0.5, 5),
    depth: between(-2, 20),
  });

  it('touch the bore that is found', () => {
    fc.assert(
      fc.property(bore, ({ halfAngleDeg, small, larger, depth }) => {
        const large = small + larger;
        fc.pre(depth + large / 2 > 0.1); // or the large ball touches nothing
        const centres = larger / 2 / Math.sin(halfAngleDeg * RAD);
        const smallTopDepth = depth + large / 2 + centres - small / 2;
        const found = boreFromTwoBalls({ smallBall: small, largeBall: large, smallTopDepth, largeTopDepth: depth });
        const tan = Math.tan(found.halfAngleDeg * RAD);
        for (const [ball, top] of [
          [small, smallTopDepth],
          [large, depth],
        ] as const) {
          const centre = top + ball / 2;
          const distance = least(
            (z) => Math.hypot(found.mouthDiameter / 2 - z * tan, z - centre),
            centre - 2 * ball,
            centre + 2 * ball,
          );
          expect(Math.abs(distance - ball / 2)).toBeLessThan(CLOSE * (found.mouthDiameter + smallTopDepth));
        }
        expect(found.rate / (2 * tan)).toBeCloseTo(1, 12);
        // The same bore from its mouth and the small ball.
        const again = boreFromMouthAndBall({
          mouthDiameter: found.mouthDiameter,
          ball: small,
          topDepth: smallTopDepth,
        });
        expect(again.halfAngleDeg / found.halfAngleDeg).toBeCloseTo(1, 10);
        expect(again.mouthDiameter / found.mouthDiameter).toBeCloseTo(1, 12);
      }),
      { numRuns: 300 },
    );
  });
});

describe('disks', () => {
  it('agrees with the published examples (T4-MH-1, T4-MH-3, T4-MH-5: Machinery’s Handbook, 31st edition)', () => {
    const half = halfAngleFromDisks({ smallDisk: 1, largeDisk: 1.5, centreDistance: 5 });
    const printed = (id: string, key: string): string => published(id).published[key]?.value ?? '';
    expect(Math.sin(half * RAD)).toBeCloseTo(Number(printed('T4-MH-1', 'K')), 12);
    expect(Math.abs(24 * Math.tan(half * RAD) - Number(printed('T4-MH-1', 'T')))).toBeLessThanOrEqual(
      halfUnit(printed('T4-MH-1', 'T')),
    );
    const C = diskCentreDistance({ taper: { includedAngleDeg: 20 }, smallDisk: 1, largeDisk: 3 });
    expect(Math.abs(C - Number(printed('T4-MH-3', 'C')))).toBeLessThanOrEqual(halfUnit(printed('T4-MH-3', 'C')));
    const D = touchingDisk({ taper: { includedAngleDeg: 15 }, smallDisk: 1 });
    expect(Math.abs(D - Number(printed('T4-MH-5', 'D')))).toBeLessThanOrEqual(halfUnit(printed('T4-MH-5', 'D')));
  });

  it('agrees with the half angle and sine of a tangent of 0.03125 (T4-JON-2: Jones, Turning and Boring)', () => {
    const { half_arcmin: half, sin_half: sine } = published('T4-JON-2').published;
    // Disks with that sine of the half angle enclose it.
    const tan = 0.03125;
    const distance = diskCentreDistance({ taper: { perSide: tan }, smallDisk: 1, largeDisk: 1.5 });
    expect(Math.abs(0.25 / distance - Number(sine?.value))).toBeLessThanOrEqual(halfUnit(sine?.value ?? ''));
    const angle = halfAngleFromDisks({ smallDisk: 1, largeDisk: 1.5, centreDistance: distance });
    expect(Math.abs(60 * angle - Number(half?.value))).toBeLessThanOrEqual(halfUnit(half?.value ?? ''));
  });

  it('touching disks are a full radius sum apart, and each call undoes the other', () => {
    fc.assert(
      fc.property(between(0.5, 60), between(1, 10), (halfAngleDeg, smallDisk) => {
        const largeDisk = touchingDisk({ taper: { halfAngleDeg }, smallDisk });
        const apart = diskCentreDistance({ taper: { halfAngleDeg }, smallDisk, largeDisk });
        expect(apart / ((smallDisk + largeDisk) / 2)).toBeCloseTo(1, 12);
        const angle = halfAngleFromDisks({ smallDisk, largeDisk, centreDistance: apart * (1 + 1e-13) });
        expect(angle / halfAngleDeg).toBeCloseTo(1, 11);
      }),
    );
  });
});

describe('plug in a ring', () => {
  it('stand-off and advance undo each other (a 1 : 20 plug moves 20 for 1 of diameter: ISO 3040)', () => {
    expect(advanceFromDiameter({ taper: { oneIn: 20 }, removed: 1 })).toBe(20);
    expect(diameterFromStandOff({ taper: { oneIn: 20 }, standOff: -20 })).toBe(-1);
  });

  it('bears where two cones pushed together touch first', () => {
    fc.assert(
      fc.property(between(1, 30), between(-0.5, 0.5), between(5, 100), (ringDeg, more, length) => {
        fc.pre(Math.abs(more) > 1e-3);
        const [plug, ring] = [Math.tan((ringDeg + more) * RAD), Math.tan(ringDeg * RAD)];
        // Radii along the engagement, small end at 0; the plug goes in until it touches somewhere.
        const gap = (z: number): number => ring * z - plug * z;
        const touch = Math.min(gap(0), gap(length));
        const found = coneContact({ plug: { halfAngleDeg: ringDeg + more }, ring: { halfAngleDeg: ringDeg }, length });
        expect(found.bearsAt).toBe(gap(0) === touch ? 'small-end' : 'large-end');
        expect(found.diametralGap / (2 * Math.abs(gap(length)))).toBeCloseTo(1, 9);
        expect(found.normalGap / (Math.abs(gap(length)) * Math.cos(ringDeg * RAD))).toBeCloseTo(1, 9);
        expect(found.markedLength).toBe(0);
        // Reading both angles rounds them to a few units in the last place of 30°.
        expect(found.halfAngleDifferenceDeg).toBeCloseTo(more, 12);
      }),
    );
    expect(coneContact({ plug: { oneIn: 20 }, ring: { oneIn: 20 }, length: 50 })).toMatchObject({
      bearsAt: 'all',
      markedLength: 50,
    });
  });

  it('a film marks the length over which the gap is thinner than it', () => {
    const { normalGap } = coneContact({ plug: { oneIn: 20 }, ring: { oneIn: 21 }, length: 80 });
    const half = coneContact({ plug: { oneIn: 20 }, ring: { oneIn: 21 }, length: 80, filmThickness: normalGap / 2 });
    expect(half.markedLength).toBeCloseTo(40, 12);
  });
});

describe('spherometer', () => {
  const instrument = fc.record({
    radius: between(5, 40),
    footRadius: between(0, 4),
    side: fc.constantFrom('ball' as const, 'socket' as const),
  });

  it('stands with three feet on the sphere and the tip on its pole', () => {
    fc.assert(
      fc.property(instrument, between(1.05, 50), ({ radius, footRadius, side }, times) => {
        const sign = side === 'ball' ? 1 : -1;
        const R = radius * times + footRadius; // large enough for the feet inside a socket, too
        const s = sagittaOnSpherometer({ radius, footRadius, side, sphereRadius: R });
        // Sphere about the origin, tip on its pole at height R. A flat across the feet's lowest points is s
        // below the tip on a ball; in a socket the tip reaches s beyond it.
        const flat = R - s;
        const centre = flat + (side === 'ball' ? footRadius : -footRadius);
        for (const turn of [0, 120, 240]) {
          const distance = Math.hypot(radius * Math.cos(turn * RAD), radius * Math.sin(turn * RAD), centre);
          expect(Math.abs(distance - (R + sign * footRadius))).toBeLessThan(CLOSE * R);
        }
        expect(radiusFromSpherometer({ radius, footRadius, side, sagitta: s }) / R).toBeCloseTo(1, 11);
      }),
      { numRuns: 300 },
    );
  });

  it('keeps the digits of a small sagitta: a²/(2R) (1 + a²/(4R²)) to the next order', () => {
    const s = sagittaOnSpherometer({ radius: 1, side: 'ball', sphereRadius: 1e6 });
    expect(s / (0.5e-6 * (1 + 0.25e-12))).toBeCloseTo(1, 15);
  });

  it('finds an arc from chord and height', () => {
    fc.assert(
      fc.property(between(1, 100), between(0.01, 3.1), (R, half) => {
        const radius = radiusFromChord({ chord: 2 * R * Math.sin(half), height: 2 * R * Math.sin(half / 2) ** 2 });
        expect(radius / R).toBeCloseTo(1, 11);
      }),
    );
  });
});

it('a socket is found from a ball on its rim and one on its bottom', () => {
  fc.assert(
    fc.property(between(10, 50), between(0.2, 1.5), between(0.2, 0.9), between(1.05, 3), (R, half, small, large) => {
      const [opening, depth] = [2 * R * Math.sin(half), 2 * R * Math.sin(half / 2) ** 2];
      const smallBall = 2 * R * small;
      const largeBall = 2 * R * large;
      // Balls dropped along the axis stop where the distance to the rim, or to the bottom, is their radius.
      const largeTopHeight = Math.sqrt((largeBall / 2) ** 2 - (opening / 2) ** 2) + largeBall / 2;
      const found = socketFromBalls({ smallBall, largeBall, largeTopHeight, smallTopHeight: smallBall - depth });
      expect(found.opening / opening).toBeCloseTo(1, 10);
      expect(found.depth / depth).toBeCloseTo(1, 10);
      expect(found.radius / R).toBeCloseTo(1, 9);
    }),
  );
});

const plug = { taper: { oneIn: 20 }, endDiameter: 10, rollerDiameter: 5, standsOn: 'small-end' as const };
const two = {
  rollerDiameter: 6,
  lower: { blockHeight: 0, overRollers: 30 },
  upper: { blockHeight: 40, overRollers: 32 },
  standsOn: 'small-end' as const,
};
it.each<[string, () => unknown]>([
  ['out-of-range', () => cornerOverRoller({ cornerAngleDeg: 180, rollerDiameter: 1 })],
  ['out-of-range', () => plugOverRollers({ ...plug, endDiameter: 0 })],
  ['out-of-range', () => plugOverRollers({ ...plug, standsOn: 'end' as never })],
  ['impossible-geometry', () => plugOverRollers({ ...plug, blockHeight: 300, standsOn: 'large-end' })],
  ['contradiction', () => plugFromRollers({ ...two, standsOn: 'large-end' })],
  ['contradiction', () => plugFromRollers({ ...two, upper: { blockHeight: 40, overRollers: 30 } })],
  ['out-of-range', () => plugFromRollers({ ...two, upper: { blockHeight: 0, overRollers: 32 } })],
  ['impossible-geometry', () => plugFromRollers({ ...two, rollerDiameter: 20 })],
  ['unknown-option', () => plugFromRollers({ ...two, lower: { blockHeight: 0, overRollers: 30, extra: 1 } as never })],
  ['impossible-geometry', () => boreFromTwoBalls({ smallBall: 10, largeBall: 12, smallTopDepth: 5, largeTopDepth: 4 })],
  [
    'impossible-geometry',
    () => boreFromTwoBalls({ smallBall: 10, largeBall: 12, smallTopDepth: 1, largeTopDepth: -20 }),
  ],
  ['out-of-range', () => boreFromTwoBalls({ smallBall: 12, largeBall: 12, smallTopDepth: 45, largeTopDepth: 4 })],
  ['impossible-geometry', () => boreFromMouthAndBall({ mouthDiameter: 10, ball: 12, topDepth: 5 })],
  ['impossible-geometry', () => boreFromMouthAndBall({ mouthDiameter: 12, ball: 10, topDepth: -20 })],
  ['out-of-range', () => halfAngleFromDisks({ smallDisk: 1, largeDisk: 2, centreDistance: 1 })],
  ['out-of-range', () => diskCentreDistance({ taper: { includedAngleDeg: 120 }, smallDisk: 1, largeDisk: 3 })],
  ['not-finite', () => touchingDisk({ taper: { includedAngleDeg: 60 }, smallDisk: Number.NaN })],
  ['not-finite', () => diameterFromStandOff({ taper: { oneIn: 20 }, standOff: Infinity })],
  ['missing-option', () => advanceFromDiameter({ taper: { oneIn: 20 } } as never)],
  ['out-of-range', () => coneContact({ plug: { oneIn: 20 }, ring: { oneIn: 20 }, length: 0 })],
  ['impossible-geometry', () => radiusFromSpherometer({ radius: 4, side: 'ball', sagitta: 5 })],
  ['impossible-geometry', () => radiusFromSpherometer({ radius: 4, side: 'ball', sagitta: 4, footRadius: 5 })],
  ['impossible-geometry', () => sagittaOnSpherometer({ radius: 4, side: 'ball', sphereRadius: 3 })],
  ['out-of-range', () => radiusFromChord({ chord: 0, height: 1 })],
  ['out-of-range', () => socketFromBalls({ largeBall: 20, largeTopHeight: 20, smallBall: 6, smallTopHeight: 2 })],
  [
    'impossible-geometry',
    () => socketFromBalls({ largeBall: 34, largeTopHeight: 32, smallBall: 6, smallTopHeight: 5 }),
  ],
  [
    'impossible-geometry',
    () => socketFromBalls({ largeBall: 34, largeTopHeight: 32, smallBall: 30, smallTopHeight: 26 }),
  ],
])('refuses with %s', (code, call) => {
  expect(call).toThrow(expect.objectContaining({ name: 'GeneratrixError', code }));
});

describe('at the ends of what numbers can be', () => {
  it('a disk that touches at nearly 90° is as large as it is', () => {
    // (1 + sin α)/(1 - sin α) = cot²((90° - α)/2): by the angle that is left over, 1e-8°, and its double neighbours.
    const left = (90 - 89.99999999) * RAD;
    expect(touchingDisk({ taper: { halfAngleDeg: 89.99999999 }, smallDisk: 1 }) * (left / 2) ** 2).toBeCloseTo(1, 9);
  });

  it.each<[string, string, () => unknown]>([
    ['not-representable', 'taper', () => touchingDisk({ taper: { rate: 1e200 }, smallDisk: 1 })],
    ['not-representable', 'removed', () => advanceFromDiameter({ taper: { rate: 1e-300 }, removed: 1e10 })],
    ['not-representable', 'standOff', () => diameterFromStandOff({ taper: { rate: 1e300 }, standOff: 1e10 })],
    ['not-representable', 'length', () => coneContact({ plug: { rate: 1e300 }, ring: { rate: 1 }, length: 1e10 })],
    ['not-representable', 'height', () => radiusFromChord({ chord: 1e200, height: 1e-200 })],
    ['not-representable', 'cornerAngleDeg', () => cornerOverRoller({ cornerAngleDeg: 1e-308, rollerDiameter: 10 })],
    [
      'not-representable',
      'rollerDiameter',
      () => plugOverRollers({ taper: { rate: 1 }, endDiameter: 1, rollerDiameter: 1.7e308, standsOn: 'small-end' }),
    ],
  ])('refuses with %s at %s', (code, parameter, call) => {
    expect(call).toThrow(expect.objectContaining({ name: 'GeneratrixError', code, parameter }));
  });

  it('nothing is -0', () => {
    expect(diameterFromStandOff({ taper: { oneIn: 20 }, standOff: -0 })).toBe(0);
    expect(advanceFromDiameter({ taper: { rate: 10 }, removed: -5e-324 })).toBe(0);
    expect(
      coneContact({ plug: { oneIn: 20 }, ring: { oneIn: 20 }, length: 1, filmThickness: -0 }).halfAngleDifferenceDeg,
    ).toBe(0);
  });
});

it.each<[string, string, unknown, (options: never) => unknown]>([
  [
    'rollers',
    'blocks',
    { taper: { oneIn: 20 }, endDiameter: 1, rollerDiameter: 1, standsOn: 'small-end' },
    plugOverRollers,
  ],
  ['a corner', 'radius', { cornerAngleDeg: 90, rollerDiameter: 2 }, cornerOverRoller],
  ['two balls', 'depth', { smallBall: 10, largeBall: 12, smallTopDepth: 45, largeTopDepth: 4 }, boreFromTwoBalls],
  ['a mouth', 'depth', { mouthDiameter: 12, ball: 10, topDepth: 35 }, boreFromMouthAndBall],
  ['two disks', 'distance', { smallDisk: 1, largeDisk: 2, centreDistance: 3 }, halfAngleFromDisks],
  ['two disks of a taper', 'distance', { taper: { oneIn: 20 }, smallDisk: 1, largeDisk: 2 }, diskCentreDistance],
  ['a disk', 'distance', { taper: { oneIn: 20 }, smallDisk: 1 }, touchingDisk],
  ['a stand-off', 'distance', { taper: { oneIn: 20 }, standOff: 1 }, diameterFromStandOff],
  ['an advance', 'distance', { taper: { oneIn: 20 }, removed: 1 }, advanceFromDiameter],
  ['a contact', 'film', { plug: { oneIn: 20 }, ring: { oneIn: 20 }, length: 9 }, coneContact],
  ['a spherometer', 'feet', { radius: 4, side: 'ball', sagitta: 2 }, radiusFromSpherometer],
  ['a spherometer on a ball', 'feet', { radius: 4, side: 'ball', sphereRadius: 5 }, sagittaOnSpherometer],
  ['a chord', 'depth', { chord: 8, height: 2 }, radiusFromChord],
  ['a socket', 'depth', { largeBall: 34, largeTopHeight: 32, smallBall: 6, smallTopHeight: 2 }, socketFromBalls],
])('%s: refuses a key that it does not know by its name, and each that is missing', (_, stray, given, call) => {
  const options = given as Record<string, unknown>;
  const refusal = (changed: unknown): unknown => {
    try {
      return call(changed as never);
    } catch (error) {
      const { code, parameter } = error as { code: string; parameter: string };
      return [code, parameter];
    }
  };
  expect(typeof refusal(options)).not.toBe('undefined');
  expect(refusal({ ...options, [stray]: 1 })).toEqual(['unknown-option', stray]);
  for (const key of Object.keys(options)) {
    const { [key]: _left, ...others } = options;
    expect(refusal(others)).toEqual(['missing-option', key]);
    expect(refusal({ ...options, [key]: null })).toEqual(['wrong-kind', key]);
  }
  expect(refusal(3)).toEqual(['wrong-kind', '']);
});

it('gives the path of a refusal inside an object and of a plug that cannot be', () => {
  const good = { rollerDiameter: 6, standsOn: 'small-end' } as const;
  const at = (blockHeight: number, overRollers: number): { blockHeight: number; overRollers: number } => ({
    blockHeight,
    overRollers,
  });
  const refusals: readonly [string, string, () => unknown][] = [
    ['out-of-range', 'lower.blockHeight', () => plugFromRollers({ ...good, lower: at(-1, 30), upper: at(40, 32) })],
    ['out-of-range', 'upper.blockHeight', () => plugFromRollers({ ...good, lower: at(40, 30), upper: at(40, 32) })],
    ['contradiction', 'upper.overRollers', () => plugFromRollers({ ...good, lower: at(0, 30), upper: at(40, 28) })],
    ['impossible-geometry', 'lower.overRollers', () => plugFromRollers({ ...good, lower: at(0, 9), upper: at(9, 11) })],
    ['out-of-range', 'largeDisk', () => diskCentreDistance({ taper: { rate: 4 }, smallDisk: 1, largeDisk: 3 })],
  ];
  for (const [code, parameter, call] of refusals) expect(call).toThrow(expect.objectContaining({ code, parameter }));
});
