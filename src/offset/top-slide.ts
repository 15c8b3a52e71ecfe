/**
 * The top slide (compound rest) swivelled to the half angle and fed by hand: its settings, the
 * surface that they cut, and the correction after a trial cut. Lengths in any one unit, angles in
 * degrees from the axis of the work; some scales read 90° minus that. Indicators have their plunger
 * square across the axis of the work, at centre height.
 */
import { number, options, positive, representable } from '../core/checks.js';
import { type AngleScale, type AngleSetting, fromScale, readAngleScale, setOnAngleScale } from '../core/dial.js';
import type { Note } from '../core/notes.js';
import { sinDeg, tanDeg } from '../core/trigonometry.js';
import { readTaper, type Taper } from '../taper/taper.js';
import { angleRule, dialRounded, ruleDiffers, type ShopRule, type TaperCut, taperCut } from './cuts.js';
import { MEASURED, type MeasuredTaper, type MeasuringUncertainty, UNCERTAINTY } from './measured.js';
import { type AngleChange, acute, angleChange, reach, trueAngle } from './swivel.js';
import { readCut, SIZED_END, type SizedEnd, type StraightCut, straightCut } from './tool-height.js';

/** What {@link topSlideSettings} needs. */
export interface TopSlideOptions {
  /** The taper wanted. */
  readonly taper: Taper;
  /** Axial length of the cut. */
  readonly length: number;
  /** The slide's swivel scale; from the axis, without step or range, if left out. */
  readonly scale?: AngleScale;
  /** Travel that the slide has, along itself. */
  readonly travel?: number;
  /** Travel over which an indicator will be watched; the length of the cut if left out. */
  readonly indicatorTravel?: number;
}

/** How to set a top slide. */
export interface TopSlideSettings extends AngleSetting {
  /** Angle of the slide from the axis of the work. */
  readonly halfAngleDeg: number;
  /** What the nearest graduation cuts. */
  readonly cuts: TaperCut;
  /** Error of the difference of the end diameters over the length, at the nearest graduation. */
  readonly diameterError: number;
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
  readonly notes: readonly Note[];
}

/**
 * Settings of a top slide for a taper.
 *
 * An indicator sets the slide far better than its scale does: carried by the slide along a true
 * cylinder it shows t·sin α over a travel t of the slide; standing still against the slide's own
 * edge, t·tan α over a travel t of the carriage. The diameter over the length ℓ answers an error of
 * the angle by 2ℓ sec²α dα.
 *
 * @param set - Taper, length, and what is known of the slide. Lengths in one unit.
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
export function topSlideSettings(set: TopSlideOptions): TopSlideSettings {
  const given = options(set, 'set', ['taper', 'length'], ['scale', 'travel', 'indicatorTravel']);
  const { tan, sin, cos, halfAngleDeg } = readTaper(given['taper'] as Taper);
  const length = positive(given['length'], 'length');
  const scale = readScale(given['scale']);
  const watched =
    given['indicatorTravel'] === undefined ? length : positive(given['indicatorTravel'], 'indicatorTravel');
  const setting = setOnAngleScale(halfAngleDeg, scale, 'scale');
  const cuts = cutAt(setting, 0, tan);
  const perRadian = (2 * length) / cos / cos;
  const rule = angleRule(tan);
  return {
    ...setting,
    halfAngleDeg,
    cuts,
    diameterError: cuts.rateError * length + 0,
    travelNeeded: representable(length / cos, 'length'),
    ...reach(given['travel'], length, cos),
    indicatorOnCylinder: watched * sin,
    indicatorOnSlide: representable(watched * tan, 'indicatorTravel'),
    diameterPerDegree: representable((perRadian * Math.PI) / 180, 'length'),
    diameterPerMinute: (perRadian * Math.PI) / 10800,
    ...(rule && { rule }),
    notes: [...roundedNote(setting, cuts), ...(rule ? ruleDiffers(rule.cuts) : [])],
  };
}

/** What {@link topSlideSurface} needs. */
export type TopSlideSurfaceOptions = SizedEnd & {
  /** What the slide's scale reads. */
  readonly readingDeg: number;
  /** The slide's swivel scale; from the axis if left out. */
  readonly scale?: AngleScale;
  /** True angle from the axis minus the one that the scale shows; 0 if left out. */
  readonly zeroErrorDeg?: number;
  /** How far the tool's tip stands above the axis of the work; 0 if left out. */
  readonly toolHeight?: number;
  /** Axial length of the cut. */
  readonly length: number;
};

/**
 * The surface that a top slide cuts as it is really set: a cone, or a hyperboloid if the tool is off
 * centre height. Rates are compared with the taper that the scale shows.
 *
 * @param cut - Reading, length, the diameter at the end where the tool is touched off, and the errors.
 * @throws GeneratrixError `out-of-range` for an angle of 90° or more, `impossible-geometry` for a path that
 * runs past the axis.
 * @example
 * ```ts
 * import { topSlideSurface } from 'generatrix';
 * const cut = topSlideSurface({ readingDeg: 5, zeroErrorDeg: 0.05, length: 40, largeDiameter: 30 });
 * cut.surface.kind; // => 'cone'
 * cut.smallDiameter.toFixed(3); // => '22.931'
 * ```
 */
export function topSlideSurface(cut: TopSlideSurfaceOptions): StraightCut {
  const given = options(cut, 'cut', ['readingDeg', 'length'], ['scale', 'zeroErrorDeg', 'toolHeight', ...SIZED_END]);
  const shown = readReading(given['readingDeg'], readScale(given['scale']));
  return straightCut(tanDeg(trueAngle(shown, given['zeroErrorDeg'])), tanDeg(shown), readCut(given));
}

/** What {@link topSlideCorrection} needs. */
export interface TopSlideCorrectionOptions extends MeasuredTaper, MeasuringUncertainty {
  /** The taper wanted. */
  readonly taper: Taper;
  /** What the slide's scale read when the trial was cut; without it only the change is given. */
  readonly readingDeg?: number;
  /** The slide's swivel scale; from the axis, without step or range, if left out. */
  readonly scale?: AngleScale;
  /** Travel over which an indicator will be watched; the measured distance if left out. */
  readonly indicatorTravel?: number;
  /** Distance from the slide's pivot at which an indicator rests against its edge while it is turned. */
  readonly edgeDistance?: number;
}

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
  /** A graduation that is not exact. */
  readonly notes: readonly Note[];
}

/**
 * The change to make at a top slide after a trial cut: from two diameters and their distance to an
 * angle, to indicator movements and to a new reading. The tool is taken to stand at centre height; it
 * has to be touched off again after the slide was turned.
 *
 * @param trial - The taper wanted, what was measured, and what is known of the slide.
 * @throws GeneratrixError `beyond-machine` if the scale does not reach.
 * @example
 * ```ts
 * import { topSlideCorrection } from 'generatrix';
 * const { changeMinutes, edgeMovement } = topSlideCorrection({
 *   taper: { oneIn: 10 },
 *   largeDiameter: 30,
 *   smallDiameter: 26.1,
 *   distance: 40,
 *   edgeDistance: 75,
 * });
 * changeMinutes.toFixed(2); // => '4.29'
 * edgeMovement?.toFixed(3); // => '0.094'
 * ```
 */
export function topSlideCorrection(trial: TopSlideCorrectionOptions): TopSlideCorrection {
  const given = options(
    trial,
    'trial',
    ['taper', ...MEASURED],
    ['readingDeg', 'scale', 'indicatorTravel', 'edgeDistance', ...UNCERTAINTY],
  );
  const wanted = readTaper(given['taper'] as Taper);
  const scale = readScale(given['scale']);
  const change = angleChange(given, wanted);
  const measured = change.measuredHalfAngleDeg;
  const watched = positive(given['indicatorTravel'] ?? given['distance'], 'indicatorTravel');
  const { readingDeg, edgeDistance } = given;
  return {
    ...change,
    indicatorOnCylinder: watched * (wanted.sin - sinDeg(measured)),
    indicatorOnSlide: representable(watched * (wanted.tan - tanDeg(measured)), 'indicatorTravel'),
    ...(edgeDistance !== undefined && {
      edgeMovement: representable(
        positive(edgeDistance, 'edgeDistance') * tanDeg(acute(change.changeDeg, 'edgeDistance')),
        'edgeDistance',
      ),
    }),
    ...(readingDeg === undefined ? { notes: [] } : again(readReading(readingDeg, scale))),
  };

  function again(shown: number): Pick<TopSlideCorrection, 'zeroErrorDeg' | 'setting' | 'cuts' | 'notes'> {
    const zeroErrorDeg = measured - shown;
    const setting = setOnAngleScale(acute(shown + change.changeDeg, 'readingDeg'), scale, 'scale');
    const cuts = cutAt(setting, zeroErrorDeg, wanted.tan);
    return { zeroErrorDeg, setting, cuts, notes: roundedNote(setting, cuts) };
  }
}

function readScale(value: unknown): AngleScale {
  return value === undefined ? { reads: 'from-axis' } : readAngleScale(value, 'scale');
}

/** The angle from the axis that a reading shows. */
function readReading(value: unknown, scale: AngleScale): number {
  return acute(fromScale(number(value, 'readingDeg'), scale), 'readingDeg');
}

/** What a setting cuts; the taper itself where nothing is rounded or off. */
function cutAt(setting: AngleSetting, zeroErrorDeg: number, wantedTan: number): TaperCut {
  const exact = setting.roundingErrorDeg === 0;
  return taperCut(exact ? wantedTan : tanDeg(acute(setting.settableAngleDeg + zeroErrorDeg, 'scale')), wantedTan);
}

function roundedNote({ readingDeg, settableReadingDeg }: AngleSetting, { rateError }: TaperCut): readonly Note[] {
  return dialRounded(readingDeg, settableReadingDeg, rateError);
}
