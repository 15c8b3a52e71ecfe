/** The guide bar (taper attachment) of a lathe, as a job describes it. */
import { type Fields, number, object, optional, positive } from '../../core/read.js';
import { type GuideBarScale, guideBarScale } from './scale.js';

/** A lathe's guide bar. */
export interface GuideBar {
  /** Longest cut that it guides. */
  readonly travel: number;
  /** Its scale. */
  readonly scale: GuideBarScale;
  /** How far it swings, in degrees of the half angle. */
  readonly largestHalfAngleDeg: number;
}

/** What a lathe may have for this method. */
export interface GuideBarEquipment {
  /** Guide bar (taper attachment). */
  readonly guideBar?: GuideBar;
}

const BAR: Fields<GuideBar> = {
  travel: positive,
  scale: guideBarScale,
  largestHalfAngleDeg: number({ above: 0, below: 90 }),
};

/** Reads it. */
export const GUIDE_BAR_EQUIPMENT: Fields<GuideBarEquipment> = { guideBar: optional(object(BAR)) };
