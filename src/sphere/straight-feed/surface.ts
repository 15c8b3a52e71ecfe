/**
 * A face milled by straight feed with a spindle that is not quite square to it: the circle of the
 * tips, of radius r and tilted by δ towards the feed, leaves a hollow. Across the feed the face is
 * the ellipse z = -sqrt(r² - x²) sin δ, so over a width W it is hollow by
 *
 *   (r - sqrt(r² - W²/4)) sin δ = (W²/4) / (r + sqrt(r² - W²/4)) sin δ,
 *
 * and bends, in the middle, as a circle of radius r / sin δ. Only the leading half of the sweep cuts.
 */
import { plainArithmetic } from '../../budget/arithmetic.js';
import { type Arithmetic, frozen, type Model } from '../../budget/model.js';
import { refuse } from '../../core/errors.js';
import { type Fields, number, positive, read, sound } from '../../core/read.js';
import { sinDeg } from '../../core/trigonometry.js';
import { say, tell } from '../../core/words.js';

/** A straight feed with a tilted spindle: what {@link straightFeedSurface} needs. */
export interface StraightFeedSurfaceOptions {
  /** Angle between the spindle and the square to the face, in the direction of the feed. */
  readonly tiltDeg: number;
  /** Radius of the circle of the tips. */
  readonly sweepRadius: number;
  /** Width of the face, across the feed and centred on the spindle. */
  readonly width: number;
}

/** The face that a straight feed leaves. */
export interface StraightFeedSurface {
  /** How much lower the middle of the face is than its edges. */
  readonly hollow: number;
  /** Radius of the hollow in its middle; null for a face that is flat. */
  readonly middleRadius: number | null;
}

const OPTIONS: Fields<StraightFeedSurfaceOptions> = {
  tiltDeg: number({ min: 0, max: 90 }),
  sweepRadius: positive,
  width: positive,
};

/**
 * The hollow that a straight feed with a tilted sweep leaves.
 * @throws GeneratrixError `out-of-range` for a face wider than the sweep, or a tilt outside 0 to 90 degrees.
 * @example
 * ```ts
 * import { straightFeedSurface } from 'generatrix/sphere';
 * straightFeedSurface({ tiltDeg: 30, sweepRadius: 50, width: 60 }).hollow.toFixed(12); // => '5.000000000000'
 * straightFeedSurface({ tiltDeg: 0, sweepRadius: 50, width: 60 }); // => { hollow: 0, middleRadius: null }
 * ```
 */
export function straightFeedSurface(options: StraightFeedSurfaceOptions): StraightFeedSurface {
  const { tiltDeg, sweepRadius, width } = read(options, OPTIONS);
  const sine = sinDeg(tiltDeg);
  const hollow = riseOver(sweepRadius, width) * sine;
  return sound({ hollow, middleRadius: sine === 0 ? null : sweepRadius / sine });
}

/** The rise of the sweep's arc over the width of a face; refuses a face wider than the sweep. */
export function riseOver(sweepRadius: number, width: number): number {
  const max = 2 * sweepRadius;
  if (width <= max) return rise(plainArithmetic, sweepRadius, width);
  const phrase = say`must be at most ${tell(max)}, the diameter of the sweep`;
  return refuse('out-of-range', 'width', width, { kind: 'number', above: 0, max, phrase });
}

/** r - sqrt(r² - (W/2)²) as a quotient that keeps its digits; roots of factors, since squares may overflow. */
function rise<T>({ add, subtract, multiply, divide, sqrt, constant }: Arithmetic<T>, radius: T, width: T): T {
  const half = divide(width, constant(2));
  const leg = multiply(sqrt(subtract(radius, half)), sqrt(add(radius, half)));
  return multiply(half, divide(half, add(radius, leg)));
}

/** The hollow as a model for an error budget. */
export const straightFeedModel: Model<keyof StraightFeedSurfaceOptions> = /* @__PURE__ */ frozen({
  name: 'straight-feed',
  result: { kind: 'length', meaning: 'hollow of the face' },
  inputs: {
    tiltDeg: { kind: 'angleDeg', meaning: 'tilt of the spindle towards the feed' },
    sweepRadius: { kind: 'length', meaning: 'radius of the circle of the tips' },
    width: { kind: 'length', meaning: 'width of the face across the feed' },
  },
  evaluate: (a, { tiltDeg, sweepRadius, width }) => a.multiply(rise(a, sweepRadius, width), a.sinDeg(tiltDeg)),
});
