/**
 * The trial cut of a tilted sweep, what it must measure and what is changed then. A ball fed along the spindle stops
 * short of the centre by design: the sweep is `left` from its place, so its tip is left · sin α from the work's axis
 * and a pip of twice that stands. Only what differs from it is corrected.
 */
import { perMovement } from '../../core/dial.js';
import { GeneratrixError } from '../../core/errors.js';
import { asinDeg, sinDeg } from '../../core/trigonometry.js';
import { rate } from '../../method/action-words.js';
import type { Amount, Correct, Feed as Fed, Measure, Secure } from '../../method/actions.js';
import type { Planned } from '../../method/method.js';
import { type Step, step } from '../../method/steps.js';
import { type Cutting, depthOf } from '../sphere-steps.js';
import { sweepCorrection } from './correction.js';
import { type SphereInfeedOptions, sphereInfeed } from './infeed.js';
import type { TiltedSweepMethod } from './method.js';
import { atPole, DRAW, type Feed, movesOf } from './placing.js';
import { type Changes, WORDS } from './words.js';

type Sweeping = Planned<TiltedSweepMethod>;
type Own = readonly Step<keyof typeof WORDS>[];

/** Fed at a time, in millimetres: common practice, no source. */
const EACH_MM = 0.5;

/** A change so much smaller than the one beside it can neither be set nor seen. */
const NEGLIGIBLE = 1e-3;

/** From the trial cut to the last feed. */
export function trial(planned: Sweeping, cutting: Cutting, feed: Feed): Own {
  return feed.along === 'spindle' ? alongSpindle(planned, cutting, feed) : alongWork(planned, cutting, feed);
}

function lengths(unit: string): (value: number, limit?: number) => Amount {
  return (value, limit) => (limit === undefined ? { value, unit } : { value, unit, limit });
}

function alongSpindle(planned: Sweeping, cutting: Cutting, { across, faceStock }: Feed): Own {
  const { work, machine, settings } = planned;
  const { settable } = settings;
  const { part, shape, unit, per, leave } = cutting;
  const { sweep } = settable;
  const { sweepRadius: r, distance, tiltDeg } = sweep;
  const { diameter: doubt } = work.measuring;
  const length = lengths(unit);
  const times = perMovement(machine.boringHead.dial.reads);
  const nose = sweep.noseRadius ?? 0;
  const left = leg(Math.hypot(r, distance) + leave, r) - distance;
  /** What the trial measures if the finished radius would be so large. */
  const trialOf = (radius: number): number => 2 * (Math.hypot(r, leg(radius + nose, r) + left) - nose);
  const diameter = trialOf(shape.radius);
  const { sweepRadiusChange, distanceChange } = sweepCorrection({
    target: part.target,
    sweep,
    measuredDiameter: 2 * (shape.radius + per),
  });
  const perDiameter = trialOf(shape.radius + per) - diameter;
  const first = firstContact({
    target: part.target,
    sweep,
    feed: 'spindle',
    stockDiameter: Math.max(across, part.stockDiameter ?? 0),
    stockEndHeight: shape.fromHeight + faceStock,
    passes: 1,
  });
  const measured: Measure = { do: 'measure', what: 'diameter', must: length(diameter, doubt) };
  const feed: Fed = {
    do: 'feed',
    control: 'quill',
    way: 'forward',
    ...(first !== undefined && { from: length(first, work.measuring.length) }),
    each: length(unit === 'mm' ? EACH_MM : EACH_MM / 25),
    to: length(left, per),
  };
  const bySize = changes('diameter', rate(perDiameter, unit), times * sweepRadiusChange, distanceChange, unit);
  return [
    step(WORDS, 'trial-cut', 'rough-along-spindle', { feed }),
    ...measuring(),
    step(WORDS, 'correct', 'sweep-and-distance', { draw: DRAW, ...bySize }, { uses: 'sweepCorrection' }),
    ...atFreeEnd(),
    step(WORDS, 'finish', 'feed-along-spindle', {
      feed: { do: 'feed', control: 'quill', way: 'forward', to: length(0) },
    }),
  ];

  function measuring(): Own {
    if (shape.fromDeg === 0) {
      const way = machine.table === 'flat' ? 'right' : 'up';
      const stands: Measure = { do: 'measure', what: 'pip', at: 'free-end', must: length(pip(), doubt), way };
      return [step(WORDS, 'measure', 'size-and-pip', { diameter: measured, pip: stands })];
    }
    if (shape.part !== 'ball-end') return [step(WORDS, 'measure', 'size', { diameter: measured })];
    const stands: Measure = { do: 'measure', what: 'flat', at: 'free-end', must: length(flat(), doubt) };
    return [step(WORDS, 'measure', 'size-and-flat', { diameter: measured, flat: stands })];
  }

  function atFreeEnd(): Own {
    if (shape.fromDeg === 0) {
      const change = (more: number): ReturnType<typeof sweepCorrection> =>
        sweepCorrection({
          target: part.target,
          sweep,
          measuredDiameter: diameter,
          pip: { diameter: pip() + more, state: 'not-reached' },
        });
      const [as, wider] = [change(0), change(per)];
      const [radius, further] = [
        wider.sweepRadiusChange - as.sweepRadiusChange,
        wider.distanceChange - as.distanceChange,
      ];
      const byPip = changes('pip', length(per), times * radius, further, unit);
      return [step(WORDS, 'correct', 'pip', { draw: DRAW, ...byPip }, { uses: 'sweepCorrection' })];
    }
    if (shape.part !== 'ball-end') return [];
    const { along, deeper: way } = movesOf(planned);
    // Of R² = H² + f²/4 with R kept: dH = -f df / (4 H).
    const deeper: Correct = {
      do: 'correct',
      measured: 'flat',
      off: 'too-large',
      per: length(per),
      control: along,
      by: rate((flat() * per) / (4 * shape.fromHeight), unit),
      way,
    };
    const { unlock, lock } = around(along);
    return [step(WORDS, 'correct', 'flat', { draw: DRAW, unlock, deeper, lock })];
  }

  /** Diameter of the pip that stands at the trial by design. */
  function pip(): number {
    // The nose touches the trial on the line to its centre.
    return 2 * left * sinDeg(tiltDeg) * (diameter / (diameter + 2 * nose));
  }

  /** Diameter that the trial leaves of the end face. */
  function flat(): number {
    return 2 * leg(diameter / 2, shape.fromHeight);
  }
}

function around(what: Secure['what']): { readonly unlock: Secure; readonly lock: Secure } {
  return { unlock: { do: 'unlock', what }, lock: { do: 'lock', what } };
}

/** Changes of the sweep, as its dial tells it, and of the end of the feed along the spindle, for each `per` that something is too large. */
function changes(measured: string, per: Amount, sweep: number, distance: number, unit: string): Changes {
  const { unlock, lock } = around('boring-head');
  const correct = (control: 'boring-head' | 'quill', change: number): Correct => ({
    do: 'correct',
    measured,
    off: 'too-large',
    per,
    control,
    by: rate(change, unit),
    way: control === 'quill' ? (change > 0 ? 'back' : 'forward') : change > 0 ? 'open' : 'close',
  });
  const [sweeps, feeds] = [Math.abs(sweep), Math.abs(distance)];
  return {
    ...(sweeps >= NEGLIGIBLE * feeds && { unlock, sweep: correct('boring-head', sweep), lock }),
    ...(feeds >= NEGLIGIBLE * sweeps && { feed: correct('quill', distance) }),
  };
}

/** What is left to feed where the tool first meets the stock; nothing is said of what cannot be reckoned. */
function firstContact(options: SphereInfeedOptions): number | undefined {
  try {
    return sphereInfeed(options).firstContact.distance;
  } catch (error) {
    if (error instanceof GeneratrixError) return undefined;
    throw error;
  }
}

/** The other leg; 0 for a sweep that graduations make a little too large. */
function leg(hypotenuse: number, other: number): number {
  return Math.sqrt(Math.max(0, (hypotenuse - other) * (hypotenuse + other)));
}

/** Change of tilt, in minutes, that can still be set by indicator: rates are told for at least so much. */
const LEAST_TILT_CHANGE = 0.1;

function alongWork(planned: Sweeping, cutting: Cutting, { total }: Feed): Own {
  const { work, machine, settings } = planned;
  const { settable } = settings;
  const { shape, ball, unit, leave } = cutting;
  const { diameter: doubt, length: depthDoubt } = work.measuring;
  const { along, deeper, back, across, away } = movesOf(planned);
  const length = lengths(unit);
  const whole = depthOf(shape);
  // A dome is whole at the trial, with stock left beyond its pole; a socket is not yet as deep.
  const depth = ball ? whole : whole - leave;
  const chord = (size: number): number => 2 * Math.sqrt(depth * (2 * size - depth));
  // As socket-tilt.ts has it, the nose outside a dome and inside a socket.
  const { sweepRadius, noseRadius = 0 } = settable.sweep;
  const tiltOf = (radius: number): number => asinDeg(sweepRadius / (radius + (ball ? noseRadius : -noseRadius)));
  const tiltChange = (more: number): number => tiltOf(shape.radius) - tiltOf(shape.radius + more);
  let { per } = cutting;
  while (60 * Math.abs(tiltChange(per)) < LEAST_TILT_CHANGE && per < shape.radius / 20) per *= 10;
  // The axes' angle is the reading with the table flat, what the reading lacks of 90° with it upright.
  const change = (machine.table === 'flat' ? 1 : -1) * tiltChange(per);
  // What doubts of chord and depth do to the radius.
  const opening = chord(settable.radius);
  const slope = opening / 2 / depth;
  const radiusDoubt = (slope / 2) * doubt + Math.abs((1 - slope * slope) / 2) * depthDoubt;
  const draw = { do: 'withdraw', control: along, way: back } as const;
  const fed = (to: number): Fed => ({
    do: 'feed',
    control: along,
    way: deeper,
    each: length(unit === 'mm' ? EACH_MM : EACH_MM / 25),
    to: length(to, depthDoubt),
  });
  const size = ball ? 'base' : 'opening';
  return [
    step(WORDS, 'trial-cut', 'rough-along-work', { feed: fed(total - leave) }),
    step(WORDS, 'measure', 'size-and-depth', {
      depth: { do: 'measure', what: ball ? 'height' : 'depth', must: length(depth, depthDoubt) },
      diameter: { do: 'measure', what: size, must: length(opening, doubt) },
      radius: { do: 'reckon', what: 'radius', rule: 'chord-and-height', must: length(shape.radius, radiusDoubt) },
      pip: { do: 'measure', what: 'pip', at: ball ? 'free-end' : 'bottom', must: length(0, doubt) },
    }),
    step(WORDS, 'correct', 'pip-either-way', {
      turn: atPole(planned, cutting),
      draw,
      unlock: { do: 'unlock', what: across },
      across: {
        do: 'correct',
        measured: 'pip',
        off: 'too-large',
        per: length(1),
        control: across,
        by: length(0.5),
        way: away,
      },
      lock: { do: 'lock', what: across },
    }),
    step(
      WORDS,
      'correct',
      'tilt-again',
      {
        draw,
        unlock: { do: 'unlock', what: 'head' },
        tilt: {
          do: 'correct',
          measured: 'radius',
          off: 'too-large',
          per: length(per),
          control: 'head',
          by: rate(60 * change, 'minutes of arc'),
          way: change > 0 ? 'clockwise' : 'anticlockwise',
        },
        lock: { do: 'lock', what: 'head' },
        free: { do: 'unlock', what: across },
        again: { do: 'repeat', from: 'place-for-work-feed', to: 'place-for-work-feed' },
      },
      { uses: 'socketTiltCorrection' },
    ),
    step(WORDS, 'finish', 'feed-along-work', { feed: fed(total) }),
  ];
}
