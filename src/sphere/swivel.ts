/**
 * A sphere by a tool that swivels about an upright axis beside a lathe's work: the tip runs on a circle in
 * a level plane. With the swivel's centre on the work axis that cuts a sphere; off it by e (positive to the
 * tool's side), and the tip v off centre height, a torus:
 *
 *   at the swing θ from the work axis: ρ² = (e + s sin θ)² + v², z = s cos θ,
 *   distance from the swivel's centre: d² = s² + e² + v² + 2 e s sin θ.
 *
 * e > 0 is too wide, with a stump left at the pole; e < 0 too slim and pointed. Radians inside.
 */
import type { Model } from '../budget/model.js';
import { nonNegative, number, options, positive, representable } from '../core/checks.js';
import { refuse } from '../core/errors.js';
import { fits } from './cut.js';
import { degrees, nosePath, radians, readTarget, type SphereTarget } from './target.js';

/** What {@link swivelSettings} needs. */
export interface SwivelSettingsInput {
  /** The part that is wanted. */
  readonly target: SphereTarget;
  /** Radius of the tool's nose. Default 0. */
  readonly noseRadius?: number;
}

/** What to set on a swivelling tool. */
export interface SwivelSettings {
  /** From the swivel's centre to the tip: the sphere's radius. */
  readonly swivelRadius: number;
  /** From the swivel's centre to the centre of the nose. */
  readonly noseCentreRadius: number;
  /** Where the swing begins, from the work axis at the free end. */
  readonly swingFromDeg: number;
  /** Where the swing must end; beside a stem the nose then touches both. */
  readonly swingToDeg: number;
  /** Distance of the swivel's centre from the free end's pole along the work axis. */
  readonly centreFromPole: number;
}

/** A swivelling tool as it is set. */
export interface SwivelSetUp {
  /** From the swivel's centre to the tip. */
  readonly swivelRadius: number;
  /** Swivel's centre off the work axis, positive to the side on which the tool cuts. Default 0. */
  readonly centreOffset?: number;
  /** Tip above or below the height of the work axis. Default 0. */
  readonly centreHeight?: number;
  /** Where the swing begins, from the work axis at the free end. Default 0. */
  readonly swingFromDeg?: number;
  /** Where the swing ends. Default 180. */
  readonly swingToDeg?: number;
}

/** The surface that a swivelling tool cuts. */
export interface SwivelSurface {
  /** `sphere`, a `stump` left at the pole or a `point` there. */
  readonly shape: 'sphere' | 'stump' | 'point';
  /** Largest diameter cut. */
  readonly diameter: number;
  /** Diameter of what is left uncut in the middle. */
  readonly pipDiameter: number;
  /** Height of the cut's beginning, or of the point where it meets the axis, from the swivel's centre. */
  readonly endHeight: number;
  /** Least distance of the surface from the swivel's centre. */
  readonly smallestRadius: number;
  /** Largest distance of the surface from the swivel's centre. */
  readonly largestRadius: number;
  /** Largest less smallest: at most this the surface departs from a sphere. */
  readonly radialSpread: number;
}

/** What was measured on a ball, and what was wanted. */
export interface SwivelCorrectionInput {
  /** Radius wanted. */
  readonly radius: number;
  /** Diameter measured square to the work axis, at the widest place. */
  readonly diameterAcross: number;
  /** Diameter measured with a micrometer leaning towards the work axis. */
  readonly diameterLeaning: number;
  /** Angle between the micrometer's line and the work axis, 10 to 80 degrees. Default 45. */
  readonly leanDeg?: number;
}

/** What to change on a swivelling tool. */
export interface SwivelCorrection {
  /** Swivel's centre found off the work axis, positive to the tool's side. */
  readonly centreOffset: number;
  /** Swivel radius found. */
  readonly swivelRadius: number;
  /** How far to move the swivel's centre, positive to the tool's side. */
  readonly moveCentre: number;
  /** How much to change the swivel radius. */
  readonly changeRadius: number;
}

/**
 * What to set for a ball or a socket cut by a swivelling tool.
 *
 * @param input - Part and nose radius.
 * @returns Swivel radius, swing and the place of the swivel's centre.
 * @throws GeneratrixError `out-of-range` for a nose that does not fit the socket.
 * @example
 * ```ts
 * import { swivelSettings } from 'generatrix/sphere';
 * const set = swivelSettings({ target: { part: 'ball-on-stem', diameter: 50, stemDiameter: 25 } });
 * set.swivelRadius; // => 25
 * set.swingToDeg.toFixed(6); // => '150.000000'
 * ```
 */
export function swivelSettings(input: SwivelSettingsInput): SwivelSettings {
  const given = options(input, 'input', ['target'], ['noseRadius']);
  const zone = readTarget(input.target);
  const { side, radius } = zone;
  const noseRadius = nonNegative(given['noseRadius'] ?? 0, 'input.noseRadius');
  fits(side, radius, noseRadius, 'input.noseRadius');
  const { radius: noseCentreRadius, from, to } = nosePath(zone, noseRadius);
  return {
    swivelRadius: radius,
    noseCentreRadius: representable(noseCentreRadius, 'input.noseRadius'),
    swingFromDeg: degrees(from),
    swingToDeg: degrees(to),
    centreFromPole: radius,
  };
}

/**
 * The surface that a swivelling tool cuts, its centre perhaps off the work axis and its tip off height.
 *
 * @param setUp - Swivel radius, offsets and swing.
 * @returns Diameter, pip, and how far the surface departs from a sphere.
 * @throws GeneratrixError `impossible-geometry` for a tip that never reaches the cutting side.
 * @example
 * ```ts
 * import { swivelSurface } from 'generatrix/sphere';
 * swivelSurface({ swivelRadius: 25, centreOffset: 0.5 }).diameter; // => 51
 * swivelSurface({ swivelRadius: 25, centreOffset: 0.5 }).pipDiameter; // => 1
 * swivelSurface({ swivelRadius: 25, centreOffset: -7 }).endHeight; // => 24
 * ```
 */
export function swivelSurface(setUp: SwivelSetUp): SwivelSurface {
  const given = options(
    setUp,
    'setUp',
    ['swivelRadius'],
    ['centreOffset', 'centreHeight', 'swingFromDeg', 'swingToDeg'],
  );
  const s = positive(given['swivelRadius'], 'setUp.swivelRadius');
  const e = number(given['centreOffset'] ?? 0, 'setUp.centreOffset');
  const v = number(given['centreHeight'] ?? 0, 'setUp.centreHeight');
  const fromDeg = number(given['swingFromDeg'] ?? 0, 'setUp.swingFromDeg', { min: 0, below: 180 });
  const toDeg = number(given['swingToDeg'] ?? 180, 'setUp.swingToDeg', { above: fromDeg, max: 180 });
  const sine = (deg: number): number => (deg === 180 ? 0 : Math.sin(radians(deg)));
  const most = fromDeg <= 90 && toDeg >= 90 ? 1 : Math.max(sine(fromDeg), sine(toDeg));
  if (e + s * most <= 0) {
    return refuse(
      'impossible-geometry',
      'setUp.centreOffset',
      e,
      `must be greater than ${-s * most}, or nothing is cut`,
    );
  }
  // Past the work axis the tip is in the air of its own cut: the surface begins where it crosses.
  const crossing = Math.max(0, -e / s);
  const start = Math.max(sine(fromDeg), crossing);
  const least = Math.min(start, Math.max(sine(toDeg), crossing));
  const square = (sinSwing: number): number =>
    (e + s * sinSwing) ** 2 + v * v + s * s * (1 - sinSwing) * (1 + sinSwing);
  const [a, b] = [Math.sqrt(square(most)), Math.sqrt(square(least))];
  const cosine = Math.sqrt((1 - start) * (1 + start));
  return {
    shape: e === 0 && v === 0 ? 'sphere' : e < 0 && v === 0 ? 'point' : 'stump',
    diameter: representable(2 * Math.hypot(e + s * most, v), 'setUp.swivelRadius'),
    pipDiameter: 2 * Math.hypot(start === crossing && e <= 0 ? 0 : e + s * start, v),
    endHeight: (fromDeg > 90 ? -s : s) * cosine,
    smallestRadius: Math.min(a, b),
    largestRadius: Math.max(a, b),
    radialSpread: (2 * Math.abs(e) * s * (most - least)) / (a + b),
  };
}

/**
 * What to change after measuring a ball across its widest place and at a lean. A micrometer whose line
 * makes the angle θ with the work axis shows 2 (s + e sin θ), square to it 2 (s + e).
 *
 * @param input - The radius wanted and two diameters. Both places of contact must have been cut.
 * @returns The swivel's offset and radius found, and the changes that cure them.
 * @throws GeneratrixError `impossible-geometry` for diameters that no swivel radius explains.
 * @example
 * ```ts
 * import { swivelCorrection } from 'generatrix/sphere';
 * const found = swivelCorrection({ radius: 25, diameterAcross: 51, diameterLeaning: 50.8, leanDeg: 30 });
 * found.centreOffset.toFixed(6); // => '0.200000'
 * found.changeRadius.toFixed(6); // => '-0.300000'
 * ```
 */
export function swivelCorrection(input: SwivelCorrectionInput): SwivelCorrection {
  const given = options(input, 'input', ['radius', 'diameterAcross', 'diameterLeaning'], ['leanDeg']);
  const radius = positive(given['radius'], 'input.radius');
  const across = positive(given['diameterAcross'], 'input.diameterAcross');
  const leaning = positive(given['diameterLeaning'], 'input.diameterLeaning');
  const lean = radians(number(given['leanDeg'] ?? 45, 'input.leanDeg', { min: 10, max: 80 }));
  const centreOffset = (across - leaning) / 2 / (1 - Math.sin(lean));
  const swivelRadius = across / 2 - centreOffset;
  if (swivelRadius <= Math.abs(centreOffset)) {
    return refuse('impossible-geometry', 'input.diameterLeaning', leaning, 'must be near the diameter across');
  }
  return { centreOffset, swivelRadius, moveCentre: 0 - centreOffset, changeRadius: radius - swivelRadius };
}

/** Distance of the surface from the swivel's centre at a swing, as a model for an error budget. */
export const swivelModel: Model<'swivelRadius' | 'centreOffset' | 'centreHeight' | 'swingDeg'> = {
  name: 'swivel',
  result: { kind: 'length', meaning: 'radius of the ball or socket at a swing, from the swivel centre' },
  inputs: {
    swivelRadius: { kind: 'length', meaning: 'from the swivel centre to the tip' },
    centreOffset: { kind: 'length', meaning: 'swivel centre off the work axis' },
    centreHeight: { kind: 'length', meaning: 'tip off centre height' },
    swingDeg: { kind: 'angleDeg', meaning: 'swing from the work axis' },
  },
  evaluate: (arithmetic, { swivelRadius, centreOffset, centreHeight, swingDeg }) => {
    const { add, multiply, square, sqrt, sinDeg, cosDeg } = arithmetic;
    const across = add(centreOffset, multiply(swivelRadius, sinDeg(swingDeg)));
    const along = multiply(swivelRadius, cosDeg(swingDeg));
    return sqrt(add(add(square(across), square(along)), square(centreHeight)));
  },
};
