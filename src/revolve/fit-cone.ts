/**
 * The cone about the work's axis that fits a meridian best: a straight line in the half-plane of z and ρ,
 * by least squares and by minimum zone. Distances are taken square to the line, as for straightness.
 * Lengths in any one unit, angles in degrees. Minimum zone: the strip of least width that holds a set of
 * points lies along an edge of their convex hull; every edge is tried.
 */
import { refuse } from '../core/errors.js';
import { atanDeg } from '../core/trigonometry.js';
import { touchings } from './fit-hull.js';
import {
  type AlternationPoint,
  alternationOf,
  type Columns,
  type FitInput,
  type FormDeviation,
  readPoints,
  summarise,
  zExtent,
} from './fit-points.js';
import { length2 } from './solve.js';

/** A cone about the axis, and how far the points lie from it. */
export interface ConeFit extends FormDeviation {
  /** Angle between side and axis, positive where the cone grows with z, between -90 and 90 degrees. */
  readonly halfAngleDeg: number;
  /** Change of radius per unit of length along the axis: the tangent of the half angle. */
  readonly slope: number;
  /** Middle of the points along the axis: there the radius is best known. */
  readonly middleZ: number;
  /** Radius of the cone at `middleZ`. */
  readonly middleRadius: number;
}

/** A minimum-zone cone with the three points that prove it. */
export interface ZoneCone extends ConeFit {
  /** Three points along the cone whose deviations are equal and change sign. */
  readonly alternation: readonly [AlternationPoint, AlternationPoint, AlternationPoint];
}

/**
 * Least-squares cone about the axis: least sum of squared distances, taken square to its side.
 *
 * @param input - At least three points of a meridian.
 * @returns Half angle, radius at the middle of the points, and deviations.
 * @throws GeneratrixError `impossible-geometry` if all points lie at one height or on a flat face.
 * @example
 * ```ts
 * import { leastSquaresCone } from 'generatrix';
 * const fit = leastSquaresCone({ points: [{ z: 0, rho: 10 }, { z: 30, rho: 11.5 }, { z: 60, rho: 13 }] });
 * [fit.slope, fit.middleZ, fit.middleRadius, fit.peakToValley]; // => [0.05, 30, 11.5, 0]
 * ```
 */
export function leastSquaresCone(input: FitInput): ConeFit {
  const columns = readPoints(input);
  const { z, rho } = columns;
  const middleZ = mean(z);
  const rhoMean = mean(rho);
  let along = 0;
  let across = 0;
  let mixed = 0;
  z.forEach((value, i) => {
    const u = value - middleZ;
    const v = (rho[i] as number) - rhoMean;
    along += u * u;
    across += v * v;
    mixed += u * v;
  });
  // Direction of the greater axis of the points' ellipse of inertia, in the form that loses no digits.
  const difference = along - across;
  const root = length2(difference, 2 * mixed);
  const slope = difference > 0 ? (2 * mixed) / (difference + root) : (root - difference) / (2 * mixed);
  if (!Number.isFinite(slope)) {
    return refuse('impossible-geometry', 'input.points', z.length, 'must not lie on a flat face');
  }
  return coneThrough(columns, slope, middleZ, rhoMean).fit;
}

/**
 * Minimum-zone cone about the axis: of all pairs of parallel lines that hold every point of the meridian
 * between them the closest pair, found exactly.
 *
 * @param input - At least three points of a meridian.
 * @returns Half angle, radius at the middle, zone, and the three points that prove that none is smaller.
 * @throws GeneratrixError `impossible-geometry` if all points lie at one height, or closer to a flat face
 * than to any cone.
 * @example
 * ```ts
 * import { minimumZoneCone } from 'generatrix';
 * const points = [{ z: 0, rho: 10 }, { z: 30, rho: 11 }, { z: 60, rho: 10 }];
 * const fit = minimumZoneCone({ points });
 * [fit.halfAngleDeg, fit.middleRadius, fit.peakToValley]; // => [0, 10.5, 1]
 * fit.alternation.map(({ deviation }) => deviation); // => [-0.5, 0.5, -0.5]
 * ```
 */
export function minimumZoneCone(input: FitInput): ZoneCone {
  const columns = readPoints(input);
  const middleZ = mean(columns.z);
  const rhoMean = mean(columns.rho);
  const u = columns.z.map((value) => value - middleZ);
  const v = columns.rho.map((value) => value - rhoMean);
  let best = { width: zExtent(columns.z), slope: 0, edge: [0, 0] as readonly [number, number], opposite: -1 };
  for (const { slope, edge, opposite } of touchings(u, v)) {
    const [from] = edge;
    const gap = (v[from] as number) - (v[opposite] as number) - slope * ((u[from] as number) - (u[opposite] as number));
    const width = Math.abs(gap) / length2(1, slope);
    if (width < best.width) best = { width, slope, edge, opposite };
  }
  const { slope, edge, opposite } = best;
  if (opposite < 0) {
    return refuse('impossible-geometry', 'input.points', u.length, 'must not lie closer to a flat face than to a cone');
  }
  const height = (i: number): number => (v[i] as number) - slope * (u[i] as number);
  const offset = rhoMean + (height(edge[0]) + height(opposite)) / 2;
  const { fit, deviations } = coneThrough(columns, slope, middleZ, offset);
  const alternation = alternationOf(columns, deviations, [edge[0], opposite, edge[1]]);
  return { ...fit, peakToValley: best.width, alternation };
}

function coneThrough(
  { z, rho }: Columns,
  slope: number,
  middleZ: number,
  middleRadius: number,
): { fit: ConeFit; deviations: Float64Array } {
  const cos = 1 / length2(1, slope);
  const deviations = z.map((value, i) => ((rho[i] as number) - middleRadius - slope * (value - middleZ)) * cos);
  const halfAngleDeg = atanDeg(slope);
  return { fit: { halfAngleDeg, slope, middleZ, middleRadius, ...summarise(deviations) }, deviations };
}

function mean(values: Float64Array): number {
  let sum = 0;
  for (const value of values) sum += value;
  return sum / values.length;
}
