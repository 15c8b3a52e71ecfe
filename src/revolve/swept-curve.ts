/**
 * The meridian that a sweep leaves on the finished part, as a curve over the sweep's angle t: which stretches
 * of the sweep make it, and the place that each t makes. Frame and symbols as in sweep.ts.
 *
 * A part keeps the half of the sweep that lies nearer to the axis (ball) or farther (socket); where the tool
 * does not cut on that half but on the other, it keeps the other. With a nose the surface is the parallel curve,
 * as far as it exists: between the rays from the foot through the ends of the sweep, and off the axis.
 */
import { refuse } from '../core/errors.js';
import { toDegrees, toRadians } from '../core/trigonometry.js';
import { emptyShape, offsetOf, type Shape, shapeAt } from './circle-shape.js';
import { length2, rootBetween } from './solve.js';
import type { ReadSweep, SweepArc, SweptSide } from './sweep.js';

/** A stretch of the sweep's angle, radians. */
export type Stretch = readonly [from: number, to: number];

/** A meridian of the finished part. */
export interface SweptCurve {
  /** The sweep, mirrored if `mirrored`. */
  readonly sweep: ReadSweep;
  readonly mirrored: boolean;
  /** From the path of the nose's centre to the surface, away from the axis. */
  readonly offset: number;
  /** The stretches of the sweep that make it, by rising place along the axis. */
  readonly pieces: readonly Stretch[];
  /** Distance of the sweep's ends from the foot. */
  readonly endRadius: number;
  /** What `fit-near.ts` measures the places from. */
  readonly square: number;
  readonly middle: number;
}

/** A place of the surface: `z`, `rho` and `speed` are those of the cut; u and v as in `fit-near.ts`. */
export interface CutPlace extends Shape {
  u: number;
  v: number;
  /** How the nose stretches the curve: 0 or below where it is larger than the curve that it follows. */
  stretch: number;
}

/** A place to fill. */
export function emptyPlace(): CutPlace {
  return { ...emptyShape(), u: 0, v: 0, stretch: 1 };
}

/** What limits a curve: heights of the nose's centre, and the arc on which the tool cuts. */
export interface CurveLimits {
  readonly fromZ?: number | undefined;
  readonly toZ?: number | undefined;
  readonly arc?: SweepArc | undefined;
}

/** The meridian that a sweep leaves; refuses a nose that leaves none. */
export function sweptCurve(given: ReadSweep, side: SweptSide, { fromZ, toZ, arc }: CurveLimits = {}): SweptCurve {
  const { radius: r, distance: h, skew: e, sin, cos } = given;
  const offset = offsetOf(given, side);
  if (length2(h, r) + offset <= 0) return noSurface(given);
  // The outer branch is the half of the sweep with t from 0 to π where the skew is positive. Seen in a mirror, if
  // need be, the half that a part keeps is always that one, and the sign of a skew leaves no trace.
  const mirrored = side === 'ball' ? e > 0 : e < 0;
  const sweep = mirrored ? { ...given, skew: -e } : given;
  const endRadius = Math.sqrt(h * h + e * e + r * r);
  const middle = h * cos * (1 + offset / endRadius);
  const curve = { sweep, mirrored, offset, endRadius, square: (endRadius + offset) ** 2, middle };
  const w = (z: number | undefined, end: number): number =>
    z === undefined ? end : Math.acos(Math.min(1, Math.max(-1, (h * cos - z) / (r * sin))));
  const limits: Stretch = [w(fromZ, 0), w(toZ, Math.PI)];
  const kept = onHalf(arc, !mirrored).flatMap((one) => common(one, limits));
  const others = arc ? onHalf(arc, mirrored).flatMap((one) => common(one, limits)) : [];
  const spare = others
    .flatMap((one) => kept.reduce<Stretch[]>((left, cut) => left.flatMap((part) => without(part, cut)), [one]))
    .map(([from, to]): Stretch => [2 * Math.PI - from, 2 * Math.PI - to]);
  const pieces = [...kept, ...spare]
    .flatMap((one) => existing(curve, one))
    .sort((a, b) => Math.cos(b[0]) - Math.cos(a[0]));
  return pieces.length > 0 ? { ...curve, pieces } : noSurface(given);
}

/** The sweep's own angle, degrees, of a turn of the curve. */
export function turnDegOf({ mirrored }: Pick<SweptCurve, 'mirrored'>, turn: number): number {
  return toDegrees(mirrored ? 2 * Math.PI - turn : turn);
}

/** Fills in the place that the tool makes at the turn t. */
export function placeAt({ sweep, offset, endRadius }: Omit<SweptCurve, 'pieces'>, t: number, into: CutPlace): void {
  const { radius: r, distance: h, skew: e, sin, cos } = sweep;
  const [sinT, cosT] = [Math.sin(t), Math.cos(t)];
  shapeAt(sweep, sinT, cosT, into);
  const more = 2 * r * e * sinT;
  into.u = 0 - r * sin * cosT;
  into.v = more;
  into.stretch = 1;
  if (offset === 0) return;
  const reach = Math.sqrt(endRadius * endRadius + more);
  // The normal leans by ψ from the line to the foot; 1 - cos ψ from the sine, which is small.
  const sinPsi = (r * e * cosT) / (reach * into.speed || 1);
  const cosPsi = (into.normalZ * into.z + into.normalRho * into.rho) / reach;
  const less = cosPsi > 0 ? (sinPsi * sinPsi) / (1 + cosPsi) : 1 - cosPsi;
  into.u += offset * (into.normalZ - (h * cos) / endRadius);
  into.v = more * (1 + (2 * offset) / (reach + endRadius)) - 2 * offset * reach * less;
  into.stretch = 1 + offset * into.curvature;
  into.z += offset * into.normalZ;
  into.rho += offset * into.normalRho;
  into.speed *= into.stretch;
}

/** Where on one half of the sweep the tool cuts, by w; `first` is the half with t from 0 to π. */
function onHalf(arc: SweepArc | undefined, first: boolean): Stretch[] {
  if (!arc) return [[0, Math.PI]];
  const found: Stretch[] = [];
  for (let turns = -2; turns <= 2; turns++) {
    const start = 2 * Math.PI * turns + (first ? 0 : Math.PI);
    const [part] = common([toRadians(arc.fromDeg), toRadians(arc.toDeg)], [start, start + Math.PI]);
    if (part)
      found.push(first ? [part[0] - start, part[1] - start] : [start + Math.PI - part[1], start + Math.PI - part[0]]);
  }
  return found.sort((a, b) => a[0] - b[0]);
}

function common(a: Stretch, b: Stretch): Stretch[] {
  const [from, to] = [Math.max(a[0], b[0]), Math.min(a[1], b[1])];
  return from < to ? [[from, to]] : [];
}

function without(whole: Stretch, cut: Stretch): Stretch[] {
  const parts: Stretch[] = [
    [whole[0], Math.min(whole[1], cut[0])],
    [Math.max(whole[0], cut[1]), whole[1]],
  ];
  return parts.filter(([from, to]) => from < to);
}

/** Samples that see where a parallel curve exists. */
const LOOKS = 512;

/**
 * What of a stretch a nose leaves: between the rays from the foot through the sweep's ends, and off the axis.
 * Beyond a ray the nose's centre turns about the end of its path and leaves a fillet of its own radius.
 */
function existing(curve: Omit<SweptCurve, 'pieces'>, [from, to]: Stretch): Stretch[] {
  const { radius: r, distance: h, skew: e, sin, cos } = curve.sweep;
  if (curve.offset === 0 || e === 0) return [[from, to]];
  const [lowZ, lowRho] = [h * cos - r * sin, length2(h * sin + r * cos, e)];
  const [highZ, highRho] = [h * cos + r * sin, length2(h * sin - r * cos, e)];
  const place = emptyPlace();
  const at = (i: number): number => (i === LOOKS ? to : from + ((to - from) * i) / LOOKS);
  const sound = (t: number): boolean => {
    placeAt(curve, t, place);
    const { z, rho } = place;
    return rho > 0 && z * lowRho >= rho * lowZ && rho * highZ >= z * highRho;
  };
  let widest = -1;
  let farthest = 0;
  for (let i = 0; i <= LOOKS; i++) {
    if (!sound(at(i)) || place.rho <= farthest) continue;
    [widest, farthest] = [i, place.rho];
    if (place.stretch <= 0) return noSurface(curve.sweep);
  }
  if (widest < 0) return [];
  const end = (step: 1 | -1): number => {
    let i = widest;
    while (i + step >= 0 && i + step <= LOOKS && sound(at(i + step))) {
      if (place.stretch <= 0) return noSurface(curve.sweep);
      i += step;
    }
    if (i === (step > 0 ? LOOKS : 0)) return at(i);
    return rootBetween((t) => (sound(t) ? 1 : -1), at(i), at(i + step));
  };
  return [[end(-1), end(1)]];
}

function noSurface({ noseRadius }: ReadSweep): never {
  return refuse(
    'impossible-geometry',
    'sweep.noseRadius',
    noseRadius,
    'must be less than the radius of the path that it follows, or no surface is left',
  );
}
