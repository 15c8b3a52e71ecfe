/** What a sheet holds, however it is written. */
import type { Step } from '../method/steps.js';

/** A drawing for a sheet. */
export interface SheetFigure {
  /** What it shows. */
  readonly title: string;
  /** An `svg` element as text, as this library drew it. */
  readonly svg: string;
}

/** A line for a reading that a person takes and writes down. */
export interface SheetBlank {
  /** What is read. */
  readonly what: string;
  /** What passes; empty where the step tells it in words. */
  readonly passes: string;
  /** What to do if it does not. */
  readonly otherwise: string;
}

/** A step with its blanks and what can come to harm by it. */
export interface SheetStep extends Pick<Step, 'kind' | 'text' | 'table'> {
  readonly blanks: readonly SheetBlank[];
  readonly cautions: readonly string[];
}

/** What stands on a sheet, before it is written; texts are not yet escaped. */
export interface SheetContent {
  readonly title: string;
  readonly facts: readonly (readonly [name: string, value: string])[];
  /** What is set, in short, and what to know about it. */
  readonly settings: readonly string[];
  readonly steps: readonly SheetStep[];
  readonly expected: { readonly columns: readonly string[]; readonly rows: readonly (readonly string[])[] };
  /** The cautions that stand beside no step. */
  readonly cautions: readonly string[];
  readonly assumed: readonly string[];
  readonly figures: readonly SheetFigure[];
}
