/** The guide bar swung to the half angle behind the work, seen from above: bar, pivot, cross slide, and its reading. */
import { anyNumber, defaulted, type Fields, number, read, text } from '../../core/read.js';
import { tanDeg } from '../../core/trigonometry.js';
import { part } from '../../draw/options.js';
import type { View } from '../../draw/scale.js';
import { arc, disc, line, outline, type Point } from '../../draw/svg.js';
import { readings } from '../../draw/text.js';
import {
  CONE_FIGURE,
  type ConeDrawing,
  type ConeFigureOptions,
  type ConeLooks,
  type ConePlan,
  coneFigure,
} from '../cone-plan.js';
import type { GuideBarSettings } from '../guide-bar/index.js';

/** What {@link guideBarFigure} needs. */
export interface GuideBarFigureOptions extends ConeFigureOptions {
  /** The settings, as `guideBarSettings` gives them. */
  readonly settings: GuideBarSettings;
  /** What the bar's scale reads, such as `°` or `in per foot`. @defaultValue no unit */
  readonly scaleUnit?: string;
}

type Drawn = Omit<GuideBarFigureOptions, 'settings'> & {
  readonly settings: Pick<GuideBarSettings, 'halfAngleDeg' | 'crossTravel' | 'reading' | 'settableReading'>;
};

const FIELDS: Fields<Drawn, ConeLooks | 'scaleUnit'> = {
  ...CONE_FIGURE,
  settings: part({
    halfAngleDeg: number({ above: 0, below: 90 }),
    crossTravel: anyNumber,
    reading: anyNumber,
    settableReading: anyNumber,
  }),
  scaleUnit: defaulted(text(20), ''),
};

/**
 * Plan of a guide bar behind the work: half angle, how far the bar moves the cross slide, scale readings.
 * @returns The figure as SVG text.
 * @throws GeneratrixError for settings or work that are not complete.
 * @example
 * ```ts
 * import { guideBarFigure, guideBarSettings } from 'generatrix';
 * const svg = guideBarFigure({
 *   settings: guideBarSettings({ taper: { oneIn: 12 }, length: 120 }),
 *   work: { largeDiameter: 40, smallDiameter: 30, length: 120 },
 *   unit: 'mm',
 *   scaleUnit: '°',
 * });
 * svg.includes('5.000 mm'); // => true
 * ```
 */
export function guideBarFigure(figure: GuideBarFigureOptions): string {
  const given = read<Drawn, ConeLooks | 'scaleUnit'>(figure, FIELDS);
  const { halfAngleDeg: angle, crossTravel: cross, reading, settableReading } = given.settings;
  const scale = readings(reading, settableReading, given.scaleUnit, 4);
  return coneFigure(given, tanDeg(angle), {
    title: 'Guide bar swung to the half angle, seen from above',
    says: (write) =>
      `The guide bar behind the work stands at ${write.angle(angle)} to the work's axis and moves ` +
      `the cross slide by ${write.length(cross)} over the taper.`,
    leads: true,
    rows: (write) => [
      [
        { symbol: 'α', meaning: "Bar from the work's axis", value: write.angle(angle) },
        { symbol: 'c', meaning: 'Movement of the cross slide', value: write.length(cross) },
      ],
      [
        { meaning: 'Scale, exact reading', value: scale.exact },
        { meaning: 'Scale, nearest graduation', value: scale.nearest },
      ],
    ],
    draw: bar,
  });
}

function bar(plan: ConePlan, view: View): ReturnType<ConeDrawing['draw']> {
  const { length, left, right, bounds, way, drawnDeg, tan } = plan;
  const half = (drawnDeg * Math.PI) / 360;
  const base = bounds.top + 34 / view.scale;
  const deep = Math.min(0.09 * length, 26 / view.scale);
  /** A place on the bar: along the work's axis from the headstock's end, and up from the bar's lower edge. */
  const on = (x: number, up: number): Point => view.at(x, base + (way === 1 ? x : length - x) * tan + up);
  const pivot = on(length / 2, deep / 2);
  const tool = view.at(length / 2, -(left + right) / 2);
  const reach = 0.42 * length * view.scale;
  const low = view.at((way === 1 ? 1.04 : -0.04) * length, base);
  const high: Point = [low[0], low[1] - length * tan * view.scale];
  const [lowEnd, highEnd] = way === 1 ? [0, length] : [length, 0];
  return {
    behind: [line('cross-slide', 'gx-slide', pivot, [tool[0], tool[1] + 14])],
    before: [
      outline('bar', 'gx-machine', [
        on(-0.08 * length, 0),
        on(1.08 * length, 0),
        on(1.08 * length, deep),
        on(-0.08 * length, deep),
      ]),
      line('bar-line', 'gx-mark', on(-0.08 * length, deep / 2), on(1.08 * length, deep / 2)),
      line('reference', 'gx-wanted', pivot, [pivot[0] + reach * 1.1, pivot[1]]),
      arc('angle', 'gx-dimension', pivot, reach, 0, way * drawnDeg),
      disc('pivot', 'gx-tool', pivot, 3.5),
      line('extension', 'gx-leader', on(lowEnd, 0), [low[0] + 4 * way, low[1]]),
      line('extension', 'gx-leader', on(highEnd, 0), [high[0] + 4 * way, high[1]]),
      line('cross-travel', 'gx-dimension', low, high),
    ],
    marks: [
      { text: 'α', at: [pivot[0] + reach * Math.cos(half), pivot[1] - way * reach * Math.sin(half)], towards: 0 },
      { text: 'c', at: [low[0], (low[1] + high[1]) / 2], towards: 90 - way * 90 },
      { text: 'guide bar', at: on(0.1 * length, deep / 2), towards: 90, look: 'gx-name' },
      { text: 'cross slide', at: view.at(length / 2, bounds.top), towards: 0, look: 'gx-name' },
    ],
  };
}
