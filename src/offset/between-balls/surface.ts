/**
 * The surface that work between balls is really cut to, and the same as a model for an error budget: that of work
 * set over, about pivots whose distance the balls tell. Lengths in any one unit, set-overs on the radius.
 */
import { frozen, type Model } from '../../budget/model.js';
import { type Fields, read } from '../../core/read.js';
import {
  cutSetOver,
  SET,
  SETOVER_INPUTS,
  type SetoverCut,
  type SetoverDefaults,
  type SetoverError,
  type SetoverInput,
  type SetoverSet,
  setOverDiameter,
} from '../set-over/surface.js';
import { type EitherEnd, type SizedEnd, SMALL_DIAMETER, type StraightCutOptions } from '../straight-cut.js';
import { BETWEEN, type BetweenBalls, betweenBalls, type EitherLength } from './distance.js';

/** What {@link ballCentresSurface} needs. */
export type BallCentresSurfaceOptions = BetweenBalls & SizedEnd & StraightCutOptions & SetoverSet;

const OPTIONS: Fields<EitherLength & EitherEnd & SetoverSet, SetoverDefaults> = { ...BETWEEN, ...SET };

/**
 * The surface that work between balls is really cut to: a cone, or a hyperboloid if the head is not
 * level or the tool off centre height. Distances are from the headstock ball's centre.
 * @throws GeneratrixError as `ballCentreDistance` and `setoverSurface`.
 * @example
 * ```ts
 * import { ballCentresSurface } from 'generatrix';
 * const ball = { ballDiameter: 10 };
 * const cut = ballCentresSurface({
 *   lengthOverBalls: 166,
 *   headstock: ball,
 *   tailstock: ball,
 *   offset: 6.5,
 *   rollDeg: 3,
 *   fromPivot: 30,
 *   length: 100,
 *   largeDiameter: 25,
 * });
 * cut.surface.kind; // => 'hyperboloid'
 * cut.waist.toFixed(3); // => '0.719'
 * cut.departure.bestFit.straightness.toFixed(5); // => '0.00104'
 * ```
 */
export function ballCentresSurface(options: BallCentresSurfaceOptions): SetoverCut {
  const given = read(options, OPTIONS);
  return cutSetOver(betweenBalls(given).centreDistance, given);
}

/**
 * The diameter at the small end of a taper cut between balls, the length measured over the balls:
 * `ballCentresSurface` as a model.
 */
export const ballCentresModel: Model<
  SetoverInput | 'lengthOverBalls' | 'headstockBall' | 'tailstockBall',
  SetoverError
> = /* @__PURE__ */ frozen({
  name: 'ball-centres',
  result: SMALL_DIAMETER,
  inputs: {
    lengthOverBalls: { kind: 'length', meaning: 'length over both balls in their holes' },
    headstockBall: { kind: 'length', meaning: "diameter of the headstock's ball" },
    tailstockBall: { kind: 'length', meaning: "diameter of the tailstock's ball" },
    ...SETOVER_INPUTS,
  },
  evaluate: (a, inputs) => {
    const radii = a.multiply(a.constant(0.5), a.add(inputs.headstockBall, inputs.tailstockBall));
    return setOverDiameter(a, a.subtract(inputs.lengthOverBalls, radii), inputs);
  },
});
