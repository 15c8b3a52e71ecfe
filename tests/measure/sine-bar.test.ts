/**
 * Sine bar and compound table against bodies in space: the bar's rollers put on the plate and on the
 * stack, the table's plates turned by rotation matrices.
 */
import fc from 'fast-check';
import { compoundSineSettings, sineBarAngle, sineBarSettings } from 'generatrix/measure';
import { describe, expect, it } from 'vitest';
import { runs } from '../oracle/seed.js';

const RAD = Math.PI / 180;
type Vector = readonly [number, number, number];

/** Turns v about the x axis and about the y axis (front end up is positive). */
const aboutX = ([x, y, z]: Vector, t: number): Vector => [
  x,
  y * Math.cos(t) - z * Math.sin(t),
  y * Math.sin(t) + z * Math.cos(t),
];
const aboutY = ([x, y, z]: Vector, t: number): Vector => [
  x * Math.cos(t) - z * Math.sin(t),
  y,
  x * Math.sin(t) + z * Math.cos(t),
];

const angle = fc.double({ min: 0.01, max: 80, noNaN: true });
const length = fc.constantFrom(5, 10, 100, 200);

describe('sine bar', () => {
  it('is its own inverse', () => {
    fc.assert(
      fc.property(angle, length, (angleDeg, L) => {
        const { height } = sineBarSettings({ angleDeg, length: L });
        // asin magnifies the rounding of height by tan θ, at most 6 here.
        expect(Math.abs(sineBarAngle({ height, length: L }) / angleDeg - 1)).toBeLessThan(4e-15);
      }),
      { numRuns: runs(1000, 300) },
    );
  });

  it('with unequal rollers stands as rollers on a plate and a stack do', () => {
    fc.assert(
      fc.property(angle, fc.double({ min: -0.01, max: 0.01, noNaN: true }), (angleDeg, rollerDifference) => {
        const [L, pivot] = [5, 0.5];
        const height = L * Math.sin(angleDeg * RAD);
        fc.pre(height + rollerDifference / 2 < L);
        const theta = sineBarAngle({ height, length: L, rollerDifference }) * RAD;
        // The face touches both rollers from above (equal steps of the bar are left out: they shift it in
        // parallel). Roller centres: the pivot's at half its diameter, the other's above the stack.
        const raised = pivot + rollerDifference;
        const rise = height + raised / 2 - pivot / 2;
        const run = Math.sqrt(L * L - rise * rise);
        // Distance from each centre to a line at slope theta through the top of the pivot roller.
        const distance = (x: number, z: number): number => -x * Math.sin(theta) + z * Math.cos(theta);
        expect(distance(run, rise) + raised / 2).toBeCloseTo(pivot / 2, 12);
      }),
      { numRuns: runs(1000, 300) },
    );
  });

  it('names the blocks and the angle that they really set', () => {
    const { height, stack, angleSetDeg, roundingErrorDeg, degPerLength } = sineBarSettings({
      angleDeg: 14.377,
      length: 5,
      blocks: { set: 'inch-81' },
    });
    expect(Number(stack?.sum)).toBeCloseTo(height, 4);
    expect(Math.sin(angleSetDeg * RAD) * 5).toBeCloseTo(Number(stack?.sum), 14);
    expect(roundingErrorDeg).toBeCloseTo((Number(stack?.sum) - height) * degPerLength, 9);
  });
});

describe('compound table', () => {
  it('shows the wanted angles in both views', () => {
    fc.assert(
      fc.property(angle, angle, (frontAngleDeg, sideAngleDeg) => {
        const set = compoundSineSettings({ frontAngleDeg, sideAngleDeg, lowerLength: 5, upperLength: 5 });
        const plate = (v: Vector): Vector => aboutY(aboutX(v, set.upperAngleDeg * RAD), set.lowerAngleDeg * RAD);
        const [nx, ny, nz] = plate([0, 0, 1]);
        // In the front view the face's trace has slope -nx/nz, in the side view -ny/nz.
        expect(-nx / nz / Math.tan(frontAngleDeg * RAD)).toBeCloseTo(1, 12);
        expect(-ny / nz / Math.tan(sideAngleDeg * RAD)).toBeCloseTo(1, 12);
        expect(nz / Math.cos(set.tiltDeg * RAD)).toBeCloseTo(1, 12);
        expect(set.lowerHeight).toBeCloseTo(5 * Math.sin(set.lowerAngleDeg * RAD), 14);
        expect(set.upperHeight).toBeCloseTo(5 * Math.sin(set.upperAngleDeg * RAD), 14);
      }),
      { numRuns: runs(1000, 300) },
    );
  });
});

it.each<[string, () => unknown]>([
  ['out-of-range', () => sineBarSettings({ angleDeg: 0, length: 5 })],
  ['out-of-range', () => sineBarSettings({ angleDeg: 90, length: 5 })],
  ['out-of-range', () => sineBarSettings({ angleDeg: 30, length: -5 })],
  ['unknown-option', () => sineBarSettings({ angleDeg: 30, length: 5, set: 'inch-81' } as never)],
  ['impossible-geometry', () => sineBarAngle({ height: 5, length: 5 })],
  ['impossible-geometry', () => sineBarAngle({ height: 4.99, length: 5, rollerDifference: 0.02 })],
  ['not-finite', () => sineBarAngle({ height: Number.NaN, length: 5 })],
  ['out-of-range', () => compoundSineSettings({ frontAngleDeg: 90, sideAngleDeg: 1, lowerLength: 5, upperLength: 5 })],
  ['missing-option', () => compoundSineSettings({ frontAngleDeg: 9, sideAngleDeg: 1, lowerLength: 5 } as never)],
])('refuses with %s', (code, call) => {
  expect(call).toThrow(expect.objectContaining({ name: 'GeneratrixError', code }));
});

it.each<[string, string, () => unknown]>([
  ['not-representable', 'length', () => sineBarSettings({ angleDeg: 1, length: 2e-308 })],
  ['out-of-range', 'length', () => sineBarSettings({ angleDeg: 30, length: 1e10, blocks: { set: 'metric-88' } })],
  ['impossible-geometry', 'blocks', () => sineBarSettings({ angleDeg: 89, length: 1, blocks: { set: ['1.0'] } })],
  ['unreadable', 'blocks.set[0]', () => sineBarSettings({ angleDeg: 30, length: 5, blocks: { set: ['x'] } })],
  [
    'contradiction',
    'blocks.without[0]',
    () => sineBarSettings({ angleDeg: 30, length: 5, blocks: { set: 'inch-81', without: ['5'] } }),
  ],
  [
    'impossible-geometry',
    'blocks.wearBlock',
    () => sineBarSettings({ angleDeg: 1, length: 5, blocks: { set: 'inch-81', wearBlock: '0.05' } }),
  ],
  [
    'not-converged',
    'blocks.mostBlocks',
    () =>
      sineBarSettings({
        angleDeg: 20,
        length: 97.457,
        blocks: {
          set: 'metric-112',
          mostBlocks: 10,
          without: ['1.0005', '1.002', '1.003', '1.004', '1.005', '1.006', '1.007', '1.008', '1.009'],
        },
      }),
  ],
  ['unknown-option', 'angle', () => sineBarAngle({ height: 1, length: 5, angle: 3 } as never)],
  ['missing-option', 'length', () => sineBarAngle({ height: 1 } as never)],
])('refuses with %s at %s', (code, parameter, call) => {
  expect(call).toThrow(expect.objectContaining({ name: 'GeneratrixError', code, parameter }));
});

it('a bar on the plate lies at 0, not -0', () => {
  expect(sineBarAngle({ height: 0, length: 5, rollerDifference: -0 })).toBe(0);
});
