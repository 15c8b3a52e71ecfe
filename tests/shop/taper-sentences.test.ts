/** What the sentences of tapers say is what their actions hold, read by a reader of English. */
import fc from 'fast-check';
import { type Job, planJob, planSteps } from 'generatrix';
import { expect, it } from 'vitest';
import { runs } from '../oracle/seed.js';
import { unsaid } from './reader.js';
import { sheetOf, taperKinds } from './taper-kinds.js';

it('on the sheet of every kind', () => {
  for (const kind of taperKinds().filter((_, i) => i % runs(1, 5) === 0)) {
    for (const step of sheetOf(kind)) expect([kind.name, step.code, unsaid(step)]).toEqual([kind.name, step.code, []]);
  }
});

/** A job of any size for a lathe that has everything. */
const jobs = fc
  .record({
    unit: fc.constantFrom('mm' as const, 'in' as const),
    oneIn: fc.double({ min: 8, max: 40, noNaN: true }),
    diameter: fc.double({ min: 12, max: 60, noNaN: true }),
    slender: fc.double({ min: 0.5, max: 3, noNaN: true }),
    side: fc.constantFrom('outside' as const, 'inside' as const),
    headstockEnd: fc.constantFrom('large' as const, 'small' as const),
    step: fc.constantFrom(0.02, 0.05),
  })
  .map(({ unit, oneIn, diameter, slender, side, headstockEnd, step }): Job => {
    const per = unit === 'mm' ? 1 : 1 / 25.4;
    const [large, length] = [diameter * per, slender * diameter * per];
    const workLength = 3 * length + 40 * per;
    const outer = side === 'inside' ? workLength : 2 * length + 20 * per;
    const ball = { ballDiameter: 10 * per, mouthDiameter: 8 * per };
    return {
      title: 'any',
      unit,
      part: {
        kind: 'taper',
        taper: { oneIn },
        side,
        largeDiameter: large,
        length,
        workLength,
        largeEndAt: headstockEnd === 'small' ? outer : outer - length,
        headstockEnd,
        centreHoles: true,
        ...(side === 'outside' && { stockDiameter: large + 2 * per }),
        tolerance: { smallDiameter: 0.05 * per },
      },
      lathes: [
        {
          name: 'lathe',
          centreDistance: 2000 * per,
          topSlide: { travel: 300 * per, scale: { reads: 'from-axis', stepDeg: 0.5 } },
          guideBar: { travel: 400 * per, scale: { by: 'per-foot', step: 0.1 }, largestHalfAngleDeg: 10 },
          tailstock: { setover: 40 * per, dial: { reads: 'radius', step: step * per } },
          ballCentres: {
            offset: 40 * per,
            dial: { reads: 'diameter', step: step * per },
            headstock: ball,
            tailstock: ball,
          },
          formTool: { width: 200 * per, largestWidth: 200 * per },
        },
      ],
    };
  });

it('on sheets of any job', () => {
  let read = 0;
  fc.assert(
    fc.property(jobs, (job) => {
      const plan = planJob(job, { trials: 1000 });
      plan.methods.forEach(({ reaches }, method) => {
        if (!reaches) return;
        read++;
        for (const step of planSteps({ plan, method }))
          expect([step.code, unsaid(step), step.text]).toEqual([step.code, [], step.text]);
      });
    }),
    { numRuns: runs(500, 6) },
  );
  expect(read).toBeGreaterThan(6);
});
