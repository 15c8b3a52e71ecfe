/**
 * Work that is set over out of level: the tailstock's pivot stands above or below the headstock's, so
 * the tool's line passes the work's axis askew. Written over an arithmetic: see straight-cut.ts.
 *
 * Frame: origin in the headstock pivot, z along the bed, x level towards the tool, y up. With set-over S
 * of a length L rolled by ψ the work's axis is (u sin γ, v sin γ, cos γ), sin γ = S/L, u = ±cos ψ
 * (+ towards the tool), v = sin ψ. The tool's line, along z at x and height y, passes it at the distance
 * |y u - x v|. Seen from the work, that is a level path at the height y u - x v, set to γ.
 */
import type { Arithmetic } from '../../budget/model.js';
import { cosDeg, sinDeg } from '../../core/trigonometry.js';

/** How the work lies, and where on it the tool is touched off to size. */
export interface RolledWork<T> {
  /** Sine of the angle between the work's axis and the bed: set-over by distance of the pivots. */
  readonly sine: T;
  /** How far out of level the tailstock's pivot is moved; positive if it stands high. */
  readonly rollDeg: T;
  /** Whether the tailstock's end of the work is moved towards the tool (1) or away from it (-1). */
  readonly towards: 1 | -1;
  /** Distance of the sized end from the headstock pivot, along the work. */
  readonly fromPivot: T;
  /** Radius to which the sized end is cut. */
  readonly radius: T;
  /** Height of the tool's tip above the headstock pivot. */
  readonly toolHeight: T;
}

/** Where the tool's line then runs. */
export interface RolledPath<T> {
  /** Cosine of the angle between the work's axis and the bed. */
  readonly cosine: T;
  /** Level distance of the tool's line from the headstock pivot. */
  readonly x: T;
  /** Square of what is left of the radius below or above the tool's line; negative where it passes clear. */
  readonly square: T;
  /** Height of the tool's line above the work's axis, as the work sees it; its size is the waist. */
  readonly height: T;
}

/** The tool's line as the work sees it, with the tool touched off to the radius wanted. */
export function rolledPath<T>(a: Arithmetic<T>, work: RolledWork<T>): RolledPath<T> {
  const { sine, fromPivot, radius, toolHeight } = work;
  const one = a.constant(1);
  const cosine = a.sqrt(a.multiply(a.subtract(one, sine), a.add(one, sine)));
  const level = a.cosDeg(work.rollDeg);
  const u = work.towards === 1 ? level : a.negate(level);
  const v = a.sinDeg(work.rollDeg);
  const rise = a.multiply(sine, v);
  // The point touched lies fromPivot along the axis and the radius from it: a quadratic for x.
  const q = a.subtract(one, a.square(rise));
  const below = a.subtract(a.multiply(fromPivot, rise), toolHeight);
  const square = a.subtract(a.multiply(q, a.square(radius)), a.square(below));
  const aside = a.multiply(a.multiply(sine, u), a.subtract(fromPivot, a.multiply(rise, toolHeight)));
  const x = a.divide(a.add(aside, a.multiply(cosine, a.sqrt(square))), q);
  return { cosine, x, square, height: a.subtract(a.multiply(toolHeight, u), a.multiply(x, v)) };
}

/** How much larger the sized end comes out if the cross slide is set as for level work and a tool on centre. */
export function diameterShift(
  { sine, rollDeg, towards, fromPivot, radius, toolHeight: y }: RolledWork<number>,
  cosine: number,
): number {
  // Set by the dial: x₀ as for level work. Its miss along the tool's line of sight is e.
  const [u, v] = [towards * cosDeg(rollDeg), sinDeg(rollDeg)];
  const x0 = towards * fromPivot * sine + radius * cosine;
  const e = (towards * y * v - 2 * sinDeg(rollDeg / 2) ** 2 * x0) / cosine;
  const b = y * u - x0 * v;
  const real = Math.sqrt(b * b + (radius + e) * (radius + e));
  return real === radius ? 0 : (2 * (b * b + e * (2 * radius + e))) / (real + radius) + 0;
}
