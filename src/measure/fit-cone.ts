/**
 * A cone through measured points: least squares with the uncertainty of axis and angle, and minimum
 * zone. The signed distance of a point is ρ cos α - a sin α - s, with ρ its distance from the axis, a its
 * place along it, and s the distance from the side to the point where a = 0.
 */
import { number, options, positive } from '../core/checks.js';
import { refuse } from '../core/errors.js';
import type { Note } from '../core/notes.js';
import { toDegrees, toRadians } from '../core/trigonometry.js';
import { dot, leastSquares, minimumZone, type Point, readPoints, type Shape } from './fit.js';
import {
  checkDetermined,
  type FitForm,
  type FitUncertainty,
  form,
  scatter,
  spreadNotes,
  type ZoneProof,
} from './fit-report.js';

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

/** A cone through points. */
export interface ConeThroughPoints {
  /** Least squares. */
  readonly leastSquares: FittedCone &
    FitForm & {
      /** Uncertainty of the fit. */
      readonly uncertainty: FitUncertainty & {
        /** Standard uncertainty of the half angle, in degrees. */
        readonly halfAngleDeg: number;
        /** Standard uncertainty of the diameter at the axis point. */
        readonly diameter: number;
      };
    };
  /** Minimum zone. */
  readonly minimumZone: FittedCone & FitForm & ZoneProof;
  /** Says when the points determine the cone poorly. */
  readonly notes: readonly Note[];
}

/** A cone as it is fitted: half angle in radians, and s as above. */
interface Fitted {
  readonly point: Point;
  readonly axis: Point;
  readonly alpha: number;
  readonly s: number;
}

const UNKNOWNS = 6;

/**
 * Fits a cone to measured points.
 *
 * @param request - Points as [x, y, z]; a rough direction of the axis (z if left out, wrong by up to some
 * 20°), and a rough half angle in degrees (a few degrees wrong; 5 if left out), from which the search
 * starts; and the standard uncertainty of a point's distance, if it is known (else it is taken from the scatter).
 * @returns Least-squares and minimum-zone cone.
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
export function coneThroughPoints(request: {
  readonly points: readonly Point[];
  readonly roughAxis?: Point;
  readonly roughHalfAngleDeg?: number;
  readonly standardUncertainty?: number;
}): ConeThroughPoints {
  options(request, 'request', ['points'], ['roughAxis', 'roughHalfAngleDeg', 'standardUncertainty']);
  const known =
    request.standardUncertainty === undefined
      ? undefined
      : positive(request.standardUncertainty, 'standardUncertainty');
  const points = readPoints(request.points, 'points', UNKNOWNS + 1);
  const [axis = [0, 0, 1] as Point] = readPoints([request.roughAxis ?? [0, 0, 1]], 'roughAxis', 1);
  if (dot(axis, axis) === 0) return refuse('out-of-range', 'roughAxis', axis, 'must have a direction');
  const alpha = toRadians(number(request.roughHalfAngleDeg ?? 5, 'roughHalfAngleDeg', { above: 0, below: 90 }));
  const fit = leastSquares(CONE, points, firstCone(points, unit(axis), alpha));
  checkDetermined(fit.condition, points);
  const zone = minimumZone(CONE, points, fit.shape);
  const ofPoint = known ?? scatter(fit.residuals, UNKNOWNS);
  // Diameter = 2 s / cos α: its variance from those of s and α and their covariance.
  const { alpha: a, s } = fit.shape;
  const [da, ds] = [(2 * s * Math.sin(a)) / Math.cos(a) ** 2, 2 / Math.cos(a)];
  const C = fit.unitCovariance;
  const variance = da * da * C.get(4, 4) + 2 * da * ds * C.get(4, 5) + ds * ds * C.get(5, 5);
  return {
    leastSquares: {
      ...describe(fit.shape, points),
      ...form(fit.residuals),
      uncertainty: {
        ofPoint,
        ...(known === undefined ? { degreesOfFreedom: points.length - UNKNOWNS } : {}),
        condition: fit.condition,
        halfAngleDeg: toDegrees(ofPoint * Math.sqrt(C.get(4, 4))),
        diameter: ofPoint * Math.sqrt(variance),
      },
    },
    minimumZone: {
      ...describe(zone.shape, points),
      ...form(zone.residuals),
      contacts: zone.contacts,
      provenWithin: zone.gap,
    },
    notes: spreadNotes(fit.condition),
  };
}

/** Two directions square to the axis. */
function across(axis: Point): readonly [Point, Point] {
  const helper: Point = Math.abs(axis[0]) < 0.7 ? [1, 0, 0] : [0, 1, 0];
  const u = unit(cross(axis, helper));
  return [u, cross(axis, u)];
}

const CONE: Shape<Fitted> = {
  distance: (cone, p) => {
    const { along, rho } = seen(cone, p);
    return rho * Math.cos(cone.alpha) - along * Math.sin(cone.alpha) - cone.s;
  },
  changes: (cone, p) => {
    const { along, rho, outward } = seen(cone, p);
    const [cos, sin] = [Math.cos(cone.alpha), Math.sin(cone.alpha)];
    const [u, v] = across(cone.axis);
    const tilt = -(along * cos + rho * sin);
    const [ou, ov] = [dot(outward, u), dot(outward, v)];
    return [-ou * cos, -ov * cos, ou * tilt, ov * tilt, -rho * sin - along * cos, -1];
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

/** A point as seen from the cone's axis. */
function seen({ point, axis }: Fitted, p: Point): { along: number; rho: number; outward: Point } {
  const q = combine([1, p], [-1, point]);
  const along = dot(q, axis);
  const radial = combine([1, q], [-along, axis]);
  const rho = Math.sqrt(dot(radial, radial));
  return { along, rho, outward: rho === 0 ? across(axis)[0] : combine([1 / rho, radial]) };
}

function firstCone(points: readonly Point[], axis: Point, alpha: number): Fitted {
  const point = combine(...points.map((p): [number, Point] => [1 / points.length, p]));
  const rough = { point, axis, alpha, s: 0 };
  const s = points.reduce((sum, p) => sum + CONE.distance(rough, p), 0) / points.length;
  return { ...rough, s: Math.max(s, Number.MIN_VALUE) };
}

/** The cone in the caller's terms, its axis point beside the middle of the points. */
function describe({ point, axis, alpha, s }: Fitted, points: readonly Point[]): FittedCone {
  const middle = points.reduce((sum, p) => sum + dot(combine([1, p], [-1, point]), axis), 0) / points.length;
  const turn = alpha < 0 ? -1 : 1;
  return {
    axisPoint: combine([1, point], [middle, axis]),
    axisDirection: combine([turn, axis]),
    halfAngleDeg: toDegrees(Math.abs(alpha)),
    diameter: (2 * (s + middle * Math.sin(alpha))) / Math.cos(alpha),
  };
}

function combine(...terms: readonly (readonly [number, Point])[]): Point {
  return [0, 1, 2].map((k) => terms.reduce((sum, [weight, v]) => sum + weight * (v[k] ?? 0), 0)) as unknown as Point;
}

function unit(v: Point): Point {
  return combine([1 / Math.sqrt(dot(v, v)), v]);
}

function cross([a, b, c]: Point, [x, y, z]: Point): Point {
  return [b * z - c * y, c * x - a * z, a * y - b * x];
}
