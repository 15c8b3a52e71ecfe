/**
 * How far from a sphere a skew sweep is: both best fits to the closed-form meridian itself, not to a
 * sample of it, and the extremes of its local radius. Frame and symbols as in circle.ts.
 *
 * Minimum zone of a sharp tool's meridian, in closed form: the squared distance from a centre at height c is
 * a constant + 2 r (e sin t + c sin α cos t), a plain sine wave along the sweep. Over t from τ - δ to τ + δ
 * its ends are level, and its extreme half-way between them, for c = (e / sin α) cot τ. The points of the
 * curve in (z, ρ² + z²) form an arc of an ellipse, whose chord is the only edge of its hull: by the argument
 * of fit-sphere.ts no other centre does better.
 *
 * With a nose by exchange: the exact fit to a few points of the curve (which no fit to the whole curve can
 * undercut), then the places where the whole curve strays farthest from it join the points, until no place
 * strays farther than the points do. What is left between the two is `uncertainty`.
 */
import { choice, nonNegative, number, options } from '../core/checks.js';
import { refuse } from '../core/errors.js';
import { cosDeg, sinDeg, toDegrees } from '../core/trigonometry.js';
import { type CircleSweep, readSweep } from './circle.js';
import { pathShape, type SweptPart } from './circle-meridian.js';
import { bestSquares, smallestZone } from './fit-sphere.js';
import { dips, length2 } from './solve.js';

/** The stretch of a sweep's meridian to judge. */
export interface SweepFormQuery {
  /** The circle on which the centre of the nose (or a sharp tool's point) runs. */
  readonly sweep: CircleSweep;
  /** Which side of the path the finished part is on: a ball keeps the inner branch, a socket the outer. */
  readonly part: SweptPart;
  /** Radius of the tool's nose; 0, a sharp point, if left out. */
  readonly noseRadius?: number;
  /** Lowest place of the nose's centre along the work's axis, from the foot; the sweep's end if left out. */
  readonly fromZ?: number;
  /** Highest place of the nose's centre; the sweep's end if left out. */
  readonly toZ?: number;
}

/** A sphere fitted to a continuous meridian. */
export interface SweepSphere {
  /** Height of the centre on the work's axis, from the foot. */
  readonly centreZ: number;
  /** Radius. */
  readonly radius: number;
  /** Width of the zone about this sphere's centre that holds the whole stretch. */
  readonly peakToValley: number;
}

/** A place where the meridian touches its zone. */
export interface SweepTouch {
  /** Place along the work's axis, from the foot. */
  readonly z: number;
  /** Distance from the work's axis. */
  readonly rho: number;
  /** The sweep's angle at which the tool passes there, 0 to 360 degrees. */
  readonly turnDeg: number;
  /** Signed distance from the fitted sphere. */
  readonly deviation: number;
}

/** The local radius of a meridian where it is extreme. */
export interface LocalRadius {
  /** Radius of curvature of the meridian there. */
  readonly radius: number;
  /** Place along the work's axis, from the foot. */
  readonly z: number;
}

/** How far from a sphere a sweep's meridian is. */
export interface SweepForm {
  /** Least-squares sphere, every length of meridian counting alike, and its root mean square deviation. */
  readonly leastSquares: SweepSphere & {
    /** Root mean square deviation along the meridian. */
    readonly rootMeanSquare: number;
  };
  /** Minimum-zone sphere and its proof. */
  readonly minimumZone: SweepSphere & {
    /** No sphere can have a zone narrower than `peakToValley` less this; 0 in closed form. */
    readonly uncertainty: number;
    /** Three places by rising polar angle with equal deviations of changing sign; none without skew. */
    readonly alternation: readonly SweepTouch[];
  };
  /** Smallest local radius of the meridian. */
  readonly smallestRadius: LocalRadius;
  /** Largest local radius; null where the meridian is straight or hollow somewhere on the stretch. */
  readonly largestRadius: LocalRadius | null;
}

/** A stretch of the finished meridian by the angle of the sweep, in radians. */
export interface Curve {
  /** From the path of the nose's centre to the finished surface, away from the axis; 0 for a sharp point. */
  readonly offset: number;
  readonly from: number;
  readonly to: number;
  /** Cut point at t with its curvature and the length of meridian per radian. */
  readonly at: (t: number) => { z: number; rho: number; curvature: number; speed: number };
}

/**
 * How far from a sphere the meridian of a sweep is, by least squares and by minimum zone, and its extreme
 * local radii.
 *
 * @param query - Sweep, part, nose radius and the stretch to judge.
 * @returns Both fits with the zone's proof, and the extremes of the local radius.
 * @throws GeneratrixError `impossible-geometry` for parallel axes, or if on the stretch the nose is larger
 * than the curve it should follow or reaches across the work's axis (keep away from the pole by a few times
 * the skew); `out-of-range` if the stretch is empty or leaves the sweep.
 * @example
 * ```ts
 * import { sweepForm } from 'generatrix';
 * const sweep = { tiltDeg: 40, radius: 10, distance: 12, skew: 0.02 };
 * const { minimumZone } = sweepForm({ sweep, part: 'ball', fromZ: 3, toZ: 15 });
 * minimumZone.peakToValley.toFixed(6); // => '0.008361'
 * minimumZone.alternation.length; // => 3
 * ```
 */
export function sweepForm(query: SweepFormQuery): SweepForm {
  const { curve, sweep } = readCurve(query);
  const { skew } = sweep;
  const samples = 1024;
  const places = Array.from({ length: samples + 1 }, (_, i) => curve.from + ((curve.to - curve.from) * i) / samples);
  const points = places.map(curve.at);
  const radius = length2(sweep.distance, sweep.radius) + curve.offset;
  if (skew === 0 ? radius <= 0 : points.some(({ rho, speed }) => !(rho > 0 && speed > 0))) {
    return refuse(
      'impossible-geometry',
      'query.noseRadius',
      query.noseRadius,
      'must leave a surface on the whole stretch',
    );
  }
  const columns = { z: Float64Array.from(points, ({ z }) => z), rho: Float64Array.from(points, ({ rho }) => rho) };
  // Simpson's rule by length of meridian.
  const weights = Float64Array.from(points, ({ speed }, i) => speed * (i % samples === 0 ? 1 : i % 2 === 1 ? 4 : 2));
  if (skew === 0) return exactSphere(radius, columns.z);
  const squares = bestSquares(columns, weights);
  const deviation = (sphere: { centreZ: number; radius: number }) => (t: number) => {
    const { z, rho } = curve.at(t);
    return length2(z - sphere.centreZ, rho) - sphere.radius;
  };
  const off = deviation(squares);
  let sum = 0;
  let total = 0;
  weights.forEach((weight, i) => {
    sum += weight * off(places[i] as number) ** 2;
    total += weight;
  });
  return {
    leastSquares: { ...squares, peakToValley: span(off, curve).width, rootMeanSquare: Math.sqrt(sum / total) },
    minimumZone: curve.offset === 0 ? zoneInClosedForm(curve, sweep) : zoneByExchange(curve, deviation),
    ...localRadii(curve),
  };
}

/** Checks a stretch and gives its curve. */
export function readCurve(query: SweepFormQuery): { curve: Curve; sweep: Required<CircleSweep> } {
  const given = options(query, 'query', ['sweep', 'part'], ['noseRadius', 'fromZ', 'toZ']);
  const sweep = readSweep(query.sweep, 'query.sweep');
  const part = choice(given['part'], 'query.part', ['ball', 'socket']);
  const nose = nonNegative(given['noseRadius'] ?? 0, 'query.noseRadius');
  const { radius: r, distance: h, skew } = sweep;
  const sin = sinDeg(sweep.tiltDeg);
  const cos = cosDeg(sweep.tiltDeg);
  if (sin === 0) return refuse('impossible-geometry', 'query.sweep.tiltDeg', sweep.tiltDeg, 'must not be parallel');
  const middle = h * cos;
  const fromZ = number(given['fromZ'] ?? middle - r * sin, 'query.fromZ', { min: middle - r * sin });
  const toZ = number(given['toZ'] ?? middle + r * sin, 'query.toZ', { above: fromZ, max: middle + r * sin });
  const offset = part === 'ball' ? -nose : nose;
  // The outer branch is the half of the sweep with t from 0 to π where the skew is positive.
  const lower = part === 'ball' ? skew < 0 : skew >= 0;
  const turn = (z: number): number => {
    const t = Math.acos(Math.min(1, Math.max(-1, (middle - z) / (r * sin))));
    return lower ? t : 2 * Math.PI - t;
  };
  const at: Curve['at'] = (t) => {
    const path = pathShape(sweep, sin, cos, Math.sin(t), Math.cos(t));
    const stretch = 1 + offset * path.curvature;
    return {
      z: path.z + offset * path.normalZ,
      rho: path.rho + offset * path.normalRho,
      curvature: path.curvature / stretch,
      speed: path.speed * stretch,
    };
  };
  const ends = [turn(fromZ), turn(toZ)];
  return { curve: { from: Math.min(...ends), to: Math.max(...ends), at, offset: offset + 0 }, sweep };
}

function exactSphere(radius: number, z: Float64Array): SweepForm {
  const sphere = { centreZ: 0, radius, peakToValley: 0 };
  const local = { radius, z: z[0] as number };
  return {
    leastSquares: { ...sphere, rootMeanSquare: 0 },
    minimumZone: { ...sphere, uncertainty: 0, alternation: [] },
    smallestRadius: local,
    largestRadius: local,
  };
}

/** Extremes of a deviation along the whole curve, and where they stand. */
function span(
  off: (t: number) => number,
  { from, to }: Curve,
): { places: number[]; low: number; high: number; width: number } {
  const places = [...dips(off, from, to, 256), ...dips((t) => -off(t), from, to, 256)];
  const values = places.map(off);
  const low = Math.min(...values);
  const high = Math.max(...values);
  return { places, low, high, width: high - low };
}

function zoneInClosedForm(curve: Curve, sweep: Required<CircleSweep>): SweepForm['minimumZone'] {
  const middle = (curve.from + curve.to) / 2;
  const centreZ = (sweep.skew * Math.cos(middle)) / (Math.sin(middle) * sinDeg(sweep.tiltDeg));
  const distance = (t: number): number => {
    const { z, rho } = curve.at(t);
    return length2(z - centreZ, rho);
  };
  const [end, half] = [(distance(curve.from) + distance(curve.to)) / 2, distance(middle)];
  const radius = (end + half) / 2;
  const quarter = Math.sin((curve.to - curve.from) / 4);
  const peakToValley = Math.abs((2 * sweep.radius * sweep.skew * quarter * quarter) / (Math.sin(middle) * radius));
  const turns = [curve.from, middle, curve.to];
  const alternation = (curve.at(curve.from).z > curve.at(curve.to).z ? turns : turns.reverse()).map((t) => {
    const { z, rho } = curve.at(t);
    return { z, rho, turnDeg: toDegrees(t), deviation: distance(t) - radius };
  });
  return { centreZ: centreZ + 0, radius, peakToValley, uncertainty: 0, alternation };
}

function zoneByExchange(
  curve: Curve,
  deviation: (sphere: { centreZ: number; radius: number }) => (t: number) => number,
): SweepForm['minimumZone'] {
  let turns = Array.from({ length: 33 }, (_, i) => {
    return curve.from + ((curve.to - curve.from) * (1 - Math.cos((Math.PI * i) / 32))) / 2;
  });
  for (let round = 0; round < 30; round++) {
    const points = turns.map(curve.at);
    const fit = smallestZone({
      z: Float64Array.from(points, ({ z }) => z),
      rho: Float64Array.from(points, ({ rho }) => rho),
    });
    const { places, width } = span(deviation(fit), curve);
    const uncertainty = Math.max(0, width - fit.peakToValley);
    if (uncertainty <= 1e-9 * width || uncertainty <= 16 * Number.EPSILON * fit.radius) {
      const alternation = fit.alternation.map(({ index, z, rho, deviation }) => {
        const turnDeg = toDegrees(turns[index] as number);
        return { z, rho, turnDeg, deviation };
      });
      return { centreZ: fit.centreZ, radius: fit.radius, peakToValley: width, uncertainty, alternation };
    }
    turns = [...turns, ...places];
  }
  return refuse('not-converged', 'query', turns.length, 'must have a minimum zone that an exchange of points can find');
}

function localRadii(curve: Curve): Pick<SweepForm, 'smallestRadius' | 'largestRadius'> {
  const curvature = (t: number): number => curve.at(t).curvature;
  const { places } = span(curvature, curve);
  const ordered = places.map(curve.at).sort((a, b) => a.curvature - b.curvature);
  const [least, most] = [ordered[0], ordered.at(-1)];
  if (!least || !most) return refuse('not-converged', 'query', places.length, 'must have extremes of curvature');
  return {
    smallestRadius: { radius: 1 / most.curvature, z: most.z },
    largestRadius: least.curvature > 0 ? { radius: 1 / least.curvature, z: least.z } : null,
  };
}
