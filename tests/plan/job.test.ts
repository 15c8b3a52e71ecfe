/** Job files: what is refused and where, the published schema, the round trip through JSON, jobs spoilt at random. */
import { execFileSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { Ajv } from 'ajv';
import fc from 'fast-check';
import { GeneratrixError, type Job } from 'generatrix';
import { describe, expect, it } from 'vitest';
import { readJob } from '../../src/plan/read-job.js';
import { runs } from '../oracle/seed.js';
import { endOf, faults, goodJobs, SPHERE_JOB, spoiltJobs, TAPER_JOB } from './jobs.js';

const schemaFile = new URL('../../docs/job.schema.json', import.meta.url);
const schema = JSON.parse(readFileSync(schemaFile, 'utf8'));
const validate = new Ajv({ strict: true, allErrors: false }).compile(schema);

/** A copy of a job with another value at a path such as `lathes[0].guideBar.scale.step`; undefined: without the key. */
function withValue(job: Job, path: string, value: unknown): unknown {
  const copy = structuredClone(job) as unknown as Record<string, unknown>;
  const keys = path.split(/[.[\]]+/).filter((key) => key !== '');
  const last = keys.pop() as string;
  const holder = keys.reduce((at, key) => at[key] as Record<string, unknown>, copy);
  if (value === undefined) delete holder[last];
  else holder[last] = value;
  return copy;
}

const refusal = (job: unknown): { code: string; parameter: string } => {
  const end = endOf(job);
  if (!(end instanceof GeneratrixError)) throw new Error('planned');
  return { code: end.code, parameter: end.parameter };
};

describe('a wrong job is refused with the path to the field', () => {
  // In order: which job, the path, what stands there, the code; and the path told, where it is another.
  it.each([
    ['taper', 'title', 7, 'wrong-kind'],
    ['taper', 'unit', 'cm', 'out-of-range'],
    ['taper', 'colour', 'red', 'unknown-option'],
    ['taper', 'coverage', 1, 'out-of-range'],
    // Found by fuzzing: null where a list or a section may be left out, and a sphere whose height overflows.
    ['taper', 'mills', null, 'wrong-kind'],
    ['taper', 'lathes', null, 'wrong-kind'],
    ['taper', 'setting', null, 'wrong-kind'],
    ['taper', 'coverage', null, 'wrong-kind'],
    [
      'sphere',
      'part.target',
      { part: 'ball-end', radius: 5e154, stemDiameter: 0.2, flatDiameter: 0.2 },
      'out-of-range',
    ],
    ['taper', 'part', undefined, 'missing-option'],
    ['taper', 'part.kind', 'gear', 'out-of-range'],
    ['taper', 'part.taper', {}, 'missing-option'],
    ['taper', 'part.taper.oneIn', -20, 'out-of-range'],
    ['taper', 'part.taper.rate', 0.06, 'contradiction'],
    ['taper', 'part.taper', { standard: 'morse-99' }, 'no-data', 'part.taper.standard'],
    [
      'taper',
      'part.taper',
      { largeDiameter: 3, smallDiameter: 4, length: 5 },
      'out-of-range',
      'part.taper.smallDiameter',
    ],
    ['taper', 'part.length', 'sixty', 'wrong-kind'],
    ['taper', 'part.length', Number.NaN, 'not-finite'],
    ['taper', 'part.length', 481, 'impossible-geometry'],
    ['taper', 'part.workLength', 59, 'out-of-range'],
    ['taper', 'part.largeEndAt', 59, 'out-of-range'],
    ['taper', 'part.stockDiameter', 23, 'out-of-range'],
    ['taper', 'part.shoulders[0].at', 'middle', 'out-of-range'],
    ['taper', 'part.shoulders[0].gap', -1, 'out-of-range'],
    ['taper', 'part.tolerance', {}, 'missing-option'],
    ['taper', 'part.tolerance.halfAngleDeg', 0, 'out-of-range'],
    ['taper', 'lathes', [], 'missing-option'],
    ['taper', 'lathes', new Array(1), 'wrong-kind', 'lathes[0]'],
    ['taper', 'lathes[0].topSlide.travel', 0, 'out-of-range'],
    ['taper', 'lathes[0].topSlide.scale.stepDeg', 0, 'out-of-range'],
    ['taper', 'lathes[0].topSlide.scale.toDeg', -50, 'contradiction'],
    ['taper', 'lathes[0].topSlide.nose.back', null, 'wrong-kind'],
    ['taper', 'lathes[0].guideBar.scale.step', 0, 'out-of-range'],
    ['taper', 'lathes[0].guideBar.scale.by', 'eye', 'out-of-range'],
    ['taper', 'lathes[0].guideBar.scale.radius', 9, 'contradiction'],
    [
      'taper',
      'lathes[0].guideBar.scale',
      { by: 'offset', radius: 9 },
      'missing-option',
      'lathes[0].guideBar.scale.radiusAlong',
    ],
    ['taper', 'lathes[0].tailstock.dial.reads', 'both', 'out-of-range'],
    ['taper', 'lathes[0].ballCentres.headstock.mouthDiameter', undefined, 'missing-option'],
    ['taper', 'lathes[0].ballCentres.headstock.faceDiameter', undefined, 'missing-option'],
    ['taper', 'lathes[0].ballCentres.headstock.holder.faceDistance', -3, 'out-of-range'],
    ['taper', 'lathes[0].ballCentres.tailstock.pilotDiameter', 9, 'out-of-range'],
    ['taper', 'lathes[0].ballCentres.tailstock.depth', 1, 'impossible-geometry'],
    ['taper', 'lathes[0].swivelTool.largestRadius', 4, 'out-of-range'],
    ['taper', 'setting.touchOff', -0.01, 'out-of-range'],
    ['taper', 'setting.touchof', 0.01, 'unknown-option'],
    ['taper', 'measuring', [], 'wrong-kind'],
    ['sphere', 'part.target.part', 'egg', 'out-of-range'],
    ['sphere', 'part.target.diameter', -1, 'out-of-range'],
    ['sphere', 'part.target.radius', 0.75, 'contradiction', 'part.target.diameter'],
    ['sphere', 'part.target.stemDiameter', 1.5, 'out-of-range'],
    ['sphere', 'part.tolerance.radius', undefined, 'missing-option'],
    ['sphere', 'mills[0].headTilt.largestDeg', 91, 'out-of-range'],
    ['sphere', 'mills[0].boringHead.dial.to', 0.2, 'contradiction'],
    ['sphere', 'mills[0].ballCutters[1]', 'half', 'wrong-kind'],
  ] as const)('%s: job.%s = %j', (kind, path, value, code, told: string = path) => {
    const job = withValue(kind === 'taper' ? TAPER_JOB : SPHERE_JOB, path, value);
    expect(refusal(job)).toEqual({ code, parameter: told });
  });

  it('says in the message where, what would be right, and what stood there', () => {
    const end = endOf(withValue(TAPER_JOB, 'lathes[0].guideBar.scale.step', 'fine'));
    expect((end as Error).message).toBe('lathes[0].guideBar.scale.step: must be a number, greater than 0; got "fine"');
    expect(refusal(null)).toEqual({ code: 'wrong-kind', parameter: '' });
    const { lathes, mills, ...bare } = SPHERE_JOB;
    expect(refusal(bare)).toEqual({ code: 'missing-option', parameter: 'mills' });
  });
});

describe('the schema', () => {
  it('is what the types give', () => {
    const dir = mkdtempSync(join(tmpdir(), 'schema-'));
    try {
      const file = join(dir, 'job.schema.json');
      execFileSync(process.execPath, ['.ci/schema.mjs', '--out', file], { stdio: 'pipe' });
      expect(readFileSync(file, 'utf8')).toBe(readFileSync(schemaFile, 'utf8'));
    } finally {
      rmSync(dir, { recursive: true });
    }
  });

  it('explains every field', () => {
    const silent: string[] = [];
    const walk = (node: unknown, path: string): void => {
      if (typeof node !== 'object' || node === null) return;
      for (const [key, child] of Object.entries(node)) {
        if (key === 'properties') {
          for (const [name, property] of Object.entries(child as object)) {
            if (!(property as { description?: string }).description) silent.push(`${path}.${name}`);
          }
        }
        walk(child, `${path}.${key}`);
      }
    };
    walk(schema, '');
    expect(silent).toEqual([]);
  });

  it('knows good jobs', () => {
    for (const job of [TAPER_JOB, SPHERE_JOB]) expect(validate(job), JSON.stringify(validate.errors)).toBe(true);
    fc.assert(
      fc.property(goodJobs, (job) => {
        if (!validate(job)) throw new Error(JSON.stringify(validate.errors));
      }),
      { numRuns: runs(1000, 300) },
    );
  });

  /**
   * Where the reader knows more than the schema, which has shapes and no ranges or geometry: keys that are needed
   * because of others. (A taper stated twice in agreeing ways is read; the schema has one statement only.)
   */
  const READER_ONLY =
    /^(lathes|mills|part\.tolerance|part\.target|part\.taper|.*\.faceDiameter|.*\.scale\.radius(Along)?)$/;

  it('and the reader refuse the same shapes', () => {
    const spoiltOnes = runs(1500, 300);
    let [refused, both] = [0, 0];
    fc.assert(
      fc.property(spoiltJobs, (spoilt) => {
        // A job file holds JSON.
        const job: unknown = JSON.parse(JSON.stringify(spoilt));
        const valid = validate(job);
        const read = readJob(job);
        const error = 'errors' in read ? read.errors[0] : undefined;
        if (!error) {
          if (!valid && !statedTwice(job) && !numberAsText(read))
            throw new Error(`read: ${JSON.stringify(validate.errors)}`);
          return;
        }
        refused++;
        if (!valid) both++;
        const shape = ['wrong-kind', 'unknown-option', 'missing-option'].includes(error.code);
        if (shape && valid && !READER_ONLY.test(error.parameter)) throw new Error(`schema allows: ${error.message}`);
      }),
      { numRuns: spoiltOnes },
    );
    // Most of what is refused is refused by both.
    expect(refused).toBeGreaterThan(spoiltOnes / 3);
    expect(both).toBeGreaterThan(0.7 * refused);
  });

  it('refuses some in the first place', () => {
    for (const path of ['part.side', 'lathes[0].tailstock.dial.reads', 'lathes[0].name', 'part.taper.oneIn']) {
      expect(validate(withValue(TAPER_JOB, path, 7.5)), path).toBe(path.endsWith('oneIn'));
      expect(validate(withValue(TAPER_JOB, path, undefined)), path).toBe(false);
      expect(validate(withValue(TAPER_JOB, `${path}s`, 1)), path).toBe(false);
    }
  });
});

/** Whether the reader turned text into numbers: the schema has numbers only. */
function numberAsText(read: ReturnType<typeof readJob>): boolean {
  return 'value' in read && validate(read.value) === true;
}

function statedTwice(job: unknown): boolean {
  const { taper } = (job as Job).part as { readonly taper?: object };
  return Object.keys(taper ?? {}).length > 1;
}

describe('through JSON', () => {
  it.each([
    ['taper', TAPER_JOB],
    ['sphere', SPHERE_JOB],
  ])('the %s job gives the same plan, and the plan stays the same', (_, job) => {
    const plan = endOf(job);
    expect(faults(plan)).toEqual([]);
    expect(JSON.parse(JSON.stringify(plan))).toStrictEqual(plan);
    expect(endOf(JSON.parse(JSON.stringify(job)))).toStrictEqual(plan);
  });

  it('a plan keeps a copy of the job, without what JSON would not keep', () => {
    const job = withValue(TAPER_JOB, 'lathes[0].tailstock.dial.from', -0) as Job;
    const given = { ...job, mills: undefined } as unknown as Job;
    const before = structuredClone(given);
    const plan = endOf(given);
    expect(faults(plan)).toEqual([]);
    expect(given).toStrictEqual(before);
    if (plan instanceof GeneratrixError) throw plan;
    expect(plan.job).not.toBe(given);
    expect(plan.job.lathes?.[0]).not.toBe(given.lathes?.[0]);
  });
});

describe('jobs at random (npm run check:jobs tries 100,000)', () => {
  it('a good one ends in a plan', () => {
    const good = runs(150, 40);
    const ends = { reached: 0, none: 0 };
    fc.assert(
      fc.property(goodJobs, (job) => {
        const end = endOf(job);
        if (end instanceof GeneratrixError) throw end;
        ends[end.best === null ? 'none' : 'reached']++;
        expect(faults(end)).toEqual([]);
      }),
      { numRuns: good },
    );
    expect(ends.reached).toBeGreaterThan(good / 7.5);
    expect(ends.none).toBeGreaterThan(good / 7.5);
  });

  it('a spoilt one ends in a plan or in a refusal with a path', () => {
    const ends = new Set<string>();
    fc.assert(
      fc.property(spoiltJobs, (job) => {
        const end = endOf(job);
        ends.add(end instanceof GeneratrixError ? end.code : 'plan');
        expect(faults(end)).toEqual([]);
      }),
      { numRuns: runs(400, 150) },
    );
    expect([...ends]).toEqual(
      expect.arrayContaining(['plan', 'wrong-kind', 'out-of-range', 'missing-option', 'unknown-option']),
    );
  });
});
