/**
 * The one error that the library throws. Everything a caller needs in order to react is data:
 * a stable code, the parameter's path, the value that arrived and what would have been allowed.
 */

/** Why a call was refused. Codes are stable: new ones may be added, none changes its meaning. */
export type ErrorCode =
  /** Not the kind of value that is needed: a string for a number, an array for an object. */
  | 'wrong-kind'
  /** A number that is NaN or infinite. */
  | 'not-finite'
  /** A number or a choice outside what is allowed. */
  | 'out-of-range'
  /** A key that the function does not know. */
  | 'unknown-option'
  /** A key that the function needs and did not get. */
  | 'missing-option'
  /** Two given values that cannot both be true. */
  | 'contradiction'
  /** Values that are fine one by one, but no such part or set-up can exist. */
  | 'impossible-geometry'
  /** Possible geometry that the described machine cannot reach. */
  | 'beyond-machine'
  /** Text that cannot be read as what it should be. */
  | 'unreadable'
  /** The library holds no data for what was asked, and does not guess. */
  | 'no-data'
  /** A search ended without an answer that can be vouched for. */
  | 'not-converged'
  /** The result is too large or too small for a floating-point number. */
  | 'not-representable'
  /** The caller's abort signal ended a long run. */
  | 'aborted';

/** What would have been allowed, as data for a form field or another language, and as a phrase. */
export interface Allowed {
  /** What is expected; `relation` where it hangs on other values and only the phrase tells. */
  readonly kind: 'number' | 'choice' | 'flag' | 'text' | 'array' | 'object' | 'function' | 'relation';
  /** The number may be this, but not less. */
  readonly min?: number;
  /** The number may be this, but not more. */
  readonly max?: number;
  /** The number must be greater than this. */
  readonly above?: number;
  /** The number must be less than this. */
  readonly below?: number;
  /** Only whole numbers. */
  readonly whole?: true;
  /** The words to choose from. */
  readonly choices?: readonly string[];
  /** The keys that an object may have. */
  readonly keys?: readonly string[];
  /** Fewest items of an array. */
  readonly least?: number;
  /** Most items of an array, or characters of a text. */
  readonly most?: number;
  /** The same as a phrase that follows the parameter's name: `must be a number, greater than 0`. */
  readonly phrase: string;
}

/** An error as plain data, for JSON, `structuredClone` and messages between threads. */
export interface ErrorData {
  /** Always `GeneratrixError`. */
  readonly name: string;
  /** Stable reason. */
  readonly code: ErrorCode;
  /** Path of the parameter. */
  readonly parameter: string;
  /** What arrived, null where nothing did; a short description where it is no plain value. */
  readonly value: string | number | boolean | null;
  /** What would have been allowed. */
  readonly allowed: Allowed;
  /** The sentence. */
  readonly message: string;
}

/** One mark for both module systems: a class that was loaded twice still knows its errors. */
const BRAND = Symbol.for('generatrix.error');

/**
 * Thrown by every function of the library that refuses its input. `instanceof` holds across ESM and CommonJS.
 * @example
 * ```ts
 * import { GeneratrixError } from 'generatrix';
 * const error = new GeneratrixError('out-of-range', 'taper.perFoot', -1, 'must be a number, greater than 0');
 * error.message; // => 'taper.perFoot: must be a number, greater than 0; got -1'
 * structuredClone(error.toJSON()).code; // => 'out-of-range'
 * ```
 */
export class GeneratrixError extends Error {
  /** Always `GeneratrixError`, also where a bundler renames classes. */
  override readonly name = 'GeneratrixError';
  /** Stable reason, for programs. */
  readonly code: ErrorCode;
  /** Path from the caller's own argument, such as `taper.perFoot` or `trials[1].reading`; empty for the argument itself. */
  readonly parameter: string;
  /** What arrived. */
  readonly value: unknown;
  /** What would have been allowed. */
  readonly allowed: Allowed;

  /**
   * @param code - Stable reason.
   * @param parameter - Path of the parameter.
   * @param value - What arrived.
   * @param allowed - What would have been allowed, as data or as a phrase alone.
   */
  constructor(code: ErrorCode, parameter: string, value: unknown, allowed: Allowed | string) {
    const data: Allowed = typeof allowed === 'string' ? { kind: 'relation', phrase: allowed } : allowed;
    const path = printable(parameter, 200);
    super(`${path === '' ? 'the argument' : path}: ${data.phrase}; got ${printable(shown(value), 200)}`);
    this.code = code;
    this.parameter = path;
    this.value = value;
    this.allowed = data;
  }

  /** The error as plain data; a clone of the error itself would lose code and parameter. */
  toJSON(): ErrorData {
    const { name, code, parameter, allowed, message } = this;
    return { name, code, parameter, value: plain(this.value), allowed, message };
  }
}
Object.defineProperty(GeneratrixError.prototype, BRAND, { value: true });
Object.defineProperty(GeneratrixError, Symbol.hasInstance, {
  value(this: unknown, value: unknown): boolean {
    // A subclass of a user's own is told from its parent in the ordinary way.
    return this === GeneratrixError
      ? typeof value === 'object' && value !== null && BRAND in value
      : Function.prototype[Symbol.hasInstance].call(this, value);
  },
});

/** Refuses: throws the library's error. A function, so that it can stand in an expression. */
export function refuse(code: ErrorCode, parameter: string, value: unknown, allowed: Allowed | string): never {
  throw new GeneratrixError(code, parameter, value, allowed);
}

/** A value for a message: short whatever arrived, so that hostile input cannot flood a log. */
function shown(value: unknown): string {
  if (typeof value === 'string') return JSON.stringify(value.length > 60 ? `${value.slice(0, 57)}...` : value);
  if (value === undefined) return 'nothing';
  if (typeof value === 'number' || typeof value === 'boolean' || value === null) return String(value);
  return Array.isArray(value) ? `an array of ${value.length}` : `a ${typeof value}`;
}

/** A value that survives JSON and cloning: numbers that JSON has no word for, and everything else, as text. */
function plain(value: unknown): ErrorData['value'] {
  const kept = typeof value === 'number' ? Number.isFinite(value) : typeof value === 'boolean' || value === null;
  if (kept) return value as number | boolean | null;
  if (value === undefined) return null;
  return typeof value === 'string' ? value.slice(0, 1000) : shown(value);
}

/** Without characters that could forge lines or turn the direction of writing, and not endless. */
function printable(text: string, most: number): string {
  const short = text.length > most ? `${text.slice(0, most - 3)}...` : text;
  return short.replace(/[\p{Cc}\p{Cf}\p{Cs}\u2028\u2029]/gu, '\ufffd');
}
