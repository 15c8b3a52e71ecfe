/**
 * Gauge-block stacks: 100,000 random heights over the usual sets, each sum checked exact in whole units of
 * the last place, and the time per stack. Run with `npm run bench:gauge-blocks`; a number of heights of your own
 * follows after `--`.
 */
import { cpus } from 'node:os';
import { uniformInt } from 'pure-rand/distribution/uniformInt';
import { xoroshiro128plus } from 'pure-rand/generator/xoroshiro128plus';
import { type GaugeBlockSetName, gaugeBlockSet, gaugeBlockStack } from '../src/measure/index.js';

/** Heights in steps of the set's finest difference, in units of 0.0001 of the set's length unit. */
const RANGES: readonly { set: GaugeBlockSetName; from: number; to: number; step: number }[] = [
  { set: 'inch-81', from: 0.2, to: 4, step: 1 }, // sine-bar heights of a 5 inch bar
  { set: 'metric-88', from: 3, to: 100, step: 5 }, // of a 100 mm bar
  { set: 'metric-112', from: 3, to: 100, step: 5 },
].map(({ set, from, to, step }) => ({ set: set as GaugeBlockSetName, from: from * 1e4, to: to * 1e4, step }));

const total = Number(process.argv[2] ?? 100_000);
const generator = xoroshiro128plus(1950);
const units = (size: string): number => Math.round(Number(size) * 1e4);
const percentile = (sorted: Float64Array, part: number): string =>
  `${((sorted[Math.min(sorted.length - 1, Math.floor(part * sorted.length))] ?? 0) * 1e3).toFixed(0)} µs`;

console.log(`node ${process.version}, ${cpus()[0]?.model}`);
let wrong = 0;
let solved = 0;
for (const [i, { set, from, to, step }] of RANGES.entries()) {
  const count = Math.floor(total / RANGES.length) + (i < total % RANGES.length ? 1 : 0);
  const sizes = new Set(gaugeBlockSet(set).map(units));
  const times = new Float64Array(count);
  const pieces: Record<number, number> = {};
  for (let n = 0; n < count; n++) {
    const height = step * uniformInt(generator, Math.ceil(from / step), Math.floor(to / step));
    const start = performance.now();
    const stack = gaugeBlockStack({ height: (height / 1e4).toFixed(4), set });
    times[n] = performance.now() - start;
    const blocks = stack.blocks.map(units);
    const exact =
      stack.remainder === '0' &&
      blocks.reduce((sum, size) => sum + size, 0) === height &&
      units(stack.sum) === height &&
      new Set(blocks).size === blocks.length &&
      blocks.every((size) => sizes.has(size));
    if (!exact) {
      wrong++;
      if (wrong <= 5) console.log(`${set} ${stack.height}: ${stack.blocks.join(' + ')}, remainder ${stack.remainder}`);
    }
    pieces[blocks.length] = (pieces[blocks.length] ?? 0) + 1;
  }
  solved += count;
  times.sort();
  const spread = Object.entries(pieces).map(([blocks, stacks]) => `${blocks}: ${stacks}`);
  console.log(
    `${set.padEnd(11)} ${count} heights, median ${percentile(times, 0.5)}, p99 ${percentile(times, 0.99)}, ` +
      `longest ${percentile(times, 1)}; stacks by number of blocks: ${spread.join(', ')}`,
  );
}
console.log(`${solved} heights, ${wrong} not exact`);
if (wrong > 0) process.exitCode = 1;
