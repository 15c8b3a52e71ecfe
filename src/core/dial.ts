/**
 * A machine's own scales: a dial graduated on the radius or on the diameter, and a swivel scale in degrees. What is
 * wanted becomes a reading, the nearest graduation that the machine has, and what that graduation sets. Graduations are
 * counted in exact decimals from the scale's zero, so that 3 steps of 0.1 read 0.3.
 */
import { type Allowed, refuse } from './errors.js';
import { add, decimally, nearestDouble, type Rational, scale } from './rational.js';
import { anyNumber, choice, type Fields, object, optional, positive, type Reader, vouched } from './read.js';

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

const DIAL: Fields<Dial> = {
  reads: choice('radius', 'diameter'),
  step: optional(positive),
  from: optional(anyNumber),
  to: optional(anyNumber),
};

/** Reads a dial whose marks make sense. */
export const dial: Reader<Dial> = vouched(object(DIAL), (given) => checkMarks(given, ['step', 'from', 'to']));

/** The dial of a machine that has none: any movement can be set. */
export const NO_DIAL: Dial = { reads: 'radius' };

const ANGLE_SCALE: Fields<AngleScale> = {
  reads: choice('from-axis', 'from-across'),
  stepDeg: optional(positive),
  fromDeg: optional(anyNumber),
  toDeg: optional(anyNumber),
};

/** Reads a swivel scale whose marks make sense. */
export const angleScale: Reader<AngleScale> = vouched(object(ANGLE_SCALE), ({ stepDeg, fromDeg, toDeg }) =>
  checkMarks({ step: stepDeg, from: fromDeg, to: toDeg }, ['stepDeg', 'fromDeg', 'toDeg']),
);

/** A scale or dial between whose marks one estimates: any reading can be set. */
export function unmarked<S extends object>(scale: S): S {
  const {
    step: _step,
    stepDeg: _stepDeg,
    ...rest
  } = scale as S & { readonly step?: unknown; readonly stepDeg?: unknown };
  return rest as unknown as S;
}

/** How much a dial shows for a movement of 1: 2 where it counts on the diameter. */
export function perMovement(reads: Dial['reads']): 1 | 2 {
  return reads === 'diameter' ? 2 : 1;
}

/** Puts a movement (on the radius) on a checked dial; refuses what the dial cannot reach. */
export function setOnDial(value: number, dial: Dial, parameter: string): DialSetting {
  const times = perMovement(dial.reads);
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
    return refuse('beyond-machine', parameter, reading, within(from, to, `; nearest possible ${end}`));
  }
  if (step === undefined) return reading;
  const rounded = plainGraduation(reading, step) ?? graduation(nearest(divided(reading, step)), step);
  if (rounded > to) return graduation(lower(divided(reading, step)), step);
  return rounded < from ? graduation(lower(divided(reading, step)) + 1n, step) : rounded;
}

/** The nearest graduation where plain numbers tell it for sure: a step of few decimals, a reading far from half-way. */
function plainGraduation(reading: number, step: number): number | undefined {
  const count = reading / step;
  const whole = Math.round(count);
  if (Math.abs(whole) > 1e6 || Math.abs(Math.abs(count - whole) - 0.5) < 1e-6) return undefined;
  for (let power = 1; power <= 1e6; power *= 10) {
    const figures = step * power;
    // Both products are exact, so their quotient is rounded once.
    if (Number.isInteger(figures) && figures <= 1e6 && figures / power === step) return (whole * figures) / power + 0;
  }
  return undefined;
}

/** How far to turn from one reading to another, in the decimals that the readings are written in. */
export function readingChange(from: number, to: number): number {
  return nearestDouble(add(decimally(to), scale(decimally(from), -1n, 1n))) + 0;
}

function divided(reading: number, step: number): Rational {
  const { over, under } = decimally(step);
  return scale(decimally(reading), under, over);
}

function graduation(count: bigint, step: number): number {
  return nearestDouble(scale(decimally(step), count, 1n)) + 0;
}

/** The nearest whole number, halves away from zero. */
function nearest({ over, under }: Rational): bigint {
  const size = over < 0n ? -over : over;
  const whole = (2n * size + under) / (2n * under);
  return over < 0n ? -whole : whole;
}

function lower({ over, under }: Rational): bigint {
  const whole = over / under;
  return over < 0n && whole * under !== over ? whole - 1n : whole;
}

/** Refuses marks that contradict each other; the keys are those of step, least and largest reading. */
export function checkMarks(
  { step, from, to }: Graduation,
  [stepKey, fromKey, toKey]: readonly [string, string, string],
): void {
  if (from === undefined || to === undefined) return;
  if (from > to)
    refuse('contradiction', toKey, to, { kind: 'number', min: from, phrase: `must be at least ${fromKey}, ${from}` });
  // Two steps hold a graduation wherever they lie; counted exactly only where it may be missed.
  if (step !== undefined && to - from < 2 * step && graduation(-lower(divided(-from, step)), step) > to) {
    refuse('contradiction', stepKey, step, `must have a graduation from ${from} to ${to}`);
  }
}

function within(from: number, to: number, more: string): Allowed {
  const ends = from === -Infinity ? `at most ${to}` : to === Infinity ? `at least ${from}` : `from ${from} to ${to}`;
  const phrase = `must read ${ends}${more}`;
  if (from === -Infinity) return { kind: 'number', max: to, phrase };
  return to === Infinity ? { kind: 'number', min: from, phrase } : { kind: 'number', min: from, max: to, phrase };
}
