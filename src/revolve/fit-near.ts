/**
 * The sphere with its centre on the axis that fits points best, for points that are told by how little they
 * lie off a sphere nearby. Seen from a height c on the axis the squared distance of point i is
 *
 *     D(c) + v_i - 2 c u_i,   D(c) = square - 2 c middle + c²
 *
 * u and v being small and known to full digits, so that neither the least-squares nor the minimum-zone sphere
 * loses any, however flat the stretch: the difference of a distance from sqrt D(c) is (v - 2 c u) over the sum
 * of both. Points in a plane give u and v by subtraction, a sweep in closed form.
 *
 * Minimum zone: the squared distance is linear in c, but for a part common to all points. So the farthest and
 * the nearest point change only at edges of the convex hull of (u, v); between them the width of the zone, as a
 * function of c, bends downward wherever it is level, so that its least value stands at an edge. Trying every
 * edge is exact and global.
 */
import { touchings } from './fit-hull.js';

/** Points near a sphere. */
export interface NearSphere {
  readonly u: Float64Array;
  readonly v: Float64Array;
  readonly square: number;
  readonly middle: number;
}

/** Distance from the height c of a point for which u and v are 0. */
export function reference({ square, middle }: Omit<NearSphere, 'u' | 'v'>, c: number): number {
  return Math.sqrt(Math.max(0, square - c * (2 * middle - c)));
}

/** How much farther from the height c a point lies than the reference, which is given. */
export function beyond(u: number, v: number, c: number, ref: number): number {
  const more = v - 2 * c * u;
  return more / (Math.sqrt(Math.max(0, ref * ref + more)) + ref);
}

/** A centre and a radius. */
export interface Fitted {
  readonly centre: number;
  /** Radius, and how much it is larger than the reference seen from the centre. */
  readonly radius: number;
  readonly above: number;
}

/**
 * Weighted least squares by Gauss and Newton: with the radius eliminated as the mean distance, only the centre's
 * height is left. A step that makes matters worse is halved; undefined if the points determine no sphere.
 */
export function squaresNear(points: NearSphere, weights: Float64Array): Fitted | undefined {
  const { u, v, middle } = points;
  const count = u.length;
  const off = new Float64Array(count);
  const slope = new Float64Array(count);
  let total = 0;
  let largestU = 0;
  let largestV = 0;
  for (let i = 0; i < count; i++) {
    total += weights[i] as number;
    largestU = Math.max(largestU, Math.abs(u[i] as number));
    largestV = Math.max(largestV, Math.abs(v[i] as number));
  }
  const state = (c: number) => {
    const ref = reference(points, c);
    let above = 0;
    let slopeMean = 0;
    for (let i = 0; i < count; i++) {
      const more = beyond(u[i] as number, v[i] as number, c, ref);
      const distance = ref + more || 1;
      // Derivative of `more` with respect to c, in a form in which nothing cancels.
      const by = (-(u[i] as number) - ((c - middle) * more) / (ref || 1)) / distance;
      off[i] = more;
      slope[i] = by;
      above += (weights[i] as number) * more;
      slopeMean += (weights[i] as number) * by;
    }
    above /= total;
    slopeMean /= total;
    let error = 0;
    let gradient = 0;
    let bend = 0;
    for (let i = 0; i < count; i++) {
      const weight = (weights[i] as number) / total;
      const left = (off[i] as number) - above;
      const by = (slope[i] as number) - slopeMean;
      error += weight * left * left;
      gradient += weight * left * by;
      bend += weight * by * by;
    }
    return { c, ref, above, error, bend, step: -gradient / bend };
  };
  let now = state(0);
  for (let round = 0; round < 200; round++) {
    // What rounding of u and v leaves of a deviation: a step that moves no deviation by more is as good as taken.
    const grain = (4 * Number.EPSILON * (largestV + 2 * Math.abs(now.c) * largestU)) / (now.ref || 1);
    if (Math.abs(now.step) * Math.sqrt(now.bend) <= grain) {
      return { centre: now.c, radius: now.ref + now.above, above: now.above };
    }
    let next = state(now.c + now.step);
    const bearable = now.error * (1 + 1e-9) + (2 * grain) ** 2;
    for (let step = now.step / 2; next.error > bearable && now.c + step !== now.c; step /= 2)
      next = state(now.c + step);
    now = next;
  }
  return undefined;
}

/** A minimum zone: centre, mean radius, width, and the indices of the three points that prove it, by u. */
export interface Zone extends Fitted {
  readonly width: number;
  readonly touching: readonly [number, number, number];
}

/** The narrowest zone; undefined if none is narrower than `widest`. */
export function zoneNear(points: NearSphere, widest: number): Zone | undefined {
  const { u, v } = points;
  let best: Zone | undefined;
  let least = widest;
  for (const { slope, edge, opposite, edgeAbove } of touchings(u, v)) {
    const centre = slope / 2;
    const [from, to] = edge;
    const gap = (v[from] as number) - (v[opposite] as number) - slope * ((u[from] as number) - (u[opposite] as number));
    const ref = reference(points, centre);
    const [a, b] = [from, opposite].map((i) => beyond(u[i] as number, v[i] as number, centre, ref)) as [number, number];
    const width = ((edgeAbove ? 1 : -1) * gap) / (2 * ref + a + b);
    if (width >= least) continue;
    least = width;
    const above = (a + b) / 2;
    best = { centre, radius: ref + above, above, width, touching: [from, opposite, to] };
  }
  return best;
}
