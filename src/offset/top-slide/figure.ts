/** The top slide swung to the half angle, seen from above: work, slide, travel, and what scale and indicator read. */
import { anyNumber, type Fields, number, read } from '../../core/read.js';
import { tanDeg } from '../../core/trigonometry.js';
import { fitted } from '../../draw/fit.js';
import { FIGURE, type FigureOptions, type Looks, part } from '../../draw/options.js';
import { type Block, key, page, remarks } from '../../draw/page.js';
import { arc, dimension, line, outline, type Point } from '../../draw/svg.js';
import { tags } from '../../draw/tags.js';
import { writer } from '../../draw/text.js';
import { type TaperedWork, work } from '../../draw/work.js';
import { CONE_LIE, type ConeLie, type ConePlan, conePlan, coneTags, coneWork, STRIP } from '../cone-plan.js';
import type { TopSlideSettings } from '../top-slide/index.js';

/** What {@link topSlideFigure} needs. */
export interface TopSlideFigureOptions extends FigureOptions, ConeLie {
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

const FIELDS: Fields<Drawn, Looks | keyof ConeLie> = {
  ...FIGURE,
  ...CONE_LIE,
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
  const given = read<Drawn, Looks | keyof ConeLie>(figure, FIELDS);
  const { width, settings, work } = given;
  const angle = settings.halfAngleDeg;
  const write = writer(given.unit, given.decimals);
  const scale = write.swivel(settings.readingDeg, settings.settableReadingDeg);
  const plan = conePlan(work, given, tanDeg(angle), width);
  return page(
    given,
    'Top slide swung to the half angle, seen from above',
    `Plan of a lathe. The top slide stands at ${write.angle(angle)} to the work's axis and travels ` +
      `${write.length(settings.travelNeeded)}. ${plan.said.join(' ')}`,
    [
      lay(plan, width),
      remarks([plan.said.join(' ')], width),
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

function lay(plan: ConePlan, width: number): Block {
  const { length, left, outer, inside, way, drawnDeg, tan } = plan;
  const turn = (drawnDeg * Math.PI) / 180;
  const [sin, cos] = [Math.sin(turn), Math.cos(turn)];
  const long = length / cos;
  // Beside the cut, or beside the work that is bored.
  const start = inside ? -outer - (way === 1 ? length * tan : 0) : -left;
  return fitted(plan.bounds, { ...STRIP, width }, (view) => {
    /** A place on the slide: along the cut from the headstock's end, and away from the work. */
    const on = (along: number, away: number): Point =>
      view.at(along * cos + away * way * sin, start + along * way * sin - away * cos);
    const gap = 24 / view.scale;
    const deep = Math.min(0.16 * length, 60 / view.scale);
    const travel = gap + deep + 14 / view.scale;
    const [near, far] = [on(-0.06 * long, gap), on(1.06 * long, gap)];
    // The angle stands at the end that lies nearer to the operator.
    const corner = way === 1 ? near : far;
    const reach = 0.55 * long * view.scale;
    const from = way === 1 ? 0 : 180;
    return [
      outline('slide', 'gx-machine', [near, far, on(1.06 * long, gap + deep), on(-0.06 * long, gap + deep)]),
      ...coneWork(plan, view),
      line('reference', 'gx-wanted', corner, [corner[0] + way * reach * 1.08, corner[1]]),
      line('slide-edge', 'gx-mark', near, far),
      arc('angle', 'gx-dimension', corner, reach, from, from + way * drawnDeg),
      line('extension', 'gx-leader', on(0, gap + deep), on(0, travel + 4 / view.scale)),
      line('extension', 'gx-leader', on(long, gap + deep), on(long, travel + 4 / view.scale)),
      ...dimension('travel', on(0, travel), on(long, travel)),
      ...tags(
        [
          ...coneTags(plan, view),
          {
            text: 'α',
            at: [corner[0] + way * reach * Math.cos(turn / 2), corner[1] - reach * Math.sin(turn / 2)],
            towards: from,
          },
          { text: 't', at: on(long / 2, travel), towards: way * drawnDeg - 90 },
        ],
        width,
        view.height,
      ),
    ];
  });
}
