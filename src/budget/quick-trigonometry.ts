/**
 * Trigonometry in degrees for millions of trials and for bounds: the engine's own functions, after a reduction to
 * -45 to 45 degrees that is exact. Within two and a half units of 2^-52 where the engine's are right to one, at a
 * quarter of the time that core/trigonometry.ts takes for its last digit.
 */
const RADIAN = Math.PI / 180;
const DEGREE = 180 / Math.PI;

/** Sine of an angle a number of quarter turns further on. */
function sineFrom(quarter: number, angleDeg: number): number {
  const turn = Math.abs(angleDeg) < 45 ? angleDeg : angleDeg % 360;
  const quarters = Math.round(turn / 90);
  const rest = (turn - 90 * quarters) * RADIAN;
  const whole = quarters + quarter;
  const size = whole & 1 ? Math.cos(rest) : Math.sin(rest);
  return whole & 2 ? -size : size;
}

/** Sine of an angle in degrees. */
export const sinDeg = (angleDeg: number): number => sineFrom(0, angleDeg);

/** Cosine of an angle in degrees. */
export const cosDeg = (angleDeg: number): number => sineFrom(1, angleDeg);

/** Tangent of an angle in degrees. */
export function tanDeg(angleDeg: number): number {
  const turn = angleDeg % 180;
  const quarters = Math.round(turn / 90);
  const tan = Math.tan((turn - 90 * quarters) * RADIAN);
  return quarters & 1 ? -1 / tan : tan;
}

/** Angle in degrees of a sine. */
export const asinDeg = (sine: number): number => Math.asin(sine) * DEGREE;

/** Angle in degrees of a cosine. */
export const acosDeg = (cosine: number): number => Math.acos(cosine) * DEGREE;

/** Angle in degrees of a tangent. */
export const atanDeg = (tangent: number): number => Math.atan(tangent) * DEGREE;
