/**
 * Departures from a cone against the same meridian at 60 digits, searched point by point; the best
 * fit against the alternation theorem (Chebyshev), the straightness against strips at every angle.
 */
import type { Decimal } from 'decimal.js';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { coneDeparture, revolveLine } from '../../src/revolve/index.js';
import { runs } from '../oracle/seed.js';
import { D, exact, exactRadius, highest, type Vector } from '../reference/exact.js';

interface Cut {
  readonly height: number;
  readonly slope: number;
  readonly small: number;
  readonly length: number;
  readonly wanted: number;
  readonly reversed: boolean;
}

const between = (min: number, max: number) => fc.double({ min, max, noNaN: true, noDefaultInfinity: true });
/** From a hundredth of a micrometre below centre to grossly wrong, cylinders nearly to faces, waists inside the cut. */
const cut: fc.Arbitrary<Cut> = fc.record({
  height: between(-5, 1).map((power) => 10 ** power),
  slope: between(-4, 0.7).map((power) => 10 ** power),
  small: fc.integer({ min: -5000, max: 30_000 }).map((thousandths) => thousandths / 1000),
  length: between(10, 300),
  wanted: between(0.5, 1.5),
  reversed: fc.boolean(),
});

function problem({ height, slope, small, length, wanted, reversed }: Cut) {
  const sign = reversed ? -1 : 1;
  const point: Vector = [small, height, 0];
  const direction: Vector = [slope * sign, 0, 1];
  const query = { surface: revolveLine({ point, direction }), fromZ: 0, toZ: sign * length, perSide: slope * wanted };
  return { query, radius: (z: Decimal) => exactRadius(point, direction, z) };
}

/** Rounding allowed: the departure is good to a few units of its own size or of what its slopes' error makes of it. */
function close(found: number, wanted: Decimal, scale: number, relative = 1e-12): void {
  const miss = exact(found).minus(wanted).abs().toNumber();
  expect(miss).toBeLessThanOrEqual(relative * Math.abs(wanted.toNumber()) + 4 * Number.EPSILON * scale);
}

describe('departure from a cone touched off at its large end', () => {
  it('is the largest that a search along the path finds', () => {
    fc.assert(
      fc.property(cut, (given) => {
        const { query, radius } = problem(given);
        const { largeZ, touchedOff } = coneDeparture(query);
        const [from, to] = [exact(query.fromZ), exact(query.toZ)];
        const large = exact(largeZ);
        const small = largeZ === query.fromZ ? to : from;
        expect(radius(large).greaterThanOrEqualTo(radius(small))).toBe(true);
        const departure = (z: Decimal): Decimal =>
          radius(z)
            .minus(radius(large))
            .plus(large.minus(z).abs().times(exact(query.perSide)));
        const slopes = Math.abs(query.perSide - given.slope) * given.length;
        close(touchedOff.atSmallEnd, departure(small), slopes);
        expect(touchedOff.smallDiameterError).toBe(2 * touchedOff.atSmallEnd);
        // Convex: lowest somewhere inside or at an end, highest at an end.
        const [, lowest] = highest((z) => departure(z).negated(), D.min(from, to), D.max(from, to));
        const least = D.min(lowest.negated(), departure(small), 0);
        const most = D.max(departure(small), 0);
        const largest = least.abs().greaterThan(most.abs()) ? least : most;
        close(touchedOff.largest, largest, slopes);
        close(touchedOff.largest, departure(exact(touchedOff.largestZ)), slopes);
      }),
      { numRuns: runs(200, 40) },
    );
  });
});

describe('the cone that fits best', () => {
  it('has equal and alternating largest departures, so no other cone comes closer', () => {
    fc.assert(
      fc.property(cut, (given) => {
        const { query, radius } = problem(given);
        const { bestFit } = coneDeparture(query);
        const [from, to] = [exact(query.fromZ), exact(query.toZ)];
        const slope = radius(to).minus(radius(from)).div(to.minus(from));
        expect(bestFit.perSide).toBeCloseTo(slope.abs().toNumber(), 13);
        expect(bestFit.halfAngleDeg).toBeCloseTo((Math.atan(bestFit.perSide) * 180) / Math.PI, 12);
        const gap = (z: Decimal): Decimal => radius(from).plus(z.minus(from).times(slope)).minus(radius(z));
        const [, hollow] = highest(gap, D.min(from, to), D.max(from, to));
        close(bestFit.largest, hollow.div(2), 0);
        close(bestFit.largest, gap(exact(bestFit.hollowZ)).div(2), 0, 1e-9);
      }),
      { numRuns: runs(200, 40) },
    );
  });

  it('gives the width of the narrowest strip that holds the generating line', () => {
    const query = {
      surface: revolveLine({ point: [1, 2, 0], direction: [0.3, 0, 1] }),
      fromZ: 0,
      toZ: 20,
      perSide: 0.3,
    };
    const points = Array.from({ length: 4001 }, (_, i) => {
      const z = i / 200;
      return [z, Math.sqrt((1 + 0.3 * z) ** 2 + 4)] as const;
    });
    const width = (angle: number): number => {
      const across = points.map(([z, radius]) => radius * Math.cos(angle) - z * Math.sin(angle));
      return Math.max(...across) - Math.min(...across);
    };
    const { bestFit } = coneDeparture(query);
    const chord = Math.atan(bestFit.perSide);
    expect(width(chord)).toBeCloseTo(bestFit.straightness, 5);
    for (let turn = 1e-4; turn < Math.PI / 2; turn *= 1.5) {
      expect(width(chord + turn)).toBeGreaterThan(bestFit.straightness);
      expect(width(chord - turn)).toBeGreaterThan(bestFit.straightness);
    }
  });
});

describe('special surfaces', () => {
  const none = { atSmallEnd: 0, smallDiameterError: 0, largest: 0 };

  it('a cone departs by nothing from itself, and by the slopes alone from another', () => {
    const surface = { kind: 'cone', apexZ: -10, halfAngleDeg: 26.56505117707799, perSide: 0.5 } as const;
    const same = coneDeparture({ surface, fromZ: 30, toZ: 0, perSide: 0.5 });
    expect(same.touchedOff).toMatchObject(none);
    expect(same.bestFit).toMatchObject({ perSide: 0.5, largest: 0, straightness: 0 });
    expect(coneDeparture({ surface, fromZ: 30, toZ: 0, perSide: 0.75 }).touchedOff).toEqual({
      atSmallEnd: 7.5,
      smallDiameterError: 15,
      largest: 7.5,
      largestZ: 0,
    });
    expect(coneDeparture({ surface, fromZ: -10, toZ: 0, perSide: 0.5 }).bestFit.largest).toBe(0);
  });

  it('a cylinder is a cone of no slope', () => {
    const found = coneDeparture({ surface: { kind: 'cylinder', radius: 8 }, fromZ: 0, toZ: 40, perSide: 0 });
    expect(found.touchedOff).toMatchObject(none);
    expect(found.bestFit).toMatchObject({ perSide: 0, halfAngleDeg: 0, largest: 0, straightness: 0 });
  });

  it.each([
    ['impossible-geometry', { surface: { kind: 'face', z: 0, innerRadius: 1 }, fromZ: 0, toZ: 1, perSide: 1 }],
    ['impossible-geometry', { surface: { kind: 'cylinder', radius: 1 }, fromZ: 1, toZ: 1, perSide: 1 }],
    [
      'impossible-geometry',
      { surface: { kind: 'cone', apexZ: 1, halfAngleDeg: 45, perSide: 1 }, fromZ: 0, toZ: 3, perSide: 1 },
    ],
    ['out-of-range', { surface: { kind: 'cylinder', radius: 1 }, fromZ: 0, toZ: 1, perSide: -1 }],
    ['unknown-option', { surface: { kind: 'cylinder', radius: 1 }, fromZ: 0, toZ: 1, perSide: 1, taper: 1 }],
    [
      'not-representable',
      {
        surface: { kind: 'hyperboloid', waist: 1e-200, waistZ: 0, halfAngleDeg: 45, perSide: 1 },
        fromZ: -1,
        toZ: 1,
        perSide: 1,
      },
    ],
  ])('%s: %j', (code, query) => {
    expect(() => coneDeparture(query as Parameters<typeof coneDeparture>[0])).toThrow(
      expect.objectContaining({ code }),
    );
  });
});
