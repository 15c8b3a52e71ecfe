/**
 * What loading and calling cost: the import of the front door against that of an empty module, at most 8 to 1, and
 * the settings of common set-ups against those of 0.1.0, at most 0.3 to 1 on Node 20, and whole plans. Interleaved, medians, ratios
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

/** Whole plans, and their settings, limits and means alone, against the whole plans of 0.1.0. */
const part = {
  kind: 'taper',
  taper: { oneIn: 20 },
  side: 'outside',
  largeDiameter: 24,
  length: 60,
  workLength: 180,
  largeEndAt: 20,
  headstockEnd: 'large',
  centreHoles: true,
  tolerance: { smallDiameter: 0.05 },
};
const seat = { ballDiameter: 10, mouthDiameter: 8 };
const lathe = {
  name: 'bench lathe',
  centreDistance: 500,
  topSlide: { travel: 75, scale: { reads: 'from-axis', stepDeg: 0.5 } },
  guideBar: { travel: 200, scale: { by: 'half-angle', step: 0.1 }, largestHalfAngleDeg: 10 },
  tailstock: { setover: 12, dial: { reads: 'radius', step: 0.02 } },
  ballCentres: { offset: 15, headstock: seat, tailstock: seat },
  swivelTool: { smallestRadius: 5, largestRadius: 40 },
  slides: { noseRadius: 1, step: 0.01 },
};
const mill = {
  name: 'knee mill',
  table: 'flat',
  headTilt: { largestDeg: 90 },
  boringHead: { dial: { reads: 'diameter' } },
  ballCutters: [10],
};
const target = { part: 'ball-on-stem', diameter: 32, stemDiameter: 14 };
const JOBS = {
  taper: [{ title: 'spindle', unit: 'mm', part, lathes: [lathe] }, 0.4],
  ball: [
    {
      title: 'knob',
      unit: 'mm',
      part: { kind: 'sphere', target, tolerance: { radius: 0.05, form: 0.05 } },
      lathes: [lathe],
      mills: [mill],
    },
    0.2,
  ],
};
for (const [name, [job, most]] of Object.entries(JOBS)) {
  const times = { before: [], now: [], outline: [] };
  for (let round = 0; round < 11; round++) {
    for (const [which, plan] of Object.entries({ before: before.planJob, now: now.planJob, outline: now.outlineJob })) {
      const from = performance.now();
      plan(job);
      times[which].push(performance.now() - from);
    }
  }
  const [whole, outline] = ['now', 'outline'].map((which) => median(times[which]) / median(times.before));
  missed ||= whole > most || outline > 0.05;
  console.log(`plan of a ${name}, to 0.1.0: ${bound(whole, most)}; without the simulation: ${bound(outline, 0.05)}`);
}
process.exitCode = missed ? 1 : 0;
