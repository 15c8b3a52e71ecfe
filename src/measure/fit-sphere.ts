/**
 * A sphere through measured points: least squares with the uncertainty of centre and radius, and
 * minimum zone, with the centre free or on a known axis. Vocabulary of ISO 12180/12181 for form. Lengths in any one unit.
 */
import { refuse } from '../core/errors.js';
import { array, choice, defaulted, type Fields, optional, positive, read } from '../core/read.js';
import { type Shape, solveLeastSquares } from './fit.js';
import { bothFits, checkDetermined, type ThroughPoints, type ThroughPointsOptions } from './fit-report.js';
import { type Columns, columnsOf, middleOf, type Point, point } from './points.js';

/** Points of a sphere. */
export interface SphereThroughPointsOptions extends ThroughPointsOptions {
  /** Whether the centre may be anywhere, or lies on the z axis. @defaultValue `'free'` */
  readonly centre?: 'free' | 'on-axis';
}

/** A sphere. */
export interface FittedSphere {
  /** Centre. */
  readonly centre: Point;
  /** Radius. */
  readonly radius: number;
}

/** Standard uncertainties of a fitted sphere. */
export interface SphereUncertainty {
  /** Of the centre's coordinates; 0 where they were given. */
  readonly centre: Point;
  /** Of the radius. */
  readonly radius: number;
}

/** A sphere through points. */
export type SphereThroughPoints = ThroughPoints<FittedSphere, SphereUncertainty>;

const FIELDS: Fields<SphereThroughPointsOptions, 'centre'> = {
  points: array(point),
  centre: defaulted(choice('free', 'on-axis'), 'free'),
  standardUncertainty: optional(positive),
};

/**
 * Fits a sphere to measured points.
 * @throws GeneratrixError `impossible-geometry` if the points do not determine a sphere, `out-of-range` if
 * there are too few (five, or three with the centre on the axis; one less if the uncertainty is known),
 * `not-converged` if the search does not settle.
 * @example
 * ```ts
 * import { sphereThroughPoints } from 'generatrix';
 * const points = [[5, 0, 0], [-5, 0, 0], [0, 5, 0], [0, -5, 0], [0, 0, 5], [0, 3, 4]] as const;
 * const { leastSquares } = sphereThroughPoints({ points });
 * Math.round(leastSquares.radius * 1e9) / 1e9; // => 5
 * ```
 */
export function sphereThroughPoints(options: SphereThroughPointsOptions): SphereThroughPoints {
  const { points: given, centre, standardUncertainty: known } = read(options, FIELDS);
  const free = centre === 'free';
  const unknowns = free ? 4 : 2;
  const least = known === undefined ? unknowns + 1 : unknowns;
  if (given.length < least) refuse('out-of-range', 'points', given, array(point, least).allowed);
  const points = columnsOf(given);
  return bothFits(sphereShape(free), points, firstSphere(points, free), unknowns, known, told, (ofPoint, fit) => {
    const u = (k: number): number => ofPoint * Math.sqrt(fit.unitCovariance[k]?.[k] as number);
    return { centre: free ? [u(0), u(1), u(2)] : [0, 0, u(0)], radius: u(unknowns - 1) };
  });
}

function told({ centre, radius }: FittedSphere): FittedSphere {
  return { centre: [centre[0], centre[1], centre[2]], radius };
}

function distancesFrom([cx, cy, cz]: Point, { x, y, z }: Columns): Float64Array {
  return x.map((value, i) =>
    Math.sqrt((value - cx) ** 2 + ((y[i] as number) - cy) ** 2 + ((z[i] as number) - cz) ** 2),
  );
}

function sphereShape(free: boolean): Shape<FittedSphere> {
  return {
    distances: ({ centre, radius }, points) => distancesFrom(centre, points).map((away) => away - radius),
    changes: ({ centre }, points) => {
      const away = distancesFrom(centre, points).map((value) => value || Number.MIN_VALUE);
      const inward = new Float64Array(away.length).fill(-1);
      const along = ([values, c]: readonly [Float64Array, number]): Float64Array =>
        values.map((value, i) => (c - value) / (away[i] as number));
      const [x, y, z] = [
        [points.x, centre[0]] as const,
        [points.y, centre[1]] as const,
        [points.z, centre[2]] as const,
      ];
      return free ? [along(x), along(y), along(z), inward] : [along(z), inward];
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
function firstSphere(points: Columns, free: boolean): FittedSphere {
  const middle = middleOf(points);
  const about: Point = free ? middle : [0, 0, middle[2]];
  const twice = (values: Float64Array, k: 0 | 1 | 2): Float64Array => values.map((value) => 2 * (value - about[k]));
  const ones = new Float64Array(points.x.length).fill(1);
  const z = twice(points.z, 2);
  const columns = free ? [twice(points.x, 0), twice(points.y, 1), z, ones] : [z, ones];
  const fit = solveLeastSquares(
    columns,
    distancesFrom(about, points).map((away) => -away * away),
  );
  checkDetermined(fit.condition, points);
  const [a = 0, b = 0, c = 0] = free ? fit.step : [0, 0, fit.step[0]];
  const squared = (fit.step.at(-1) ?? 0) + a * a + b * b + c * c;
  return { centre: [about[0] + a, about[1] + b, about[2] + c], radius: Math.sqrt(Math.max(squared, Number.MIN_VALUE)) };
}
