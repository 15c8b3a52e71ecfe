/** A sphere by steps of plain turning and facing, or boring. */
export * from './settings.js';
