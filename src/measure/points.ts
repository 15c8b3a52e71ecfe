/** Points in space, measured: read from a caller, and turned into columns for fits. */
import { array, number, type Reader } from '../core/read.js';

/** A point in space. */
export type Point = readonly [x: number, y: number, z: number];

/** Points as columns of coordinates. */
export interface Columns {
  readonly x: Float64Array;
  readonly y: Float64Array;
  readonly z: Float64Array;
}

// Squares of these stay within the range of numbers.
const coordinates = array(number({ min: -1e100, max: 1e100 }), 3, 3);

/** Reads a point. */
export const point: Reader<Point> = {
  allowed: { ...coordinates.allowed, phrase: 'must be [x, y, z]' },
  read: (value, reading) => {
    if (Array.isArray(value) && value.length !== 3) {
      reading.faults.push({ code: 'wrong-kind', path: '', value, allowed: point.allowed });
    }
    return coordinates.read(value, reading) as unknown as Point;
  },
};

/** Points by columns. */
export function columnsOf(points: readonly Point[]): Columns {
  const count = points.length;
  const columns = { x: new Float64Array(count), y: new Float64Array(count), z: new Float64Array(count) };
  for (let i = 0; i < count; i++) [columns.x[i], columns.y[i], columns.z[i]] = points[i] as [number, number, number];
  return columns;
}

/** The point in the middle of all. */
export function middleOf({ x, y, z }: Columns): Point {
  const mean = (values: Float64Array): number => values.reduce((sum, value) => sum + value, 0) / values.length;
  return [mean(x), mean(y), mean(z)];
}
