/** A tailstock that can be set over, as a job describes it. */
import { type Dial, dial } from '../../core/dial.js';
import { type Fields, number, object, optional, positive } from '../../core/read.js';

/** A lathe's tailstock. */
export interface Tailstock {
  /** Largest set-over. */
  readonly setover: number;
  /** Its dial, if it has one. */
  readonly dial?: Dial;
}

/** What a lathe may have for this method. */
export interface SetoverEquipment {
  /** Tailstock that can be set over. */
  readonly tailstock?: Tailstock;
  /** Largest tilt of the work on its plain centres, in degrees; 3 if left out. */
  readonly largestCentreTiltDeg?: number;
}

const TAILSTOCK: Fields<Tailstock> = { setover: positive, dial: optional(dial) };

/** Reads it. */
export const SETOVER_EQUIPMENT: Fields<SetoverEquipment> = {
  tailstock: optional(object(TAILSTOCK)),
  largestCentreTiltDeg: optional(number({ above: 0, below: 90 })),
};
