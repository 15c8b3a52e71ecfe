/** Numbers out of results of other rooms: results come back from JSON too, so each number is checked. */
import { type Limits, number } from '../core/checks.js';
import { refuse } from '../core/errors.js';

/** A number that a result must hold. */
export function field(result: unknown, parameter: string, name: string, limits: Limits = {}): number {
  return number(record(result, parameter)[name], `${parameter}.${name}`, limits);
}

/** An object, whatever it holds: a result has more keys than a figure draws. */
export function record(value: unknown, parameter: string): Readonly<Record<string, unknown>> {
  if (typeof value !== 'object' || value === null || Array.isArray(value)) {
    return refuse('wrong-kind', parameter, value, 'must be a result of the library');
  }
  return value as Readonly<Record<string, unknown>>;
}
