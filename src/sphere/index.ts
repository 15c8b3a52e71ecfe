/**
 * Cutting a sphere with a tilted sweep: what to set, what a mis-set sweep really cuts, and the way
 * back from what was measured to what to change.
 *
 * @module sphere
 */

export type { Sweep } from '../revolve/sweep.js';
export * from './ball-cutter/index.js';
export {
  type Clearance,
  type Obstacle,
  type SweepClearance,
  type SweepClearanceInput,
  sweepClearance,
} from './clearance.js';
export {
  type SocketTiltCorrection,
  type SocketTiltInput,
  type SweepCorrection,
  type SweepCorrectionInput,
  socketTiltCorrection,
  sweepCorrection,
} from './correction.js';
export type { SweepCoverage, SweepEnd } from './coverage.js';
export type { SphereCut } from './cut.js';
export {
  type CauseEstimate,
  type CauseEstimates,
  type SweepAmbiguity,
  type SweepCause,
  type SweepDiagnosis,
  type SweepDiagnosisInput,
  type SweepExplanation,
  sweepDiagnosis,
} from './diagnosis.js';
export {
  type FirstContact,
  type InfeedPass,
  type SphereInfeed,
  type SphereInfeedInput,
  sphereInfeed,
} from './infeed.js';
export {
  type Mark,
  type SphereMarks,
  type SphereMarksInput,
  type SphereMarksLimit,
  type SphereMarksLimitInput,
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
  type SweepPositionInput,
  sweepPosition,
  type TestRing,
  type TestRingInput,
  testRing,
} from './position.js';
export type { Reading, SphereMeasurement } from './readings.js';
export { type BallInSocket, type BallInSocketInput, ballInSocket, type SocketPoint } from './seating.js';
export {
  type SweepHead,
  type SweepResult,
  type SweepSettings,
  type SweepSettingsInput,
  sweepSettings,
} from './settings.js';
export * from './steps/index.js';
export * from './straight-feed/index.js';
export {
  type SweepSensitivities,
  type SweepSurface,
  type SweepSurfaceInput,
  sweepSurface,
} from './surface.js';
export * from './swivel-tool/index.js';
export {
  type BallBetweenStems,
  type BallEnd,
  type BallOnStem,
  type Cap,
  type Socket,
  type SphereShape,
  type SphereSize,
  type SphereTarget,
  sphereShape,
} from './target.js';
export type { SphereNote, SphereNoteCode } from './words.js';
