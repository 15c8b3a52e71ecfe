/**
 * A tilted sweep seen from the front, in the plane of both axes and to scale, in the mill's frame of
 * docs/conventions.md: the work's axis upright with the free end up, or level with the free end on the right; the
 * sweep's circle edge-on, the tip at the pole and its bar on the other side; what it covers, and what it leaves.
 */
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
  type Reader,
  read,
} from '../../core/read.js';
import { arcWithin, fitted } from '../../draw/fit.js';
import { frame } from '../../draw/frame.js';
import { FIGURE, type FigureOptions, type Looks, part, tallest } from '../../draw/options.js';
import { type Block, type KeyRow, key, page, remarks } from '../../draw/page.js';
import type { View } from '../../draw/scale.js';
import { arc, box, dimension, disc, type Element, line, outline, type Point } from '../../draw/svg.js';
import { type Tag, tags } from '../../draw/tags.js';
import { type Writer, writer } from '../../draw/text.js';
import type { Look } from '../../draw/theme.js';
import { readSweep, type Sweep } from '../../revolve/sweep.js';
import { bodyOf, lieOf } from '../body.js';
import { type SphereShape, type SphereTarget, sphereShape, sphereTarget } from '../target.js';
import type { SweepCoverage, SweepEnd } from '../tilted-sweep/coverage.js';
import type { SweepResult, SweepSettings } from '../tilted-sweep/settings.js';
import type { BoringHead } from './machine.js';

/** What {@link sweepFigure} needs. */
export interface SweepFigureOptions extends FigureOptions {
  /** The part that is wanted. */
  readonly target: SphereTarget;
  /**
   * The sweep and what it cuts: `sweepSettings` gives it, for the exact settings and as `settable`; or that of
   * `sweepSurface` with its sweep, `{ ...surface, sweep }`.
   */
  readonly result: SweepResult | SweepSettings;
  /** How the rotary table stands: `flat`, the work's axis upright, or `upright`, the axis level. @defaultValue `flat` */
  readonly table?: 'flat' | 'upright';
  /** The boring head in its true size, as far as it is stated. @defaultValue schematic */
  readonly head?: Pick<BoringHead, 'bodyRadius' | 'toolReach'>;
}

type End = Pick<SweepEnd, 'state' | 'diameter' | 'height'>;
type Machine = Partial<Pick<SweepSettings, 'tipDiameter'>>;
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

const FIELDS: Fields<Drawn, Looks | 'table' | 'head'> = {
  ...FIGURE,
  target: sphereTarget,
  result: part<Result>({
    // Checked by `readSweep`.
    sweep: { allowed: { kind: 'object', phrase: 'must be a sweep' }, read: (value) => value as Sweep },
    radius: positive,
    coverage: part<Result['coverage']>({ fromDeg: polar, toDeg: polar, freeEnd: end, farEnd: end }),
    tipDiameter: optional(anyNumber),
  }),
  table: defaulted(choice('flat', 'upright'), 'flat'),
  head: defaulted(
    object<NonNullable<Drawn['head']>>({ bodyRadius: optional(positive), toolReach: optional(positive) }),
    {},
  ),
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
  const given = read<Drawn, Looks | 'table' | 'head'>(figure, FIELDS);
  const { result, width, table, head } = given;
  const { fromDeg, toDeg, freeEnd: free, farEnd: far } = result.coverage;
  const write = writer(given.unit, given.decimals);
  const shape = sphereShape(given.target);
  const { tilt, radius: r, distance: h, noseRadius: nose, skew } = readSweep(result.sweep, 'result.sweep');
  const side: Side = { shape, tilt, r, h, nose, radius: result.radius, fromDeg, toDeg, free, far, table, head };
  const said = [
    ...ends(side, write),
    ...(skew === 0 ? [] : [`The axes pass each other by ${write.small(skew)}, which this view cannot show.`]),
  ];
  const name = shape.side === 'ball' ? 'ball' : 'socket';
  const facing = shape.side === 'ball' ? "towards the spindle's axis" : "away from the spindle's axis";
  const told = `${said.join(' ')} The edge faces ${facing}. Drawn to scale; what is not stated is schematic.`;
  return page(
    given,
    `Tilted sweep that cuts a ${name}, seen from the front`,
    `The spindle's axis meets the work's axis at ${write.angle(result.sweep.tiltDeg)}; ` +
      `a sweep of radius ${write.length(side.r)} cuts a ${name} of radius ${write.length(side.radius)}. ${told}`,
    [lay(side, width), frame('mill', width), remarks([told], width), key(rowsOf(side, result, write), width)],
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
  readonly table: 'flat' | 'upright';
  readonly head: NonNullable<Drawn['head']>;
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
  if (result.tipDiameter !== undefined)
    rows.push({ meaning: 'Circle of the tip on a test ring, diameter', value: write.length(result.tipDiameter) });
  const tiltDeg = (side.tilt * 180) / Math.PI;
  const reading = side.table === 'flat' ? tiltDeg : 90 - tiltDeg;
  rows.push({
    meaning: `Head, upper end to the ${reading < 0 ? 'left' : 'right'}`,
    value: write.angle(Math.abs(reading)),
  });
  return rows;
}

/** A sphere so much larger than what is cut of it that its centre lies far off the page. */
const FAR = 6;

function lay(side: Side, width: number): Block {
  const { shape, tilt, r, h, radius: R, table, head } = side;
  const ball = shape.side === 'ball';
  const extent = Math.max(shape.toDiameter / 2, Math.abs(shape.fromHeight - shape.toHeight));
  const far = Math.max(R, shape.radius) > FAR * extent;
  const big = far ? 1.2 * extent : Math.max(R, shape.radius);
  const [sin, cos] = [Math.sin(tilt), Math.cos(tilt)];
  /** A place in the plane of both axes: a along the spindle's axis from the sphere's centre, c across it. */
  const place = (a: number, c: number): Point => [a * sin + c * cos, a * cos - c * sin];
  /** The free end up or to the right, the head on the right or above: x and z of a socket run into the work. */
  const out = ball ? 1 : -1;
  const lie = lieOf(shape.side, table);
  const turned = ([x, z]: Point): Point => lie.turned([out * x, z]);
  const { toolReach, bodyRadius } = head;
  const inTrueSize = toolReach !== undefined && toolReach < 5 * big;
  // The head stands beyond the sweep for a ball, behind it for a socket; far enough to show clear of the work.
  const clear = ball
    ? Math.max(far ? h : big, h) + 0.2 * big
    : Math.min(h - 0.3 * big, (shape.toHeight - 0.4 * big * sin) / Math.max(cos, 0.25) - 0.5 * big);
  const start = inTrueSize ? h + out * toolReach : clear;
  const block = (from: number, to: number, left: number, right: number): readonly Point[] => [
    place(from, left),
    place(from, right),
    place(to, right),
    place(to, left),
  ];
  const bar = 0.09 * big;
  const half = bodyRadius !== undefined && bodyRadius < 5 * big ? bodyRadius : 0.25 * big;
  const slide = start + out * 0.14 * big;
  const back = slide + out * Math.max(0.31 * big, 0.8 * half);
  const reach = r + (ball ? bar : 0) + 0.5 * bar;
  const heads: readonly (readonly Point[])[] = [
    block(start, slide, -Math.max(reach, half), half),
    block(slide, back, -half, half),
  ];
  /** The bar with the tip on one side of the spindle's axis: outside the circle round a ball, within it in a socket. */
  const tool = (at: 1 | -1): readonly Point[] => {
    const [tip, heel] = [at * r, at * (r + out * bar)];
    return [place(h, tip), place(h + out * 0.1 * big, heel), place(start, heel), place(start, tip)];
  };
  const axisEnd = place(back + out * 0.2 * big, 0);
  // The tip is set at the pole, wherever the sphere's centre then comes to lie.
  const sunk = far && shape.fromDeg === 0 ? R - shape.radius : 0;
  const body = bodyOf(shape, big).map((points) => points.map(([x, z]): Point => [x, z + sunk]));
  const all: readonly Point[] = [
    ...body.flat(),
    ...heads.flat(),
    axisEnd,
    ...tool(-1),
    ...tool(1),
    ...(far
      ? []
      : ([
          [0, ball ? 1.2 * big : -1.02 * big],
          [-1.08 * big, 0],
          [1.08 * big, 0],
        ] as const)),
  ];
  const zs = all.map(([, z]) => z);
  const [xs, ys] = [all.map((one) => turned(one)[0]), all.map((one) => turned(one)[1])];
  const bounds = {
    left: Math.min(...xs),
    right: Math.max(...xs),
    bottom: Math.min(...ys),
    top: Math.max(...ys),
  };
  const laid = {
    place,
    body,
    heads,
    tool,
    axisEnd,
    start,
    big,
    far,
    sunk,
    low: Math.min(...zs),
    high: Math.max(...zs),
    width,
  };
  return fitted(
    bounds,
    { width, tallest: inTrueSize ? Math.min(380, 0.95 * width) : tallest(width), room: 26 },
    (view) => drawn(side, view, (one) => view.at(...turned(one)), laid),
  );
}

interface Laid {
  readonly place: (a: number, c: number) => Point;
  readonly body: readonly (readonly Point[])[];
  readonly heads: readonly (readonly Point[])[];
  readonly tool: (at: 1 | -1) => readonly Point[];
  readonly axisEnd: Point;
  /** Where the head begins, along the spindle's axis. */
  readonly start: number;
  readonly big: number;
  /** The sphere's centre is far off the page. */
  readonly far: boolean;
  /** How far the wanted sphere's centre lies from where the axes meet. */
  readonly sunk: number;
  readonly low: number;
  readonly high: number;
  readonly width: number;
}

function drawn(side: Side, view: View, at: (point: Point) => Point, laid: Laid): readonly Element[] {
  const { shape, tilt, r, h, radius: R, fromDeg, toDeg, nose, free, table } = side;
  const { place, big, width, far, sunk } = laid;
  const ball = shape.side === 'ball';
  const out = ball ? 1 : -1;
  const centre = at([0, 0]);
  const tiltDeg = (tilt * 180) / Math.PI;
  /** Directions on the page: of the free end, of the head, of the pole. */
  const { freeDeg, poleDeg } = lieOf(shape.side, table);
  const headDeg = table === 'flat' ? 90 - tiltDeg : tiltDeg;
  /** As much of an arc between two polar angles as the strip has room for, on both sides of the work's axis. */
  const strip = { width, height: view.height };
  const both = (name: string, look: Look, radius: number, from: number, to: number, z = 0): readonly Element[] =>
    [1, -1].map((way) =>
      arcWithin(name, look, at([0, z]), radius * view.scale, strip, poleDeg + way * from, poleDeg + way * to),
    );
  const [e1, e2] = [at(place(h, -r)), at(place(h, r))];
  const content: Element[] = [
    ...laid.body.map((points) => outline('work', 'gx-work', points.map(at))),
    outline('bar-across', 'gx-wanted', laid.tool(1).map(at)),
    outline('bar', 'gx-machine', laid.tool(-1).map(at)),
    ...laid.heads.map((points) => outline('head', 'gx-machine', points.map(at))),
    ...(far
      ? both('wanted', 'gx-wanted', shape.radius, 0, Math.min(180, 1.3 * shape.toDeg), sunk)
      : [arcWithin('wanted', 'gx-wanted', centre, shape.radius * view.scale, strip)]),
    ...both('cut', 'gx-cut', R, fromDeg, Math.min(toDeg, Math.max(shape.toDeg, fromDeg))),
  ];
  if (side.far.state === 'undercut' || side.far.state === 'runs-out') {
    content.push(...both('past-end', side.far.state === 'undercut' ? 'gx-over' : 'gx-wanted', R, shape.toDeg, toDeg));
  }
  const marks: Tag[] = [];
  if (hasPip(side)) {
    const half = free.diameter / 2;
    const top = Math.max(shape.radius, R) + 0.04 * big;
    const [left, right] = [at([-half, top]), at([half, free.height])];
    const [x, y] = [Math.min(left[0], right[0]), Math.min(left[1], right[1])];
    content.push(box('pip', 'gx-alert', [x, y], Math.abs(right[0] - left[0]), Math.abs(right[1] - left[1])));
    marks.push({ text: 'p', at: at([-half, top]), towards: poleDeg + 30, leader: true });
  }
  if (nose > 0)
    content.push(disc('nose', 'gx-mark', e1, nose * view.scale), disc('nose', 'gx-mark', e2, nose * view.scale));
  const [rimX, rimZ] = [shape.toDiameter / 2, shape.toHeight + sunk - (ball ? 0.48 : 0.14) * big];
  const radialFrom = far ? R - 0.8 * big : 0;
  const radial = (from: number): Point => [-from * Math.sin(radialAngle(side)), from * Math.cos(radialAngle(side))];
  // Where the axes meet, or, where that is far away, in the middle of the sweep.
  const vertex = far ? place(h, 0) : ([0, 0] as const);
  const arm = (far ? 0.8 : 0.42) * big;
  content.push(
    line('work-axis', 'gx-axis', at([0, laid.low - 0.06 * big]), at([0, laid.high + 0.04 * big])),
    line(
      'spindle-axis',
      'gx-axis',
      at(place(far ? h - out * 0.3 * big : ball ? -0.35 * big : 0.5 * big, 0)),
      at(laid.axisEnd),
    ),
    line('sweep', 'gx-sweep', e1, e2),
    ...(far
      ? [line('reference', 'gx-wanted', at(vertex), at([vertex[0], vertex[1] + out * 1.1 * arm]))]
      : [line('distance', 'gx-dimension', centre, at(place(h, 0)))]),
    line('radius', 'gx-dimension', at(radial(radialFrom)), at(radial(R))),
    arc('tilt', 'gx-dimension', at(vertex), arm * view.scale, freeDeg, headDeg),
    ...dimension('rim', at([-rimX, rimZ]), at([rimX, rimZ])),
    ...(far ? [] : [disc('centre', 'gx-tool', centre, 2.5)]),
    outline('tip', 'gx-tool', diamond(e1)),
    outline('tip', 'gx-tool', diamond(e2)),
  );
  const along = (deg: number, length: number): Point => {
    const [x, y] = at(vertex);
    const [px, turn] = [length * view.scale, (deg * Math.PI) / 180];
    return [x + px * Math.cos(turn), y - px * Math.sin(turn)];
  };
  const [body = [], last = body] = laid.heads;
  const middle = (points: readonly Point[]): Point =>
    at([points.reduce((sum, [x]) => sum + x / 4, 0), points.reduce((sum, [, z]) => sum + z / 4, 0)]);
  marks.push(
    { text: 'α', at: along((freeDeg + headDeg) / 2, arm), towards: (freeDeg + headDeg) / 2 },
    { text: 'R', at: at(radial((radialFrom + R) / 2)), towards: poleDeg + 40 },
    { text: 'r', at: at(place(h, r / 2)), towards: headDeg, leader: true },
    ...(far ? [] : [{ text: 'h', at: at(place(h / 2, 0)), towards: headDeg - 90 }]),
    { text: 'd', at: at([-rimX / 2, rimZ]), towards: freeDeg },
    { text: 'tip', at: e1, towards: freeDeg + 45, leader: true, look: 'gx-name' },
    { text: 'boring head', at: middle(last), towards: headDeg - 90, look: 'gx-name' },
    { text: 'spindle axis', at: at(place(h + 0.6 * (laid.start - h), 0)), towards: headDeg - 90, look: 'gx-name' },
    { text: 'work axis', at: at([0, ball ? laid.low : laid.high]), towards: freeDeg - 90, look: 'gx-name' },
  );
  return [...content, ...tags(marks, width, view.height)];
}

/** Where the radius is shown: on the left, in the middle of what is wanted, but not along the work's axis. */
function radialAngle({ shape }: Side): number {
  const middle = (shape.fromDeg + shape.toDeg) / 2;
  const shown = shape.toDeg < 40 ? 0.7 * shape.toDeg : Math.min(Math.max(middle, 25), 100);
  return (shown * Math.PI) / 180;
}

function diamond([x, y]: Point): readonly Point[] {
  return [
    [x, y - 5],
    [x + 5, y],
    [x, y + 5],
    [x - 5, y],
  ];
}
