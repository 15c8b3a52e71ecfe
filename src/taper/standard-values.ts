/**
 * The defining value of each named taper, as its standard states it. Decimal text, so that the exact
 * forms read it without rounding. Where only a transcription was seen, no original standard, the comment says so:
 * all values here come from secondary tables, agreeing in at least two of them unless noted. The sizes that go with
 * them, and how far each can be trusted, are in standards-data.ts.
 */
import { refuse } from '../core/errors.js';
import { type Reader, text, vouched } from '../core/read.js';

/** How a standard defines its taper. */
export interface StandardStatement {
  /** The way it is stated. */
  readonly statement: 'perFoot' | 'oneIn' | 'percent' | 'includedAngleDeg';
  /** The number, as decimal text. */
  readonly value: string;
}

/**
 * Sizes, and one value for each of them or one for all; without values each size says its own, 20 or 1-20. Names are
 * made of series and size; the size '' is the series alone.
 */
interface Series {
  readonly statement: StandardStatement['statement'];
  readonly sizes: string;
  readonly values?: string;
}

const SERIES = {
  // ASME B5.10, inch per foot; the metric 1 : x of ISO 296 is the same cone rounded. 4.5: one source, no longer in the standard.
  morse: {
    statement: 'perFoot',
    sizes: '0 1 2 3 4 4.5 5 6 7',
    values: '0.6246 0.59858 0.59941 0.60235 0.62326 0.624 0.63151 0.62565 0.624',
  },
  // ISO 296, DIN 228.
  'morse-mm': {
    statement: 'oneIn',
    sizes: '0 1 2 3 4 5 6 7',
    values: '19.212 20.047 20.020 19.922 19.254 19.002 19.180 19.231',
  },
  // 17 and 18: one source.
  'brown-sharpe': {
    statement: 'perFoot',
    sizes: '1 2 3 4 5 6 7 8 9 10 11 12 13 14 15 16 17 18',
    values:
      '0.502 0.502 0.502 0.5024 0.5016 0.50329 0.50147 0.501 0.50085 0.51612 0.501 0.49973 0.5002 0.5 0.5 0.5 0.5 0.5',
  },
  jarno: { statement: 'perFoot', sizes: '2 3 4 5 6 7 8 9 10 11 12 13 14 15 16 17 18 19 20', values: '0.6' },
  // One source, and to four decimals only.
  jacobs: {
    statement: 'perFoot',
    sizes: '0 1 2 2-short 3 4 5 6 33',
    values: '0.5915 0.9251 0.9786 0.9786 0.639 0.6289 0.6201 0.6229 0.7619',
  },
  // ISO 296: 1 : 20 from one source, the list of sizes from memory, not verified.
  metric: { statement: 'oneIn', sizes: '4 6 80 100 120 160 200', values: '20' },
  // ISO 297, 7 : 24; sizes 10 to 25 and 55 from memory, not verified.
  'steep-7-24': { statement: 'perFoot', sizes: '10 15 20 25 30 35 40 45 50 55 60', values: '3.5' },
  // ASME B5.10: the series from one source, its sizes from memory, not verified.
  'asme-3-4': { statement: 'perFoot', sizes: '200 250 300 350 400 450 500 600 800 1000 1200', values: '0.75' },
  // ASME B18.8.2: 1 : 48.
  'taper-pin-inch': { statement: 'perFoot', sizes: ' 7/0 6/0 5/0 4/0 3/0 2/0 0 1 2 3 4 5 6 7 8 9 10', values: '0.25' },
  // ISO 2339: 1 : 50.
  'taper-pin-metric': { statement: 'oneIn', sizes: '', values: '50' },
  // ASME B1.20.1 and ISO 7-1: 1 : 16.
  'pipe-thread': { statement: 'oneIn', sizes: '', values: '16' },
  // ISO 80369-7: 6 %.
  luer: { statement: 'percent', sizes: '', values: '6' },
  // ISO 1119, general purposes; 4, 6, 50, 100 and 200: one source.
  'iso-1119': { statement: 'oneIn', sizes: '1-3 1-4 1-5 1-6 1-7 1-8 1-10 1-12 1-15 1-20 1-30 1-50 1-100 1-200 1-500' },
  'iso-1119-angle': { statement: 'includedAngleDeg', sizes: '120 90 75 60 45 30' },
  // ISO 1119, special purposes: from memory, not verified, but for 1 : 40, which one source gives.
  'iso-1119-special': {
    statement: 'oneIn',
    sizes: '1-12.262 1-12.972 1-15.748 1-18.779 1-19.264 1-20.288 1-23.904 1-28 1-36 1-38 1-40 1-64',
  },
  'iso-1119-special-angle': {
    statement: 'includedAngleDeg',
    sizes: '18.5 11.9 8-40 7',
    values: '18.5 11.9 8.6666666666666667 7',
  },
} as const;

type Words<S extends string> = S extends `${infer First} ${infer Rest}` ? First | Words<Rest> : S;
type Named<S extends string, Size extends string> = Size extends '' ? S : `${S}-${Size}`;

/** The series of standard tapers: how the names of their sizes begin. */
export type StandardSeriesName = keyof typeof SERIES;

/** Names of the standard tapers: series and size. */
export type StandardTaperName = {
  [S in StandardSeriesName]: Named<S, Words<(typeof SERIES)[S]['sizes']>>;
}[StandardSeriesName];

/** Reads the name of a standard taper. */
export const standardName: Reader<StandardTaperName> = vouched(
  text() as Reader<unknown> as Reader<StandardTaperName>,
  (name) => {
    standardStatement(name);
  },
);

/** The statement that defines a standard taper. */
export function standardStatement(name: StandardTaperName): StandardStatement {
  for (const [series, { statement, sizes, values = sizes }] of Object.entries<Series>(SERIES)) {
    const at = name.startsWith(series) ? sizes.split(' ').findIndex((size) => name === nameOf(series, size)) : -1;
    if (at < 0) continue;
    const each = values.split(' ');
    return { statement, value: (each[each.length > 1 ? at : 0] as string).replace('1-', '') };
  }
  return refuse('no-data', '', name, `must be a size of ${Object.keys(SERIES).join(', ')}, such as morse-3`);
}

/** The name of a size in its series. */
export function nameOf(series: string, size: string): StandardTaperName {
  return (size === '' ? series : `${series}-${size}`) as StandardTaperName;
}
