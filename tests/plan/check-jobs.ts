/**
 * 100,000 jobs, half of them good and half spoilt: each must end in a plan or in an error of the library's own with
 * the path to the field; a good one in a plan. `npm run check:jobs` runs it (`-- 1000 7`: 1,000 of each, from seed 7);
 * the tests run the same on fewer.
 */
import fc from 'fast-check';
import { GeneratrixError } from 'generatrix';
import { endOf, faults, goodJobs, spoiltJobs } from './jobs.js';

const EACH = Number(process.argv[2] ?? 50_000);
const SEED = Number(process.argv[3] ?? 20_240);

const counts = new Map<string, number>();
const from = Date.now();
let slowest = 0;
const timed = <T>(run: () => T): T => {
  const start = performance.now();
  const result = run();
  slowest = Math.max(slowest, performance.now() - start);
  return result;
};

const check = (kind: 'good' | 'spoilt', jobs: fc.Arbitrary<unknown>): void =>
  fc.assert(
    fc.property(jobs, (job) => {
      const end = timed(() => endOf(job));
      if (kind === 'good' && end instanceof GeneratrixError) throw end;
      const found = faults(end);
      if (found.length > 0) throw new Error(found.join('; '));
      const what = end instanceof GeneratrixError ? end.code : end.best === null ? 'plan, none can' : 'plan';
      counts.set(`${kind}: ${what}`, (counts.get(`${kind}: ${what}`) ?? 0) + 1);
    }),
    { seed: SEED, numRuns: EACH },
  );

check('good', goodJobs);
check('spoilt', spoiltJobs);
for (const [what, times] of [...counts].sort(([a], [b]) => a.localeCompare(b))) console.log(`${what}: ${times}`);
console.log(`${2 * EACH} jobs in ${((Date.now() - from) / 1000).toFixed(0)} s, the slowest ${slowest.toFixed(0)} ms`);
