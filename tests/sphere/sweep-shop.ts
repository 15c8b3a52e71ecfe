/**
 * A mill in space for whoever obeys the steps of a tilted sweep: seen from the front, x to the right, y away, z up.
 * Plain vector arithmetic from the words of the steps alone; shares no formula with the library.
 */
import { type Job, type Mill, type Plan, planJob, planSteps, type SphereTarget, type WorkStep } from 'generatrix';
import { sphereJob } from '../plan/sphere-jobs.js';

/** A vector. */
type V = readonly [number, number, number];

const plus = (a: V, b: V, k = 1): V => [a[0] + k * b[0], a[1] + k * b[1], a[2] + k * b[2]];
const dot = (a: V, b: V): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
const length = (a: V): number => Math.sqrt(dot(a, a));
const radians = (deg: number): number => (deg * Math.PI) / 180;

/** Errors that nobody in the shop knows. */
export interface Hidden {
  readonly tiltDeg?: number;
  readonly sweepRadius?: number;
  readonly miss?: number;
}

/** The steps by code, as they are printed. */
export type Sheet = ReadonlyMap<string, WorkStep>;

/** By job: many tests obey the same one. */
const plans = new Map<string, Plan>();

/** The sheet of a part on a mill whose table stands so; without graduations unless asked for. */
export function sheetOf(
  target: SphereTarget,
  table: 'flat' | 'upright',
  graduated = false,
  more: Partial<Job> = {},
): Sheet {
  const given = sphereJob(target);
  const mill: Mill = {
    name: 'knee mill',
    table,
    headTilt: { largestDeg: 90, ...(graduated && { stepDeg: 0.5 }) },
    boringHead: { dial: { reads: 'diameter', ...(graduated && { step: 0.02 }) } },
  };
  const job: Job = { ...given, mills: [mill], ...more };
  const key = JSON.stringify(job);
  const plan = plans.get(key) ?? planJob(job, { trials: 1000 });
  plans.set(key, plan);
  const method = plan.methods.findIndex((tried) => tried.method === 'tilted-sweep');
  return new Map(planSteps({ plan, method }).map((one) => [one.code, one]));
}

/** The same sheet with a word of one step turned round. */
export function spoiled(sheet: Sheet, code: string, from: RegExp, to: string): Sheet {
  const step = sheet.get(code);
  if (!step || !from.test(step.text)) throw new Error(`no ${from} in ${code}: ${step?.text}`);
  return new Map([...sheet, [code, { ...step, text: step.text.replace(from, to) }]]);
}

/** A number of a step. */
export function value(sheet: Sheet, code: string, name: string): number {
  const found = sheet.get(code)?.values[name];
  if (found === undefined) throw new Error(`no ${name} in ${code}`);
  return found;
}

/** What a step says. */
export function text(sheet: Sheet, code: string): string {
  return sheet.get(code)?.text ?? '';
}

/** Exactly one of the choices is what the step says. */
function said<T>(words: string, choices: readonly (readonly [RegExp, T])[]): T {
  const [found, ...others] = choices.filter(([word]) => word.test(words));
  if (!found || others.length > 0) throw new Error(`unclear: ${words}`);
  return found[1];
}

const MOVES: readonly (readonly [RegExp, V])[] = [
  [/raise the table/, [0, 0, 1]],
  [/lower the table/, [0, 0, -1]],
  [/move the table to the right/, [1, 0, 0]],
  [/move the table to the left/, [-1, 0, 0]],
];

/** A set-up as it stands: the tip's circle in the work's own frame. */
export interface SetUp {
  /** The work's axis, towards the free end. */
  readonly work: V;
  /** The spindle's axis, towards its upper end. */
  readonly spindle: V;
  /** Square to the spindle in the plane of the axes: from the circle's centre to the place that was chosen. */
  readonly place: V;
  /** The circle's centre. */
  readonly centre: V;
}

/** Head, sweep and work as the first steps say. */
export function clamped(sheet: Sheet, hidden: Hidden, tiltChangeDeg = 0): Omit<SetUp, 'centre'> {
  const work = said<V>(text(sheet, 'axes-meet'), [
    [/axis upright, the free end up/, [0, 0, 1]],
    [/axis level, the free end on the right/, [1, 0, 0]],
  ]);
  const clockwise = said(text(sheet, 'tilt'), [
    [/to the right: clockwise/, 1],
    [/to the left: anticlockwise/, -1],
    [/Set the head upright/, 1],
  ]);
  const reading = Math.abs(value(sheet, 'tilt', 'readingDeg'));
  const lean = radians(clockwise * (reading + tiltChangeDeg) + (hidden.tiltDeg ?? 0));
  const spindle: V = [Math.sin(lean), 0, Math.cos(lean)];
  const radius = value(sheet, 'test-ring', 'tipDiameter') / 2 + (hidden.sweepRadius ?? 0);
  const across: V = [radius * Math.cos(lean), 0, -radius * Math.sin(lean)];
  const words = [...sheet.values()].find(({ code }) => code.startsWith('place'))?.text ?? '';
  const toFree = said(words, [
    [/its place nearest the free end/, 1],
    [/its place deepest in the work/, -1],
  ]);
  const place: V = dot(across, work) * toFree > 0 ? across : [-across[0], 0, -across[2]];
  return { work, spindle, place };
}

/** Whether the place is where "highest" or "lowest" says. */
export function heightAgrees({ place }: Pick<SetUp, 'place'>, words: string): boolean {
  const up = said(words, [
    [/the highest of its circle/, 1],
    [/the lowest of its circle/, -1],
  ]);
  return place[2] * up > 0;
}

/** Towards the spindle's upper end, square to the work's axis. */
function side({ work, spindle }: Pick<SetUp, 'work' | 'spindle'>): V {
  const across = plus(spindle, work, -dot(spindle, work));
  return plus([0, 0, 0], across, 1 / length(across));
}

/** The tip at its place, brought to a point of the work. */
export function brought(set: Omit<SetUp, 'centre'>, along: number, across: number): SetUp {
  const tip = plus(plus([0, 0, 0], set.work, along), side(set), across);
  return { ...set, centre: plus(tip, set.place, -1) };
}

/** The table moved as words say: the work goes with it. */
export function tableMoved(set: SetUp, words: string, by: number): SetUp {
  return { ...set, centre: plus(set.centre, said(words, MOVES), -by) };
}

/** Drawn back along the spindle, or fed if negative. */
export function drawnBack(set: SetUp, by: number): SetUp {
  return { ...set, centre: plus(set.centre, set.spindle, by) };
}

/** The sweep opened. */
function opened(set: SetUp, by: number): SetUp {
  return { ...set, place: plus([0, 0, 0], set.place, 1 + by / length(set.place)) };
}

/** What the circle cuts out of the turning work: all its points lie on one sphere. */
export interface Cut {
  readonly radius: number;
  /** Height of the sphere's centre. */
  readonly centre: number;
  /** Diameter and height where the place cuts, and opposite. */
  readonly at: { readonly diameter: number; readonly height: number };
  readonly opposite: { readonly diameter: number; readonly height: number };
}

/** Revolves the points of the sweep about the work's axis. */
export function cut({ work, place, centre }: SetUp): Cut {
  const r = length(place);
  const points = Array.from({ length: 360 }, (_, i): readonly [rho: number, z: number] => {
    const point = plus(plus(centre, place, Math.cos(radians(i))), [0, r, 0], Math.sin(radians(i)));
    const z = dot(point, work);
    return [length(plus(point, work, -z)), z];
  });
  const ends: readonly [rho: number, z: number] = [0, 0];
  const [near, far] = [points[0] ?? ends, points[180] ?? ends];
  const square = ([rho, z]: readonly [number, number]): number => rho * rho + z * z;
  const middle = (square(near) - square(far)) / (2 * (near[1] - far[1]));
  const radius = Math.hypot(near[0], near[1] - middle);
  for (const [rho, z] of points) {
    if (Math.abs(Math.hypot(rho, z - middle) - radius) > 1e-9 * radius) throw new Error('no sphere');
  }
  const end = ([rho, z]: readonly [number, number]) => ({ diameter: 2 * rho, height: z });
  return { radius, centre: middle, at: end(near), opposite: end(far) };
}

/** Sweep and feed changed as a step says, so many times. */
export function changed(set: SetUp, sheet: Sheet, code: string, times: number): SetUp {
  const words = text(sheet, code);
  const open = said(words, [
    [/open the sweep/, 1],
    [/close the sweep/, -1],
  ]);
  const out = said(words, [
    [/less far than to zero/, 1],
    [/further than to zero/, -1],
  ]);
  const radius = times * open * Math.abs(value(sheet, code, 'sweepRadiusChange'));
  return drawnBack(opened(set, radius), times * out * Math.abs(value(sheet, code, 'distanceChange')));
}
