/**
 * How a trial is measured, with the numbers of this part: two diameters; two balls in a bore whose mouth looks
 * outwards, at centres c = (R - r)/sin α apart; a steep side laid level on a sine bar, along which it then falls or
 * rises by what the angle is off. Each tells what its own reading is worth as a difference of the two diameters,
 * 2a tan α over a distance a: for balls -2a tan α sec²α/c for each unit of c, on the sine bar 2a sec²α/t for each unit
 * over a travel t. Lengths in the job's unit.
 */
import { cosDeg } from '../core/trigonometry.js';
import type { Work } from '../method/method.js';
import { roundBelow, type Step, step } from '../method/steps.js';
import type { Slope } from '../taper/taper.js';
import type { Judging } from './judging.js';
import { smallDiameterOf, type TaperPart } from './part.js';
import { type Measuring, type SharedStep, STEPS } from './step-words.js';

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
  const { part, unit, slope, judging, per } = trial;
  const { measuring } = work;
  const { distance, share } = judging;
  const inside = part.side === 'inside' ? 'yes' : 'no';
  const common: Measuring = {
    unit,
    distance,
    difference: 2 * distance * slope.tan,
    limit: judging.trial,
    diameterLimit: measuring.diameter,
    distanceLimit: measuring.length,
    per,
    proves: judging.proves ? 'yes' : 'no',
    diameterNeeded: share * measuring.diameter,
    distanceNeeded: share * measuring.length,
  };
  const steep = slope.halfAngleDeg > STEEP_DEG;
  const balls = inside === 'yes' ? ballsFor(trial) : undefined;
  const measure = balls
    ? overBalls(common, slope, balls)
    : steep && inside === 'no'
      ? onSineBar(common, slope)
      : step(STEPS, 'measure', 'difference', { ...common, inside, steep: steep ? 'yes' : 'no' });
  return [measure, step(STEPS, 'measure', 'blue', { inside })];
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
  common: Measuring,
  { sin, tan, cos }: Slope,
  [smallBall, largeBall]: readonly [number, number],
): Step<'ball-depths'> {
  const apart = (largeBall - smallBall) / 2 / sin;
  const worth = (2 * common.distance * tan) / cos ** 2 / apart;
  return step(
    STEPS,
    'measure',
    'ball-depths',
    {
      ...common,
      smallBall,
      largeBall,
      depth: apart + (largeBall - smallBall) / 2,
      depthLimit: common.limit / worth,
      // A depth answers the angle far more than a diameter does.
      deeper: 10 * common.per,
      counts: 10 * common.per * worth,
    },
    { uses: 'boreFromTwoBalls' },
  );
}

/** Distance of a sine bar's rollers: common practice, no source. */
const BAR = { mm: 100, in: 5 } as const;

function onSineBar(common: Measuring, { halfAngleDeg, cos }: Slope): Step<'on-sine-bar'> {
  // Beyond 45° a sine bar grows coarse: the work then stands square to it, at the complement.
  const upright = halfAngleDeg > 45;
  const bar = BAR[common.unit];
  const blocks = bar * cosDeg(upright ? halfAngleDeg : 90 - halfAngleDeg);
  const travel = roundBelow(common.distance / cos);
  const worth = (2 * common.distance) / cos ** 2 / travel;
  return step(
    STEPS,
    'measure',
    'on-sine-bar',
    {
      ...common,
      bar,
      blocks,
      upright: upright ? 'yes' : 'no',
      travel,
      fall: common.limit / worth,
      counts: common.per * worth,
    },
    { uses: 'sineBarSettings' },
  );
}
