/**
 * What a set of Monte Carlo results says: mean, standard uncertainty and coverage intervals, each with the standard
 * deviation of its own numerical error, which shrinks as trials are added.
 * Source: JCGM 101:2008, 7.6 (mean and standard uncertainty) and 7.7 (coverage intervals).
 */

/** An interval that holds the quantity with a given probability. */
export interface CoverageInterval {
  /** Lower end. */
  readonly low: number;
  /** Upper end. */
  readonly high: number;
  /** Standard deviation of the numerical error of the lower end. */
  readonly lowError: number;
  /** Standard deviation of the numerical error of the upper end. */
  readonly highError: number;
}

/** Mean and standard deviation, with their numerical errors. */
export interface Moments {
  /** Average of the results. */
  readonly mean: number;
  /** Standard deviation of the numerical error of the mean. */
  readonly meanError: number;
  /** Standard deviation of the results. */
  readonly standardUncertainty: number;
  /** Standard deviation of its numerical error. */
  readonly standardUncertaintyError: number;
}

/**
 * Mean and standard deviation. The deviations count from the first value, so that a large common part costs no
 * digits. The error of the standard deviation follows from the fourth moment, for any distribution.
 */
export function moments(values: Float64Array): Moments {
  const n = values.length;
  const origin = values[0] as number;
  let sum = 0;
  for (let i = 0; i < n; i++) sum += (values[i] as number) - origin;
  const offset = sum / n;
  let squares = 0;
  let fourths = 0;
  for (let i = 0; i < n; i++) {
    const deviation = (values[i] as number) - origin - offset;
    const square = deviation * deviation;
    squares += square;
    fourths += square * square;
  }
  const variance = squares / (n - 1);
  const deviation = Math.sqrt(variance);
  const spread = fourths / n / variance - variance;
  return {
    mean: origin + offset,
    meanError: deviation / Math.sqrt(n),
    standardUncertainty: deviation,
    standardUncertaintyError: variance > 0 ? Math.sqrt(Math.max(spread, 0) / n) / 2 : 0,
  };
}

/** The smallest and the largest values of a set, each in rising order. */
interface Tails {
  readonly low: Float64Array;
  readonly high: Float64Array;
}

/** How many results lie inside the interval, and how many outside (JCGM 101, 7.7.2). */
function inside(count: number, coverage: number): { readonly within: number; readonly outside: number } {
  const within = Math.floor(coverage * count + 0.5);
  return { within, outside: count - within };
}

/** The ends alone of one of the intervals. */
export function intervalEnds(
  values: Float64Array,
  coverage: number,
  kind: 'symmetric' | 'shortest',
): readonly [number, number] {
  const ends = tails(values, inside(values.length, coverage).outside);
  if (kind === 'shortest') return shortestOf(ends);
  const { low, high } = symmetricOf(ends, values.length);
  return [low, high];
}

/** The probabilistically symmetric and the shortest interval, from the tails of the results alone. */
export function coverageIntervals(
  values: Float64Array,
  coverage: number,
): { readonly symmetric: CoverageInterval; readonly shortest: CoverageInterval } {
  const ends = tails(values, inside(values.length, coverage).outside);
  const [low, high] = shortestOf(ends);
  const [lowError, highError] = shortestErrors(values, coverage);
  return { symmetric: symmetricOf(ends, values.length), shortest: { low, high, lowError, highError } };
}

/**
 * Symmetric interval, with the errors of its ends: the number of results below a quantile is binomial, so results
 * as many places away as its standard deviation are one standard deviation away.
 */
function symmetricOf({ low, high }: Tails, count: number): CoverageInterval {
  const outside = low.length;
  const place = Math.floor((outside + 1) / 2) - 1;
  const away = Math.max(1, Math.round(Math.sqrt((outside / 2) * (1 - outside / 2 / count))));
  const error = (tail: Float64Array): number => {
    const [from, to] = [Math.max(0, place - away), Math.min(outside - 1, place + away)];
    return (((tail[to] as number) - (tail[from] as number)) / (to - from)) * away;
  };
  return { low: low[place] as number, high: high[place] as number, lowError: error(low), highError: error(high) };
}

/** The shortest of all intervals that hold the wanted number of results. */
function shortestOf({ low, high }: Tails): readonly [number, number] {
  let best = 0;
  let least = Infinity;
  for (let i = 0; i < low.length; i++) {
    const length = (high[i] as number) - (low[i] as number);
    if (length < least) {
      least = length;
      best = i;
    }
  }
  return [low[best] as number, high[best] as number];
}

const SAMPLES = 10;

/**
 * Errors of the shortest interval's ends: their spread over ten small samples of the results, scaled to all of them.
 * The ends scatter with the cube root of the number of trials, for near the shortest interval the length hardly
 * changes (J. Kim, D. Pollard, Cube root asymptotics, Ann. Statist. 18, 1990); where the density stops abruptly they
 * scatter less than is said.
 */
function shortestErrors(values: Float64Array, coverage: number): readonly [number, number] {
  const size = Math.floor(values.length / (values.length < 100_000 ? SAMPLES : 5 * SAMPLES));
  const ends = Array.from({ length: SAMPLES }, (_, k) => {
    const sample = values.subarray(k * size, (k + 1) * size);
    return shortestOf(tails(sample, inside(size, coverage).outside));
  });
  const shrink = Math.cbrt(size / values.length);
  const spread = (of: (end: readonly [number, number]) => number): number =>
    moments(Float64Array.from(ends, of)).standardUncertainty * shrink;
  return [spread(([low]) => low), spread(([, high]) => high)];
}

/**
 * The `count` smallest and largest values in order, without sorting those between: limits that surely let enough
 * through come from a sorted sample, and only what they let through is sorted. What comes out does not depend on
 * the sample: if the limits let too little through, everything is sorted.
 */
function tails(values: Float64Array, count: number): Tails {
  const n = values.length;
  const size = Math.floor(n / 64);
  // The place in the sample that `count` values fill on average, and five standard deviations more.
  const share = (count / n) * size;
  const place = Math.ceil(share + 5 * Math.sqrt(share) + 5);
  if (place < size / 4) {
    const sample = new Float64Array(size);
    for (let i = 0; i < size; i++) sample[i] = values[i * 64] as number;
    sample.sort();
    const [floor, ceiling] = [sample[place] as number, sample[size - 1 - place] as number];
    const low = new Float64Array(n);
    const high = new Float64Array(n);
    let [lows, highs] = [0, 0];
    for (let i = 0; i < n; i++) {
      const value = values[i] as number;
      if (value <= floor) low[lows++] = value;
      if (value >= ceiling) high[highs++] = value;
    }
    if (lows >= count && highs >= count) {
      return {
        low: low.subarray(0, lows).sort().subarray(0, count),
        high: high
          .subarray(0, highs)
          .sort()
          .subarray(highs - count),
      };
    }
  }
  const sorted = Float64Array.from(values).sort();
  return { low: sorted.subarray(0, count), high: sorted.subarray(n - count) };
}
