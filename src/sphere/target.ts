/**
 * The one way every function of this room takes the part that is wanted: a zone of a sphere, as the
 * drawing gives it. Polar angles run from the free end's pole: the top of a ball, the bottom of a
 * socket. Lengths share one unit; angles are degrees outside, radians inside.
 */
import { type Allowed, refuse } from '../core/errors.js';
import {
  byTag,
  choice,
  number,
  optional,
  positive,
  type Reader,
  readValue,
  reduced,
  representable,
  sound,
  vouched,
} from '../core/read.js';
import { say, tell } from '../core/words.js';

/** Size of a sphere, by radius or by diameter. */
export type SphereSize =
  | {
      /** Radius of the sphere. */
      readonly radius: number;
      /** Left out beside the radius. */
      readonly diameter?: never;
    }
  | {
      /** Diameter of the sphere. */
      readonly diameter: number;
      /** Left out beside the diameter. */
      readonly radius?: never;
    };

/** A ball on one stem: the sphere runs from its free pole to the stem. */
export type BallOnStem = {
  /** Kind of part. */
  readonly part: 'ball-on-stem';
  /** Diameter of the stem, less than the ball's. */
  readonly stemDiameter: number;
} & SphereSize;

/** A ball between two stems. */
export type BallBetweenStems = {
  /** Kind of part. */
  readonly part: 'ball-between-stems';
  /** Diameter of the stem on the far side, by which the work is held. */
  readonly stemDiameter: number;
  /** Diameter of the stem on the free side. */
  readonly freeStemDiameter: number;
} & SphereSize;

/** A ball on a stem whose free end is a flat, so that the sweep need not meet the pole. */
export type BallEnd = {
  /** Kind of part. */
  readonly part: 'ball-end';
  /** Diameter of the stem. */
  readonly stemDiameter: number;
  /** Diameter of the flat on the free end. */
  readonly flatDiameter: number;
} & SphereSize;

/** A domed end. Two of size, base and height state it; size and base mean less than half a sphere. */
export type Cap = {
  /** Kind of part. */
  readonly part: 'cap';
  /** Radius of the sphere. */
  readonly radius?: number;
  /** Diameter of the sphere. */
  readonly diameter?: number;
  /** Diameter where the dome meets the body. */
  readonly baseDiameter?: number;
  /** Height of the dome over its base. */
  readonly height?: number;
};

/** A socket or bowl. Two of size, opening and depth state it; size and opening mean at most half a sphere. */
export type Socket = {
  /** Kind of part. */
  readonly part: 'socket';
  /** Radius of the sphere. */
  readonly radius?: number;
  /** Diameter of the sphere. */
  readonly diameter?: number;
  /** Diameter of the opening in the face. */
  readonly openingDiameter?: number;
  /** Depth from the face to the bottom. */
  readonly depth?: number;
};

/** The part that is wanted. */
export type SphereTarget = BallOnStem | BallBetweenStems | BallEnd | Cap | Socket;

/** What a target amounts to. Heights are along the work axis from the sphere's centre, positive towards the free end. */
export interface SphereShape {
  /** Kind of part. */
  readonly part: SphereTarget['part'];
  /** On which side of the sphere the material lies. */
  readonly side: 'ball' | 'socket';
  /** Radius of the sphere. */
  readonly radius: number;
  /** Polar angle where the surface begins, 0 at the free end's pole. */
  readonly fromDeg: number;
  /** Polar angle where the surface ends: at the stem, the base or the opening. */
  readonly toDeg: number;
  /** Diameter where the surface begins. */
  readonly fromDiameter: number;
  /** Diameter where the surface ends. */
  readonly toDiameter: number;
  /** Height where the surface begins. */
  readonly fromHeight: number;
  /** Height where the surface ends. */
  readonly toHeight: number;
}

/**
 * A target reduced to what calculations need: the middle and the half-width of its polar angles,
 * which are the tilt and the angular radius of the sweep that covers just this. Radians; sines and
 * cosines are carried along, since a small stem leaves too few digits in the angle.
 */
export interface Zone extends Pick<SphereShape, 'part' | 'side' | 'radius'> {
  /** Middle of the polar angles. */
  readonly middle: Angle;
  /** Half-width of the polar angles. */
  readonly half: Angle;
  /** Polar angle where the surface begins. */
  readonly from: number;
  /** Polar angle where the surface ends. */
  readonly to: number;
  /** Diameters and heights at both ends, as of {@link SphereShape}. */
  readonly rims: Pick<SphereShape, 'fromDiameter' | 'fromHeight' | 'toDiameter' | 'toHeight'>;
}

/** An angle in radians with its sine and cosine to full digits. */
export interface Angle {
  /** Radians. */
  readonly rad: number;
  /** Sine. */
  readonly sin: number;
  /** Cosine. */
  readonly cos: number;
}

/** A target whose size may still be stated twice or not at all. */
type Sized<T> = Omit<T, keyof SphereSize> & { readonly radius?: number; readonly diameter?: number };

type Stated = Sized<BallOnStem> | Sized<BallBetweenStems> | Sized<BallEnd> | Sized<Cap> | Sized<Socket>;

const SIZE = { radius: optional(positive), diameter: optional(positive) };
const ON_STEM = { ...SIZE, stemDiameter: positive };

const stated: Reader<Stated> = byTag<Stated, 'part'>('part', {
  'ball-on-stem': { ...ON_STEM, part: choice('ball-on-stem') },
  'ball-between-stems': { ...ON_STEM, part: choice('ball-between-stems'), freeStemDiameter: positive },
  'ball-end': { ...ON_STEM, part: choice('ball-end'), flatDiameter: positive },
  cap: { ...SIZE, part: choice('cap'), baseDiameter: optional(positive), height: optional(positive) },
  socket: { ...SIZE, part: choice('socket'), openingDiameter: optional(positive), depth: optional(positive) },
});

/**
 * Reads the part that is wanted, and refuses what cannot exist. Only what was vouched for leaves it: then one of
 * radius and diameter is given.
 */
export const sphereTarget: Reader<SphereTarget> = vouched(stated, zoneOf) as Reader<unknown> as Reader<SphereTarget>;

/** Reads it and reduces it to its zone. */
export const targetZone: Reader<Zone> = reduced(stated, zoneOf);

/**
 * What a target amounts to: radius, polar angles, and the diameters and heights at both ends.
 * @param target - The part that is wanted.
 * @throws GeneratrixError `impossible-geometry` for a part that cannot exist, `contradiction` or
 * `missing-option` where too much or too little is given.
 * @example
 * ```ts
 * import { sphereShape } from 'generatrix/sphere';
 * const socket = sphereShape({ part: 'socket', openingDiameter: 48, depth: 12 });
 * socket.radius; // => 30
 * socket.toHeight; // => 18
 * sphereShape({ part: 'ball-on-stem', diameter: 50, stemDiameter: 30 }).toHeight; // => -20
 * sphereShape({ part: 'ball-on-stem', diameter: 50, stemDiameter: 50 }); // throws out-of-range
 * ```
 */
export function sphereShape(target: SphereTarget): SphereShape {
  const { part, side, radius, from, to, rims } = readValue(target, targetZone);
  return sound({ part, side, radius, fromDeg: degrees(from), toDeg: degrees(to), ...rims });
}

/** The zone of a target whose numbers have been read; refuses numbers that contradict each other. */
export function zoneOf(target: Stated): Zone {
  const sized = sizeOf(target);
  if (target.part === 'cap')
    return dome(target.part, sized, 'baseDiameter', target.baseDiameter, 'height', target.height);
  if (target.part === 'socket') {
    return dome(target.part, sized, 'openingDiameter', target.openingDiameter, 'depth', target.depth);
  }
  const radius = sized ?? refuse('missing-option', 'diameter', undefined, 'must be given, or the radius');
  const rim = number({ above: 0, below: 2 * radius });
  const toDiameter = readValue(target.stemDiameter, rim, 'stemDiameter');
  const fromDiameter =
    target.part === 'ball-on-stem'
      ? 0
      : target.part === 'ball-end'
        ? readValue(target.flatDiameter, rim, 'flatDiameter')
        : readValue(target.freeStemDiameter, rim, 'freeStemDiameter');
  const { middle, half, from, to } = between(Math.asin(fromDiameter / 2 / radius), Math.asin(toDiameter / 2 / radius));
  const rims = {
    fromDiameter,
    fromHeight: leg(radius, fromDiameter / 2),
    toDiameter,
    toHeight: -leg(radius, toDiameter / 2),
  };
  return { part: target.part, side: 'ball', radius, middle, half, from, to, rims };
}

/** Angles of a zone by how far its ends lie from the pole of each; the far end is a small angle for a small stem. */
function between(start: number, stem: number): Pick<Zone, 'middle' | 'half' | 'from' | 'to'> {
  const lean = (start - stem) / 2;
  const left = (start + stem) / 2;
  return {
    middle: { rad: Math.PI / 2 + lean, sin: Math.cos(lean), cos: -Math.sin(lean) },
    half: { rad: Math.PI / 2 - left, sin: Math.cos(left), cos: Math.sin(left) },
    from: start,
    to: Math.PI - stem,
  };
}

/** Whether the far end of a part is a stem. */
export function isOnStem({ part }: Pick<Zone, 'part'>): boolean {
  return part === 'ball-on-stem' || part === 'ball-end' || part === 'ball-between-stems';
}

/** Where the centre of a nose must run: the sphere that it runs on, and its zone there. */
export interface NosePath extends Pick<Zone, 'middle' | 'half' | 'from' | 'to'> {
  /** Radius of the sphere on which the nose's centre runs. */
  readonly radius: number;
}

/**
 * Where the centre of a nose must run to cut a zone. Beside a stem of diameter d it stops where the nose touches
 * sphere and stem, sin φ = (d/2 + n)/(R + n): a fillet of its own radius must stay, or it would cut the stem.
 */
export function nosePath(zone: Zone, noseRadius: number): NosePath {
  const { side, part, from, to, middle, half, rims } = zone;
  const radius = side === 'ball' ? zone.radius + noseRadius : zone.radius - noseRadius;
  if (noseRadius === 0 || !isOnStem(zone)) return { radius, middle, half, from, to };
  const beside = (diameter: number): number => Math.asin((diameter / 2 + noseRadius) / radius);
  return {
    radius,
    ...between(part === 'ball-between-stems' ? beside(rims.fromDiameter) : from, beside(rims.toDiameter)),
  };
}

/** A dome or a socket from its pole to a rim of half-chord s at depth t: R = (s² + t²)/(2t), tan(half) = t/s. */
function dome(
  part: 'cap' | 'socket',
  sized: number | undefined,
  rim: string,
  rimDiameter: number | undefined,
  rise: string,
  height: number | undefined,
): Zone {
  let radius: number;
  let chord: number;
  let depth: number;
  if (rimDiameter !== undefined && height !== undefined) {
    if (sized !== undefined) return refuse('contradiction', rise, height, `must be left out: size and ${rim} state it`);
    chord = rimDiameter / 2;
    depth = height;
    radius = representable((chord * (chord / depth) + depth) / 2, rise);
  } else if (sized !== undefined && rimDiameter !== undefined) {
    radius = sized;
    chord = readValue(rimDiameter, number({ above: 0, max: 2 * radius }), rim) / 2;
    depth = chord * (chord / (radius + leg(radius, chord)));
  } else if (sized !== undefined && height !== undefined) {
    radius = sized;
    depth = readValue(height, number({ above: 0, below: 2 * radius }), rise);
    chord = Math.sqrt(depth) * Math.sqrt(2 * radius - depth);
  } else {
    const given = sized !== undefined ? 'the size' : rimDiameter !== undefined ? rim : height === undefined ? '' : rise;
    const phrase = `must give exactly two of radius (or diameter), ${rim} and ${rise}`;
    return refuse('missing-option', '', given || undefined, { kind: 'object', phrase });
  }
  const tan = representable(depth / chord, rise);
  const rad = Math.atan(tan);
  if (!(rad > 0)) return refuse('impossible-geometry', rise, depth, 'must be deep enough to be told from a plane');
  if (part === 'socket' && rad > Math.PI / 3 + 1e-12) {
    return refuse('impossible-geometry', height === undefined ? rim : rise, height ?? rimDiameter, deepest(radius));
  }
  const cos = 1 / Math.sqrt(1 + tan * tan);
  const half = { rad, sin: tan * cos, cos };
  const rims = { fromDiameter: 0, fromHeight: radius, toDiameter: 2 * chord, toHeight: radius - depth };
  const side = part === 'cap' ? 'ball' : 'socket';
  return { part, side, radius, middle: half, half, from: 0, to: 2 * rad, rims };
}

/** How deep a socket may be. */
function deepest(radius: number): Allowed {
  const max = 1.5 * radius;
  const phrase = say`must be at most 1.5 times the radius, ${tell(max)}: the spindle comes in through the opening`;
  return { kind: 'number', max, phrase };
}

/** The other leg of a right triangle; the second form where the product would overflow or underflow. */
function leg(hypotenuse: number, other: number): number {
  const [less, more] = [hypotenuse - other, hypotenuse + other];
  const product = less * more;
  return product > 1e-280 && product < 1e280 ? Math.sqrt(product) : Math.sqrt(less) * Math.sqrt(more);
}

/** The radius, if a size is given. */
function sizeOf({ radius, diameter }: Sized<unknown>): number | undefined {
  if (diameter === undefined) return radius;
  if (radius !== undefined) return refuse('contradiction', 'diameter', diameter, 'must be left out beside the radius');
  const half = diameter / 2;
  return half > 0 ? half : refuse('not-representable', 'diameter', diameter, 'must be halved without vanishing');
}

/** Radians to degrees. */
export function degrees(rad: number): number {
  return (rad * 180) / Math.PI;
}

/** Degrees to radians. */
export function radians(deg: number): number {
  return (deg * Math.PI) / 180;
}
