/** One way of stating a taper to another. */
import { choice } from '../core/checks.js';
import { readTaper, type Taper } from './taper.js';

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

const FROM_TANGENT: Readonly<Record<TaperStatement, (tan: number, halfAngleDeg: number) => number>> = {
  rate: (tan) => 2 * tan,
  oneIn: (tan) => 0.5 / tan,
  perFoot: (tan) => 24 * tan,
  perInch: (tan) => 2 * tan,
  perSide: (tan) => tan,
  percent: (tan) => 200 * tan,
  mmPer100mm: (tan) => 200 * tan,
  includedAngleDeg: (_, halfAngleDeg) => 2 * halfAngleDeg,
  halfAngleDeg: (_, halfAngleDeg) => halfAngleDeg,
};

/**
 * States a taper in another way.
 *
 * @param taper - The taper, stated in any one way.
 * @param to - The way wanted.
 * @returns The number that follows the wanted key.
 * @throws GeneratrixError if the taper is none, or `to` is not a single-number statement.
 * @example
 * ```ts
 * import { convertTaper } from 'generatrix';
 * convertTaper({ perFoot: 0.6 }, 'halfAngleDeg'); // => 1.4320961841646462
 * ```
 */
export function convertTaper(taper: Taper, to: TaperStatement): number {
  const { tan, halfAngleDeg } = readTaper(taper);
  const statement = choice(to, 'to', Object.keys(FROM_TANGENT) as TaperStatement[]);
  return FROM_TANGENT[statement](tan, halfAngleDeg);
}
