/** A probability for a person. */
import { say, tell } from '../core/words.js';

/** Nothing simulated is certain, and nothing is rounded up. */
export function chance(probability: number): string {
  if (probability > 0.999) return 'more than 99.9 %';
  return say`${tell(Math.floor(1000 * probability) / 10, { step: 0.1 })} %`;
}
