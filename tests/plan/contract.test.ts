/** The plan and the contract of methods: faults surface, jobs are read whole, a method of a plan is carried on. */
import { GeneratrixError, type Job, planCorrection, planFigure, planJob, planSurface, readJob } from 'generatrix';
import { afterEach, describe, expect, it, vi } from 'vitest';
import { SPHERE_JOB, TAPER_JOB } from './jobs.js';

type Plan = typeof import('../../src/plan/index.js');

const SURFACE = '../../src/offset/top-slide/surface.js';
const SETTINGS = '../../src/offset/top-slide/settings.js';
const JOB: Job = {
  title: 'sluice spindle',
  unit: 'mm',
  part: {
    kind: 'taper',
    taper: { oneIn: 20 },
    side: 'outside',
    largeDiameter: 24,
    length: 60,
    workLength: 180,
    largeEndAt: 100,
    headstockEnd: 'small',
    centreHoles: true,
    tolerance: { smallDiameter: 0.05 },
  },
  lathes: [{ name: 'bench lathe', centreDistance: 500, topSlide: { travel: 75 } }],
};

/** The plan with one module changed. */
async function planWith(module: string, change: (real: Record<string, unknown>) => object): Promise<Plan['planJob']> {
  vi.resetModules();
  vi.doMock(module, async (original) => {
    const real = (await original()) as Record<string, unknown>;
    return { ...real, ...change(real) };
  });
  return ((await import('../../src/plan/index.js')) as Plan).planJob;
}

describe('a fault of ours is not planned around', () => {
  afterEach(() => {
    vi.doUnmock(SURFACE);
    vi.doUnmock(SETTINGS);
    vi.resetModules();
  });

  it.each<[string, (a: never, inputs: never) => unknown, RegExp]>([
    [
      'a model that throws',
      () => {
        throw new TypeError('planted');
      },
      /planted/,
    ],
    [
      'a model that gives no number',
      (a: { constant: (x: number) => unknown }) => a.constant(Number.NaN),
      /finite|number/,
    ],
    [
      'a model that wants an input nobody gives',
      (_a, { runout }: { runout: { value: number } }) => runout.value,
      /undefined/,
    ],
  ])('%s makes planJob throw', async (_name, evaluate, message) => {
    const planted = await planWith(SURFACE, ({ topSlideModel }) => ({
      topSlideModel: { ...(topSlideModel as object), evaluate },
    }));
    expect(() => planted(JOB, { trials: 1000 })).toThrow(message);
  });

  it.each(['out-of-range', 'wrong-kind', 'contradiction', 'not-representable', 'missing-option'] as const)(
    'a refusal of settings as %s surfaces',
    async (code) => {
      const planted = await planWith(SETTINGS, () => ({
        topSlideSettings: () => {
          throw new GeneratrixError(code, 'travel', 75, 'must not be asked so');
        },
      }));
      expect(() => planted(JOB, { trials: 1000 })).toThrow(/must not be asked so/);
    },
  );

  it.each(['beyond-machine', 'impossible-geometry'] as const)(
    "a set-up's own %s is a limit of the plan",
    async (code) => {
      const planted = await planWith(SETTINGS, () => ({
        topSlideSettings: () => {
          throw new GeneratrixError(code, 'travel', 75, 'must be longer');
        },
      }));
      const [method] = planted(JOB, { trials: 1000 }).methods.filter(({ method }) => method === 'top-slide');
      expect(method?.reaches).toBe(false);
      expect(method?.limits.at(-1)).toMatchObject({ code: 'set-up', met: false });
      expect(method?.limits.at(-1)?.message).toContain('must be longer');
    },
  );
});

describe('a job that was imported', () => {
  it('is read whole: all that is wrong with it is told at once', () => {
    const { title, ...untitled } = JOB;
    const read = readJob({
      ...untitled,
      unit: 'inch',
      part: { ...JOB.part, length: -1, sideways: true },
      lathes: [{ name: title }],
    });
    if (!('errors' in read)) throw new Error('read');
    expect(read.errors.map(({ code, parameter }) => `${code} ${parameter}`)).toEqual([
      'missing-option title',
      'out-of-range unit',
      'unknown-option part.sideways',
      'out-of-range part.length',
      'missing-option lathes[0].centreDistance',
    ]);
    expect(read.errors[1]?.allowed).toMatchObject({ kind: 'choice', choices: ['mm', 'in'] });
  });

  it('may hold fractions and decimal commas where a length is expected', () => {
    const read = readJob({
      ...JOB,
      unit: 'in',
      part: { ...JOB.part, largeDiameter: '1 1/4', length: '2,5', workLength: '180 mm', largeEndAt: '3.9' },
    });
    if (!('value' in read)) throw read.errors[0];
    expect(read.value.part).toMatchObject({ largeDiameter: 1.25, length: 2.5, largeEndAt: 3.9 });
    expect((read.value.part as { workLength: number }).workLength).toBeCloseTo(180 / 25.4, 14);
    // 1,250 may be a thousand and a quarter, or one and a quarter: nobody guesses.
    const doubtful = readJob({ ...JOB, part: { ...JOB.part, length: '1,250' } });
    expect('errors' in doubtful && doubtful.errors[0]?.parameter).toBe('part.length');
  });

  it('is the same when it is read again', () => {
    for (const job of [TAPER_JOB, SPHERE_JOB]) {
      const once = readJob(JSON.parse(JSON.stringify(job)));
      if (!('value' in once)) throw once.errors[0];
      expect(readJob(once.value)).toEqual(once);
    }
  });
});

describe('a method of a plan is carried on', () => {
  const plan = planJob(JOB, { trials: 1000 });

  it('to the surface that its settings cut, errors by their source', () => {
    const slope = Math.atan(1 / 40) + (0.1 * Math.PI) / 180;
    const exact = planSurface({ plan }) as { smallDiameter: number };
    expect(exact.smallDiameter).toBeCloseTo(21, 12);
    const steeper = planSurface({ plan, errors: { topSlideDeg: 0.1 } }) as { smallDiameter: number };
    expect(steeper.smallDiameter).toBeCloseTo(24 - 120 * Math.tan(slope), 12);
    const high = planSurface({ plan, errors: { toolHeight: 1, touchOff: 0.2 } }) as { smallDiameter: number };
    expect(high.smallDiameter).toBeCloseTo(2 * Math.hypot(Math.sqrt(12.1 ** 2 - 1) - 1.5, 1), 12);
    // An error that does not act on the method changes nothing.
    expect(planSurface({ plan, errors: { skew: 3 } })).toEqual(exact);
  });

  it('to what to change, and to a drawing', () => {
    const measured = { largeDiameter: 24, smallDiameter: 21.06, length: 60 };
    const change = planCorrection({ plan, measured }) as { changeDeg: number };
    const cut = Math.atan(2.94 / 120);
    expect(change.changeDeg).toBeCloseTo(((Math.atan(1 / 40) - cut) * 180) / Math.PI, 12);
    for (const [i, { reaches }] of plan.methods.entries()) {
      if (reaches) expect(planFigure({ plan, method: i })).toMatch(/^<svg /);
    }
    expect(plan.methods[plan.best ?? 0]?.reaches).toBe(true);
  });

  it('and not by numbers that a stored plan was given', () => {
    const stored = JSON.parse(JSON.stringify(plan));
    stored.methods[0].settings = { settableReadingDeg: null };
    expect(planSurface({ plan: stored })).toEqual(planSurface({ plan }));
    stored.methods[0].machine = 'another lathe';
    expect(() => planSurface({ plan: stored })).toThrow(
      expect.objectContaining({ parameter: 'plan.methods[0].machine' }),
    );
    stored.job.part.length = 'long';
    expect(() => planSurface({ plan: stored })).toThrow(expect.objectContaining({ parameter: 'plan.job.part.length' }));
  });
});
