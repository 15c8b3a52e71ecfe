/**
 * The surface that a straight tool path cuts: the line revolved about the work axis z. Source: ruled
 * surfaces of revolution, any analytic geometry; ρ² = waist² + (z - waistZ)² tan²(half angle).
 * Lengths in any one unit. Nothing is divided by a component that may vanish, and differences of
 * products are taken without rounding, so nearly degenerate lines keep their digits.
 */
import { product } from '../core/double-double.js';
import { refuse } from '../core/errors.js';
import { anyNumber, array, type Fields, type Reader, read, representable, sound } from '../core/read.js';
import { atanDeg } from '../core/trigonometry.js';

/** A straight path in space; the work axis is z. */
export interface Line {
  /** Any point on the path: x, y, z. */
  readonly point: readonly [number, number, number];
  /** Its direction, of any length and either sense: x, y, z. */
  readonly direction: readonly [number, number, number];
}

/** The path runs along the work axis. */
export interface CylinderSurface {
  /** Which surface this is. */
  readonly kind: 'cylinder';
  /** Radius of the cylinder. */
  readonly radius: number;
}

/** The path meets the work axis. */
export interface ConeSurface {
  /** Which surface this is. */
  readonly kind: 'cone';
  /** Where the apex lies on the work axis. */
  readonly apexZ: number;
  /** Half the cone angle, degrees. */
  readonly halfAngleDeg: number;
  /** Tangent of the half angle with its full digits. */
  readonly perSide: number;
}

/** The path passes the work axis askew: a hyperboloid of one sheet. */
export interface HyperboloidSurface {
  /** Which surface this is. */
  readonly kind: 'hyperboloid';
  /** Radius of the narrowest place: the nearest distance between path and axis. */
  readonly waist: number;
  /** Where the narrowest place lies on the work axis. */
  readonly waistZ: number;
  /** Half angle of the cone that it approaches far from the waist, degrees. */
  readonly halfAngleDeg: number;
  /** Tangent of that half angle with its full digits. */
  readonly perSide: number;
}

/** The path lies square across the work axis. */
export interface FlatFaceSurface {
  /** Which surface this is. */
  readonly kind: 'face';
  /** Where the face lies on the work axis. */
  readonly z: number;
  /** Radius that the path never goes inside of; 0 if it crosses the axis. */
  readonly innerRadius: number;
}

/** What a straight path cuts. */
export type LineSurface = CylinderSurface | ConeSurface | HyperboloidSurface | FlatFaceSurface;

/**
 * A path this near to the axis, relative to the products that its distance is the difference of, is
 * taken to meet it: each coordinate may be off by a few units of its own rounding.
 */
const MEETS = 2 ** -50;

/**
 * The surface that a straight tool path cuts in work turning about z.
 *
 * A direction counts as along or square across the axis only where its components are exactly zero.
 * A path counts as meeting the axis where its distance from it is lost in the rounding of its own
 * coordinates (2⁻⁵⁰ of the two products whose difference it is).
 * @throws GeneratrixError `impossible-geometry` if the direction is zero, or the path is the axis itself.
 * @example
 * ```ts
 * import { revolveLine } from 'generatrix/revolve';
 * revolveLine({ point: [2, 0, 10], direction: [0, 0, 1] }); // => { kind: 'cylinder', radius: 2 }
 * revolveLine({ point: [3, 4, 7], direction: [3, 4, 0] }); // => { kind: 'face', z: 7, innerRadius: 0 }
 * revolveLine({ point: [0, 3, 5], direction: [1, 0, 1] }).kind; // => 'hyperboloid'
 * ```
 */
export function revolveLine(line: Line): LineSurface {
  return sound(revolved(read(line, LINE)), 'point');
}

const vector = array(anyNumber, 3, 3) as Reader<unknown> as Reader<Line['point']>;
const LINE: Fields<Line> = { point: vector, direction: vector };

function revolved({ point: [ax, ay, az], direction: [vx, vy, vz] }: Line): LineSurface {
  const scale = powerBelow(Math.max(Math.abs(vx), Math.abs(vy), Math.abs(vz)));
  if (scale === 0) return refuse('impossible-geometry', 'direction', 0, 'must not be the zero vector');
  const acrossScale = powerBelow(Math.max(Math.abs(vx / scale), Math.abs(vy / scale)));
  if (acrossScale === 0) {
    const radius = length(ax, ay);
    if (radius === 0) return refuse('impossible-geometry', 'direction', 0, 'must not be the work axis itself');
    return { kind: 'cylinder', radius: representable(radius, 'point') };
  }
  // Scaled by powers of two: no rounding, and no product can overflow.
  const [dx, dy, dz] = [vx / scale / acrossScale, vy / scale / acrossScale, vz / scale];
  const across = Math.sqrt(dx * dx + dy * dy);
  const size = powerBelow(Math.max(Math.abs(ax), Math.abs(ay))) || 1;
  const [px, py] = [ax / size, ay / size];
  const moment = Math.abs(sumOfProducts(px, dy, -py, dx));
  const meets = moment <= MEETS * (Math.abs(px * dy) + Math.abs(py * dx));
  const waist = meets ? 0 : representable((moment / across) * size, 'point');
  if (dz === 0) return { kind: 'face', z: az + 0, innerRadius: waist };
  const slope = (across / Math.abs(dz)) * acrossScale;
  const perSide = representable(slope, 'direction');
  const halfAngleDeg = atanDeg(slope);
  const along = (sumOfProducts(px, dx, py, dy) / (across * across)) * size;
  const waistZ = representable(az - along * (dz / acrossScale), 'point') + 0;
  return meets
    ? { kind: 'cone', apexZ: waistZ, halfAngleDeg, perSide }
    : { kind: 'hyperboloid', waist, waistZ, halfAngleDeg, perSide };
}

/** The power of two at or just below a size: dividing by it rounds nothing. 0 for 0. */
function powerBelow(value: number): number {
  return value === 0 ? 0 : 2 ** Math.min(1023, Math.floor(Math.log2(value)));
}

/** Length of a plane vector, safe against overflow. */
function length(x: number, y: number): number {
  const scale = powerBelow(Math.max(Math.abs(x), Math.abs(y)));
  return scale === 0 ? 0 : scale * Math.sqrt((x / scale) ** 2 + (y / scale) ** 2);
}

/** a b + c d with one rounding of note, also where the two nearly cancel. */
function sumOfProducts(a: number, b: number, c: number, d: number): number {
  const [p, pLost] = product(a, b);
  const [q, qLost] = product(c, d);
  return p + q + (pLost + qLost);
}
