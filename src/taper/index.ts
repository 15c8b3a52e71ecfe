/**
 * What a taper is: every way of stating one.
 * @module taper
 */
export * from './cone-tolerance.js';
export { convertTaper, type TaperStatement } from './convert.js';
export { convertTaperExact, type ExactOptions, type ExactTaper, type InDecimals } from './exact.js';
export * from './frustum.js';
export { halfAngleDegOfRate, rateOfHalfAngleDeg } from './plain.js';
export type { StandardSeriesName, StandardStatement, StandardTaperName } from './standard-values.js';
export * from './standards.js';
export type { Taper } from './taper.js';
