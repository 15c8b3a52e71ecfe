/**
 * The distribution of a sum of independent contributions from their own distributions, by numerical convolution: the
 * coverage interval that Monte Carlo comes to for a linear function, without trials.
 *
 * Each contribution is gathered on a grid of step h, P(k) = F((k + ½)h) - F((k - ½)h), which adds no more than h²/12
 * to its variance; the grids are convolved by fast Fourier transform (J. W. Cooley, J. W. Tukey, 1965). All normal
 * contributions are one. Far tails are gathered at four times the distance B that holds the interval for certain: B is
 * the sum of the contributions' own quantiles at (1 - p)/2n (G. Boole's inequality), so that what is gathered there
 * hardly ever ends inside. Ends of bounded, normal and exponential contributions are right to 1e-4 of the standard
 * uncertainty; the farther the tails of t go, the coarser is the grid: two of one degree of freedom are right to 1 %.
 * Source: JCGM 101:2008, 5.3 (a convolution is one of the ways to propagate distributions), table 1 for the shapes.
 */
import { refuse } from '../core/errors.js';
import type { Distribution, NamedInput } from './known.js';
import { normalBelow, studentBelow, studentQuantile } from './student.js';

/** Points of the grid, a power of two. */
const SIZE = 2 ** 14;

/** One contribution, about the estimate: probability below, and how far out it is looked at. */
interface Contribution {
  readonly below: (x: number) => number;
  /** Distance from the estimate that is exceeded on one side with no more than this probability. */
  readonly reach: (probability: number) => number;
}

/** Ends of the probabilistically symmetric interval (JCGM 101, 3.15) of the sum, as distances from the estimate. */
export function convolvedInterval(
  inputs: readonly NamedInput[],
  sensitivities: readonly number[],
  coverage: number,
): { readonly low: number; readonly high: number } {
  const alpha = (1 - coverage) / 2;
  const contributions = contributionsOf(inputs, sensitivities);
  const only = contributions.length === 1 ? contributions[0] : undefined;
  if (contributions.length === 0) return { low: 0, high: 0 };
  const sum = (probability: number): number =>
    contributions.reduce((total, { reach }) => total + reach(probability), 0);
  const bound = sum(alpha / contributions.length);
  // Bounded contributions end before tails need room; a grid twice as wide takes whatever one of them may reach.
  const half = only ? bound * 1.01 : Math.min(sum(0) * 1.01, 5 * bound);
  const h = (2 * half) / SIZE;
  const re = new Float64Array(SIZE);
  const im = new Float64Array(SIZE);
  re.fill(1);
  for (const { below } of contributions) multiply(re, im, onGrid(below, h, Math.min(half, 4 * bound)));
  transform(re, im, -1);

  const ends: number[] = [];
  let passed = 0;
  for (let k = -SIZE / 2; k < SIZE / 2 && ends.length < 2; k++) {
    const mass = (re[(k + SIZE) % SIZE] as number) / SIZE;
    for (const wanted of [alpha, 1 - alpha].slice(ends.length)) {
      if (passed + mass < wanted) break;
      ends.push((k - 0.5 + (wanted - passed) / mass) * h);
    }
    passed += mass;
  }
  return { low: ends[0] as number, high: ends[1] as number };
}

function contributionsOf(inputs: readonly NamedInput[], sensitivities: readonly number[]): readonly Contribution[] {
  const found: Contribution[] = [];
  let variance = 0;
  for (const [i, { name, estimate, standardUncertainty, distribution, limits }] of inputs.entries()) {
    const c = sensitivities[i] as number;
    if (c === 0 || standardUncertainty === 0) continue;
    if (distribution.kind === 'normal') {
      variance += (c * standardUncertainty) ** 2;
      continue;
    }
    const below = belowOf(distribution);
    if (!below) {
      const phrase = `must be of another distribution than ${distribution.kind} to be convolved: use Monte Carlo`;
      return refuse('out-of-range', `inputs.${name}`, distribution.kind, phrase);
    }
    found.push({
      below: (x) => (c > 0 ? below(estimate + x / c) : 1 - below(estimate + x / c)),
      reach: (probability) => Math.abs(c) * (limits ? (limits.to - limits.from) / 2 : farOf(distribution, probability)),
    });
  }
  const u = Math.sqrt(variance);
  const normal = { kind: 'normal', mean: 0, standardDeviation: u } as const;
  if (u > 0) found.push({ below: (x) => normalBelow(x / u), reach: (probability) => farOf(normal, probability) });
  return found;
}

/** Distance from the estimate that an unbounded distribution exceeds with a probability, on the side where it goes farther. */
function farOf(distribution: Distribution, probability: number): number {
  if (probability === 0) return Infinity;
  switch (distribution.kind) {
    case 'normal':
      return distribution.standardDeviation * -studentQuantile(probability, null);
    case 't':
      return distribution.scale * -studentQuantile(probability, distribution.degreesOfFreedom);
    case 'exponential':
      return distribution.mean * Math.max(1, -Math.log(probability));
    default:
      return 0;
  }
}

/** Probability below a value; null for what has no short formula. */
function belowOf(distribution: Distribution): ((x: number) => number) | null {
  switch (distribution.kind) {
    case 'rectangular':
    case 'triangular':
    case 'trapezoidal': {
      const { from, to, kind } = distribution;
      const top = kind === 'trapezoidal' ? distribution.topRatio : kind === 'triangular' ? 0 : 1;
      const [width, slope] = [to - from, ((to - from) * (1 - top)) / 2];
      const lower = (y: number): number =>
        y <= 0 ? 0 : y < slope ? (y * y) / (2 * slope * (width - slope)) : (y - slope / 2) / (width - slope);
      return (x) => (x - from < width / 2 ? lower(x - from) : 1 - lower(to - x));
    }
    case 'arcsine': {
      const [middle, half] = [distribution.from / 2 + distribution.to / 2, distribution.to / 2 - distribution.from / 2];
      return (x) => 0.5 + Math.asin(Math.min(1, Math.max(-1, (x - middle) / half))) / Math.PI;
    }
    case 'curvilinear-trapezoid': {
      // The density of 6.4.3.2, ln((w + d)/max(|z|, w - d))/(4d), integrated from the end.
      const { from, to, inexactness: d } = distribution;
      const [middle, inner, outer] = [from / 2 + to / 2, (to - from) / 2 - d, (to - from) / 2 + d];
      const above = (z: number): number => {
        if (z >= outer) return 0;
        if (z <= inner) return 0.5 - (z * Math.log(outer / inner)) / (4 * d);
        return z === 0 ? 0.5 : (outer - z - z * Math.log(outer / z)) / (4 * d);
      };
      return (x) => (x > middle ? 1 - above(x - middle) : above(middle - x));
    }
    case 't':
      return (x) => studentBelow((x - distribution.location) / distribution.scale, distribution.degreesOfFreedom);
    case 'exponential':
      return (x) => (x <= 0 ? 0 : -Math.expm1(-x / distribution.mean));
    default:
      return null;
  }
}

/** Probabilities of the cells about whole multiples of h, those beyond `far` gathered there; negative ones from the end. */
function onGrid(below: (x: number) => number, h: number, far: number): Float64Array {
  const out = new Float64Array(SIZE);
  const last = Math.min(SIZE / 2 - 1, Math.ceil(far / h));
  let before = 0;
  for (let k = -last; k <= last; k++) {
    const next = k === last ? 1 : below((k + 0.5) * h);
    out[(k + SIZE) % SIZE] = next - before;
    before = next;
  }
  return out;
}

/** Multiplies a transform by that of real values. */
function multiply(re: Float64Array, im: Float64Array, values: Float64Array): void {
  const other = new Float64Array(SIZE);
  transform(values, other, 1);
  for (let k = 0; k < SIZE; k++) {
    const [a, b, c, d] = [re[k] as number, im[k] as number, values[k] as number, other[k] as number];
    re[k] = a * c - b * d;
    im[k] = a * d + b * c;
  }
}

/** Fast Fourier transform in place, not scaled. */
function transform(re: Float64Array, im: Float64Array, sign: 1 | -1): void {
  const n = re.length;
  for (let i = 1, j = 0; i < n; i++) {
    let bit = n >> 1;
    for (; j & bit; bit >>= 1) j ^= bit;
    j ^= bit;
    if (i < j) {
      [re[i], re[j]] = [re[j] as number, re[i] as number];
      [im[i], im[j]] = [im[j] as number, im[i] as number];
    }
  }
  for (let size = 2; size <= n; size *= 2) {
    for (let k = 0; k < size / 2; k++) {
      const turn = (-sign * 2 * Math.PI * k) / size;
      const [c, s] = [Math.cos(turn), Math.sin(turn)];
      for (let i = k; i < n; i += size) {
        const j = i + size / 2;
        const [x, y] = [re[j] as number, im[j] as number];
        const [p, q] = [x * c - y * s, x * s + y * c];
        re[j] = (re[i] as number) - p;
        im[j] = (im[i] as number) - q;
        re[i] = (re[i] as number) + p;
        im[i] = (im[i] as number) + q;
      }
    }
  }
}
