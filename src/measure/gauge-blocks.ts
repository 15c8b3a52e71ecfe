/**
 * Gauge-block stacks: the fewest blocks whose sizes add up to a height, by exact decimal arithmetic.
 * Sizes are decimals, so they are counted in whole units of the last decimal place in use, and a sum
 * is exact or it is not: there is no rounding to argue about.
 *
 * The search is exhaustive and deepens one block at a time, so the first stack found has the fewest
 * blocks possible. It works from the finest decimal place upwards, as one does by hand: only blocks
 * that have a digit in the finest place can produce that digit, so few choices remain at each step.
 */
import { Decimal } from 'decimal.js';
import { list, options, text, whole } from '../core/checks.js';
import { refuse } from '../core/errors.js';
import type { Note } from '../core/notes.js';

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

/** What blocks there are, and how they may be used. */
export interface GaugeBlockOptions {
  /** A usual set by name, or the sizes of your own as decimal strings; a size listed twice is there twice. */
  readonly set: GaugeBlockSetName | readonly string[];
  /** Sizes that are missing, in use or damaged: one piece is taken out for each entry. */
  readonly without?: readonly string[];
  /** Thickness of the wear blocks, one of which closes each end of a stack; they are not part of the set. */
  readonly wearBlock?: string;
  /** Most blocks in a stack, wear blocks not counted: 1 to 10. Default 6. */
  readonly mostBlocks?: number;
}

/** A stack of gauge blocks. */
export interface GaugeBlockStack {
  /** Height asked for. */
  readonly height: string;
  /** Sizes from the set, largest first; no stack of fewer blocks has this sum. */
  readonly blocks: readonly string[];
  /** Wear blocks at the two ends, if asked for. */
  readonly wearBlocks: readonly string[];
  /** Exact height of the stack, wear blocks included. */
  readonly sum: string;
  /** Exact height asked for less the height of the stack: `0` if the stack is exact. */
  readonly remainder: string;
  /** Says when the height cannot be built exactly. */
  readonly notes: readonly Note[];
}

/**
 * Sizes of a usual set of gauge blocks.
 *
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
  if (!Object.hasOwn(SETS, name)) {
    return refuse('out-of-range', 'set', name, `must be one of ${Object.keys(SETS).join(', ')}`);
  }
  return SETS[name]
    .flatMap(([first, step, pieces]) =>
      Array.from({ length: pieces }, (_, i) => new Decimal(step).times(i).plus(first)),
    )
    .sort((a, b) => a.comparedTo(b))
    .map(String);
}

/**
 * The fewest gauge blocks for a height; where no stack has exactly that height, the nearest one.
 *
 * @param request - The height as a decimal string, in the unit of the set, and the blocks at hand.
 * @returns The stack, its exact sum and the exact remainder.
 * @throws GeneratrixError for a height or a size that is not a positive decimal, or too small for the wear blocks.
 * @example
 * ```ts
 * import { gaugeBlockStack } from 'generatrix';
 * gaugeBlockStack({ height: '3.9762', set: 'inch-81' }).blocks; // => ['3', '0.75', '0.126', '0.1002']
 * gaugeBlockStack({ height: '20.0003', set: 'metric-88' }).remainder; // => '-0.0002'
 * ```
 */
export function gaugeBlockStack(request: { readonly height: string } & GaugeBlockOptions): GaugeBlockStack {
  options(request, 'request', ['height', 'set'], OPTIONAL);
  const { height, ...rest } = request;
  const box = openBox(rest, [height]);
  return nearest(box, new Set(), new Decimal(height));
}

/**
 * Two stacks at once from one set, as for the two ends of a sine table or a limit gauge: no block is
 * used twice, and the two together have the fewest blocks possible where both can be exact.
 *
 * @param request - The two heights as decimal strings and the blocks at hand.
 * @returns The two stacks, in the order of the heights.
 * @throws GeneratrixError as {@link gaugeBlockStack}.
 * @example
 * ```ts
 * import { gaugeBlockStackPair } from 'generatrix';
 * const [go, notGo] = gaugeBlockStackPair({ heights: ['25.01', '25.02'], set: 'metric-88' });
 * [go.blocks, notGo.blocks]; // => [['20', '4', '1.01'], ['9.5', '8.5', '6', '1.02']]
 * ```
 */
export function gaugeBlockStackPair(
  request: { readonly heights: readonly [string, string] } & GaugeBlockOptions,
): readonly [GaugeBlockStack, GaugeBlockStack] {
  options(request, 'request', ['heights', 'set'], OPTIONAL);
  const { heights, ...rest } = request;
  if (list(heights, 'heights').length !== 2) return refuse('out-of-range', 'heights', heights, 'must hold two heights');
  const box = openBox(rest, heights);
  const [first, second] = heights.map((height) => new Decimal(height)) as [Decimal, Decimal];
  const units = [inUnits(box, first), inUnits(box, second)] as const;
  for (let total = 2; total <= 2 * box.mostBlocks; total++) {
    for (let count = Math.max(1, total - box.mostBlocks); count <= Math.min(total - 1, box.mostBlocks); count++) {
      for (const used of stacks(box, new Set(), units[0], count)) {
        for (const others of stacks(box, new Set(used), units[1], total - count)) {
          return [describe(box, first, used), describe(box, second, others)];
        }
      }
    }
  }
  // Not both can be exact: the first as well as it can be, the second from what is left.
  const used = nearestIndices(box, new Set(), first);
  return [describe(box, first, used), nearest(box, new Set(used), second)];
}

const OPTIONAL = ['without', 'wearBlock', 'mostBlocks'] as const;

/** The blocks at hand, counted in whole units of the finest decimal place. */
interface Box {
  /** Decimal places of the unit. */
  readonly places: number;
  /** Sizes in units, ascending in fineness: all blocks of one level stand together, largest first. */
  readonly sizes: readonly number[];
  /** For each size the highest power of ten that divides it: its level. */
  readonly levels: readonly number[];
  /** Indices by size. */
  readonly bySize: ReadonlyMap<number, readonly number[]>;
  /** Sums of the n largest blocks, n from 0. */
  readonly largest: readonly number[];
  readonly wearBlock: Decimal;
  readonly mostBlocks: number;
}

function openBox(given: GaugeBlockOptions, heights: readonly string[]): Box {
  const sizes = typeof given.set === 'string' ? [...gaugeBlockSet(given.set)] : [...list(given.set, 'set', 1)];
  const decimals = sizes.map((size, i) => decimal(size, `set[${i}]`));
  list(given.without ?? [], 'without').forEach((size, i) => {
    const missing = decimal(size, `without[${i}]`);
    const at = decimals.findIndex((block) => block.eq(missing));
    if (at < 0) refuse('contradiction', `without[${i}]`, size, 'must be a size that the set has, once for each piece');
    decimals.splice(at, 1);
  });
  const wearBlock = given.wearBlock === undefined ? new Decimal(0) : decimal(given.wearBlock, 'wearBlock');
  heights.forEach((height, i) => {
    if (decimal(height, heights.length === 1 ? 'height' : `heights[${i}]`).lte(wearBlock.times(2))) {
      refuse('impossible-geometry', 'height', height, `must exceed the two wear blocks, ${wearBlock.times(2)}`);
    }
  });
  // A stack's height may be finer than the blocks: the unit is the blocks', the rest is a remainder.
  const places = Math.max(0, ...decimals.map((size) => size.decimalPlaces()));
  const units = decimals.map((size) => size.times(Decimal.pow(10, places)).toNumber());
  if (units.some((size) => size > 1e12))
    refuse('out-of-range', 'set', given.set, 'must hold sizes of at most 12 digits');
  const level = (size: number): number => (size % 10 === 0 ? 1 + level(size / 10) : 0);
  const sorted = units.sort((a, b) => level(a) - level(b) || b - a);
  const bySize = new Map<number, number[]>();
  for (const [i, size] of sorted.entries()) bySize.set(size, [...(bySize.get(size) ?? []), i]);
  const largest = [0];
  for (const size of [...sorted].sort((a, b) => b - a)) largest.push((largest.at(-1) ?? 0) + size);
  const mostBlocks = whole(given.mostBlocks ?? 6, 'mostBlocks', { min: 1, max: 10 });
  return { places, sizes: sorted, levels: sorted.map(level), bySize, largest, wearBlock, mostBlocks };
}

function decimal(value: unknown, parameter: string): Decimal {
  if (!/^\d{0,9}(\.\d{1,9})?$/.test(text(value, parameter)) || value === '') {
    return refuse(
      'unreadable',
      parameter,
      value,
      'must be a decimal such as 0.1001, at most 9 digits before and after the point',
    );
  }
  const parsed = new Decimal(value as string);
  return parsed.gt(0) ? parsed : refuse('out-of-range', parameter, value, 'must be greater than 0');
}

/** Height of the blocks from the set, in units; not whole if the height is finer than the blocks. */
function inUnits(box: Box, height: Decimal): number {
  return height.minus(box.wearBlock.times(2)).times(Decimal.pow(10, box.places)).toNumber();
}

/**
 * Every stack of exactly `count` blocks for a height, as indices of blocks. A block at or beyond `from`
 * only: blocks are taken in order, so each stack comes up once.
 */
function* stacks(box: Box, used: ReadonlySet<number>, height: number, count: number, from = 0): Generator<number[]> {
  if (count === 1) {
    const last = box.bySize.get(height)?.find((i) => i >= from && !used.has(i));
    if (last !== undefined) yield [last];
    return;
  }
  if (height > (box.largest[Math.min(count, box.sizes.length)] ?? 0)) return;
  for (let i = from; i < box.sizes.length; i++) {
    // Blocks from here on are multiples of 10^level: they cannot make up a finer digit.
    if (height % 10 ** (box.levels[i] ?? 0) !== 0) return;
    const size = box.sizes[i] ?? 0;
    if (size >= height || used.has(i)) continue;
    for (const rest of stacks(box, used, height - size, count - 1, i + 1)) yield [i, ...rest];
  }
}

/** The fewest blocks for exactly this height in units, if any. */
function fewest(box: Box, used: ReadonlySet<number>, height: number): number[] | undefined {
  for (let count = 1; count <= box.mostBlocks; count++) {
    for (const stack of stacks(box, used, height, count)) return stack;
  }
  return undefined;
}

/** Steps outward from the height, one unit at a time, to the nearest that can be built. */
function nearestIndices(box: Box, used: ReadonlySet<number>, height: Decimal): number[] {
  const wanted = inUnits(box, height);
  const free = box.sizes.map((size, i) => ({ size, i })).filter(({ i }) => !used.has(i));
  const tallest = free.sort((a, b) => b.size - a.size).slice(0, box.mostBlocks);
  const limit = tallest.reduce((sum, { size }) => sum + size, 0);
  if (free.length === 0) return [];
  if (wanted >= limit) return tallest.map(({ i }) => i);
  const start = Math.round(wanted);
  for (let step = 0; ; step++) {
    // The nearer side first; on a tie the lower, which can still be shimmed up.
    const [near, far] = start > wanted ? [start - step, start + step] : [start + step, start - step];
    const candidates = [far, near].sort((a, b) => Math.abs(a - wanted) - Math.abs(b - wanted) || a - b);
    for (const candidate of candidates) {
      const found = candidate > 0 && candidate <= limit ? fewest(box, used, candidate) : undefined;
      if (found) return found;
    }
  }
}

function nearest(box: Box, used: ReadonlySet<number>, height: Decimal): GaugeBlockStack {
  return describe(box, height, nearestIndices(box, used, height));
}

function describe(box: Box, height: Decimal, indices: readonly number[]): GaugeBlockStack {
  const unit = Decimal.pow(10, -box.places);
  const blocks = indices.map((i) => unit.times(box.sizes[i] ?? 0)).sort((a, b) => b.comparedTo(a));
  const wearBlocks = box.wearBlock.isZero() ? [] : [box.wearBlock, box.wearBlock];
  const sum = [...blocks, ...wearBlocks].reduce((total, size) => total.plus(size), new Decimal(0));
  const remainder = height.minus(sum);
  const notes: Note[] = remainder.isZero()
    ? []
    : [
        {
          code: 'stack-not-exact',
          message: `No stack of at most ${box.mostBlocks} blocks is ${height} high; the nearest is ${sum}.`,
          values: { remainder: remainder.toNumber() },
        },
      ];
  return {
    height: height.toString(),
    blocks: blocks.map(String),
    wearBlocks: wearBlocks.map(String),
    sum: sum.toString(),
    remainder: remainder.toString(),
    notes,
  };
}
