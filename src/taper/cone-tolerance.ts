/**
 * Tolerances of a cone: how an angle tolerance shows on the diameter, and back, and the grades of ISO 1947. Angles in
 * degrees; lengths in any one unit, but for the grades, which go by millimetres.
 */
import { refuse } from '../core/errors.js';
import { choice, type Fields, number, positive, read, representable } from '../core/read.js';
import { atanDeg, cosDeg, sinDeg, toDegrees } from '../core/trigonometry.js';
import type { StandardConfidence } from './standards.js';
import { slopeOf, type Taper, taper } from './taper.js';

/** What {@link diameterToleranceFromAngle} needs. */
export interface DiameterToleranceOptions {
  /** The taper, at the lower limit of its angle. */
  readonly taper: Taper;
  /** The tolerance AT on the whole cone angle, in degrees. */
  readonly angleToleranceDeg: number;
  /** Length of the cone along its axis. */
  readonly length: number;
}

const DIAMETER_TOLERANCE: Fields<DiameterToleranceOptions> = {
  taper,
  angleToleranceDeg: number({ above: 0, below: 180 }),
  length: positive,
};

/**
 * How far the difference of the end diameters may be off when the cone angle is at its upper limit:
 * 2 L (tan(α + AT/2) - tan α), written so that small tolerances keep their digits. For slender cones this
 * is the rule of the standards, AT in radians times the length.
 * @returns Tolerance on the difference of diameters, in the unit of the length.
 * @throws GeneratrixError `impossible-geometry` if the cone would open to 180° or more; `not-representable` if it
 *   opens so nearly to 180° that the result overflows.
 * @example
 * ```ts
 * import { diameterToleranceFromAngle } from 'generatrix';
 * const AT = (4e-4 * 180) / Math.PI; // 400 microradians
 * Math.round(diameterToleranceFromAngle({ taper: { oneIn: 20 }, angleToleranceDeg: AT, length: 100 }) * 1e5) / 1e5; // => 0.04003
 * ```
 */
export function diameterToleranceFromAngle(options: DiameterToleranceOptions): number {
  const given = read(options, DIAMETER_TOLERANCE);
  const { cos, halfAngleDeg } = slopeOf(given.taper);
  const half = given.angleToleranceDeg / 2;
  if (halfAngleDeg + half >= 90) {
    const below = 180 - 2 * halfAngleDeg;
    return refuse('impossible-geometry', 'angleToleranceDeg', given.angleToleranceDeg, {
      kind: 'number',
      below,
      phrase: `must leave the cone angle below 180: less than ${below}`,
    });
  }
  return representable((2 * given.length * sinDeg(half)) / (cosDeg(halfAngleDeg + half) * cos), 'angleToleranceDeg');
}

/** What {@link angleToleranceFromDiameter} needs. */
export interface AngleToleranceOptions extends Omit<DiameterToleranceOptions, 'angleToleranceDeg'> {
  /** The tolerance on the difference of the end diameters. */
  readonly diameterTolerance: number;
}

const ANGLE_TOLERANCE: Fields<AngleToleranceOptions> = { taper, diameterTolerance: positive, length: positive };

/**
 * The tolerance on the whole cone angle, in degrees, that a tolerance on the difference of the end
 * diameters allows over a length.
 * @returns Tolerance on the cone angle in degrees.
 * @throws GeneratrixError for values out of range; `not-representable` if the tolerance is too large for the length.
 * @example
 * ```ts
 * import { angleToleranceFromDiameter } from 'generatrix';
 * const AT = angleToleranceFromDiameter({ taper: { oneIn: 20 }, diameterTolerance: 0.04, length: 100 });
 * Math.round(AT * 3600); // => 82
 * ```
 */
export function angleToleranceFromDiameter(options: AngleToleranceOptions): number {
  const given = read(options, ANGLE_TOLERANCE);
  const { tan } = slopeOf(given.taper);
  const more = representable(given.diameterTolerance / 2 / given.length, 'diameterTolerance');
  // tan(x) of the difference of two angles whose tangents are tan + more and tan.
  return 2 * atanDeg(more / (1 + (tan + more) * tan));
}

/** A cone angle tolerance grade of ISO 1947, from the finest. */
export type ConeAngleGrade = `AT${1 | 2 | 3 | 4 | 5 | 6 | 7 | 8 | 9 | 10 | 11 | 12}`;

const GRADES = ['AT1', 'AT2', 'AT3', 'AT4', 'AT5', 'AT6', 'AT7', 'AT8', 'AT9', 'AT10', 'AT11', 'AT12'] as const;

/** Ends of the ranges of cone length in millimetres: over the one, up to and including the next (from memory). */
const LENGTHS = [6, 10, 16, 25, 40, 63, 100, 160, 250, 400, 630];

/** The preferred numbers R10 as the standard rounds them. */
const PREFERRED = [1, 1.25, 1.6, 2, 2.5, 3.15, 4, 5, 6.3, 8];

/** What {@link coneAngleTolerance} needs. */
export interface ConeAngleToleranceOptions {
  /** The grade. */
  readonly grade: ConeAngleGrade;
  /** Length of the cone in millimetres, over 6 and at most 630. */
  readonly lengthMm: number;
}

const CONE_ANGLE_TOLERANCE: Fields<ConeAngleToleranceOptions> = { grade: choice(...GRADES), lengthMm: positive };

/** A cone angle tolerance of ISO 1947. */
export interface ConeAngleTolerance {
  /** Tolerance on the whole cone angle in microradians, as the standard states it. */
  readonly microradians: number;
  /** The same in degrees, as {@link diameterToleranceFromAngle} takes it. */
  readonly angleToleranceDeg: number;
  /** How far the value can be trusted: only four could be inferred from a source. */
  readonly confidence: StandardConfidence;
  /** Where it comes from. */
  readonly source: string;
}

/**
 * The tolerance AT on the cone angle by grade and cone length (ISO 1947:1973), one R5 step a grade and one R10 step a
 * range of length. The standard's table could not be read. The four values of AT4 over 40 mm and up to 250 mm follow
 * from printed diameter tolerances; all others are from memory and from the rule that those four obey, and say so.
 * @throws GeneratrixError `no-data` for a length that the standard does not cover; `out-of-range` for another grade.
 * @example
 * ```ts
 * import { coneAngleTolerance } from 'generatrix';
 * coneAngleTolerance({ grade: 'AT4', lengthMm: 100 }).microradians; // => 63
 * coneAngleTolerance({ grade: 'AT5', lengthMm: 100 }).confidence; // => 'memory'
 * coneAngleTolerance({ grade: 'AT5', lengthMm: 1000 }); // throws no-data
 * ```
 */
export function coneAngleTolerance(options: ConeAngleToleranceOptions): ConeAngleTolerance {
  const { grade, lengthMm } = read(options, CONE_ANGLE_TOLERANCE);
  const range = LENGTHS.findIndex((end) => lengthMm <= end);
  if (range < 1) {
    const phrase = 'must be over 6 and at most 630, which is what ISO 1947 covers';
    return refuse('no-data', 'lengthMm', lengthMm, { kind: 'number', above: 6, max: 630, phrase });
  }
  // AT1 of the shortest range is 50, the eighth of its decade; two steps a grade up, one a range down.
  const step = 8 + 2 * GRADES.indexOf(grade) - range;
  const microradians = (PREFERRED[(step + 10) % 10] as number) * 10 ** (Math.floor(step / 10) + 1);
  const seen = grade === 'AT4' && lengthMm > 40 && lengthMm <= 250;
  return {
    microradians,
    angleToleranceDeg: toDegrees(microradians / 1e6),
    confidence: seen ? 'two-sources' : 'memory',
    source: seen
      ? 'ISO 1947:1973, inferred from diameter tolerances in JIS B 6340-1992, table 1, and a table of tool shanks'
      : 'ISO 1947:1973, memory, not verified; by the steps of preferred numbers that the verified values obey',
  };
}
