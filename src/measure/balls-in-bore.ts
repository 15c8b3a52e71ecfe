/**
 * A tapered bore measured with balls. A ball of radius r that touches the bore all round has its centre
 * where the bore's radius, measured square to the side, is r. Between two balls, radii r₁ < r₂ and
 * centres c apart, sin α = (r₂ - r₁)/c. Lengths in any one unit, angles in degrees. Source: elementary geometry.
 */
import { type Algebra, frozen, type Model, plainAlgebra, type Quantity, scaled } from '../budget/model.js';
import { refuse } from '../core/errors.js';
import { anyNumber, type Fields, number, positive, read, readValue, sound } from '../core/read.js';
import { asinDeg } from '../core/trigonometry.js';
import type { TaperFromDiameters } from './two-diameters.js';

/** What balls tell about a tapered bore. */
export interface BoreFromBalls extends Pick<TaperFromDiameters, 'halfAngleDeg' | 'rate'> {
  /** Diameter of the bore at the face that depths were measured from. */
  readonly mouthDiameter: number;
}

/** Two balls dropped into a bore one after the other; a ball that stands out of it has a negative depth. */
export interface BoreFromTwoBallsOptions {
  /** Diameter of the small ball. */
  readonly smallBall: number;
  /** Diameter of the large ball. */
  readonly largeBall: number;
  /** Depth of the small ball's top below the face. */
  readonly smallTopDepth: number;
  /** Depth of the large ball's top below the face. */
  readonly largeTopDepth: number;
}

const TWO_BALLS: Fields<BoreFromTwoBallsOptions> = {
  smallBall: positive,
  largeBall: positive,
  smallTopDepth: anyNumber,
  largeTopDepth: anyNumber,
};

/**
 * Taper and mouth diameter of a bore that narrows downward, from two balls dropped in one after the other. The result
 * is a taper itself.
 * @throws GeneratrixError `impossible-geometry` if no bore can hold the balls so.
 * @example
 * ```ts
 * import { boreFromTwoBalls } from 'generatrix';
 * const bore = boreFromTwoBalls({ smallBall: 10, largeBall: 12, smallTopDepth: 45, largeTopDepth: 4 });
 * Math.round(bore.halfAngleDeg * 1e6) / 1e6; // => 1.432544
 * ```
 */
export function boreFromTwoBalls(options: BoreFromTwoBallsOptions): BoreFromBalls {
  const given = read(options, TWO_BALLS);
  const { smallBall, largeBall, smallTopDepth, largeTopDepth } = given;
  readValue(largeBall, number({ above: smallBall }), 'largeBall');
  const sin = sineOfTwo(plainAlgebra, given);
  if (!(sin > 0 && sin < 1)) {
    const phrase = `must put the small ball's centre more than ${(largeBall - smallBall) / 2} below the large one's`;
    return refuse('impossible-geometry', 'smallTopDepth', smallTopDepth, phrase);
  }
  return boreOf(sin, largeBall, largeTopDepth, 'largeTopDepth');
}

/** A ball in a bore of known mouth. */
export interface BoreFromMouthAndBallOptions {
  /** Diameter of the mouth. */
  readonly mouthDiameter: number;
  /** Diameter of the ball. */
  readonly ball: number;
  /** Depth of the ball's top below the face, negative if it stands out. */
  readonly topDepth: number;
}

const MOUTH_AND_BALL: Fields<BoreFromMouthAndBallOptions> = {
  mouthDiameter: positive,
  ball: positive,
  topDepth: anyNumber,
};

/**
 * Taper of a bore that narrows downward, from its mouth diameter and one ball:
 * sin α = (R² - r²) / (R sqrt(R² + z² - r²) + r z), R being half the mouth and z the depth of the
 * ball's centre. The result is a taper itself.
 * @throws GeneratrixError `impossible-geometry` if the ball touches the rim instead of the side, or the
 * bore would have to widen.
 * @example
 * ```ts
 * import { boreFromMouthAndBall } from 'generatrix';
 * const bore = boreFromMouthAndBall({ mouthDiameter: 12, ball: 10, topDepth: 35 });
 * Math.round(bore.halfAngleDeg * 1e6) / 1e6; // => 1.429867
 * ```
 */
export function boreFromMouthAndBall(options: BoreFromMouthAndBallOptions): BoreFromBalls {
  const given = read(options, MOUTH_AND_BALL);
  const sin = sineOfOne(plainAlgebra, given);
  if (!(sin > 0 && sin < 1)) {
    const phrase = 'must let the ball touch a bore that narrows downward';
    return refuse('impossible-geometry', 'topDepth', given.topDepth, phrase);
  }
  return boreOf(sin, given.ball, given.topDepth, 'topDepth');
}

/** The bore of half angle asin(sin) that touches a ball whose top is that deep. */
function boreOf(sin: number, ball: number, topDepth: number, parameter: string): BoreFromBalls {
  // The circle of contact lies (ball / 2) sin α below the ball's centre: it must be inside the bore.
  if (topDepth + (ball / 2) * (1 + sin) <= 0) {
    const phrase = `must be more than ${(-ball / 2) * (1 + sin)}, or the ball touches nothing`;
    return refuse('impossible-geometry', parameter, topDepth, phrase);
  }
  const bore = {
    halfAngleDeg: asinDeg(sin),
    rate: (2 * sin) / cosine(plainAlgebra, sin),
    mouthDiameter: mouthOf(plainAlgebra, sin, ball, topDepth),
  };
  return sound(bore, parameter);
}

/** Of the half angle, from its sine: (1 - s)(1 + s) keeps the digits that 1 - s² loses. */
function cosine<T>(a: Algebra<T>, sine: T): T {
  return a.sqrt(a.multiply(a.subtract(a.constant(1), sine), a.add(a.constant(1), sine)));
}

/** Sine of the half angle from two balls. */
function sineOfTwo<T>(a: Algebra<T>, x: Readonly<Record<TwoBallInput, T>>): T {
  const step = scaled(a, 0.5, a.subtract(x.largeBall, x.smallBall));
  return a.divide(step, a.subtract(a.subtract(x.smallTopDepth, x.largeTopDepth), step));
}

/** Sine of the half angle from the mouth and one ball. */
function sineOfOne<T>(a: Algebra<T>, x: Readonly<Record<keyof BoreFromMouthAndBallOptions, T>>): T {
  const [R, r] = [scaled(a, 0.5, x.mouthDiameter), scaled(a, 0.5, x.ball)];
  const z = a.add(x.topDepth, r);
  const squares = a.multiply(a.subtract(R, r), a.add(R, r));
  const root = a.sqrt(a.add(squares, a.square(z)));
  return a.divide(squares, a.add(a.multiply(R, root), a.multiply(r, z)));
}

/** Diameter of the mouth: 2 (r + z sin α)/cos α. */
function mouthOf<T>(a: Algebra<T>, sine: T, ball: T, topDepth: T): T {
  const centre = a.add(topDepth, scaled(a, 0.5, ball));
  const across = a.add(ball, scaled(a, 2, a.multiply(centre, sine)));
  return a.divide(across, cosine(a, sine));
}

/** What is read on a bore with two balls. */
export type TwoBallInput = 'smallBall' | 'largeBall' | 'smallTopDepth' | 'largeTopDepth';

const INPUTS: Readonly<Record<TwoBallInput, Quantity>> = {
  smallBall: { kind: 'length', meaning: 'diameter of the small ball' },
  largeBall: { kind: 'length', meaning: 'diameter of the large ball' },
  smallTopDepth: { kind: 'length', meaning: "depth of the small ball's top" },
  largeTopDepth: { kind: 'length', meaning: "depth of the large ball's top" },
};

/** Half angle of a tapered bore, in degrees, from two balls. */
export const boreFromTwoBallsModel: Model<TwoBallInput> = /* @__PURE__ */ frozen({
  name: 'bore-from-two-balls',
  result: { kind: 'angleDeg', meaning: 'half angle of the bore' },
  inputs: INPUTS,
  evaluate: (a, x) => a.asinDeg(sineOfTwo(a, x)),
});

/** Mouth diameter of a tapered bore from two balls. */
export const boreMouthFromTwoBallsModel: Model<TwoBallInput> = /* @__PURE__ */ frozen({
  name: 'bore-mouth-from-two-balls',
  result: { kind: 'length', meaning: 'diameter of the mouth' },
  inputs: INPUTS,
  evaluate: (a, x) => mouthOf(a, sineOfTwo(a, x), x.largeBall, x.largeTopDepth),
});

/** Half angle of a tapered bore, in degrees, from its mouth and one ball. */
export const boreFromMouthAndBallModel: Model<'mouthDiameter' | 'ball' | 'topDepth'> = /* @__PURE__ */ frozen({
  name: 'bore-from-mouth-and-ball',
  result: { kind: 'angleDeg', meaning: 'half angle of the bore' },
  inputs: {
    mouthDiameter: { kind: 'length', meaning: 'diameter of the mouth' },
    ball: { kind: 'length', meaning: 'diameter of the ball' },
    topDepth: { kind: 'length', meaning: "depth of the ball's top" },
  },
  evaluate: (a, x) => a.asinDeg(sineOfOne(a, x)),
});
