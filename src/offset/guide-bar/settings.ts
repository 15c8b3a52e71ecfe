/**
 * The guide bar (taper attachment), a bar swivelled behind the lathe that moves the cross slide as the carriage
 * travels: what to set on the bar's own scale, how far it reaches. Lengths in any one unit, angles in degrees from
 * the axis of the work.
 */
import { nearestGraduation } from '../../core/dial.js';
import { defaulted, type Fields, optional, positive, read, representable } from '../../core/read.js';
import { tanDeg } from '../../core/trigonometry.js';
import { slopeOf, type Taper, taper } from '../../taper/taper.js';
import { acute, longest } from '../swivel.js';
import { type Draft, type ShopRule, settingNotes, type TaperCut, taperCut } from '../taper-cut.js';
import type { OffsetNote } from '../words.js';
import { type BarScale, barScale, type GuideBarScale, guideBarScale, PLAIN_SCALE } from './scale.js';

/** A setting of the bar on its own scale. */
export interface GuideBarSetting {
  /** What the scale would have to read exactly. */
  readonly reading: number;
  /** The nearest graduation within reach; the reading itself if the scale has no step. */
  readonly settableReading: number;
  /** What that graduation cuts. */
  readonly cuts: TaperCut;
}

/** What {@link guideBarSettings} needs. */
export interface GuideBarOptions {
  /** The taper wanted. */
  readonly taper: Taper;
  /** Axial length of the cut. */
  readonly length: number;
  /** The bar's scale. @defaultValue half angle, without step or range */
  readonly scale?: GuideBarScale;
  /** How far the carriage can travel while the slider stays on the bar. @defaultValue none: as far as the cut needs */
  readonly travel?: number;
}

const OPTIONS: Fields<GuideBarOptions, 'scale'> = {
  taper,
  length: positive,
  scale: defaulted(guideBarScale, PLAIN_SCALE),
  travel: optional(positive),
};

/** How to set a guide bar. */
export interface GuideBarSettings extends GuideBarSetting {
  /** Angle of the bar from the axis of the work. */
  readonly halfAngleDeg: number;
  /** Error of the difference of the end diameters over the length, at the nearest graduation. */
  readonly differenceError: number;
  /** How far the bar moves the cross slide over the length of the cut. */
  readonly crossTravel: number;
  /** Longest taper in one setting, along the axis; if the travel is given. */
  readonly longestLength?: number;
  /** Change of the difference of the end diameters for one unit of the reading (its slope there). */
  readonly diameterPerReading: number;
  /**
   * The usual shop rule for this scale: 28.65 times the rate of taper for angles, the tangent for the
   * sine where the offset is that of a mark on the bar. Left out where there is none, or where it gives no angle.
   */
  readonly rule?: ShopRule;
  /** A graduation that is not exact, a shop rule that would be off. */
  readonly notes: readonly OffsetNote[];
}

/**
 * Settings of a guide bar for a taper, on the bar's own scale.
 * @param options - Taper, length, and what is known of the bar. Lengths in one unit.
 * @throws GeneratrixError `beyond-machine` if the scale or the travel does not reach, naming what it does.
 * @example
 * ```ts
 * import { guideBarSettings } from 'generatrix';
 * const set = guideBarSettings({
 *   taper: { perFoot: 0.602 },
 *   length: 4,
 *   scale: { by: 'per-foot', step: 1 / 16 },
 * });
 * set.settableReading; // => 0.625
 * set.differenceError.toFixed(4); // => '0.0077'
 * ```
 */
export function guideBarSettings(options: GuideBarOptions): GuideBarSettings {
  const given = read(options, OPTIONS);
  const { length } = given;
  const { tan, halfAngleDeg } = slopeOf(given.taper);
  const scale = barScale(given.scale);
  const { reading, settableReading, cuts } = setBar(scale, halfAngleDeg, 0, tan);
  const longestLength = longest(given.travel, length, 1);
  const rule = scale.rule(tan);
  const settings: Draft<GuideBarSettings> = {
    reading,
    settableReading,
    cuts,
    halfAngleDeg,
    differenceError: cuts.rateError * length + 0,
    crossTravel: representable(length * tan, 'length'),
    diameterPerReading: representable(2 * length * scale.tanPerReading(halfAngleDeg), 'length'),
    notes: settingNotes(reading, settableReading, cuts, rule),
  };
  if (longestLength !== undefined) settings.longestLength = longestLength;
  if (rule) settings.rule = rule;
  return settings;
}

/** The setting for an angle, and what it cuts; the taper itself where nothing is rounded. */
export function setBar(scale: BarScale, angleDeg: number, zeroErrorDeg: number, wantedTan: number): GuideBarSetting {
  const reading = representable(scale.reading(angleDeg), 'scale');
  const settableReading = nearestGraduation(reading, scale.graduation, 'scale');
  const tan =
    reading === settableReading ? wantedTan : tanDeg(acute(scale.angleDeg(settableReading) + zeroErrorDeg, 'scale'));
  return { reading, settableReading, cuts: taperCut(tan, wantedTan) };
}
