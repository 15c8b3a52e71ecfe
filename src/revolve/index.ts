/**
 * The kernel: the surface that is cut when a tool's path, a line or a circle, is revolved about the
 * work's axis; best fits to a meridian.
 * @module revolve
 */
export * from './circle.js';
export {
  type CircleMeridianOptions,
  type CircleMeridianPlace,
  type CirclePoint,
  type CirclePointOptions,
  circleMeridian,
  circlePoint,
} from './circle-meridian.js';
export { type ConeDeparture, type ConeDepartureOptions, coneDeparture } from './cone-departure.js';
export type { AlternationPoint, Deviations, FitInput, MeridianPoint } from './fit-points.js';
export { leastSquaresSphere, minimumZoneSphere, type SphereFit, type ZoneSphere } from './fit-sphere.js';
export * from './line.js';
export { type LineMeridianOptions, type LineMeridianPlace, lineMeridian } from './line-meridian.js';
export type { Sweep, SweepArc, SweptSide } from './sweep.js';
export { type SweepForm, type SweepFormOptions, type SweepTouch, sweepForm } from './sweep-form.js';
