/** Fractions of whole numbers, for text and graduations that must be read exactly and rounded to a double once. */

/** The number over / under; under > 0. */
export interface Rational {
  readonly over: bigint;
  readonly under: bigint;
}

/** The figures of a decimal number without sign or power, such as 0.6235, .250 or 41,3. */
export function readFigures(figures: string): Rational {
  const [whole = '', decimals = ''] = figures.split(/[.,]/);
  return { over: BigInt(whole + decimals), under: 10n ** BigInt(decimals.length) };
}

/** Whether a comma may be no decimal mark, but part thousands: in 1,250, though not in 0,250 or 41,3. */
export function mayPartThousands(figures: string): boolean {
  return /^[1-9]\d{0,2},\d{3}$/.test(figures);
}

/** a + b. */
export function add(a: Rational, b: Rational): Rational {
  return { over: a.over * b.under + b.over * a.under, under: a.under * b.under };
}

/** a times over / under. */
export function scale(a: Rational, over: bigint, under: bigint): Rational {
  return { over: a.over * over, under: a.under * under };
}

/** The exact value of a finite double. */
export function exactly(value: number): Rational {
  let over = value;
  let under = 1n;
  for (; !Number.isInteger(over); under *= 2n) over *= 2;
  return { over: BigInt(over), under };
}

/** The decimal number that a double is written as: 1/10 for 0.1. */
export function decimally(value: number): Rational {
  const [figures = '', power = '0'] = String(Math.abs(value)).split('e');
  const { over, under } = readFigures(figures);
  const sign = value < 0 ? -1n : 1n;
  const shift = 10n ** BigInt(Math.abs(Number(power)));
  return Number(power) < 0 ? { over: sign * over, under: under * shift } : { over: sign * over * shift, under };
}

/** The nearest whole number; halves go to the even one. */
export function nearestWhole({ over, under }: Rational): bigint {
  if (over < 0n) return -nearestWhole({ over: -over, under });
  const whole = over / under;
  const twice = 2n * (over % under);
  return twice > under || (twice === under && whole % 2n === 1n) ? whole + 1n : whole;
}

/** The nearest double; below 1e-307 it may be one step off. */
export function nearestDouble({ over, under }: Rational): number {
  if (over < 0n) return 0 - nearestDouble({ over: -over, under });
  // At least 64 bits of quotient, and one more that says whether anything is left: Number() then rounds once.
  const shift = Math.max(0, 64 + under.toString(2).length - over.toString(2).length);
  const top = over << BigInt(shift);
  const sticky = top % under === 0n ? 0n : 1n;
  const power = Math.min(shift + 1, 1000); // 2 ** 1138, for the smallest doubles, would overflow
  return Number((top / under) * 2n + sticky) / 2 ** power / 2 ** (shift + 1 - power);
}
