/**
 * From readings with uncertainties to causes with uncertainties: the distribution of a few unknowns, each
 * with a normal prior, given a smooth forward function. Unknowns come in units of their prior's standard
 * uncertainty. One of them may trade places with another in a ring, so that is cut into slices; in each slice the
 * best places are found by damped least squares from several starts, and weighted points of an even sequence
 * (J. H. Halton, 1960) are laid about all of them.
 */
import { studentQuantile } from '../../budget/student.js';
import { refuse } from '../../core/errors.js';
import { reduced, singularValues, solvedTriangle } from '../../core/linear.js';

type Vector = readonly number[];
/** Slopes of the residuals, a column for each unknown. */
type Slopes = readonly Float64Array[];

/** A problem: what is left unexplained, in units of its uncertainty, for given unknowns. */
export interface Problem {
  /** Number of unknowns, at most five. */
  readonly unknowns: number;
  /** Which unknown is cut into slices. Readings may bend at its 0. */
  readonly sliced: number;
  /** On which sides of its 0 it is sought. */
  readonly sides: readonly (1 | -1)[];
  /** How many smooth variants there are besides the readings as they are: the pieces of readings that bend. */
  readonly variants: number;
  /** Readings less predictions, each over its uncertainty: as they are (0) or of a variant, to know where to look. */
  readonly residuals: (x: Vector, variant: number) => Float64Array;
}

/** How strongly the readings hold the unknowns about a place. */
export interface Held {
  readonly x: Vector;
  /** By which variant of the readings. */
  readonly variant: number;
  /** Eigenvalues of JᵀJ, 1 being as strongly as the prior; the weakest first. */
  readonly strengths: Vector;
  /** The directions that belong to them, one row each. */
  readonly directions: readonly Vector[];
  /** How the residuals change along each direction, one row each. */
  readonly slopes: readonly Float64Array[];
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
  /** Width of the widest slice that counts: the points stand in the middle of theirs. */
  readonly sliceWidth: number;
}

/** Slices of a side, and points in each at most: as many for each place and spread. */
const SLICES = 24;
const POINTS = 24;
/** The sliced unknown is sought up to this many of its prior's standard uncertainties. */
const FARTHEST = 6;
/** A slice or a place with less than e^-12 of the best one's likelihood explains nothing. */
const HOPELESS = 12;
/** The points are spread wider than the place's own shape says, and half of them much wider. */
const SPREADS = [1.1, 2] as const;
/**
 * The loosest direction, and all that are held a hundred times less strongly than the strongest, are loose. Far along
 * these the tight ones bend away from their straight continuation; there the points follow the bend.
 */
const LOOSE = 0.01;
/** Corrections towards the bend: each leaves a small part of the last error. */
const FOLLOWING = 3;

/** A best place of a slice; half the sum of squares of residuals and unknowns is its cost. */
interface Place {
  readonly x: Vector;
  readonly variant: number;
  readonly cost: number;
}

interface Slice {
  readonly at: number;
  /** Its best places, the best one first. */
  readonly places: readonly Place[];
}

/** The distribution of the unknowns. */
export function posterior(problem: Problem, starts: readonly Vector[]): Posterior {
  const { sliced, sides, unknowns, variants } = problem;
  const all = Array.from({ length: unknowns }, (_, i) => i);
  const free = all.filter((i) => i !== sliced);
  let best: Place = { x: starts[0] as Vector, variant: 0, cost: Infinity };
  const known: Slice[] = [];
  /** Searched from the places of the slices beside it, the first ones from all starts. */
  const slice = (at: number, from: readonly Vector[], most: number): Slice => {
    const beside = [neighbour(known, at, -1), neighbour(known, at, 1)].flatMap((one) => one?.places ?? [best]);
    const places: Place[] = [];
    for (let variant = 0; variant <= most; variant++) {
      const mine = beside.filter((one) => one.variant === variant);
      const guesses = [...from, ...(mine.length > 0 ? mine : beside).map(({ x }) => x)];
      for (const [i, guess] of guesses.entries()) {
        if (guesses.slice(0, i).some((one) => near(one, guess, 0.1))) continue;
        const place = descend(problem, changed(guess, sliced, at), free, variant);
        if (!places.some((one) => one.variant === variant && near(one.x, place.x, 0.02))) places.push(place);
      }
    }
    places.sort((a, b) => a.variant - b.variant || a.cost - b.cost);
    const first = places[0] as Place;
    if (first.cost < best.cost) best = first;
    const found = { at, places: places.filter(({ cost }) => cost <= first.cost + HOPELESS).slice(0, 12) };
    known.push(found);
    return found;
  };
  const spans = sides.map((side) =>
    extent(
      (at, look) => slice(at, look === 0 ? starts : [], 0),
      side,
      () => best.cost,
    ),
  );
  const points: Vector[] = [];
  const logs: number[] = [];
  const normals: Vector[] = [];
  let sliceWidth = 0;
  for (const { low, high, cost } of spans) {
    if (!(cost <= best.cost + HOPELESS)) continue;
    const width = (high - low) / SLICES;
    sliceWidth = Math.max(sliceWidth, Math.abs(width));
    for (let i = 0; i < SLICES; i++) {
      const shapes = slice(low + width * (i + 0.5), [], variants).places.map((place) => held(problem, place, free));
      const turn = SPREADS.length * shapes.length;
      const count = turn * Math.floor(POINTS / turn);
      for (let k = 0; k < count; k++) {
        const shape = shapes[k % shapes.length] as Held;
        const spread = SPREADS[Math.floor(k / shapes.length) % 2] as number;
        // Each place and spread takes the next number of the sequence for itself: by turns they would share its gaps.
        const index = i * (count / turn) + Math.floor(k / turn);
        normals[index] ??= free.map((_, d) => studentQuantile(radicalInverse(index + 1, d), null));
        const off = shape.strengths.map(
          (strength, d) => ((normals[index]?.[d] as number) * spread) / Math.sqrt(1 + strength),
        );
        const bend = follow(problem, shape, off);
        const x = placeAt(shape, sum(off, bend));
        points.push(x);
        const laid = shapes.reduce((dense, other) => {
          return dense + (other === shape ? density(shape, off) : densityAt(problem, other, x));
        }, 0);
        logs.push(-costAt(problem, x) - Math.log(laid / shapes.length) + Math.log(Math.abs(width) / count));
      }
    }
  }
  const most = Math.max(...logs);
  const raw = logs.map((log) => Math.exp(log - most));
  const total = raw.reduce((whole, value) => whole + value, 0);
  const weights = raw.map((value) => value / total);
  const effectivePoints = 1 / dot(weights, weights);
  if (!(effectivePoints >= 5)) {
    refuse('not-converged', 'trials', points.length, 'must agree with some sweep near the one meant');
  }
  return { best: held(problem, best, all), points, weights, effectivePoints, sliceWidth };
}

function near(a: Vector, b: Vector, within: number): boolean {
  return a.every((value, i) => Math.abs(value - (b[i] as number)) < within);
}

/** The nearest slice already known below or above. */
function neighbour(known: readonly Slice[], at: number, way: 1 | -1): Slice | undefined {
  let nearest: Slice | undefined;
  for (const one of known) {
    const off = way * (one.at - at);
    if (off >= 0 && (nearest === undefined || off < way * (nearest.at - at))) nearest = one;
  }
  return nearest;
}

/** The range on one side outside of which nothing is explained, by ever closer looks. */
function extent(
  slice: (at: number, look: number) => Slice,
  side: 1 | -1,
  least: () => number,
): { readonly low: number; readonly high: number; readonly cost: number } {
  let [low, high, cost] = [0, side * FARTHEST, Infinity];
  for (let look = 0; look < 8; look++) {
    const places = Array.from({ length: 9 }, (_, i) => low + ((high - low) * i) / 8);
    const costs = places.map((at) => slice(at, look).places[0]?.cost as number);
    cost = Math.min(cost, ...costs);
    const likely = costs.flatMap((one, i) => (one <= least() + HOPELESS ? [i] : []));
    const nearest = costs.indexOf(Math.min(...costs));
    const [first, last] = [likely[0] ?? nearest, likely[likely.length - 1] ?? nearest];
    [low, high] = [places[Math.max(0, first - 1)] as number, places[Math.min(8, last + 1)] as number];
    if (last - first >= 3) break;
  }
  return { low, high, cost };
}

/** Damped least squares (Levenberg 1944) on residuals and unknowns together; only the free ones move. */
function descend(problem: Problem, start: Vector, free: Vector, variant: number): Place {
  let x = start;
  let left = problem.residuals(x, variant);
  let cost = (dot(x, x) + dot(left, left)) / 2;
  let damping = 1e-3;
  for (let round = 0; round < 40; round++) {
    // The unknowns are equations of their own, x = 0 of unit weight; damping only makes them heavier.
    const weight = Math.sqrt(1 + damping);
    const readings = left.length;
    const columns = jacobian(problem, x, free, variant).map((column, j) => {
      const whole = new Float64Array(readings + free.length);
      whole.set(column);
      whole[readings + j] = weight;
      return whole;
    });
    const right = new Float64Array(readings + free.length);
    right.set(left);
    for (let j = 0; j < free.length; j++) right[readings + j] = (x[free[j] as number] as number) / weight;
    const { triangle, rest } = reduced(columns, right);
    const step = solvedTriangle(triangle, rest);
    const next = [...x];
    for (let j = 0; j < free.length; j++)
      next[free[j] as number] = (next[free[j] as number] as number) - (step[j] as number);
    const nextLeft = problem.residuals(next, variant);
    const nextCost = (dot(next, next) + dot(nextLeft, nextLeft)) / 2;
    const settled = step.every((value) => Math.abs(value) < 1e-4);
    if (nextCost <= cost) {
      [x, left, cost] = [next, nextLeft, nextCost];
      damping = Math.max(1e-9, damping / 10);
    } else damping *= 10;
    if (settled || !(damping < 1e9)) break;
  }
  return { x, variant, cost };
}

function held(problem: Problem, { x, variant }: Pick<Place, 'x' | 'variant'>, free: Vector): Held {
  const { values, left, right } = singularValues(jacobian(problem, x, free, variant));
  // The loosest direction first.
  const order = [...values.keys()].reverse();
  return {
    x,
    variant,
    strengths: order.map((k) => (values[k] as number) ** 2),
    directions: order.map((k) => x.map((_, i) => right[k]?.[free.indexOf(i)] ?? 0)),
    slopes: order.map((k) => left[k] as Float64Array),
  };
}

function dot(a: ArrayLike<number>, b: ArrayLike<number>): number {
  let whole = 0;
  for (let i = 0; i < a.length; i++) whole += (a[i] as number) * (b[i] as number);
  return whole;
}

function sum(a: Vector, b: Vector): number[] {
  return a.map((value, i) => value + (b[i] as number));
}

/** The same place with one unknown as told. */
function changed(x: Vector, index: number, value: number): number[] {
  const place = [...x];
  place[index] = value;
  return place;
}

/** The place reached from another by these steps along its directions. */
function placeAt({ x, directions }: Held, steps: Vector): number[] {
  const place = [...x];
  for (let k = 0; k < directions.length; k++) {
    const [direction, step] = [directions[k] as Vector, steps[k] as number];
    for (let j = 0; j < place.length; j++) place[j] = (place[j] as number) + (direction[j] as number) * step;
  }
  return place;
}

/**
 * How far the tight directions bend away for given steps along the loose ones: the best of a few corrections.
 * It depends on the loose steps alone, so that laying the points along the bend shears them and leaves their
 * density as it was, however well the corrections went.
 */
function follow(problem: Problem, shape: Held, steps: Vector): Vector {
  const { strengths, directions, slopes, variant } = shape;
  const loose = Math.max(strengths[0] as number, LOOSE * (strengths[strengths.length - 1] as number));
  let bend: Vector = steps.map(() => 0);
  let [best, least] = [bend, Infinity];
  for (let round = 0; ; round++) {
    const at = steps.map((step, k) => ((strengths[k] as number) <= loose ? step : (bend[k] as number)));
    const x = placeAt(shape, at);
    const left = problem.residuals(x, variant);
    const cost = dot(x, x) + dot(left, left);
    if (cost < least) [best, least] = [bend, cost];
    if (round === FOLLOWING) return best;
    bend = bend.map((value, k) => {
      const strength = strengths[k] as number;
      if (strength <= loose) return 0;
      const slope = dot(directions[k] as Vector, x) + dot(slopes[k] as Float64Array, left);
      return value - slope / (1 + strength);
    });
  }
}

function costAt(problem: Problem, x: Vector): number {
  const left = problem.residuals(x, 0);
  return (dot(x, x) + dot(left, left)) / 2;
}

/**
 * Slopes of the residuals, a column for each unknown: a thousandth of a prior's width is small on any curve here.
 * Two-sided differences, but away from the bend at 0 of the sliced unknown.
 */
function jacobian({ residuals, sliced, sides }: Problem, x: Vector, free: Vector, variant: number): Slopes {
  const step = 1e-3;
  const at = [...x];
  return free.map((j) => {
    const value = x[j] as number;
    const side = value === 0 ? (sides[0] as number) : Math.sign(value);
    const [from, to] = j === sliced ? [value, value + side * step] : [value - step, value + step];
    at[j] = to;
    const column = residuals(at, variant);
    at[j] = from;
    const down = residuals(at, variant);
    at[j] = value;
    // A loop: `map` of typed arrays is slow.
    for (let i = 0; i < column.length; i++) {
      column[i] = ((column[i] as number) - (down[i] as number)) / (to - from);
    }
    return column;
  });
}

/** Density of the points laid about a place at another one, less a common factor. */
function densityAt(problem: Problem, shape: Held, x: Vector): number {
  const offset = x.map((value, j) => value - (shape.x[j] as number));
  const steps = shape.directions.map((direction) => dot(direction, offset));
  const bend = follow(problem, shape, steps);
  return density(
    shape,
    steps.map((step, k) => step - (bend[k] as number)),
  );
}

/** The same from steps along its directions, bends taken off. */
function density({ strengths }: Held, steps: Vector): number {
  let distance = 0;
  let peak = 1;
  for (let k = 0; k < steps.length; k++) {
    const weight = 1 + (strengths[k] as number);
    distance += (steps[k] as number) ** 2 * weight;
    peak *= Math.sqrt(weight);
  }
  return SPREADS.reduce((dense, s) => dense + Math.exp(-distance / (2 * s * s)) / s ** steps.length, 0) * peak;
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
