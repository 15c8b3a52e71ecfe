/**
 * What is known of an input: an estimate and how far the truth may lie from it. Plain data, stated in
 * whatever way it is known, read into a distribution with its standard uncertainty.
 * Sources: JCGM 100:2008, 4.2 (readings) and 4.3 (everything else); JCGM 101:2008, table 1 and 6.4.
 */
import { choice, list, nonNegative, number, options, positive, representable, whole } from '../core/checks.js';
import { refuse } from '../core/errors.js';

/** How a quantity is spread between limits that it cannot leave. */
export type BoundedShape =
  /** Any value as likely as any other: the choice when nothing but the limits is known. */
  | 'rectangular'
  /** Values near the middle more likely: the sum of two equal rectangular ones. */
  | 'triangular'
  /** Flat in the middle, sloping to the limits; `topRatio` says how much is flat. */
  | 'trapezoidal'
  /** U-shaped: a sine swing, such as a room's temperature cycle or a run-out. */
  | 'arcsine'
  /** Rectangular with limits that are themselves inexact, by `inexactness` either way. */
  | 'curvilinear-trapezoid';

/** Options that go with limits. */
export interface Spread {
  /** How the values are spread, rectangular by default. */
  readonly distribution?: BoundedShape;
  /** Trapezoidal only: flat top over full width, 0 (triangle) to 1 (rectangle). */
  readonly topRatio?: number;
  /** Curvilinear trapezoid only: how far each limit may itself be off, at most half the width. */
  readonly inexactness?: number;
  /** How well the limits are known, as degrees of freedom (JCGM 100, G.4.2); without it they are certain. */
  readonly degreesOfFreedom?: number;
}

/** What is known of an input, in any one of these ways. A plain number is known exactly. */
export type Input =
  | number
  | (Spread & {
      /** Middle between the limits. */
      readonly value: number;
      /** Distance of both limits from it. */
      readonly plusMinus: number;
    })
  | (Spread & {
      /** Lower limit. */
      readonly from: number;
      /** Upper limit. */
      readonly to: number;
    })
  | (Spread & {
      /** Size from which the deviations count. The estimate is the middle between the limits, not this. */
      readonly nominal: number;
      /** Upper limit less nominal, with its sign. */
      readonly upperDeviation: number;
      /** Lower limit less nominal, with its sign. */
      readonly lowerDeviation: number;
    })
  | {
      /** Estimate. */
      readonly value: number;
      /** Standard uncertainty. */
      readonly standardUncertainty: number;
      /** Degrees of freedom; without them infinitely many, and the distribution is normal. */
      readonly degreesOfFreedom?: number;
    }
  | {
      /** Estimate. */
      readonly value: number;
      /** Expanded uncertainty U, as certificates state it. */
      readonly expandedUncertainty: number;
      /** The factor k by which it was expanded. */
      readonly coverageFactor: number;
      /** Degrees of freedom; without them infinitely many, and the distribution is normal. */
      readonly degreesOfFreedom?: number;
    }
  | {
      /** Repeated independent readings, two or more: their mean, s/√n with n - 1 degrees of freedom. */
      readonly readings: readonly number[];
    }
  | {
      /** A quantity that cannot be negative and of which only an estimate is known. */
      readonly distribution: 'exponential';
      /** The estimate, which is also the standard uncertainty. */
      readonly mean: number;
    }
  | {
      /** The mean number of events, of which some were counted once. */
      readonly distribution: 'gamma';
      /** Events counted, q: estimate q + 1, standard uncertainty √(q + 1). */
      readonly count: number;
    };

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

const SPREAD = ['distribution', 'topRatio', 'inexactness', 'degreesOfFreedom'] as const;

/** Each way of stating an input: the keys that it needs, those that it may have, how it is read. */
const WAYS: readonly {
  readonly keys: readonly string[];
  readonly also: readonly string[];
  readonly read: (given: Readonly<Record<string, unknown>>, path: string) => KnownInput;
}[] = [
  { keys: ['readings'], also: [], read: fromReadings },
  { keys: ['distribution', 'mean'], also: [], read: fromMean },
  { keys: ['distribution', 'count'], also: [], read: fromCount },
  { keys: ['value', 'standardUncertainty'], also: ['degreesOfFreedom'], read: fromStandardUncertainty },
  { keys: ['value', 'expandedUncertainty', 'coverageFactor'], also: ['degreesOfFreedom'], read: fromExpanded },
  { keys: ['value', 'plusMinus'], also: SPREAD, read: fromPlusMinus },
  { keys: ['from', 'to'], also: SPREAD, read: fromLimits },
  { keys: ['nominal', 'upperDeviation', 'lowerDeviation'], also: SPREAD, read: fromDeviations },
];

/**
 * Reads one input: its estimate, standard uncertainty, degrees of freedom, limits and distribution.
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
 *
 * @param input - What is known of the quantity.
 * @param parameter - Name for messages.
 * @returns The input as the budgets use it.
 * @throws {@link GeneratrixError} `wrong-kind`, `not-finite`, `out-of-range`, `unknown-option`, `missing-option` or
 * `contradiction`, if the input is not stated in exactly one known way.
 *
 * @example
 * ```ts
 * import { readInput } from 'generatrix/budget';
 * readInput({ readings: [10.01, 10.03, 10.02, 10.02] }).degreesOfFreedom; // => 3
 * readInput({ from: 9.5, to: 10.5 }).standardUncertainty; // => 0.2886751345948129
 * readInput({ nominal: 20, upperDeviation: 0.03, lowerDeviation: 0.01 }).estimate; // => 20.02
 * readInput({ value: 10, plusMinus: -1 }); // throws out-of-range
 * ```
 */
export function readInput(input: Input, parameter = 'input'): KnownInput {
  if (typeof input === 'number') return constant(number(input, parameter));
  const all = WAYS.flatMap(({ keys, also }) => [...keys, ...also]);
  const given = options(input, parameter, [], [...new Set(all)]);
  const has = Object.keys(given).filter((key) => given[key] !== undefined);
  const way = WAYS.find(
    ({ keys, also }) =>
      keys.every((key) => has.includes(key)) && has.every((key) => keys.includes(key) || also.includes(key)),
  );
  if (!way) {
    const ways = WAYS.map(({ keys }) => keys.join(' + ')).join('; ');
    return refuse('contradiction', parameter, has.join(' + '), `must be a number or stated in one way of: ${ways}`);
  }
  return way.read(given, parameter);
}

/** Reads every input of a function, in order. Kept inside the room. */
export function readInputs(inputs: Readonly<Record<string, Input>>, parameter = 'inputs'): readonly NamedInput[] {
  if (typeof inputs !== 'object' || inputs === null || Array.isArray(inputs)) {
    return refuse('wrong-kind', parameter, inputs, 'must be an object of inputs by name');
  }
  return Object.entries(inputs).map(([name, input]) => ({ name, ...readInput(input, `${parameter}.${name}`) }));
}

/** An input as read, with its name. */
export interface NamedInput extends KnownInput {
  /** Name of the input. */
  readonly name: string;
}

function constant(value: number): KnownInput {
  return {
    estimate: value,
    standardUncertainty: 0,
    degreesOfFreedom: null,
    limits: { from: value, to: value },
    distribution: { kind: 'constant', value },
  };
}

/** Degrees of freedom as stated: at least 1, null where none are given. */
function freedom(given: unknown, path: string): number | null {
  return given === undefined ? null : number(given, `${path}.degreesOfFreedom`, { min: 1 });
}

function fromReadings({ readings }: Readonly<Record<string, unknown>>, path: string): KnownInput {
  const values = list(readings, `${path}.readings`, 2).map((value, i) => number(value, `${path}.readings[${i}]`));
  const n = values.length;
  // Differences from the first reading: exact where readings agree to within a factor of two.
  const origin = values[0] as number;
  const offset = values.reduce((sum, value) => sum + (value - origin), 0) / n;
  const squares = values.reduce((sum, value) => sum + (value - origin - offset) ** 2, 0);
  return bell(origin + offset, Math.sqrt(squares / (n - 1) / n), n - 1, path);
}

function fromStandardUncertainty(given: Readonly<Record<string, unknown>>, path: string): KnownInput {
  const value = number(given['value'], `${path}.value`);
  const uncertainty = nonNegative(given['standardUncertainty'], `${path}.standardUncertainty`);
  return bell(value, uncertainty, freedom(given['degreesOfFreedom'], path), path);
}

function fromExpanded(given: Readonly<Record<string, unknown>>, path: string): KnownInput {
  const value = number(given['value'], `${path}.value`);
  const expanded = nonNegative(given['expandedUncertainty'], `${path}.expandedUncertainty`);
  const factor = positive(given['coverageFactor'], `${path}.coverageFactor`);
  return bell(value, expanded / factor, freedom(given['degreesOfFreedom'], path), path);
}

/** Normal, or t where the uncertainty has finite degrees of freedom (JCGM 101, 6.4.7 and 6.4.9). */
function bell(mean: number, uncertainty: number, degreesOfFreedom: number | null, path: string): KnownInput {
  if (uncertainty === 0) return constant(representable(mean, path));
  const u = representable(uncertainty, path);
  return {
    estimate: representable(mean, path),
    standardUncertainty: u,
    degreesOfFreedom,
    limits: null,
    distribution:
      degreesOfFreedom === null
        ? { kind: 'normal', mean, standardDeviation: u }
        : { kind: 't', location: mean, scale: u, degreesOfFreedom },
  };
}

function fromMean({ distribution, mean }: Readonly<Record<string, unknown>>, path: string): KnownInput {
  choice(distribution, `${path}.distribution`, ['exponential']);
  const checked = positive(mean, `${path}.mean`);
  return {
    estimate: checked,
    standardUncertainty: checked,
    degreesOfFreedom: null,
    limits: null,
    distribution: { kind: 'exponential', mean: checked },
  };
}

function fromCount({ distribution, count }: Readonly<Record<string, unknown>>, path: string): KnownInput {
  choice(distribution, `${path}.distribution`, ['gamma']);
  const shape = whole(count, `${path}.count`, { min: 0 }) + 1;
  return {
    estimate: shape,
    standardUncertainty: Math.sqrt(shape),
    degreesOfFreedom: null,
    limits: null,
    distribution: { kind: 'gamma', shape },
  };
}

function fromPlusMinus(given: Readonly<Record<string, unknown>>, path: string): KnownInput {
  const value = number(given['value'], `${path}.value`);
  const half = nonNegative(given['plusMinus'], `${path}.plusMinus`);
  return bounded(given, path, value, half);
}

function fromLimits(given: Readonly<Record<string, unknown>>, path: string): KnownInput {
  const from = number(given['from'], `${path}.from`);
  const to = number(given['to'], `${path}.to`, { min: from });
  return bounded(given, path, from / 2 + to / 2, to / 2 - from / 2, from, to);
}

function fromDeviations(given: Readonly<Record<string, unknown>>, path: string): KnownInput {
  const nominal = number(given['nominal'], `${path}.nominal`);
  const lower = number(given['lowerDeviation'], `${path}.lowerDeviation`);
  const upper = number(given['upperDeviation'], `${path}.upperDeviation`, { min: lower });
  return bounded(given, path, nominal + (lower + upper) / 2, (upper - lower) / 2, nominal + lower, nominal + upper);
}

function bounded(
  given: Readonly<Record<string, unknown>>,
  path: string,
  estimate: number,
  half: number,
  from = estimate - half,
  to = estimate + half,
): KnownInput {
  const kind =
    given['distribution'] === undefined
      ? 'rectangular'
      : choice(given['distribution'], `${path}.distribution`, [
          'rectangular',
          'triangular',
          'trapezoidal',
          'arcsine',
          'curvilinear-trapezoid',
        ] as const);
  for (const [key, owner] of [
    ['topRatio', 'trapezoidal'],
    ['inexactness', 'curvilinear-trapezoid'],
  ] as const) {
    if (kind === owner && given[key] === undefined)
      refuse('missing-option', `${path}.${key}`, undefined, 'must be given');
    if (kind !== owner && given[key] !== undefined)
      refuse('contradiction', `${path}.${key}`, kind, `goes with ${owner}`);
  }
  const degreesOfFreedom = freedom(given['degreesOfFreedom'], path);
  representable(from, path);
  representable(to, path);
  if (half === 0) return constant(estimate);
  const known = (
    standardUncertainty: number,
    distribution: Distribution,
    limits: { readonly from: number; readonly to: number } = { from, to },
  ): KnownInput => ({ estimate, standardUncertainty, degreesOfFreedom, limits, distribution });

  if (kind === 'trapezoidal') {
    const topRatio = number(given['topRatio'], `${path}.topRatio`, { min: 0, max: 1 });
    return known(half * Math.sqrt((1 + topRatio * topRatio) / 6), { kind, from, to, topRatio });
  }
  if (kind === 'curvilinear-trapezoid') {
    const inexactness = number(given['inexactness'], `${path}.inexactness`, { above: 0, max: half });
    return known(
      Math.sqrt((half * half) / 3 + (inexactness * inexactness) / 9),
      { kind, from, to, inexactness },
      { from: from - inexactness, to: to + inexactness },
    );
  }
  const divisor = { rectangular: 3, triangular: 6, arcsine: 2 }[kind];
  return known(half / Math.sqrt(divisor), { kind, from, to });
}
