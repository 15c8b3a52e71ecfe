/** A mill's boring head, as a job describes it. */
import { type Dial, dial } from '../../core/dial.js';
import { type Fields, nonNegative, object, optional, positive } from '../../core/read.js';

/** A boring head. */
export interface BoringHead {
  /** Its dial; `from` and `to` are the least and the largest sweep. */
  readonly dial: Dial;
  /** Radius of its body. */
  readonly bodyRadius?: number;
  /** How far the tip reaches beyond the body, along the spindle. */
  readonly toolReach?: number;
  /** Radius of its tool's nose. @defaultValue 0, a sharp point; the plan says so. */
  readonly noseRadius?: number;
}

/** What a mill may have for this method. */
export interface BoringHeadEquipment {
  /** Boring head. */
  readonly boringHead?: BoringHead;
}

const HEAD: Fields<BoringHead> = {
  dial,
  bodyRadius: optional(positive),
  toolReach: optional(positive),
  noseRadius: optional(nonNegative),
};

/** Reads it. */
export const BORING_HEAD_EQUIPMENT: Fields<BoringHeadEquipment> = { boringHead: optional(object(HEAD)) };
