/**
 * Correlation between inputs: pairs with their coefficients, checked to be possible together.
 * A correlation matrix must be positive semidefinite (JCGM 100, 5.2; JCGM 101, 6.4.8).
 */
import { refuse } from '../core/errors.js';
import { anyNumber, array, type Fields, number, object, type Reader, readValue, text } from '../core/read.js';
import { readByName } from './functions.js';

/** Correlation between two inputs; pairs that are not given are uncorrelated. */
export interface Correlation {
  /** Names of the two inputs. */
  readonly between: readonly [string, string];
  /** Correlation coefficient, -1 to 1. */
  readonly coefficient: number;
}

/** All correlation coefficients as rows of a matrix, in the order of `names`. */
export interface CorrelationMatrix {
  /** Names of inputs, in the order of the matrix. */
  readonly names: readonly string[];
  /** Symmetric matrix with ones on its diagonal. */
  readonly matrix: readonly (readonly number[])[];
}

const name = text();
const CORRELATION: Reader<Correlation> = object<Correlation>({
  between: array(name, 2, 2) as unknown as Reader<readonly [string, string]>,
  coefficient: number({ min: -1, max: 1 }),
});
const MATRIX: Fields<CorrelationMatrix> = { names: array(name, 1), matrix: array(array(anyNumber)) };

/** Correlations stated pair by pair or as a matrix. */
export type Correlations = readonly Correlation[] | CorrelationMatrix;

/**
 * Correlation coefficients of quantities that were read together, each reading of one at the same moment as that
 * of the others (JCGM 100, 5.2.3, formula 17): those of the readings are also those of their means.
 * @param readings - For each quantity its readings, in the order in which they were taken together; paths of
 * refusals are its own keys.
 * @returns One coefficient for each pair, to hand to a budget; pairs with a quantity that never changed are left out.
 * @throws GeneratrixError `contradiction` if not all have as many readings; `wrong-kind`, `not-finite` or
 * `out-of-range` for readings that cannot be used.
 * @example
 * ```ts
 * import { correlationsOfReadings } from 'generatrix/budget';
 * correlationsOfReadings({ left: [1, 2, 3], right: [5, 3, 1] }); // => [{ between: ['left', 'right'], coefficient: -1 }]
 * ```
 */
export function correlationsOfReadings(readings: Readonly<Record<string, readonly number[]>>): readonly Correlation[] {
  const deviations = [...readByName(readings, array(anyNumber, 2), null, '')].map(([name, read]) => {
    const mean = read.reduce((sum, value) => sum + value / read.length, 0);
    const largest = Math.max(...read.map((value) => Math.abs(value - mean)));
    // Divided by the largest, so that no square leaves the range of numbers.
    return { name, values: read.map((value) => (largest === 0 ? 0 : (value - mean) / largest)) };
  });
  const dot = (a: readonly number[], b: readonly number[]): number =>
    a.reduce((sum, value, i) => sum + value * (b[i] as number), 0);
  return deviations.flatMap((a, i) =>
    deviations.slice(i + 1).flatMap((b): Correlation[] => {
      if (a.values.length !== b.values.length) {
        refuse('contradiction', b.name, b.values.length, `must hold ${a.values.length} readings, as ${a.name}`);
      }
      const spread = Math.sqrt(dot(a.values, a.values) * dot(b.values, b.values));
      if (spread === 0) return [];
      const coefficient = Math.max(-1, Math.min(1, dot(a.values, b.values) / spread));
      return [{ between: [a.name, b.name], coefficient }];
    }),
  );
}

/** Reads correlations into a full matrix over `names` and refuses what no set of random numbers can have. */
export function readCorrelations(
  given: Correlations | undefined,
  names: readonly string[],
): readonly (readonly number[])[] {
  const matrix = names.map((_, i) => names.map((__, j) => (i === j ? 1 : 0)));
  if (given === undefined) return matrix;
  const listed = Array.isArray(given);
  const pairs = listed
    ? readValue(given, array(CORRELATION), 'correlations')
    : fromMatrix(readValue(given, object(MATRIX), 'correlations'));
  const seen = new Set<string>();
  for (const [index, { between, coefficient }] of pairs.entries()) {
    const path = listed ? `correlations[${index}]` : 'correlations';
    const [i, j] = between.map((name) => place(name, names, path)) as [number, number];
    if (i === j) refuse('contradiction', path, between[0], 'must name two different inputs');
    const key = `${Math.min(i, j)} ${Math.max(i, j)}`;
    if (seen.has(key)) refuse('contradiction', path, between.join(', '), 'must name each pair once');
    seen.add(key);
    (matrix[i] as number[])[j] = coefficient;
    (matrix[j] as number[])[i] = coefficient;
  }
  if (choleskyFactor(matrix) === undefined) {
    const phrase = 'must be correlations that can hold together (positive semidefinite)';
    refuse('contradiction', 'correlations', given, phrase);
  }
  return matrix;
}

/** Sets of inputs that hang together by correlation, those that stand alone among them. */
export function linked(matrix: readonly (readonly number[])[]): readonly (readonly number[])[] {
  const left = new Set(matrix.keys());
  const found: number[][] = [];
  for (const start of matrix.keys()) {
    if (!left.delete(start)) continue;
    const group = [start];
    for (const i of group) {
      for (const j of left) {
        if (matrix[i]?.[j] !== 0 && left.delete(j)) group.push(j);
      }
    }
    found.push(group.sort((a, b) => a - b));
  }
  return found;
}

/** The upper triangle of a matrix as pairs, after a check of its shape. */
function fromMatrix({ names, matrix: rows }: CorrelationMatrix): Correlation[] {
  const path = 'correlations.matrix';
  if (rows.length !== names.length || rows.some((row) => row.length !== names.length)) {
    refuse('out-of-range', path, rows, `must have ${names.length} rows and columns, as many as names`);
  }
  return rows.flatMap((row, i) => {
    if (row[i] !== 1) refuse('out-of-range', `${path}[${i}][${i}]`, row[i], 'must be 1');
    return rows.slice(i + 1).map((below, k): Correlation => {
      const j = i + 1 + k;
      const coefficient = row[j] as number;
      const mirror = below[i] as number;
      if (mirror !== coefficient) {
        refuse('contradiction', `${path}[${j}][${i}]`, mirror, `must equal its mirror, ${coefficient}`);
      }
      return { between: [names[i] as string, names[j] as string], coefficient };
    });
  });
}

function place(name: string, names: readonly string[], path: string): number {
  const index = names.indexOf(name);
  return index >= 0 ? index : refuse('out-of-range', path, name, `must name one of ${names.join(', ')}`);
}

/**
 * Lower triangular L with L Lᵀ = matrix for a positive semidefinite matrix, `undefined` for any other.
 * Rounding can push a pivot that should vanish to either side of zero by some units of 1e-16 per row.
 */
export function choleskyFactor(matrix: readonly (readonly number[])[]): number[][] | undefined {
  const tolerance = 1e-12;
  const factor: number[][] = [];
  for (const [i, row] of matrix.entries()) {
    const current: number[] = [];
    for (let j = 0; j <= i; j++) {
      const above = j === i ? current : (factor[j] as number[]);
      let rest = row[j] as number;
      for (let k = 0; k < j; k++) rest -= (current[k] as number) * (above[k] as number);
      if (j === i) {
        if (rest < -tolerance) return undefined;
        current.push(rest > tolerance ? Math.sqrt(rest) : 0);
      } else {
        const pivot = above[j] as number;
        if (pivot === 0 && Math.abs(rest) > Math.sqrt(tolerance)) return undefined;
        current.push(pivot === 0 ? 0 : rest / pivot);
      }
    }
    factor.push(current);
  }
  return factor;
}
