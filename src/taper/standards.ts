/**
 * Standard tapers with their sizes: look-up by name, and the nearest standard to a measured taper. Who
 * only converts tapers does not carry these tables: every function that takes a taper knows its name from the
 * list of defining values in standard-values.ts, which these tables take theirs from.
 */
import { array, choice, defaulted, type Fields, nonNegative, read, readValue } from '../core/read.js';
import { convertTaper } from './convert.js';
import {
  nameOf,
  type StandardSeriesName,
  type StandardStatement,
  type StandardTaperName,
  standardName,
  standardStatement,
} from './standard-values.js';
import { STANDARD_SERIES, type StandardSeries } from './standards-data.js';
import { slopeOf, type Taper, taper } from './taper.js';

/** How far a value can be trusted: no original standard could be read. */
export type StandardConfidence = 'two-sources' | 'one-source' | 'memory';

/** A standard taper. */
export interface StandardTaper {
  /** Name to look it up by, and to state the taper by: series and size. */
  readonly name: StandardTaperName;
  /** The series in words. */
  readonly series: string;
  /** The taper, as every function takes it. */
  readonly taper: Taper;
  /** The value that defines the series, as the standard states it. */
  readonly defining: StandardStatement;
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
 * Names of all standard tapers: each can be given to {@link standardTaper}, and to every function that takes a
 * taper, as `{ standard: name }`.
 * @returns Names such as `morse-3`, `morse-mm-3`, `iso-1119-1-20`.
 * @example
 * ```ts
 * import { standardTaperNames } from 'generatrix';
 * standardTaperNames().filter((name) => name.startsWith('jarno')).length; // => 19
 * ```
 */
export function standardTaperNames(): readonly StandardTaperName[] {
  return rowsOf(SERIES_NAMES).map(({ name }) => name);
}

/**
 * A standard taper by name.
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
export function standardTaper(name: StandardTaperName): StandardTaper {
  const wanted = readValue(name, standardName, 'name');
  return describe(rowsOf(SERIES_NAMES).find((row) => row.name === wanted) as Row);
}

/** What {@link nearestStandardTaper} needs. */
export interface NearestStandardOptions {
  /** The measured taper. */
  readonly taper: Taper;
  /** Expanded uncertainty of its half angle in degrees, with a coverage of the caller's choice. @defaultValue 0 */
  readonly expandedUncertaintyDeg?: number;
  /** The series to look in. @defaultValue all of them */
  readonly series?: readonly StandardSeriesName[];
}

/** The standard tapers that a measured one may be. */
export interface NearestStandard {
  /** Names of the nearest; several where sizes share one taper. */
  readonly names: readonly StandardTaperName[];
  /** Half angle of the nearest, in degrees. */
  readonly halfAngleDeg: number;
  /** Measured half angle less that of the nearest, in degrees. */
  readonly differenceDeg: number;
  /** Names of all others that lie within the uncertainty of the measured taper: it may be any of these as well. */
  readonly alsoPossible: readonly StandardTaperName[];
  /** Whether the measured taper agrees with the nearest within its uncertainty. */
  readonly agrees: boolean;
}

const SERIES_NAMES = Object.keys(STANDARD_SERIES) as StandardSeriesName[];

const NEAREST: Fields<NearestStandardOptions, 'expandedUncertaintyDeg' | 'series'> = {
  taper,
  expandedUncertaintyDeg: defaulted(nonNegative, 0),
  series: defaulted(array(choice(...SERIES_NAMES), 1), SERIES_NAMES),
};

/**
 * The nearest standard to a measured taper, and whether the measurement tells it from its neighbours.
 * @throws GeneratrixError for a taper or an uncertainty out of range, `out-of-range` for an unknown series.
 * @example
 * ```ts
 * import { nearestStandardTaper } from 'generatrix';
 * const found = nearestStandardTaper({
 *   taper: { perFoot: 0.6022 },
 *   expandedUncertaintyDeg: 0.001,
 *   series: ['morse', 'jarno'],
 * });
 * [found.names, found.alsoPossible, found.agrees]; // => [['morse-3'], [], true]
 * ```
 */
export function nearestStandardTaper(options: NearestStandardOptions): NearestStandard {
  const { taper: measured, expandedUncertaintyDeg, series } = read(options, NEAREST);
  const { halfAngleDeg } = slopeOf(measured);
  const all = rowsOf([...new Set(series)]).map(({ name }) => {
    const half = slopeOf({ standard: name }).halfAngleDeg;
    return { name, half, off: Math.abs(half - halfAngleDeg) };
  });
  const nearest = all.reduce((best, one) => (one.off < best.off ? one : best));
  const within = all.filter(({ half, off }) => off <= expandedUncertaintyDeg && half !== nearest.half);
  return {
    names: all.filter(({ half }) => half === nearest.half).map(({ name }) => name),
    halfAngleDeg: nearest.half,
    differenceDeg: halfAngleDeg - nearest.half,
    alsoPossible: within.map(({ name }) => name),
    agrees: nearest.off <= expandedUncertaintyDeg,
  };
}

/** A row of a table. */
interface Row {
  readonly name: StandardTaperName;
  readonly series: StandardSeries;
  /** Large end, small end, length, confidence. */
  readonly fields: readonly string[];
}

function rowsOf(names: readonly StandardSeriesName[]): readonly Row[] {
  return names.flatMap((key) => {
    const series = STANDARD_SERIES[key];
    return series.rows
      .trim()
      .split('\n')
      .map((row) => {
        const [size = '', ...fields] = row.trim().split(' ');
        return { name: nameOf(key, size === '*' ? '' : size), series, fields };
      });
  });
}

function describe({ name, series, fields }: Row): StandardTaper {
  const defining = standardStatement(name);
  const [largeDiameter, smallDiameter, length, confidence = ''] = fields.map((field) =>
    field === '-' ? undefined : field,
  );
  const sizes =
    series.lengthMeans.includes('between') && largeDiameter && smallDiameter && length
      ? (12 * (Number(largeDiameter) - Number(smallDiameter))) / Number(length)
      : undefined;
  const lastDigit = 10 ** -(defining.value.split('.')[1]?.length ?? 0);
  const disagrees =
    sizes !== undefined && Math.abs(sizes - convertTaper({ standard: name }, 'perFoot')) > lastDigit / 2;
  return {
    name,
    series: series.title,
    taper: { [defining.statement]: Number(defining.value) } as unknown as Taper,
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
