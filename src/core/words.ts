/**
 * Sentences that a person reads. No number gets into one but through {@link tell}, which knows its unit and how
 * finely it can be set or read; {@link say} takes words only, so that a bare number does not compile. The
 * sentences of a room or a method stand in one table, by code: another language is one more table.
 */

/** How a number is told. */
export interface Telling {
  /** Its unit, as it is written after a number: `mm`, `in`, `°`. */
  readonly unit?: string;
  /** Its limit, plus or minus: told to the second significant digit of that. */
  readonly limit?: number;
  /** One graduation of the scale that it is set on: told in the decimals of that. */
  readonly step?: number | undefined;
}

/** Digits that say all that can be set or read, where nothing is known of either. */
const DIGITS = 6;

/** Decimals that a shop sets or reads at most, by unit: common practice, no source; two digits are always told. */
const FINEST: Readonly<Record<string, number>> = { mm: 3, in: 4, '°': 4 };

/** A number for a sentence, with its unit. */
export function tell(value: number, { unit = '', limit = 0, step }: Telling = {}): string {
  const figures = byStep(value, step) ?? (limit > 0 ? fixed(value, placesOf(limit)) : shortest(value, FINEST[unit]));
  return `${figures}${/^[°′″%]?$/.test(unit) ? '' : ' '}${unit}`;
}

/** A limit in two significant digits, with the sign that says it holds either way. */
export function plusMinus(limit: number, unit = ''): string {
  return `± ${tell(limit, { unit, limit })}`;
}

/** A sentence from words: numbers must have been told. */
export function say(words: TemplateStringsArray, ...told: readonly string[]): string {
  return words.reduce((sentence, word, i) => sentence + told[i - 1] + word);
}

/** A table of sentences by code, each from its values. */
export type Sentences = Readonly<Record<string, (values: never) => string>>;

/** A remark in a result: what the caller should know but did not ask. Always data, never a printed warning. */
export interface Note<Code extends string = string> {
  /** Stable code, for programs: `dial-rounded`, `rule-differs`, … */
  readonly code: Code;
  /** One sentence, for people. */
  readonly message: string;
  /** The numbers that the sentence speaks of, by name. */
  readonly values: Readonly<Record<string, number>>;
}

/** A note of a table of sentences; the values are those that its sentence takes. */
export function note<T extends Sentences, C extends keyof T & string>(
  sentences: T,
  code: C,
  values: Parameters<T[C]>[0],
): Note<C> {
  return { code, message: (sentences[code] as (given: unknown) => string)(values), values };
}

function byStep(value: number, step: number | undefined): string | undefined {
  const decimals = /^\d+(?:\.(\d+))?$/.exec(String(step));
  if (!decimals || (decimals[1] ?? '').length > DIGITS) return undefined;
  return fixed(value, (decimals[1] ?? '').length);
}

function placesOf(limit: number): number {
  return Math.min(15, Math.max(0, 1 - Math.floor(Math.log10(limit) + 1e-9)));
}

function shortest(value: number, decimals: number | undefined): string {
  const told = Number(value.toPrecision(DIGITS));
  const coarse = decimals !== undefined && Math.abs(told) >= 10 ** (2 - decimals);
  return String((coarse ? Number(told.toFixed(decimals)) : told) + 0);
}

function fixed(value: number, decimals: number): string {
  const text = value.toFixed(decimals);
  return Number(text) === 0 ? text.replace('-', '') : text;
}
