/**
 * From what was measured on the part back to what was mis-set. Each setting is taken to be as meant within
 * a normal distribution of the given standard uncertainty; readings narrow that down. What they cannot tell
 * apart stays as wide as it was and is named. Inside, lengths are in radii of the sphere wanted, to 12 digits, so that
 * the answer is the same in every unit.
 */
import { type Allowed, refuse } from '../../core/errors.js';
import { array, type Fields, object, optional, positive, read } from '../../core/read.js';
import { say, tell } from '../../core/words.js';
import { type Sweep, sweepOf, sweepReader } from '../../revolve/sweep.js';
import { degrees, radians, type SphereTarget, sphereTarget, type Zone, zoneOf } from '../target.js';
import { report, type SweepCause, type SweepDiagnosis } from './diagnosis-report.js';
import { posterior } from './posterior.js';
import {
  measurement,
  type ReadMeasurement,
  readMeasurements,
  type SphereMeasurement,
  type TrialSweep,
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

/** What {@link sweepDiagnosis} needs. */
export interface SweepDiagnosisOptions {
  /** The part that was wanted. */
  readonly target: SphereTarget;
  /** The sweep as it was meant to be set, without skew or miss. */
  readonly sweep: Sweep;
  /** Standard uncertainty with which each setting was made, before anything was measured. */
  readonly uncertainties: SettingUncertainties;
  /** What was measured, each with its standard uncertainty. */
  readonly measurements: readonly SphereMeasurement[];
}

const UNCERTAINTIES: Fields<SettingUncertainties> = {
  tiltDeg: positive,
  sweepRadius: positive,
  distance: positive,
  skew: positive,
  place: optional(positive),
};

const OPTIONS: Fields<SweepDiagnosisOptions> = {
  target: sphereTarget,
  sweep: sweepReader,
  uncertainties: object(UNCERTAINTIES),
  measurements: array(measurement, 1, 1000),
};

/**
 * From what was measured on a ball or a socket to the most likely errors of the settings and the changes to
 * make, with uncertainty, and with an honest list of what these measurements cannot tell apart.
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
export function sweepDiagnosis(options: SweepDiagnosisOptions): SweepDiagnosis {
  const { target, sweep, uncertainties, measurements: given } = read(options, OPTIONS);
  const zone = zoneOf(target);
  const set = sweepOf(sweep);
  if (set.skew !== 0 || set.shift !== 0) {
    return refuse('contradiction', 'sweep', set.skew || set.shift, 'must be the sweep as meant: without skew and miss');
  }
  const inRadii = (length: number): number => Number((length / zone.radius).toPrecision(12));
  const meant = { tilt: set.tilt, radius: inRadii(set.radius), distance: inRadii(set.distance) };
  const size = Math.hypot(meant.radius, meant.distance) + (zone.side === 'ball' ? -1 : 1) * inRadii(set.noseRadius);
  if (!(size > 0.5 && size < 2)) {
    return refuse('contradiction', 'sweep.sweepRadius', set.radius, 'must cut a sphere near the one wanted');
  }
  const measurements = readMeasurements(given, zone, set.noseRadius, inRadii);
  const order: SweepCause[] = ['tiltDeg', 'sweepRadius', 'distance', 'skew'];
  if (measurements.some(({ needsPlace }) => needsPlace)) order.push('place');
  const widths = readWidths(uncertainties, zone, degrees(meant.tilt), order);
  const inside = widths.map((width, i) => (i === 0 ? width : inRadii(width)));
  const trial = (x: readonly number[]): TrialSweep => {
    const by = x.map((value, i) => value * (inside[i] ?? 0));
    return {
      tilt: meant.tilt + radians(by[0] ?? 0),
      radius: meant.radius + (by[1] ?? 0),
      distance: meant.distance + (by[2] ?? 0),
      skew: by[3] ?? 0,
      place: by[4] ?? 0,
    };
  };
  const residuals = (x: readonly number[]): number[] => {
    const real = trial(x);
    return measurements.map(({ value, uncertainty, predict }) => (value - predict(real)) / uncertainty);
  };
  const found = posterior(
    { unknowns: order.length, sizeIndex: 3, residuals },
    starts(measurements, inside, trial(order.map(() => 0))),
  );
  const misfits = residuals(found.best.x);
  if (!(found.effectivePoints >= 5) || !misfits.every(Number.isFinite)) {
    const phrase = 'must agree with some sweep near the one meant';
    return refuse('not-converged', 'measurements', given.length, phrase);
  }
  return report(found, order, widths, misfits, set);
}

function readWidths(
  given: SettingUncertainties,
  zone: Zone,
  tiltDeg: number,
  order: readonly SweepCause[],
): readonly number[] {
  return order.map((cause) => {
    const most = { tiltDeg: Math.min(10, tiltDeg / 3), place: 10 * zone.radius };
    const max = cause === 'tiltDeg' || cause === 'place' ? most[cause] : zone.radius / 5;
    const width = given[cause] ?? zone.radius;
    return width <= max ? width : refuse('out-of-range', `uncertainties.${cause}`, width, atMost(max));
  });
}

function atMost(max: number): Allowed {
  return { kind: 'number', above: 0, max, phrase: say`must be greater than 0 and at most ${tell(max)}` };
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
