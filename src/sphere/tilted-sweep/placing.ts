/**
 * Where the tip is placed and what the feeds count from. The place of the sweep that cuts the free end of a ball, or
 * the bottom of a socket, lies at (h sin α - r cos α, h cos α + r sin α) from the sphere's centre: across the work's
 * axis towards the spindle, and along it. All follows from the sphere that the graduations really set. A pole that
 * lay in the raw end face would leave a flat instead of a pip at the trial, so the trial has stock on that face.
 */
import { cosDeg, sinDeg } from '../../core/trigonometry.js';
import type { Control, Provide, Secure, Turn, Way, Withdraw } from '../../method/actions.js';
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
  /** Across the stock. */
  readonly across: number;
  /** Along the work's axis from touching to the finished surface. */
  readonly total: number;
}

type Sweeping = Planned<TiltedSweepMethod>;
type Own = Step<keyof typeof WORDS>;

/** How this part is fed. */
export function feedOf({ shape, ball, leave }: Cutting): Feed {
  const faceStock = ball && shape.fromDeg === 0 ? 2 * leave : 0;
  const along = ball && shape.toDeg > 90 ? 'spindle' : 'work';
  const across = along === 'spindle' ? 2 * (shape.radius + 2 * leave) : shape.toDiameter;
  return { along, faceStock, across, total: ball ? faceStock : depthOf(shape) };
}

/** The movements of the table that a part needs, by how the table stands. */
export interface Moves {
  /** Deeper into the work along its axis, and back. */
  readonly along: Control;
  readonly deeper: Way;
  readonly back: Way;
  /** Square to that: the table's move that brings the tip towards the spindle, and away from it. */
  readonly across: Control;
  readonly towards: Way;
  readonly away: Way;
}

const FLAT: Moves = { along: 'knee', deeper: 'up', back: 'down', across: 'table', towards: 'left', away: 'right' };
const UPRIGHT: Moves = { along: 'table', deeper: 'right', back: 'left', across: 'knee', towards: 'down', away: 'up' };

/** How this table brings the work to the tool. */
export function movesOf({ machine }: Sweeping): Moves {
  return machine.table === 'flat' ? FLAT : UPRIGHT;
}

/** The tip at the place that meets the pole, or lies nearest to it. */
export function atPole({ machine }: Sweeping, { ball }: Cutting): Turn {
  const way = machine.table === 'flat' ? (ball ? 'up' : 'down') : ball ? 'right' : 'left';
  return { do: 'turn', control: 'spindle', way };
}

/** Back along the spindle, before anything else is moved. */
export const DRAW: Withdraw = { do: 'withdraw', control: 'quill', way: 'back' };

/** The stock that the trial needs. */
export function stock({ work }: Sweeping, cutting: Cutting): Own {
  const limit = work.measuring.length;
  const { unit, shape, part } = cutting;
  const { across, faceStock } = feedOf(cutting);
  const given = part.stockDiameter;
  const stated = given === undefined || given >= across ? undefined : { value: given, unit };
  const provide = (what: string, value: number, at?: number): Provide => ({
    do: 'provide',
    what,
    size: { value, unit, limit },
    ...(at !== undefined && { at: { value: at, unit, limit } }),
  });
  const values = { stock: provide('stock', across), stated };
  if (shape.fromDeg === 0) {
    return step(WORDS, 'prepare', 'stock', { ...values, face: provide('face-stock', faceStock) });
  }
  if (shape.part === 'ball-end') return step(WORDS, 'prepare', 'stock-with-flat', values);
  return step(WORDS, 'prepare', 'stock-with-stems', {
    ...values,
    freeStem: provide('free-stem', shape.fromDiameter, shape.fromHeight),
    stem: provide('stem', shape.toDiameter, Math.abs(shape.toHeight)),
  });
}

/** Placing the tip, and zero of the feeds. */
export function placing(planned: Sweeping, cutting: Cutting, { along: fed, total }: Feed): Own {
  const { work, settings } = planned;
  const { unit, part, shape } = cutting;
  const { miss, position } = work.setting;
  const { sweep } = settings.settable;
  const { along, deeper, back, across, towards, away } = movesOf(planned);
  const uses = { uses: 'sweepPosition' };
  const lock = (what: Control): Secure => ({ do: 'lock', what });
  const turn = atPole(planned, cutting);
  const centre = { do: 'zero', control: across, where: 'over-centre', reads: { value: 0, unit, limit: miss } } as const;
  const touch = { do: 'touch', on: 'end-face', control: along, way: deeper } as const;
  const zero = { do: 'zero', control: 'quill', where: 'touching', reads: { value: 0, unit } } as const;
  const locks = { lock: lock(across), lockHeight: lock(along) };
  if (shape.fromDeg === 0 && fed === 'spindle') {
    const by = { value: total, unit, limit: position };
    const move = { do: 'move', control: along, by, way: deeper } as const;
    const values = { turn, centre, touch, zero, draw: DRAW, deeper: move, ...locks };
    return step(WORDS, 'set', 'place-for-spindle-feed', values, uses);
  }
  if (shape.fromDeg === 0) {
    const values = {
      lockFeed: lock('quill'),
      turn,
      centre,
      lock: lock(across),
      touch,
      zero: { ...zero, control: along },
      draw: { do: 'withdraw', control: along, way: back },
    } as const;
    return step(WORDS, 'set', 'place-for-work-feed', values, uses);
  }
  const { feedFromTouch } = sweepPosition({ target: part.target, sweep });
  const { tiltDeg, sweepRadius, distance, noseRadius = 0 } = sweep;
  // The nose's centre at the free end, from the work's axis.
  const place = distance * sinDeg(tiltDeg) - sweepRadius * cosDeg(tiltDeg);
  if (shape.part === 'ball-end') {
    const by = { value: Math.abs(feedFromTouch), unit, limit: position };
    const further = { do: 'move', control: along, by, way: feedFromTouch > 0 ? deeper : back } as const;
    const values = {
      turn,
      centre,
      clear: { do: 'withdraw', control: along, way: back },
      across: { do: 'move', control: across, by: { value: place, unit, limit: miss }, way: towards },
      touch,
      zero,
      draw: DRAW,
      ...(by.value >= position / 10 && { further }),
      ...locks,
    } as const;
    return step(WORDS, 'set', 'place-at-flat', values, uses);
  }
  const short = (place - noseRadius - shape.fromDiameter / 2) / sinDeg(tiltDeg);
  // Heights over the shoulder where the free stem begins.
  const over = -feedFromTouch - short * cosDeg(tiltDeg);
  const size = { value: Math.abs(short), unit, limit: miss };
  const exact = Math.abs(short) < miss / 10;
  const values = {
    turn,
    shoulder: { do: 'touch', on: 'shoulder', control: along, way: deeper },
    along: {
      do: 'move',
      control: along,
      by: { value: Math.abs(over), unit, limit: position },
      way: over > 0 ? back : deeper,
    },
    stem: {
      do: 'touch',
      on: 'free-stem',
      control: across,
      way: away,
      within: { value: 0, unit, limit: miss },
    },
    ...(!exact && short > 0 && { back: { do: 'move', control: 'quill', by: size, way: 'back' } as const }),
    zero: !exact && short < 0 ? { ...zero, reads: size } : zero,
    draw: DRAW,
    ...locks,
  } as const;
  return step(WORDS, 'set', 'place-at-stem', values, uses);
}
