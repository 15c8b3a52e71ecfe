/**
 * A socket being sunk: opening and depth give its radius, that the tilt, that the change of tilt. Lengths in one unit.
 */
import { type Allowed, refuse } from '../../core/errors.js';
import { defaulted, type Fields, nonNegative, positive, read, representable, sound } from '../../core/read.js';
import { asinDeg, toDegrees } from '../../core/trigonometry.js';
import { say, tell } from '../../core/words.js';

/** What {@link socketTiltCorrection} needs. */
export interface SocketTiltCorrectionOptions {
  /** Radius that the socket should have. */
  readonly radius: number;
  /** Radius of the sweep, of the tip or the nose's centre. */
  readonly sweepRadius: number;
  /** Radius of the tool's nose. @defaultValue 0 */
  readonly noseRadius?: number;
  /** Diameter of the opening so far. */
  readonly openingDiameter: number;
  /** Depth so far. */
  readonly depth: number;
  /** Standard uncertainty of the opening. @defaultValue 0 */
  readonly openingUncertainty?: number;
  /** Standard uncertainty of the depth. @defaultValue 0 */
  readonly depthUncertainty?: number;
}

/** The change of tilt for a socket being sunk. */
export interface SocketTiltCorrection {
  /** Radius that opening and depth show. */
  readonly radius: number;
  /** Its standard uncertainty. */
  readonly radiusUncertainty: number;
  /** Tilt that cuts this radius. */
  readonly trueTiltDeg: number;
  /** Tilt that cuts the wanted radius. */
  readonly wantedTiltDeg: number;
  /** Change of the tilt: wanted less true. */
  readonly tiltChangeDeg: number;
  /** Standard uncertainty of that change, from opening and depth. */
  readonly tiltChangeUncertaintyDeg: number;
}

const OPTIONS: Fields<SocketTiltCorrectionOptions, 'noseRadius' | 'openingUncertainty' | 'depthUncertainty'> = {
  radius: positive,
  sweepRadius: positive,
  noseRadius: defaulted(nonNegative, 0),
  openingDiameter: positive,
  depth: positive,
  openingUncertainty: defaulted(nonNegative, 0),
  depthUncertainty: defaulted(nonNegative, 0),
};

/**
 * The change of tilt for a socket being sunk with its bottom met: from opening D and depth t its radius is
 * R = (D²/4 + t²) / (2 t), and the tilt that cuts it asin(r / (R - nose radius)).
 * @throws GeneratrixError `contradiction` if the sweep is too wide for the socket measured, `impossible-geometry`
 * if it is too wide for the socket wanted.
 * @example
 * ```ts
 * import { socketTiltCorrection } from 'generatrix/sphere';
 * const change = socketTiltCorrection({ radius: 26, sweepRadius: 13, openingDiameter: 30, depth: 5 });
 * change.radius; // => 25
 * change.wantedTiltDeg.toFixed(3); // => '30.000'
 * change.tiltChangeDeg.toFixed(3); // => '-1.332'
 * ```
 */
export function socketTiltCorrection(options: SocketTiltCorrectionOptions): SocketTiltCorrection {
  const given = read(options, OPTIONS);
  const { sweepRadius: r, noseRadius: nose, openingDiameter, depth, openingUncertainty, depthUncertainty } = given;
  const chord = openingDiameter / 2;
  const radius = representable((chord * (chord / depth) + depth) / 2, 'openingDiameter');
  const path = { now: radius - nose, wanted: given.radius - nose };
  const atMost = (max: number, what: string): Allowed => ({
    kind: 'number',
    above: 0,
    max,
    phrase: say`must be at most ${tell(max)}, to cut ${what}`,
  });
  if (path.now < r) return refuse('contradiction', 'sweepRadius', r, atMost(path.now, 'what was measured'));
  if (path.wanted < r) return refuse('impossible-geometry', 'sweepRadius', r, atMost(path.wanted, 'the wanted radius'));
  const slope = chord / depth;
  const byOpening = (slope / 2) * openingUncertainty;
  const byDepth = ((1 - slope * slope) / 2) * depthUncertainty;
  const radiusUncertainty = Math.hypot(byOpening, byDepth);
  const trueTiltDeg = asinDeg(r / path.now);
  const wantedTiltDeg = asinDeg(r / path.wanted);
  // d(asin(r/P)) = tan(asin(r/P)) dP / P, and tan is r over the other leg.
  const perLength = r / path.now / Math.sqrt((path.now - r) * (path.now + r));
  return sound(
    {
      radius,
      radiusUncertainty,
      trueTiltDeg,
      wantedTiltDeg,
      tiltChangeDeg: wantedTiltDeg - trueTiltDeg,
      tiltChangeUncertaintyDeg: radiusUncertainty === 0 ? 0 : toDegrees(perLength * radiusUncertainty),
    },
    'openingDiameter',
  );
}
