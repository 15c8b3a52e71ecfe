/**
 * A ball or socket in the plane of its axis as it lies on its machine, with where the tool comes to: the places of a
 * table, each with the round of the tool there, or the swing about a centre. Drawn to scale.
 */

import { read } from '../core/read.js';
import { fitted } from '../draw/fit.js';
import { frame } from '../draw/frame.js';
import { FIGURE, type FigureOptions, tallest } from '../draw/options.js';
import { key, page, remarks } from '../draw/page.js';
import type { View } from '../draw/scale.js';
import { arc, disc, type Element, line, outline, type Point } from '../draw/svg.js';
import { type Tag, tags } from '../draw/tags.js';
import { writer } from '../draw/text.js';
import { bodyOf, lieOf, type Seen } from './body.js';
import { type SphereShape, type SphereTarget, sphereShape } from './target.js';

/** What {@link meridianFigure} needs. */
export interface MeridianFigureOptions extends FigureOptions, Tooling {
  /** The ball or socket. */
  readonly target: SphereTarget;
  /** What is drawn, said in the heading. */
  readonly title: string;
}

/** Where the tool comes to. */
interface Tooling {
  /** How the work lies. */
  readonly seen: Seen;
  /** Where the middle of the tool's round stands: from the axis, and over the sphere's centre. */
  readonly places?: readonly (readonly [fromAxis: number, height: number])[];
  /** Radius of the tool's round. */
  readonly toolRadius?: number;
  /** The cutter's axis on a mill: the head's tilt from upright, its upper end to the right. */
  readonly headTiltDeg?: number;
  /** The swing of a tool about the sphere's centre, from the axis at the free end. */
  readonly swing?: { readonly swivelRadius: number; readonly swingFromDeg: number; readonly swingToDeg: number };
}

/** Where the work is seen. */
const LIES = {
  lathe: "The work lies level, its free end towards the tailstock; the tool works on the operator's side.",
  flat: 'The table is flat: the work stands upright, its free end up.',
  upright: 'The table is upright: the work lies level, its free end on the right.',
} as const;

/** The part with the places of the tool, as SVG text. */
export function meridianFigure({
  target,
  seen,
  places = [],
  toolRadius = 0,
  headTiltDeg,
  swing,
  ...looks
}: MeridianFigureOptions): string {
  const common = read(looks, FIGURE);
  const { width } = common;
  const write = writer(common.unit, common.decimals);
  const shape = sphereShape(target);
  const name = shape.side === 'ball' ? 'ball' : 'socket';
  const rows = [
    { symbol: 'R', meaning: 'Radius of the sphere', value: write.length(shape.radius) },
    {
      symbol: 'd',
      meaning: shape.side === 'ball' ? 'Where the surface ends, diameter' : 'Opening',
      value: write.length(shape.toDiameter),
    },
    ...(places.length > 0
      ? [
          { meaning: 'Places of the tool', value: String(places.length) },
          { meaning: "Radius of the tool's round", value: write.length(toolRadius) },
        ]
      : []),
    ...(headTiltDeg === undefined
      ? []
      : [{ meaning: 'Head, upper end to the right', value: write.angle(headTiltDeg) }]),
    ...(swing
      ? [
          { meaning: 'Swing begins, from the axis at the free end', value: write.angle(swing.swingFromDeg) },
          { meaning: 'Swing ends', value: write.angle(swing.swingToDeg) },
        ]
      : []),
  ];
  const what = places.length > 0 ? 'Circles: the round of the tool at each place.' : 'Arc: the way of the tip.';
  const told = `${LIES[seen]} ${what} Drawn to scale.`;
  const tooling = { seen, places, toolRadius, headTiltDeg, swing };
  return page(
    common,
    looks.title,
    `A ${name} of radius ${write.length(shape.radius)} in the plane of its axis. ${told}`,
    [
      lay(shape, tooling, width),
      frame(seen === 'lathe' ? 'lathe' : 'mill', width),
      remarks([told], width),
      key(rows, width),
    ],
  );
}

type Filled = {
  readonly [K in keyof Required<Tooling>]: K extends 'headTiltDeg' | 'swing' ? Tooling[K] : NonNullable<Tooling[K]>;
};

function lay(shape: SphereShape, tooling: Filled, width: number): ReturnType<typeof fitted> {
  const { radius: R } = shape;
  const { seen, places, toolRadius, headTiltDeg } = tooling;
  const { turned } = lieOf(shape.side, seen);
  const body = bodyOf(shape, R);
  const held = shape.side === 'ball' ? -1 : 1;
  const heights = body.flat().map(([, z]) => z);
  const end = held < 0 ? Math.min(...heights) : Math.max(...heights);
  const wide =
    1.15 *
    Math.max(
      ...body
        .flat()
        .filter(([, z]) => z === end)
        .map(([x]) => x),
    );
  const chuck: readonly Point[] = [
    [wide, end],
    [wide, end + held * 0.14 * R],
    [-wide, end + held * 0.14 * R],
    [-wide, end],
  ];
  const shank = shankOf(places, toolRadius, seen, headTiltDeg, shape);
  const free: Point = [0, shape.fromHeight - held * 0.2 * R];
  const all: readonly Point[] = [
    ...[...body.flat(), ...chuck, free, [0, -1.05 * R] as const].map(turned),
    ...shank,
    ...places.flatMap(([x, z]) => {
      const [px, py] = turned([x, z]);
      return [
        [px - toolRadius, py - toolRadius],
        [px + toolRadius, py + toolRadius],
      ] as const;
    }),
  ];
  const [xs, ys] = [all.map(([x]) => x), all.map(([, y]) => y)];
  const bounds = { left: Math.min(...xs), right: Math.max(...xs), bottom: Math.min(...ys), top: Math.max(...ys) };
  return fitted(bounds, { width, tallest: tallest(width), room: 26 }, (view) =>
    drawn(shape, tooling, view, { body, chuck, shank, free, width }),
  );
}

/** The cutter's shank at the pass in the middle, on the page's own axes. */
function shankOf(
  places: Filled['places'],
  toolRadius: number,
  seen: Seen,
  headTiltDeg: number | undefined,
  { side, radius }: SphereShape,
): readonly Point[] {
  const place = places[Math.floor(places.length / 2)];
  if (headTiltDeg === undefined || !place) return [];
  const [x, y] = lieOf(side, seen).turned(place);
  const turn = (headTiltDeg * Math.PI) / 180;
  const [ux, uy] = [Math.sin(turn), Math.cos(turn)];
  const on = (along: number, across: number): Point => [x + along * ux + across * uy, y + along * uy - across * ux];
  const long = toolRadius + 1.2 * radius;
  return [on(0, -toolRadius), on(long, -toolRadius), on(long, toolRadius), on(0, toolRadius)];
}

function drawn(
  shape: SphereShape,
  { seen, places, toolRadius, swing }: Filled,
  view: View,
  laid: Readonly<Record<'body', readonly (readonly Point[])[]>> &
    Readonly<Record<'chuck' | 'shank', readonly Point[]>> & { readonly free: Point; readonly width: number },
): readonly Element[] {
  const { radius: R } = shape;
  const { turned, poleDeg, sense, freeDeg } = lieOf(shape.side, seen);
  const at = (place: Point): Point => view.at(...turned(place));
  const centre = at([0, 0]);
  const pageDeg = (deg: number): number => poleDeg + sense * deg;
  const held = laid.chuck[1] as Point;
  const marks: Tag[] = [
    { text: 'R', at: at([-R * 0.35, R * 0.35]), towards: poleDeg - sense * 40 },
    { text: 'd', at: at([shape.toDiameter / 2, shape.toHeight]), towards: pageDeg(90) },
    { text: 'work axis', at: at([0, 0.6 * held[1]]), towards: freeDeg - 60, look: 'gx-name' },
    { text: seen === 'lathe' ? 'chuck' : 'table', at: at(held), towards: pageDeg(90), look: 'gx-name' },
  ];
  const content: Element[] = [
    outline('holder', 'gx-machine', laid.chuck.map(at)),
    ...laid.body.map((points) => outline('work', 'gx-work', points.map(at))),
    ...(laid.shank.length > 0
      ? [
          outline(
            'shank',
            'gx-machine',
            laid.shank.map(([x, y]) => view.at(x, y)),
          ),
        ]
      : []),
    ...places.map((place) => disc('tool', 'gx-mark', at(place), Math.max(1, toolRadius * view.scale))),
    arc('wanted', 'gx-cut', centre, R * view.scale, pageDeg(shape.fromDeg), pageDeg(shape.toDeg)),
    line('work-axis', 'gx-axis', at([0, held[1]]), at(laid.free)),
    line('radius', 'gx-dimension', centre, at([-R * Math.SQRT1_2, R * Math.SQRT1_2])),
    disc('centre', 'gx-tool', centre, 2.5),
  ];
  if (laid.shank[1])
    marks.push({ text: 'cutter', at: view.at(...(laid.shank[2] as Point)), towards: freeDeg - 90, look: 'gx-name' });
  if (swing) {
    const { swivelRadius, swingFromDeg, swingToDeg } = swing;
    const way = shape.side === 'ball' ? 8 : -8;
    const middle = ((pageDeg(swingFromDeg) + pageDeg(swingToDeg)) / 2 / 180) * Math.PI;
    const on = (off: number, aside = 0): Point => {
      const r = swivelRadius * view.scale + off;
      return [
        centre[0] + r * Math.cos(middle) - aside * Math.sin(middle),
        centre[1] - r * Math.sin(middle) - aside * Math.cos(middle),
      ];
    };
    content.push(
      arc('swing', 'gx-sweep', centre, swivelRadius * view.scale + way, pageDeg(swingFromDeg), pageDeg(swingToDeg)),
      outline('tool', 'gx-tool', [on(0), on(2 * way, 6), on(4 * way, 6), on(4 * way, -6), on(2 * way, -6)]),
    );
    marks.push(
      { text: 'tip', at: on(4 * way), towards: (middle * 180) / Math.PI, look: 'gx-name' },
      { text: 'swivel', at: centre, towards: pageDeg(90), look: 'gx-name' },
    );
  }
  return [...content, ...tags(marks, laid.width, view.height)];
}
