/**
 * How far the surface of a straight path departs from a straight cone over a cut. The meridian is a
 * branch of a hyperbola, so it hollows the cone: every figure has a closed form. With t = z - waistZ
 * and ρ = waist·cosh u, slope = perSide·tanh u: the chord between two ends has the slope of the place
 * whose u is half-way between theirs, and that is where the curve lies farthest from the chord.
 * All departures are measured on the radius, square to the axis, positive where there is more material.
 */
import { refuse } from '../core/errors.js';
import { anyNumber, type Fields, nonNegative, read, sound } from '../core/read.js';
import { atanDeg } from '../core/trigonometry.js';
import type { LineSurface } from './line.js';
import { type Hyperbola, hyperbola, lineRadiusAt, lineSurface } from './line-meridian.js';

/** A surface, the part of it that matters, and the cone that it should be. */
export interface ConeDepartureOptions {
  /** The surface, as `revolveLine` gives it. */
  readonly surface: LineSurface;
  /** One end of the cut. */
  readonly fromZ: number;
  /** The other end. */
  readonly toZ: number;
  /** Slope of the wanted cone: the tangent of its half angle; 0 for a cylinder. */
  readonly perSide: number;
}

/** How far the surface departs from a cone. */
export interface ConeDeparture {
  /** Which end of the cut is the large one. */
  readonly largeZ: number;
  /** Departures from the wanted cone when its large end is touched off to size. */
  readonly touchedOff: {
    /** Departure of the radius at the small end. */
    readonly atSmallEnd: number;
    /** Error of the diameter at the small end: twice that. */
    readonly smallDiameterError: number;
    /** The largest departure of the radius anywhere in the cut, with its sign. */
    readonly largest: number;
    /** Where that is. */
    readonly largestZ: number;
  };
  /** The cone that the surface comes closest to, largest departure against largest departure. */
  readonly bestFit: {
    /** Its slope: the tangent of its half angle. */
    readonly perSide: number;
    /** Its half angle, degrees. */
    readonly halfAngleDeg: number;
    /** The largest departure of the radius from it, either way. */
    readonly largest: number;
    /** Where the surface is hollow by that much; at both ends it stands proud by as much. */
    readonly hollowZ: number;
    /**
     * Straightness deviation of the generating line, minimum zone (ISO 12780): the least distance between two
     * parallel lines that hold it. Holds for a line that turns by less than a right angle.
     */
    readonly straightness: number;
  };
}

/**
 * The largest departures of the surface of a straight path from the wanted cone, and from the cone that fits it best.
 * @throws GeneratrixError `impossible-geometry` for a flat face or a cut of no length.
 * @example
 * ```ts
 * import { coneDeparture, revolveLine } from 'generatrix/revolve';
 * // A tool 0.3 below centre height cuts towards a small end of diameter 2.
 * const surface = revolveLine({ point: [1, -0.3, 0], direction: [0.05, 0, 1] });
 * const { touchedOff, bestFit } = coneDeparture({ surface, fromZ: 0, toZ: 60, perSide: 0.05 });
 * touchedOff.smallDiameterError.toFixed(4); // => '0.0656'
 * bestFit.straightness.toFixed(4); // => '0.0107'
 * ```
 */
export function coneDeparture(options: ConeDepartureOptions): ConeDeparture {
  const { surface, fromZ, toZ, perSide: wanted } = read(options, DEPARTURE);
  if (fromZ === toZ) return refuse('impossible-geometry', 'toZ', toZ, 'must differ from fromZ');
  const shape = hyperbola(surface);
  const toIsLarge = lineRadiusAt(surface, toZ) >= lineRadiusAt(surface, fromZ);
  const [largeZ, smallZ] = toIsLarge ? [toZ, fromZ] : [fromZ, toZ];
  const result = {
    largeZ,
    touchedOff: touchedOff(shape, surface, largeZ, smallZ, wanted),
    bestFit: bestFit(shape, surface, largeZ, smallZ),
  };
  return sound(result, 'surface');
}

const DEPARTURE: Fields<ConeDepartureOptions> = {
  surface: lineSurface,
  fromZ: anyNumber,
  toZ: anyNumber,
  perSide: nonNegative,
};

/** Mean slope from the large end to another place, less perSide: negative, and free of cancellation. */
function slopeBelow(shape: Hyperbola, surface: LineSurface, largeZ: number, z: number): number {
  const { waist, waistZ, perSide } = shape;
  const towardsLarge = Math.sign(largeZ - z);
  const below = (place: number, radius: number): number => {
    const rise = towardsLarge * (place - waistZ) * perSide;
    return rise > 0 ? -(waist * waist) / (radius + rise) : rise - radius;
  };
  const [large, here] = [lineRadiusAt(surface, largeZ), lineRadiusAt(surface, z)];
  return (perSide * (below(largeZ, large) + below(z, here))) / (large + here);
}

function touchedOff(
  shape: Hyperbola,
  surface: LineSurface,
  largeZ: number,
  smallZ: number,
  wanted: number,
): ConeDeparture['touchedOff'] {
  const { waist, waistZ, perSide } = shape;
  const departure = (z: number): number =>
    z === largeZ ? 0 : Math.abs(largeZ - z) * (wanted - perSide - slopeBelow(shape, surface, largeZ, z)) + 0;
  // The departure is convex along z, 0 at the large end: extreme at the small end, or where the slopes agree.
  const atSmallEnd = departure(smallZ);
  const places = [smallZ];
  if (wanted < perSide) {
    const away = (wanted * waist) / (perSide * Math.sqrt((perSide - wanted) * (perSide + wanted)));
    const agreeZ = waistZ + Math.sign(largeZ - smallZ) * away;
    if ((agreeZ - largeZ) * (agreeZ - smallZ) < 0) places.push(agreeZ);
  }
  const [largestZ, largest] = places
    .map((z) => [z, departure(z)] as const)
    .reduce((one, other) => (Math.abs(other[1]) > Math.abs(one[1]) ? other : one));
  return { atSmallEnd, smallDiameterError: 2 * atSmallEnd, largest, largestZ };
}

function bestFit(shape: Hyperbola, surface: LineSurface, largeZ: number, smallZ: number): ConeDeparture['bestFit'] {
  const { waist, waistZ, perSide } = shape;
  const [a, b] = [smallZ - waistZ, largeZ - waistZ];
  const [ra, rb] = [lineRadiusAt(surface, smallZ), lineRadiusAt(surface, largeZ)];
  const slope = Math.abs(perSide * perSide * (a + b)) / (ra + rb);
  const product = perSide * perSide * a * b;
  // (waist cosh u)² half-way in u; on either side of the waist the difference ra rb - |product| keeps no digits.
  const sameSide = product >= 0;
  const sum = sameSide
    ? ra * rb + product
    : (waist * waist * (waist * waist + perSide * perSide * (a * a + b * b))) / (ra * rb - product);
  const radius = Math.sqrt((waist * waist + sum) / 2);
  const hollow = hollowOf(waist, perSide, [a, b], [ra, rb], radius, sameSide);
  const hollowT = perSide === 0 ? 0 : (slope * radius) / (perSide * perSide);
  return {
    perSide: slope,
    halfAngleDeg: atanDeg(slope),
    largest: hollow / 2,
    hollowZ: waistZ + (largeZ > smallZ ? hollowT : -hollowT),
    straightness: hollow / Math.sqrt(1 + slope * slope),
  };
}

/**
 * Chord less curve at the place half-way in u: waist (cosh(Δ/2) - 1)/cosh u, with Δ from the sine of a
 * difference, where the two arguments themselves would cancel.
 */
function hollowOf(
  waist: number,
  perSide: number,
  [a, b]: readonly [number, number],
  [ra, rb]: readonly [number, number],
  radius: number,
  sameSide: boolean,
): number {
  if (waist === 0 || perSide === 0) {
    // A cut that ends in the apex may miss it by the rounding of where the apex lies.
    const overshoot = Math.min(Math.abs(a), Math.abs(b));
    return sameSide || overshoot <= 1e-12 * Math.abs(b)
      ? 0
      : refuse('impossible-geometry', 'toZ', b, 'must not lie beyond the apex from fromZ');
  }
  const [p, q] = [Math.abs(a), Math.abs(b)];
  const moments = p * rb + q * ra;
  const sinh = perSide * (sameSide ? (Math.abs(b - a) * (p + q)) / moments : moments / waist / waist);
  return (2 * (waist * Math.sinh(Math.asinh(sinh) / 4)) ** 2) / radius;
}
