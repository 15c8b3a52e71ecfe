/**
 * The order of work that the ways to a taper on a lathe share.
 *
 * What must hold is the difference of the end diameters over the length: it answers to the angle alone,
 * so setting, checking and correcting go by it, and the size is touched off last. An indicator moved by t
 * along the axis against a true cylinder shows t tan α where the cutting motion is tilted by α. It may be off by half
 * of what the trial may: the rest is left for what it does not see, the tool's height, spring, its own error.
 */
import { cosDeg, sinDeg, toRadians } from '../core/trigonometry.js';
import { say, tell } from '../core/words.js';
import { plugOverRollers } from '../measure/plug-over-rollers.js';
import type { Indicate } from '../method/actions.js';
import { chance } from '../method/chance.js';
import type { Means } from '../method/means.js';
import type { MethodTypes, Planned } from '../method/method.js';
import { roundBelow, roundedUp, type Step, sentence, step } from '../method/steps.js';
import { type Slope, slopeOf } from '../taper/taper.js';
import { diameterAtMark, type Judging, judged } from './judging.js';
import { smallDiameterOf, type TaperPart } from './part.js';
import { PROMISES, type SharedStep, STEPS, smallEndTowards } from './step-words.js';
import { measureSteps } from './trial-measure.js';

/** A taper method that was planned. */
export type PlannedTaper = Planned<MethodTypes & { readonly part: TaperPart }>;

/** What all steps speak of. */
export interface Cutting {
  readonly unit: 'mm' | 'in';
  readonly part: TaperPart;
  readonly slope: Slope;
  /** Where it is measured, and what is accepted. */
  readonly judging: Judging;
  /** What the needle of a check may be off by, as a difference of the end diameters over the length. */
  readonly needleTolerance: number;
  /** What the trial leaves on the diameter, and the length that it then has. */
  readonly leave: number;
  readonly trialLength: number;
  /** Diameter of the finished taper at the upper mark. */
  readonly markDiameter: number;
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
  const { halfAngleDeg } = part.tolerance;
  // The trial must hold the finished taper whatever its error, and still leave a cut to take.
  const worst = expectations.map(({ quantity, first }) => {
    const error = Math.max(Math.abs(first.low), Math.abs(first.high));
    return quantity === 'half-angle' ? (2 * length * toRadians(error)) / slope.cos ** 2 : error;
  });
  const wanted = roundedUp(Math.max(0, ...worst) + (unit === 'mm' ? FINISHING_MM : FINISHING_MM / 25.4));
  // Without stock over the large end the trial runs out before it; half the length must be left to measure.
  const stock = outside ? Math.max(0, (part.stockDiameter ?? largeDiameter) - largeDiameter) : Infinity;
  const leave = Math.min(wanted, Math.max(stock, length * slope.tan));
  const trialLength = length - Math.max(0, leave - stock) / 2 / slope.tan;
  const byAngle = halfAngleDeg === undefined ? Infinity : overLength(halfAngleDeg, slope, length);
  const judging = judged(work, slope, trialLength, byAngle);
  const { markAt, distance, trial } = judging;
  return {
    unit,
    part,
    slope,
    judging,
    needleTolerance: (trial * length) / distance / 2,
    leave,
    trialLength,
    markDiameter: diameterAtMark(part, slope, markAt + distance),
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
): readonly Step<C | SharedStep>[] {
  return [
    ...holding(planned, cutting, between),
    ...own,
    ...trial(planned, cutting),
    ...measureSteps(planned, cutting),
    correction,
    again(planned, cutting),
    ...finish(planned, cutting),
  ];
}

type Shared = readonly Step<SharedStep>[];

function holding({ work }: PlannedTaper, { part, unit, leave, judging }: Cutting, between: 'yes' | 'no'): Shared {
  const { setting, measuring } = work;
  const { workLength, largeEndAt, length, headstockEnd, largeDiameter, stockDiameter: blank = largeDiameter } = part;
  const inside = part.side === 'inside' ? 'yes' : 'no';
  const { markAt, distance } = judging;
  const drill = smallDiameterOf(part) - leave - FINISHING_MM / (unit === 'mm' ? 1 : 25.4);
  return [
    step(STEPS, 'prepare', 'hold-work', { unit, between, workLength, blank, alike: measuring.diameter }),
    step(STEPS, 'prepare', 'tool-height', { unit, toolHeight: setting.toolHeight, inside }),
    step(STEPS, 'prepare', 'ends', {
      unit,
      inside,
      largeAt: largeEndAt,
      smallAt: largeEndAt + (headstockEnd === 'large' ? length : -length),
      towards: smallEndTowards((headstockEnd === 'large') === (inside === 'yes') ? 'large' : 'small'),
      stop: (part.shoulders ?? [])
        .map(({ at, gap }) => say`; ${tell(gap, { unit })} beyond the ${at} end stands a shoulder`)
        .join(''),
      markAt,
      farMarkAt: markAt + distance,
    }),
    ...(inside === 'yes' && drill > 0
      ? [step(STEPS, 'prepare', 'drill', { unit, drill: roundBelow(drill), depth: length })]
      : []),
  ];
}

/** Longest movement that the needle of a small indicator shows, in millimetres: common practice, no source. */
const RANGE_MM = 8;

/** A travel for an indicator: round, no longer than the taper, and within the needle's range for so much a unit. */
export function indicatorTravel({ part, unit }: Pick<Cutting, 'part' | 'unit'>, rate: number): number {
  return roundBelow(Math.min(part.length, RANGE_MM / (unit === 'mm' ? 1 : 25.4) / rate));
}

/** Where the needle sets the guide: over which travel, and within half a division. */
export function needleSetting(means: Means | null): { readonly travel: number; readonly half: number } | null {
  const { travel, resolution } = means?.values ?? {};
  return means?.code !== 'indicator' || !travel || !resolution ? null : { travel, half: resolution / 2 };
}

/** Whether the needle along a cylinder sets the guide: where the job states how well, it does. */
export function setsByNeedle(means: Means | null): boolean {
  return means?.code === 'indicator' || means?.code === 'stated';
}

/** The check that all motions along the bed share: over a travel t along the axis the needle shows t tan α. */
export function onCylinder(cutting: Cutting, onto: string, means: Means | null = null): Step<'indicator'> {
  const { part, slope, unit, needleTolerance } = cutting;
  const set = needleSetting(means);
  const travel = set?.travel ?? indicatorTravel(cutting, slope.tan);
  const needle = travel * slope.tan;
  const half = set?.half ?? (needleTolerance / 2 / part.length) * travel;
  return step(STEPS, 'check', 'indicator', {
    unit,
    onto,
    travel,
    needle,
    needleFrom: needle - half,
    needleTo: needle + half,
    towards: smallEndTowards(part.headstockEnd),
  });
}

/** Setting a guide by what an indicator stands still along: a sine bar, a master; or a cylinder, for the zero of a scale. */
export function byStanding(
  { unit, part }: Cutting,
  means: Means | null,
  control: 'top-slide' | 'carriage',
): readonly Step<'sine-bar' | 'master' | 'scale-zero'>[] {
  if (!means) return [];
  const { code, values } = means;
  const { bar = 0, blocks = 0, travel = 0, still = 0, across = 0 } = values;
  const carrier = control === 'top-slide' ? 'the slide' : 'the cross slide, which the bar moves,';
  const check: Indicate = {
    do: 'indicate',
    on: control === 'top-slide' ? 'top-slide' : 'cross-slide',
    against: code,
    control,
    travel: { value: travel, unit },
    way: smallEndTowards(part.headstockEnd),
    needle: { value: 0, unit, limit: still },
    sense: 'still',
  };
  if (code === 'scale' && still > 0) return [step(STEPS, 'prepare', 'scale-zero', { unit, carrier, check })];
  if (code === 'master') return [step(STEPS, 'set', 'master', { unit, carrier, check })];
  if (code !== 'sine-bar') return [];
  const outer = part.headstockEnd === 'large' ? 'nearest the axis' : 'farthest from the axis';
  const blocksAt = across ? outer : say`towards the ${part.headstockEnd === 'large' ? 'headstock' : 'tailstock'}`;
  return [
    step(
      STEPS,
      'set',
      'sine-bar',
      { unit, bar, blocks, across: across ? 'yes' : 'no', blocksAt, carrier, check },
      { uses: 'sineBarSettings' },
    ),
  ];
}

function trial({ work: { setting } }: PlannedTaper, cutting: Cutting): Shared {
  const { part, unit, leave, trialLength, markDiameter } = cutting;
  const left = part.side === 'inside' ? -leave : leave;
  return [
    step(STEPS, 'trial-cut', 'rough', {
      unit,
      inside: part.side === 'inside' ? 'yes' : 'no',
      leave,
      largeDiameter: part.largeDiameter + left,
      length: trialLength,
      markDiameter: markDiameter + left,
      limit: setting.touchOff,
    }),
  ];
}

function again({ tries, probability, meets }: PlannedTaper, { judging, unit }: Cutting): Step<'again'> {
  const kind = meets ? (tries === 1 ? 'first' : 'corrected') : 'short';
  const promise = sentence(PROMISES, kind, { chance: chance(probability) });
  const told = step(STEPS, 'correct', 'again', { unit, promise, measuring: judging.doubt });
  return { ...told, values: { ...told.values, tries, probability } };
}

function finish({ work }: PlannedTaper, cutting: Cutting): Shared {
  const { part, unit, slope, per, judging, markDiameter } = cutting;
  const { touchOff } = work.setting;
  const { largeDiameter, length } = part;
  const { markAt, distance, small, difference } = judging;
  const inside = part.side === 'inside' ? 'yes' : 'no';
  const limited = (limit: number): number => (limit === Infinity ? 0 : limit);
  return [
    step(STEPS, 'finish', 'touch-off', {
      unit,
      inside,
      markDiameter,
      limit: touchOff,
      per,
      advance: per / 2 / slope.tan,
    }),
    step(STEPS, 'finish', 'final-check', {
      unit,
      largeDiameter,
      smallDiameter: smallDiameterOf(part),
      length,
      lowerDiameter: diameterAtMark(part, slope, markAt),
      markDiameter,
      touchOff,
      lowerLimit: limited(small),
      difference: 2 * distance * slope.tan,
      differenceLimit: limited(difference),
    }),
    ...rollers(cutting, work.measuring.diameter),
  ];
}

/** Rollers in millimetres and inches: common practice, no source. */
const ROLLER = { mm: 6, in: 0.25 } as const;

/** Rollers beside a finished plug that can stand on its small end: the end of the work. */
function rollers({ part, unit, judging }: Cutting, limit: number): readonly Step<'over-rollers'>[] {
  const { workLength, largeEndAt, length, headstockEnd, side, taper } = part;
  const beyond = headstockEnd === 'large' ? workLength - largeEndAt - length : largeEndAt - length;
  const [roller, height, endDiameter] = [ROLLER[unit], judging.distance, smallDiameterOf(part)];
  if (side === 'inside' || beyond > 1e-9 * workLength || endDiameter <= 0 || height + roller > length) return [];
  const over = (blockHeight: number): number =>
    plugOverRollers({ taper, endDiameter, rollerDiameter: roller, blockHeight, standsOn: 'small-end' });
  const values = { unit, roller, low: over(0), height, high: over(height), limit };
  return [step(STEPS, 'finish', 'over-rollers', values, { uses: 'plugOverRollers' })];
}

/** The finished taper between the marks, its small end too large by the error that is told. */
export function measuredShort({ slope, judging, markDiameter, per }: Cutting): {
  readonly largeDiameter: number;
  readonly smallDiameter: number;
  readonly length: number;
} {
  const { distance } = judging;
  return {
    largeDiameter: markDiameter,
    smallDiameter: markDiameter - 2 * distance * slope.tan + per,
    length: distance,
  };
}
