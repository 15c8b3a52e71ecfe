/**
 * The kernel: the surface that is cut when a tool's path, a line or a circle, is revolved about the
 * work's axis; best fits to a meridian; points along it.
 *
 * @module revolve
 */
export {
  type CircleSurface,
  type CircleSweep,
  type FaceSurface,
  type RingSurface,
  revolveCircle,
  type SkewSurface,
  type SphereSurface,
  type SweptExtent,
  type TorusSurface,
} from './circle.js';
export {
  type LocalRadius,
  type SweepForm,
  type SweepFormQuery,
  type SweepSphere,
  type SweepTouch,
  sweepForm,
} from './circle-form.js';
export {
  circleMeridian,
  circlePoint,
  circleRhoAt,
  type MeridianPlace,
  type MeridianQuery,
  type SweepArc,
  type SweepPoint,
  type SweepPointQuery,
  type SweptPart,
} from './circle-meridian.js';
export { type NoseCut, type NoseCutQuery, noseCut } from './circle-nose.js';
export { type CircleInSpace, type PlacedSweep, sweepInSpace } from './circle-space.js';
export { type ConeDeparture, type ConeDepartureQuery, coneDeparture } from './cone-departure.js';
export { type ConeFit, leastSquaresCone, minimumZoneCone, type ZoneCone } from './fit-cone.js';
export type { AlternationPoint, FitInput, FormDeviation, MeridianPoint } from './fit-points.js';
export { leastSquaresSphere, minimumZoneSphere, type SphereFit, type ZoneSphere } from './fit-sphere.js';
export {
  type ConeSurface,
  type CylinderSurface,
  type FlatFaceSurface,
  type HyperboloidSurface,
  type Line,
  type LineSurface,
  revolveLine,
} from './line.js';
export {
  type LineMeridianPlace,
  type LineMeridianQuery,
  lineMeridian,
  lineMeridianPoints,
  lineRadiusAt,
} from './line-meridian.js';
export { type CircleSampling, type LineSampling, type Spacing, sampleCircle, sampleLine } from './sample.js';
