/**
 * Height of the ridge that two passes of a round nose leave on a sphere. The nose centres lie on the
 * radius C = R + n (ball) or R - n (socket), n the nose's radius, R the sphere's; two passes lie the
 * angle 2δ apart, seen from the sphere's centre. Their noses meet at the distance q from it:
 *
 *   ball:   q = C cos δ - sqrt(n² - C² sin² δ),  height q - R
 *   socket: q = C cos δ + sqrt(n² - C² sin² δ),  height R - q
 *
 * Both are rearranged into sums of positive terms, so that no digits cancel. For small steps s = 2 R δ
 * the height is s²/(8 n) (1 + n/R) on a ball and s²/(8 n) (1 - n/R) in a socket; a flat gives s²/(8 n).
 */
import { refuse } from '../core/errors.js';
import { say, tell } from '../core/words.js';

/** Which side the material lies on, with the sphere's and the nose's radius. */
export interface NoseOnSphere {
  readonly side: 'ball' | 'socket';
  readonly radius: number;
  readonly noseRadius: number;
}

/** A nose this many times as large as the sphere is straight: more only costs digits. */
const LARGEST_NOSE = 1e6;

/** A nose on a sphere; refuses one that does not fit into a socket, and one above a million radii. */
export function noseOnSphere(side: 'ball' | 'socket', radius: number, noseRadius: number, key: string): NoseOnSphere {
  if (side === 'socket' && noseRadius >= radius) {
    const phrase = say`must be less than the socket's radius, ${tell(radius)}`;
    return refuse('out-of-range', key, noseRadius, { kind: 'number', min: 0, below: radius, phrase });
  }
  if (noseRadius > LARGEST_NOSE * radius) {
    const max = LARGEST_NOSE * radius;
    const phrase = say`must be at most ${tell(max)}, a million times the sphere's radius`;
    return refuse('out-of-range', key, noseRadius, { kind: 'number', min: 0, max, phrase });
  }
  return { side, radius, noseRadius };
}

/** Radius on which the nose centres lie. */
export function centreRadius({ side, radius, noseRadius }: NoseOnSphere): number {
  return side === 'ball' ? radius + noseRadius : radius - noseRadius;
}

/** Sine of the largest δ at which the two noses still meet: beyond it an untouched strip is left. */
export function largestSine(nose: NoseOnSphere): number {
  return Math.min(1, nose.noseRadius / centreRadius(nose));
}

/** Height of the ridge for sin δ, which must not exceed {@link largestSine}. */
export function ridgeHeight(nose: NoseOnSphere, sine: number): number {
  const { side, radius: R, noseRadius: n } = nose;
  if (sine === 0) return 0;
  const C = centreRadius(nose);
  const across = C * sine;
  const root = Math.sqrt(Math.max(0, (n - across) * (n + across)));
  const cosine = Math.sqrt((1 - sine) * (1 + sine));
  if (side === 'socket') return across * (across / (n + root)) + across * (sine / (1 + cosine));
  const bend = 1 + cosine + sine * sine * ((R + 2 * n) / (n * cosine + root));
  return ((R * sine * across) / (n + root)) * (bend / (1 + cosine));
}

/**
 * Sine of the δ that leaves a ridge of a height; the largest possible one for heights beyond. From
 * n² = q² + C² - 2 q C cos δ: sin²(δ/2) = H (2n - H) / (4 q C).
 */
export function ridgeSine(nose: NoseOnSphere, height: number): number {
  const { side, radius: R, noseRadius: n } = nose;
  const most = largestSine(nose);
  if (height >= ridgeHeight(nose, most)) return most;
  const q = side === 'ball' ? R + height : R - height;
  const halfSine = Math.sqrt((height / (4 * q)) * ((2 * n - height) / centreRadius(nose)));
  return Math.min(most, 2 * halfSine * Math.sqrt((1 - halfSine) * (1 + halfSine)));
}
