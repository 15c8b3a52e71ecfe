/**
 * What a top slide and a guide bar have in common: a straight guide swivelled to the half angle by a
 * scale whose zero may be off, corrected by the angle that a trial shows to be missing.
 */
import { number, positive, representable } from '../core/checks.js';
import { refuse } from '../core/errors.js';
import { atanDeg, toDegrees } from '../core/trigonometry.js';
import type { Slope } from '../taper/taper.js';
import { readMeasured, readUncertainty, tangentUncertainty } from './measured.js';

/** How far a measured taper is from the wanted one, as an angle. */
export interface AngleChange {
  /** Half angle that was measured, in degrees. */
  readonly measuredHalfAngleDeg: number;
  /** How much the guide must be turned: positive for a steeper taper. */
  readonly changeDeg: number;
  /** The same in minutes of arc. */
  readonly changeMinutes: number;
  /** Standard uncertainty of the change, if uncertainties of the measurement are stated. */
  readonly changeUncertaintyDeg?: number;
}

/** The change of angle from a measured taper to a wanted one. */
export function angleChange(given: Readonly<Record<string, unknown>>, wanted: Slope): AngleChange {
  const measured = readMeasured(given);
  const stated = readUncertainty(given);
  const measuredHalfAngleDeg = atanDeg(measured.tan);
  const changeDeg = wanted.halfAngleDeg - measuredHalfAngleDeg;
  return {
    measuredHalfAngleDeg,
    changeDeg,
    changeMinutes: 60 * changeDeg,
    // d α = cos² α d tan α
    ...(stated && {
      changeUncertaintyDeg: representable(
        toDegrees(measured.cos ** 2 * tangentUncertainty(measured, stated)),
        'diameterUncertainty',
      ),
    }),
  };
}

/** The angle from the axis really set: what the scale says, and the error of its zero. */
export function trueAngle(scaleAngleDeg: number, zeroErrorDeg: unknown): number {
  const zero = number(zeroErrorDeg ?? 0, 'zeroErrorDeg', { above: -90, below: 90 });
  return acute(scaleAngleDeg + zero, 'zeroErrorDeg');
}

/** An angle from the axis of less than 90° to either side. */
export function acute(angleDeg: number, parameter: string): number {
  return Math.abs(angleDeg) < 90
    ? angleDeg
    : refuse('out-of-range', parameter, angleDeg, 'must leave an angle of less than 90° from the axis');
}

/** Checks that a travel suffices for the length; gives the longest length if the travel is known. */
export function reach(travel: unknown, length: number, perTravel: number): { readonly longestLength?: number } {
  if (travel === undefined) return {};
  const longestLength = positive(travel, 'travel') * perTravel;
  // A length computed to fit exactly may be off by a few units in the last place.
  if (length > longestLength * (1 + 1e-14)) {
    return refuse('beyond-machine', 'length', length, `must be at most ${longestLength}, as far as the travel reaches`);
  }
  return { longestLength };
}
