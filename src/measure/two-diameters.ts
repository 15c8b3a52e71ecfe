/**
 * A taper measured by two diameters a known distance apart: rate C = (D - d)/l, tan α = C/2 (ISO 3040),
 * and the diameter that follows at the small end, beyond the place of the smaller one. Lengths in any one
 * unit, angles in degrees.
 */
import type { Arithmetic, Model, Quantity } from '../budget/model.js';
import { nonNegative, number, options, positive, representable } from '../core/checks.js';
import { refuse } from '../core/errors.js';
import { atanDeg } from '../core/trigonometry.js';

/** What two diameters tell about a taper. */
export interface TaperFromDiameters {
  /** Half angle in degrees. */
  readonly halfAngleDeg: number;
  /** Rate of taper, change of diameter per length. */
  readonly rate: number;
  /** Diameter at the small end. */
  readonly endDiameter: number;
}

/**
 * Taper and small-end diameter from two diameters measured at a known distance.
 *
 * Flat anvils touch a taper with their edge towards its large end: the places that count are those of the edges.
 * A diameter must be measured square to the axis, not square to the side.
 *
 * @param request - Both diameters, the distance of their places along the axis, and `endDistance`, how far the
 * smaller one's place lies from the small end (0 if left out).
 * @returns Taper and diameter at the small end.
 * @throws GeneratrixError `out-of-range` unless the large diameter is the larger one; `impossible-geometry` if the
 * taper would come to a point before its small end.
 * @example
 * ```ts
 * import { taperFromDiameters } from 'generatrix';
 * const taper = taperFromDiameters({ largeDiameter: 32, smallDiameter: 30, distance: 40, endDistance: 5 });
 * [taper.rate, taper.endDiameter]; // => [0.05, 29.75]
 * taperFromDiameters({ largeDiameter: 30, smallDiameter: 32, distance: 40 }); // throws out-of-range
 * ```
 */
export function taperFromDiameters(request: {
  readonly largeDiameter: number;
  readonly smallDiameter: number;
  readonly distance: number;
  readonly endDistance?: number;
}): TaperFromDiameters {
  options(request, 'request', ['largeDiameter', 'smallDiameter', 'distance'], ['endDistance']);
  const small = positive(request.smallDiameter, 'smallDiameter');
  const large = number(request.largeDiameter, 'largeDiameter', { above: small });
  const distance = positive(request.distance, 'distance');
  const beyond = nonNegative(request.endDistance ?? 0, 'endDistance');
  const rate = representable((large - small) / distance, 'distance');
  const endDiameter = small - rate * beyond;
  if (endDiameter < 0) {
    return refuse(
      'impossible-geometry',
      'endDistance',
      beyond,
      `must be at most ${small / rate}, where the point lies`,
    );
  }
  return { halfAngleDeg: atanDeg(rate / 2), rate, endDiameter };
}

/** What is read on a taper to find it from two diameters. */
export type DiameterInput = 'largeDiameter' | 'smallDiameter' | 'distance';

const INPUTS: Readonly<Record<DiameterInput, Quantity>> = {
  largeDiameter: { kind: 'length', meaning: 'larger diameter measured' },
  smallDiameter: { kind: 'length', meaning: 'smaller diameter measured' },
  distance: { kind: 'length', meaning: 'distance of the two places along the axis' },
};

function rateOf<T>(a: Arithmetic<T>, x: Readonly<Record<DiameterInput, T>>): T {
  return a.divide(a.subtract(x.largeDiameter, x.smallDiameter), x.distance);
}

/** Half angle of a taper, in degrees, from two diameters. */
export const angleFromDiametersModel: Model<DiameterInput> = {
  name: 'angle-from-diameters',
  result: { kind: 'angleDeg', meaning: 'half angle of the taper' },
  inputs: INPUTS,
  evaluate: (a, x) => a.atanDeg(a.multiply(a.constant(0.5), rateOf(a, x))),
};

/** Rate of taper from two diameters. */
export const rateFromDiametersModel: Model<DiameterInput> = {
  name: 'rate-from-diameters',
  result: { kind: 'ratio', meaning: 'rate of taper' },
  inputs: INPUTS,
  evaluate: rateOf,
};

/** Diameter at the small end of a taper from two diameters. */
export const endFromDiametersModel: Model<DiameterInput | 'endDistance'> = {
  name: 'end-from-diameters',
  result: { kind: 'length', meaning: 'diameter at the small end' },
  inputs: {
    ...INPUTS,
    endDistance: { kind: 'length', meaning: "distance of the smaller diameter's place from the small end" },
  },
  evaluate: (a, x) => a.subtract(x.smallDiameter, a.multiply(rateOf(a, x), x.endDistance)),
};
