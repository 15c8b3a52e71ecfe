/**
 * What a taper is: every way of stating one.
 * @module taper
 */
export {
  type AngleToleranceOptions,
  angleToleranceFromDiameter,
  type ConeAngleGrade,
  type ConeAngleTolerance,
  type ConeAngleToleranceOptions,
  coneAngleTolerance,
  type DiameterToleranceOptions,
  diameterToleranceFromAngle,
} from './cone-tolerance.js';
export { convertTaper, type TaperStatement } from './convert.js';
export { convertTaperExact, type ExactOptions, type ExactTaper, type InDecimals } from './exact.js';
export {
  type DiameterAtOptions,
  type DistanceToOptions,
  type Frustum,
  type FrustumOptions,
  type FrustumPosition,
  frustum,
  frustumDiameterAt,
  frustumDistanceTo,
} from './frustum.js';
export { halfAngleDegOfRate, rateOfHalfAngleDeg } from './plain.js';
export type { StandardSeriesName, StandardStatement, StandardTaperName } from './standard-values.js';
export {
  type NearestStandard,
  type NearestStandardOptions,
  nearestStandardTaper,
  type StandardConfidence,
  type StandardTaper,
  standardTaper,
  standardTaperNames,
} from './standards.js';
export type { Taper } from './taper.js';
