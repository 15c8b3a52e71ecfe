/** What the methods of this room share and hand out: the part wanted, a seated ball, notes. */
export type { Sweep } from '../revolve/sweep.js';
export { type BallInSocket, type BallInSocketOptions, ballInSocket, type SocketPoint } from './seating.js';
export {
  type BallBetweenStems,
  type BallEnd,
  type BallOnStem,
  type Cap,
  type Socket,
  type SphereShape,
  type SphereSize,
  type SphereTarget,
  sphereShape,
} from './target.js';
export {
  type LinePathOptions,
  type PathOptions,
  type SpherePathOptions,
  type ToolPathOptions,
  toolPathPoints,
} from './tool-path.js';
export type { SphereNote, SphereNoteCode } from './words.js';
