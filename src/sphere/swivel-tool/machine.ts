/** A tool that swivels about an upright axis, as a job describes it. */
import { refuse } from '../../core/errors.js';
import { type Fields, object, optional, positive, vouched } from '../../core/read.js';

/** A swivelling tool. */
export interface SwivelTool {
  /** Smallest radius that it reaches. */
  readonly smallestRadius: number;
  /** Largest radius that it reaches. */
  readonly largestRadius: number;
}

/** What a lathe may have for this method. */
export interface SwivelToolEquipment {
  /** A tool that swivels about an upright axis. */
  readonly swivelTool?: SwivelTool;
}

const TOOL: Fields<SwivelTool> = { smallestRadius: positive, largestRadius: positive };

/** Reads it. */
export const SWIVEL_TOOL_EQUIPMENT: Fields<SwivelToolEquipment> = {
  swivelTool: optional(
    vouched(object(TOOL), ({ smallestRadius: min, largestRadius }) => {
      if (largestRadius >= min) return;
      refuse('out-of-range', 'largestRadius', largestRadius, {
        kind: 'number',
        min,
        phrase: `must be at least ${min}`,
      });
    }),
  ),
};
