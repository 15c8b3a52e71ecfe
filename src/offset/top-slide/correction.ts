/**
 * After a trial cut with the top slide: from two diameters and their distance to an angle, to movements of an
 * indicator and to a new reading. Angles in degrees from the axis of the work, lengths in any one unit.
 */
import { type AngleSetting, angleScale, setOnAngleScale } from '../../core/dial.js';
import { anyNumber, defaulted, type Fields, optional, positive, read, representable } from '../../core/read.js';
import { sinDeg, tanDeg } from '../../core/trigonometry.js';
import { slopeOf, taper } from '../../taper/taper.js';
import { doubtNotes, MEASURED, type MeasuredTaper, type MeasuringUncertainty, UNCERTAINTY } from '../measured.js';
import { type AngleChange, acute, angleChange } from '../swivel.js';
import { type Draft, settingNotes, type TaperCut } from '../taper-cut.js';
import type { OffsetNote } from '../words.js';
import { cutAt, PLAIN_SCALE, shownAngle } from './scale.js';
import type { TopSlideOptions } from './settings.js';

/** What {@link topSlideCorrection} needs. */
export interface TopSlideCorrectionOptions
  extends Pick<TopSlideOptions, 'taper' | 'scale'>,
    MeasuredTaper,
    MeasuringUncertainty {
  /** What the slide's scale read when the trial was cut. @defaultValue unknown: only the change is given */
  readonly readingDeg?: number;
  /** Travel over which an indicator will be watched. @defaultValue the measured length */
  readonly indicatorTravel?: number;
  /**
   * Distance from the slide's pivot at which an indicator rests against its edge while it is turned.
   * @defaultValue none: no movement of the edge is given
   */
  readonly edgeDistance?: number;
}

const OPTIONS: Fields<TopSlideCorrectionOptions, 'scale'> = {
  taper,
  readingDeg: optional(anyNumber),
  scale: defaulted(angleScale, PLAIN_SCALE),
  indicatorTravel: optional(positive),
  edgeDistance: optional(positive),
  ...MEASURED,
  ...UNCERTAINTY,
};

/** What to change at a top slide after a trial cut. */
export interface TopSlideCorrection extends AngleChange {
  /** Change of what an indicator carried by the slide along a true cylinder shows. */
  readonly indicatorOnCylinder: number;
  /** Change of what an indicator standing still against the slide's edge shows as the carriage travels. */
  readonly indicatorOnSlide: number;
  /** How far the slide's edge moves at the edge distance: the shortest way to turn a slide by minutes. */
  readonly edgeMovement?: number;
  /** True angle minus the one that the scale shows; if the reading is given. */
  readonly zeroErrorDeg?: number;
  /** The new reading, if the old one is given. */
  readonly setting?: AngleSetting;
  /** What the nearest graduation to the new reading will cut. */
  readonly cuts?: TaperCut;
  /** A trial that looks mistyped, a graduation that is not exact. */
  readonly notes: readonly OffsetNote[];
}

/**
 * The change to make at a top slide after a trial cut: from two diameters and their distance to an
 * angle, to indicator movements and to a new reading. The tool is taken to stand at centre height; it
 * has to be touched off again after the slide was turned.
 * @throws GeneratrixError `beyond-machine` if the scale does not reach.
 * @example
 * ```ts
 * import { topSlideCorrection } from 'generatrix';
 * const { changeMinutes, edgeMovement } = topSlideCorrection({
 *   taper: { oneIn: 10 },
 *   largeDiameter: 30,
 *   smallDiameter: 26.1,
 *   length: 40,
 *   edgeDistance: 75,
 * });
 * changeMinutes.toFixed(2); // => '4.29'
 * edgeMovement?.toFixed(3); // => '0.094'
 * ```
 */
export function topSlideCorrection(options: TopSlideCorrectionOptions): TopSlideCorrection {
  const given = read(options, OPTIONS);
  const { scale, readingDeg, edgeDistance, indicatorTravel = given.length } = given;
  const wanted = slopeOf(given.taper);
  const change = angleChange(given, wanted);
  const measured = change.measuredHalfAngleDeg;
  const measuredTan = tanDeg(measured);
  const correction: Draft<TopSlideCorrection> = {
    ...change,
    indicatorOnCylinder: indicatorTravel * (wanted.sin - sinDeg(measured)),
    indicatorOnSlide: representable(indicatorTravel * (wanted.tan - measuredTan), 'indicatorTravel'),
    notes: [],
  };
  if (edgeDistance !== undefined) {
    const turned = tanDeg(acute(change.changeDeg, 'edgeDistance'));
    correction.edgeMovement = representable(edgeDistance * turned, 'edgeDistance');
  }
  if (readingDeg === undefined) {
    correction.notes = doubtNotes(measuredTan, wanted.tan);
    return correction;
  }
  const shown = shownAngle(readingDeg, scale);
  const zeroErrorDeg = measured - shown;
  const setting = setOnAngleScale(acute(shown + change.changeDeg, 'readingDeg'), scale, 'scale');
  const cuts = cutAt(setting, zeroErrorDeg, wanted.tan);
  correction.zeroErrorDeg = zeroErrorDeg;
  correction.setting = setting;
  correction.cuts = cuts;
  correction.notes = [
    ...doubtNotes(measuredTan, tanDeg(shown)),
    ...settingNotes(setting.readingDeg, setting.settableReadingDeg, cuts),
  ];
  return correction;
}
