/**
 * Work between balls: the balls' centres are the points about which the work turns, so the distance that counts is
 * known exactly, from the length between the end faces or from the length over the balls. Lengths in any one unit.
 */
import { refuse } from '../../core/errors.js';
import { type AnyOf, type Fields, object, optional, positive, read } from '../../core/read.js';
import { eitherKey } from '../either.js';
import type { Draft } from '../taper-cut.js';
import { type BallSeat, HOLE, type HoleDetails, seatOf } from './ball-seat.js';
import { type BallHolder, HOLDER, type TiltLimit, tiltOf } from './tilt-limit.js';

/** One end of work between balls. */
export interface BallCentreEnd extends HoleDetails {
  /** Diameter of the ball. */
  readonly ballDiameter: number;
  /**
   * Diameter of the centre hole's cone at the end face.
   * @defaultValue unknown, which does where the length is measured over the balls and nothing else of the hole is stated
   */
  readonly mouthDiameter?: number;
  /** What holds the ball; needs the hole and `faceDiameter`. @defaultValue unknown: no limit of the tilt is given */
  readonly holder?: BallHolder;
  /** Diameter of the work's end face. @defaultValue unknown, which does where no holder is stated */
  readonly faceDiameter?: number;
}

/** The two ends of work between balls. */
export interface BallCentreEnds {
  /** The end whose ball is held in the headstock. */
  readonly headstock: BallCentreEnd;
  /** The end whose ball is held in the boring head. */
  readonly tailstock: BallCentreEnd;
}

/** The work's length, stated in either way, and its two ends. */
export type BetweenBalls = BallCentreEnds &
  (
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

/** Work between balls as its readers see it, before it is known how the length is stated. */
export type EitherLength = BallCentreEnds & AnyOf<BetweenBalls>;

/** Readers of one end. */
export const BALL_END: Fields<BallCentreEnd> = {
  ballDiameter: positive,
  mouthDiameter: optional(positive),
  ...HOLE,
  holder: optional(object(HOLDER)),
  faceDiameter: optional(positive),
};

/** Readers of work between balls. */
export const BETWEEN: Fields<EitherLength> = {
  headstock: object(BALL_END),
  tailstock: object(BALL_END),
  faceLength: optional(positive),
  lengthOverBalls: optional(positive),
};

/** Where the balls' centres are. */
export interface BallCentreDistance {
  /** Distance of the balls' centres along the work. */
  readonly centreDistance: number;
  /** How the headstock's ball sits, if its hole is stated. */
  readonly headstockSeat?: BallSeat;
  /** How the tailstock's ball sits, if its hole is stated. */
  readonly tailstockSeat?: BallSeat;
}

/**
 * The distance of the centres of two balls in the centre holes of a piece of work: its length between
 * the end faces and how far each ball's centre stands out, or the length over the balls less half of each.
 * @throws GeneratrixError `missing-option` or `contradiction` unless the length is stated in exactly one way; what
 * `ballSeat` throws.
 * @example
 * ```ts
 * import { ballCentreDistance } from 'generatrix';
 * const end = { ballDiameter: 10, mouthDiameter: 8 };
 * ballCentreDistance({ faceLength: 150, headstock: end, tailstock: end }).centreDistance; // => 156
 * const ball = { ballDiameter: 10 };
 * ballCentreDistance({ lengthOverBalls: 166, headstock: ball, tailstock: ball }); // => { centreDistance: 156 }
 * ```
 */
export function ballCentreDistance(options: BetweenBalls): BallCentreDistance {
  const { centreDistance, headstock, tailstock } = betweenBalls(read(options, BETWEEN));
  const result: Draft<BallCentreDistance> = { centreDistance };
  if (headstock.seat) result.headstockSeat = headstock.seat;
  if (tailstock.seat) result.tailstockSeat = tailstock.seat;
  return result;
}

/** One end: its ball, how it sits, and how far the work can tilt on it; as far as these are known. */
export interface Seated {
  readonly ball: number;
  readonly seat?: BallSeat | undefined;
  readonly limit?: TiltLimit | undefined;
}

/** Work between balls of which the pivots are known. */
export interface Pivoted {
  readonly centreDistance: number;
  readonly headstock: Seated;
  readonly tailstock: Seated;
}

/** The pivots of work that was read. */
export function betweenBalls(given: EitherLength): Pivoted {
  const headstock = seated(given.headstock, 'headstock.');
  const tailstock = seated(given.tailstock, 'tailstock.');
  const stated = eitherKey(given, 'faceLength', 'lengthOverBalls');
  const length = given[stated] ?? 0;
  const centreDistance =
    stated === 'lengthOverBalls'
      ? length - (headstock.ball + tailstock.ball) / 2
      : length + protrusion(headstock, 'headstock') + protrusion(tailstock, 'tailstock');
  if (!(centreDistance > 0)) {
    return refuse('impossible-geometry', stated, length, "must leave the balls' centres apart");
  }
  return { centreDistance, headstock, tailstock };
}

function protrusion({ seat }: Seated, end: string): number {
  return (
    seat?.protrusion ?? refuse('missing-option', `${end}.mouthDiameter`, undefined, 'must be given with faceLength')
  );
}

const OF_HOLE = ['holeAngleDeg', 'pilotDiameter', 'depth', 'holder'] as const;

function seated(end: BallCentreEnd, at: string): Seated {
  const { ballDiameter: ball, mouthDiameter, holeAngleDeg = 60, holder, faceDiameter } = end;
  if (mouthDiameter === undefined) {
    // A hole is stated by its mouth; nothing else of it can be used without.
    const stray = OF_HOLE.find((key) => end[key] !== undefined);
    if (stray === undefined) return { ball };
    return refuse('missing-option', `${at}mouthDiameter`, undefined, `must be given with ${stray}`);
  }
  const seat = seatOf({ ...end, mouthDiameter }, at);
  if (!holder) return { ball, seat };
  if (faceDiameter === undefined) {
    return refuse('missing-option', `${at}faceDiameter`, undefined, 'must be given with holder');
  }
  const work = { protrusion: seat.protrusion, faceDiameter, mouthDiameter, holeAngleDeg };
  const names = { protrusion: `${at}holder.faceDistance`, mouth: `${at}mouthDiameter` };
  return { ball, seat, limit: tiltOf({ holder, work }, names) };
}
