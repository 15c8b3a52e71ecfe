/**
 * A sweep: the circle on which a tool runs, and how it lies to the work's axis.
 *
 * Frame of all files that take a sweep: z is the work's axis, the origin is the foot, on it, of the common
 * perpendicular of the two axes (where they meet, if they do). The head's axis has the direction
 * n = (sin α, 0, cos α); with u = (cos α, 0, -sin α) and y = (0, 1, 0) the tip, or the centre of the tool's
 * nose, runs on
 *
 *     P(t) = h n + e y + r (cos t u + sin t y)
 *
 * so that z = h cos α - r sin α cos t, the distance from the axis is ρ² = x² + y² with
 * x = h sin α + r cos α cos t and y = e + r sin t, and ρ² + z² = h² + e² + r² + 2 r e sin t.
 * Lengths in any one unit, angles in degrees outside. Derived from the frame alone; tests revolve P(t) in space.
 */
import { refuse } from '../core/errors.js';
import {
  choice,
  type Fields,
  number,
  object,
  optional,
  type Reader,
  readValue,
  reduced,
  vouched,
} from '../core/read.js';
import { sinDeg, sineCosineDeg, toRadians } from '../core/trigonometry.js';
import { length2 } from './solve.js';

/** A sweep of a tool as it is set, or as it really is. */
export interface Sweep {
  /**
   * Angle α between the spindle axis and the work axis, above 0 and below 180 degrees. Only `revolveCircle`
   * also takes 0 and 180, which cut no sphere.
   */
  readonly tiltDeg: number;
  /** Radius r of the circle on which the tip runs; with a nose radius, of the circle of the nose's centre. */
  readonly sweepRadius: number;
  /** Distance h from the sphere's centre to the plane of that circle, along the spindle axis. */
  readonly distance: number;
  /** Distance e by which the two axes pass each other, either sign. @defaultValue 0: the axes meet. */
  readonly skew?: number;
  /** Sideways error in the plane of the two axes, positive away from the work axis. @defaultValue 0 */
  readonly miss?: number;
  /** Radius of the tool's nose. @defaultValue 0: a sharp point. */
  readonly noseRadius?: number;
}

/** On which side of the tool's path the finished part is: within it (a ball) or around it (a socket). */
export type SweptSide = 'ball' | 'socket';

/**
 * The part of its sweep on which the tool cuts, in degrees of the sweep's own angle t: 0 at the lowest place
 * along the work's axis, 180 at the highest, 90 at the +y side.
 */
export interface SweepArc {
  /** Where the tool starts to cut, -360 to 360 degrees. */
  readonly fromDeg: number;
  /** Where it ends: above `fromDeg`, by a full turn at most. */
  readonly toDeg: number;
}

/** A checked sweep, its miss already turned into distance. */
export interface ReadSweep {
  /** Tilt as given. */
  readonly tiltDeg: number;
  /** Tilt in radians. */
  readonly tilt: number;
  /** Sine of the tilt. */
  readonly sin: number;
  /** Cosine of the tilt. */
  readonly cos: number;
  readonly radius: number;
  readonly distance: number;
  readonly skew: number;
  readonly noseRadius: number;
  /** Where the axes meet, from where they would meet without the miss, along the work axis. */
  readonly shift: number;
}

/** Largest length that is taken: its square must stay a number. Smallest sweep: its inverse. */
export const LONGEST = 1e100;
/** A place along an axis, or a distance with a sign. */
export const anywhere: Reader<number> = number({ min: -LONGEST, max: LONGEST });

const FIELDS = {
  sweepRadius: number({ min: 1 / LONGEST, max: LONGEST }),
  distance: anywhere,
  skew: optional(anywhere),
  miss: optional(anywhere),
  noseRadius: optional(number({ min: 0, max: LONGEST })),
};

const sweepFields: Reader<Sweep> = object<Sweep>({ tiltDeg: number({ above: 0, below: 180 }), ...FIELDS });
/** Reads a sweep that can cut a sphere: at a tilt of 0 one ring would be swept. */
export const sweepReader: Reader<Sweep> = vouched(sweepFields, sweepOf);
const reducedSweep: Reader<ReadSweep> = reduced(sweepFields, sweepOf);

/** Reads any sweep, that of parallel axes too. */
export const anySweep: Reader<Sweep> = vouched(
  object<Sweep>({ tiltDeg: number({ min: 0, max: 180 }), ...FIELDS }),
  (sweep) => sinDeg(sweep.tiltDeg) === 0 || sweepOf(sweep),
);

/** Reads a sweep and reduces it. */
export function readSweep(sweep: unknown, parameter = 'sweep'): ReadSweep {
  return readValue(sweep, reducedSweep, parameter);
}

/** A sweep whose numbers have been read, reduced. */
export function sweepOf(given: Sweep): ReadSweep {
  const { tiltDeg, sweepRadius: radius, distance, skew = 0, miss = 0, noseRadius = 0 } = given;
  const turned = sineCosineDeg(tiltDeg);
  const sin = turned.sin[0] + 0;
  const cos = turned.cos[0] + 0;
  const read: { -readonly [K in keyof ReadSweep]: ReadSweep[K] } = {
    tiltDeg,
    tilt: toRadians(tiltDeg),
    sin,
    cos,
    radius,
    distance,
    skew,
    noseRadius,
    shift: 0,
  };
  if (miss === 0) return read;
  // Parallel axes have no foot; a miss then adds to the skew.
  if (sin === 0) {
    read.skew = length2(miss, skew);
    return read;
  }
  // Moved sideways by x, the spindle axis meets the work axis x / sin α sooner, x cot α further down.
  read.distance = distance + miss / sin;
  if (Math.abs(read.distance) > LONGEST)
    refuse('not-representable', 'miss', miss, 'must be far less for so small a tilt');
  read.shift = 0 - (miss * cos) / sin;
  return read;
}

const ARC: Fields<SweepArc> = { fromDeg: number({ min: -360, max: 360 }), toDeg: number({ min: -360, max: 720 }) };

/** Reads an arc. */
export const sweepArc: Reader<SweepArc> = vouched(object(ARC), ({ fromDeg, toDeg }) =>
  readValue(toDeg, number({ above: fromDeg, max: fromDeg + 360 }), 'toDeg'),
);
/** Reads a side. */
export const sweptSide: Reader<SweptSide> = choice('ball', 'socket');
