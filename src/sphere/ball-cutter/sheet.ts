/**
 * A sphere by passes of a ball-ended cutter, as a person meets it: the order of work, the drawing, the cautions, what
 * it cuts.
 */
import type { Provide } from '../../method/actions.js';
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
    const { ball } = cutting;
    const { passes, leftover } = planned.settings;
    const flat = planned.machine.table === 'flat';
    const { position } = planned.work.setting;
    // Distances from the axis are told on the tool's side of the work, heights as they grow for the tool.
    const [across, along] = flat ? (['table', 'knee'] as const) : (['knee', 'table'] as const);
    const toFree = flat ? 'up' : 'right';
    return inOrder(planned, cutting, [
      ...before(planned, cutting),
      ...tableSteps(cutting, {
        controls: [across, along],
        ways: [flat ? 'right' : 'up', ball ? toFree : flat ? 'down' : 'left'],
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
        widest: widest(planned.work, anglesOf(planned.settings)),
        leftover,
        position,
        diameterLimit: planned.work.measuring.diameter,
        uses: 'ballCutterSteps',
      }),
    ]);
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

/** From holding the work to the zeros of the table. */
function before(
  planned: Planned<BallCutterMethod>,
  { unit, ball, shape, leave }: Cutting,
): readonly Step<keyof typeof CUTTER_WORDS>[] {
  const { work, machine } = planned;
  const { miss, position, headTiltDeg } = work.setting;
  const flat = machine.table === 'flat';
  const [across, along] = flat ? (['table', 'knee'] as const) : (['knee', 'table'] as const);
  const stems = shape.part === 'ball-between-stems';
  const provide = (what: string, value: number, at?: number): Provide => ({
    do: 'provide',
    what,
    size: { value, unit, limit: work.measuring.length },
    ...(at !== undefined && { at: { value: at, unit, limit: work.measuring.length } }),
  });
  const stock = Math.max(shape.toDeg > 90 ? 2 * (shape.radius + 2 * leave) : 0, shape.toDiameter);
  return [
    step(CUTTER_WORDS, 'prepare', 'hold-work', {
      hold: { do: 'clamp', what: 'rotary-table', way: flat ? 'up' : 'right' },
      cutter: { do: 'provide', what: 'cutter', size: { value: 2 * cutterRadius(planned), unit } },
      plane: { do: 'zero', control: 'saddle', where: 'axes-in-one-plane', reads: { value: 0, unit, limit: miss } },
    }),
    ...(ball
      ? [
          step(CUTTER_WORDS, 'prepare', 'stock', {
            stock: provide('stock', stock),
            ...(stems && { freeStem: provide('free-stem', shape.fromDiameter, shape.fromHeight) }),
          }),
        ]
      : []),
    step(CUTTER_WORDS, 'set', 'tilt-cutter', {
      head: {
        do: 'set',
        control: 'head',
        reading: { value: cutterTilt(planned), unit: '°', limit: headTiltDeg, step: machine.headTilt.stepDeg },
        way: 'clockwise',
      },
      lock: { do: 'lock', what: 'head' },
      side: !ball ? 'inside' : flat ? 'right' : 'up',
    }),
    step(CUTTER_WORDS, 'set', 'zero', {
      across: { do: 'zero', control: across, where: 'over-centre', reads: { value: 0, unit, limit: miss } },
      touch: {
        do: 'touch',
        on: stems ? 'shoulder' : 'end-face',
        control: along,
        way: flat ? 'up' : 'right',
        with: ball ? 'end-nearest-held' : 'end-deepest',
      },
      along: {
        do: 'zero',
        control: along,
        where: 'touching',
        reads: { value: ball ? shape.fromHeight : shape.toHeight, unit, limit: position },
      },
    }),
  ];
}

function cutterTilt({ work, machine, settings }: Planned<BallCutterMethod>): number {
  return cutterTiltDeg(shapeOf(work).side, settings, machine, work.setting.headTiltDeg);
}

function cutterRadius({ settings: { passes } }: Planned<BallCutterMethod>): number {
  const [pass] = passes;
  return pass ? Math.abs(pass.tipHeight - pass.centreHeight) : 0;
}
