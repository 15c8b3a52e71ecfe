/**
 * generatrix: what to set on a lathe or a mill to cut a cone or a sphere, what surface the settings
 * really cut, and what to change after measuring.
 * @module generatrix
 */
export * from './budget/index.js';
export * from './core/index.js';
export * from './figure/index.js';
export * from './measure/index.js';
export * from './offset/index.js';
export * from './plan/index.js';
export * from './revolve/index.js';
export * from './sphere/index.js';
export * from './taper/index.js';
