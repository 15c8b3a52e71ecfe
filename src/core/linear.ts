/**
 * Least squares of a few unknowns. Matrices are arrays of columns; nothing is squared, so no digits are lost.
 *
 * Many equations become few with the same solution by A. S. Householder's reflections (J. ACM 5 (1958), 339-342).
 * Singular values come from M. R. Hestenes' rotations (J. SIAM 6 (1958), 51-90): pairs of columns are turned until
 * all are square to each other, which finds small singular values to their own digits (J. Demmel, K. Veselić, SIAM J.
 * Matrix Anal. Appl. 13 (1992), 1204-1245).
 */

/** The triangle, by rows, and the right-hand side that goes with it; work grows with the number of equations. */
export function reduced(
  columns: readonly Float64Array[],
  right: Float64Array,
): { triangle: number[][]; rest: number[] } {
  const work = [...columns, right].map((column) => column.slice());
  const n = columns.length;
  for (let k = 0; k < n; k++) {
    const pivot = work[k] as Float64Array;
    const norm = Math.sqrt(dot(pivot, pivot, k));
    if (norm === 0) continue;
    const head = pivot[k] as number;
    // The reflection that takes the column to ± its length: along v = column ± length · e, with the sign that adds.
    const end = head > 0 ? -norm : norm;
    pivot[k] = head - end;
    const half = dot(pivot, pivot, k) / 2;
    for (let c = k + 1; c <= n; c++) {
      const column = work[c] as Float64Array;
      const share = dot(pivot, column, k) / half;
      for (let i = k; i < column.length; i++) column[i] = (column[i] as number) - share * (pivot[i] as number);
    }
    pivot[k] = end;
  }
  const entry = (row: number, column: number): number => (row > column ? 0 : (work[column]?.[row] as number));
  return {
    triangle: Array.from({ length: n }, (_, row) => Array.from({ length: n }, (_, column) => entry(row, column))),
    rest: Array.from({ length: n }, (_, row) => entry(row, n)),
  };
}

/** Sum of products, from a place on. */
export function dot(a: ArrayLike<number>, b: ArrayLike<number>, from = 0): number {
  let sum = 0;
  for (let i = from; i < a.length; i++) sum += (a[i] as number) * (b[i] as number);
  return sum;
}

/** Unknowns of a triangle of equations, from the last to the first; infinite where an equation determines nothing. */
export function solvedTriangle(triangle: readonly (readonly number[])[], right: readonly number[]): number[] {
  const found = right.map(() => 0);
  for (let k = right.length - 1; k >= 0; k--) {
    const row = triangle[k] as readonly number[];
    let left = right[k] as number;
    for (let j = k + 1; j < right.length; j++) left -= (row[j] as number) * (found[j] as number);
    found[k] = left === 0 ? 0 : left / (row[k] as number);
  }
  return found;
}

/** A matrix as U Σ Vᵀ. */
export interface SingularValues {
  /** Singular values, the largest first: as many as columns. */
  readonly values: readonly number[];
  /** Columns of U Σ: square to each other, each as long as its singular value. */
  readonly left: readonly Float64Array[];
  /** Columns of V. */
  readonly right: readonly Float64Array[];
}

/** More sweeps over all pairs than any matrix of a dozen columns takes. */
const MOST_SWEEPS = 60;

/** Singular values of a matrix, by columns. */
export function singularValues(columns: readonly ArrayLike<number>[]): SingularValues {
  const left = columns.map((column) => Float64Array.from(column));
  const right = columns.map((_, k) => Float64Array.from(columns, (__, i) => (i === k ? 1 : 0)));
  const whole = left.reduce((sum, column) => sum + dot(column, column), 0);
  for (let sweep = 0, turned = true; turned && sweep < MOST_SWEEPS; sweep++) {
    turned = false;
    for (let p = 0; p < left.length; p++) {
      for (let q = p + 1; q < left.length; q++) {
        const [a, b] = [left[p] as Float64Array, left[q] as Float64Array];
        const [aa, bb, ab] = [dot(a, a), dot(b, b), dot(a, b)];
        // A column that is rounding of the others alone is as good as nothing, and has no direction.
        if (Math.min(aa, bb) <= whole * 1e-34 || Math.abs(ab) <= Number.EPSILON * Math.sqrt(aa * bb)) continue;
        turned = true;
        const zeta = (bb - aa) / (2 * ab);
        const tan = (zeta < 0 ? -1 : 1) / (Math.abs(zeta) + Math.sqrt(1 + zeta * zeta));
        rotate(a, b, tan);
        rotate(right[p] as Float64Array, right[q] as Float64Array, tan);
      }
    }
  }
  const lengths = left.map((column) => Math.sqrt(dot(column, column)));
  const order = [...lengths.keys()].sort((i, j) => (lengths[j] as number) - (lengths[i] as number));
  return {
    values: order.map((k) => lengths[k] as number),
    left: order.map((k) => left[k] as Float64Array),
    right: order.map((k) => right[k] as Float64Array),
  };
}

/** The least-squares solution, of several the shortest: directions below rounding count as undetermined. */
export function solved({ values, left, right }: SingularValues, target: ArrayLike<number>): number[] {
  const least = (values[0] as number) * Number.EPSILON * Math.max(right.length, target.length);
  const found = right.map(() => 0);
  for (const [k, value] of values.entries()) {
    if (value <= least) continue;
    const share = dot(left[k] as Float64Array, target) / value / value;
    for (let i = 0; i < found.length; i++) found[i] = (found[i] as number) + share * (right[k]?.[i] as number);
  }
  return found;
}

/** Turns a pair of columns in their plane. */
function rotate(a: Float64Array, b: Float64Array, tan: number): void {
  const cos = 1 / Math.sqrt(1 + tan * tan);
  const sin = cos * tan;
  for (let i = 0; i < a.length; i++) {
    const [x, y] = [a[i] as number, b[i] as number];
    a[i] = cos * x - sin * y;
    b[i] = sin * x + cos * y;
  }
}

/** The least and the greatest of some values. */
export function extremes(values: ArrayLike<number>): readonly [least: number, greatest: number] {
  let [least, greatest] = [Infinity, -Infinity];
  for (let i = 0; i < values.length; i++) {
    least = Math.min(least, values[i] as number);
    greatest = Math.max(greatest, values[i] as number);
  }
  return [least, greatest];
}
