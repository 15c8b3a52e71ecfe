/**
 * How many runs, and from which seed: the one place that says so. `npm test` takes few runs where many take long, always
 * from the same seed: the tests say the same each time. `npm run test:long` takes all of them from a new seed, which it
 * prints; `SEED=… npm run test:long` repeats it. fast-check prints the seed of what fails.
 */
import fc from 'fast-check';

/** Set by vitest.config.ts for the long run. */
const long = process.env['RUNS'] === 'long';

/** Added to every seed; 0 unless somebody asks for others. */
const shift = Number(process.env['SEED'] ?? 0);

/** All runs in the long run, `few` of them in the short one. */
export const runs = (all: number, few: number): number => (long ? all : few);

/**
 * Seed of a generator of random cases, `own` in the short run. Properties need none: they name no seed. Simulated
 * experiments whose share is counted keep their own seed always, since one in so many must miss its bound by chance.
 */
export const seeded = (own: number): number => own + shift;

fc.configureGlobal({ ...fc.readConfigureGlobal(), seed: seeded(20_261) });
