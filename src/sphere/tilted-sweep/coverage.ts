/**
 * Where a sweep begins and ends on the part, against where it should. Both ends of a sweep lie at the
 * same distance from the point where the axes meet, and so on one sphere about it; what is left or cut
 * too far is measured along that sphere. Lengths in one unit, heights from that point.
 */
import { dips, length2 } from '../../revolve/solve.js';
import type { ReadSweep } from '../../revolve/sweep.js';
import { degrees, isOnStem, type Zone } from '../target.js';
import { note, type SphereNote } from '../words.js';

/** How the cut ends at one end of the surface. */
export interface SweepEnd {
  /**
   * `meets`: where it should. `not-reached`: the sweep stops short and leaves material. `past-pole`: the
   * sweep is too wide for its tilt, passes over the pole and leaves a pip there. `undercut`: it cuts into
   * the stem or the body. At a stem a nose meets the end where it touches the stem: a fillet of its own radius
   * stays. `runs-out`: it ends in the air past a flat or an opening, which does no harm.
   */
  readonly state: 'meets' | 'not-reached' | 'past-pole' | 'undercut' | 'runs-out';
  /** Diameter of the surface where the cut ends: at the free end that of the pip. */
  readonly diameter: number;
  /** Height where the cut ends, from the sphere's centre, positive towards the free end. */
  readonly height: number;
  /** Diameter where the cut ends less the diameter wanted there, with a nose at a stem that of the fillet's rim. */
  readonly excessDiameter: number;
  /** Diameter that the tool would leave of a stem there: 0 where it severs it, null where there is no stem. */
  readonly stemLeft: number | null;
  /** Along the axis, the length left uncut; negative where the cut goes too far. */
  readonly leftAlongAxis: number;
}

/** Which part of the sphere a sweep covers. */
export interface SweepCoverage {
  /** Polar angle where the cut begins. */
  readonly fromDeg: number;
  /** Polar angle where the cut ends. */
  readonly toDeg: number;
  /** The free end: pole, flat or free stem. */
  readonly freeEnd: SweepEnd;
  /** The far end: stem, base or opening. */
  readonly farEnd: SweepEnd;
}

/** Below this part of the sphere's radius an end counts as met: floating-point dust, not a pip. */
const MET = 1e-12;

/** Compares the ends of a sweep with the zone that is wanted. */
export function coverage(zone: Zone, sweep: ReadSweep, radius: number): SweepCoverage {
  const { sin, cos, radius: r, distance: h, skew } = sweep;
  // Nose and work touch on the line to the sphere's centre: the contact is the path, scaled.
  const scale = radius / length2(h, r);
  const short = h * sin - r * cos;
  const free: Place = [freeDiameter(sweep, radius) / 2, scale * (h * cos + r * sin)];
  const far: Place = [scale * length2(h * sin + r * cos, skew), scale * (h * cos - r * sin)];
  const { fromDiameter, fromHeight, toDiameter, toHeight } = zone.rims;
  const stem = (end: 1 | -1, diameter: number): Rim => ({
    wanted: sweep.noseRadius === 0 ? diameter : scale * (diameter + 2 * sweep.noseRadius),
    height: end > 0 ? fromHeight : toHeight,
    outward: end,
    open: false,
    stemLeft: stemLeft(sweep, end),
  });
  const rim = {
    wanted: toDiameter,
    height: toHeight,
    outward: -1,
    open: zone.side === 'socket',
    stemLeft: null,
  } as const;
  return {
    fromDeg: degrees(Math.atan2(free[0], free[1])),
    toDeg: degrees(Math.atan2(far[0], far[1])),
    freeEnd: zone.part === 'ball-between-stems' ? compare(stem(1, fromDiameter), free) : freeEnd(zone, free, short < 0),
    farEnd: compare(isOnStem(zone) ? stem(-1, toDiameter) : rim, far),
  };
}

/** Diameter where the cut ends at the free end. */
export function freeDiameter({ sin, cos, radius: r, distance: h, skew }: ReadSweep, radius: number): number {
  return 2 * ((radius / length2(h, r)) * length2(h * sin - r * cos, skew));
}

/** Distance from the axis, and height. */
type Place = readonly [rho: number, z: number];

/** Diameter that a tip or nose leaves of a stem at one end: all that it never reaches. */
function stemLeft({ radius: r, distance: h, skew, noseRadius, sin, cos }: ReadSweep, end: 1 | -1): number {
  const e = Math.abs(skew);
  const rho = (w: number): number => length2(h * sin - end * r * cos * Math.cos(w), e - r * Math.sin(w));
  const nearest = e === 0 ? rho(0) : Math.min(...dips(rho, 0, Math.PI / 2, 64).map(rho));
  const left = 2 * (nearest - noseRadius);
  return left <= MET * (nearest + noseRadius) ? 0 : left;
}

function freeEnd(zone: Zone, [rho, z]: Place, past: boolean): SweepEnd {
  const { fromDiameter, fromHeight } = zone.rims;
  if (zone.part === 'ball-end' && 2 * rho <= fromDiameter) {
    return compare({ wanted: fromDiameter, height: fromHeight, outward: 1, open: true, stemLeft: null }, [rho, z]);
  }
  const reach = length2(rho, z);
  const excess = 2 * rho - fromDiameter;
  const met = excess <= MET * reach;
  return {
    state: met ? 'meets' : past ? 'past-pole' : 'not-reached',
    diameter: 2 * rho,
    height: z,
    excessDiameter: excess,
    leftAlongAxis: met ? 0 : along(reach, fromDiameter / 2, fromHeight) - z,
    stemLeft: null,
  };
}

/** Where a cut should end; `outward` is the direction along the axis in which it runs there. */
interface Rim {
  readonly wanted: number;
  readonly height: number;
  readonly outward: 1 | -1;
  /** Whether there is nothing but air beyond. */
  readonly open: boolean;
  readonly stemLeft: number | null;
}

function compare({ wanted, height, outward, open, stemLeft }: Rim, [rho, z]: Place): SweepEnd {
  const reach = length2(rho, z);
  const left = outward * (along(reach, wanted / 2, height) - z);
  const met = Math.abs(left) <= MET * reach;
  return {
    state: met ? 'meets' : left > 0 ? 'not-reached' : open ? 'runs-out' : 'undercut',
    diameter: 2 * rho,
    height: z,
    excessDiameter: 2 * rho - wanted,
    leftAlongAxis: met ? 0 : left,
    stemLeft,
  };
}

/** Height at which a sphere has a half-chord, on the side of the wanted height; 0 if it never has. */
function along(reach: number, half: number, side: number): number {
  const height = Math.sqrt(Math.max(0, (reach - half) * (reach + half)));
  return side < 0 ? -height : height;
}

/** What a reader should know of how a cut ends. */
export function coverageNotes({ freeEnd, farEnd }: SweepCoverage): SphereNote[] {
  const notes: SphereNote[] = [];
  const values = ({ diameter, excessDiameter, leftAlongAxis, stemLeft }: SweepEnd) => {
    const told = { diameter, excessDiameter, leftAlongAxis };
    return stemLeft === null ? told : { ...told, stemLeft };
  };
  if (freeEnd.state === 'past-pole' || freeEnd.state === 'not-reached') {
    notes.push(note('free-end-uncut', { ...values(freeEnd), passesOver: freeEnd.state === 'past-pole' ? 1 : 0 }));
  }
  if (freeEnd.state === 'undercut') {
    notes.push(note(freeEnd.stemLeft === 0 ? 'free-stem-severed' : 'free-stem-undercut', values(freeEnd)));
  }
  if (farEnd.state === 'undercut') {
    notes.push(note(farEnd.stemLeft === 0 ? 'stem-severed' : 'stem-undercut', values(farEnd)));
  }
  if (farEnd.state === 'not-reached') notes.push(note('far-end-uncut', values(farEnd)));
  return notes;
}
