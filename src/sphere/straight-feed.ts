/**
 * A face milled by straight feed with a spindle that is not quite square to it: the circle of the
 * tips, of radius r and tilted by δ towards the feed, leaves a hollow. Across the feed the face is
 * the ellipse z = -sqrt(r² - x²) sin δ, so over a width W it is hollow by
 *
 *   (r - sqrt(r² - W²/4)) sin δ = (W²/4) / (r + sqrt(r² - W²/4)) sin δ,
 *
 * and bends, in the middle, as a circle of radius r / sin δ. Only the leading half of the sweep cuts.
 */

import type { Model } from '../budget/model.js';
import { number, options, positive, representable } from '../core/checks.js';
import { asinDeg, sinDeg } from '../core/trigonometry.js';

/** A straight feed with a tilted spindle. */
export interface StraightFeed {
  /** Angle between the spindle and the square to the face, in the direction of the feed. */
  readonly tiltDeg: number;
  /** Radius of the circle of the tips. */
  readonly sweepRadius: number;
  /** Width of the face, across the feed and centred on the spindle. */
  readonly width: number;
}

/** The face that a straight feed leaves. */
export interface StraightFeedFace {
  /** How much lower the middle of the face is than its edges. */
  readonly hollow: number;
  /** Radius of the hollow in its middle; null for a face that is flat. */
  readonly middleRadius: number | null;
}

/** What {@link straightFeedSettings} gives. */
export interface StraightFeedTilt {
  /** Tilt of the sweep in degrees. */
  readonly tiltDeg: number;
}

/** What {@link straightFeedSettings} needs. */
export interface StraightFeedLimit {
  /** Radius of the circle of the tips. */
  readonly sweepRadius: number;
  /** Width of the face, across the feed and centred on the spindle. */
  readonly width: number;
  /** Hollow that must not be exceeded, or the hollow that was measured. */
  readonly hollow: number;
}

/**
 * The hollow that a straight feed with a tilted sweep leaves.
 *
 * @param feed - Tilt, sweep radius and width of the face.
 * @returns The hollow and its radius in the middle.
 * @throws GeneratrixError `out-of-range` for a face wider than the sweep, or a tilt outside 0 to 90 degrees.
 * @example
 * ```ts
 * import { straightFeedSurface } from 'generatrix/sphere';
 * straightFeedSurface({ tiltDeg: 30, sweepRadius: 50, width: 60 }).hollow.toFixed(12); // => '5.000000000000'
 * straightFeedSurface({ tiltDeg: 0, sweepRadius: 50, width: 60 }); // => { hollow: 0, middleRadius: null }
 * ```
 */
export function straightFeedSurface(feed: StraightFeed): StraightFeedFace {
  const given = options(feed, 'feed', ['tiltDeg', 'sweepRadius', 'width']);
  const sine = sinDeg(number(given['tiltDeg'], 'feed.tiltDeg', { min: 0, max: 90 }));
  const { radius, rise } = readFace(given, 'feed');
  return {
    hollow: rise * sine,
    middleRadius: sine === 0 ? null : representable(radius / sine, 'feed.tiltDeg'),
  };
}

/**
 * The largest tilt that keeps the hollow within a limit; with a measured hollow, the tilt that caused it.
 *
 * @param limit - Sweep radius, width of the face, and the hollow.
 * @returns The tilt in degrees; 90 where no tilt can exceed the limit.
 * @throws GeneratrixError `out-of-range` for a face wider than the sweep.
 * @example
 * ```ts
 * import { straightFeedSettings } from 'generatrix/sphere';
 * straightFeedSettings({ sweepRadius: 50, width: 60, hollow: 0.01 }).tiltDeg.toFixed(4); // => '0.0573'
 * ```
 */
export function straightFeedSettings(limit: StraightFeedLimit): StraightFeedTilt {
  const given = options(limit, 'limit', ['sweepRadius', 'width', 'hollow']);
  const { rise } = readFace(given, 'limit');
  const hollow = number(given['hollow'], 'limit.hollow', { min: 0 });
  return { tiltDeg: hollow >= rise ? 90 : asinDeg(hollow / rise) };
}

/** The hollow as a model for an error budget. */
export const straightFeedModel: Model<keyof StraightFeed> = {
  name: 'straight-feed',
  result: { kind: 'length', meaning: 'hollow of the face' },
  inputs: {
    tiltDeg: { kind: 'angleDeg', meaning: 'tilt of the spindle towards the feed' },
    sweepRadius: { kind: 'length', meaning: 'radius of the circle of the tips' },
    width: { kind: 'length', meaning: 'width of the face across the feed' },
  },
  evaluate: (arithmetic, { tiltDeg, sweepRadius, width }) => {
    const { constant, add, subtract, multiply, divide, square, sqrt, sinDeg } = arithmetic;
    const half = square(divide(width, constant(2)));
    const rise = divide(half, add(sweepRadius, sqrt(subtract(square(sweepRadius), half))));
    return multiply(rise, sinDeg(tiltDeg));
  },
};

/** The sweep's radius, and the rise of its arc over the width of the face. */
function readFace(given: Readonly<Record<string, unknown>>, parameter: string): { radius: number; rise: number } {
  const radius = positive(given['sweepRadius'], `${parameter}.sweepRadius`);
  const width = number(given['width'], `${parameter}.width`, { above: 0, max: 2 * radius });
  const half = width / 2;
  return { radius, rise: half * (half / (radius + Math.sqrt(radius - half) * Math.sqrt(radius + half))) };
}
