/** Ball-ended cutters of a mill, as a job describes them. */
import { array, type Fields, optional, positive } from '../../core/read.js';

/** What a mill may have for this method. */
export interface BallCutterEquipment {
  /** Ball-ended cutters at hand, by diameter. */
  readonly ballCutters?: readonly number[];
}

/** Reads it. */
export const BALL_CUTTER_EQUIPMENT: Fields<BallCutterEquipment> = { ballCutters: optional(array(positive)) };
