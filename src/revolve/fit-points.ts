/** What all fits of a meridian share: the points that go in, the zone that comes out. */
import { refuse } from '../core/errors.js';
import { dot, extremes } from '../core/linear.js';
import { array, either, type Fields, later, number, object, read, readValue } from '../core/read.js';
import { anywhere, LONGEST } from './sweep.js';

/** A point of a meridian. */
export interface MeridianPoint {
  /** Place along the work's axis. */
  readonly z: number;
  /** Distance from the work's axis. */
  readonly radius: number;
}

/** Points to fit to. */
export interface FitInput {
  /** The points, at least three, in any order; or z and radius by turns in one array. */
  readonly points: readonly MeridianPoint[] | Float64Array;
}

/** A point where a minimum-zone fit is touched: three of them prove that no other fit has a smaller zone. */
export interface AlternationPoint extends MeridianPoint {
  /** Position in the input. */
  readonly index: number;
  /** Signed distance from the fitted form: plus or minus half the zone, changing sign from point to point. */
  readonly deviation: number;
}

/** How far a surface lies from a fitted form. Terms follow ISO 12181 and ISO 12780. */
export interface Deviations {
  /** Form deviation: largest deviation less the smallest, the width of the zone that holds the surface. */
  readonly formDeviation: number;
  /** Largest deviation away from the axis. */
  readonly peak: number;
  /** Largest deviation towards the axis, as a positive number. */
  readonly valley: number;
  /** Root mean square of all deviations. */
  readonly rootMeanSquare: number;
}

/** Checked points as two arrays. */
export interface Columns {
  readonly z: Float64Array;
  readonly rho: Float64Array;
}

const POINT: Fields<MeridianPoint> = { z: anywhere, radius: number({ min: 0, max: LONGEST }) };
const POINTS: Fields<FitInput> = {
  points: either((value) => value instanceof Float64Array, later<Float64Array>(), array(object(POINT), 3)),
};

/** Reads the points of a fit. */
export function readPoints(input: FitInput): Columns {
  const { points } = read(input, POINTS);
  const flat = points instanceof Float64Array;
  const count = flat ? points.length / 2 : points.length;
  if (count < 3 || !Number.isInteger(count)) {
    return refuse('out-of-range', 'points', points, 'must hold z and radius of at least 3 points');
  }
  const z = new Float64Array(count);
  const rho = new Float64Array(count);
  for (let i = 0; i < count; i++) {
    z[i] = flat ? readValue(points[2 * i], POINT.z, `points[${2 * i}]`) : (points[i] as MeridianPoint).z;
    rho[i] = flat
      ? readValue(points[2 * i + 1], POINT.radius, `points[${2 * i + 1}]`)
      : (points[i] as MeridianPoint).radius;
  }
  if (z.every((value) => value === z[0])) {
    return refuse('impossible-geometry', 'points', points, 'must lie at different places along the axis');
  }
  return { z, rho };
}

/** Summary of deviations, weighted equally. */
export function summarise(deviations: Float64Array): Deviations {
  const [least, peak] = extremes(deviations);
  const rootMeanSquare = Math.sqrt(dot(deviations, deviations) / deviations.length);
  return { formDeviation: peak - least, peak, valley: 0 - least, rootMeanSquare };
}

/** The three touching points of a zone, in the order given. */
export function alternationOf(
  { z, rho }: Columns,
  deviations: Float64Array,
  indices: readonly [number, number, number],
): readonly [AlternationPoint, AlternationPoint, AlternationPoint] {
  const point = (index: number): AlternationPoint => ({
    index,
    z: z[index] as number,
    radius: rho[index] as number,
    deviation: deviations[index] as number,
  });
  return [point(indices[0]), point(indices[1]), point(indices[2])];
}
