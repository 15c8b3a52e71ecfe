/**
 * What a top slide and a guide bar have in common: a straight guide swivelled to the half angle by a
 * scale whose zero may be off, corrected by the angle that a trial shows to be missing.
 */
import type { ErrorQuantity } from '../budget/model.js';
import { refuse } from '../core/errors.js';
import { representable } from '../core/read.js';
import { atanDeg, toDegrees } from '../core/trigonometry.js';
import type { Slope } from '../taper/taper.js';
import {
  type MeasuredTaper,
  type MeasuringUncertainty,
  measuredSlope,
  statedUncertainty,
  tangentUncertainty,
} from './measured.js';
import type { Draft } from './taper-cut.js';

/** What the zero error of a guide's scale means in a model. */
export const ZERO_ERROR_DEG: ErrorQuantity = {
  kind: 'angleDeg',
  meaning: 'true angle minus the one that the scale shows',
  isError: true,
};

/** How far a measured taper is from the wanted one, as an angle. */
export interface AngleChange {
  /** Half angle that was measured, in degrees. */
  readonly measuredHalfAngleDeg: number;
  /** How much the guide must be turned: positive for a steeper taper. */
  readonly changeDeg: number;
  /** The same in minutes of arc. */
  readonly changeMinutes: number;
  /** Standard uncertainty of the change, if uncertainties of the measurement are stated. */
  readonly changeStandardUncertaintyDeg?: number;
}

/** The change of angle from a measured taper to a wanted one. */
export function angleChange(trial: MeasuredTaper & MeasuringUncertainty, wanted: Slope): AngleChange {
  const measured = measuredSlope(trial);
  const stated = statedUncertainty(trial);
  const measuredHalfAngleDeg = atanDeg(measured.tan);
  const changeDeg = wanted.halfAngleDeg - measuredHalfAngleDeg;
  const change: Draft<AngleChange> = { measuredHalfAngleDeg, changeDeg, changeMinutes: 60 * changeDeg };
  if (stated) {
    // d α = cos² α d tan α
    change.changeStandardUncertaintyDeg = representable(
      toDegrees(measured.cos ** 2 * tangentUncertainty(measured, stated)),
      'diameterStandardUncertainty',
    );
  }
  return change;
}

/** An angle from the axis of less than 90° to either side. */
export function acute(angleDeg: number, parameter: string): number {
  if (Math.abs(angleDeg) < 90) return angleDeg;
  const phrase = 'must leave an angle of less than 90° from the axis';
  return refuse('out-of-range', parameter, angleDeg, { kind: 'number', above: -90, below: 90, phrase });
}

/** The longest length that a travel allows, if it is known; refuses a length that it does not. */
export function longest(travel: number | undefined, length: number, perTravel: number): number | undefined {
  if (travel === undefined) return undefined;
  const longestLength = travel * perTravel;
  // A length computed to fit exactly may be off by a few units in the last place.
  if (length <= longestLength * (1 + 1e-14)) return longestLength;
  const phrase = `must be at most ${longestLength}, as far as the travel reaches`;
  return refuse('beyond-machine', 'length', length, { kind: 'number', max: longestLength, phrase });
}
