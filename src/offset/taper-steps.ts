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
import { amount, fifth } from '../method/action-words.js';
import type {
  Amount,
  Control,
  Feed,
  Indicate,
  Lay,
  MarkPlace,
  Measure,
  Place,
  Repeat,
  Secure,
  Stop,
  Touch,
  Way,
} from '../method/actions.js';
import { chance } from '../method/chance.js';
import type { Means } from '../method/means.js';
import type { MethodTypes, Planned } from '../method/method.js';
import { roundBelow, roundedUp, type Step, sentence, step } from '../method/steps.js';
import { type Slope, slopeOf } from '../taper/taper.js';
import { diameterAtMark, type Judging, judged } from './judging.js';
import { smallDiameterOf, type TaperPart } from './part.js';
import { FINE, name, PROMISES, type SharedStep, STEPS, smallEndTowards } from './step-words.js';
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

/** What feeds a cut, and what gives its depth where that is another control. */
export interface Cut {
  readonly control: Control;
  readonly depth?: Control;
  /** Left out, the work is held in the chuck. */
  readonly hold?: 'centres';
}

/** The steps of a method between the shared ones: its own settings and checks, and what to change for an error. */
export function inOrder<C extends string>(
  planned: PlannedTaper,
  cutting: Cutting,
  own: readonly Step<C>[],
  correction: Step<C>,
  cut: Cut,
): readonly Step<C | SharedStep>[] {
  return [
    ends(cutting),
    held(planned, cutting, cut),
    ...prepared(planned, cutting),
    ...own,
    trial(planned, cutting, cut),
    ...measureSteps(planned, cutting),
    correction,
    again(planned, cutting),
    ...finish(planned, cutting, cut),
  ];
}

type Shared = readonly Step<SharedStep>[];

function ends({ part, unit, judging }: Cutting): Step<'ends'> {
  const { largeEndAt, length, headstockEnd } = part;
  const mark = (what: Place, from: Place, at: number): MarkPlace => ({ do: 'mark', what, at: amount(at, unit), from });
  return step(STEPS, 'prepare', 'ends', {
    large: mark('large-end', 'headstock-face', largeEndAt),
    small: mark('small-end', 'headstock-face', largeEndAt + (headstockEnd === 'large' ? length : -length)),
    lower: mark('lower-mark', 'small-end', judging.markAt),
    upper: mark('upper-mark', 'small-end', judging.markAt + judging.distance),
    shoulders: (part.shoulders ?? [])
      .map(({ at, gap }) => say`; ${tell(gap, { unit })} beyond the ${at} end stands a shoulder`)
      .join(''),
  });
}

/** In the chuck; or between centres, where the blank is turned first. */
function held({ work }: PlannedTaper, { part, unit, per }: Cutting, { hold }: Cut): Step<SharedStep> {
  const { workLength, largeDiameter, stockDiameter = largeDiameter } = part;
  if (hold === undefined) {
    return step(STEPS, 'prepare', 'hold-work', { unit, hold: { do: 'hold', what: 'work', by: 'chuck' }, workLength });
  }
  return step(STEPS, 'prepare', 'turn-blank', {
    unit,
    hold: { do: 'hold', what: 'work', by: hold },
    clamp: [clamp('tailstock'), clamp('barrel')],
    turn: {
      do: 'feed',
      control: 'carriage',
      way: 'headstock',
      depth: 'cross-slide',
      deeper: 'away-from-operator',
      until: amount(stockDiameter, unit),
    },
    alike: {
      do: 'measure',
      what: 'blank',
      at: 'headstock-face',
      less: 'tailstock-face',
      with: 'a micrometer',
      must: amount(0, unit, work.measuring.diameter),
    },
    // Between centres turns about the one at the headstock: half of what the diameters differ by.
    follow: {
      do: 'correct',
      measured: 'blank',
      off: 'too-small',
      per: amount(per, unit),
      control: 'tailstock',
      by: amount(per / 2, unit),
      way: 'operator',
    },
    repeat: { do: 'repeat', from: 'turn-blank', to: 'turn-blank' },
    workLength,
  });
}

function prepared({ work }: PlannedTaper, { part, unit, leave }: Cutting): Shared {
  const { workLength, largeEndAt, length, headstockEnd, side } = part;
  const drill = smallDiameterOf(part) - leave - FINISHING_MM / (unit === 'mm' ? 1 : 25.4);
  const touch: Touch = {
    do: 'touch',
    on: "the work's axis",
    side: 'operator',
    within: amount(0, unit, work.setting.toolHeight),
  };
  const deepest = workLength - largeEndAt + (headstockEnd === 'small' ? length : 0);
  const drilling: Feed = {
    do: 'feed',
    control: 'drill',
    way: 'headstock',
    to: amount(deepest, unit),
    size: amount(drill > 0 ? roundBelow(drill) : 0, unit),
  };
  return [
    ...(side === 'inside' && drill > 0 ? [step(STEPS, 'prepare', 'drill', { drill: drilling })] : []),
    step(STEPS, 'prepare', 'tool-height', { touch }),
  ];
}

/** Way in which a taper is cut along, and the end where it stops: a bore from its open end, a plug up its side. */
export function cutsTo({ side, headstockEnd }: TaperPart): {
  readonly way: 'headstock' | 'tailstock';
  readonly stop: 'large' | 'small';
} {
  if (side === 'inside') return { way: 'headstock', stop: headstockEnd };
  return { way: headstockEnd === 'large' ? 'headstock' : 'tailstock', stop: 'large' };
}

/** Run before the taper, in millimetres, where nothing stands there: common practice, no source. */
const RUN_MM = 3;

/** A cut up to a diameter at the upper mark. */
function feedTo({ part, unit }: Cutting, { control, depth }: Cut, until: Amount): Feed {
  const deeper = part.side === 'inside' ? 'operator' : 'away-from-operator';
  if (!depth) return { do: 'feed', control, way: deeper, until, at: 'upper-mark' };
  const { way, stop } = cutsTo(part);
  const gaps = (part.shoulders ?? []).filter(({ at }) => at !== stop).map(({ gap }) => gap / 2);
  const before = amount(Math.min(unit === 'mm' ? RUN_MM : RUN_MM / 30, ...gaps), unit);
  return { do: 'feed', control, way, before, depth, deeper, until, at: 'upper-mark' };
}

/** Locks, clamps, eases. */
export function clamp(what: Control, how: Secure['do'] = 'clamp'): Secure {
  return { do: how, what };
}

/** Longest movement that the needle of a small indicator shows, in millimetres: common practice, no source. */
const RANGE_MM = 8;

/** A travel for an indicator: round, no longer than the taper, and within the needle's range for so much a unit. */
export function indicatorTravel({ part, unit }: Pick<Cutting, 'part' | 'unit'>, rate: number): number {
  return roundBelow(Math.min(part.length, RANGE_MM / (unit === 'mm' ? 1 : 25.4) / rate));
}

/** Where the needle sets the guide: over which travel, within half a division, told to a fifth of one. */
export function needleSetting(
  means: Means | null,
): { readonly travel: number; readonly half: number; readonly fifth: number } | null {
  const { travel, resolution } = means?.values ?? {};
  return means?.code !== 'indicator' || !travel || !resolution
    ? null
    : { travel, half: resolution / 2, fifth: fifth(resolution) };
}

/** Whether the needle along a cylinder sets the guide: where the job states how well, it does. */
export function setsByNeedle(means: Means | null): boolean {
  return means?.code === 'indicator' || means?.code === 'stated';
}

/** The check that all motions along the bed share: over a travel t along the axis the needle shows t tan α. */
export function onCylinder(
  { part, slope, unit, needleTolerance }: Cutting,
  onto: string,
  carried: Pick<Indicate, 'on' | 'against' | 'adjust'>,
  means: Means | null = null,
): Step<'indicator'> {
  const set = needleSetting(means);
  const travel = set?.travel ?? indicatorTravel({ part, unit }, slope.tan);
  const half = set?.half ?? (needleTolerance / 2 / part.length) * travel;
  const indicate: Indicate = {
    do: 'indicate',
    control: 'carriage',
    ...carried,
    travel: amount(travel, unit),
    way: smallEndTowards(part.headstockEnd),
    needle: amount(travel * slope.tan, unit, half, set?.fifth),
    sense: 'in',
  };
  return step(STEPS, 'check', 'indicator', { indicate, onto });
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
  const guide = control === 'top-slide' ? control : 'guide-bar';
  const large = part.headstockEnd === 'large';
  const put = (sizes: readonly Amount[], way: Way): Lay => ({
    do: 'lay',
    what: code === 'master' ? code : across ? 'sine-bar-across' : 'sine-bar',
    sizes,
    way,
  });
  const check: Indicate = {
    do: 'indicate',
    on: control === 'top-slide' ? control : 'cross-slide',
    against: code,
    control,
    travel: amount(travel, unit),
    way: smallEndTowards(part.headstockEnd),
    needle: amount(0, unit, still),
    sense: 'still',
    adjust: guide,
  };
  if (code === 'scale' && still > 0) {
    return [
      step(STEPS, 'prepare', 'scale-zero', {
        check: { ...check, against: 'cylinder' },
        zero: { do: 'zero', control: guide, where: 'where the needle stands still' },
      }),
    ];
  }
  if (code === 'master') {
    return [step(STEPS, 'set', 'master', { lay: put([], large ? 'headstock' : 'tailstock'), check })];
  }
  if (code !== 'sine-bar') return [];
  const way: Way = across ? (large ? 'to-axis' : 'from-axis') : large ? 'headstock' : 'tailstock';
  const sizes = [amount(bar, unit), amount(blocks, unit, undefined, FINE[unit])];
  return [step(STEPS, 'set', 'sine-bar', { lay: put(sizes, way), check }, { uses: 'sineBarSettings' })];
}

function trial({ work: { setting } }: PlannedTaper, cutting: Cutting, cut: Cut): Step<'rough'> {
  const { part, unit, leave, trialLength, markDiameter } = cutting;
  const until = amount(markDiameter + (part.side === 'inside' ? -leave : leave), unit, setting.touchOff);
  const stop: Stop = { do: 'stop', control: cut.control, at: `${cutsTo(part).stop}-end` };
  return step(STEPS, 'trial-cut', 'rough', {
    unit,
    stop: cut.depth && stop,
    feed: feedTo(cutting, cut, until),
    leave,
    length: trialLength,
  });
}

function again({ tries, probability, meets }: PlannedTaper, { judging, unit }: Cutting): Step<'again'> {
  const kind = meets ? (tries === 1 ? 'first' : 'corrected') : 'short';
  const promise = sentence(PROMISES, kind, { chance: chance(probability) });
  const repeat: Repeat = { do: 'repeat', from: 'rough', to: 'again' };
  const told = step(STEPS, 'correct', 'again', { unit, repeat, promise, measuring: judging.doubt });
  return { ...told, values: { ...told.values, tries, probability } };
}

function finish({ work }: PlannedTaper, cutting: Cutting, cut: Cut): Shared {
  const { part, unit, slope, per, judging, markDiameter } = cutting;
  const { touchOff } = work.setting;
  const { largeDiameter, length } = part;
  const { markAt, distance, small, difference } = judging;
  // No tolerance of its own: any; none left: measuring can't prove it.
  const limited = (value: number, limit: number): Amount =>
    amount(value, unit, limit === Infinity ? undefined : Math.max(0, limit));
  const measure = (what: string, at: Place, must: Amount): Measure => ({ do: 'measure', what, at, must });
  const advance = per / 2 / slope.tan;
  return [
    step(STEPS, 'finish', 'touch-off', {
      unit,
      touch: { do: 'touch', on: 'upper-mark' },
      feed: feedTo(cutting, cut, amount(markDiameter, unit, touchOff)),
      advance,
      per,
    }),
    step(STEPS, 'finish', 'final-check', {
      unit,
      upper: measure('upper diameter', 'upper-mark', amount(markDiameter, unit, touchOff)),
      lower: measure('lower diameter', 'lower-mark', limited(diameterAtMark(part, slope, markAt), small)),
      difference: {
        ...measure('finished difference', 'upper-mark', limited(2 * distance * slope.tan, difference)),
        less: 'lower-mark',
      },
      largeDiameter,
      smallDiameter: smallDiameterOf(part),
      length,
    }),
    ...rollers(cutting, work.measuring.diameter),
  ];
}

/** Back to where a guide turns cylinders, proved. */
export function backToZero(
  { part, unit }: Cutting,
  { measuring }: PlannedTaper['work'],
  what: 'top-slide' | 'guide-bar',
  zero: Amount,
): Step<'back-to-zero'> {
  return step(STEPS, 'finish', 'back-to-zero', {
    back: { do: 'set', control: what, reading: zero },
    clamp: [clamp(what)],
    prove: {
      do: 'indicate',
      on: what === 'top-slide' ? what : 'cross-slide',
      against: 'cylinder',
      control: what === 'top-slide' ? what : 'carriage',
      travel: amount(roundBelow(part.length), unit),
      way: 'headstock',
      needle: amount(0, unit, measuring.diameter),
      sense: 'still',
      adjust: what,
    },
    what: name(what),
  });
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
  const measure = (...blocks: number[]): Measure => ({
    do: 'measure',
    what: 'over rollers',
    sizes: [roller, ...blocks].map((size) => amount(size, unit)),
    must: amount(over(blocks[0] ?? 0), unit, limit),
  });
  const values = { low: measure(), high: measure(height) };
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
