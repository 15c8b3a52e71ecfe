/** What is public of the top slide. */
export { type TopSlideCorrection, type TopSlideCorrectionOptions, topSlideCorrection } from './correction.js';
export { type TopSlideMaster, type TopSlideMasterOptions, topSlideFromMaster } from './master.js';
export { type TopSlideOptions, type TopSlideSettings, topSlideSettings } from './settings.js';
export { type TopSlideSet, type TopSlideSurfaceOptions, topSlideModel, topSlideSurface } from './surface.js';
