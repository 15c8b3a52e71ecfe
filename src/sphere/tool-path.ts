/**
 * Points for a tool path: the meridian of a true or a mis-set part, or the way of a nose's centre along it, as a
 * polyline within a chordal tolerance. For spheres from the same input as `sweepSurface`; for tapers from the
 * surface that a straight path cuts. Lengths in one unit.
 *
 * The surface under a polyline of nose centres strays from the true one no farther than the polyline itself from
 * the true way: parallel curves are as near to each other as what they are parallel to.
 */
import { refuse } from '../core/errors.js';
import { choice, defaulted, type Fields, nonNegative, optional, positive, read } from '../core/read.js';
import { pathAt } from '../revolve/circle-shape.js';
import type { MeridianPoint } from '../revolve/fit-points.js';
import type { LineSurface } from '../revolve/line.js';
import { hyperbola, lineRadiusAt, lineSurface } from '../revolve/line-meridian.js';
import { polyline } from '../revolve/polyline.js';
import { rootBetween } from '../revolve/solve.js';
import { anywhere, type ReadSweep, type Sweep, sweepOf, sweepReader } from '../revolve/sweep.js';
import { emptyPlace, placeAt, type Stretch, type SweptCurve, sweptCurve } from '../revolve/swept-curve.js';
import { noseOnSphere } from './scallop.js';
import { degrees, nosePath, type SphereTarget, sphereTarget, type Zone, zoneOf } from './target.js';

/** What every path needs. */
export interface PathOptions {
  /** Farthest that the path may stand off a chord between two points, above 0. */
  readonly chordalTolerance: number;
  /**
   * Whose points they are: the centre of the tool's nose, or the finished surface. Of a sharp tool both are the same.
   * @defaultValue `nose-centre`
   */
  readonly pointsOf?: 'nose-centre' | 'surface';
}

/** A sphere: the part that is wanted, cut by the sweep that covers just this part or by one as it really is. */
export interface SpherePathOptions extends PathOptions {
  /** The part that is wanted. */
  readonly target: SphereTarget;
  /**
   * The sweep as it really is, errors and nose included.
   * @defaultValue The sweep that covers just this part and cuts no stem.
   */
  readonly sweep?: Sweep;
  /** Radius of the tool's nose, if no sweep says it. @defaultValue 0: a sharp point. */
  readonly noseRadius?: number;
}

/** A taper: the surface of a straight path, and how much of it. */
export interface LinePathOptions extends PathOptions {
  /** The surface that is wanted, as `revolveLine` gives it; not a face. */
  readonly surface: LineSurface;
  /** Where the path begins along the work's axis: the place on the surface. */
  readonly fromZ: number;
  /** Where it ends, above or below. */
  readonly toZ: number;
  /** Whether the tool cuts from outside or in a bore. @defaultValue `outside` */
  readonly cuts?: 'outside' | 'bore';
  /** Radius of the tool's nose. @defaultValue 0: a sharp point. */
  readonly noseRadius?: number;
}

/** What {@link toolPathPoints} needs. */
export type ToolPathOptions = SpherePathOptions | LinePathOptions;

const PATH = { chordalTolerance: positive, pointsOf: defaulted(choice('nose-centre', 'surface'), 'nose-centre') };
const SPHERE: Fields<SpherePathOptions, 'pointsOf'> = {
  ...PATH,
  target: sphereTarget,
  sweep: optional(sweepReader),
  noseRadius: optional(nonNegative),
};
const LINE: Fields<LinePathOptions, 'pointsOf' | 'cuts' | 'noseRadius'> = {
  ...PATH,
  surface: lineSurface,
  fromZ: anywhere,
  toZ: anywhere,
  cuts: defaulted(choice('outside', 'bore'), 'outside'),
  noseRadius: defaulted(nonNegative, 0),
};

/**
 * Points for a tool path, or of the part that it leaves: z along the work's axis and distance from it, so that
 * every chord between two of them stays within the tolerance.
 *
 * A sphere runs from its free end (the pole of a ball, the bottom of a socket) to its far end; z is from where the
 * axes meet or pass, positive towards the free end. A mis-set sweep gives the part that it really leaves, ends
 * included; where it runs out over a flat or through an opening, the part ends there. With skew and a nose the
 * surface ends where {@link sweepSurface} ends its form. A taper runs from `fromZ` to `toZ`.
 * @param options - A sphere's target with or without its sweep, or a line's surface with its ends; the tolerance.
 * @returns The points in order, both ends included. They can be fitted with `minimumZoneSphere`.
 * @throws GeneratrixError `out-of-range` for a tolerance that would take more than 100,000 points, or is lost in
 * rounding; `impossible-geometry` for a face, or for a nose too large for the surface.
 * @example
 * ```ts
 * import { revolveLine, toolPathPoints } from 'generatrix';
 * const target = { part: 'ball-on-stem', diameter: 32, stemDiameter: 14 } as const;
 * const path = toolPathPoints({ target, noseRadius: 0.8, chordalTolerance: 0.001 });
 * path.length; // => 125
 * path[0]?.z.toFixed(3); // => '16.800'
 * // A cone is straight: its two ends are enough.
 * const surface = revolveLine({ point: [10, 0, 0], direction: [1, 0, 20] });
 * toolPathPoints({ surface, fromZ: 0, toZ: 40, chordalTolerance: 0.001 }); // => [{ z: 0, radius: 10 }, { z: 40, radius: 12 }]
 * ```
 */
export function toolPathPoints(options: ToolPathOptions): readonly MeridianPoint[] {
  return isLine(options) ? linePath(read(options, LINE)) : spherePath(read(options, SPHERE));
}

function isLine(options: unknown): options is LinePathOptions {
  return typeof options === 'object' && options !== null && 'surface' in options;
}

type Given<T extends PathOptions> = T & Required<Pick<PathOptions, 'pointsOf'>>;

function spherePath(given: Given<SpherePathOptions>): MeridianPoint[] {
  const zone = zoneOf(given.target);
  const { pointsOf, noseRadius, sweep } = given;
  if (sweep && noseRadius !== undefined) {
    return refuse('contradiction', 'noseRadius', noseRadius, 'must be given within the sweep');
  }
  const curve = sweptCurve(sweep ? sweepOf(sweep) : trueSweep(zone, noseRadius ?? 0), zone.side);
  const size = curve.endRadius + Math.abs(curve.offset);
  finer(given.chordalTolerance, size);
  const offset = pointsOf === 'surface' && curve.offset !== 0;
  const cut = emptyPlace();
  const points = curve.pieces
    .map((piece) => onPart(curve, piece, zone))
    .reverse()
    .map(([low, high]) => {
      const turn = (s: number): number => (s === 0 ? high : s === 1 ? low : high + (low - high) * s);
      return polyline(
        (s, into) => {
          const t = turn(s);
          if (offset) placeAt(curve, t, cut);
          else pathAt(curve.sweep, Math.sin(t), Math.cos(t), cut);
          into.z = cut.z;
          into.radius = cut.rho;
        },
        [0, ...nearest(curve, low, high), 1],
        given.chordalTolerance,
      );
    });
  return points.flat();
}

/** The sweep that covers a zone and cuts no stem. */
function trueSweep(zone: Zone, noseRadius: number): ReadSweep {
  noseOnSphere(zone.side, zone.radius, noseRadius, 'noseRadius');
  const { radius, middle, half } = nosePath(zone, noseRadius);
  return {
    tiltDeg: degrees(middle.rad),
    tilt: middle.rad,
    sin: middle.sin,
    cos: middle.cos,
    radius: radius * half.sin,
    distance: radius * half.cos,
    skew: 0,
    noseRadius,
    shift: 0,
  };
}

/** The stretch of a piece on which there is a part: up to a flat, up to an opening. */
function onPart(curve: SweptCurve, [low, high]: Stretch, { part, rims }: Zone): Stretch {
  if (part !== 'ball-end' && part !== 'socket') return [low, high];
  const limit = part === 'socket' ? rims.toHeight : rims.fromHeight;
  const cut = emptyPlace();
  const above = (t: number): number => {
    placeAt(curve, t, cut);
    return cut.z - limit;
  };
  if (above(low) >= 0 || above(high) <= 0) return [low, high];
  const end = rootBetween(above, low, high);
  return part === 'socket' ? [end, high] : [low, end];
}

/** Where a sharp tool passes nearest to the axis its meridian turns at once: places between 0 and 1, from the high end. */
function nearest({ sweep }: SweptCurve, low: number, high: number): number[] {
  const e = Math.abs(sweep.skew);
  if (e === 0 || e >= sweep.radius) return [];
  const turn = Math.asin(e / sweep.radius);
  const turns = sweep.skew < 0 ? [Math.PI - turn, turn] : [Math.PI + turn, 2 * Math.PI - turn];
  return turns
    .map((t) => (t - high) / (low - high))
    .filter((s) => s > 0 && s < 1)
    .sort((a, b) => a - b);
}

function linePath(
  given: Given<LinePathOptions> & Required<Pick<LinePathOptions, 'cuts' | 'noseRadius'>>,
): MeridianPoint[] {
  const { surface, fromZ, toZ, cuts, noseRadius, pointsOf, chordalTolerance } = given;
  if (fromZ === toZ) return refuse('out-of-range', 'toZ', toZ, 'must differ from fromZ');
  const { waistZ, perSide } = hyperbola(surface);
  const offset = pointsOf === 'surface' ? 0 : cuts === 'bore' ? -noseRadius : noseRadius;
  finer(
    chordalTolerance,
    Math.max(Math.abs(fromZ), Math.abs(toZ), lineRadiusAt(surface, fromZ), lineRadiusAt(surface, toZ)),
  );
  const apex = (waistZ - fromZ) / (toZ - fromZ);
  if (surface.kind === 'cone' && apex > 0 && apex < 1) {
    return refuse('impossible-geometry', 'toZ', toZ, 'must not lie beyond the apex from fromZ');
  }
  return polyline(
    (s, into) => {
      const z = s === 0 ? fromZ : s === 1 ? toZ : fromZ + (toZ - fromZ) * s;
      const radius = lineRadiusAt(surface, z);
      // Right up to an apex a cone has the slope that it has elsewhere.
      const at = surface.kind === 'cone' ? (fromZ + toZ) / 2 : z;
      const slope = perSide === 0 ? 0 : ((at - waistZ) * perSide * perSide) / lineRadiusAt(surface, at);
      const along = offset / Math.sqrt(1 + slope * slope);
      into.z = z - slope * along;
      into.radius = radius + along;
      if (into.radius < 0) refuse('impossible-geometry', 'noseRadius', noseRadius, 'must fit into the bore');
    },
    [0, 1],
    chordalTolerance,
  );
}

/** Refuses a tolerance that rounding would drown. */
function finer(tolerance: number, size: number): void {
  if (!(tolerance > 1e-12 * size)) {
    refuse('out-of-range', 'chordalTolerance', tolerance, 'must be more than a millionth of a millionth of the path');
  }
}
