/** What all fits of a meridian share: the points that go in, the zone that comes out. */
import { list, nonNegative, number, options } from '../core/checks.js';
import { refuse } from '../core/errors.js';

/** A point of a meridian. */
export interface MeridianPoint {
  /** Place along the work's axis. */
  readonly z: number;
  /** Distance from the work's axis. */
  readonly rho: number;
}

/** Points to fit to. */
export interface FitInput {
  /** The points, at least three, in any order; or z and ρ by turns in one array. */
  readonly points: readonly MeridianPoint[] | Float64Array;
}

/** A point where a minimum-zone fit is touched: three of them prove that no other fit has a smaller zone. */
export interface AlternationPoint extends MeridianPoint {
  /** Position in the input. */
  readonly index: number;
  /** Signed distance from the fitted form: plus or minus half the zone, changing sign from point to point. */
  readonly deviation: number;
}

/** How far points lie from a fitted form. Terms follow ISO 12181 and ISO 12780. */
export interface FormDeviation {
  /** Largest deviation less the smallest: width of the zone that holds all points. */
  readonly peakToValley: number;
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

/** Checks the points of a fit. */
export function readPoints(input: FitInput): Columns {
  const { points } = options(input, 'input', ['points']) as unknown as FitInput;
  const count = points instanceof Float64Array ? points.length / 2 : list(points, 'input.points', 3).length;
  if (count < 3 || !Number.isInteger(count)) {
    return refuse('out-of-range', 'input.points', points, 'must hold z and rho of at least 3 points');
  }
  const z = new Float64Array(count);
  const rho = new Float64Array(count);
  for (let i = 0; i < count; i++) {
    const path = `input.points[${i}]`;
    const point: unknown =
      points instanceof Float64Array ? { z: points[2 * i], rho: points[2 * i + 1] } : (points[i] as unknown);
    const given = options(point, path, ['z', 'rho']);
    z[i] = number(given['z'], `${path}.z`, { min: -1e100, max: 1e100 });
    rho[i] = number(nonNegative(given['rho'], `${path}.rho`), `${path}.rho`, { max: 1e100 });
  }
  if (z.every((value) => value === z[0])) {
    return refuse('impossible-geometry', 'input.points', points, 'must lie at different places along the axis');
  }
  return { z, rho };
}

/** Summary of deviations, weighted equally. */
export function summarise(deviations: Float64Array): FormDeviation {
  let peak = -Infinity;
  let least = Infinity;
  let squares = 0;
  for (const deviation of deviations) {
    peak = Math.max(peak, deviation);
    least = Math.min(least, deviation);
    squares += deviation * deviation;
  }
  return {
    peakToValley: peak - least,
    peak,
    valley: 0 - least,
    rootMeanSquare: Math.sqrt(squares / deviations.length),
  };
}

/** Distance between the outermost points along the axis. */
export function zExtent(z: Float64Array): number {
  let low = Infinity;
  let high = -Infinity;
  for (const value of z) {
    low = Math.min(low, value);
    high = Math.max(high, value);
  }
  return high - low;
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
    rho: rho[index] as number,
    deviation: deviations[index] as number,
  });
  return [point(indices[0]), point(indices[1]), point(indices[2])];
}
