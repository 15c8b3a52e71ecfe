/**
 * From what has been cut to what to change. To size: the sweep's true tilt follows from the measured size
 * and pip, and with that tilt kept, sweep and distance are changed together so that the pole stays covered.
 * In a socket being sunk: opening and depth give its radius, that the tilt, that the change of tilt.
 */
import { choice, nonNegative, options, positive, representable } from '../../core/checks.js';
import { refuse } from '../../core/errors.js';
import { inWords, type Note } from '../../core/notes.js';
import { readSweep, type Sweep } from '../../revolve/sweep.js';
import { degrees, readTarget, type SphereTarget } from '../target.js';
import { coverage, type SweepCoverage } from './coverage.js';

/** What {@link sweepCorrection} needs. */
export interface SweepCorrectionInput {
  /** The part that is wanted. */
  readonly target: SphereTarget;
  /** The sweep that cut it; its radius is believed, its tilt and distance are found from the part. */
  readonly sweep: Sweep;
  /** Diameter of the ball or the socket's sphere, measured so far. */
  readonly measuredDiameter: number;
  /** The pip that was left, if any. */
  readonly pip?: {
    /** Its diameter. */
    readonly diameter: number;
    /** Whether the sweep stops short of the pole or passes over it. */
    readonly state: 'not-reached' | 'past-pole';
  };
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
  readonly notes: readonly Note[];
}

/**
 * From the ball or socket measured so far to the change of sweep and distance that reaches size and keeps
 * the pole covered, with the tilt left as it is.
 *
 * @param input - Part, sweep, measured diameter, and the pip if one was left.
 * @returns The sweep to set and the changes that lead there.
 * @throws GeneratrixError `contradiction` if the sweep is too wide to have cut what was measured.
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
export function sweepCorrection(input: SweepCorrectionInput): SweepCorrection {
  const given = options(input, 'input', ['target', 'sweep', 'measuredDiameter'], ['pip']);
  const zone = readTarget(input.target);
  const { radius: r, noseRadius } = readSweep(input.sweep);
  const measured = positive(given['measuredDiameter'], 'measuredDiameter') / 2;
  const nose = zone.side === 'ball' ? noseRadius : -noseRadius;
  const path = { now: measured + nose, wanted: zone.radius + nose };
  if (path.now < r || path.wanted <= 0) {
    return refuse(
      'contradiction',
      'measuredDiameter',
      2 * measured,
      `must be at least ${2 * (r - nose)}: a sweep of diameter ${2 * r} cuts no smaller sphere`,
    );
  }
  const half = Math.asin(r / path.now);
  const tilt = half + readPip(given['pip'], measured);
  if (!(tilt > 0 && tilt < Math.PI)) {
    return refuse('contradiction', 'pip.diameter', given['pip'], 'must be one that a sweep of this radius can leave');
  }
  // Through the pole where there is one; else the same share of the sphere as now.
  const sin = zone.from === 0 ? Math.sin(tilt) : r / path.now;
  const cos = zone.from === 0 ? Math.cos(tilt) : Math.cos(half);
  const trueDistance = Math.sqrt((path.now - r) * (path.now + r));
  const sweep = {
    tiltDeg: degrees(tilt),
    sweepRadius: representable(path.wanted * sin, 'target'),
    distance: path.wanted * cos,
    noseRadius,
  };
  const distanceChange = sweep.distance - trueDistance;
  const allowance = zone.side === 'ball' ? measured - zone.radius : zone.radius - measured;
  const notes: Note[] = [];
  if (allowance < 0) {
    notes.push({
      code: 'past-size',
      message: `The part is past its size by ${inWords(-allowance)} on the radius: it needs a fresh cut deeper along the work axis.`,
      values: { allowance },
    });
  }
  return {
    trueTiltDeg: sweep.tiltDeg,
    trueDistance,
    sweep,
    sweepRadiusChange: sweep.sweepRadius - r,
    distanceChange,
    sidewaysChange: distanceChange * Math.sin(tilt),
    coverage: coverage(zone, readSweep(sweep), zone.radius),
    notes,
  };
}

/** By how much the tilt exceeds the sweep's angular radius, from the pip. */
function readPip(value: unknown, radius: number): number {
  if (value === undefined) return 0;
  const given = options(value, 'pip', ['diameter', 'state']);
  const pip = nonNegative(given['diameter'], 'pip.diameter') / 2;
  if (pip > radius)
    return refuse('contradiction', 'pip.diameter', 2 * pip, `must be at most ${2 * radius}, the sphere's`);
  const state = choice(given['state'], 'pip.state', ['not-reached', 'past-pole']);
  return state === 'past-pole' ? -Math.asin(pip / radius) : Math.asin(pip / radius);
}

/** What {@link socketTiltCorrection} needs. */
export interface SocketTiltInput {
  /** Radius that the socket should have. */
  readonly radius: number;
  /** Radius of the sweep, of the tip or the nose's centre. */
  readonly sweepRadius: number;
  /** Radius of the tool's nose. Default 0. */
  readonly noseRadius?: number;
  /** Diameter of the opening so far. */
  readonly openingDiameter: number;
  /** Depth so far. */
  readonly depth: number;
  /** Standard uncertainty of the opening. Default 0. */
  readonly openingUncertainty?: number;
  /** Standard uncertainty of the depth. Default 0. */
  readonly depthUncertainty?: number;
}

/** The change of tilt for a socket being sunk. */
export interface SocketTiltCorrection {
  /** Radius that opening and depth show. */
  readonly radius: number;
  /** Its standard uncertainty. */
  readonly radiusUncertainty: number;
  /** Tilt that cuts this radius. */
  readonly trueTiltDeg: number;
  /** Tilt that cuts the wanted radius. */
  readonly wantedTiltDeg: number;
  /** Change of the tilt: wanted less true. */
  readonly tiltChangeDeg: number;
  /** Standard uncertainty of that change, from opening and depth. */
  readonly tiltChangeUncertaintyDeg: number;
}

/**
 * The change of tilt for a socket being sunk with its bottom met: from opening D and depth t its radius is
 * R = (D²/4 + t²) / (2 t), and the tilt that cuts it asin(r / (R - nose radius)).
 *
 * @param input - Wanted radius, sweep, opening and depth so far, with their uncertainties.
 * @returns True tilt, wanted tilt and the change.
 * @throws GeneratrixError `contradiction` if the sweep is too wide for the socket measured, `impossible-geometry`
 * if it is too wide for the socket wanted.
 * @example
 * ```ts
 * import { socketTiltCorrection } from 'generatrix/sphere';
 * const change = socketTiltCorrection({ radius: 26, sweepRadius: 13, openingDiameter: 30, depth: 5 });
 * change.radius; // => 25
 * change.wantedTiltDeg.toFixed(3); // => '30.000'
 * change.tiltChangeDeg.toFixed(3); // => '-1.332'
 * ```
 */
export function socketTiltCorrection(input: SocketTiltInput): SocketTiltCorrection {
  const given = options(
    input,
    'input',
    ['radius', 'sweepRadius', 'openingDiameter', 'depth'],
    ['noseRadius', 'openingUncertainty', 'depthUncertainty'],
  );
  const read = (key: string): number => positive(given[key], key);
  const orZero = (key: string): number => nonNegative(given[key] ?? 0, key);
  const r = read('sweepRadius');
  const nose = orZero('noseRadius');
  const chord = read('openingDiameter') / 2;
  const depth = read('depth');
  const radius = representable((chord * (chord / depth) + depth) / 2, 'openingDiameter');
  if (radius - nose < r) {
    return refuse('contradiction', 'sweepRadius', r, `must be at most ${radius - nose}, to cut what was measured`);
  }
  const wanted = read('radius') - nose;
  if (wanted < r) {
    return refuse('impossible-geometry', 'sweepRadius', r, `must be at most ${wanted}, to cut the wanted radius`);
  }
  const slope = chord / depth;
  const byOpening = (slope / 2) * orZero('openingUncertainty');
  const byDepth = ((1 - slope * slope) / 2) * orZero('depthUncertainty');
  const radiusUncertainty = Math.sqrt(byOpening * byOpening + byDepth * byDepth);
  const now = Math.asin(r / (radius - nose));
  const then = Math.asin(r / wanted);
  return {
    radius,
    radiusUncertainty,
    trueTiltDeg: degrees(now),
    wantedTiltDeg: degrees(then),
    tiltChangeDeg: degrees(then - now),
    tiltChangeUncertaintyDeg: representable(
      degrees((Math.tan(now) * radiusUncertainty) / (radius - nose)),
      'radiusUncertainty',
    ),
  };
}
