/** A sphere by a tool that swivels about an upright axis beside a lathe's work. */
export * from './correction.js';
export * from './settings.js';
export * from './surface.js';
