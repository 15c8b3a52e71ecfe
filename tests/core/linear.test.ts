/** Small linear algebra against 60-digit decimals, against ml-matrix, and against a published condition number. */
import { Decimal } from 'decimal.js';
import fc from 'fast-check';
import { Matrix, SingularValueDecomposition } from 'ml-matrix';
import { describe, expect, it } from 'vitest';
import { reduced, singularValues, solved, solvedTriangle } from '../../src/core/linear.js';
import { runs } from '../oracle/seed.js';

const D = Decimal.clone({ precision: 60 });
const exact = (x: number): Decimal => new D(x.toPrecision(40));

/** Least squares by the normal equations and elimination, in decimals: at 60 digits their squaring costs nothing. */
function oracle(columns: readonly (readonly number[])[], target: readonly number[]): number[] {
  const dot = (a: readonly number[], b: readonly number[]): Decimal =>
    a.reduce((sum, x, i) => sum.plus(exact(x).times(exact(b[i] as number))), new D(0));
  const rows = columns.map((a) => [...columns.map((b) => dot(a, b)), dot(a, target)]);
  const n = rows.length;
  for (let k = 0; k < n; k++) {
    for (let i = 0; i < n; i++) {
      if (i === k) continue;
      const [row, pivot] = [rows[i] as Decimal[], rows[k] as Decimal[]];
      const factor = (row[k] as Decimal).div(pivot[k] as Decimal);
      for (let j = k; j <= n; j++) row[j] = (row[j] as Decimal).minus(factor.times(pivot[j] as Decimal));
    }
  }
  return rows.map((row, k) => Number((row[n] as Decimal).div(row[k] as Decimal)));
}

const entry = fc.double({ min: -1, max: 1, noNaN: true }).map((x) => (Math.abs(x) < 1e-100 ? 0 : x)); // squares must exist
const columns = fc
  .tuple(fc.integer({ min: 1, max: 6 }), fc.integer({ min: 0, max: 20 }))
  .chain(([n, more]) =>
    fc.array(fc.array(entry, { minLength: n + more, maxLength: n + more }), { minLength: n, maxLength: n }),
  );

describe('singular values', () => {
  it('are those of ml-matrix, and put the matrix together again', () => {
    fc.assert(
      fc.property(columns, (a) => {
        const { values, left, right } = singularValues(a);
        const theirs = new SingularValueDecomposition(new Matrix(a), { autoTranspose: true }).diagonal;
        const size = 1e-14 * ((values[0] as number) + 1e-300);
        values.forEach((value, k) => {
          expect(Math.abs(value - (theirs[k] ?? 0))).toBeLessThanOrEqual(size);
        });
        a.forEach((column, j) => {
          column.forEach((x, i) => {
            const again = values.reduce((sum, _, k) => sum + (left[k]?.[i] as number) * (right[k]?.[j] as number), 0);
            expect(Math.abs(again - x)).toBeLessThanOrEqual(size);
          });
        });
      }),
      { numRuns: runs(200, 60) },
    );
  });

  it('of the Hilbert matrix of order 4 have the condition 15513.73873892924 (J. Todd, 1954)', () => {
    const { values } = singularValues([0, 1, 2, 3].map((i) => [0, 1, 2, 3].map((j) => 1 / (i + j + 1))));
    expect((values[0] as number) / (values[3] as number)).toBeCloseTo(15513.73873892924, 6);
  });

  it('of columns that differ in size by 1e20 keep their own digits', () => {
    // Square to each other but for scale: the values are the lengths.
    const { values } = singularValues([
      [3e-10, 4e-10, 0],
      [-4e10, 3e10, 0],
      [0, 0, 2],
    ]);
    expect(values[0]).toBeCloseTo(5e10, 3);
    expect(values[1]).toBeCloseTo(2, 14);
    expect(Math.abs((values[2] as number) / 5e-10 - 1)).toBeLessThan(1e-14);
  });

  it('of dependent columns end in 0, whose direction makes them cancel', () => {
    const a = [
      [1, 2],
      [3, 5],
      [4, 7],
    ];
    const { values, right } = singularValues(a);
    expect(values[2]).toBeLessThan(1e-15);
    const [x, y, z] = [...(right[2] as Float64Array)] as [number, number, number];
    expect(Math.abs(x / z + 1) + Math.abs(y / z + 1)).toBeLessThan(1e-14);
  });
});

describe('least squares', () => {
  it('agrees with 60 digits to rounding times the condition, both ways', () => {
    fc.assert(
      fc.property(columns, fc.infiniteStream(entry), (a, stream) => {
        const target = Array.from({ length: (a[0] as number[]).length }, () => stream.next().value as number);
        const found = singularValues(a);
        const condition = (found.values[0] as number) / (found.values.at(-1) as number);
        fc.pre(condition < 1e6);
        const truth = oracle(a, target);
        const scale = Math.max(
          ...truth.map(Math.abs),
          ...target.map((t) => Math.abs(t) / (found.values.at(-1) as number)),
        );
        const { triangle, rest } = reduced(
          a.map((column) => Float64Array.from(column)),
          Float64Array.from(target),
        );
        for (const x of [solved(found, target), solvedTriangle(triangle, rest)]) {
          x.forEach((value, k) => {
            // A residual of its own size costs the condition once more.
            expect(Math.abs(value - (truth[k] as number))).toBeLessThanOrEqual(1e-14 * condition * scale);
          });
        }
      }),
      { numRuns: runs(200, 60) },
    );
  });

  it('gives the shortest of many solutions', () => {
    const [x, y] = solved(singularValues([[3], [4]]), [25]) as [number, number];
    expect(x).toBeCloseTo(3, 13);
    expect(y).toBeCloseTo(4, 13);
  });
});

it('reduces a column of unit length as any other, and leaves one of zeros that says nothing', () => {
  // Least squares by hand: (0.6 · 1 + 0.8 · 2) / (0.36 + 0.64) = 2.2.
  const unit = reduced([Float64Array.of(0.6, 0.8)], Float64Array.of(1, 2));
  expect(solvedTriangle(unit.triangle, unit.rest)[0]).toBeCloseTo(2.2, 14);
  const none = reduced([Float64Array.of(0, 0), Float64Array.of(3, 4)], Float64Array.of(5, 6));
  expect([...none.triangle.flat(), ...none.rest].every(Number.isFinite)).toBe(true);
});
