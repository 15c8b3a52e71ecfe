/**
 * Gauge-block stacks against an independent exhaustive answer: the least number of blocks for every
 * height at once, by dynamic programming over the blocks (each used at most once).
 */
import fc from 'fast-check';
import { type GaugeBlockSetName, gaugeBlockSet, gaugeBlockStack, gaugeBlockStackPair } from 'generatrix/measure';
import { describe, expect, it } from 'vitest';
import { runs } from '../oracle/seed.js';
import { published } from '../reference/published.js';

/** least[h] is the fewest blocks whose sizes, whole numbers, add up to h; 255 where none do. */
function leastBlocks(sizes: readonly number[], tallest: number): Uint8Array {
  const least = new Uint8Array(tallest + 1).fill(255);
  least[0] = 0;
  for (const size of sizes) {
    for (let h = tallest; h >= size; h--) {
      const withIt = (least[h - size] ?? 255) + 1;
      if (withIt < (least[h] ?? 255)) least[h] = withIt;
    }
  }
  return least;
}

const units = (text: string): number => Math.round(Number(text) * 1e4);
const inPlaces = (height: number): string => (height / 1e4).toFixed(4);

describe('sets', () => {
  it.each<[GaugeBlockSetName, string]>([
    ['inch-81', 'T3-SET-81-piece'],
    ['metric-87', 'T3-SET-M87'],
    ['metric-88', 'T3-SET-M88'],
    ['metric-112', 'T3-SET-M112'],
  ])('%s has as many different pieces as its name says (common practice, from memory: %s)', (name, id) => {
    const sizes = gaugeBlockSet(name);
    expect(sizes.length).toBe(Number(published(id).published['pieces']?.value));
    expect(new Set(sizes).size).toBe(sizes.length);
  });

  /** Sizes, in units of 0.0001, of a composition as it is written: `0.101-0.149 x49; 0.05-0.95 step 0.05 x19; 1,2 x2`. */
  const written = (id: string): number[] =>
    String(published(id).inputs['composition'])
      .split(/; | \+ /)
      .flatMap((run) => {
        if (run === 'the M87 pieces') return written('T3-SET-M87');
        const [, sizes = '', step, pieces = ''] =
          /^([\d.,-]+)(?: step ([\d.]+))?(?: in)? x(\d+)(?: mm)?$/.exec(run) ?? [];
        if (!sizes.includes('-')) return sizes.split(',').map(units);
        const [from = 0, to = 0] = sizes.split('-').map(units);
        const count = Number(pieces);
        const apart = step === undefined ? (to - from) / (count - 1) : units(step);
        expect(from + (count - 1) * apart).toBe(to);
        return Array.from({ length: count }, (_, i) => from + i * apart);
      });

  it.each<[GaugeBlockSetName, string]>([
    ['inch-81', 'T3-SET-81-piece'],
    ['metric-87', 'T3-SET-M87'],
    ['metric-88', 'T3-SET-M88'],
    ['metric-112', 'T3-SET-M112'],
  ])('%s holds the sizes of the composition, number by number (common practice, from memory: %s)', (name, id) => {
    expect(gaugeBlockSet(name).map(units)).toEqual(written(id).sort((a, b) => a - b));
  });
});

describe('one stack', () => {
  it('builds the published 3.9762 in, in as few blocks (T3-STA-1, a gauge-block maker’s use and care notes)', () => {
    const { blocks, sum, remainder } = gaugeBlockStack({ height: '3.9762', set: 'inch-81' });
    expect(sum).toBe(published('T3-STA-1').published['total']?.value);
    expect(remainder).toBe('0');
    expect(blocks.length).toBe(4); // 0.1002 + 0.126 + 0.750 + 3.000 as printed
  });

  // The tallest heights are those of usual work; the tables grow with them, not the stacks.
  it.each<[GaugeBlockSetName, number]>([
    ['inch-81', 60_000],
    ['metric-88', 600_000],
    ['metric-112', 600_000],
  ])('%s: no stack of fewer blocks exists, and each sum is exact', (set, tallest) => {
    const sizes = gaugeBlockSet(set).map(units);
    const least = leastBlocks(sizes, tallest);
    fc.assert(
      fc.property(fc.integer({ min: 1, max: tallest }), (height) => {
        const fewest = least[height] ?? 255;
        fc.pre(fewest <= 6);
        const stack = gaugeBlockStack({ height: inPlaces(height), set });
        expect(stack.remainder).toBe('0');
        expect(stack.blocks.length).toBe(fewest);
        expect(stack.blocks.reduce((total, size) => total + units(size), 0)).toBe(height);
        expect(new Set(stack.blocks).size).toBe(stack.blocks.length);
      }),
      { numRuns: runs(1000, 250) },
    );
  });

  it('takes the nearest height where none is exact, and says by how much', () => {
    const sizes = gaugeBlockSet('inch-81').map(units);
    const least = leastBlocks(sizes, 60_000);
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 1500 }), fc.integer({ min: 1, max: 6 }), (height, mostBlocks) => {
        const { sum, remainder, notes } = gaugeBlockStack({ height: inPlaces(height), set: 'inch-81', mostBlocks });
        const buildable = [...least.keys()].filter((h) => h > 0 && (least[h] ?? 255) <= mostBlocks);
        const distance = Math.min(...buildable.map((h) => Math.abs(h - height)));
        expect(Math.abs(units(remainder))).toBe(distance);
        expect(units(sum) + units(remainder)).toBe(height);
        expect(notes.length).toBe(distance === 0 ? 0 : 1);
      }),
      { numRuns: 100 },
    );
  });

  it('keeps a height finer than the blocks as an exact remainder', () => {
    expect(gaugeBlockStack({ height: '1.00004', set: 'inch-81' })).toMatchObject({ sum: '1', remainder: '0.00004' });
    expect(gaugeBlockStack({ height: '50', set: 'inch-81', mostBlocks: 2 })).toMatchObject({
      blocks: ['4', '3'],
      remainder: '43',
    });
    expect(gaugeBlockStack({ height: '5', set: ['1', '2'] })).toMatchObject({ blocks: ['2', '1'], remainder: '2' });
  });

  it('of calibrated sizes is the nearest of all, with the fewest blocks, the lower of two as near', () => {
    // Five decimals: hardly two stacks are alike, and digits tell nothing. All 2^n choices, in units of 0.00001.
    const sizes = fc.array(fc.integer({ min: 49_000, max: 2_510_000 }), { minLength: 1, maxLength: 11 });
    fc.assert(
      fc.property(
        sizes,
        fc.integer({ min: 1, max: 9_000_000 }),
        fc.integer({ min: 1, max: 6 }),
        (set, height, most) => {
          let best = { off: Infinity, sum: 0, count: 0 };
          for (let mask = 1; mask < 1 << set.length; mask++) {
            const chosen = set.filter((_, i) => mask & (1 << i));
            const sum = chosen.reduce((total, size) => total + size, 0);
            const found = { off: Math.abs(sum - height), sum, count: chosen.length };
            const order = found.off - best.off || found.sum - best.sum || found.count - best.count;
            if (chosen.length <= most && order < 0) best = found;
          }
          const text = (size: number): string => (size / 1e5).toFixed(5);
          const stack = gaugeBlockStack({ height: text(height), set: set.map(text), mostBlocks: most });
          expect(Math.round(Number(stack.sum) * 1e5)).toBe(best.sum);
          expect(stack.blocks.length).toBe(best.count);
        },
      ),
      { numRuns: runs(150, 50) },
    );
  });

  it('of a whole calibrated set is found, exact where it was built from pieces of it', () => {
    // Deviations of up to 0.12 µm that repeat in no simple pattern: more stacks than could ever be tried one by one.
    const set = gaugeBlockSet('metric-112').map((size, i) => (Number(size) + (((i * i) % 25) - 12) * 1e-5).toFixed(5));
    const pieces = [3, 40, 60, 83, 95, 110].map((i) => Math.round(Number(set[i]) * 1e5));
    const height = (pieces.reduce((sum, size) => sum + size, 0) / 1e5).toFixed(5);
    expect(gaugeBlockStack({ height, set }).remainder).toBe('0');
    // Half a step from any sum: no stack is exact, and the nearest can be no nearer than that.
    expect(gaugeBlockStack({ height: `${height}5`, set }).remainder).toBe('0.000005');
  });

  it('is refused, with what can be searched, where the nearest is beyond the limit of work', () => {
    const set = gaugeBlockSet('metric-112');
    const without = set.filter((size) => /^1\.00[2-9]$/.test(size)); // no 0.003 without these
    expect(() => gaugeBlockStack({ height: '33.333', set, without, mostBlocks: 10 })).toThrow(
      expect.objectContaining({
        code: 'not-converged',
        parameter: 'mostBlocks',
        allowed: expect.objectContaining({ kind: 'number', min: 1, max: 6, whole: true }),
      }),
    );
    const { remainder, notes } = gaugeBlockStack({ height: '33.333', set, without, mostBlocks: 6 });
    expect(remainder).not.toBe('0');
    expect(notes[0]?.message).toMatch(/^No stack of at most 6 blocks is 33.3330 high; the nearest is 33.\d{4}\.$/);
  });

  it('of one huge block far above the height is that block, at once', () => {
    expect(gaugeBlockStack({ height: '1', set: ['999999999'] }).remainder).toBe('-999999998');
  });

  it('closes both ends with wear blocks and leaves out what is missing', () => {
    expect(
      gaugeBlockStack({ height: '3.9762', set: 'inch-81', wearBlock: '.050', without: ['3', '0.75'] }),
    ).toMatchObject({
      sum: '3.9762',
      wearBlocks: ['0.05', '0.05'],
      blocks: ['2', '0.95', '0.7', '0.126', '0.1002'],
    });
  });

  it('counts a size as often as it is listed', () => {
    expect(gaugeBlockStack({ height: '4', set: ['2', '2', '1'] }).blocks).toEqual(['2', '2']);
    expect(gaugeBlockStack({ height: '4', set: ['2', '2', '1'], without: ['2'] }).sum).toBe('3');
  });
});

describe('two stacks', () => {
  it('share no block, are exact, and have the fewest blocks together', () => {
    const set = ['1.01', '1.02', '1.03', '1.05', '1', '2', '3', '4', '5', '6', '7', '8', '9', '10'];
    const sizes = set.map((size) => Math.round(Number(size) * 100));
    // Every subset as a bit mask, by its sum.
    const bySum = new Map<number, number[]>();
    for (let mask = 1; mask < 1 << sizes.length; mask++) {
      const sum = sizes.reduce((total, size, i) => total + (mask & (1 << i) ? size : 0), 0);
      bySum.set(sum, [...(bySum.get(sum) ?? []), mask]);
    }
    const pieces = (mask: number): number => mask.toString(2).replaceAll('0', '').length;
    fc.assert(
      fc.property(fc.integer({ min: 500, max: 2200 }), fc.integer({ min: 500, max: 2200 }), (a, b) => {
        const totals = (bySum.get(a) ?? []).flatMap((first) =>
          (bySum.get(b) ?? [])
            .filter((second) => (first & second) === 0)
            .map((second) => pieces(first) + pieces(second)),
        );
        fc.pre(totals.length > 0);
        const pair = gaugeBlockStackPair({
          heights: [(a / 100).toFixed(2), (b / 100).toFixed(2)],
          set,
          mostBlocks: 10,
        });
        expect(pair.map(({ remainder }) => remainder)).toEqual(['0', '0']);
        const blocks = pair.flatMap((stack) => stack.blocks);
        expect(new Set(blocks).size).toBe(blocks.length);
        expect(blocks.length).toBe(Math.min(...totals));
      }),
      { numRuns: 25 },
    );
  });

  it('says so where two stacks of fewer blocks cannot be ruled out', () => {
    // Sizes too fine to try all pairs of stacks, and one stack of six that both heights ask for.
    let seed = 7;
    const set = Array.from({ length: 50 }, () => {
      seed = (seed * 16807) % 2147483647;
      return (0.5 + seed * 1e-8).toFixed(8);
    });
    const height = [3, 12, 20, 31, 40, 49].reduce((total, i) => total + Number(set[i]), 0).toFixed(8);
    const [first, second] = gaugeBlockStackPair({ heights: [height, height], set, mostBlocks: 8 });
    expect(first.remainder).toBe('0');
    expect(second.blocks.filter((block) => first.blocks.includes(block))).toEqual([]);
    expect(second.notes.map(({ code }) => code)).toContain('fewest-not-proven');
  });

  it('does what it can where not both can be exact', () => {
    const [first, second] = gaugeBlockStackPair({ heights: ['3', '3'], set: ['3', '2'] });
    expect([first.remainder, second.remainder]).toEqual(['0', '1']);
    const [, nothing] = gaugeBlockStackPair({ heights: ['3', '3'], set: ['3'] });
    expect(nothing).toMatchObject({ blocks: [], sum: '0', remainder: '3' });
  });
});

it.each<[string, string, unknown, string, string]>([
  ['a stack', 'height', { height: 'x', set: 'inch-81' }, 'unreadable', 'height'],
  ['a stack', 'a size', { height: '1', set: ['1', '2,5'] }, 'unreadable', 'set[1]'],
  ['a stack', 'a hole among the sizes', { height: '1', set: new Array(2) }, 'wrong-kind', 'set[0]'],
  ['a stack', 'a set', { height: '1', set: 'metric-1' }, 'out-of-range', 'set'],
  ['a stack', 'no set', { height: '1' }, 'missing-option', 'set'],
  ['a stack', 'a key', { height: '1', set: 'inch-81', wear: '1' }, 'unknown-option', 'wear'],
  ['a stack', 'wear blocks', { height: '1', set: 'inch-81', wearBlock: '0.5' }, 'impossible-geometry', 'height'],
  ['two stacks', 'heights', { heights: ['1'], set: 'inch-81' }, 'out-of-range', 'heights'],
  ['two stacks', 'a height', { heights: ['1', '0'], set: 'inch-81' }, 'out-of-range', 'heights[1]'],
  [
    'two stacks',
    'wear blocks',
    { heights: ['9', '1'], set: 'inch-81', wearBlock: '1' },
    'impossible-geometry',
    'heights[1]',
  ],
])('%s: refuses %s by its path', (what, _, options, code, parameter) => {
  const call = what === 'a stack' ? gaugeBlockStack : gaugeBlockStackPair;
  expect(() => call(options as never)).toThrow(expect.objectContaining({ name: 'GeneratrixError', code, parameter }));
});

it.each<[string, () => unknown]>([
  ['out-of-range', () => gaugeBlockSet('inch-82' as 'inch-81')],
  ['out-of-range', () => gaugeBlockSet('toString' as 'inch-81')],
  ['unreadable', () => gaugeBlockStack({ height: '-1', set: 'inch-81' })],
  ['unreadable', () => gaugeBlockStack({ height: '', set: 'inch-81' })],
  ['unreadable', () => gaugeBlockStack({ height: '1e3', set: 'inch-81' })],
  ['unreadable', () => gaugeBlockStack({ height: '.', set: 'inch-81' })],
  ['out-of-range', () => gaugeBlockStack({ height: '0', set: 'inch-81' })],
  ['out-of-range', () => gaugeBlockStack({ height: '1'.repeat(300), set: 'inch-81' })],
  ['wrong-kind', () => gaugeBlockStack({ height: 1 as unknown as string, set: 'inch-81' })],
  ['unknown-option', () => gaugeBlockStack({ height: '1', set: 'inch-81', wear: '1' } as never)],
  ['impossible-geometry', () => gaugeBlockStack({ height: '0.1', set: 'inch-81', wearBlock: '0.05' })],
  ['contradiction', () => gaugeBlockStack({ height: '1', set: 'inch-81', without: ['5'] })],
  ['out-of-range', () => gaugeBlockStack({ height: '1', set: [] })],
  ['out-of-range', () => gaugeBlockStack({ height: '1', set: ['999999999.000000001'] })],
  ['out-of-range', () => gaugeBlockStack({ height: '1', set: 'inch-81', mostBlocks: 0 })],
  ['out-of-range', () => gaugeBlockStackPair({ heights: ['1'] as never, set: 'inch-81' })],
])('refuses with %s', (code, call) => {
  expect(call).toThrow(expect.objectContaining({ name: 'GeneratrixError', code }));
});
