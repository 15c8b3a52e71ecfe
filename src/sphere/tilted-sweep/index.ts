/** A sphere by a tilted sweep: a boring head on a mill whose spindle axis meets the axis of the turning work. */
export {
  type Clearance,
  type Obstacle,
  type SweepClearance,
  type SweepClearanceOptions,
  sweepClearance,
} from './clearance.js';
export { type Pip, type SweepCorrection, type SweepCorrectionOptions, sweepCorrection } from './correction.js';
export type { SweepCoverage, SweepEnd } from './coverage.js';
export type { SphereCut } from './cut.js';
export { type SettingUncertainties, type SweepDiagnosisOptions, sweepDiagnosis } from './diagnosis.js';
export type {
  CauseEstimate,
  CauseEstimates,
  SweepAmbiguity,
  SweepCause,
  SweepChanges,
  SweepDiagnosis,
  SweepExplanation,
} from './diagnosis-report.js';
export {
  type FirstContact,
  type InfeedPass,
  type SphereInfeed,
  type SphereInfeedOptions,
  sphereInfeed,
} from './infeed.js';
export {
  type Mark,
  type SphereMarks,
  type SphereMarksLimit,
  type SphereMarksLimitOptions,
  type SphereMarksOptions,
  sphereMarks,
  sphereMarksLimit,
} from './marks.js';
export {
  ballDistanceModel,
  ballSweepModel,
  type SweepAtDistanceInput,
  type SweepAtPoleInput,
  socketDistanceModel,
  socketSweepModel,
  sweepFormModel,
  sweepPoleModel,
} from './models.js';
export {
  type SweepPosition,
  type SweepPositionOptions,
  sweepPosition,
  type TestRing,
  type TestRingOptions,
  testRing,
} from './position.js';
export type { Reading, SphereMeasurement } from './readings.js';
export {
  type SweepHead,
  type SweepResult,
  type SweepSettings,
  type SweepSettingsOptions,
  sweepSettings,
} from './settings.js';
export * from './socket-tilt.js';
export {
  type SweepSensitivities,
  type SweepSurface,
  type SweepSurfaceOptions,
  sweepSurface,
} from './surface.js';
