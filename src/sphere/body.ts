/** Outlines of the work for drawings, in the plane of its axis: x across, z along it towards the free end. */
import type { Point } from '../draw/svg.js';
import type { SphereShape } from './target.js';

/** How the work's axis lies on the page: level from a lathe's headstock, upright or level over a mill's table. */
export type Seen = 'lathe' | 'flat' | 'upright';

/** Which way the free end and the pole look on the page, degrees, 0 to the right; and places of the part turned so. */
export interface Lie {
  readonly freeDeg: number;
  readonly poleDeg: number;
  /** 1 if polar angles on the side of x grow anticlockwise on the page. */
  readonly sense: 1 | -1;
  /** From x across the axis, towards the tool, and z along it to the page: right and up. */
  readonly turned: (place: Point) => Point;
}

/** How a part lies on the page, as docs/conventions.md has it. */
export function lieOf(side: SphereShape['side'], seen: Seen): Lie {
  // A socket's z runs into the work.
  const out = side === 'ball' ? 1 : -1;
  const freeDeg = seen === 'flat' ? 90 : 0;
  const turned = ([x, z]: Point): Point => (seen === 'flat' ? [x, out * z] : [out * z, seen === 'lathe' ? -x : x]);
  const sense = (out * (seen === 'upright' ? 1 : -1)) as 1 | -1;
  return { freeDeg, poleDeg: side === 'ball' ? freeDeg : freeDeg + 180, sense, turned };
}

/** Outlines of the work: a ball's stem and what it stands on, or the block that a socket is sunk in. */
export function bodyOf(shape: SphereShape, big: number): readonly (readonly Point[])[] {
  const { radius, fromDeg, toDeg, toDiameter, fromDiameter, toHeight, fromHeight } = shape;
  const polar = (from: number, to: number): readonly Point[] =>
    Array.from({ length: 61 }, (_, i): Point => {
      const angle = ((from + ((to - from) * i) / 60) * Math.PI) / 180;
      return [radius * Math.sin(angle), radius * Math.cos(angle)];
    });
  const right = polar(fromDeg, toDeg);
  const mirror = (points: readonly Point[]): readonly Point[] => points.map(([x, z]): Point => [-x, z]).reverse();
  const whole = (half: readonly Point[]): readonly Point[] => [...half, ...mirror(half)];
  if (shape.side === 'socket') {
    const [wall, floor] = [Math.max(toDiameter / 2 + 0.3 * big, 0.8 * big), fromHeight + 0.25 * big];
    return [whole([[0, floor], [wall, floor], [wall, toHeight], ...[...right].reverse()])];
  }
  const low = toHeight - 0.6 * big;
  const foot: readonly Point[] =
    shape.part === 'cap'
      ? [
          [toDiameter / 2, toHeight],
          [toDiameter / 2, low],
        ]
      : [[toDiameter / 2, low]];
  const top: readonly Point[] = shape.part === 'ball-between-stems' ? [[fromDiameter / 2, fromHeight + 0.5 * big]] : [];
  return [whole([...top, ...right, ...foot])];
}
