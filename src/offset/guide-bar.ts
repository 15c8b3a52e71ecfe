/**
 * The guide bar (taper attachment): a bar swivelled behind the lathe that moves the cross slide as
 * the carriage travels. Its settings on the bar's own scale, the surface that they cut, and the
 * correction after a trial cut. Lengths in any one unit, angles in degrees from the axis of the work.
 */
import { number, options, positive, representable } from '../core/checks.js';
import { nearestGraduation } from '../core/dial.js';
import type { Note } from '../core/notes.js';
import { tanDeg } from '../core/trigonometry.js';
import { readTaper, type Taper } from '../taper/taper.js';
import { dialRounded, ruleDiffers, type ShopRule, type TaperCut, taperCut } from './cuts.js';
import { type BarScale, type GuideBarScale, readBarScale } from './guide-bar-scale.js';
import { MEASURED, type MeasuredTaper, type MeasuringUncertainty, UNCERTAINTY } from './measured.js';
import { type AngleChange, acute, angleChange, reach, trueAngle } from './swivel.js';
import { readCut, SIZED_END, type SizedEnd, type StraightCut, straightCut } from './tool-height.js';

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
  /** The bar's scale; half angle, without step or range, if left out. */
  readonly scale?: GuideBarScale;
  /** How far the carriage can travel while the slider stays on the bar. */
  readonly travel?: number;
}

/** How to set a guide bar. */
export interface GuideBarSettings extends GuideBarSetting {
  /** Angle of the bar from the axis of the work. */
  readonly halfAngleDeg: number;
  /** Error of the difference of the end diameters over the length, at the nearest graduation. */
  readonly diameterError: number;
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
  readonly notes: readonly Note[];
}

/**
 * Settings of a guide bar for a taper, on the bar's own scale.
 *
 * @param set - Taper, length, and what is known of the bar. Lengths in one unit.
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
 * set.diameterError.toFixed(4); // => '0.0077'
 * ```
 */
export function guideBarSettings(set: GuideBarOptions): GuideBarSettings {
  const given = options(set, 'set', ['taper', 'length'], ['scale', 'travel']);
  const { tan, halfAngleDeg } = readTaper(given['taper'] as Taper);
  const length = positive(given['length'], 'length');
  const scale = readBarScale(given['scale']);
  const setting = setBar(scale, halfAngleDeg, 0, tan);
  const rule = scale.rule(tan);
  return {
    ...setting,
    halfAngleDeg,
    diameterError: setting.cuts.rateError * length + 0,
    crossTravel: representable(length * tan, 'length'),
    ...reach(given['travel'], length, 1),
    diameterPerReading: representable(2 * length * scale.slope(halfAngleDeg), 'length'),
    ...(rule && { rule }),
    notes: [...roundedNote(setting), ...(rule ? ruleDiffers(rule.cuts) : [])],
  };
}

/** What {@link guideBarSurface} needs. */
export type GuideBarSurfaceOptions = SizedEnd & {
  /** What the bar's scale reads. */
  readonly reading: number;
  /** The bar's scale; half angle if left out. */
  readonly scale?: GuideBarScale;
  /** True angle from the axis minus the one that the scale shows, in degrees; 0 if left out. */
  readonly zeroErrorDeg?: number;
  /** How far the tool's tip stands above the axis of the work; 0 if left out. */
  readonly toolHeight?: number;
  /** Axial length of the cut. */
  readonly length: number;
};

/**
 * The surface that a guide bar cuts as it is really set: a cone, or a hyperboloid if the tool is off
 * centre height. Rates are compared with the taper that the scale shows.
 *
 * @param cut - Reading, length, the diameter at the end where the tool is touched off, and the errors.
 * @throws GeneratrixError `out-of-range` for a reading that is no angle below 90°, `impossible-geometry` for a
 * path that runs past the axis.
 * @example
 * ```ts
 * import { guideBarSurface } from 'generatrix';
 * const scale = { by: 'offset', radius: 250, radiusAlong: 'bed' } as const;
 * guideBarSurface({ reading: 5, scale, length: 100, largeDiameter: 30 }).smallDiameter.toFixed(6); // => '26.000000'
 * ```
 */
export function guideBarSurface(cut: GuideBarSurfaceOptions): StraightCut {
  const given = options(cut, 'cut', ['reading', 'length'], ['scale', 'zeroErrorDeg', 'toolHeight', ...SIZED_END]);
  const shown = readReading(given['reading'], readBarScale(given['scale']));
  return straightCut(tanDeg(trueAngle(shown, given['zeroErrorDeg'])), tanDeg(shown), readCut(given));
}

/** What {@link guideBarCorrection} needs. */
export interface GuideBarCorrectionOptions extends MeasuredTaper, MeasuringUncertainty {
  /** The taper wanted. */
  readonly taper: Taper;
  /** What the bar's scale read when the trial was cut. */
  readonly reading: number;
  /** The bar's scale; half angle, without step or range, if left out. */
  readonly scale?: GuideBarScale;
  /** Distance of the slider from the bar's pivot where the tool is touched off, positive towards the large end. */
  readonly pivotDistance?: number;
}

/** What to change at a guide bar after a trial cut. */
export interface GuideBarCorrection extends AngleChange, GuideBarSetting {
  /** True angle minus the one that the scale shows, in degrees. */
  readonly zeroErrorDeg: number;
  /**
   * How much the radius at the place of touching off grows when the bar is turned: the tool has to be
   * moved this much towards the work to touch it again, away from it if negative.
   */
  readonly touchOff?: number;
  /** A graduation that is not exact. */
  readonly notes: readonly Note[];
}

/**
 * The change to make at a guide bar after a trial cut: the zero error of its scale, the new reading,
 * and how far the tool must be touched off again. The tool is taken to stand at centre height.
 *
 * @param trial - The taper wanted, what was measured, and what is known of the bar.
 * @throws GeneratrixError `beyond-machine` if the scale does not reach the new reading.
 * @example
 * ```ts
 * import { guideBarCorrection } from 'generatrix';
 * const { changeMinutes, reading } = guideBarCorrection({
 *   taper: { oneIn: 20 },
 *   reading: 1.43,
 *   largeDiameter: 30,
 *   smallDiameter: 25.02,
 *   distance: 100,
 * });
 * changeMinutes.toFixed(3); // => '0.344'
 * reading.toFixed(4); // => '1.4357'
 * ```
 */
export function guideBarCorrection(trial: GuideBarCorrectionOptions): GuideBarCorrection {
  const given = options(trial, 'trial', ['taper', 'reading', ...MEASURED], ['scale', 'pivotDistance', ...UNCERTAINTY]);
  const wanted = readTaper(given['taper'] as Taper);
  const scale = readBarScale(given['scale']);
  const shown = readReading(given['reading'], scale);
  const change = angleChange(given, wanted);
  const zeroErrorDeg = change.measuredHalfAngleDeg - shown;
  const setting = setBar(scale, acute(shown + change.changeDeg, 'reading'), zeroErrorDeg, wanted.tan);
  const turned = setting.cuts.rate / 2 - tanDeg(change.measuredHalfAngleDeg);
  return {
    ...change,
    ...setting,
    zeroErrorDeg,
    ...(given['pivotDistance'] !== undefined && {
      touchOff: representable(number(given['pivotDistance'], 'pivotDistance') * turned, 'pivotDistance') + 0,
    }),
    notes: roundedNote(setting),
  };
}

/** The angle that a reading shows. */
function readReading(value: unknown, scale: BarScale): number {
  return acute(scale.angleDeg(number(value, 'reading')), 'reading');
}

/** The setting for an angle, and what it cuts; the taper itself where nothing is rounded. */
function setBar(scale: BarScale, angleDeg: number, zeroErrorDeg: number, wantedTan: number): GuideBarSetting {
  const reading = representable(scale.reading(angleDeg), 'scale') + 0;
  const settableReading = nearestGraduation(reading, scale.graduation, 'scale');
  const tan =
    reading === settableReading ? wantedTan : tanDeg(acute(scale.angleDeg(settableReading) + zeroErrorDeg, 'scale'));
  return { reading, settableReading, cuts: taperCut(tan, wantedTan) };
}

function roundedNote({ reading, settableReading, cuts }: GuideBarSetting): readonly Note[] {
  return dialRounded(reading, settableReading, cuts.rateError);
}
