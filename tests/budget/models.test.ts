/**
 * Every model that the library exports: its exact sensitivities against differences of its own values, at random
 * settings where it has a value. Models that are added later are tested as soon as they are exported.
 */
import fc from 'fast-check';
import * as generatrix from 'generatrix';
import { describe, expect, it } from 'vitest';
import { plainArithmetic } from '../../src/budget/arithmetic.js';
import { budget, type Model, type Quantity } from '../../src/budget/index.js';
import { runs } from '../oracle/seed.js';

const isModel = (value: unknown): value is Model =>
  typeof value === 'object' && value !== null && 'evaluate' in value && 'inputs' in value;
const models = Object.entries(generatrix as Readonly<Record<string, unknown>>).flatMap(([name, value]) =>
  isModel(value) ? [[name, value] as const] : [],
);

/** Settings compared of each model. */
const SETTINGS = runs(25, 8);

/** A range for each kind of number in which most set-ups have a value. */
const RANGES: Readonly<Record<Quantity['kind'], readonly [number, number]>> = {
  length: [0.5, 60],
  angleDeg: [1, 40],
  ratio: [0.01, 0.4],
  temperature: [15, 30],
  number: [0.01, 1],
};

function unlessRefused<T>(call: () => T): T | null {
  try {
    return call();
  } catch (error) {
    if (error instanceof generatrix.GeneratrixError) return null;
    throw error;
  }
}

describe.each(models)('%s', (_, model) => {
  it('has sensitivities that its own values confirm', () => {
    const names = Object.keys(model.inputs);
    const point = fc.tuple(
      ...names.map((name) => {
        const [min, max] = RANGES[(model.inputs[name] as Quantity).kind];
        return fc.double({ min, max, noNaN: true });
      }),
    );
    let compared = 0;
    fc.assert(
      fc.property(point, (values) => {
        const at = Object.fromEntries(names.map((name, i) => [name, values[i] as number]));
        if (compared >= SETTINGS || !Number.isFinite(model.evaluate(plainArithmetic, at))) return;
        const inputs = Object.fromEntries(
          names.map((name) => [name, { value: at[name] as number, standardUncertainty: 1e-4 }]),
        );
        const exact = unlessRefused(() => budget({ model, inputs }));
        const differences = unlessRefused(() => budget({ model: (x) => model.evaluate(plainArithmetic, x), inputs }));
        // At the edge of what is possible there is no derivative.
        if (!exact || !differences) return;
        for (const row of exact.rows) {
          const other = differences.rows.find(({ name }) => name === row.name);
          // The difference's stated error, and rounding of both.
          const allowed = (other?.sensitivityError ?? 0) + 1e-9 * Math.abs(row.sensitivity) + 1e-11;
          expect(Math.abs(row.sensitivity - (other?.sensitivity ?? Number.NaN)), row.name).toBeLessThanOrEqual(allowed);
        }
        compared++;
      }),
      { numRuns: 2000 },
    );
    expect(compared).toBe(SETTINGS);
  });

  it('cannot be changed by who calls it', () => {
    const all = [model, model.result, model.inputs, ...Object.values(model.inputs)];
    for (const part of all) expect(Object.isFrozen(part)).toBe(true);
  });

  it('names and explains all that it takes and gives', () => {
    for (const { meaning } of [model.result, ...Object.values(model.inputs)]) expect(meaning.length).toBeGreaterThan(2);
  });
});

it('there are models', () => {
  expect(models.length).toBeGreaterThan(0);
});
