/**
 * Means of setting an angle against what a person does with them: readings drawn with their errors, the angle then
 * solved from the exact relation (arcsine, arctangent, a needle between two places), 200,000 times. The standard
 * deviation of that many even draws is known to √(0.8/(4 · 200,000)) = 0.1 % (kurtosis 1.8) up to 0.16 % (normal);
 * first order of the relation leaves up to 0.3 % where the uncertainty is below 20 minutes: 1 % is allowed.
 */
import { describe, expect, it } from 'vitest';
import { byIndicator, byMaster, byScale, bySineBar, offsetMeans } from '../../src/method/means.js';
import { filledShop } from '../../src/method/shop.js';

const RAD = Math.PI / 180;
const MINUTES = 60 / RAD;
const DRAWS = 200_000;

/** Even numbers between -1 and 1, from a generator of its own (xorshift32; G. Marsaglia, J. Stat. Software 8, 2003). */
function even(): () => number {
  let state = 20_261_125;
  return () => {
    state ^= state << 13;
    state ^= state >>> 17;
    state ^= state << 5;
    return ((state >>> 0) / 2 ** 31 - 1) as number;
  };
}

/** Mean and standard deviation of an angle's error. */
function simulated(angle: (within: (limit: number) => number) => number): { mean: number; deviation: number } {
  const next = even();
  const within = (limit: number): number => limit * next();
  let [sum, squares] = [0, 0];
  for (let i = 0; i < DRAWS; i++) {
    const error = angle(within);
    sum += error;
    squares += error * error;
  }
  const mean = sum / DRAWS;
  return { mean, deviation: Math.sqrt(squares / DRAWS - mean * mean) };
}

/** One division 0.01 over a range of 10, ± 0.01 over the range; up to 2° off square; travels set to ± 0.02. */
const INDICATOR = { resolution: 0.01, range: 10, limit: 0.01, outOfSquareDeg: 2 };
const TRAVEL = 0.02;

/** The angle that a needle's true movement over a travel means, by the triangle that each way makes. */
const SOLVED = {
  guide: (s: number, t: number): number => Math.asin(s / t),
  bed: (s: number, t: number): number => Math.atan(s / t),
  face: (s: number, t: number): number => Math.acos(s / t),
} as const;
const SHOWN = {
  guide: (angle: number, t: number): number => t * Math.sin(angle),
  bed: (angle: number, t: number): number => t * Math.tan(angle),
  face: (angle: number, t: number): number => t * Math.cos(angle),
} as const;

describe('an indicator over a travel', () => {
  it.each(
    (['guide', 'bed', 'face'] as const).flatMap((along) =>
      [0.5, 1.5, 5, 8, 15, 30, 45, 60, 75, 85].map((deg) => [along, deg] as const),
    ),
  )('along the %s at %s°', (along, deg) => {
    const { uncertainty, bias, travel, needle } = byIndicator(deg, along, 50, INDICATOR, TRAVEL);
    if (uncertainty * MINUTES > 20) return expect(uncertainty * MINUTES).toBeGreaterThan(15);
    expect(needle).toBeCloseTo(SHOWN[along](deg * RAD, travel), 12);
    expect(needle).toBeLessThanOrEqual(10 * (1 + 1e-12));
    const { mean, deviation } = simulated((within) => {
      // The person moves the needle by what the sheet says; it stands askew, so the true movement is less.
      const shown = needle + within(0.005) + within(0.01);
      return SOLVED[along](shown * Math.cos(within(2 * RAD)), travel + within(TRAVEL)) - deg * RAD;
    });
    expect(uncertainty / deviation).toBeCloseTo(1, 2);
    // The mean is known to deviation/√DRAWS; second order of the readings adds u² tan α/2 and the like.
    const curved = uncertainty ** 2 * Math.max(Math.tan(deg * RAD), 1 / Math.tan(deg * RAD));
    expect(Math.abs(bias - mean)).toBeLessThan((5 * deviation) / Math.sqrt(DRAWS) + curved + 2e-7);
    return undefined;
  });

  // Minutes to two digits, from a separate simulation of two million draws (JCGM 101:2008, 7).
  it.each([
    ['guide', 0.5, 0.44],
    ['guide', 5, 0.45],
    ['guide', 30, 1.8],
    ['bed', 5, 0.45],
    ['bed', 45, 2.3],
    ['face', 60, 1.8],
    ['face', 85, 0.45],
  ] as const)('along the %s at %s°: %s minutes', (along, deg, minutes) => {
    const { uncertainty } = byIndicator(deg, along, 50, INDICATOR, TRAVEL);
    expect(Number((uncertainty * MINUTES).toPrecision(2))).toBe(minutes);
  });

  it('at 8° over 50, square: 1.34347636756e-4; and 2° askew: 8.56131643e-5 too flat', () => {
    // Worked out once with 12 digits from sqrt(u_s² + sin²α u_t²)/(t cos α) and asin(sin α cos η) - α.
    const square = byIndicator(8, 'guide', 50, { ...INDICATOR, outOfSquareDeg: 0 }, TRAVEL);
    expect(square.uncertainty / 1.34347636756e-4).toBeCloseTo(1, 10);
    expect(square.bias + 0).toBe(0);
    const askew = Math.asin(Math.sin(8 * RAD) * Math.cos(2 * RAD)) - 8 * RAD;
    expect(askew).toBeCloseTo(-8.56131643e-5, 13);
    // The mean over an even η is a third of that at its limit.
    expect(byIndicator(8, 'guide', 50, INDICATOR, TRAVEL).bias / askew).toBeCloseTo(1 / 3, 3);
  });

  it('is changed as surely as two readings differ', () => {
    const { change, travel } = byIndicator(20, 'guide', 50, INDICATOR, TRAVEL);
    const needle = travel * Math.sin(20 * RAD);
    const { deviation } = simulated((within) => {
      const at = (shown: number): number => Math.asin((shown + within(0.005)) / (travel + within(TRAVEL)));
      return at(needle + 0.05) - at(needle);
    });
    expect(change / deviation).toBeCloseTo(1, 2);
  });
});

describe('other means', () => {
  it('a scale of 1°, to a quarter, marks and zero ± 2 minutes: 4.6 minutes', () => {
    const { uncertainty, change } = byScale(1, 4, 2 / 60, 2 / 60);
    const { deviation } = simulated((within) => within(1 / 8) + within(2 / 60) + within(2 / 60));
    expect(uncertainty / deviation).toBeCloseTo(1, 2);
    expect(Number((uncertainty * 60).toPrecision(2))).toBe(4.6);
    expect(change / simulated((within) => within(1 / 8) - within(1 / 8)).deviation).toBeCloseTo(1, 2);
  });

  it.each([
    [1.5, 0.15],
    [30, 0.15],
    [45, 0.16],
    [60, 0.17],
    [75, 0.22],
    [85, 0.53],
  ])('a sine bar of 100 at %s°: %s minutes', (deg, minutes) => {
    const bar = { length: 100, limit: 0.002, blockLimit: 0.001 };
    const { uncertainty } = bySineBar(deg, bar, 0.002, 50, 0.005 / 100);
    const { deviation } = simulated((within) => {
      const leaning = Math.asin((100 * Math.sin(deg * RAD) + within(0.001)) / (100 + within(0.002)));
      return leaning + (within(0.002) - within(0.002)) / 50 + within(0.005 / 100) - deg * RAD;
    });
    expect(uncertainty / deviation).toBeCloseTo(1, 2);
    expect(Number((uncertainty * MINUTES).toPrecision(2))).toBe(minutes);
  });

  it('a master ± 10 seconds between centres: 0.20 minutes', () => {
    const { uncertainty } = byMaster(10 / 3600, 0.002, 50, 0.01 / 150);
    const { deviation } = simulated(
      (within) => within((10 / 3600) * RAD) + (within(0.002) - within(0.002)) / 50 + within(0.01 / 150),
    );
    expect(uncertainty / deviation).toBeCloseTo(1, 2);
    expect(Number((uncertainty * MINUTES).toPrecision(2))).toBe(0.2);
  });

  it('a set-over by dial, by an indicator moved in legs, by blocks', () => {
    const shop = filledShop({ indicators: [{ resolution: 0.01, range: 10 }], sineBars: [{ length: 100 }] }, 'mm');
    const limits = Object.fromEntries(
      offsetMeans(15, 0.02, 0.008, { unit: 'mm', shop }).map(({ code, limit }) => [code, limit]),
    );
    const evenly = (error: Parameters<typeof simulated>[0]): number => Math.sqrt(3) * simulated(error).deviation;
    const zero = 0.008;
    const leg = (within: (limit: number) => number): number => within(0.005) + within(0.01);
    expect(limits['dial'] ?? 0).toBeCloseTo(
      evenly((within) => within(0.0025) + within(0.02) + within(zero)),
      3,
    );
    // 15 by a plunger of 10 takes two legs.
    expect(limits['indicator-on-barrel'] ?? 0).toBeCloseTo(
      evenly((within) => leg(within) + leg(within) + within(zero)),
      3,
    );
    expect(limits['blocks'] ?? 0).toBeCloseTo(
      evenly((within) => within(0.002) - within(0.002) + within(0.001) + within(zero)),
      3,
    );
  });
});
