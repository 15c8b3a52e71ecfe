/**
 * The surface that a swivelling tool cuts. The tip runs on a circle in a level plane; with the swivel's centre on the
 * work axis that cuts a sphere, off it by e (positive to the tool's side), and the tip v off centre height, a torus:
 *
 *   at the swing θ from the work axis: ρ² = (e + s sin θ)² + v², z = s cos θ,
 *   distance from the swivel's centre: d² = (e + s sin θ)² + (s cos θ)² + v².
 *
 * e > 0 is too wide, with a stump left at the pole; e < 0 too slim and pointed. A nose of radius n runs with its centre
 * on s + n (ball) or s - n (socket) and cuts the same circle, since circles about one centre are parallel; it only
 * reaches on beyond both ends of the swing. Lengths in one unit.
 *
 * A headstock out of line with the bed does not act: the circle has no direction, and about an axis turned in any way
 * that still meets its centre it cuts the same sphere (e and v are counted there). Only the pole may be missed, by
 * s times the sine of the turn.
 */
import { plainArithmetic } from '../../budget/arithmetic.js';
import { type Arithmetic, frozen, type Model } from '../../budget/model.js';
import { refuse } from '../../core/errors.js';
import {
  anyNumber,
  choice,
  defaulted,
  type Fields,
  nonNegative,
  number,
  positive,
  read,
  sound,
} from '../../core/read.js';
import { sinDeg } from '../../core/trigonometry.js';
import { say, tell } from '../../core/words.js';
import { centreRadius, noseOnSphere } from '../scallop.js';

/** A swivelling tool as it is set: what {@link swivelSurface} needs. */
export interface SwivelSurfaceOptions {
  /** From the swivel's centre to the tip. */
  readonly swivelRadius: number;
  /** Swivel's centre off the work axis, positive to the side on which the tool cuts. @defaultValue 0 */
  readonly centreOffset?: number;
  /** Tip above or below the height of the work axis. @defaultValue 0 */
  readonly centreHeight?: number;
  /** Where the swing begins, from the work axis at the free end. @defaultValue 0 */
  readonly swingFromDeg?: number;
  /** Where the swing ends. @defaultValue 180 */
  readonly swingToDeg?: number;
  /** Radius of the tool's nose, less than a socket's radius, at most a million times a ball's. @defaultValue 0 */
  readonly noseRadius?: number;
  /** Whether the tool turns a ball from outside or bores a socket from inside. @defaultValue 'ball' */
  readonly side?: 'ball' | 'socket';
}

/** The surface that a swivelling tool cuts. */
export interface SwivelSurface {
  /** `sphere`, a `stump` left at the pole or a `point` there. */
  readonly shape: 'sphere' | 'stump' | 'point';
  /** Largest diameter cut. */
  readonly diameter: number;
  /** Diameter of what is left uncut in the middle, where it stands on the surface. */
  readonly pipDiameter: number;
  /** Height of the cut's beginning, or of the point where it meets the axis, from the swivel's centre. */
  readonly endHeight: number;
  /**
   * Diameter to which the nose turns what stands beyond the end of the swing, a ball's stem; 0 if it cuts it off.
   * Null in a socket.
   */
  readonly stemDiameter: number | null;
  /** Least distance of the surface from the swivel's centre. */
  readonly smallestRadius: number;
  /** Largest distance of the surface from the swivel's centre. */
  readonly largestRadius: number;
  /** Largest less smallest: at most this the surface departs from a sphere. */
  readonly formDeviation: number;
}

const OPTIONS: Fields<SwivelSurfaceOptions, Exclude<keyof SwivelSurfaceOptions, 'swivelRadius'>> = {
  swivelRadius: positive,
  centreOffset: defaulted(anyNumber, 0),
  centreHeight: defaulted(anyNumber, 0),
  swingFromDeg: defaulted(number({ min: 0, below: 180 }), 0),
  swingToDeg: defaulted(number({ above: 0, max: 180 }), 180),
  noseRadius: defaulted(nonNegative, 0),
  side: defaulted(choice('ball', 'socket'), 'ball'),
};

/**
 * The surface that a swivelling tool cuts, its centre perhaps off the work axis and its tip off height.
 * @throws GeneratrixError `impossible-geometry` for a tip that never reaches the cutting side.
 * @example
 * ```ts
 * import { swivelSurface } from 'generatrix/sphere';
 * swivelSurface({ swivelRadius: 25, centreOffset: 0.5 }).diameter; // => 51
 * swivelSurface({ swivelRadius: 25, centreOffset: 0.5 }).pipDiameter; // => 1
 * swivelSurface({ swivelRadius: 25, centreOffset: -7 }).endHeight; // => 24
 * // A nose of 1 that swings to where a sharp tip would end at the stem cuts into that.
 * swivelSurface({ swivelRadius: 25, swingToDeg: 150, noseRadius: 1 }).stemDiameter; // => 24
 * ```
 */
export function swivelSurface(options: SwivelSurfaceOptions): SwivelSurface {
  const given = read(options, OPTIONS);
  const { swivelRadius: s, centreOffset: e, centreHeight: v, swingFromDeg, swingToDeg, noseRadius, side } = given;
  if (swingToDeg <= swingFromDeg) {
    const phrase = say`must be greater than ${tell(swingFromDeg, { unit: '°' })}, where the swing begins`;
    return refuse('out-of-range', 'swingToDeg', swingToDeg, { kind: 'number', above: swingFromDeg, max: 180, phrase });
  }
  const nose = noseOnSphere(side, s, noseRadius, 'noseRadius');
  const [fromSine, toSine] = [sinDeg(swingFromDeg), sinDeg(swingToDeg)];
  const most = swingFromDeg <= 90 && swingToDeg >= 90 ? 1 : Math.max(fromSine, toSine);
  if (e + s * most <= 0) {
    const phrase = say`must be greater than ${tell(-s * most)}, or nothing is cut`;
    return refuse('impossible-geometry', 'centreOffset', e, { kind: 'number', above: -s * most, phrase });
  }
  // Past the work axis the tip is in the air of its own cut: the surface begins where it crosses.
  const crossing = Math.max(0, -e / s);
  const start = Math.max(fromSine, crossing);
  const least = Math.min(start, Math.max(toSine, crossing));
  const distance = (sine: number): number => fromCentre(plainArithmetic, s, e, v, sine, cosineOf(sine));
  const [a, b] = [distance(most), distance(least)];
  const stem = e + centreRadius(nose) * toSine - noseRadius;
  return sound({
    shape: e === 0 && v === 0 ? 'sphere' : e < 0 && v === 0 ? 'point' : 'stump',
    diameter: 2 * Math.hypot(e + s * most, v),
    pipDiameter: 2 * Math.hypot(start === crossing && e <= 0 ? 0 : e + s * start, v),
    endHeight: (swingFromDeg > 90 ? -s : s) * cosineOf(start),
    stemDiameter: side === 'socket' ? null : stem > 0 ? 2 * Math.hypot(stem, v) : 0,
    smallestRadius: Math.min(a, b),
    largestRadius: Math.max(a, b),
    // A difference of squares over a sum keeps the digits of a small offset.
    formDeviation: ((2 * Math.abs(e)) / (a + b)) * s * (most - least),
  });
}

function cosineOf(sine: number): number {
  return Math.sqrt((1 - sine) * (1 + sine));
}

/** Distance of the surface from the swivel's centre at a swing, given by its sine and cosine. */
function fromCentre<T>(a: Arithmetic<T>, radius: T, offset: T, height: T, sine: T, cosine: T): T {
  const across = a.square(a.add(offset, a.multiply(radius, sine)));
  const along = a.square(a.multiply(radius, cosine));
  return a.sqrt(a.add(a.add(across, along), a.square(height)));
}

/** Distance of the surface from the swivel's centre at a swing, as a model for an error budget. */
export const swivelModel: Model<'swivelRadius' | 'swingDeg', 'centreOffset' | 'centreHeight'> = /* @__PURE__ */ frozen({
  name: 'swivel',
  result: { kind: 'length', meaning: 'radius of the ball or socket at a swing, from the swivel centre' },
  inputs: {
    swivelRadius: { kind: 'length', meaning: 'from the swivel centre to the tip' },
    centreOffset: { kind: 'length', meaning: 'swivel centre off the work axis', isError: true },
    centreHeight: { kind: 'length', meaning: 'tip off centre height', isError: true },
    swingDeg: { kind: 'angleDeg', meaning: 'swing from the work axis' },
  },
  evaluate: (a, { swivelRadius, centreOffset, centreHeight, swingDeg }) =>
    fromCentre(a, swivelRadius, centreOffset, centreHeight, a.sinDeg(swingDeg), a.cosDeg(swingDeg)),
});
