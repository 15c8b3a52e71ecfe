/**
 * After a trial cut with a form tool: from two diameters and their distance to an angle and to movements of an
 * indicator. Angles in degrees from the axis of the work, lengths in any one unit.
 */
import { type Fields, optional, positive, read, representable } from '../../core/read.js';
import { sinDeg, tanDeg } from '../../core/trigonometry.js';
import { slopeOf, type Taper, taper } from '../../taper/taper.js';
import { doubtNotes, MEASURED, type MeasuredTaper, type MeasuringUncertainty, UNCERTAINTY } from '../measured.js';
import { type AngleChange, angleChange } from '../swivel.js';
import type { OffsetNote } from '../words.js';

/** What {@link formToolCorrection} needs. */
export interface FormToolCorrectionOptions extends MeasuredTaper, MeasuringUncertainty {
  /** The taper wanted. */
  readonly taper: Taper;
  /**
   * Travel over which an indicator will be watched.
   *
   * @defaultValue the measured length
   */
  readonly indicatorTravel?: number;
}

const OPTIONS: Fields<FormToolCorrectionOptions> = {
  taper,
  indicatorTravel: optional(positive),
  ...MEASURED,
  ...UNCERTAINTY,
};

/** What to change at a form tool after a trial cut. */
export interface FormToolCorrection extends AngleChange {
  /** Change of what an indicator standing still against the edge shows as the carriage travels. */
  readonly indicatorOnEdge: number;
  /** Change of what an indicator carried parallel to the edge along a true cylinder shows. */
  readonly indicatorOnCylinder: number;
  /** A trial that looks mistyped. */
  readonly notes: readonly OffsetNote[];
}

/**
 * The change to make at a form tool after a trial cut: from two diameters and their distance to an angle and to
 * indicator movements. The edge is taken to lie level at centre height; it has to be brought to size again after it
 * was turned.
 *
 * @param options - The taper wanted, and what was measured.
 * @throws GeneratrixError `missing-option` for an uncertainty of the length without one of the diameters.
 * @example
 * ```ts
 * import { formToolCorrection } from 'generatrix';
 * const { changeMinutes, indicatorOnEdge } = formToolCorrection({
 *   taper: { halfAngleDeg: 30 },
 *   largeDiameter: 20,
 *   smallDiameter: 14.25,
 *   length: 5,
 * });
 * changeMinutes.toFixed(1); // => '6.1'
 * indicatorOnEdge.toFixed(4); // => '0.0118'
 * ```
 */
export function formToolCorrection(options: FormToolCorrectionOptions): FormToolCorrection {
  const given = read(options, OPTIONS);
  const { indicatorTravel = given.length } = given;
  const wanted = slopeOf(given.taper);
  const change = angleChange(given, wanted);
  const measuredTan = tanDeg(change.measuredHalfAngleDeg);
  return {
    ...change,
    indicatorOnEdge: representable(indicatorTravel * (wanted.tan - measuredTan), 'indicatorTravel'),
    indicatorOnCylinder: indicatorTravel * (wanted.sin - sinDeg(change.measuredHalfAngleDeg)),
    notes: doubtNotes(measuredTan, wanted.tan),
  };
}
