/**
 * Cutting a taper: what to set, what the settings really cut, what to change after a trial cut.
 *
 * @module offset
 */

export {
  type BallCentreDistance,
  type BallCentreEnd,
  type BallCentresCorrectionOptions,
  type BallCentresOptions,
  type BallCentresSettings,
  type BallCentresSurfaceOptions,
  type BetweenBalls,
  ballCentreDistance,
  ballCentresCorrection,
  ballCentresSettings,
  ballCentresSurface,
} from './ball-centres.js';
export { type BallSeat, type BallSeatOptions, ballSeat } from './ball-seat.js';
export type { ShopRule, TaperCut } from './cuts.js';
export {
  type GuideBarCorrection,
  type GuideBarCorrectionOptions,
  type GuideBarOptions,
  type GuideBarSetting,
  type GuideBarSettings,
  type GuideBarSurfaceOptions,
  guideBarCorrection,
  guideBarSettings,
  guideBarSurface,
} from './guide-bar.js';
export type { GuideBarScale } from './guide-bar-scale.js';
export type { MeasuredTaper, MeasuringUncertainty } from './measured.js';
export {
  type SetoverCut,
  type SetoverErrors,
  type SetoverMachine,
  type SetoverOptions,
  type SetoverReach,
  type SetoverSettings,
  type SetoverSurfaceOptions,
  setoverSettings,
  setoverSurface,
} from './setover.js';
export {
  type SetoverCorrection,
  type SetoverCorrectionOptions,
  type SetoverCorrectionUncertainty,
  type SetoverTrial,
  setoverCorrection,
  type TouchOffPlace,
} from './setover-correction.js';
export { ballCentresModel, type SetoverInput, setoverModel } from './setover-models.js';
export {
  type CutInput,
  type GuideBarModel,
  guideBarBedModel,
  guideBarModel,
  toolHeightModel,
  topSlideModel,
} from './straight-models.js';
export type { AngleChange } from './swivel.js';
export {
  type BallHolder,
  type TiltContact,
  type TiltLimit,
  type TiltLimitOptions,
  tiltLimit,
  type WorkEnd,
} from './tilt-limit.js';
export {
  type SizedEnd,
  type StraightCut,
  type ToolHeightOptions,
  type ToolHeightToleranceOptions,
  toolHeightSurface,
  toolHeightTolerance,
} from './tool-height.js';
export {
  type TopSlideCorrection,
  type TopSlideCorrectionOptions,
  type TopSlideOptions,
  type TopSlideSettings,
  type TopSlideSurfaceOptions,
  topSlideCorrection,
  topSlideSettings,
  topSlideSurface,
} from './top-slide.js';
export { type TopSlideMaster, type TopSlideMasterOptions, topSlideFromMaster } from './top-slide-master.js';
