/**
 * A taper as it was measured on the work: two diameters and their distance along the axis, with the
 * standard uncertainties of the measurements carried through to the angle, to first order.
 */
import { refuse } from '../core/errors.js';
import { type Fields, nonNegative, optional, positive, representable } from '../core/read.js';
import { note } from '../core/words.js';
import { type OffsetNote, TRIAL } from './words.js';

/** Two diameters measured on the work, and how far apart along the axis they were measured. */
export interface MeasuredTaper {
  /** Diameter at the end that is to be the large one; a trial may well come out the other way round. */
  readonly largeDiameter: number;
  /** Diameter at the end that is to be the small one. */
  readonly smallDiameter: number;
  /** How far apart the two were measured, along the axis. */
  readonly length: number;
}

/** How well a trial was measured: standard uncertainties (JCGM 100), one instrument for all. */
export interface MeasuringUncertainty {
  /** Standard uncertainty of one measured diameter. @defaultValue none: no uncertainty is carried through */
  readonly diameterStandardUncertainty?: number;
  /**
   * Standard uncertainty of the distance between the two diameters; needs `diameterStandardUncertainty` too.
   * @defaultValue 0
   */
  readonly lengthStandardUncertainty?: number;
}

/** Readers of a measured taper. */
export const MEASURED: Fields<MeasuredTaper> = {
  largeDiameter: positive,
  smallDiameter: nonNegative,
  length: positive,
};

/** Readers of how well it was measured. */
export const UNCERTAINTY: Fields<MeasuringUncertainty> = {
  diameterStandardUncertainty: optional(positive),
  lengthStandardUncertainty: optional(nonNegative),
};

/** The measured slope: change of radius per unit of length, signed. */
export interface MeasuredSlope {
  /** Tangent of the half angle. */
  readonly tan: number;
  /** Sine of the half angle. */
  readonly sin: number;
  /** Cosine of the half angle. */
  readonly cos: number;
  /** Distance of the two diameters. */
  readonly length: number;
}

/** Standard uncertainties of one diameter and of the distance. */
export interface Stated {
  readonly diameter: number;
  readonly length: number;
}

/** The slope of a measured taper. */
export function measuredSlope({ largeDiameter, smallDiameter, length }: MeasuredTaper, at = ''): MeasuredSlope {
  const tan = representable((largeDiameter - smallDiameter) / 2 / length, `${at}length`);
  const cos = 1 / Math.sqrt(1 + tan * tan);
  return { tan, sin: tan * cos, cos, length };
}

/** What is stated of the measuring, if anything is; `also` is a key that needs it. */
export function statedUncertainty(
  { diameterStandardUncertainty: diameter, lengthStandardUncertainty: length }: MeasuringUncertainty,
  also?: string,
): Stated | undefined {
  if (diameter !== undefined) return { diameter, length: length ?? 0 };
  const key = length === undefined ? also : 'lengthStandardUncertainty';
  if (key === undefined) return undefined;
  return refuse('missing-option', 'diameterStandardUncertainty', undefined, `must be given with ${key}`);
}

/** Standard uncertainty of the measured tangent: two diameters and a distance, independent of each other. */
export function tangentUncertainty({ tan, length }: MeasuredSlope, stated: Stated): number {
  return Math.hypot(stated.diameter / Math.SQRT2, tan * stated.length) / length;
}

/** How near a trial must come to a likely mistake, as a part of the slope expected. */
const NEAR = 0.2;

/**
 * What looks like a mistake in typing a trial: as steep as expected of its setting, but the other way round, or
 * half as steep. Slopes are tangents.
 */
export function doubtNotes(measuredTan: number, expectedTan: number): OffsetNote[] {
  const near = (mistaken: number): boolean =>
    Math.abs(measuredTan - mistaken) < NEAR * Math.abs(mistaken) && expectedTan !== 0;
  const values = { measuredRate: 2 * measuredTan, expectedRate: 2 * expectedTan };
  if (near(-expectedTan)) return [note(TRIAL, 'diameters-swapped', values)];
  return near(expectedTan / 2) ? [note(TRIAL, 'radii-for-diameters', values)] : [];
}
