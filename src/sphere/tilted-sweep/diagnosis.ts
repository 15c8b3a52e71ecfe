/**
 * From what was measured on the part back to what was mis-set. Each setting is taken to be as meant within
 * a normal distribution of the given standard uncertainty; readings narrow that down. What they cannot tell
 * apart stays as wide as it was and is named. Terms: JCGM 101 (shortest coverage interval).
 */
import { number, options, positive } from '../../core/checks.js';
import { refuse } from '../../core/errors.js';
import { inWords, type Note } from '../../core/notes.js';
import { type ReadSweep, readSweep, type Sweep } from '../../revolve/sweep.js';
import { degrees, radians, readTarget, type SphereTarget, type Zone } from '../target.js';
import { type Held, type Posterior, posterior } from './posterior.js';
import { type ReadMeasurement, readMeasurements, type SphereMeasurement, type TrialSweep } from './readings.js';

/** A setting whose error is sought. */
export type SweepCause = 'tiltDeg' | 'sweepRadius' | 'distance' | 'skew' | 'place';

/** What {@link sweepDiagnosis} needs. */
export interface SweepDiagnosisInput {
  /** The part that was wanted. */
  readonly target: SphereTarget;
  /** The sweep as it was meant to be set, without skew or miss. */
  readonly sweep: Sweep;
  /** Standard uncertainty with which each setting was made, before anything was measured. */
  readonly uncertainties: {
    /** Of the tilt in degrees, at most 10 and a third of the tilt. */
    readonly tiltDeg: number;
    /** Of the sweep's radius, at most a fifth of the sphere's. */
    readonly sweepRadius: number;
    /** Of the distance along the spindle axis, a sideways error in the plane of the axes included. */
    readonly distance: number;
    /** Of the skew, about 0. */
    readonly skew: number;
    /** Of the sphere's place along the work axis. Default: unknown, as uncertain as the sphere is large. */
    readonly place?: number;
  };
  /** What was measured, each with its standard uncertainty. */
  readonly measurements: readonly SphereMeasurement[];
}

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

/** One possible explanation, where there is more than one. */
export interface SweepExplanation {
  /** Whether the tip stops short of the pole or passes over it. */
  readonly state: 'not-reached' | 'past-pole';
  /** Probability that it is this one. */
  readonly probability: number;
  /** The errors of the settings. */
  readonly causes: Readonly<Partial<Record<SweepCause, number>>>;
}

/** What the measurements say of the settings. */
export interface SweepDiagnosis {
  /** The errors of the settings. */
  readonly causes: CauseEstimates;
  /** Names of the settings in the order of `correlation`. */
  readonly order: readonly SweepCause[];
  /** Correlation coefficients of the errors. */
  readonly correlation: readonly (readonly number[])[];
  /** What to change: the errors with their sign turned. For the skew, its size: find the side by trial. */
  readonly changes: Readonly<Record<'tiltDeg' | 'sweepRadius' | 'distance' | 'sideways' | 'skew', number>>;
  /** Explanations that remain, the most probable first. More than one: look for a mark that decides. */
  readonly explanations: readonly SweepExplanation[];
  /** Changes that cannot be told apart by these measurements. */
  readonly notToldApart: readonly SweepAmbiguity[];
  /** Reading less prediction of the best explanation over the reading's uncertainty, one per measurement. */
  readonly misfits: readonly number[];
  /** What else to know. */
  readonly notes: readonly Note[];
}

/** A direction that readings narrow by less than a quarter is as good as unseen: 1/sqrt(1 + 0.75) = 0.76. */
const UNSEEN = 0.75;
/** Explanations less probable than this are not listed. */
const RARE = 0.01;

/**
 * From what was measured on a ball or a socket to the most likely errors of the settings and the changes to
 * make, with uncertainty, and with an honest list of what these measurements cannot tell apart.
 *
 * @param input - The part, the sweep as meant, how well each setting was made, and the measurements.
 * @returns Errors, changes, remaining explanations and ambiguities.
 * @throws GeneratrixError `contradiction` for a measurement that such a part does not have,
 * `not-converged` if no explanation can be vouched for.
 * @example
 * ```ts
 * import { sweepDiagnosis, sweepSettings } from 'generatrix/sphere';
 * const target = { part: 'ball-on-stem', radius: 20, stemDiameter: 20 } as const;
 * const { sweep } = sweepSettings({ target });
 * const found = sweepDiagnosis({
 *   target,
 *   sweep,
 *   uncertainties: { tiltDeg: 0.3, sweepRadius: 0.05, distance: 0.2, skew: 0.05 },
 *   measurements: [
 *     { kind: 'largest-diameter', value: 40.2, uncertainty: 0.01 },
 *     { kind: 'pip-diameter', value: 0.4, uncertainty: 0.05 },
 *     { kind: 'out-of-round', value: 0, uncertainty: 0.005 },
 *   ],
 * });
 * found.causes.distance.estimate > 0.1; // => true
 * found.notes.map(({ code }) => code).includes('not-told-apart'); // => true
 * ```
 */
export function sweepDiagnosis(input: SweepDiagnosisInput): SweepDiagnosis {
  const given = options(input, 'input', ['target', 'sweep', 'uncertainties', 'measurements']);
  const zone = readTarget(input.target);
  const meant = readSweep(input.sweep);
  if (meant.skew !== 0 || meant.shift !== 0) {
    return refuse('contradiction', 'sweep', meant.skew, 'must be the sweep as meant: without skew and miss');
  }
  const measurements = readMeasurements(given['measurements'], zone, meant.noseRadius);
  const order: SweepCause[] = ['tiltDeg', 'sweepRadius', 'distance', 'skew'];
  if (measurements.some(({ needsPlace }) => needsPlace)) order.push('place');
  const widths = readWidths(given['uncertainties'], zone, degrees(meant.tilt), order);
  const trial = (x: readonly number[]): TrialSweep => {
    const by = x.map((value, i) => value * (widths[i] ?? 0));
    return {
      tilt: meant.tilt + radians(by[0] ?? 0),
      radius: meant.radius + (by[1] ?? 0),
      distance: meant.distance + (by[2] ?? 0),
      skew: by[3] ?? 0,
      place: by[4] ?? 0,
    };
  };
  const residuals = (x: readonly number[]): number[] => {
    const sweep = trial(x);
    return measurements.map(({ value, uncertainty, predict }) => (value - predict(sweep)) / uncertainty);
  };
  const found = posterior(
    { unknowns: order.length, sizeIndex: 3, residuals },
    starts(measurements, widths, trial(order.map(() => 0))),
  );
  const misfits = residuals(found.best.x);
  if (!(found.effectivePoints >= 5) || !misfits.every(Number.isFinite)) {
    return refuse(
      'not-converged',
      'measurements',
      found.effectivePoints,
      'must agree with some sweep near the one meant',
    );
  }
  return report(found, order, widths, misfits, meant);
}

function readWidths(value: unknown, zone: Zone, tiltDeg: number, order: readonly SweepCause[]): readonly number[] {
  const given = options(value, 'uncertainties', ['tiltDeg', 'sweepRadius', 'distance', 'skew'], ['place']);
  return order.map((cause) => {
    if (cause === 'place') return positive(given[cause] ?? zone.radius, 'uncertainties.place');
    const max = cause === 'tiltDeg' ? Math.min(10, tiltDeg / 3) : zone.radius / 5;
    return number(given[cause], `uncertainties.${cause}`, { above: 0, max });
  });
}

/** Places to start from: the pip seen taken to come from either side. */
function starts(
  measurements: readonly ReadMeasurement[],
  widths: readonly number[],
  { tilt, radius, distance }: TrialSweep,
): readonly (readonly number[])[] {
  const pip = (measurements.find(({ kind }) => kind === 'pip-diameter')?.value ?? 0) / 2;
  const short = distance * Math.sin(tilt) - radius * Math.cos(tilt);
  return [pip, -pip].map((miss) => widths.map((width, i) => (i === 2 ? (miss - short) / Math.sin(tilt) / width : 0)));
}

function report(
  found: Posterior,
  order: readonly SweepCause[],
  widths: readonly number[],
  misfits: readonly number[],
  meant: ReadSweep,
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
  return {
    causes,
    order,
    correlation: covariance.map((row, j) =>
      row.map((value, k) => (j === k ? 1 : value / ((uncertainty[j] ?? 1) * (uncertainty[k] ?? 1)))),
    ),
    changes: {
      tiltDeg: 0 - causes.tiltDeg.estimate,
      sweepRadius: 0 - causes.sweepRadius.estimate,
      distance: 0 - causes.distance.estimate,
      sideways: 0 - causes.distance.estimate * sinTilt,
      skew: causes.skew.estimate,
    },
    explanations,
    notToldApart,
    misfits,
    notes: notes(causes, explanations, notToldApart, misfits, sinTilt),
  };
}

/** The tip short of the pole, and past it: two explanations of the same pip where both are likely and apart. */
function sides(
  columns: readonly (readonly number[])[],
  weights: readonly number[],
  order: readonly SweepCause[],
  meant: ReadSweep,
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
      return { state, probability, causes: Object.fromEntries(order.map((cause, j) => [cause, at[j] ?? 0])) };
    })
    .filter(({ probability }) => probability >= RARE)
    .sort((a, b) => b.probability - a.probability);
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
): readonly Note[] {
  const { distance, skew } = causes;
  const found: Note[] = [
    {
      code: 'distance-or-sideways',
      message: 'An error of distance and a sideways error in the plane of the axes leave the same marks.',
      values: { distance: distance.estimate, sideways: distance.estimate * sinTilt },
    },
  ];
  if (skew.low > 0) {
    found.push({
      code: 'skew-side-unknown',
      message: `The axes pass each other by about ${inWords(skew.estimate)}; the part does not show on which side.`,
      values: { skew: skew.estimate },
    });
  }
  for (const change of notToldApart) {
    const words = Object.entries(change).map(([cause, value]) => `${cause} by ${inWords(value)}`);
    found.push({
      code: 'not-told-apart',
      message: `Changing ${words.join(' together with ')} leaves what was measured as it is.`,
      values: change as Record<string, number>,
    });
  }
  if (explanations.length > 1) {
    found.push({
      code: 'several-explanations',
      message: 'The tip may stop short of the pole or pass over it; where the cut ends at the stem or the rim decides.',
      values: { probability: explanations[0]?.probability ?? 0, explanations: explanations.length },
    });
  }
  const worst = Math.max(...misfits.map(Math.abs));
  if (worst > 3) {
    found.push({
      code: 'readings-disagree',
      message: `One reading is ${inWords(worst)} of its own uncertainties away from the best explanation: measure it again.`,
      values: { misfit: worst, measurement: misfits.findIndex((value) => Math.abs(value) === worst) },
    });
  }
  return found;
}
