/**
 * The top slide (compound rest) swivelled to the half angle and fed by hand: what to set, how far it reaches.
 * Lengths in any one unit, angles in degrees from the axis of the work; some scales read 90° minus that.
 * Indicators have their plunger square across the axis of the work, at centre height.
 */
import { type AngleScale, type AngleSetting, angleScale, setOnAngleScale } from '../../core/dial.js';
import { defaulted, type Fields, optional, positive, read, representable } from '../../core/read.js';
import { slopeOf, type Taper, taper } from '../../taper/taper.js';
import { longest } from '../swivel.js';
import { angleRule, type Draft, type ShopRule, settingNotes, type TaperCut } from '../taper-cut.js';
import type { OffsetNote } from '../words.js';
import { cutAt, PLAIN_SCALE } from './scale.js';

/** What {@link topSlideSettings} needs. */
export interface TopSlideOptions {
  /** The taper wanted. */
  readonly taper: Taper;
  /** Axial length of the cut. */
  readonly length: number;
  /** The slide's swivel scale. @defaultValue from the axis, without step or range */
  readonly scale?: AngleScale;
  /** Travel that the slide has, along itself. @defaultValue none: as much as the cut needs */
  readonly travel?: number;
  /** Travel over which an indicator will be watched. @defaultValue the length of the cut */
  readonly indicatorTravel?: number;
}

const OPTIONS: Fields<TopSlideOptions, 'scale'> = {
  taper,
  length: positive,
  scale: defaulted(angleScale, PLAIN_SCALE),
  travel: optional(positive),
  indicatorTravel: optional(positive),
};

/** How to set a top slide. */
export interface TopSlideSettings extends AngleSetting {
  /** Angle of the slide from the axis of the work. */
  readonly halfAngleDeg: number;
  /** What the nearest graduation cuts. */
  readonly cuts: TaperCut;
  /** Error of the difference of the end diameters over the length, at the nearest graduation. */
  readonly differenceError: number;
  /** Travel of the slide that the cut needs, along itself. */
  readonly travelNeeded: number;
  /** Longest taper that the slide's travel allows, along the axis; if the travel is given. */
  readonly longestLength?: number;
  /** What an indicator carried by the slide along a true cylinder shows over the indicator's travel. */
  readonly indicatorOnCylinder: number;
  /** What an indicator standing still against the slide's edge shows while the carriage makes that travel. */
  readonly indicatorOnSlide: number;
  /** Change of the difference of the end diameters for a degree of the slide (its slope there). */
  readonly diameterPerDegree: number;
  /** The same for a minute of arc. */
  readonly diameterPerMinute: number;
  /** The workshop's rule of thumb, 28.65 times the rate of taper; left out where it gives 90° or more. */
  readonly rule?: ShopRule;
  /** A graduation that is not exact, a rule of thumb that would be off. */
  readonly notes: readonly OffsetNote[];
}

/**
 * Settings of a top slide for a taper.
 *
 * An indicator sets the slide far better than its scale does: carried by the slide along a true cylinder it shows t·sin
 * α over a travel t of the slide; standing still against the slide's own edge, t·tan α over a travel t of the carriage.
 * The diameter over the length ℓ answers an error of the angle by 2ℓ sec²α dα.
 * @param options - Taper, length, and what is known of the slide. Lengths in one unit.
 * @throws GeneratrixError `beyond-machine` if the scale or the travel does not reach, naming what it does.
 * @example
 * ```ts
 * import { topSlideSettings } from 'generatrix';
 * const set = topSlideSettings({
 *   taper: { includedAngleDeg: 60 },
 *   length: 20,
 *   scale: { reads: 'from-across', stepDeg: 1, fromDeg: 0, toDeg: 90 },
 * });
 * set.readingDeg; // => 60
 * set.travelNeeded.toFixed(3); // => '23.094'
 * ```
 */
export function topSlideSettings(options: TopSlideOptions): TopSlideSettings {
  const { taper: wanted, length, scale, travel, indicatorTravel = length } = read(options, OPTIONS);
  const { tan, sin, cos, halfAngleDeg } = slopeOf(wanted);
  const setting = setOnAngleScale(halfAngleDeg, scale, 'scale');
  const cuts = cutAt(setting, 0, tan);
  const perRadian = (2 * length) / cos / cos;
  const longestLength = longest(travel, length, cos);
  const rule = angleRule(tan);
  const settings: Draft<TopSlideSettings> = {
    readingDeg: setting.readingDeg,
    settableReadingDeg: setting.settableReadingDeg,
    settableAngleDeg: setting.settableAngleDeg,
    roundingErrorDeg: setting.roundingErrorDeg,
    halfAngleDeg,
    cuts,
    differenceError: cuts.rateError * length + 0,
    travelNeeded: representable(length / cos, 'length'),
    indicatorOnCylinder: indicatorTravel * sin,
    indicatorOnSlide: representable(indicatorTravel * tan, 'indicatorTravel'),
    diameterPerDegree: representable((perRadian * Math.PI) / 180, 'length'),
    diameterPerMinute: (perRadian * Math.PI) / 10800,
    notes: settingNotes(setting.readingDeg, setting.settableReadingDeg, cuts, rule),
  };
  if (longestLength !== undefined) settings.longestLength = longestLength;
  if (rule) settings.rule = rule;
  return settings;
}
