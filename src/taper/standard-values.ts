/**
 * The defining value of each named taper, as its standard states it. Decimal text, so that the exact
 * forms read it without rounding. Where only a transcription was seen, no original standard, the comment says so:
 * all values here come from secondary tables, agreeing in at least two of them unless noted.
 */
import { refuse } from '../core/errors.js';
import { type Reader, text, vouched } from '../core/read.js';

/** How a standard defines its taper. */
export interface StandardStatement {
  /** The way it is stated. */
  readonly statement: 'perFoot' | 'oneIn' | 'percent';
  /** The number, as decimal text. */
  readonly value: string;
}

/** Sizes, and one value for each of them or one for all. A series without sizes has one size, ''. */
interface Series {
  readonly statement: StandardStatement['statement'];
  readonly sizes: string;
  readonly values: string;
}

const SERIES: Readonly<Record<string, Series>> = {
  // ASME B5.10, inch per foot; the metric 1 : x of ISO 296 is the same cone rounded. 4.5: one source, no longer in the standard.
  morse: {
    statement: 'perFoot',
    sizes: '0 1 2 3 4 4.5 5 6 7',
    values: '0.6246 0.59858 0.59941 0.60235 0.62326 0.624 0.63151 0.62565 0.624',
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
  'taper-pin-inch': { statement: 'perFoot', sizes: '', values: '0.25' },
  // ISO 2339: 1 : 50.
  'taper-pin-metric': { statement: 'oneIn', sizes: '', values: '50' },
  // ASME B1.20.1 and ISO 7-1: 1 : 16.
  'pipe-thread': { statement: 'oneIn', sizes: '', values: '16' },
  // ISO 80369-7: 6 %.
  luer: { statement: 'percent', sizes: '', values: '6' },
};

/** Reads the name of a standard taper. */
export const standardName: Reader<string> = vouched(text(), (name) => {
  standardStatement(name, '');
});

/** The statement that defines a taper named `series` or `series-size`, such as `morse-3`. */
export function standardStatement(name: string, parameter: string): StandardStatement {
  for (const [series, { statement, sizes, values }] of Object.entries(SERIES)) {
    const at = sizes.split(' ').findIndex((size) => name === (size ? `${series}-${size}` : series));
    const [common = '', ...others] = values.split(' ');
    if (at >= 0) return { statement, value: others.length ? (values.split(' ')[at] ?? common) : common };
  }
  return refuse('no-data', parameter, name, `must be a size of ${Object.keys(SERIES).join(', ')}, such as morse-3`);
}
