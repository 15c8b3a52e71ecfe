/**
 * A taper set or measured by two disks and two straight edges that touch both: between disks of radii
 * r₁ < r₂ with centres c apart the edges enclose 2α, sin α = (r₂ - r₁)/c (Machinery's Handbook, 31st
 * edition, "Angles and Tapers"). Lengths in any one unit, angles in degrees.
 */
import { type Algebra, frozen, type Model, plainAlgebra, scaled } from '../budget/model.js';
import { refuse } from '../core/errors.js';
import { type Fields, number, positive, read, readValue, sound } from '../core/read.js';
import { asinDeg } from '../core/trigonometry.js';
import { slopeOf, type Taper, taper } from '../taper/taper.js';

/** Two disks and how far apart they lie. */
export interface HalfAngleFromDisksOptions {
  /** Diameter of the small disk. */
  readonly smallDisk: number;
  /** Diameter of the large disk. */
  readonly largeDisk: number;
  /** Distance of the centres: the disks touch or lie apart. */
  readonly centreDistance: number;
}

const HALF_ANGLE: Fields<HalfAngleFromDisksOptions> = {
  smallDisk: positive,
  largeDisk: positive,
  centreDistance: positive,
};

/**
 * Half angle between the centre line and an edge that touches two disks.
 * @returns Half angle in degrees.
 * @throws GeneratrixError unless the disks lie outside each other.
 * @example
 * ```ts
 * import { halfAngleFromDisks } from 'generatrix';
 * halfAngleFromDisks({ smallDisk: 1, largeDisk: 2, centreDistance: 1.5 }); // => 19.47122063449069
 * ```
 */
export function halfAngleFromDisks(options: HalfAngleFromDisksOptions): number {
  const given = read(options, HALF_ANGLE);
  const { smallDisk, largeDisk, centreDistance } = given;
  readValue(largeDisk, number({ above: smallDisk }), 'largeDisk');
  readValue(centreDistance, number({ min: smallDisk / 2 + largeDisk / 2 }), 'centreDistance');
  return sound(asinDeg(sineOf(plainAlgebra, given)), 'centreDistance');
}

function sineOf<T>(a: Algebra<T>, x: Readonly<Record<keyof HalfAngleFromDisksOptions, T>>): T {
  const step = scaled(a, 0.5, a.subtract(x.largeDisk, x.smallDisk));
  return a.divide(step, x.centreDistance);
}

/** Half angle between the centre line and an edge that touches two disks, in degrees. */
export const halfAngleFromDisksModel: Model<keyof HalfAngleFromDisksOptions> = /* @__PURE__ */ frozen({
  name: 'half-angle-from-disks',
  result: { kind: 'angleDeg', meaning: 'half angle between centre line and edge' },
  inputs: {
    smallDisk: { kind: 'length', meaning: 'diameter of the small disk' },
    largeDisk: { kind: 'length', meaning: 'diameter of the large disk' },
    centreDistance: { kind: 'length', meaning: 'distance of the centres' },
  },
  evaluate: (a, x) => a.asinDeg(sineOf(a, x)),
});

/** A taper and the two disks that shall enclose it. */
export interface DiskCentreDistanceOptions extends TouchingDiskOptions {
  /** Diameter of the large disk. */
  readonly largeDisk: number;
}

const CENTRE_DISTANCE: Fields<DiskCentreDistanceOptions> = { taper, smallDisk: positive, largeDisk: positive };

/**
 * Distance of the centres of two disks for a wanted taper: (D - d)/(2 sin α).
 * @throws GeneratrixError `out-of-range` if the disks would overlap.
 * @example
 * ```ts
 * import { diskCentreDistance } from 'generatrix';
 * diskCentreDistance({ taper: { includedAngleDeg: 60 }, smallDisk: 1, largeDisk: 3 }); // => 2
 * ```
 */
export function diskCentreDistance(options: DiskCentreDistanceOptions): number {
  const { taper, smallDisk, largeDisk } = read(options, CENTRE_DISTANCE);
  readValue(largeDisk, number({ above: smallDisk }), 'largeDisk');
  const apart = (largeDisk - smallDisk) / 2 / slopeOf(taper).sin;
  // Disks that just touch are allowed; a rounding must not forbid them.
  if (apart < (smallDisk / 2 + largeDisk / 2) * (1 - 1e-12)) {
    const touching = sound(touchingOf(taper, smallDisk), 'taper');
    return refuse('out-of-range', 'largeDisk', largeDisk, `must be at least ${touching}, or the disks overlap`);
  }
  return sound(apart, 'largeDisk');
}

/** A taper and the smaller of two disks. */
export interface TouchingDiskOptions {
  /** The taper, stated in any way. */
  readonly taper: Taper;
  /** Diameter of the small disk. */
  readonly smallDisk: number;
}

const TOUCHING: Fields<TouchingDiskOptions> = { taper, smallDisk: positive };

/**
 * The larger of two disks that touch each other and enclose a wanted taper: d (1 + sin α)/(1 - sin α).
 * @throws GeneratrixError for a taper or a diameter out of range.
 * @example
 * ```ts
 * import { touchingDisk } from 'generatrix';
 * touchingDisk({ taper: { includedAngleDeg: 60 }, smallDisk: 1 }); // => 3
 * ```
 */
export function touchingDisk(options: TouchingDiskOptions): number {
  const { taper, smallDisk } = read(options, TOUCHING);
  return sound(touchingOf(taper, smallDisk), 'taper');
}

function touchingOf(taper: Taper, smallDisk: number): number {
  const { sin, cos } = slopeOf(taper);
  // cos²/(1 + sin) is 1 - sin too, and keeps its digits near 90°.
  const rest = sin < 0.6 ? 1 - sin : (cos * cos) / (1 + sin);
  return smallDisk * ((1 + sin) / rest);
}
