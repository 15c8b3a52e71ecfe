/** A sphere by passes of a ball-ended cutter, as a person meets it: the order of work, the drawing, the cautions. */
import { say, tell } from '../../core/words.js';
import type { MethodSheet, Planned } from '../../method/method.js';
import { CAUTIONS, cautions } from '../cautions.js';
import { meridianFigure } from '../meridian-figure.js';
import { cuttingOf, inOrder } from '../sphere-steps.js';
import { tableSteps } from '../table-steps.js';
import type { BallCutterMethod } from './method.js';

export const ballCutterSheet: MethodSheet<BallCutterMethod> = {
  name: 'ball-cutter',
  title: 'ball-ended cutter, pass by pass',
  work: (planned) => {
    const cutting = cuttingOf(planned);
    const { miss, position } = planned.work.setting;
    const { passes, leftover } = planned.settings;
    const cutter = tell(2 * cutterRadius(planned), { unit: cutting.unit });
    const own = tableSteps(cutting, {
      hold: say`Hold the work true on the rotary table and fit the ball-ended cutter of ${cutter}.`,
      zero: ["Bring the spindle's axis over the table's", 'touch off the end face'],
      limits: [miss, 2 * miss],
      table: {
        columns: ['Cutter centre from the axis', 'Cutter tip above the sphere centre'],
        rows: passes.map(({ centreRadius, tipHeight }) => [centreRadius, tipHeight]),
        limit: position,
      },
      leftover,
      position,
      diameterLimit: planned.work.measuring.diameter,
      uses: 'ballCutterSteps',
    });
    return inOrder(planned, cutting, own);
  },
  figure: (planned, looks) =>
    meridianFigure({
      target: planned.work.part.target,
      title: 'Passes of a ball-ended cutter',
      places: planned.settings.passes.map(({ centreRadius, centreHeight }) => [centreRadius, centreHeight] as const),
      toolRadius: cutterRadius(planned),
      unit: planned.work.unit,
      ...looks,
    }),
  cautions: () => cautions(['head-tilt-clamp', 'table-lock', 'blending'], CAUTIONS),
};

function cutterRadius({ settings: { passes } }: Planned<BallCutterMethod>): number {
  const [pass] = passes;
  return pass ? Math.abs(pass.tipHeight - pass.centreHeight) : 0;
}
