/**
 * The order of work that the ways to a taper on a lathe share.
 *
 * What must hold is the difference of the end diameters over the length: it answers to the angle alone,
 * so setting, checking and correcting go by it, and the size is touched off last. An indicator moved by t
 * along the axis against a true cylinder shows t tan α where the cutting motion is tilted by α; half the
 * tolerance of the difference either way is then its own tolerance.
 */
import { cosDeg, sinDeg, toRadians } from '../core/trigonometry.js';
import { chance } from '../method/chance.js';
import type { MethodTypes, Planned } from '../method/method.js';
import { roundedUp, type Step, sentence, step } from '../method/steps.js';
import { type Slope, slopeOf } from '../taper/taper.js';
import { smallDiameterOf, type TaperPart } from './part.js';
import { PROMISES, STEPS } from './step-words.js';

/** A taper method that was planned. */
export type PlannedTaper = Planned<MethodTypes & { readonly part: TaperPart }>;

/** What all steps speak of. */
export interface Cutting {
  readonly unit: 'mm' | 'in';
  readonly part: TaperPart;
  readonly slope: Slope;
  /** Tolerance of the difference of the end diameters over the length. */
  readonly tolerance: number;
  /** What the trial leaves on the diameter, the large diameter it leaves, and the length that it then has. */
  readonly leave: number;
  readonly trialLarge: number;
  readonly trialLength: number;
  /** The error for which a correction is told. */
  readonly per: number;
}

/** Left on the diameter for the finishing cuts, in millimetres: common practice, no source. */
const FINISHING_MM = 0.2;

/** Works out what the steps speak of. */
export function cuttingOf({ work, expectations }: Pick<PlannedTaper, 'work' | 'expectations'>): Cutting {
  const { part, unit } = work;
  const slope = slopeOf(part.taper);
  const { largeDiameter, length } = part;
  const outside = part.side === 'outside';
  const { smallDiameter = Infinity, halfAngleDeg } = part.tolerance;
  const tolerance = Math.min(
    smallDiameter,
    halfAngleDeg === undefined ? Infinity : overLength(halfAngleDeg, slope, length),
  );
  // The trial must hold the finished taper whatever its error, and still leave a cut to take.
  const worst = expectations.map(({ quantity, first }) => {
    const error = Math.max(Math.abs(first.low), Math.abs(first.high));
    return quantity === 'half-angle' ? (2 * length * toRadians(error)) / slope.cos ** 2 : error;
  });
  const wanted = roundedUp(Math.max(0, ...worst) + (unit === 'mm' ? FINISHING_MM : FINISHING_MM / 25.4));
  // Without stock over the large end the trial runs out before it; half the length must be left to measure.
  const stock = outside ? Math.max(0, (part.stockDiameter ?? largeDiameter) - largeDiameter) : Infinity;
  const leave = Math.min(wanted, Math.max(stock, length * slope.tan));
  const short = Math.max(0, leave - stock) / 2 / slope.tan;
  return {
    unit,
    part,
    slope,
    tolerance,
    leave,
    trialLarge: largeDiameter + (outside ? Math.min(leave, stock) : -leave),
    trialLength: length - short,
    per: unit === 'mm' ? 0.01 : 0.001,
  };
}

/** What an angle is worth on the difference of the diameters, on the side where it is worth less: 2ℓ (tan α - tan(α - δ)). */
function overLength(deltaDeg: number, { cos, halfAngleDeg }: Slope, length: number): number {
  const delta = Math.min(deltaDeg, 45);
  return (2 * length * sinDeg(delta)) / cos / cosDeg(halfAngleDeg - delta);
}

/** The steps of a method between the shared ones: its own settings and checks, and what to change for an error. */
export function inOrder<C extends string>(
  planned: PlannedTaper,
  cutting: Cutting,
  own: readonly Step<C>[],
  correction: Step<C>,
  between: 'yes' | 'no',
): readonly Step<C | keyof typeof STEPS>[] {
  return [
    ...holding(planned, between),
    ...own,
    ...trial(planned, cutting),
    correction,
    again(planned, cutting),
    ...finish(planned, cutting),
  ];
}

type Shared = readonly Step<keyof typeof STEPS>[];

function holding({ work: { part, unit, setting } }: PlannedTaper, between: 'yes' | 'no'): Shared {
  return [
    step(STEPS, 'prepare', 'hold-work', { unit, between, workLength: part.workLength }),
    step(STEPS, 'prepare', 'tool-height', { unit, toolHeight: setting.toolHeight }),
  ];
}

/** The check that all motions along the bed share: over a travel t along the axis the needle shows t tan α. */
export function onCylinder({ part, slope, unit, tolerance }: Cutting, onto: string): Step<'indicator'> {
  const travel = part.length;
  const needle = travel * slope.tan;
  const half = tolerance / 2;
  return step(STEPS, 'check', 'indicator', {
    unit,
    onto,
    travel,
    needle,
    needleFrom: needle - half,
    needleTo: needle + half,
  });
}

function trial({ work: { setting, measuring } }: PlannedTaper, cutting: Cutting): Shared {
  const { part, unit, leave, trialLarge, trialLength, slope, tolerance } = cutting;
  const inside = part.side === 'inside' ? 'yes' : 'no';
  return [
    step(STEPS, 'trial-cut', 'rough', {
      unit,
      inside,
      whole: trialLength === part.length ? 'yes' : 'no',
      leave,
      largeDiameter: trialLarge,
      length: trialLength,
      limit: setting.touchOff,
    }),
    step(STEPS, 'measure', 'difference', {
      unit,
      inside,
      distance: trialLength,
      difference: 2 * trialLength * slope.tan,
      limit: (tolerance * trialLength) / part.length,
      diameterLimit: measuring.diameter,
      distanceLimit: measuring.length,
    }),
  ];
}

function again({ work, tries, probability, meets }: PlannedTaper, { slope, unit }: Cutting): Step<'again'> {
  const { diameter, length } = work.measuring;
  const kind = meets ? (tries === 1 ? 'first' : 'corrected') : 'short';
  const promise = sentence(PROMISES, kind, { chance: chance(probability) });
  const told = step(STEPS, 'correct', 'again', { unit, promise, measuring: 2 * diameter + 2 * slope.tan * length });
  return { ...told, values: { ...told.values, tries, probability } };
}

function finish({ work }: PlannedTaper, { part, unit, slope, per, tolerance }: Cutting): Shared {
  const { touchOff } = work.setting;
  const { largeDiameter, length } = part;
  const smallDiameter = smallDiameterOf(part);
  const inside = part.side === 'inside' ? 'yes' : 'no';
  return [
    step(STEPS, 'finish', 'touch-off', {
      unit,
      inside,
      largeDiameter,
      limit: touchOff,
      per,
      advance: per / 2 / slope.tan,
    }),
    step(STEPS, 'finish', 'final-check', {
      unit,
      largeDiameter,
      touchOff,
      smallDiameter,
      length,
      difference: largeDiameter - smallDiameter,
      limit: tolerance,
    }),
  ];
}

/** The finished taper over the length of the trial, its small end too large by the error that is told. */
export function measuredShort({ part, slope, trialLength, per }: Cutting): {
  readonly largeDiameter: number;
  readonly smallDiameter: number;
  readonly length: number;
} {
  const { largeDiameter } = part;
  return { largeDiameter, smallDiameter: largeDiameter - 2 * trialLength * slope.tan + per, length: trialLength };
}

/** The taper as drawings take it. */
export function drawn({ part }: Cutting): { largeDiameter: number; smallDiameter: number; length: number } {
  const { largeDiameter, length } = part;
  return { largeDiameter, smallDiameter: smallDiameterOf(part), length };
}
