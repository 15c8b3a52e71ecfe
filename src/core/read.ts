/**
 * Reading what a caller gave. A reader of an options object is typed by the interface that it reads: a record
 * with exactly the keys of `T`, each a reader of `T[K]`, so that a key renamed, dropped or misspelt on either
 * side does not compile. It gives typed values with defaults filled in, and refuses unknown keys.
 *
 * Paths go from the caller's own argument, without a root word: `centreDistance`, `target.diameter`,
 * `lathes[0].topSlide.travel`; the argument itself is ''. They are made only when something is refused.
 * A key that is present but undefined counts as absent; only own properties count; -0 is read as 0.
 */
import { type Allowed, type ErrorCode, GeneratrixError, refuse } from './errors.js';

/** Limits of a number: `min` and `max` are allowed themselves, `above` and `below` are not. */
export type Limits = Pick<Allowed, 'min' | 'max' | 'above' | 'below'>;

/** One thing that is wrong, with its path from the reader that found it. */
interface Fault {
  readonly code: ErrorCode;
  readonly path: string;
  readonly value: unknown;
  readonly allowed: Allowed;
}

/** One run of reading: what was found wrong so far. */
export interface Reading {
  readonly faults: Fault[];
  /** Reading ends when so many faults are found. */
  readonly most: number;
  /** Turns text into a number where numbers may be written as text, as in a job file. */
  readonly parse?: (text: string) => number | undefined;
}

/** What all readers have; what `read` returns counts only if it added no fault. */
interface Reads<T> {
  readonly read: (value: unknown, reading: Reading) => T;
  /** What it takes, for a schema or a form. */
  readonly allowed: Allowed;
  /** Never set: makes the type invariant, so that a reader of fewer or more choices does not compile. */
  readonly like?: (value: T) => T;
}

/** Reads a value that must be there. */
export interface Reader<T> extends Reads<T> {
  readonly optional?: false;
}

/** Reads a key that may be left out. */
export interface Optional<T> extends Reads<T> {
  readonly optional: true;
  readonly fallback?: never;
}

/** Reads a key that may be left out, and then has a value of its own. */
export interface Defaulted<T> extends Reads<T> {
  readonly optional: true;
  readonly fallback: T;
}

/** A reader for each key of `T`; the keys `D` have defaults. */
export type Fields<T, D extends keyof T = never> = {
  readonly [K in keyof T]-?: K extends D
    ? Defaulted<Exclude<T[K], undefined>>
    : Record<never, never> extends Pick<T, K>
      ? Optional<Exclude<T[K], undefined>>
      : Reader<T[K]>;
};

/** What reading gives: `T` with the keys `D` filled in. */
export type Filled<T, D extends keyof T = never> = T & { readonly [K in D]-?: Exclude<T[K], undefined> };

/** An object of which only the keys are known. */
type Keyed = Readonly<Record<string, unknown>>;

/** Fields whose types do not matter while they are read. */
type AnyFields = Readonly<
  Record<string, Reads<unknown> & { readonly optional?: boolean; readonly fallback?: unknown }>
>;

/** Reads an options object, or throws the first thing that is wrong with it. */
export function read<T, D extends keyof T = never>(value: unknown, fields: Fields<T, D>): Filled<T, D> {
  const reading: Reading = { faults: [], most: 1 };
  return unlessFault(reading, '', readFields(value, reading, fields as unknown as AnyFields) as Filled<T, D>);
}

/** Reads a value, or throws the first thing that is wrong with it; `parameter` is its name in the call. */
export function readValue<T>(value: unknown, reader: Reader<T>, parameter = ''): T {
  const reading: Reading = { faults: [], most: 1 };
  return unlessFault(reading, parameter, reader.read(value, reading));
}

function unlessFault<T>({ faults }: Reading, parameter: string, found: T): T {
  const first = faults[0];
  return first ? refuse(first.code, joined(parameter, first.path), first.value, first.allowed) : found;
}

/** A value that was read, or everything that is wrong with it. */
export type ReadResult<T> =
  | { readonly value: T }
  | {
      /** What is wrong, in the order of the fields. */
      readonly errors: readonly GeneratrixError[];
    };

/** Reads a value, or gives all that is wrong with it, 100 faults at most. */
export function readAll<T>(value: unknown, reader: Reader<T>, parse?: Reading['parse']): ReadResult<T> {
  const reading: Reading = parse ? { faults: [], most: 100, parse } : { faults: [], most: 100 };
  const found = reader.read(value, reading);
  if (reading.faults.length === 0) return { value: found };
  return {
    errors: reading.faults.map(({ code, path, value: got, allowed }) => new GeneratrixError(code, path, got, allowed)),
  };
}

/** A key that may be left out. */
export function optional<T>(reader: Reader<T>): Optional<T> {
  return Object.assign(like(reader, reader.read), { optional: true as const });
}

/** A key that may be left out and then counts as `fallback`. */
export function defaulted<T>(reader: Reader<T>, fallback: T): Defaulted<T> {
  return Object.assign(like(reader, reader.read), { optional: true as const, fallback });
}

/** Takes what another reader takes, but reads it in its own way. What is allowed is put into words when it is asked. */
function like<T>(reader: { readonly allowed: Allowed }, read: Reads<T>['read']): Reads<T> {
  return {
    get allowed() {
      return reader.allowed;
    },
    read,
  };
}

/** A value, or null where null says something. */
export function nullable<T>(reader: Reader<T>): Reader<T | null> {
  return like(reader, (value, reading) => (value === null ? null : reader.read(value, reading))) as Reader<T | null>;
}

/** A finite number within limits. */
export function number(limits: Limits = {}): Reader<number> {
  const { min = -Infinity, max = Infinity, above = -Infinity, below = Infinity } = limits;
  const self: Reader<number> = {
    get allowed() {
      return { kind: 'number', ...limits, phrase: `must be a number${phrase(limits)}` } as const;
    },
    read: (given, reading) => {
      const value = typeof given === 'string' && reading.parse ? (reading.parse(given) ?? given) : given;
      if (typeof value !== 'number') return fault(reading, 'wrong-kind', given, self.allowed);
      if (!Number.isFinite(value)) {
        const finite = { ...self.allowed, phrase: `must be a finite number${phrase(limits)}` };
        return fault(reading, 'not-finite', given, finite);
      }
      if (value < min || value > max || value <= above || value >= below) {
        return fault(reading, 'out-of-range', given, self.allowed);
      }
      return value + 0;
    },
  };
  return self;
}

/** Any finite number. */
export const anyNumber: Reader<number> = number();
/** A number greater than zero: a length, a diameter. */
export const positive: Reader<number> = number({ above: 0 });
/** Zero or more: a distance that may vanish. */
export const nonNegative: Reader<number> = number({ min: 0 });

/** A whole number within limits. */
export function whole(limits: Limits = {}): Reader<number> {
  const { read } = number(limits);
  const self: Reader<number> = {
    get allowed() {
      return { kind: 'number', ...limits, whole: true, phrase: `must be a whole number${phrase(limits)}` } as const;
    },
    read: (value, reading) => {
      const found = read(value, reading);
      const broken = typeof found === 'number' && !Number.isInteger(found);
      return broken ? fault(reading, 'out-of-range', value, self.allowed) : found;
    },
  };
  return self;
}

/** A value of one kind, as it is: `wrong` tells what is wrong with it. */
export function simple<T>(allowed: Allowed, wrong: (value: unknown) => ErrorCode | false): Reader<T> {
  return {
    allowed,
    read: (value, reading) => {
      const code = wrong(value);
      return code ? fault(reading, code, value, allowed) : (value as T);
    },
  };
}

/** One of a fixed set of words. */
export function choice<const W extends readonly string[]>(...choices: W): Reader<W[number]> {
  const allowed: Allowed = { kind: 'choice', choices, phrase: `must be one of ${choices.join(', ')}` };
  return simple(allowed, (value) => {
    if (typeof value !== 'string') return 'wrong-kind';
    return !choices.includes(value) && 'out-of-range';
  });
}

/** True or false. */
export const flag: Reader<boolean> = simple(
  { kind: 'flag', phrase: 'must be true or false' },
  (value) => typeof value !== 'boolean' && 'wrong-kind',
);

/** Text of at most `most` characters. */
export function text(most = 200): Reader<string> {
  return simple({ kind: 'text', most, phrase: `must be text of at most ${most} characters` }, (value) => {
    if (typeof value !== 'string') return 'wrong-kind';
    return value.length > most && 'out-of-range';
  });
}

/** A function, such as a model of the caller's own. */
export function callable<F extends (...args: never[]) => unknown>(): Reader<F> {
  return simple(
    { kind: 'function', phrase: 'must be a function' },
    (value) => typeof value !== 'function' && 'wrong-kind',
  );
}

/** Takes anything as it comes: for what is read later, when more is known of it. */
export function later<T>(): Reader<T> {
  return simple({ kind: 'object', phrase: 'must be given' }, () => false);
}

/** By the first reader what it is for, by the second anything else. */
export function either<A, B>(
  isFirst: (value: unknown) => boolean,
  first: Reader<A>,
  second: Reader<B>,
  allowed: Allowed = second.allowed,
): Reader<A | B> {
  return { allowed, read: (value, reading) => (isFirst(value) ? first : second).read(value, reading) };
}

/** An array of `least` to `most` items; a hole in it is read as undefined, and so refused. */
export function array<T>(item: Reader<T>, least = 0, most = 1e7): Reader<readonly T[]> {
  const allowed: Allowed = { kind: 'array', least, most, phrase: `must be an array of ${counted(least, most)} items` };
  return {
    allowed,
    read: (value, reading) => {
      if (!Array.isArray(value)) return fault(reading, 'wrong-kind', value, allowed);
      if (value.length < least || value.length > most) return fault(reading, 'out-of-range', value, allowed);
      const found: T[] = [];
      for (let i = 0; i < value.length && reading.faults.length < reading.most; i++) {
        const before = reading.faults.length;
        found.push(item.read(value[i], reading));
        if (reading.faults.length > before) under(reading, before, `[${i}]`);
      }
      return found;
    },
  };
}

/** An object with exactly these fields. */
export function object<T, D extends keyof T = never>(fields: Fields<T, D>): Reader<T> {
  const known = fields as unknown as AnyFields;
  return {
    get allowed() {
      return objectOf(known);
    },
    read: (value, reading) => readFields(value, reading, known) as T,
  };
}

function objectOf(fields: AnyFields): Allowed {
  const keys = Object.keys(fields);
  return { kind: 'object', keys, phrase: `must be an object with ${keys.join(', ')}` };
}

/** The hot loop of all reading: nothing is built here unless something is refused. */
function readFields(given: unknown, reading: Reading, fields: AnyFields): unknown {
  if (!isObject(given)) return fault(reading, 'wrong-kind', given, objectOf(fields));
  const { faults, most } = reading;
  const first = faults.length;
  const found: Record<string, unknown> = {};
  let met = 0;
  for (const key in fields) {
    const field = fields[key] as AnyFields[string];
    const got = given[key];
    if (got !== undefined && Object.hasOwn(given, key)) {
      met++;
      const before = faults.length;
      found[key] = field.read(got, reading);
      if (faults.length > before) under(reading, before, key);
    } else if (!field.optional) missing(reading, key, field.allowed);
    else if (field.fallback !== undefined) found[key] = field.fallback;
    if (faults.length >= most) break;
  }
  const keys = Object.keys(given);
  if (keys.length > met) {
    // Keys that nobody knows come before what is wrong with the others.
    const strays = keys.filter((key) => given[key] !== undefined && !Object.hasOwn(fields, key));
    const others = faults.splice(first);
    for (const key of strays) unknown(reading, key, objectOf(fields));
    faults.push(...others);
    faults.length = Math.min(faults.length, most);
  }
  return found;
}

/** An object with any keys, each of them read alike, 10,000 at most. */
export function record<T>(item: Reader<T>): Reader<Readonly<Record<string, T>>> {
  const allowed: Allowed = { kind: 'object', most: 1e4, phrase: 'must be an object' };
  return {
    allowed,
    read: (value, reading) => {
      if (!isObject(value)) return fault(reading, 'wrong-kind', value, allowed);
      const entries = Object.entries(value);
      if (entries.length > 1e4) return fault(reading, 'out-of-range', value, allowed);
      return Object.fromEntries(
        entries.map(([key, got]) => {
          const before = reading.faults.length;
          const found = item.read(got, reading);
          if (reading.faults.length > before) under(reading, before, key);
          return [key, found];
        }),
      );
    },
  };
}

/** Reads of a result of the library the keys that are drawn, each checked; the rest may be as it likes. */
export function part<T>(fields: Fields<T>): Reader<T> {
  const exact = object(fields);
  const keys = Object.keys(fields);
  return like(exact, (value, reading) => {
    if (!isObject(value)) return exact.read(value, reading);
    const kept = keys.filter((key) => Object.hasOwn(value, key)).map((key) => [key, value[key]] as const);
    return exact.read(Object.fromEntries(kept), reading);
  }) as Reader<T>;
}

type KeyOf<U> = U extends unknown ? keyof U : never;
type ValueOf<U, K> = U extends unknown ? (K extends keyof U ? Exclude<U[K], undefined> : never) : never;

/** All keys of several objects, each of them as it may be given, before it is known which go together. */
export type AnyOf<U> = { readonly [K in KeyOf<U>]?: ValueOf<U, K> };

/**
 * One of several objects that differ in their keys: the first key with a branch that the value has says which.
 * `{ perFoot: { perFoot: positive }, … }`; a key that tells nothing, since several of them have it, is 'shared'.
 */
export function byKey<U>(
  branches: {
    readonly [K in KeyOf<U> & string]: Fields<Extract<U, Readonly<Record<K, unknown>>>> | 'shared';
  },
): Reader<U> {
  const all = Object.entries<AnyFields | 'shared'>(branches as never);
  const readers = all.flatMap(([key, fields]) => (fields === 'shared' ? [] : [[key, fields] as const]));
  const self: Reader<U> = {
    get allowed() {
      const keys = [...new Set(readers.flatMap(([, fields]) => Object.keys(fields)))];
      const phrase = `must be an object with one of ${readers.map(([key]) => key).join(', ')}`;
      return { kind: 'object', keys, phrase } as const;
    },
    read: (value, reading) => {
      if (!isObject(value)) return fault(reading, 'wrong-kind', value, self.allowed);
      const branch = readers.find(([key]) => Object.hasOwn(value, key) && value[key] !== undefined);
      if (branch) return readFields(value, reading, branch[1]) as U;
      const { allowed } = self;
      const stray = Object.keys(value).find((key) => !allowed.keys?.includes(key) && value[key] !== undefined);
      if (stray === undefined) return fault(reading, 'missing-option', value, allowed);
      return unknown(reading, stray, allowed);
    },
  };
  return self;
}

/** One of several objects, told apart by the word that stands in one of their keys. */
export function byTag<U, K extends keyof U & string>(
  tag: K,
  branches: {
    readonly [W in U[K] & string]:
      | Fields<Extract<U, Readonly<Record<K, W>>>>
      | Reader<Extract<U, Readonly<Record<K, W>>>>;
  },
): Reader<U> {
  const entries = Object.entries<Fields<U> | Reader<U>>(branches as never);
  const readers = new Map(
    entries.map(([word, branch]) => [word, isReader(branch) ? branch : object<U>(branch)] as const),
  );
  const words = choice(...readers.keys());
  const self: Reader<U> = {
    get allowed() {
      const keys = [...new Set([...readers.values()].flatMap(({ allowed }) => allowed.keys ?? []))];
      return { kind: 'object', keys, phrase: `must be an object with ${tag}` } as const;
    },
    read: (value, reading) => {
      if (!isObject(value)) return fault(reading, 'wrong-kind', value, self.allowed);
      const word = Object.hasOwn(value, tag) ? value[tag] : undefined;
      const reader = typeof word === 'string' ? readers.get(word) : undefined;
      if (reader) return reader.read(value, reading);
      if (word === undefined) missing(reading, tag, words.allowed);
      else {
        words.read(word, reading);
        under(reading, reading.faults.length - 1, tag);
      }
      return undefined as U;
    },
  };
  return self;
}

function isReader<U>(branch: Fields<U> | Reader<U>): branch is Reader<U> {
  return typeof (branch as Partial<Reader<U>>).read === 'function';
}

/** A value on which a function of ours has the last word: its refusals get the path to the value before theirs. */
export function vouched<T>(reader: Reader<T>, vouch: (value: T) => void): Reader<T> {
  return reduced(reader, (value) => {
    vouch(value);
    return value;
  });
}

/** As {@link vouched}, and what the function makes of the value is what is read. */
export function reduced<T, R>(reader: Reader<T>, reduce: (value: T) => R): Reader<R> {
  return like(reader, (value, reading) => {
    const before = reading.faults.length;
    const found = reader.read(value, reading);
    if (reading.faults.length > before) return undefined as R;
    try {
      return reduce(found);
    } catch (error) {
      if (!(error instanceof GeneratrixError)) throw error;
      const { code, parameter, value: got, allowed } = error;
      return fault(reading, code, got, allowed, parameter);
    }
  }) as Reader<R>;
}

/** Calls with a path before those of its refusals: what it reads stands there in the caller's own argument. */
export function below<T>(path: string, call: () => T): T {
  return statedAt((parameter) => joined(path, parameter), call);
}

/** Calls with the paths of its refusals changed to where the caller stated what it reads. */
export function statedAt<T>(own: (parameter: string) => string, call: () => T): T {
  try {
    return call();
  } catch (error) {
    if (!(error instanceof GeneratrixError)) throw error;
    return refuse(error.code, own(error.parameter), error.value, error.allowed);
  }
}

/** A computed result, refused if it left the range of floating-point numbers. */
export function representable(value: number, parameter: string): number {
  return Number.isFinite(value)
    ? value + 0
    : refuse('not-representable', parameter, value, 'must lead to a result within the range of floating-point numbers');
}

/**
 * A whole result, fresh from our own hands: refused if a number in it left the range of floating-point numbers,
 * and with each -0 in it made 0.
 */
export function sound<T>(result: T, parameter = ''): T {
  if (typeof result === 'number') return representable(result, parameter) as T;
  if (typeof result !== 'object' || result === null) return result;
  const parts = result as Record<string, unknown>;
  for (const key in parts) {
    const part = parts[key];
    if (typeof part === 'object') sound(part, parameter);
    else if (typeof part === 'number' && !(part - part === 0)) representable(part, parameter);
    else if (part === 0 && 1 / (part as number) < 0) parts[key] = 0;
  }
  return result;
}

function fault<T>({ faults }: Reading, code: ErrorCode, value: unknown, allowed: Allowed, path = ''): T {
  faults.push({ code, path, value, allowed });
  return undefined as T;
}

function unknown<T>(reading: Reading, key: string, allowed: Allowed): T {
  const phrase = `is not one of ${allowed.keys?.join(', ')}`;
  return fault(reading, 'unknown-option', key, { ...allowed, phrase }, key.slice(0, 60));
}

function missing(reading: Reading, key: string, allowed: Allowed): void {
  fault(reading, 'missing-option', undefined, { ...allowed, phrase: 'must be given' }, key);
}

function isObject(value: unknown): value is Keyed {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}

/** Puts a step of the path before the faults that were found below it. */
function under({ faults }: Reading, from: number, step: string): void {
  for (let i = from; i < faults.length; i++) {
    const found = faults[i] as Fault;
    faults[i] = { ...found, path: joined(step, found.path) };
  }
}

function joined(step: string, path: string): string {
  return step === '' || path === '' || path.startsWith('[') ? step + path : `${step}.${path}`;
}

function counted(least: number, most: number): string {
  return most >= 1e7 ? `at least ${least}` : `${least} to ${most}`;
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
