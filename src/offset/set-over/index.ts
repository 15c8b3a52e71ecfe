/** What is public of work set over between centres. */
export { type CentreSeat, type CentreSeatOptions, centreSeat, type NamedHole } from './centre-seat.js';
export {
  type SetoverCorrection,
  type SetoverCorrectionOptions,
  type SetoverStandardUncertainty,
  type SetoverTrialOptions,
  setoverCorrection,
} from './correction.js';
export {
  type SetoverMachine,
  type SetoverOptions,
  type SetoverReach,
  type SetoverSettings,
  setoverSettings,
} from './settings.js';
export { type HoleSizes, standardCentreHole, standardCentreHoleNames } from './standard-holes.js';
export {
  type SetoverCut,
  type SetoverError,
  type SetoverInput,
  type SetoverSet,
  type SetoverSurfaceOptions,
  setoverModel,
  setoverSurface,
} from './surface.js';
export type { TouchOffPlace } from './touch-off.js';
export type { SetoverTrial } from './trials.js';
