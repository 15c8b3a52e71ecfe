/**
 * Every exported function, called wrongly in every way: each place of each valid call is left out, unknown, of a wrong
 * kind, out of range. The call must end in a refusal that names the caller's own path, or in a sound result.
 * `npm run check:hostile -- 0 0 setover` lists what is wrong with the functions whose names hold `setover`.
 */
import { describe, expect, it } from 'vitest';
import { runs } from '../oracle/seed.js';
import { validCalls } from './walk/calls.js';
import { extended } from './walk/extend.js';
import { signatures } from './walk/shapes.js';
import { walk } from './walk/walk.js';

/** Functions whose calls take long: every n-th mutation in the long run, all in `npm run check:hostile`. */
const STRIDES: Readonly<Record<string, number>> = {
  adaptiveMonteCarlo: 10,
  adaptiveMonteCarloAsync: 10,
  monteCarlo: 10,
  monteCarloAsync: 10,
  outlineJob: 20,
  planJob: 40,
  planJobAsync: 40,
  sphereInfeed: 5,
  sphereSteps: 5,
  sweepDiagnosis: 5,
  validateFirstOrder: 20,
};

const all = signatures();
const recorded = await validCalls();

describe.each(all.map((signature) => [signature.name, signature] as const))('%s', (_, signature) => {
  it('ends in a refusal of ours or a sound result', async () => {
    const valid = recorded.get(signature.name) ?? [];
    const stride = STRIDES[signature.name] ?? 1;
    const { calls, unreached } = stride < 10 ? await extended(signature, valid) : { calls: valid, unreached: [] };
    expect(unreached, 'options that no valid call has: extend.ts can be given hints').toEqual([]);
    expect(valid, 'a valid call must be known').not.toEqual([]);
    // The short run takes every fifth of these: some at every place, and every way at some place.
    expect((await walk(signature, calls, stride * runs(1, 5))).violations.slice(0, 30)).toEqual([]);
  });
});
