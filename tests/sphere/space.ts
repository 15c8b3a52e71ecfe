/**
 * The judge of this room: a sweep as points in space, made with rotation matrices and from the words of
 * its definition alone, then turned about the work's axis. Shares no formula with the library.
 */

/** A point. */
export type Point = readonly [number, number, number];

/** A circle in space: its axis starts on (or passes) the z axis and is tilted in the x-z plane. */
export interface SpaceSweep {
  readonly tiltDeg: number;
  readonly sweepRadius: number;
  readonly distance: number;
  readonly skew?: number;
  readonly miss?: number;
}

/** Turns a point about the y axis, from z towards x. */
function tilt([x, y, z]: Point, deg: number): Point {
  const [s, c] = [Math.sin((deg / 180) * Math.PI), Math.cos((deg / 180) * Math.PI)];
  return [c * x + s * z, y, c * z - s * x];
}

/** Points of the sweep: an upright circle at a height, moved across, tilted, and moved sideways. */
export function sweepPoints(
  { tiltDeg, sweepRadius, distance, skew = 0, miss = 0 }: SpaceSweep,
  count: number,
): Point[] {
  return Array.from({ length: count }, (_, i): Point => {
    const t = (2 * Math.PI * i) / count;
    const flat: Point = [sweepRadius * Math.cos(t), sweepRadius * Math.sin(t) + skew, distance];
    const [x, y, z] = tilt(flat, tiltDeg);
    return [x + miss, y, z];
  });
}

/** The same points as the work sees them: distance from the axis, and height. */
export function revolved(points: readonly Point[]): (readonly [rho: number, z: number])[] {
  return points.map(([x, y, z]) => [Math.hypot(x, y), z]);
}
