/** What is public of the guide bar. */
export { type GuideBarCorrection, type GuideBarCorrectionOptions, guideBarCorrection } from './correction.js';
export type { GuideBarScale } from './scale.js';
export { type GuideBarOptions, type GuideBarSetting, type GuideBarSettings, guideBarSettings } from './settings.js';
export * from './surface.js';
