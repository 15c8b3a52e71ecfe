/**
 * What every room stands on: the library's error, argument checks, notes and a machine's scales.
 *
 * @module core
 */
export type { AngleScale, AngleSetting, Dial, DialSetting } from './dial.js';
export { type ErrorCode, GeneratrixError } from './errors.js';
export type { Note } from './notes.js';
