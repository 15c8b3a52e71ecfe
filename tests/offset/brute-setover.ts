/**
 * Set-over work in space at 60 digits, from first principles: the pivots' places, the axis through
 * them, the tool's line along the bed, distances from the axis. No angle and no formula of the library.
 */
import type { Decimal } from 'decimal.js';
import { D, exact } from '../reference/exact.js';

export interface SetUp {
  readonly offset: number;
  readonly centreDistance: number;
  readonly rollDeg: number;
  /** Whether the tailstock's end goes towards the tool. */
  readonly towards: boolean;
  readonly toolHeight: number;
}

type Point = readonly [Decimal, Decimal, Decimal];

const dot = (a: Point, b: Point): Decimal => a[0].times(b[0]).plus(a[1].times(b[1])).plus(a[2].times(b[2]));
const PI = D.acos(-1);

/** The axis of a set-up is asked for at every place along it. */
const axes = new WeakMap<SetUp, Point>();

function workAxis(set: SetUp): Point {
  const known = axes.get(set) ?? axisOf(set);
  axes.set(set, known);
  return known;
}

/** Unit vector from the headstock pivot to the tailstock's; x level towards the tool, y up, z along the bed. */
function axisOf({ offset, centreDistance, rollDeg, towards }: SetUp): Point {
  const [s, length] = [exact(offset), exact(centreDistance)];
  const roll = exact(rollDeg).times(PI).div(180);
  const x = s.times(roll.cos()).times(towards ? 1 : -1);
  const y = s.times(roll.sin());
  const z = length.times(length).minus(s.times(s)).sqrt();
  return [x.div(length), y.div(length), z.div(length)];
}

/** Radius that a tool at x cuts at the distance z from the headstock pivot along the work. */
export function radiusCut(set: SetUp, x: Decimal, z: Decimal): Decimal {
  return squareCut(set, x, z).sqrt();
}

function squareCut(set: SetUp, x: Decimal, z: Decimal): Decimal {
  const axis = workAxis(set);
  const y = exact(set.toolHeight);
  // The place on the tool's line that lies square across from z on the axis.
  const t = z.minus(x.times(axis[0])).minus(y.times(axis[1])).div(axis[2]);
  const tip: Point = [x, y, t];
  return dot(tip, tip).minus(z.times(z));
}

/**
 * Where the cross slide stands when the tool, fed in from outside, just cuts the radius at z. The square of the
 * radius at one place is a parabola in x, so three samples give it whole.
 */
export function touchOff(set: SetUp, radius: number, z: number): Decimal {
  const place = exact(z);
  const far = exact(radius).plus(place.abs()).plus(1);
  const square = (x: Decimal): Decimal => squareCut(set, x, place);
  const [left, middle, right] = [square(far.negated()), square(new D(0)), square(far)];
  const curvature = left.plus(right).minus(middle.times(2)).div(2).div(far.times(far));
  const vertex = left.minus(right).div(far).div(curvature.times(4));
  return vertex.plus(exact(radius).pow(2).minus(square(vertex)).div(curvature).sqrt());
}

/** Least distance between the tool's line and the work's axis. */
export function nearest(set: SetUp, x: Decimal): Decimal {
  const [ax, ay] = workAxis(set);
  const across = ax.times(ax).plus(ay.times(ay)).sqrt();
  return x.times(ay).minus(exact(set.toolHeight).times(ax)).abs().div(across);
}

/** Where the cross slide would stand for level work and a tool on centre. */
export function levelTouchOff(set: SetUp, radius: number, z: number): Decimal {
  return touchOff({ ...set, rollDeg: 0, toolHeight: 0 }, radius, z);
}
