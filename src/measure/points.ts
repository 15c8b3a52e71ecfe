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
  const column = (k: 0 | 1 | 2): Float64Array => Float64Array.from(points, (given) => given[k]);
  return { x: column(0), y: column(1), z: column(2) };
}

/** The point in the middle of all. */
export function middleOf({ x, y, z }: Columns): Point {
  const mean = (values: Float64Array): number => values.reduce((sum, value) => sum + value, 0) / values.length;
  return [mean(x), mean(y), mean(z)];
}
