/**
 * A plug measured over two rollers. The plug stands on a plate, a roller of diameter p lies in the
 * corner between plate and side on either side, perhaps raised on blocks of height k, and M is measured
 * over both. In the section through the axis a roller touches plate and side of a corner of angle c, so
 * its centre stands (p/2) cot(c/2) from the corner; c = 90° - α on the small end, 90° + α on the large end.
 */
import type { Arithmetic, Model } from '../budget/model.js';
import { choice, nonNegative, number, options, positive, representable } from '../core/checks.js';
import { refuse } from '../core/errors.js';
import { atanDeg, tanDeg } from '../core/trigonometry.js';
import { readTaper, type Taper } from '../taper/taper.js';

/** Which end of the plug stands on the plate. */
export type PlugEnd = 'small-end' | 'large-end';

/**
 * Distance from the corner of two faces to the far side of a roller that lies in it, measured along one
 * of the faces: (p/2)(1 + cot(c/2)).
 *
 * @param request - Angle of the corner in degrees, 0 < c < 180, and diameter of the roller.
 * @returns The distance, in the unit of the roller.
 * @throws GeneratrixError for an angle or a diameter out of range.
 * @example
 * ```ts
 * import { cornerOverRoller } from 'generatrix';
 * cornerOverRoller({ cornerAngleDeg: 90, rollerDiameter: 2 }); // => 2
 * ```
 */
export function cornerOverRoller(request: {
  readonly cornerAngleDeg: number;
  readonly rollerDiameter: number;
}): number {
  options(request, 'request', ['cornerAngleDeg', 'rollerDiameter']);
  const corner = number(request.cornerAngleDeg, 'cornerAngleDeg', { above: 0, below: 180 });
  const p = positive(request.rollerDiameter, 'rollerDiameter');
  return representable((p / 2) * (1 + 1 / tanDeg(corner / 2)), 'request');
}

/**
 * What a good plug measures over rollers.
 *
 * @param request - Taper and diameter of the end that stands on the plate, diameter of the two equal
 * rollers, height of the blocks under them (0 if left out), and which end is down.
 * @returns M, the distance over both rollers.
 * @throws GeneratrixError `impossible-geometry` if the rollers would touch above the plug's point.
 * @example
 * ```ts
 * import { plugOverRollers } from 'generatrix';
 * const M = plugOverRollers({ taper: { oneIn: 20 }, endDiameter: 0.572, rollerDiameter: 0.25, standsOn: 'small-end' });
 * Math.round(M * 1e6) / 1e6; // => 1.078328
 * ```
 */
export function plugOverRollers(request: {
  readonly taper: Taper;
  readonly endDiameter: number;
  readonly rollerDiameter: number;
  readonly blockHeight?: number;
  readonly standsOn: PlugEnd;
}): number {
  options(request, 'request', ['taper', 'endDiameter', 'rollerDiameter', 'standsOn'], ['blockHeight']);
  const { tan, halfAngleDeg } = readTaper(request.taper);
  const p = positive(request.rollerDiameter, 'rollerDiameter');
  const k = nonNegative(request.blockHeight ?? 0, 'blockHeight');
  const end = positive(request.endDiameter, 'endDiameter');
  const lean = choice(request.standsOn, 'standsOn', ['small-end', 'large-end']) === 'small-end' ? 1 : -1;
  if (end / 2 + lean * k * tan <= 0) {
    return refuse(
      'impossible-geometry',
      'blockHeight',
      k,
      `must leave the rollers beside the plug, below ${end / 2 / tan}`,
    );
  }
  const corner = cornerOverRoller({ cornerAngleDeg: 90 - lean * halfAngleDeg, rollerDiameter: p });
  return representable(end + 2 * corner + lean * 2 * k * tan, 'request');
}

/** What two measurements over rollers tell about a plug. */
export interface PlugFromRollers {
  /** Half angle in degrees. */
  readonly halfAngleDeg: number;
  /** Rate of taper, change of diameter per length. */
  readonly rate: number;
  /** Diameter of the end that stands on the plate. */
  readonly endDiameter: number;
}

/**
 * Taper and end diameter of a plug from two measurements over the same rollers at two heights:
 * tan α = (M₂ - M₁) / (2 (k₂ - k₁)).
 *
 * @param request - Diameter of the rollers, the two (block height, measurement) pairs, lower first, and
 * which end is down.
 * @returns Taper and end diameter.
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
export function plugFromRollers(request: {
  readonly rollerDiameter: number;
  readonly lower: { readonly blockHeight: number; readonly overRollers: number };
  readonly upper: { readonly blockHeight: number; readonly overRollers: number };
  readonly standsOn: PlugEnd;
}): PlugFromRollers {
  options(request, 'request', ['rollerDiameter', 'lower', 'upper', 'standsOn']);
  const rollerDiameter = positive(request.rollerDiameter, 'rollerDiameter');
  const [lower, upper] = (['lower', 'upper'] as const).map((name) => {
    options(request[name], name, ['blockHeight', 'overRollers']);
    const k = nonNegative(request[name].blockHeight, `${name}.blockHeight`);
    return { k, M: positive(request[name].overRollers, `${name}.overRollers`) };
  }) as [{ k: number; M: number }, { k: number; M: number }];
  number(upper.k, 'upper.blockHeight', { above: lower.k });
  const lean = choice(request.standsOn, 'standsOn', ['small-end', 'large-end']) === 'small-end' ? 1 : -1;
  const rate = (lean * (upper.M - lower.M)) / (upper.k - lower.k);
  if (rate <= 0) {
    const larger = lean > 0 ? 'larger' : 'smaller';
    return refuse('contradiction', 'upper.overRollers', upper.M, `must be ${larger} than the lower one, ${lower.M}`);
  }
  const halfAngleDeg = atanDeg(rate / 2);
  const corner = cornerOverRoller({ cornerAngleDeg: 90 - lean * halfAngleDeg, rollerDiameter });
  const endDiameter = lower.M - 2 * corner - lean * lower.k * rate;
  if (endDiameter <= 0) {
    return refuse(
      'impossible-geometry',
      'lower.overRollers',
      lower.M,
      `must exceed the rollers' own width, ${2 * corner}`,
    );
  }
  return { halfAngleDeg, rate, endDiameter };
}

/** What two measurements over rollers take. */
export type RollerInput = 'lowerHeight' | 'upperHeight' | 'lowerOver' | 'upperOver';

const ROLLER_INPUTS = {
  lowerHeight: { kind: 'length', meaning: 'height of the lower blocks' },
  upperHeight: { kind: 'length', meaning: 'height of the upper blocks' },
  lowerOver: { kind: 'length', meaning: 'measurement over the rollers, low' },
  upperOver: { kind: 'length', meaning: 'measurement over the rollers, high' },
} as const;

/** Tangent of the half angle from two measurements on a plug that stands on its small end. */
function tangent<T>(a: Arithmetic<T>, x: Readonly<Record<RollerInput, T>>): T {
  const rise = a.multiply(a.subtract(x.upperHeight, x.lowerHeight), a.constant(2));
  return a.divide(a.subtract(x.upperOver, x.lowerOver), rise);
}

/** Half angle of a plug on its small end, in degrees, from two measurements over rollers. */
export const plugAngleFromRollersModel: Model<RollerInput> = {
  name: 'plug-angle-from-rollers',
  result: { kind: 'angleDeg', meaning: 'half angle of the plug' },
  inputs: ROLLER_INPUTS,
  evaluate: (a, x) => a.atanDeg(tangent(a, x)),
};

/** Small-end diameter of a plug from two measurements over rollers. */
export const plugDiameterFromRollersModel: Model<RollerInput | 'rollerDiameter'> = {
  name: 'plug-diameter-from-rollers',
  result: { kind: 'length', meaning: 'diameter of the small end' },
  inputs: { ...ROLLER_INPUTS, rollerDiameter: { kind: 'length', meaning: 'diameter of the rollers' } },
  evaluate: (a, x) => {
    // cot((90° - α)/2) = (1 + sin α)/cos α = tan α + sqrt(1 + tan² α)
    const tan = tangent(a, x);
    const cot = a.add(tan, a.sqrt(a.add(a.constant(1), a.square(tan))));
    const rollers = a.multiply(x.rollerDiameter, a.add(a.constant(1), cot));
    return a.subtract(a.subtract(x.lowerOver, rollers), a.multiply(a.constant(2), a.multiply(x.lowerHeight, tan)));
  },
};
