/**
 * Compound sine tables tilt twice, the upper tilt about an axis that the lower one carries along. Lengths in any one
 * unit, angles in degrees. Source: elementary geometry.
 */
import { type Fields, number, positive, read, sound } from '../core/read.js';
import { atanDeg, cosDeg, sinDeg, tanDeg } from '../core/trigonometry.js';

/** A face to be set on a compound sine table. */
export interface CompoundSineSettingsOptions {
  /** Angle in the front view, in degrees, 0 or more and less than 90: a section by the plane square to the lower hinge. */
  readonly frontAngleDeg: number;
  /** Angle in the side view, in degrees, 0 or more and less than 90. */
  readonly sideAngleDeg: number;
  /** Distance of the roller axes of the lower plate. */
  readonly lowerLength: number;
  /** Distance of the roller axes of the upper plate. */
  readonly upperLength: number;
}

/** What to set on a compound sine table. */
export interface CompoundSineSettings {
  /** Tilt of the lower plate, in degrees: the angle seen in the front view. */
  readonly lowerAngleDeg: number;
  /** Tilt of the upper plate about its own hinge, in degrees. */
  readonly upperAngleDeg: number;
  /** Height under the lower plate. */
  readonly lowerHeight: number;
  /** Height under the upper plate. */
  readonly upperHeight: number;
  /** Angle between the table's face and the base, in degrees. */
  readonly tiltDeg: number;
}

const COMPOUND: Fields<CompoundSineSettingsOptions> = {
  frontAngleDeg: number({ min: 0, below: 90 }),
  sideAngleDeg: number({ min: 0, below: 90 }),
  lowerLength: positive,
  upperLength: positive,
};

/**
 * Settings of a compound sine table, two plates hinged square to each other, for a face that shows the
 * wanted angles in front and side view. The lower plate takes the front angle a as it is; the upper
 * one, carried along, needs tan b cos a.
 * @throws GeneratrixError for an angle outside 0 ≤ angle < 90° or a length that is not positive.
 * @example
 * ```ts
 * import { compoundSineSettings } from 'generatrix';
 * const { upperAngleDeg } = compoundSineSettings({ frontAngleDeg: 0, sideAngleDeg: 30, lowerLength: 5, upperLength: 5 });
 * Math.round(upperAngleDeg * 1e9) / 1e9; // => 30
 * ```
 */
export function compoundSineSettings(options: CompoundSineSettingsOptions): CompoundSineSettings {
  const { frontAngleDeg, sideAngleDeg, lowerLength, upperLength } = read(options, COMPOUND);
  const upperAngleDeg = atanDeg(tanDeg(sideAngleDeg) * cosDeg(frontAngleDeg));
  const tan = Math.sqrt(tanDeg(frontAngleDeg) ** 2 + tanDeg(sideAngleDeg) ** 2);
  const settings = {
    lowerAngleDeg: frontAngleDeg,
    upperAngleDeg,
    lowerHeight: lowerLength * sinDeg(frontAngleDeg),
    upperHeight: upperLength * sinDeg(upperAngleDeg),
    tiltDeg: atanDeg(tan),
  };
  return sound(settings, 'lowerLength');
}
