/**
 * Measuring what was cut: gauge and angle blocks, sine bar, rollers, balls and disks, plug and ring,
 * spherometer, spheres and cones through points.
 * @module measure
 */
export { type AngleBlockOptions, type AngleBlockStack, angleBlockStack } from './angle-blocks.js';
export * from './balls-in-bore.js';
export * from './balls-in-socket.js';
export * from './compound-sine.js';
export * from './disks.js';
export * from './fit-cone.js';
export type { FitForm, FitUncertainty, ThroughPoints, ThroughPointsOptions, ZoneProof } from './fit-report.js';
export * from './fit-sphere.js';
export { type GaugeBlockSetName, gaugeBlockSet } from './gauge-block-sets.js';
export {
  type GaugeBlockOptions,
  type GaugeBlockStack,
  type GaugeBlockStackOptions,
  type GaugeBlockStackPairOptions,
  gaugeBlockStack,
  gaugeBlockStackPair,
} from './gauge-blocks.js';
export * from './gauge-fit.js';
export { type MeasurementBudgetOptions, measurementBudget } from './measurement-budget.js';
export { type PlugOverRollersOptions, plugOverRollers } from './plug-over-rollers.js';
export type { Point } from './points.js';
export {
  type CornerOverRollerOptions,
  cornerOverRoller,
  type OverRollers,
  type PlugEnd,
  type PlugFromRollers,
  type PlugFromRollersOptions,
  plugAngleFromRollersModel,
  plugDiameterFromRollersModel,
  plugFromRollers,
  type RollerInput,
} from './rollers.js';
export { type SineBarAngleOptions, sineBarAngle, sineBarModel } from './sine-bar.js';
export { type SineBarSettings, type SineBarSettingsOptions, sineBarSettings } from './sine-bar-settings.js';
export {
  type RadiusFromChordOptions,
  type RadiusFromSpherometerOptions,
  radiusFromChord,
  radiusFromChordModel,
  radiusFromSpherometer,
  type SagittaOnSpherometerOptions,
  type Spherometer,
  sagittaOnSpherometer,
  spherometerModel,
} from './spherometer.js';
export * from './two-diameters.js';
export type { MeasureNoteCode } from './words.js';
