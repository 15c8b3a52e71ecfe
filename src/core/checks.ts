/**
 * Argument checks. Each returns the value it has checked, typed, or refuses it. They stand at the
 * public boundary only: kernels trust what reaches them.
 */
import { refuse } from './errors.js';

/** Limits of a number: `min` and `max` are allowed themselves, `above` and `below` are not. */
export interface Limits {
  /** Smallest value allowed. */
  readonly min?: number;
  /** Largest value allowed. */
  readonly max?: number;
  /** The value must be greater than this. */
  readonly above?: number;
  /** The value must be less than this. */
  readonly below?: number;
}

/** A finite number within limits. */
export function number(value: unknown, parameter: string, limits: Limits = {}): number {
  if (typeof value !== 'number') return refuse('wrong-kind', parameter, value, `must be a number${phrase(limits)}`);
  if (!Number.isFinite(value))
    return refuse('not-finite', parameter, value, `must be a finite number${phrase(limits)}`);
  const { min = -Infinity, max = Infinity, above = -Infinity, below = Infinity } = limits;
  if (value < min || value > max || value <= above || value >= below) {
    return refuse('out-of-range', parameter, value, `must be a number${phrase(limits)}`);
  }
  return value;
}

/** A number greater than zero: a length, a diameter. */
export function positive(value: unknown, parameter: string): number {
  return number(value, parameter, { above: 0 });
}

/** Zero or more: a distance that may vanish. */
export function nonNegative(value: unknown, parameter: string): number {
  return number(value, parameter, { min: 0 });
}

/** A whole number within limits. */
export function whole(value: unknown, parameter: string, limits: Limits = {}): number {
  const checked = number(value, parameter, limits);
  if (!Number.isInteger(checked))
    return refuse('out-of-range', parameter, value, `must be a whole number${phrase(limits)}`);
  return checked;
}

/** One of a fixed set of words. */
export function choice<T extends string>(value: unknown, parameter: string, allowed: readonly T[]): T {
  if (typeof value !== 'string') return refuse('wrong-kind', parameter, value, `must be one of ${allowed.join(', ')}`);
  const found = allowed.find((word) => word === value);
  return found ?? refuse('out-of-range', parameter, value, `must be one of ${allowed.join(', ')}`);
}

/** True or false. */
export function flag(value: unknown, parameter: string): boolean {
  return typeof value === 'boolean' ? value : refuse('wrong-kind', parameter, value, 'must be true or false');
}

/** Text of at most `longest` characters. */
export function text(value: unknown, parameter: string, longest = 200): string {
  if (typeof value !== 'string') return refuse('wrong-kind', parameter, value, 'must be text');
  if (value.length > longest) return refuse('out-of-range', parameter, value, `must be at most ${longest} characters`);
  return value;
}

/** An array of at least `least` items; the items are the caller's to check. */
export function list(value: unknown, parameter: string, least = 0): readonly unknown[] {
  if (!Array.isArray(value)) return refuse('wrong-kind', parameter, value, 'must be an array');
  if (value.length < least) return refuse('out-of-range', parameter, value, `must hold at least ${least} items`);
  return value;
}

/**
 * An options object with all `required` keys, perhaps `optional` ones, and no other. A key that is
 * present but undefined counts as absent.
 */
export function options(
  value: unknown,
  parameter: string,
  required: readonly string[],
  optional: readonly string[] = [],
): Readonly<Record<string, unknown>> {
  const known = [...required, ...optional];
  if (typeof value !== 'object' || value === null || Array.isArray(value)) {
    return refuse('wrong-kind', parameter, value, `must be an object with ${known.join(', ')}`);
  }
  for (const key of Object.keys(value)) {
    if (!known.includes(key)) {
      return refuse('unknown-option', `${parameter}.${key.slice(0, 60)}`, key, `is not one of ${known.join(', ')}`);
    }
  }
  const given = value as Readonly<Record<string, unknown>>;
  for (const key of required) {
    if (given[key] === undefined) return refuse('missing-option', `${parameter}.${key}`, undefined, 'must be given');
  }
  return given;
}

/** A computed result, refused if it left the range of floating-point numbers. */
export function representable(value: number, parameter: string): number {
  return Number.isFinite(value)
    ? value
    : refuse('not-representable', parameter, value, 'must lie within the range of floating-point numbers');
}

function phrase({ min, max, above, below }: Limits): string {
  const parts = [
    min === undefined ? '' : `at least ${min}`,
    above === undefined ? '' : `greater than ${above}`,
    max === undefined ? '' : `at most ${max}`,
    below === undefined ? '' : `less than ${below}`,
  ].filter((part) => part !== '');
  return parts.length === 0 ? '' : `, ${parts.join(' and ')}`;
}
