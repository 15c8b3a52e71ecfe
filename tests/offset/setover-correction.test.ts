import fc from 'fast-check';
import { type SetoverTrial, setoverCorrection } from 'generatrix';
import { uniformFloat64 } from 'pure-rand/distribution/uniformFloat64';
import { xoroshiro128plus } from 'pure-rand/generator/xoroshiro128plus';
import { describe, expect, it } from 'vitest';
import { fitTrials } from '../../src/offset/set-over/trial-fit.js';
import { refusal } from '../oracle/refusal.js';
import { runs } from '../oracle/seed.js';

/** What an ideal machine cuts: the work's tail end stands set-over S + S₀ from the line of the bed. */
function trial(reading: number, offset: number, centreDistance: number, zeroError: number): SetoverTrial {
  const angle = Math.asin((offset + zeroError) / centreDistance);
  const distance = 0.4 * centreDistance;
  const small = 0.1 * centreDistance;
  const bigger = 2 * distance * Math.tan(angle);
  return bigger >= 0
    ? { reading, largeDiameter: small + bigger, smallDiameter: small, length: distance }
    : { reading, largeDiameter: small, smallDiameter: small - bigger, length: distance };
}

/** A normal deviate from two uniform ones (Box and Muller). */
function normalSource(seed: number): () => number {
  const random = xoroshiro128plus(seed);
  return () => Math.sqrt(-2 * Math.log(1 - uniformFloat64(random))) * Math.cos(2 * Math.PI * uniformFloat64(random));
}

const machine = fc.record({
  centreDistance: fc.double({ min: 1, max: 2000, noNaN: true }),
  zero: fc.double({ min: -0.01, max: 0.01, noNaN: true }),
  first: fc.double({ min: 0.01, max: 0.1, noNaN: true }),
  second: fc.double({ min: 0.12, max: 0.3, noNaN: true }),
  halfAngleDeg: fc.double({ min: 0.1, max: 20, noNaN: true }),
  reads: fc.constantFrom<'radius' | 'diameter'>('radius', 'diameter'),
});

describe('setoverCorrection', () => {
  it('finds the zero error of an ideal machine from one trial, and the length too from two', () => {
    fc.assert(
      fc.property(machine, ({ centreDistance, zero, first, second, halfAngleDeg, reads }) => {
        const times = reads === 'diameter' ? 2 : 1;
        const cut = (share: number): SetoverTrial =>
          trial(times * share * centreDistance, share * centreDistance, centreDistance, zero * centreDistance);
        const given = { taper: { halfAngleDeg }, dial: { reads } };
        const wanted = centreDistance * (Math.sin((halfAngleDeg * Math.PI) / 180) - zero);
        for (const found of [
          setoverCorrection({ ...given, centreDistance, trials: [cut(first)] }),
          setoverCorrection({ ...given, trials: [cut(first), cut(second)] }),
          setoverCorrection({ ...given, trials: [cut(second), cut(0), cut(first)] }),
        ]) {
          // The readings are at least a hundredth of the length apart, which magnifies rounding as much.
          expect(Math.abs(found.zeroError / centreDistance - zero)).toBeLessThan(2e-14);
          expect(Math.abs(found.centreDistance / centreDistance - 1)).toBeLessThan(1e-12);
          expect(Math.abs(found.reading / times - wanted)).toBeLessThan(1e-12 * centreDistance);
          expect(found.cuts.rateError).toBeCloseTo(0, 13);
        }
      }),
    );
  });

  it('takes a trial that came out the other way round', () => {
    const found = setoverCorrection({
      taper: { rate: 0.01 },
      centreDistance: 100,
      trials: [trial(0, 0, 100, -0.2)],
    });
    expect(found.zeroError).toBeCloseTo(-0.2, 13);
  });

  it('says how far the tool must follow: the work turned about the headstock pivot in the plane', () => {
    const place = fc.record({
      fromPivot: fc.double({ min: 0, max: 300, noNaN: true }),
      diameter: fc.double({ min: 1, max: 80, noNaN: true }),
      headstockEnd: fc.constantFrom<'large' | 'small'>('large', 'small'),
    });
    fc.assert(
      fc.property(place, fc.double({ min: 0.5, max: 20, noNaN: true }), (spot, halfAngleDeg) => {
        const old = Math.asin(0.1);
        const next = (halfAngleDeg * Math.PI) / 180;
        // The work's axis from the pivot, and the side towards the tool, for a set-over that makes the
        // tailstock end small or large; the tool's line is y = constant.
        const sense = spot.headstockEnd === 'large' ? 1 : -1;
        const across = (angle: number, radius: number): number =>
          spot.fromPivot * Math.sin(sense * angle) + radius * Math.cos(angle);
        const line = across(old, spot.diameter / 2);
        let [low, high] = [-500, 500];
        for (let i = 0; i < 100; i++) {
          const middle = (low + high) / 2;
          if (across(next, middle) < line) low = middle;
          else high = middle;
        }
        const found = setoverCorrection({
          taper: { halfAngleDeg },
          centreDistance: 400,
          trials: [trial(40, 40, 400, 0)],
          touchOffPlace: spot,
        });
        // Lengths up to 500, some 1e-13 of rounding each.
        expect(Math.abs((found.toolMove ?? Number.NaN) - (low - spot.diameter / 2))).toBeLessThan(2e-12);
      }),
    );
  });

  it('knows the move of the tool as well as both settings, at a large angle too', () => {
    // Work of radius 1 at 250 from the pivot, turned from nearly 30° to 30°: the tool's line c = r cos α + z sin α stays,
    // so that the radius at the place is (c - z sin β)/cos β; by differences in both set-overs, each ± 0.05 at 400.
    const [place, last, u] = [{ fromPivot: 250, diameter: 2 }, 195, 0.05 / 400];
    const radius = (old: number, next: number): number =>
      (Math.sqrt(1 - old * old) + 250 * (old - next)) / Math.sqrt(1 - next * next);
    const [old, next, step] = [last / 400, 0.5, 1e-6];
    const byOld = (radius(old + step, next) - radius(old - step, next)) / (2 * step);
    const byNext = (radius(old, next + step) - radius(old, next - step)) / (2 * step);
    const tan = Math.tan(Math.asin(old));
    const found = setoverCorrection({
      taper: { halfAngleDeg: 30 },
      centreDistance: 400,
      trials: [{ reading: last, largeDiameter: 100, smallDiameter: 100 - 40 * tan, length: 20 }],
      diameterStandardUncertainty: 1e-6,
      readingStandardUncertainty: 0.05,
      touchOffPlace: place,
    });
    const moved = (found.standardUncertainty?.toolMove ?? Number.NaN) / (u * Math.hypot(byOld, byNext));
    // First order in the change of 0.0125 and in radius over distance, 0.004.
    expect(Math.abs(moved - 1)).toBeLessThan(0.015);
  });

  it('says how far to turn in the decimals of the dial', () => {
    const { settableReading, readingChange } = setoverCorrection({
      taper: { oneIn: 20 },
      centreDistance: 200,
      dial: { reads: 'diameter', step: 0.01 },
      trials: [{ reading: 10.2, largeDiameter: 30, smallDiameter: 25.01, length: 100 }],
    });
    // 2 L times 0.0249922 - 0.0249422, the sines: 0.02 more than 10.2; 10.22 - 10.2 would read 0.02000000000000135.
    expect([settableReading, readingChange]).toEqual([10.22, 0.02]);
  });

  it('works in any unit', () => {
    const scale = (by: number): ReturnType<typeof setoverCorrection> =>
      setoverCorrection({
        taper: { oneIn: 20 },
        trials: [
          { reading: 4, small: 25.9 },
          { reading: 5.1, small: 24.8 },
          { reading: 4.7, small: 25.3 },
        ].map(({ reading, small }) => ({
          reading: by * reading,
          largeDiameter: by * 30,
          smallDiameter: by * small,
          length: by * 100,
        })),
        diameterStandardUncertainty: by * 0.01,
        lengthStandardUncertainty: by * 0.05,
        readingStandardUncertainty: by * 0.01,
        touchOffPlace: { fromPivot: by * 50, diameter: by * 28 },
      });
    const [mm, inch] = [scale(1), scale(1 / 25.4)];
    const lengths = (found: typeof mm): number[] => [
      found.reading,
      found.zeroError,
      found.centreDistance,
      found.toolMove ?? Number.NaN,
      found.standardUncertainty?.reading ?? Number.NaN,
      found.standardUncertainty?.zeroError ?? Number.NaN,
      found.standardUncertainty?.centreDistance ?? Number.NaN,
      found.standardUncertainty?.toolMove ?? Number.NaN,
    ];
    lengths(mm).forEach((value, i) => {
      expect(Math.abs((lengths(inch)[i] ?? 0) * 25.4 - value)).toBeLessThan(1e-11 * Math.abs(value));
    });
  });

  it('notes what is odd', () => {
    const codes = (reading: number, small: number): string[] =>
      setoverCorrection({
        taper: { oneIn: 20 },
        dial: { reads: 'radius', step: 0.05 },
        trials: [
          { reading: 2, largeDiameter: 30, smallDiameter: 28, length: 100 },
          { reading: 3, largeDiameter: 30, smallDiameter: small, length: 100 },
          { reading, largeDiameter: 30, smallDiameter: 26, length: 100 },
        ],
        diameterStandardUncertainty: 0.01,
      }).notes.map(({ code }) => code);
    expect(codes(4, 27)).toEqual(['dial-rounded', 'beyond-trials']);
    expect(codes(4, 27.2)).toEqual(['dial-rounded', 'trials-disagree', 'beyond-trials']);
  });

  it('notes trials that look mistyped: diameters swapped, or radii for diameters', () => {
    const codes = (
      largeDiameter: number,
      smallDiameter: number,
      reading = 5,
      reads: 'radius' | 'diameter' = 'radius',
    ) =>
      setoverCorrection({
        taper: { oneIn: 20 },
        centreDistance: 200,
        dial: { reads },
        trials: [{ reading, largeDiameter, smallDiameter, length: 100 }],
      }).notes.map(({ code }) => code);
    expect(codes(30, 24.9)).toEqual([]);
    expect(codes(30, 24.9, 10, 'diameter')).toEqual([]);
    expect(codes(24.9, 30)).toEqual(['diameters-swapped']);
    expect(codes(15, 12.45)).toEqual(['radii-for-diameters']);
    // A trial at no set-over shows the zero error, of either sign.
    expect(codes(30, 30.2, 0)).toEqual([]);
  });

  it('says nothing of uncertainty where nothing tells', () => {
    const trials = [trial(4, 4, 200, 0.1), trial(5, 5, 200, 0.1)];
    expect(setoverCorrection({ taper: { oneIn: 20 }, trials })).not.toHaveProperty('standardUncertainty');
    const known = setoverCorrection({ taper: { oneIn: 20 }, trials: trials.slice(1), centreDistance: 200 });
    expect(known).not.toHaveProperty('standardUncertainty');
  });
});

describe('the fitted line', () => {
  it('is that of JCGM 100 H.3, a thermometer calibrated at eleven temperatures', () => {
    // JCGM 100:2008, H.3, Table H.6 and H.3.3: quoted from memory.
    const temperatures = [21.521, 22.012, 22.512, 23.003, 23.507, 23.999, 24.513, 25.002, 25.503, 26.01, 26.511];
    const corrections = [-0.171, -0.169, -0.166, -0.159, -0.164, -0.165, -0.156, -0.157, -0.159, -0.161, -0.16];
    const fit = fitTrials(
      temperatures.map((t, i) => ({ offset: t - 20, sine: corrections[i] ?? Number.NaN, sineUncertainty: 1 })),
      { offsetUncertainty: 0, basis: 'residuals' },
    );
    const slope = 1 / fit.length;
    const slopeVariance = (fit.lengthVariance ?? Number.NaN) / fit.length ** 4;
    const meanVariance = (fit.meanVariance ?? Number.NaN) / fit.length ** 2;
    const at = (offset: number): string => (fit.meanSine + slope * (offset - fit.meanOffset)).toFixed(4);
    const uncertainty = (offset: number): string =>
      Math.sqrt(meanVariance + slopeVariance * (offset - fit.meanOffset) ** 2).toFixed(4);
    expect(slope.toFixed(5)).toBe('0.00218');
    expect(Math.sqrt(slopeVariance).toFixed(5)).toBe('0.00067');
    expect([at(0), uncertainty(0)]).toEqual(['-0.1712', '0.0029']);
    expect([at(10), uncertainty(10)]).toEqual(['-0.1494', '0.0041']);
    expect([fit.redundancy, Math.sqrt(fit.spread ?? Number.NaN).toFixed(4)]).toEqual([9, '0.0035']);
  });
});

describe('the uncertainties, by simulation', () => {
  const truth = { centreDistance: 250, zeroError: 0.15 };
  const taper = { oneIn: 16 } as const;
  const right = 250 * Math.sin(Math.atan(1 / 32)) - 0.15;
  const stated = {
    diameterStandardUncertainty: 0.004,
    lengthStandardUncertainty: 0.03,
    readingStandardUncertainty: 0.01,
  };
  const place = { fromPivot: 180, diameter: 40 };

  /** Trials cut at these readings on a machine, and measured, with errors of the stated sizes. */
  function noisy(readings: readonly number[], normal: () => number): { trials: SetoverTrial[]; last: number } {
    let last = 0;
    const trials = readings.map((reading) => {
      const offset = reading + stated.readingStandardUncertainty * normal();
      last = offset + truth.zeroError;
      const ideal = trial(reading, offset, truth.centreDistance, truth.zeroError);
      return {
        reading,
        largeDiameter: ideal.largeDiameter + stated.diameterStandardUncertainty * normal(),
        smallDiameter: ideal.smallDiameter + stated.diameterStandardUncertainty * normal(),
        length: ideal.length + stated.lengthStandardUncertainty * normal(),
      };
    });
    return { trials, last };
  }

  const RUNS = runs(6000, 1000);

  /** Share of so many simulated corrections whose error stays within `factor` standard uncertainties. */
  function coverage(
    simulate: (normal: () => number) => readonly (readonly [error: number, uncertainty: number])[],
    factor: number,
  ): readonly number[] {
    const normal = normalSource(20240611);
    const inside: number[] = [];
    for (let run = 0; run < RUNS; run++) {
      simulate(normal).forEach(([error, uncertainty], i) => {
        inside[i] = (inside[i] ?? 0) + (Math.abs(error) <= factor * uncertainty ? 1 : 0);
      });
    }
    return inside.map((count) => count / RUNS);
  }

  /** Four standard deviations of a share of 0.95: of 6000 0.0113. */
  function expectNear95(shares: readonly number[]): void {
    expect(shares.length).toBeGreaterThan(0);
    const allowed = 4 * Math.sqrt((0.95 * 0.05) / RUNS);
    for (const share of shares) {
      expect(share).toBeGreaterThan(0.95 - allowed);
      expect(share).toBeLessThan(0.95 + allowed);
    }
  }

  it('cover 95 % of the errors within 1.96 of them, one trial and the length known as well as stated', () => {
    expectNear95(
      coverage((normal) => {
        const { trials, last } = noisy([7], normal);
        const centreDistance = truth.centreDistance + 0.5 * normal();
        const found = setoverCorrection({
          taper,
          trials,
          centreDistance,
          centreDistanceStandardUncertainty: 0.5,
          ...stated,
          touchOffPlace: place,
        });
        return errors(found, last, normal).filter((_, i) => i !== 1);
      }, 1.959964),
    );
  });

  it('cover 95 % with length and zero error from five trials', () => {
    expectNear95(
      coverage((normal) => {
        const { trials, last } = noisy([4, 5, 9, 6, 8], normal);
        return errors(setoverCorrection({ taper, trials, ...stated, touchOffPlace: place }), last, normal);
      }, 1.959964),
    );
  });

  it("cover 95 % from the residuals of six trials, within Student's t", () => {
    // Student's t for 4 degrees of freedom, 97.5 %: 2.776, any printed table (JCGM 100, Table G.2: 2.78).
    expectNear95(
      coverage((normal) => {
        const { trials } = noisy([4, 5, 9, 6, 8, 7], normal);
        const found = setoverCorrection({ taper, trials });
        expect(found.standardUncertainty).toMatchObject({ basis: 'residuals', degreesOfFreedom: 4 });
        return errors(found, Number.NaN, normal).slice(0, 3);
      }, 2.776445),
    );
  });

  /** Error and standard uncertainty of the reading, the length, the zero error and the touching off. */
  function errors(
    {
      reading,
      centreDistance,
      zeroError,
      toolMove = Number.NaN,
      standardUncertainty: uncertainty,
    }: ReturnType<typeof setoverCorrection>,
    last: number,
    normal: () => number,
  ): readonly (readonly [number, number])[] {
    if (!uncertainty) throw new Error('no uncertainty');
    const next = reading + stated.readingStandardUncertainty * normal() + truth.zeroError;
    const slope = (setover: number): number => Math.tan(Math.asin(setover / truth.centreDistance));
    const secant = (setover: number): number => 1 / Math.cos(Math.asin(setover / truth.centreDistance));
    const angle = Math.asin(last / truth.centreDistance);
    const line = (place.diameter / 2) * Math.cos(angle) + place.fromPivot * Math.sin(angle);
    const moved = line * (secant(next) - secant(last)) - place.fromPivot * (slope(next) - slope(last));
    return [
      [reading - right, uncertainty.reading],
      [centreDistance - truth.centreDistance, uncertainty.centreDistance],
      [zeroError - truth.zeroError, uncertainty.zeroError],
      [toolMove - moved, uncertainty.toolMove ?? Number.NaN],
    ];
  }
});

const cut = { reading: 5, largeDiameter: 30, smallDiameter: 25, length: 100 };
const good = { taper: { oneIn: 20 }, trials: [cut], centreDistance: 200 } as const;
const without = { taper: { oneIn: 20 }, trials: [cut, { ...cut, reading: 6 }] } as const;
it.each<[string, () => unknown]>([
  ['accepted', () => setoverCorrection(good)],
  ['wrong-kind ', () => setoverCorrection([] as never)],
  ['unknown-option length', () => setoverCorrection({ ...good, length: 1 } as never)],
  ['missing-option taper', () => setoverCorrection({ ...good, taper: {} as never })],
  ['out-of-range trials', () => setoverCorrection({ ...good, trials: [] })],
  ['wrong-kind trials', () => setoverCorrection({ ...good, trials: cut as never })],
  [
    'missing-option trials[1].reading',
    () => setoverCorrection({ ...good, trials: [cut, { ...cut, reading: undefined as never }] }),
  ],
  ['not-finite trials[0].reading', () => setoverCorrection({ ...good, trials: [{ ...cut, reading: Infinity }] })],
  ['out-of-range trials[0].length', () => setoverCorrection({ ...good, trials: [{ ...cut, length: 0 }] })],
  [
    'out-of-range trials[0].largeDiameter',
    () => setoverCorrection({ ...good, trials: [{ ...cut, largeDiameter: 0 }] }),
  ],
  ['out-of-range centreDistance', () => setoverCorrection({ ...good, centreDistance: -1 })],
  ['missing-option centreDistance', () => setoverCorrection({ ...good, centreDistance: undefined as never })],
  ['missing-option centreDistance', () => setoverCorrection({ ...without, centreDistanceStandardUncertainty: 1 })],
  ['impossible-geometry trials', () => setoverCorrection(without)],
  [
    'impossible-geometry trials',
    () => setoverCorrection({ ...without, trials: [cut, { ...cut, reading: 4, smallDiameter: 24 }] }),
  ],
  ['missing-option diameterStandardUncertainty', () => setoverCorrection({ ...good, readingStandardUncertainty: 0.1 })],
  ['missing-option diameterStandardUncertainty', () => setoverCorrection({ ...good, lengthStandardUncertainty: 0.1 })],
  ['out-of-range diameterStandardUncertainty', () => setoverCorrection({ ...good, diameterStandardUncertainty: 0 })],
  [
    'out-of-range lengthStandardUncertainty',
    () => setoverCorrection({ ...good, diameterStandardUncertainty: 1, lengthStandardUncertainty: -1 }),
  ],
  [
    'out-of-range readingStandardUncertainty',
    () => setoverCorrection({ ...good, diameterStandardUncertainty: 1, readingStandardUncertainty: -1 }),
  ],
  ['beyond-machine dial', () => setoverCorrection({ ...good, dial: { reads: 'radius', to: 4 } })],
  ['out-of-range dial.reads', () => setoverCorrection({ ...good, dial: { reads: 'both' as never } })],
  [
    'not-representable touchOffPlace',
    () =>
      setoverCorrection({ ...good, touchOffPlace: { fromPivot: 1, diameter: 1e308 }, taper: { halfAngleDeg: 89.9 } }),
  ],
  [
    'not-representable trials',
    () =>
      setoverCorrection({
        ...good,
        centreDistance: 1e308,
        trials: [{ ...cut, smallDiameter: 1, length: 1e-5 }],
        taper: { oneIn: 1e9 },
        centreDistanceStandardUncertainty: 1e308,
        diameterStandardUncertainty: 1e300,
      }),
  ],
  [
    'missing-option touchOffPlace.diameter',
    () => setoverCorrection({ ...good, touchOffPlace: { fromPivot: 1 } as never }),
  ],
  [
    'out-of-range touchOffPlace.fromPivot',
    () => setoverCorrection({ ...good, touchOffPlace: { fromPivot: -1, diameter: 1 } }),
  ],
  [
    'out-of-range touchOffPlace.headstockEnd',
    () => setoverCorrection({ ...good, touchOffPlace: { fromPivot: 1, diameter: 1, headstockEnd: 'x' as never } }),
  ],
  [
    'impossible-geometry trials',
    () => setoverCorrection({ ...good, taper: { halfAngleDeg: 80 }, dial: { reads: 'radius', step: 300 } }),
  ],
])('%s', (wanted, call) => {
  expect(refusal(call)).toBe(wanted);
});
