/**
 * Derivatives of a function of which nothing is known but its values: central differences, extrapolated to
 * step zero, each with an estimate of its own error.
 * Source: L. F. Richardson 1911; C. J. F. Ridders, Advances in Engineering Software 4 (1982) 75. All differences
 * used here are even functions of the step, so each column of the table removes the next even power.
 */

/** A number and how far off it may be. */
export interface Estimated {
  /** The number. */
  readonly value: number;
  /** Estimate of its error, Infinity where nothing can be vouched for. */
  readonly error: number;
}

/** First derivatives ∂f/∂xᵢ, and for one j the second ∂²f/∂xᵢ∂xⱼ and third ones ∂³f/∂xᵢ∂xⱼ² for all i. */
export interface Slopes {
  readonly first: readonly Estimated[];
  readonly higher: (j: number) => { readonly second: readonly Estimated[]; readonly third: readonly Estimated[] };
}

/** The function with one variable, by place, moved by a and then one, or the same again, by b. */
export type Shifted = (i: number, a: number, j?: number, b?: number) => number;

/** Each step is the one before over this. No simple ratio, so that no periodic function looks constant. */
const RATIO = 1.51;
/** Steps of each of the two tables. */
const LEVELS = 10;
/** Rounding of one value of the function, with room for a few operations: 4 units of 2^-52. */
const ROUNDING = 9e-16;

/** Derivatives of `f` at `x`, where it is `centre`; `scale[i]` is a step along the i-th variable over which it may be bent. */
export function differences(f: Shifted, centre: number, x: readonly number[], scale: readonly number[]): Slopes {
  /** Step along variable i that floating-point numbers hold exactly, or nearly so. */
  const step = (i: number, size: number): number => {
    const here = x[i] as number;
    return here + size * (scale[i] as number) - here;
  };
  /** Change of the function while variable i changes by all of itself: its own rounding counts as much. */
  const lever = (i: number, h: number, up: number, down: number): number =>
    Math.abs(((x[i] as number) * (up - down)) / (2 * h));
  /** Second difference along j, divided by its step squared, from values at a point shifted along i. */
  const bend = (i: number, shift: number, j: number, h: number): readonly [number, number] => {
    const [middle, up, down] = [f(i, shift), f(i, shift, j, h), f(i, shift, j, -h)];
    return [(up - middle + (down - middle)) / (h * h), (largest(up, middle, down) + lever(j, h, up, down)) / (h * h)];
  };
  const first = (i: number): Estimated => {
    const corners: number[] = [];
    const slope = extrapolate((size) => {
      const h = step(i, size);
      const [up, down] = [f(i, h), f(i, -h)];
      // Slope to the right less slope to the left: vanishes with the step unless there is a corner.
      corners.push((up - centre + (down - centre)) / h);
      return [(up - down) / (2 * h), (largest(up, down) + lever(i, h, up, down)) / h];
    });
    const limits = corners.slice(1).map((next, k) => Math.abs(RATIO * next - (corners[k] as number)) / (RATIO - 1));
    const corner = Math.min(...limits.filter(Number.isFinite));
    return { value: slope.value, error: Math.max(slope.error, corner) };
  };
  const second = (i: number, j: number): Estimated =>
    extrapolate((size) => {
      const [h, k] = [step(i, size), step(j, size)];
      if (i === j) return bend(i, 0, i, h);
      const [a, b, c, d] = [f(i, h, j, k), f(i, h, j, -k), f(i, -h, j, k), f(i, -h, j, -k)];
      return [(a - b - (c - d)) / (4 * h * k), largest(a, b, c, d) / (h * k)];
    });
  const third = (i: number, j: number): Estimated =>
    extrapolate((size) => {
      const [h, k] = [step(i, size), step(j, size)];
      const [[up, upNoise], [down, downNoise]] = [bend(i, h, j, k), bend(i, -h, j, k)];
      return [(up - down) / (2 * h), (upNoise + downNoise) / (2 * h)];
    });
  return {
    first: x.map((_, i) => first(i)),
    higher: (j) => ({ second: x.map((_, i) => second(i, j)), third: x.map((_, i) => third(i, j)) }),
  };
}

function largest(...values: readonly number[]): number {
  return Math.max(...values.map(Math.abs));
}

/**
 * Limit of a difference quotient at step zero, from long steps and again from short ones. Both estimates hold
 * for a smooth function; where they contradict each other (a function that rounds, or has a corner nearby) the
 * contradiction is the error.
 */
function extrapolate(quotient: (size: number) => readonly [number, number]): Estimated {
  const [long, short] = [ridders(quotient, 1), ridders(quotient, RATIO ** -LEVELS)];
  const [best, other] = long.error < short.error ? [long, short] : [short, long];
  const contradiction = Math.abs(best.value - other.value) - 2 * other.error;
  return contradiction > best.error ? { value: best.value, error: contradiction } : best;
}

/**
 * Ridders' table. The quotient comes with the size of what it was made of, over which its rounding error is
 * judged. Among all entries the one of the least error is taken, its error being how far it lies from the two
 * entries that it was made of.
 */
function ridders(quotient: (size: number) => readonly [number, number], longest: number): Estimated {
  let best: Estimated = { value: 0, error: Infinity };
  let previous: readonly number[] = [];
  for (let level = 0, size = longest; level < LEVELS; level++, size /= RATIO) {
    const [value, noise] = quotient(size);
    if (!Number.isFinite(value) || !Number.isFinite(noise)) {
      previous = [];
      continue;
    }
    const row = [value];
    let power = 1;
    for (const [column, above] of previous.entries()) {
      power *= RATIO * RATIO;
      const left = row[column] as number;
      const next = left + (left - above) / (power - 1);
      row.push(next);
      // Two columns at least: three steps that agree.
      const error = Math.max(Math.abs(next - left), Math.abs(next - above)) + ROUNDING * noise;
      if (column > 0 && error < best.error) best = { value: next, error };
    }
    previous = row;
  }
  return best;
}
