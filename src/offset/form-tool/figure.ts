/** A form tool's straight edge at the half angle, seen from above: work, edge, how the tool is fed in. */
import { anyNumber, type Fields, number, read } from '../../core/read.js';
import { tanDeg } from '../../core/trigonometry.js';
import { part } from '../../draw/options.js';
import type { View } from '../../draw/scale.js';
import { arc, line, outline, type Point } from '../../draw/svg.js';
import {
  CONE_FIGURE,
  type ConeDrawing,
  type ConeFigureOptions,
  type ConeLooks,
  type ConePlan,
  coneFigure,
} from '../cone-plan.js';
import type { FormToolSettings } from './settings.js';

/** What {@link formToolFigure} needs. */
export interface FormToolFigureOptions extends ConeFigureOptions {
  /** The settings, as `formToolSettings` gives them. */
  readonly settings: FormToolSettings;
}

type Drawn = Omit<FormToolFigureOptions, 'settings'> & {
  readonly settings: Pick<
    FormToolSettings,
    'halfAngleDeg' | 'fromFaceDeg' | 'widthNeeded' | 'squareInfeed' | 'indicatorOnEdge' | 'indicatorOnCylinder'
  >;
};

const FIELDS: Fields<Drawn, ConeLooks> = {
  ...CONE_FIGURE,
  settings: part({
    halfAngleDeg: number({ above: 0, below: 90 }),
    fromFaceDeg: anyNumber,
    widthNeeded: anyNumber,
    squareInfeed: anyNumber,
    indicatorOnEdge: anyNumber,
    indicatorOnCylinder: anyNumber,
  }),
};

/**
 * Plan of a form tool at a short taper: the edge at the half angle, the length of edge, how far it is fed in, and what
 * a protractor and an indicator show.
 *
 * @param figure - Settings, the work, unit and looks.
 * @returns The figure as SVG text.
 * @throws GeneratrixError for settings or work that are not complete.
 * @example
 * ```ts
 * import { formToolFigure, formToolSettings } from 'generatrix';
 * const svg = formToolFigure({
 *   settings: formToolSettings({ taper: { includedAngleDeg: 60 }, length: 5 }),
 *   work: { largeDiameter: 20, smallDiameter: 14.226, length: 5 },
 *   unit: 'mm',
 * });
 * svg.includes('5.774 mm'); // => true
 * ```
 */
export function formToolFigure(figure: FormToolFigureOptions): string {
  const given = read<Drawn, ConeLooks>(figure, FIELDS);
  const { settings } = given;
  const angle = settings.halfAngleDeg;
  return coneFigure(given, tanDeg(angle), {
    title: 'Form tool at the half angle, seen from above',
    says: (write) =>
      `The straight edge of a form tool stands at ${write.angle(angle)} to the work's axis and is fed ` +
      `straight in by ${write.length(settings.squareInfeed)}.`,
    leads: false,
    rows: (write) => [
      [
        { symbol: 'α', meaning: "Edge from the work's axis", value: write.angle(angle) },
        { symbol: 'w', meaning: 'Length of the edge', value: write.length(settings.widthNeeded) },
        { symbol: 'p', meaning: 'Fed in square to the axis', value: write.length(settings.squareInfeed) },
      ],
      [
        { meaning: 'Protractor from a face', value: write.angle(settings.fromFaceDeg) },
        { meaning: 'Indicator against the edge', value: write.length(settings.indicatorOnEdge) },
        { meaning: 'Indicator carried along a true cylinder', value: write.length(settings.indicatorOnCylinder) },
      ],
    ],
    draw: edge,
  });
}

function edge(plan: ConePlan, view: View): ReturnType<ConeDrawing['draw']> {
  const { length, left, right, inside, way, drawnDeg } = plan;
  const turn = (drawnDeg * Math.PI) / 180;
  const [sin, cos] = [Math.sin(turn), Math.cos(turn)];
  const long = length / cos;
  const room = inside ? 0.5 * Math.min(left, right) : Infinity;
  const [over, deep] = [6 / view.scale, Math.min(Math.max(0.3 * long, 34 / view.scale), room)];
  /** A place on the tool: along the cut from the headstock's end, and away from the work. */
  const on = (along: number, away: number): Point => {
    const back = inside ? -away : away;
    return view.at(along * cos + back * way * sin, -left + along * way * sin - back * cos);
  };
  const [near, far] = [on(-over, 0), on(long + over, 0)];
  // The angle stands at the end that lies nearer to the operator.
  const corner = way === 1 ? near : far;
  const reach = 0.55 * long * view.scale;
  const from = way === 1 ? 0 : 180;
  // Beside the shank of a tool in a bore.
  const [x, back] = on((inside ? 0.5 - 0.3 * way : 0.5) * long, deep);
  const feed = inside ? -1 : 1;
  const [head, tail] = [back + feed * 8, back + feed * 42];
  return {
    before: [
      outline('form-tool', 'gx-machine', [near, far, on(long + over, deep), on(-over, deep)]),
      line('edge', 'gx-cut', near, far),
      line('reference', 'gx-wanted', corner, [corner[0] + way * reach * 1.08, corner[1]]),
      arc('angle', 'gx-dimension', corner, reach, from, from + way * drawnDeg),
      line('feed', 'gx-dimension', [x, tail], [x, head]),
      outline('feed-arrow', 'gx-tool', [
        [x, head],
        [x - 3, head + feed * 8],
        [x + 3, head + feed * 8],
      ]),
    ],
    marks: [
      {
        text: 'α',
        at: [corner[0] + way * reach * Math.cos(turn / 2), corner[1] - reach * Math.sin(turn / 2)],
        towards: from,
      },
      { text: 'w', at: on((0.5 + 0.25 * way) * long, deep), towards: way * drawnDeg - 90 },
      { text: 'p', at: [x, tail], towards: 0 },
      { text: 'form tool', at: on(long + over, deep), towards: inside ? 0 : -60, look: 'gx-name' },
    ],
  };
}
