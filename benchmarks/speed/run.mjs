/**
 * What loading and calling cost: the import of the front door against that of an empty module, at most 8 to 1, and
 * the settings of common set-ups against those of 0.1.0, at most 0.3 to 1 on Node 20. Interleaved, medians, ratios
 * of one run. 0.1.0 is built from its commit into a temporary folder, once a machine.
 * Run `npm run bench:speed`, which builds first.
 */
import { execFileSync, execSync } from 'node:child_process';
import { existsSync, mkdirSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';

const BEFORE = 'ec909b0';
const IMPORTS = 21;
const ROUNDS = 41;
const CALLS = 4000;

const median = (list) => list.toSorted((a, b) => a - b)[list.length >> 1];

const old = join(tmpdir(), `generatrix-${BEFORE}`);
if (!existsSync(join(old, 'dist/index.js'))) {
  mkdirSync(old, { recursive: true });
  execSync(
    `git archive ${BEFORE} | tar -x -C ${old} && cd ${old} && npm ci --no-audit --no-fund && npx tsup --no-dts`,
    {
      stdio: ['ignore', 'ignore', 'inherit'],
    },
  );
}

/** Each in a process of its own, since a module loads once. */
const empty = join(old, 'empty.mjs');
writeFileSync(empty, 'export {};\n');
const doors = { empty, now: join(process.cwd(), 'dist/index.js'), before: join(old, 'dist/index.js') };
const loading = Object.fromEntries(Object.keys(doors).map((name) => [name, []]));
for (let i = 0; i < IMPORTS; i++) {
  for (const [name, path] of Object.entries(doors)) {
    const code = `const t = performance.now(); await import('${pathToFileURL(path)}'); console.log(performance.now() - t);`;
    loading[name].push(
      Number(execFileSync(process.execPath, ['--input-type=module', '-e', code], { encoding: 'utf8' })),
    );
  }
}
const load = Object.fromEntries(Object.entries(loading).map(([name, list]) => [name, median(list)]));
const bound = (ratio, most) => `${ratio.toFixed(2)}, at most ${most}${ratio > most ? '  MISSED' : ''}`;
let missed = load.now / load.empty > 8;
console.log(`Node ${process.version}`);
console.log(
  `import of the front door, to an empty module: ${bound(load.now / load.empty, 8)} (0.1.0: ${(load.before / load.empty).toFixed(2)})`,
);

const [now, before] = await Promise.all([import(pathToFileURL(doors.now)), import(pathToFileURL(doors.before))]);
const head = { largestTiltDeg: 80 };
const dial = { reads: 'radius', step: 0.001 };
/** Calls that both know, each over many sizes. */
const CASES = {
  setoverSettings: (x) => ({ taper: { perFoot: 0.5 + x }, centreDistance: 12 }),
  'setoverSettings, dial': (x) => ({ taper: { perFoot: 0.5 + x }, centreDistance: 12, dial }),
  'setoverSettings, sizes': (x) => ({
    taper: { largeDiameter: 1 + x, smallDiameter: 0.9, length: 4 },
    centreDistance: 12,
    dial,
    travel: 5,
  }),
  topSlideSettings: (x) => ({ taper: { includedAngleDeg: 50 + x }, length: 20 }),
  'guideBarSettings, scale': (x) => ({
    taper: { perFoot: 0.5 + x },
    length: 4,
    scale: { by: 'per-foot', step: 1 / 16 },
  }),
  sweepSettings: (x) => ({ target: { part: 'ball-on-stem', diameter: 50 + x, stemDiameter: 25 }, head }),
};
for (const [name, options] of Object.entries(CASES)) {
  const [call] = name.split(',');
  const given = Array.from({ length: CALLS }, (_, i) => options(i / CALLS));
  const times = { now: [], before: [] };
  let sum = 0;
  for (let round = 0; round < ROUNDS; round++) {
    for (const [which, library] of Object.entries({ now, before })) {
      const from = performance.now();
      for (const one of given) sum += library[call](one).notes?.length ?? 0;
      times[which].push(performance.now() - from);
    }
  }
  const ratio = median(times.now) / median(times.before);
  missed ||= ratio > 0.3;
  console.log(
    `${name}, to 0.1.0: ${bound(ratio, 0.3)} (${((1000 * median(times.now)) / CALLS).toFixed(2)} µs)${Number.isNaN(sum) ? ' no result' : ''}`,
  );
}
process.exitCode = missed ? 1 : 0;
