/**
 * The one way every function of this room takes the part that is wanted: a zone of a sphere, as the
 * drawing gives it. Polar angles run from the free end's pole: the top of a ball, the bottom of a
 * socket. Lengths share one unit; angles are degrees outside, radians inside.
 */
import { choice, number, options, positive, representable } from '../core/checks.js';
import { refuse } from '../core/errors.js';

/** Size of a sphere, by radius or by diameter. */
export type SphereSize =
  | {
      /** Radius of the sphere. */
      readonly radius: number;
    }
  | {
      /** Diameter of the sphere. */
      readonly diameter: number;
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
export interface Zone {
  /** Kind of part. */
  readonly part: SphereTarget['part'];
  /** On which side of the sphere the material lies. */
  readonly side: 'ball' | 'socket';
  /** Radius of the sphere. */
  readonly radius: number;
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

const PARTS = ['ball-on-stem', 'ball-between-stems', 'ball-end', 'cap', 'socket'] as const;

/**
 * What a target amounts to: radius, polar angles, and the diameters and heights at both ends.
 *
 * @param target - The part that is wanted.
 * @returns The zone of the sphere that must be cut.
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
  const { part, side, radius, from, to, rims } = readTarget(target);
  return { part, side, radius, fromDeg: degrees(from), toDeg: degrees(to), ...rims };
}

/** Reads a target however it is stated, and refuses what cannot exist. */
export function readTarget(target: SphereTarget, parameter = 'target'): Zone {
  // Only the kind is read here; each reader below checks all keys.
  const kind: unknown = (target as { readonly part?: unknown } | null | undefined)?.part;
  const part = choice(kind, `${parameter}.part`, PARTS);
  if (part === 'cap') return dome(target, parameter, part, 'baseDiameter', 'height');
  if (part === 'socket') return dome(target, parameter, part, 'openingDiameter', 'depth');
  const free = { 'ball-on-stem': [], 'ball-between-stems': ['freeStemDiameter'], 'ball-end': ['flatDiameter'] }[part];
  const given = options(target, parameter, ['part', 'stemDiameter', ...free], ['radius', 'diameter']);
  const radius =
    size(given, parameter) ?? refuse('missing-option', parameter, undefined, 'must give the size: radius or diameter');
  const rim = (key: string): number => number(given[key], `${parameter}.${key}`, { above: 0, below: 2 * radius });
  const toDiameter = rim('stemDiameter');
  const fromDiameter = free[0] === undefined ? 0 : rim(free[0]);
  const stem = Math.asin(toDiameter / 2 / radius);
  const start = Math.asin(fromDiameter / 2 / radius);
  // From the pole of each end; the far end is a small angle for a small stem.
  const lean = (start - stem) / 2;
  const left = (start + stem) / 2;
  return {
    part,
    side: 'ball',
    radius,
    middle: { rad: Math.PI / 2 + lean, sin: Math.cos(lean), cos: -Math.sin(lean) },
    half: { rad: Math.PI / 2 - left, sin: Math.cos(left), cos: Math.sin(left) },
    from: start,
    to: Math.PI - stem,
    rims: {
      fromDiameter,
      fromHeight: leg(radius, fromDiameter / 2),
      toDiameter,
      toHeight: -leg(radius, toDiameter / 2),
    },
  };
}

/** A dome or a socket from its pole to a rim of half-chord s at depth t: R = (s² + t²)/(2t), tan(half) = t/s. */
function dome(target: SphereTarget, parameter: string, part: 'cap' | 'socket', rim: string, rise: string): Zone {
  const given = options(target, parameter, ['part'], ['radius', 'diameter', rim, rise]);
  const sized = size(given, parameter);
  const stated = [sized, given[rim], given[rise]].filter((value) => value !== undefined).length;
  if (stated !== 2) {
    return refuse(
      stated < 2 ? 'missing-option' : 'contradiction',
      parameter,
      Object.keys(given),
      `must give exactly two of radius (or diameter), ${rim} and ${rise}`,
    );
  }
  let radius: number;
  let chord: number;
  let depth: number;
  if (sized === undefined) {
    chord = positive(given[rim], `${parameter}.${rim}`) / 2;
    depth = positive(given[rise], `${parameter}.${rise}`);
    radius = representable((chord * (chord / depth) + depth) / 2, parameter);
  } else if (given[rise] === undefined) {
    radius = sized;
    chord = number(given[rim], `${parameter}.${rim}`, { above: 0, max: 2 * radius }) / 2;
    depth = chord * (chord / (radius + leg(radius, chord)));
  } else {
    radius = sized;
    depth = number(given[rise], `${parameter}.${rise}`, { above: 0, below: 2 * radius });
    chord = Math.sqrt(depth) * Math.sqrt(2 * radius - depth);
  }
  const tan = representable(depth / chord, parameter);
  const rad = Math.atan(tan);
  if (!(rad > 0)) return refuse('impossible-geometry', parameter, rad, 'must be deep enough to be told from a plane');
  if (part === 'socket' && rad > Math.PI / 3 + 1e-12) {
    return refuse(
      'impossible-geometry',
      `${parameter}.${rise}`,
      given[rise],
      `must be at most 1.5 times the radius, ${1.5 * radius}: the spindle comes in through the opening`,
    );
  }
  const cos = 1 / Math.sqrt(1 + tan * tan);
  const half = { rad, sin: tan * cos, cos };
  const rims = { fromDiameter: 0, fromHeight: radius, toDiameter: 2 * chord, toHeight: radius - depth };
  const side = part === 'cap' ? 'ball' : 'socket';
  return { part, side, radius, middle: half, half, from: 0, to: 2 * rad, rims };
}

/** The other leg of a right triangle; the second form where the product would overflow or underflow. */
function leg(hypotenuse: number, other: number): number {
  const [less, more] = [hypotenuse - other, hypotenuse + other];
  const product = less * more;
  return product > 1e-280 && product < 1e280 ? Math.sqrt(product) : Math.sqrt(less) * Math.sqrt(more);
}

function size(given: Readonly<Record<string, unknown>>, parameter: string): number | undefined {
  const { radius, diameter } = given;
  if (radius !== undefined && diameter !== undefined) {
    return refuse('contradiction', parameter, Object.keys(given), 'must give radius or diameter, not both');
  }
  if (radius !== undefined) return positive(radius, `${parameter}.radius`);
  return diameter === undefined ? undefined : representable(positive(diameter, `${parameter}.diameter`) / 2, parameter);
}

/** Radians to degrees. */
export function degrees(rad: number): number {
  return (rad * 180) / Math.PI;
}

/** Degrees to radians. */
export function radians(deg: number): number {
  return (deg * Math.PI) / 180;
}
