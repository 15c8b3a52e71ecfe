/**
 * Results rounded as the guides ask: two digits of the uncertainty, the value to the same place, halves away from zero.
 * Source: JCGM 100:2008, 7.2.6.
 */
import { decimally } from '../core/rational.js';
import { anyNumber, defaulted, type Fields, nonNegative, read, whole } from '../core/read.js';

/** A value and its uncertainty as text. */
export interface RoundedResult {
  /** Value, rounded to the place of the uncertainty's last digit. */
  readonly value: string;
  /** Uncertainty, in the digits asked for. */
  readonly uncertainty: string;
}

/** What to round. */
export interface RoundResultOptions {
  /** Value. */
  readonly value: number;
  /** Uncertainty, standard or expanded, 0 or more. */
  readonly uncertainty: number;
  /** Digits of the uncertainty, 1 to 15. @defaultValue 2 */
  readonly digits?: number;
}

const OPTIONS: Fields<RoundResultOptions, 'digits'> = {
  value: anyNumber,
  uncertainty: nonNegative,
  digits: defaulted(whole({ min: 1, max: 15 }), 2),
};

/**
 * Rounds an uncertainty to two digits and its value to the same place (JCGM 100, 7.2.6), halves away from zero.
 * A value known exactly keeps its digits.
 * @returns Both as text, in powers of ten where the last digit stands more than nine places from the point.
 * @throws GeneratrixError `missing-option`, `unknown-option`, `wrong-kind`, `not-finite` or `out-of-range`.
 * @example
 * ```ts
 * import { roundResult } from 'generatrix/budget';
 * roundResult({ value: 25.0166, uncertainty: 0.00349 }); // => { value: '25.0166', uncertainty: '0.0035' }
 * roundResult({ value: 1234.5, uncertainty: 0.096 }); // => { value: '1234.500', uncertainty: '0.096' }
 * roundResult({ value: 98765, uncertainty: 1234 }); // => { value: '98800', uncertainty: '1200' }
 * ```
 */
export function roundResult(options: RoundResultOptions): RoundedResult {
  const { value, uncertainty, digits } = read(options, OPTIONS);
  return rounded(value, uncertainty, digits);
}

/** The same without checks. */
export function rounded(value: number, uncertainty: number, digits: number): RoundedResult {
  if (uncertainty === 0) return { value: String(value), uncertainty: '0' };
  const places = placesFor(uncertainty, digits);
  return { value: placed(value, places), uncertainty: placed(uncertainty, places) };
}

/** Decimal places at which a number that is not 0 shows so many digits once it is rounded. */
export function placesFor(x: number, digits: number): number {
  const places = digits - 1 - powerOf(x);
  // 0.0996 becomes 0.10: rounding may bring a digit more.
  return String(counted(x, places)).length > digits ? places - 1 : places;
}

/** Power of ten of a number's first digit. */
function powerOf(x: number): number {
  return Number(Math.abs(x).toExponential().split('e')[1]);
}

/**
 * How many units of a decimal place a size makes, halves upward. The decimal that a number prints as is what its
 * reader takes it for: 0.125 with a half to round up.
 */
function counted(x: number, places: number): bigint {
  const { over, under } = decimally(Math.abs(x));
  const power = 10n ** BigInt(Math.abs(places));
  const [top, bottom] = places < 0 ? [over, under * power] : [over * power, under];
  return (2n * top + bottom) / (2n * bottom);
}

/** Text with this many decimal places, fewer than none standing for tens, hundreds and so on. */
export function placed(x: number, places: number): string {
  const count = counted(x, places);
  const far = Math.abs(places) > 9;
  if (count === 0n) return places > 0 && !far ? `0.${'0'.repeat(places)}` : '0';
  const sign = x < 0 ? '-' : '';
  const figures = String(count);
  if (!far) {
    if (places <= 0) return sign + figures + '0'.repeat(-places);
    const padded = figures.padStart(places + 1, '0');
    return `${sign}${padded.slice(0, -places)}.${padded.slice(-places)}`;
  }
  const power = figures.length - 1 - places;
  const decimals = figures.length > 1 ? `.${figures.slice(1)}` : '';
  return `${sign}${figures[0]}${decimals}e${power < 0 ? '-' : '+'}${Math.abs(power)}`;
}
