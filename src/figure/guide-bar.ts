/** The guide bar swung to the half angle behind the work, seen from above: bar, pivot, cross slide, and its reading. */
import { options, text } from '../core/checks.js';
import { tanDeg } from '../core/trigonometry.js';
import { field } from '../draw/field.js';
import { COMMON, type FigureOptions, readCommon } from '../draw/options.js';
import { type Block, key, page, remarks } from '../draw/page.js';
import { arc, disc, line, outline, type Point } from '../draw/svg.js';
import { tags } from '../draw/tags.js';
import { decimal } from '../draw/text.js';
import { readWork, type TaperedWork } from '../draw/work.js';
import type { GuideBarSettings } from '../offset/guide-bar.js';
import { type ConePlan, conePlan, coneTags, coneWork } from './cone-plan.js';

/** What {@link guideBarFigure} needs. */
export interface GuideBarFigureOptions extends FigureOptions {
  /** The settings, as `guideBarSettings` gives them. */
  readonly settings: GuideBarSettings;
  /** The taper that is cut. */
  readonly work: TaperedWork;
  /** What the bar's scale reads, such as `°` or `in per foot`; no unit if left out. */
  readonly scaleUnit?: string;
}

/**
 * Plan of a guide bar behind the work: half angle, how far the bar moves the cross slide, scale readings.
 *
 * @param figure - Settings, the work, unit and looks.
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
  const given = options(figure, 'figure', ['settings', 'work', 'unit'], ['scaleUnit', ...COMMON]);
  const common = readCommon(given);
  const { write, width } = common;
  const settings = given['settings'];
  const angle = field(settings, 'settings', 'halfAngleDeg', { above: 0, below: 90 });
  const cross = field(settings, 'settings', 'crossTravel');
  const scaleUnit = text(given['scaleUnit'] ?? '', 'scaleUnit', 20);
  const reading = (name: string): string => {
    const shown = decimal(field(settings, 'settings', name), 4);
    return scaleUnit === '°' ? `${shown}°` : `${shown} ${scaleUnit}`.trimEnd();
  };
  const work = readWork(given['work']);
  const mean = (work.largeDiameter + work.smallDiameter) / 2;
  const plan = conePlan({ length: work.length, mean, tan: tanDeg(angle) }, { below: 0.12, above: 0.5 }, width);
  return page(
    common,
    'Guide bar swung to the half angle, seen from above',
    `Plan of a lathe. The guide bar behind the work stands at ${write.angle(angle)} to the work's axis and moves ` +
      `the cross slide by ${write.length(cross)} over the taper. ${plan.scale}`,
    [
      lay(plan, work.length, width),
      remarks([`Large end at the chuck, operator below. ${plan.scale}`], width),
      key(
        [
          { symbol: 'α', meaning: "Bar from the work's axis", value: write.angle(angle) },
          { symbol: 'c', meaning: 'Movement of the cross slide', value: write.length(cross) },
          { symbol: 'D', meaning: 'Large diameter', value: write.length(work.largeDiameter) },
          { symbol: 'd', meaning: 'Small diameter', value: write.length(work.smallDiameter) },
          { symbol: 'ℓ', meaning: 'Length of the taper', value: write.length(work.length) },
          { meaning: 'Scale, exact reading', value: reading('reading') },
          { meaning: 'Scale, nearest graduation', value: reading('settableReading') },
        ],
        width,
      ),
    ],
  );
}

function lay(plan: ConePlan, length: number, width: number): Block {
  const { at, large, drawnDeg, view } = plan;
  const turn = (drawnDeg * Math.PI) / 180;
  const rise = length * Math.tan(turn);
  const base = large + 34 / view.scale;
  const deep = Math.min(0.09 * length, 26 / view.scale);
  /** A place on the bar: along the work's axis from the large end, and up from the bar's lower edge. */
  const on = (x: number, up: number): Point => at(x, base + x * Math.tan(turn) + up);
  const pivot = on(length / 2, deep / 2);
  const tool = at(length / 2, -(plan.large + plan.small) / 2);
  const reach = 0.42 * length * view.scale;
  const half = turn / 2;
  const right = at(1.04 * length, base);
  return {
    height: view.height,
    content: [
      line('cross-slide', 'gx-slide', pivot, [tool[0], tool[1] + 14]),
      ...coneWork(plan, length),
      outline('bar', 'gx-machine', [
        on(-0.08 * length, 0),
        on(1.08 * length, 0),
        on(1.08 * length, deep),
        on(-0.08 * length, deep),
      ]),
      line('bar-line', 'gx-mark', on(-0.08 * length, deep / 2), on(1.08 * length, deep / 2)),
      line('reference', 'gx-wanted', pivot, [pivot[0] + reach * 1.1, pivot[1]]),
      arc('angle', 'gx-dimension', pivot, reach, 0, drawnDeg),
      disc('pivot', 'gx-tool', pivot, 3.5),
      line('extension', 'gx-leader', on(0, 0), [right[0] + 4, right[1]]),
      line('extension', 'gx-leader', on(length, 0), [right[0] + 4, right[1] - rise * view.scale]),
      line('cross-travel', 'gx-dimension', right, [right[0], right[1] - rise * view.scale]),
      ...tags(
        [
          ...coneTags(plan, length),
          { text: 'α', at: [pivot[0] + reach * Math.cos(half), pivot[1] - reach * Math.sin(half)], towards: 0 },
          { text: 'c', at: [right[0], right[1] - (rise / 2) * view.scale], towards: 0 },
        ],
        width,
        view.height,
      ),
    ],
  };
}
