/** One way of stating a taper to another. */
import { type Pair, quotient, times } from '../core/double-double.js';
import { choice, type Reader, readValue, representable } from '../core/read.js';
import { halfAngleDegOf, ratioOf, TANGENTS, type Taper, taper as taperReader } from './taper.js';

/** The single-number ways of stating a taper; they are the keys of {@link Taper}. */
export type TaperStatement =
  | 'rate'
  | 'oneIn'
  | 'perFoot'
  | 'perInch'
  | 'perSide'
  | 'percent'
  | 'mmPer100mm'
  | 'includedAngleDeg'
  | 'halfAngleDeg';

/** Reads the name of a way of stating a taper. */
export const taperStatement: Reader<TaperStatement> = choice(
  ...(Object.keys(TANGENTS) as (keyof typeof TANGENTS)[]),
  'oneIn',
  'includedAngleDeg',
  'halfAngleDeg',
);

/**
 * States a taper in another way. The result is within 0.6 units in the last place of the true value of
 * the numbers given (docs/accuracy.md), so a conversion between ratios is as exact as one rounding allows.
 *
 * A taper may be stated twice, as long as both statements agree within 1e-9 of its tangent.
 * @param taper - The taper, stated in any way.
 * @param to - The way wanted.
 * @returns The number that follows the wanted key.
 * @throws GeneratrixError `missing-option`, `unknown-option`, `wrong-kind`, `not-finite` or `out-of-range` if the
 *   taper is none or `to` is no single-number statement; `contradiction` if two statements disagree; `no-data` for a
 *   standard that is not known; `not-representable` if the result leaves the range of floating-point numbers.
 * @example
 * ```ts
 * import { convertTaper } from 'generatrix';
 * convertTaper({ perFoot: 0.6 }, 'halfAngleDeg'); // => 1.4320961841646462
 * convertTaper({ oneIn: 20 }, 'perFoot'); // => 0.6
 * convertTaper({ largeDiameter: 2.5, smallDiameter: 2, length: 6 }, 'perFoot'); // => 1
 * convertTaper({ standard: 'morse-3' }, 'oneIn'); // => 19.92197227525525
 * convertTaper({ perFoot: 0.6, oneIn: 20.1 }, 'rate'); // throws contradiction
 * ```
 */
export function convertTaper(taper: Taper, to: TaperStatement): number {
  const ratio = ratioOf(readValue(taper, taperReader));
  const statement = readValue(to, taperStatement, 'to');
  if (statement === 'halfAngleDeg') return halfAngleDegOf(ratio);
  if (statement === 'includedAngleDeg') return 2 * halfAngleDegOf(ratio);
  const { opposite, adjacent } = ratio;
  const value =
    statement === 'oneIn'
      ? quotient(adjacent, times(opposite, TWO))[0]
      : quotient(times(opposite, [TANGENTS[statement], 0]), adjacent)[0];
  return representable(value, '');
}

const TWO: Pair = [2, 0];
