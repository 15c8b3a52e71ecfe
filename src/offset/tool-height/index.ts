/** What is public of a tool off centre height. */
export { type ToolHeightOptions, type ToolHeightPath, toolHeightModel, toolHeightSurface } from './surface.js';
export { type ToolHeightAllowance, type ToolHeightToleranceOptions, toolHeightTolerance } from './tolerance.js';
