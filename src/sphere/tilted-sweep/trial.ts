/**
 * The trial cut of a tilted sweep, what it must measure and what is changed then. A ball fed along the spindle stops
 * short of the centre by design: the sweep is `left` from its place, so its tip is left · sin α from the work's axis
 * and a pip of twice that stands. Only what differs from it is corrected.
 */
import { sinDeg } from '../../core/trigonometry.js';
import type { Planned } from '../../method/method.js';
import { type Step, step } from '../../method/steps.js';
import { type Cutting, depthOf } from '../sphere-steps.js';
import { sweepCorrection } from './correction.js';
import type { TiltedSweepMethod } from './method.js';
import type { Feed } from './placing.js';
import { socketTiltCorrection } from './socket-tilt.js';
import { WORDS } from './words.js';

type Sweeping = Planned<TiltedSweepMethod>;
type Own = readonly Step<keyof typeof WORDS>[];

/** From the trial cut to the last feed. */
export function trial(planned: Sweeping, cutting: Cutting, feed: Feed): Own {
  return feed.along === 'spindle' ? alongSpindle(planned, cutting) : alongWork(planned, cutting, feed);
}

function alongSpindle({ work, machine, settings: { settable } }: Sweeping, cutting: Cutting): Own {
  const { part, shape, unit, per, leave } = cutting;
  const { sweep } = settable;
  const { sweepRadius: r, distance, tiltDeg } = sweep;
  const { diameter: diameterLimit } = work.measuring;
  const left = leg(settable.radius + leave, r) - distance;
  /** What the trial measures if the finished radius would be so large. */
  const trialOf = (radius: number): number => 2 * Math.hypot(r, leg(radius, r) + left);
  const diameter = trialOf(shape.radius);
  const { sweepRadiusChange, distanceChange } = sweepCorrection({
    target: part.target,
    sweep,
    measuredDiameter: 2 * (shape.radius + per),
  });
  const perDiameter = trialOf(shape.radius + per) - diameter;
  const bySize = { unit, diameter, perDiameter, sweepRadiusChange, distanceChange };
  const rough = { unit, left, leave, diameter: 2 * (settable.radius + leave), limit: diameterLimit, per };
  return [
    step(WORDS, 'trial-cut', 'rough-along-spindle', rough),
    ...measured(),
    step(WORDS, 'correct', 'sweep-and-distance', bySize, { uses: 'sweepCorrection' }),
    ...atFreeEnd(),
    step(WORDS, 'finish', 'feed-along-spindle', {}),
  ];

  function measured(): Own {
    if (shape.fromDeg === 0) {
      return [
        step(WORDS, 'measure', 'size-and-pip', { unit, diameter, pip: pip(), diameterLimit, table: machine.table }),
      ];
    }
    if (shape.part !== 'ball-end') return [step(WORDS, 'measure', 'size', { unit, diameter, diameterLimit })];
    return [step(WORDS, 'measure', 'size-and-flat', { unit, diameter, flat: flat(), diameterLimit })];
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
      const values = {
        unit,
        per,
        pip: pip(),
        limit: diameterLimit,
        sweepRadiusChange: wider.sweepRadiusChange - as.sweepRadiusChange,
        distanceChange: wider.distanceChange - as.distanceChange,
      };
      return [step(WORDS, 'correct', 'pip', values, { uses: 'sweepCorrection' })];
    }
    if (shape.part !== 'ball-end') return [];
    // Of R² = H² + f²/4 with R kept: dH = -f df / (4 H).
    const deeper = (flat() * per) / (4 * shape.fromHeight);
    return [
      step(WORDS, 'correct', 'flat', { unit, per, flat: flat(), limit: diameterLimit, deeper, table: machine.table }),
    ];
  }

  /** Diameter of the pip that stands at the trial by design. */
  function pip(): number {
    return 2 * left * sinDeg(tiltDeg);
  }

  /** Diameter that the trial leaves of the end face. */
  function flat(): number {
    return 2 * leg(diameter / 2, shape.fromHeight);
  }
}

/** The other leg; 0 for a sweep that graduations make a little too large. */
function leg(hypotenuse: number, other: number): number {
  return Math.sqrt(Math.max(0, (hypotenuse - other) * (hypotenuse + other)));
}

/** Change of tilt, in minutes, that can still be set by indicator: rates are told for at least so much. */
const LEAST_TILT_CHANGE = 0.1;

function alongWork({ work, machine, settings }: Sweeping, cutting: Cutting, { total }: Feed): Own {
  const { settable } = settings;
  const { shape, ball, unit, leave } = cutting;
  const { table } = machine;
  const { diameter: diameterLimit, length: depthLimit } = work.measuring;
  const whole = depthOf(shape);
  // A dome is whole at the trial, with stock left beyond its pole; a socket is not yet as deep.
  const depth = ball ? whole : whole - leave;
  const chord = (size: number): number => 2 * Math.sqrt(depth * (2 * size - depth));
  const tiltChange = (per: number): number =>
    socketTiltCorrection({
      radius: shape.radius,
      sweepRadius: settable.sweep.sweepRadius,
      openingDiameter: chord(shape.radius + per),
      depth,
    }).tiltChangeDeg;
  let { per } = cutting;
  while (60 * Math.abs(tiltChange(per)) < LEAST_TILT_CHANGE && per < shape.radius / 20) per *= 10;
  const tiltChangeDeg = tiltChange(per);
  // The axes' angle is the reading with the table flat, what the reading lacks of 90° with it upright.
  const growing = table === 'flat' ? tiltChangeDeg : -tiltChangeDeg;
  const side = ball ? 'ball' : 'socket';
  return [
    step(WORDS, 'trial-cut', 'rough-along-work', { unit, table, fed: total - leave, leave, limit: depthLimit }),
    step(WORDS, 'measure', 'size-and-depth', {
      unit,
      side,
      depth,
      diameter: chord(settable.radius),
      diameterLimit,
      depthLimit,
    }),
    step(WORDS, 'correct', 'pip-either-way', { side, table }),
    step(
      WORDS,
      'correct',
      'tilt-again',
      {
        unit,
        per,
        radius: shape.radius,
        limit: diameterLimit,
        tiltChangeDeg,
        towards: growing > 0 ? 'away from' : 'towards',
      },
      { uses: 'socketTiltCorrection' },
    ),
    step(WORDS, 'finish', 'feed-along-work', { unit, table, total, limit: depthLimit }),
  ];
}
