/**
 * The surface that a top slide cuts as it is really set, and the same as a model for an error budget. Angles in
 * degrees from the axis of the work, lengths in any one unit.
 */
import { frozen, type Model } from '../../budget/model.js';
import { type AngleScale, angleScale } from '../../core/dial.js';
import { anyNumber, defaulted, type Fields, number, read } from '../../core/read.js';
import {
  CHUCKED,
  CHUCKED_INPUTS,
  type ChuckedError,
  type CutInput,
  type EitherEnd,
  type HeadstockOptions,
  type SizedEnd,
  SMALL_DIAMETER,
  type StraightCut,
  type StraightCutOptions,
  smallDiameter,
} from '../straight-cut.js';
import { ZERO_ERROR_DEG } from '../swivel.js';
import { type SwivelledError, swivelledCut, swivelledPath } from '../swivelled-cut.js';
import { PLAIN_SCALE, shownAngle } from './scale.js';

/** How a top slide is set, and what is wrong with that. */
export interface TopSlideSet {
  /** What the slide's scale reads. */
  readonly readingDeg: number;
  /** The slide's swivel scale. @defaultValue from the axis */
  readonly scale?: AngleScale;
  /** True angle from the axis minus the one that the scale shows. @defaultValue 0 */
  readonly zeroErrorDeg?: number;
}

/** What {@link topSlideSurface} needs. */
export type TopSlideSurfaceOptions = SizedEnd & StraightCutOptions & HeadstockOptions & TopSlideSet;

const OPTIONS: Fields<TopSlideSet & EitherEnd & HeadstockOptions, 'scale' | SwivelledError> = {
  readingDeg: anyNumber,
  scale: defaulted(angleScale, PLAIN_SCALE),
  zeroErrorDeg: defaulted(number({ above: -90, below: 90 }), 0),
  ...CHUCKED,
};

/**
 * The surface that a top slide cuts as it is really set: a cone, or a hyperboloid if the tool is off
 * centre height or the spindle not level with the bed. Rates are compared with the taper that the scale shows.
 * @throws GeneratrixError `out-of-range` for an angle of 90° or more, `impossible-geometry` for a path that
 * runs past the axis.
 * @example
 * ```ts
 * import { topSlideSurface } from 'generatrix';
 * const cut = topSlideSurface({ readingDeg: 5, zeroErrorDeg: 0.05, length: 40, largeDiameter: 30 });
 * cut.surface.kind; // => 'cone'
 * cut.smallDiameter.toFixed(3); // => '22.931'
 * cut.differenceError.toFixed(3); // => '0.070'
 * ```
 */
export function topSlideSurface(options: TopSlideSurfaceOptions): StraightCut {
  const given = read(options, OPTIONS);
  const shown = shownAngle(given.readingDeg, given.scale);
  return swivelledCut(shown, given);
}

/** The diameter at the small end of a taper cut with the top slide: `topSlideSurface` as a model, angles from the axis. */
export const topSlideModel: Model<'angleDeg' | CutInput, 'zeroErrorDeg' | ChuckedError> = /* @__PURE__ */ frozen({
  name: 'top-slide',
  result: SMALL_DIAMETER,
  inputs: {
    angleDeg: { kind: 'angleDeg', meaning: 'angle from the axis that the scale shows' },
    zeroErrorDeg: ZERO_ERROR_DEG,
    ...CHUCKED_INPUTS,
  },
  evaluate: (a, inputs) => smallDiameter(a, swivelledPath(a, inputs.angleDeg, inputs), inputs),
});
