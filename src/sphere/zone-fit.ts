/**
 * What the errors of a sphere's surface do to its two toleranced quantities, to first order. The radius is
 * that of the least-squares sphere with its centre on the work axis; the form is the width between the two
 * spheres about that centre that hold the surface. A departure a + b cos φ from the wanted sphere is
 * another radius and another place of the centre: the rest is form.
 */
import type { SphereShape } from './target.js';

/** Weights that turn departures at polar angles into the sphere's radius and the place of its centre. */
export interface SphereFit {
  readonly cosines: readonly number[];
  readonly radius: readonly number[];
  readonly centre: readonly number[];
}

/** Least squares of departures against 1 and cos φ, each place counting alike. */
export function sphereFit(angles: readonly number[]): SphereFit {
  const cosines = angles.map(Math.cos);
  const n = cosines.length;
  const mean = sum(cosines) / n;
  const square = sum(cosines.map((cosine) => (cosine - mean) ** 2));
  const centre = cosines.map((cosine) => (square > 0 ? (cosine - mean) / square : 0));
  return { cosines, radius: centre.map((weight) => 1 / n - mean * weight), centre };
}

/** What is left of departures when the fitted sphere is taken off: their width. */
export function formOf({ cosines, radius, centre }: SphereFit, departures: readonly number[]): number {
  const [a, b] = [dot(radius, departures), dot(centre, departures)];
  const rest = departures.map((departure, i) => departure - a - b * (cosines[i] as number));
  return Math.max(...rest) - Math.min(...rest);
}

/** What a unit offset of the cutting circle across the work axis, a departure of sin φ, does to radius and form. */
export function offsetEffect({ fromDeg, toDeg }: SphereShape): { readonly radius: number; readonly form: number } {
  const [from, to] = [Math.cos((fromDeg * Math.PI) / 180), Math.cos((toDeg * Math.PI) / 180)];
  // Equal steps along the axis are equal areas.
  const angles = Array.from({ length: PLACES + 1 }, (_, i) => Math.acos(clamp(from + ((to - from) * i) / PLACES)));
  const fit = sphereFit(angles);
  const sines = angles.map(Math.sin);
  return { radius: dot(fit.radius, sines), form: formOf(fit, sines) };
}

/** Places along a zone: enough for four digits of a coefficient. */
const PLACES = 400;

/**
 * How the radius is measured: by the diameter across the widest place if the surface has it, else by
 * R = (s² + t²)/(2t) from the half-chord s and the height t of its end: dR = (s/t) ds + (1 - s²/t²)/2 dt.
 */
export interface Gauge {
  /** Polar angle of the place whose diameter is measured. */
  readonly atDeg: number;
  /** Change of the radius found, per unit of error of that place's radius. */
  readonly across: number;
  /** The same per unit of error of the height from that place to the pole. */
  readonly along: number;
}

/** How a sphere can be measured. */
export function gaugeOf({ fromDeg, toDeg }: SphereShape): Gauge {
  if (fromDeg <= 90 && toDeg >= 90) return { atDeg: 90, across: 1, along: 0 };
  const across = 1 / Math.tan((toDeg * Math.PI) / 360);
  return { atDeg: toDeg, across, along: (1 - across * across) / 2 };
}

/** Sum of products. */
export function dot(weights: readonly number[], values: readonly number[]): number {
  return sum(weights.map((weight, i) => weight * (values[i] as number)));
}

function sum(values: readonly number[]): number {
  return values.reduce((total, value) => total + value, 0);
}

function clamp(cosine: number): number {
  return Math.min(1, Math.max(-1, cosine));
}
