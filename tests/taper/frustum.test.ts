/** The truncated cone against 60 digits, and the agreement of its four ways. */
import fc from 'fast-check';
import { frustum, frustumDiameterAt, frustumDistanceTo, GeneratrixError } from 'generatrix';
import { describe, expect, it } from 'vitest';
import { runs } from '../oracle/seed.js';
import { Exact, exact, PI, ulpsOff } from '../oracle/ulps.js';

const size = fc.double({ min: 1e-3, max: 1e3, noNaN: true });
/** Two diameters that may be as near as 1e-9 of each other, where a careless difference loses its digits. */
const cone = fc
  .tuple(size, fc.double({ min: -9, max: 3, noNaN: true }), size)
  .map(([smallDiameter, power, length]) => ({
    smallDiameter,
    largeDiameter: smallDiameter * (1 + 10 ** power),
    length,
  }));

describe('frustum', () => {
  it('keeps the digits', () => {
    fc.assert(
      fc.property(cone, (sizes) => {
        const got = frustum(sizes);
        const [large, small, length] = [sizes.largeDiameter, sizes.smallDiameter, sizes.length].map(exact) as [
          InstanceType<typeof Exact>,
          InstanceType<typeof Exact>,
          InstanceType<typeof Exact>,
        ];
        const rise = large.minus(small).div(2);
        const slant = length.pow(2).plus(rise.pow(2)).sqrt();
        expect(ulpsOff(got.rate, rise.times(2).div(length))).toBeLessThan(0.6);
        expect(ulpsOff(got.halfAngleDeg, Exact.atan(rise.div(length)).times(180).div(PI))).toBeLessThan(0.6);
        expect(ulpsOff(got.slantLength, slant)).toBeLessThan(0.6);
        // Eight roundings of half a unit each, some of them halved or doubled by where the next power of two lies.
        const squares = large.pow(2).plus(large.times(small)).plus(small.pow(2));
        expect(ulpsOff(got.volume, squares.times(length).times(PI).div(12))).toBeLessThan(6);
        expect(ulpsOff(got.lateralArea, large.plus(small).times(slant).times(PI).div(2))).toBeLessThan(5);
      }),
      { numRuns: runs(300, 80) },
    );
  });

  it('agrees with a stack of thin discs', () => {
    const { largeDiameter, smallDiameter, length, volume } = frustum({ largeDiameter: 3, smallDiameter: 1, length: 5 });
    const slices = 20000;
    let sum = 0;
    for (let i = 0; i < slices; i++) {
      const radius = (smallDiameter + ((largeDiameter - smallDiameter) * (i + 0.5)) / slices) / 2;
      sum += (Math.PI * radius * radius * length) / slices;
    }
    // The midpoint rule is off by (radius per slice)²/12 of the disc: 1e-10 here.
    expect(sum).toBeCloseTo(volume, 7);
  });

  it('gives the fourth from any three', () => {
    fc.assert(
      fc.property(cone, (sizes) => {
        const taper = { rate: frustum(sizes).rate };
        const { largeDiameter, smallDiameter, length } = sizes;
        // The rate was rounded to 2^-53 of itself.
        const near = 1e-15 * largeDiameter;
        expect(Math.abs(frustum({ smallDiameter, length, taper }).largeDiameter - largeDiameter)).toBeLessThan(near);
        expect(Math.abs(frustum({ largeDiameter, length, taper }).smallDiameter - smallDiameter)).toBeLessThan(near);
        expect(frustum({ largeDiameter, smallDiameter, taper }).length / length).toBeCloseTo(1, 14);
        expect(frustum({ ...sizes, taper })).toEqual(frustum(sizes));
      }),
    );
  });

  it('comes to a point without a trace', () => {
    expect(frustum({ largeDiameter: 2, length: 1, taper: { includedAngleDeg: 90 } }).smallDiameter).toBe(0);
    expect(frustum({ largeDiameter: 0.3, length: 0.9, taper: { oneIn: 3 } }).smallDiameter).toBe(0);
    expect(frustum({ smallDiameter: 0, length: 3, taper: { oneIn: 3 } }).largeDiameter).toBe(1);
  });

  it('takes a fourth within the tolerance', () => {
    const rounded = {
      largeDiameter: 0.938,
      smallDiameter: 0.778,
      length: 3.1875,
      taper: { standard: 'morse-3' },
    } as const;
    expect(() => frustum(rounded)).toThrow('must agree with the other three; the others give 0.93799');
    expect(frustum({ ...rounded, tolerance: 0.0001 }).largeDiameter).toBe(0.938);
  });
});

describe('places on the cone', () => {
  it('are the ends at the ends', () => {
    fc.assert(
      fc.property(cone, (sizes) => {
        expect(frustumDiameterAt({ ...sizes, fromLargeEnd: sizes.length })).toBe(sizes.smallDiameter);
        expect(frustumDiameterAt({ ...sizes, fromSmallEnd: sizes.length })).toBe(sizes.largeDiameter);
        expect(frustumDistanceTo({ ...sizes, diameter: sizes.smallDiameter })).toEqual({
          fromLargeEnd: sizes.length,
          fromSmallEnd: 0,
        });
      }),
    );
  });

  it('are found again', () => {
    fc.assert(
      fc.property(cone, fc.double({ min: 0, max: 1, noNaN: true }), (sizes, part) => {
        const fromSmallEnd = part * sizes.length;
        const diameter = frustumDiameterAt({ ...sizes, fromSmallEnd });
        const found = frustumDistanceTo({ ...sizes, diameter });
        // The diameter was rounded; a flat cone turns that into length by its 1 : x.
        const blur = 2 ** -52 * sizes.largeDiameter * (sizes.length / (sizes.largeDiameter - sizes.smallDiameter));
        expect(Math.abs(found.fromSmallEnd - fromSmallEnd)).toBeLessThanOrEqual(blur + 1e-15 * sizes.length);
        expect(Math.abs(found.fromLargeEnd + found.fromSmallEnd - sizes.length)).toBeLessThan(
          1e-15 * sizes.length + blur,
        );
      }),
    );
  });

  it('may lie beyond the ends', () => {
    const sizes = { largeDiameter: 2, smallDiameter: 1, length: 10 };
    expect(frustumDiameterAt({ ...sizes, fromSmallEnd: -10 })).toBe(0);
    expect(frustumDiameterAt({ ...sizes, fromLargeEnd: -10 })).toBe(3);
    expect(frustumDistanceTo({ ...sizes, diameter: 0.5 })).toEqual({ fromLargeEnd: 15, fromSmallEnd: -5 });
  });
});

describe('refusals', () => {
  it.each([1e-3, 1, 1e3])('sizes of %s that agree to 1e-9 are taken, others not', (unit) => {
    const four = (off: number): Parameters<typeof frustum>[0] => ({
      largeDiameter: 2 * unit * (1 + off),
      smallDiameter: unit,
      length: 10 * unit,
      taper: { oneIn: 10 },
    });
    expect(frustum(four(0.9e-9)).length).toBe(10 * unit);
    expect(() => frustum(four(1.1e-9))).toThrow(expect.objectContaining({ code: 'contradiction' }));
  });

  const sizes = { largeDiameter: 2, smallDiameter: 1, length: 10 };
  it.each<[string, () => unknown, string, string]>([
    ['two only', () => frustum({ largeDiameter: 2, length: 1 }), 'missing-option', 'smallDiameter'],
    ['two lengths only', () => frustum({ length: 1, taper: { rate: 1 } }), 'missing-option', 'largeDiameter'],
    ['a disagreement', () => frustum({ ...sizes, taper: { oneIn: 11 } }), 'contradiction', 'largeDiameter'],
    ['ends swapped', () => frustum({ ...sizes, smallDiameter: 3 }), 'impossible-geometry', 'smallDiameter'],
    [
      'a cone past its point',
      () => frustum({ largeDiameter: 1, length: 11, taper: { oneIn: 10 } }),
      'impossible-geometry',
      'length',
    ],
    ['a negative end', () => frustum({ ...sizes, smallDiameter: -1 }), 'out-of-range', 'smallDiameter'],
    ['no large end', () => frustum({ ...sizes, largeDiameter: 0 }), 'out-of-range', 'largeDiameter'],
    ['no length', () => frustum({ ...sizes, length: 0 }), 'out-of-range', 'length'],
    ['NaN', () => frustum({ ...sizes, length: Number.NaN }), 'not-finite', 'length'],
    ['an unknown key', () => frustum({ ...sizes, angle: 3 } as typeof sizes), 'unknown-option', 'angle'],
    [
      'a taper that is none',
      () => frustum({ length: 1, smallDiameter: 1, taper: { rate: -1 } }),
      'out-of-range',
      'taper.rate',
    ],
    ['an overflow', () => frustum({ largeDiameter: 1e200, smallDiameter: 1, length: 1e200 }), 'not-representable', ''],
    ['no distance', () => frustumDiameterAt(sizes), 'missing-option', 'fromLargeEnd'],
    [
      'two distances',
      () => frustumDiameterAt({ ...sizes, fromLargeEnd: 1, fromSmallEnd: 9 }),
      'contradiction',
      'fromLargeEnd',
    ],
    [
      'beyond the point',
      () => frustumDiameterAt({ ...sizes, fromSmallEnd: -11 }),
      'impossible-geometry',
      'fromSmallEnd',
    ],
    ['no diameter', () => frustumDistanceTo(sizes as never), 'missing-option', 'diameter'],
    ['a negative diameter', () => frustumDistanceTo({ ...sizes, diameter: -1 }), 'out-of-range', 'diameter'],
  ])('%s', (_, call, code, parameter) => {
    expect(call).toThrow(expect.objectContaining({ name: 'GeneratrixError', code, parameter }));
  });
});

it('at the edges is free of -0, NaN and infinities, or refuses', () => {
  const values = [5e-324, 1e-300, 1, 1e300, 1.7e308];
  const sane = (value: number): boolean => Number.isFinite(value) && !Object.is(value, -0);
  const seen = { results: 0, refusals: 0 };
  for (const largeDiameter of values) {
    for (const length of values) {
      for (const smallDiameter of [-0, ...values]) {
        for (const taper of [undefined, { perSide: 1e-300 }, { oneIn: 3 }, { halfAngleDeg: 89.99999999999 }]) {
          const sizes = taper ? { largeDiameter, length, taper } : { largeDiameter, smallDiameter, length };
          for (const call of [
            () => Object.values(frustum(sizes)),
            () => [frustumDiameterAt({ ...sizes, fromLargeEnd: -0 })],
            () => Object.values(frustumDistanceTo({ ...sizes, diameter: smallDiameter })),
          ]) {
            try {
              expect(call().every(sane)).toBe(true);
              seen.results++;
            } catch (error) {
              if (!(error instanceof GeneratrixError)) throw error;
              seen.refusals++;
            }
          }
        }
      }
    }
  }
  expect(Math.min(seen.results, seen.refusals)).toBeGreaterThan(100);
});
