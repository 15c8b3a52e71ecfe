/**
 * Sizes of the standard tapers; the values that define them are in standard-values.ts. No original standard could be
 * read: every row was seen in secondary tables (two that agree, or one; tables may share an ancestor) or comes from
 * memory, and says which.
 *
 * Diameters and lengths are decimal text as printed. A row is: size (`*` for the series alone), large end, small end,
 * length, confidence; `-` where nothing reliable was found; confidence 2 and 1 count the secondary tables, m is
 * memory, not verified.
 */
import type { StandardSeriesName } from './standard-values.js';

/** One series of standard tapers. */
export interface StandardSeries {
  /** The series in words, with its standards. */
  readonly title: string;
  /** Unit of the sizes. */
  readonly unit: 'in' | 'mm';
  /** What the length is. */
  readonly lengthMeans: string;
  /** Where the values were seen. */
  readonly sources: readonly string[];
  /** The rows. */
  readonly rows: string;
}

const HANDBOOK = "Machinery's Handbook, 19th edition (through a transcription)";
const BETWEEN = 'axial distance between the two diameters';
const GOST = 'GOST R 53440-2009 (ISO 1119:1998 modified), table 1';

/** The series by the first part of their names. */
export const STANDARD_SERIES: Readonly<Record<StandardSeriesName, StandardSeries>> = {
  morse: {
    title: 'Morse, inch (ASME B5.10)',
    unit: 'in',
    lengthMeans: `plug depth, ${BETWEEN}`,
    sources: [HANDBOOK, '1 to 3 secondary dimension tables'],
    rows: `
      0 0.3561 0.252 2 2
      1 0.475 0.369 2.125 2
      2 0.700 0.572 2.5625 2
      3 0.938 0.778 3.1875 2
      4 1.231 1.020 4.0625 2
      4.5 1.5000 1.2660 4.5 1
      5 1.748 1.475 5.1875 2
      6 2.494 2.116 7.25 2
      7 3.270 2.750 10 2`,
  },
  'morse-mm': {
    title: 'Morse, metric (ISO 296, DIN 228)',
    unit: 'mm',
    lengthMeans: 'shank from the gauge plane, with tang, at most; not the distance of the two diameters',
    sources: [
      'ISO 296 and DIN 228-1 through an encyclopaedia article',
      'DIN 228 through an encyclopaedia article (small ends: this source only)',
      'a secondary dimension table',
    ],
    rows: `
      0 9.045 6.401 56.5 2
      1 12.065 9.371 62.0 2
      2 17.780 14.534 75.0 2
      3 23.825 19.76 94.0 2
      4 31.267 25.909 117.5 2
      5 44.399 37.47 149.5 2
      6 63.348 53.752 210.0 2
      7 83.058 - 286.0 2`,
  },
  'brown-sharpe': {
    title: 'Brown & Sharpe',
    unit: 'in',
    lengthMeans: `one of several plug depths in use: ${BETWEEN}`,
    sources: [HANDBOOK, '1 to 2 secondary dimension tables', 'large ends computed for this plug depth'],
    rows: `
      1 0.23922 0.20000 0.9375 2
      2 0.29968 0.25000 1.1875 2
      3 0.37525 0.31250 1.5 2
      4 0.42065 0.35000 1.6875 2
      5 0.53882 0.45000 2.125 2
      6 0.59961 0.50000 2.375 2
      7 0.72014 0.60000 2.875 2
      8 0.89873 0.75000 3.5625 2
      9 1.07748 0.90010 4.25 2
      10 1.25970 1.04465 5 2
      11 1.49784 1.24995 5.9375 2
      12 1.79681 1.50010 7.125 2
      13 2.07310 1.75005 7.75 2
      14 2.34375 2.00000 8.25 2
      15 2.61458 2.25000 8.75 2
      16 2.88542 2.50000 9.25 2
      17 3.15625 2.75000 9.75 1
      18 3.42708 3.00000 10.25 1`,
  },
  jarno: {
    title: 'Jarno: number / 8, number / 10 and number / 2',
    unit: 'in',
    lengthMeans: BETWEEN,
    sources: [HANDBOOK, 'US Army ordnance course OD1645', 'a secondary dimension table'],
    rows: `
      2 0.25 0.2 1 2
      3 0.375 0.3 1.5 2
      4 0.5 0.4 2 2
      5 0.625 0.5 2.5 2
      6 0.75 0.6 3 2
      7 0.875 0.7 3.5 2
      8 1 0.8 4 2
      9 1.125 0.9 4.5 2
      10 1.25 1 5 2
      11 1.375 1.1 5.5 2
      12 1.5 1.2 6 2
      13 1.625 1.3 6.5 2
      14 1.75 1.4 7 2
      15 1.875 1.5 7.5 2
      16 2 1.6 8 2
      17 2.125 1.7 8.5 2
      18 2.25 1.8 9 2
      19 2.375 1.9 9.5 2
      20 2.5 2 10 2`,
  },
  jacobs: {
    title: 'Jacobs',
    unit: 'in',
    lengthMeans: BETWEEN,
    sources: [HANDBOOK, '3 secondary dimension tables (taper per foot: one of them)'],
    rows: `
      0 0.2500 0.22844 0.4375 1
      1 0.3840 0.33341 0.65625 1
      2 0.5590 0.48764 0.875 1
      2-short 0.5488 0.48764 0.75 1
      3 0.8110 0.74610 1.21875 1
      4 1.1240 1.0372 1.65625 1
      5 1.4130 1.3161 1.875 1
      6 0.6760 0.62410 1 1
      33 0.6240 0.5605 1 1`,
  },
  metric: {
    title: 'Metric 1 : 20 (ISO 296, DIN 228)',
    unit: 'mm',
    lengthMeans: 'not found',
    sources: [
      'memory, not verified',
      'technical drawing textbook (Westermann), for the existence of size 80',
      'Lueger, Lexikon der gesamten Technik (1904), for the taper',
    ],
    rows: `
      4 4 - - m
      6 6 - - m
      80 80 - - 1
      100 100 - - m
      120 120 - - m
      160 160 - - m
      200 200 - - m`,
  },
  'steep-7-24': {
    title: '7/24 steep taper (ASME B5.10, ISO 297, DIN 2080); large end at the gauge line',
    unit: 'mm',
    lengthMeans: 'depends on the shank standard',
    sources: ['ISO/R 297:1963 title', '2 to 3 secondary dimension tables', 'memory for sizes 10, 15, 20, 25 and 55'],
    rows: `
      10 15.875 - - m
      15 19.05 - - m
      20 22.225 - - m
      25 25.4 - - m
      30 31.75 - - 2
      35 38.1 - - 2
      40 44.45 - - 2
      45 57.15 - - 2
      50 69.85 - - 2
      55 88.9 - - m
      60 107.95 - - 2`,
  },
  'asme-3-4': {
    title: 'Self-holding, 3/4 in per foot (ASME B5.10)',
    unit: 'in',
    lengthMeans: 'not found',
    sources: ['memory, not verified', 'ANSI B5.10-1981 errata (1984), for the existence of the series'],
    rows: `
      200 2.000 - - m
      250 2.500 - - m
      300 3.000 - - m
      350 3.500 - - m
      400 4.000 - - m
      450 4.500 - - m
      500 5.000 - - m
      600 6.000 - - m
      800 8.000 - - m
      1000 10.000 - - m
      1200 12.000 - - m`,
  },
  'taper-pin-inch': {
    title: 'Taper pin, inch (ASME B18.8.2); length by choice',
    unit: 'in',
    lengthMeans: 'by choice',
    sources: [
      "ASME B18.8.2 through a pin maker's data sheet",
      'US Army ordnance course OD1645',
      'memory for the large ends of sizes 5 to 10',
    ],
    rows: `
      * - - - 2
      7/0 0.0625 - - 1
      6/0 0.0780 - - 1
      5/0 0.0940 - - 1
      4/0 0.1090 - - 1
      3/0 0.1250 - - 1
      2/0 0.1410 - - 1
      0 0.1560 - - 1
      1 0.1720 - - 1
      2 0.1930 - - 1
      3 0.2190 - - 1
      4 0.2500 - - 1
      5 0.2890 - - m
      6 0.3410 - - m
      7 0.4090 - - m
      8 0.4920 - - m
      9 0.5910 - - m
      10 0.7060 - - m`,
  },
  'taper-pin-metric': {
    title: 'Taper pin, metric (ISO 2339, DIN 1)',
    unit: 'mm',
    lengthMeans: 'by choice',
    sources: ['encyclopaedia article on taper pins', 'DIN 1 as quoted by a maker'],
    rows: '* - - - 2',
  },
  'pipe-thread': {
    title: 'Taper pipe thread (ASME B1.20.1, ISO 7-1)',
    unit: 'in',
    lengthMeans: 'not found',
    sources: ['ASME B1.20.1 extract', 'encyclopaedia article on pipe thread', 'a secondary dimension table (ISO 7-1)'],
    rows: '* - - - 2',
  },
  luer: {
    title: '6 % conical fitting (ISO 594-1, ISO 80369-7)',
    unit: 'mm',
    lengthMeans: 'not found',
    sources: ['ISO 594-1:1986 abstract', 'a secondary dimension table'],
    rows: '* - - - 2',
  },
  'iso-1119': {
    title: 'ISO 1119, general purposes',
    unit: 'mm',
    lengthMeans: 'by choice',
    sources: [GOST, 'GOST 8593-81 as quoted in a secondary list', 'a shop manual table (scan) for some'],
    rows: `
      1-3 - - - 2
      1-4 - - - 1
      1-5 - - - 2
      1-6 - - - 1
      1-7 - - - 2
      1-8 - - - 2
      1-10 - - - 2
      1-12 - - - 2
      1-15 - - - 2
      1-20 - - - 2
      1-30 - - - 2
      1-50 - - - 1
      1-100 - - - 1
      1-200 - - - 1
      1-500 - - - 2`,
  },
  'iso-1119-angle': {
    title: 'ISO 1119, general purposes, by cone angle',
    unit: 'mm',
    lengthMeans: 'by choice',
    sources: [GOST, 'ISO 1119 scope text'],
    rows: `
      120 - - - 2
      90 - - - 2
      75 - - - 2
      60 - - - 2
      45 - - - 2
      30 - - - 2`,
  },
  'iso-1119-special': {
    title: 'ISO 1119, special purposes',
    unit: 'mm',
    lengthMeans: 'by choice',
    sources: ['memory, not verified', `${GOST}, for 1 : 40`],
    rows: `
      1-12.262 - - - m
      1-12.972 - - - m
      1-15.748 - - - m
      1-18.779 - - - m
      1-19.264 - - - m
      1-20.288 - - - m
      1-23.904 - - - m
      1-28 - - - m
      1-36 - - - m
      1-38 - - - m
      1-40 - - - 1
      1-64 - - - m`,
  },
  'iso-1119-special-angle': {
    title: "ISO 1119, special purposes, by cone angle (18°30', 11°54', 8°40', 7°)",
    unit: 'mm',
    lengthMeans: 'by choice',
    sources: ['memory, not verified'],
    rows: `
      18.5 - - - m
      11.9 - - - m
      8-40 - - - m
      7 - - - m`,
  },
};
