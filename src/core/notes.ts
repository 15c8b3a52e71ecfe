/**
 * What a caller should know but did not ask: a rounding on a dial, a shop rule that would have been
 * off, a tilt near its limit. Always data, never a printed warning.
 */

/** One remark in a result. */
export interface Note {
  /** Stable code, for programs: `dial-rounded`, `rule-differs`, … */
  readonly code: string;
  /** One sentence, for people. */
  readonly message: string;
  /** The numbers that the sentence speaks of, by name. */
  readonly values: Readonly<Record<string, number>>;
}

/** A number for a sentence: six digits say enough there, and `values` holds them all. */
export function inWords(value: number): string {
  return String(Number(value.toPrecision(6)));
}
