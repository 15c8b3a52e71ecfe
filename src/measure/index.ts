/**
 * Measuring what was cut: gauge and angle blocks, sine bar, rollers, balls and disks, plug and ring,
 * spherometer, spheres and cones through points.
 *
 * @module measure
 */
export { type AngleBlockStack, angleBlockStack } from './angle-blocks.js';
export {
  type BoreFromBalls,
  boreFromMouthAndBall,
  boreFromMouthAndBallModel,
  boreFromTwoBalls,
  boreFromTwoBallsModel,
  boreMouthFromTwoBallsModel,
  type TwoBallInput,
} from './balls-in-bore.js';
export { diskCentreDistance, halfAngleFromDisks, halfAngleFromDisksModel, touchingDisk } from './disks.js';
export type { Point } from './fit.js';
export { type ConeThroughPoints, coneThroughPoints, type FittedCone } from './fit-cone.js';
export type { FitForm, FitUncertainty, ZoneProof } from './fit-report.js';
export { type FittedSphere, type SphereThroughPoints, sphereThroughPoints } from './fit-sphere.js';
export { type GaugeBlockSetName, gaugeBlockSet } from './gauge-block-sets.js';
export {
  type GaugeBlockOptions,
  type GaugeBlockStack,
  type GaugeBlockStackOptions,
  type GaugeBlockStackPairOptions,
  gaugeBlockStack,
  gaugeBlockStackPair,
} from './gauge-blocks.js';
export {
  advanceFromDiameter,
  type ConeContact,
  coneContact,
  diameterFromStandOff,
  diameterFromStandOffModel,
} from './gauge-fit.js';
export { type MeasurementBudgetOptions, measurementBudget } from './measurement-budget.js';
export {
  cornerOverRoller,
  type PlugEnd,
  type PlugFromRollers,
  plugAngleFromRollersModel,
  plugDiameterFromRollersModel,
  plugFromRollers,
  plugOverRollers,
  type RollerInput,
} from './rollers.js';
export {
  type CompoundSineSettings,
  compoundSineSettings,
  type SineBarSettings,
  sineBarAngle,
  sineBarModel,
  sineBarSettings,
} from './sine-bar.js';
export {
  type RimBallInput,
  radiusFromChord,
  radiusFromChordModel,
  radiusFromSpherometer,
  type SocketFromBalls,
  type Spherometer,
  sagittaOnSpherometer,
  socketFromBalls,
  socketFromBallsModel,
  socketOpeningFromBallModel,
  spherometerModel,
} from './spherometer.js';
export {
  angleFromDiametersModel,
  type DiameterInput,
  endFromDiametersModel,
  rateFromDiametersModel,
  type TaperFromDiameters,
  taperFromDiameters,
} from './two-diameters.js';
export type { MeasureNoteCode } from './words.js';
