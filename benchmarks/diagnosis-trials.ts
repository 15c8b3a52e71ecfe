/**
 * Whether the diagnosis holds what it states: 1,000 trials, 95 % intervals, from both sides.
 * Run with `npm run check:diagnosis`; a seed of your own follows after `--`.
 */
import { diagnosisTrials } from '../tests/sphere/diagnosis-trials.js';

const trials = 1000;
const seed = Number(process.argv[2] ?? 20260);
const hits = diagnosisTrials(trials, seed);
const shares = Object.values(hits).map((count) => count / trials);
const share = shares.reduce((sum, value) => sum + value, 0) / shares.length;
console.log({ trials, seed, hits, share });
if (share < 0.95 || share > 0.985 || shares.some((value) => value < 0.93 || value === 1)) {
  throw new Error('the stated coverage of 95 % does not hold');
}
