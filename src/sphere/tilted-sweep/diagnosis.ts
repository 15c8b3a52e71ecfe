/**
 * From what was measured on the part back to what was mis-set. Each setting is taken to be as meant within
 * a normal distribution of the given standard uncertainty; readings narrow that down. What they cannot tell
 * apart stays as wide as it was and is named. Inside, lengths are in radii of the sphere wanted, to 12 digits, so that
 * the answer is the same in every unit.
 */
import { posterior, slopes } from '../../budget/posterior.js';
import { refuse } from '../../core/errors.js';
import {
  anyNumber,
  array,
  type Fields,
  nonNegative,
  number,
  object,
  optional,
  positive,
  type Reader,
  read,
  readValue,
} from '../../core/read.js';
import { type Sweep, sweepOf, sweepReader } from '../../revolve/sweep.js';
import { radians, type SphereTarget, sphereTarget, type Zone, zoneOf } from '../target.js';
import { report, type SweepCause, type SweepDiagnosis } from './diagnosis-report.js';
import {
  needsPlace,
  type ReadMeasurement,
  readMeasurement,
  residual,
  smoothResidual,
  type TrialSweep,
} from './predictions.js';
import {
  instrument,
  KINDS,
  measurement,
  missingOn,
  type SphereInstrument,
  type SphereMeasurement,
} from './readings.js';

/** Standard uncertainties of settings. */
export interface SettingUncertainties {
  /** Of the tilt in degrees, at most 10 and a third of the tilt. */
  readonly tiltDeg: number;
  /** Of the sweep's radius, at most a fifth of the sphere's. */
  readonly sweepRadius: number;
  /** Of the distance along the spindle axis, a sideways error in the plane of the axes included; at most a fifth. */
  readonly distance: number;
  /** Of the skew, about 0; at most a fifth of the sphere's radius. */
  readonly skew: number;
  /**
   * Of the sphere's place along the work axis, at most ten times its radius.
   * @defaultValue The sphere's radius: unknown.
   */
  readonly place?: number;
}

/** A trial cut: what was changed before it, and what was measured on it. */
export interface SweepTrial {
  /**
   * By how much each setting was changed since the trial before, of the first trial since the sweep as meant; `place`:
   * how much farther towards the free end (the bottom of a socket) the sphere should lie.
   * @defaultValue Nothing was changed.
   */
  readonly changes?: SettingNumbers;
  /** What was measured, each with its standard uncertainty. */
  readonly measurements: readonly SphereMeasurement[];
}

/** What {@link sweepDiagnosis} needs. */
export interface SweepDiagnosisOptions {
  /** The part that was wanted. */
  readonly target: SphereTarget;
  /** The sweep as it was meant to be set, without skew or miss. */
  readonly sweep: Sweep;
  /** Standard uncertainty with which each setting was made, before anything was measured. */
  readonly uncertainties: SettingUncertainties;
  /** The trials in their order, at most 20. */
  readonly trials: readonly SweepTrial[];
  /** Standard uncertainty of each change, at most as large as `uncertainties`. @defaultValue 0: changes are exact. */
  readonly changeUncertainties?: SettingNumbers;
  /**
   * What could be measured next, each with its standard uncertainty.
   * @defaultValue All that the part has, as coarsely as the coarsest reading given.
   */
  readonly instruments?: readonly SphereInstrument[];
}

const CAUSES = ['tiltDeg', 'sweepRadius', 'distance', 'skew', 'place'] as const;

/** A number for each setting; what is left out is 0. */
export type SettingNumbers = Partial<Readonly<Record<SweepCause, number>>>;

const numbers = (one: Reader<number>): Reader<SettingNumbers> =>
  object<SettingNumbers>({
    tiltDeg: optional(one),
    sweepRadius: optional(one),
    distance: optional(one),
    skew: optional(one),
    place: optional(one),
  });

const UNCERTAINTIES: Fields<SettingUncertainties> = {
  tiltDeg: positive,
  sweepRadius: positive,
  distance: positive,
  skew: positive,
  place: optional(positive),
};

const TRIAL: Fields<SweepTrial> = {
  changes: optional(numbers(anyNumber)),
  measurements: array(measurement, 1, 1000),
};

const OPTIONS: Fields<SweepDiagnosisOptions> = {
  target: sphereTarget,
  sweep: sweepReader,
  uncertainties: object(UNCERTAINTIES),
  trials: array(object(TRIAL), 1, 20),
  changeUncertainties: optional(numbers(nonNegative)),
  instruments: optional(array(instrument, 0, 100)),
};

/**
 * From what was measured on the trials of a ball or a socket to the errors of the settings, with uncertainty, and to
 * what to change: for each explanation that remains, with its probability. Names the measurement that would help most,
 * and what the measurements cannot tell apart.
 *
 * Measure what `next` names, if it names any, and diagnose again before anything is changed; then change as
 * `recommended` says. If the next trial is not good either, give both trials.
 * @throws GeneratrixError `contradiction` for a measurement that such a part does not have,
 * `not-converged` if no explanation can be vouched for.
 * @example
 * ```ts
 * import { sweepDiagnosis, sweepSettings } from 'generatrix/sphere';
 * const target = { part: 'ball-on-stem', radius: 20, stemDiameter: 20 } as const;
 * const { sweep } = sweepSettings({ target });
 * const uncertainties = { tiltDeg: 0.3, sweepRadius: 0.05, distance: 0.2, skew: 0.05 };
 * const measurements = [
 *   { kind: 'largest-diameter', value: 40.2, uncertainty: 0.01 },
 *   { kind: 'pip-diameter', value: 0.4, uncertainty: 0.03 },
 *   { kind: 'out-of-round', value: 0, uncertainty: 0.005 },
 * ] as const;
 * const found = sweepDiagnosis({ target, sweep, uncertainties, trials: [{ measurements }] });
 * found.explanations.map(({ state }) => state); // => ['not-reached', 'past-pole']
 * found.next?.kind; // => 'tip-at-pole'
 * const seen = { kind: 'tip-at-pole', value: 'not-reached', uncertainty: 0.03 } as const;
 * const trials = [{ measurements: [...measurements, seen] }];
 * sweepDiagnosis({ target, sweep, uncertainties, trials }).recommended.changes.distance < -0.1; // => true
 * ```
 */
export function sweepDiagnosis(options: SweepDiagnosisOptions): SweepDiagnosis {
  const given = read(options, OPTIONS);
  const { sweep, uncertainties, trials, changeUncertainties = {} } = given;
  const zone = zoneOf(given.target);
  const set = sweepOf(sweep);
  if (set.skew !== 0 || set.shift !== 0) {
    return refuse('contradiction', 'sweep', set.skew || set.shift, 'must be the sweep as meant: without skew and miss');
  }
  const widths: SettingNumbers = { ...uncertainties, place: uncertainties.place ?? zone.radius };
  checkMost(widths, zone, set.tiltDeg, 'uncertainties');
  checkMost(changeUncertainties, zone, set.tiltDeg, 'changeUncertainties');
  const inRadii = (length: number): number => Number((length / zone.radius).toPrecision(12));
  /** A value of each setting as it counts inside. */
  const inside = (values: SettingNumbers): Values =>
    CAUSES.map((cause) => (cause === 'tiltDeg' ? radians(values[cause] ?? 0) : inRadii(values[cause] ?? 0)));
  const nose = (zone.side === 'ball' ? -1 : 1) * inRadii(set.noseRadius);
  const [scales, loose] = [inside(widths), inside(changeUncertainties)];
  /** The sweep with errors in units of their widths. */
  const real = (at: Values, x: Values): TrialSweep => {
    const of = (i: number): number => (at[i] as number) + (x[i] ?? 0) * (scales[i] as number);
    const tilt = of(0);
    return { sin: Math.sin(tilt), cos: Math.cos(tilt), radius: of(1), distance: of(2), skew: of(3), place: of(4) };
  };

  let meant: Values = [set.tilt, inRadii(set.radius), inRadii(set.distance), 0, 0];
  checkSize(meant, nose, 'sweep.sweepRadius', set.radius);
  const told = trials.map(({ changes = {}, measurements }, k) => {
    meant = inside(changes).map((value, i) => value + (meant[i] as number));
    checkSize(meant, nose, `trials[${k}].changes`, changes.sweepRadius ?? 0);
    const at = meant;
    return {
      at,
      readings: measurements.map((item, i): ReadMeasurement => {
        const one = readMeasurement(item, zone, nose, inRadii, `trials[${k}].measurements[${i}]`);
        // Each change adds its own error to what is read: by the slope over a setting's width.
        const doubt = slopes((x) => Float64Array.of(one.predict(real(at, x))), [0, 0, 0, 0, 0]).map(
          ([slope = 0], j) => (slope * Math.sqrt(k) * (loose[j] as number)) / (scales[j] as number),
        );
        return { ...one, uncertainty: Math.hypot(one.uncertainty, ...doubt) };
      }),
    };
  });
  /** What is left unexplained of each reading. */
  const left = (x: Values, of: (one: ReadMeasurement, sweep: TrialSweep) => number | readonly number[]): number[] =>
    told.flatMap(({ at, readings }) => {
      const sweep = real(at, x);
      return readings.flatMap((one) => of(one, sweep));
    });
  const last = told[told.length - 1];
  const measurable = candidates(given, zone).map((one, i) =>
    readMeasurement(one, zone, nose, inRadii, `instruments[${i}]`),
  );
  const unknowns = told.some(({ readings }) => readings.some(needsPlace)) ? 5 : 4;
  const found = posterior((x) => Float64Array.from(left(x, smoothResidual)), unknowns);
  if (!(found.effectivePoints >= 5)) {
    refuse('not-converged', 'trials', trials.length, 'must agree with some sweep near the one meant');
  }
  return report(found, {
    order: CAUSES.slice(0, unknowns),
    widths: CAUSES.map((cause) => widths[cause] as number),
    radius: zone.radius,
    sinTilt: set.sin,
    misfits: left(found.best.x, residual),
    changed: CAUSES.map((cause) => trials.reduce((sum, { changes }) => sum + (changes?.[cause] ?? 0), 0)),
    sweep: (x) => real(meant, x),
    candidates: measurable.filter(
      ({ kind, height }) => !last?.readings.some((one) => one.kind === kind && one.height === height),
    ),
  });
}

type Values = readonly number[];

/** What could be measured next. */
function candidates({ trials, instruments }: SweepDiagnosisOptions, zone: Zone): readonly SphereInstrument[] {
  if (instruments) return instruments;
  const uncertainty = Math.max(...trials.flatMap(({ measurements }) => measurements.map((one) => one.uncertainty)));
  return KINDS.filter((kind) => !missingOn(zone, kind)).map((kind) => ({ kind, uncertainty }));
}

/** Widths beyond which a sweep as meant says nothing any more. */
function checkMost(widths: SettingNumbers, { radius }: Zone, tiltDeg: number, parameter: string): void {
  const most = { tiltDeg: Math.min(10, tiltDeg / 3), place: 10 * radius };
  for (const cause of CAUSES) {
    const max = cause === 'tiltDeg' || cause === 'place' ? most[cause] : radius / 5;
    readValue(widths[cause] ?? 0, number({ min: 0, max }), `${parameter}.${cause}`);
  }
}

/** A sweep as meant must cut something like the sphere wanted. */
function checkSize(at: Values, nose: number, parameter: string, value: number): void {
  const [tilt = 0, radius = 0, distance = 0, skew = 0, place = 0] = at;
  const size = Math.hypot(radius, distance) + nose;
  const near = size > 0.5 && size < 2 && Math.abs(skew) < 0.5 && Math.abs(place) <= 10;
  if (near && radius > 0 && tilt > 0 && tilt < Math.PI) return;
  refuse('contradiction', parameter, value, 'must cut a sphere near the one wanted');
}
