/**
 * What weighted points say of the errors of a sweep: estimates with the shortest intervals that hold them (JCGM 101),
 * explanations that remain, and what the readings cannot tell apart. Lengths in the caller's unit, degrees.
 */
import { sound } from '../../core/read.js';
import { note } from '../../core/words.js';
import { radians } from '../target.js';
import { DIAGNOSIS, type SphereNote } from '../words.js';
import type { Held, Posterior } from './posterior.js';

/** A sweep as it was meant. */
interface Meant {
  readonly tilt: number;
  readonly radius: number;
  readonly distance: number;
}

/** A setting whose error is sought. */
export type SweepCause = 'tiltDeg' | 'sweepRadius' | 'distance' | 'skew' | 'place';

/** The error of one setting as the part shows it. */
export interface CauseEstimate {
  /** The mean: set too large by this, if positive. For the skew its size, since either side leaves the same marks. */
  readonly estimate: number;
  /** Standard uncertainty. */
  readonly uncertainty: number;
  /** Lower end of the shortest interval that holds it with at least 95 % probability. */
  readonly low: number;
  /** Upper end of that interval. */
  readonly high: number;
}

/** Errors of settings, by name; `place` only where a measurement depends on it. */
export type CauseEstimates = Readonly<Record<Exclude<SweepCause, 'place'>, CauseEstimate>> & {
  /** How far the sphere lies from where it should along the work axis, towards the free end. */
  readonly place?: CauseEstimate;
};

/** A change of settings that leaves all measured marks as they are, as far as they can be read. */
export type SweepAmbiguity = Readonly<Partial<Record<SweepCause, number>>>;

/** What to change: errors with their sign turned; `sideways` instead of `distance`. Of the skew the size: find its side. */
export type SweepChanges = Readonly<Record<'tiltDeg' | 'sweepRadius' | 'distance' | 'sideways' | 'skew', number>>;

/** One possible explanation, where there is more than one. */
export interface SweepExplanation {
  /** Whether the tip stops short of the pole or passes over it. */
  readonly state: 'not-reached' | 'past-pole';
  /** Probability that it is this one. */
  readonly probability: number;
  /** The errors of the settings. */
  readonly causes: Readonly<Partial<Record<SweepCause, number>>>;
  /** What to change if it is this one. */
  readonly changes: SweepChanges;
}

/** What the measurements say of the settings. */
export interface SweepDiagnosis {
  /** The errors of the settings. */
  readonly causes: CauseEstimates;
  /** Names of the settings in the order of `correlation`. */
  readonly order: readonly SweepCause[];
  /** Correlation coefficients of the errors. */
  readonly correlation: readonly (readonly number[])[];
  /** What to change on average: where several explanations remain, rather take the changes of one of them. */
  readonly changes: SweepChanges;
  /** Explanations that remain, the most probable first. More than one: look for a mark that decides. */
  readonly explanations: readonly SweepExplanation[];
  /** Changes that cannot be told apart by these measurements. */
  readonly notToldApart: readonly SweepAmbiguity[];
  /** Reading less prediction of the best explanation over the reading's uncertainty, one per measurement. */
  readonly misfits: readonly number[];
  /** What else to know. */
  readonly notes: readonly SphereNote[];
}

/** A direction that readings narrow by less than a quarter is as good as unseen: 1/sqrt(1 + 0.75) = 0.76. */
const UNSEEN = 0.75;
/** Explanations less probable than this are not listed. */
const RARE = 0.01;

export function report(
  found: Posterior,
  order: readonly SweepCause[],
  widths: readonly number[],
  misfits: readonly number[],
  meant: Meant,
): SweepDiagnosis {
  const { points, weights, best, effectivePoints, sliceWidth } = found;
  const sinTilt = Math.sin(meant.tilt);
  const columns = order.map((_, j) => points.map((point) => (point[j] ?? 0) * (widths[j] ?? 0)));
  const mean = columns.map((column) => weighted(column, weights));
  const covariance = columns.map((a, j) =>
    columns.map((b, k) =>
      weighted(
        a.map((v, i) => (v - (mean[j] ?? 0)) * ((b[i] ?? 0) - (mean[k] ?? 0))),
        weights,
      ),
    ),
  );
  const uncertainty = covariance.map((row, j) => Math.sqrt(row[j] ?? 0));
  const estimates = order.map((cause, j): [SweepCause, CauseEstimate] => {
    // The skew is known in slices only, whose halves may hold it too.
    const half = cause === 'skew' ? (sliceWidth * (widths[j] ?? 0)) / 2 : 0;
    const [from, to] = shortest(columns[j] ?? [], weights, effectivePoints);
    const [low, high] = [from - half, to + half];
    return [cause, { estimate: mean[j] ?? 0, uncertainty: uncertainty[j] ?? 0, low, high }];
  });
  const causes = Object.fromEntries(estimates) as unknown as CauseEstimates;
  const explanations = sides(columns, weights, order, meant);
  const notToldApart = unseen(best, order, widths);
  return sound({
    causes,
    order,
    correlation: covariance.map((row, j) =>
      row.map((value, k) => (j === k ? 1 : value / ((uncertainty[j] ?? 1) * (uncertainty[k] ?? 1)))),
    ),
    changes: changesOf(mean, sinTilt),
    explanations,
    notToldApart,
    misfits,
    notes: notes(causes, explanations, notToldApart, misfits, sinTilt),
  });
}

/** The tip short of the pole, and past it: two explanations of the same pip where both are likely and apart. */
function sides(
  columns: readonly (readonly number[])[],
  weights: readonly number[],
  order: readonly SweepCause[],
  meant: Meant,
): readonly SweepExplanation[] {
  const misses = weights.map((_, i) => {
    const tilt = meant.tilt + radians(columns[0]?.[i] ?? 0);
    const [radius, distance] = [meant.radius + (columns[1]?.[i] ?? 0), meant.distance + (columns[2]?.[i] ?? 0)];
    return distance * Math.sin(tilt) - radius * Math.cos(tilt);
  });
  return (['not-reached', 'past-pole'] as const)
    .map((state): SweepExplanation => {
      const mine = weights.map((weight, i) => ((misses[i] ?? 0) < 0 === (state === 'past-pole') ? weight : 0));
      const probability = mine.reduce((sum, weight) => sum + weight, 0);
      const at = columns.map((column) => (probability > 0 ? weighted(column, mine) / probability : 0));
      const causes = Object.fromEntries(order.map((cause, j) => [cause, at[j] ?? 0]));
      return { state, probability, causes, changes: changesOf(at, Math.sin(meant.tilt)) };
    })
    .filter(({ probability }) => probability >= RARE)
    .sort((a, b) => b.probability - a.probability);
}

/** What undoes errors, given in the order tilt, sweep, distance, skew. */
function changesOf(
  [tiltDeg = 0, sweepRadius = 0, distance = 0, skew = 0]: readonly number[],
  sinTilt: number,
): SweepChanges {
  return { tiltDeg: -tiltDeg, sweepRadius: -sweepRadius, distance: -distance, sideways: -distance * sinTilt, skew };
}

function weighted(values: readonly number[], weights: readonly number[]): number {
  return values.reduce((sum, value, i) => sum + value * (weights[i] ?? 0), 0);
}

/**
 * The shortest interval that holds 95 %, and so much more as the number of points leaves in doubt: in n random
 * points a share of 95 % would scatter by sqrt(0.95 · 0.05 / n). Half of that would do for points as even as these,
 * if the shortest of many intervals were not short by chance, too: in 3,000 trials 94.6 % of the truths lay in the
 * one that held 95 % of the weight, 96.0 % with all of it added.
 */
function shortest(values: readonly number[], weights: readonly number[], effectivePoints: number): [number, number] {
  const share = Math.min(0.999, 0.95 + Math.sqrt((0.95 * 0.05) / effectivePoints));
  const byValue = values.map((_, i) => i).sort((a, b) => (values[a] ?? 0) - (values[b] ?? 0));
  let best: [number, number] = [-Infinity, Infinity];
  let held = 0;
  let last = 0;
  for (const first of byValue.keys()) {
    while (held < share && last < byValue.length) held += weights[byValue[last++] ?? 0] ?? 0;
    if (held < share) break;
    const [low, high] = [values[byValue[first] ?? 0] ?? 0, values[byValue[last - 1] ?? 0] ?? 0];
    if (high - low < best[1] - best[0]) best = [low, high];
    held -= weights[byValue[first] ?? 0] ?? 0;
  }
  return best;
}

/** Directions that the readings hardly hold, each led by a setting of its own, scaled to that setting's width. */
function unseen(
  { strengths, directions }: Held,
  order: readonly SweepCause[],
  widths: readonly number[],
): readonly SweepAmbiguity[] {
  const rows = directions.filter((_, k) => (strengths[k] ?? 0) < UNSEEN).map((row) => [...row]);
  const leads: number[] = [];
  for (const [k, row] of rows.entries()) {
    const lead = row.reduce((best, value, j) => (Math.abs(value) > Math.abs(row[best] ?? 0) ? j : best), 0);
    leads.push(lead);
    const scale = row[lead] ?? 1;
    for (let j = 0; j < row.length; j++) row[j] = (row[j] ?? 0) / scale;
    for (const [other, target] of rows.entries()) {
      if (other === k) continue;
      const factor = target[lead] ?? 0;
      for (let j = 0; j < row.length; j++) target[j] = (target[j] ?? 0) - factor * (row[j] ?? 0);
    }
  }
  return rows.map((row) =>
    Object.fromEntries(
      order.flatMap((cause, j) => (Math.abs(row[j] ?? 0) < 0.05 ? [] : [[cause, (row[j] ?? 0) * (widths[j] ?? 0)]])),
    ),
  );
}

function notes(
  causes: CauseEstimates,
  explanations: readonly SweepExplanation[],
  notToldApart: readonly SweepAmbiguity[],
  misfits: readonly number[],
  sinTilt: number,
): readonly SphereNote[] {
  const { distance, skew } = causes;
  const worst = Math.max(...misfits.map(Math.abs));
  const found: SphereNote[] = [
    note(DIAGNOSIS, 'distance-or-sideways', { distance: distance.estimate, sideways: distance.estimate * sinTilt }),
  ];
  if (skew.low > 0) found.push(note(DIAGNOSIS, 'skew-side-unknown', { skew: skew.estimate }));
  for (const change of notToldApart)
    found.push(note(DIAGNOSIS, 'not-told-apart', change as Readonly<Record<string, number>>));
  if (explanations.length > 1) {
    const [{ probability } = { probability: 0 }] = explanations;
    found.push(note(DIAGNOSIS, 'several-explanations', { probability, explanations: explanations.length }));
  }
  if (worst > 3) {
    const measurement = misfits.findIndex((value) => Math.abs(value) === worst);
    found.push(note(DIAGNOSIS, 'readings-disagree', { misfit: worst, measurement }));
  }
  return found;
}
