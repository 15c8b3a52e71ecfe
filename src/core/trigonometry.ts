/**
 * Trigonometry in degrees that keeps the last digit: within 0.6 units in the last place everywhere
 * (docs/accuracy.md), tiny angles and the neighbourhood of 90 degrees included, exact wherever the
 * true value is a double (sine of 30°, tangent of 45°), and the same digits on every engine.
 *
 * Angles are reduced to -45°...45° in degrees, where that is exact, and only then turned into
 * radians, as a pair of doubles: sin(x * Math.PI / 180) would inherit the rounding of the product.
 * The built-in functions serve as first guesses only, since engines differ in their last digits.
 * Source: Taylor's series; one Newton step for the inverse functions.
 */
import { normal, type Pair, plus, product, quotient, squareRoot, sum, times } from './double-double.js';

const RADIANS_PER_DEGREE: Pair = [0.017453292519943295, 2.9486522708701687e-19];
const DEGREES_PER_RADIAN: Pair = [57.29577951308232, -1.9878495670576283e-15];

/** Sine and cosine of one angle, as pairs. */
interface SineCosine {
  readonly sin: Pair;
  readonly cos: Pair;
}

/** Sine and cosine of x + y radians, |x + y| ≤ π/4 and y far below x. */
function sineCosine([x, y]: Pair): SineCosine {
  const [z, zLow] = product(x, x);
  // x^3/6 as a pair: it may reach a tenth of x, so its own rounding would show. (z - 4 s) - 2 s is exact.
  const sixth = z / 6;
  const [cube, cubeLow] = product(x, sixth);
  const cubeRest = cubeLow + (x * (z - 4 * sixth - 2 * sixth + zLow)) / 6;
  const sinTail =
    x *
    z *
    z *
    (1 / 120 +
      z *
        (-1 / 5040 +
          z *
            (1 / 362880 +
              z * (-1 / 39916800 + z * (1 / 6227020800 + z * (-1 / 1307674368000 + z / 355687428096000))))));
  const cosTail =
    z *
    z *
    (1 / 24 +
      z *
        (-1 / 720 +
          z *
            (1 / 40320 +
              z *
                (-1 / 3628800 +
                  z * (1 / 479001600 + z * (-1 / 87178291200 + z * (1 / 20922789888000 - z / 6402373705728000)))))));
  const sin = sum(x, -cube);
  const cos = sum(1, -z / 2);
  return {
    sin: normal(sin[0], sin[1] - cubeRest + sinTail + y * (1 - z / 2)),
    cos: normal(cos[0], cos[1] - zLow / 2 + cosTail - y * (x - cube)),
  };
}

/** Sine and cosine of an angle in degrees, as pairs: what the plain functions below round. */
export function sineCosineDeg(angleDeg: number): SineCosine {
  const turn = angleDeg % 360;
  const quarters = Math.round(turn / 90);
  const { sin, cos } = sineCosine(times([turn - 90 * quarters, 0], RADIANS_PER_DEGREE));
  switch (quarters & 3) {
    case 0:
      return { sin, cos };
    case 1:
      return { sin: cos, cos: negative(sin) };
    case 2:
      return { sin: negative(sin), cos: negative(cos) };
    default:
      return { sin: negative(cos), cos: sin };
  }
}

/** The angle in degrees, 0...90, whose tangent is opposite / adjacent; neither is negative. */
export function angleDegOf(opposite: Pair, adjacent: Pair): Pair {
  if (opposite[0] > adjacent[0]) return minus(90, angleDegOf(adjacent, opposite));
  const tan = quotient(opposite, adjacent);
  const guess = Math.atan(tan[0]);
  const { sin, cos } = sineCosine([guess, 0]);
  const [back, lost] = product(tan[0], cos[0]);
  const missing = back - sin[0] + (lost + tan[0] * cos[1] + tan[1] * cos[0] - sin[1]);
  return times([guess, missing / (cos[0] + tan[0] * sin[0])], DEGREES_PER_RADIAN);
}

/** Radians of an angle in degrees. */
export function toRadians(angleDeg: number): number {
  return times([angleDeg, 0], RADIANS_PER_DEGREE)[0];
}

/** Degrees of an angle in radians. */
export function toDegrees(angleRad: number): number {
  return times([angleRad, 0], DEGREES_PER_RADIAN)[0];
}

/** Sine of an angle in degrees. */
export function sinDeg(angleDeg: number): number {
  return sineCosineDeg(angleDeg).sin[0] + 0; // + 0: never -0
}

/** Cosine of an angle in degrees. */
export function cosDeg(angleDeg: number): number {
  return sineCosineDeg(angleDeg).cos[0] + 0;
}

/** Tangent of an angle in degrees; infinite at odd multiples of 90. */
export function tanDeg(angleDeg: number): number {
  const { sin, cos } = sineCosineDeg(angleDeg);
  return cos[0] === 0 ? Number.POSITIVE_INFINITY : quotient(sin, cos)[0] + 0;
}

/** Angle in degrees, -90...90, of a tangent. */
export function atanDeg(tangent: number): number {
  return atan2Deg(tangent, 1);
}

/** Direction in degrees, -180...180, of the vector (x, y). */
export function atan2Deg(y: number, x: number): number {
  if (x === 0 && y === 0) return 0;
  // Both brought near 1 by a power of two, so that no product overflows.
  const largest = Math.max(Math.abs(x), Math.abs(y));
  const scale = largest > 1e150 ? 2 ** -520 : largest < 1e-150 ? 2 ** 520 : 1;
  const acute = angleDegOf([Math.abs(y) * scale, 0], [Math.abs(x) * scale, 0]);
  const angle = x < 0 ? minus(180, acute)[0] : acute[0];
  return y < 0 ? -angle : angle;
}

/** Angle in degrees, -90...90, of a sine. */
export function asinDeg(sine: number): number {
  const size = Math.abs(sine);
  const angle = size > 0.5 ? minus(90, acosOfLarge(size))[0] : asinOfSmall(size)[0];
  return sine < 0 ? -angle : angle;
}

/** Angle in degrees, 0...180, of a cosine. */
export function acosDeg(cosine: number): number {
  const size = Math.abs(cosine);
  const acute = size > 0.5 ? acosOfLarge(size) : minus(90, asinOfSmall(size));
  return cosine < 0 ? minus(180, acute)[0] : acute[0];
}

function asinOfSmall(s: number): Pair {
  const [square, low] = product(s, s);
  const [rest, lost] = sum(1, -square);
  return angleDegOf([s, 0], squareRoot([rest, lost - low]));
}

/** acos c = 2 atan(sqrt((1 - c)/(1 + c))), where 1 - c is exact for c of 0.5...1. */
function acosOfLarge(c: number): Pair {
  const [hi, lo] = angleDegOf(squareRoot([1 - c, 0]), squareRoot(sum(1, c)));
  return [2 * hi, 2 * lo];
}

function minus(a: number, b: Pair): Pair {
  return plus([a, 0], negative(b));
}

function negative([hi, lo]: Pair): Pair {
  return [-hi, -lo];
}
