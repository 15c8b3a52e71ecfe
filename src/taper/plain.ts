/**
 * Plain-number conversions between rate of taper and half angle, for loops and small bundles: every
 * other statement is a plain multiple of the rate. Same digits as {@link convertTaper}.
 */
import { number, positive, type Reader, readValue, representable } from '../core/read.js';
import { atanDeg, tanDeg } from '../core/trigonometry.js';

const acute: Reader<number> = number({ above: 0, below: 90 });

/**
 * Half angle of a rate of taper: atan(C/2).
 * @param rate - Rate of taper C = (D - d)/L, greater than 0.
 * @returns Half angle in degrees.
 * @throws GeneratrixError for a rate that is not a positive finite number.
 * @example
 * ```ts
 * import { halfAngleDegOfRate } from 'generatrix';
 * halfAngleDegOfRate(2); // => 45
 * ```
 */
export function halfAngleDegOfRate(rate: number): number {
  return atanDeg(readValue(rate, positive, 'rate') / 2);
}

/**
 * Rate of taper of a half angle: 2 tan α.
 * @param halfAngleDeg - Half angle in degrees, between 0 and 90.
 * @returns Rate of taper C = (D - d)/L.
 * @throws GeneratrixError for an angle outside 0 < α < 90°, or so near 90° that the rate overflows.
 * @example
 * ```ts
 * import { rateOfHalfAngleDeg } from 'generatrix';
 * rateOfHalfAngleDeg(45); // => 2
 * ```
 */
export function rateOfHalfAngleDeg(halfAngleDeg: number): number {
  return representable(2 * tanDeg(readValue(halfAngleDeg, acute, 'halfAngleDeg')), 'halfAngleDeg');
}
