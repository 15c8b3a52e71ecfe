/**
 * A taper set or measured by two disks and two straight edges that touch both: between disks of radii
 * r₁ < r₂ with centres c apart the edges enclose 2α, sin α = (r₂ - r₁)/c (Machinery's Handbook, 31st
 * edition, "Angles and Tapers").
 */
import type { Model } from '../budget/model.js';
import { number, options, positive } from '../core/checks.js';
import { asinDeg } from '../core/trigonometry.js';
import { readTaper, type Taper } from '../taper/taper.js';

/**
 * Half angle between the centre line and an edge that touches two disks.
 *
 * @param request - Diameters of the disks and the distance of their centres.
 * @returns Half angle in degrees.
 * @throws GeneratrixError unless the disks lie outside each other.
 * @example
 * ```ts
 * import { halfAngleFromDisks } from 'generatrix';
 * halfAngleFromDisks({ smallDisk: 1, largeDisk: 2, centreDistance: 1.5 }); // => 19.47122063449069
 * ```
 */
export function halfAngleFromDisks(request: {
  readonly smallDisk: number;
  readonly largeDisk: number;
  readonly centreDistance: number;
}): number {
  options(request, 'request', ['smallDisk', 'largeDisk', 'centreDistance']);
  const small = positive(request.smallDisk, 'smallDisk');
  const large = number(request.largeDisk, 'largeDisk', { above: small });
  const apart = number(request.centreDistance, 'centreDistance', { min: (small + large) / 2 });
  return asinDeg((large - small) / 2 / apart);
}

/**
 * Distance of the centres of two disks for a wanted taper: (D - d)/(2 sin α).
 *
 * @param request - The taper and the diameters of the disks.
 * @returns The distance of the centres.
 * @throws GeneratrixError `out-of-range` if the disks would overlap.
 * @example
 * ```ts
 * import { diskCentreDistance } from 'generatrix';
 * diskCentreDistance({ taper: { includedAngleDeg: 60 }, smallDisk: 1, largeDisk: 3 }); // => 2
 * ```
 */
export function diskCentreDistance(request: {
  readonly taper: Taper;
  readonly smallDisk: number;
  readonly largeDisk: number;
}): number {
  options(request, 'request', ['taper', 'smallDisk', 'largeDisk']);
  const { sin } = readTaper(request.taper);
  const small = positive(request.smallDisk, 'smallDisk');
  const large = number(request.largeDisk, 'largeDisk', { above: small });
  const apart = (large - small) / (2 * sin);
  // Disks that just touch are allowed; a rounding must not forbid them.
  number(apart, 'centreDistance', { min: ((small + large) / 2) * (1 - 1e-12) });
  return apart;
}

/**
 * The larger of two disks that touch each other and enclose a wanted taper: d (1 + sin α)/(1 - sin α).
 *
 * @param request - The taper and the diameter of the smaller disk.
 * @returns Diameter of the larger disk.
 * @throws GeneratrixError for a taper or a diameter out of range.
 * @example
 * ```ts
 * import { touchingDisk } from 'generatrix';
 * touchingDisk({ taper: { includedAngleDeg: 60 }, smallDisk: 1 }); // => 3
 * ```
 */
export function touchingDisk(request: { readonly taper: Taper; readonly smallDisk: number }): number {
  options(request, 'request', ['taper', 'smallDisk']);
  const { sin } = readTaper(request.taper);
  return (positive(request.smallDisk, 'smallDisk') * (1 + sin)) / (1 - sin);
}

/** Half angle between the centre line and an edge that touches two disks, in degrees. */
export const halfAngleFromDisksModel: Model<'smallDisk' | 'largeDisk' | 'centreDistance'> = {
  name: 'half-angle-from-disks',
  result: { kind: 'angleDeg', meaning: 'half angle between centre line and edge' },
  inputs: {
    smallDisk: { kind: 'length', meaning: 'diameter of the small disk' },
    largeDisk: { kind: 'length', meaning: 'diameter of the large disk' },
    centreDistance: { kind: 'length', meaning: 'distance of the centres' },
  },
  evaluate: (a, { smallDisk, largeDisk, centreDistance }) => {
    const step = a.multiply(a.constant(0.5), a.subtract(largeDisk, smallDisk));
    return a.asinDeg(a.divide(step, centreDistance));
  },
};
