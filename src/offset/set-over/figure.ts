/**
 * The lathe set over between centres or balls, seen from above: headstock on the left, the operator below.
 * Lengths are to scale. Where the set-over would be too small to see, it is drawn larger by a round factor,
 * and with it the angle and the taper, so that the tool still runs along the work; the factor is stated.
 */

import { refuse } from '../../core/errors.js';
import {
  anyNumber,
  choice,
  defaulted,
  type Fields,
  nonNegative,
  number,
  object,
  optional,
  positive,
  read,
} from '../../core/read.js';
import { tell } from '../../core/words.js';
import { fitted } from '../../draw/fit.js';
import { frame } from '../../draw/frame.js';
import { FIGURE, type FigureOptions, type Looks, part, tallest } from '../../draw/options.js';
import { type Block, type KeyRow, key, page, remarks } from '../../draw/page.js';
import { roundDown, roundUp, type View, viewOf } from '../../draw/scale.js';
import { arc, dimension, disc, type Element, line, outline, type Point } from '../../draw/svg.js';
import { tags } from '../../draw/tags.js';
import { writer } from '../../draw/text.js';
import { type TaperedWork, work } from '../../draw/work.js';
import type { BallSeat } from '../between-balls/ball-seat.js';
import type { BallCentresSettings } from '../between-balls/index.js';
import { BESIDE, type ConeLie, post, postTag, shoulder } from '../cone-plan.js';
import type { SetoverSettings } from '../set-over/settings.js';

/** What {@link setoverFigure} needs. */
export interface SetoverFigureOptions extends FigureOptions, Pick<ConeLie, 'shoulders' | 'toolPost'> {
  /** The settings, as `setoverSettings` or `ballCentresSettings` give them. */
  readonly settings: SetoverSettings | BallCentresSettings;
  /** Distance of the pivots along the work. @defaultValue that of the settings, which must hold it then */
  readonly centreDistance?: number;
  /** The taper that is cut. */
  readonly work: TaperedWork;
  /**
   * From the headstock's pivot to the nearer end of the taper, along the work.
   * @defaultValue as far as puts the taper in the middle
   */
  readonly fromPivot?: number;
  /** Which end of the taper lies towards the headstock. @defaultValue `large` */
  readonly headstockEnd?: 'large' | 'small';
  /** Diameter of the ball at each end; plain centres if left out. */
  readonly balls?: BothEnds;
}

/** A length at each end. */
export interface BothEnds {
  /** In the headstock. */
  readonly headstock: number;
  /** In the tailstock. */
  readonly tailstock: number;
}

type Seat = Pick<BallSeat, 'protrusion'>;
type Drawn = Omit<SetoverFigureOptions, 'settings'> & {
  readonly settings: Pick<SetoverSettings, 'offset' | 'reading' | 'settableReading' | 'tiltDeg'> &
    Partial<Pick<BallCentresSettings, 'centreDistance'>> & {
      readonly [K in keyof Pick<BallCentresSettings, 'headstockSeat' | 'tailstockSeat'>]?: Seat;
    };
};

const FIELDS: Fields<Drawn, Looks | 'headstockEnd' | 'shoulders'> = {
  ...FIGURE,
  ...BESIDE,
  settings: part<Drawn['settings']>({
    offset: positive,
    reading: anyNumber,
    settableReading: anyNumber,
    tiltDeg: anyNumber,
    centreDistance: optional(positive),
    headstockSeat: optional(part<Seat>({ protrusion: anyNumber })),
    tailstockSeat: optional(part<Seat>({ protrusion: anyNumber })),
  }),
  work,
  centreDistance: optional(positive),
  fromPivot: optional(nonNegative),
  headstockEnd: defaulted(choice('large', 'small'), 'large'),
  balls: optional(object<BothEnds>({ headstock: positive, tailstock: positive })),
};

/** Least set-over on the page that can be read, pixels. */
const VISIBLE = 26;

/**
 * Plan of a lathe whose work is set over between centres or balls: axes, set-over, angle, cut, tool path.
 * @returns The figure as SVG text.
 * @throws GeneratrixError for settings or work that are not complete; `out-of-range` for a taper longer than
 * the distance of the pivots.
 * @example
 * ```ts
 * import { setoverFigure, setoverSettings } from 'generatrix';
 * const svg = setoverFigure({
 *   settings: setoverSettings({ taper: { oneIn: 20 }, centreDistance: 200 }),
 *   centreDistance: 200,
 *   work: { largeDiameter: 25, smallDiameter: 20, length: 100 },
 *   unit: 'mm',
 * });
 * svg.startsWith('<svg '); // => true
 * svg.includes('4.998 mm'); // => true
 * ```
 */
export function setoverFigure(figure: SetoverFigureOptions): string {
  const given = read<Drawn, Looks | 'headstockEnd' | 'shoulders'>(figure, FIELDS);
  const { width, settings, work, headstockEnd, balls, shoulders, toolPost } = given;
  const { offset: S, tiltDeg, headstockSeat, tailstockSeat } = settings;
  const L = distanceOf(given);
  const within = (name: string, value: number, most: number): number =>
    value <= most ? value : refuse('out-of-range', name, value, number({ min: 0, max: most }).allowed);
  if (!(S < L)) refuse('out-of-range', 'settings.offset', S, number({ above: 0, below: L }).allowed);
  within('work.length', work.length, L);
  const start = within('fromPivot', given.fromPivot ?? (L - work.length) / 2, L - work.length);
  const write = writer(given.unit, given.decimals);
  const dial = write.dial(settings.reading, settings.settableReading);
  const out = { headstock: headstockSeat?.protrusion ?? 0, tailstock: tailstockSeat?.protrusion ?? 0 };
  const plan = lay(
    { L, S, ...work, start, side: headstockEnd === 'large' ? -1 : 1, balls, out, shoulders, toolPost },
    width,
  );
  const rows: KeyRow[] = [
    { symbol: 'S', meaning: 'Set-over, exact', value: write.length(S) },
    { symbol: 'L', meaning: balls ? 'Between the centres of the balls' : 'Between the pivots', value: write.length(L) },
    { symbol: 'α', meaning: 'Tilt of the work', value: write.angle(tiltDeg) },
    { symbol: 'D', meaning: 'Large diameter', value: write.length(work.largeDiameter) },
    { symbol: 'd', meaning: 'Small diameter', value: write.length(work.smallDiameter) },
    { symbol: 'ℓ', meaning: 'Length of the taper', value: write.length(work.length) },
    { meaning: 'Dial, exact reading', value: dial.exact },
    { meaning: 'Dial, nearest graduation', value: dial.nearest },
  ];
  const scale =
    plan.factor === 1
      ? 'Drawn to scale.'
      : `Set-over, angle and taper are drawn ${tell(plan.factor)} times too large; lengths and the mean diameter are to scale.`;
  return page(
    given,
    `Work set over between ${balls ? 'balls' : 'centres'}, seen from above`,
    `Plan of a lathe. The tailstock is set over by ${write.length(S)} on ${write.length(L)} between the pivots, ` +
      `${headstockEnd === 'large' ? 'towards' : 'away from'} the operator. ${scale}`,
    [
      plan.block,
      frame('lathe', width),
      remarks(
        [
          `The tailstock is set over ${headstockEnd === 'large' ? 'towards' : 'away from'} the operator. Edge up, spindle forward. ${scale}`,
        ],
        width,
      ),
      key(rows, width),
    ],
  );
}

interface Plan extends Required<Pick<ConeLie, 'shoulders'>> {
  readonly toolPost: ConeLie['toolPost'];
  readonly L: number;
  readonly S: number;
  readonly largeDiameter: number;
  readonly smallDiameter: number;
  readonly length: number;
  readonly start: number;
  /** 1: the tailstock is set away from the operator, upwards on the page; -1: towards. */
  readonly side: 1 | -1;
  readonly balls: BothEnds | undefined;
  /** How far the ball's centres stand out of the faces. */
  readonly out: BothEnds;
}

function lay(plan: Plan, width: number): { readonly block: Block; readonly factor: number } {
  const { L, S, length, side } = plan;
  const mean = (plan.largeDiameter + plan.smallDiameter) / 2;
  const ends = Math.max(0.1 * L, plan.balls?.headstock ?? 0, plan.balls?.tailstock ?? 0);
  const bounds = (set: number, radius: number) => ({
    left: -ends,
    right: L + ends,
    bottom: Math.min(0, side * set) - radius,
    top: Math.max(0, side * set) + radius,
  });
  const [tall, room] = [tallest(width), 44];
  const first = viewOf(bounds(S, plan.largeDiameter / 2), width, tall, room).scale;
  // The drawn taper must not end in a point before its end, nor the work lie across the page.
  const steepest = Math.min(0.2, Math.sin(Math.atan((0.7 * mean) / length)));
  const wanted = roundUp(VISIBLE / (S * first));
  const factor = (wanted * S) / L <= steepest ? wanted : Math.max(1, roundDown((steepest * L) / S));
  const sin = (factor * S) / L;
  const cos = Math.sqrt((1 - sin) * (1 + sin));
  const rise = factor === 1 ? (plan.largeDiameter - plan.smallDiameter) / 4 : (length / 2) * (sin / cos);
  const [large, small] = [mean / 2 + rise, mean / 2 - rise];
  const block = fitted(bounds(factor * S, large), { width, tallest: tall, room }, (view) => {
    /** A place on the work: u along its axis from the headstock's pivot, v across it, away from the operator. */
    const on = (u: number, v: number): Point => view.at(u * cos - v * side * sin, u * side * sin + v * cos);
    return drawn(plan, view, on, { sin, large, small, width, ends });
  });
  return { block, factor };
}

function drawn(
  { L, length, start, side, balls, out, shoulders, toolPost }: Plan,
  view: View,
  on: (u: number, v: number) => Point,
  { sin, large, small, width, ends }: { sin: number; large: number; small: number; width: number; ends: number },
): readonly Element[] {
  const px = 1 / view.scale;
  const [near, far] = side === -1 ? [large, small] : [small, large];
  const [from, to] = [start, start + length];
  const [faceA, faceB] = [Math.min(out.headstock, from), Math.max(L - out.tailstock, to)];
  const rim = 0.04 * L;
  const beside = (end: 'large' | 'small') => shoulders.find(({ at }) => at === end);
  /** A shoulder with its far side, if the work reaches so far. */
  const collar = (one: ReturnType<typeof beside>, end: number, body: number, wide: number): readonly Point[] => {
    const half = shoulder(one, end, body, wide);
    const back = half[wide < 0 ? 0 : half.length - 1];
    if (!back || back[0] < faceA || back[0] > faceB) return [];
    return wide < 0 ? [[back[0], body], ...half] : [...half, [back[0], body]];
  };
  const profile: readonly Point[] = [
    [faceA, near],
    ...collar(beside(side === -1 ? 'large' : 'small'), from, near, -rim),
    [from, near],
    [to, far],
    ...collar(beside(side === -1 ? 'small' : 'large'), to, far, rim),
    [faceB, far],
  ];
  const mirrored = profile.map(([u, v]): Point => [u, -v]).reverse();
  const [head, tail] = [view.at(0, 0), on(L, 0)];
  const [pathA, pathB] = [on(from, -near), on(to, -far)];
  const middle: Point = [(pathA[0] + pathB[0]) / 2, (pathA[1] + pathB[1]) / 2];
  const beyond = large + 20 * px;
  const below = large + 30 * px;
  const rightX = tail[0] + Math.min(ends * view.scale, 40);
  const bend = (Math.asin(sin) * 180) / Math.PI;
  const reach = 0.5 * (tail[0] - head[0]);
  const half = ((side * bend) / 2) * (Math.PI / 180);
  return [
    ...support('headstock', head, balls && (balls.headstock / 2) * view.scale, -1),
    ...support('tailstock', tail, balls && (balls.tailstock / 2) * view.scale, 1),
    outline(
      'work',
      'gx-work',
      [...profile, ...mirrored].map(([u, v]) => on(u, v)),
    ),
    line('machine-axis', 'gx-axis', view.at(-ends, 0), [width - 16, head[1]]),
    line('work-axis', 'gx-axis', on(-0.04 * L, 0), on(1.04 * L, 0)),
    line('large-diameter', 'gx-dimension', on(side === -1 ? from : to, -large), on(side === -1 ? from : to, large)),
    line('small-diameter', 'gx-dimension', on(side === -1 ? to : from, -small), on(side === -1 ? to : from, small)),
    line('tool-path', 'gx-cut', pathA, pathB),
    ...post(toolPost, middle, view),
    outline('tool', 'gx-tool', [middle, [middle[0] - 6, middle[1] + 14], [middle[0] + 6, middle[1] + 14]]),
    line('extension', 'gx-leader', head, on(0, beyond + 4 * px)),
    line('extension', 'gx-leader', tail, on(L, beyond + 4 * px)),
    ...dimension('distance', on(0, beyond), on(L, beyond)),
    line('extension', 'gx-leader', on(from, -near), on(from, -below - 4 * px)),
    line('extension', 'gx-leader', on(to, -far), on(to, -below - 4 * px)),
    ...dimension('length', on(from, -below), on(to, -below)),
    line('extension', 'gx-leader', tail, [rightX + 4, tail[1]]),
    ...dimension('offset', [rightX, head[1]], [rightX, tail[1]]),
    arc('angle', 'gx-dimension', head, reach, 0, side * bend),
    disc('pivot-headstock', 'gx-tool', head, 2.5),
    disc('pivot-tailstock', 'gx-tool', tail, 2.5),
    ...tags(
      [
        { text: 'headstock', at: [head[0] - 8, head[1] + 12], towards: -90, look: 'gx-name' },
        { text: 'tailstock', at: [tail[0] + 8, tail[1] + 12], towards: -90, look: 'gx-name' },
        ...postTag(toolPost, middle, view),
        { text: 'S', at: [rightX, (head[1] + tail[1]) / 2], towards: 0 },
        { text: 'L', at: on(L / 2, beyond), towards: 90 },
        { text: 'ℓ', at: on((from + to) / 2, -below), towards: -90 },
        { text: 'α', at: [head[0] + reach * Math.cos(half), head[1] - reach * Math.sin(half)], towards: 0 },
        { text: 'D', at: on(side === -1 ? from : to, large / 2), towards: side === -1 ? 180 : 0 },
        { text: 'd', at: on(side === -1 ? to : from, small / 2), towards: side === -1 ? 0 : 180 },
      ],
      width,
      view.height,
    ),
  ];
}

/** A ball with its shank, or a 60° centre; `way` points away from the work. */
function support(end: string, [x, y]: Point, ball: number | undefined, way: 1 | -1): readonly Element[] {
  if (ball === undefined) {
    const body: readonly Point[] = [
      [x, y],
      [x + way * 17, y - 10],
      [x + way * 30, y - 10],
      [x + way * 30, y + 10],
      [x + way * 17, y + 10],
    ];
    return [outline(`centre-${end}`, 'gx-machine', body)];
  }
  const [neck, back] = [0.6 * ball, ball + 16];
  const shank: readonly Point[] = [
    [x, y - neck],
    [x + way * back, y - neck],
    [x + way * back, y + neck],
    [x, y + neck],
  ];
  return [outline(`holder-${end}`, 'gx-machine', shank), disc(`ball-${end}`, 'gx-machine', [x, y], ball)];
}

function distanceOf({ centreDistance: stated, settings: { centreDistance: held } }: Drawn): number {
  if (stated !== undefined && held !== undefined && stated !== held) {
    return refuse('contradiction', 'centreDistance', stated, `must be that of the settings, ${held}`);
  }
  return (
    stated ??
    held ??
    refuse('missing-option', 'centreDistance', undefined, 'must be given: these settings do not hold it')
  );
}
