/**
 * How far from a sphere the surface of a sweep is: both best fits to the continuous meridian itself, its ends
 * included, not to a sample of it. Every length of meridian counts alike.
 *
 * Minimum zone by exchange: the exact fit to a few places (which no fit to the whole curve can undercut), then
 * the places where the whole curve strays farthest from it join them, until none strays farther than the fit
 * says. What is left between the two is `uncertainty`.
 */
import { refuse } from '../core/errors.js';
import { extremes } from '../core/linear.js';
import { type Fields, number, optional, read, readValue, sound } from '../core/read.js';
import { beyond, type Fitted, reference, squaresNear, zoneNear } from './fit-near.js';
import type { MeridianPoint } from './fit-points.js';
import type { SphereFit } from './fit-sphere.js';
import { dips, length2 } from './solve.js';
import {
  anywhere,
  type Sweep,
  type SweepArc,
  type SweptSide,
  sweepArc,
  sweepOf,
  sweepReader,
  sweptSide,
} from './sweep.js';
import { emptyPlace, placeAt, type Stretch, type SweptCurve, sweptCurve, turnDegOf } from './swept-curve.js';

/** What {@link sweepForm} needs: a sweep, and the stretch of its meridian to judge. */
export interface SweepFormOptions {
  /** The sweep, with its nose if the tool has one. */
  readonly sweep: Sweep;
  /** On which side of the path the finished part is: a ball keeps the inner branch, a socket the outer. */
  readonly side: SweptSide;
  /** The part of the sweep on which the tool cuts. @defaultValue All of it. */
  readonly arc?: SweepArc;
  /**
   * Lowest place of the tip, or of the nose's centre, along the work's axis, from the foot.
   * @defaultValue The sweep's end.
   */
  readonly fromZ?: number;
  /** Highest place of the tip or of the nose's centre. @defaultValue The sweep's end. */
  readonly toZ?: number;
}

/** A place where the meridian touches its zone. */
export interface SweepTouch extends MeridianPoint {
  /** The sweep's angle at which the tool passes there, 0 to 360 degrees. */
  readonly turnDeg: number;
  /** Signed distance from the fitted sphere. */
  readonly deviation: number;
}

/** How far from a sphere a sweep's meridian is. */
export interface SweepForm {
  /** Least-squares sphere, every length of meridian counting alike. */
  readonly leastSquares: SphereFit;
  /** Minimum-zone sphere and its proof. */
  readonly minimumZone: SphereFit & {
    /** No sphere can have a form deviation less than `formDeviation` less this. */
    readonly uncertainty: number;
    /** Three places by rising polar angle with equal deviations of changing sign; none without skew. */
    readonly alternation: readonly SweepTouch[];
  };
}

/**
 * How far from a sphere the surface of a sweep is, by least squares and by minimum zone (ISO 12181). With a nose
 * it is the surface as far as it exists: over the end of a ball up to where it meets the axis.
 * @returns Both fits with the zone's proof. Heights are from the foot, where the axes meet or pass.
 * @throws GeneratrixError `impossible-geometry` if the nose is larger than the curve that it should follow;
 * `out-of-range` if the stretch is empty or leaves the sweep.
 * @example
 * ```ts
 * import { sweepForm } from 'generatrix';
 * const sweep = { tiltDeg: 40, sweepRadius: 10, distance: 12, skew: 0.02 };
 * const { minimumZone } = sweepForm({ sweep, side: 'ball', fromZ: 3, toZ: 15 });
 * minimumZone.formDeviation.toFixed(6); // => '0.008361'
 * minimumZone.alternation.length; // => 3
 * ```
 */
export function sweepForm(options: SweepFormOptions): SweepForm {
  const { sweep: given, side, arc, fromZ, toZ } = read(options, FORM);
  const sweep = sweepOf(given);
  const [middle, reach] = [sweep.distance * sweep.cos, sweep.radius * sweep.sin];
  const [low, high] = [middle - reach, middle + reach];
  if (fromZ !== undefined) readValue(fromZ, number({ min: low, below: high }), 'fromZ');
  if (toZ !== undefined) readValue(toZ, number({ above: fromZ ?? low, max: high }), 'toZ');
  return sound(formOf(sweptCurve(sweep, side, { fromZ, toZ, arc })), 'sweep');
}

const FORM: Fields<SweepFormOptions> = {
  sweep: sweepReader,
  side: sweptSide,
  arc: optional(sweepArc),
  fromZ: optional(anywhere),
  toZ: optional(anywhere),
};

/** Panels of Simpson's rule on each smooth stretch. */
const PANELS = 512;

/** Both fits to a curve. */
export function formOf(curve: SweptCurve): SweepForm {
  const { sweep, offset } = curve;
  if (sweep.skew === 0) {
    const sphere = { centreZ: 0, radius: length2(sweep.distance, sweep.radius) + offset };
    const exact = { ...sphere, formDeviation: 0, peak: 0, valley: 0, rootMeanSquare: 0 };
    return { leastSquares: exact, minimumZone: { ...exact, uncertainty: 0, alternation: [] } };
  }
  const { points, weights } = columns(curve);
  const zone = minimumZone(curve);
  const squares = squaresNear(points, weights);
  if (!squares)
    return refuse('not-converged', 'sweep', sweep.tiltDeg, 'must sweep enough of a sphere to determine one');
  const touched = zone.alternation.map(({ turn }) => turn);
  return {
    leastSquares: sphereFit(curve, points, weights, squares, touched),
    minimumZone: {
      ...sphereFit(curve, points, weights, zone, touched),
      uncertainty: zone.uncertainty,
      alternation: zone.alternation.map(({ turn, ...touch }) => ({ ...touch, turnDeg: turnDegOf(curve, turn) })),
    },
  };
}

type Columns = ReturnType<typeof columns>;

/** Places on every smooth stretch with Simpson's weights by length of meridian. */
function columns(curve: SweptCurve) {
  const { radius: r, skew: e } = curve.sweep;
  // Where the path passes nearest to the axis it turns within a length of e²/r: stretches end there.
  const turn = Math.asin(Math.min(1, Math.abs(e) / r));
  const [one, other] = e < 0 ? [turn, Math.PI - turn] : [Math.PI + turn, 2 * Math.PI - turn];
  const smooth = curve.pieces.flatMap(([a, b]) => {
    const [low, high] = [Math.min(a, b), Math.max(a, b)];
    const stops = [low, ...[one, other].filter((t) => t > low && t < high), high];
    return stops.slice(1).map((stop, i): Stretch => [stops[i] as number, stop]);
  });
  const count = smooth.length * (PANELS + 1);
  const [u, v, weights] = [new Float64Array(count), new Float64Array(count), new Float64Array(count)];
  const place = emptyPlace();
  smooth.forEach(([from, to], k) => {
    for (let i = 0; i <= PANELS; i++) {
      placeAt(curve, from + ((to - from) * i) / PANELS, place);
      const at = k * (PANELS + 1) + i;
      u[at] = place.u;
      v[at] = place.v;
      weights[at] = (to - from) * place.speed * (i % PANELS === 0 ? 1 : i % 2 === 1 ? 4 : 2);
    }
  });
  return { points: { u, v, square: curve.square, middle: curve.middle }, weights };
}

/** Deviation of the curve from a sphere, as a function of the turn. */
function deviationFrom(curve: SweptCurve, { centre, above }: Fitted): (t: number) => number {
  const ref = reference(curve, centre);
  const place = emptyPlace();
  return (t) => {
    placeAt(curve, t, place);
    return beyond(place.u, place.v, centre, ref) - above;
  };
}

/** Extremes of a deviation along the whole curve, and where they stand. */
function span(off: (t: number) => number, { pieces }: SweptCurve, also: readonly number[] = []) {
  const places = pieces.flatMap(([from, to]) => [...dips(off, from, to, 128), ...dips((t) => -off(t), from, to, 128)]);
  const [low, high] = extremes([...places, ...also].map(off));
  return { places, low, high, width: high - low };
}

function sphereFit(
  curve: SweptCurve,
  { u, v }: Columns['points'],
  weights: Float64Array,
  fit: Fitted,
  touched: readonly number[],
): SphereFit {
  // The three touching places prove that no other sphere has a narrower zone, so they belong to every zone.
  const { low, high, width } = span(deviationFrom(curve, fit), curve, touched);
  const ref = reference(curve, fit.centre);
  let squares = 0;
  let total = 0;
  for (let i = 0; i < u.length; i++) {
    const weight = weights[i] as number;
    squares += weight * (beyond(u[i] as number, v[i] as number, fit.centre, ref) - fit.above) ** 2;
    total += weight;
  }
  return {
    centreZ: fit.centre + 0,
    radius: fit.radius,
    formDeviation: width,
    peak: high,
    valley: 0 - low,
    rootMeanSquare: Math.sqrt(squares / total),
  };
}

interface FoundZone extends Fitted {
  readonly uncertainty: number;
  readonly alternation: readonly (MeridianPoint & { readonly turn: number; readonly deviation: number })[];
}

/** Rounds of exchange: each but the first few squares what is missing, and what is left is told. */
const ROUNDS = 12;

function minimumZone(curve: SweptCurve): FoundZone {
  let turns = curve.pieces.flatMap(([from, to]) =>
    Array.from({ length: 33 }, (_, i) => from + ((to - from) * (1 - Math.cos((Math.PI * i) / 32))) / 2),
  );
  const place = emptyPlace();
  for (let round = 1; ; round++) {
    const [u, v] = [new Float64Array(turns.length), new Float64Array(turns.length)];
    turns.forEach((t, i) => {
      placeAt(curve, t, place);
      u[i] = place.u;
      v[i] = place.v;
    });
    const zone = zoneNear({ u, v, square: curve.square, middle: curve.middle }, Infinity);
    if (!zone) return refuse('not-converged', 'sweep', turns.length, 'must sweep enough of a sphere to determine one');
    const off = deviationFrom(curve, zone);
    const { places, width } = span(off, curve);
    const uncertainty = Math.max(0, width - zone.width);
    if (uncertainty <= 1e-12 * width || round === ROUNDS) {
      const [from, opposite, to] = zone.touching;
      const alternation = [to, opposite, from].map((i) => {
        const turn = turns[i] as number;
        placeAt(curve, turn, place);
        return { z: place.z + 0, radius: place.rho, turn, deviation: off(turn) };
      });
      return { ...zone, uncertainty, alternation };
    }
    turns = [...turns, ...places];
  }
}
