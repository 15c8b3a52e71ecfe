/**
 * Arithmetic of 260 decimals on integers, sharing nothing with the library or with decimal.js: Taylor's
 * series for sine and cosine, Machin's formula for pi, Euler's halving and Taylor's series for the arctangent.
 */
const DECIMALS = 260;
const ONE = 10n ** BigInt(DECIMALS);

/** A fraction of integers. */
export interface Fraction {
  readonly over: bigint;
  readonly under: bigint;
}

/** Decimal text without a power of ten, exactly. */
export function fraction(text: string): Fraction {
  const [whole = '', decimals = ''] = text.split('.');
  return { over: BigInt(whole + decimals), under: 10n ** BigInt(decimals.length) };
}

const fixed = ({ over, under }: Fraction): bigint => (over * ONE) / under;
const times = (a: bigint, b: bigint): bigint => (a * b) / ONE;

function root(value: bigint): bigint {
  const target = value * ONE;
  let x = BigInt(Math.floor(Math.sqrt(Number(value / 10n ** BigInt(DECIMALS - 20))))) * 10n ** BigInt(DECIMALS - 10);
  for (let i = 0; i < 12; i++) x = (x + target / x) / 2n;
  return x;
}

/** Arctangent of a fixed-point number of 0...1. */
function arctangent(x: bigint): bigint {
  let small = x;
  for (let i = 0; i < 8; i++) small = (small * ONE) / (ONE + root(ONE + times(small, small)));
  const square = times(small, small);
  let [sum, power] = [0n, small];
  for (let k = 1n; power !== 0n; k += 4n) {
    sum += power / k;
    power = times(power, square);
    sum -= power / (k + 2n);
    power = times(power, square);
  }
  return sum * 256n;
}

/** Arctangent of 1/n for a whole n. */
function ofReciprocal(n: bigint): bigint {
  let [sum, power] = [0n, ONE / n];
  for (let k = 1n; power !== 0n; k += 4n) {
    sum += power / k;
    power /= n * n;
    sum -= power / (k + 2n);
    power /= n * n;
  }
  return sum;
}

const PI = 16n * ofReciprocal(5n) - 4n * ofReciprocal(239n);

/** The tangent of an angle in degrees of 0...90. */
export function tangentDeg(angle: Fraction): Fraction {
  const x = times(fixed(angle), PI) / 180n;
  let [sine, cosine, term] = [0n, 0n, ONE];
  for (let k = 1n; term !== 0n; k += 2n) {
    cosine += term;
    term = times(term, x) / k;
    sine += term;
    term = -times(term, x) / (k + 1n);
  }
  return { over: sine, under: cosine };
}

/** The angle in degrees of a tangent. */
export function arctangentDeg({ over, under }: Fraction): Fraction {
  const acute = over <= under ? arctangent((over * ONE) / under) : PI / 2n - arctangent((under * ONE) / over);
  return { over: acute * 180n, under: PI };
}

/** A fraction as plain decimal text of so many significant digits, ties to even, no zeros at the end. */
export function decimalText({ over, under }: Fraction, digits: number): string {
  let shift = digits + under.toString().length - over.toString().length + 1;
  const scaled = (): { quotient: bigint; rest: bigint; divisor: bigint } => {
    const top = shift >= 0 ? over * 10n ** BigInt(shift) : over;
    const divisor = shift >= 0 ? under : under * 10n ** BigInt(-shift);
    return { quotient: top / divisor, rest: top % divisor, divisor };
  };
  while (scaled().quotient.toString().length > digits) shift--;
  const { quotient, rest, divisor } = scaled();
  const up = 2n * rest > divisor || (2n * rest === divisor && quotient % 2n === 1n);
  const rounded = (quotient + (up ? 1n : 0n)).toString();
  if (shift <= 0) return rounded + '0'.repeat(-shift);
  const padded = rounded.padStart(shift + 1, '0');
  return `${padded.slice(0, -shift)}.${padded.slice(-shift)}`.replace(/\.?0+$/, '');
}
