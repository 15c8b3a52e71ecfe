/**
 * Cutting a taper: what to set, what the settings really cut, what to change after a trial cut.
 * @module offset
 */
export * from './between-balls/index.js';
export * from './form-tool/index.js';
export * from './guide-bar/index.js';
export * from './set-over/index.js';
export * from './shared.js';
export * from './tool-height/index.js';
export * from './top-slide/index.js';
