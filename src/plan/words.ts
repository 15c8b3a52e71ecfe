/** The plan's own sentences, by code. */

import { say } from '../core/words.js';
import { chance } from '../method/chance.js';
import type { ToleranceOf } from '../method/expect.js';

interface Outlook {
  readonly quantity: ToleranceOf;
  readonly probability: number;
  readonly tries: number;
  readonly ruling: string;
}

/** What is judged, in words. */
export const QUANTITIES: Readonly<Record<ToleranceOf, string>> = {
  'small-diameter': 'small diameter',
  'half-angle': 'half angle',
  radius: 'radius',
  form: 'form',
  'pip-diameter': 'pip',
  'stem-diameter': 'stem diameter',
  'free-stem-diameter': 'free stem diameter',
  'flat-diameter': 'flat diameter',
  'base-diameter': 'base diameter',
  'opening-diameter': 'opening diameter',
};

function outlook({ quantity, probability, tries, ruling }: Outlook): string {
  const when = tries === 1 ? 'the first cut' : 'one correction';
  const why = ruling === '' ? '' : say`; ${ruling} limits it most`;
  return say`${QUANTITIES[quantity]}: within its tolerance with a probability of ${chance(probability)} after ${when}${why}.`;
}

/** Reasons of a plan. */
export const WORDS = {
  'meets-tolerance': (values: Outlook): string => outlook(values),
  'misses-tolerance': (values: Outlook): string => outlook(values),
} as const;

/** What was assumed, or that nothing was. */
export const ASSUMED = {
  none: 'All limits were stated by the job.',
  some: 'Assumed by the plan (common practice, no source), not stated by the job; check them here:',
} as const;
