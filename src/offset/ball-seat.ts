/**
 * A ball in a centre hole: where its centre stands, which is the point that the work turns about.
 * Plane geometry of a circle in a wedge or on two corners; lengths in any one unit. Heights are
 * measured along the work's axis from its end face, positive outside the work.
 */
import { number, options, positive, representable } from '../core/checks.js';
import { refuse } from '../core/errors.js';
import { cosDeg, sinDeg, tanDeg } from '../core/trigonometry.js';

/** A ball and the centre hole that it sits in. */
export interface BallSeatOptions {
  /** Diameter of the ball. */
  readonly ballDiameter: number;
  /** Diameter of the hole's cone at the end face. */
  readonly mouthDiameter: number;
  /** Included angle of the hole's cone, degrees; 60 if left out. */
  readonly holeAngleDeg?: number;
  /** Diameter of the pilot hole beyond the cone; none if left out. */
  readonly pilotDiameter?: number;
  /** Depth of the hole's bottom below the end face, taken as flat; unlimited if left out. */
  readonly depth?: number;
}

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

/** The keys of {@link BallSeatOptions} beyond the ball itself. */
export const HOLE = ['mouthDiameter', 'holeAngleDeg', 'pilotDiameter', 'depth'] as const;

/**
 * Where a ball sits in a centre hole, and how far its centre stands out of the work.
 *
 * On the flank (b cos θ ≤ m) the centre stands b/(2 sin θ) - m/(2 tan θ) outside the face, θ being half
 * the hole's angle; on the edge sqrt(b² - m²)/2.
 *
 * @throws GeneratrixError `impossible-geometry` if the ball is so small that it sinks below the face or
 * into the pilot hole, or if it meets the bottom before the flank or the edge.
 *
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
export function ballSeat(set: BallSeatOptions): BallSeat {
  const [required, ...optional] = HOLE;
  return readSeat(options(set, 'set', ['ballDiameter', required], optional), '');
}

/** As {@link ballSeat}, of an options object whose keys were checked. */
export function readSeat(given: Readonly<Record<string, unknown>>, prefix: string): BallSeat {
  const ball = positive(given['ballDiameter'], `${prefix}ballDiameter`);
  const mouth = positive(given['mouthDiameter'], `${prefix}mouthDiameter`);
  const half = number(given['holeAngleDeg'] ?? 60, `${prefix}holeAngleDeg`, { above: 0, below: 180 }) / 2;
  const flankDiameter = ball * cosDeg(half);
  const onFlank = flankDiameter <= mouth;
  const tooSmall = (limit: string): never =>
    refuse('impossible-geometry', `${prefix}ballDiameter`, ball, `must be large enough ${limit}`);
  if (given['pilotDiameter'] !== undefined) {
    const pilot = number(given['pilotDiameter'], `${prefix}pilotDiameter`, { above: 0, below: mouth });
    if (flankDiameter < pilot) return tooSmall('to bear on the cone and not on the edge of the pilot hole');
  }
  // b/(2 sin θ) - m/(2 tan θ), over one denominator.
  const protrusion = representable(
    onFlank ? (ball - mouth * cosDeg(half)) / (2 * sinDeg(half)) : Math.sqrt((ball - mouth) * (ball + mouth)) / 2,
    `${prefix}holeAngleDeg`,
  );
  if (protrusion + ball / 2 <= 0) return tooSmall('to stand out of the hole');
  return {
    seat: onFlank ? 'flank' : 'edge',
    protrusion,
    contactDiameter: onFlank ? flankDiameter : mouth,
    contactDepth: onFlank ? (mouth - flankDiameter) / (2 * tanDeg(half)) : 0,
    ...bottom(given['depth'], protrusion - ball / 2, prefix),
  };
}

/** Space below the ball's lowest point, if a depth is stated. */
function bottom(stated: unknown, lowest: number, prefix: string): { readonly bottomClearance?: number } {
  if (stated === undefined) return {};
  const depth = positive(stated, `${prefix}depth`);
  const bottomClearance = lowest + depth;
  if (bottomClearance > 0) return { bottomClearance };
  return refuse('impossible-geometry', `${prefix}depth`, depth, `must exceed ${-lowest}, or the ball meets the bottom`);
}
