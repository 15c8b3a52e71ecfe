/**
 * A tilted sweep from the side, in the plane of both axes and to scale: the work's axis upright with the free end
 * of a ball, or the opening of a socket, on top; the sweep's circle edge-on; what it covers, and what it leaves.
 */
import {
  anyNumber,
  choice,
  type Fields,
  nonNegative,
  number,
  optional,
  positive,
  type Reader,
  read,
} from '../../core/read.js';
import { arcWithin, fitted } from '../../draw/fit.js';
import { FIGURE, type FigureOptions, type Looks, part } from '../../draw/options.js';
import { type Block, type KeyRow, key, page, remarks } from '../../draw/page.js';
import type { View } from '../../draw/scale.js';
import { arc, box, dimension, disc, type Element, line, outline, type Point } from '../../draw/svg.js';
import { type Tag, tags } from '../../draw/tags.js';
import { type Writer, writer } from '../../draw/text.js';
import type { Look } from '../../draw/theme.js';
import { readSweep, type Sweep } from '../../revolve/sweep.js';
import { bodyOf } from '../body.js';
import { type SphereShape, type SphereTarget, sphereShape, sphereTarget } from '../target.js';
import type { SweepCoverage, SweepEnd } from '../tilted-sweep/coverage.js';
import type { SweepResult, SweepSettings } from '../tilted-sweep/settings.js';

/** What {@link sweepFigure} needs. */
export interface SweepFigureOptions extends FigureOptions {
  /** The part that is wanted. */
  readonly target: SphereTarget;
  /**
   * The sweep and what it cuts: `sweepSettings` gives it, for the exact settings and as `settable`; or that of
   * `sweepSurface` with its sweep, `{ ...surface, sweep }`.
   */
  readonly result: SweepResult | SweepSettings;
}

type End = Pick<SweepEnd, 'state' | 'diameter' | 'height'>;
type Machine = Partial<Pick<SweepSettings, 'tipDiameter' | 'headTiltTableFlatDeg' | 'headTiltTableUprightDeg'>>;
type Result = Pick<SweepResult, 'sweep' | 'radius'> &
  Machine & {
    readonly coverage: Pick<SweepCoverage, 'fromDeg' | 'toDeg'> & {
      readonly [K in keyof Pick<SweepCoverage, 'freeEnd' | 'farEnd'>]: End;
    };
  };
type Drawn = Omit<SweepFigureOptions, 'result'> & { readonly result: Result };

const end: Reader<End> = part<End>({
  state: choice('meets', 'not-reached', 'past-pole', 'undercut', 'runs-out'),
  diameter: nonNegative,
  height: anyNumber,
});
const polar = number({ min: 0, max: 180 });

const FIELDS: Fields<Drawn, Looks> = {
  ...FIGURE,
  target: sphereTarget,
  result: part<Result>({
    // Checked by `readSweep`.
    sweep: { allowed: { kind: 'object', phrase: 'must be a sweep' }, read: (value) => value as Sweep },
    radius: positive,
    coverage: part<Result['coverage']>({ fromDeg: polar, toDeg: polar, freeEnd: end, farEnd: end }),
    tipDiameter: optional(anyNumber),
    headTiltTableFlatDeg: optional(anyNumber),
    headTiltTableUprightDeg: optional(anyNumber),
  }),
};

/**
 * Side view of a tilted sweep that cuts a ball or a socket: axes, tilt, sweep, coverage, pip and undercut.
 *
 * @param figure - The part, the sweep with what it cuts, unit and looks.
 * @returns The figure as SVG text.
 * @throws GeneratrixError for a result that is not complete; what `sphereShape` throws.
 * @example
 * ```ts
 * import { sweepFigure, sweepSettings } from 'generatrix';
 * const target = { part: 'ball-on-stem', diameter: 50, stemDiameter: 25 } as const;
 * const svg = sweepFigure({ target, result: sweepSettings({ target }), unit: 'mm' });
 * svg.includes('75.0000°'); // => true
 * ```
 */
export function sweepFigure(figure: SweepFigureOptions): string {
  const given = read<Drawn, Looks>(figure, FIELDS);
  const { result, width } = given;
  const { fromDeg, toDeg, freeEnd: free, farEnd: far } = result.coverage;
  const write = writer(given.unit, given.decimals);
  const shape = sphereShape(given.target);
  const { tilt, radius: r, distance: h, noseRadius: nose, skew } = readSweep(result.sweep, 'result.sweep');
  const side: Side = { shape, tilt, r, h, nose, radius: result.radius, fromDeg, toDeg, free, far };
  const said = [
    ...ends(side, write),
    ...(skew === 0 ? [] : [`The axes pass each other by ${write.small(skew)}, which this view cannot show.`]),
  ];
  const name = shape.side === 'ball' ? 'ball' : 'socket';
  return page(
    given,
    `Tilted sweep that cuts a ${name}, side view`,
    `The spindle's axis meets the work's axis at ${write.angle(result.sweep.tiltDeg)}; ` +
      `a sweep of radius ${write.length(side.r)} cuts a ${name} of radius ${write.length(side.radius)}. ${said.join(' ')}`,
    [
      lay(side, width),
      remarks([...said, 'Drawn to scale; the head is schematic.'], width),
      key(rowsOf(side, result, write), width),
    ],
  );
}

interface Side {
  readonly shape: SphereShape;
  readonly tilt: number;
  readonly r: number;
  readonly h: number;
  readonly nose: number;
  readonly radius: number;
  readonly fromDeg: number;
  readonly toDeg: number;
  readonly free: End;
  readonly far: End;
}

function hasPip({ free }: Side): boolean {
  return free.state === 'past-pole' || free.state === 'not-reached';
}

/** How the cut ends, in words. */
function ends(side: Side, write: Writer): readonly string[] {
  const { free, far, shape } = side;
  const far_ = shape.side === 'socket' ? 'opening' : shape.part === 'cap' ? 'base' : 'stem';
  const said: string[] = [];
  if (hasPip(side)) said.push(`A diameter of ${write.small(free.diameter)} stays uncut at the free end.`);
  if (free.state === 'undercut') said.push('The sweep cuts into the free stem.');
  if (far.state === 'undercut') said.push(`The sweep cuts into the ${far_}.`);
  if (far.state === 'not-reached')
    said.push(`The sweep stops short of the ${far_}, at a diameter of ${write.length(far.diameter)}.`);
  if (said.length === 0) said.push('The sweep covers the whole surface.');
  return said;
}

function rowsOf(side: Side, result: Machine, write: Writer): readonly KeyRow[] {
  const { shape } = side;
  const rows: KeyRow[] = [
    { symbol: 'R', meaning: 'Radius of the sphere that is cut', value: write.length(side.radius) },
    { symbol: 'α', meaning: 'Angle between the axes', value: write.angle((side.tilt * 180) / Math.PI) },
    {
      symbol: 'r',
      meaning: side.nose > 0 ? "Radius of the sweep of the nose's centre" : 'Radius of the sweep',
      value: write.length(side.r),
    },
    { symbol: 'h', meaning: "From the sphere's centre to the sweep's plane", value: write.length(side.h) },
  ];
  const far = shape.side === 'socket' ? 'Opening' : shape.part === 'cap' ? 'Base' : 'Stem';
  rows.push({ symbol: 'd', meaning: `${far}, diameter`, value: write.length(shape.toDiameter) });
  if (hasPip(side))
    rows.push({ symbol: 'p', meaning: 'Uncut at the free end, diameter', value: write.small(side.free.diameter) });
  if (side.nose > 0) rows.push({ meaning: "Radius of the tool's nose", value: write.length(side.nose) });
  if (write.length(side.radius) !== write.length(shape.radius))
    rows.push({ meaning: 'Radius wanted', value: write.length(shape.radius) });
  const machine = [
    [result.tipDiameter, 'Circle of the tip on a test ring, diameter', write.length],
    [result.headTiltTableFlatDeg, "Head tilt, work's axis upright", write.angle],
    [result.headTiltTableUprightDeg, "Head tilt, work's axis level", write.angle],
  ] as const;
  for (const [value, meaning, told] of machine) if (value !== undefined) rows.push({ meaning, value: told(value) });
  return rows;
}

function lay(side: Side, width: number): Block {
  const { shape, tilt, r, h, radius: R } = side;
  const ball = shape.side === 'ball';
  const big = Math.max(R, shape.radius);
  const [sin, cos] = [Math.sin(tilt), Math.cos(tilt)];
  /** A place in the plane of both axes: a along the spindle's axis from the sphere's centre, c across it. */
  const place = (a: number, c: number): Point => [a * sin + c * cos, a * cos - c * sin];
  // The head stands beyond the sweep for a ball, behind it for a socket; far enough to show clear of the work.
  const away = ball ? 1 : -1;
  const start = ball
    ? Math.max(h, big) + 0.2 * big
    : Math.min(h - 0.3 * big, (shape.toHeight - 0.4 * big * sin) / Math.max(cos, 0.25) - 0.5 * big);
  const block = (from: number, to: number, left: number, right: number): readonly Point[] => [
    place(from, left),
    place(from, right),
    place(to, right),
    place(to, left),
  ];
  const [tip, bar] = [ball ? -r : r, 0.09 * big];
  const [left, right] = [Math.min(tip - 1.5 * bar, -0.25 * big), Math.max(tip + 0.5 * bar, 0.25 * big)];
  const [slide, back] = [start + away * 0.14 * big, start + away * 0.45 * big];
  const head: readonly (readonly Point[])[] = [
    block(start, slide, left, right),
    block(slide, back, -0.25 * big, 0.25 * big),
  ];
  const axisEnd = place(start + away * 0.7 * big, 0);
  const tool = [place(h, tip), place(h + away * 0.1 * big, tip - bar), place(start, tip - bar), place(start, tip)];
  const body = bodyOf(shape, big);
  const all: readonly Point[] = [
    ...body.flat(),
    ...head.flat(),
    axisEnd,
    place(h, r),
    place(h, -r),
    ...tool,
    [0, ball ? 1.2 * big : -1.02 * big] as const,
    [-1.08 * big, 0] as const,
    [1.08 * big, 0] as const,
  ];
  const [xs, zs] = [all.map(([x]) => x), all.map(([, z]) => z)];
  const up = ball ? 1 : -1;
  const heights = zs.map((z) => up * z);
  const bounds = {
    left: Math.min(...xs),
    right: Math.max(...xs),
    bottom: Math.min(...heights),
    top: Math.max(...heights),
  };
  const laid = { place, body, head, tool, axisEnd, big, low: Math.min(...zs), high: Math.max(...zs), width };
  return fitted(bounds, { width, tallest: 400, room: 26 }, (view) =>
    drawn(side, view, ([x, z]) => view.at(x, up * z), laid),
  );
}

interface Laid {
  readonly place: (a: number, c: number) => Point;
  readonly body: readonly (readonly Point[])[];
  readonly head: readonly (readonly Point[])[];
  readonly tool: readonly Point[];
  readonly axisEnd: Point;
  readonly big: number;
  readonly low: number;
  readonly high: number;
  readonly width: number;
}

function drawn(side: Side, view: View, at: (point: Point) => Point, laid: Laid): readonly Element[] {
  const { shape, tilt, r, h, radius: R, fromDeg, toDeg, nose, free } = side;
  const { place, big, width } = laid;
  const ball = shape.side === 'ball';
  const centre = at([0, 0]);
  const tiltDeg = (tilt * 180) / Math.PI;
  /** Angle on the page of a polar angle: from the top of a ball, from the bottom of a socket, to the right. */
  const page = (deg: number): number => (ball ? 90 - deg : deg - 90);
  /** As much of an arc as the strip has room for, on the right and on the left. */
  const strip = { width, height: view.height };
  const both = (name: string, look: Look, radius: number, from: number, to: number): readonly Element[] =>
    [
      [page(from), page(to)],
      [180 - page(from), 180 - page(to)],
    ].map(([a, b]) => arcWithin(name, look, centre, radius * view.scale, strip, a, b));
  const reach = 0.42 * big * view.scale;
  const content: Element[] = [
    ...laid.body.map((points) => outline('work', 'gx-work', points.map(at))),
    outline('bar', 'gx-machine', laid.tool.map(at)),
    ...laid.head.map((points) => outline('head', 'gx-machine', points.map(at))),
    arcWithin('wanted', 'gx-wanted', centre, shape.radius * view.scale, strip),
    ...both('cut', 'gx-cut', R, fromDeg, Math.min(toDeg, Math.max(shape.toDeg, fromDeg))),
  ];
  if (side.far.state === 'undercut' || side.far.state === 'runs-out') {
    content.push(...both('past-end', side.far.state === 'undercut' ? 'gx-over' : 'gx-wanted', R, shape.toDeg, toDeg));
  }
  const marks: Tag[] = [];
  if (hasPip(side)) {
    const half = free.diameter / 2;
    const top = Math.max(shape.radius, R) * 1.04;
    const [left, right] = [at([-half, top]), at([half, free.height])];
    const [x, y] = [Math.min(left[0], right[0]), Math.min(left[1], right[1])];
    content.push(box('pip', 'gx-alert', [x, y], Math.abs(right[0] - left[0]), Math.abs(right[1] - left[1])));
    marks.push({ text: 'p', at: at([-half, top]), towards: ball ? 120 : -120, leader: true });
  }
  const [e1, e2] = [at(place(h, -r)), at(place(h, r))];
  if (nose > 0)
    content.push(disc('nose', 'gx-mark', e1, nose * view.scale), disc('nose', 'gx-mark', e2, nose * view.scale));
  const [rimX, rimZ] = [shape.toDiameter / 2, shape.toHeight - (ball ? 0.48 : 0.14) * big];
  const radial: Point = [-R * Math.sin(radialAngle(side)), R * Math.cos(radialAngle(side))];
  const half = tilt / 2;
  const arcMiddle: Point = [0.42 * big * Math.sin(half), 0.42 * big * Math.cos(half)];
  content.push(
    line('work-axis', 'gx-axis', at([0, laid.low - 0.06 * big]), at([0, laid.high + 0.04 * big])),
    line('spindle-axis', 'gx-axis', at(place(ball ? -0.35 * big : 0.5 * big, 0)), at(laid.axisEnd)),
    line('sweep', 'gx-sweep', e1, e2),
    line('distance', 'gx-dimension', centre, at(place(h, 0))),
    line('radius', 'gx-dimension', centre, at(radial)),
    arc('tilt', 'gx-dimension', centre, reach, page(0), page(tiltDeg)),
    ...dimension('rim', at([-rimX, rimZ]), at([rimX, rimZ])),
    disc('centre', 'gx-tool', centre, 2.5),
    outline('tip', 'gx-tool', diamond(e1)),
    outline('tip', 'gx-tool', diamond(e2)),
  );
  marks.push(
    { text: 'α', at: at(arcMiddle), towards: page(tiltDeg / 2) },
    { text: 'R', at: at([radial[0] / 2, radial[1] / 2]), towards: ball ? 130 : -130 },
    { text: 'r', at: at(place(h, r / 2)), towards: page(tiltDeg), leader: true },
    { text: 'h', at: at(place(h / 2, 0)), towards: page(tiltDeg) - 90 },
    { text: 'd', at: at([-rimX / 2, rimZ]), towards: 90 },
  );
  return [...content, ...tags(marks, width, view.height)];
}

/** Where the radius is shown: on the left, in the middle of what is wanted, but not along the work's axis. */
function radialAngle({ shape }: Side): number {
  const middle = Math.min(Math.max((shape.fromDeg + shape.toDeg) / 2, 25), 100);
  return (middle * Math.PI) / 180;
}

function diamond([x, y]: Point): readonly Point[] {
  return [
    [x, y - 5],
    [x + 5, y],
    [x, y + 5],
    [x - 5, y],
  ];
}
