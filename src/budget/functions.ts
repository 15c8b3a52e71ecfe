/**
 * What a call of this room is about: a function and what is known of its inputs, typed by each other, so that an
 * input that is misspelt or left out does not compile.
 */
import { refuse } from '../core/errors.js';
import {
  callable,
  choice,
  either,
  object,
  optional,
  type Reader,
  readValue,
  record,
  simple,
  text,
} from '../core/read.js';
import { type Input, input } from './inputs.js';
import { type NamedInput, readInput } from './known.js';
import type { Model, Quantity } from './model.js';

/** What a budget can be made of: a model, or any pure function of named numbers. */
export type BudgetFunction<Name extends string = string, ErrorName extends string = never> =
  | Model<Name, ErrorName>
  | ((inputs: Readonly<Record<Name | ErrorName, number>>) => number);

/** What is known of each input, by name. Errors may be left out, and are then 0, known exactly. */
export type Inputs<Name extends string = string, ErrorName extends string = never> = Readonly<Record<Name, Input>> &
  Readonly<Partial<Record<ErrorName, Input>>>;

/** A value for each of some inputs, by name. */
export type ByInput<Name extends string, T> = Readonly<Partial<Record<NoInfer<Name>, T>>>;

/** Most inputs of a function that is not a model. */
const MOST_INPUTS = 300;

const yes: Reader<true> = simple({ kind: 'flag', phrase: 'must be true, or left out' }, (value) => {
  if (typeof value !== 'boolean') return 'wrong-kind';
  return !value && 'out-of-range';
});
/** Reads a kind of unit. */
export const quantityKind: Reader<Quantity['kind']> = choice('length', 'angleDeg', 'ratio', 'temperature', 'number');

const QUANTITY = object<Quantity>({
  kind: quantityKind,
  meaning: text(),
  isError: optional(yes),
});

/** Reads a model. */
export const wholeModel: Reader<Model> = object<Model>({
  name: text(),
  result: QUANTITY,
  inputs: record(QUANTITY),
  evaluate: callable(),
});

/** Reads a model or a function. */
export const budgetFunction: Reader<BudgetFunction> = either(
  (given) => typeof given === 'object' && given !== null && 'evaluate' in given,
  wholeModel,
  callable<(inputs: Readonly<Record<string, number>>) => number>(),
  { kind: 'function', phrase: 'must be a model or a function of named numbers' },
);

/** An object of values by name, without those that are undefined; refuses names that are not among the known ones. */
function entries(
  given: unknown,
  names: readonly string[] | null,
  parameter: string,
): readonly (readonly [string, unknown])[] {
  if (typeof given !== 'object' || given === null || Array.isArray(given)) {
    return refuse('wrong-kind', parameter, given, { kind: 'object', phrase: 'must be an object of values by name' });
  }
  const found = Object.entries(given).filter(([, value]) => value !== undefined);
  const stray = names && found.find(([name]) => !names.includes(name))?.[0];
  if (stray === null || stray === undefined) return found;
  return refuse('unknown-option', under(parameter, stray), stray, {
    kind: 'object',
    keys: names ?? [],
    phrase: `is not one of ${names?.join(', ')}`,
  });
}

/** A path one step down; the argument itself has none. */
const under = (parameter: string, name: string): string => (parameter === '' ? name : `${parameter}.${name}`);

/** Reads values by name; `null` for names that the caller is free to choose. */
export function readByName<T>(
  given: unknown,
  item: Reader<T>,
  names: readonly string[] | null,
  parameter: string,
): ReadonlyMap<string, T> {
  return new Map(
    entries(given, names, parameter).map(([name, value]) => [name, readValue(value, item, under(parameter, name))]),
  );
}

/** Reads the inputs of a function, in the order given; for a model exactly its own, errors that are left out last. */
export function readInputs(f: BudgetFunction | null, given: unknown, parameter = 'inputs'): readonly NamedInput[] {
  const names = f && typeof f !== 'function' ? Object.keys(f.inputs) : null;
  const stated = new Map(entries(given, names, parameter));
  for (const name of names ?? []) {
    if (stated.has(name)) continue;
    if (quantityOf(f, name)?.isError) stated.set(name, 0);
    else refuse('missing-option', `${parameter}.${name}`, undefined, { ...input.allowed, phrase: 'must be given' });
  }
  if (stated.size === 0) refuse('missing-option', parameter, given, 'must hold at least one input');
  if (typeof f === 'function' && stated.size > MOST_INPUTS) {
    const allowed = `must hold at most ${MOST_INPUTS} inputs for a function that is not a model`;
    refuse('out-of-range', parameter, stated.size, { kind: 'object', most: MOST_INPUTS, phrase: allowed });
  }
  return [...stated].map(([name, one]) => ({ name, ...readInput(one, `${parameter}.${name}`) }));
}

/** What an input of a model is; nothing is known of those of any other function. */
export function quantityOf(f: BudgetFunction | null, name: string): Quantity | undefined {
  return f && typeof f !== 'function' && Object.hasOwn(f.inputs, name) ? f.inputs[name] : undefined;
}

/** One value for each input, by its name, as functions take them. */
export function byName<I extends { readonly name: string }, T>(
  inputs: readonly I[],
  value: (input: I, i: number) => T,
): Record<string, T> {
  return Object.fromEntries(inputs.map((input, i) => [input.name, value(input, i)]));
}
