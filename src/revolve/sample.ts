/**
 * A meridian as a polyline, for tool paths and meshes: z and ρ by turns in an array that the caller
 * brings. Either equal steps along the meridian, or as few points as keep every chord within a tolerance.
 */
import { number, options, positive } from '../core/checks.js';
import { refuse } from '../core/errors.js';
import { type Curve, readCurve, type SweepFormQuery } from './circle-form.js';
import type { LineSurface } from './line.js';
import { lineRadiusAt, readLineSurface } from './line-meridian.js';
import { length2, rootBetween } from './solve.js';

/** How far apart points of a polyline stand. */
export type Spacing =
  | {
      /** Longest step along the meridian; all steps are the same, and a whole number of them fills it. */
      readonly step: number;
    }
  | {
      /** Farthest that the meridian may stand off a chord of the polyline. */
      readonly chordalTolerance: number;
    };

/** A stretch of a revolved circle's meridian, and how to divide it. */
export interface CircleSampling extends SweepFormQuery {
  /** Step or chordal tolerance. */
  readonly spacing: Spacing;
}

/** A stretch of a revolved line's meridian, and how to divide it. */
export interface LineSampling {
  /** The surface, as `revolveLine` gives it; not a face. */
  readonly surface: LineSurface;
  /** Lowest place along the work's axis. */
  readonly fromZ: number;
  /** Highest place along the work's axis. */
  readonly toZ: number;
  /** Step or chordal tolerance. */
  readonly spacing: Spacing;
}

/**
 * Points along the meridian that a circular sweep leaves on a part, in the order of the sweep's angle.
 *
 * @param sampling - Sweep, part, nose radius, stretch and spacing.
 * @param into - Receives z, ρ, z, ρ, …
 * @returns Number of points written, both ends included.
 * @throws GeneratrixError `out-of-range` if the array is too short;
 * `impossible-geometry` for parallel axes.
 * @example
 * ```ts
 * import { sampleCircle } from 'generatrix';
 * const into = new Float64Array(100);
 * const sweep = { tiltDeg: 90, radius: 3, distance: 4 };
 * sampleCircle({ sweep, part: 'ball', spacing: { step: 1 } }, into); // => 8
 * sampleCircle({ sweep, part: 'ball', spacing: { chordalTolerance: 0.01 } }, into); // => 12
 * sampleCircle({ sweep, part: 'ball', spacing: { step: 0.01 } }, into); // throws out-of-range
 * ```
 */
export function sampleCircle(sampling: CircleSampling, into: Float64Array): number {
  const { spacing, ...query } = options(
    sampling,
    'sampling',
    ['sweep', 'part', 'spacing'],
    ['noseRadius', 'fromZ', 'toZ'],
  ) as unknown as CircleSampling;
  const { from, to, at } = readCurve(query).curve;
  return polyline({ from, to, at }, spacing, into);
}

/**
 * Points along the meridian that a straight path leaves, by rising z.
 *
 * @param sampling - Surface, stretch and spacing.
 * @param into - Receives z, ρ, z, ρ, …
 * @returns Number of points written, both ends included.
 * @throws GeneratrixError `out-of-range` if the array is too short or the stretch is empty,
 * `impossible-geometry` for a face.
 * @example
 * ```ts
 * import { revolveLine, sampleLine } from 'generatrix';
 * const surface = revolveLine({ point: [2, 0, 10], direction: [0, 0, 1] });
 * const into = new Float64Array(6);
 * sampleLine({ surface, fromZ: 0, toZ: 8, spacing: { step: 4 } }, into); // => 3
 * [...into]; // => [0, 2, 4, 2, 8, 2]
 * ```
 */
export function sampleLine(sampling: LineSampling, into: Float64Array): number {
  const given = options(sampling, 'sampling', ['surface', 'fromZ', 'toZ', 'spacing']);
  const surface = readLineSurface(given['surface'], 'sampling.surface');
  const from = number(given['fromZ'], 'sampling.fromZ');
  const to = number(given['toZ'], 'sampling.toZ', { above: from });
  return polyline({ from, to, at: (z) => ({ z, rho: lineRadiusAt(surface, z) }) }, sampling.spacing, into);
}

interface Path extends Pick<Curve, 'from' | 'to'> {
  readonly at: (t: number) => { readonly z: number; readonly rho: number };
}

function polyline(path: Path, spacing: Spacing, into: Float64Array): number {
  const { step, chordalTolerance } = options(spacing, 'sampling.spacing', [], ['step', 'chordalTolerance']);
  if ((step === undefined) === (chordalTolerance === undefined)) {
    return refuse('contradiction', 'sampling.spacing', spacing, 'must hold either step or chordalTolerance');
  }
  if (!(into instanceof Float64Array)) return refuse('wrong-kind', 'into', into, 'must be a Float64Array');
  const places =
    step !== undefined
      ? equalSteps(path, positive(step, 'sampling.spacing.step'), into)
      : withinTolerance(path, positive(chordalTolerance, 'sampling.spacing.chordalTolerance'));
  let count = 0;
  for (const t of places) {
    const { z, rho } = path.at(t);
    if (2 * count + 2 > into.length) return refuse('out-of-range', 'into', into.length, 'must hold more numbers');
    into[2 * count] = z;
    into[2 * count + 1] = rho;
    count++;
  }
  return count;
}

/** Length of a short stretch from two chords and their half chords, by Richardson: exact to the fourth order. */
function arcLength({ at }: Path, from: number, to: number): number {
  const [a, b, c] = [at(from), at((from + to) / 2), at(to)];
  const halves = length2(b.z - a.z, b.rho - a.rho) + length2(c.z - b.z, c.rho - b.rho);
  return (4 * halves - length2(c.z - a.z, c.rho - a.rho)) / 3;
}

function* equalSteps(path: Path, step: number, into: Float64Array): Generator<number> {
  const panels = 1024;
  const place = (i: number): number => path.from + ((path.to - path.from) * i) / panels;
  const runs = new Float64Array(panels + 1);
  for (let i = 0; i < panels; i++) runs[i + 1] = (runs[i] as number) + arcLength(path, place(i), place(i + 1));
  const total = runs[panels] as number;
  // A step that fits but for rounding counts as fitting.
  const count = Math.max(1, Math.ceil((total / step) * (1 - 1e-12)));
  if (2 * count + 2 > into.length) {
    return refuse('out-of-range', 'into', into.length, `must hold at least ${2 * count + 2} numbers`);
  }
  yield path.from;
  for (let k = 1, i = 0; k < count; k++) {
    const wanted = (total * k) / count;
    while ((runs[i + 1] as number) < wanted) i++;
    const start = place(i);
    yield rootBetween((t) => (runs[i] as number) + arcLength(path, start, t) - wanted, start, place(i + 1));
  }
  yield path.to;
}

function* withinTolerance(path: Path, tolerance: number): Generator<number> {
  const longest = (path.to - path.from) / 4;
  yield path.from;
  for (let t = path.from; t < path.to; ) {
    // Fifteen places on a chord show at least 99 % of a single bulge's height.
    const fits = (end: number): boolean => standOff(path, t, end) <= 0.99 * tolerance;
    let good = t;
    let bad = Math.min(path.to, t + longest);
    if (fits(bad)) good = bad;
    for (let round = 0; good < bad && (round < 12 || good === t); round++) {
      const middle = (good + bad) / 2;
      if (middle === good || middle === bad) good = bad;
      else if (fits(middle)) good = middle;
      else bad = middle;
    }
    t = good;
    yield t;
  }
}

/** Farthest that the meridian stands off its chord, at fifteen places between. */
function standOff({ at }: Path, from: number, to: number): number {
  const [a, b] = [at(from), at(to)];
  const chord = length2(b.z - a.z, b.rho - a.rho);
  let farthest = 0;
  for (let i = 1; i < 16; i++) {
    const p = at(from + ((to - from) * i) / 16);
    const square = Math.abs((b.z - a.z) * (p.rho - a.rho) - (b.rho - a.rho) * (p.z - a.z));
    farthest = Math.max(farthest, chord > 0 ? square / chord : length2(p.z - a.z, p.rho - a.rho));
  }
  return farthest;
}
