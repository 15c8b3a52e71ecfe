/**
 * Does a measured value show that the thing conforms? Source: JCGM 106:2012 (probability of conformity, guard
 * bands, clause 8; risks of a whole production, clause 9).
 */
import { refuse } from '../core/errors.js';
import { anyNumber, defaulted, type Fields, nullable, number, optional, positive, read } from '../core/read.js';
import { normalBelow, studentBelow } from './student.js';

/** Specification limits: one of them or both. */
export interface SpecificationLimits {
  /** Lower limit of what conforms. @defaultValue none on this side; one limit must be given */
  readonly lower?: number;
  /** Upper limit of what conforms. @defaultValue none on this side; one limit must be given */
  readonly upper?: number;
}

/** What is to be decided. */
export interface ConformityOptions extends SpecificationLimits {
  /** Measured value. */
  readonly value: number;
  /** Its standard uncertainty. */
  readonly standardUncertainty: number;
  /** Degrees of freedom of the uncertainty; null: infinitely many. @defaultValue null, the normal distribution */
  readonly degreesOfFreedom?: number | null;
  /**
   * Distance of the acceptance limits inside the specification limits. Negative to reject only what hardly can
   * conform.
   * @defaultValue 0, simple acceptance
   */
  readonly guardBand?: number;
  /**
   * Instead of a guard band: probability of conformity that must be reached to accept.
   * @defaultValue none: the guard band decides
   */
  readonly requiredProbability?: number;
}

/** A decision and what it rests on. */
export interface Conformity {
  /** Whether the measured value lies within the acceptance limits. */
  readonly decision: 'accept' | 'reject';
  /** Probability that the true value lies within the specification. */
  readonly probability: number;
  /** Probability that this decision is wrong. */
  readonly risk: number;
  /** Limits of measured values that are accepted; null on a side without limit, `acceptance` null if nothing is. */
  readonly acceptance: {
    /** Smallest value accepted. */
    readonly low: number | null;
    /** Largest value accepted. */
    readonly high: number | null;
  } | null;
}

/**
 * Decides whether a measured value shows conformity with its specification, with the probability that it does.
 * @throws GeneratrixError `missing-option` without a limit, `contradiction` if the limits are the wrong way
 * round or both a guard band and a probability are given, `out-of-range` and the like for numbers.
 * @example
 * ```ts
 * import { conformity } from 'generatrix/budget';
 * // A bore of 20 H7 (20.000 to 20.021) measured as 20.019 with u = 0.0015.
 * const { decision, probability } = conformity({ value: 20.019, standardUncertainty: 0.0015, lower: 20, upper: 20.021 });
 * decision; // => 'accept'
 * probability.toFixed(3); // => '0.909'
 * conformity({
 *   value: 20.019,
 *   standardUncertainty: 0.0015,
 *   lower: 20,
 *   upper: 20.021,
 *   requiredProbability: 0.95,
 * }).decision; // => 'reject'
 * ```
 */
export function conformity(options: ConformityOptions): Conformity {
  const given = read(options, CONFORMITY);
  const { value, standardUncertainty: u, degreesOfFreedom, guardBand = 0, requiredProbability: required } = given;
  const { lower, upper } = readLimits(given);
  if (given.guardBand !== undefined && required !== undefined) {
    refuse('contradiction', 'guardBand', guardBand, 'must not be given together with requiredProbability');
  }
  const inside = (at: number): number => between(lower, upper, at, u, (x) => studentBelow(x, degreesOfFreedom));
  const probability = inside(value);
  const [low, high] =
    required === undefined ? [lower + guardBand, upper - guardBand] : edges(required, lower, upper, inside, u);
  const accept = value >= low && value <= high;
  return {
    decision: accept ? 'accept' : 'reject',
    probability,
    risk: accept ? 1 - probability : probability,
    acceptance:
      low <= high ? { low: Number.isFinite(low) ? low : null, high: Number.isFinite(high) ? high : null } : null,
  };
}

/** Ends of the measured values at which the probability of conformity reaches what is required; crossed if none does. */
function edges(
  required: number,
  lower: number,
  upper: number,
  inside: (value: number) => number,
  u: number,
): readonly [number, number] {
  // The probability rises up to the middle and falls from there; from a limit alone it rises to 1.
  const peak = lower / 2 + upper / 2;
  if (Number.isFinite(peak) && inside(peak) < required) return [Infinity, -Infinity];
  const edge = (limit: number, outward: number): number => {
    if (!Number.isFinite(limit)) return limit;
    // Doubles its reach, from no less than moves the limit at all, then halves the interval until it cannot be halved.
    const reach = Math.max(u, Math.abs(limit) * Number.EPSILON);
    let bad = limit + outward * reach;
    while (inside(bad) >= required) bad += outward * (Math.abs(bad - limit) + reach);
    let good = Number.isFinite(peak) ? peak : limit - outward * reach;
    while (inside(good) < required) good -= outward * (Math.abs(good - limit) + reach);
    for (;;) {
      const middle = bad + (good - bad) / 2;
      if (middle === bad || middle === good) return good;
      if (inside(middle) >= required) good = middle;
      else bad = middle;
    }
  };
  return [edge(lower, -1), edge(upper, 1)];
}

const LIMITS: Fields<SpecificationLimits> = { lower: optional(anyNumber), upper: optional(anyNumber) };
const CONFORMITY: Fields<ConformityOptions, 'degreesOfFreedom'> = {
  ...LIMITS,
  value: anyNumber,
  standardUncertainty: positive,
  degreesOfFreedom: defaulted(nullable(number({ min: 1 })), null),
  guardBand: optional(anyNumber),
  requiredProbability: optional(number({ above: 0, below: 1 })),
};

/** Both limits, infinite where there is none. */
function readLimits({ lower = -Infinity, upper = Infinity }: SpecificationLimits): Required<SpecificationLimits> {
  if (lower === -Infinity && upper === Infinity) refuse('missing-option', 'lower', undefined, 'or upper must be given');
  return lower < upper
    ? { lower, upper }
    : refuse('contradiction', 'upper', upper, `must be greater than lower, ${lower}`);
}

/** Probability between two limits; taken in the tail on the far side of the value, which keeps its digits. */
function between(low: number, high: number, mean: number, u: number, below: (x: number) => number): number {
  const [a, b] = [(low - mean) / u, (high - mean) / u];
  if (a > 0) return between(-high, -low, -mean, u, below);
  return (b === Infinity ? 1 : below(b)) - (a === -Infinity ? 0 : below(a));
}

/** What is made and how it is measured. */
export interface ProductionOptions extends SpecificationLimits {
  /** Mean of the property over the production. */
  readonly mean: number;
  /** Its standard deviation over the production. */
  readonly standardDeviation: number;
  /** Standard uncertainty of each measurement. */
  readonly standardUncertainty: number;
  /** Distance of the acceptance limits inside the specification limits. @defaultValue 0 */
  readonly guardBand?: number;
}

/** Risks of a whole production. */
export interface ProductionRisks {
  /** Probability that a piece is accepted and does not conform: the consumer's risk. */
  readonly consumer: number;
  /** Probability that a piece is rejected and conforms: the producer's risk. */
  readonly producer: number;
  /** Probability that a piece conforms. */
  readonly conforming: number;
  /** Probability that a piece is accepted. */
  readonly accepted: number;
}

/**
 * Consumer's and producer's risk where a normally distributed production is inspected with a normally distributed
 * error of measurement (JCGM 106, 9.5), by integration to about ten digits.
 * @throws GeneratrixError as {@link conformity} does.
 * @example
 * ```ts
 * import { productionRisks } from 'generatrix/budget';
 * const { consumer, producer } = productionRisks({
 *   mean: 10, standardDeviation: 0.01, standardUncertainty: 0.0025, lower: 9.98, upper: 10.02,
 * });
 * [consumer, producer].map((risk) => risk.toFixed(4)); // => ['0.0080', '0.0149']
 * ```
 */
export function productionRisks(options: ProductionOptions): ProductionRisks {
  const given = read(options, PRODUCTION);
  const { mean, standardDeviation: deviation, standardUncertainty: u, guardBand: guard } = given;
  const { lower, upper } = readLimits(given);
  const [low, high] = [lower + guard, upper - guard];
  /** Probability that a piece of this true value is accepted, times how many there are of it. */
  const accepted = (z: number): number =>
    density(z) * (low < high ? between(low, high, mean + z * deviation, u, normalBelow) : 0);
  const [a, b] = [(lower - mean) / deviation, (upper - mean) / deviation];
  // Accepting changes over a few u about each acceptance limit: short panels there, half a deviation elsewhere.
  const blur = u / deviation;
  const zones = [low, high].map((limit) => {
    const z = (limit - mean) / deviation;
    return [z - REACH * blur, z + REACH * blur] as const;
  });
  const over = (from: number, to: number): number => {
    const [start, end] = [Math.max(from, -REACH), Math.min(to, REACH)];
    const changes = zones.flat().filter((z) => z > start && z < end);
    const marks = [start, ...changes.sort((x, y) => x - y), end];
    return marks.slice(1).reduce((sum, next, i) => {
      const last = marks[i] as number;
      const blurred = zones.some(([x, y]) => x < (last + next) / 2 && (last + next) / 2 < y);
      return sum + integrate(accepted, last, next, (blurred ? Math.min(1, blur) : 1) / 2);
    }, 0);
  };
  const conforming = between(lower, upper, mean, deviation, normalBelow);
  const right = over(a, b);
  const consumer = over(-Infinity, a) + over(b, Infinity);
  return { consumer, producer: Math.max(0, conforming - right), conforming, accepted: right + consumer };
}

/** Standard deviations beyond which nothing is made: 1e-23 of it. */
const REACH = 10;

/** Nodes and weights of Gauss and Legendre's five-point rule on -1 to 1 (M. Abramowitz, I. A. Stegun, table 25.4). */
const GAUSS = [
  [0, 0.5688888888888889],
  [0.5384693101056831, 0.47862867049936647],
  [-0.5384693101056831, 0.47862867049936647],
  [0.906179845938664, 0.23692688505618908],
  [-0.906179845938664, 0.23692688505618908],
] as const;

/** Integral in panels no wider than `width`. */
function integrate(f: (x: number) => number, from: number, to: number, width: number): number {
  if (!(to > from)) return 0;
  // Forty do for any stretch; more are the sign of a width that left the range of numbers.
  const panels = Math.min(1000, Math.ceil((to - from) / width));
  const half = (to - from) / panels / 2;
  let sum = 0;
  for (let i = 0; i < panels; i++) {
    const middle = from + (2 * i + 1) * half;
    for (const [node, weight] of GAUSS) sum += weight * f(middle + node * half);
  }
  return sum * half;
}

const density = (z: number): number => Math.exp((-z * z) / 2) / Math.sqrt(2 * Math.PI);

const PRODUCTION: Fields<ProductionOptions, 'guardBand'> = {
  ...LIMITS,
  mean: anyNumber,
  standardDeviation: positive,
  standardUncertainty: positive,
  guardBand: defaulted(anyNumber, 0),
};
