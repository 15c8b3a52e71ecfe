/**
 * The search behind gauge-block stacks: the fewest of given blocks that are exactly so high, or else the stack
 * that comes nearest. Sizes are whole numbers, units of the blocks' last decimal place.
 *
 * Exact stacks are searched as one builds them by hand: from the finest decimal place upwards, since only blocks
 * with a digit there can produce that digit. It deepens one block at a time, so the first stack found has the
 * fewest blocks. Where no stack is exact, or sizes are so fine that digits rule out little (calibrated sizes), halves of
 * stacks are listed by height and meet in the middle (E. Horowitz and S. Sahni, Computing partitions with
 * applications to the knapsack problem, J. ACM 21 (1974), 277-292): the nearest of all stacks.
 */
import { refuse } from '../core/errors.js';

/** Blocks, in the order of the search. */
export interface Rack {
  /** Sizes: those with a digit in the finest place first, then those of the next place, each largest first. */
  readonly sizes: readonly number[];
  /** For each size the highest power of ten that divides it. */
  readonly powers: readonly number[];
  /** Indices by size. */
  readonly bySize: ReadonlyMap<number, readonly number[]>;
  /** Sums of the n largest blocks, n from 0. */
  readonly largest: readonly number[];
  /** Most blocks in a stack. */
  readonly mostBlocks: number;
}

/** Steps that a search may still take: some half a second's work. */
export interface Work {
  left: number;
}

/** Steps of an exact search before it gives way: many times what the usual sets need. */
const EXACT_WORK = 2e6;
/** Steps of the search through halves. */
const HALVES_WORK = 2e7;
/** What it takes to build and sort half a stack, in steps. */
const PER_HALF = 40;

/** Puts blocks in order; sizes are positive whole numbers. */
export function rackOf(given: readonly number[], mostBlocks: number): Rack {
  const power = (size: number): number => (size % 10 === 0 ? 10 * power(size / 10) : 1);
  const sizes = [...given].sort((a, b) => power(a) - power(b) || b - a);
  const bySize = new Map<number, number[]>();
  for (const [i, size] of sizes.entries()) {
    const same = bySize.get(size);
    if (same) same.push(i);
    else bySize.set(size, [i]);
  }
  const largest = [0];
  for (const size of [...sizes].sort((a, b) => b - a)) largest.push((largest.at(-1) as number) + size);
  return { sizes, powers: sizes.map(power), bySize, largest, mostBlocks };
}

/**
 * Every stack of exactly `count` blocks for a height, as indices of blocks, until the work is done. Only blocks
 * at or beyond `from`: they are taken in order, so each stack comes up once.
 */
export function* stacks(
  rack: Rack,
  used: ReadonlySet<number>,
  height: number,
  count: number,
  work: Work,
  from = 0,
): Generator<number[]> {
  const last = (left: number, beyond: number): number | undefined =>
    rack.bySize.get(left)?.find((i) => i >= beyond && !used.has(i));
  if (count === 1) {
    const only = last(height, from);
    if (only !== undefined) yield [only];
    return;
  }
  if (height > (rack.largest[Math.min(count, rack.sizes.length)] as number)) return;
  for (let i = from; i < rack.sizes.length; i++) {
    if (work.left-- <= 0) return;
    // Blocks from here on are multiples of this power of ten: they cannot make up a finer digit.
    if (height % (rack.powers[i] as number) !== 0) return;
    const size = rack.sizes[i] as number;
    if (size >= height || used.has(i)) continue;
    if (count === 2) {
      const other = last(height - size, i + 1);
      if (other !== undefined) yield [i, other];
      continue;
    }
    for (const rest of stacks(rack, used, height - size, count - 1, work, i + 1)) yield [i, ...rest];
  }
}

/** The stack nearest to a height, as indices of blocks: of two as near the lower one, which can still be shimmed up. */
export function nearestStack(rack: Rack, used: ReadonlySet<number>, wanted: number, parameter: string): number[] {
  const free = [...rack.sizes.keys()].filter((i) => !used.has(i));
  const size = (i: number): number => rack.sizes[i] as number;
  if (free.length === 0) return [];
  const tallest = [...free].sort((a, b) => size(b) - size(a)).slice(0, rack.mostBlocks);
  if (wanted >= tallest.reduce((sum, i) => sum + size(i), 0)) return tallest;
  // No sum but multiples of what divides all sizes.
  const unit = free.map(size).reduce(commonDivisor);
  const ideal = unit * Math.ceil(wanted / unit - 0.5);
  const work = { left: EXACT_WORK };
  for (let count = 1; ideal > 0 && count <= rack.mostBlocks; count++) {
    for (const stack of stacks(rack, used, ideal, count, work)) return stack;
  }
  return nearestOfHalves(rack, free, wanted, ideal, parameter);
}

/** Some blocks and their height. */
interface Half {
  readonly sum: number;
  /** Indices, rising. */
  readonly blocks: readonly number[];
}

/** The nearest stack, out of two halves each; `ideal` is the sum that none can better. */
function nearestOfHalves(rack: Rack, free: readonly number[], wanted: number, ideal: number, parameter: string) {
  const work = { left: HALVES_WORK };
  let best: Half = { sum: Infinity, blocks: [] };
  const better = (sum: number): boolean => {
    const less = Math.abs(sum - wanted) - Math.abs(best.sum - wanted);
    return less < 0 || (less === 0 && sum < best.sum);
  };
  let blocks = free;
  const halves: Half[][] = [[{ sum: 0, blocks: [] }]];
  for (let count = 1; count <= Math.min(rack.mostBlocks, blocks.length) && best.sum !== ideal; count++) {
    const [more, less] = [Math.ceil(count / 2), Math.floor(count / 2)];
    if (more === halves.length) {
      const shorter = halves[more - 1] as readonly Half[];
      // Each grows by the blocks that follow its last one: n choose k in all.
      const some = (shorter.length * (blocks.length - more + 1)) / more;
      work.left -= PER_HALF * some;
      if (work.left < 0) return tooMuch(rack, count, free.length, parameter);
      halves.push(longer(rack, shorter, blocks));
    }
    for (const [tall, low] of meetings(halves[more] as Half[], halves[less] as Half[], wanted, better, work)) {
      const sum = tall.sum + low.sum;
      best = { sum, blocks: [...tall.blocks, ...low.blocks] };
    }
    if (work.left < 0) return tooMuch(rack, count, free.length, parameter);
    if (count === 1) {
      // A block that overshoots by more than the best single one misses can be part of nothing better.
      const miss = Math.abs(best.sum - wanted);
      blocks = free.filter((i) => (rack.sizes[i] as number) <= wanted + miss);
      halves.length = 1;
      halves.push(longer(rack, halves[0] as readonly Half[], blocks));
    }
  }
  return [...best.blocks];
}

/** Pairs of halves without a block in common, each better than those before. */
function* meetings(
  tall: readonly Half[],
  low: readonly Half[],
  wanted: number,
  better: (sum: number) => boolean,
  work: Work,
): Generator<readonly [Half, Half]> {
  let at = low.length - 1;
  for (const half of tall) {
    const sum = (i: number): number => half.sum + (low[i]?.sum ?? Infinity);
    while (at >= 0 && sum(at) > wanted) at--;
    for (const way of [-1, 1]) {
      for (let i = way < 0 ? at : at + 1; i >= 0 && i < low.length && better(sum(i)); i += way) {
        if (work.left-- < 0) return;
        const other = low[i] as Half;
        if (half.blocks.some((block) => other.blocks.includes(block))) continue;
        yield [half, other];
        break;
      }
    }
  }
}

/** All choices of one block more, by height. */
function longer(rack: Rack, shorter: readonly Half[], blocks: readonly number[]): Half[] {
  const found: Half[] = [];
  for (const half of shorter) {
    const last = half.blocks.at(-1) ?? -1;
    for (const i of blocks) {
      if (i > last) found.push({ sum: half.sum + (rack.sizes[i] as number), blocks: [...half.blocks, i] });
    }
  }
  return found.sort((a, b) => a.sum - b.sum);
}

function tooMuch(rack: Rack, count: number, blocks: number, parameter: string): never {
  const max = count - 1;
  const phrase = `must be at most ${max}: of ${blocks} blocks more make too many stacks to find the nearest`;
  return refuse('not-converged', parameter, rack.mostBlocks, { kind: 'number', min: 1, max, whole: true, phrase });
}

function commonDivisor(a: number, b: number): number {
  return b === 0 ? a : commonDivisor(b, a % b);
}
