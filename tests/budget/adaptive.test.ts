/** The adaptive procedure and the validation of first order, on examples whose verdict JCGM 101 clause 9 prints. */
import { describe, expect, it } from 'vitest';
import {
  adaptiveMonteCarlo,
  adaptiveMonteCarloAsync,
  type Input,
  monteCarlo,
  validateFirstOrder,
} from '../../src/budget/index.js';
import { published } from '../reference/published.js';

const sum = (inputs: Readonly<Record<string, number>>): number => Object.values(inputs).reduce((a, b) => a + b);
const normal: Input = { value: 0, standardUncertainty: 1 };

describe('adaptive procedure', () => {
  it('ends when steady, at what the run of that length gives', () => {
    const job = { model: sum, inputs: { a: normal, b: { from: 0, to: 3 } }, seed: 9 };
    const { steady, tolerance, ...found } = adaptiveMonteCarlo({ ...job, digits: 1 });
    // u = sqrt(1 + 9/12) = 1.3, so one digit makes the tolerance 0.5; two make it 0.05.
    expect([steady, tolerance]).toEqual([true, 0.5]);
    expect(found).toEqual(monteCarlo({ ...job, trials: found.trials }));
    const finer = adaptiveMonteCarlo({ ...job, digits: 2 });
    expect([finer.steady, finer.tolerance]).toEqual([true, 0.05]);
    expect(finer.trials).toBeGreaterThan(found.trials);
    // Steady means: twice the error of each of the four is below the tolerance; ours are estimated another way.
    for (const error of [
      finer.meanError,
      finer.standardUncertaintyError,
      finer.symmetric.lowError,
      finer.symmetric.highError,
    ]) {
      expect(error).toBeLessThan(0.05);
    }
  });

  it('says so when trials run out, and takes a tolerance', () => {
    const job = { model: sum, inputs: { a: normal, b: normal }, mostTrials: 30_000, tolerance: 1e-6 };
    expect(adaptiveMonteCarlo(job)).toMatchObject({ steady: false, trials: 30_000, tolerance: 1e-6 });
  });

  it('is steady at once where nothing varies', () => {
    expect(adaptiveMonteCarlo({ model: () => 2, inputs: { a: 1 } })).toMatchObject({ steady: true, trials: 20_000 });
  });

  it('pausing gives the same; an abort ends it', async () => {
    const job = { model: sum, inputs: { a: normal, b: normal }, interval: 'shortest', tolerance: 0.05 } as const;
    expect(await adaptiveMonteCarloAsync(job)).toEqual(adaptiveMonteCarlo(job));
    await expect(adaptiveMonteCarloAsync({ ...job, signal: { aborted: true } })).rejects.toThrow(
      expect.objectContaining({ code: 'aborted' }),
    );
  });
});

describe('validation of first order', () => {
  it('holds for four normal inputs (JCGM 101, 9.2.2)', () => {
    const inputs = { a: normal, b: normal, c: normal, d: normal };
    const { valid, tolerance, monteCarlo: trial, notes } = validateFirstOrder({ model: sum, inputs });
    expect([valid, tolerance, trial.steady, notes]).toEqual([true, 0.05, true, []]);
  });

  it('fails for one dominant rectangular input (JCGM 101, 9.2.4)', () => {
    const box = (u: number): Input => ({ value: 0, plusMinus: u * Math.sqrt(3) });
    const inputs = { a: box(1), b: box(1), c: box(1), d: box(10) };
    const { valid, firstOrder, notes } = validateFirstOrder({ model: sum, inputs });
    expect(valid).toBe(false);
    // The published end of the first-order interval, printed to a tenth: 1.96 times 10.1489 is 19.89.
    expect(firstOrder.interval.high.toFixed(1)).toBe(published('T7-S1-924').published['GUF_high95']?.value);
    expect(notes.map(({ code }) => code)).toContain('first-order-fails');
  });

  it('fails for the mass calibration (JCGM 101, 9.3), whose first-order uncertainty is printed', () => {
    const { valid, firstOrder, highDifference } = validateFirstOrder({
      model: ({ m, dm, air, weight, standard }) =>
        (100_000 + (m as number) + (dm as number)) *
          (1 + ((air as number) - 1.2) * (1 / (weight as number) - 1 / (standard as number))) -
        100_000,
      inputs: {
        m: { value: 0, standardUncertainty: 0.05 },
        dm: { value: 1.234, standardUncertainty: 0.02 },
        air: { from: 1.1, to: 1.3 },
        weight: { from: 7000, to: 9000 },
        standard: { from: 7950, to: 8050 },
      },
      interval: 'shortest',
      mostTrials: 200_000,
    });
    const { published: printed } = published('T7-S1-93');
    expect(valid).toBe(false);
    expect(firstOrder.standardUncertainty.toFixed(4)).toBe(printed['GUF_u']?.value);
    expect(firstOrder.interval.low.toFixed(4)).toBe(printed['GUF_low']?.value);
    expect(firstOrder.interval.high.toFixed(4)).toBe(printed['GUF_high']?.value);
    // 1.3825 - 1.3395 printed.
    expect(highDifference).toBeCloseTo(0.043, 2);
  });

  it('says when trials ran out', () => {
    const { notes } = validateFirstOrder({ model: sum, inputs: { a: normal, b: normal }, mostTrials: 20_000 });
    expect(notes.map(({ code }) => code)).toContain('not-steady');
  });
});
