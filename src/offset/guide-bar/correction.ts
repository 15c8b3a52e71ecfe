/**
 * After a trial cut with a guide bar: what its scale's zero is really worth, what to set next, and how far the tool
 * must follow. Lengths in any one unit, angles in degrees from the axis of the work.
 */
import { anyNumber, defaulted, type Fields, optional, read, representable } from '../../core/read.js';
import { tanDeg } from '../../core/trigonometry.js';
import { slopeOf, taper } from '../../taper/taper.js';
import { doubtNotes, MEASURED, type MeasuredTaper, type MeasuringUncertainty, UNCERTAINTY } from '../measured.js';
import { type AngleChange, acute, angleChange } from '../swivel.js';
import { type Draft, settingNotes } from '../taper-cut.js';
import type { OffsetNote } from '../words.js';
import { barScale, guideBarScale, PLAIN_SCALE } from './scale.js';
import { type GuideBarOptions, type GuideBarSetting, setBar } from './settings.js';

/** What {@link guideBarCorrection} needs. */
export interface GuideBarCorrectionOptions
  extends Pick<GuideBarOptions, 'taper' | 'scale'>,
    MeasuredTaper,
    MeasuringUncertainty {
  /** What the bar's scale read when the trial was cut. */
  readonly reading: number;
  /**
   * Distance of the slider from the bar's pivot where the tool is touched off, positive towards the large end.
   * @defaultValue none: no move of the tool is given
   */
  readonly sliderFromPivot?: number;
}

const OPTIONS: Fields<GuideBarCorrectionOptions, 'scale'> = {
  taper,
  reading: anyNumber,
  scale: defaulted(guideBarScale, PLAIN_SCALE),
  sliderFromPivot: optional(anyNumber),
  ...MEASURED,
  ...UNCERTAINTY,
};

/** What to change at a guide bar after a trial cut. */
export interface GuideBarCorrection extends AngleChange, GuideBarSetting {
  /** True angle minus the one that the scale shows, in degrees. */
  readonly zeroErrorDeg: number;
  /**
   * How much the radius at the place of touching off grows when the bar is turned: the tool has to be
   * moved this much towards the work to touch it again, away from it if negative.
   */
  readonly toolMove?: number;
  /** A trial that looks mistyped, a graduation that is not exact. */
  readonly notes: readonly OffsetNote[];
}

/**
 * The change to make at a guide bar after a trial cut: the zero error of its scale, the new reading,
 * and how far the tool must be touched off again. The tool is taken to stand at centre height.
 * @throws GeneratrixError `beyond-machine` if the scale does not reach the new reading.
 * @example
 * ```ts
 * import { guideBarCorrection } from 'generatrix';
 * const { changeMinutes, reading } = guideBarCorrection({
 *   taper: { oneIn: 20 },
 *   reading: 1.43,
 *   largeDiameter: 30,
 *   smallDiameter: 25.02,
 *   length: 100,
 * });
 * changeMinutes.toFixed(3); // => '0.344'
 * reading.toFixed(4); // => '1.4357'
 * ```
 */
export function guideBarCorrection(options: GuideBarCorrectionOptions): GuideBarCorrection {
  const given = read(options, OPTIONS);
  const wanted = slopeOf(given.taper);
  const scale = barScale(given.scale);
  const shown = acute(scale.angleDeg(given.reading), 'reading');
  const change = angleChange(given, wanted);
  const measuredTan = tanDeg(change.measuredHalfAngleDeg);
  const zeroErrorDeg = change.measuredHalfAngleDeg - shown;
  const setting = setBar(scale, acute(shown + change.changeDeg, 'reading'), zeroErrorDeg, wanted.tan);
  const { reading, settableReading, cuts } = setting;
  const correction: Draft<GuideBarCorrection> = {
    ...change,
    reading,
    settableReading,
    cuts,
    zeroErrorDeg,
    notes: [...doubtNotes(measuredTan, tanDeg(shown)), ...settingNotes(reading, settableReading, cuts)],
  };
  if (given.sliderFromPivot !== undefined) {
    correction.toolMove = representable(given.sliderFromPivot * (cuts.rate / 2 - measuredTan), 'sliderFromPivot');
  }
  return correction;
}
