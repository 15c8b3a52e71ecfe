/** Conformity: probabilities by counting simulated truths, acceptance limits by their definition. */
import fc from 'fast-check';
import { xoroshiro128plus } from 'pure-rand/generator/xoroshiro128plus';
import { describe, expect, it } from 'vitest';
import { type ConformityOptions, conformity, productionRisks } from '../../src/budget/index.js';

const base: ConformityOptions = { value: 10.4, standardUncertainty: 0.2, lower: 9.5, upper: 10.5 };

describe('probability of conformity', () => {
  // JCGM 106:2012, 7.4: one-sided and two-sided tolerance with a normal distribution; values of the normal
  // distribution from any table.
  it.each([
    [{ value: 1, standardUncertainty: 0.5, upper: 2 }, 0.97725],
    [{ value: 1, standardUncertainty: 0.5, lower: 0.5 }, 0.84134],
    [{ value: 0, standardUncertainty: 1, lower: -1, upper: 1 }, 0.68269],
    [{ value: 3, standardUncertainty: 1, lower: -1, upper: 1 }, 0.02272],
  ])('%o', (options, probability) => {
    expect(conformity(options).probability).toBeCloseTo(probability, 5);
  });

  it('uses t for few degrees of freedom: two thirds within ±√2·... of ν = 2', () => {
    // For ν = 2 the distribution is ½ + x/(2√(2 + x²)).
    const { probability } = conformity({ value: 0, standardUncertainty: 1, upper: 1.5, degreesOfFreedom: 2 });
    expect(probability).toBeCloseTo(0.5 + 1.5 / (2 * Math.sqrt(2 + 2.25)), 14);
  });

  it('keeps the digits of a small chance on either side', () => {
    const above = conformity({ value: 8, standardUncertainty: 1, lower: -1, upper: 0 }).probability;
    const below = conformity({ value: -9, standardUncertainty: 1, lower: -1, upper: 0 }).probability;
    expect(above / 6.220960574271785e-16).toBeCloseTo(1, 3);
    expect(below / above).toBeCloseTo(1, 9);
  });
});

describe('decision', () => {
  it('by simple acceptance, guarded acceptance and guarded rejection', () => {
    expect(conformity(base)).toMatchObject({ decision: 'accept', acceptance: { low: 9.5, high: 10.5 } });
    expect(conformity({ ...base, guardBand: 0.2 })).toMatchObject({
      decision: 'reject',
      acceptance: { low: expect.closeTo(9.7, 12), high: expect.closeTo(10.3, 12) },
    });
    expect(conformity({ ...base, value: 10.6, guardBand: -0.2 }).decision).toBe('accept');
    expect(conformity({ ...base, guardBand: 0.6 })).toMatchObject({ decision: 'reject', acceptance: null });
  });

  it('by a required probability: the limits are where it is just reached', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.02, max: 0.3, noNaN: true }),
        fc.double({ min: 0.3, max: 0.85, noNaN: true }),
        fc.constantFrom({ lower: 9.5, upper: 10.5 }, { lower: 9.5 }, { upper: 10.5 }),
        fc.option(fc.double({ min: 1, max: 50, noNaN: true })),
        (standardUncertainty, requiredProbability, limits, degreesOfFreedom) => {
          const options = { standardUncertainty, requiredProbability, degreesOfFreedom, ...limits };
          const { acceptance } = conformity({ ...options, value: 10 });
          for (const end of [acceptance?.low, acceptance?.high]) {
            if (typeof end !== 'number') continue;
            expect(conformity({ ...options, value: end }).probability).toBeCloseTo(requiredProbability, 9);
            expect(conformity({ ...options, value: end }).decision).toBe('accept');
          }
          const sides = [acceptance?.low, acceptance?.high].map((end) => typeof end === 'number');
          if (acceptance) expect(sides).toEqual(['lower' in limits, 'upper' in limits]);
        },
      ),
      { numRuns: 200 },
    );
  });

  it('accepts nothing where nothing can reach the probability', () => {
    expect(conformity({ ...base, standardUncertainty: 2, requiredProbability: 0.95 })).toMatchObject({
      acceptance: null,
      decision: 'reject',
    });
  });

  it('states the risk of being wrong', () => {
    const accepted = conformity(base);
    expect(accepted.risk).toBe(1 - accepted.probability);
    const rejected = conformity({ ...base, guardBand: 0.2 });
    expect(rejected.risk).toBe(rejected.probability);
  });
});

describe('risks of a production', () => {
  it('agree with counted pieces', () => {
    const generator = xoroshiro128plus(20);
    const uniform = (): number => ((generator.next() >>> 0) + 0.5) / 2 ** 32;
    const normal = (): number => Math.sqrt(-2 * Math.log(uniform())) * Math.cos(2 * Math.PI * uniform());
    const options = {
      mean: 10.02,
      standardDeviation: 0.3,
      standardUncertainty: 0.1,
      lower: 9.5,
      upper: 10.5,
      guardBand: 0.05,
    };
    const n = 400_000;
    let [consumer, producer] = [0, 0];
    for (let i = 0; i < n; i++) {
      const truth = options.mean + options.standardDeviation * normal();
      const measured = truth + options.standardUncertainty * normal();
      const conforms = truth >= 9.5 && truth <= 10.5;
      const accepted = measured >= 9.55 && measured <= 10.45;
      if (accepted && !conforms) consumer++;
      if (!accepted && conforms) producer++;
    }
    const risks = productionRisks(options);
    // Four standard deviations of a count.
    expect(Math.abs(consumer / n - risks.consumer)).toBeLessThan(4 * Math.sqrt(risks.consumer / n));
    expect(Math.abs(producer / n - risks.producer)).toBeLessThan(4 * Math.sqrt(risks.producer / n));
    expect(risks.accepted + risks.producer).toBeCloseTo(risks.conforming + risks.consumer, 9);
  });

  it.each([1e-6, 1e-3, 0.1, 1, 30])('accepted pieces are those of the joint distribution, u/σ = %s', (ratio) => {
    // Measured values are normal with σ² + u²: what is accepted follows without integration.
    const options = { mean: 0.3, standardDeviation: 1, standardUncertainty: ratio, lower: -2, upper: 1 };
    const spread = Math.hypot(1, ratio);
    const truth = conformity({ value: 0.3, standardUncertainty: spread, lower: -2, upper: 1 }).probability;
    expect(productionRisks(options).accepted).toBeCloseTo(truth, 9);
  });

  it('with one limit, and with a guard band that accepts nothing', () => {
    const one = productionRisks({ mean: 0, standardDeviation: 1, standardUncertainty: 0.5, upper: 1 });
    expect(one.conforming).toBeCloseTo(0.841344746, 8);
    expect(one.consumer).toBeGreaterThan(0);
    const none = productionRisks({
      mean: 0,
      standardDeviation: 1,
      standardUncertainty: 0.5,
      lower: -1,
      upper: 1,
      guardBand: 2,
    });
    expect(none).toMatchObject({ accepted: 0, consumer: 0, producer: none.conforming });
  });
});

it.each<[string, Partial<ConformityOptions>, string]>([
  ['limits the wrong way round', { lower: 11 }, 'contradiction'],
  ['both rules', { guardBand: 0, requiredProbability: 0.9 }, 'contradiction'],
  ['a probability of 1', { requiredProbability: 1 }, 'out-of-range'],
  ['no uncertainty', { standardUncertainty: 0 }, 'out-of-range'],
])('refuses %s', (_, options, code) => {
  expect(() => conformity({ ...base, ...options })).toThrow(expect.objectContaining({ code }));
});

it('refuses a specification without limits', () => {
  expect(() => conformity({ value: 1, standardUncertainty: 1 })).toThrow(
    expect.objectContaining({ code: 'missing-option' }),
  );
});

describe('uncertainties below all digits', () => {
  it('end in a decision, at the limit itself', () => {
    const { decision, acceptance } = conformity({
      value: 25,
      standardUncertainty: 1e-15,
      lower: 20,
      requiredProbability: 0.95,
    });
    expect(decision).toBe('accept');
    // One step of floating-point numbers from 20 is four uncertainties.
    expect(acceptance?.low).toBe(20 + 2 ** -48);
  });

  it('leave no risk but that of rounding', () => {
    const made = { mean: 0, standardDeviation: 1, standardUncertainty: 5e-324, lower: 0, upper: 1 };
    const { consumer, producer, accepted, conforming } = productionRisks(made);
    expect(consumer).toBe(0);
    expect(producer).toBeLessThan(1e-12);
    expect(accepted).toBeCloseTo(conforming, 12);
  });
});
