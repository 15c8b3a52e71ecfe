/**
 * `npm run accuracy` measures how accurate the numbers are and writes docs/accuracy.md. Arguments:
 * how many tapers (100,000 if absent) and how many decimal conversions (10,000). The figures come from
 * seeded draws, so that they can be had again; a smaller set of the same stands in the tests.
 */
import { writeFileSync } from 'node:fs';
import type { Decimal } from 'decimal.js';
import { convertTaper, convertTaperExact, type ExactTaper, type TaperStatement } from 'generatrix';
import { uniformFloat64 } from 'pure-rand/distribution/uniformFloat64';
import { xoroshiro128plus } from 'pure-rand/generator/xoroshiro128plus';
import {
  acosDeg,
  asinDeg,
  atanDeg,
  cosDeg,
  sinDeg,
  tanDeg,
  toDegrees,
  toRadians,
} from '../../src/core/trigonometry.js';
import { exactConversion, plain } from '../../tests/oracle/exact-tapers.js';
import { conversions, halfAngle, STATEMENTS, stated } from '../../tests/oracle/tapers.js';
import { Exact, exact, PI, ulpsOff } from '../../tests/oracle/ulps.js';

const [tapers = 100_000, tries = 10_000] = process.argv.slice(2).map(Number);
const SEED = 20;
const generator = xoroshiro128plus(SEED);
const unit = (): number => uniformFloat64(generator);
const ways: readonly (TaperStatement | 'sizes')[] = [...STATEMENTS, 'sizes'];

/** Largest error of every conversion, and of all, in units in the last place. */
function measureConversions(): Map<string, Map<string, number>> {
  const worst = new Map(ways.map((from) => [from as string, new Map<string, number>()]));
  for (let i = 0; i < tapers; i++) {
    const from = ways[i % ways.length] ?? 'sizes';
    const taper = stated(from, halfAngle(unit(), unit()), unit());
    const truth = conversions(taper);
    const row = worst.get(from);
    for (const to of STATEMENTS) {
      row?.set(to, Math.max(row.get(to) ?? 0, ulpsOff(convertTaper(taper, to), truth[to])));
    }
  }
  return worst;
}

/** Tapers in decimals: how many tries, and how many were not correctly rounded. */
function countWrong(): number {
  let wrong = 0;
  for (let i = 0; i < tries; i++) {
    const from = ways[i % ways.length] ?? 'sizes';
    const to = STATEMENTS[Math.floor(unit() * STATEMENTS.length)] ?? 'rate';
    const given = 10 + Math.floor(unit() * 8);
    const sizes = Object.entries(stated(from, halfAngle(unit(), unit()), 0.001 + unit()));
    const taper = Object.fromEntries(sizes.map(([key, value]) => [key, plain(value, given)])) as ExactTaper;
    const digits = 1 + Math.floor(unit() * 60);
    if ('length' in taper && Number(taper.largeDiameter) <= Number(taper.smallDiameter)) {
      i--; // the two ends became one when they were cut to a few digits
    } else if (convertTaperExact(taper, to, { digits }) !== exactConversion(taper, to, digits)) wrong++;
  }
  return wrong;
}

const radians = (deg: number): Decimal => exact(deg).mod(360).times(PI).div(180);
const degrees = (rad: Decimal): Decimal => rad.times(180).div(PI);
const angle = (): number => {
  const near = 10 ** (-12 * unit());
  const kind = unit();
  return kind < 1 / 3 ? 720 * (unit() - 0.5) : kind < 2 / 3 ? near : 90 - near;
};
const sine = (): number => {
  const kind = unit();
  return kind < 1 / 3 ? 2 * unit() - 1 : kind < 2 / 3 ? 10 ** (-12 * unit()) : 1 - 10 ** (-15 * unit());
};
const anything = (): number => 10 ** (24 * unit() - 12);

/** Each function of core/trigonometry with its domain, a draw from it, and the truth. */
const FUNCTIONS: readonly (readonly [
  ours: (x: number) => number,
  domain: string,
  draw: () => number,
  truth: (x: number) => Decimal,
])[] = [
  [sinDeg, '±360°, near 0°, near 90°', angle, (x) => Exact.sin(radians(x))],
  [cosDeg, '±360°, near 0°, near 90°', angle, (x) => Exact.cos(radians(x))],
  [tanDeg, '±360°, near 0°, near 90°', angle, (x) => Exact.tan(radians(x))],
  [asinDeg, '−1 to 1', sine, (x) => degrees(Exact.asin(exact(x)))],
  [acosDeg, '−1 to 1', sine, (x) => degrees(Exact.acos(exact(x)))],
  [atanDeg, '1e-12 to 1e12', anything, (x) => degrees(Exact.atan(exact(x)))],
  [toRadians, '1e-12 to 1e12', anything, (x) => exact(x).times(PI).div(180)],
  [toDegrees, '1e-12 to 1e12', anything, (x) => degrees(exact(x))],
];

function measureFunctions(count: number): string[] {
  return FUNCTIONS.map(([ours, domain, draw, truth]) => {
    let worst = 0;
    for (let i = 0; i < count; i++) {
      const x = draw();
      if (x !== 0 && Math.abs(x) !== 1) worst = Math.max(worst, ulpsOff(ours(x), truth(x)));
    }
    return `| \`${ours.name}\` | ${domain} | 0.6 | ${worst.toFixed(3)} over ${count} draws |`;
  });
}

const worst = measureConversions();
const all = Math.max(...[...worst.values()].flatMap((row) => [...row.values()]));
const wrong = countWrong();
const functions = measureFunctions(Math.min(tapers, 10_000));
const matrix = [...worst].map(
  ([from, row]) => `| \`${from}\` | ${STATEMENTS.map((to) => (row.get(to) ?? 0).toFixed(3)).join(' | ')} |`,
);

const page = `# Accuracy

Written by \`npm run accuracy\` (seed ${SEED}): change the code, then run it again. Errors are in units in the last place
of the true result, which is computed from the exact values of the doubles given. 0.5 is the least that is possible.

| function | domain | bound | evidence: largest error found |
| --- | --- | --- | --- |
| \`convertTaper\` | half angles 1e-6° to 89.9° | 0.6 | ${all.toFixed(3)} over ${tapers} tapers, each to all statements, 60 digits |
| \`convertTaperExact\` | the same; 1 to 60 digits | correctly rounded | ${wrong} wrong of ${tries}, integers of 260 decimals |
| \`frustum\`: rate, half angle, slant length | diameters 1e-9 apart or more | 0.6 | tests/taper/frustum.test.ts, 60 digits |
| \`frustum\`: volume, lateral area | the same | 6 | tests/taper/frustum.test.ts, 60 digits |
| \`parseAngle\`, \`parseLength\`, \`formatFraction\` | all they read | 0.5 | tests/core/text.test.ts, 60 digits |
| \`formatAngle\` | ±1e6° | correctly rounded | tests/core/text.test.ts |

Inside, and under every angle that enters or leaves:

| function | domain | bound | evidence: largest error found |
| --- | --- | --- | --- |
${functions.join('\n')}

Taper conversions one by one (\`sizes\` is two diameters and their distance):

| from \\ to | ${STATEMENTS.map((to) => `\`${to}\``).join(' | ')} |
| --- |${' --- |'.repeat(STATEMENTS.length)}
${matrix.join('\n')}
`;
writeFileSync('docs/accuracy.md', page);
console.log(page);
if (all > 0.6 || wrong > 0) throw new Error('a bound is not kept');
