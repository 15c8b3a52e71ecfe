/**
 * A cone through measured points: least squares with the uncertainty of axis and angle, and minimum
 * zone. The signed distance of a point is ρ cos α - a sin α - s, with ρ its distance from the axis, a its
 * place along it, and s the distance from the side to the point where a = 0. Lengths in any one unit, angles in degrees.
 */
import { refuse } from '../core/errors.js';
import { dot } from '../core/linear.js';
import { array, defaulted, type Fields, number, optional, positive, read } from '../core/read.js';
import { toDegrees, toRadians } from '../core/trigonometry.js';
import type { Shape } from './fit.js';
import { bothFits, type ThroughPoints, type ThroughPointsOptions } from './fit-report.js';
import { type Columns, columnsOf, middleOf, type Point, point } from './points.js';

/** Points of a cone. */
export interface ConeThroughPointsOptions extends ThroughPointsOptions {
  /**
   * A rough direction of the axis, from which the search starts; it may be wrong by some 20°.
   * @defaultValue `[0, 0, 1]`, the z axis
   */
  readonly roughAxis?: Point;
  /** A rough half angle in degrees, from which the search starts; it may be a few degrees wrong. @defaultValue 5 */
  readonly roughHalfAngleDeg?: number;
}

/** A cone. */
export interface FittedCone {
  /** The point of the axis in the plane of reference, beside the middle of the points. */
  readonly axisPoint: Point;
  /** Direction of the axis, of length one, towards the large end. */
  readonly axisDirection: Point;
  /** Half angle in degrees; negative never: the direction turns round instead. */
  readonly halfAngleDeg: number;
  /** Diameter at the axis point. */
  readonly diameter: number;
}

/** Standard uncertainties of a fitted cone. */
export interface ConeUncertainty {
  /** Of the half angle, in degrees. */
  readonly halfAngleDeg: number;
  /** Of the diameter at the axis point. */
  readonly diameter: number;
}

/** A cone through points. */
export type ConeThroughPoints = ThroughPoints<FittedCone, ConeUncertainty>;

/** A cone as it is fitted: half angle in radians, and s as above. */
interface Fitted {
  readonly point: Point;
  readonly axis: Point;
  readonly alpha: number;
  readonly s: number;
}

const UNKNOWNS = 6;

const FIELDS: Fields<ConeThroughPointsOptions, 'roughAxis' | 'roughHalfAngleDeg'> = {
  points: array(point, UNKNOWNS + 1),
  standardUncertainty: optional(positive),
  roughAxis: defaulted(point, [0, 0, 1]),
  roughHalfAngleDeg: defaulted(number({ above: 0, below: 90 }), 5),
};

/**
 * Fits a cone to measured points.
 * @throws GeneratrixError `impossible-geometry` if the points do not determine a cone, `out-of-range` if
 * there are fewer than seven, `not-converged` if the search does not settle.
 * @example
 * ```ts
 * import { coneThroughPoints } from 'generatrix';
 * const points = [0, 1, 2, 3, 4, 5, 6, 7].map((i) => {
 *   const [z, turn] = [10 * (i % 3), (2 * Math.PI * i) / 8];
 *   const r = 10 + 0.1 * z;
 *   return [r * Math.cos(turn), r * Math.sin(turn), z] as const;
 * });
 * const { leastSquares } = coneThroughPoints({ points });
 * Math.round(Math.tan((leastSquares.halfAngleDeg * Math.PI) / 180) * 1e9) / 1e9; // => 0.1
 * ```
 */
export function coneThroughPoints(options: ConeThroughPointsOptions): ConeThroughPoints {
  const { points: given, standardUncertainty, roughAxis, roughHalfAngleDeg } = read(options, FIELDS);
  if (dot(roughAxis, roughAxis) === 0) return refuse('out-of-range', 'roughAxis', roughAxis, 'must have a direction');
  const points = columnsOf(given);
  const start = firstCone(points, unit(roughAxis), toRadians(roughHalfAngleDeg));
  const told = (cone: Fitted): FittedCone => describe(cone, points);
  return bothFits(CONE, points, start, UNKNOWNS, standardUncertainty, told, (ofPoint, fit) => {
    // Diameter = 2 s / cos α: its variance from those of s and α and their covariance.
    const { alpha, s } = fit.shape;
    const [da, ds] = [(2 * s * Math.sin(alpha)) / Math.cos(alpha) ** 2, 2 / Math.cos(alpha)];
    const C = fit.unitCovariance;
    const variance =
      da * da * (C[4]?.[4] as number) + 2 * da * ds * (C[4]?.[5] as number) + ds * ds * (C[5]?.[5] as number);
    return {
      halfAngleDeg: toDegrees(ofPoint * Math.sqrt(C[4]?.[4] as number)),
      diameter: ofPoint * Math.sqrt(variance),
    };
  });
}

/** Two directions square to the axis. */
function across(axis: Point): readonly [Point, Point] {
  const helper: Point = Math.abs(axis[0]) < 0.7 ? [1, 0, 0] : [0, 1, 0];
  const u = unit(cross(axis, helper));
  return [u, cross(axis, u)];
}

const CONE: Shape<Fitted> = {
  distances: (cone, points) => {
    const { along, rho } = seen(cone, points);
    const [cos, sin] = [Math.cos(cone.alpha), Math.sin(cone.alpha)];
    return rho.map((value, i) => value * cos - (along[i] as number) * sin - cone.s);
  },
  changes: (cone, points) => {
    const { along, rho, outU, outV } = seen(cone, points);
    const [cos, sin] = [Math.cos(cone.alpha), Math.sin(cone.alpha)];
    const tilt = along.map((value, i) => -(value * cos + (rho[i] as number) * sin));
    return [
      outU.map((value) => -value * cos),
      outV.map((value) => -value * cos),
      outU.map((value, i) => value * (tilt[i] as number)),
      outV.map((value, i) => value * (tilt[i] as number)),
      along.map((value, i) => -(rho[i] as number) * sin - value * cos),
      new Float64Array(along.length).fill(-1),
    ];
  },
  moved: ({ point, axis, alpha, s }, [pu = 0, pv = 0, tu = 0, tv = 0, da = 0, ds = 0]) => {
    const [u, v] = across(axis);
    const next = {
      point: combine([1, point], [pu, u], [pv, v]),
      axis: unit(combine([1, axis], [tu, u], [tv, v])),
      alpha: alpha + da,
      s: s + ds,
    };
    return Math.abs(next.alpha) < Math.PI / 2 && next.s > 0 ? next : undefined;
  },
};

/** Points as seen from the cone's axis: place along it, distance from it, and the outward direction across it. */
function seen(
  { point: [px, py, pz], axis }: Fitted,
  { x, y, z }: Columns,
): Readonly<Record<'along' | 'rho' | 'outU' | 'outV', Float64Array>> {
  const [u, v] = across(axis);
  const part = ([a, b, c]: Point): Float64Array =>
    x.map((value, i) => (value - px) * a + ((y[i] as number) - py) * b + ((z[i] as number) - pz) * c);
  const [along, outU, outV] = [part(axis), part(u), part(v)];
  const rho = outU.map((value, i) => Math.sqrt(value ** 2 + (outV[i] as number) ** 2));
  rho.forEach((away, i) => {
    outU[i] = away === 0 ? 1 : (outU[i] as number) / away;
    outV[i] = away === 0 ? 0 : (outV[i] as number) / away;
  });
  return { along, rho, outU, outV };
}

function firstCone(points: Columns, axis: Point, alpha: number): Fitted {
  const rough = { point: middleOf(points), axis, alpha, s: 0 };
  const s = CONE.distances(rough, points).reduce((sum, value) => sum + value, 0) / points.x.length;
  return { ...rough, s: Math.max(s, Number.MIN_VALUE) };
}

/** The cone in the caller's terms, its axis point beside the middle of the points. */
function describe({ point, axis, alpha, s }: Fitted, points: Columns): FittedCone {
  const middle = dot(combine([1, middleOf(points)], [-1, point]), axis);
  const turn = alpha < 0 ? -1 : 1;
  return {
    axisPoint: combine([1, point], [middle, axis]),
    axisDirection: combine([turn, axis]),
    halfAngleDeg: toDegrees(Math.abs(alpha)),
    diameter: (2 * (s + middle * Math.sin(alpha))) / Math.cos(alpha),
  };
}

function combine(...terms: readonly (readonly [number, Point])[]): Point {
  const sum = (k: 0 | 1 | 2): number => terms.reduce((total, [weight, v]) => total + weight * v[k], 0);
  return [sum(0), sum(1), sum(2)];
}

function unit(v: Point): Point {
  return combine([1 / Math.sqrt(dot(v, v)), v]);
}

function cross([a, b, c]: Point, [x, y, z]: Point): Point {
  return [b * z - c * y, c * x - a * z, a * y - b * x];
}
