/**
 * A sphere by plain turning at many stops, as a person meets it: the order of work, the drawing, the cautions, what
 * it cuts.
 */
import type { MethodSheet } from '../../method/method.js';
import { CAUTIONS, cautions } from '../cautions.js';
import { meridianFigure } from '../meridian-figure.js';
import { cuttingOf, inOrder } from '../sphere-steps.js';
import { steppedCorrection, steppedSurface, widest } from '../stepped.js';
import { tableSteps } from '../table-steps.js';
import { anglesOf, beside, type StepsMethod } from './method.js';

export const stepsSheet: MethodSheet<StepsMethod> = {
  name: 'steps',
  title: 'steps, blended by hand',
  work: (planned) => {
    const cutting = cuttingOf(planned);
    const { touchOff, position } = planned.work.setting;
    const { steps, leftover } = planned.settings;
    const own = tableSteps(cutting, {
      hold: "Hold the work true, its end faced; the corner of the tool as round as the job states, at the height of the work's axis.",
      zero: [
        'Touch off on a turned diameter and let the dial across read what it measures',
        'touch off on the end face and let the dial along read',
      ],
      alongReads: 0,
      limits: [touchOff, touchOff],
      table: {
        columns: ['Diameter', cutting.ball ? 'Depth from the free end' : 'Depth from the face'],
        rows: steps.map(({ diameter, depth }) => [diameter, depth]),
        limit: position,
      },
      leftover,
      position,
      diameterLimit: planned.work.measuring.diameter,
      uses: 'sphereSteps',
    });
    return inOrder(planned, cutting, own);
  },
  figure: ({ work, machine, settings }, looks) =>
    meridianFigure({
      target: work.part.target,
      title: 'Steps of plain turning, to be blended',
      seen: 'lathe',
      places: settings.steps.map(({ centreRadius, centreHeight }) => [centreRadius, centreHeight] as const),
      toolRadius: machine.slides.noseRadius,
      unit: work.unit,
      ...looks,
    }),
  cautions: () => cautions(['blending'], CAUTIONS),
  surface: (work, _machine, settings, { touchOff = 0, headstockPlanDeg = 0 }) =>
    steppedSurface(work, anglesOf(settings), settings.leftover, touchOff / 2 + beside(work, headstockPlanDeg)),
  correction: (work, _machine, settings, { diameter }) => steppedCorrection(diameter, widest(work, anglesOf(settings))),
};
