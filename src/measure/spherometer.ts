/**
 * Radii of balls and sockets from heights: spherometer, and chord and height. Both rest on one relation: a cap of
 * base radius a and height s has R = (a² + s²)/(2s). Feet with ball tips of radius b touch a sphere of radius R ± b.
 * Lengths in any one unit. Source: elementary geometry.
 */
import { type Algebra, frozen, type Model, plainAlgebra, scaled } from '../budget/model.js';
import { refuse } from '../core/errors.js';
import { choice, defaulted, type Fields, nonNegative, positive, read, sound } from '../core/read.js';

/** R = (a² + s²)/(2s) as s/2 + (a/s)(a/2), of which no square overflows or vanishes. */
export function capRadius<T>(a: Algebra<T>, base: T, height: T): T {
  return a.add(scaled(a, 0.5, height), a.multiply(a.divide(base, height), scaled(a, 0.5, base)));
}

/** A spherometer: a ring with sharp edges, or three feet with ball tips, and a tip in the middle. */
export interface Spherometer {
  /**
   * Radius of the circle of contact. A ring touches a ball on its inner edge and a socket on its outer edge: the
   * radius of that edge. Three feet at the corners of a triangle of equal sides l: l/√3, the circle of their centres.
   */
  readonly radius: number;
  /** Radius of the feet's ball tips; 0 for a sharp ring or sharp feet. @defaultValue 0 */
  readonly footRadius?: number;
  /** A ball (the tip goes up) or a socket (it goes down). */
  readonly side: 'ball' | 'socket';
}

const SPHEROMETER: Fields<Spherometer, 'footRadius'> = {
  radius: positive,
  footRadius: defaulted(nonNegative, 0),
  side: choice('ball', 'socket'),
};

/** A spherometer on a sphere of unknown radius. */
export interface RadiusFromSpherometerOptions extends Spherometer {
  /** Movement of the tip from its reading on a flat. */
  readonly sagitta: number;
}

const RADIUS: Fields<RadiusFromSpherometerOptions, 'footRadius'> = { ...SPHEROMETER, sagitta: positive };

/**
 * Radius of a sphere from the rise or drop of a spherometer's tip against a flat.
 * @throws GeneratrixError `impossible-geometry` if the movement exceeds what a sphere can show: half of it
 * or more would lie below the feet.
 * @example
 * ```ts
 * import { radiusFromSpherometer } from 'generatrix';
 * radiusFromSpherometer({ radius: 4, side: 'ball', sagitta: 2 }); // => 5
 * ```
 */
export function radiusFromSpherometer(options: RadiusFromSpherometerOptions): number {
  const { radius, footRadius, side, sagitta } = read(options, RADIUS);
  if (sagitta > radius) {
    const phrase = `must be at most the radius of the circle of contact, ${radius}`;
    return refuse('impossible-geometry', 'sagitta', sagitta, phrase);
  }
  const found = sphereOf(plainAlgebra, { radius, sagitta, footRadius: side === 'ball' ? footRadius : -footRadius });
  if (found <= 0) {
    return refuse('impossible-geometry', 'sagitta', sagitta, 'must leave the sphere larger than the tips of the feet');
  }
  return sound(found, 'sagitta');
}

function sphereOf<T>(a: Algebra<T>, x: Readonly<Record<'radius' | 'sagitta' | 'footRadius', T>>): T {
  return a.subtract(capRadius(a, x.radius, x.sagitta), x.footRadius);
}

/** Radius of a sphere from a spherometer; take the foot radius negative for a socket. */
export const spherometerModel: Model<'radius' | 'sagitta' | 'footRadius'> = /* @__PURE__ */ frozen({
  name: 'spherometer',
  result: { kind: 'length', meaning: 'radius of the sphere' },
  inputs: {
    radius: { kind: 'length', meaning: 'radius of the circle of contact' },
    sagitta: { kind: 'length', meaning: 'movement of the tip from its reading on a flat' },
    footRadius: { kind: 'length', meaning: 'radius of the feet, negative for a socket' },
  },
  evaluate: sphereOf,
});

/** A spherometer on a sphere of known radius. */
export interface SagittaOnSpherometerOptions extends Spherometer {
  /** Radius of the sphere. */
  readonly sphereRadius: number;
}

const SAGITTA: Fields<SagittaOnSpherometerOptions, 'footRadius'> = { ...SPHEROMETER, sphereRadius: positive };

/**
 * Rise or drop of a spherometer's tip on a sphere: what a good ball or socket shows. Computed as
 * a²/(Q + sqrt(Q² - a²)), Q = R ± b, which keeps all digits of a small sagitta.
 * @returns Movement of the tip from its reading on a flat.
 * @throws GeneratrixError `impossible-geometry` if the instrument is too wide for the sphere.
 * @example
 * ```ts
 * import { sagittaOnSpherometer } from 'generatrix';
 * sagittaOnSpherometer({ radius: 4, side: 'socket', sphereRadius: 5 }); // => 2
 * ```
 */
export function sagittaOnSpherometer(options: SagittaOnSpherometerOptions): number {
  const { radius, footRadius, side, sphereRadius } = read(options, SAGITTA);
  const foot = side === 'ball' ? footRadius : -footRadius;
  const Q = sphereRadius + foot;
  if (Q < radius) {
    const phrase = `must be at least ${radius - foot} for this instrument`;
    return refuse('impossible-geometry', 'sphereRadius', sphereRadius, phrase);
  }
  // Divided by Q, so that no square overflows.
  const part = radius / Q;
  return sound((radius * part) / (1 + Math.sqrt((1 - part) * (1 + part))), 'sphereRadius');
}

/** An arc by its chord and its height. */
export interface RadiusFromChordOptions {
  /** Length of the chord; for a socket: diameter of its opening. */
  readonly chord: number;
  /** Height of the arc over the middle of the chord (depth of the socket); more than half the diameter is allowed. */
  readonly height: number;
}

const CHORD: Fields<RadiusFromChordOptions> = { chord: positive, height: positive };

/**
 * Radius of an arc or a sphere from a chord and the height over it.
 * @throws GeneratrixError for lengths that are not positive.
 * @example
 * ```ts
 * import { radiusFromChord } from 'generatrix';
 * radiusFromChord({ chord: 8, height: 2 }); // => 5
 * radiusFromChord({ chord: 8, height: 8 }); // => 5
 * ```
 */
export function radiusFromChord(options: RadiusFromChordOptions): number {
  return sound(arcOf(plainAlgebra, read(options, CHORD)), 'height');
}

function arcOf<T>(a: Algebra<T>, { chord, height }: Readonly<Record<'chord' | 'height', T>>): T {
  return capRadius(a, scaled(a, 0.5, chord), height);
}

/** Radius of an arc or a sphere from a chord and the height over it. */
export const radiusFromChordModel: Model<'chord' | 'height'> = /* @__PURE__ */ frozen({
  name: 'radius-from-chord',
  result: { kind: 'length', meaning: 'radius of the arc' },
  inputs: {
    chord: { kind: 'length', meaning: 'length of the chord' },
    height: { kind: 'length', meaning: 'height of the arc over the middle of the chord' },
  },
  evaluate: arcOf,
});
