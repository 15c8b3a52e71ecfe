/**
 * From readings with uncertainties to causes with uncertainties: the distribution of a few unknowns, each
 * with a normal prior, given a smooth forward function. Unknowns come in units of their prior's standard
 * uncertainty. One of them is a size (0 or more) that may trade places with another in a ring, so that is cut
 * into slices; in each slice the best places are found by damped least squares from several starts, and
 * weighted points of an even sequence (J. H. Halton, 1960) are laid about all of them.
 */
import { studentQuantile } from '../../budget/student.js';
import { refuse } from '../../core/errors.js';
import { reduced, singularValues, solvedTriangle } from '../../core/linear.js';

/** A problem: what is left unexplained, in units of its uncertainty, for given unknowns. */
export interface Problem {
  /** Number of unknowns, at most five. */
  readonly unknowns: number;
  /** Which unknown is a size and cannot be below 0. */
  readonly sizeIndex: number;
  /** Readings less predictions, each over its uncertainty. */
  readonly residuals: (x: readonly number[]) => readonly number[];
}

/** How strongly the readings hold the unknowns about a place. */
export interface Held {
  readonly x: readonly number[];
  /** Eigenvalues of JᵀJ, 1 being as strongly as the prior. */
  readonly strengths: readonly number[];
  /** The directions that belong to them, one row each. */
  readonly directions: readonly (readonly number[])[];
  /** How the residuals change along each direction, one row each. */
  readonly slopes: readonly (readonly number[])[];
}

/** Weighted points that stand for the distribution. */
export interface Posterior {
  /** The most likely place found. */
  readonly best: Held;
  readonly points: readonly (readonly number[])[];
  /** Sum to 1. */
  readonly weights: readonly number[];
  /** How many equal points would say as much. */
  readonly effectivePoints: number;
  /** Width of a slice of the size: the points stand in the middle of theirs. */
  readonly sliceWidth: number;
}

/** Slices of the size, and points in each: divisible by the number of places and of spreads. */
const SLICES = 32;
const POINTS = 36;
/** The size is sought up to this many of its prior's standard uncertainties. */
const FARTHEST = 6;
/** A slice or a place with less than e^-12 of the best one's likelihood explains nothing. */
const HOPELESS = 12;
/** The points are spread wider than the place's own shape says, and half of them much wider. */
const SPREADS = [1.1, 2] as const;
/**
 * A direction held a hundred times less strongly than the strongest is loose. Far along a loose direction the
 * tight ones bend away from their straight continuation; there the points follow the bend.
 */
const LOOSE = 0.01;
/** Corrections towards the bend: each leaves a small part of the last error. */
const FOLLOWING = 3;

/** A best place of a slice; half the sum of squares of residuals and unknowns is its cost. */
interface Place {
  readonly x: readonly number[];
  readonly cost: number;
}

/** The distribution of the unknowns. */
export function posterior(problem: Problem, starts: readonly (readonly number[])[]): Posterior {
  const { sizeIndex, unknowns } = problem;
  const all = Array.from({ length: unknowns }, (_, i) => i);
  const free = all.filter((i) => i !== sizeIndex);
  let guesses = starts;
  let best: Place = { x: starts[0] ?? [], cost: Infinity };
  const slice = (size: number): readonly Place[] => {
    const places: Place[] = [];
    for (const guess of guesses) {
      const place = descend(
        problem,
        guess.map((value, i) => (i === sizeIndex ? size : value)),
        free,
      );
      const known = places.some(({ x }) => x.every((value, i) => Math.abs(value - (place.x[i] ?? 0)) < 0.02));
      if (!known) places.push(place);
    }
    places.sort((a, b) => a.cost - b.cost);
    const first = places[0];
    if (first && first.cost < best.cost) best = first;
    return places.filter(({ cost }) => cost <= (first?.cost ?? 0) + HOPELESS);
  };
  const [low, high] = extent(slice, () => best.cost);
  const sliceWidth = (high - low) / SLICES;
  guesses = [...starts, best.x];
  const points: number[][] = [];
  const logs: number[] = [];
  for (let i = 0; i < SLICES; i++) {
    const size = low + sliceWidth * (i + 0.5);
    const places = slice(size).slice(0, 3);
    const shapes = places.map(({ x }) => held(problem, x, free));
    if (shapes.length === 0)
      refuse('not-converged', 'measurements', size, 'must agree with some sweep near the one meant');
    for (let k = 0; k < POINTS; k++) {
      const shape = shapes[k % shapes.length] as Held;
      const spread = SPREADS[Math.floor(k / shapes.length) % 2] as number;
      // Each place and spread takes the next number of the sequence for itself: by turns they would share its gaps.
      const turn = SPREADS.length * shapes.length;
      const index = 1 + i * Math.ceil(POINTS / turn) + Math.floor(k / turn);
      const off = shape.strengths.map(
        (strength, d) => (studentQuantile(radicalInverse(index, d), null) * spread) / Math.sqrt(1 + strength),
      );
      const bend = follow(problem, shape, off);
      const x = placeAt(
        shape,
        off.map((value, d) => value + (bend[d] ?? 0)),
      );
      points.push(x);
      const laid = shapes.reduce((sum, other) => sum + density(problem, other, x), 0) / shapes.length;
      logs.push(-costAt(problem, x) - Math.log(laid));
    }
  }
  const most = Math.max(...logs);
  const raw = logs.map((log) => Math.exp(log - most));
  const total = raw.reduce((sum, value) => sum + value, 0);
  const weights = raw.map((value) => value / total);
  const effectivePoints = 1 / weights.reduce((sum, value) => sum + value * value, 0);
  return { best: held(problem, best.x, all), points, weights, effectivePoints, sliceWidth };
}

/** The range of the size outside of which nothing is explained, by ever closer looks. */
function extent(slice: (size: number) => readonly Place[], least: () => number): [number, number] {
  let [low, high] = [0, FARTHEST];
  for (let look = 0; look < 8; look++) {
    const sizes = Array.from({ length: 9 }, (_, i) => low + ((high - low) * i) / 8);
    const costs = sizes.map((size) => slice(size)[0]?.cost ?? Infinity);
    const likely = sizes.flatMap((_, i) => ((costs[i] ?? Infinity) <= least() + HOPELESS ? [i] : []));
    const nearest = costs.indexOf(Math.min(...costs));
    const [first, last] = [likely[0] ?? nearest, likely[likely.length - 1] ?? nearest];
    [low, high] = [sizes[Math.max(0, first - 1)] ?? low, sizes[Math.min(8, last + 1)] ?? high];
    if (last - first >= 3) break;
  }
  return [low, high];
}

/** Damped least squares (Levenberg 1944) on residuals and unknowns together; only the free ones move. */
function descend(problem: Problem, start: readonly number[], free: readonly number[]): Place {
  let x = [...start];
  let cost = costAt(problem, x);
  let damping = 1e-3;
  for (let round = 0; round < 40; round++) {
    // The unknowns are equations of their own, x = 0 of unit weight; damping only makes them heavier.
    const weight = Math.sqrt(1 + damping);
    const columns = jacobian(problem, x, free).map((column, j) =>
      Float64Array.from([...column, ...free.map((_, i) => (i === j ? weight : 0))]),
    );
    const right = Float64Array.from([...problem.residuals(x), ...free.map((i) => (x[i] ?? 0) / weight)]);
    const { triangle, rest } = reduced(columns, right);
    const step = solvedTriangle(triangle, rest);
    const next = [...x];
    for (const [j, i] of free.entries()) next[i] = (x[i] ?? 0) - (step[j] ?? 0);
    const nextCost = costAt(problem, next);
    const settled = step.every((value) => Math.abs(value) < 1e-5);
    if (nextCost <= cost) {
      x = next;
      cost = nextCost;
      damping = Math.max(1e-9, damping / 10);
    } else damping *= 10;
    if (settled || damping > 1e9) break;
  }
  return { x, cost };
}

function held(problem: Problem, x: readonly number[], free: readonly number[]): Held {
  const columns = jacobian(problem, x, free);
  const { values, left, right } = singularValues(columns);
  // The loosest direction first.
  const order = [...values.keys()].reverse();
  return {
    x,
    strengths: order.map((k) => (values[k] as number) ** 2),
    directions: order.map((k) => x.map((_, i) => right[k]?.[free.indexOf(i)] ?? 0)),
    slopes: order.map((k) => [...(left[k] as Float64Array)]),
  };
}

function dot(a: readonly number[], b: readonly number[]): number {
  let sum = 0;
  for (let i = 0; i < a.length; i++) sum += (a[i] ?? 0) * (b[i] ?? 0);
  return sum;
}

/** The place reached from another by these steps along its directions. */
function placeAt({ x, directions }: Held, steps: readonly number[]): number[] {
  const place = [...x];
  for (const [k, direction] of directions.entries()) {
    for (let j = 0; j < place.length; j++) place[j] = (place[j] ?? 0) + (direction[j] ?? 0) * (steps[k] ?? 0);
  }
  return place;
}

/**
 * How far the tight directions bend away for given steps along the loose ones: the best of a few corrections.
 * It depends on the loose steps alone, so that laying the points along the bend shears them and leaves their
 * density as it was, however well the corrections went.
 */
function follow(problem: Problem, shape: Held, steps: readonly number[]): readonly number[] {
  const limit = LOOSE * Math.max(...shape.strengths);
  const loose = shape.strengths.map((strength) => strength < limit);
  let bend = steps.map(() => 0);
  if (!loose.includes(true)) return bend;
  let [best, least] = [bend, Infinity];
  for (let round = 0; round <= FOLLOWING; round++) {
    const at = steps.map((step, k) => (loose[k] ? step : (bend[k] ?? 0)));
    const x = placeAt(shape, at);
    const left = problem.residuals(x);
    const cost = dot(x, x) + dot(left, left);
    if (cost < least) [best, least] = [bend, cost];
    bend = bend.map((value, k) => {
      if (loose[k]) return 0;
      const slope = dot(shape.directions[k] ?? [], x) + dot(shape.slopes[k] ?? [], left);
      return value - slope / (1 + (shape.strengths[k] ?? 0));
    });
  }
  return best;
}

function costAt(problem: Problem, x: readonly number[]): number {
  const left = problem.residuals(x);
  return (dot(x, x) + dot(left, left)) / 2;
}

/** Slopes of the residuals, a column for each unknown, by two-sided differences: a thousandth of a prior's width is small on any curve here. */
function jacobian(problem: Problem, x: readonly number[], free: readonly number[]): number[][] {
  const step = 1e-3;
  return free.map((j) => {
    const at = (by: number): readonly number[] =>
      problem.residuals(x.map((value, k) => (k === j ? value + by : value)));
    const [up, down] = [at(step), at(-step)];
    return up.map((high, i) => (high - (down[i] ?? 0)) / (2 * step));
  });
}

/** Density of the points laid about a place, less a common factor. */
function density(problem: Problem, shape: Held, x: readonly number[]): number {
  const { strengths, directions, x: centre } = shape;
  const offset = x.map((value, j) => value - (centre[j] ?? 0));
  const steps = directions.map((direction) => dot(direction, offset));
  const bend = follow(problem, shape, steps);
  let distance = 0;
  let peak = 1;
  for (const [k, strength] of strengths.entries()) {
    distance += ((steps[k] ?? 0) - (bend[k] ?? 0)) ** 2 * (1 + strength);
    peak *= Math.sqrt(1 + strength);
  }
  return SPREADS.reduce((sum, s) => sum + Math.exp(-distance / (2 * s * s)) / s ** strengths.length, 0) * peak;
}

const BASES = [2, 3, 5, 7] as const;

/** The i-th number of an even sequence in (0, 1): the digits of i, mirrored at the point. */
function radicalInverse(i: number, dimension: number): number {
  const base = BASES[dimension] ?? 11;
  let value = 0;
  let scale = 1;
  for (let rest = i; rest > 0; rest = Math.floor(rest / base)) {
    scale /= base;
    value += scale * (rest % base);
  }
  return value;
}
