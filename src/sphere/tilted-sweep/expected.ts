/** What to expect of a sphere cut by a tilted sweep: what its settings and the stated limits make of all that is judged. */
import { intervalEnds } from '../../budget/coverage.js';
import { sinDeg, toRadians } from '../../core/trigonometry.js';
import { type Expected, type Limited, simulated } from '../../method/expect.js';
import { type Cuts, error, evenly, gaugeFor, measured, sphereExpectations } from '../expected.js';
import { type SphereWork, shapeOf } from '../part.js';
import { skewFormModel } from '../radius-models.js';
import { leaveOf } from '../sphere-steps.js';
import { type AgainInput, type Cut, correctedCut, type FirstInput, firstCut, type SweptQuantity } from './judged.js';
import { sweepPosition } from './position.js';
import type { SweepSettings } from './settings.js';

/** What the ends of each part are judged by. */
const FREE = { 'ball-between-stems': 'free-stem', 'ball-end': 'flat' } as const;
const FAR = { cap: 'base', socket: 'opening' } as const;

export function sweptExpectations(work: SphereWork, settings: SweepSettings): Expected {
  const { coverage, trials, setting, measuring } = work;
  const shape = shapeOf(work);
  const { part, side } = shape;
  const start = cutOf(work, settings);
  const { sweepRadius, distance } = settings.settable.sweep;
  const { headTiltDeg, miss, position, resettingFraction: again, skew } = setting;
  const first: Limited<FirstInput> = {
    tiltDeg: { value: settings.settable.sweep.tiltDeg, plusMinus: headTiltDeg },
    sweepRadius: { value: sweepRadius, plusMinus: setting.sweepRadius },
    miss: error(miss),
    position: error(position),
    skewSize: evenly(skew),
  };
  const bySize = start.by === 'size';
  const radii = simulated({ model: firstCut(start, 'radius'), inputs: first }, { coverage, trials });
  const [low, high] = intervalEnds(radii, coverage, 'symmetric');
  // The trial is larger by what the sheet leaves.
  const leave = leaveOf(work, Math.max(Math.abs(low - shape.radius), Math.abs(high - shape.radius)));
  const cut = {
    ...start,
    left: leg(start.path + leave, sweepRadius) - distance,
    flat: { height: start.flat.height, trial: leg(shape.radius + leave, start.flat.height) },
  };
  const corrected: Limited<AgainInput> = {
    ...first,
    ...measured(work),
    measuredEnd: error(measuring.diameter),
    tiltAgainDeg: error(headTiltDeg * again),
    sweepAgain: error(setting.sweepRadius * again),
    distanceAgain: error(part === 'ball-on-stem' ? 0 : position * again),
    // A change along the spindle is a change by a little; a tip placed anew is placed as well as at first.
    missAgain: error(bySize ? miss * again : miss),
    positionAgain: error(bySize ? position * again : position),
  };
  const cuts = (quantity: SweptQuantity): Cuts => {
    const run = { model: firstCut(cut, quantity), inputs: first };
    const values = quantity === 'radius' ? radii : simulated(run, { coverage, trials });
    return {
      // A budget is linear: where the quantity is not, it has a model of its own.
      first: { model: firstCut(cut, quantity, true), inputs: first, values },
      corrected: { model: correctedCut(cut, quantity), inputs: corrected },
    };
  };
  const form = {
    model: skewFormModel(side),
    inputs: {
      sweepRadius: first.sweepRadius,
      distance: { value: distance, plusMinus: 0 },
      skewSize: first.skewSize,
    },
  };
  const free = part in FREE ? { freeEnd: cuts(FREE[part as keyof typeof FREE]) } : { pip: cuts('pip') };
  return sphereExpectations(work, {
    radius: cuts('radius'),
    form: { first: form, corrected: form },
    ...free,
    farEnd: cuts(part in FAR ? FAR[part as keyof typeof FAR] : 'stem'),
  });
}

/** What is known of the cut beside its settings. */
function cutOf(work: SphereWork, { sweep: exact, settable }: SweepSettings): Cut {
  const shape = shapeOf(work);
  const { part, side, radius, fromDeg, fromHeight, toDeg } = shape;
  const { sweep } = settable;
  const { tiltDeg, sweepRadius: set, distance, noseRadius = 0 } = sweep;
  const by = side === 'ball' && toDeg > 90 ? 'size' : 'tilt';
  const path = Math.hypot(exact.sweepRadius, exact.distance);
  const high = Math.max(fromHeight, radius / 100);
  return {
    side,
    part,
    noseRadius,
    set,
    path,
    place: fromDeg === 0 ? 0 : distance * sinDeg(tiltDeg) - set * Math.cos(toRadians(tiltDeg)),
    face:
      side === 'ball' ? sweepPosition({ target: work.part.target, sweep }).feedFromTouch : shape.toHeight - fromHeight,
    left: 0,
    flat: { height: high, trial: leg(radius, high) },
    across: gaugeFor(work).atDeg === 90,
    by,
  };
}

/** The other leg of a right triangle; 0 where there is none. */
function leg(hypotenuse: number, other: number): number {
  return Math.sqrt(Math.max(0, (hypotenuse - other) * (hypotenuse + other)));
}
