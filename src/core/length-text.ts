/**
 * Lengths as they are written in a shop: fractions and decimals, with a unit or without. Read as fractions of whole
 * numbers and rounded to a double once; the inch is exactly 25.4 mm (international yard and pound agreement, 1959).
 */
import { refuse } from './errors.js';
import {
  add,
  exactly,
  mayPartThousands,
  nearestDouble,
  nearestWhole,
  type Rational,
  readFigures,
  scale,
} from './rational.js';
import { choice, defaulted, number, optional, read, readValue, text, whole } from './read.js';

/** A unit of length. */
export type LengthUnit = 'mm' | 'cm' | 'm' | 'um' | 'in' | 'ft' | 'thou';

/** One unit in micrometres times ten: whole numbers all. */
const TENTHS_OF_UM: Readonly<Record<LengthUnit, bigint>> = {
  um: 10n,
  mm: 10_000n,
  cm: 100_000n,
  m: 10_000_000n,
  thou: 254n,
  in: 254_000n,
  ft: 3_048_000n,
};

const UNITS = Object.keys(TENTHS_OF_UM) as LengthUnit[];

/** Other ways of writing a unit. */
const SPELLINGS: Readonly<Record<string, LengthUnit>> = {
  '"': 'in',
  '″': 'in',
  '”': 'in',
  inch: 'in',
  inches: 'in',
  "'": 'ft',
  '′': 'ft',
  foot: 'ft',
  feet: 'ft',
  µm: 'um',
  μm: 'um',
};

/** How {@link parseLength} understands what it reads. */
export interface ParseLengthOptions {
  /** The unit of the result. */
  readonly unit: LengthUnit;
  /** The unit of text that names none. @defaultValue the unit of the result */
  readonly bareUnit?: LengthUnit;
}

const LENGTH =
  /^([+-]?)\s*(?:(?:(\d{1,15})(?:\s+|-))?(\d{1,15})\s*\/\s*(\d{1,15})|(\d{1,15}(?:[.,]\d{0,30})?|[.,]\d{1,30}))\s*([^\d\s.,/-]{0,6})$/;

/**
 * Reads a length exactly: `5/8`, `1 5/8`, `1-5/8`, `0.6235`, `.250`, `41,3`, with a unit (`mm`, `cm`, `m`, `um`, `in`,
 * `"`, `ft`, `'`, `thou`) or without.
 *
 * A comma is a decimal mark, except where it may part thousands: `1,250` is refused, `0,250` and `41,3` are read.
 * @param length - The text, at most 100 characters.
 * @param options - The unit of the result, and that of text without one.
 * @returns The nearest double to what was written, in the unit asked for.
 * @throws GeneratrixError `unreadable` for anything else, `wrong-kind` for a value that is no text, `out-of-range` for a
 *   unit that is not known.
 * @example
 * ```ts
 * import { parseLength } from 'generatrix';
 * parseLength('1 5/8', { unit: 'in' }); // => 1.625
 * parseLength('1-5/8"', { unit: 'mm' }); // => 41.275
 * parseLength('41,3', { unit: 'mm' }); // => 41.3
 * parseLength('1,250', { unit: 'mm' }); // throws unreadable
 * ```
 */
export function parseLength(length: string, options: ParseLengthOptions): number {
  const unit = choice(...UNITS);
  const { unit: to, bareUnit: bare = to } = read<ParseLengthOptions>(options, { unit, bareUnit: optional(unit) });
  const parts = LENGTH.exec(readValue(length, text(100), 'length').trim());
  if (!parts) return refuse('unreadable', 'length', length, 'must be a length such as 0.625, 1 5/8 or 41.3 mm');
  const [, sign, wholes = '0', numerator = '', denominator = '1', decimal, mark = ''] = parts;
  if (BigInt(denominator) === 0n) return refuse('unreadable', 'length', length, 'must not have 0 under a fraction');
  if (decimal && mayPartThousands(decimal)) {
    return refuse('unreadable', 'length', length, 'must not have a comma that may part thousands: write a point');
  }
  const from = unitOf(mark, bare);
  if (!from) return refuse('unreadable', 'length', length, `must have one of the units ${UNITS.join(', ')}`);
  const size: Rational =
    decimal === undefined
      ? add(readFigures(wholes), { over: BigInt(numerator), under: BigInt(denominator) })
      : readFigures(decimal);
  const value = nearestDouble(scale(size, TENTHS_OF_UM[from], TENTHS_OF_UM[to]));
  return sign === '-' && value > 0 ? -value : value;
}

function unitOf(mark: string, bare: LengthUnit): LengthUnit | undefined {
  const word = mark.toLowerCase();
  if (word === '') return bare;
  return UNITS.find((unit) => unit === word) ?? (Object.hasOwn(SPELLINGS, word) ? SPELLINGS[word] : undefined);
}

/** A fraction as it is read on a rule. */
export interface ShopFraction {
  /** The fraction in lowest terms, such as `1 5/8`. */
  readonly text: string;
  /** The value of the fraction. */
  readonly value: number;
  /** What is left: the number less the fraction. */
  readonly remainder: number;
}

/** Which fractions {@link formatFraction} gives. */
export interface FormatFractionOptions {
  /** The finest division, 1 to 1,000,000: all its multiples count, in lowest terms. @defaultValue 64 */
  readonly denominator?: number;
}

/**
 * The nearest fraction of a rule to a number, and what is left. Half-way, the even multiple is taken.
 * @param length - The number, at most a million either way.
 * @param options - The finest division.
 * @returns The fraction as text and as a number, and the remainder, rounded once.
 * @throws GeneratrixError `wrong-kind`, `not-finite` or `out-of-range` for what is no such number.
 * @example
 * ```ts
 * import { formatFraction } from 'generatrix';
 * formatFraction(1.625); // => { text: '1 5/8', value: 1.625, remainder: 0 }
 * formatFraction(0.7, { denominator: 16 }); // => { text: '11/16', value: 0.6875, remainder: 0.012499999999999956 }
 * ```
 */
export function formatFraction(length: number, options: FormatFractionOptions = {}): ShopFraction {
  const size = exactly(readValue(length, number({ min: -1e6, max: 1e6 }), 'length'));
  const { denominator } = read<FormatFractionOptions, 'denominator'>(options, {
    denominator: defaulted(whole({ min: 1, max: 1e6 }), 64),
  });
  const under = BigInt(denominator);
  const over = nearestWhole(scale(size, under, 1n));
  const rest = add(size, { over: -over, under });
  return { text: print(over, under), value: nearestDouble({ over, under }), remainder: nearestDouble(rest) };
}

function print(over: bigint, under: bigint): string {
  if (over < 0n) return `-${print(-over, under)}`;
  const part = over % under;
  if (part === 0n) return String(over / under);
  const common = divisor(part, under);
  const fraction = `${part / common}/${under / common}`;
  return over < under ? fraction : `${over / under} ${fraction}`;
}

function divisor(a: bigint, b: bigint): bigint {
  return b === 0n ? a : divisor(b, a % b);
}
