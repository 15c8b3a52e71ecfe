/** The order of work, its limits and cautions as data; each sentence is made from its values, in one table a folder. */
import type { Sentences } from '../core/words.js';
import { type Action, isAction } from './actions.js';

/** What a step is for. */
export type StepKind = 'prepare' | 'set' | 'check' | 'trial-cut' | 'measure' | 'correct' | 'finish';

/** One step of the work. */
export interface Step<Code extends string = string> {
  /** What it is for. */
  readonly kind: StepKind;
  /** Stable code, for programs: `tool-height`, `indicator`, `touch-off`, … */
  readonly code: Code;
  /** What to do, in sentences. */
  readonly text: string;
  /** What to do, as data, one after the other; the text is made of it. */
  readonly actions: readonly Action[];
  /** Further numbers that the text speaks of, not rounded; angles end in `Deg`. */
  readonly values: Readonly<Record<string, number>>;
  /** Function of the library that gives these numbers, and others when something else was measured. */
  readonly uses?: string;
  /** Positions one after the other, where the work has many. */
  readonly table?: StepTable;
}

/** Positions one after the other. */
export interface StepTable {
  /** What the columns hold. */
  readonly columns: readonly string[];
  /** The positions, in the order of work. */
  readonly rows: readonly (readonly number[])[];
  /** Limit within which they are held, for the number of digits; 0 where there is none. */
  readonly limit: number;
}

/** One caution. */
export interface Caution<Code extends string = string> {
  /** Stable code, for programs: `guards`, `driver-dog`, `ball-heat`, … */
  readonly code: Code;
  /** What can happen, and what to do. */
  readonly message: string;
  /** Codes of the steps beside which it stands on a sheet, the first that there is; at the end if left out. */
  readonly beside?: readonly string[];
}

/** A sentence of a table from its values. */
export function sentence<T extends Sentences, C extends keyof T & string>(
  sentences: T,
  code: C,
  values: Parameters<T[C]>[0],
): string {
  return (sentences[code] as (given: unknown) => string)(values);
}

/** A step of a table of sentences; of the values that its sentence takes it keeps the actions and the numbers. */
export function step<T extends Sentences, C extends keyof T & string>(
  sentences: T,
  kind: StepKind,
  code: C,
  values: Parameters<T[C]>[0],
  more: Pick<Step, 'uses' | 'table'> = {},
): Step<C> {
  const given = Object.entries(values as Readonly<Record<string, unknown>>);
  const numbers = given.filter((entry): entry is [string, number] => typeof entry[1] === 'number');
  return {
    kind,
    code,
    text: sentence(sentences, code, values),
    actions: given.flatMap(([, value]) => value).filter(isAction),
    values: Object.fromEntries(numbers),
    ...more,
  };
}

/** A value rounded up to two significant digits: an allowance, a clearance. */
export function roundedUp(value: number): number {
  if (!(value > 0)) return 0;
  const unit = 10 ** (Math.floor(Math.log10(value)) - 1);
  return Number((Math.ceil(value / unit - 1e-9) * unit).toPrecision(2));
}

/** The largest of 1, 1.5, 2, 2.5, … 9.5 times a power of ten that a length holds. */
export function roundBelow(length: number): number {
  const step = 10 ** Math.floor(Math.log10(length) + 1e-9) / 2;
  return Number((Math.floor(length / step + 1e-9) * step).toPrecision(2));
}
