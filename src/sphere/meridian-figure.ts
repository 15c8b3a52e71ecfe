/**
 * A ball or socket in the plane of its axis, with where the tool comes to: the places of a table, each with the round
 * of the tool there, or the swing about a centre. Drawn to scale.
 */

import { read } from '../core/read.js';
import { FIGURE, type FigureOptions } from '../draw/options.js';
import { type Block, key, page, remarks } from '../draw/page.js';
import { viewOf } from '../draw/scale.js';
import { arc, disc, type Element, line, outline, type Point } from '../draw/svg.js';
import { tags } from '../draw/tags.js';
import { writer } from '../draw/text.js';
import { bodyOf } from './body.js';
import { type SphereShape, type SphereTarget, sphereShape } from './target.js';

/** What {@link meridianFigure} needs. */
export interface MeridianFigureOptions extends FigureOptions {
  /** The ball or socket. */
  readonly target: SphereTarget;
  /** What is drawn, said in the heading. */
  readonly title: string;
  /** Where the middle of the tool's round stands: from the axis, and over the sphere's centre. */
  readonly places?: readonly (readonly [fromAxis: number, height: number])[];
  /** Radius of the tool's round. */
  readonly toolRadius?: number;
  /** The swing of a tool about the sphere's centre, from the axis at the free end. */
  readonly swing?: { readonly swivelRadius: number; readonly swingFromDeg: number; readonly swingToDeg: number };
}

/** The part with the places of the tool, as SVG text. */
export function meridianFigure({
  target,
  places = [],
  toolRadius = 0,
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
          { symbol: 'r', meaning: "Radius of the tool's round", value: write.length(toolRadius) },
        ]
      : []),
    ...(swing
      ? [
          { meaning: 'Swing begins, from the axis at the free end', value: write.angle(swing.swingFromDeg) },
          { meaning: 'Swing ends', value: write.angle(swing.swingToDeg) },
        ]
      : []),
  ];
  const what = places.length > 0 ? 'Circles: the round of the tool at each place.' : 'Arc: the way of the tip.';
  const told = `The work's axis stands upright here, the ${shape.side === 'ball' ? 'free end above' : 'opening above'}. ${what} Drawn to scale.`;
  return page(
    common,
    looks.title,
    `A ${name} of radius ${write.length(shape.radius)} in the plane of its axis. ${told}`,
    [lay(shape, { places, toolRadius, swing }, width), remarks([told], width), key(rows, width)],
  );
}

function lay(
  shape: SphereShape,
  {
    places,
    toolRadius,
    swing,
  }: Required<Pick<MeridianFigureOptions, 'places' | 'toolRadius'>> & { swing: MeridianFigureOptions['swing'] },
  width: number,
): Block {
  const { radius: R } = shape;
  const up = shape.side === 'ball' ? 1 : -1;
  const body = bodyOf(shape, R);
  const rounds = places.map(([fromAxis, height]): Point => [fromAxis, height]);
  const ends = rounds.flatMap(([x, z]): readonly Point[] => [
    [x + toolRadius, z + toolRadius],
    [x - toolRadius, z - toolRadius],
  ]);
  const all: readonly Point[] = [...body.flat(), ...ends, [-1.05 * R, up * 1.1 * R], [1.05 * R, 0]];
  const [xs, ys] = [all.map(([x]) => x), all.map(([, z]) => up * z)];
  const view = viewOf(
    { left: Math.min(...xs), right: Math.max(...xs), bottom: Math.min(...ys), top: Math.max(...ys) },
    width,
    400,
    26,
  );
  const at = ([x, z]: Point): Point => view.at(x, up * z);
  const centre = at([0, 0]);
  const pageDeg = (deg: number): number => (up > 0 ? 90 - deg : deg - 90);
  const content: Element[] = [
    ...body.map((points) => outline('work', 'gx-work', points.map(at))),
    ...rounds.map((place) => disc('tool', 'gx-mark', at(place), Math.max(1, toolRadius * view.scale))),
    arc('wanted', 'gx-cut', centre, R * view.scale, pageDeg(shape.fromDeg), pageDeg(shape.toDeg)),
    line('work-axis', 'gx-axis', at([0, up * Math.min(...ys)]), at([0, up * Math.max(...ys)])),
    line('radius', 'gx-dimension', centre, at([-R * Math.SQRT1_2, R * Math.SQRT1_2])),
    disc('centre', 'gx-tool', centre, 2.5),
  ];
  if (swing) {
    const { swivelRadius, swingFromDeg, swingToDeg } = swing;
    content.push(
      arc('swing', 'gx-sweep', centre, swivelRadius * view.scale + 8, pageDeg(swingFromDeg), pageDeg(swingToDeg)),
    );
  }
  const marks = [
    { text: 'R', at: at([-R * 0.35, R * 0.35]), towards: up > 0 ? 130 : -130 },
    { text: 'd', at: at([shape.toDiameter / 2, shape.toHeight]), towards: 0 },
  ];
  return { height: view.height, content: [...content, ...tags(marks, width, view.height)] };
}
