/** What stood here is in words.ts: notes are sentences by code. */
import { tell } from './words.js';

export type { Note } from './words.js';

/** A number for a sentence: six digits say enough there, and `values` holds them all. */
export function inWords(value: number): string {
  return tell(value);
}
