/**
 * Work on a lathe, in its own frame: w along its axis from the face at the headstock, a radius at each w. A cut is a
 * straight path (or a straight edge) in the frame of the bed while the axis lay as it lay: each point of it goes round.
 * Outside the least radius of all cuts stands, in a bore the largest.
 */

export type V = readonly [x: number, y: number, z: number];

const dot = (a: V, b: V): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
export const along = (a: V, b: V, t: number): V => [a[0] + t * b[0], a[1] + t * b[1], a[2] + t * b[2]];
const minus = (a: V, b: V): V => along(a, b, -1);

/** Where the work's axis lies: the place of its face at the headstock, and its direction, of length 1. */
export interface Axis {
  readonly face: V;
  readonly direction: V;
}

/** A straight line of the tool's tip. */
export interface Line {
  readonly through: V;
  readonly direction: V;
}

/** Distance from the axis of the point of a line that passes a place of the work. */
export function radiusAt({ through, direction }: Line, axis: Axis, w: number): number {
  const from = minus(through, axis.face);
  const t = (w - dot(from, axis.direction)) / dot(direction, axis.direction);
  const at = along(from, direction, t);
  const off = along(at, axis.direction, -dot(at, axis.direction));
  return Math.sqrt(dot(off, off));
}

/** A cut that was made. */
interface Cut {
  readonly line: Line;
  readonly axis: Axis;
  readonly from: number;
  readonly to: number;
}

/** A piece of work. */
export interface Work {
  readonly side: 'outside' | 'inside';
  readonly length: number;
  /** Radius of the blank, or of the hole: with a depth from the face at the tailstock. */
  blank: number;
  /** As the drawing of the stock has it. */
  readonly stock: number;
  hole: number;
  holeFrom: number;
  readonly cuts: Cut[];
}

/** Radius of the work at a place. */
export function radius({ side, blank, hole, holeFrom, cuts }: Work, w: number): number {
  const all = cuts.filter(({ from, to }) => w >= from && w <= to).map(({ line, axis }) => radiusAt(line, axis, w));
  return side === 'outside' ? Math.min(blank, ...all) : Math.max(w >= holeFrom ? hole : 0, ...all);
}

/** A taper as the drawing has it, in the frame of the work. */
export interface Drawing {
  readonly side: 'outside' | 'inside';
  readonly largeAt: number;
  readonly smallAt: number;
  readonly largeDiameter: number;
  readonly smallDiameter: number;
  /** The end where the cut stops: beyond it nothing may be cut. */
  readonly stopAt: number;
}

/** What came out against the drawing. */
export interface Verdict {
  /** Ends too large by, as diameters. */
  readonly large: number;
  readonly small: number;
  /** Half angle too steep by, in degrees. */
  readonly angleDeg: number;
  /** Greatest distance of the side from the straight line between its ends. */
  readonly form: number;
  /** How far the cut ends beyond its end in the drawing, along the axis. */
  readonly end: number;
  /** Something was cut where nothing may be. */
  readonly gouged: boolean;
}

/** Part of the length at each end that is not looked at: where a cut ends is judged apart. */
const EDGE = 0.004;

/** Judges a finished taper. */
export function judge(work: Work, { largeAt, smallAt, largeDiameter, smallDiameter, stopAt, side }: Drawing): Verdict {
  const length = Math.abs(largeAt - smallAt);
  const at = (share: number): number => radius(work, smallAt + (largeAt - smallAt) * share);
  const [low, high] = [at(EDGE), at(1 - EDGE)];
  const line = (share: number): number => low + ((high - low) * (share - EDGE)) / (1 - 2 * EDGE);
  const [small, large] = [line(0), line(1)];
  const inner = Array.from({ length: 41 }, (_, i) => EDGE + ((1 - 2 * EDGE) * i) / 40);
  const outwards = Math.sign(stopAt - (largeAt + smallAt) / 2);
  const last = work.cuts.at(-1);
  const ended = outwards > 0 ? (last?.to ?? 0) : (last?.from ?? 0);
  const beyond = [EDGE, 0.02, 0.1].map((share) => stopAt + outwards * share * length);
  const untouched = (w: number): number =>
    side === 'outside' ? work.stock : w >= work.holeFrom - 1e-6 * length ? work.hole : 0;
  const degrees = (radii: number): number => (Math.atan2(radii, length) * 180) / Math.PI;
  return {
    large: 2 * large - largeDiameter,
    small: 2 * small - smallDiameter,
    angleDeg: degrees(large - small) - degrees((largeDiameter - smallDiameter) / 2),
    form: Math.max(...inner.map((share) => Math.abs(at(share) - line(share)))),
    end: outwards * (ended - stopAt),
    gouged: beyond.some(
      (w) => w > 0 && w < work.length && Math.abs(radius(work, w) - untouched(w)) > 1e-3 * work.stock,
    ),
  };
}
