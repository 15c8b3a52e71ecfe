/**
 * Numbers as a person at the machine wants them: a value no finer than the second significant digit of
 * its own limit, a reading in the decimals of its graduation, a length of unknown limit in six digits.
 */

/** Number of digits that says all that can be set or read. */
const DIGITS = 6;

/** A value whose limit is known, down to the limit's second significant digit. */
export function told(value: number, limit: number): string {
  if (!(limit > 0)) return plain(value);
  return fixed(value, Math.min(15, Math.max(0, 1 - Math.floor(Math.log10(limit) + 1e-9))));
}

/** A limit in two significant digits, with the sign that says it holds either way. */
export function within(limit: number): string {
  return `± ${told(limit, limit)}`;
}

/** A reading on a scale: in the decimals of its graduation, or else as its limit allows. */
export function reading(value: number, step: number | undefined, limit: number): string {
  const [, decimals] = /^\d+(?:\.(\d+))?$/.exec(String(step)) ?? [];
  if (step === undefined || (decimals ?? '').length > DIGITS || String(step).includes('e')) return told(value, limit);
  return fixed(value, (decimals ?? '').length);
}

/** A value without a limit of its own. */
export function plain(value: number): string {
  return String(Number(value.toPrecision(DIGITS)) + 0);
}

/** A value rounded up to two significant digits: an allowance, a clearance. */
export function roundedUp(value: number): number {
  if (!(value > 0)) return 0;
  const unit = 10 ** (Math.floor(Math.log10(value)) - 1);
  return Number((Math.ceil(value / unit - 1e-9) * unit).toPrecision(2));
}

function fixed(value: number, decimals: number): string {
  const text = value.toFixed(decimals);
  return Number(text) === 0 ? text.replace('-', '') : text;
}
