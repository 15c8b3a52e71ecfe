/**
 * The meridian that a revolved circle leaves: distance from the axis at a place along it, and slope,
 * curvature and nose offset at a place along the sweep. Frame and symbols as in circle.ts.
 *
 * A skew sweep cuts two branches. Cut all round, a ball keeps the inner one (the tool has removed what
 * lies outside of it), a socket the outer one. A tool that cuts on part of its sweep only leaves the
 * branches that it reaches.
 */
import { choice, nonNegative, number, options, representable } from '../core/checks.js';
import { refuse } from '../core/errors.js';
import { acosDeg, cosDeg, sinDeg } from '../core/trigonometry.js';
import { type CircleSweep, readSweep } from './circle.js';
import { length2 } from './solve.js';

/** Which side of the tool's path the finished part is on: within it (ball) or around it (socket). */
export type SweptPart = 'ball' | 'socket';

/**
 * The part of its sweep on which the tool cuts, in degrees of the sweep's own angle t: 0 at the lowest
 * place along the work's axis (`zMin`), 180 at the highest, 90 at the +y side. `toDeg` lies above
 * `fromDeg`, by less than a full turn.
 */
export interface SweepArc {
  /** Where the tool starts to cut. */
  readonly fromDeg: number;
  /** Where it ends. */
  readonly toDeg: number;
}

/** A place along the work's axis and what was cut there. */
export interface MeridianQuery {
  /** The circle. */
  readonly sweep: CircleSweep;
  /** Place along the work's axis, counted from the foot, between `zMin` and `zMax` of the sweep. */
  readonly z: number;
  /** Which side of the path the finished part is on. */
  readonly part: SweptPart;
  /** The part of the sweep on which the tool cuts; all of it if left out. */
  readonly arc?: SweepArc;
}

/** The cut surface at one place along the work's axis. */
export interface MeridianPlace {
  /** Distance of the surface from the work's axis. */
  readonly rho: number;
  /** Which branch the part keeps there. Without skew both are the same. */
  readonly branch: 'inner' | 'outer';
  /** The sweep's angle t at which the tool passes there, 0 to 360 degrees. */
  readonly turnDeg: number;
}

/**
 * Distance from the work's axis at z: the plain-number form, which checks and allocates nothing. The sign
 * of `skew` chooses the branch: negative the inner one, positive the outer one. A z beyond the sweep's
 * ends gives the value at the end's plane with the tool at the end of its sweep.
 *
 * ρ² = ((h - z cos α)/sin α)² + (e ± sqrt(r² - ((h cos α - z)/sin α)²))²
 *
 * @param sinTilt - Sine of the angle between the axes, above 0.
 * @param cosTilt - Cosine of it.
 * @param radius - Radius of the sweep.
 * @param distance - From the foot to the sweep's centre.
 * @param skew - Distance between the axes, with the sign of the branch wanted; 0 gives the sphere.
 * @param z - Place along the work's axis, from the foot.
 * @returns Distance from the work's axis.
 * @example
 * ```ts
 * import { circleRhoAt } from 'generatrix';
 * circleRhoAt(1, 0, 3, 4, 0, 0); // => 5
 * circleRhoAt(1, 0, 3, 4, -3, 0); // => 4
 * circleRhoAt(1, 0, 3, 8, 3, 0); // => 10
 * ```
 */
export function circleRhoAt(
  sinTilt: number,
  cosTilt: number,
  radius: number,
  distance: number,
  skew: number,
  z: number,
): number {
  const down = (distance * cosTilt - z) / sinTilt;
  const side = Math.sqrt(Math.max(0, (radius - down) * (radius + down)));
  if (skew === 0) {
    const sphere = Math.sqrt(distance * distance + radius * radius);
    return Math.sqrt(Math.max(0, (sphere - z) * (sphere + z)));
  }
  const x = (distance - z * cosTilt) / sinTilt;
  return Math.sqrt(x * x + (skew + side) * (skew + side));
}

/**
 * The surface that a sweep leaves at a place along the work's axis, on the branch that the finished part
 * keeps.
 *
 * @param query - Sweep, place, part, and the arc on which the tool cuts.
 * @returns Distance from the axis, branch, and where on its sweep the tool passes.
 * @throws GeneratrixError `out-of-range` if z lies beyond the sweep, `impossible-geometry` if the axes are
 * parallel or the arc does not reach z.
 * @example
 * ```ts
 * import { circleMeridian } from 'generatrix';
 * const sweep = { tiltDeg: 90, radius: 3, distance: 4, skew: 3 };
 * circleMeridian({ sweep, z: 0, part: 'ball' }); // => { rho: 4, branch: 'inner', turnDeg: 270 }
 * circleMeridian({ sweep, z: 0, part: 'ball', arc: { fromDeg: 0, toDeg: 180 } }).branch; // => 'outer'
 * circleMeridian({ sweep, z: 9, part: 'ball' }); // throws out-of-range
 * ```
 */
export function circleMeridian(query: MeridianQuery): MeridianPlace {
  const given = options(query, 'query', ['sweep', 'z', 'part'], ['arc']);
  const sweep = readSweep(query.sweep, 'query.sweep');
  const part = choice(given['part'], 'query.part', ['ball', 'socket']);
  const arc = query.arc && readArc(query.arc);
  const { radius: r, distance: h, skew: e } = sweep;
  const sin = sinDeg(sweep.tiltDeg);
  const cos = cosDeg(sweep.tiltDeg);
  if (sin === 0) return refuse('impossible-geometry', 'query.sweep.tiltDeg', sweep.tiltDeg, 'must not be parallel');
  const z = number(given['z'], 'query.z', { min: h * cos - r * sin, max: h * cos + r * sin });

  const turn = acosDeg(Math.min(1, Math.max(-1, (h * cos - z) / (r * sin))));
  const outerTurn = e < 0 ? 360 - turn : turn;
  const place = (branch: 'inner' | 'outer'): MeridianPlace => ({
    rho: circleRhoAt(sin, cos, r, h, branch === 'outer' ? Math.abs(e) : -Math.abs(e), z),
    branch,
    turnDeg: branch === 'outer' ? outerTurn : 360 - outerTurn,
  });
  const reached = [place('inner'), place('outer')].filter(({ turnDeg }) => !arc || within(turnDeg, arc));
  const kept = reached[part === 'ball' ? 0 : reached.length - 1];
  return kept ?? refuse('impossible-geometry', 'query.arc', query.arc, 'must reach z on one half of the sweep');
}

/** Checks an arc. */
export function readArc(arc: SweepArc): SweepArc {
  const given = options(arc, 'query.arc', ['fromDeg', 'toDeg']);
  const fromDeg = number(given['fromDeg'], 'query.arc.fromDeg', { min: -360, max: 360 });
  return { fromDeg, toDeg: number(given['toDeg'], 'query.arc.toDeg', { above: fromDeg, max: fromDeg + 360 }) };
}

function within(turnDeg: number, { fromDeg, toDeg }: SweepArc): boolean {
  const past = (((turnDeg - fromDeg) % 360) + 360) % 360;
  return past <= toDeg - fromDeg;
}

/** A place along the sweep, and the nose that passes there. */
export interface SweepPointQuery {
  /** The circle on which the centre of the nose (or a sharp tool's point) runs. */
  readonly sweep: CircleSweep;
  /** The sweep's angle t in degrees: 0 at the lowest place along the work's axis, 180 at the highest. */
  readonly turnDeg: number;
  /** Which side of the path the finished part is on. */
  readonly part: SweptPart;
  /** Radius of the tool's nose; 0, a sharp point, if left out. */
  readonly noseRadius?: number;
}

/** One point of the finished meridian with its shape there. */
export interface SweepPoint {
  /** Place along the work's axis, from the foot. */
  readonly z: number;
  /** Distance from the work's axis; negative where the nose reaches across the axis. */
  readonly rho: number;
  /** Part of the surface's normal (pointing away from the axis) along z. */
  readonly normalZ: number;
  /** Part of the normal across the axis, 0 or above. */
  readonly normalRho: number;
  /** Curvature of the meridian, 1 / local radius: positive where its centre lies on the axis' side. */
  readonly curvature: number;
  /** Curvature across the meridian: 1 / distance along the normal to the axis. Both are 1/R on a sphere. */
  readonly curvatureAcross: number;
}

/**
 * Point, normal and curvatures of the finished surface where the tool stands at angle t of its sweep. With
 * a nose the sweep is that of the nose's centre, and the surface is the parallel one, a nose radius nearer
 * to the axis on a ball and farther on a socket. On a sphere that is again a sphere.
 *
 * @param query - Sweep, angle, part and nose radius.
 * @returns The point and the shape of the surface there.
 * @throws GeneratrixError `impossible-geometry` for parallel axes, `not-representable` where the meridian has no
 * normal (a skew sweep that crosses the axis) or the nose meets the centre of curvature.
 * @example
 * ```ts
 * import { circlePoint } from 'generatrix';
 * const sweep = { tiltDeg: 90, radius: 3, distance: 4 };
 * const { z, rho, curvature } = circlePoint({ sweep, turnDeg: 0, part: 'socket', noseRadius: 5 });
 * [z, rho]; // => [-6, 8]
 * curvature; // => 0.1
 * ```
 */
export function circlePoint(query: SweepPointQuery): SweepPoint {
  const given = options(query, 'query', ['sweep', 'turnDeg', 'part'], ['noseRadius']);
  const sweep = readSweep(query.sweep, 'query.sweep');
  const turnDeg = number(given['turnDeg'], 'query.turnDeg', { min: -360, max: 720 });
  const part = choice(given['part'], 'query.part', ['ball', 'socket']);
  const nose = nonNegative(given['noseRadius'] ?? 0, 'query.noseRadius');
  const sin = sinDeg(sweep.tiltDeg);
  const cos = cosDeg(sweep.tiltDeg);
  if (sin === 0) return refuse('impossible-geometry', 'query.sweep.tiltDeg', sweep.tiltDeg, 'must not be parallel');
  const path = pathShape(sweep, sin, cos, sinDeg(turnDeg), cosDeg(turnDeg));
  const offset = part === 'ball' ? -nose : nose;
  const rho = path.rho + offset * path.normalRho;
  const point = {
    z: path.z + offset * path.normalZ + 0,
    rho,
    normalZ: path.normalZ + 0,
    normalRho: path.normalRho,
    curvature: path.curvature / (1 + offset * path.curvature),
    curvatureAcross: sweep.skew === 0 ? path.curvature / (1 + offset * path.curvature) : path.normalRho / rho,
  };
  for (const [name, value] of Object.entries(point)) representable(value, `query: ${name}`);
  return point;
}

/** Shape of the path's own meridian, and how fast it is run through. */
interface PathShape extends Omit<SweepPoint, 'curvatureAcross'> {
  /** Length of meridian per radian of sweep. */
  readonly speed: number;
}

/** Shape of the path's own meridian at the turn of this sine and cosine; NaN where it has no normal. */
export function pathShape(
  { radius: r, distance: h, skew: e }: Required<CircleSweep>,
  sin: number,
  cos: number,
  sinT: number,
  cosT: number,
): PathShape {
  const x = h * sin + r * cos * cosT;
  const y = e + r * sinT;
  const z = h * cos - r * sin * cosT;
  const rho = length2(x, y);
  if (e === 0) {
    const sphereRadius = length2(h, r);
    // ρ dφ/dt = -dz/dt sin φ · R / ρ, so that the meridian is run through at |dz/dt| R / ρ.
    const speed = Math.abs((r * sin * sinT * sphereRadius) / rho);
    return { z, rho, normalZ: z / sphereRadius, normalRho: rho / sphereRadius, curvature: 1 / sphereRadius, speed };
  }
  // First and second derivative of z, and of ρ from those of ρ²/2, with respect to t.
  const z1 = r * sin * sinT;
  const z2 = r * sin * cosT;
  const half1 = r * (e * cosT - h * sin * cos * sinT + r * sin * sin * sinT * cosT);
  const half2 = r * (-e * sinT - h * sin * cos * cosT + r * sin * sin * (cosT - sinT) * (cosT + sinT));
  const rho1 = half1 / rho;
  const rho2 = (half2 - rho1 * rho1) / rho;
  const speed = length2(z1, rho1);
  const outward = z1 >= 0 ? 1 : -1;
  return {
    z,
    rho,
    normalZ: (-outward * rho1) / speed,
    normalRho: (outward * z1) / speed,
    curvature: (outward * (rho1 * z2 - z1 * rho2)) / (speed * speed * speed),
    speed,
  };
}
