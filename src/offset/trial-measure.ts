/**
 * How a trial is measured, with the numbers of this part: two diameters; two balls in a bore whose mouth looks
 * outwards, at centres c = (R - r)/sin α apart; a steep side laid level on a sine bar, along which it then falls or
 * rises by what the angle is off. Each tells what its own reading is worth as a difference of the two diameters,
 * 2a tan α over a distance a: for balls -2a tan α sec²α/c for each unit of c, on the sine bar 2a sec²α/t for each unit
 * over a travel t. Lengths in the job's unit.
 */
import { cosDeg } from '../core/trigonometry.js';
import { amount } from '../method/action-words.js';
import type { Blue, Count, Measure } from '../method/actions.js';
import type { Work } from '../method/method.js';
import { roundBelow, type Step, step } from '../method/steps.js';
import type { Slope } from '../taper/taper.js';
import type { Judging } from './judging.js';
import { smallDiameterOf, type TaperPart } from './part.js';
import { FINE, type Judged, type SharedStep, STEPS } from './step-words.js';

interface Trial {
  readonly unit: 'mm' | 'in';
  readonly part: TaperPart;
  readonly slope: Slope;
  readonly judging: Judging;
  readonly leave: number;
  readonly per: number;
}

/** Half angle beyond which flat anvils find no place on a side, in degrees: common practice, no source. */
const STEEP_DEG = 10;

/** The measurement of the trial, and the blue on it. */
export function measureSteps(
  { work }: { readonly work: Pick<Work<TaperPart>, 'measuring'> },
  trial: Trial,
): readonly Step<SharedStep>[] {
  const { part, unit, slope, judging } = trial;
  const { measuring } = work;
  const { distance, share } = judging;
  const inside = part.side === 'inside';
  const common: Judged = {
    unit,
    distance,
    diameterLimit: measuring.diameter,
    distanceLimit: measuring.length,
    proves: judging.proves ? 'yes' : 'no',
    diameterNeeded: share * measuring.diameter,
    distanceNeeded: share * measuring.length,
  };
  const steep = slope.halfAngleDeg > STEEP_DEG;
  const balls = inside ? ballsFor(trial) : undefined;
  const blue: Blue = inside
    ? { do: 'blue', with: 'plug-gauge', atLargeEnd: 'flat', atSmallEnd: 'steep' }
    : { do: 'blue', with: 'ring-gauge', atLargeEnd: 'steep', atSmallEnd: 'flat' };
  const measure = balls
    ? overBalls(common, trial, balls)
    : steep && !inside
      ? onSineBar(common, trial)
      : step(STEPS, 'measure', 'difference', {
          ...common,
          measure: {
            do: 'measure',
            what: 'difference',
            at: 'upper-mark',
            less: 'lower-mark',
            with: steep
              ? 'a projector or on a cast, for on so steep a side nothing sits still'
              : inside
                ? 'a bore gauge, the same edge of its feet at each mark'
                : 'a micrometer, the same edge of its anvils at each mark',
            must: amount(2 * distance * slope.tan, unit, judging.trial),
          },
        });
  return [measure, step(STEPS, 'measure', 'blue', { blue })];
}

/** A reading that counts as a difference too small: by so much for each `per` that it is too large. */
function counted(what: string, per: number, by: number, unit: string): Count {
  return {
    do: 'count',
    measured: what,
    off: 'too-large',
    per: amount(per, unit),
    as: 'difference',
    is: 'too-small',
    by: amount(by, unit, by / 10),
  };
}

/** Sizes that balls come in, in millimetres and inches: common practice, no source. */
const BALL_STEP = { mm: 0.5, in: 1 / 32 } as const;

/** The smallest and the largest ball that touch the trial's bore inside its length and can be reached from its mouth. */
function ballsFor({ part, unit, slope, leave, judging }: Trial): readonly [small: number, large: number] | undefined {
  const { headstockEnd, largeEndAt, workLength, largeDiameter, length } = part;
  if (headstockEnd !== 'small' || largeEndAt < workLength) return undefined;
  // A ball touches where the bore is as wide as its diameter times cos α.
  const size = BALL_STEP[unit];
  const at = (fromSmallEnd: number): number =>
    (largeDiameter - leave - 2 * slope.tan * (length - fromSmallEnd)) / slope.cos / size;
  const small = Math.ceil(at(judging.markAt)) * size;
  const large = Math.floor(at(judging.markAt + judging.distance)) * size;
  return smallDiameterOf(part) > 0 && small > 0 && large > small ? [small, large] : undefined;
}

function overBalls(
  common: Judged,
  { slope: { sin, tan, cos }, unit, judging, per }: Trial,
  [smallBall, largeBall]: readonly [number, number],
): Step<'ball-depths'> {
  const apart = (largeBall - smallBall) / 2 / sin;
  const worth = (2 * common.distance * tan) / cos ** 2 / apart;
  const what = 'depth';
  const measure: Measure = {
    do: 'measure',
    what,
    with: 'two balls, how much deeper the small one lies',
    sizes: [amount(smallBall, unit), amount(largeBall, unit)],
    must: amount(apart + (largeBall - smallBall) / 2, unit, judging.trial / worth),
  };
  // A depth answers the angle far more than a diameter does.
  const count = counted(what, 10 * per, 10 * per * worth, unit);
  return step(STEPS, 'measure', 'ball-depths', { ...common, measure, count }, { uses: 'boreFromTwoBalls' });
}

/** Distance of a sine bar's rollers: common practice, no source. */
const BAR = { mm: 100, in: 5 } as const;

function onSineBar(common: Judged, { slope: { halfAngleDeg, cos }, unit, judging, per }: Trial): Step<'on-sine-bar'> {
  // Beyond 45° a sine bar grows coarse: the work then stands square to it, at the complement.
  const upright = halfAngleDeg > 45;
  const bar = BAR[unit];
  const blocks = bar * cosDeg(upright ? halfAngleDeg : 90 - halfAngleDeg);
  const travel = roundBelow(common.distance / cos);
  const worth = (2 * common.distance) / cos ** 2 / travel;
  const what = 'fall towards the large end';
  const measure: Measure = {
    do: 'measure',
    what,
    with: upright ? 'a sine bar, the axis square to it' : 'a sine bar, the axis along it',
    sizes: [amount(bar, unit), amount(blocks, unit, undefined, FINE[unit]), amount(travel, unit)],
    must: amount(0, unit, judging.trial / worth),
  };
  const count = counted(what, per, per * worth, unit);
  const lies = upright ? 'its axis square to the bar' : 'its axis along the bar';
  return step(STEPS, 'measure', 'on-sine-bar', { ...common, measure, count, lies }, { uses: 'sineBarSettings' });
}
