/**
 * A taper between its ends seen from above, for the figures of slides and bars: headstock on the left, the operator
 * below; an inside taper in section. Where it would be too slender to see, it is drawn steeper by a round factor.
 */
import { choice, type Defaulted, defaulted } from '../core/read.js';
import { tell } from '../core/words.js';
import { type Bounds, roundDown, roundUp, type View, viewOf } from '../draw/scale.js';
import { dimension, type Element, line, outline, type Point } from '../draw/svg.js';
import type { Tag } from '../draw/tags.js';
import type { TaperedWork } from '../draw/work.js';

/** How a taper lies on the machine. */
export interface ConeLie {
  /** Which end of the taper lies towards the headstock. @defaultValue `large` */
  readonly headstockEnd?: 'large' | 'small';
  /** Whether the taper is turned outside or bored inside. @defaultValue `outside` */
  readonly side?: 'outside' | 'inside';
}

/** Readers of {@link ConeLie}. */
export const CONE_LIE: {
  readonly headstockEnd: Defaulted<'large' | 'small'>;
  readonly side: Defaulted<'outside' | 'inside'>;
} = {
  headstockEnd: defaulted(choice('large', 'small'), 'large'),
  side: defaulted(choice('outside', 'inside'), 'outside'),
};

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
  /** How it lies and leads, and the statement of the scale. */
  readonly said: readonly [lies: string, leads: string, scale: string];
}

/** Least change of the radius along the taper that can be read, pixels. */
const VISIBLE = 18;
/** Greatest height of the drawing, and room round about, pixels. */
export const STRIP = { tallest: 380, room: 34 } as const;

/** Lays a taper with the tangent of its half angle on a page of a width. */
export function conePlan(
  { largeDiameter, smallDiameter, length }: TaperedWork,
  { headstockEnd, side }: Required<ConeLie>,
  halfTan: number,
  width: number,
): ConePlan {
  const mean = (largeDiameter + smallDiameter) / 2;
  const inside = side === 'inside';
  const outerOf = (large: number): number => (inside ? large + Math.max(0.25 * large, 0.08 * length) : large);
  const bounds = (outer: number): Bounds => ({ left: -0.2 * length, right: 1.12 * length, bottom: -outer, top: outer });
  const first = bounds(outerOf(mean / 2 + (length * halfTan) / 2) + 0.3 * length);
  const wanted = roundUp(VISIBLE / (length * halfTan * viewOf(first, width, STRIP.tallest, STRIP.room).scale));
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
    said: [
      `${headstockEnd === 'large' ? 'Large' : 'Small'} end at the chuck, operator below${inside ? '; the work in section' : ''}.`,
      `Towards the tailstock the tool leads ${headstockEnd === 'large' ? 'away from' : 'towards'} the operator.`,
      factor === 1
        ? 'Drawn to scale; the slides are schematic.'
        : `Slope and taper are drawn ${tell(factor)} times too large; lengths and the mean diameter are to scale.`,
    ],
  };
}

/** The work with its chuck, the cut and the tool. */
export function coneWork(plan: ConePlan, { at }: View): readonly Element[] {
  const { length, left, right, outer, inside, way } = plan;
  const [back, stub] = [-0.2 * length, -0.12 * length];
  const [a, b] = [at(0, -left), at(length, -right)];
  const [x, y] = [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2];
  const [ends, chuck] = [inside ? [outer, outer] : [left, right], 1.12 * (inside ? outer : left)];
  const about = (part: string, look: 'gx-machine' | 'gx-work' | 'gx-paper', half: readonly Point[]): Element =>
    outline(
      part,
      look,
      [...half, ...half.map(([u, v]): Point => [u, -v]).reverse()].map(([u, v]) => at(u, v)),
    );
  const profile: readonly Point[] = [
    [stub, ends[0] as number],
    [0, ends[0] as number],
    [length, ends[1] as number],
  ];
  const mouth = at(0, outer)[1] - 16;
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
          about('boring-bar', 'gx-machine', [
            [length / 2 - bar / 2, bar],
            [1.1 * length, bar],
          ]),
          line('tool-shank', 'gx-mark', [x, y + foot], [x, at(0, -bar)[1]]),
        ]
      : []),
    line('work-axis', 'gx-axis', at(-0.24 * length, 0), at(1.12 * length, 0)),
    line(way === 1 ? 'large-diameter' : 'small-diameter', 'gx-dimension', at(0, -left), at(0, left)),
    line(way === 1 ? 'small-diameter' : 'large-diameter', 'gx-dimension', at(length, -right), at(length, right)),
    line('tool-path', 'gx-cut', a, b),
    outline('tool', 'gx-tool', [
      [x, y],
      [x - 6, y + foot],
      [x + 6, y + foot],
    ]),
    line('extension', 'gx-leader', at(0, left), [a[0], mouth - 4]),
    line('extension', 'gx-leader', at(length, right), [b[0], mouth - 4]),
    ...dimension('length', [a[0], mouth], [b[0], mouth]),
  ];
}

/** The tags of the work. */
export function coneTags({ length, left, right, outer, way }: ConePlan, { at }: View): readonly Tag[] {
  return [
    { text: 'ℓ', at: [at(length / 2, 0)[0], at(0, outer)[1] - 16], towards: 90 },
    { text: way === 1 ? 'D' : 'd', at: at(0, left / 2), towards: 0 },
    { text: way === 1 ? 'd' : 'D', at: at(length, right / 2), towards: 0 },
  ];
}
