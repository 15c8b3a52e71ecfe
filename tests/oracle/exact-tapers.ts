/** Tapers in decimal text and their conversions, by the integer arithmetic of fixed-point.ts. */
import type { ExactTaper, TaperStatement } from 'generatrix';
import { arctangentDeg, decimalText, type Fraction, fraction, tangentDeg } from './fixed-point.js';
import { MULTIPLES } from './tapers.js';

/** Plain decimal text of a number, cut to so many digits. */
export function plain(value: number, digits: number): string {
  const [mantissa = '', power = '0'] = value.toExponential(digits - 1).split('e');
  const figures = mantissa.replace('.', '');
  const point = 1 + Number(power);
  if (point <= 0) return `0.${'0'.repeat(-point)}${figures}`;
  return point >= figures.length
    ? figures + '0'.repeat(point - figures.length)
    : `${figures.slice(0, point)}.${figures.slice(point)}`;
}

/** The true conversion, rounded once. */
export function exactConversion(taper: ExactTaper, to: TaperStatement, digits: number): string {
  const [[key = '', value = ''] = []] = Object.entries(taper) as [string, string][];
  const given = fraction(value);
  let tan: Fraction;
  let half: Fraction | undefined;
  if ('length' in taper) {
    const [large, small, length] = [taper.largeDiameter, taper.smallDiameter, taper.length].map(fraction) as [
      Fraction,
      Fraction,
      Fraction,
    ];
    tan = {
      over: (large.over * small.under - small.over * large.under) * length.under,
      under: 2n * large.under * small.under * length.over,
    };
  } else if (key === 'halfAngleDeg' || key === 'includedAngleDeg') {
    half = key === 'halfAngleDeg' ? given : { over: given.over, under: 2n * given.under };
    tan = half.over === 45n * half.under ? { over: 1n, under: 1n } : tangentDeg(half);
  } else if (key === 'oneIn') {
    tan = { over: given.under, under: 2n * given.over };
  } else {
    tan = { over: given.over, under: given.under * BigInt(MULTIPLES[key as keyof typeof MULTIPLES]) };
  }
  if (to === 'oneIn') return decimalText({ over: tan.under, under: 2n * tan.over }, digits);
  if (to !== 'halfAngleDeg' && to !== 'includedAngleDeg') {
    return decimalText({ over: tan.over * BigInt(MULTIPLES[to]), under: tan.under }, digits);
  }
  half ??= tan.over === tan.under ? { over: 45n, under: 1n } : arctangentDeg(tan);
  return decimalText(to === 'halfAngleDeg' ? half : { over: 2n * half.over, under: half.under }, digits);
}
