/**
 * The truncated cone between two faces: its large and small diameter, the length between them, and its taper. Any three
 * give the fourth. Lengths are in any one unit, angles in degrees. Source: elementary geometry; terms of ISO 3040. Sums
 * and quotients are carried in 32 digits, so that the difference of two nearly equal diameters keeps its digits.
 */
import { type Pair, plus, product, quotient, squareRoot, sum, times } from '../core/double-double.js';
import { refuse } from '../core/errors.js';
import {
  anyNumber,
  type Fields,
  nonNegative,
  optional,
  positive,
  read,
  readValue,
  representable,
  sound,
} from '../core/read.js';
import { halfAngleDegOf, type Ratio, ratioOf, type Taper, taper } from './taper.js';

/** Any three of these; a fourth must agree. */
export interface FrustumOptions {
  /** Diameter at the large end. */
  readonly largeDiameter?: number;
  /** Diameter at the small end; 0 for a point. */
  readonly smallDiameter?: number;
  /** Axial distance between the two ends. */
  readonly length?: number;
  /** The taper, stated in any way. */
  readonly taper?: Taper;
  /**
   * How far the large diameter may be from what the three others give, if all four are given.
   * For a drawing's rounded sizes give half a unit of their last digit or more.
   * @defaultValue 1e-9 of the large diameter: rounding only
   */
  readonly tolerance?: number;
}

const FRUSTUM: Fields<FrustumOptions> = {
  largeDiameter: optional(positive),
  smallDiameter: optional(nonNegative),
  length: optional(positive),
  taper: optional(taper),
  tolerance: optional(nonNegative),
};

/** A truncated cone. */
export interface Frustum {
  /** Diameter at the large end. */
  readonly largeDiameter: number;
  /** Diameter at the small end; 0 for a point. */
  readonly smallDiameter: number;
  /** Axial distance between the two ends. */
  readonly length: number;
  /** Rate of taper C = (D - d)/L. */
  readonly rate: number;
  /** Half the cone angle, in degrees. */
  readonly halfAngleDeg: number;
  /** Length of the side, along the surface. */
  readonly slantLength: number;
  /** Volume between the two ends. */
  readonly volume: number;
  /** Area of the conical surface, without the two ends. */
  readonly lateralArea: number;
}

/**
 * A truncated cone from any three of its large diameter, small diameter, length and taper.
 * @throws GeneratrixError `missing-option` with fewer than three; `contradiction` if the fourth disagrees, saying by
 *   how much; `impossible-geometry` if the cone would pass its point; the codes of `convertTaper` for the taper.
 * @example
 * ```ts
 * import { frustum } from 'generatrix';
 * frustum({ largeDiameter: 2, length: 6, taper: { perFoot: 1 } }).smallDiameter; // => 1.5
 * frustum({ largeDiameter: 8, smallDiameter: 2, length: 4 }).slantLength; // => 5
 * frustum({ largeDiameter: 2, smallDiameter: 1.4, length: 6, taper: { perFoot: 1 } }); // throws contradiction
 * ```
 */
export function frustum(options: FrustumOptions): Frustum {
  const { large, small, length, ratio } = resolve(read(options, FRUSTUM));
  const rise = quotient(sum(large, -small), TWO);
  const slantLength = squareRoot(plus(times(rise, rise), product(length, length)))[0];
  return sound({
    largeDiameter: large,
    smallDiameter: small,
    length,
    rate: quotient(times(ratio.opposite, TWO), ratio.adjacent)[0],
    halfAngleDeg: halfAngleDegOf(ratio),
    slantLength,
    volume: ((large * large + large * small + small * small) * length * Math.PI) / 12,
    lateralArea: ((large + small) * slantLength * Math.PI) / 2,
  });
}

/** A truncated cone and a distance from one of its ends. */
export interface DiameterAtOptions extends FrustumOptions {
  /** Axial distance from the large end, towards the small one; negative lies beyond the large end. */
  readonly fromLargeEnd?: number;
  /** Axial distance from the small end, towards the large one; negative lies beyond the small end. */
  readonly fromSmallEnd?: number;
}

const DIAMETER_AT: Fields<DiameterAtOptions> = {
  ...FRUSTUM,
  fromLargeEnd: optional(anyNumber),
  fromSmallEnd: optional(anyNumber),
};

/**
 * The diameter of a cone at a distance from either end.
 * @returns The diameter there; the cone may be continued beyond both ends, as far as its point.
 * @throws GeneratrixError the codes of `frustum`; `missing-option` without a distance; `contradiction` with two;
 *   `impossible-geometry` beyond the point.
 * @example
 * ```ts
 * import { frustumDiameterAt } from 'generatrix';
 * frustumDiameterAt({ largeDiameter: 2, smallDiameter: 1.5, length: 6, fromLargeEnd: 2.4 }); // => 1.8
 * frustumDiameterAt({ smallDiameter: 1, length: 4, taper: { oneIn: 10 }, fromSmallEnd: 1 }); // => 1.1
 * ```
 */
export function frustumDiameterAt(options: DiameterAtOptions): number {
  const given = read(options, DIAMETER_AT);
  const { fromLargeEnd, fromSmallEnd } = given;
  if ((fromLargeEnd === undefined) === (fromSmallEnd === undefined)) {
    const code = fromLargeEnd === undefined ? 'missing-option' : 'contradiction';
    return refuse(code, 'fromLargeEnd', fromLargeEnd, 'must be given, or fromSmallEnd, and not both');
  }
  const { large, small, ratio } = resolve(given);
  return fromLargeEnd === undefined
    ? widened(small, fromSmallEnd as number, ratio, 'fromSmallEnd')
    : widened(large, -fromLargeEnd, ratio, 'fromLargeEnd');
}

/** A truncated cone and a diameter to be found on it. */
export interface DistanceToOptions extends FrustumOptions {
  /** The diameter looked for. */
  readonly diameter: number;
}

const DISTANCE_TO: Fields<DistanceToOptions> = { ...FRUSTUM, diameter: nonNegative };

/** Where on a cone a diameter lies. */
export interface FrustumPosition {
  /** Axial distance from the large end; negative beyond it. */
  readonly fromLargeEnd: number;
  /** Axial distance from the small end; negative beyond it. */
  readonly fromSmallEnd: number;
}

/**
 * Where on a cone a diameter lies.
 * @returns Axial distances from both ends; one is negative if the diameter lies beyond that end.
 * @throws GeneratrixError the codes of `frustum`.
 * @example
 * ```ts
 * import { frustumDistanceTo } from 'generatrix';
 * const cone = { largeDiameter: 2, smallDiameter: 1.5, length: 6 };
 * frustumDistanceTo({ ...cone, diameter: 1.75 }); // => { fromLargeEnd: 3, fromSmallEnd: 3 }
 * ```
 */
export function frustumDistanceTo(options: DistanceToOptions): FrustumPosition {
  const given = read(options, DISTANCE_TO);
  const { large, small, ratio } = resolve(given);
  return sound(
    { fromLargeEnd: between(large, given.diameter, ratio), fromSmallEnd: between(given.diameter, small, ratio) },
    'diameter',
  );
}

const TWO: Pair = [2, 0];

/** The four, of which three were given. */
interface Resolved {
  readonly large: number;
  readonly small: number;
  readonly length: number;
  readonly ratio: Ratio;
}

function resolve(given: FrustumOptions): Resolved {
  const { largeDiameter: large, smallDiameter: small, length, tolerance } = given;
  const ratio = given.taper && ratioOf(given.taper);
  if (large !== undefined && small !== undefined) {
    if (small >= large) {
      const phrase = `must be less than the large diameter, ${large}`;
      return refuse('impossible-geometry', 'smallDiameter', small, { kind: 'number', below: large, phrase });
    }
    if (length !== undefined) {
      const stated = ratioOf(readValue({ largeDiameter: large, smallDiameter: small, length }, taper));
      if (ratio) checkAgreement(large, widened(small, length, ratio, 'taper'), tolerance);
      return { large, small, length, ratio: stated };
    }
    // The length follows, and with it a frustum that can be represented.
    if (ratio) return { large, small, length: representable(between(large, small, ratio), 'taper'), ratio };
  }
  if (ratio && length !== undefined) {
    if (large !== undefined) return { large, small: widened(large, -length, ratio, 'length'), length, ratio };
    if (small !== undefined) return { large: widened(small, length, ratio, 'length'), small, length, ratio };
  }
  const missing = (['largeDiameter', 'smallDiameter', 'length', 'taper'] as const).find((key) => !(key in given));
  const phrase = 'three of largeDiameter, smallDiameter, length and taper must be given';
  return refuse('missing-option', missing as string, undefined, phrase);
}

function checkAgreement(large: number, wanted: number, tolerance = 1e-9 * large): void {
  const off = Math.abs(large - wanted);
  if (off <= tolerance) return;
  const differ = `the others give ${wanted}, which differs by ${Number(off.toPrecision(3))}`;
  refuse('contradiction', 'largeDiameter', large, `must agree with the other three; ${differ}`);
}

/** The diameter at a distance from another one, towards the large end. */
function widened(diameter: number, distance: number, { opposite, adjacent }: Ratio, parameter: string): number {
  const [result] = plus([diameter, 0], quotient(times(times(opposite, TWO), [distance, 0]), adjacent));
  // Where a point was meant, the rounding of the input may leave a trace of either sign.
  if (Math.abs(result) <= 4 * Number.EPSILON * Math.abs(diameter)) return 0;
  return result > 0
    ? representable(result, parameter)
    : refuse('impossible-geometry', parameter, Math.abs(distance), `must not reach beyond the cone's point`);
}

/** Axial distance between two diameters. */
function between(large: number, small: number, { opposite, adjacent }: Ratio): number {
  return quotient(times(sum(large, -small), adjacent), times(opposite, TWO))[0] + 0;
}
