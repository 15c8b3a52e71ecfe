/**
 * What a taper is: every way of stating one.
 *
 * @module taper
 */
export { convertTaper, type TaperStatement } from './convert.js';
export type { Taper } from './taper.js';
