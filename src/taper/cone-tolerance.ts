/**
 * Tolerances of a cone: how an angle tolerance shows on the diameter, and back. ISO 1947 grades the cone
 * angle; its tables (AT1 to AT12) could not be read, so this library holds no grade values and says so
 * rather than guess.
 */
import { number, options, positive } from '../core/checks.js';
import { refuse } from '../core/errors.js';
import { atanDeg, cosDeg, sinDeg } from '../core/trigonometry.js';
import { readTaper, type Taper } from './taper.js';

/**
 * How far the difference of the end diameters may be off when the cone angle is at its upper limit:
 * 2 L (tan(α + AT/2) - tan α), written so that small tolerances keep their digits. For slender cones this
 * is the rule of the standards, AT in radians times the length.
 *
 * @param request - The taper, the tolerance AT on the whole cone angle in degrees, and the length along the axis.
 * @returns Tolerance on the difference of diameters, in the unit of the length.
 * @throws GeneratrixError `impossible-geometry` if the cone would open to 180° or more.
 * @example
 * ```ts
 * import { diameterToleranceFromAngle } from 'generatrix';
 * const AT = (4e-4 * 180) / Math.PI; // 400 microradians
 * Math.round(diameterToleranceFromAngle({ taper: { oneIn: 20 }, angleToleranceDeg: AT, length: 100 }) * 1e5) / 1e5; // => 0.04003
 * ```
 */
export function diameterToleranceFromAngle(request: {
  readonly taper: Taper;
  readonly angleToleranceDeg: number;
  readonly length: number;
}): number {
  options(request, 'request', ['taper', 'angleToleranceDeg', 'length']);
  const { cos, halfAngleDeg } = readTaper(request.taper);
  const half = number(request.angleToleranceDeg, 'angleToleranceDeg', { above: 0, below: 180 }) / 2;
  if (halfAngleDeg + half >= 90) {
    return refuse(
      'impossible-geometry',
      'angleToleranceDeg',
      request.angleToleranceDeg,
      'must leave the cone angle below 180',
    );
  }
  return (2 * positive(request.length, 'length') * sinDeg(half)) / (cosDeg(halfAngleDeg + half) * cos);
}

/**
 * The tolerance on the whole cone angle, in degrees, that a tolerance on the difference of the end
 * diameters allows over a length.
 *
 * @param request - The taper, the tolerance on the difference of diameters, and the length along the axis.
 * @returns Tolerance on the cone angle in degrees.
 * @throws GeneratrixError for values out of range.
 * @example
 * ```ts
 * import { angleToleranceFromDiameter } from 'generatrix';
 * const AT = angleToleranceFromDiameter({ taper: { oneIn: 20 }, diameterTolerance: 0.04, length: 100 });
 * Math.round(AT * 3600); // => 82
 * ```
 */
export function angleToleranceFromDiameter(request: {
  readonly taper: Taper;
  readonly diameterTolerance: number;
  readonly length: number;
}): number {
  options(request, 'request', ['taper', 'diameterTolerance', 'length']);
  const { tan } = readTaper(request.taper);
  const more = positive(request.diameterTolerance, 'diameterTolerance') / (2 * positive(request.length, 'length'));
  // tan(x) of the difference of two angles whose tangents are tan + more and tan.
  return 2 * atanDeg(more / (1 + (tan + more) * tan));
}

/**
 * Angle tolerance of a cone by ISO 1947 grade. The library has no values for any grade: the standard's
 * tables could not be read, and a guess would be worse than none.
 *
 * @param grade - The grade, such as `AT5`.
 * @returns Never: it always refuses.
 * @throws GeneratrixError `no-data`, always.
 * @example
 * ```ts
 * import { coneAngleGrade } from 'generatrix';
 * coneAngleGrade('AT5'); // throws no-data
 * ```
 */
export function coneAngleGrade(grade: string): never {
  return refuse(
    'no-data',
    'grade',
    grade,
    'take the angle tolerance of the grade from ISO 1947 itself; no values are held here',
  );
}
