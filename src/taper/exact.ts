/**
 * Conversions of tapers in decimal text, correct in every digit asked for: for tables, for papers, and for
 * those who must show where a number came from. Floating-point conversions are in convert.ts.
 */
import type { Decimal } from 'decimal.js';
import { choice, options, text } from '../core/checks.js';
import { refuse } from '../core/errors.js';
import { exactly, readDecimal, readDigits, roundedIrrational, roundedQuotient } from '../core/exact.js';
import { STATEMENTS, type TaperStatement } from './convert.js';
import { standardStatement } from './standard-values.js';
import { TANGENTS, type Taper } from './taper.js';

/** The same keys with decimal text for numbers. */
export type InDecimals<T> = T extends unknown ? { readonly [Key in keyof T]: string } : never;

/** A taper stated in one of the ways of {@link Taper}, its numbers as decimal text: `{ perFoot: '0.6' }`. */
export type ExactTaper = InDecimals<Taper>;

/** How a decimal result is wanted. */
export interface ExactOptions {
  /** Significant digits of the result, 1 to 200. */
  readonly digits: number;
}

/**
 * States a taper in another way, in decimals: the true value, rounded once to the digits asked for. Ties go to
 * the even digit (ISO 80000-1, annex B, rule A). Zeros at the end are not written.
 *
 * @param taper - The taper, stated in exactly one way; numbers as decimal text of at most 200 characters, powers
 *   of ten of at most 99.
 * @param to - The way wanted.
 * @param given - The digits wanted.
 * @returns Plain decimal text, without a power of ten.
 * @throws GeneratrixError the codes of `convertTaper`; `unreadable` for text that is no decimal number.
 * @example
 * ```ts
 * import { convertTaperExact } from 'generatrix';
 * convertTaperExact({ oneIn: '20' }, 'perFoot', { digits: 20 }); // => '0.6'
 * convertTaperExact({ perFoot: '0.60235' }, 'halfAngleDeg', { digits: 30 }); // => '1.43770287798237323968042707789'
 * ```
 */
export function convertTaperExact(taper: ExactTaper, to: TaperStatement, given: ExactOptions): string {
  const statement = choice(to, 'to', STATEMENTS);
  const digits = readDigits(options(given, 'options', ['digits'])['digits'], 'options.digits');
  return convert(read(taper), statement, digits).toFixed();
}

/** A taper without rounding: a half angle in degrees, or the tangent of it as a fraction. */
type ExactRatio = { readonly half: Decimal } | { readonly opposite: Decimal; readonly adjacent: Decimal };

function convert(taper: ExactRatio, to: TaperStatement, digits: number): Decimal {
  if (to === 'includedAngleDeg' || to === 'halfAngleDeg') {
    const times = to === 'halfAngleDeg' ? 1 : 2;
    if ('half' in taper) return roundedQuotient(taper.half.times(times), taper.half.div(taper.half), digits);
    const { opposite, adjacent } = taper;
    // The one tangent that is a fraction and belongs to a fraction of a degree (Niven's theorem).
    if (opposite.equals(adjacent)) return roundedQuotient(opposite.times(45 * times), adjacent, digits);
    return roundedIrrational((D) => arctangentDeg(D, opposite, adjacent).times(times), digits);
  }
  if ('half' in taper) {
    if (taper.half.equals(45)) return convert({ opposite: taper.half, adjacent: taper.half }, to, digits);
    return roundedIrrational((D) => {
      const tan = tangentDeg(D, taper.half);
      return to === 'oneIn' ? D.div(1, tan.times(2)) : tan.times(TANGENTS[to]);
    }, digits);
  }
  const { opposite, adjacent } = taper;
  return to === 'oneIn'
    ? roundedQuotient(adjacent, opposite.times(2), digits)
    : roundedQuotient(opposite.times(TANGENTS[to]), adjacent, digits);
}

/** Above 45° by way of the complement, which is exact, so that no digit is lost near 90°. */
function tangentDeg(D: typeof Decimal, half: Decimal): Decimal {
  const rest = exactly().sub(90, half);
  return half.lessThan(45) ? D.tan(radians(D, half)) : D.div(1, D.tan(radians(D, rest)));
}

function arctangentDeg(D: typeof Decimal, opposite: Decimal, adjacent: Decimal): Decimal {
  if (opposite.greaterThan(adjacent)) return D.sub(90, arctangentDeg(D, adjacent, opposite));
  return D.atan(D.div(opposite, adjacent)).times(180).div(D.acos(-1));
}

function radians(D: typeof Decimal, angleDeg: Decimal): Decimal {
  return D.mul(angleDeg, D.acos(-1)).div(180);
}

const SIZES = ['largeDiameter', 'smallDiameter', 'length'];

function read(taper: unknown): ExactRatio {
  const given = options(taper, 'taper', [], [...STATEMENTS, 'standard', ...SIZES]);
  const keys = Object.keys(given).filter((key) => given[key] !== undefined);
  if (keys.some((key) => SIZES.includes(key))) return readSizes(taper);
  const [key = '', ...more] = keys;
  if (key === '' || more.length > 0) {
    const code = key === '' ? 'missing-option' : 'contradiction';
    return refuse(code, 'taper', keys, 'must state the taper in exactly one way');
  }
  const path = `taper.${key}`;
  if (key === 'standard') {
    const { statement, value } = standardStatement(text(given[key], path), path);
    return readNumber(statement, readDecimal(value, path));
  }
  const value = positive(readDecimal(given[key], path), path);
  if (key !== 'halfAngleDeg' && key !== 'includedAngleDeg') return readNumber(key, value);
  const half = key === 'halfAngleDeg' ? value : value.times('0.5');
  return half.lessThan(90) ? { half } : refuse('out-of-range', path, given[key], 'must be less than a flat face');
}

function readNumber(key: string, value: Decimal): ExactRatio {
  const one = value.div(value);
  return key === 'oneIn'
    ? { opposite: one, adjacent: value.times(2) }
    : { opposite: value, adjacent: one.times(TANGENTS[key as keyof typeof TANGENTS]) };
}

function readSizes(taper: unknown): ExactRatio {
  const given = options(taper, 'taper', SIZES);
  const [large, small, length] = SIZES.map((key) => readDecimal(given[key], `taper.${key}`)) as [
    Decimal,
    Decimal,
    Decimal,
  ];
  positive(large, 'taper.largeDiameter');
  positive(length, 'taper.length');
  if (small.isNegative() || small.greaterThanOrEqualTo(large)) {
    const allowed = `must be at least 0 and less than ${large.toString()}`;
    return refuse('out-of-range', 'taper.smallDiameter', given['smallDiameter'], allowed);
  }
  return { opposite: large.minus(small), adjacent: length.times(2) };
}

function positive(value: Decimal, path: string): Decimal {
  return value.greaterThan(0) ? value : refuse('out-of-range', path, value.toString(), 'must be greater than 0');
}
