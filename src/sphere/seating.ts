/**
 * Where a ball rests in a socket. Lowered along the work axis, a ball of radius B stops where
 *
 *   depth - sqrt(B² - ρ²)
 *
 * is least over the surface (ρ from the axis, depth into the work). The surface is either measured points,
 * joined by straight lines, or the one that a sweep cuts, errors included. A nose of radius n cuts the
 * parallel surface of its centre's path, so a ball of radius B rests in that as one of B - n on the path.
 * Depths are from the height where the sweep's axes meet, or from wherever the points are measured.
 */
import { refuse } from '../core/errors.js';
import { array, defaulted, type Fields, nonNegative, object, optional, positive, read, sound } from '../core/read.js';
import { say, tell } from '../core/words.js';
import { anywhere, type Sweep, sweepOf, sweepReader } from '../revolve/sweep.js';
import { exactlyOne } from './either.js';

/** A measured place of a socket. */
export interface SocketPoint {
  /** Distance from the work axis. */
  readonly radius: number;
  /** Depth into the work, from any level that is the same for all points. */
  readonly depth: number;
}

/** What {@link ballInSocket} needs: either `points` or `sweep`. */
export interface BallInSocketOptions {
  /** Radius of the ball. */
  readonly ballRadius: number;
  /** At least two places of the socket, from the middle outwards. */
  readonly points?: readonly SocketPoint[];
  /** The sweep that cut the socket, errors included. */
  readonly sweep?: Sweep;
  /** Diameter of a relief hole in the middle. @defaultValue 0: none. */
  readonly reliefDiameter?: number;
  /** Diameter of the circle on which the ball should touch, to find the relief hole for it. */
  readonly wantedContactDiameter?: number;
}

/** Where a ball rests. */
export interface BallInSocket {
  /** Diameter of the circle on which the ball touches. */
  readonly contactDiameter: number;
  /** Depth of that circle. */
  readonly contactDepth: number;
  /** Whether it touches an `edge` (of the relief hole, the pip or the rim) or `surface` that it is tangent to. */
  readonly contact: 'surface' | 'inner-edge' | 'outer-edge';
  /** Depth of the ball's lowest point. */
  readonly ballBottomDepth: number;
  /** Gap where the surface begins in the middle, measured from the ball's centre. */
  readonly gapAtBottom: number;
  /** Gap where the surface ends at the rim, measured the same way. */
  readonly gapAtRim: number;
  /**
   * Smallest relief hole that makes the ball touch on the wanted circle: 0 if none is needed, null if the
   * ball would still touch farther out, or if no circle was asked for.
   */
  readonly reliefForContact: number | null;
}

/** A place on the path: ρ², depth, and their derivatives. */
interface Place {
  readonly square: number;
  readonly depth: number;
  readonly dSquare: number;
  readonly dDepth: number;
}

/** A meridian from the middle outwards, u from 0 to `end`. */
interface Curve {
  readonly end: number;
  readonly samples: number;
  /** Radius by which the surface lies outside the path. */
  readonly nose: number;
  readonly at: (u: number) => Place;
}

/**
 * Where a ball of a given size rests in a socket as it really is: the contact circle, the gap at the
 * bottom, and the relief hole that moves the contact to a wanted circle.
 *
 * A ball that does not pass the mouth of a socket past half a sphere rests on its rim: contact `outer-edge`.
 * @throws GeneratrixError `impossible-geometry` for a ball that falls through or a circle outside the surface.
 * @example
 * ```ts
 * import { ballInSocket } from 'generatrix/sphere';
 * // A 90 degree countersink: the ball touches half-way up its flank.
 * const points = [{ radius: 0, depth: 10 }, { radius: 10, depth: 0 }];
 * const seat = ballInSocket({ ballRadius: 5, points });
 * seat.contactDiameter.toFixed(6); // => '7.071068'
 * seat.gapAtBottom.toFixed(6); // => '2.071068'
 * ```
 */
export function ballInSocket(options: BallInSocketOptions): BallInSocket {
  const given = read(options, SEATING);
  const { ballRadius, reliefDiameter, wantedContactDiameter } = given;
  const curve = curveOf(given);
  const reduced = ballRadius - curve.nose;
  if (reduced <= 0) {
    const phrase = say`must be greater than the nose, ${tell(curve.nose)}`;
    return refuse('out-of-range', 'ballRadius', ballRadius, { kind: 'number', above: curve.nose, phrase });
  }
  // The contact is on the line from the ball's centre: on the path it is nearer to the axis in this ratio.
  const ratio = reduced / ballRadius;
  const from = whereRadius(curve, (reliefDiameter / 2) * ratio);
  const seat = from === undefined ? undefined : lowest(curve, reduced, from, curve.end);
  if (from === undefined || seat === undefined || curve.at(from).square > reduced * reduced) {
    return refuse('impossible-geometry', 'ballRadius', ballRadius, 'must be large enough to rest on the surface');
  }
  const centre = seat.value;
  const place = curve.at(seat.u);
  const gap = (u: number): number => {
    const { square, depth } = curve.at(u);
    // Within the rounding of a touching place.
    return Math.max(0, Math.hypot(Math.sqrt(square), depth - centre) - reduced);
  };
  const wanted = wantedContactDiameter === undefined ? undefined : (wantedContactDiameter / 2) * ratio;
  const result: BallInSocket = {
    contactDiameter: (2 * Math.sqrt(place.square)) / ratio,
    contactDepth: centre + (place.depth - centre) / ratio,
    contact: seat.u === from && place.square > 0 ? 'inner-edge' : seat.u === curve.end ? 'outer-edge' : 'surface',
    ballBottomDepth: centre + ballRadius,
    gapAtBottom: gap(from),
    gapAtRim: gap(curve.end),
    reliefForContact: wanted === undefined ? null : reliefFor(curve, reduced, wanted, ratio),
  };
  return sound(result, 'ballRadius');
}

const POINT: Fields<SocketPoint> = { radius: nonNegative, depth: anywhere };
const SEATING: Fields<BallInSocketOptions, 'reliefDiameter'> = {
  ballRadius: positive,
  points: optional(array(object(POINT), 2)),
  sweep: optional(sweepReader),
  reliefDiameter: defaulted(nonNegative, 0),
  wantedContactDiameter: optional(positive),
};

function curveOf(given: BallInSocketOptions): Curve {
  exactlyOne(given, 'points', 'sweep');
  return given.points ? polyline(given.points) : sweptCurve(given.sweep as Sweep);
}

/** Straight lines between points; u counts them. */
function polyline(points: readonly SocketPoint[]): Curve {
  const corner = (index: number): SocketPoint => points[index] as SocketPoint;
  for (let index = 1; index < points.length; index++) {
    if (corner(index).radius <= corner(index - 1).radius) {
      refuse('out-of-range', `points[${index}].radius`, corner(index).radius, 'must grow from point to point');
    }
  }
  return {
    end: points.length - 1,
    samples: 8 * (points.length - 1),
    nose: 0,
    at: (u) => {
      const index = Math.min(points.length - 2, Math.floor(u));
      const [a, b] = [corner(index), corner(index + 1)];
      const [dRadius, dDepth] = [b.radius - a.radius, b.depth - a.depth];
      const radius = a.radius + (u - index) * dRadius;
      return { square: radius * radius, depth: a.depth + (u - index) * dDepth, dSquare: 2 * radius * dRadius, dDepth };
    },
  };
}

/** The half of the sweep that cuts farther out, u from the bottom (0) to the rim (π). */
function sweptCurve(sweep: Sweep): Curve {
  const { sin, cos, radius: r, distance: h, skew, noseRadius } = sweepOf(sweep);
  const e = Math.abs(skew);
  const short = h * sin - r * cos;
  return {
    end: Math.PI,
    samples: 512,
    nose: noseRadius,
    at: (u) => {
      const [su, cu] = [Math.sin(u), Math.cos(u)];
      const x = h * sin - r * cos * cu;
      const y = e + r * su;
      // At the bottom x is a difference; half-angles keep its digits there.
      const across = u < 1 ? short + 2 * r * cos * Math.sin(u / 2) ** 2 : x;
      return {
        square: across * across + y * y,
        depth: h * cos + r * sin * cu,
        dSquare: 2 * (across * r * cos * su + y * r * cu),
        dDepth: -r * sin * su,
      };
    },
  };
}

/** Where the curve first reaches a radius, from the middle; undefined if it never does. */
function whereRadius(curve: Curve, radius: number): number | undefined {
  const beyond = (u: number): boolean => curve.at(u).square >= radius * radius;
  return change(curve, beyond, 0, curve.end);
}

/** The first place at which a condition holds. */
function change(curve: Curve, holds: (u: number) => boolean, from: number, to: number): number | undefined {
  if (holds(from)) return from;
  let before = from;
  for (let k = 1; k <= curve.samples; k++) {
    const u = k === curve.samples ? to : from + ((to - from) * k) / curve.samples;
    if (holds(u)) return bisect(holds, before, u);
    before = u;
  }
  return undefined;
}

/** Between a place where a condition fails and one where it holds: the place where it begins to. */
function bisect(holds: (u: number) => boolean, fails: number, works: number): number {
  let [a, b] = [fails, works];
  for (let turn = 0; turn < 80 && a !== b; turn++) {
    const middle = (a + b) / 2;
    if (holds(middle)) b = middle;
    else a = middle;
  }
  return b;
}

/** How deep the ball's centre could sink at one place. */
function sinks(curve: Curve, ball: number, u: number): number {
  const { square, depth } = curve.at(u);
  return depth - Math.sqrt(Math.max(0, ball * ball - square));
}

/**
 * The place that stops the ball first, of all that lie in its shadow: undefined if none does. A curve may leave the
 * shadow and come back, as that of a socket does towards its mouth; what stops a ball there keeps it out.
 */
function lowest(curve: Curve, ball: number, from: number, to: number): { u: number; value: number } | undefined {
  const within = (u: number): boolean => curve.at(u).square <= ball * ball;
  const outside = (u: number): boolean => !within(u);
  const rising = (u: number): boolean => {
    const { square, dSquare, dDepth } = curve.at(u);
    return dDepth * Math.sqrt(Math.max(0, ball * ball - square)) + dSquare / 2 >= 0;
  };
  const widening = (u: number): boolean => curve.at(u).dSquare >= 0;
  const candidates: number[] = [];
  const look = (a: number, b: number): void => {
    // Between two places the curve comes into the shadow or leaves it once at most.
    const [low, high] = [within(a) ? a : bisect(within, a, b), within(b) ? b : bisect(outside, a, b)];
    if (!within(a) && !within(b)) return;
    candidates.push(low, within(high) ? high : low);
    if (!rising(low) && rising(high)) candidates.push(bisect(rising, low, high));
  };
  const corners = Number.isInteger(curve.end) ? curve.end : 0;
  const places = Array.from({ length: curve.samples + 1 }, (_, k) =>
    k === curve.samples ? to : from + ((to - from) * k) / curve.samples,
  ).concat(Array.from({ length: corners }, (_, k) => k).filter((u) => u > from && u < to));
  places.sort((a, b) => a - b);
  for (let k = 1; k < places.length; k++) {
    const [a, b] = [places[k - 1] as number, places[k] as number];
    // Where the curve is nearest to the axis it may just reach into the shadow between two places.
    const neck = !widening(a) && widening(b) ? bisect(widening, a, b) : b;
    look(a, neck);
    if (neck !== b) look(neck, b);
  }
  if (candidates.length === 0) return undefined;
  return candidates
    .map((u) => ({ u, value: sinks(curve, ball, u) }))
    .reduce((best, next) => (next.value < best.value ? next : best));
}

/** The smallest hole that removes all places inside the wanted circle where the ball would stop sooner. */
function reliefFor(curve: Curve, ball: number, wanted: number, ratio: number): number | null {
  const u = whereRadius(curve, wanted);
  if (u === undefined || wanted > ball || curve.at(0).square > wanted * wanted) {
    const diameter = (2 * wanted) / ratio;
    return refuse('impossible-geometry', 'wantedContactDiameter', diameter, 'must lie on the surface and on the ball');
  }
  const level = sinks(curve, ball, u);
  // Rounding must not count as a place where the ball would stop sooner.
  const slack = 4e-16 * (ball + Math.abs(level));
  const sooner = (place: number): boolean => sinks(curve, ball, place) < level - slack;
  if ((lowest(curve, ball, u, curve.end)?.value ?? level) < level - slack) return null;
  const inwards = (back: number): boolean => sooner(u - back);
  const first = change(curve, inwards, 0, u);
  return first === undefined ? 0 : (2 * Math.sqrt(curve.at(u - first).square)) / ratio;
}
