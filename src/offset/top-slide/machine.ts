/** The top slide of a lathe, as a job describes it. */
import { type AngleScale, angleScale } from '../../core/dial.js';
import { type Fields, object, optional, positive } from '../../core/read.js';

/** A lathe's top slide. */
export interface TopSlide {
  /** Travel along itself. */
  readonly travel: number;
  /** Swivel scale. */
  readonly scale?: AngleScale;
  /** Foremost point of the slide, seen from the tip; the same is taken at its other end. */
  readonly nose?: SlideNose;
}

/** Foremost point of a top slide, seen from the tip. */
export interface SlideNose {
  /** Ahead of the tip, along the slide. */
  readonly ahead: number;
  /** Back from the tip, square to the slide. */
  readonly back: number;
}

/** What a lathe may have for this method. */
export interface TopSlideEquipment {
  /** Top slide. */
  readonly topSlide?: TopSlide;
}

/** Reads its nose. */
export const NOSE: Fields<SlideNose> = { ahead: positive, back: positive };
const SLIDE: Fields<TopSlide> = { travel: positive, scale: optional(angleScale), nose: optional(object(NOSE)) };

/** Reads it. */
export const TOP_SLIDE_EQUIPMENT: Fields<TopSlideEquipment> = { topSlide: optional(object(SLIDE)) };
