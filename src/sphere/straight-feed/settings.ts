/** The tilt of a straight feed for a hollow: the largest allowed, or the one that caused what was measured. */
import { type Fields, nonNegative, positive, read } from '../../core/read.js';
import { asinDeg } from '../../core/trigonometry.js';
import { riseOver } from './surface.js';

/** What {@link straightFeedSettings} needs. */
export interface StraightFeedSettingsOptions {
  /** Radius of the circle of the tips. */
  readonly sweepRadius: number;
  /** Width of the face, across the feed and centred on the spindle. */
  readonly width: number;
  /** Hollow that must not be exceeded, or the hollow that was measured. */
  readonly hollow: number;
}

/** What {@link straightFeedSettings} gives. */
export interface StraightFeedSettings {
  /** Tilt of the sweep in degrees. */
  readonly tiltDeg: number;
}

const OPTIONS: Fields<StraightFeedSettingsOptions> = { sweepRadius: positive, width: positive, hollow: nonNegative };

/**
 * The largest tilt that keeps the hollow within a limit; with a measured hollow, the tilt that caused it.
 * @param options - Sweep radius, width of the face, and the hollow.
 * @returns The tilt in degrees; 90 where no tilt can exceed the limit.
 * @throws GeneratrixError `out-of-range` for a face wider than the sweep.
 * @example
 * ```ts
 * import { straightFeedSettings } from 'generatrix/sphere';
 * straightFeedSettings({ sweepRadius: 50, width: 60, hollow: 0.01 }).tiltDeg.toFixed(4); // => '0.0573'
 * ```
 */
export function straightFeedSettings(options: StraightFeedSettingsOptions): StraightFeedSettings {
  const { sweepRadius, width, hollow } = read(options, OPTIONS);
  const rise = riseOver(sweepRadius, width);
  return { tiltDeg: hollow >= rise ? 90 : asinDeg(hollow / rise) };
}
