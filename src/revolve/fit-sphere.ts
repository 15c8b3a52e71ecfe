/**
 * The sphere with its centre on the work's axis that fits points of a meridian best, by least squares and by
 * minimum zone. Lengths in any one unit. The mathematics is in fit-near.ts.
 */
import { refuse } from '../core/errors.js';
import { extremes } from '../core/linear.js';
import { sound } from '../core/read.js';
import { beyond, type Fitted, type NearSphere, reference, squaresNear, zoneNear } from './fit-near.js';
import {
  type AlternationPoint,
  alternationOf,
  type Columns,
  type Deviations,
  type FitInput,
  readPoints,
  summarise,
} from './fit-points.js';
import { length2 } from './solve.js';

/** A sphere with its centre on the axis, and how far a surface lies from it. */
export interface SphereFit extends Deviations {
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
 * @param input - At least three points of a meridian.
 * @throws GeneratrixError `impossible-geometry` if all points lie at one height, `not-converged` if they
 * determine no sphere (they lie on a flat face, or on a cylinder's short stretch with noise).
 * @example
 * ```ts
 * import { leastSquaresSphere } from 'generatrix';
 * const points = [{ z: 5, radius: 0 }, { z: 4, radius: 3 }, { z: 0, radius: 5 }, { z: -3, radius: 4 }];
 * const { centreZ, radius } = leastSquaresSphere({ points });
 * [centreZ.toFixed(12), radius.toFixed(12)]; // => ['0.000000000000', '5.000000000000']
 * ```
 */
export function leastSquaresSphere(input: FitInput): SphereFit {
  const columns = readPoints(input);
  const { near, start } = nearSphere(columns);
  const fit = squaresNear(near, new Float64Array(columns.z.length).fill(1));
  if (!fit) {
    return refuse('not-converged', 'points', columns.z.length, 'must determine a sphere with its centre on the axis');
  }
  return sound({ centreZ: start + fit.centre, radius: fit.radius, ...summarise(deviationsFrom(near, fit)) }, 'points');
}

/**
 * Minimum-zone sphere with its centre on the axis: of all pairs of concentric spheres that hold every
 * point between them the closest pair, found exactly, never by a search that could stop short.
 * @param input - At least three points of a meridian.
 * @returns Centre, mean radius, zone, and the three points that prove that there is no smaller zone.
 * @throws GeneratrixError `impossible-geometry` if all points lie at one height, or if two planes across
 * the axis hold them more closely than two spheres.
 * @example
 * ```ts
 * import { minimumZoneSphere } from 'generatrix';
 * const points = [{ z: 11, radius: 0 }, { z: 0, radius: 9 }, { z: -11, radius: 0 }, { z: 6, radius: 8 }];
 * const fit = minimumZoneSphere({ points });
 * [fit.radius, fit.formDeviation.toFixed(12)]; // => [10, '2.000000000000']
 * fit.alternation.map(({ deviation }) => deviation.toFixed(12)); // => ['1.000000000000', '-1.000000000000', '1.000000000000']
 * ```
 */
export function minimumZoneSphere(input: FitInput): ZoneSphere {
  const columns = readPoints(input);
  const { near, start } = nearSphere(columns);
  const [lowest, highest] = extremes(columns.z);
  const zone = zoneNear(near, highest - lowest);
  if (!zone) {
    const count = columns.z.length;
    return refuse('impossible-geometry', 'points', count, 'must not lie closer to a plane than to any sphere');
  }
  const deviations = deviationsFrom(near, zone);
  const [from, opposite, to] = zone.touching;
  const fit = {
    centreZ: start + zone.centre,
    radius: zone.radius,
    ...summarise(deviations),
    formDeviation: zone.width,
    alternation: alternationOf(columns, deviations, [to, opposite, from]),
  };
  return sound(fit, 'points');
}

/** Points measured from the sphere of the fit of ρ² + z² = 2 c z + constant, which is linear. */
function nearSphere({ z, rho }: Columns): { readonly near: NearSphere; readonly start: number } {
  const count = z.length;
  let zMean = 0;
  for (const value of z) zMean += value / count;
  let above = 0;
  let spread = 0;
  for (let i = 0; i < count; i++) {
    const u = (z[i] as number) - zMean;
    above += u * (u * u + (rho[i] as number) ** 2);
    spread += u * u;
  }
  const centre = above / (2 * spread);
  const start = zMean + centre;
  const u = z.map((value) => value - zMean - centre);
  const distance = u.map((value, i) => length2(value, rho[i] as number));
  let radius = 0;
  for (const value of distance) radius += value / count;
  const v = distance.map((value) => (value - radius) * (value + radius));
  return { near: { u, v, square: radius * radius, middle: 0 }, start };
}

function deviationsFrom(near: NearSphere, { centre, above }: Fitted): Float64Array {
  const ref = reference(near, centre);
  return near.u.map((u, i) => beyond(u, near.v[i] as number, centre, ref) - above);
}
