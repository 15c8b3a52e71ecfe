/**
 * Gauge-block stacks: the fewest blocks whose sizes add up to a height. Sizes are decimal text and are counted in
 * whole units of the last decimal place in use, so a sum is exact or it is not: there is no rounding to argue about.
 */
import { refuse } from '../core/errors.js';
import { array, defaulted, either, type Fields, object, optional, type Reader, read, whole } from '../core/read.js';
import { type Note, note } from '../core/words.js';
import { nearestStack, type Rack, rackOf, stacks } from './gauge-block-search.js';
import {
  decimal,
  decimalOf,
  type GaugeBlockSetName,
  gaugeBlockSet,
  PLACES,
  setName,
  unitsOf,
} from './gauge-block-sets.js';
import { SENTENCES } from './words.js';

/** What blocks there are, and how they may be used. */
export interface GaugeBlockOptions {
  /**
   * A usual set by name, or the sizes of your own as decimal strings (at most 1000, of at most 12 digits between the
   * largest and the last decimal place); a size listed twice is there twice.
   */
  readonly set: GaugeBlockSetName | readonly string[];
  /** Sizes that are missing, in use or damaged: one piece is taken out for each entry. @defaultValue `[]` */
  readonly without?: readonly string[];
  /**
   * Thickness of the wear blocks, one of which closes each end of a stack; they are not part of the set.
   * @defaultValue no wear blocks
   */
  readonly wearBlock?: string;
  /** Most blocks in a stack, wear blocks not counted: 1 to 10. @defaultValue 6 */
  readonly mostBlocks?: number;
}

/** A height to be built. */
export interface GaugeBlockStackOptions extends GaugeBlockOptions {
  /** The height as a decimal string, in the unit of the set. */
  readonly height: string;
}

/** Two heights to be built at once. */
export interface GaugeBlockStackPairOptions extends GaugeBlockOptions {
  /** The two heights as decimal strings, in the unit of the set. */
  readonly heights: readonly [string, string];
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
  /** Says when the height cannot be built exactly, or that of two stacks at once better ones may exist. */
  readonly notes: readonly Note<'stack-not-exact' | 'fewest-not-proven'>[];
}

const BLOCKS: Fields<GaugeBlockOptions, 'without' | 'mostBlocks'> = {
  set: either((given) => typeof given === 'string', setName, array(decimal, 1, 1000), {
    kind: 'relation',
    choices: setName.allowed.choices ?? [],
    phrase: `must be one of ${setName.allowed.choices?.join(', ')}, or an array of sizes`,
  }),
  without: defaulted(array(decimal), []),
  wearBlock: optional(decimal),
  mostBlocks: defaulted(whole({ min: 1, max: 10 }), 6),
};

/** Reads what blocks there are. */
export const gaugeBlocks: Reader<GaugeBlockOptions> = object(BLOCKS);

const STACK: Fields<GaugeBlockStackOptions, 'without' | 'mostBlocks'> = { height: decimal, ...BLOCKS };

const PAIR: Fields<GaugeBlockStackPairOptions, 'without' | 'mostBlocks'> = {
  heights: array(decimal, 2, 2) as unknown as Reader<readonly [string, string]>,
  ...BLOCKS,
};

/**
 * The fewest gauge blocks for a height; where no stack has exactly that height, the nearest one.
 *
 * To find the nearest one of all stacks takes work that grows with the number of blocks at hand: up to 6 in a stack
 * out of 112, 8 out of 50 and 10 out of 33 are within its limit, more may be refused.
 * @throws GeneratrixError for a height or a size that is not a positive decimal, or too small for the wear blocks;
 * `not-converged` with the `mostBlocks` that can be searched.
 * @example
 * ```ts
 * import { gaugeBlockStack } from 'generatrix';
 * gaugeBlockStack({ height: '3.9762', set: 'inch-81' }).blocks; // => ['3', '0.75', '0.126', '0.1002']
 * gaugeBlockStack({ height: '20.0003', set: 'metric-88' }).remainder; // => '-0.0002'
 * ```
 */
export function gaugeBlockStack(options: GaugeBlockStackOptions): GaugeBlockStack {
  const { height, ...blocks } = read(options, STACK);
  return stackOf(unitsOf(height), blocks, 'height', '');
}

/** The stack for a height in units; paths of the height and before the keys of the blocks. */
export function stackOf(height: bigint, blocks: GaugeBlockOptions, parameter: string, before: string): GaugeBlockStack {
  const box = openBox(blocks, before);
  const wanted = inSteps(box, height, parameter);
  return describe(box, height, nearestStack(box.rack, new Set(), wanted, `${before}mostBlocks`));
}

/**
 * Two stacks at once from one set, as for the two ends of a sine table or a limit gauge: no block is
 * used twice, and the two together have the fewest blocks possible where both can be exact.
 * @throws GeneratrixError as {@link gaugeBlockStack}.
 * @example
 * ```ts
 * import { gaugeBlockStackPair } from 'generatrix';
 * const [go, notGo] = gaugeBlockStackPair({ heights: ['25.01', '25.02'], set: 'metric-88' });
 * [go.blocks, notGo.blocks]; // => [['20', '4', '1.01'], ['9.5', '8.5', '6', '1.02']]
 * ```
 */
export function gaugeBlockStackPair(options: GaugeBlockStackPairOptions): readonly [GaugeBlockStack, GaugeBlockStack] {
  const { heights, ...blocks } = read(options, PAIR);
  const box = openBox(blocks, '');
  const { rack } = box;
  const [first, second] = [unitsOf(heights[0]), unitsOf(heights[1])];
  const [one, other] = [inSteps(box, first, 'heights[0]'), inSteps(box, second, 'heights[1]')];
  const nearest = (wanted: number, used: readonly number[]): number[] =>
    nearestStack(rack, new Set(used), wanted, 'mostBlocks');
  const exact = (stack: readonly number[], wanted: number): boolean => heightOf(rack, stack) === wanted;
  // The first as well as it can be, the second from what is left.
  const alone = nearest(one, []);
  const left = nearest(other, alone);
  const greedy = [describe(box, first, alone), describe(box, second, left)] as const;
  const best = nearest(other, []);
  if (!exact(alone, one) || !exact(best, other)) return greedy;
  const fewest = alone.length + best.length;
  if (exact(left, other) && alone.length + left.length === fewest) return greedy;
  const work = { left: 5e6 };
  for (let total = fewest; total <= 2 * rack.mostBlocks; total++) {
    for (let count = Math.max(1, total - rack.mostBlocks); count <= Math.min(total - 1, rack.mostBlocks); count++) {
      for (const used of stacks(rack, new Set(), one, count, work)) {
        for (const others of stacks(rack, new Set(used), other, total - count, work)) {
          return [describe(box, first, used), describe(box, second, others)];
        }
      }
    }
  }
  if (work.left > 0) return greedy;
  const found = exact(left, other) ? alone.length + left.length : 2 * rack.mostBlocks + 1;
  const doubt = note(SENTENCES, 'fewest-not-proven', { blocks: found });
  return [greedy[0], { ...greedy[1], notes: [...greedy[1].notes, doubt] }];
}

/** The blocks at hand, counted in steps of their last decimal place. */
interface Box {
  readonly rack: Rack;
  /** Units in a step. */
  readonly step: bigint;
  readonly wearBlock: bigint;
}

function openBox({ set, without = [], wearBlock, mostBlocks = 6 }: GaugeBlockOptions, before: string): Box {
  const blocks = (typeof set === 'string' ? gaugeBlockSet(set) : set).map(unitsOf);
  without.forEach((size, i) => {
    const at = blocks.indexOf(unitsOf(size));
    if (at < 0) {
      refuse('contradiction', `${before}without[${i}]`, size, 'must be a size that the set has, once for each piece');
    }
    blocks.splice(at, 1);
  });
  let step = 10n ** BigInt(PLACES);
  while (blocks.some((size) => size % step !== 0n)) step /= 10n;
  if (blocks.some((size) => size / step > 10n ** 12n)) {
    refuse('out-of-range', `${before}set`, set, 'must hold sizes of at most 12 digits');
  }
  const rack = rackOf(
    blocks.map((size) => Number(size / step)),
    mostBlocks,
  );
  return { rack, step, wearBlock: wearBlock === undefined ? 0n : unitsOf(wearBlock) };
}

/** Height of the blocks from the set, in steps; not whole if the height is finer than the blocks. */
function inSteps({ wearBlock, step }: Box, height: bigint, parameter: string): number {
  const rest = height - 2n * wearBlock;
  if (rest <= 0n) {
    const least = decimalOf(2n * wearBlock);
    return refuse('impossible-geometry', parameter, decimalOf(height), `must exceed the two wear blocks, ${least}`);
  }
  return Number(rest / step) + Number(rest % step) / Number(step);
}

function heightOf({ sizes }: Rack, indices: readonly number[]): number {
  return indices.reduce((sum, i) => sum + (sizes[i] as number), 0);
}

function describe({ rack, step, wearBlock }: Box, height: bigint, indices: readonly number[]): GaugeBlockStack {
  const blocks = indices.map((i) => rack.sizes[i] as number).sort((a, b) => b - a);
  const sum = BigInt(heightOf(rack, indices)) * step + 2n * wearBlock;
  const values = {
    height: Number(decimalOf(height)),
    nearest: Number(decimalOf(sum)),
    remainder: Number(decimalOf(height - sum)),
    mostBlocks: rack.mostBlocks,
    step: Number(decimalOf(lastPlace(height, step))),
  };
  return {
    height: decimalOf(height),
    blocks: blocks.map((size) => decimalOf(BigInt(size) * step)),
    wearBlocks: wearBlock === 0n ? [] : [decimalOf(wearBlock), decimalOf(wearBlock)],
    sum: decimalOf(sum),
    remainder: decimalOf(height - sum),
    notes: height === sum ? [] : [note(SENTENCES, 'stack-not-exact', values)],
  };
}

function lastPlace(units: bigint, step: bigint): bigint {
  return units % step === 0n ? step : lastPlace(units, step / 10n);
}
