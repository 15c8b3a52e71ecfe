/**
 * The surface that a guide bar cuts as it is really set, and the same as models for an error budget. Lengths in any
 * one unit, angles in degrees from the axis of the work.
 */
import { type Arithmetic, frozen, type Model } from '../../budget/model.js';
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
import { acute, ZERO_ERROR_DEG } from '../swivel.js';
import { type SwivelledError, swivelledCut, swivelledPath } from '../swivelled-cut.js';
import { barScale, type GuideBarScale, guideBarScale, PLAIN_SCALE } from './scale.js';

/** How a guide bar is set, and what is wrong with that. */
export interface GuideBarSet {
  /** What the bar's scale reads. */
  readonly reading: number;
  /** The bar's scale. @defaultValue half angle */
  readonly scale?: GuideBarScale;
  /** True angle from the axis minus the one that the scale shows, in degrees. @defaultValue 0 */
  readonly zeroErrorDeg?: number;
}

/** What {@link guideBarSurface} needs. */
export type GuideBarSurfaceOptions = SizedEnd & StraightCutOptions & HeadstockOptions & GuideBarSet;

const OPTIONS: Fields<GuideBarSet & EitherEnd & HeadstockOptions, 'scale' | SwivelledError> = {
  reading: anyNumber,
  scale: defaulted(guideBarScale, PLAIN_SCALE),
  zeroErrorDeg: defaulted(number({ above: -90, below: 90 }), 0),
  ...CHUCKED,
};

/**
 * The surface that a guide bar cuts as it is really set: a cone, or a hyperboloid if the tool is off
 * centre height or the spindle not level with the bed. Rates are compared with the taper that the scale shows.
 * @throws GeneratrixError `out-of-range` for a reading that is no angle below 90°, `impossible-geometry` for a
 * path that runs past the axis.
 * @example
 * ```ts
 * import { guideBarSurface } from 'generatrix';
 * const scale = { by: 'offset', radius: 250, radiusAlong: 'bed' } as const;
 * guideBarSurface({ reading: 5, scale, length: 100, largeDiameter: 30 }).smallDiameter.toFixed(6); // => '26.000000'
 * ```
 */
export function guideBarSurface(options: GuideBarSurfaceOptions): StraightCut {
  const given = read(options, OPTIONS);
  const shown = acute(barScale(given.scale).angleDeg(given.reading), 'reading');
  return swivelledCut(shown, given);
}

/** A model of a guide bar set by an offset at a radius from its pivot. */
export type GuideBarModel = Model<'offset' | 'radius' | CutInput, 'zeroErrorDeg' | ChuckedError>;

function guideBar(name: string, along: string, angleDeg: <T>(a: Arithmetic<T>, ratio: T) => T): GuideBarModel {
  return frozen({
    name,
    result: SMALL_DIAMETER,
    inputs: {
      offset: { kind: 'length', meaning: 'how far the bar is set over' },
      radius: { kind: 'length', meaning: `distance from the pivot, along the ${along}, at which the offset is read` },
      zeroErrorDeg: ZERO_ERROR_DEG,
      ...CHUCKED_INPUTS,
    },
    evaluate: (a, inputs) =>
      smallDiameter(a, swivelledPath(a, angleDeg(a, a.divide(inputs.offset, inputs.radius)), inputs), inputs),
  });
}

/** The diameter at the small end of a taper cut with a guide bar set over by a mark on the bar: offset ϱ sin α. */
export const guideBarModel: GuideBarModel = /* @__PURE__ */ guideBar('guide-bar', 'bar', (a, ratio) =>
  a.asinDeg(ratio),
);

/** As `guideBarModel`, with the offset read on a scale square across the bed: ϱ tan α. */
export const guideBarBedModel: GuideBarModel = /* @__PURE__ */ guideBar('guide-bar-bed', 'bed', (a, ratio) =>
  a.atanDeg(ratio),
);
