/**
 * Where the tip is placed and what the feeds count from. The place of the sweep that cuts the free end of a ball, or
 * the bottom of a socket, lies at (h sin α - r cos α, h cos α + r sin α) from the sphere's centre: across the work's
 * axis towards the spindle, and along it. All follows from the sphere that the graduations really set. A pole that
 * lay in the raw end face would leave a flat instead of a pip at the trial, so the trial has stock on that face.
 */
import { cosDeg, sinDeg } from '../../core/trigonometry.js';
import type { Planned } from '../../method/method.js';
import { type Step, step } from '../../method/steps.js';
import { type Cutting, depthOf } from '../sphere-steps.js';
import type { TiltedSweepMethod } from './method.js';
import { sweepPosition } from './position.js';
import { WORDS } from './words.js';

/** What the trial and the finish are fed by. */
export interface Feed {
  /** Past its widest place a ball is fed along the spindle, all else along the work's axis. */
  readonly along: 'spindle' | 'work';
  /** Stock on the end face, beyond the finished pole. */
  readonly faceStock: number;
  /** Along the work's axis from touching to the finished surface. */
  readonly total: number;
}

type Sweeping = Planned<TiltedSweepMethod>;
type Own = Step<keyof typeof WORDS>;

/** How this part is fed. */
export function feedOf({ shape, ball, leave }: Cutting): Feed {
  const faceStock = ball && shape.fromDeg === 0 ? 2 * leave : 0;
  return { along: ball && shape.toDeg > 90 ? 'spindle' : 'work', faceStock, total: ball ? faceStock : depthOf(shape) };
}

/** The stock that the trial needs. */
export function stock({ work }: Sweeping, cutting: Cutting): Own {
  const limit = work.measuring.length;
  const { unit, shape, part, leave } = cutting;
  const { along, faceStock } = feedOf(cutting);
  const across = along === 'spindle' ? 2 * (shape.radius + 2 * leave) : shape.toDiameter;
  const given = part.stockDiameter;
  const stated = given === undefined || given >= across ? undefined : given;
  const { fromDiameter, fromHeight, toDiameter, toHeight } = shape;
  if (shape.fromDeg === 0) return step(WORDS, 'prepare', 'stock', { unit, across, faceStock, limit, stated });
  return shape.part === 'ball-end'
    ? step(WORDS, 'prepare', 'stock-with-flat', { unit, across, limit, stated })
    : step(WORDS, 'prepare', 'stock-with-stems', {
        unit,
        across,
        limit,
        stated,
        freeStem: fromDiameter,
        stem: toDiameter,
        fromHeight,
        toHeight: Math.abs(toHeight),
      });
}

/** Placing the tip, and zero of the feeds. */
export function placing({ work, machine, settings }: Sweeping, cutting: Cutting, { along, total }: Feed): Own {
  const { unit, part, shape, ball } = cutting;
  const { table } = machine;
  const { miss, position } = work.setting;
  const { sweep } = settings.settable;
  const uses = { uses: 'sweepPosition' };
  if (shape.fromDeg === 0) {
    // The pole lies on the work's axis: of all the sweep it is highest or lowest.
    const side = ball ? 'ball' : 'socket';
    return along === 'spindle'
      ? step(WORDS, 'set', 'place-for-spindle-feed', { unit, side, table, total, miss, position }, uses)
      : step(WORDS, 'set', 'place-for-work-feed', { unit, side, table, total, miss, position }, uses);
  }
  const { tipFromCentre, feedFromTouch } = sweepPosition({ target: part.target, sweep });
  if (shape.part === 'ball-end') {
    const values = { unit, table, across: tipFromCentre, further: feedFromTouch, miss, position };
    return step(WORDS, 'set', 'place-at-flat', values, uses);
  }
  const back = (tipFromCentre - shape.fromDiameter / 2) / sinDeg(sweep.tiltDeg);
  const fromCentre = shape.fromHeight - feedFromTouch - back * cosDeg(sweep.tiltDeg);
  return step(WORDS, 'set', 'place-at-stem', { unit, fromCentre, back, miss, position }, uses);
}
