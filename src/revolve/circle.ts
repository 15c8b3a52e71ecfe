/**
 * A tip that sweeps a circle while the work turns: what kind of surface its path is, and how far it reaches.
 * Frame and symbols as in sweep.ts. With a nose this is the path of the nose's centre.
 */
import { extremes } from '../core/linear.js';
import { readValue, sound } from '../core/read.js';
import { atan2Deg } from '../core/trigonometry.js';
import { pathAt } from './circle-shape.js';
import { length2, rootsAround } from './solve.js';
import { anySweep, type ReadSweep, type Sweep, sweepOf } from './sweep.js';

/** What every revolved circle has, whatever its kind. */
export interface SweptExtent {
  /** Lowest place of the sweep along the work's axis, from the foot. */
  readonly zMin: number;
  /** Highest place of the sweep along the work's axis, from the foot. */
  readonly zMax: number;
  /** Distance from the axis at the `zMax` end: the radius of the pip that stays uncut there. */
  readonly pipRadius: number;
  /** Distance from the axis at the `zMin` end. */
  readonly farPipRadius: number;
  /** Smallest distance from the work's axis over the whole sweep. */
  readonly nearestToAxis: number;
  /** Largest distance from the work's axis over the whole sweep. */
  readonly farthestFromAxis: number;
  /** Smallest distance from the foot over the whole sweep. */
  readonly nearestToFoot: number;
  /** Largest distance from the foot over the whole sweep. */
  readonly farthestFromFoot: number;
  /** Smallest polar angle of the sweep, seen from the foot and counted from the +z axis. */
  readonly polarFromDeg: number;
  /** Largest polar angle of the sweep. */
  readonly polarToDeg: number;
}

/** The axes meet: exactly a sphere about the foot, between the polar angles |α - β| and α + β. */
export interface SphereSurface extends SweptExtent {
  /** Which surface it is. */
  readonly kind: 'sphere';
  /** Radius R of the sphere: R² = h² + r². */
  readonly sphereRadius: number;
  /** Angle β under which the sweep's radius is seen from the sphere's centre: tan β = r/h. */
  readonly halfWidthDeg: number;
}

/** The axes miss each other: not a sphere, but a meridian of two branches that meet at both ends. */
export interface SkewSurface extends SweptExtent {
  /** Which surface it is. */
  readonly kind: 'skew-sweep';
  /** Radius of the sphere that the same sweep would cut without skew. */
  readonly sphereRadius: number;
  /** Distance from the foot at both ends of the sweep: sqrt(h² + e² + r²). */
  readonly endRadius: number;
}

/** The circle's plane holds the work's axis and its centre does not lie on it. */
export interface TorusSurface extends SweptExtent {
  /** Which surface it is. */
  readonly kind: 'torus';
  /** Distance of the tube's centre from the axis. */
  readonly majorRadius: number;
  /** Radius of the tube. */
  readonly minorRadius: number;
  /** `ring` is open in the middle, `horn` just closed, `spindle` crosses the axis. */
  readonly form: 'ring' | 'horn' | 'spindle';
}

/** The axes are parallel: a flat face between two radii, at height h. The foot is then a chosen origin. */
export interface FaceSurface extends SweptExtent {
  /** Which surface it is. */
  readonly kind: 'face';
}

/** The axes coincide: one ring and no surface at all. */
export interface RingSurface extends SweptExtent {
  /** Which surface it is. */
  readonly kind: 'ring';
}

/** The surface that a circular tool path leaves on turning work. */
export type CircleSurface = SphereSurface | SkewSurface | TorusSurface | FaceSurface | RingSurface;

/**
 * The surface that a circular tool path leaves on turning work: a sphere where the axes meet, else a
 * skew sweep, a torus, a flat face or a mere ring.
 *
 * A displacement in the plane of the two axes never spoils the sphere: it only moves the foot, so
 * the distance. Only `skew` does. Heights are from the foot, where the axes really meet or pass.
 * @param sweep - The circle: tilt 0 to 180°, radius above 0, distance, skew and miss of either sign.
 * @throws GeneratrixError if a number is missing, not finite or out of range.
 * @example
 * ```ts
 * import { revolveCircle } from 'generatrix';
 * const ball = revolveCircle({ tiltDeg: 90, sweepRadius: 3, distance: 4 });
 * ball.kind; // => 'sphere'
 * ball.kind === 'sphere' && ball.sphereRadius; // => 5
 * ball.pipRadius; // => 4
 * revolveCircle({ tiltDeg: 90, sweepRadius: 3, distance: 4, skew: 0.01 }).kind; // => 'skew-sweep'
 * revolveCircle({ tiltDeg: 0, sweepRadius: 3, distance: 4 }).kind; // => 'ring'
 * revolveCircle({ tiltDeg: 200, sweepRadius: 3, distance: 4 }); // throws out-of-range
 * ```
 */
export function revolveCircle(sweep: Sweep): CircleSurface {
  return sound(revolved(sweepOf(readValue(sweep, anySweep))));
}

/** The same for a sweep that has been read. */
function revolved(sweep: ReadSweep): CircleSurface {
  const { radius: r, distance: h, skew: e, sin, cos } = sweep;
  if (sin === 0) return parallel(sweep);
  const ends = {
    zMin: h * cos - r * sin + 0,
    zMax: h * cos + r * sin + 0,
    pipRadius: length2(h * sin - r * cos, e),
    farPipRadius: length2(h * sin + r * cos, e),
  };
  if (e === 0) return sphere(sweep, ends);
  const sphereRadius = length2(h, r);
  const extremes = {
    nearestToFoot: length2(h, Math.abs(e) - r),
    farthestFromFoot: length2(h, Math.abs(e) + r),
    ...axisExtremes(sweep),
    ...polarExtremes(sweep),
  };
  if (sweep.tiltDeg === 90 && h === 0) {
    const majorRadius = Math.abs(e);
    const form = majorRadius > r ? 'ring' : majorRadius < r ? 'spindle' : 'horn';
    const axis = { nearestToAxis: Math.max(0, majorRadius - r), farthestFromAxis: majorRadius + r };
    return { kind: 'torus', majorRadius, minorRadius: r, form, ...ends, ...extremes, ...axis };
  }
  return { kind: 'skew-sweep', sphereRadius, endRadius: length2(sphereRadius, e), ...ends, ...extremes };
}

type Ends = Pick<SweptExtent, 'zMin' | 'zMax' | 'pipRadius' | 'farPipRadius'>;

function sphere({ radius: r, distance: h }: ReadSweep, ends: Ends): SphereSurface {
  const { zMin, zMax, pipRadius, farPipRadius } = ends;
  const sphereRadius = length2(h, r);
  return {
    kind: 'sphere',
    sphereRadius,
    halfWidthDeg: atan2Deg(r, h),
    ...ends,
    nearestToAxis: Math.min(pipRadius, farPipRadius),
    farthestFromAxis: zMin <= 0 && zMax >= 0 ? sphereRadius : Math.max(pipRadius, farPipRadius),
    nearestToFoot: sphereRadius,
    farthestFromFoot: sphereRadius,
    polarFromDeg: atan2Deg(pipRadius, zMax),
    polarToDeg: atan2Deg(farPipRadius, zMin),
  };
}

/** Parallel axes: the circle lies flat, so its nearest and farthest points from the axis are its ends. */
function parallel(sweep: ReadSweep): FaceSurface | RingSurface {
  const { radius: r, distance: h, skew: e } = sweep;
  const z = (sweep.tiltDeg === 0 ? h : -h) + 0;
  const near = Math.abs(r - Math.abs(e));
  const far = r + Math.abs(e);
  const polar = [atan2Deg(near, z), atan2Deg(far, z)] as const;
  return {
    kind: e === 0 ? 'ring' : 'face',
    zMin: z,
    zMax: z,
    pipRadius: near,
    farPipRadius: near,
    nearestToAxis: near,
    farthestFromAxis: far,
    nearestToFoot: length2(near, z),
    farthestFromFoot: length2(far, z),
    polarFromDeg: Math.min(...polar),
    polarToDeg: Math.max(...polar),
  };
}

/** Nearest and farthest point from the work's axis: where the derivative of ρ² along the sweep is nought. */
function axisExtremes(sweep: ReadSweep): Pick<SweptExtent, 'nearestToAxis' | 'farthestFromAxis'> {
  const { radius: r, distance: h, skew: e, sin, cos } = sweep;
  const slope = (t: number): number =>
    e * Math.cos(t) - h * sin * cos * Math.sin(t) + r * sin * sin * Math.sin(t) * Math.cos(t);
  const [nearestToAxis, farthestFromAxis] = extremes(rootsAround(slope).map((t) => placeOn(sweep, t).rho));
  return { nearestToAxis, farthestFromAxis };
}

/** Extreme polar angles: where the derivative of z/|P| along the sweep is nought. */
function polarExtremes(sweep: ReadSweep): Pick<SweptExtent, 'polarFromDeg' | 'polarToDeg'> {
  const { radius: r, distance: h, skew: e, sin, cos } = sweep;
  const slope = (t: number): number =>
    sin * Math.sin(t) * (h * h + e * e + r * r + 2 * r * e * Math.sin(t)) -
    (h * cos - r * sin * Math.cos(t)) * e * Math.cos(t);
  const places = rootsAround(slope).map((t) => {
    const { z, rho } = placeOn(sweep, t);
    return atan2Deg(rho, z);
  });
  // A circle through the foot itself comes and goes along its tangent there.
  const tangent = Math.abs(90 - sweep.tiltDeg);
  if (h === 0 && Math.abs(e) === r) places.push(tangent, 180 - tangent);
  const [polarFromDeg, polarToDeg] = extremes(places);
  return { polarFromDeg, polarToDeg };
}

function placeOn(sweep: ReadSweep, t: number): { readonly z: number; readonly rho: number } {
  const place = { z: 0, rho: 0 };
  pathAt(sweep, Math.sin(t), Math.cos(t), place);
  return place;
}
