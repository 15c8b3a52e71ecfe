/**
 * A taper measured by two diameters a known length apart: rate C = (D - d)/L, tan α = C/2 (ISO 3040),
 * and the diameter that follows at the small end, beyond the place of the smaller one. Lengths in any one
 * unit, angles in degrees.
 */
import { type Algebra, frozen, type Model, plainAlgebra, type Quantity, scaled } from '../budget/model.js';
import { refuse } from '../core/errors.js';
import { defaulted, type Fields, nonNegative, number, positive, read, readValue, sound } from '../core/read.js';
import { atanDeg } from '../core/trigonometry.js';

/** Two diameters of a taper and how far apart they were measured. */
export interface TaperFromDiametersOptions {
  /** The larger diameter, measured square to the axis, not square to the side. */
  readonly largeDiameter: number;
  /** The smaller diameter, measured likewise. */
  readonly smallDiameter: number;
  /** Length between the two places, along the axis. */
  readonly length: number;
  /** Length from the place of the smaller diameter to the small end. @defaultValue 0 */
  readonly endDistance?: number;
}

/** What two diameters tell about a taper. */
export interface TaperFromDiameters {
  /** Half angle in degrees. */
  readonly halfAngleDeg: number;
  /** Rate of taper, change of diameter per length. */
  readonly rate: number;
  /** Diameter at the small end. */
  readonly endDiameter: number;
}

const FIELDS: Fields<TaperFromDiametersOptions, 'endDistance'> = {
  largeDiameter: positive,
  smallDiameter: positive,
  length: positive,
  endDistance: defaulted(nonNegative, 0),
};

/**
 * Taper and small-end diameter from two diameters measured a known length apart. The result is a taper itself.
 *
 * Flat anvils touch a taper with their edge towards its large end: the places that count are those of the edges.
 * @throws GeneratrixError `out-of-range` unless the large diameter is the larger one; `impossible-geometry` if the
 * taper would come to a point before its small end.
 * @example
 * ```ts
 * import { taperFromDiameters } from 'generatrix';
 * const taper = taperFromDiameters({ largeDiameter: 32, smallDiameter: 30, length: 40, endDistance: 5 });
 * [taper.rate, taper.endDiameter]; // => [0.05, 29.75]
 * taperFromDiameters({ largeDiameter: 30, smallDiameter: 32, length: 40 }); // throws out-of-range
 * ```
 */
export function taperFromDiameters(options: TaperFromDiametersOptions): TaperFromDiameters {
  const given = read(options, FIELDS);
  const { largeDiameter, smallDiameter, endDistance } = given;
  readValue(largeDiameter, number({ above: smallDiameter }), 'largeDiameter');
  const rate = sound(rateOf(plainAlgebra, given), 'length');
  const endDiameter = endOf(plainAlgebra, given);
  if (endDiameter < 0) {
    const phrase = `must be at most ${smallDiameter / rate}, where the point lies`;
    return refuse('impossible-geometry', 'endDistance', endDistance, phrase);
  }
  return sound({ halfAngleDeg: atanDeg(rate / 2), rate, endDiameter });
}

/** What is read on a taper to find it from two diameters. */
export type DiameterInput = 'largeDiameter' | 'smallDiameter' | 'length';

const INPUTS: Readonly<Record<DiameterInput, Quantity>> = {
  largeDiameter: { kind: 'length', meaning: 'larger diameter measured' },
  smallDiameter: { kind: 'length', meaning: 'smaller diameter measured' },
  length: { kind: 'length', meaning: 'length between the two places along the axis' },
};

function rateOf<T>(a: Algebra<T>, x: Readonly<Record<DiameterInput, T>>): T {
  return a.divide(a.subtract(x.largeDiameter, x.smallDiameter), x.length);
}

function endOf<T>(a: Algebra<T>, x: Readonly<Record<DiameterInput | 'endDistance', T>>): T {
  return a.subtract(x.smallDiameter, a.multiply(rateOf(a, x), x.endDistance));
}

/** Half angle of a taper, in degrees, from two diameters. */
export const angleFromDiametersModel: Model<DiameterInput> = /* @__PURE__ */ frozen({
  name: 'angle-from-diameters',
  result: { kind: 'angleDeg', meaning: 'half angle of the taper' },
  inputs: INPUTS,
  evaluate: (a, x) => a.atanDeg(scaled(a, 0.5, rateOf(a, x))),
});

/** Rate of taper from two diameters. */
export const rateFromDiametersModel: Model<DiameterInput> = /* @__PURE__ */ frozen({
  name: 'rate-from-diameters',
  result: { kind: 'ratio', meaning: 'rate of taper' },
  inputs: INPUTS,
  evaluate: rateOf,
});

/** Diameter at the small end of a taper from two diameters. */
export const endFromDiametersModel: Model<DiameterInput | 'endDistance'> = /* @__PURE__ */ frozen({
  name: 'end-from-diameters',
  result: { kind: 'length', meaning: 'diameter at the small end' },
  inputs: {
    ...INPUTS,
    endDistance: { kind: 'length', meaning: "length from the smaller diameter's place to the small end" },
  },
  evaluate: endOf,
});
