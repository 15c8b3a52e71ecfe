/** Cross slide and carriage for turning a sphere by steps, as a job describes them. */
import { type Fields, object, optional, positive } from '../../core/read.js';

/** Slides for work by steps. */
export interface Slides {
  /** One graduation of their dials. */
  readonly step: number;
  /** Nose radius of the tool used for it. */
  readonly noseRadius: number;
}

/** What a lathe may have for this method. */
export interface SlidesEquipment {
  /** Cross slide and carriage, for turning a sphere by steps. */
  readonly slides?: Slides;
}

const SLIDES: Fields<Slides> = { step: positive, noseRadius: positive };

/** Reads it. */
export const SLIDES_EQUIPMENT: Fields<SlidesEquipment> = { slides: optional(object(SLIDES)) };
