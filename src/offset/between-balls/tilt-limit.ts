/**
 * How far work can tilt on a ball before it touches what holds the ball. Everything is in the plane of
 * the tilt: holder and work are convex or hollow solids of revolution about axes that cross in the
 * ball's centre, symmetric to that plane, and meet in it first. A point at across x and along z from the
 * ball's centre, seen from the work's axis after tilting by γ, stands at x cos γ - z sin γ across and
 * x sin γ + z cos γ along.
 */
import { refuse } from '../../core/errors.js';
import { anyNumber, type Fields, number, object, optional, positive, read } from '../../core/read.js';
import { atan2Deg, cosDeg, sinDeg } from '../../core/trigonometry.js';

/** What holds a ball: a shank or cup with a flat face square to its axis. */
export interface BallHolder {
  /** How far the holder's face lies behind the ball's centre; negative if the cup reaches beyond it. */
  readonly faceDistance: number;
  /** Diameter of that face, and of the holder behind it. */
  readonly faceDiameter: number;
}

/** The end of the work that sits on the ball. */
export interface WorkEnd {
  /** How far the ball's centre stands outside the work's end face; negative inside. See `ballSeat`. */
  readonly protrusion: number;
  /** Diameter of the end face. */
  readonly faceDiameter: number;
  /** Diameter of the centre hole at the face; the holder may dip into it. @defaultValue as if the hole were filled */
  readonly mouthDiameter?: number;
  /** Included angle of the centre hole, degrees. @defaultValue 60 */
  readonly holeAngleDeg?: number;
}

/** What {@link tiltLimit} needs. */
export interface TiltLimitOptions {
  /** What holds the ball. */
  readonly holder: BallHolder;
  /** The end of the work on the ball. */
  readonly work: WorkEnd;
}

/** Readers of what holds a ball. */
export const HOLDER: Fields<BallHolder> = { faceDistance: anyNumber, faceDiameter: positive };

const WORK: Fields<WorkEnd> = {
  protrusion: anyNumber,
  faceDiameter: positive,
  mouthDiameter: optional(positive),
  holeAngleDeg: optional(number({ above: 0, below: 180 })),
};

const OPTIONS: Fields<TiltLimitOptions> = { holder: object(HOLDER), work: object(WORK) };

/** Which two edges or faces touch first. */
export type TiltContact =
  | 'holder-edge-on-work-face'
  | 'work-edge-on-holder-face'
  | 'holder-edge-in-hole'
  | 'hole-edge-on-holder-side'
  | 'none';

/** How far the work can tilt. */
export interface TiltLimit {
  /** The tilt at which something touches, degrees; 90 if nothing does before. */
  readonly tiltLimitDeg: number;
  /** What touches then. */
  readonly contact: TiltContact;
}

/**
 * The tilt at which work that sits on a ball touches the ball's holder.
 *
 * Of the two edges the one nearer to the ball's centre meets the other's face: the holder's at
 * q sin γ - g cos γ = c if q² + g² ≤ w² + c², else the work's at w sin γ - c cos γ = g (q, w radii of
 * the holder's and the work's face; g, c their distances from the ball's centre). An edge of the holder
 * that misses the work's face because it dips into the centre hole goes on to the hole's flank, or
 * until the hole's mouth meets the holder's side.
 * @throws GeneratrixError `impossible-geometry` if holder and work overlap before any tilt.
 * @example
 * ```ts
 * import { tiltLimit } from 'generatrix';
 * const holder = { faceDistance: 3, faceDiameter: 10 };
 * const { tiltLimitDeg, contact } = tiltLimit({ holder, work: { protrusion: 2, faceDiameter: 25 } });
 * tiltLimitDeg.toFixed(3); // => '51.023'
 * contact; // => 'holder-edge-on-work-face'
 * ```
 */
export function tiltLimit(options: TiltLimitOptions): TiltLimit {
  return tiltOf(read(options, OPTIONS), { protrusion: 'work.protrusion', mouth: 'work.mouthDiameter' });
}

/** As {@link tiltLimit}, of bodies that were read; `names` are those of the parameters in a refusal. */
export function tiltOf(
  { holder, work }: TiltLimitOptions,
  names: { readonly protrusion: string; readonly mouth: string },
): TiltLimit {
  const { protrusion: c, mouthDiameter = 0, holeAngleDeg = 60 } = work;
  const [g, q, w, m] = [holder.faceDistance, holder.faceDiameter / 2, work.faceDiameter / 2, mouthDiameter / 2];
  if (g + c <= 0) {
    const phrase = `must exceed ${-g}, or holder and work overlap`;
    return refuse('impossible-geometry', names.protrusion, c, { kind: 'number', above: -g, phrase });
  }
  if (m > w) {
    const phrase = `must be at most the face, ${2 * w}`;
    return refuse('out-of-range', names.mouth, mouthDiameter, { kind: 'number', above: 0, max: 2 * w, phrase });
  }
  // Square of the distance from the work's axis at which the holder's edge comes level with the work's face.
  const acrossSquared = q * q + (g - c) * (g + c);
  const dips = acrossSquared >= 0 && acrossSquared < m * m;
  const touches = dips ? intoHole(g, q, c, m, holeAngleDeg / 2) : faces(g, q, c, w, acrossSquared);
  return touches.tiltLimitDeg < 90 ? touches : { tiltLimitDeg: 90, contact: 'none' };
}

/** One edge on the other's face: the angle from the face to the edge as held, plus as seen from the other face. */
function faces(g: number, q: number, c: number, w: number, acrossSquared: number): TiltLimit {
  return acrossSquared <= w * w
    ? { tiltLimitDeg: edgeOnFace(q, g, c, acrossSquared), contact: 'holder-edge-on-work-face' }
    : { tiltLimitDeg: edgeOnFace(w, c, g, w * w + (c - g) * (c + g)), contact: 'work-edge-on-holder-face' };
}

function edgeOnFace(radius: number, distance: number, other: number, acrossSquared: number): number {
  // An edge nearer to the ball's centre than the other face never gets there.
  return acrossSquared < 0 ? 90 : atan2Deg(other, Math.sqrt(acrossSquared)) + atan2Deg(distance, radius);
}

/**
 * The holder's edge, at distance R from the ball's centre, reaches the hole's flank, at distance k from it, where
 * R cos(γ - φ - θ) = k; but only a flank that has its nearest place to the ball's centre inside the hole, as it
 * has under a ball that bears on it. The hole's mouth reaches the holder's side where c sin γ + m cos γ = q.
 */
function intoHole(g: number, q: number, c: number, m: number, half: number): TiltLimit {
  const k = m * cosDeg(half) + c * sinDeg(half);
  const short = q * q + g * g - k * k;
  const ahead = short >= 0 && c * cosDeg(half) <= m * sinDeg(half);
  const onFlank = ahead ? atan2Deg(g, q) + half - atan2Deg(Math.sqrt(short), k) : 90;
  const onSide = atan2Deg(c, m) + atan2Deg(Math.sqrt(m * m + c * c - q * q), q);
  return onFlank <= onSide
    ? { tiltLimitDeg: onFlank, contact: 'holder-edge-in-hole' }
    : { tiltLimitDeg: onSide, contact: 'hole-edge-on-holder-side' };
}
