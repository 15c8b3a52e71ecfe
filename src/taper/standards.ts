/**
 * Standard tapers with their sizes: look-up by name, and the nearest standard to a measured taper. Who
 * only converts tapers does not carry these tables: {@link convertTaper} knows the names of the common
 * ones from a short list of its own, which these tables take their defining values from.
 */
import { choice, list, number, options, text } from '../core/checks.js';
import { refuse } from '../core/errors.js';
import { convertTaper } from './convert.js';
import { standardStatement } from './standard-values.js';
import { STANDARD_SERIES, type StandardSeries } from './standards-data.js';
import { readTaper, type Taper } from './taper.js';

/** How far a value can be trusted: no original standard could be read. */
export type StandardConfidence = 'two-sources' | 'one-source' | 'memory';

/** A standard taper. */
export interface StandardTaper {
  /** Name to look it up by: series and size. */
  readonly name: string;
  /** The series in words. */
  readonly series: string;
  /** The taper, as every function takes it. */
  readonly taper: Taper;
  /** The value that defines the series, as the standard states it. */
  readonly defining: {
    /** The way it is stated, a key of {@link Taper}. */
    readonly statement: 'perFoot' | 'oneIn' | 'percent' | 'includedAngleDeg';
    /** The exact decimal. */
    readonly value: string;
  };
  /** Unit of the sizes. */
  readonly unit: 'in' | 'mm';
  /** Diameter at the large end or the gauge line, as printed. */
  readonly largeDiameter?: string;
  /** Diameter at the small end, as printed. */
  readonly smallDiameter?: string;
  /** Length, as printed; `lengthMeans` says of what. */
  readonly length?: string;
  /** What the length is. */
  readonly lengthMeans: string;
  /** How far the row can be trusted. */
  readonly confidence: StandardConfidence;
  /** Where the series was seen. */
  readonly sources: readonly string[];
  /**
   * Taper per foot that the two printed diameters and the length make, where it misses the defining one by
   * more than half a unit of its last digit: how the standard itself disagrees.
   */
  readonly perFootOfSizes?: number;
}

const CONFIDENCE: Readonly<Record<string, StandardConfidence>> = { '2': 'two-sources', '1': 'one-source', m: 'memory' };

/**
 * Names of all standard tapers in the tables.
 *
 * @returns Names such as `morse-3`, `morse-mm-3`, `iso-1119-1-20`.
 * @example
 * ```ts
 * import { standardTaperNames } from 'generatrix';
 * standardTaperNames().filter((name) => name.startsWith('jarno')).length; // => 19
 * ```
 */
export function standardTaperNames(): readonly string[] {
  return Object.entries(STANDARD_SERIES).flatMap(([key, series]) =>
    rowsOf(series).map(([size = '']) => nameOf(key, size)),
  );
}

/**
 * A standard taper by name.
 *
 * @param name - Series and size, such as `morse-3`, `brown-sharpe-7`, `steep-7-24-40`, `taper-pin-inch-4/0`.
 * @returns Defining value, sizes, sources and how far they can be trusted.
 * @throws GeneratrixError `no-data` for a name that the tables do not hold.
 * @example
 * ```ts
 * import { standardTaper } from 'generatrix';
 * const { defining, largeDiameter, confidence } = standardTaper('morse-3');
 * [defining.value, largeDiameter, confidence]; // => ['0.60235', '0.938', 'two-sources']
 * ```
 */
export function standardTaper(name: string): StandardTaper {
  const wanted = text(name, 'name');
  for (const [key, series] of Object.entries(STANDARD_SERIES)) {
    const row = rowsOf(series).find(([size = '']) => nameOf(key, size) === wanted);
    if (row) return describe(key, series, row);
  }
  return refuse(
    'no-data',
    'name',
    name,
    `must be a size of ${Object.keys(STANDARD_SERIES).join(', ')}, such as morse-3`,
  );
}

/** The standard tapers that a measured one may be. */
export interface NearestStandard {
  /** Names of the nearest; several where sizes share one taper. */
  readonly names: readonly string[];
  /** Half angle of the nearest, in degrees. */
  readonly halfAngleDeg: number;
  /** Measured half angle less that of the nearest, in degrees. */
  readonly differenceDeg: number;
  /** Names of all others that lie within the uncertainty of the measured taper: it may be any of these as well. */
  readonly alsoPossible: readonly string[];
  /** Whether the measured taper agrees with the nearest within its uncertainty. */
  readonly agrees: boolean;
}

/**
 * The nearest standard to a measured taper, and whether the measurement tells it from its neighbours.
 *
 * @param request - The measured taper; the expanded uncertainty of its half angle in degrees (coverage of the
 * caller's choice; 0 if left out); and the series to look in (all if left out).
 * @returns The nearest, and what else it may be.
 * @throws GeneratrixError for a taper or an uncertainty out of range, `out-of-range` for an unknown series.
 * @example
 * ```ts
 * import { nearestStandardTaper } from 'generatrix';
 * const found = nearestStandardTaper({ taper: { perFoot: 0.6022 }, uncertaintyDeg: 0.001, series: ['morse', 'jarno'] });
 * [found.names, found.alsoPossible, found.agrees]; // => [['morse-3'], [], true]
 * ```
 */
export function nearestStandardTaper(request: {
  readonly taper: Taper;
  readonly uncertaintyDeg?: number;
  readonly series?: readonly string[];
}): NearestStandard {
  options(request, 'request', ['taper'], ['uncertaintyDeg', 'series']);
  const { halfAngleDeg } = readTaper(request.taper);
  const uncertainty = number(request.uncertaintyDeg ?? 0, 'uncertaintyDeg', { min: 0 });
  const known = Object.keys(STANDARD_SERIES);
  const series = list(request.series ?? known, 'series', 1).map((key, i) => choice(key, `series[${i}]`, known));
  const all = series
    .flatMap((key) => {
      const table = STANDARD_SERIES[key] as StandardSeries;
      return rowsOf(table).map((row) => describe(key, table, row));
    })
    .map((standard) => ({ name: standard.name, half: readTaper(standard.taper).halfAngleDeg }));
  const nearest = all.reduce((best, one) => (off(one) < off(best) ? one : best));
  const names = all.filter(({ half }) => half === nearest.half).map(({ name }) => name);
  return {
    names,
    halfAngleDeg: nearest.half,
    differenceDeg: halfAngleDeg - nearest.half,
    alsoPossible: all.filter((one) => off(one) <= uncertainty && one.half !== nearest.half).map(({ name }) => name),
    agrees: off(nearest) <= uncertainty,
  };

  function off({ half }: { half: number }): number {
    return Math.abs(half - halfAngleDeg);
  }
}

function rowsOf({ rows }: StandardSeries): string[][] {
  return rows
    .trim()
    .split('\n')
    .map((row) => row.trim().split(' '));
}

/** A series with one row for all sizes marks it with a star. */
function nameOf(key: string, size: string): string {
  return size === '*' ? key : `${key}-${size}`;
}

function describe(key: string, series: StandardSeries, row: readonly string[]): StandardTaper {
  const [size = '', ...fields] = row;
  const name = nameOf(key, size);
  const defining = series.statement
    ? { statement: series.statement, value: fields.shift() ?? '' }
    : standardStatement(key === 'taper-pin-inch' ? key : name, 'name');
  const [largeDiameter, smallDiameter, length, confidence = ''] = fields.map((field) =>
    field === '-' ? undefined : field,
  );
  const taper = { [defining.statement]: Number(defining.value) } as unknown as Taper;
  const sizes =
    series.lengthMeans.includes('between') && largeDiameter && smallDiameter && length
      ? (12 * (Number(largeDiameter) - Number(smallDiameter))) / Number(length)
      : undefined;
  const lastDigit = 10 ** -(defining.value.split('.')[1]?.length ?? 0);
  const disagrees = sizes !== undefined && Math.abs(sizes - convertTaper(taper, 'perFoot')) > lastDigit / 2;
  return {
    name,
    series: series.title,
    taper,
    defining,
    unit: series.unit,
    ...(largeDiameter ? { largeDiameter } : {}),
    ...(smallDiameter ? { smallDiameter } : {}),
    ...(length ? { length } : {}),
    lengthMeans: series.lengthMeans,
    confidence: CONFIDENCE[confidence] ?? 'memory',
    sources: series.sources,
    ...(disagrees ? { perFootOfSizes: sizes } : {}),
  };
}
