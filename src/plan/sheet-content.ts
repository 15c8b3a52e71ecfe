/** What a sheet holds, however it is written. */
import type { Caution } from './cautions.js';
import type { WorkStep } from './steps.js';

/** A drawing for a sheet. */
export interface SheetFigure {
  /** What it shows. */
  readonly title: string;
  /** An `svg` element as text, as this library drew it. */
  readonly svg: string;
}

/** What stands on a sheet, before it is written; texts are not yet escaped. */
export interface SheetContent {
  readonly title: string;
  readonly facts: readonly (readonly [name: string, value: string])[];
  /** What is set, in short, and what to know about it. */
  readonly settings: readonly string[];
  readonly steps: readonly Pick<WorkStep, 'kind' | 'code' | 'text' | 'actions' | 'values' | 'table'>[];
  readonly expected: { readonly columns: readonly string[]; readonly rows: readonly (readonly string[])[] };
  readonly cautions: readonly Caution[];
  readonly assumed: readonly string[];
  readonly figures: readonly SheetFigure[];
}
