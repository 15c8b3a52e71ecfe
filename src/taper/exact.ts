/**
 * Conversions of tapers in decimal text, correct in every digit asked for: for tables, for papers, and for
 * those who must show where a number came from. Floating-point conversions are in convert.ts.
 */
import type { Decimal } from 'decimal.js';
import { refuse } from '../core/errors.js';
import { decimal, digitCount, exactly, roundedIrrational, roundedQuotient } from '../core/exact.js';
import { type Fields, object, optional, type Reader, read, readValue, vouched } from '../core/read.js';
import { type TaperStatement, taperStatement } from './convert.js';
import { type StandardTaperName, standardName, standardStatement } from './standard-values.js';
import { type KeyOf, TANGENTS, type Taper } from './taper.js';

/** The same keys with decimal text for numbers. */
export type InDecimals<T> = T extends unknown
  ? { readonly [Key in keyof T]: T[Key] extends number ? string : T[Key] }
  : never;

/** A taper stated in one of the ways of {@link Taper}, its numbers as decimal text: `{ perFoot: '0.6' }`. */
export type ExactTaper = InDecimals<Taper>;

/** How a decimal result is wanted. */
export interface ExactOptions {
  /** Significant digits of the result, 1 to 200. */
  readonly digits: number;
}

const EXACT: Fields<ExactOptions> = { digits: digitCount };

/**
 * States a taper in another way, in decimals: the true value, rounded once to the digits asked for. Ties go to
 * the even digit (ISO 80000-1, annex B, rule A). Zeros at the end are not written.
 * @param taper - The taper, stated in exactly one way; numbers as decimal text of at most 200 characters, powers
 *   of ten of at most 99.
 * @param to - The way wanted.
 * @param options - The digits wanted.
 * @returns Plain decimal text, without a power of ten.
 * @throws GeneratrixError the codes of `convertTaper`; `unreadable` for text that is no decimal number.
 * @example
 * ```ts
 * import { convertTaperExact } from 'generatrix';
 * convertTaperExact({ oneIn: '20' }, 'perFoot', { digits: 20 }); // => '0.6'
 * convertTaperExact({ perFoot: '0.60235' }, 'halfAngleDeg', { digits: 30 }); // => '1.43770287798237323968042707789'
 * ```
 */
export function convertTaperExact(taper: ExactTaper, to: TaperStatement, options: ExactOptions): string {
  const ratio = ratioOf(readValue(taper, exactTaper));
  const statement = readValue(to, taperStatement, 'to');
  const { digits } = read(options, EXACT);
  return convert(ratio, statement, digits).toFixed();
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

const SIZES = ['largeDiameter', 'smallDiameter', 'length'] as const;

/** Every key of every way of stating a taper, its number read. */
type Stated = { readonly [K in Exclude<KeyOf<Taper>, 'standard'>]?: Decimal } & {
  readonly standard?: StandardTaperName;
};

const positive = optional(decimal({ above: 0 }));

const STATED: Fields<Stated> = {
  perSide: positive,
  rate: positive,
  perInch: positive,
  perFoot: positive,
  percent: positive,
  mmPer100mm: positive,
  oneIn: positive,
  includedAngleDeg: optional(decimal({ above: 0, below: 180 })),
  halfAngleDeg: optional(decimal({ above: 0, below: 90 })),
  standard: optional(standardName),
  largeDiameter: positive,
  smallDiameter: optional(decimal({ min: 0 })),
  length: positive,
};

const exactTaper: Reader<Stated> = vouched(object(STATED), (given) => {
  const { largeDiameter, smallDiameter, length, ...ways } = given;
  const missing = SIZES.filter((key) => given[key] === undefined);
  if (missing.length > 0 && missing.length < 3)
    refuse('missing-option', missing[0] as string, undefined, 'must be given');
  const keys = [...Object.keys(ways), ...(missing.length === 0 ? ['length'] : [])];
  if (keys.length !== 1) {
    const code = keys.length === 0 ? 'missing-option' : 'contradiction';
    refuse(code, '', keys, 'must state the taper in exactly one way');
  }
  if (largeDiameter && smallDiameter?.greaterThanOrEqualTo(largeDiameter)) {
    const phrase = `must be at least 0 and less than ${largeDiameter.toString()}`;
    refuse('out-of-range', 'smallDiameter', smallDiameter.toString(), phrase);
  }
});

/** The taper of a statement that was read. */
function ratioOf(given: Stated): ExactRatio {
  const { largeDiameter, smallDiameter, length, standard, includedAngleDeg, halfAngleDeg, ...ratios } = given;
  if (standard !== undefined) {
    const { statement, value } = standardStatement(standard);
    return ratioOf({ [statement]: new (exactly())(value) });
  }
  if (halfAngleDeg) return { half: halfAngleDeg };
  if (includedAngleDeg) return { half: includedAngleDeg.times('0.5') };
  if (largeDiameter && smallDiameter && length) {
    return { opposite: largeDiameter.minus(smallDiameter), adjacent: length.times(2) };
  }
  const [way, value] = Object.entries(ratios)[0] as [keyof typeof TANGENTS | 'oneIn', Decimal];
  const one = value.div(value);
  return way === 'oneIn'
    ? { opposite: one, adjacent: value.times(2) }
    : { opposite: value, adjacent: one.times(TANGENTS[way]) };
}
