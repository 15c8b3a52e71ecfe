/**
 * Whether the diagnosis leads to good parts and holds what it states: 400 mis-set balls and sockets, read, changed as
 * recommended and read again, and 1,000 trials of the 95 % intervals, from both sides. Run with
 * `npm run check:diagnosis`: a new seed each time, which is printed; a seed of your own follows after `--`.
 */
import {
  CHANGE_LIMITS,
  diagnosisTrials,
  GOOD,
  INSTRUMENT_LIMITS,
  LIMITS,
  work,
} from '../tests/sphere/diagnosis-trials.js';

const seed = Number(process.argv[2] ?? Date.now() % 1e6);
console.log({ seed, LIMITS, CHANGE_LIMITS, INSTRUMENT_LIMITS, GOOD });
const parts = 400;
const good = [0, 0, 0, 0];
let asked = 0;
for (let i = 0; i < parts; i++) {
  const worked = work(1000 * seed + i);
  good[worked.good] = (good[worked.good] ?? 0) + 1;
  asked += worked.asked;
  if (worked.good > 0 && worked.good < 3) continue;
  const cuts = worked.cuts.map(({ radius, form, pip }) => [radius, form, pip].map((size) => size.toFixed(3)).join(' '));
  console.log(`part ${i}, good ${worked.good}:`, JSON.stringify(worked.target), 'radius form pip', cuts.join(' | '));
}
const [never = 0, first = 0, second = 0, third = 0] = good;
console.log({ parts, first, second, third, never, readingsAskedPerPart: asked / parts });

const trials = 1000;
const hits = diagnosisTrials(trials, seed);
const shares = Object.values(hits).map((count) => count / trials);
const share = shares.reduce((sum, value) => sum + value, 0) / shares.length;
console.log({ trials, hits, share });
// One share of 1,000 scatters by 0.007: three of these.
if (share < 0.95 || share > 0.985 || shares.some((value) => value < 0.93 || value === 1)) {
  throw new Error('the stated coverage of 95 % does not hold');
}
if (first + second < 0.9 * parts || never > 0) throw new Error('not good in two tries, or not in three');
