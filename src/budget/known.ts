/**
 * What the budgets use of an input: its estimate, standard uncertainty, degrees of freedom, limits and distribution.
 * Sources: JCGM 100:2008, 4.2 (readings) and 4.3 (everything else); JCGM 101:2008, table 1 and 6.4.
 */
import { refuse } from '../core/errors.js';
import { number, readValue, representable } from '../core/read.js';
import { type BoundedShape, type Input, input, type Spread } from './inputs.js';

/** A distribution by its parameters, for drawing values from it. */
export type Distribution =
  | {
      /** Always the same value. */
      readonly kind: 'constant';
      /** That value. */
      readonly value: number;
    }
  | {
      /** Bounded shapes without a further parameter. */
      readonly kind: 'rectangular' | 'triangular' | 'arcsine';
      /** Lower limit. */
      readonly from: number;
      /** Upper limit. */
      readonly to: number;
    }
  | {
      /** Flat top with sloping sides. */
      readonly kind: 'trapezoidal';
      /** Lower limit. */
      readonly from: number;
      /** Upper limit. */
      readonly to: number;
      /** Flat top over full width. */
      readonly topRatio: number;
    }
  | {
      /** Rectangular with limits that are themselves rectangular, JCGM 101 6.4.3. */
      readonly kind: 'curvilinear-trapezoid';
      /** Lower limit as stated. */
      readonly from: number;
      /** Upper limit as stated. */
      readonly to: number;
      /** How far each limit may be off. */
      readonly inexactness: number;
    }
  | {
      /** Normal. */
      readonly kind: 'normal';
      /** Mean. */
      readonly mean: number;
      /** Standard deviation. */
      readonly standardDeviation: number;
    }
  | {
      /** Scaled and shifted t; its standard deviation is larger than `scale` by √(ν/(ν - 2)), or infinite. */
      readonly kind: 't';
      /** Middle. */
      readonly location: number;
      /** Standard uncertainty of first order. */
      readonly scale: number;
      /** Degrees of freedom ν. */
      readonly degreesOfFreedom: number;
    }
  | {
      /** Exponential from zero. */
      readonly kind: 'exponential';
      /** Mean. */
      readonly mean: number;
    }
  | {
      /** Gamma of scale 1. */
      readonly kind: 'gamma';
      /** Shape. */
      readonly shape: number;
    };

/** An input as read: what first order, worst case and Monte Carlo need of it. */
export interface KnownInput {
  /** Best estimate: the mean of the distribution. */
  readonly estimate: number;
  /** Standard uncertainty. */
  readonly standardUncertainty: number;
  /** Degrees of freedom of the standard uncertainty; null: infinitely many. */
  readonly degreesOfFreedom: number | null;
  /** Limits that the value cannot leave; null where there are none. */
  readonly limits: {
    /** Lower limit. */
    readonly from: number;
    /** Upper limit. */
    readonly to: number;
  } | null;
  /** The distribution to draw from. */
  readonly distribution: Distribution;
}

/** An input as read, with its name. */
export interface NamedInput extends KnownInput {
  /** Name of the input. */
  readonly name: string;
}

/** Reads an input, and gives what the budgets use of it. */
export function readInput(given: unknown, parameter = 'input'): KnownInput {
  return knownInput(readValue(given, input, parameter), parameter);
}

/**
 * What the budgets use of an input that was read; `path` stands before the parameter in a refusal.
 *
 * | stated | standard uncertainty |
 * | --- | --- |
 * | limits a, b, rectangular | (b - a)/√12 |
 * | triangular | (b - a)/√24 |
 * | trapezoidal, top ratio β | (b - a) √((1 + β²)/24) |
 * | arcsine | (b - a)/√8 |
 * | curvilinear trapezoid, inexactness d | √((b - a)²/12 + d²/9) |
 * | n readings | s/√n, with n - 1 degrees of freedom |
 * | expanded U and factor k | U/k |
 * | exponential of mean x | x |
 * | gamma, q counted | √(q + 1) |
 */
function knownInput(input: Input, path: string): KnownInput {
  if (typeof input === 'number') return constant(input);
  if ('readings' in input) return fromReadings(input.readings, path);
  if ('mean' in input) return oneSided(input.mean, input.mean, { kind: 'exponential', mean: input.mean });
  if ('count' in input) {
    const shape = input.count + 1;
    return oneSided(shape, Math.sqrt(shape), { kind: 'gamma', shape });
  }
  if ('standardUncertainty' in input) {
    return bell(input.value, input.standardUncertainty, input.degreesOfFreedom ?? null, path);
  }
  if ('expandedUncertainty' in input) {
    const { value, expandedUncertainty, coverageFactor } = input;
    return bell(value, expandedUncertainty / coverageFactor, input.degreesOfFreedom ?? null, path);
  }
  if ('plusMinus' in input) {
    const { value, plusMinus } = input;
    return bounded(input, path, value, plusMinus, value - plusMinus, value + plusMinus);
  }
  if ('from' in input) {
    const { from, to } = input;
    readValue(to, number({ min: from }), `${path}.to`);
    return bounded(input, path, from / 2 + to / 2, to / 2 - from / 2, from, to);
  }
  const { nominal, upperDeviation: upper, lowerDeviation: lower } = input;
  readValue(upper, number({ min: lower }), `${path}.upperDeviation`);
  return bounded(input, path, nominal + (lower + upper) / 2, (upper - lower) / 2, nominal + lower, nominal + upper);
}

function constant(value: number): KnownInput {
  const limits = { from: value, to: value };
  const distribution = { kind: 'constant', value } as const;
  return { estimate: value, standardUncertainty: 0, degreesOfFreedom: null, limits, distribution };
}

function oneSided(estimate: number, standardUncertainty: number, distribution: Distribution): KnownInput {
  return { estimate, standardUncertainty, degreesOfFreedom: null, limits: null, distribution };
}

function fromReadings(readings: readonly number[], path: string): KnownInput {
  const n = readings.length;
  // Differences from the first reading: exact where readings agree to within a factor of two.
  const origin = readings[0] as number;
  const offset = readings.reduce((sum, value) => sum + (value - origin), 0) / n;
  const squares = readings.reduce((sum, value) => sum + (value - origin - offset) ** 2, 0);
  return bell(origin + offset, Math.sqrt(squares / (n - 1) / n), n - 1, path);
}

/** Normal, or t where the uncertainty has finite degrees of freedom (JCGM 101, 6.4.7 and 6.4.9). */
function bell(mean: number, uncertainty: number, degreesOfFreedom: number | null, path: string): KnownInput {
  const estimate = representable(mean, path);
  if (uncertainty === 0) return constant(estimate);
  const u = representable(uncertainty, path);
  const distribution: Distribution =
    degreesOfFreedom === null
      ? { kind: 'normal', mean, standardDeviation: u }
      : { kind: 't', location: mean, scale: u, degreesOfFreedom };
  return { estimate, standardUncertainty: u, degreesOfFreedom, limits: null, distribution };
}

function bounded(spread: Spread, path: string, estimate: number, half: number, from: number, to: number): KnownInput {
  const { distribution: kind = 'rectangular', degreesOfFreedom = null } = spread;
  const topRatio = belonging(spread, 'topRatio', kind, 'trapezoidal', path);
  const inexactness = belonging(spread, 'inexactness', kind, 'curvilinear-trapezoid', path);
  representable(from, path);
  representable(to, path);
  if (half === 0) return constant(estimate + 0);
  const known = (u: number, distribution: Distribution): KnownInput => ({
    estimate,
    standardUncertainty: u,
    degreesOfFreedom,
    limits: { from: from - inexactness, to: to + inexactness },
    distribution,
  });
  if (kind === 'trapezoidal') {
    return known(half * Math.sqrt((1 + topRatio * topRatio) / 6), { kind, from, to, topRatio });
  }
  if (kind === 'curvilinear-trapezoid') {
    readValue(inexactness, number({ above: 0, max: half }), `${path}.inexactness`);
    return known(Math.sqrt((half * half) / 3 + (inexactness * inexactness) / 9), { kind, from, to, inexactness });
  }
  const divisor = { rectangular: 3, triangular: 6, arcsine: 2 }[kind];
  return known(half / Math.sqrt(divisor), { kind, from, to });
}

/** A parameter of one shape: there with that shape, and with no other (0 then). */
function belonging(
  spread: Spread,
  key: 'topRatio' | 'inexactness',
  kind: BoundedShape,
  owner: BoundedShape,
  path: string,
): number {
  const value = spread[key];
  if (kind === owner) return value ?? refuse('missing-option', `${path}.${key}`, undefined, 'must be given');
  return value === undefined ? 0 : refuse('contradiction', `${path}.${key}`, kind, `goes with ${owner}`);
}
