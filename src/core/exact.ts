/**
 * Decimal results that are correct in every digit asked for. A value is computed with more and more
 * digits until its rounding is certain (A. Ziv, Fast evaluation of elementary mathematical functions
 * with correctly rounded last bit, ACM TOMS 17 (1991), 410-423). That ends for irrational values only:
 * a value that may be a fraction belongs in {@link roundedQuotient}, which rounds once.
 *
 * Ties go to the even digit (ISO 80000-1, annex B, rule A, from memory). Every call works on clones of
 * its own: the settings of decimal.js stay untouched, and have no say.
 */
import { Decimal } from 'decimal.js';
import { type Allowed, type ErrorCode, refuse } from './errors.js';
import { type Limits, type Reader, whole } from './read.js';

/** Most digits that a result may be asked for. */
const MOST_DIGITS = 200;

/** Longest decimal text read, and the largest power of ten in it: enough for any size, harmless if hostile. */
const LONGEST = 200;
const LARGEST_POWER = 99;

/** Where the search for certainty gives up; decimal.js knows pi to 1025 digits. */
const MOST_PRECISION = 1000;

/** decimal.js with a precision of its own. */
function decimals(precision: number): typeof Decimal {
  return Decimal.clone({ defaults: true, precision, rounding: Decimal.ROUND_HALF_EVEN });
}

/** For sums and products of what {@link decimal} reads: these are exact within this many digits. */
export function exactly(): typeof Decimal {
  return decimals(4 * (LONGEST + LARGEST_POWER));
}

/** Reads decimal text such as "0.6", ".25", "-1.5" or "6.02e-5", within limits. */
export function decimal({ min = -Infinity, above = -Infinity, below = Infinity }: Limits = {}): Reader<Decimal> {
  const ends = [
    min === -Infinity ? '' : `, at least ${min}`,
    above === -Infinity ? '' : `, greater than ${above}`,
    below === Infinity ? '' : `, less than ${below}`,
  ];
  const allowed: Allowed = {
    kind: 'text',
    most: LONGEST,
    phrase: `must be a decimal number as text, such as "0.6"${ends.join('')}`,
  };
  return {
    allowed,
    read: (given, { faults }) => {
      const wrong = (code: ErrorCode, phrase = allowed.phrase): Decimal => {
        faults.push({ code, path: '', value: given, allowed: { ...allowed, phrase } });
        return new Decimal(0);
      };
      if (typeof given !== 'string') return wrong('wrong-kind');
      if (given.length > LONGEST) return wrong('out-of-range', `must be text of at most ${LONGEST} characters`);
      const parts = /^[+-]?(?:\d+\.?\d*|\.\d+)(?:e([+-]?\d+))?$/i.exec(given);
      if (!parts) return wrong('unreadable');
      if (Math.abs(Number(parts[1] ?? 0)) > LARGEST_POWER) {
        return wrong('out-of-range', `must have a power of ten of at most ${LARGEST_POWER}`);
      }
      const value = new (exactly())(given);
      const within = value.greaterThanOrEqualTo(min) && value.greaterThan(above) && value.lessThan(below);
      return within ? value : wrong('out-of-range');
    },
  };
}

/** Reads how many digits a result shall have. */
export const digitCount: Reader<number> = whole({ min: 1, max: MOST_DIGITS });

/** a / b, rounded once. */
export function roundedQuotient(a: Decimal, b: Decimal, digits: number): Decimal {
  return decimals(digits).div(a, b);
}

/**
 * An irrational value, rounded once. `compute` receives decimal.js with a certain precision and must
 * return the value to all but the last eight digits of it.
 */
export function roundedIrrational(compute: (D: typeof Decimal) => Decimal, digits: number): Decimal {
  for (let precision = digits + 16; precision <= MOST_PRECISION; precision *= 2) {
    const value = compute(decimals(precision));
    const doubt = value.abs().times(`1e${8 - precision}`);
    const [low, high] = [value.minus(doubt), value.plus(doubt)].map((end) => end.toSignificantDigits(digits));
    if (low && high?.equals(low)) return low;
  }
  return refuse('not-converged', 'digits', digits, 'must be fewer: the value lies too near a rounding boundary');
}
