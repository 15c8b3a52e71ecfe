/**
 * The meridian of a sweep's path by the sweep's own angle t: place, normal, curvature, and how fast it is run
 * through. Frame and symbols as in sweep.ts. Fills what the caller brings, so that a loop over a million places
 * leaves nothing behind.
 *
 * With a nose the finished surface is the parallel one, a nose radius nearer to the axis on a ball and farther
 * in a socket: a point moves along the normal, the curvature κ becomes κ / (1 + offset κ).
 */
import { length2 } from './solve.js';
import type { ReadSweep, SweptSide } from './sweep.js';

/** A place of the path's meridian; one is made, and filled again and again. */
export interface Shape {
  z: number;
  rho: number;
  /** Part along z of the normal away from the axis. */
  normalZ: number;
  normalRho: number;
  curvature: number;
  /** Length of meridian per radian of sweep. */
  speed: number;
}

/** A shape to fill. */
export function emptyShape(): Shape {
  return { z: 0, rho: 0, normalZ: 0, normalRho: 0, curvature: 0, speed: 0 };
}

/** From the path of the nose's centre to the finished surface, away from the axis; 0 for a sharp point. */
export function offsetOf({ noseRadius }: ReadSweep, side: SweptSide): number {
  return (side === 'ball' ? -noseRadius : noseRadius) + 0;
}

/** Place of the path at the turn of this sine and cosine. */
export function pathAt(
  { radius: r, distance: h, skew: e, sin, cos }: ReadSweep,
  sinT: number,
  cosT: number,
  into: { z: number; rho: number },
): void {
  into.z = h * cos - r * sin * cosT;
  into.rho = length2(h * sin + r * cos * cosT, e + r * sinT);
}

/** Shape of the path there as well; NaN in normal and curvature where it has no normal. */
export function shapeAt(sweep: ReadSweep, sinT: number, cosT: number, into: Shape): void {
  const { radius: r, distance: h, skew: e, sin, cos } = sweep;
  pathAt(sweep, sinT, cosT, into);
  const { z, rho } = into;
  if (e === 0) {
    const sphereRadius = length2(h, r);
    into.normalZ = z / sphereRadius;
    into.normalRho = rho / sphereRadius;
    into.curvature = 1 / sphereRadius;
    // ρ dφ/dt = -dz/dt sin φ R / ρ: the meridian is run through at |dz/dt| R / ρ.
    into.speed = Math.abs((r * sin * sinT * sphereRadius) / rho);
    return;
  }
  // First and second derivative of z, and of ρ from those of ρ²/2, with respect to t.
  const z1 = r * sin * sinT;
  const z2 = r * sin * cosT;
  const half1 = r * (e * cosT - h * sin * cos * sinT + r * sin * sin * sinT * cosT);
  const half2 = r * (-e * sinT - h * sin * cos * cosT + r * sin * sin * (cosT - sinT) * (cosT + sinT));
  // Through the axis itself the way across is the way of the point.
  const rho1 = rho === 0 ? r * length2(cos * sinT, cosT) : half1 / rho;
  const rho2 = (half2 - rho1 * rho1) / rho;
  const speed = length2(z1, rho1);
  const outward = z1 >= 0 ? 1 : -1;
  into.normalZ = (-outward * rho1) / speed;
  into.normalRho = (outward * z1) / speed;
  into.curvature = (outward * (rho1 * z2 - z1 * rho2)) / (speed * speed * speed);
  into.speed = speed;
}
