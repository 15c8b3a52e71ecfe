/**
 * The fitting behind {@link sphereThroughPoints} and {@link coneThroughPoints}: a shape with a few
 * parameters, its signed distance to points and how that changes with each parameter. Two answers:
 *
 * - least squares, by Gauss-Newton steps through the singular values, which also tell how well the
 *   points determine the shape;
 * - minimum zone: the two parallel shapes closest together that hold all points between them, by
 *   repeated linear minimax problems, each solved by exchange. The points that the answer rests on
 *   prove it: some combination of their changes with weights of the right signs vanishes, so no small
 *   movement of the shape can bring all of them closer.
 *
 * Points, distances and changes are columns of numbers, and work grows with their number. Vocabulary of
 * ISO 12180 and ISO 12181: form deviation, minimum zone.
 */
import { refuse } from '../core/errors.js';
import { dot, reduced, singularValues, solved } from '../core/linear.js';
import type { Columns } from './points.js';

/** A shape S with n parameters. */
export interface Shape<S> {
  /** Signed distances from the shape to the points: positive outside. */
  readonly distances: (shape: S, points: Columns) => Float64Array;
  /** Changes of the distances with each parameter, a column each; the last parameter moves the surface inward by 1. */
  readonly changes: (shape: S, points: Columns) => readonly Float64Array[];
  /** The shape with its parameters changed; `undefined` where there is no such shape. */
  readonly moved: (shape: S, step: readonly number[]) => S | undefined;
}

/** Parameters changed by a fit, and how sure it is of them. */
export interface LeastSquares<S> {
  readonly shape: S;
  readonly residuals: Float64Array;
  /** Covariance of the parameters for points of unit standard uncertainty. */
  readonly unitCovariance: readonly (readonly number[])[];
  /** Largest over smallest singular value, columns scaled to length one: digits lost, as a power of ten. */
  readonly condition: number;
}

/** A minimum-zone fit with its proof. */
export interface MinimumZone<S> {
  readonly shape: S;
  readonly residuals: Float64Array;
  /** Indices of the points that it rests on. */
  readonly contacts: readonly number[];
  /** Width of the zone less the width that no shape nearby can undercut, as the contacts prove. */
  readonly gap: number;
}

const MOST_STEPS = 200;

const sumOfSquares = (values: Float64Array): number => dot(values, values);

/** Least squares by Gauss-Newton, until a step would move the surface by no more than rounding. */
export function leastSquares<S>(shape: Shape<S>, points: Columns, start: S): LeastSquares<S> {
  const tiny = rounding(points);
  const squares = (candidate: S): number => sumOfSquares(shape.distances(candidate, points));
  let found = start;
  for (let i = 0; i < MOST_STEPS; i++) {
    const residuals = shape.distances(found, points);
    const changes = shape.changes(found, points);
    const { step, unitCovariance, condition } = solveLeastSquares(changes, residuals);
    const movement = largest(combined(changes, step));
    const fit = { shape: found, residuals, unitCovariance, condition };
    if (movement <= tiny) return fit;
    // Close to the end the sum of squares is flat to rounding and cannot judge a step: take it whole.
    const close = movement < 1e-6 * largest(residuals);
    const next = close ? shape.moved(found, step) : improved(shape, found, step, squares, sumOfSquares(residuals));
    if (!next || (i === MOST_STEPS - 1 && close)) return fit;
    found = next;
  }
  return refuse('not-converged', 'points', points.x.length, 'must determine the shape: the fit did not settle');
}

/** Minimum zone by linear minimax problems, from a start near the answer such as the least-squares shape. */
export function minimumZone<S>(shape: Shape<S>, points: Columns, start: S): MinimumZone<S> {
  const tiny = rounding(points);
  const halfWidth = (candidate: S): number => largest(shape.distances(candidate, points));
  let found = start;
  // From step to step the shape rests on nearly the same points.
  let contacts: readonly number[] | undefined;
  for (let i = 0; i < MOST_STEPS; i++) {
    const residuals = shape.distances(found, points);
    const { step, level, reference } = solveMinimax(shape.changes(found, points), residuals, contacts);
    contacts = reference;
    const half = largest(residuals);
    const result = { shape: found, residuals, contacts: reference, gap: Math.max(0, 2 * (half - level)) };
    // Where fewer points than unknowns + 1 bear, the last digits come slowly and mean nothing.
    if (half - level <= 1e-6 * half + tiny) return result;
    const next = improved(shape, found, step, halfWidth, half);
    if (!next) return result;
    found = next;
  }
  return refuse('not-converged', 'points', points.x.length, 'must determine the zone: the fit did not settle');
}

/** The shape after the step, or after half of it, a quarter …: the first that lowers the measure. */
function improved<S>(
  { moved }: Shape<S>,
  from: S,
  step: readonly number[],
  measure: (shape: S) => number,
  before: number,
): S | undefined {
  for (let part = 1; part > 1e-9; part /= 2) {
    const candidate = moved(
      from,
      step.map((value) => part * value),
    );
    if (candidate && measure(candidate) < before) return candidate;
  }
  return undefined;
}

/** The step that makes residuals + changes · step least in the sense of squares. */
export function solveLeastSquares(
  changes: readonly Float64Array[],
  residuals: Float64Array,
): { step: number[]; unitCovariance: number[][]; condition: number } {
  const { scaled, scale } = scaleColumns(changes);
  const { triangle, rest } = reduced(scaled, residuals);
  const svd = singularValues(triangle.map((_, k) => triangle.map((row) => row[k] as number)));
  const step = solved(
    svd,
    rest.map((value) => -value),
  );
  const { values, right } = svd;
  // (JᵀJ)⁻¹ = V Σ⁻² Vᵀ, with the scale of the columns taken out again.
  const root = (i: number, k: number): number =>
    (right[k]?.[i] as number) / (values[k] as number) / (scale[i] as number);
  const entry = (i: number, j: number): number => values.reduce((sum, _, k) => sum + root(i, k) * root(j, k), 0);
  return {
    step: step.map((value, k) => value / (scale[k] as number)),
    unitCovariance: scale.map((_, i) => scale.map((__, j) => entry(i, j))),
    condition: (values[0] as number) / (values.at(-1) as number),
  };
}

/**
 * The step that makes the largest of |residuals + changes · step| least: exchange in the manner of Stiefel. A
 * reference of n + 1 rows has weights λ with Σ λ rows = 0, so no step can bring all of them below
 * |Σ λ r| / Σ |λ|; the step that levels them at that height is optimal if no other row stands higher.
 * Otherwise the highest enters the reference, for the one that keeps the signs of the weights.
 */
function solveMinimax(
  changes: readonly Float64Array[],
  residuals: Float64Array,
  from?: readonly number[],
): { step: number[]; level: number; reference: readonly number[] } {
  const { scaled, scale } = scaleColumns(changes);
  const n = scaled.length;
  const rowOf = (i: number): number[] => scaled.map((column) => column[i] as number);
  let reference = from ?? firstReference(scaled, residuals);
  let best = { step: new Array<number>(n).fill(0), level: 0, reference };
  for (let i = 0; i < 50 * n; i++) {
    const rows = reference.map(rowOf);
    // The n + 1 rows as columns: the weights that make them cancel belong to the least singular value, which is 0.
    const across = singularValues(rows);
    const weights = [...(across.right[n] as Float64Array)];
    const sum = reference.reduce((total, row, k) => total + (weights[k] ?? 0) * (residuals[row] ?? 0), 0);
    const lambda = sum < 0 ? weights.map((weight) => -weight) : weights;
    const level = Math.abs(sum) / lambda.reduce((total, weight) => total + Math.abs(weight), 0);
    const target = reference.map((row, k) => Math.sign(lambda[k] ?? 0) * level - (residuals[row] ?? 0));
    const step = solved(singularValues(scaled.map((_, k) => rows.map((row) => row[k] as number))), target);
    const after = combined(scaled, step, residuals);
    best = { step: step.map((value, k) => value / (scale[k] ?? 1)), level, reference };
    const highest = indexOfLargest(after);
    if (Math.abs(after[highest] ?? 0) <= level * (1 + 1e-12) || reference.includes(highest)) break;
    // The entering row as a combination of the reference; the weight that reaches zero first leaves.
    const mu = solved(across, rowOf(highest));
    const side = Math.sign(after[highest] ?? 0);
    const ratios = mu.map((value, k) => (side * value) / (lambda[k] || Number.MIN_VALUE));
    const leaving = ratios.indexOf(Math.max(...ratios));
    reference = reference.map((row, k) => (k === leaving ? highest : row));
  }
  return best;
}

/** n + 1 rows to start from: n as independent as can be, and the one that then stands highest. */
function firstReference(scaled: readonly Float64Array[], residuals: Float64Array): number[] {
  const left = scaled.map((column) => column.slice());
  const chosen: number[] = [];
  for (let k = 0; k < left.length; k++) {
    const norms = new Float64Array(residuals.length);
    for (const column of left) {
      for (let i = 0; i < norms.length; i++) norms[i] = (norms[i] as number) + (column[i] as number) ** 2;
    }
    const pick = indexOfLargest(norms, chosen);
    chosen.push(pick);
    // Take the picked direction out of all rows.
    const pivot = left.map((column) => column[pick] as number);
    const shares = combined(left, pivot);
    const length = norms[pick] || 1;
    left.forEach((column, c) => {
      const part = (pivot[c] as number) / length;
      for (let i = 0; i < column.length; i++) column[i] = (column[i] as number) - (shares[i] as number) * part;
    });
  }
  return [...chosen, indexOfLargest(residuals, chosen)];
}

/** Columns scaled to length one, so that lengths and angles weigh alike. */
function scaleColumns(columns: readonly Float64Array[]): { scaled: Float64Array[]; scale: number[] } {
  const scale = columns.map((column) => Math.sqrt(sumOfSquares(column)) || 1);
  return { scaled: columns.map((column, k) => column.map((value) => value / (scale[k] as number))), scale };
}

/** Sum of the columns, each times its factor, and of what is there already. */
function combined(columns: readonly Float64Array[], factors: readonly number[], base?: Float64Array): Float64Array {
  const total = base ? base.slice() : new Float64Array((columns[0] as Float64Array).length);
  columns.forEach((column, k) => {
    const factor = factors[k] as number;
    for (let i = 0; i < total.length; i++) total[i] = (total[i] as number) + factor * (column[i] as number);
  });
  return total;
}

/** What the distance of a point may be off by rounding alone. */
function rounding({ x, y, z }: Columns): number {
  return 4 * Number.EPSILON * Math.max(largest(x), largest(y), largest(z));
}

function largest(values: Float64Array): number {
  return Math.abs(values[indexOfLargest(values)] as number);
}

/** Of those that are not left out, the one of largest size. */
function indexOfLargest(values: Float64Array, without: readonly number[] = []): number {
  let top = -1;
  let most = -1;
  for (let i = 0; i < values.length; i++) {
    const size = Math.abs(values[i] as number);
    if (size > most && !without.includes(i)) {
      most = size;
      top = i;
    }
  }
  return top;
}
