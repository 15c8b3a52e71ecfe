/** A face milled by straight feed with a spindle that is not quite square to it: a hollow, no sphere. */
export * from './settings.js';
export {
  type StraightFeedSurface,
  type StraightFeedSurfaceOptions,
  straightFeedModel,
  straightFeedSurface,
} from './surface.js';
