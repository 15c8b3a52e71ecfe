/** The top slide swung to the half angle, seen from above: work, slide, travel, and what scale and indicator read. */
import { anyNumber, type Fields, number, object, optional, read } from '../../core/read.js';
import { tanDeg } from '../../core/trigonometry.js';
import { part } from '../../draw/options.js';
import type { View } from '../../draw/scale.js';
import { arc, dimension, line, outline, type Point } from '../../draw/svg.js';
import {
  CONE_FIGURE,
  type ConeDrawing,
  type ConeFigureOptions,
  type ConeLooks,
  type ConePlan,
  coneFigure,
} from '../cone-plan.js';
import type { TopSlideSettings } from '../top-slide/index.js';
import { NOSE, type SlideNose } from './machine.js';

/** What {@link topSlideFigure} needs. */
export interface TopSlideFigureOptions extends ConeFigureOptions {
  /** The settings, as `topSlideSettings` gives them. */
  readonly settings: TopSlideSettings;
  /** Foremost point of the slide seen from the tip, at either end of it; schematic if left out. */
  readonly nose?: SlideNose;
}

type Drawn = Omit<TopSlideFigureOptions, 'settings'> & {
  readonly settings: Pick<
    TopSlideSettings,
    'halfAngleDeg' | 'travelNeeded' | 'readingDeg' | 'settableReadingDeg' | 'indicatorOnCylinder' | 'indicatorOnSlide'
  >;
};

const FIELDS: Fields<Drawn, ConeLooks> = {
  ...CONE_FIGURE,
  nose: optional(object(NOSE)),
  settings: part({
    halfAngleDeg: number({ above: 0, below: 90 }),
    travelNeeded: anyNumber,
    readingDeg: anyNumber,
    settableReadingDeg: anyNumber,
    indicatorOnCylinder: anyNumber,
    indicatorOnSlide: anyNumber,
  }),
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
  const given = read<Drawn, ConeLooks>(figure, FIELDS);
  const { halfAngleDeg, travelNeeded, readingDeg, settableReadingDeg, ...indicator } = given.settings;
  return coneFigure(given, tanDeg(halfAngleDeg), {
    title: 'Top slide swung to the half angle, seen from above',
    says: (write) =>
      `The top slide stands at ${write.angle(halfAngleDeg)} to the work's axis and travels ${write.length(travelNeeded)}.`,
    leads: true,
    rows: (write) => {
      const scale = write.swivel(readingDeg, settableReadingDeg);
      return [
        [
          { symbol: 'α', meaning: "Slide from the work's axis", value: write.angle(halfAngleDeg) },
          { symbol: 't', meaning: 'Travel along the slide', value: write.length(travelNeeded) },
        ],
        [
          { meaning: 'Scale, exact reading', value: scale.exact },
          { meaning: 'Scale, nearest graduation', value: scale.nearest },
          { meaning: 'Indicator carried along a true cylinder', value: write.length(indicator.indicatorOnCylinder) },
          { meaning: "Indicator against the slide's edge", value: write.length(indicator.indicatorOnSlide) },
        ],
      ];
    },
    draw: (plan, view) => slide(plan, view, given.nose),
  });
}

function slide(plan: ConePlan, view: View, stated: SlideNose | undefined): ReturnType<ConeDrawing['draw']> {
  const { length, left, outer, inside, way, drawnDeg, tan } = plan;
  const turn = (drawnDeg * Math.PI) / 180;
  const [sin, cos] = [Math.sin(turn), Math.cos(turn)];
  const long = length / cos;
  // Beside the cut, or beside the work that is bored.
  const start = inside ? -outer - (way === 1 ? length * tan : 0) : -left;
  /** A place on the slide: along the cut from the headstock's end, and away from the work. */
  const on = (along: number, away: number): Point =>
    view.at(along * cos + away * way * sin, start + along * way * sin - away * cos);
  const px = 1 / view.scale;
  const nose = inside ? undefined : stated;
  const gap = nose?.back ?? 24 * px;
  const [first, last] = nose ? [long / 2 - nose.ahead, long / 2 + nose.ahead] : [-0.06 * long, 1.06 * long];
  const deep = Math.min(0.16 * length, 60 * px);
  const travel = Math.max(gap + deep, postDepth(plan)) + 14 * px;
  const [near, far] = [on(first, gap), on(last, gap)];
  // The angle stands at the end that lies nearer to the operator.
  const corner = way === 1 ? near : far;
  const reach = 0.55 * (last - first) * view.scale;
  const from = way === 1 ? 0 : 180;
  return {
    behind: [outline('slide', 'gx-machine', [near, far, on(last, gap + deep), on(first, gap + deep)])],
    before: [
      line('reference', 'gx-wanted', corner, [corner[0] + way * reach * 1.08, corner[1]]),
      line('slide-edge', 'gx-mark', near, far),
      arc('angle', 'gx-dimension', corner, reach, from, from + way * drawnDeg),
      line('extension', 'gx-leader', on(0, gap + deep), on(0, travel + 4 * px)),
      line('extension', 'gx-leader', on(long, gap + deep), on(long, travel + 4 * px)),
      ...dimension('travel', on(0, travel), on(long, travel)),
    ],
    marks: [
      {
        text: 'α',
        at: [corner[0] + way * reach * Math.cos(turn / 2), corner[1] - reach * Math.sin(turn / 2)],
        towards: from,
      },
      { text: 't', at: on(long / 2, travel), towards: way * drawnDeg - 90 },
      { text: 'top slide', at: on(way === 1 ? first : last, gap + deep / 2), towards: from, look: 'gx-name' },
    ],
  };
}

/** How far the tool post reaches from the tip. */
function postDepth({ toolPost }: ConePlan): number {
  return toolPost ? toolPost.toolReach + 1.2 * toolPost.halfWidth : 0;
}
