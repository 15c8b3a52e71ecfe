/**
 * The inputs of a model at a setting: what was set, and the limit of each error source that acts on it. A source
 * acts on a model that has an input of its name, or of a name that the method says stands for it.
 */
import type { Quantity } from '../budget/model.js';
import type { Limited } from './expect.js';
import { isSource, type SourceErrors, type SourceLimits, type SourceName } from './sources.js';

/** A model of whatever inputs, some of which may be errors. */
export interface AnyModel<Input extends string> {
  readonly name: string;
  readonly result: Quantity;
  readonly inputs: Readonly<Record<Input, Quantity>>;
  readonly evaluate: (arithmetic: never, inputs: never) => unknown;
}

/** Which source an input stands for, where the names differ. */
export type StandsFor<Input extends string> = { readonly [K in Input]?: SourceName };

/** The error sources that act on a model. */
export function sourcesOf<I extends string>(model: AnyModel<I>, standsFor: StandsFor<I> = {}): readonly SourceName[] {
  return Object.keys(model.inputs).flatMap((input) => sourceOf(input, standsFor) ?? []);
}

/** The inputs at a setting with their limits; an input without a value is an error, and 0. */
export function withLimits<I extends string>(
  model: AnyModel<I>,
  values: { readonly [K in I]?: number },
  setting: SourceLimits,
  standsFor: StandsFor<I> = {},
): Limited<I> {
  const inputs: Record<string, Limited[string]> = {};
  for (const input of Object.keys(model.inputs) as I[]) {
    const source = sourceOf(input, standsFor);
    inputs[input] = { value: values[input] ?? 0, plusMinus: source === undefined ? 0 : setting[source] };
  }
  return inputs as Limited<I>;
}

/** Errors by source as errors by input: a surface takes them under the names of its model. */
export function withErrors<I extends string>(
  model: AnyModel<I>,
  errors: SourceErrors,
  standsFor: StandsFor<I> = {},
): { readonly [K in I]?: number } {
  const found: { [K in I]?: number } = {};
  for (const input of Object.keys(model.inputs) as I[]) {
    const source = sourceOf(input, standsFor);
    const error = source === undefined ? undefined : errors[source];
    if (error !== undefined) found[input] = error;
  }
  return found;
}

function sourceOf(input: string, standsFor: StandsFor<string>): SourceName | undefined {
  if (Object.hasOwn(standsFor, input)) return standsFor[input];
  // An input named like a source that another stands for is what was set: its error must not count twice.
  return isSource(input) && !Object.values(standsFor).includes(input) ? input : undefined;
}
