/**
 * From readings with uncertainties to causes with uncertainties: the distribution of a few unknowns, each with a
 * normal prior of mean 0 and variance 1, given a forward function that may bend.
 *
 * Points of the prior are taken to the nearest place that explains the readings (damped least squares; Y. Chen, D. S.
 * Oliver, Math. Geosci. 44 (2012), 1-26), about each of these places points are laid as its own shape says, and all
 * points are weighed with the density of all that were laid (A. Owen, Y. Zhou, J. Am. Stat. Assoc. 95 (2000), 135-143).
 */
import { dot, reduced, singularValues, solvedTriangle } from '../core/linear.js';

type Vector = readonly number[];
/** Readings less predictions, each over its uncertainty. */
export type Residuals = (x: Vector) => Float64Array;

/** How strongly the readings hold the unknowns about a place. */
export interface Held {
  readonly x: Vector;
  /** Eigenvalues of JᵀJ, 1 being as strongly as the prior; the strongest first. */
  readonly strengths: Vector;
  /** The directions that belong to them, one row each. */
  readonly directions: readonly Float64Array[];
}

/** Weighted points that stand for the distribution. */
export interface Posterior {
  /** The most likely place found. */
  readonly best: Held;
  readonly points: readonly Vector[];
  /** Sum to 1. */
  readonly weights: Vector;
  /** How many equal points would say as much. */
  readonly effectivePoints: number;
}

/** Places, and points about each. */
const PLACES = 160;
const EACH = 5;
/**
 * Part of the prior's variance in the places, the rest being in the points about them: so the sum of both is the
 * distribution itself if nothing bends. Narrow points follow bends, wide ones are more even.
 */
const PLACED = 0.85;
/** The points are spread wider than the shape says, about every fourth place much wider. */
const SPREADS = [1.1, 1.1, 1.1, 2] as const;
/** A place with less than e^-15 of the best one's likelihood explains nothing. */
const HOPELESS = 15;

/** Fewer points than this say little of an interval: more places are tried, up to so many times as many. */
const ENOUGH = 20;
const MOST_TIMES = 16;

/** The distribution of the unknowns, at most six. */
export function posterior(residuals: Residuals, unknowns: number): Posterior {
  let found = sampled(residuals, unknowns, PLACES);
  for (let times = 4; times <= MOST_TIMES && found.effectivePoints < ENOUGH; times *= 4) {
    found = sampled(residuals, unknowns, times * PLACES);
  }
  return found;
}

function sampled(residuals: Residuals, unknowns: number, count: number): Posterior {
  const places = Array.from({ length: count }, (_, k) => {
    const drawn = normals(k, unknowns).map((value) => value * Math.sqrt(PLACED));
    const x = descend(residuals, drawn, drawn);
    return { x, cost: costAt(residuals, x) };
  });
  const nearest = places.reduce((best, place) => (place.cost < best.cost ? place : best));
  const kernels = places
    .filter(({ cost }) => cost < nearest.cost + HOPELESS)
    .map(({ x }, k) => kernelAt(held(residuals, x), SPREADS[k % SPREADS.length] as number));
  const points: Vector[] = [];
  const logs: number[] = [];
  for (let i = 0; i < EACH * kernels.length; i++) {
    const { x, widths, directions } = kernels[i % kernels.length] as Kernel;
    const point = [...x];
    for (const [d, value] of normals(count + i, unknowns).entries()) {
      const step = value * (widths[d] as number);
      for (let j = 0; j < unknowns; j++) point[j] = (point[j] as number) + step * (directions[d]?.[j] as number);
    }
    let laid = 0;
    for (const kernel of kernels) laid += density(kernel, point);
    points.push(point);
    logs.push(-costAt(residuals, point) - Math.log(laid));
  }
  const most = Math.max(...logs);
  const raw = logs.map((log) => Math.exp(log - most));
  const total = raw.reduce((sum, value) => sum + value, 0);
  const weights = raw.map((value) => value / total);
  const best = descend(
    residuals,
    normals(0, unknowns).map(() => 0),
    nearest.x,
  );
  // No points at all are none.
  const effectivePoints = 1 / Math.max(dot(weights, weights), 1 / points.length);
  return { best: held(residuals, best), points, weights, effectivePoints };
}

/**
 * The shortest interval (JCGM 101, 5.3) that holds 95 % of values at the points, and so much more as their number
 * leaves in doubt: in n random points a share of 95 % scatters by sqrt(0.95 · 0.05 / n), and the shortest of many
 * intervals is short by chance. Of 6,000 true errors in simulated diagnoses 94.7 % lay in it with that added once,
 * 95.4 % with 1.6 times as much.
 */
export function shortest(
  { weights, effectivePoints }: Posterior,
  values: Vector,
): readonly [low: number, high: number] {
  const share = Math.min(0.999, 0.95 + 2.2 * Math.sqrt((0.95 * 0.05) / effectivePoints));
  const order = [...values.keys()].sort((a, b) => (values[a] as number) - (values[b] as number));
  let best: readonly [number, number] = [-Infinity, Infinity];
  let [inside, last] = [0, 0];
  for (const first of order) {
    while (inside < share && last < order.length) inside += weights[order[last++] as number] as number;
    if (inside < share) break;
    const [low, high] = [values[first] as number, values[order[last - 1] as number] as number];
    if (high - low < best[1] - best[0]) best = [low, high];
    inside -= weights[first] as number;
  }
  return best;
}

/** Half the sum of squares of residuals and unknowns. */
function costAt(residuals: Residuals, x: Vector): number {
  const left = residuals(x);
  return (dot(x, x) + dot(left, left)) / 2;
}

/**
 * The place near `start` that explains the readings and lies nearest to `wanted`: damped least squares (K. Levenberg,
 * Q. Appl. Math. 2 (1944), 164-168) on residuals and distances together.
 */
function descend(residuals: Residuals, wanted: Vector, start: Vector): Vector {
  const all = (x: Vector): Float64Array => {
    const left = residuals(x);
    const whole = new Float64Array(left.length + x.length);
    whole.set(left);
    for (let j = 0; j < x.length; j++) whole[left.length + j] = (x[j] as number) - (wanted[j] as number);
    return whole;
  };
  let x = start;
  let left = all(x);
  let damping = 1e-3;
  for (let round = 0; round < 40 && damping < 1e9; round++) {
    const weight = Math.sqrt(1 + damping);
    const readings = left.length - x.length;
    const columns = slopes(all, x, left);
    const right = left.slice();
    // Damping makes the equations of the distances heavier without moving what they pull to.
    for (const [j, column] of columns.entries()) {
      column[readings + j] = weight;
      right[readings + j] = (right[readings + j] as number) / weight;
    }
    const { triangle, rest } = reduced(columns, right);
    const step = solvedTriangle(triangle, rest);
    const next = x.map((value, j) => value - (step[j] as number));
    const nextLeft = all(next);
    if (dot(nextLeft, nextLeft) <= dot(left, left)) {
      [x, left] = [next, nextLeft];
      damping = Math.max(1e-9, damping / 10);
    } else damping *= 10;
    if (step.every((value) => Math.abs(value) < 1e-3)) break;
  }
  return x;
}

/** Slopes of residuals, a column for each unknown: away from 0, where they may bend. */
export function slopes(residuals: Residuals, x: Vector, here: Float64Array = residuals(x)): Float64Array[] {
  return x.map((value, j) => {
    const step = value < 0 ? -1e-3 : 1e-3;
    const at = [...x];
    at[j] = value + step;
    const column = residuals(at);
    // A loop: `map` of typed arrays is slow.
    for (let i = 0; i < column.length; i++) column[i] = ((column[i] as number) - (here[i] as number)) / step;
    return column;
  });
}

function held(residuals: Residuals, x: Vector): Held {
  const { values, right } = singularValues(slopes(residuals, x));
  return { x, strengths: values.map((value) => value * value), directions: right };
}

/** Points about a place: standard deviations along its directions, and the density at it, less a common factor. */
interface Kernel extends Held {
  readonly widths: Vector;
  readonly peak: number;
}

/** What the places themselves are spread, w·PLACED·w, is left out of the distribution's own variance w = 1/(1 + s). */
function kernelAt(place: Held, spread: number): Kernel {
  const widths = place.strengths.map((s) => (spread * Math.sqrt(1 + s - PLACED)) / (1 + s));
  return { ...place, widths, peak: 1 / widths.reduce((product, width) => product * width, 1) };
}

function density({ x, widths, directions, peak }: Kernel, point: Vector): number {
  let distance = 0;
  // Beyond e^-40 nothing counts; the strongest direction comes first.
  for (let d = 0; d < widths.length && distance < 80; d++) {
    let along = 0;
    const direction = directions[d] as Float64Array;
    for (let j = 0; j < x.length; j++) along += ((point[j] as number) - (x[j] as number)) * (direction[j] as number);
    distance += (along / (widths[d] as number)) ** 2;
  }
  return peak * Math.exp(-distance / 2);
}

/** Powers of 1/φ for φ⁷ = φ + 1: multiples of these are even in six dimensions, as the golden ratio's are in one. */
const RATIOS = [1, 2, 3, 4, 5, 6].map((power) => 1.1127756842787055 ** -power);

/** So many normal numbers, as even as a sequence can be: two from two even ones (G. E. P. Box, M. E. Muller, 1958). */
export function normals(i: number, count: number): number[] {
  const even = RATIOS.map((ratio) => (0.5 + (i + 1) * ratio) % 1);
  return Array.from({ length: count }, (_, k) => {
    const [one, other] = [even[k - (k % 2)] as number, even[k - (k % 2) + 1] as number];
    const turn = 2 * Math.PI * other;
    return Math.sqrt(-2 * Math.log(1 - one)) * (k % 2 === 0 ? Math.cos(turn) : Math.sin(turn));
  });
}
