/** Stages of planning: what can be said at once, and the plan made with pauses. */
import { GeneratrixError, type Job, outlineJob, planJob, planJobAsync } from 'generatrix';
import { describe, expect, it } from 'vitest';
import { sphereJob } from './sphere-jobs.js';
import { taperJob } from './taper-jobs.js';

const JOBS: readonly (readonly [string, Job])[] = [
  ['taper', taperJob()],
  ['bore', taperJob({ side: 'inside', headstockEnd: 'small', largeEndAt: 180 })],
  ['ball', sphereJob({ part: 'ball-on-stem', diameter: 32, stemDiameter: 14 })],
];

describe.each(JOBS)('a job for a %s', (_name, job) => {
  const plan = planJob(job, { trials: 1000 });

  it('has the limits, settings and means of its plan at once, what reaches first', () => {
    const { methods, assumptions } = outlineJob(job);
    expect(assumptions).toEqual(plan.assumptions);
    expect(methods).toHaveLength(plan.methods.length);
    for (const { method, machine, reaches, ease, limits, settings, means } of plan.methods) {
      expect(methods).toContainEqual({ method, machine, reaches, ease, limits, settings, means });
    }
    const order = methods.map(({ reaches }) => reaches);
    expect(order).toEqual([...order].sort((a, b) => Number(b) - Number(a)));
  });

  it('has the same plan with pauses, told method by method', async () => {
    const done: number[] = [];
    const paced = await planJobAsync(job, { trials: 1000, progress: (count) => done.push(count) });
    expect(paced).toEqual(plan);
    expect(done.every((count) => count <= plan.methods.length)).toBe(true);
  });
});

it('is given up when its signal says so', async () => {
  const given = planJobAsync(taperJob(), { trials: 1000, signal: { aborted: true } });
  await expect(given).rejects.toThrow(GeneratrixError);
  await expect(given).rejects.toMatchObject({ code: 'aborted' });
});
