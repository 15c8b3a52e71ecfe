/**
 * Work that is set over out of level: the tailstock's pivot stands above or below the headstock's, so
 * the tool's line passes the work's axis askew.
 *
 * Frame: origin in the headstock pivot, z along the bed, x level towards the tool, y up. With set-over S
 * of a length L rolled by ψ the work's axis is (u sin γ, v sin γ, cos γ), sin γ = S/L, u = ±cos ψ
 * (+ towards the tool), v = sin ψ. The tool's line, along z at x and height y, passes it at the distance
 * |y u - x v|. Seen from the work, that is a level path at the height y u - x v, set to γ.
 */
import { refuse } from '../core/errors.js';
import { cosDeg, sinDeg } from '../core/trigonometry.js';

/** How the work lies, and where on it the tool is touched off to size. */
export interface RolledWork {
  /** Sine of the angle between the work's axis and the bed: set-over by distance of the pivots. */
  readonly sine: number;
  /** How far out of level the tailstock's pivot is moved; positive if it stands high. */
  readonly rollDeg: number;
  /** Whether the tailstock's end of the work is moved towards the tool (1) or away from it (-1). */
  readonly towards: 1 | -1;
  /** Distance of the sized end from the headstock pivot, along the work. */
  readonly distance: number;
  /** Radius to which the sized end is cut. */
  readonly radius: number;
  /** Height of the tool's tip above the headstock pivot. */
  readonly toolHeight: number;
}

/** What the roll comes to. */
export interface RolledCut {
  /** Height of the tool's line above the work's axis, as the work sees it; its size is the waist. */
  readonly height: number;
  /** How much larger the sized end comes out if the cross slide is set as for level work and a tool on centre. */
  readonly diameterShift: number;
}

/** The tool's height as the work sees it, with the tool touched off to the radius wanted. */
export function rolledCut({ sine, rollDeg, towards, distance: z, radius, toolHeight: y }: RolledWork): RolledCut {
  const cosine = Math.sqrt((1 - sine) * (1 + sine));
  const [u, v] = [towards * cosDeg(rollDeg), sinDeg(rollDeg)];
  // The point touched lies z along the axis and the radius from it: a quadratic for x.
  const q = cosine * cosine + sine * sine * u * u;
  const below = z * sine * v - y;
  const square = q * radius * radius - below * below;
  if (square < 0) {
    return refuse(
      'impossible-geometry',
      'toolHeight',
      y,
      'must let the tool reach the sized end; it passes clear of it',
    );
  }
  const x = (sine * u * (z - sine * v * y) + cosine * Math.sqrt(square)) / q;
  // Set by the dial instead: x₀ as for level work. Its miss along the tool's line of sight is e.
  const x0 = towards * z * sine + radius * cosine;
  const e = (towards * y * v - 2 * sinDeg(rollDeg / 2) ** 2 * x0) / cosine;
  const b = y * u - x0 * v;
  const real = Math.sqrt(b * b + (radius + e) * (radius + e));
  const shift = real === radius ? 0 : (2 * (b * b + e * (2 * radius + e))) / (real + radius);
  return { height: y * u - x * v, diameterShift: shift };
}
