/** What the sentences of spheres say is what their actions hold, read by a reader of English. */
import fc from 'fast-check';
import { type Job, planJob, planSteps, type SphereTarget, type WorkStep } from 'generatrix';
import { expect, it } from 'vitest';
import { runs } from '../oracle/seed.js';
import { sheetOf, sphereKinds } from './sphere-kinds.js';
import { misread } from './sphere-reader.js';

const between = (min: number, max: number) => fc.double({ min, max, noNaN: true });

/** A part of any size, in millimetres. */
const parts = fc
  .record({
    part: fc.constantFrom('ball-on-stem', 'ball-between-stems', 'ball-end', 'cap', 'socket'),
    radius: between(6, 60),
    first: between(0.15, 0.8),
    second: between(0.3, 0.8),
  })
  .map(({ part, radius, first, second }): Readonly<Record<string, string | number>> => {
    const diameter = 2 * radius;
    switch (part) {
      case 'ball-on-stem':
        return { part, diameter, stemDiameter: second * diameter };
      case 'ball-between-stems':
        return { part, diameter, freeStemDiameter: first * diameter, stemDiameter: second * diameter };
      case 'ball-end':
        return { part, diameter, flatDiameter: 0.5 * first * diameter, stemDiameter: second * diameter };
      case 'cap':
        return { part, radius, baseDiameter: (0.5 + first / 2) * diameter };
      default:
        return { part, radius, depth: first * radius };
    }
  });

/** A job of any size; each has one machine that does one thing. */
const jobs = fc
  .record({
    part: parts,
    unit: fc.constantFrom('mm' as const, 'in' as const),
    machine: fc.constantFrom(
      ...Array<string>(4).fill('boring-head'),
      'swivel-tool',
      'swivel-tool',
      'ball-cutter',
      'slides',
    ),
    table: fc.constantFrom('flat' as const, 'upright' as const),
    reads: fc.constantFrom('diameter' as const, 'radius' as const),
    step: fc.constantFrom(undefined, 0.01, 0.02),
    stepDeg: fc.constantFrom(undefined, 0.5, 1),
    means: fc.constantFrom('usual', 'fine', 'sine-bar', 'stated', 'nothing'),
    stock: fc.constantFrom(undefined, 1, 1.2),
    nose: fc.constantFrom(0, 0.4),
    form: fc.boolean(),
  })
  .map(({ part, unit, machine, table, reads, step, stepDeg, means, stock, nose, form }): Job => {
    const per = unit === 'mm' ? 1 : 1 / 25.4;
    const sizes = Object.entries(part).map(([key, size]) => [key, typeof size === 'number' ? size * per : size]);
    const target = Object.fromEntries(sizes) as SphereTarget;
    const across = 2 * Math.max(...Object.values(part).map((size) => (typeof size === 'number' ? size : 0))) * per;
    const mill = { name: 'mill', table, headTilt: { largestDeg: 90, ...(stepDeg && { stepDeg }) } };
    const lathe = { name: 'lathe', centreDistance: 500 * per };
    const dial = { reads, ...(step && { step: step * per }) };
    const at = {
      'boring-head': { mills: [{ ...mill, boringHead: { dial, noseRadius: nose * per } }] },
      'ball-cutter': { mills: [{ ...mill, ballCutters: [unit === 'mm' ? 10 : 0.375] }] },
      'swivel-tool': { lathes: [{ ...lathe, swivelTool: { smallestRadius: per, largestRadius: 150 * per } }] },
      slides: { lathes: [{ ...lathe, slides: { step: (step ?? 0.001) * per, noseRadius: 3 * per } }] },
    }[machine as 'slides'];
    const shop = {
      fine: { indicators: [{ resolution: unit === 'mm' ? 0.002 : 0.0001, range: 5 * per }] },
      'sine-bar': { sineBars: [{ length: 100 * per }] },
      nothing: { indicators: [] },
    }[means as 'fine'];
    return {
      title: 'any',
      unit,
      part: {
        kind: 'sphere',
        target,
        ...(stock && { stockDiameter: stock * across }),
        tolerance: { radius: 0.05 * per, ...(form && { form: 0.08 * per }) },
      },
      ...at,
      ...(shop && { shop }),
      ...(means === 'stated' && { setting: { headTiltDeg: 0.05 } }),
      measuring: { diameter: 0.005 * per, length: 0.01 * per },
    };
  });

/** The steps of every method that reaches a job. */
function sheetsOf(job: Job): readonly (readonly WorkStep[])[] {
  const plan = planJob(job, { trials: 1000 });
  return plan.methods.flatMap(({ reaches }, method) => (reaches ? [planSteps({ plan, method })] : []));
}

/** Words that turn a sentence round, each for the other. */
const TURNED: readonly (readonly [string, string])[] = [
  ['left', 'right'],
  ['raise', 'lower'],
  ['up', 'down'],
  ['above', 'below'],
  ['highest', 'lowest'],
  ['open', 'close'],
  ['lengthen', 'shorten'],
  ['further', 'less far'],
  ['feed along', 'draw the tool back along'],
  ['clockwise', 'anticlockwise'],
  ['towards', 'away from'],
  ['headstock', 'tailstock'],
  ['larger', 'smaller'],
  ['too large', 'too small'],
  ['wider', 'narrower'],
  ['moves more', 'moves less'],
  ['be pushed in', 'come out'],
  ['lock', 'free'],
  ['loosen', 'tighten'],
  ['nearer', 'farther'],
  ['added to', 'taken from'],
  ['past zero', 'short of zero'],
];

/** Where left, free and below are no direction. */
const NO_WAY = /\bfree (?:end|stem)|\bare left|table below/gi;

/** A text spoiled in one place at a time: each such word turned round, each number made another. */
function spoiled(text: string): readonly string[] {
  const put = (at: number, old: string, other: string): string =>
    text.slice(0, at) + other + text.slice(at + old.length);
  const plain = text.replace(NO_WAY, (found) => '_'.repeat(found.length));
  const words = TURNED.flatMap(([a, b]) => [
    [a, b],
    [b, a],
  ]).flatMap(([old = '', other = '']) =>
    [...plain.matchAll(new RegExp(`\\b${old}\\b`, 'gi'))].map(({ index, 0: found }) => put(index, found, other)),
  );
  const numbers = [...text.matchAll(/\d+(?:\.\d+)?/g)].map(({ index, 0: found }) => {
    const first = found.search(/[1-9]/);
    const at = first < 0 ? found.length - 1 : first;
    return put(index + at, found[at] ?? '', String((Number(found[at]) % 9) + 1));
  });
  return [...words, ...numbers];
}

it('on the sheet of every kind', () => {
  for (const kind of sphereKinds().filter((_, i) => i % runs(1, 7) === 0))
    for (const step of sheetOf(kind)) {
      expect([kind.name, step.text, misread(step, sheetOf(kind))]).toEqual([kind.name, step.text, []]);
    }
});

it('on sheets of any job', () => {
  let read = 0;
  const codes = new Set<string>();
  fc.assert(
    fc.property(jobs, (job) => {
      for (const sheet of sheetsOf(job)) {
        read++;
        for (const step of sheet) {
          codes.add(step.code);
          expect([step.code, misread(step, sheet), step.text]).toEqual([step.code, [], step.text]);
        }
      }
    }),
    { numRuns: runs(400, 20), endOnFailure: true },
  );
  expect(read).toBeGreaterThan(10);
});

it('and none can be turned round unnoticed', () => {
  let spoilings = 0;
  const unnoticed: string[] = [];
  for (const kind of sphereKinds().filter((_, i) => i % runs(1, 7) === 0)) {
    const sheet = sheetOf(kind);
    for (const step of sheet) {
      if (step.table) {
        const columns = step.table.columns.map((head) =>
          head.replace(/free end$|face$/, 'bottom').replace('Diameter', 'Radius'),
        );
        const changed = columns.join() !== step.table.columns.join();
        expect(misread({ ...step, table: { ...step.table, columns } }, sheet).length > 0).toBe(changed);
      }
      for (const text of spoiled(step.text)) {
        spoilings++;
        if (misread({ ...step, text }, sheet).length === 0) unnoticed.push(`${kind.name} ${step.code}: ${text}`);
      }
    }
  }
  expect(unnoticed).toEqual([]);
  expect(spoilings).toBeGreaterThan(300);
});

it('a needle is told to no place beyond a fifth of its division', () => {
  // The indicator that is assumed where none is stated; a fifth of 0.01 mm is 0.002 mm, of 0.0005 in 0.0001 in.
  for (const [unit, places] of [
    ['mm', 3],
    ['in', 4],
  ] as const) {
    const kinds = sphereKinds()
      .filter(({ method, job }) => method === 'tilted-sweep' && job.unit === unit)
      .slice(0, 2);
    for (const kind of kinds) {
      const { text = '' } = sheetOf(kind).find(({ code }) => code === 'indicator') ?? {};
      const [, , decimals = ''] = /must (be pushed in|come out) by \d+\.(\d+)/.exec(text) ?? [];
      expect([kind.name, decimals.length]).toEqual([kind.name, places]);
    }
  }
});
