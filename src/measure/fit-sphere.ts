/**
 * A sphere through measured points: least squares with the uncertainty of centre and radius, and
 * minimum zone, with the centre free or on a known axis. Vocabulary of ISO 12180/12181 for form.
 */
import { choice, options, positive } from '../core/checks.js';
import type { Note } from '../core/notes.js';
import { dot, leastSquares, minimumZone, type Point, readPoints, type Shape, solveLeastSquares } from './fit.js';
import {
  checkDetermined,
  type FitForm,
  type FitUncertainty,
  form,
  scatter,
  spreadNotes,
  type ZoneProof,
} from './fit-report.js';

/** A sphere. */
export interface FittedSphere {
  /** Centre. */
  readonly centre: Point;
  /** Radius. */
  readonly radius: number;
}

/** A sphere through points. */
export interface SphereThroughPoints {
  /** Least squares. */
  readonly leastSquares: FittedSphere &
    FitForm & {
      /** Uncertainty of the fit. */
      readonly uncertainty: FitUncertainty & {
        /** Standard uncertainties of the centre's coordinates; 0 where they were given. */
        readonly centre: Point;
        /** Standard uncertainty of the radius. */
        readonly radius: number;
      };
    };
  /** Minimum zone: its `formDeviation` is the roundness deviation in the sense of the standards. */
  readonly minimumZone: FittedSphere & FitForm & ZoneProof;
  /** Says when the points determine the sphere poorly. */
  readonly notes: readonly Note[];
}

/**
 * Fits a sphere to measured points.
 *
 * @param request - Points as [x, y, z]; whether the centre is `free` (the default) or lies on the z axis
 * (`on-axis`, as on turned work); and the standard uncertainty of a point's distance, if it is known (else
 * it is taken from the scatter, which needs at least one point more than there are unknowns).
 * @returns Least-squares and minimum-zone sphere.
 * @throws GeneratrixError `impossible-geometry` if the points do not determine a sphere, `out-of-range` if they are too few.
 * @example
 * ```ts
 * import { sphereThroughPoints } from 'generatrix';
 * const points = [[5, 0, 0], [-5, 0, 0], [0, 5, 0], [0, -5, 0], [0, 0, 5], [3, 0, 4]] as const;
 * const { leastSquares } = sphereThroughPoints({ points });
 * Math.round(leastSquares.radius * 1e9) / 1e9; // => 5
 * ```
 */
export function sphereThroughPoints(request: {
  readonly points: readonly Point[];
  readonly centre?: 'free' | 'on-axis';
  readonly standardUncertainty?: number;
}): SphereThroughPoints {
  options(request, 'request', ['points'], ['centre', 'standardUncertainty']);
  const free = choice(request.centre ?? 'free', 'centre', ['free', 'on-axis']) === 'free';
  const unknowns = free ? 4 : 2;
  const known =
    request.standardUncertainty === undefined
      ? undefined
      : positive(request.standardUncertainty, 'standardUncertainty');
  const points = readPoints(request.points, 'points', known === undefined ? unknowns + 1 : unknowns);
  const shape = sphereShape(free);
  const start = firstSphere(points, free);
  const fit = leastSquares(shape, points, start);
  checkDetermined(fit.condition, points);
  const zone =
    points.length > unknowns ? minimumZone(shape, points, fit.shape) : { ...fit, contacts: [...points.keys()], gap: 0 };
  const ofPoint = known ?? scatter(fit.residuals, unknowns);
  const u = (k: number): number => ofPoint * Math.sqrt(fit.unitCovariance.get(k, k));
  return {
    leastSquares: {
      ...fit.shape,
      ...form(fit.residuals),
      uncertainty: {
        ofPoint,
        ...(known === undefined ? { degreesOfFreedom: points.length - unknowns } : {}),
        condition: fit.condition,
        centre: free ? [u(0), u(1), u(2)] : [0, 0, u(0)],
        radius: u(unknowns - 1),
      },
    },
    minimumZone: { ...zone.shape, ...form(zone.residuals), contacts: zone.contacts, provenWithin: zone.gap },
    notes: spreadNotes(fit.condition),
  };
}

function sphereShape(free: boolean): Shape<FittedSphere> {
  return {
    distance: ({ centre, radius }, point) => distance(centre, point) - radius,
    changes: ({ centre }, point) => {
      const away = distance(centre, point) || Number.MIN_VALUE;
      const [x, y, z] = centre.map((value, k) => (value - (point[k] ?? 0)) / away) as unknown as Point;
      return free ? [x, y, z, -1] : [z, -1];
    },
    moved: ({ centre: [x, y, z], radius }, step) => {
      const [dx = 0, dy = 0, dz = 0] = free ? step : [0, 0, step[0]];
      const grown = radius + (step.at(-1) ?? 0);
      return grown > 0 ? { centre: [x + dx, y + dy, z + dz], radius: grown } : undefined;
    },
  };
}

/**
 * A start for the fit: the linear least-squares solution of |p|² = 2 c·p + (R² - |c|²), taken about the
 * points' own middle so that squares lose no digits. Exact for exact points.
 */
function firstSphere(points: readonly Point[], free: boolean): FittedSphere {
  const middle = (k: 0 | 1 | 2): number => points.reduce((sum, point) => sum + point[k], 0) / points.length;
  const about: Point = free ? [middle(0), middle(1), middle(2)] : [0, 0, middle(2)];
  const local = points.map((point) => point.map((value, k) => value - (about[k] ?? 0)) as unknown as Point);
  const rows = local.map(([x, y, z]) => (free ? [2 * x, 2 * y, 2 * z, 1] : [2 * z, 1]));
  const fit = solveLeastSquares(
    rows,
    local.map((point) => -dot(point, point)),
  );
  checkDetermined(fit.condition, points);
  const [a = 0, b = 0, c = 0] = free ? fit.step : [0, 0, fit.step[0]];
  const squared = (fit.step.at(-1) ?? 0) + a * a + b * b + c * c;
  return { centre: [about[0] + a, about[1] + b, about[2] + c], radius: Math.sqrt(Math.max(squared, Number.MIN_VALUE)) };
}

function distance(centre: Point, point: Point): number {
  return Math.sqrt(centre.reduce((sum, value, k) => sum + (value - (point[k] ?? 0)) ** 2, 0));
}
