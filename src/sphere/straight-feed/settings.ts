/** The tilt of a straight feed for a hollow: the largest allowed, or the one that caused what was measured. */
import { type Fields, nonNegative, positive, read } from '../../core/read.js';
import { asinDeg } from '../../core/trigonometry.js';
import { riseOver, type StraightFeedSurfaceOptions } from './surface.js';

/** What {@link straightFeedSettings} needs. */
export interface StraightFeedSettingsOptions extends Omit<StraightFeedSurfaceOptions, 'tiltDeg'> {
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
