/** What is public of the form tool. */
export { type FormToolCorrection, type FormToolCorrectionOptions, formToolCorrection } from './correction.js';
export { type FormToolOptions, type FormToolSettings, formToolSettings } from './settings.js';
export {
  type FormToolError,
  type FormToolSet,
  type FormToolSurfaceOptions,
  formToolModel,
  formToolSurface,
} from './surface.js';
