/**
 * A ball in a centre hole: where its centre stands, which is the point that the work turns about.
 * Plane geometry of a circle in a wedge or on two corners; lengths in any one unit. Heights are
 * measured along the work's axis from its end face, positive outside the work.
 */
import { refuse } from '../../core/errors.js';
import { type Fields, number, optional, positive, read, representable } from '../../core/read.js';
import { cosDeg, sinDeg, tanDeg } from '../../core/trigonometry.js';
import type { Draft } from '../taper-cut.js';

/** What of a centre hole may be left out. */
export interface HoleDetails {
  /** Included angle of the hole's cone, degrees. @defaultValue 60 */
  readonly holeAngleDeg?: number;
  /** Diameter of the pilot hole beyond the cone. @defaultValue none: the cone ends in its point */
  readonly pilotDiameter?: number;
  /** Depth of the hole's bottom below the end face, taken as flat. @defaultValue unlimited */
  readonly depth?: number;
}

/** A ball and the centre hole that it sits in. */
export interface BallSeatOptions extends HoleDetails {
  /** Diameter of the ball. */
  readonly ballDiameter: number;
  /** Diameter of the hole's cone at the end face. */
  readonly mouthDiameter: number;
}

/** Readers of {@link HoleDetails}. */
export const HOLE: Fields<HoleDetails> = {
  holeAngleDeg: optional(number({ above: 0, below: 180 })),
  pilotDiameter: optional(positive),
  depth: optional(positive),
};

const OPTIONS: Fields<BallSeatOptions> = { ballDiameter: positive, mouthDiameter: positive, ...HOLE };

/** How the ball sits. */
export interface BallSeat {
  /** On the cone's flank, or on the edge where the cone meets the end face. */
  readonly seat: 'flank' | 'edge';
  /** How far the ball's centre stands outside the end face; negative inside the work. */
  readonly protrusion: number;
  /** Diameter of the circle on which the ball bears. */
  readonly contactDiameter: number;
  /** Depth of that circle below the end face; 0 on the edge. */
  readonly contactDepth: number;
  /** Space between the ball and the hole's bottom; if the depth is given. */
  readonly bottomClearance?: number;
}

/**
 * Where a ball sits in a centre hole, and how far its centre stands out of the work.
 *
 * On the flank (b cos θ ≤ m) the centre stands b/(2 sin θ) - m/(2 tan θ) outside the face, θ being half
 * the hole's angle; on the edge sqrt(b² - m²)/2.
 * @throws GeneratrixError `impossible-geometry` if the ball is so small that it sinks below the face or
 * into the pilot hole, or if it meets the bottom before the flank or the edge.
 * @example
 * ```ts
 * import { ballSeat } from 'generatrix';
 * const { seat, protrusion } = ballSeat({ ballDiameter: 10, mouthDiameter: 9 });
 * seat; // => 'flank'
 * protrusion.toFixed(4); // => '2.2058'
 * ballSeat({ ballDiameter: 10, mouthDiameter: 8 }); // => { seat: 'edge', protrusion: 3, contactDiameter: 8, contactDepth: 0 }
 * ballSeat({ ballDiameter: 3, mouthDiameter: 9 }); // throws impossible-geometry
 * ```
 */
export function ballSeat(options: BallSeatOptions): BallSeat {
  return seatOf(read(options, OPTIONS));
}

/** As {@link ballSeat}, of a ball and a hole that were read; `at` stands before the parameters of a refusal. */
export function seatOf(given: BallSeatOptions, at = ''): BallSeat {
  const { ballDiameter: ball, mouthDiameter: mouth, holeAngleDeg = 60, pilotDiameter: pilot, depth } = given;
  const half = holeAngleDeg / 2;
  const flankDiameter = ball * cosDeg(half);
  const onFlank = flankDiameter <= mouth;
  const tooSmall = (limit: string): never =>
    refuse('impossible-geometry', `${at}ballDiameter`, ball, `must be large enough ${limit}`);
  if (pilot !== undefined && pilot >= mouth) {
    const phrase = `must be less than the mouth, ${mouth}`;
    return refuse('out-of-range', `${at}pilotDiameter`, pilot, { kind: 'number', above: 0, below: mouth, phrase });
  }
  if (pilot !== undefined && flankDiameter < pilot) {
    return tooSmall('to bear on the cone and not on the edge of the pilot hole');
  }
  // b/(2 sin θ) - m/(2 tan θ), over one denominator.
  const protrusion = representable(
    onFlank ? (ball - mouth * cosDeg(half)) / (2 * sinDeg(half)) : Math.sqrt((ball - mouth) * (ball + mouth)) / 2,
    `${at}holeAngleDeg`,
  );
  if (protrusion + ball / 2 <= 0) return tooSmall('to stand out of the hole');
  const seat: Draft<BallSeat> = {
    seat: onFlank ? 'flank' : 'edge',
    protrusion,
    contactDiameter: onFlank ? flankDiameter : mouth,
    contactDepth: onFlank ? (mouth - flankDiameter) / (2 * tanDeg(half)) : 0,
  };
  if (depth !== undefined) {
    const lowest = ball / 2 - protrusion;
    if (depth <= lowest) {
      const phrase = `must exceed ${lowest}, or the ball meets the bottom`;
      return refuse('impossible-geometry', `${at}depth`, depth, { kind: 'number', above: lowest, phrase });
    }
    seat.bottomClearance = protrusion - ball / 2 + depth;
  }
  return seat;
}
