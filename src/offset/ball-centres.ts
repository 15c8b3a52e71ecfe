/**
 * Work between balls, set over by a boring head in the tailstock: the balls' centres are the points
 * about which the work turns, so the distance that counts is known exactly, and the work can tilt until
 * it touches what holds a ball. Lengths in any one unit, set-overs on the radius.
 */
import { options, positive } from '../core/checks.js';
import { refuse } from '../core/errors.js';
import type { Note } from '../core/notes.js';
import { readTaper, type Taper } from '../taper/taper.js';
import { type BallSeat, HOLE, readSeat } from './ball-seat.js';
import {
  cutSetOver,
  MACHINE,
  type SetoverCut,
  type SetoverErrors,
  type SetoverMachine,
  type SetoverSettings,
  SURFACE,
  setOver,
} from './setover.js';
import {
  CORRECTION,
  type SetoverCorrection,
  type SetoverCorrectionOptions,
  setoverCorrection,
} from './setover-correction.js';
import { type BallHolder, type TiltLimit, tiltLimit } from './tilt-limit.js';
import type { SizedEnd } from './tool-height.js';

/** One end of work between balls. */
export interface BallCentreEnd {
  /** Diameter of the ball. */
  readonly ballDiameter: number;
  /** Diameter of the centre hole's cone at the end face; may be left out where the length is measured over the balls. */
  readonly mouthDiameter?: number;
  /** Included angle of the centre hole, degrees; 60 if left out. */
  readonly holeAngleDeg?: number;
  /** Diameter of the pilot hole beyond the cone; none if left out. */
  readonly pilotDiameter?: number;
  /** Depth of the hole's bottom below the end face; unlimited if left out. */
  readonly depth?: number;
  /** What holds the ball; needs the hole and `faceDiameter`. */
  readonly holder?: BallHolder;
  /** Diameter of the work's end face; only the tilt limit needs it. */
  readonly faceDiameter?: number;
}

/** The work's length, stated in either way, and its two ends. */
export type BetweenBalls = {
  /** The end whose ball is held in the headstock. */
  readonly headstock: BallCentreEnd;
  /** The end whose ball is held in the boring head. */
  readonly tailstock: BallCentreEnd;
} & (
  | {
      /** Length of the work from end face to end face. */
      readonly faceLength: number;
      /** Not both. */
      readonly lengthOverBalls?: never;
    }
  | {
      /** Length measured over both balls in their holes. */
      readonly lengthOverBalls: number;
      /** Not both. */
      readonly faceLength?: never;
    }
);

/** Where the balls' centres are. */
export interface BallCentreDistance {
  /** Distance of the balls' centres along the work. */
  readonly centreDistance: number;
  /** How the headstock's ball sits, if its hole is stated. */
  readonly headstockSeat?: BallSeat;
  /** How the tailstock's ball sits, if its hole is stated. */
  readonly tailstockSeat?: BallSeat;
}

const BETWEEN = ['headstock', 'tailstock'] as const;
const LENGTHS = ['faceLength', 'lengthOverBalls'] as const;

/**
 * The distance of the centres of two balls in the centre holes of a piece of work: its length between
 * the end faces and how far each ball's centre stands out, or the length over the balls less half of each.
 *
 * @throws GeneratrixError `contradiction` unless the length is stated in exactly one way; what
 * `ballSeat` throws.
 *
 * @example
 * ```ts
 * import { ballCentreDistance } from 'generatrix';
 * const end = { ballDiameter: 10, mouthDiameter: 8 };
 * ballCentreDistance({ faceLength: 150, headstock: end, tailstock: end }).centreDistance; // => 156
 * const ball = { ballDiameter: 10 };
 * ballCentreDistance({ lengthOverBalls: 166, headstock: ball, tailstock: ball }); // => { centreDistance: 156 }
 * ```
 */
export function ballCentreDistance(work: BetweenBalls): BallCentreDistance {
  const { centreDistance, headstock, tailstock } = readBetween(options(work, 'work', BETWEEN, LENGTHS));
  return {
    centreDistance,
    ...(headstock.seat && { headstockSeat: headstock.seat }),
    ...(tailstock.seat && { tailstockSeat: tailstock.seat }),
  };
}

interface ReadEnd {
  readonly ball: number;
  readonly seat?: BallSeat;
  readonly limit?: TiltLimit;
}

interface ReadBetween {
  readonly centreDistance: number;
  readonly headstock: ReadEnd;
  readonly tailstock: ReadEnd;
}

function readBetween(given: Readonly<Record<string, unknown>>): ReadBetween {
  const [headstock, tailstock] = [readEnd(given['headstock'], 'headstock'), readEnd(given['tailstock'], 'tailstock')];
  const { faceLength, lengthOverBalls } = given;
  if ((faceLength === undefined) === (lengthOverBalls === undefined)) {
    return refuse('contradiction', 'faceLength', faceLength, 'must be given, or else lengthOverBalls, not both');
  }
  if (lengthOverBalls !== undefined) {
    const over = positive(lengthOverBalls, 'lengthOverBalls');
    return { centreDistance: apart(over - (headstock.ball + tailstock.ball) / 2), headstock, tailstock };
  }
  const between = positive(faceLength, 'faceLength');
  const out = protrusion(headstock.seat, 'headstock') + protrusion(tailstock.seat, 'tailstock');
  return { centreDistance: apart(between + out), headstock, tailstock };
}

function protrusion(seat: BallSeat | undefined, end: string): number {
  return (
    seat?.protrusion ?? refuse('missing-option', `${end}.mouthDiameter`, undefined, 'must be given with faceLength')
  );
}

function apart(centreDistance: number): number {
  if (centreDistance > 0) return centreDistance;
  return refuse('impossible-geometry', 'lengthOverBalls', centreDistance, "must leave the balls' centres apart");
}

function readEnd(value: unknown, name: string): ReadEnd {
  const given = options(value, name, ['ballDiameter'], [...HOLE, 'holder', 'faceDiameter']);
  const ball = positive(given['ballDiameter'], `${name}.ballDiameter`);
  if (given['mouthDiameter'] === undefined) {
    // A hole is stated by its mouth; nothing else of it can be used without.
    const stray = [...HOLE, 'holder'].find((key) => given[key] !== undefined);
    if (stray === undefined) return { ball };
    return refuse('missing-option', `${name}.mouthDiameter`, undefined, `must be given with ${stray}`);
  }
  const seat = readSeat(given, `${name}.`);
  if (given['holder'] === undefined) return { ball, seat };
  const { mouthDiameter, holeAngleDeg, faceDiameter, holder } = given;
  const work = {
    protrusion: seat.protrusion,
    faceDiameter: positive(faceDiameter, `${name}.faceDiameter`),
    mouthDiameter: mouthDiameter as number,
    ...(holeAngleDeg === undefined ? {} : { holeAngleDeg: holeAngleDeg as number }),
  };
  return { ball, seat, limit: tiltLimit({ holder: holder as BallHolder, work }) };
}

/** What {@link ballCentresSettings} needs. */
export type BallCentresOptions = BetweenBalls &
  SetoverMachine & {
    /** The taper wanted. */
    readonly taper: Taper;
  };

/** How far to set the boring head over, and what follows from it. */
export interface BallCentresSettings extends SetoverSettings, BallCentreDistance {
  /** Tilt at which the work touches the headstock ball's holder, if that is stated. */
  readonly headstockLimit?: TiltLimit;
  /** Tilt at which the work touches the tailstock ball's holder, if that is stated. */
  readonly tailstockLimit?: TiltLimit;
}

/** A margin below this share of the limit is worth a remark: holders and holes are rarely better known. */
const NEAR = 0.1;

/**
 * How far to set a boring head in the tailstock over, with the work between balls, on the head's dial.
 *
 * @throws GeneratrixError `beyond-machine` if dial or travel does not reach, or the work would touch what
 * holds a ball; the message names what can be done. What `ballSeat` and `tiltLimit` throw.
 *
 * @example
 * ```ts
 * import { ballCentresSettings } from 'generatrix';
 * const end = { ballDiameter: 10, mouthDiameter: 8, faceDiameter: 20, holder: { faceDistance: 3, faceDiameter: 8 } };
 * const set = ballCentresSettings({
 *   taper: { oneIn: 12 },
 *   faceLength: 150,
 *   headstock: end,
 *   tailstock: end,
 *   dial: { reads: 'diameter', step: 0.02, from: 0, to: 25 },
 * });
 * set.centreDistance; // => 156
 * set.settableReading; // => 12.98
 * set.tailstockLimit?.contact; // => 'holder-edge-on-work-face'
 * ```
 */
export function ballCentresSettings(set: BallCentresOptions): BallCentresSettings {
  const given = options(set, 'set', ['taper', ...BETWEEN], [...LENGTHS, ...MACHINE]);
  const { headstock, tailstock, centreDistance } = readBetween(given);
  const settings = setOver(readTaper(given['taper'] as Taper), centreDistance, given);
  const { tiltDeg } = settings;
  return {
    ...settings,
    centreDistance,
    ...(headstock.seat && { headstockSeat: headstock.seat }),
    ...(tailstock.seat && { tailstockSeat: tailstock.seat }),
    ...(headstock.limit && { headstockLimit: headstock.limit }),
    ...(tailstock.limit && { tailstockLimit: tailstock.limit }),
    notes: [
      ...settings.notes,
      ...seatNotes(headstock, 'headstock'),
      ...seatNotes(tailstock, 'tailstock'),
      ...limitNotes(headstock, 'headstock', tiltDeg),
      ...limitNotes(tailstock, 'tailstock', tiltDeg),
    ],
  };
}

function seatNotes({ seat, ball }: ReadEnd, end: string): readonly Note[] {
  if (seat?.seat !== 'edge') return [];
  return [
    {
      code: `${end}-ball-on-edge`,
      message: `The ${end} ball bears on the edge of its hole, which wears and dents; the pivot moves with it.`,
      values: { ballDiameter: ball, contactDiameter: seat.contactDiameter },
    },
  ];
}

function limitNotes({ limit }: ReadEnd, end: string, tiltDeg: number): readonly Note[] {
  if (!limit) return [];
  const { tiltLimitDeg } = limit;
  if (tiltDeg >= tiltLimitDeg) {
    return refuse(
      'beyond-machine',
      `${end}.holder`,
      tiltDeg,
      `must let the work tilt that far; it touches at a half angle of ${tiltLimitDeg} degrees (${limit.contact})`,
    );
  }
  const marginDeg = tiltLimitDeg - tiltDeg;
  if (marginDeg > NEAR * tiltLimitDeg) return [];
  return [
    {
      code: `${end}-tilt-near-limit`,
      message: `The work nearly touches what holds the ${end} ball.`,
      values: { tiltDeg, tiltLimitDeg, marginDeg },
    },
  ];
}

/** What {@link ballCentresSurface} needs. */
export type BallCentresSurfaceOptions = BetweenBalls &
  SizedEnd &
  SetoverErrors & {
    /** The set-over of the boring head, as a movement. */
    readonly offset: number;
    /** Axial length of the taper. */
    readonly length: number;
  };

/**
 * The surface that work between balls is really cut to: a cone, or a hyperboloid if the head is not
 * level or the tool off centre height. Distances are from the headstock ball's centre.
 *
 * @throws GeneratrixError as `ballCentreDistance` and `setoverSurface`.
 *
 * @example
 * ```ts
 * import { ballCentresSurface } from 'generatrix';
 * const ball = { ballDiameter: 10 };
 * const cut = ballCentresSurface({
 *   lengthOverBalls: 166,
 *   headstock: ball,
 *   tailstock: ball,
 *   offset: 6.5,
 *   rollDeg: 3,
 *   distance: 30,
 *   length: 100,
 *   largeDiameter: 25,
 * });
 * cut.surface.kind; // => 'hyperboloid'
 * cut.waist.toFixed(3); // => '0.719'
 * cut.departure.bestFit.straightness.toFixed(5); // => '0.00104'
 * ```
 */
export function ballCentresSurface(cut: BallCentresSurfaceOptions): SetoverCut {
  const given = options(cut, 'cut', [...BETWEEN, 'offset', 'length'], [...LENGTHS, ...SURFACE]);
  return cutSetOver(readBetween(given).centreDistance, given);
}

/** What {@link ballCentresCorrection} needs: what `setoverCorrection` does, with the balls instead of the centre distance. */
export type BallCentresCorrectionOptions = BetweenBalls & Omit<SetoverCorrectionOptions, 'centreDistance'>;

/**
 * The change to make after one or several trial cuts between balls: as `setoverCorrection`, with the
 * distance of the pivots from the balls.
 *
 * @throws GeneratrixError as `ballCentreDistance` and `setoverCorrection`.
 *
 * @example
 * ```ts
 * import { ballCentresCorrection } from 'generatrix';
 * const ball = { ballDiameter: 10 };
 * const { settableReading, readingChange } = ballCentresCorrection({
 *   lengthOverBalls: 166,
 *   headstock: ball,
 *   tailstock: ball,
 *   taper: { oneIn: 12 },
 *   trials: [{ reading: 12.98, largeDiameter: 25, smallDiameter: 16.75, distance: 100 }],
 *   dial: { reads: 'diameter', step: 0.02 },
 * });
 * settableReading; // => 13.1
 * readingChange.toFixed(2); // => '0.12'
 * ```
 */
export function ballCentresCorrection(correction: BallCentresCorrectionOptions): SetoverCorrection {
  const given = options(correction, 'correction', ['taper', 'trials', ...BETWEEN], [...LENGTHS, ...CORRECTION]);
  const { headstock, tailstock, faceLength, lengthOverBalls, ...rest } = given;
  const { centreDistance } = readBetween({ headstock, tailstock, faceLength, lengthOverBalls });
  return setoverCorrection({ ...rest, centreDistance } as unknown as SetoverCorrectionOptions);
}
