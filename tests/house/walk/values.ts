/** Plain values: copying, freezing, looking below. */
import { GeneratrixError } from 'generatrix';
import type { Kind } from './shapes.js';

export type Path = readonly (string | number)[];

export const isPlainObject = (value: unknown): value is Record<string, unknown> =>
  typeof value === 'object' &&
  value !== null &&
  [Object.prototype, null].includes(Object.getPrototypeOf(value) as object | null);

export const kindOf = (value: unknown): Kind | 'other' => {
  if (value === null) return 'null';
  if (Array.isArray(value)) return 'array';
  const kind = typeof value;
  return kind === 'undefined' || kind === 'symbol' || kind === 'bigint' ? 'other' : kind;
};

/** A copy of plain objects and arrays; all else stays what it is. */
export function copy<T>(value: T): T {
  if (Array.isArray(value)) return value.map(copy) as T;
  if (!isPlainObject(value)) return value;
  return Object.fromEntries(Object.entries(value).map(([key, part]) => [key, copy(part)])) as T;
}

/** Frozen through and through, so that whoever changes it is told. */
export function frozen<T>(value: T): T {
  if ((Array.isArray(value) || isPlainObject(value)) && !Object.isFrozen(value)) {
    Object.values(value).forEach(frozen);
    Object.freeze(value);
  }
  return value;
}

/** A copy with one place changed; `undefined` removes a key. */
export function withPlace(value: unknown, [step, ...rest]: Path, place: unknown): unknown {
  if (step === undefined) return place;
  const next = withPlace((value as Record<string | number, unknown>)[step], rest, place);
  if (Array.isArray(value)) return value.map((item, i) => (i === step ? next : item));
  const { [step]: _, ...others } = value as Record<string | number, unknown>;
  return next === undefined && rest.length === 0 ? others : { ...(value as object), [step]: next };
}

/** A path as errors tell it. */
export const told = (path: Path): string =>
  path.map((step, i) => (typeof step === 'number' ? `[${step}]` : i === 0 ? step : `.${step}`)).join('');

/** What is wrong with a result: a number that is none, -0, words that tell of one, objects that JSON does not keep. */
export function unsound(value: unknown, path: Path = []): string | undefined {
  if (typeof value === 'number') {
    return Number.isFinite(value) && !Object.is(value, -0)
      ? undefined
      : `${told(path)} is ${Object.is(value, -0) ? '-0' : value}`;
  }
  if (typeof value === 'string') {
    return /\b(?:NaN|Infinity|undefined)\b|\[object|(?<!\w)[-−]0(?:\.0+)?(?= (?:mm|in)\b|<|$)/.test(value)
      ? `${told(path)} says ${value.slice(0, 200)}`
      : undefined;
  }
  // All that is wrong with a job is told as a list of errors.
  if (value instanceof GeneratrixError) return undefined;
  if (typeof value !== 'object' || value === null || ArrayBuffer.isView(value)) return undefined;
  if (!Array.isArray(value) && !isPlainObject(value)) return `${told(path)} is no plain object`;
  for (const [key, part] of Object.entries(value)) {
    const found = unsound(part, [...path, Array.isArray(value) ? Number(key) : key]);
    if (found) return found;
  }
  return undefined;
}
