/**
 * A taper on a lathe seen from above, for the figures of slides, bars and form tools: headstock on the left, the
 * operator below; an inside taper in section. Shoulders, tool post and slide have their true sizes where they are
 * stated. Where the taper would be too slender to see, it is drawn steeper by a round factor.
 */
import {
  array,
  choice,
  defaulted,
  type Fields,
  type Filled,
  nonNegative,
  object,
  optional,
  positive,
} from '../core/read.js';
import { tell } from '../core/words.js';
import { fitted } from '../draw/fit.js';
import { frame } from '../draw/frame.js';
import { FIGURE, type FigureOptions, type Looks, tallest } from '../draw/options.js';
import { type KeyRow, key, page, remarks } from '../draw/page.js';
import { type Bounds, roundDown, roundUp, type View, viewOf } from '../draw/scale.js';
import { box, dimension, type Element, line, outline, type Point } from '../draw/svg.js';
import { type Tag, tags } from '../draw/tags.js';
import { type Writer, writer } from '../draw/text.js';
import { type TaperedWork, work } from '../draw/work.js';
import type { LatheBase } from '../method/method.js';
import { type Shoulder, smallDiameterOf, type TaperWork } from './part.js';

/** How a taper lies on the machine, and what stands beside it. */
export interface ConeLie {
  /** Which end of the taper lies towards the headstock. @defaultValue `large` */
  readonly headstockEnd?: 'large' | 'small';
  /** Whether the taper is turned outside or bored inside. @defaultValue `outside` */
  readonly side?: 'outside' | 'inside';
  /** Shoulders beside a taper that is turned outside. @defaultValue none */
  readonly shoulders?: readonly Shoulder[];
  /** The tool post of a tool that turns outside; not drawn if left out. */
  readonly toolPost?: NonNullable<LatheBase['toolPost']>;
}

/** What the figures of this view take. */
export interface ConeFigureOptions extends FigureOptions, ConeLie {
  /** The taper that is cut. */
  readonly work: TaperedWork;
}

/** What a drawing takes of a plan. */
export function lieOf({
  work: { part, unit },
  machine: { toolPost },
}: {
  readonly work: TaperWork;
  readonly machine: LatheBase;
}): Pick<ConeFigureOptions, 'work' | 'unit' | 'shoulders' | 'toolPost'> &
  Required<Pick<ConeLie, 'headstockEnd' | 'side'>> {
  const { largeDiameter, length, headstockEnd, side, shoulders = [] } = part;
  const work = { largeDiameter, smallDiameter: smallDiameterOf(part), length };
  return { work, unit, headstockEnd, side, shoulders, ...(toolPost && { toolPost }) };
}

/** Keys with defaults. */
export type ConeLooks = Looks | 'headstockEnd' | 'side' | 'shoulders';

/** Readers of what stands beside a taper. */
export const BESIDE: Fields<Pick<ConeLie, 'shoulders' | 'toolPost'>, 'shoulders'> = {
  shoulders: defaulted(
    array(object<Shoulder>({ at: choice('large', 'small'), diameter: positive, gap: nonNegative }), 0, 2),
    [],
  ),
  toolPost: optional(object<NonNullable<LatheBase['toolPost']>>({ halfWidth: positive, toolReach: positive })),
};

/** Readers of {@link ConeFigureOptions}. */
export const CONE_FIGURE: Fields<ConeFigureOptions, ConeLooks> = {
  ...FIGURE,
  work,
  headstockEnd: defaulted(choice('large', 'small'), 'large'),
  side: defaulted(choice('outside', 'inside'), 'outside'),
  ...BESIDE,
};

type Given = Filled<ConeFigureOptions, ConeLooks>;

/** A taper laid on the page. */
export interface ConePlan {
  readonly bounds: Bounds;
  readonly length: number;
  /** Radii as drawn: at the headstock's end, at the other, and of the work outside. */
  readonly left: number;
  readonly right: number;
  readonly outer: number;
  readonly inside: boolean;
  /** 1: towards the tailstock the tool leads away from the operator; -1: towards the operator. */
  readonly way: 1 | -1;
  /** Drawn angle, degrees, and its tangent. */
  readonly drawnDeg: number;
  readonly tan: number;
  readonly factor: number;
  /** The shoulder on each side, if it is near enough to be drawn. */
  readonly beside: { readonly left: Shoulder | undefined; readonly right: Shoulder | undefined };
  readonly toolPost: ConeLie['toolPost'];
}

/** What a figure adds to the work. */
export interface ConeDrawing {
  readonly title: string;
  /** What is set, in a sentence. */
  readonly says: (write: Writer) => string;
  /** Whether a tool is led along the taper. */
  readonly leads: boolean;
  /** Rows of the key before and after the sizes of the work. */
  readonly rows: (write: Writer) => readonly [before: readonly KeyRow[], after: readonly KeyRow[]];
  readonly draw: (
    plan: ConePlan,
    view: View,
  ) => { readonly behind?: readonly Element[]; readonly before: readonly Element[]; readonly marks: readonly Tag[] };
}

/** A figure of a taper with the tangent of its half angle. */
export function coneFigure(given: Given, halfTan: number, { title, says, leads, rows, draw }: ConeDrawing): string {
  const { width, work, headstockEnd, side } = given;
  const write = writer(given.unit, given.decimals);
  const plan = conePlan(given, halfTan);
  const large = headstockEnd === 'large';
  const said = [
    `${large ? 'Large' : 'Small'} end at the chuck${side === 'inside' ? '; the work in section' : ''}.`,
    ...(leads ? [`Towards the tailstock the tool leads ${large ? 'away from' : 'towards'} the operator.`] : []),
    'Edge up, spindle forward.',
    plan.factor === 1
      ? 'Drawn to scale; what is not stated is schematic.'
      : `Slope and taper are drawn ${tell(plan.factor)} times too large; lengths and the mean diameter are to scale.`,
  ].join(' ');
  const [before, after] = rows(write);
  const drawing = fitted(plan.bounds, { tallest: tallest(width), room: ROOM, width }, (view) => {
    const own = draw(plan, view);
    return [
      ...(own.behind ?? []),
      ...coneWork(plan, view, leads),
      ...own.before,
      ...tags([...coneTags(plan, view), ...own.marks], width, view.height),
    ];
  });
  return page(given, title, `Plan of a lathe. ${says(write)} ${said}`, [
    drawing,
    frame('lathe', width),
    remarks([said], width),
    key(
      [
        ...before,
        { symbol: 'D', meaning: 'Large diameter', value: write.length(work.largeDiameter) },
        { symbol: 'd', meaning: 'Small diameter', value: write.length(work.smallDiameter) },
        { symbol: 'ℓ', meaning: 'Length of the taper', value: write.length(work.length) },
        ...after,
      ],
      width,
    ),
  ]);
}

/** Least change of the radius along the taper that can be read, pixels. */
const VISIBLE = 18;
/** Room round about, pixels. */
const ROOM = 34;

/** Lays a taper on a page. */
function conePlan({ work, headstockEnd, side, shoulders, toolPost, width }: Given, halfTan: number): ConePlan {
  const { largeDiameter, smallDiameter, length } = work;
  const mean = (largeDiameter + smallDiameter) / 2;
  const inside = side === 'inside';
  const near = inside ? [] : shoulders.filter(({ gap }) => gap < 1.5 * length);
  const at = (end: 'large' | 'small'): Shoulder | undefined => near.find((one) => one.at === end);
  const beside =
    headstockEnd === 'large' ? { left: at('large'), right: at('small') } : { left: at('small'), right: at('large') };
  const widest = Math.max(0, ...near.map(({ diameter }) => diameter / 2));
  const outerOf = (large: number): number => (inside ? large + Math.max(0.25 * large, 0.08 * length) : large);
  const bounds = (outer: number): Bounds => ({
    left: -0.2 * length - (beside.left?.gap ?? 0),
    right: beside.right ? 1.1 * length + beside.right.gap : 1.12 * length,
    bottom: -Math.max(outer, widest),
    top: Math.max(outer, widest),
  });
  const first = bounds(outerOf(mean / 2 + (length * halfTan) / 2) + 0.3 * length);
  const wanted = roundUp(VISIBLE / (length * halfTan * viewOf(first, width, tallest(width), ROOM).scale));
  const steepest = Math.min(0.3, (0.7 * mean) / length) / halfTan;
  const factor = wanted <= steepest ? wanted : Math.max(1, steepest > 1 ? roundDown(steepest) : 1);
  const tan = halfTan * factor;
  const [large, small] = [mean / 2 + (length * tan) / 2, Math.max(0, mean / 2 - (length * tan) / 2)];
  const [left, right] = headstockEnd === 'large' ? [large, small] : [small, large];
  const outer = outerOf(large);
  return {
    bounds: bounds(outer),
    length,
    left,
    right,
    outer,
    inside,
    way: headstockEnd === 'large' ? 1 : -1,
    drawnDeg: (Math.atan(tan) * 180) / Math.PI,
    tan,
    factor,
    beside,
    toolPost: inside ? undefined : toolPost,
  };
}

/** The work with its chuck, the cut and the tool. */
function coneWork(plan: ConePlan, view: View, tool: boolean): readonly Element[] {
  const { length, left, right, outer, inside, way, beside, toolPost } = plan;
  const { at } = view;
  const rim = 0.1 * length;
  const stub = beside.left ? -beside.left.gap - rim : -0.12 * length;
  const back = stub - 0.08 * length;
  const [a, b] = [at(0, -left), at(length, -right)];
  const [x, y] = [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2];
  const chuck = 1.12 * Math.max(inside ? outer : left, (beside.left?.diameter ?? 0) / 2);
  const about = (part: string, look: 'gx-machine' | 'gx-work' | 'gx-paper', half: readonly Point[]): Element =>
    outline(
      part,
      look,
      [...half, ...half.map(([u, v]): Point => [u, -v]).reverse()].map(([u, v]) => at(u, v)),
    );
  const profile: readonly Point[] = inside
    ? [
        [stub, outer],
        [length, outer],
      ]
    : [
        ...(beside.left ? shoulder(beside.left, 0, left, -rim) : [[stub, left] as const]),
        [0, left],
        [length, right],
        ...shoulder(beside.right, length, right, rim),
      ];
  const mouth = at(0, plan.bounds.top)[1] - 16;
  const bar = 0.3 * Math.min(left, right);
  // The tool points from a boring bar down to the wall, or from the operator's side up to the work.
  const foot = inside ? -14 : 14;
  return [
    about('chuck', 'gx-machine', [
      [back, chuck],
      [stub, chuck],
    ]),
    about('work', 'gx-work', profile),
    ...(inside
      ? [
          about('bore', 'gx-paper', [
            [0, left],
            [length, right],
          ]),
          line('bore-wall', 'gx-mark', at(0, left), at(length, right)),
          line('bore-bottom', 'gx-mark', at(0, left), at(0, -left)),
        ]
      : []),
    ...(inside && tool
      ? [
          about('boring-bar', 'gx-machine', [
            [length / 2 - bar / 2, bar],
            [1.1 * length, bar],
          ]),
          line('tool-shank', 'gx-mark', [x, y + foot], [x, at(0, -bar)[1]]),
        ]
      : []),
    line('work-axis', 'gx-axis', at(back - 0.04 * length, 0), at(plan.bounds.right, 0)),
    line(way === 1 ? 'large-diameter' : 'small-diameter', 'gx-dimension', at(0, -left), at(0, left)),
    line(way === 1 ? 'small-diameter' : 'large-diameter', 'gx-dimension', at(length, -right), at(length, right)),
    line('tool-path', 'gx-cut', a, b),
    ...(tool ? post(toolPost, [x, y], view) : []),
    ...(tool
      ? [
          outline('tool', 'gx-tool', [
            [x, y],
            [x - 6, y + foot],
            [x + 6, y + foot],
          ]),
        ]
      : []),
    line('extension', 'gx-leader', at(0, left), [a[0], mouth - 4]),
    line('extension', 'gx-leader', at(length, right), [b[0], mouth - 4]),
    ...dimension('length', [a[0], mouth], [b[0], mouth]),
  ];
}

/** Half a shoulder beside a taper, from left to right: `rim` is its width, less than 0 to the left of the taper. */
export function shoulder(one: Shoulder | undefined, from: number, body: number, rim: number): readonly Point[] {
  if (!one) return [];
  const half = one.diameter / 2;
  const start = from + Math.sign(rim) * one.gap;
  const points: readonly Point[] = [
    [start, body],
    [start, half],
    [start + rim, half],
  ];
  return rim < 0 ? [...points].reverse() : points;
}

/** The tool post behind a tip, with the tool's shank. */
export function post(toolPost: ConeLie['toolPost'], [x, y]: Point, { scale }: View): readonly Element[] {
  if (!toolPost) return [];
  const [half, reach] = [toolPost.halfWidth * scale, toolPost.toolReach * scale];
  return [
    line('tool-shank', 'gx-mark', [x, y], [x, y + reach]),
    box('tool-post', 'gx-machine', [x - half, y + reach], 2 * half, 1.2 * half),
  ];
}

/** The name of a tool post. */
export function postTag(toolPost: ConeLie['toolPost'], [x, y]: Point, { scale }: View): readonly Tag[] {
  if (!toolPost) return [];
  const down = (toolPost.toolReach + 0.6 * toolPost.halfWidth) * scale;
  return [{ text: 'tool post', at: [x, y + down], towards: 0, look: 'gx-name' }];
}

/** The tags of the work. */
function coneTags({ length, left, right, bounds, way, toolPost }: ConePlan, view: View): readonly Tag[] {
  const { at } = view;
  return [
    { text: 'ℓ', at: [at(length / 2, 0)[0], at(0, bounds.top)[1] - 16], towards: 90 },
    { text: way === 1 ? 'D' : 'd', at: at(0, left / 2), towards: 0 },
    { text: way === 1 ? 'd' : 'D', at: at(length, right / 2), towards: 0 },
    { text: 'work axis', at: at(0.3 * length, 0), towards: 60, look: 'gx-name' },
    ...postTag(toolPost, at(length / 2, -(left + right) / 2), view),
  ];
}
