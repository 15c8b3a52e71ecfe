/** Random tapers, stated in every way, and their conversions in arithmetic of 60 digits. */
import type { Decimal } from 'decimal.js';
import type { Taper, TaperStatement } from 'generatrix';
import { Exact, exact, PI } from './ulps.js';

/** Multiples of the tangent of the half angle, by ISO 3040 and the meaning of the words. */
export const MULTIPLES = { rate: 2, perInch: 2, perFoot: 24, perSide: 1, percent: 200, mmPer100mm: 200 } as const;

/** Every single-number statement. */
export const STATEMENTS: readonly TaperStatement[] = [
  ...(Object.keys(MULTIPLES) as (keyof typeof MULTIPLES)[]),
  'oneIn',
  'includedAngleDeg',
  'halfAngleDeg',
];

/** Half angles of 1e-6° to 89.9° from two uniform numbers: evenly spread over degrees, and over magnitudes at both ends. */
export function halfAngle(kind: number, where: number): number {
  const tiny = 10 ** (-6 + where * (6 + Math.log10(45)));
  if (kind < 1 / 3) return 1e-6 + where * (89.9 - 1e-6);
  return kind < 2 / 3 ? tiny : 90 - Math.max(0.1, tiny);
}

/** A taper of about this half angle, stated by the key, or by two diameters for `sizes`; any rounding becomes part of it. */
export function stated(key: TaperStatement | 'sizes', halfAngleDeg: number, size: number): Taper {
  const tan = Math.tan((halfAngleDeg * Math.PI) / 180);
  if (key === 'sizes') {
    const smallDiameter = size * 100;
    const length = 1 + size * 50;
    return { largeDiameter: smallDiameter + 2 * length * tan, smallDiameter, length };
  }
  const value =
    key === 'oneIn'
      ? 0.5 / tan
      : key === 'includedAngleDeg'
        ? 2 * halfAngleDeg
        : key === 'halfAngleDeg'
          ? halfAngleDeg
          : MULTIPLES[key] * tan;
  return { [key]: value } as unknown as Taper;
}

/** The taper in every statement, to 60 digits. */
export function conversions(taper: Taper): Readonly<Record<TaperStatement, Decimal>> {
  const degree = PI.div(180);
  const [[key = '', value = 0] = []] = Object.entries(taper) as [string, number][];
  const given = exact(value);
  let half: Decimal | undefined;
  let tan: Decimal;
  if ('length' in taper) {
    tan = exact(taper.largeDiameter).minus(exact(taper.smallDiameter)).div(2).div(exact(taper.length));
  } else if (key === 'halfAngleDeg' || key === 'includedAngleDeg') {
    half = key === 'halfAngleDeg' ? given : given.div(2);
    tan = Exact.tan(half.times(degree));
  } else {
    tan = key === 'oneIn' ? new Exact(0.5).div(given) : given.div(MULTIPLES[key as keyof typeof MULTIPLES]);
  }
  half ??= Exact.atan(tan).div(degree);
  const ratios = Object.fromEntries(Object.entries(MULTIPLES).map(([name, multiple]) => [name, tan.times(multiple)]));
  return {
    ...(ratios as Record<keyof typeof MULTIPLES, Decimal>),
    oneIn: new Exact(0.5).div(tan),
    includedAngleDeg: half.times(2),
    halfAngleDeg: half,
  };
}
