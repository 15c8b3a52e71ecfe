/**
 * Student's t and the normal distribution: probabilities and quantiles, for coverage factors and decisions. Degrees
 * of freedom ν need not be whole numbers; infinitely many are the normal distribution, by the same formulas.
 *
 * With density f and y = t²/(ν + t²), the probability between 0 and t is t f Σ yⁿ (ν+1)(ν+3)…/(3·5…), all terms
 * positive, and the tail beyond t is t f/2 over the continued fraction of the incomplete beta function by A. R.
 * Didonato and A. H. Morris (ACM TOMS 18, 1992, algorithm 708, BFRAC). The density's factor is a ratio of gamma
 * functions, from its asymptotic series (NIST Digital Library of Mathematical Functions, 5.11.13 and 5.11.8). A
 * quantile is found by Newton's steps on the logarithms. All agree with 50 digits to about 1e-14.
 */
import { defaulted, type Fields, nullable, number, read } from '../core/read.js';

/** Near the middle the series is quick, farther out the fraction. */
const isNear = (t: number, nu: number): boolean => t < 1.5 && t * t < nu;
/** Beyond this the tail falls as t to the power -ν to the last digit, and t² leaves the range of numbers before long. */
const FAR = 1e100;

/** 2 B(k+1, 1/4)/(k(k+1)) for k = 2, 4, … with Bernoulli's polynomials: ln(Γ(a + 1/2)/Γ(a)/√w) in powers of 1/w², w = a - 1/4. */
const RATIO = [
  1 / 64,
  -5 / 2048,
  0.0012410481770833333,
  -0.0013208389282226562,
  0.002409029006958008,
  -0.006712389489014943,
  0.02652419744325536,
];

/** Γ(a + 1/2)/Γ(a)/√a for a = 1/s: 1 for the normal distribution, where s is 0. */
function gammaRatio(s: number): number {
  let [a, below] = [1 / s, 1];
  for (; a < 10; a++) below *= a / (a + 0.5);
  const w = a - 0.25;
  const log = RATIO.reduceRight((sum, coefficient) => (sum + coefficient) / w / w, 0);
  return below * (s === 0 ? 1 : Math.sqrt(w * s)) * Math.exp(log);
}

/** t times the density at t. */
function densityTimes(t: number, nu: number): number {
  const y = (t * t) / nu;
  // The power keeps more digits where ν is small and t large, the logarithm where y is small.
  const fall =
    y > 1 ? (1 + y) ** (-(nu + 1) / 2) : Math.exp((-t * t * (1 + 1 / nu) * (y === 0 ? 1 : Math.log1p(y) / y)) / 2);
  return (t * fall * gammaRatio(2 / nu)) / Math.sqrt(2 * Math.PI);
}

/** Probability between 0 and t, over t f; for t of 0 or more. */
function centre(t: number, nu: number): number {
  const y = 1 / (1 + nu / (t * t));
  let [sum, term] = [1, 1];
  for (let n = 0; term > sum * 1e-17; n++) {
    term *= nu === Infinity ? (t * t) / (3 + 2 * n) : (y * (nu + 1 + 2 * n)) / (3 + 2 * n);
    sum += term;
  }
  return sum;
}

/** Probability beyond t, over t f. Lentz's way with the fraction; s = 1/a for a = ν/2, b = 1/2, x = ν/(ν + t²). */
function tail(t: number, nu: number): number {
  const s = 2 / nu;
  const x = 1 / (1 + (t * t) / nu);
  // a - (a + b) x, in which all digits would cancel.
  const first = (x * (t * t - 1)) / 2 + 1;
  let value = first / (1 + s);
  let [c, d] = [value, 0];
  for (let n = 1; n < 1000; n++) {
    const odd = 1 + (2 * n - 1) * s;
    const p = ((1 + (n - 1) * s) * (1 + (n - 0.5) * s) * n * (0.5 - n) * x * x) / (odd * odd);
    const q = n + (n * (0.5 - n) * x * s) / odd + ((1 + n * s) * (first + n * (2 - x))) / (1 + (2 * n + 1) * s);
    d = 1 / (q + p * d);
    c = q + p / c;
    value *= c * d;
    if (Math.abs(c * d - 1) < 1e-16) break;
  }
  return 0.5 / value;
}

/** Probability that t lies below x; `null` degrees of freedom: the normal distribution. */
export function studentBelow(x: number, degreesOfFreedom: number | null): number {
  const nu = degreesOfFreedom ?? Infinity;
  const t = Math.abs(x);
  if (t > FAR) return x > 0 ? 1 : studentBelow(-FAR, nu) * (t / FAR) ** -nu;
  const unit = densityTimes(t, nu);
  if (isNear(t, nu)) return 0.5 + Math.sign(x) * unit * centre(t, nu);
  return x > 0 ? 1 - unit * tail(t, nu) : unit * tail(t, nu);
}

/** Probability that a standard normal value lies below x. */
export function normalBelow(x: number): number {
  return studentBelow(x, null);
}

/** Value of t with this probability below it; `null` degrees of freedom: the normal distribution. */
export function studentQuantile(probability: number, degreesOfFreedom: number | null): number {
  const nu = degreesOfFreedom ?? Infinity;
  if (probability > 0.5) return -studentQuantile(1 - probability, degreesOfFreedom);
  if (probability === 0.5) return 0;
  const far = studentBelow(-FAR, nu);
  if (far > probability) return -FAR * (far / probability) ** (1 / nu);
  let t = roughly(probability, nu);
  for (let round = 0; round < 50; round++) {
    const slope = densityTimes(t, nu);
    // Newton's step on ln t: what is to be reached is a product of powers on both sides, and never leaves the positive.
    const [ratio, target] = isNear(t, nu) ? [centre(t, nu), 0.5 - probability] : [-tail(t, nu), probability];
    const step = Math.log(target / (slope * Math.abs(ratio))) * ratio;
    t *= Math.exp(step);
    if (Math.abs(step) < 1e-9) break;
  }
  return -t;
}

/** A quantile to start from, without its sign: C. Hastings' for the normal one (1955), stretched to ν. */
function roughly(probability: number, nu: number): number {
  const w = Math.sqrt(-2 * Math.log(probability));
  const below = 2.515517 + w * (0.802853 + w * 0.010328);
  const z = Math.max(1e-3, w - below / (1 + w * (1.432788 + w * (0.189269 + w * 0.001308))));
  return nu === Infinity ? z : Math.min(FAR, Math.sqrt(nu * Math.expm1((z * z) / nu)));
}

/** What a coverage factor is wanted for. */
export interface CoverageOptions {
  /** Part of the distribution inside the interval, above 0 and below 1. */
  readonly probability: number;
  /**
   * Degrees of freedom of the standard uncertainty, 1 or more; null: infinitely many.
   * @defaultValue null, the normal distribution
   */
  readonly degreesOfFreedom?: number | null;
}

const COVERAGE: Fields<CoverageOptions, 'degreesOfFreedom'> = {
  probability: number({ above: 0, below: 1 }),
  degreesOfFreedom: defaulted(nullable(number({ min: 1 })), null),
};

/**
 * Coverage factor k: the interval y ± k u holds the wanted part of Student's t distribution (JCGM 100, G.3.2
 * and table G.2), of the normal distribution without degrees of freedom. Degrees of freedom need not be whole:
 * t is taken at the number given, neither rounded nor interpolated.
 * @throws GeneratrixError `missing-option`, `unknown-option`, `wrong-kind`, `not-finite` or `out-of-range`.
 * @example
 * ```ts
 * import { coverageFactor } from 'generatrix/budget';
 * coverageFactor({ probability: 0.95, degreesOfFreedom: 10 }).toFixed(3); // => '2.228'
 * coverageFactor({ probability: 0.95 }).toFixed(3); // => '1.960'
 * coverageFactor({ probability: 95 }); // throws out-of-range
 * ```
 */
export function coverageFactor(options: CoverageOptions): number {
  const { probability, degreesOfFreedom } = read(options, COVERAGE);
  return factorFor(probability, degreesOfFreedom);
}

/** The same without checks. (1 - p)/2 in the tail keeps the digits of a p close to 1. */
export function factorFor(probability: number, degreesOfFreedom: number | null): number {
  return 0 - studentQuantile((1 - probability) / 2, degreesOfFreedom);
}
