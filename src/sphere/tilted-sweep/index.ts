/** A sphere by a tilted sweep: a boring head on a mill whose spindle axis meets the axis of the turning work. */
export * from './clearance.js';
export { type Pip, type SweepCorrection, type SweepCorrectionOptions, sweepCorrection } from './correction.js';
export type { SweepCoverage, SweepEnd } from './coverage.js';
export type { SphereCut } from './cut.js';
export {
  type SettingNumbers,
  type SettingUncertainties,
  type SweepDiagnosisOptions,
  type SweepTrial,
  sweepDiagnosis,
} from './diagnosis.js';
export type {
  CauseEstimate,
  CauseEstimates,
  NextMeasurement,
  PredictedReading,
  SweepAmbiguity,
  SweepCause,
  SweepChanges,
  SweepDiagnosis,
  SweepExplanation,
} from './diagnosis-report.js';
export * from './infeed.js';
export * from './marks.js';
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
export * from './position.js';
export type {
  Reading,
  SphereInstrument,
  SphereLength,
  SphereMeasurement,
  SphereMeasurementKind,
} from './readings.js';
export * from './settings.js';
export * from './socket-tilt.js';
export * from './surface.js';
