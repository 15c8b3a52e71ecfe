/**
 * A sphere by plain turning at many stops, as a person meets it: the order of work, the drawing, the cautions, what
 * it cuts.
 */
import type { Amount } from '../../method/actions.js';
import type { MethodSheet, Planned } from '../../method/method.js';
import { type Step, type StepTable, step } from '../../method/steps.js';
import { CAUTIONS, cautions } from '../cautions.js';
import { meridianFigure } from '../meridian-figure.js';
import { type Cutting, cuttingOf, inOrder } from '../sphere-steps.js';
import { steppedCorrection, steppedSurface, widest } from '../stepped.js';
import { drilled, tableSteps, WORDS } from '../table-steps.js';
import { anglesOf, beside, type StepsMethod } from './method.js';
import type { SphereStep } from './settings.js';
import { TURNING_WORDS } from './words.js';

export const stepsSheet: MethodSheet<StepsMethod> = {
  name: 'steps',
  title: 'steps, blended by hand',
  work: (planned) => {
    const cutting = cuttingOf(planned);
    const { position } = planned.work.setting;
    const { steps, leftover } = planned.settings;
    const { noseRadius } = planned.machine.slides;
    const nose = cutting.ball ? noseRadius : -noseRadius;
    // Near the pole of a ball the round nose reaches past the centre: its dial then reads less than zero.
    const reading = ({ centreRadius }: SphereStep): number => 2 * (centreRadius - nose) + 0;
    const columns = ['Diameter', cutting.ball ? 'Depth from the free end' : 'Depth from the face'];
    const table = (from: SphereStep['from']): StepTable => ({
      columns,
      // The dial counts by the edge that touched the end face: behind the ball it is the other side of the corner.
      rows: steps
        .filter((one) => one.from === from)
        .map((one) => [reading(one), from === 'free-end' ? one.depth : one.depth + 2 * noseRadius]),
      limit: position,
    });
    const free = table('free-end');
    const far = table('far-end');
    // The widest place is cut from both sides, or a ridge stands behind it.
    const widestRow = free.rows.at(-1);
    const rows = widestRow && far.rows.length > 0 ? [...far.rows, widestRow] : [];
    return inOrder(planned, cutting, [
      ...before(planned, cutting),
      ...tableSteps(cutting, {
        controls: ['cross-slide', 'carriage'],
        ways: ['operator', 'headstock'],
        on: 'diameter',
        towards: 'headstock',
        table: free,
        ...(rows.length > 0 && { behind: { table: { ...far, rows }, towards: 'tailstock' } }),
        widest: Math.max(...steps.map(reading)),
        leftover,
        position,
        diameterLimit: planned.work.measuring.diameter,
        uses: 'sphereSteps',
      }),
    ]);
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

/** From holding the work to the zeros of the dials. */
function before(
  { work, machine }: Planned<StepsMethod>,
  cutting: Cutting,
): readonly Step<keyof typeof TURNING_WORDS | 'drill'>[] {
  const { unit, ball, shape, leave } = cutting;
  const { touchOff, position, toolHeight } = work.setting;
  const length = (value: number, limit?: number): Amount => ({ value, unit, ...(limit !== undefined && { limit }) });
  const stems = shape.part === 'ball-between-stems';
  const hole = ball ? undefined : drilled(cutting);
  const stock = Math.max(shape.toDeg > 90 ? 2 * (shape.radius + 2 * leave) : 0, shape.toDiameter);
  return [
    step(TURNING_WORDS, 'prepare', 'hold-work', {
      ...(ball && {
        stock: { do: 'provide', what: 'stock', size: length(stock, work.measuring.length) } as const,
      }),
      ...(stems && {
        freeStem: {
          do: 'provide',
          what: 'free-stem',
          size: length(shape.fromDiameter, work.measuring.length),
          at: length(shape.fromHeight, work.measuring.length),
        } as const,
      }),
      corner: { do: 'provide', what: 'round-nose', size: length(machine.slides.noseRadius) },
      height: { do: 'zero', control: 'tool', where: 'axis-height', reads: length(0, toolHeight) },
    }),
    step(TURNING_WORDS, 'set', 'zero', {
      side: {
        do: 'touch',
        on: 'turned-diameter',
        control: 'cross-slide',
        way: 'away-from-operator',
        within: length(0, touchOff),
      },
      across: { do: 'zero', control: 'cross-slide', where: 'as-measured' },
      face: { do: 'touch', on: stems ? 'shoulder' : 'end-face', control: 'carriage', way: 'headstock' },
      along: { do: 'zero', control: 'carriage', where: 'touching', reads: length(0, position) },
    }),
    ...(hole ? [step(WORDS, 'set', 'drill', { hole })] : []),
  ];
}
