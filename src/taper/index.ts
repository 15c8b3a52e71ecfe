/**
 * What a taper is: every way of stating one.
 *
 * @module taper
 */
export { angleToleranceFromDiameter, coneAngleGrade, diameterToleranceFromAngle } from './cone-tolerance.js';
export { convertTaper, type TaperStatement } from './convert.js';
export {
  type NearestStandard,
  nearestStandardTaper,
  type StandardConfidence,
  type StandardTaper,
  standardTaper,
  standardTaperNames,
} from './standards.js';
export type { Taper } from './taper.js';
