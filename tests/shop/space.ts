/** Plain vectors, and what a tool leaves when the points of its path are revolved about the work's axis. */

/** A vector. */
export type V = readonly [number, number, number];

export const radians = (deg: number): number => (deg * Math.PI) / 180;
export const plus = (a: V, b: V, k = 1): V => [a[0] + k * b[0], a[1] + k * b[1], a[2] + k * b[2]];
export const dot = (a: V, b: V): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
export const length = (a: V): number => Math.sqrt(dot(a, a));

/** A place of a surface of revolution: from the axis, and along it. */
export interface Place {
  readonly rho: number;
  readonly z: number;
}

/** Where a point in space passes when the work turns about an axis through `origin`. */
export function revolved(point: V, origin: V, axis: V): Place {
  const from = plus(point, origin, -1);
  const z = dot(from, axis);
  return { rho: length(plus(from, axis, -z)), z };
}

/** A place, and how much surface it stands for: 1 where nothing is said. */
export interface Weighted extends Place {
  readonly weight?: number;
}

/** Radius and centre on the axis of the sphere nearest to places: least squares, by Newton's steps. */
export function sphereThrough(places: readonly Weighted[]): { readonly radius: number; readonly centre: number } {
  let centre = places.reduce((sum, { z }) => sum + z, 0) / places.length;
  // First the linear problem rho² + z² = 2 c z + k, then the true distances.
  let [n, sz, szz, sw, szw] = [0, 0, 0, 0, 0];
  for (const { rho, z } of places) {
    const w = rho * rho + z * z;
    n++;
    sz += z;
    szz += z * z;
    sw += w;
    szw += z * w;
  }
  const determinant = n * szz - sz * sz;
  if (Math.abs(determinant) > 1e-12 * n * szz) centre = (n * szw - sz * sw) / determinant / 2;
  let radius = 0;
  for (let turn = 0; turn < 20; turn++) {
    let [sum, sd, ss, sss, sds] = [0, 0, 0, 0, 0];
    for (const { rho, z, weight = 1 } of places) {
      const d = Math.hypot(rho, z - centre);
      const slope = (z - centre) / d;
      sum += weight;
      sd += weight * d;
      ss += weight * slope;
      sss += weight * slope * slope;
      sds += weight * d * slope;
    }
    radius = sd / sum;
    const spread = sss - (ss * ss) / sum;
    if (!(spread > 1e-12)) break;
    const step = (sds - (ss * sd) / sum) / spread;
    centre += step;
    if (Math.abs(step) < 1e-14 * radius) break;
  }
  const all = places.reduce((sum, { weight = 1 }) => sum + weight, 0);
  const mean = places.reduce((sum, { rho, z, weight = 1 }) => sum + weight * Math.hypot(rho, z - centre), 0) / all;
  return { radius: mean, centre };
}
