/** After trial cuts between balls: as after trial cuts between centres, about pivots whose distance the balls tell. */
import { type Fields, read } from '../../core/read.js';
import { correctSetOver, type SetoverCorrection, type SetoverTrialOptions, TRIALS } from '../set-over/correction.js';
import { BETWEEN, type BetweenBalls, betweenBalls, type EitherLength } from './distance.js';

/** What {@link ballCentresCorrection} needs: what `setoverCorrection` does, with the balls instead of the centre distance. */
export type BallCentresCorrectionOptions = BetweenBalls & SetoverTrialOptions;

const OPTIONS: Fields<EitherLength & SetoverTrialOptions, 'dial' | 'readingStandardUncertainty'> = {
  ...BETWEEN,
  ...TRIALS,
};

/**
 * The change to make after one or several trial cuts between balls: as `setoverCorrection`, with the
 * distance of the pivots from the balls.
 * @throws GeneratrixError as `ballCentreDistance` and `setoverCorrection`.
 * @example
 * ```ts
 * import { ballCentresCorrection } from 'generatrix';
 * const ball = { ballDiameter: 10 };
 * const { settableReading, readingChange } = ballCentresCorrection({
 *   lengthOverBalls: 166,
 *   headstock: ball,
 *   tailstock: ball,
 *   taper: { oneIn: 12 },
 *   trials: [{ reading: 12.98, largeDiameter: 25, smallDiameter: 16.75, length: 100 }],
 *   dial: { reads: 'diameter', step: 0.02 },
 * });
 * settableReading; // => 13.1
 * readingChange.toFixed(2); // => '0.12'
 * ```
 */
export function ballCentresCorrection(options: BallCentresCorrectionOptions): SetoverCorrection {
  const given = read(options, OPTIONS);
  return correctSetOver(given, betweenBalls(given).centreDistance);
}
