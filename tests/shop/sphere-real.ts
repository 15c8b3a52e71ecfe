/**
 * Spheres of a kind in a real shop: everything off by what the job states, the part judged by all that the plan judges.
 */
import { type MethodPlan, type Plan, planJob, planSteps } from 'generatrix';
import { errors } from '../plan/machinings.js';
import { drawingOf } from './part.js';
import { MEANT, Mishap, obey } from './person.js';
import { type Place, sphereThrough } from './space.js';
import { type Kind, NO_SHOP_ERRORS, type ShopErrors } from './sphere-kinds.js';
import type { Real } from './taper-real.js';

/** What came of a kind, and of each quantity that is judged. */
export interface RealSphere extends Real {
  readonly each: readonly { readonly quantity: string; readonly promised: number; readonly share: number }[];
}

/** Whether the shop knows all that makes such a part differ: stops and ridges are judged otherwise. */
export function isReal({ method }: Kind): boolean {
  return method === 'tilted-sweep' || method === 'swivel-tool';
}

/** How far all is off, drawn anew whenever it is set. */
function drawn(kind: Kind, { assumptions }: Plan, { means }: MethodPlan, seed: number): () => ShopErrors {
  const within = errors(seed);
  const { setting = {}, measuring = {} } = kind.job;
  // What the job does not state the plan says that it assumes.
  const assumed = assumptions.map(({ path, value }) => [path.replace('setting.', ''), value]);
  const of: Readonly<Record<string, number>> = { ...Object.fromEntries(assumed), ...setting };
  const { limit = 0, change = 0, near = 0 } = means ?? {};
  const any =
    (name: string, part = 1) =>
    () =>
      within((of[name] ?? 0) * part);
  const again = of['resettingFraction'] ?? Number.NaN;
  return () => ({
    ...NO_SHOP_ERRORS,
    nearTiltDeg: () => within(near),
    headTiltDeg: () => within(limit),
    headChange: () => within(change),
    sweepRadius: any('sweepRadius'),
    sweepChange: any('sweepRadius', again),
    miss: any('miss'),
    skew: any('skew'),
    position: any('position'),
    feedChange: any('position', again),
    swivelRadius: any('swivelRadius'),
    radiusChange: any('swivelRadius', again),
    swivelOffset: any('swivelOffset'),
    offsetChange: any('swivelOffset', again),
    toolHeight: any('toolHeight'),
    diameter: () => within(measuring.diameter ?? 0),
    length: () => within(measuring.length ?? 0),
  });
}

/** All that may be judged, each less what the drawing has. */
function judged(kind: Kind, left: readonly Place[]): Readonly<Record<string, number>> {
  const drawing = drawingOf(kind.target);
  // Between two heights every sphere has as much surface as they are apart.
  const places = left.map((place, i) => {
    const [before, after] = [left[i - 1] ?? place, left[i + 1] ?? place];
    return { ...place, weight: Math.abs(after.z - before.z) };
  });
  const { radius, centre } = sphereThrough(places);
  const distances = left.map(({ rho, z }) => Math.hypot(rho, z - centre));
  const [top, bottom] =
    (left[0] as Place).z > (left.at(-1) as Place).z ? [left, [...left].reverse()] : [[...left].reverse(), left];
  const end = (from: readonly Place[]): number => 2 * (from[0] as Place).rho;
  const [free, held] = [drawing.free.rho, drawing.held.rho].map((rho) => 2 * rho) as [number, number];
  return {
    radius: radius - drawing.radius,
    form: Math.max(...distances) - Math.min(...distances),
    'pip-diameter': nearest(drawing.freeIs === 'pole' ? top : bottom),
    'free-stem-diameter': end(top) - free,
    'flat-diameter': faced(top, drawing.free.z) - free,
    'opening-diameter': faced(top, drawing.free.z) - free,
    'stem-diameter': end(bottom) - held,
    'base-diameter': end(bottom) - held,
  };
}

/** Diameter in a face at a height, or of the end of what ends short of it: of a sphere its square is a parabola of the height. */
function faced(left: readonly Place[], face: number): number {
  const at = left.findIndex(({ z }) => z <= face);
  const near = left.slice(at - 1, at + 2);
  if (at < 1 || near.length < 3) return 2 * (left[0] as Place).rho;
  const square = near.reduce(
    (sum, one) =>
      near.reduce((term, { z }) => (z === one.z ? term : (term * (face - z)) / (one.z - z)), one.rho ** 2) + sum,
    0,
  );
  return 2 * Math.sqrt(Math.max(0, square));
}

/** Twice the least distance from the axis near an end: its square is a parabola along the path. */
function nearest([first, second, third]: readonly Place[]): number {
  const [a, b, c] = [first, second, third].map((place) => (place?.rho ?? Number.NaN) ** 2) as [number, number, number];
  const [slope, bend] = [(4 * b - 3 * a - c) / 2, (a - 2 * b + c) / 2];
  const at = slope < 0 ? -slope / (2 * bend) : 0;
  return 2 * Math.sqrt(Math.max(0, a + slope * at + bend * at * at));
}

/** Cuts parts, and counts the good ones, each corrected as often as the plan says. */
export function reallySphere(kind: Kind, parts: number, seed: number): RealSphere {
  const plan = planJob(kind.job);
  const method = plan.methods.findIndex((one) => one.method === kind.method);
  const of = plan.methods[method] as MethodPlan;
  const sheet = planSteps({ plan, method });
  const { expectations, tries } = of;
  const deepest = Math.max(...expectations.map(({ tolerance }) => tolerance));
  const off = drawn(kind, plan, of, seed);
  const passed = expectations.map(() => 0);
  let [good, gouged] = [0, 0];
  const mishaps: string[] = [];
  for (let i = 0; i < parts; i++) {
    const bench = kind.bench(off());
    try {
      obey(sheet, bench, { tries, number: MEANT });
    } catch (error) {
      if (!(error instanceof Mishap)) throw error;
      mishaps.push(error.message.replace(/\d+\.\d+/g, '…'));
      continue;
    }
    const found = judged(kind, bench.left());
    const passes = expectations.map(({ quantity, tolerance }) => Math.abs(found[quantity] ?? Number.NaN) <= tolerance);
    for (const [k, one] of passes.entries()) if (one) passed[k] = (passed[k] ?? 0) + 1;
    if (passes.every(Boolean)) good++;
    if (bench.verdict().gouge > deepest) gouged++;
  }
  const each = expectations.map(({ quantity, first, corrected }, k) => ({
    quantity,
    promised: (tries === 1 ? first : corrected).probability,
    share: (passed[k] ?? 0) / parts,
  }));
  return { promised: of.probability, tries, share: good / parts, gouged: gouged / parts, mishaps, each };
}
