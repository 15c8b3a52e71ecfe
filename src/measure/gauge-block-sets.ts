/**
 * What gauge blocks there are: the usual sets, and sizes as decimal text. Sizes are counted in whole units of
 * the ninth decimal place, so that sums are exact. Lengths in the unit of the set.
 */
import type { Allowed } from '../core/errors.js';
import { refuse } from '../core/errors.js';
import { readFigures } from '../core/rational.js';
import { choice, type Reader, readValue, text, vouched } from '../core/read.js';

/** Usual sets of gauge blocks, by unit and number of pieces. */
export type GaugeBlockSetName = 'inch-81' | 'metric-87' | 'metric-88' | 'metric-112';

/** First size, step and number of pieces of each run of a set. */
type Runs = readonly (readonly [first: string, step: string, pieces: number])[];

const METRIC_COMMON: Runs = [
  ['1.001', '0.001', 9],
  ['1.01', '0.01', 49],
];

/** Compositions as sold under ISO 3650 and ASME B89.1.9: common practice, from memory; the piece counts agree. */
const SETS: Readonly<Record<GaugeBlockSetName, Runs>> = {
  'inch-81': [
    ['0.1001', '0.0001', 9],
    ['0.101', '0.001', 49],
    ['0.05', '0.05', 19],
    ['1', '1', 4],
  ],
  'metric-87': [...METRIC_COMMON, ['0.5', '0.5', 19], ['10', '10', 10]],
  'metric-88': [['1.0005', '0', 1], ...METRIC_COMMON, ['0.5', '0.5', 19], ['10', '10', 10]],
  'metric-112': [['1.0005', '0', 1], ...METRIC_COMMON, ['0.5', '0.5', 49], ['25', '25', 4]],
};

/** Reads the name of a set. */
export const setName: Reader<GaugeBlockSetName> = choice('inch-81', 'metric-87', 'metric-88', 'metric-112');

/**
 * Sizes of a usual set of gauge blocks.
 * @param name - Unit and number of pieces.
 * @returns The sizes as decimal strings, in the unit of the set, in ascending order.
 * @throws GeneratrixError `out-of-range` for a name that is not known.
 * @example
 * ```ts
 * import { gaugeBlockSet } from 'generatrix';
 * gaugeBlockSet('inch-81').length; // => 81
 * ```
 */
export function gaugeBlockSet(name: GaugeBlockSetName): readonly string[] {
  return SETS[readValue(name, setName)]
    .flatMap(([first, step, pieces]) =>
      Array.from({ length: pieces }, (_, i) => unitsOf(first) + BigInt(i) * unitsOf(step)),
    )
    .sort((a, b) => (a < b ? -1 : 1))
    .map(decimalOf);
}

/** Decimal places that a size may have. */
export const PLACES = 9;

const DECIMAL: Allowed = {
  kind: 'text',
  phrase: 'must be a decimal such as 0.1001, greater than 0, at most 9 digits before and after the point',
};

/** Reads a size or a height as decimal text. */
export const decimal: Reader<string> = vouched(text(), (value) => {
  if (!/^(?=\.?\d)\d{0,9}(\.\d{1,9})?$/.test(value)) refuse('unreadable', '', value, DECIMAL);
  if (unitsOf(value) === 0n) refuse('out-of-range', '', value, DECIMAL);
});

/** Decimal text that was read, in units of the last place. */
export function unitsOf(text: string): bigint {
  const { over, under } = readFigures(text);
  return (over * 10n ** BigInt(PLACES)) / under;
}

/** Units of the last place as decimal text, without needless zeros. */
export function decimalOf(units: bigint): string {
  const digits = String(units < 0n ? -units : units).padStart(PLACES + 1, '0');
  const decimals = digits.slice(-PLACES).replace(/0+$/, '');
  return `${units < 0n ? '-' : ''}${digits.slice(0, -PLACES)}${decimals === '' ? '' : '.'}${decimals}`;
}
