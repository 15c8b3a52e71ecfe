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

/**
 * Thrown by every function of the library that refuses its input.
 *
 * @example
 * ```ts
 * import { GeneratrixError } from 'generatrix';
 * const error = new GeneratrixError('out-of-range', 'taper.perFoot', -1, 'must be a number, greater than 0');
 * error.message; // => 'taper.perFoot: must be a number, greater than 0; got -1'
 * ```
 */
export class GeneratrixError extends Error {
  /** Always `GeneratrixError`, also where a bundler renames classes. */
  override readonly name = 'GeneratrixError';
  /** Stable reason, for programs. */
  readonly code: ErrorCode;
  /** Path of the parameter within the call, such as `taper.perFoot` or `trials[1].reading`. */
  readonly parameter: string;
  /** What arrived. */
  readonly value: unknown;
  /** What would have been allowed, as a phrase. */
  readonly allowed: string;

  /**
   * @param code - Stable reason.
   * @param parameter - Path of the parameter.
   * @param value - What arrived.
   * @param allowed - What would have been allowed.
   */
  constructor(code: ErrorCode, parameter: string, value: unknown, allowed: string) {
    super(`${parameter}: ${allowed}; got ${show(value)}`);
    this.code = code;
    this.parameter = parameter;
    this.value = value;
    this.allowed = allowed;
  }
}

/** Refuses: throws the library's error. A function, so that it can stand in an expression. */
export function refuse(code: ErrorCode, parameter: string, value: unknown, allowed: string): never {
  throw new GeneratrixError(code, parameter, value, allowed);
}

/** A value for a message: short whatever arrived, so that hostile input cannot flood a log. */
function show(value: unknown): string {
  if (typeof value === 'string') return JSON.stringify(value.length > 60 ? `${value.slice(0, 57)}...` : value);
  if (typeof value === 'number' || typeof value === 'boolean' || value == null) return String(value);
  return Array.isArray(value) ? `an array of ${value.length}` : `a ${typeof value}`;
}
