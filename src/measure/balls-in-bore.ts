/**
 * A tapered bore measured with balls. A ball of radius r that touches the bore all round has its centre
 * where the bore's radius, measured square to the side, is r. Between two balls, radii r₁ < r₂ and
 * centres c apart, sin α = (r₂ - r₁)/c.
 */
import type { Arithmetic, Model, Quantity } from '../budget/model.js';
import { number, options, positive } from '../core/checks.js';
import { refuse } from '../core/errors.js';
import { asinDeg } from '../core/trigonometry.js';

/** What balls tell about a tapered bore. */
export interface BoreFromBalls {
  /** Half angle in degrees. */
  readonly halfAngleDeg: number;
  /** Rate of taper, change of diameter per length. */
  readonly rate: number;
  /** Diameter of the bore at the face that depths were measured from. */
  readonly mouthDiameter: number;
}

/**
 * Taper and mouth diameter of a bore that narrows downward, from two balls dropped in one after the other.
 *
 * @param request - Diameters of the two balls and the depths of their tops below the face, in one unit; a
 * ball that stands out of the bore has a negative depth.
 * @returns Taper and mouth diameter.
 * @throws GeneratrixError `impossible-geometry` if no bore can hold the balls so.
 * @example
 * ```ts
 * import { boreFromTwoBalls } from 'generatrix';
 * const bore = boreFromTwoBalls({ smallBall: 10, largeBall: 12, smallTopDepth: 45, largeTopDepth: 4 });
 * Math.round(bore.halfAngleDeg * 1e6) / 1e6; // => 1.432544
 * ```
 */
export function boreFromTwoBalls(request: {
  readonly smallBall: number;
  readonly largeBall: number;
  readonly smallTopDepth: number;
  readonly largeTopDepth: number;
}): BoreFromBalls {
  options(request, 'request', ['smallBall', 'largeBall', 'smallTopDepth', 'largeTopDepth']);
  const r1 = positive(request.smallBall, 'smallBall') / 2;
  const r2 = number(request.largeBall, 'largeBall', { above: 2 * r1 }) / 2;
  const z1 = number(request.smallTopDepth, 'smallTopDepth') + r1;
  const z2 = number(request.largeTopDepth, 'largeTopDepth') + r2;
  const sin = (r2 - r1) / (z1 - z2);
  if (!(sin > 0 && sin < 1)) {
    return refuse(
      'impossible-geometry',
      'smallTopDepth',
      request.smallTopDepth,
      `must put the small ball's centre more than ${r2 - r1} below the large one's`,
    );
  }
  return bore(sin, r2, z2, 'largeTopDepth');
}

/**
 * Taper of a bore that narrows downward, from its mouth diameter and one ball:
 * sin α = (R² - r²) / (R sqrt(R² + z² - r²) + r z), R being half the mouth and z the depth of the
 * ball's centre.
 *
 * @param request - Diameter of the mouth, diameter of the ball, depth of the ball's top below the face
 * (negative if it stands out).
 * @returns Taper and mouth diameter.
 * @throws GeneratrixError `impossible-geometry` if the ball touches the rim instead of the side, or the
 * bore would have to widen.
 * @example
 * ```ts
 * import { boreFromMouthAndBall } from 'generatrix';
 * const bore = boreFromMouthAndBall({ mouthDiameter: 12, ball: 10, topDepth: 35 });
 * Math.round(bore.halfAngleDeg * 1e6) / 1e6; // => 1.429867
 * ```
 */
export function boreFromMouthAndBall(request: {
  readonly mouthDiameter: number;
  readonly ball: number;
  readonly topDepth: number;
}): BoreFromBalls {
  options(request, 'request', ['mouthDiameter', 'ball', 'topDepth']);
  const R = positive(request.mouthDiameter, 'mouthDiameter') / 2;
  const r = positive(request.ball, 'ball') / 2;
  const z = number(request.topDepth, 'topDepth') + r;
  const sin = ((R - r) * (R + r)) / (R * Math.sqrt((R - r) * (R + r) + z * z) + r * z);
  if (!(sin > 0 && sin < 1)) {
    return refuse(
      'impossible-geometry',
      'topDepth',
      request.topDepth,
      'must let the ball touch a bore that narrows downward',
    );
  }
  return bore(sin, r, z, 'topDepth');
}

/** The bore of half angle asin(sin) that touches a ball of radius r whose centre is z below the face. */
function bore(sin: number, r: number, z: number, parameter: string): BoreFromBalls {
  // The circle of contact lies r sin α below the ball's centre: it must be inside the bore.
  if (z + r * sin <= 0) {
    return refuse(
      'impossible-geometry',
      parameter,
      z - r,
      `must be more than ${-r * (1 + sin)}, or the ball touches nothing`,
    );
  }
  const cos = Math.sqrt((1 - sin) * (1 + sin));
  return { halfAngleDeg: asinDeg(sin), rate: (2 * sin) / cos, mouthDiameter: (2 * (r + z * sin)) / cos };
}

/** What is read on a bore with two balls. */
export type TwoBallInput = 'smallBall' | 'largeBall' | 'smallTopDepth' | 'largeTopDepth';

const TWO_BALLS: Readonly<Record<TwoBallInput, Quantity>> = {
  smallBall: { kind: 'length', meaning: 'diameter of the small ball' },
  largeBall: { kind: 'length', meaning: 'diameter of the large ball' },
  smallTopDepth: { kind: 'length', meaning: "depth of the small ball's top" },
  largeTopDepth: { kind: 'length', meaning: "depth of the large ball's top" },
};

function half<T>(a: Arithmetic<T>, x: T): T {
  return a.multiply(a.constant(0.5), x);
}

/** Sine of the half angle from two balls. */
function sineOf<T>(a: Arithmetic<T>, x: Readonly<Record<TwoBallInput, T>>): T {
  const step = half(a, a.subtract(x.largeBall, x.smallBall));
  return a.divide(step, a.subtract(a.subtract(x.smallTopDepth, x.largeTopDepth), step));
}

/** Half angle of a tapered bore, in degrees, from two balls. */
export const boreFromTwoBallsModel: Model<TwoBallInput> = {
  name: 'bore-from-two-balls',
  result: { kind: 'angleDeg', meaning: 'half angle of the bore' },
  inputs: TWO_BALLS,
  evaluate: (a, x) => a.asinDeg(sineOf(a, x)),
};

/** Mouth diameter of a tapered bore from two balls: 2 (r + z sin α)/cos α, of the large ball. */
export const boreMouthFromTwoBallsModel: Model<TwoBallInput> = {
  name: 'bore-mouth-from-two-balls',
  result: { kind: 'length', meaning: 'diameter of the mouth' },
  inputs: TWO_BALLS,
  evaluate: (a, x) => {
    const sine = sineOf(a, x);
    const centre = a.add(x.largeTopDepth, half(a, x.largeBall));
    const cosine = a.sqrt(a.subtract(a.constant(1), a.square(sine)));
    return a.divide(a.add(x.largeBall, a.multiply(a.constant(2), a.multiply(centre, sine))), cosine);
  },
};

/** Half angle of a tapered bore, in degrees, from its mouth and one ball. */
export const boreFromMouthAndBallModel: Model<'mouthDiameter' | 'ball' | 'topDepth'> = {
  name: 'bore-from-mouth-and-ball',
  result: { kind: 'angleDeg', meaning: 'half angle of the bore' },
  inputs: {
    mouthDiameter: { kind: 'length', meaning: 'diameter of the mouth' },
    ball: { kind: 'length', meaning: 'diameter of the ball' },
    topDepth: { kind: 'length', meaning: "depth of the ball's top" },
  },
  evaluate: (a, { mouthDiameter, ball, topDepth }) => {
    const [R, r] = [half(a, mouthDiameter), half(a, ball)];
    const z = a.add(topDepth, r);
    const squares = a.subtract(a.square(R), a.square(r));
    const root = a.sqrt(a.add(squares, a.square(z)));
    return a.asinDeg(a.divide(squares, a.add(a.multiply(R, root), a.multiply(r, z))));
  },
};
