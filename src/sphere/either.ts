/** Options of which exactly one must be given, told by their keys. */
import { refuse } from '../core/errors.js';

/** Refuses options that have both of two keys, or neither. */
export function exactlyOne<K extends string>(given: { readonly [key in K]?: unknown }, one: K, other: K): void {
  if (given[one] === undefined && given[other] === undefined) {
    refuse('missing-option', one, undefined, `must be given, or ${other}`);
  }
  if (given[one] !== undefined && given[other] !== undefined) {
    refuse('contradiction', other, given[other], `must be left out beside ${one}`);
  }
}
