/**
 * What is known of an input: an estimate and how far the truth may lie from it. Plain data, stated in
 * whatever way it is known.
 * Sources: JCGM 100:2008, 4.2 (readings) and 4.3 (everything else); JCGM 101:2008, table 1 and 6.4.
 */
import {
  anyNumber,
  array,
  byKey,
  choice,
  type Fields,
  nonNegative,
  number,
  optional,
  positive,
  type Reader,
  whole,
} from '../core/read.js';

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
  /** How the values are spread. @defaultValue 'rectangular' */
  readonly distribution?: BoundedShape;
  /**
   * Flat top over full width, 0 (triangle) to 1 (rectangle); goes with `trapezoidal` alone.
   * @defaultValue none: a trapezoid must state it
   */
  readonly topRatio?: number;
  /**
   * How far each limit may itself be off, at most half the width; goes with `curvilinear-trapezoid` alone.
   * @defaultValue none: a curvilinear trapezoid must state it
   */
  readonly inexactness?: number;
  /**
   * How well the limits are known, as degrees of freedom (JCGM 100, G.4.2).
   * @defaultValue infinitely many: the limits are certain
   */
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
      /** Degrees of freedom, 1 or more. @defaultValue infinitely many: the distribution is normal */
      readonly degreesOfFreedom?: number;
    }
  | {
      /** Estimate. */
      readonly value: number;
      /** Expanded uncertainty U, as certificates state it. */
      readonly expandedUncertainty: number;
      /** The factor k by which it was expanded. */
      readonly coverageFactor: number;
      /** Degrees of freedom, 1 or more. @defaultValue infinitely many: the distribution is normal */
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

const freedom = optional(number({ min: 1 }));
const SPREAD: Fields<Spread> = {
  distribution: optional(choice('rectangular', 'triangular', 'trapezoidal', 'arcsine', 'curvilinear-trapezoid')),
  topRatio: optional(number({ min: 0, max: 1 })),
  inexactness: optional(positive),
  degreesOfFreedom: freedom,
};

const STATED: Reader<Exclude<Input, number>> = byKey<Exclude<Input, number>>({
  readings: { readings: array(anyNumber, 2) },
  mean: { distribution: choice('exponential'), mean: positive },
  count: { distribution: choice('gamma'), count: whole({ min: 0 }) },
  standardUncertainty: { value: anyNumber, standardUncertainty: nonNegative, degreesOfFreedom: freedom },
  expandedUncertainty: {
    value: anyNumber,
    expandedUncertainty: nonNegative,
    coverageFactor: positive,
    degreesOfFreedom: freedom,
  },
  plusMinus: { value: anyNumber, plusMinus: nonNegative, ...SPREAD },
  from: { from: anyNumber, to: anyNumber, ...SPREAD },
  nominal: { nominal: anyNumber, upperDeviation: anyNumber, lowerDeviation: anyNumber, ...SPREAD },
  value: 'shared',
  to: 'shared',
  upperDeviation: 'shared',
  lowerDeviation: 'shared',
  coverageFactor: 'shared',
  distribution: 'shared',
  topRatio: 'shared',
  inexactness: 'shared',
  degreesOfFreedom: 'shared',
});

/** Keys of which each belongs to one way of stating an input, and that way has. */
const WAYS = [
  'readings',
  'mean',
  'count',
  'standardUncertainty',
  'expandedUncertainty',
  'plusMinus',
  'from',
  'nominal',
] as const;

/** Reads an input that is stated in exactly one way. */
export const input: Reader<Input> = {
  allowed: STATED.allowed,
  read: (given, reading) => {
    if (typeof given === 'number') return anyNumber.read(given, reading);
    const before = reading.faults.length;
    const stated = new Map(Object.entries(given ?? {}).filter(([, value]) => value !== undefined));
    const ways = WAYS.filter((key) => stated.has(key)).length;
    const found = ways > 1 ? undefined : STATED.read(given, reading);
    const { code, path } = reading.faults[before] ?? {};
    if (ways > 1 || (code === 'missing-option' && path === '')) {
      reading.faults.splice(before, 1, {
        code: 'contradiction',
        path: '',
        value: [...stated.keys()].join(' + '),
        allowed: { ...STATED.allowed, phrase: `must be a number or stated in one way, by ${WAYS.join(', ')}` },
      });
    }
    return found as Input;
  },
};
