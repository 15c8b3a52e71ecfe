/** The top slide swung to the half angle, seen from above: work, slide, travel, and what scale and indicator read. */
import { anyNumber, type Fields, number, read } from '../core/read.js';
import { tanDeg } from '../core/trigonometry.js';
import { FIGURE, type FigureOptions, type Looks, part } from '../draw/options.js';
import { type Block, key, page, remarks } from '../draw/page.js';
import { arc, dimension, line, outline, type Point } from '../draw/svg.js';
import { tags } from '../draw/tags.js';
import { writer } from '../draw/text.js';
import { type TaperedWork, work } from '../draw/work.js';
import type { TopSlideSettings } from '../offset/top-slide/index.js';
import { type ConePlan, conePlan, coneTags, coneWork } from './cone-plan.js';

/** What {@link topSlideFigure} needs. */
export interface TopSlideFigureOptions extends FigureOptions {
  /** The settings, as `topSlideSettings` gives them. */
  readonly settings: TopSlideSettings;
  /** The taper that is cut. */
  readonly work: TaperedWork;
}

type Drawn = Omit<TopSlideFigureOptions, 'settings'> & {
  readonly settings: Pick<
    TopSlideSettings,
    'halfAngleDeg' | 'travelNeeded' | 'readingDeg' | 'settableReadingDeg' | 'indicatorOnCylinder' | 'indicatorOnSlide'
  >;
};

const FIELDS: Fields<Drawn, Looks> = {
  ...FIGURE,
  settings: part({
    halfAngleDeg: number({ above: 0, below: 90 }),
    travelNeeded: anyNumber,
    readingDeg: anyNumber,
    settableReadingDeg: anyNumber,
    indicatorOnCylinder: anyNumber,
    indicatorOnSlide: anyNumber,
  }),
  work,
};

/**
 * Plan of a swung top slide: half angle, travel along the slide, scale readings, and what an indicator shows.
 *
 * @param figure - Settings, the work, unit and looks.
 * @returns The figure as SVG text.
 * @throws GeneratrixError for settings or work that are not complete.
 * @example
 * ```ts
 * import { topSlideFigure, topSlideSettings } from 'generatrix';
 * const svg = topSlideFigure({
 *   settings: topSlideSettings({ taper: { includedAngleDeg: 60 }, length: 20 }),
 *   work: { largeDiameter: 40, smallDiameter: 16.906, length: 20 },
 *   unit: 'mm',
 * });
 * svg.includes('23.094 mm'); // => true
 * ```
 */
export function topSlideFigure(figure: TopSlideFigureOptions): string {
  const given = read<Drawn, Looks>(figure, FIELDS);
  const { width, settings, work } = given;
  const angle = settings.halfAngleDeg;
  const write = writer(given.unit, given.decimals);
  const scale = write.swivel(settings.readingDeg, settings.settableReadingDeg);
  const mean = (work.largeDiameter + work.smallDiameter) / 2;
  const plan = conePlan({ length: work.length, mean, tan: tanDeg(angle) }, { below: 0.5, above: 0.1 }, width);
  return page(
    given,
    'Top slide swung to the half angle, seen from above',
    `Plan of a lathe. The top slide stands at ${write.angle(angle)} to the work's axis and travels ` +
      `${write.length(settings.travelNeeded)}. ${plan.scale}`,
    [
      lay(plan, work.length, width),
      remarks([`Large end at the chuck, operator below. ${plan.scale}`], width),
      key(
        [
          { symbol: 'α', meaning: "Slide from the work's axis", value: write.angle(angle) },
          { symbol: 't', meaning: 'Travel along the slide', value: write.length(settings.travelNeeded) },
          { symbol: 'D', meaning: 'Large diameter', value: write.length(work.largeDiameter) },
          { symbol: 'd', meaning: 'Small diameter', value: write.length(work.smallDiameter) },
          { symbol: 'ℓ', meaning: 'Length of the taper', value: write.length(work.length) },
          { meaning: 'Scale, exact reading', value: scale.exact },
          { meaning: 'Scale, nearest graduation', value: scale.nearest },
          { meaning: 'Indicator carried along a true cylinder', value: write.length(settings.indicatorOnCylinder) },
          { meaning: "Indicator against the slide's edge", value: write.length(settings.indicatorOnSlide) },
        ],
        width,
      ),
    ],
  );
}

function lay(plan: ConePlan, length: number, width: number): Block {
  const { at, large, drawnDeg, view } = plan;
  const turn = (drawnDeg * Math.PI) / 180;
  /** A place on the slide: along the cut from its large end, and away from the work. */
  const on = (along: number, away: number): Point =>
    at(along * Math.cos(turn) + away * Math.sin(turn), -large + along * Math.sin(turn) - away * Math.cos(turn));
  const long = length / Math.cos(turn);
  const gap = 24 / view.scale;
  const deep = Math.min(0.16 * length, 60 / view.scale);
  const travel = gap + deep + 14 / view.scale;
  const corner = on(-0.06 * long, gap);
  const reach = 0.55 * long * view.scale;
  const middle = turn / 2;
  return {
    height: view.height,
    content: [
      outline('slide', 'gx-machine', [
        corner,
        on(1.06 * long, gap),
        on(1.06 * long, gap + deep),
        on(-0.06 * long, gap + deep),
      ]),
      ...coneWork(plan, length),
      line('reference', 'gx-wanted', corner, [corner[0] + reach * 1.08, corner[1]]),
      line('slide-edge', 'gx-mark', corner, on(1.06 * long, gap)),
      arc('angle', 'gx-dimension', corner, reach, 0, drawnDeg),
      line('extension', 'gx-leader', on(0, gap + deep), on(0, travel + 4 / view.scale)),
      line('extension', 'gx-leader', on(long, gap + deep), on(long, travel + 4 / view.scale)),
      ...dimension('travel', on(0, travel), on(long, travel)),
      ...tags(
        [
          ...coneTags(plan, length),
          { text: 'α', at: [corner[0] + reach * Math.cos(middle), corner[1] - reach * Math.sin(middle)], towards: 0 },
          { text: 't', at: on(long / 2, travel), towards: drawnDeg - 90 },
        ],
        width,
        view.height,
      ),
    ],
  };
}
