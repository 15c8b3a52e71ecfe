/**
 * A socket from two balls: one larger than the socket rests on the rim and tells the opening, one smaller lies on
 * the bottom and tells the depth. The part of the large ball above the face is a cap of height t over the opening:
 * half the opening squared is t (B - t). Lengths in any one unit. Source: elementary geometry.
 */
import { type Algebra, frozen, type Model, plainAlgebra, type Quantity, scaled } from '../budget/model.js';
import { refuse } from '../core/errors.js';
import { anyNumber, type Fields, number, positive, read, readValue, sound } from '../core/read.js';
import { capRadius } from './spherometer.js';

/** What is read of two balls in a socket. */
export interface SocketFromBallsOptions {
  /** Diameter of the ball on the rim. */
  readonly largeBall: number;
  /** Height of that ball's top above the face: between half the ball and the whole of it. */
  readonly largeTopHeight: number;
  /** Diameter of the ball on the bottom. */
  readonly smallBall: number;
  /** Height of that ball's top above the face, negative below it. */
  readonly smallTopHeight: number;
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

const FIELDS: Fields<SocketFromBallsOptions> = {
  largeBall: positive,
  largeTopHeight: positive,
  smallBall: positive,
  smallTopHeight: anyNumber,
};

/**
 * A socket from a ball on its rim and a ball on its bottom.
 * @throws GeneratrixError `impossible-geometry` if the balls cannot rest so: the large one must dip into
 * the opening by less than its radius, the small one must be smaller than the socket found.
 * @example
 * ```ts
 * import { socketFromBalls } from 'generatrix';
 * const socket = socketFromBalls({ largeBall: 34, largeTopHeight: 32, smallBall: 6, smallTopHeight: 2 });
 * [socket.opening, socket.depth, socket.radius]; // => [16, 4, 10]
 * ```
 */
export function socketFromBalls(options: SocketFromBallsOptions): SocketFromBalls {
  const given = read(options, FIELDS);
  const { largeBall, largeTopHeight, smallBall, smallTopHeight } = given;
  readValue(largeTopHeight, number({ above: largeBall / 2, below: largeBall }), 'largeTopHeight');
  const depth = depthOf(plainAlgebra, given);
  const dip = largeBall - largeTopHeight;
  if (depth <= dip) {
    const phrase = `must put the bottom below the large ball, deeper than ${dip}`;
    return refuse('impossible-geometry', 'smallTopHeight', smallTopHeight, phrase);
  }
  const opening = openingOf(plainAlgebra, given);
  const radius = radiusOf(plainAlgebra, given);
  if (smallBall / 2 >= radius) {
    const phrase = `must be smaller than the socket, whose diameter is ${2 * radius}`;
    return refuse('impossible-geometry', 'smallBall', smallBall, phrase);
  }
  return sound({ radius, opening, depth }, 'largeBall');
}

/** What is read of a ball on the rim of a socket. */
export type RimBallInput = 'largeBall' | 'largeTopHeight';

type Read<T> = Readonly<Record<keyof SocketFromBallsOptions, T>>;

function openingOf<T>(a: Algebra<T>, x: Readonly<Record<RimBallInput, T>>): T {
  const squared = a.multiply(x.largeTopHeight, a.subtract(x.largeBall, x.largeTopHeight));
  return scaled(a, 2, a.sqrt(squared));
}

function depthOf<T>(a: Algebra<T>, { smallBall, smallTopHeight }: Read<T>): T {
  return a.subtract(smallBall, smallTopHeight);
}

function radiusOf<T>(a: Algebra<T>, x: Read<T>): T {
  return capRadius(a, scaled(a, 0.5, openingOf(a, x)), depthOf(a, x));
}

const RIM_BALL: Readonly<Record<RimBallInput, Quantity>> = {
  largeBall: { kind: 'length', meaning: 'diameter of the ball on the rim' },
  largeTopHeight: { kind: 'length', meaning: "height of that ball's top above the face" },
};

/** Opening of a socket from a ball on its rim. */
export const socketOpeningFromBallModel: Model<RimBallInput> = /* @__PURE__ */ frozen({
  name: 'socket-opening-from-ball',
  result: { kind: 'length', meaning: 'diameter of the opening' },
  inputs: RIM_BALL,
  evaluate: openingOf,
});

/** Radius of a socket from a ball on its rim and one on its bottom. */
export const socketFromBallsModel: Model<RimBallInput | 'smallBall' | 'smallTopHeight'> = /* @__PURE__ */ frozen({
  name: 'socket-from-balls',
  result: { kind: 'length', meaning: 'radius of the socket' },
  inputs: {
    ...RIM_BALL,
    smallBall: { kind: 'length', meaning: 'diameter of the ball on the bottom' },
    smallTopHeight: { kind: 'length', meaning: "height of that ball's top above the face, negative below it" },
  },
  evaluate: radiusOf,
});
