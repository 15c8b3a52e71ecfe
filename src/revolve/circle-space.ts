/** A circle anywhere in space, reduced to the four numbers that decide what it cuts. */
import { list, number, options } from '../core/checks.js';
import { refuse } from '../core/errors.js';
import { atan2Deg } from '../core/trigonometry.js';
import type { CircleSweep } from './circle.js';
import { length2 } from './solve.js';

/** A circular tool path given in the work's own coordinates: z is the work's axis. */
export interface CircleInSpace {
  /** Centre of the circle: x, y, z. */
  readonly centre: readonly [number, number, number];
  /** Direction of the head's axis, of any length: x, y, z. */
  readonly axis: readonly [number, number, number];
  /** Radius of the circle. */
  readonly radius: number;
}

/** A sweep in its own frame, and where that frame lies in the work's coordinates. */
export interface PlacedSweep {
  /** The circle, in the frame of the common perpendicular. */
  readonly sweep: Required<CircleSweep>;
  /** z of the frame's origin: where the common perpendicular meets the work's axis. */
  readonly footZ: number;
  /** Direction of the head's tilt about the work's axis, from +x towards +y, above -180 up to 180 degrees. */
  readonly azimuthDeg: number;
}

/**
 * Below this sine of the tilt the direction of the tilt is noise of the last digits of `axis`, and the
 * axes count as parallel. Just above it `distance` is large and keeps few digits, as it must: the place
 * where two nearly parallel lines meet is badly determined.
 */
const PARALLEL = 4 * Number.EPSILON;

/**
 * Tilt, distance and skew of a circle given in space. The axis and its opposite describe the same
 * circle and the same surface; the tilt is that of the direction given.
 *
 * Parallel axes have no foot: then `footZ` is the height of the circle, `distance` is 0, and `skew` the
 * distance between the axes.
 *
 * @param circle - Centre, axis and radius in the work's coordinates.
 * @returns The sweep and its place along and around the work's axis.
 * @throws GeneratrixError if a number is missing or not finite, or the axis has no length.
 * @example
 * ```ts
 * import { sweepInSpace } from 'generatrix';
 * const { sweep, footZ } = sweepInSpace({ centre: [40, 1, 25], axis: [2, 0, 0], radius: 30 });
 * sweep; // => { tiltDeg: 90, radius: 30, distance: 40, skew: 1 }
 * footZ; // => 25
 * sweepInSpace({ centre: [0, 0, 0], axis: [0, 0, 0], radius: 30 }); // throws impossible-geometry
 * ```
 */
export function sweepInSpace(circle: CircleInSpace): PlacedSweep {
  const given = options(circle, 'circle', ['centre', 'axis', 'radius']);
  const [cx, cy, cz] = vector(given['centre'], 'circle.centre');
  const [ax, ay, az] = vector(given['axis'], 'circle.axis');
  const radius = number(given['radius'], 'circle.radius', { min: 1e-100, max: 1e100 });
  const largest = Math.max(Math.abs(ax), Math.abs(ay), Math.abs(az));
  if (largest === 0) return refuse('impossible-geometry', 'circle.axis', circle.axis, 'must have a direction');
  const across = length2(ax / largest, ay / largest);
  const along = az / largest;
  if (across <= PARALLEL * Math.abs(along)) {
    const sweep = { tiltDeg: along > 0 ? 0 : 180, radius, distance: 0, skew: length2(cx, cy) };
    return { sweep, footZ: cz + 0, azimuthDeg: 0 };
  }
  const ux = ax / largest / across;
  const uy = ay / largest / across;
  // The centre's part along the tilt is h sin α, so its height above the foot, h cos α, is that part over tan α.
  const sideways = ux * cx + uy * cy;
  return {
    sweep: {
      tiltDeg: atan2Deg(across, along),
      radius,
      distance: (sideways * length2(across, along)) / across + 0,
      skew: ux * cy - uy * cx + 0,
    },
    footZ: cz - (sideways * along) / across + 0,
    azimuthDeg: atan2Deg(uy, ux) + 0,
  };
}

function vector(value: unknown, parameter: string): [number, number, number] {
  const items = list(value, parameter, 3);
  if (items.length !== 3) return refuse('wrong-kind', parameter, value, 'must hold three numbers');
  const limits = { min: -1e100, max: 1e100 };
  const [x, y, z] = items.map((item, i) => number(item, `${parameter}[${i}]`, limits));
  return [x as number, y as number, z as number];
}
