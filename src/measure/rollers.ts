/**
 * A plug found by measuring over two rollers. The plug stands on a plate, a roller of diameter p lies in the
 * corner between plate and side on either side, perhaps raised on blocks of height k, and M is measured
 * over both. In the section through the axis a roller touches plate and side of a corner of angle c, so
 * its centre stands (p/2) cot(c/2) from the corner; c = 90° - α on the small end, 90° + α on the large end,
 * and cot(c/2) = t + sqrt(1 + t²) with t = tan α or - tan α. Lengths in any one unit, angles in degrees.
 */
import { type Algebra, frozen, type Model, plainAlgebra, type Quantity, scaled } from '../budget/model.js';
import { refuse } from '../core/errors.js';
import {
  choice,
  type Fields,
  nonNegative,
  number,
  object,
  positive,
  type Reader,
  read,
  readValue,
  sound,
} from '../core/read.js';
import { atanDeg, tanDeg } from '../core/trigonometry.js';
import type { TaperFromDiameters } from './two-diameters.js';

/** A roller in a corner. */
export interface CornerOverRollerOptions {
  /** Angle of the corner in degrees, between 0 and 180. */
  readonly cornerAngleDeg: number;
  /** Diameter of the roller. */
  readonly rollerDiameter: number;
}

const CORNER: Fields<CornerOverRollerOptions> = {
  cornerAngleDeg: number({ above: 0, below: 180 }),
  rollerDiameter: positive,
};

/**
 * Distance from the corner of two faces to the far side of a roller that lies in it, measured along one
 * of the faces: (p/2)(1 + cot(c/2)).
 * @returns The distance, in the unit of the roller.
 * @throws GeneratrixError for an angle or a diameter out of range.
 * @example
 * ```ts
 * import { cornerOverRoller } from 'generatrix';
 * cornerOverRoller({ cornerAngleDeg: 90, rollerDiameter: 2 }); // => 2
 * ```
 */
export function cornerOverRoller(options: CornerOverRollerOptions): number {
  const { cornerAngleDeg, rollerDiameter } = read(options, CORNER);
  return sound((rollerDiameter / 2) * (1 + 1 / tanDeg(cornerAngleDeg / 2)), 'cornerAngleDeg');
}

/** Which end of the plug stands on the plate. */
export type PlugEnd = 'small-end' | 'large-end';

/** Reads which end is down. */
export const standsOn: Reader<PlugEnd> = choice('small-end', 'large-end');

/** A measurement over rollers. */
export interface OverRollers {
  /** Height of the blocks under the rollers. */
  readonly blockHeight: number;
  /** What is measured over both rollers. */
  readonly overRollers: number;
}

/** A plug of unknown taper between rollers. */
export interface PlugFromRollersOptions {
  /** Diameter of the two equal rollers. */
  readonly rollerDiameter: number;
  /** The measurement with the rollers low. */
  readonly lower: OverRollers;
  /** The measurement with the rollers higher up. */
  readonly upper: OverRollers;
  /** Which end of the plug stands on the plate. */
  readonly standsOn: PlugEnd;
}

/** What two measurements over rollers tell about a plug. */
export interface PlugFromRollers extends Pick<TaperFromDiameters, 'halfAngleDeg' | 'rate'> {
  /** Diameter of the end that stands on the plate. */
  readonly endDiameter: number;
}

const overRollers: Reader<OverRollers> = object<OverRollers>({ blockHeight: nonNegative, overRollers: positive });

const FROM: Fields<PlugFromRollersOptions> = {
  rollerDiameter: positive,
  lower: overRollers,
  upper: overRollers,
  standsOn,
};

/**
 * Taper and end diameter of a plug from two measurements over the same rollers at two heights:
 * tan α = (M₂ - M₁) / (2 (k₂ - k₁)). The result is a taper itself.
 * @throws GeneratrixError `contradiction` if the measurements say that the other end is down, or no taper.
 * @example
 * ```ts
 * import { plugFromRollers } from 'generatrix';
 * const { rate } = plugFromRollers({
 *   rollerDiameter: 6,
 *   lower: { blockHeight: 0, overRollers: 30 },
 *   upper: { blockHeight: 40, overRollers: 32 },
 *   standsOn: 'small-end',
 * });
 * rate; // => 0.05
 * ```
 */
export function plugFromRollers(options: PlugFromRollersOptions): PlugFromRollers {
  const { rollerDiameter, lower, upper, standsOn } = read(options, FROM);
  readValue(upper.blockHeight, number({ above: lower.blockHeight }), 'upper.blockHeight');
  const x = {
    rollerDiameter,
    lowerHeight: lower.blockHeight,
    upperHeight: upper.blockHeight,
    lowerOver: lower.overRollers,
    upperOver: upper.overRollers,
  };
  const lean = standsOn === 'small-end' ? 1 : -1;
  const tan = sound(lean * tangent(plainAlgebra, x), 'upper.overRollers');
  if (tan <= 0) {
    const phrase = `must be ${lean > 0 ? 'larger' : 'smaller'} than the lower one, ${x.lowerOver}`;
    return refuse('contradiction', 'upper.overRollers', x.upperOver, phrase);
  }
  const endDiameter = sound(endOf(plainAlgebra, x), 'rollerDiameter');
  if (endDiameter <= 0) {
    const phrase = `must be more than ${x.lowerOver - endDiameter}, for these rollers and this taper`;
    return refuse('impossible-geometry', 'lower.overRollers', x.lowerOver, phrase);
  }
  return sound({ halfAngleDeg: atanDeg(tan), rate: 2 * tan, endDiameter }, 'upper.overRollers');
}

/** What two measurements over rollers take. */
export type RollerInput = 'lowerHeight' | 'upperHeight' | 'lowerOver' | 'upperOver';

const ROLLER_INPUTS: Readonly<Record<RollerInput, Quantity>> = {
  lowerHeight: { kind: 'length', meaning: 'height of the lower blocks' },
  upperHeight: { kind: 'length', meaning: 'height of the upper blocks' },
  lowerOver: { kind: 'length', meaning: 'measurement over the rollers, low' },
  upperOver: { kind: 'length', meaning: 'measurement over the rollers, high' },
};

/** Tangent of the half angle, negative on a plug that stands on its large end. */
function tangent<T>(a: Algebra<T>, x: Readonly<Record<RollerInput, T>>): T {
  const rise = scaled(a, 2, a.subtract(x.upperHeight, x.lowerHeight));
  return a.divide(a.subtract(x.upperOver, x.lowerOver), rise);
}

/** Diameter of the end that stands on the plate. */
function endOf<T>(a: Algebra<T>, x: Readonly<Record<RollerInput | 'rollerDiameter', T>>): T {
  const tan = tangent(a, x);
  const cot = a.add(tan, a.sqrt(a.add(a.constant(1), a.square(tan))));
  const rollers = a.multiply(x.rollerDiameter, a.add(a.constant(1), cot));
  return a.subtract(a.subtract(x.lowerOver, rollers), scaled(a, 2, a.multiply(x.lowerHeight, tan)));
}

/** Half angle of a plug on its small end, in degrees, from two measurements over rollers. */
export const plugAngleFromRollersModel: Model<RollerInput> = /* @__PURE__ */ frozen({
  name: 'plug-angle-from-rollers',
  result: { kind: 'angleDeg', meaning: 'half angle of the plug' },
  inputs: ROLLER_INPUTS,
  evaluate: (a, x) => a.atanDeg(tangent(a, x)),
});

/** Small-end diameter of a plug from two measurements over rollers. */
export const plugDiameterFromRollersModel: Model<RollerInput | 'rollerDiameter'> = /* @__PURE__ */ frozen({
  name: 'plug-diameter-from-rollers',
  result: { kind: 'length', meaning: 'diameter of the small end' },
  inputs: { ...ROLLER_INPUTS, rollerDiameter: { kind: 'length', meaning: 'diameter of the rollers' } },
  evaluate: endOf,
});
