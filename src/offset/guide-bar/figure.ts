/** The guide bar swung to the half angle behind the work, seen from above: bar, pivot, cross slide, and its reading. */
import { anyNumber, defaulted, type Fields, number, read, text } from '../../core/read.js';
import { tanDeg } from '../../core/trigonometry.js';
import { fitted } from '../../draw/fit.js';
import { FIGURE, type FigureOptions, type Looks, part } from '../../draw/options.js';
import { type Block, key, page, remarks } from '../../draw/page.js';
import { arc, disc, line, outline, type Point } from '../../draw/svg.js';
import { tags } from '../../draw/tags.js';
import { readings, writer } from '../../draw/text.js';
import { type TaperedWork, work } from '../../draw/work.js';
import { CONE_LIE, type ConeLie, type ConePlan, conePlan, coneTags, coneWork, STRIP } from '../cone-plan.js';
import type { GuideBarSettings } from '../guide-bar/index.js';

/** What {@link guideBarFigure} needs. */
export interface GuideBarFigureOptions extends FigureOptions, ConeLie {
  /** The settings, as `guideBarSettings` gives them. */
  readonly settings: GuideBarSettings;
  /** The taper that is cut. */
  readonly work: TaperedWork;
  /** What the bar's scale reads, such as `°` or `in per foot`. @defaultValue no unit */
  readonly scaleUnit?: string;
}

type Drawn = Omit<GuideBarFigureOptions, 'settings'> & {
  readonly settings: Pick<GuideBarSettings, 'halfAngleDeg' | 'crossTravel' | 'reading' | 'settableReading'>;
};

const FIELDS: Fields<Drawn, Looks | keyof ConeLie | 'scaleUnit'> = {
  ...FIGURE,
  ...CONE_LIE,
  settings: part({
    halfAngleDeg: number({ above: 0, below: 90 }),
    crossTravel: anyNumber,
    reading: anyNumber,
    settableReading: anyNumber,
  }),
  work,
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
  const given = read<Drawn, Looks | keyof ConeLie | 'scaleUnit'>(figure, FIELDS);
  const { width, settings, work } = given;
  const { halfAngleDeg: angle, crossTravel: cross } = settings;
  const write = writer(given.unit, given.decimals);
  const scale = readings(settings.reading, settings.settableReading, given.scaleUnit, 4);
  const plan = conePlan(work, given, tanDeg(angle), width);
  return page(
    given,
    'Guide bar swung to the half angle, seen from above',
    `Plan of a lathe. The guide bar behind the work stands at ${write.angle(angle)} to the work's axis and moves ` +
      `the cross slide by ${write.length(cross)} over the taper. ${plan.said.join(' ')}`,
    [
      lay(plan, width),
      remarks([plan.said.join(' ')], width),
      key(
        [
          { symbol: 'α', meaning: "Bar from the work's axis", value: write.angle(angle) },
          { symbol: 'c', meaning: 'Movement of the cross slide', value: write.length(cross) },
          { symbol: 'D', meaning: 'Large diameter', value: write.length(work.largeDiameter) },
          { symbol: 'd', meaning: 'Small diameter', value: write.length(work.smallDiameter) },
          { symbol: 'ℓ', meaning: 'Length of the taper', value: write.length(work.length) },
          { meaning: 'Scale, exact reading', value: scale.exact },
          { meaning: 'Scale, nearest graduation', value: scale.nearest },
        ],
        width,
      ),
    ],
  );
}

function lay(plan: ConePlan, width: number): Block {
  const { length, left, right, outer, way, drawnDeg, tan } = plan;
  const half = (drawnDeg * Math.PI) / 360;
  return fitted(plan.bounds, { ...STRIP, width }, (view) => {
    const base = outer + 34 / view.scale;
    const deep = Math.min(0.09 * length, 26 / view.scale);
    /** A place on the bar: along the work's axis from the headstock's end, and up from the bar's lower edge. */
    const on = (x: number, up: number): Point => view.at(x, base + (way === 1 ? x : length - x) * tan + up);
    const pivot = on(length / 2, deep / 2);
    const tool = view.at(length / 2, -(left + right) / 2);
    const reach = 0.42 * length * view.scale;
    const low = view.at((way === 1 ? 1.04 : -0.04) * length, base);
    const high: Point = [low[0], low[1] - length * tan * view.scale];
    const [lowEnd, highEnd] = way === 1 ? [0, length] : [length, 0];
    return [
      line('cross-slide', 'gx-slide', pivot, [tool[0], tool[1] + 14]),
      ...coneWork(plan, view),
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
      ...tags(
        [
          ...coneTags(plan, view),
          { text: 'α', at: [pivot[0] + reach * Math.cos(half), pivot[1] - way * reach * Math.sin(half)], towards: 0 },
          { text: 'c', at: [low[0], (low[1] + high[1]) / 2], towards: 90 - way * 90 },
        ],
        width,
        view.height,
      ),
    ];
  });
}
