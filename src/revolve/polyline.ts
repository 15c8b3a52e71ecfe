/**
 * A plane curve as a polyline with as few points as keep every chord within a tolerance of it. Lengths in any one
 * unit. A step that kept the last chord within it is the first guess for the next, so that a smooth curve takes some
 * half a dozen looks at it for each point.
 */
import { refuse } from '../core/errors.js';
import type { MeridianPoint } from './fit-points.js';

/** Fills in the place of the curve at s. */
export type CurveAt = (s: number, into: { z: number; radius: number }) => void;

/** Most points of a polyline. */
const MOST = 100_000;
/** A chord counts as long enough from this part of the tolerance on, and as too long from the next. */
const FROM = 0.965;
const TO = 0.98;
/** Places on a chord that show the height of a single bulge, near its middle and about anywhere. */
const NEAR = [0.5, 0.0625, 0.9375];
const ANYWHERE = Array.from({ length: 15 }, (_, i) => (i + 1) / 16).concat(1 / 64, 63 / 64);

/**
 * Points of a curve from the first of `stops` to the last; each stop is a point, and the curve is smooth between
 * two of them. The tolerance must lie well above the rounding of the coordinates.
 */
export function polyline(at: CurveAt, stops: readonly number[], tolerance: number): MeridianPoint[] {
  const [a, b, p] = [place(), place(), place()];
  const points: MeridianPoint[] = [];
  const add = ({ z, radius }: MeridianPoint): void => {
    if (points.length === MOST)
      refuse('out-of-range', 'chordalTolerance', tolerance, `must lead to at most ${MOST} points`);
    points.push({ z: z + 0, radius: radius + 0 });
  };
  /** How far the curve stands off the chord from a to b, which are the places at these two. */
  const standOff = (from: number, to: number): number => {
    const [dz, dr] = [b.z - a.z, b.radius - a.radius];
    const chord = Math.sqrt(dz * dz + dr * dr);
    const off = (share: number): number => {
      at(from + (to - from) * share, p);
      const [z, r] = [p.z - a.z, p.radius - a.radius];
      return chord > 0 ? Math.abs(dz * r - dr * z) / chord : Math.sqrt(z * z + r * r);
    };
    const left = off(0.25);
    const right = off(0.75);
    let most = Math.max(left, right);
    for (const share of NEAR) most = Math.max(most, off(share));
    if (Math.abs(left - right) > 0.1 * most) for (const share of ANYWHERE) most = Math.max(most, off(share));
    return most;
  };
  let guess = ((stops[1] as number) - (stops[0] as number)) / 16;
  for (let k = 1; k < stops.length; k++) {
    const end = stops[k] as number;
    let s = stops[k - 1] as number;
    at(s, a);
    if (k === 1) add(a);
    while (s < end) {
      let good = 0;
      let bad = Infinity;
      let step = Math.min(guess, end - s);
      for (let round = 0; ; round++) {
        const last = s + step >= end;
        const to = last ? end : s + step;
        at(to, b);
        const off = standOff(s, to);
        const next = step * Math.min(8, Math.sqrt((0.5 * (FROM + TO) * tolerance) / (off || Number.MIN_VALUE)));
        if (off <= TO * tolerance) good = step;
        else bad = step;
        if (good === step && (last || off >= FROM * tolerance || round > 6)) break;
        step = next > good && next < bad ? next : good > 0 ? (good + Math.min(bad, 2 * good)) / 2 : bad / 4;
        if (s + step > end) step = end - s;
        if (s + step === s)
          return refuse('out-of-range', 'chordalTolerance', tolerance, 'must be coarser than rounding');
      }
      s = Math.min(end, s + good);
      if (s < end) guess = good;
      at(s, a);
      add(a);
    }
  }
  return points;
}

function place(): { z: number; radius: number } {
  return { z: 0, radius: 0 };
}
