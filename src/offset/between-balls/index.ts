/** What is public of work between balls. */
export { type BallSeat, type BallSeatOptions, ballSeat, type HoleDetails } from './ball-seat.js';
export { type BallCentresCorrectionOptions, ballCentresCorrection } from './correction.js';
export {
  type BallCentreDistance,
  type BallCentreEnd,
  type BallCentreEnds,
  type BetweenBalls,
  ballCentreDistance,
} from './distance.js';
export * from './settings.js';
export { type BallCentresSurfaceOptions, ballCentresModel, ballCentresSurface } from './surface.js';
export {
  type BallHolder,
  type TiltContact,
  type TiltLimit,
  type TiltLimitOptions,
  tiltLimit,
  type WorkEnd,
} from './tilt-limit.js';
