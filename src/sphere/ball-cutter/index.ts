/** A sphere by a ball-ended cutter that runs round the work axis in steps. */
export * from './settings.js';
