/** What a setting really cuts beside what was wanted, and what a rule of thumb would: the same for every set-up. */
import { representable } from '../core/read.js';
import { atanDeg, tanDeg } from '../core/trigonometry.js';
import { note } from '../core/words.js';
import { type OffsetNote, SETTING } from './words.js';

/** The taper that a setting cuts, compared with the one wanted. */
export interface TaperCut {
  /** Half angle that is cut, in degrees. */
  readonly halfAngleDeg: number;
  /** Rate of taper that is cut. */
  readonly rate: number;
  /** Rate cut minus rate wanted: times a length, the error of the difference of the end diameters. */
  readonly rateError: number;
}

/** A result while it is filled in. */
export type Draft<T> = { -readonly [K in keyof T]: T[K] };

/** Compares a cut slope with the wanted one; both are tangents of the half angle. */
export function taperCut(tan: number, wantedTan: number): TaperCut {
  return {
    halfAngleDeg: atanDeg(tan),
    rate: representable(2 * tan, 'taper'),
    rateError: representable(2 * (tan - wantedTan), 'taper'),
  };
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

/** Notes what is odd about a setting: a graduation that is not exact, a rule that is a thousandth of the taper off. */
export function settingNotes(
  reading: number,
  settableReading: number,
  { rateError }: TaperCut,
  rule?: ShopRule,
): OffsetNote[] {
  const notes: OffsetNote[] = [];
  if (reading !== settableReading) notes.push(note(SETTING, 'dial-rounded', { reading, settableReading, rateError }));
  if (rule) {
    const { rate, rateError: ruleError } = rule.cuts;
    const relativeError = ruleError / (rate - ruleError);
    if (Math.abs(relativeError) > 1e-3) {
      notes.push(note(SETTING, 'rule-differs', { relativeError, rateError: ruleError }));
    }
  }
  return notes;
}
