/** Outlines of the work for drawings, in the plane of its axis: x across, z along it towards the free end. */
import type { Point } from '../draw/svg.js';
import type { SphereShape } from './target.js';

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
