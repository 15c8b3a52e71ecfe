/**
 * The surface that a sweep really cuts, errors included. Where the axes meet it is a sphere whatever the
 * other errors: they change its radius, its place and how far it is covered. Where the axes pass each
 * other by e, the distance from the centre runs from sqrt(h² + e² + r²) at both ends of the sweep to
 * sqrt(h² + e² + r² ∓ 2 r |e|) half-way (ball -, socket +), about r |e| / R.
 */
import { options, representable } from '../core/checks.js';
import { refuse } from '../core/errors.js';
import { inWords, type Note } from '../core/notes.js';
import { circleRhoAt } from '../revolve/circle-meridian.js';
import { leastSquaresSphere, minimumZoneSphere } from '../revolve/fit-sphere.js';
import { coverage, coverageNotes, type SweepCoverage } from './coverage.js';
import { type ReadSweep, readSweep, type Sweep } from './sweep.js';
import { readTarget, type SphereTarget, type Zone } from './target.js';

/** What {@link sweepSurface} needs. */
export interface SweepSurfaceInput {
  /** The part that is wanted: it says on which side of the sweep the material stays and where it should end. */
  readonly target: SphereTarget;
  /** The sweep as it really is. */
  readonly sweep: Sweep;
}

/** A sphere laid through the surface by one of the two fits. */
export interface SweepSphereFit {
  /** Radius of the fitted sphere. */
  readonly radius: number;
  /** Height of its centre from the point where the axes meet or pass. */
  readonly centreHeight: number;
  /** Form error: largest less smallest distance of the surface from that sphere's centre. */
  readonly formError: number;
}

/** How results change with the settings: lengths per length, or lengths per degree of tilt. */
export interface SweepSensitivities {
  /** Of the radius, everything else held. Tilt alone does not change it. */
  readonly radius: {
    /** Per unit of sweep radius. */
    readonly sweepRadius: number;
    /** Per unit of distance. */
    readonly distance: number;
    /** Per unit of sideways miss. */
    readonly miss: number;
  };
  /** Of the radius, if after each change the tip is set over the centre again. */
  readonly radiusThroughPole: {
    /** Per degree of tilt. */
    readonly tiltDeg: number;
    /** Per unit of sweep radius. */
    readonly sweepRadius: number;
  };
  /** Of the place where the tip passes the pole, positive short of it: half the pip's diameter. */
  readonly poleMiss: {
    /** Per degree of tilt. */
    readonly tiltDeg: number;
    /** Per unit of sweep radius. */
    readonly sweepRadius: number;
    /** Per unit of distance. */
    readonly distance: number;
    /** Per unit of sideways miss. */
    readonly miss: number;
  };
  /** Of the difference between the largest and the smallest radius, per unit of skew of either sign. */
  readonly outOfRound: {
    /** Per unit of skew. */
    readonly skew: number;
  };
}

/** The surface that a sweep cuts. */
export interface SweepSurface {
  /** Radius of the least-squares sphere; where the axes meet, of the sphere itself. */
  readonly radius: number;
  /** How much that differs from the wanted radius. */
  readonly radiusError: number;
  /** Smallest distance of the surface from the point where the axes meet or pass. */
  readonly smallestRadius: number;
  /** Largest distance. With a nose radius and skew: to first order in the skew. */
  readonly largestRadius: number;
  /** Where the axes meet, from where they would without the sideways miss; positive towards the free end. */
  readonly centreShift: number;
  /** Diameter of the uncut pip at the free end, 0 if the pole is met. */
  readonly pipDiameter: number;
  /** Which part of the wanted surface is covered, and how the cut ends. */
  readonly coverage: SweepCoverage;
  /** Least-squares sphere with its centre on the work's axis, all parts of the surface counting alike. */
  readonly leastSquares: SweepSphereFit;
  /** Minimum-zone sphere: the one of least form error. */
  readonly minimumZone: SweepSphereFit;
  /** How the results change with the settings. */
  readonly sensitivities: SweepSensitivities;
  /** What else to know. */
  readonly notes: readonly Note[];
}

/**
 * The surface that given settings cut, errors included: size, coverage, pip, where the cut ends, form.
 *
 * @param input - The part wanted, and the sweep as it really is.
 * @returns The surface against what was wanted.
 * @throws GeneratrixError `impossible-geometry` where the nose is larger than the socket it should cut.
 * @example
 * ```ts
 * import { sweepSurface } from 'generatrix/sphere';
 * const target = { part: 'ball-on-stem', radius: 5, stemDiameter: 6 } as const;
 * const cut = sweepSurface({ target, sweep: { tiltDeg: 90, sweepRadius: 3, distance: 4 } });
 * cut.radius; // => 5
 * cut.coverage.freeEnd.state; // => 'not-reached'
 * cut.coverage.freeEnd.diameter.toFixed(6); // => '8.000000'
 * const skew = sweepSurface({ target, sweep: { tiltDeg: 72, sweepRadius: 4.75, distance: 1.55, skew: 0.02 } });
 * (skew.largestRadius - skew.smallestRadius).toFixed(4); // => '0.0190'
 * ```
 */
export function sweepSurface(input: SweepSurfaceInput): SweepSurface {
  options(input, 'input', ['target', 'sweep']);
  const zone = readTarget(input.target);
  const sweep = readSweep(input.sweep);
  const { tilt, radius: r, distance: h, skew: e, noseRadius, shift } = sweep;
  const out = zone.side === 'ball' ? -1 : 1;
  const nominal = Math.sqrt(h * h + r * r) + out * noseRadius;
  if (!(nominal > 0)) {
    return refuse('impossible-geometry', 'sweep.noseRadius', noseRadius, 'must be less than the radius of its path');
  }
  const atEnds = Math.sqrt(h * h + e * e + r * r) + out * noseRadius;
  const halfWay = Math.sqrt(h * h + (r + out * Math.abs(e)) ** 2) + out * noseRadius;
  const { leastSquares, minimumZone } = fits(zone, sweep, nominal);
  const covered = coverage(zone, sweep, nominal);
  const pip = covered.freeEnd.state === 'past-pole' || covered.freeEnd.state === 'not-reached';
  const notes = [...coverageNotes(covered)];
  if (e !== 0) {
    notes.push({
      code: 'not-a-sphere',
      message: `The axes pass each other, so the surface is out of round by ${inWords(Math.abs(atEnds - halfWay))}.`,
      values: { outOfRound: Math.abs(atEnds - halfWay), skew: e },
    });
  }
  const [sin, cos] = [Math.sin(tilt), Math.cos(tilt)];
  const path = Math.sqrt(h * h + r * r);
  const perDeg = Math.PI / 180;
  return {
    radius: leastSquares.radius,
    radiusError: representable(leastSquares.radius - zone.radius, 'sweep'),
    smallestRadius: Math.min(atEnds, halfWay),
    largestRadius: Math.max(atEnds, halfWay),
    centreShift: shift,
    pipDiameter: pip ? covered.freeEnd.diameter : 0,
    coverage: covered,
    leastSquares,
    minimumZone,
    sensitivities: {
      radius: { sweepRadius: r / path, distance: h / path, miss: h / path / sin },
      radiusThroughPole: { tiltDeg: ((-r / sin) * cos * perDeg) / sin, sweepRadius: 1 / sin },
      poleMiss: { tiltDeg: (h * cos + r * sin) * perDeg, sweepRadius: -cos, distance: sin, miss: 1 },
      outOfRound: { skew: r / path },
    },
    notes,
  };
}

/** Steps round the half of the sweep that the part keeps: the form, which is smooth, is met to some 1e-5 of itself. */
const STEPS = 400;

function fits(zone: Zone, sweep: ReadSweep, nominal: number): Pick<SweepSurface, 'leastSquares' | 'minimumZone'> {
  const { tilt, radius, distance, skew, noseRadius } = sweep;
  if (skew === 0) {
    const exact = { radius: nominal, centreHeight: 0, formError: 0 };
    return { leastSquares: exact, minimumZone: exact };
  }
  const [sin, cos] = [Math.sin(tilt), Math.cos(tilt)];
  const nose = zone.side === 'ball' ? -noseRadius : noseRadius;
  // A ball keeps the branch nearer to the work's axis, a socket the other.
  const branch = zone.side === 'ball' ? -Math.abs(skew) : Math.abs(skew);
  const point = (turn: number): { readonly z: number; readonly rho: number } => {
    const z = distance * cos - radius * sin * Math.cos(turn);
    const rho = circleRhoAt(sin, cos, radius, distance, branch, z);
    // The nose touches on the line to the centre, but for a lean as small as the skew.
    const scale = 1 + nose / Math.sqrt(z * z + rho * rho);
    return { z: scale * z, rho: scale * rho };
  };
  const steps = Array.from({ length: STEPS }, (_, i) => i);
  // Equal steps along the axis are equal areas, as least squares needs them; the zone needs the very ends.
  const areas = steps.map((i) => point(Math.acos(1 - (2 * i + 1) / STEPS)));
  const turns = steps.map((i) => point((Math.PI * i) / (STEPS - 1)));
  return {
    leastSquares: fitted(leastSquaresSphere({ points: areas })),
    minimumZone: fitted(minimumZoneSphere({ points: turns })),
  };
}

function fitted(fit: {
  readonly radius: number;
  readonly centreZ: number;
  readonly peakToValley: number;
}): SweepSphereFit {
  return { radius: fit.radius, centreHeight: fit.centreZ, formError: fit.peakToValley };
}
