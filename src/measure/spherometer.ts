/**
 * Radii of balls and sockets from heights: spherometer, chord and height, balls resting in a socket.
 * All rest on one relation: a cap of base radius a and height s has R = (a² + s²)/(2s). Feet with ball
 * tips of radius b touch a sphere of radius R ± b.
 */
import type { Arithmetic, Model, Quantity } from '../budget/model.js';
import { choice, nonNegative, number, options, positive, representable } from '../core/checks.js';
import { refuse } from '../core/errors.js';

/** A spherometer: a ring with sharp edges, or three feet with ball tips, and a tip in the middle. */
export interface Spherometer {
  /** Radius of the circle of contact: of the ring's edge, or of the centres of the feet. */
  readonly radius: number;
  /** Radius of the feet's ball tips; 0 for a sharp ring or sharp feet. */
  readonly footRadius?: number;
  /** A ball (the tip goes up) or a socket (it goes down). */
  readonly side: 'ball' | 'socket';
}

/**
 * Radius of a sphere from the rise or drop of a spherometer's tip against a flat.
 *
 * A ring touches a ball on its inner edge and a socket on its outer edge: give the radius of that edge.
 * Three feet at the corners of a triangle of equal sides l stand on a circle of radius l/√3.
 *
 * @param request - The instrument and the movement of the tip from its reading on a flat.
 * @returns Radius of the sphere.
 * @throws GeneratrixError `impossible-geometry` if the movement exceeds what a sphere can show: half of it
 * or more would lie below the feet.
 * @example
 * ```ts
 * import { radiusFromSpherometer } from 'generatrix';
 * radiusFromSpherometer({ radius: 4, side: 'ball', sagitta: 2 }); // => 5
 * ```
 */
export function radiusFromSpherometer(request: Spherometer & { readonly sagitta: number }): number {
  options(request, 'request', ['radius', 'side', 'sagitta'], ['footRadius']);
  const { a, foot } = readSpherometer(request);
  const s = positive(request.sagitta, 'sagitta');
  if (s > a)
    return refuse('impossible-geometry', 'sagitta', s, `must be at most the radius of the circle of contact, ${a}`);
  const radius = capRadius(a, s) - foot;
  return radius > 0
    ? radius
    : refuse('impossible-geometry', 'sagitta', s, 'must leave the sphere larger than the tips of the feet');
}

/**
 * Rise or drop of a spherometer's tip on a sphere: what a good ball or socket shows. Computed as
 * a²/(Q + sqrt(Q² - a²)), Q = R ± b, which keeps all digits of a small sagitta.
 *
 * @param request - The instrument and the radius of the sphere.
 * @returns Movement of the tip from its reading on a flat.
 * @throws GeneratrixError `impossible-geometry` if the instrument is too wide for the sphere.
 * @example
 * ```ts
 * import { sagittaOnSpherometer } from 'generatrix';
 * sagittaOnSpherometer({ radius: 4, side: 'socket', sphereRadius: 5 }); // => 2
 * ```
 */
export function sagittaOnSpherometer(request: Spherometer & { readonly sphereRadius: number }): number {
  options(request, 'request', ['radius', 'side', 'sphereRadius'], ['footRadius']);
  const { a, foot } = readSpherometer(request);
  const Q = positive(request.sphereRadius, 'sphereRadius') + foot;
  if (!(Q >= a)) {
    return refuse(
      'impossible-geometry',
      'sphereRadius',
      request.sphereRadius,
      `must be at least ${a - foot} for this instrument`,
    );
  }
  return (a * a) / (Q + Math.sqrt((Q - a) * (Q + a)));
}

/** Radius of the circle of contact, and the feet's radius with the sign that it has in R + foot. */
function readSpherometer(request: Spherometer): { a: number; foot: number } {
  const a = positive(request.radius, 'radius');
  const b = nonNegative(request.footRadius ?? 0, 'footRadius');
  return { a, foot: choice(request.side, 'side', ['ball', 'socket']) === 'ball' ? b : -b };
}

/** R = (a² + s²)/(2s), arranged so that squares neither overflow nor vanish. */
function capRadius(a: number, s: number): number {
  return representable(s / 2 + (a / s) * (a / 2), 'sagitta');
}

/**
 * Radius of an arc or a sphere from a chord and the height over it.
 *
 * @param request - Length of the chord (for a socket: diameter of its opening) and height of the arc over
 * its middle (depth of the socket); more than half the diameter is allowed.
 * @returns The radius.
 * @throws GeneratrixError for lengths that are not positive.
 * @example
 * ```ts
 * import { radiusFromChord } from 'generatrix';
 * radiusFromChord({ chord: 8, height: 2 }); // => 5
 * radiusFromChord({ chord: 8, height: 8 }); // => 5
 * ```
 */
export function radiusFromChord(request: { readonly chord: number; readonly height: number }): number {
  options(request, 'request', ['chord', 'height']);
  return capRadius(positive(request.chord, 'chord') / 2, positive(request.height, 'height'));
}

/** A socket as two balls show it. */
export interface SocketFromBalls {
  /** Radius of the socket. */
  readonly radius: number;
  /** Diameter of its opening at the face. */
  readonly opening: number;
  /** Depth at the middle. */
  readonly depth: number;
}

/**
 * A socket from two balls: one larger than the socket rests on the rim and tells the opening, one smaller
 * lies on the bottom and tells the depth.
 *
 * @param request - Diameters of the two balls and the heights of their tops above the face (negative below it).
 * @returns Radius, opening and depth of the socket.
 * @throws GeneratrixError `impossible-geometry` if the balls cannot rest so: the large one must dip into
 * the opening by less than its radius, the small one must be smaller than the socket found.
 * @example
 * ```ts
 * import { socketFromBalls } from 'generatrix';
 * const socket = socketFromBalls({ largeBall: 34, largeTopHeight: 32, smallBall: 6, smallTopHeight: 2 });
 * [socket.opening, socket.depth, socket.radius]; // => [16, 4, 10]
 * ```
 */
export function socketFromBalls(request: {
  readonly largeBall: number;
  readonly largeTopHeight: number;
  readonly smallBall: number;
  readonly smallTopHeight: number;
}): SocketFromBalls {
  options(request, 'request', ['largeBall', 'largeTopHeight', 'smallBall', 'smallTopHeight']);
  const B = positive(request.largeBall, 'largeBall');
  const top = number(request.largeTopHeight, 'largeTopHeight', { above: B / 2, below: B });
  const small = positive(request.smallBall, 'smallBall');
  const depth = small - number(request.smallTopHeight, 'smallTopHeight');
  // The part of the large ball above the face is a cap of height `top` over a chord, the opening.
  const opening = 2 * Math.sqrt(top * (B - top));
  if (depth <= B - top) {
    return refuse(
      'impossible-geometry',
      'smallTopHeight',
      request.smallTopHeight,
      `must put the bottom below the large ball, deeper than ${B - top}`,
    );
  }
  const radius = capRadius(opening / 2, depth);
  if (small / 2 >= radius) {
    return refuse(
      'impossible-geometry',
      'smallBall',
      small,
      `must be smaller than the socket, whose diameter is ${2 * radius}`,
    );
  }
  return { radius, opening, depth };
}

/** (a² + s²)/(2s), over any arithmetic. */
function cap<T>(a: Arithmetic<T>, radius: T, sagitta: T): T {
  return a.divide(a.add(a.square(radius), a.square(sagitta)), a.multiply(a.constant(2), sagitta));
}

/** Radius of a sphere from a spherometer; take the foot radius negative for a socket. */
export const spherometerModel: Model<'radius' | 'sagitta' | 'footRadius'> = {
  name: 'spherometer',
  result: { kind: 'length', meaning: 'radius of the sphere' },
  inputs: {
    radius: { kind: 'length', meaning: 'radius of the circle of contact' },
    sagitta: { kind: 'length', meaning: 'movement of the tip from its reading on a flat' },
    footRadius: { kind: 'length', meaning: 'radius of the feet, negative for a socket' },
  },
  evaluate: (a, { radius, sagitta, footRadius }) => a.subtract(cap(a, radius, sagitta), footRadius),
};

/** Radius of an arc or a sphere from a chord and the height over it. */
export const radiusFromChordModel: Model<'chord' | 'height'> = {
  name: 'radius-from-chord',
  result: { kind: 'length', meaning: 'radius of the arc' },
  inputs: {
    chord: { kind: 'length', meaning: 'length of the chord' },
    height: { kind: 'length', meaning: 'height of the arc over the middle of the chord' },
  },
  evaluate: (a, { chord, height }) => cap(a, a.multiply(a.constant(0.5), chord), height),
};

/** What is read of a ball on the rim of a socket. */
export type RimBallInput = 'largeBall' | 'largeTopHeight';

const RIM_BALL: Readonly<Record<RimBallInput, Quantity>> = {
  largeBall: { kind: 'length', meaning: 'diameter of the ball on the rim' },
  largeTopHeight: { kind: 'length', meaning: "height of that ball's top above the face" },
};

/** Square of half the opening: the part of the large ball above the face is a cap over it. */
function halfOpeningSquared<T>(a: Arithmetic<T>, { largeBall, largeTopHeight }: Readonly<Record<RimBallInput, T>>): T {
  return a.multiply(largeTopHeight, a.subtract(largeBall, largeTopHeight));
}

/** Opening of a socket from a ball on its rim. */
export const socketOpeningFromBallModel: Model<RimBallInput> = {
  name: 'socket-opening-from-ball',
  result: { kind: 'length', meaning: 'diameter of the opening' },
  inputs: RIM_BALL,
  evaluate: (a, x) => a.multiply(a.constant(2), a.sqrt(halfOpeningSquared(a, x))),
};

/** Radius of a socket from a ball on its rim and one on its bottom. */
export const socketFromBallsModel: Model<RimBallInput | 'smallBall' | 'smallTopHeight'> = {
  name: 'socket-from-balls',
  result: { kind: 'length', meaning: 'radius of the socket' },
  inputs: {
    ...RIM_BALL,
    smallBall: { kind: 'length', meaning: 'diameter of the ball on the bottom' },
    smallTopHeight: { kind: 'length', meaning: "height of that ball's top above the face, negative below it" },
  },
  evaluate: (a, x) => {
    const depth = a.subtract(x.smallBall, x.smallTopHeight);
    return cap(a, a.sqrt(halfOpeningSquared(a, x)), depth);
  },
};
