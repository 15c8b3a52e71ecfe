/**
 * Student's t and the normal distribution: probabilities and quantiles, for coverage factors and decisions.
 * The special functions come from maintained routines that agree with 50-digit values to about 1e-15 and take
 * degrees of freedom that are no whole numbers; they are bundled, so that users install nothing more.
 */
import erfc from '@stdlib/math-base-special-erfc';
import erfcinv from '@stdlib/math-base-special-erfcinv';
import tCdf from '@stdlib/stats-base-dists-t-cdf';
import tQuantile from '@stdlib/stats-base-dists-t-quantile';
import { number, options } from '../core/checks.js';

/**
 * Above this many degrees of freedom the first two terms of the expansion about the normal distribution,
 * t = z + (z³ + z)/(4ν), are exact to rounding, and the routines for t begin to fail.
 */
const MANY = 1e8;

/** Standard normal quantile. */
function normalQuantile(probability: number): number {
  return -Math.SQRT2 * erfcinv(2 * probability);
}

/** Probability that a standard normal value lies below x. */
export function normalBelow(x: number): number {
  return erfc(-x / Math.SQRT2) / 2;
}

/** Value of t with this probability below it; `null` degrees of freedom: the normal distribution. */
export function studentQuantile(probability: number, degreesOfFreedom: number | null): number {
  if (degreesOfFreedom !== null && degreesOfFreedom <= MANY) return tQuantile(probability, degreesOfFreedom);
  const z = normalQuantile(probability);
  return degreesOfFreedom === null ? z : z + (z * z * z + z) / (4 * degreesOfFreedom);
}

/** Probability that t lies below x; `null` degrees of freedom: the normal distribution. */
export function studentBelow(x: number, degreesOfFreedom: number | null): number {
  if (degreesOfFreedom !== null && degreesOfFreedom <= MANY) return tCdf(x, degreesOfFreedom);
  return normalBelow(degreesOfFreedom === null ? x : x - (x * x * x + x) / (4 * degreesOfFreedom));
}

/**
 * Coverage factor k: the interval y ± k u holds the wanted part of Student's t distribution (JCGM 100, G.3.2
 * and table G.2), of the normal distribution without degrees of freedom. Degrees of freedom need not be whole:
 * t is taken at the number given, neither rounded nor interpolated.
 *
 * @param coverage - Wanted `probability`, above 0 and below 1, and `degreesOfFreedom`, at least 1.
 * @returns The factor.
 * @throws {@link GeneratrixError} `missing-option`, `unknown-option`, `wrong-kind`, `not-finite` or `out-of-range`.
 *
 * @example
 * ```ts
 * import { coverageFactor } from 'generatrix/budget';
 * coverageFactor({ probability: 0.95, degreesOfFreedom: 10 }).toFixed(3); // => '2.228'
 * coverageFactor({ probability: 0.95 }).toFixed(3); // => '1.960'
 * coverageFactor({ probability: 95 }); // throws out-of-range
 * ```
 */
export function coverageFactor(coverage: {
  /** Part of the distribution inside the interval. */
  readonly probability: number;
  /** Degrees of freedom of u; without them the normal distribution. */
  readonly degreesOfFreedom?: number | null;
}): number {
  const given = options(coverage, 'coverage', ['probability'], ['degreesOfFreedom']);
  const probability = number(given['probability'], 'coverage.probability', { above: 0, below: 1 });
  const freedom = given['degreesOfFreedom'] ?? null;
  return factorFor(probability, freedom === null ? null : number(freedom, 'coverage.degreesOfFreedom', { min: 1 }));
}

/** The same without checks. (1 - p)/2 in the tail keeps the digits of a p close to 1. */
export function factorFor(probability: number, degreesOfFreedom: number | null): number {
  return -studentQuantile((1 - probability) / 2, degreesOfFreedom);
}
