/**
 * The surface that a sweep really cuts, errors included. Where the axes meet it is a sphere whatever the
 * other errors: they change its radius, its place and how far it is covered. Where the axes pass each
 * other by e, the distance from the centre runs from sqrt(h² + e² + r²) at both ends of the sweep to
 * sqrt(h² + e² + r² ∓ 2 r |e|) half-way (ball -, socket +), about r |e| / R.
 */
import { plainArithmetic } from '../../budget/arithmetic.js';
import { type Fields, read, sound } from '../../core/read.js';
import { note } from '../../core/words.js';
import type { SphereFit } from '../../revolve/fit-sphere.js';
import { length2 } from '../../revolve/solve.js';
import { type Sweep, sweepOf, sweepReader } from '../../revolve/sweep.js';
import { formOf } from '../../revolve/sweep-form.js';
import { sweptCurve } from '../../revolve/swept-curve.js';
import { type SphereTarget, sphereTarget, zoneOf } from '../target.js';
import { FORM, type SphereNote } from '../words.js';
import { coverage, coverageNotes, type SweepCoverage } from './coverage.js';
import { cutRadius, skewDeparture } from './models.js';

/** What {@link sweepSurface} needs. */
export interface SweepSurfaceOptions {
  /** The part that is wanted: it says on which side of the sweep the material stays and where it should end. */
  readonly target: SphereTarget;
  /** The sweep as it really is. */
  readonly sweep: Sweep;
}

/** How results change with the settings: lengths per length, or lengths per degree of tilt. */
export interface SweepSensitivities {
  /** Of the radius, everything else held, per unit of each. Tilt alone does not change it. */
  readonly radius: Readonly<Record<'sweepRadius' | 'distance' | 'miss', number>>;
  /** Of the radius, if after each change the tip is set over the centre again: per degree of tilt, per unit of sweep radius. */
  readonly radiusThroughPole: Readonly<Record<'tiltDeg' | 'sweepRadius', number>>;
  /**
   * Of the place where the tip passes the pole, positive short of it: half the pip's diameter. Per degree of tilt and
   * per unit of the others; `miss` is the sideways one.
   */
  readonly poleMiss: Readonly<Record<'tiltDeg' | 'sweepRadius' | 'distance' | 'miss', number>>;
  /** Of the difference between the largest and the smallest radius, per unit of skew of either sign. */
  readonly formDeviation: Readonly<Record<'skew', number>>;
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
  /**
   * Least-squares sphere with its centre on the work's axis, every length of meridian counting alike. Heights
   * are from the point where the axes meet or pass.
   */
  readonly leastSquares: SphereFit;
  /** Minimum-zone sphere: the one of least form deviation (ISO 12181). */
  readonly minimumZone: SphereFit;
  /** How the results change with the settings. */
  readonly sensitivities: SweepSensitivities;
  /** What else to know. */
  readonly notes: readonly SphereNote[];
}

const OPTIONS: Fields<SweepSurfaceOptions> = { target: sphereTarget, sweep: sweepReader };

/**
 * The surface that given settings cut, errors included: size, coverage, pip, where the cut ends, form.
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
export function sweepSurface(options: SweepSurfaceOptions): SweepSurface {
  const given = read(options, OPTIONS);
  const zone = zoneOf(given.target);
  const sweep = sweepOf(given.sweep);
  const { side } = zone;
  const { sin, cos, radius: r, distance: h, skew: e, noseRadius, shift } = sweep;
  const { leastSquares, minimumZone } = formOf(sweptCurve(sweep, side));
  // Ends and middle of the sweep stand level with the foot, so there a nose adds just its radius.
  const atEnds = Math.sqrt(h * h + e * e + r * r) + (side === 'ball' ? -noseRadius : noseRadius);
  const halfWay = atEnds - skewDeparture(plainArithmetic, r, h, side === 'ball' ? Math.abs(e) : -Math.abs(e));
  const covered = coverage(zone, sweep, cutRadius(plainArithmetic, side, r, h, noseRadius));
  const pip = covered.freeEnd.state === 'past-pole' || covered.freeEnd.state === 'not-reached';
  const notes = coverageNotes(covered);
  if (e !== 0) notes.push(note(FORM, 'not-a-sphere', { formDeviation: minimumZone.formDeviation, skew: e }));
  const path = length2(h, r);
  const perDeg = Math.PI / 180;
  const result: SweepSurface = {
    radius: leastSquares.radius,
    radiusError: leastSquares.radius - zone.radius,
    smallestRadius: Math.min(atEnds, halfWay),
    largestRadius: Math.max(atEnds, halfWay),
    centreShift: shift,
    pipDiameter: pip ? covered.freeEnd.diameter : 0,
    coverage: covered,
    leastSquares,
    minimumZone: {
      centreZ: minimumZone.centreZ,
      radius: minimumZone.radius,
      formDeviation: minimumZone.formDeviation,
      peak: minimumZone.peak,
      valley: minimumZone.valley,
      rootMeanSquare: minimumZone.rootMeanSquare,
    },
    sensitivities: {
      radius: { sweepRadius: r / path, distance: h / path, miss: h / path / sin },
      radiusThroughPole: { tiltDeg: ((-r / sin) * cos * perDeg) / sin, sweepRadius: 1 / sin },
      poleMiss: { tiltDeg: (h * cos + r * sin) * perDeg, sweepRadius: -cos, distance: sin, miss: 1 },
      formDeviation: { skew: r / path },
    },
    notes,
  };
  return sound(result, 'sweep');
}
