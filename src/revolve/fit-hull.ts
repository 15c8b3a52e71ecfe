/**
 * Lines that hold a set of points between them, touching it in three: the one search behind every
 * minimum-zone fit of a meridian.
 *
 * Above all points (u, v) lies the line of slope m through the greatest v - m u, below them the one
 * through the least. As m turns, each touches one point at a time, and two only at an edge of the convex
 * hull. A best zone touches two points on one side and one, between them, on the other; so the best of
 * all edges is the best of all, with nothing left to chance or to a starting value.
 */

/** Two parallel lines that hold all points between them, one of them along an edge of the hull. */
export interface Touching {
  /** Slope of both lines. */
  readonly slope: number;
  /** Indices of the two points on the one line, by rising u. */
  readonly edge: readonly [number, number];
  /** Index of the point on the other line. */
  readonly opposite: number;
  /** Whether the edge lies above. */
  readonly edgeAbove: boolean;
}

/** All pairs of lines that touch an edge of the convex hull; none if all u are the same. */
export function touchings(u: Float64Array, v: Float64Array): Touching[] {
  const [U, V] = [(i: number): number => u[i] as number, (i: number): number => v[i] as number];

  /** Positive where the way a, b, c turns to the left. */
  const turn = (a: number, b: number, c: number): number =>
    (U(b) - U(a)) * (V(c) - V(a)) - (V(b) - V(a)) * (U(c) - U(a));

  /** Upper (side 1) or lower (side -1) hull: indices by rising u, a single one for each u. */
  const hull = (side: 1 | -1): number[] => {
    const kept: number[] = [];
    for (const point of Array.from(u.keys()).sort((a, b) => U(a) - U(b) || side * (V(b) - V(a)))) {
      const last = kept.at(-1);
      if (last !== undefined && U(last) === U(point)) continue;
      while (kept.length > 1 && side * turn(kept.at(-2) as number, kept.at(-1) as number, point) >= 0) kept.pop();
      kept.push(point);
    }
    return kept;
  };

  /** The point of a hull farthest to a side of lines of this slope: v - slope u has a single hill along it. */
  const extreme = (indices: readonly number[], slope: number, side: 1 | -1): number => {
    const height = (i: number): number => side * (V(indices[i] as number) - slope * U(indices[i] as number));
    let [low, high] = [0, indices.length - 1];
    while (low < high) {
      const middle = (low + high) >> 1;
      if (height(middle) < height(middle + 1)) low = middle + 1;
      else high = middle;
    }
    return indices[low] as number;
  };

  const along = (indices: readonly number[], others: readonly number[], edgeAbove: boolean): Touching[] =>
    indices.slice(1).map((to, i) => {
      const from = indices[i] as number;
      const slope = (V(to) - V(from)) / (U(to) - U(from));
      return { slope, edge: [from, to], opposite: extreme(others, slope, edgeAbove ? -1 : 1), edgeAbove };
    });

  const [above, below] = [hull(1), hull(-1)];
  return [...along(above, below, true), ...along(below, above, false)];
}
