/**
 * A model: a pure function of named inputs, written once over an arithmetic that the caller brings.
 * Run over plain numbers it gives a value; over dual numbers its exact derivatives; over intervals
 * bounds that cannot be exceeded. Set-ups and instruments export such models.
 *
 * A model's inputs and its result are in the caller's units, angles in degrees, and so are those of the arithmetic's
 * functions.
 */

/** The operations of algebra: all that a formula without angles needs. */
export interface Algebra<T> {
  /** A constant of the model. */
  readonly constant: (value: number) => T;
  /** a + b */
  readonly add: (a: T, b: T) => T;
  /** a - b */
  readonly subtract: (a: T, b: T) => T;
  /** a b */
  readonly multiply: (a: T, b: T) => T;
  /** a / b */
  readonly divide: (a: T, b: T) => T;
  /** -a */
  readonly negate: (a: T) => T;
  /** a², which interval arithmetic bounds more tightly than a times a. */
  readonly square: (a: T) => T;
  /** Square root. */
  readonly sqrt: (a: T) => T;
  /** Absolute value. */
  readonly abs: (a: T) => T;
}

/** The operations on ordinary numbers. */
export const plainAlgebra: Algebra<number> = {
  constant: (value) => value,
  add: (a, b) => a + b,
  subtract: (a, b) => a - b,
  multiply: (a, b) => a * b,
  divide: (a, b) => a / b,
  negate: (a) => -a,
  square: (a) => a * a,
  sqrt: Math.sqrt,
  abs: Math.abs,
};

/** A plain number times x. */
export const scaled = <T>(a: Algebra<T>, factor: number, x: T): T => a.multiply(a.constant(factor), x);

/** The operations that a model may use. Angles are in degrees. */
export interface Arithmetic<T> extends Algebra<T> {
  /** Sine of an angle in degrees. */
  readonly sinDeg: (a: T) => T;
  /** Cosine of an angle in degrees. */
  readonly cosDeg: (a: T) => T;
  /** Tangent of an angle in degrees. */
  readonly tanDeg: (a: T) => T;
  /** Angle in degrees, -90 to 90, of a sine. */
  readonly asinDeg: (a: T) => T;
  /** Angle in degrees, 0 to 180, of a cosine. */
  readonly acosDeg: (a: T) => T;
  /** Angle in degrees, -90 to 90, of a tangent. */
  readonly atanDeg: (a: T) => T;
  /** Exponential. */
  readonly exp: (a: T) => T;
  /** Natural logarithm. */
  readonly log: (a: T) => T;
}

/** What a named number of a model is. */
export interface Quantity {
  /** Kind of unit: lengths share one unit throughout a call, angles are degrees. */
  readonly kind: 'length' | 'angleDeg' | 'ratio' | 'temperature' | 'number';
  /** One phrase for a table or a sheet. */
  readonly meaning: string;
  /** Set for an error, such as a scale's zero or a tool off its height: left out of a call it is 0, known exactly. */
  readonly isError?: true;
}

/** What an input that is an error is. */
export interface ErrorQuantity extends Quantity {
  /** An error may be left out of a call, and is then 0. */
  readonly isError: true;
}

/**
 * A pure function of named inputs, with what its numbers mean. `Name` are the inputs that a call must give,
 * `ErrorName` those that are errors, which it may leave out.
 */
export interface Model<Name extends string = string, ErrorName extends string = never> {
  /** Stable name: `setover`, `sine-bar`, … */
  readonly name: string;
  /** What the function gives. */
  readonly result: Quantity;
  /** What it needs, by name. */
  readonly inputs: Readonly<Record<Name, Quantity>> & Readonly<Record<ErrorName, ErrorQuantity>>;
  /** The function, over any arithmetic. Inputs and result of kind `angleDeg` are in degrees. */
  readonly evaluate: <T>(arithmetic: Arithmetic<T>, inputs: Readonly<Record<Name | ErrorName, T>>) => T;
}

/** Freezes an object with all that stands in it, so that no caller can change what all callers share. */
export function frozen<T extends object>(value: T): T {
  for (const part of Object.values(value)) {
    if (typeof part === 'object' && part !== null && !Object.isFrozen(part)) frozen(part);
  }
  return Object.freeze(value);
}
