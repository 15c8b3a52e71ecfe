/** A boring head in the tailstock and balls at both ends of the work, as a job describes them. */
import { type Dial, dial } from '../../core/dial.js';
import { refuse } from '../../core/errors.js';
import { type Fields, object, optional, positive, type Reader, vouched } from '../../core/read.js';
import { type BallSeat, ballSeat } from './ball-seat.js';
import { BALL_END, type BallCentreEnd } from './distance.js';

/** A ball in a centre hole of the work; the hole must be stated, since the work is measured between its end faces. */
export type CentreBall = BallCentreEnd & {
  /** Diameter of the centre hole's cone at the end face. */
  readonly mouthDiameter: number;
};

/** A boring head in the tailstock, and balls at both ends of the work. */
export interface BallCentres {
  /** Largest offset of the head. */
  readonly offset: number;
  /** Its dial. */
  readonly dial?: Dial;
  /** Seat and ball at the headstock. */
  readonly headstock: CentreBall;
  /** Seat and ball at the tailstock. */
  readonly tailstock: CentreBall;
}

/** What a lathe may have for this method. */
export interface BallCentresEquipment {
  /** Boring head in the tailstock, and balls at both ends of the work. */
  readonly ballCentres?: BallCentres;
}

/** How a ball sits in its hole; refused if it cannot. */
export function seatOf({ ballDiameter, mouthDiameter, holeAngleDeg, pilotDiameter, depth }: CentreBall): BallSeat {
  return ballSeat({
    ballDiameter,
    mouthDiameter,
    ...(holeAngleDeg !== undefined && { holeAngleDeg }),
    ...(pilotDiameter !== undefined && { pilotDiameter }),
    ...(depth !== undefined && { depth }),
  });
}

const centreBall: Reader<CentreBall> = vouched(object(BALL_END) as Reader<CentreBall>, (end) => {
  if (end.mouthDiameter === undefined) refuse('missing-option', 'mouthDiameter', undefined, 'must be given');
  const { protrusion } = seatOf(end);
  const { holder, faceDiameter, mouthDiameter } = end;
  if (holder && faceDiameter === undefined) refuse('missing-option', 'faceDiameter', undefined, 'must be given');
  if (faceDiameter !== undefined && faceDiameter < mouthDiameter) {
    const phrase = `must be at least the mouth's, ${mouthDiameter}`;
    refuse('out-of-range', 'faceDiameter', faceDiameter, { kind: 'number', min: mouthDiameter, phrase });
  }
  if (holder && holder.faceDistance <= -protrusion) {
    const phrase = `must leave the holder clear of the face, above ${-protrusion}`;
    refuse('out-of-range', 'holder.faceDistance', holder.faceDistance, { kind: 'number', above: -protrusion, phrase });
  }
});

const BALLS: Fields<BallCentres> = {
  offset: positive,
  dial: optional(dial),
  headstock: centreBall,
  tailstock: centreBall,
};

/** Reads it. */
export const BALL_CENTRES_EQUIPMENT: Fields<BallCentresEquipment> = { ballCentres: optional(object(BALLS)) };
