/**
 * The surface that a sweep leaves, place by place: at a height along the work's axis, or at a turn of the
 * sweep. Frame and symbols as in sweep.ts; heights are from the foot.
 *
 * A skew sweep cuts two branches. Cut all round, a ball keeps the inner one (the tool has removed what lies outside of
 * it), a socket the outer one. A tool that cuts on part of its sweep only leaves the branches that it reaches.
 *
 * A round nose leaves more than the parallel surface: the flanks of a pip and the fillet where the cut ends
 * too. A place of the half-plane of z and ρ is cut away if it lies within a nose radius s of the meridian of
 * the nose's centre (the work turns, so only distance within the half-plane counts). So at height z a ball
 * keeps what lies below the least of ρ(t) - sqrt(s² - (z - z(t))²), and a socket what lies above the greatest
 * of ρ(t) + sqrt(s² - (z - z(t))²).
 */
import { refuse } from '../core/errors.js';
import { type Fields, number, optional, read, readValue, sound } from '../core/read.js';
import { acosDeg, cosDeg, sinDeg, toDegrees, toRadians } from '../core/trigonometry.js';
import { emptyShape, offsetOf, shapeAt } from './circle-shape.js';
import { dips, length2 } from './solve.js';
import {
  anywhere,
  type ReadSweep,
  type Sweep,
  type SweepArc,
  type SweptSide,
  sweepArc,
  sweepOf,
  sweepReader,
  sweptSide,
} from './sweep.js';

/** What {@link circleMeridian} needs: a place along the work's axis. */
export interface CircleMeridianOptions {
  /** The sweep, with its nose if the tool has one. */
  readonly sweep: Sweep;
  /** Place along the work's axis, counted from the foot, within the reach of the tool. */
  readonly z: number;
  /** On which side of the path the finished part is. */
  readonly side: SweptSide;
  /** The part of the sweep on which the tool cuts. @defaultValue All of it. */
  readonly arc?: SweepArc;
}

/** The cut surface at one place along the work's axis. */
export interface CircleMeridianPlace {
  /** Distance of the surface from the work's axis; 0 where a nose cuts a ball off altogether. */
  readonly radius: number;
  /** Which branch the part keeps there. Without skew both are the same. */
  readonly branch: 'inner' | 'outer';
  /** The sweep's angle t at which the tool passes there, 0 to 360 degrees. */
  readonly turnDeg: number;
}

/**
 * Distance from the work's axis at z, of a sharp tool's path. The sign of `skew` chooses the branch: negative
 * the inner one, positive the outer one. A z beyond the sweep's ends gives the value at the end's plane with
 * the tool at the end of its sweep.
 *
 * ρ² = ((h - z cos α)/sin α)² + (e ± sqrt(r² - ((h cos α - z)/sin α)²))²
 */
export function circleRhoAt(
  sinTilt: number,
  cosTilt: number,
  radius: number,
  distance: number,
  skew: number,
  z: number,
): number {
  if (skew === 0) {
    const sphere = length2(distance, radius);
    return Math.sqrt(Math.max(0, (sphere - z) * (sphere + z)));
  }
  const down = (distance * cosTilt - z) / sinTilt;
  const side = Math.sqrt(Math.max(0, (radius - down) * (radius + down)));
  return length2((distance - z * cosTilt) / sinTilt, skew + side);
}

/**
 * The surface that a sweep leaves at a place along the work's axis: what a tip or a round nose that has run
 * all along its sweep, or an arc of it, leaves of the part.
 * @throws GeneratrixError `out-of-range` if z lies beyond the tool's reach, `impossible-geometry` if the arc
 * does not reach z.
 * @example
 * ```ts
 * import { circleMeridian } from 'generatrix';
 * const sweep = { tiltDeg: 90, sweepRadius: 3, distance: 4, skew: 3 };
 * circleMeridian({ sweep, z: 0, side: 'ball' }); // => { radius: 4, branch: 'inner', turnDeg: 270 }
 * circleMeridian({ sweep, z: 0, side: 'ball', arc: { fromDeg: 0, toDeg: 180 } }).branch; // => 'outer'
 * circleMeridian({ sweep, z: 9, side: 'ball' }); // throws out-of-range
 * const nose = { tiltDeg: 90, sweepRadius: 6, distance: 8, noseRadius: 2 };
 * circleMeridian({ sweep: nose, z: 0, side: 'ball' }).radius; // => 8
 * circleMeridian({ sweep: nose, z: 8, side: 'ball' }).radius; // => 8
 * ```
 */
export function circleMeridian(options: CircleMeridianOptions): CircleMeridianPlace {
  const given = read(options, MERIDIAN);
  const sweep = sweepOf(given.sweep);
  const { radius: r, distance: h, noseRadius, sin, cos } = sweep;
  const reach = r * sin + noseRadius;
  const z = readValue(given.z, number({ min: h * cos - reach, max: h * cos + reach }), 'z');
  return sound((noseRadius === 0 ? tipPlace : nosePlace)(sweep, z, given.side, given.arc), 'sweep');
}

const MERIDIAN: Fields<CircleMeridianOptions> = {
  sweep: sweepReader,
  z: anywhere,
  side: sweptSide,
  arc: optional(sweepArc),
};

function tipPlace(sweep: ReadSweep, z: number, side: SweptSide, arc: SweepArc | undefined): CircleMeridianPlace {
  const { radius: r, distance: h, skew: e, sin, cos } = sweep;
  const turn = acosDeg(Math.min(1, Math.max(-1, (h * cos - z) / (r * sin))));
  const outerTurn = e < 0 ? 360 - turn : turn;
  const on = (branch: 'inner' | 'outer'): CircleMeridianPlace => ({
    radius: circleRhoAt(sin, cos, r, h, branch === 'outer' ? Math.abs(e) : -Math.abs(e), z),
    branch,
    turnDeg: branch === 'outer' ? outerTurn : 360 - outerTurn,
  });
  const reached = [on('inner'), on('outer')].filter(({ turnDeg }) => !arc || within(turnDeg, arc));
  const kept = reached[side === 'ball' ? 0 : reached.length - 1];
  return kept ?? refuse('impossible-geometry', 'arc', arc, 'must reach z on one half of the sweep');
}

function within(turnDeg: number, { fromDeg, toDeg }: SweepArc): boolean {
  const past = (((turnDeg - fromDeg) % 360) + 360) % 360;
  return past <= toDeg - fromDeg;
}

function nosePlace(sweep: ReadSweep, z: number, side: SweptSide, arc: SweepArc | undefined): CircleMeridianPlace {
  const { radius: r, distance: h, skew: e, noseRadius: nose, sin, cos } = sweep;
  const middle = h * cos;
  // The stretches of t where the nose's centre is no more than its radius above or below z.
  const first = Math.acos(Math.min(1, (middle - z + nose) / (r * sin)));
  const last = Math.acos(Math.max(-1, (middle - z - nose) / (r * sin)));
  const [from, to] = [toRadians(arc?.fromDeg ?? 0), toRadians(arc?.toDeg ?? 360)];
  const sign = side === 'ball' ? 1 : -1;
  // For a ball what is left, for a socket its opposite: either way the least counts.
  const left = (t: number): number => {
    const cosT = Math.cos(t);
    const below = z - (middle - r * sin * cosT);
    const rho = length2(h * sin + r * cos * cosT, e + r * Math.sin(t));
    return sign * rho - Math.sqrt(Math.max(0, (nose - below) * (nose + below)));
  };
  let least = Infinity;
  let turn = 0;
  for (let turns = -2; turns <= 2; turns++) {
    const full = 2 * Math.PI * turns;
    for (const [a, b] of [
      [full + first, full + last],
      [full - last, full - first],
    ] as const) {
      const [low, high] = [Math.max(a, from), Math.min(b, to)];
      if (low > high) continue;
      for (const t of dips(left, low, high, 96)) {
        const value = left(t);
        if (value < least) [least, turn] = [value, t];
      }
    }
  }
  if (least === Infinity) return refuse('impossible-geometry', 'arc', arc, 'must reach z');
  const within360 = toDegrees(turn) % 360;
  const turnDeg = (within360 < 0 ? within360 + 360 : within360) + 0;
  const outer = e * Math.sin(turn) > 0 || (e === 0 && side === 'socket');
  return { radius: Math.max(0, sign * least), branch: outer ? 'outer' : 'inner', turnDeg };
}

/** What {@link circlePoint} needs: a place along the sweep. */
export interface CirclePointOptions extends Pick<CircleMeridianOptions, 'sweep' | 'side'> {
  /** The sweep's angle t in degrees: 0 at the lowest place along the work's axis, 180 at the highest. */
  readonly turnDeg: number;
}

/** One point of the finished meridian with its shape there. */
export interface CirclePoint {
  /** Place along the work's axis, from the foot. */
  readonly z: number;
  /** Distance from the work's axis; negative where the nose reaches across the axis. */
  readonly radius: number;
  /** Part of the surface's normal (pointing away from the axis) along z. */
  readonly normalZ: number;
  /** Part of the normal across the axis, 0 or above. */
  readonly normalRadius: number;
  /** Curvature of the meridian, 1 / local radius: positive where its centre lies on the axis' side. */
  readonly curvature: number;
  /** Curvature across the meridian: 1 / distance along the normal to the axis. Both are 1/R on a sphere. */
  readonly curvatureAcross: number;
}

/**
 * Point, normal and curvatures of the finished surface where the tool stands at angle t of its sweep. With
 * a nose the sweep is that of the nose's centre, and the surface is the parallel one, a nose radius nearer
 * to the axis on a ball and farther in a socket. On a sphere that is again a sphere.
 * @throws GeneratrixError `not-representable` where the meridian has no normal (a skew sweep that crosses the
 * axis) or the nose meets the centre of curvature.
 * @example
 * ```ts
 * import { circlePoint } from 'generatrix';
 * const sweep = { tiltDeg: 90, sweepRadius: 3, distance: 4, noseRadius: 5 };
 * const { z, radius, curvature } = circlePoint({ sweep, turnDeg: 0, side: 'socket' });
 * [z, radius]; // => [-6, 8]
 * curvature; // => 0.1
 * ```
 */
export function circlePoint(options: CirclePointOptions): CirclePoint {
  const { sweep: given, turnDeg, side } = read(options, POINT);
  const sweep = sweepOf(given);
  const at = emptyShape();
  shapeAt(sweep, sinDeg(turnDeg), cosDeg(turnDeg), at);
  const offset = offsetOf(sweep, side);
  const radius = at.rho + offset * at.normalRho;
  const curvature = at.curvature / (1 + offset * at.curvature);
  const point = {
    z: at.z + offset * at.normalZ,
    radius,
    normalZ: at.normalZ,
    normalRadius: at.normalRho,
    curvature,
    curvatureAcross: sweep.skew === 0 ? curvature : at.normalRho / radius,
  };
  return sound(point, 'turnDeg');
}

const POINT: Fields<CirclePointOptions> = {
  sweep: sweepReader,
  turnDeg: number({ min: -360, max: 720 }),
  side: sweptSide,
};
