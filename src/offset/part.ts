/** A taper on a piece of work, as a job states it. Lengths in the job's unit, limits plus or minus. */

import { refuse } from '../core/errors.js';
import {
  array,
  choice,
  type Fields,
  flag,
  nonNegative,
  number,
  object,
  optional,
  positive,
  type Reader,
  vouched,
} from '../core/read.js';
import { sizeTold } from '../core/size-told.js';
import { say, tell } from '../core/words.js';
import type { Work } from '../method/method.js';
import { slopeOf, type Taper, taper } from '../taper/taper.js';
import { centreHole, type NamedHole } from './set-over/centre-seat.js';
import type { HoleSizes } from './set-over/standard-holes.js';
import { inMinutes } from './step-words.js';

/** A taper on a piece of work. */
export interface TaperPart {
  /** A taper. */
  readonly kind: 'taper';
  /** The taper itself. */
  readonly taper: Taper;
  /** Turned outside or bored inside. */
  readonly side: 'outside' | 'inside';
  /** Diameter at the large end. */
  readonly largeDiameter: number;
  /** Length of the taper along the axis. */
  readonly length: number;
  /** Length of the whole piece, face to face. */
  readonly workLength: number;
  /** Distance of the large end from the face at the headstock. */
  readonly largeEndAt: number;
  /** Which end of the taper looks to the headstock. */
  readonly headstockEnd: 'large' | 'small';
  /** Whether the piece may have centre holes in both ends. */
  readonly centreHoles: boolean;
  /** The centre holes, alike at both ends. @defaultValue not known: on plain centres the work is taken to turn at its faces */
  readonly centreHole?: PartCentreHole;
  /** Shoulders and flanges beside the taper. */
  readonly shoulders?: readonly Shoulder[];
  /** Diameter of the stock; the large diameter if left out. */
  readonly stockDiameter?: number;
  /** What must be held: the half angle, the difference of the end diameters, or both. */
  readonly tolerance: TaperTolerance;
}

/** The centre holes of a piece, and the plain centres that it runs on. */
export interface PartCentreHole {
  /** The hole. */
  readonly hole: NamedHole | HoleSizes;
  /** Included angle of the centres' points, degrees. @defaultValue the hole's */
  readonly centreAngleDeg?: number;
  /** How closely the angles of holes and centres are known to agree, degrees, plus or minus. @defaultValue 0.2 */
  readonly anglesAgreeWithinDeg?: number;
}

/** What must be held of a taper; at least one of the two. */
export interface TaperTolerance {
  /** Limit of the half angle, in degrees. */
  readonly halfAngleDeg?: number;
  /** Limit of the error of the small diameter, the large one being touched off to size. */
  readonly smallDiameter?: number;
}

/** A shoulder or flange beside a taper. */
export interface Shoulder {
  /** At which end of the taper. */
  readonly at: 'large' | 'small';
  /** Its diameter. */
  readonly diameter: number;
  /** Free length between the end of the taper and the shoulder. */
  readonly gap: number;
}

const SHOULDER: Fields<Shoulder> = { at: choice('large', 'small'), diameter: positive, gap: nonNegative };
const TOLERANCE: Fields<TaperTolerance> = { halfAngleDeg: optional(positive), smallDiameter: optional(positive) };

const CENTRE_HOLE: Fields<PartCentreHole> = {
  hole: centreHole,
  centreAngleDeg: optional(number({ above: 0, below: 180 })),
  anglesAgreeWithinDeg: optional(number({ min: 0, below: 90 })),
};

const PART: Fields<TaperPart> = {
  kind: choice('taper'),
  taper,
  side: choice('outside', 'inside'),
  largeDiameter: positive,
  length: positive,
  workLength: positive,
  largeEndAt: nonNegative,
  headstockEnd: choice('large', 'small'),
  centreHoles: flag,
  centreHole: optional(object(CENTRE_HOLE)),
  shoulders: optional(array(object(SHOULDER))),
  stockDiameter: optional(positive),
  tolerance: object(TOLERANCE),
};

/** Reads a taper that can be: it ends before its point, lies on the work, and has something to hold. */
export const taperPart: Reader<TaperPart> = vouched(object(PART), (part) => {
  const { largeDiameter, length, workLength, largeEndAt, headstockEnd, stockDiameter, side, tolerance } = part;
  const { tan } = slopeOf(part.taper);
  // A taper to a point, stated by rounded numbers, may end a few units in the last place beyond it.
  if (2 * length * tan > largeDiameter * (1 + 1e-12)) {
    const max = largeDiameter / (2 * tan);
    refuse('impossible-geometry', 'length', length, {
      kind: 'number',
      max,
      phrase: `must end before the taper's point, at most ${max}`,
    });
  }
  within('workLength', workLength, { min: length });
  // The taper runs from its large end away from the headstock, or towards it.
  within(
    'largeEndAt',
    largeEndAt,
    headstockEnd === 'large' ? { max: workLength - length } : { min: length, max: workLength },
  );
  if (side === 'outside') within('stockDiameter', stockDiameter, { min: largeDiameter });
  if (tolerance.halfAngleDeg === undefined && tolerance.smallDiameter === undefined) {
    refuse('missing-option', 'tolerance', tolerance, 'must hold halfAngleDeg, smallDiameter or both');
  }
});

function within(
  key: string,
  value: number | undefined,
  limits: { readonly min?: number; readonly max?: number },
): void {
  const { allowed } = number(limits);
  const { min = -Infinity, max = Infinity } = limits;
  if (value !== undefined && !(value >= min && value <= max)) refuse('out-of-range', key, value, allowed);
}

/** Diameter at the small end; 0 for a taper that runs to a point. */
export function smallDiameterOf({ taper: stated, largeDiameter, length }: TaperPart): number {
  return Math.max(0, largeDiameter - 2 * length * slopeOf(stated).tan);
}

/** A taper to cut, in the shop that cuts it. */
export type TaperWork = Work<TaperPart>;

/** A taper to make, in words. */
export function describeTaper(part: TaperPart, unit: 'mm' | 'in'): string {
  const { side, largeDiameter, length, workLength, headstockEnd } = part;
  const { tan, halfAngleDeg } = slopeOf(part.taper);
  const [large, small, long, work] = [largeDiameter, smallDiameterOf(part), length, workLength].map((value) =>
    sizeTold(value, unit),
  ) as [string, string, string, string];
  return say`${side} taper 1 : ${tell(1 / (2 * tan))}, ${tell(24 * tan, { step: 0.001 })} in per foot, half angle ${tell(halfAngleDeg, { unit: '°' })} or ${inMinutes(halfAngleDeg)}, from ${large} to ${small} in diameter over ${long} on work ${work} long, ${headstockEnd} end to the headstock`;
}
