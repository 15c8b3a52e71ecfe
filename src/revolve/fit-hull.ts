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
  const above = hull(u, v, 1);
  const below = hull(u, v, -1);
  return [
    ...edges(above).map((edge) => touching(u, v, edge, below, true)),
    ...edges(below).map((edge) => touching(u, v, edge, above, false)),
  ];
}

function touching(
  u: Float64Array,
  v: Float64Array,
  edge: readonly [number, number],
  others: readonly number[],
  edgeAbove: boolean,
): Touching {
  const slope = (at(v, edge[1]) - at(v, edge[0])) / (at(u, edge[1]) - at(u, edge[0]));
  return { slope, edge, opposite: extreme(u, v, others, slope, edgeAbove ? -1 : 1), edgeAbove };
}

/** Upper (side 1) or lower (side -1) hull: indices by rising u, a single one for each u. */
function hull(u: Float64Array, v: Float64Array, side: 1 | -1): number[] {
  const order = Array.from(u.keys()).sort((a, b) => at(u, a) - at(u, b) || side * (at(v, b) - at(v, a)));
  const kept: number[] = [];
  for (const point of order) {
    const last = kept.at(-1);
    if (last !== undefined && at(u, last) === at(u, point)) continue;
    while (kept.length > 1 && side * turn(u, v, kept.at(-2) as number, kept.at(-1) as number, point) >= 0) kept.pop();
    kept.push(point);
  }
  return kept;
}

/** Positive where the way a, b, c turns to the left. */
function turn(u: Float64Array, v: Float64Array, a: number, b: number, c: number): number {
  return (at(u, b) - at(u, a)) * (at(v, c) - at(v, a)) - (at(v, b) - at(v, a)) * (at(u, c) - at(u, a));
}

function edges(indices: readonly number[]): [number, number][] {
  return indices.slice(1).map((index, i) => [indices[i] as number, index]);
}

/** The point of a hull farthest to a side of lines of this slope: v - slope u has a single hill along it. */
function extreme(u: Float64Array, v: Float64Array, indices: readonly number[], slope: number, side: 1 | -1): number {
  const height = (i: number): number => side * (at(v, indices[i] as number) - slope * at(u, indices[i] as number));
  let low = 0;
  let high = indices.length - 1;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (height(middle) < height(middle + 1)) low = middle + 1;
    else high = middle;
  }
  return indices[low] as number;
}

/** An element that is known to exist. */
function at(array: Float64Array, index: number): number {
  return array[index] as number;
}
