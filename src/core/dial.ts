/**
 * A machine's own scales: a dial graduated on the radius or on the diameter, and a swivel scale in
 * degrees. What is wanted becomes a reading, the nearest graduation that the machine has, and what
 * that graduation sets. Graduations are counted in exact decimals from the scale's zero, so that
 * 3 steps of 0.1 read 0.3.
 */
import { Decimal } from 'decimal.js';
import { choice, number, options, positive } from './checks.js';
import { refuse } from './errors.js';

/** The dial of a slide, a tailstock or a boring head. */
export interface Dial {
  /** Whether the dial shows the movement itself (`radius`) or twice that (`diameter`). */
  readonly reads: 'radius' | 'diameter';
  /** One graduation, as the dial reads. Left out: any reading can be set. */
  readonly step?: number;
  /** Least reading that can be set. Left out: no limit. */
  readonly from?: number;
  /** Largest reading that can be set. Left out: no limit. */
  readonly to?: number;
}

/** A movement as a dial shows it. */
export interface DialSetting {
  /** What the dial would have to read exactly. */
  readonly reading: number;
  /** The nearest graduation within reach; the reading itself if the dial has no step. */
  readonly settableReading: number;
  /** The movement that the graduation sets, on the radius. */
  readonly settableValue: number;
  /** How much the movement set differs from the one wanted, on the radius: set minus wanted. */
  readonly roundingError: number;
}

/** The swivel scale of a top slide, a guide bar or a head. */
export interface AngleScale {
  /** Whether the scale reads zero with the slide along the work's axis, or square across it. */
  readonly reads: 'from-axis' | 'from-across';
  /** One graduation in degrees. Left out: any angle can be set. */
  readonly stepDeg?: number;
  /** Least reading that can be set, in degrees. Left out: no limit. */
  readonly fromDeg?: number;
  /** Largest reading that can be set, in degrees. Left out: no limit. */
  readonly toDeg?: number;
}

/** An angle from the work's axis as a swivel scale shows it. */
export interface AngleSetting {
  /** What the scale would have to read exactly. */
  readonly readingDeg: number;
  /** The nearest graduation within reach; the reading itself if the scale has no step. */
  readonly settableReadingDeg: number;
  /** The angle from the work's axis that the graduation sets. */
  readonly settableAngleDeg: number;
  /** How much the angle set differs from the one wanted: set minus wanted. */
  readonly roundingErrorDeg: number;
}

/** Checks a dial. */
export function readDial(value: unknown, parameter: string): Dial {
  const { reads, ...graduation } = options(value, parameter, ['reads'], ['step', 'from', 'to']);
  return {
    reads: choice(reads, `${parameter}.reads`, ['radius', 'diameter']),
    ...readGraduation(graduation, parameter, ['step', 'from', 'to']),
  };
}

/** Checks a swivel scale. */
export function readAngleScale(value: unknown, parameter: string): AngleScale {
  const { reads, ...graduation } = options(value, parameter, ['reads'], ['stepDeg', 'fromDeg', 'toDeg']);
  return {
    reads: choice(reads, `${parameter}.reads`, ['from-axis', 'from-across']),
    ...readGraduation(graduation, parameter, ['stepDeg', 'fromDeg', 'toDeg']),
  };
}

/** Puts a movement (on the radius) on a checked dial; refuses what the dial cannot reach. */
export function setOnDial(value: number, dial: Dial, parameter: string): DialSetting {
  const times = dial.reads === 'diameter' ? 2 : 1;
  const reading = times * value + 0;
  const settableReading = nearestGraduation(reading, dial, parameter);
  const settableValue = settableReading / times;
  return { reading, settableReading, settableValue, roundingError: settableValue - value };
}

/** Puts an angle from the work's axis on a checked swivel scale; refuses what it cannot reach. */
export function setOnAngleScale(angleDeg: number, scale: AngleScale, parameter: string): AngleSetting {
  const readingDeg = fromScale(angleDeg, scale);
  const { stepDeg: step, fromDeg: from, toDeg: to } = scale;
  const settableReadingDeg = nearestGraduation(readingDeg, { step, from, to }, parameter);
  // Without a step the angle itself is set: going through the scale and back would cost digits.
  const settableAngleDeg = step === undefined ? angleDeg : fromScale(settableReadingDeg, scale);
  return { readingDeg, settableReadingDeg, settableAngleDeg, roundingErrorDeg: settableAngleDeg - angleDeg };
}

/** The angle from the axis for a reading, or the reading for an angle: the same step both ways. */
export function fromScale(deg: number, { reads }: AngleScale): number {
  return reads === 'from-across' ? 90 - deg : deg + 0;
}

/** The marks of a scale, in the scale's own units. */
export interface Graduation {
  readonly step?: number | undefined;
  readonly from?: number | undefined;
  readonly to?: number | undefined;
}

/** Digits for the product of two doubles; a constructor of our own leaves the caller's settings alone. */
const Exact = Decimal.clone({ precision: 40 });

/** The graduation nearest to a reading, counted exactly from zero, kept within the range. */
export function nearestGraduation(
  reading: number,
  { step, from = -Infinity, to = Infinity }: Graduation,
  parameter: string,
): number {
  // An end of the range computed in floating point may miss it by a few units in the last place.
  const slack = 1e-14 * Math.abs(reading);
  if (reading < from - slack || reading > to + slack) {
    const end = reading < from ? from : to;
    return refuse('beyond-machine', parameter, reading, `must read ${range(from, to)}; nearest possible ${end}`);
  }
  if (step === undefined) return reading;
  const steps = new Exact(reading).div(step);
  const graduation = (count: Decimal): number => count.times(step).toNumber() + 0;
  const rounded = graduation(steps.round());
  if (rounded > to) return graduation(steps.floor());
  return rounded < from ? graduation(steps.ceil()) : rounded;
}

/** How far to turn from one reading to another, in the decimals that the readings are written in. */
export function readingChange(from: number, to: number): number {
  return new Exact(to).minus(from).toNumber() + 0;
}

/** Checks a scale's marks; the keys are step, least and largest reading. */
export function readGraduation<K extends string>(
  given: Readonly<Record<string, unknown>>,
  parameter: string,
  [stepKey, fromKey, toKey]: readonly [K, K, K],
): { readonly [key in K]?: number } {
  const found: { [key in K]?: number } = {};
  const step = given[stepKey] === undefined ? undefined : positive(given[stepKey], `${parameter}.${stepKey}`);
  const from = given[fromKey] === undefined ? undefined : number(given[fromKey], `${parameter}.${fromKey}`);
  const to = given[toKey] === undefined ? undefined : number(given[toKey], `${parameter}.${toKey}`);
  if (from !== undefined && to !== undefined && from > to) {
    return refuse('contradiction', `${parameter}.${toKey}`, to, `must be at least ${fromKey}, ${from}`);
  }
  if (step !== undefined && from !== undefined && to !== undefined) {
    const first = new Exact(from).div(step).ceil().times(step);
    if (first.greaterThan(to)) {
      return refuse('contradiction', `${parameter}.${stepKey}`, step, `must have a graduation ${range(from, to)}`);
    }
  }
  if (step !== undefined) found[stepKey] = step;
  if (from !== undefined) found[fromKey] = from;
  if (to !== undefined) found[toKey] = to;
  return found;
}

function range(from: number, to: number): string {
  if (from === -Infinity) return `at most ${to}`;
  return to === Infinity ? `at least ${from}` : `from ${from} to ${to}`;
}
