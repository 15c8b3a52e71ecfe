/**
 * A sphere by passes of a ball-ended cutter, as a person meets it: the order of work, the drawing, the cautions, what
 * it cuts.
 */
import { say, tell } from '../../core/words.js';
import type { MethodSheet, Planned } from '../../method/method.js';
import { type Step, step } from '../../method/steps.js';
import { CAUTIONS, cautions } from '../cautions.js';
import { meridianFigure } from '../meridian-figure.js';
import { shapeOf } from '../part.js';
import { type Cutting, cuttingOf, inOrder } from '../sphere-steps.js';
import { steppedCorrection, steppedSurface, widest } from '../stepped.js';
import { tableSteps } from '../table-steps.js';
import { anglesOf, type BallCutterMethod, cutterTiltDeg } from './method.js';
import { CUTTER_WORDS } from './words.js';

export const ballCutterSheet: MethodSheet<BallCutterMethod> = {
  name: 'ball-cutter',
  title: 'ball-ended cutter, pass by pass',
  work: (planned) => {
    const cutting = cuttingOf(planned);
    const { unit, ball, shape } = cutting;
    const { miss, position } = planned.work.setting;
    const { passes, leftover } = planned.settings;
    const flat = planned.machine.table === 'flat';
    const cutter = tell(2 * cutterRadius(planned), { unit });
    const free = flat ? 'up' : 'on the right seen from the front';
    const face = shape.part === 'ball-between-stems' ? 'the shoulder where the free stem begins' : 'the end face';
    const end = ball ? 'its place nearest the held end' : 'its place deepest in the work';
    const [hold, ...own] = tableSteps(cutting, {
      hold: say`Hold the work true on the rotary table, the free end ${free}, and fit the ball-ended cutter of ${cutter}.`,
      zero: [
        say`Bring the centre of the ball end ${flat ? "over the table's axis" : "to the height of the table's axis"} and let the dial across read zero`,
        say`touch ${face} with the ball end, ${end}, and let the dial along read`,
      ],
      alongReads: ball ? shape.fromHeight : shape.toHeight,
      limits: [miss, 2 * miss],
      table: {
        columns: [
          "Centre of the ball end from the work's axis",
          ball
            ? "Its place nearest the held end, from the sphere's centre towards the free end"
            : "Its place deepest in the work, from the sphere's centre towards the bottom",
        ],
        rows: passes.map(({ centreRadius, tipHeight }) => [centreRadius, tipHeight]),
        limit: position,
      },
      leftover,
      position,
      diameterLimit: planned.work.measuring.diameter,
      uses: 'ballCutterSteps',
    });
    return inOrder(planned, cutting, [...(hold ? [hold] : []), tilt(planned, cutting), ...own]);
  },
  figure: (planned, looks) =>
    meridianFigure({
      target: planned.work.part.target,
      title: 'Passes of a ball-ended cutter',
      seen: planned.machine.table,
      headTiltDeg: cutterTilt(planned),
      places: planned.settings.passes.map(({ centreRadius, centreHeight }) => [centreRadius, centreHeight] as const),
      toolRadius: cutterRadius(planned),
      unit: planned.work.unit,
      ...looks,
    }),
  cautions: () => cautions(['head-tilt-clamp', 'table-lock', 'blending'], CAUTIONS),
  surface: (work, _machine, settings, { miss = 0 }) =>
    steppedSurface(work, anglesOf(settings), settings.leftover, miss),
  correction: (work, _machine, settings, { diameter }) => steppedCorrection(diameter, widest(work, anglesOf(settings))),
};

/** The head as all passes need it. */
function tilt(planned: Planned<BallCutterMethod>, { ball }: Cutting): Step<keyof typeof CUTTER_WORDS> {
  const { work, machine } = planned;
  const limitDeg = work.setting.headTiltDeg;
  return step(CUTTER_WORDS, 'set', 'tilt-cutter', {
    tiltDeg: cutterTilt(planned),
    limitDeg,
    stepDeg: machine.headTilt.stepDeg,
    where: !ball ? 'inside' : machine.table === 'flat' ? 'right' : 'above',
  });
}

function cutterTilt({ work, machine, settings }: Planned<BallCutterMethod>): number {
  return cutterTiltDeg(shapeOf(work).side, settings, machine, work.setting.headTiltDeg);
}

function cutterRadius({ settings: { passes } }: Planned<BallCutterMethod>): number {
  const [pass] = passes;
  return pass ? Math.abs(pass.tipHeight - pass.centreHeight) : 0;
}
