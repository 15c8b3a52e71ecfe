/**
 * A meridian as it was really cut, against the cone or the sphere that was wanted. The part is to scale; the
 * departure is drawn many times larger, by a round factor that is stated, with a bar that shows a round length of it.
 */

import { refuse } from '../core/errors.js';
import {
  anyNumber,
  array,
  byTag,
  choice,
  type Fields,
  number,
  object,
  optional,
  positive,
  read,
} from '../core/read.js';
import { tell } from '../core/words.js';
import { fitted } from './fit.js';
import { FIGURE, type FigureOptions, type Looks } from './options.js';
import { type Block, key, page, remarks } from './page.js';
import { roundDown, viewOf } from './scale.js';
import { dimension, label, line, outline, type Point } from './svg.js';
import { writer } from './text.js';
import { type TaperedWork, work } from './work.js';

/** What was wanted. */
export type WantedShape =
  | {
      /** A cone: z runs from its large end, departures are of the radius. */
      readonly kind: 'cone';
      /** The taper. */
      readonly work: TaperedWork;
    }
  | {
      /** A sphere: z is the height over its centre, departures point away from the centre. */
      readonly kind: 'sphere';
      /** Radius of the sphere. */
      readonly radius: number;
    };

/** One place of a meridian. */
export interface DeparturePoint {
  /** Place along the work's axis. */
  readonly z: number;
  /** Departure there, positive where there is more material. */
  readonly departure: number;
}

/** What {@link departureFigure} needs. */
export interface DepartureFigureOptions extends FigureOptions {
  /** What was wanted. */
  readonly wanted: WantedShape;
  /** The meridian in order along z, at least two places. */
  readonly points: readonly DeparturePoint[];
  /** How many times larger than the part the departure is drawn. @defaultValue a round number that fits */
  readonly magnification?: number;
}

const FIELDS: Fields<DepartureFigureOptions, Looks> = {
  ...FIGURE,
  wanted: byTag<WantedShape, 'kind'>('kind', {
    cone: { kind: choice('cone'), work },
    sphere: { kind: choice('sphere'), radius: positive },
  }),
  points: array(object<DeparturePoint>({ z: anyNumber, departure: anyNumber }), 2),
  magnification: optional(positive),
};

/** How far the largest departure is drawn from the wanted line, pixels, if the page chooses. */
const SHOWN = 34;

/**
 * The meridian really cut against the wanted one, the departure magnified and its scale stated.
 * @returns The figure as SVG text.
 * @throws GeneratrixError `out-of-range` for a place beyond the part.
 * @example
 * ```ts
 * import { departureFigure } from 'generatrix';
 * const svg = departureFigure({
 *   wanted: { kind: 'sphere', radius: 25 },
 *   points: [-20, -10, 0, 10, 20].map((z) => ({ z, departure: 0.004 - 0.00001 * z * z })),
 *   magnification: 500,
 *   unit: 'mm',
 * });
 * svg.includes('500 times'); // => true
 * ```
 */
export function departureFigure(figure: DepartureFigureOptions): string {
  const given = read<DepartureFigureOptions, Looks>(figure, FIELDS);
  const { points, width, unit } = given;
  const write = writer(unit, given.decimals);
  const shape = shapeOf(given.wanted);
  points.forEach(({ z }, i) => {
    const { allowed } = number({ min: shape.from, max: shape.to });
    if (z < shape.from || z > shape.to) refuse('out-of-range', `points[${i}].z`, z, allowed);
  });
  const departures = points.map(({ departure }) => departure);
  const [low, high] = [Math.min(...departures), Math.max(...departures)];
  const largest = Math.max(-low, high);
  const drawn = lay(shape, points, largest, given.magnification, width, unit);
  const scale =
    largest === 0
      ? 'No departure anywhere.'
      : `The departure is drawn ${tell(drawn.factor)} times larger than the part.`;
  return page(
    given,
    `Cut against the wanted ${shape.name}`,
    `Departure from the wanted ${shape.name} from ${write.small(low)} to ${write.small(high)}. ${scale}`,
    [
      drawn.block,
      remarks([`Dashed: wanted. Full line: cut. ${scale}`], width),
      key(
        [
          { meaning: 'Largest departure, more material', value: write.small(Math.max(0, high)) },
          { meaning: 'Largest departure, less material', value: write.small(Math.min(0, low)) },
          { meaning: 'From lowest to highest', value: write.small(high - low) },
          ...shape.rows(write.length),
        ],
        width,
      ),
    ],
  );
}

interface Shape {
  readonly name: string;
  readonly from: number;
  readonly to: number;
  /** The surface at z, moved outwards by a departure, in the plane of the axis. */
  readonly at: (z: number, departure: number) => Point;
  readonly wanted: readonly Point[];
  readonly rows: (length: (value: number) => string) => readonly { readonly meaning: string; readonly value: string }[];
}

function shapeOf(wanted: WantedShape): Shape {
  if (wanted.kind === 'cone') {
    const { largeDiameter, smallDiameter, length } = wanted.work;
    const radius = (z: number): number => (largeDiameter + ((smallDiameter - largeDiameter) * z) / length) / 2;
    return {
      name: 'cone',
      from: 0,
      to: length,
      at: (z, departure) => [z, radius(z) + departure],
      wanted: [
        [0, radius(0)],
        [length, radius(length)],
      ],
      rows: (write) => [
        { meaning: 'Large diameter, on the left', value: write(largeDiameter) },
        { meaning: 'Small diameter', value: write(smallDiameter) },
        { meaning: 'Length', value: write(length) },
      ],
    };
  }
  const { radius } = wanted;
  const across = (z: number): number => Math.sqrt(Math.max(0, (radius - z) * (radius + z)));
  return {
    name: 'sphere',
    from: -radius,
    to: radius,
    at: (z, departure) => [z * (1 + departure / radius), across(z) * (1 + departure / radius)],
    wanted: Array.from({ length: 91 }, (_, i): Point => {
      const angle = (Math.PI * i) / 90;
      return [-radius * Math.cos(angle), radius * Math.sin(angle)];
    }),
    rows: (write) => [{ meaning: 'Radius wanted', value: write(radius) }],
  };
}

function lay(
  shape: Shape,
  points: readonly DeparturePoint[],
  largest: number,
  stated: number | undefined,
  width: number,
  unit: string,
): { readonly block: Block; readonly factor: number } {
  const tallest = Math.max(...shape.wanted.map(([, y]) => y));
  const bounds = { left: shape.from, right: shape.to, bottom: 0, top: tallest };
  const room = SHOWN + 10;
  const factor = stated ?? (largest === 0 ? 1 : roundDown(SHOWN / (largest * viewOf(bounds, width, 340, room).scale)));
  let scale = 1;
  const { height, content } = fitted(bounds, { width, tallest: 340, room }, (view) => {
    scale = view.scale;
    const at = ([x, y]: Point): Point => view.at(x, y);
    const wanted = shape.wanted.map(at);
    const cut = points.map(({ z, departure }) => at(shape.at(z, departure * factor)));
    const axis = at([0, 0])[1];
    return [
      outline('wanted-body', 'gx-body', [at([shape.from, 0]), ...wanted, at([shape.to, 0])]),
      outline('wanted', 'gx-wanted', wanted, false),
      line('work-axis', 'gx-axis', [8, axis], [width - 8, axis]),
      ...points.map(({ z }, i) => line('departure', 'gx-leader', at(shape.at(z, 0)), cut[i] as Point)),
      outline('cut', 'gx-cut', cut, false),
    ];
  });
  const bar = largest === 0 ? 0 : roundDown(largest);
  if (bar === 0) return { block: { height: height + 8, content }, factor };
  const [left, foot, long] = [24, height + 8, bar * factor * scale];
  const scaleBar = [
    line('bar-end', 'gx-dimension', [left - 5, foot], [left + 5, foot]),
    line('bar-end', 'gx-dimension', [left - 5, foot + long], [left + 5, foot + long]),
    ...dimension('departure-scale', [left, foot], [left, foot + long]),
    label('gx-value', [left + 14, foot + long / 2 + 4.5], `${tell(bar, { unit })} of departure`),
  ];
  return { block: { height: height + Math.max(long, 18) + 20, content: [...content, ...scaleBar] }, factor };
}
