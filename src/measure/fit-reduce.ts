/**
 * Many equations for few unknowns as few equations with the same least-squares solution: Householder reflections turn
 * the columns into a triangle (A. S. Householder, J. ACM 5 (1958), 339-342). Nothing is squared, so no digits are lost.
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
    const norm = Math.sqrt(product(pivot, pivot, k));
    if (norm === 0) continue;
    const head = pivot[k] as number;
    // The reflection that takes the column to ± its length: along v = column ± length · e, with the sign that adds.
    const end = head > 0 ? -norm : norm;
    pivot[k] = head - end;
    const half = product(pivot, pivot, k) / 2;
    for (let c = k + 1; c <= n; c++) {
      const column = work[c] as Float64Array;
      const share = product(pivot, column, k) / half;
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

function product(a: Float64Array, b: Float64Array, from: number): number {
  let sum = 0;
  for (let i = from; i < a.length; i++) sum += (a[i] as number) * (b[i] as number);
  return sum;
}
