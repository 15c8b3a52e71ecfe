/** What a setting really cuts beside what was wanted: the same figures and notes for every set-up. */

import type { Note } from '../core/notes.js';
import { atanDeg, tanDeg } from '../core/trigonometry.js';

/** The taper that a setting cuts, compared with the one wanted. */
export interface TaperCut {
  /** Half angle that is cut, in degrees. */
  readonly halfAngleDeg: number;
  /** Rate of taper that is cut. */
  readonly rate: number;
  /** Rate cut minus rate wanted: times a length, the error of the difference of the end diameters. */
  readonly rateError: number;
}

/** Compares a cut slope with the wanted one; both are tangents of the half angle. */
export function taperCut(tan: number, wantedTan: number): TaperCut {
  return { halfAngleDeg: atanDeg(tan), rate: 2 * tan, rateError: 2 * (tan - wantedTan) };
}

/** A rule of thumb for the same setting, and what it would cut. */
export interface ShopRule {
  /** What the rule gives: a reading of the same scale, or an angle from the axis in degrees. */
  readonly value: number;
  /** What that would cut. */
  readonly cuts: TaperCut;
}

/**
 * The workshop's rule for angles, 28.65 times the rate of taper in degrees (common practice, no
 * source: 90/π is 28.648, and the arc stands for its tangent); none where it gives 90° or more.
 */
export function angleRule(tan: number): ShopRule | undefined {
  const value = 57.3 * tan;
  return value < 90 ? { value, cuts: taperCut(tanDeg(value), tan) } : undefined;
}

/** The note that a dial or scale cannot be set exactly, or none if it can. */
export function dialRounded(reading: number, settableReading: number, rateError: number): readonly Note[] {
  if (reading === settableReading) return [];
  return [
    {
      code: 'dial-rounded',
      message: 'There is no graduation for the exact reading; the nearest one changes the taper.',
      values: { reading, settableReading, rateError },
    },
  ];
}

/** The note that a shop rule is more than a thousandth of the taper off, or none. */
export function ruleDiffers({ rate, rateError }: TaperCut): readonly Note[] {
  const relativeError = rateError / (rate - rateError);
  if (Math.abs(relativeError) <= 1e-3) return [];
  return [
    {
      code: 'rule-differs',
      message: 'The usual shop rule would be off by more than a thousandth of the taper.',
      values: { relativeError, rateError },
    },
  ];
}
