/**
 * Judging a double against arithmetic of 60 digits. The numbers that enter are the doubles' exact
 * values: `new Decimal(0.1)` would be a tenth, while the double is a little more.
 */
import { Decimal } from 'decimal.js';

export const Exact: typeof Decimal = Decimal.clone({ precision: 60, defaults: true });

export const PI: Decimal = Exact.acos(-1);

/** The exact value of a double. */
export function exact(x: number): Decimal {
  if (!Number.isFinite(x)) throw new RangeError(`${x} has no exact value`);
  let scaled = x;
  let shift = 0;
  for (; !Number.isInteger(scaled); shift++) scaled *= 2;
  return new Exact(BigInt(scaled).toString()).div(Exact.pow(2, shift));
}

/** Distance of a double from the true value, in units in the last place of the true value. */
export function ulpsOff(got: number, truth: Decimal): number {
  const nearest = Math.abs(truth.toNumber());
  const bits = new BigUint64Array(new Float64Array([nearest]).buffer);
  bits[0] = (bits[0] ?? 0n) + 1n;
  const [next = 0] = new Float64Array(bits.buffer);
  return exact(got)
    .minus(truth)
    .abs()
    .div(exact(next - nearest))
    .toNumber();
}
