/**
 * What weighted points say of the errors of a sweep: estimates with the shortest intervals that hold them (JCGM 101),
 * explanations that remain, and what the readings cannot tell apart. Lengths in the caller's unit, degrees.
 */
import { type Held, normals, type Posterior, shortest } from '../../budget/posterior.js';
import { dot } from '../../core/linear.js';
import { sound } from '../../core/read.js';
import { note } from '../../core/words.js';
import { DIAGNOSIS, type SphereNote } from '../words.js';
import { type Cloud, type Heap, heaps, prospect } from './explanations.js';
import type { ReadMeasurement, TrialSweep } from './predictions.js';
import type { SphereMeasurementKind } from './readings.js';

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

/** What to change, as the next trial takes it: the skew by moving the spindle's axis across the work's, along +y. */
export type SweepChanges = Readonly<Record<Exclude<SweepCause, 'place'>, number>>;

/** One possible explanation. */
export interface SweepExplanation {
  /** Whether the tip stops short of the pole or passes over it on the last trial; `meets`: which, does not show. */
  readonly state: 'not-reached' | 'past-pole' | 'meets';
  /** Probability that it is this one. */
  readonly probability: number;
  /** The errors of the settings as first made, the skew with its sign; 0 where its side does not matter. */
  readonly causes: Readonly<Partial<Record<SweepCause, number>>>;
  /** What to change after the last trial if it is this one. */
  readonly changes: SweepChanges;
}

/** What an explanation predicts of a reading. */
export type PredictedReading =
  | {
      /** What it would read. */
      readonly value: number;
      /** Standard uncertainty of that, the reading's own included. */
      readonly uncertainty: number;
    }
  | {
      /** What would be seen of the tip at the pole. */
      readonly value: 'not-reached' | 'past-pole';
    };

/** The measurement that would help most. */
export interface NextMeasurement {
  /** What to measure on the last trial. */
  readonly kind: SphereMeasurementKind;
  /** At which height, of `diameter-at`. */
  readonly height?: number;
  /** The standard uncertainty that it is taken to have. */
  readonly uncertainty: number;
  /**
   * What the recommended changes leave if nothing more is measured: root of the mean squares of the errors of radius,
   * tip at the pole and skew together.
   */
  readonly errorNow: number;
  /** The same, expected with the measurement. */
  readonly errorThen: number;
  /** What each of the `explanations` predicts, in their order. */
  readonly predictions: readonly PredictedReading[];
}

/** What the measurements say of the settings. */
export interface SweepDiagnosis {
  /** The errors of the settings as first made. */
  readonly causes: CauseEstimates;
  /** Names of the settings in the order of `correlation`. */
  readonly order: readonly SweepCause[];
  /** Correlation coefficients of the errors. */
  readonly correlation: readonly (readonly number[])[];
  /** Explanations that remain, the most probable first: never change by the mean of several. */
  readonly explanations: readonly SweepExplanation[];
  /** The one to act on: the most probable. Of two that are as probable, one: the next trial then tells. */
  readonly recommended: SweepExplanation;
  /** What to measure before anything is changed, if a measurement promises to leave markedly smaller errors. */
  readonly next?: NextMeasurement;
  /** Changes that cannot be told apart by these measurements. */
  readonly notToldApart: readonly SweepAmbiguity[];
  /** Reading less prediction of the best explanation over the reading's uncertainty, one per measurement. */
  readonly misfits: readonly number[];
  /** What else to know. */
  readonly notes: readonly SphereNote[];
}

/** What else the report needs. */
export interface Reported {
  readonly order: readonly SweepCause[];
  /** Standard uncertainties of all settings, in the caller's unit. */
  readonly widths: readonly number[];
  /** Radius of the sphere in the caller's unit. */
  readonly radius: number;
  readonly sinTilt: number;
  readonly misfits: readonly number[];
  /** All changes up to the last trial together. */
  readonly changed: readonly number[];
  /** The sweep of the last trial, in radii. */
  readonly sweep: (x: readonly number[]) => TrialSweep;
  /** What could be measured next, in radii. */
  readonly candidates: readonly ReadMeasurement[];
}

/** A direction that readings narrow by less than a quarter is as good as unseen: 1/sqrt(1 + 0.75) = 0.76. */
const UNSEEN = 0.75;

/** The report of a posterior. */
export function report(found: Posterior, given: Reported): SweepDiagnosis {
  const { points, weights, best } = found;
  const { order, widths, misfits, sweep } = given;
  const columns = order.map((cause, j) =>
    points.map((x) => (widths[j] as number) * (cause === 'skew' ? Math.abs(x[j] as number) : (x[j] as number))),
  );
  const means = columns.map((column) => dot(column, weights));
  const off = columns.map((column, j) => column.map((value) => value - (means[j] as number)));
  const covariance = off.map((a) => {
    const moments = a.map((value, i) => value * (weights[i] as number));
    return off.map((b) => dot(moments, b));
  });
  const deviations = covariance.map((row, j) => Math.sqrt(row[j] as number));
  const estimates = order.map((cause, j): [SweepCause, CauseEstimate] => {
    const [low, high] = shortest(found, columns[j] as readonly number[]);
    return [cause, { estimate: means[j] as number, uncertainty: deviations[j] as number, low, high }];
  });
  const causes = Object.fromEntries(estimates) as unknown as CauseEstimates;
  // Where nothing read so far depends on the place, it is as unknown as it was.
  const sweeps = points.map((x, i) => sweep(x.length > 4 ? x : [...x, normals(i, 5)[4] as number]));
  const cloud = { points, sweeps, weights };
  const all = heaps(cloud);
  const explanations = all.map((heap) => explained(heap, given));
  const next = measureNext(cloud, all, given);
  const notToldApart = unseen(best, order, widths);
  const result: { -readonly [K in keyof SweepDiagnosis]: SweepDiagnosis[K] } = {
    causes,
    order,
    correlation: covariance.map((row, j) =>
      row.map((value, k) => (j === k ? 1 : value / ((deviations[j] || 1) * (deviations[k] || 1)))),
    ),
    explanations,
    recommended: explanations[0] as SweepExplanation,
    notToldApart,
    misfits,
    notes: notes(causes, explanations, notToldApart, given),
  };
  if (next) result.next = next;
  return sound(result);
}

function explained({ probability, mean, short }: Heap, { order, widths, changed }: Reported): SweepExplanation {
  const error = (j: number): number => (mean[j] as number) * (widths[j] as number);
  const change = (j: number): number => -error(j) - (changed[j] as number);
  return {
    state: Math.abs(short.value) < 2 * short.uncertainty ? 'meets' : short.value > 0 ? 'not-reached' : 'past-pole',
    probability,
    causes: Object.fromEntries(order.map((cause, j) => [cause, error(j)])),
    changes: { tiltDeg: change(0), sweepRadius: change(1), distance: change(2), skew: change(3) },
  };
}

function measureNext(
  cloud: Cloud,
  all: readonly Heap[],
  { candidates, radius }: Reported,
): NextMeasurement | undefined {
  const found = prospect(cloud, all, candidates);
  if (!found) return undefined;
  const { kind, height, uncertainty } = found.candidate;
  return {
    kind,
    ...(height !== undefined && { height }),
    uncertainty: uncertainty * radius,
    errorNow: found.errorNow * radius,
    errorThen: found.errorThen * radius,
    predictions: found.predictions.map((one): PredictedReading => {
      if (kind === 'tip-at-pole') return { value: one.value < 0 ? 'past-pole' : 'not-reached' };
      return { value: one.value * radius, uncertainty: one.uncertainty * radius };
    }),
  };
}

/** Directions that the readings hardly hold, each led by a setting of its own, scaled to that setting's width. */
function unseen(
  { strengths, directions }: Held,
  order: readonly SweepCause[],
  widths: readonly number[],
): readonly SweepAmbiguity[] {
  const rows = directions.filter((_, k) => (strengths[k] as number) < UNSEEN).map((row) => [...row]);
  for (const row of rows) {
    const sizes = row.map(Math.abs);
    const lead = sizes.indexOf(Math.max(...sizes));
    const scale = row[lead] as number;
    for (const [j, value] of row.entries()) row[j] = value / scale;
    for (const other of rows) {
      const factor = other[lead] as number;
      if (other !== row) for (const [j, value] of row.entries()) other[j] = (other[j] as number) - factor * value;
    }
  }
  return rows.map((row) => {
    const told = order.map((cause, j) => [cause, row[j] as number, widths[j] as number] as const);
    return Object.fromEntries(
      told.flatMap(([cause, share, width]) => (Math.abs(share) < 0.05 ? [] : [[cause, share * width]])),
    );
  });
}

function notes(
  { distance, skew }: CauseEstimates,
  explanations: readonly SweepExplanation[],
  notToldApart: readonly SweepAmbiguity[],
  { misfits, sinTilt }: Reported,
): readonly SphereNote[] {
  const found: SphereNote[] = [
    note(DIAGNOSIS, 'distance-or-sideways', { distance: distance.estimate, sideways: distance.estimate * sinTilt }),
  ];
  const sides = new Set(explanations.map(({ causes }) => Math.sign(causes.skew ?? 0)));
  if (sides.size > 1 && skew.low > 0) found.push(note(DIAGNOSIS, 'skew-side-unknown', { skew: skew.estimate }));
  for (const change of notToldApart) {
    found.push(note(DIAGNOSIS, 'not-told-apart', change as Readonly<Record<string, number>>));
  }
  const [{ probability } = { probability: 1 }, ...others] = explanations;
  if (others.length > 0) {
    found.push(note(DIAGNOSIS, 'several-explanations', { probability, explanations: explanations.length }));
  }
  const sizes = misfits.map(Math.abs);
  const misfit = Math.max(...sizes);
  if (misfit > 3) {
    found.push(note(DIAGNOSIS, 'readings-disagree', { misfit, measurement: sizes.indexOf(misfit) }));
  }
  return found;
}
