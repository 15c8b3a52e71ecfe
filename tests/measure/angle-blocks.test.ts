import fc from 'fast-check';
import { angleBlockStack } from 'generatrix/measure';
import { expect, it } from 'vitest';
import { published } from '../reference/published.js';

it('builds the published 57° 34′ 9″ exactly, in no more blocks (T3-ANG-1, a metrology course)', () => {
  const { inputs, published: printed } = published('T3-ANG-1');
  const sum = (sizes: readonly number[]): number => sizes.reduce((all, size) => all + size, 0);
  // The blocks as printed, `41+27-9+1-3` degrees and so on, go into the library; the printed angle only comes out.
  const blocks = (key: string): number[] => (String(inputs[key]).match(/[+-]?\d+/g) ?? []).map(Number);
  const [degrees, minutes, seconds] = ['deg_blocks', 'min_blocks', 'sec_blocks'].map(blocks) as [
    number[],
    number[],
    number[],
  ];
  const total = sum(degrees) * 3600 + sum(minutes) * 60 + sum(seconds);
  const { addSeconds, subtractSeconds, remainderSeconds } = angleBlockStack({ angleDeg: total / 3600 });
  const built = sum(addSeconds) - sum(subtractSeconds);
  expect(Math.floor(built / 3600)).toBe(Number(printed['degrees']?.value));
  expect(Math.floor(built / 60) % 60).toBe(Number(printed['minutes']?.value));
  expect(built % 60).toBe(Number(printed['seconds']?.value));
  expect(remainderSeconds).toBe(0);
  expect(addSeconds.length + subtractSeconds.length).toBeLessThanOrEqual([degrees, minutes, seconds].flat().length);
});

it('is the nearest build, with the fewest blocks, of all 3^n choices of signs', () => {
  const sets = fc.uniqueArray(fc.integer({ min: 1, max: 2000 }), { minLength: 1, maxLength: 6 });
  fc.assert(
    fc.property(sets, fc.integer({ min: 0, max: 4000 }), (blocks, seconds) => {
      let nearest = Infinity;
      let count = Infinity;
      for (let choice = 0; choice < 3 ** blocks.length; choice++) {
        const signs = blocks.map((_, i) => (Math.floor(choice / 3 ** i) % 3) - 1);
        const off = Math.abs(seconds - blocks.reduce((sum, size, i) => sum + size * (signs[i] ?? 0), 0));
        const used = signs.filter((sign) => sign !== 0).length;
        if (off < nearest || (off === nearest && used < count)) [nearest, count] = [off, used];
      }
      const found = angleBlockStack({ angleDeg: seconds / 3600, blocksSeconds: blocks });
      expect(Math.abs(found.remainderSeconds)).toBeCloseTo(nearest, 8); // degrees to seconds rounds
      expect(found.addSeconds.length + found.subtractSeconds.length).toBe(count);
      expect(found.notes.length).toBe(nearest === 0 ? 0 : 1);
    }),
    { numRuns: 200 },
  );
});

it.each<[string, () => unknown]>([
  ['out-of-range', () => angleBlockStack({ angleDeg: 181 })],
  ['not-finite', () => angleBlockStack({ angleDeg: Number.NaN })],
  ['out-of-range', () => angleBlockStack({ angleDeg: 1, blocksSeconds: [] })],
  ['out-of-range', () => angleBlockStack({ angleDeg: 1, blocksSeconds: [1.5] })],
  ['out-of-range', () => angleBlockStack({ angleDeg: 1, blocksSeconds: new Array(17).fill(1) })],
  ['unknown-option', () => angleBlockStack({ angleDeg: 1, set: [] } as never)],
])('refuses with %s', (code, call) => {
  expect(call).toThrow(expect.objectContaining({ name: 'GeneratrixError', code }));
});
