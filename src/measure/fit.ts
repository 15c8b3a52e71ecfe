/**
 * The fitting behind {@link sphereThroughPoints} and {@link coneThroughPoints}: a shape with a few
 * parameters, its signed distance to a point and how that changes with each parameter. Two answers:
 *
 * - least squares, by Gauss-Newton steps through the singular values, which also tell how well the
 *   points determine the shape;
 * - minimum zone: the two parallel shapes closest together that hold all points between them, by
 *   repeated linear minimax problems, each solved by exchange. The points that the answer rests on
 *   prove it: some combination of their changes with weights of the right signs vanishes, so no small
 *   movement of the shape can bring all of them closer.
 *
 * Vocabulary of ISO 12180 and ISO 12181: form deviation, minimum zone.
 */
import { Matrix, SingularValueDecomposition } from 'ml-matrix';
import { list, number } from '../core/checks.js';
import { refuse } from '../core/errors.js';

/** A point in space. */
export type Point = readonly [x: number, y: number, z: number];

/** A shape S with n parameters. */
export interface Shape<S> {
  /** Signed distance from the shape to a point: positive outside. */
  readonly distance: (shape: S, point: Point) => number;
  /** Change of that distance with each parameter; the last parameter moves the surface inward by 1. */
  readonly changes: (shape: S, point: Point) => readonly number[];
  /** The shape with its parameters changed; `undefined` where there is no such shape. */
  readonly moved: (shape: S, step: readonly number[]) => S | undefined;
}

/** Parameters changed by a fit, and how sure it is of them. */
export interface LeastSquares<S> {
  readonly shape: S;
  readonly residuals: readonly number[];
  /** Covariance of the parameters for points of unit standard uncertainty. */
  readonly unitCovariance: Matrix;
  /** Largest over smallest singular value, columns scaled to length one: digits lost, as a power of ten. */
  readonly condition: number;
}

/** A minimum-zone fit with its proof. */
export interface MinimumZone<S> {
  readonly shape: S;
  readonly residuals: readonly number[];
  /** Indices of the points that it rests on. */
  readonly contacts: readonly number[];
  /** Width of the zone less the width that no shape nearby can undercut, as the contacts prove. */
  readonly gap: number;
}

/** Checks an array of points and gives it back typed. */
export function readPoints(value: unknown, parameter: string, least: number): readonly Point[] {
  return list(value, parameter, least).map((point, i) => {
    const path = `${parameter}[${i}]`;
    const coordinates = list(point, path);
    if (coordinates.length !== 3) refuse('wrong-kind', path, point, 'must be [x, y, z]');
    return coordinates.map((coordinate, k) => number(coordinate, `${path}[${k}]`)) as unknown as Point;
  });
}

const MOST_STEPS = 200;

/** Least squares by Gauss-Newton, until a step would move the surface by no more than rounding. */
export function leastSquares<S>(shape: Shape<S>, points: readonly Point[], start: S): LeastSquares<S> {
  let found = start;
  for (let i = 0; i < MOST_STEPS; i++) {
    const residuals = points.map((point) => shape.distance(found, point));
    const rows = points.map((point) => shape.changes(found, point));
    const { step, unitCovariance, condition } = solveLeastSquares(rows, residuals);
    const movement = largest(rows.map((row) => dot(row, step)));
    const fit = { shape: found, residuals, unitCovariance, condition };
    if (movement <= rounding(points)) return fit;
    const squares = (candidate: S): number => sumOfSquares(points.map((point) => shape.distance(candidate, point)));
    // Close to the end the sum of squares is flat to rounding and cannot judge a step: take it whole.
    const close = movement < 1e-6 * largest(residuals);
    const next = close ? shape.moved(found, step) : improved(shape, found, step, squares);
    if (!next || (i === MOST_STEPS - 1 && close)) return fit;
    found = next;
  }
  return refuse('not-converged', 'points', points, 'must determine the shape: the fit did not settle');
}

/** Minimum zone by linear minimax problems, from a start near the answer such as the least-squares shape. */
export function minimumZone<S>(shape: Shape<S>, points: readonly Point[], start: S): MinimumZone<S> {
  let found = start;
  for (let i = 0; i < MOST_STEPS; i++) {
    const residuals = points.map((point) => shape.distance(found, point));
    const rows = points.map((point) => shape.changes(found, point));
    const { step, level, reference } = solveMinimax(rows, residuals);
    const half = largest(residuals);
    const result = { shape: found, residuals, contacts: reference, gap: Math.max(0, 2 * (half - level)) };
    // Where fewer points than unknowns + 1 bear, the last digits come slowly and mean nothing.
    if (half - level <= 1e-6 * half + rounding(points)) return result;
    const next = improved(shape, found, step, (candidate) =>
      largest(points.map((point) => shape.distance(candidate, point))),
    );
    if (!next) return result;
    found = next;
  }
  return refuse('not-converged', 'points', points, 'must determine the zone: the fit did not settle');
}

/** The shape after the step, or after half of it, a quarter …: the first that lowers the measure. */
function improved<S>(
  { moved }: Shape<S>,
  from: S,
  step: readonly number[],
  measure: (shape: S) => number,
): S | undefined {
  const before = measure(from);
  for (let part = 1; part > 1e-9; part /= 2) {
    const candidate = moved(
      from,
      step.map((value) => part * value),
    );
    if (candidate && measure(candidate) < before) return candidate;
  }
  return undefined;
}

/** The step that makes residuals + rows · step least in the sense of squares. */
export function solveLeastSquares(
  rows: readonly (readonly number[])[],
  residuals: readonly number[],
): { step: number[]; unitCovariance: Matrix; condition: number } {
  const { scaled, scale } = scaleColumns(rows);
  const svd = new SingularValueDecomposition(scaled, { autoTranspose: true });
  const step = svd.solve(Matrix.columnVector(residuals.map((value) => -value))).to1DArray();
  const { diagonal, rightSingularVectors } = svd;
  // (JᵀJ)⁻¹ = V Σ⁻² Vᵀ, with the scale of the columns taken out again.
  const root = rightSingularVectors.clone();
  for (let i = 0; i < root.rows; i++) {
    for (let k = 0; k < root.columns; k++) {
      root.set(i, k, root.get(i, k) / (diagonal[k] ?? 0) / (scale[i] ?? 1));
    }
  }
  return {
    step: step.map((value, k) => value / (scale[k] ?? 1)),
    unitCovariance: root.mmul(root.transpose()),
    condition: (diagonal[0] ?? 0) / (diagonal.at(-1) ?? 0),
  };
}

/**
 * The step that makes the largest of |residuals + rows · step| least: exchange in the manner of Stiefel. A
 * reference of n + 1 rows has weights λ with Σ λ rows = 0, so no step can bring all of them below
 * |Σ λ r| / Σ |λ|; the step that levels them at that height is optimal if no other row stands higher.
 * Otherwise the highest enters the reference, for the one that keeps the signs of the weights.
 */
function solveMinimax(
  rows: readonly (readonly number[])[],
  residuals: readonly number[],
): { step: number[]; level: number; reference: number[] } {
  const { scaled, scale } = scaleColumns(rows);
  const n = scaled.columns;
  let reference = firstReference(scaled, residuals);
  let best = { step: new Array<number>(n).fill(0), level: 0, reference };
  for (let i = 0; i < 50 * n; i++) {
    const chosen = scaled.subMatrixRow(reference, 0, n - 1);
    const weights = nullVector(chosen);
    const sum = reference.reduce((total, row, k) => total + (weights[k] ?? 0) * (residuals[row] ?? 0), 0);
    const lambda = sum < 0 ? weights.map((weight) => -weight) : weights;
    const level = Math.abs(sum) / lambda.reduce((total, weight) => total + Math.abs(weight), 0);
    const target = reference.map((row, k) => Math.sign(lambda[k] ?? 0) * level - (residuals[row] ?? 0));
    const step = new SingularValueDecomposition(chosen).solve(Matrix.columnVector(target));
    const after = scaled
      .mmul(step)
      .to1DArray()
      .map((change, row) => change + (residuals[row] ?? 0));
    best = { step: step.to1DArray().map((value, k) => value / (scale[k] ?? 1)), level, reference };
    const highest = after.reduce((top, value, row) => (Math.abs(value) > Math.abs(after[top] ?? 0) ? row : top), 0);
    if (Math.abs(after[highest] ?? 0) <= level * (1 + 1e-12) || reference.includes(highest)) break;
    // The entering row as a combination of the reference; the weight that reaches zero first leaves.
    const entering = scaled.getRowVector(highest).transpose();
    const mu = new SingularValueDecomposition(chosen.transpose(), { autoTranspose: true }).solve(entering).to1DArray();
    const side = Math.sign(after[highest] ?? 0);
    const ratios = mu.map((value, k) => (side * value) / (lambda[k] || Number.MIN_VALUE));
    const leaving = ratios.indexOf(Math.max(...ratios));
    reference = reference.map((row, k) => (k === leaving ? highest : row));
  }
  return best;
}

/** n + 1 rows to start from: n as independent as can be, and the one that then stands highest. */
function firstReference(scaled: Matrix, residuals: readonly number[]): number[] {
  const left = scaled.clone();
  const chosen: number[] = [];
  for (let k = 0; k < scaled.columns; k++) {
    const norms = left.to2DArray().map((row, i) => (chosen.includes(i) ? -1 : sumOfSquares(row)));
    const pick = norms.indexOf(Math.max(...norms));
    chosen.push(pick);
    // Take the picked direction out of all rows.
    const pivot = left.getRow(pick);
    const length = sumOfSquares(pivot) || 1;
    for (let i = 0; i < left.rows; i++) {
      const row = left.getRow(i);
      const share = dot(row, pivot) / length;
      left.setRow(
        i,
        row.map((value, c) => value - share * (pivot[c] ?? 0)),
      );
    }
  }
  const heights = residuals.map((value, i) => (chosen.includes(i) ? -1 : Math.abs(value)));
  return [...chosen, heights.indexOf(Math.max(...heights))];
}

/** Weights that make the n + 1 rows cancel: the right singular vector of the padded transpose's zero. */
function nullVector(rows: Matrix): number[] {
  const square = Matrix.zeros(rows.rows, rows.rows);
  square.setSubMatrix(rows.transpose(), 0, 0);
  return new SingularValueDecomposition(square).rightSingularVectors.getColumn(rows.rows - 1);
}

/** Columns scaled to length one, so that lengths and angles weigh alike. */
function scaleColumns(rows: readonly (readonly number[])[]): { scaled: Matrix; scale: number[] } {
  const scale = (rows[0] ?? []).map((_, k) => Math.sqrt(sumOfSquares(rows.map((row) => row[k] ?? 0))) || 1);
  return { scaled: new Matrix(rows.map((row) => row.map((value, k) => value / (scale[k] ?? 1)))), scale };
}

/** What the distance of a point may be off by rounding alone. */
function rounding(points: readonly Point[]): number {
  return 4 * Number.EPSILON * largest(points.flat());
}

function largest(values: readonly number[]): number {
  return values.reduce((top, value) => Math.max(top, Math.abs(value)), 0);
}

function sumOfSquares(values: readonly number[]): number {
  return dot(values, values);
}

export function dot(a: readonly number[], b: readonly number[]): number {
  return a.reduce((sum, value, i) => sum + value * (b[i] ?? 0), 0);
}
