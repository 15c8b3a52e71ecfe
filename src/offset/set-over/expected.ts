/** What to expect of work that is set over, on plain centres or on balls. */
import type { Dial } from '../../core/dial.js';
import { perMovement } from '../../core/dial.js';
import { sinDeg } from '../../core/trigonometry.js';
import { say, tell } from '../../core/words.js';
import type { Expected } from '../../method/expect.js';
import { type Limit, limit } from '../../method/limits.js';
import { type Means, offsetMeans } from '../../method/means.js';
import type { StandsFor } from '../../method/model-inputs.js';
import { slopeOf } from '../../taper/taper.js';
import { TOUCHED_OFF, taperExpectations } from '../expected.js';
import { meets } from '../limits.js';
import type { TaperWork } from '../part.js';
import { seatOf, sizesOf } from './centre-seat.js';
import type { SetoverSettings } from './settings.js';
import { type SetoverError, type SetoverInput, setoverModel } from './surface.js';

/** The zero of the set-over is what its limit speaks of. */
export const STANDS_FOR: StandsFor<SetoverInput | SetoverError | 'centreDistance'> = {
  ...TOUCHED_OFF,
  zeroError: 'setover',
  centreDistanceError: 'centreDistance',
};

/** Where the pivots are. */
export interface Pivots {
  readonly centreDistance: number;
  /** How far the headstock's pivot stands outside the face of the work. */
  readonly protrusion: number;
  /** What the distance is in doubt by beside its own limit, plus or minus; nothing if left out. */
  readonly doubt?: number;
}

/** Errors of offset, distance and level. */
export function setoverExpectations(
  work: TaperWork,
  { offset }: SetoverSettings,
  { centreDistance, protrusion, doubt = 0 }: Pivots,
  means: Means | null,
): Expected {
  const { setting } = work;
  // A limit of half the distance or more says nothing: the pivots must stay apart.
  const limited = { ...setting, centreDistance: Math.min(setting.centreDistance + doubt, centreDistance / 2) };
  return taperExpectations(
    { ...work, setting: limited },
    {
      model: setoverModel,
      values: { offset, centreDistance, fromPivot: largeEndFrom(work, protrusion) },
      standsFor: STANDS_FOR,
      again: { zeroError: means?.change ?? 0 },
    },
  );
}

/** The means at hand for it. Its zero is where the indicator finds a true cylinder alike at both ends. */
export function offsetMeansOf(work: TaperWork, centreDistance: number, dial: Dial | undefined): readonly Means[] {
  const { part, measuring } = work;
  const division = dial?.step === undefined ? undefined : dial.step / perMovement(dial.reads);
  return offsetMeans(centreDistance * slopeOf(part.taper).sin, division, measuring.diameter, work);
}

/** The stated limits must leave a taper: a set-over below the distance, and a tool that meets the work. */
export function errorsFit(
  work: TaperWork,
  { centreDistance, protrusion, doubt = 0 }: Pivots,
): readonly Limit<'errors'>[] {
  const { setting, part, unit } = work;
  const { sin } = slopeOf(part.taper);
  const offset = Math.max(0, centreDistance) * sin + setting.setover;
  const apart = centreDistance - Math.min(setting.centreDistance + doubt, centreDistance / 2);
  const [needed, there] = [tell(offset, { unit }), tell(apart, { unit })];
  const message = say`the set-over may come to ${needed}, the pivots stand ${there} apart at least`;
  // Out of level, work that is set over rises towards its tailstock end.
  const rise = Math.min(1, offset / apart) * sinDeg(Math.min(90, setting.rollDeg));
  const lift = (part.largeEndAt + Math.max(0, protrusion)) * rise;
  return [{ ...limit('errors', message, offset, apart), met: offset < apart }, meets(work, lift)];
}

/** The model counts along the taper from its large end: the pivot lies behind it, or before it. */
function largeEndFrom({ part: { largeEndAt, headstockEnd } }: TaperWork, protrusion: number): number {
  return headstockEnd === 'large' ? largeEndAt + protrusion : -(largeEndAt + protrusion);
}

/** How closely centres and holes of one nominal angle agree, included. */
export const ANGLES_AGREE_WITHIN_DEG = 0.2;

/**
 * Pivots of a piece on plain centres, at the tilt of its taper: below both faces where its holes are stated, else at
 * the faces. Centres bear so up to a tilt of `steepestDeg`.
 */
export function plainPivots({ part, unit }: TaperWork): Required<Pivots> & { readonly steepestDeg: number } {
  const { centreHole, workLength, taper } = part;
  if (!centreHole) return { centreDistance: workLength, protrusion: 0, doubt: 0, steepestDeg: 90 };
  const { hole, anglesAgreeWithinDeg = ANGLES_AGREE_WITHIN_DEG, ...centre } = centreHole;
  const { pivotDepth, leastDepth, greatestDepth, steepestDeg } = seatOf({
    ...sizesOf(hole, unit === 'mm' ? 1 : 1 / 25.4),
    ...centre,
    tiltDeg: slopeOf(taper).halfAngleDeg,
    anglesAgreeWithinDeg,
  });
  return {
    centreDistance: workLength - 2 * pivotDepth,
    protrusion: -pivotDepth,
    // Both ends may be off alike.
    doubt: 2 * Math.max(greatestDepth - pivotDepth, pivotDepth - leastDepth),
    steepestDeg,
  };
}
