/** Options of which exactly one is given: the diameter at one end or the other, the length in one way or the other. */
import { refuse } from '../core/errors.js';

/** The key that is given, of two that exclude each other. */
export function eitherKey<A extends string, B extends string>(
  given: { readonly [K in A | B]?: number },
  one: A,
  other: B,
): A | B {
  if ((given[one] === undefined) !== (given[other] === undefined)) return given[one] === undefined ? other : one;
  return refuse(
    given[one] === undefined ? 'missing-option' : 'contradiction',
    one,
    given[one],
    `must be given, or else ${other}, not both`,
  );
}
