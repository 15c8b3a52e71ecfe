/**
 * The sphere with its centre on the work's axis that fits a meridian best, by least squares and by
 * minimum zone. Lengths in any one unit.
 *
 * Minimum zone: for a centre at height c, ρ² + (z - c)² is, but for a part common to all points, linear in
 * c. So the farthest and the nearest point change only at edges of the convex hull of (z, ρ² + z²); between
 * them the width of the zone, as a function of c, bends downward wherever it is level, so that its least
 * value stands at an edge. Trying every edge is exact and global.
 */
import { refuse } from '../core/errors.js';
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

/** A sphere with its centre on the axis, and how far the points lie from it. */
export interface SphereFit extends FormDeviation {
  /** Height of the centre on the work's axis. */
  readonly centreZ: number;
  /** Radius. */
  readonly radius: number;
}

/** A minimum-zone sphere with the three points that prove it. */
export interface ZoneSphere extends SphereFit {
  /** Three points by rising polar angle whose deviations are equal and change sign. */
  readonly alternation: readonly [AlternationPoint, AlternationPoint, AlternationPoint];
}

/**
 * Least-squares sphere with its centre on the axis: least sum of squared distances from the sphere.
 *
 * @param input - At least three points of a meridian.
 * @returns Centre, radius and deviations.
 * @throws GeneratrixError `impossible-geometry` if all points lie at one height, `not-converged` if they
 * determine no sphere (they lie on a flat face, or on a cylinder's short stretch with noise).
 * @example
 * ```ts
 * import { leastSquaresSphere } from 'generatrix';
 * const points = [{ z: 5, rho: 0 }, { z: 4, rho: 3 }, { z: 0, rho: 5 }, { z: -3, rho: 4 }];
 * const { centreZ, radius } = leastSquaresSphere({ points });
 * [centreZ.toFixed(12), radius.toFixed(12)]; // => ['0.000000000000', '5.000000000000']
 * ```
 */
export function leastSquaresSphere(input: FitInput): SphereFit {
  const columns = readPoints(input);
  const { centreZ, radius } = bestSquares(columns, new Float64Array(columns.z.length).fill(1));
  const deviations = columns.z.map((z, i) => length2(z - centreZ, columns.rho[i] as number) - radius);
  return { centreZ, radius, ...summarise(deviations) };
}

/** Mean of a quantity over all points. */
function weightedMean(weights: Float64Array, value: (i: number) => number): number {
  let sum = 0;
  let total = 0;
  weights.forEach((weight, i) => {
    sum += weight * value(i);
    total += weight;
  });
  return sum / total;
}

/** Fit of ρ² + z² = 2 c z + constant, which is linear: a good start for either true fit. */
function algebraicSphere({ z, rho }: Columns, weights: Float64Array): { centreZ: number; radius: number } {
  const zMean = weightedMean(weights, (i) => z[i] as number);
  const u = (i: number): number => (z[i] as number) - zMean;
  const above = weightedMean(weights, (i) => u(i) * (u(i) ** 2 + (rho[i] as number) ** 2));
  const centre = above / (2 * weightedMean(weights, (i) => u(i) ** 2));
  return { centreZ: zMean + centre, radius: weightedMean(weights, (i) => length2(u(i) - centre, rho[i] as number)) };
}

/**
 * Weighted least squares by Gauss and Newton, from the algebraic fit: with the radius eliminated as the
 * mean distance, only the centre's height is left. A step that makes matters worse is halved.
 */
export function bestSquares(columns: Columns, weights: Float64Array): { centreZ: number; radius: number } {
  const start = algebraicSphere(columns, weights);
  const u = columns.z.map((z) => z - start.centreZ);
  const mean = (value: (i: number) => number): number => weightedMean(weights, value);
  const state = (shift: number) => {
    const distance = u.map((value, i) => length2(value - shift, columns.rho[i] as number));
    const radius = mean((i) => distance[i] as number);
    const cosine = u.map((value, i) => (value - shift) / (distance[i] || 1));
    const cosineMean = mean((i) => cosine[i] as number);
    const off = (i: number): number => (cosine[i] as number) - cosineMean;
    const slope = mean((i) => ((distance[i] as number) - radius) * off(i));
    const bend = mean((i) => off(i) ** 2);
    return { shift, radius, error: mean((i) => ((distance[i] as number) - radius) ** 2), step: slope / bend };
  };
  let now = state(0);
  for (let round = 0; round < 200; round++) {
    if (Math.abs(now.step) <= 4 * Number.EPSILON * now.radius) {
      return { centreZ: start.centreZ + now.shift, radius: now.radius };
    }
    let next = state(now.shift + now.step);
    // The error cannot fall below its own rounding; a step within that is as good as taken.
    const bearable = now.error * (1 + 1e-9) + (8 * Number.EPSILON * now.radius) ** 2;
    for (let step = now.step / 2; next.error > bearable && now.shift + step !== now.shift; step /= 2) {
      next = state(now.shift + step);
    }
    now = next;
  }
  return refuse('not-converged', 'input.points', u.length, 'must determine a sphere with its centre on the axis');
}

/**
 * Minimum-zone sphere with its centre on the axis: of all pairs of concentric spheres that hold every
 * point between them the closest pair, found exactly, never by a search that could stop short.
 *
 * @param input - At least three points of a meridian.
 * @returns Centre, mean radius, zone, and the three points that prove that there is no smaller zone.
 * @throws GeneratrixError `impossible-geometry` if all points lie at one height, or if two planes across
 * the axis hold them more closely than two spheres.
 * @example
 * ```ts
 * import { minimumZoneSphere } from 'generatrix';
 * const points = [{ z: 11, rho: 0 }, { z: 0, rho: 9 }, { z: -11, rho: 0 }, { z: 6, rho: 8 }];
 * const fit = minimumZoneSphere({ points });
 * [fit.radius, fit.peakToValley.toFixed(12)]; // => [10, '2.000000000000']
 * fit.alternation.map(({ deviation }) => deviation.toFixed(12)); // => ['1.000000000000', '-1.000000000000', '1.000000000000']
 * ```
 */
export function minimumZoneSphere(input: FitInput): ZoneSphere {
  return smallestZone(readPoints(input));
}

/** The fit itself, for points that are known to be sound. */
export function smallestZone({ z, rho }: Columns): ZoneSphere {
  // Measured from a centre and a radius near the result, so that form errors keep their digits.
  const near = algebraicSphere({ z, rho }, new Float64Array(z.length).fill(1));
  const u = z.map((value) => value - near.centreZ);
  const v = u.map((value, i) => {
    const distance = length2(value, rho[i] as number);
    return (distance - near.radius) * (distance + near.radius);
  });
  const distanceFrom = (i: number, shift: number): number => length2((u[i] as number) - shift, rho[i] as number);
  let best = { width: zExtent(z), shift: 0, edge: [0, 0] as readonly [number, number], opposite: -1 };
  for (const { slope, edge, opposite, edgeAbove } of touchings(u, v)) {
    const shift = slope / 2;
    const gap =
      (v[edge[0]] as number) - (v[opposite] as number) - slope * ((u[edge[0]] as number) - (u[opposite] as number));
    const width = ((edgeAbove ? 1 : -1) * gap) / (distanceFrom(edge[0], shift) + distanceFrom(opposite, shift));
    if (width < best.width) best = { width, shift, edge, opposite };
  }
  if (best.opposite < 0) {
    return refuse('impossible-geometry', 'input.points', z.length, 'must not lie closer to a plane than to any sphere');
  }
  const { shift, edge, opposite } = best;
  const radius = (distanceFrom(edge[0], shift) + distanceFrom(opposite, shift)) / 2;
  const deviations = u.map((_, i) => distanceFrom(i, shift) - radius);
  const alternation = alternationOf({ z, rho }, deviations, [edge[1], opposite, edge[0]]);
  return { centreZ: near.centreZ + shift, radius, ...summarise(deviations), peakToValley: best.width, alternation };
}
