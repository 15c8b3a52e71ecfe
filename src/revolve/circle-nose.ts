/**
 * The part that is left when a round nose has run all along its sweep: not only the parallel surface, but
 * all that the nose has reached, the flanks of a pip and the fillet where the cut ends included. Frame and
 * symbols as in circle.ts.
 *
 * A place of the half-plane of z and ρ is cut away if it lies within a nose radius of the meridian of the
 * nose's centre (the work turns, so only distance within the half-plane counts). So at height z a ball keeps
 * what lies below the least of ρ(t) - sqrt(s² - (z - z(t))²), s being the nose radius, and a socket what lies
 * above the greatest of ρ(t) + sqrt(s² - (z - z(t))²).
 */
import { choice, number, options, positive } from '../core/checks.js';
import { refuse } from '../core/errors.js';
import { cosDeg, sinDeg, toDegrees, toRadians } from '../core/trigonometry.js';
import { type CircleSweep, readSweep } from './circle.js';
import { readArc, type SweepArc, type SweptPart } from './circle-meridian.js';
import { dips, length2 } from './solve.js';

/** A place along the work's axis, and the nose that has cut there. */
export interface NoseCutQuery {
  /** The circle on which the centre of the nose runs. */
  readonly sweep: CircleSweep;
  /** Radius of the nose, above 0. */
  readonly noseRadius: number;
  /** Place along the work's axis from the foot, within the nose's reach. */
  readonly z: number;
  /** Which side of the path the finished part is on. */
  readonly part: SweptPart;
  /** The part of the sweep on which the tool cuts; all of it if left out. */
  readonly arc?: SweepArc;
}

/** What is left at one place along the work's axis. */
export interface NoseCut {
  /** Radius of a ball, or of the hole of a socket; 0 where a ball is cut off altogether. */
  readonly rho: number;
  /** The sweep's angle at which the nose touches there, 0 to 360 degrees. */
  readonly turnDeg: number;
}

/**
 * Radius left at a place along the work's axis by a nose that has run all along its sweep.
 *
 * @param query - Sweep of the nose's centre, nose radius, place, part, and the arc on which the tool cuts.
 * @returns The radius and where on its sweep the nose makes it.
 * @throws GeneratrixError `out-of-range` if the nose does not reach z, `impossible-geometry` if the axes are
 * parallel or the arc does not reach z.
 * @example
 * ```ts
 * import { noseCut } from 'generatrix';
 * const sweep = { tiltDeg: 90, radius: 6, distance: 8 };
 * noseCut({ sweep, noseRadius: 2, z: 0, part: 'ball' }).rho; // => 8
 * noseCut({ sweep, noseRadius: 2, z: 0, part: 'socket' }).rho; // => 12
 * noseCut({ sweep, noseRadius: 2, z: 8, part: 'ball' }).rho; // => 8
 * noseCut({ sweep, noseRadius: 2, z: 9, part: 'ball' }); // throws out-of-range
 * ```
 */
export function noseCut(query: NoseCutQuery): NoseCut {
  const given = options(query, 'query', ['sweep', 'noseRadius', 'z', 'part'], ['arc']);
  const sweep = readSweep(query.sweep, 'query.sweep');
  const nose = positive(given['noseRadius'], 'query.noseRadius');
  const side = choice(given['part'], 'query.part', ['ball', 'socket']) === 'ball' ? 1 : -1;
  const arc = query.arc ? readArc(query.arc) : { fromDeg: 0, toDeg: 360 };
  const { radius: r, distance: h, skew: e } = sweep;
  const sin = sinDeg(sweep.tiltDeg);
  const cos = cosDeg(sweep.tiltDeg);
  if (sin === 0) return refuse('impossible-geometry', 'query.sweep.tiltDeg', sweep.tiltDeg, 'must not be parallel');
  const middle = h * cos;
  const reach = r * sin + nose;
  const z = number(given['z'], 'query.z', { min: middle - reach, max: middle + reach });

  // The stretches of t where the nose's centre is no more than its radius above or below z.
  const first = Math.acos(Math.min(1, (middle - z + nose) / (r * sin)));
  const last = Math.acos(Math.max(-1, (middle - z - nose) / (r * sin)));
  const [from, to] = [toRadians(arc.fromDeg), toRadians(arc.toDeg)];
  const stretches = [-2, -1, 0, 1, 2]
    .map((turns) => 2 * Math.PI * turns)
    .flatMap((turn) => [
      [turn + first, turn + last],
      [turn - last, turn - first],
    ])
    .map(([low = 0, high = 0]) => [Math.max(low, from), Math.min(high, to)] as const)
    .filter(([low, high]) => low <= high);
  // For a ball what is left, for a socket its opposite: either way the least counts.
  const left = (t: number): number => {
    const cosT = Math.cos(t);
    const below = z - (middle - r * sin * cosT);
    const rho = length2(h * sin + r * cos * cosT, e + r * Math.sin(t));
    return side * rho - Math.sqrt(Math.max(0, (nose - below) * (nose + below)));
  };
  const least = stretches
    .flatMap(([low, high]) => dips(left, low, high, 96))
    .map((t) => ({ t, value: left(t) }))
    .reduce((a, b) => (b.value < a.value ? b : a), { t: Number.NaN, value: Infinity });
  if (least.value === Infinity) return refuse('impossible-geometry', 'query.arc', query.arc, 'must reach z');
  const turnDeg = toDegrees(least.t) % 360;
  return { rho: Math.max(0, side * least.value), turnDeg: (turnDeg < 0 ? turnDeg + 360 : turnDeg) + 0 };
}
