/**
 * What every room stands on: the library's error, argument checks, notes and a machine's scales.
 * @module core
 */

export { type FormatAngleOptions, formatAngle, parseAngle } from './angle-text.js';
export type { AngleScale, AngleSetting, Dial, DialSetting } from './dial.js';
export { type Allowed, type ErrorCode, type ErrorData, GeneratrixError } from './errors.js';
export * from './length-text.js';
export type { Note } from './words.js';
