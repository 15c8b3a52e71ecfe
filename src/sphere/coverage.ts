/**
 * Where a sweep begins and ends on the part, against where it should. Both ends of a sweep lie at the
 * same distance from the point where the axes meet, and so on one sphere about it; what is left or cut
 * too far is measured along that sphere. Lengths in one unit, heights from that point.
 */
import type { Note } from '../core/notes.js';
import type { ReadSweep } from './sweep.js';
import { degrees, type Zone } from './target.js';

/** How the cut ends at one end of the surface. */
export interface SweepEnd {
  /**
   * `meets`: where it should. `not-reached`: the sweep stops short and leaves material. `past-pole`: the
   * sweep is too wide for its tilt, passes over the pole and leaves a pip there. `undercut`: it cuts into
   * the stem or the body. `runs-out`: it ends in the air past a flat or an opening, which does no harm.
   */
  readonly state: 'meets' | 'not-reached' | 'past-pole' | 'undercut' | 'runs-out';
  /** Diameter of the surface where the cut ends: at the free end that of the pip. */
  readonly diameter: number;
  /** Height where the cut ends, from the sphere's centre, positive towards the free end. */
  readonly height: number;
  /** Diameter where the cut ends less the diameter wanted there. */
  readonly excessDiameter: number;
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
  const { tilt, radius: r, distance: h, skew } = sweep;
  const [sin, cos] = [Math.sin(tilt), Math.cos(tilt)];
  // Nose and work touch on the line to the sphere's centre: the contact is the path, scaled.
  const scale = radius / Math.sqrt(h * h + r * r);
  const place = (across: number, along: number): readonly [number, number] => [
    scale * Math.sqrt(across * across + skew * skew),
    scale * along,
  ];
  const short = h * sin - r * cos;
  const free = place(short, h * cos + r * sin);
  const far = place(h * sin + r * cos, h * cos - r * sin);
  return {
    fromDeg: degrees(Math.atan2(free[0], free[1])),
    toDeg: degrees(Math.atan2(far[0], far[1])),
    freeEnd: freeEnd(zone, free, short < 0),
    farEnd: compare(zone.rims.toDiameter, zone.rims.toHeight, far, -1, zone.side === 'socket'),
  };
}

function freeEnd(zone: Zone, [rho, z]: readonly [number, number], past: boolean): SweepEnd {
  const { fromDiameter, fromHeight } = zone.rims;
  if (zone.part === 'ball-between-stems' || (zone.part === 'ball-end' && 2 * rho <= fromDiameter)) {
    return compare(fromDiameter, fromHeight, [rho, z], 1, zone.part === 'ball-end');
  }
  const reach = Math.sqrt(rho * rho + z * z);
  const excess = 2 * rho - fromDiameter;
  const met = excess <= MET * reach;
  return {
    state: met ? 'meets' : past ? 'past-pole' : 'not-reached',
    diameter: 2 * rho,
    height: z,
    excessDiameter: excess,
    leftAlongAxis: met ? 0 : along(reach, fromDiameter / 2, fromHeight) - z,
  };
}

/** One rim; `outward` is the direction along the axis in which the cut runs there. */
function compare(
  wantedDiameter: number,
  wantedHeight: number,
  [rho, z]: readonly [number, number],
  outward: 1 | -1,
  open: boolean,
): SweepEnd {
  const reach = Math.sqrt(rho * rho + z * z);
  const left = outward * (along(reach, wantedDiameter / 2, wantedHeight) - z);
  const met = Math.abs(left) <= MET * reach;
  return {
    state: met ? 'meets' : left > 0 ? 'not-reached' : open ? 'runs-out' : 'undercut',
    diameter: 2 * rho,
    height: z,
    excessDiameter: 2 * rho - wantedDiameter,
    leftAlongAxis: met ? 0 : left,
  };
}

/** Height at which a sphere has a half-chord, on the side of the wanted height; 0 if it never has. */
function along(reach: number, half: number, side: number): number {
  const height = Math.sqrt(Math.max(0, (reach - half) * (reach + half)));
  return side < 0 ? -height : height;
}

/** What a reader should know of how a cut ends. */
export function coverageNotes({ freeEnd, farEnd }: SweepCoverage): readonly Note[] {
  const notes: Note[] = [];
  const add = (code: string, end: SweepEnd, message: string): void => {
    const { diameter, excessDiameter, leftAlongAxis } = end;
    notes.push({ code, message, values: { diameter, excessDiameter, leftAlongAxis } });
  };
  const hasPip = freeEnd.state === 'past-pole' || freeEnd.state === 'not-reached';
  if (hasPip) {
    const why = freeEnd.state === 'past-pole' ? 'passes over' : 'stops short of';
    add('free-end-uncut', freeEnd, `The sweep ${why} the free end and leaves a diameter of ${freeEnd.diameter} uncut.`);
  }
  if (freeEnd.state === 'undercut') add('free-stem-undercut', freeEnd, 'The sweep cuts into the free stem.');
  if (farEnd.state === 'undercut') add('stem-undercut', farEnd, 'The sweep cuts into the stem.');
  if (farEnd.state === 'not-reached') {
    add('far-end-uncut', farEnd, `The sweep ends at a diameter of ${farEnd.diameter}, before the end of the surface.`);
  }
  return notes;
}
