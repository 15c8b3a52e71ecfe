/**
 * What every room stands on: the library's error, argument checks and notes.
 *
 * @module core
 */
export { type ErrorCode, GeneratrixError } from './errors.js';
export type { Note } from './notes.js';
