/**
 * A taper as it was measured on the work: two diameters and their distance along the axis, with the
 * standard uncertainties of the measurements carried through to the angle, to first order.
 */
import { nonNegative, number, positive, representable } from '../core/checks.js';
import { refuse } from '../core/errors.js';

/** Two diameters measured on the work, and how far apart along the axis they were measured. */
export interface MeasuredTaper {
  /** Diameter at the end that is to be the large one; a trial may well come out the other way round. */
  readonly largeDiameter: number;
  /** Diameter at the end that is to be the small one. */
  readonly smallDiameter: number;
  /** Distance between the two, along the axis. */
  readonly distance: number;
}

/** How well a trial was measured: standard uncertainties, one instrument for all. */
export interface MeasuringUncertainty {
  /** Standard uncertainty of one measured diameter. */
  readonly diameterUncertainty?: number;
  /** Standard uncertainty of the distance between the two diameters; needs `diameterUncertainty` too. */
  readonly distanceUncertainty?: number;
}

/** The keys of {@link MeasuredTaper}. */
export const MEASURED = ['largeDiameter', 'smallDiameter', 'distance'] as const;
/** The keys of {@link MeasuringUncertainty}. */
export const UNCERTAINTY = ['diameterUncertainty', 'distanceUncertainty'] as const;

/** The measured slope: change of radius per unit of length, signed. */
export interface MeasuredSlope {
  /** Tangent of the half angle. */
  readonly tan: number;
  /** Sine of the half angle. */
  readonly sin: number;
  /** Cosine of the half angle. */
  readonly cos: number;
  /** Distance of the two diameters. */
  readonly distance: number;
}

/** Reads and checks a measured taper. */
export function readMeasured(given: Readonly<Record<string, unknown>>, prefix = ''): MeasuredSlope {
  const large = positive(given['largeDiameter'], `${prefix}largeDiameter`);
  const small = number(given['smallDiameter'], `${prefix}smallDiameter`, { min: 0 });
  const distance = positive(given['distance'], `${prefix}distance`);
  const tan = representable((large - small) / 2 / distance, `${prefix}distance`);
  const cos = 1 / Math.sqrt(1 + tan * tan);
  return { tan, sin: tan * cos, cos, distance };
}

/** Checked standard uncertainties of one diameter and of the distance; none if none is stated. */
export function readUncertainty(
  given: Readonly<Record<string, unknown>>,
): { readonly diameter: number; readonly distance: number } | undefined {
  const { diameterUncertainty, distanceUncertainty = 0 } = given;
  const distance = nonNegative(distanceUncertainty, 'distanceUncertainty');
  if (diameterUncertainty !== undefined) {
    return { diameter: positive(diameterUncertainty, 'diameterUncertainty'), distance };
  }
  if (given['distanceUncertainty'] === undefined) return undefined;
  return refuse('missing-option', 'diameterUncertainty', undefined, 'must be given with distanceUncertainty');
}

/** Standard uncertainty of the measured tangent: two diameters and a distance, independent of each other. */
export function tangentUncertainty(
  { tan, distance }: MeasuredSlope,
  stated: { readonly diameter: number; readonly distance: number },
): number {
  return Math.hypot(stated.diameter / Math.SQRT2, tan * stated.distance) / distance;
}
