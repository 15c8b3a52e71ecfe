/**
 * Cutting a sphere with a tilted sweep: what to set, what a mis-set sweep really cuts, and the way
 * back from what was measured to what to change.
 * @module sphere
 */
export * from './ball-cutter/index.js';
export * from './shared.js';
export * from './steps/index.js';
export * from './straight-feed/index.js';
export * from './swivel-tool/index.js';
export * from './tilted-sweep/index.js';
