/**
 * From what has been cut to what to change: the sweep's true tilt follows from the measured size and pip, and with
 * that tilt kept, sweep and distance are changed together so that the pole stays covered. Radians inside.
 */
import { type Allowed, refuse } from '../../core/errors.js';
import { choice, type Fields, nonNegative, object, optional, positive, read, sound } from '../../core/read.js';
import { note, say, tell } from '../../core/words.js';
import { type Sweep, sweepOf, sweepReader } from '../../revolve/sweep.js';
import { degrees, type SphereTarget, sphereTarget, type Zone, zoneOf } from '../target.js';
import { CORRECTION, type SphereNote } from '../words.js';
import { coverage, type SweepCoverage } from './coverage.js';

/** A pip left uncut at the free end. */
export interface Pip {
  /** Its diameter. */
  readonly diameter: number;
  /** Whether the sweep stops short of the pole or passes over it. */
  readonly state: 'not-reached' | 'past-pole';
}

/** What {@link sweepCorrection} needs. */
export interface SweepCorrectionOptions {
  /** The part that is wanted. */
  readonly target: SphereTarget;
  /** The sweep that cut it; its radius is believed, its tilt and distance are found from the part. */
  readonly sweep: Sweep;
  /** Diameter of the ball or the socket's sphere, measured so far. */
  readonly measuredDiameter: number;
  /** The pip that was left. @defaultValue None: the pole is met. */
  readonly pip?: Pip;
  /**
   * By how much skew, the sweep's radius and half the measured diameter may be out together.
   * @defaultValue A fiftieth of the sweep's radius.
   */
  readonly sweepRadiusLimit?: number;
}

/** The change that reaches size and covers the pole. */
export interface SweepCorrection {
  /** Tilt that the part shows. */
  readonly trueTiltDeg: number;
  /** Distance that the part shows. */
  readonly trueDistance: number;
  /** The sweep to set, with the tilt as it truly is. */
  readonly sweep: Sweep;
  /** Change of the sweep's radius. */
  readonly sweepRadiusChange: number;
  /** Change of the distance along the spindle axis. */
  readonly distanceChange: number;
  /** The sideways move that does the same as the change of distance, but for the sphere's place on the axis. */
  readonly sidewaysChange: number;
  /** What the new sweep covers. */
  readonly coverage: SweepCoverage;
  /** What else to know. */
  readonly notes: readonly SphereNote[];
}

const PIP: Fields<Pip> = { diameter: nonNegative, state: choice('not-reached', 'past-pole') };

const OPTIONS: Fields<SweepCorrectionOptions> = {
  target: sphereTarget,
  sweep: sweepReader,
  measuredDiameter: positive,
  pip: optional(object(PIP)),
  sweepRadiusLimit: optional(nonNegative),
};

/**
 * From the ball or socket measured so far to the change of sweep and distance that reaches size and keeps
 * the pole covered, with the tilt left as it is.
 *
 * A ball on a thin stem is hardly larger than its sweep, so that with some skew it may measure less than the sweep
 * could cut. Then the sweep is taken to be smaller than given, the tilt to be as given, and a note says so.
 * @throws GeneratrixError `contradiction` if the sweep is too wide to have cut what was measured, by more than its
 * limit explains, or if it cannot leave such a pip.
 * @example
 * ```ts
 * import { sweepCorrection } from 'generatrix/sphere';
 * const target = { part: 'ball-on-stem', radius: 20, stemDiameter: 20 } as const;
 * const sweep = { tiltDeg: 75, sweepRadius: 20, distance: 5 };
 * const change = sweepCorrection({ target, sweep, measuredDiameter: 41.25 });
 * change.sweepRadiusChange.toFixed(4); // => '-0.6061'
 * change.distanceChange.toFixed(4); // => '-0.1527'
 * sweepCorrection({ target, sweep, measuredDiameter: 39 }); // throws contradiction
 * ```
 */
export function sweepCorrection(options: SweepCorrectionOptions): SweepCorrection {
  const { target, sweep: set, measuredDiameter, pip, sweepRadiusLimit } = read(options, OPTIONS);
  const zone = zoneOf(target);
  const { tilt: tiltSet, radius: given, noseRadius } = sweepOf(set);
  const measured = measuredDiameter / 2;
  const nose = zone.side === 'ball' ? noseRadius : -noseRadius;
  const path = { now: measured + nose, wanted: zone.radius + nose };
  if (!(measured / zone.radius < 1e6 && zone.radius / measured < 1e6)) {
    return refuse('contradiction', 'measuredDiameter', measuredDiameter, 'must be nearer to the diameter wanted');
  }
  if (path.wanted <= 0) {
    const phrase = say`must be less than the socket's radius, ${tell(zone.radius)}`;
    return refuse('impossible-geometry', 'sweep.noseRadius', noseRadius, {
      kind: 'number',
      below: zone.radius,
      phrase,
    });
  }
  if (path.now < given - (sweepRadiusLimit ?? given / 50) || path.now <= 0) {
    return refuse('contradiction', 'measuredDiameter', measuredDiameter, noSmaller(2 * given, 2 * (given - nose)));
  }
  const excess = pip ? readPip(pip, measured) : 0;
  const believed = given <= path.now;
  // The sweep's angular radius; of a sweep that is too large, from the tilt.
  const half = believed ? Math.asin(given / path.now) : Math.min(Math.PI / 2, Math.max(0, tiltSet - excess));
  const r = believed ? given : path.now * Math.sin(half);
  const tilt = half + excess;
  if (!(tilt > 0 && tilt < Math.PI && half > 0)) {
    return refuse('contradiction', 'pip.diameter', pip?.diameter, 'must be one that a sweep of this radius can leave');
  }
  // Through the pole where there is one; else the same share of the sphere as now.
  const angle = zone.from === 0 ? tilt : half;
  const trueDistance = Math.sqrt((path.now - r) * (path.now + r));
  const sweep = {
    tiltDeg: degrees(tilt),
    sweepRadius: path.wanted * Math.sin(angle),
    distance: path.wanted * Math.cos(angle),
    noseRadius,
  };
  const distanceChange = sweep.distance - trueDistance;
  return sound({
    trueTiltDeg: sweep.tiltDeg,
    trueDistance,
    sweep,
    sweepRadiusChange: sweep.sweepRadius - r,
    distanceChange,
    sidewaysChange: distanceChange * Math.sin(tilt),
    coverage: coverage(zone, sweepOf(sweep), zone.radius),
    notes: notesOf(zone, measured, believed ? undefined : { given, radius: r }),
  });
}

function noSmaller(sweep: number, min: number): Allowed {
  const phrase = say`must be at least ${tell(min)}: a sweep of diameter ${tell(sweep)} cuts no smaller sphere`;
  return { kind: 'number', min, phrase };
}

function notesOf(
  zone: Zone,
  measured: number,
  sweep: { readonly given: number; readonly radius: number } | undefined,
): readonly SphereNote[] {
  const allowance = zone.side === 'ball' ? measured - zone.radius : zone.radius - measured;
  return [
    ...(sweep ? [note(CORRECTION, 'smaller-than-sweep', sweep)] : []),
    ...(allowance < 0 ? [note(CORRECTION, 'past-size', { allowance })] : []),
  ];
}

/** By how much the tilt exceeds the sweep's angular radius, from the pip. */
function readPip({ diameter, state }: Pip, radius: number): number {
  if (diameter > 2 * radius) {
    const phrase = say`must be at most ${tell(2 * radius)}, the sphere's diameter`;
    return refuse('contradiction', 'pip.diameter', diameter, { kind: 'number', min: 0, max: 2 * radius, phrase });
  }
  return (state === 'past-pole' ? -1 : 1) * Math.asin(diameter / 2 / radius);
}
