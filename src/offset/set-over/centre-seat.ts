/**
 * A plain centre in a centre hole, the work askew: the point of the work's axis about which it turns. Lengths in any
 * one unit, depths positive into the work from its face.
 *
 * Derived in the plane of tilt. Of a centre's two flanks each bears on one rim, of the hole's mouth or of its pilot; two
 * lines through fixed points under a fixed angle have a bisector through the middle of the opposite arc (the angle at
 * the circumference), which lies on the work's axis. With mouth m, pilot p (radii) and one half angle θ of both, one
 * flank bears at the mouth, the other at the pilot, and the pivot lies (m cos 2θ - p)/sin 2θ below the face at any tilt.
 */
import { refuse } from '../../core/errors.js';
import {
  byKey,
  choice,
  defaulted,
  type Fields,
  number,
  optional,
  positive,
  type Reader,
  read,
  sound,
  vouched,
} from '../../core/read.js';
import { atanDeg, cosDeg, sinDeg, tanDeg } from '../../core/trigonometry.js';
import { type HoleSizes, standardCentreHole, standardCentreHoleNames } from './standard-holes.js';

/** A standard centre hole by its name; its sizes are millimetres. */
export interface NamedHole {
  /** Series and pilot: one of `standardCentreHoleNames()`. */
  readonly standard: string;
}

/** What {@link centreSeat} needs. */
export interface CentreSeatOptions extends HoleSizes {
  /** Included angle of the centre's point, degrees. @defaultValue the hole's */
  readonly centreAngleDeg?: number;
  /** How far the work stands askew on the centre, degrees: the taper's half angle. */
  readonly tiltDeg: number;
  /** How closely the angles of hole and centre are known to agree, degrees, plus or minus. @defaultValue 0 */
  readonly anglesAgreeWithinDeg?: number;
}

/** Where work on a plain centre turns. */
export interface CentreSeat {
  /** What the centre bears on at this tilt: the rim of the mouth, that of the pilot, or one flank on each. */
  readonly bears: 'mouth' | 'pilot' | 'both';
  /** Depth of the pivot below the end face; negative outside the work. */
  readonly pivotDepth: number;
  /** Least depth for angles that differ by as much as they may. */
  readonly leastDepth: number;
  /** Greatest depth for angles that differ by as much as they may. */
  readonly greatestDepth: number;
}

const angle = number({ above: 0, below: 180 });

const SIZES: Fields<HoleSizes> = {
  mouthDiameter: positive,
  pilotDiameter: positive,
  holeAngleDeg: optional(angle),
};

/** Reads a hole by name, in millimetres, or by its sizes. */
export const centreHole: Reader<NamedHole | HoleSizes> = vouched(
  byKey<NamedHole | HoleSizes>({
    standard: { standard: choice(...standardCentreHoleNames()) },
    mouthDiameter: SIZES,
    pilotDiameter: 'shared',
    holeAngleDeg: 'shared',
  }),
  (hole) => {
    if (!('standard' in hole)) pilotWithin(hole);
  },
);

/** Sizes of a hole, in the unit that a millimetre is `millimetre` of. */
export function sizesOf(hole: NamedHole | HoleSizes, millimetre: number): HoleSizes {
  if (!('standard' in hole)) return hole;
  const { mouthDiameter, pilotDiameter, holeAngleDeg } = standardCentreHole(hole.standard);
  return { mouthDiameter: mouthDiameter * millimetre, pilotDiameter: pilotDiameter * millimetre, holeAngleDeg };
}

const OPTIONS: Fields<CentreSeatOptions, 'holeAngleDeg' | 'anglesAgreeWithinDeg'> = {
  ...SIZES,
  holeAngleDeg: defaulted(angle, 60),
  centreAngleDeg: optional(angle),
  tiltDeg: number({ above: 0, below: 90 }),
  anglesAgreeWithinDeg: defaulted(number({ min: 0, below: 90 }), 0),
};

/**
 * Where work that is set over turns on a plain centre in a centre hole: rigid, round and without friction.
 *
 * The distance of the pivots is the length of the work less both depths. Angles that differ by less than the tilt move
 * the pivot with it: at a small taper it is in doubt by up to ± (m - p)/sin 2θ unless they agree much better.
 * @throws GeneratrixError `out-of-range` for a pilot as wide as the mouth, `impossible-geometry` for a tilt at which
 * the centre's point no longer reaches the pilot's rim.
 * @example
 * ```ts
 * import { centreSeat } from 'generatrix/offset';
 * const hole = { mouthDiameter: 10, pilotDiameter: 2, tiltDeg: 2 };
 * centreSeat(hole).pivotDepth.toFixed(4); // => '1.7321'
 * centreSeat({ ...hole, centreAngleDeg: 61 }).pivotDepth.toFixed(4); // => '0.5369'
 * ```
 */
export function centreSeat(options: CentreSeatOptions): CentreSeat {
  const given = read(options, OPTIONS);
  pilotWithin(given);
  const { steepestDeg: max, ...seat } = seatOf(given);
  const { tiltDeg } = given;
  if (tiltDeg > max) {
    const phrase = `must be at most ${max}, or the centre's point passes the pilot's rim`;
    return refuse('impossible-geometry', 'tiltDeg', tiltDeg, { kind: 'number', above: 0, max, phrase });
  }
  return sound(seat, 'mouthDiameter');
}

function pilotWithin({ mouthDiameter, pilotDiameter }: HoleSizes): void {
  if (pilotDiameter < mouthDiameter) return;
  const phrase = `must be less than the mouth, ${mouthDiameter}`;
  refuse('out-of-range', 'pilotDiameter', pilotDiameter, { kind: 'number', above: 0, below: mouthDiameter, phrase });
}

/** As {@link centreSeat}, of options that were read, with the tilt beyond which the seat is another. */
export function seatOf(options: CentreSeatOptions): CentreSeat & { readonly steepestDeg: number } {
  const { mouthDiameter, pilotDiameter, holeAngleDeg = 60, centreAngleDeg = holeAngleDeg, tiltDeg } = options;
  const off = (options.anglesAgreeWithinDeg ?? 0) / 2;
  const hole = { mouth: mouthDiameter / 2, pilot: pilotDiameter / 2, half: holeAngleDeg / 2, tiltDeg };
  const { mouth, pilot, half } = hole;
  const { bears, depth } = seatAt(hole, centreAngleDeg / 2);
  const within = (centre: number): number => seatAt(hole, Math.min(Math.max(centre, 1e-9), 90 - 1e-9)).depth;
  // The flank at the mouth must not meet the other before the pilot.
  const steepestDeg = atanDeg((tanDeg(half) * (mouth + pilot)) / (mouth - pilot)) - centreAngleDeg / 2;
  return {
    bears,
    pivotDepth: depth,
    // The wider the centre, the further out the pivot lies.
    leastDepth: off === 0 ? depth : within(centreAngleDeg / 2 + off),
    greatestDepth: off === 0 ? depth : within(centreAngleDeg / 2 - off),
    steepestDeg: bears === 'both' ? steepestDeg : 90,
  };
}

interface Hole {
  readonly mouth: number;
  readonly pilot: number;
  readonly half: number;
  readonly tiltDeg: number;
}

/** The seat of a centre of some half angle. */
function seatAt(
  { mouth, pilot, half, tiltDeg }: Hole,
  centreHalf: number,
): { bears: CentreSeat['bears']; depth: number } {
  const [tan, centreTan] = [tanDeg(half), tanDeg(centreHalf)];
  if (centreHalf - half >= tiltDeg) return { bears: 'mouth', depth: -mouth * centreTan };
  if (half - centreHalf >= tiltDeg) return { bears: 'pilot', depth: (mouth - pilot) / tan - pilot * centreTan };
  if (centreHalf === half) return { bears: 'both', depth: (mouth * cosDeg(2 * half) - pilot) / sinDeg(2 * half) };
  const middle = ((mouth - pilot) / tan - (mouth + pilot) * centreTan) / 2;
  return { bears: 'both', depth: middle + ((mouth - pilot) * (1 - centreTan / tan)) / (2 * tanDeg(tiltDeg)) };
}
