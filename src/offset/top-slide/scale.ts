/** The swivel scale of a top slide: what a reading of it stands for, and what a setting of it cuts. */
import { type AngleScale, type AngleSetting, fromScale } from '../../core/dial.js';
import { tanDeg } from '../../core/trigonometry.js';
import { acute } from '../swivel.js';
import { type TaperCut, taperCut } from '../taper-cut.js';

/** The scale of a slide of which nothing is stated: any angle from the axis can be set. */
export const PLAIN_SCALE: AngleScale = { reads: 'from-axis' };

/** The angle from the axis that a reading shows. */
export function shownAngle(readingDeg: number, scale: AngleScale): number {
  return acute(fromScale(readingDeg, scale), 'readingDeg');
}

/** What a setting cuts; the taper itself where nothing is rounded. */
export function cutAt(setting: AngleSetting, zeroErrorDeg: number, wantedTan: number): TaperCut {
  const exact = setting.roundingErrorDeg === 0;
  return taperCut(exact ? wantedTan : tanDeg(acute(setting.settableAngleDeg + zeroErrorDeg, 'scale')), wantedTan);
}
