/**
 * Every method of cutting, a line each. The names of methods, the settings of each in a plan, what a job's machines
 * may hold and what a plan tries follow from this list.
 */
export { ballCentres } from '../offset/between-balls/method.js';
export { formTool } from '../offset/form-tool/method.js';
export { guideBar } from '../offset/guide-bar/method.js';
export { setOver } from '../offset/set-over/method.js';
export { topSlide } from '../offset/top-slide/method.js';
export { ballCutter } from '../sphere/ball-cutter/method.js';
export { steps } from '../sphere/steps/method.js';
export { swivelTool } from '../sphere/swivel-tool/method.js';
export { tiltedSweep } from '../sphere/tilted-sweep/method.js';
