/** A 95 % interval holds the truth in 95 % of experiments; `npm run check:coverage` tries 20,000 of each. */
import { expect, it } from 'vitest';
import { coverage, shapes } from './experiments.js';

const EXPERIMENTS = 200;

it.each(Object.keys(shapes))('%s', (name) => {
  // Four standard deviations of a share of 0.95 among 200: 0.062.
  expect(Math.abs(coverage(name, EXPERIMENTS) - 0.95)).toBeLessThan(4 * Math.sqrt((0.95 * 0.05) / EXPERIMENTS));
});
