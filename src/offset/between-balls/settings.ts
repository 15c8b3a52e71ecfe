/**
 * Work between balls, set over by a boring head in the tailstock: what to set on the head's dial, and how far the
 * work can tilt until it touches what holds a ball. Lengths in any one unit, set-overs on the radius.
 */
import { refuse } from '../../core/errors.js';
import { type Fields, read } from '../../core/read.js';
import { note } from '../../core/words.js';
import { slopeOf, type Taper, taper } from '../../taper/taper.js';
import { MACHINE, type SetoverMachine, type SetoverSettings, setOver } from '../set-over/settings.js';
import type { Draft } from '../taper-cut.js';
import { BALL, type OffsetNote } from '../words.js';
import {
  type BallCentreDistance,
  BETWEEN,
  type BetweenBalls,
  betweenBalls,
  type EitherLength,
  type Seated,
} from './distance.js';
import type { TiltLimit } from './tilt-limit.js';

/** A taper to be cut between balls, and what is known of the boring head. */
export interface BallCentresMachine extends SetoverMachine {
  /** The taper wanted. */
  readonly taper: Taper;
}

/** What {@link ballCentresSettings} needs. */
export type BallCentresOptions = BetweenBalls & BallCentresMachine;

const OPTIONS: Fields<EitherLength & BallCentresMachine, 'dial' | 'backlash'> = { taper, ...BETWEEN, ...MACHINE };

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
 * @throws GeneratrixError `beyond-machine` if dial or travel does not reach, or the work would touch what
 * holds a ball; the message names what can be done. What `ballSeat` and `tiltLimit` throw.
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
export function ballCentresSettings(options: BallCentresOptions): BallCentresSettings {
  const given = read(options, OPTIONS);
  const { headstock, tailstock, centreDistance } = betweenBalls(given);
  const settings: Draft<BallCentresSettings> = Object.assign(setOver(slopeOf(given.taper), centreDistance, given), {
    centreDistance,
  });
  const { tiltDeg } = settings;
  if (headstock.seat) settings.headstockSeat = headstock.seat;
  if (tailstock.seat) settings.tailstockSeat = tailstock.seat;
  if (headstock.limit) settings.headstockLimit = headstock.limit;
  if (tailstock.limit) settings.tailstockLimit = tailstock.limit;
  settings.notes = [
    ...settings.notes,
    ...seatNotes(headstock, 'headstock'),
    ...seatNotes(tailstock, 'tailstock'),
    ...limitNotes(headstock, 'headstock', tiltDeg),
    ...limitNotes(tailstock, 'tailstock', tiltDeg),
  ];
  return settings;
}

type End = 'headstock' | 'tailstock';

function seatNotes({ seat, ball }: Seated, end: End): OffsetNote[] {
  if (seat?.seat !== 'edge') return [];
  return [note(BALL, `${end}-ball-on-edge`, { ballDiameter: ball, contactDiameter: seat.contactDiameter })];
}

function limitNotes({ limit }: Seated, end: End, tiltDeg: number): OffsetNote[] {
  if (!limit) return [];
  const { tiltLimitDeg, contact } = limit;
  if (tiltDeg >= tiltLimitDeg) {
    const phrase = `must let the work tilt that far; it touches at a half angle of ${tiltLimitDeg} degrees (${contact})`;
    return refuse('beyond-machine', `${end}.holder`, tiltDeg, { kind: 'relation', below: tiltLimitDeg, phrase });
  }
  const marginDeg = tiltLimitDeg - tiltDeg;
  return marginDeg > NEAR * tiltLimitDeg
    ? []
    : [note(BALL, `${end}-tilt-near-limit`, { tiltDeg, tiltLimitDeg, marginDeg })];
}
