/**
 * Whether head and tool stay clear of the work. The head is a cylinder about the spindle axis behind the
 * plane of the sweep; the tool a square-ended bar on it. In coordinates of the spindle, c along its axis from
 * the sphere's centre and j beside it:
 *
 * - ball: the head's face crosses the spindle axis, so it clears the ball from c = R on; what stands
 *   round the work axis (stem, shoulder, chuck) meets head or tool first in the plane of the two axes,
 *   since all are convex and symmetric about that plane: the greatest c of a strip's corners is enough;
 * - socket: what of the head lies below the face, c cos α + j sin α > height of the face, must lie within
 *   the sphere, c² + j² < R²; this region is a polygon in (c, j), so its corners are enough.
 *
 * Derived here; proved in tests/sphere/clearance.test.ts by points of head and tool in space.
 */
import { refuse } from '../../core/errors.js';
import {
  array,
  defaulted,
  type Fields,
  type Filled,
  nonNegative,
  number,
  object,
  optional,
  positive,
  read,
  readValue,
  sound,
  text,
} from '../../core/read.js';
import { anywhere } from '../../revolve/sweep.js';
import { centreRadius } from '../scallop.js';
import { degrees, isOnStem, nosePath, type Zone, zoneOf } from '../target.js';
import { CUT, cutOf, type ReadCut, type SphereCut, type StatedCut } from './cut.js';

/** Something round about the work axis that is in the way: a shoulder, a chuck, the table. */
export interface Obstacle {
  /** What it is, for the result. */
  readonly name: string;
  /** Its diameter. */
  readonly diameter: number;
  /** Height of its end that faces the ball, from the sphere's centre; it reaches away from the free end. */
  readonly height: number;
}

/** What {@link sweepClearance} needs. */
export type SweepClearanceOptions = SphereCut & {
  /** Diameter of the head. */
  readonly headDiameter: number;
  /** From the plane of the sweep (of the nose's centre) to the head's face. Default: the least that clears. */
  readonly reach?: number;
  /** How far the tool reaches outward from the nose's centre round a ball. Default: the nose radius. */
  readonly toolWidth?: number;
  /** What else stands round the work axis of a ball. */
  readonly obstacles?: readonly Obstacle[];
};

/** How far two things are apart. */
export interface Clearance {
  /** What might touch: `head-ball`, `tool-stem`, `head-rim`, `tool-chuck`, … */
  readonly between: string;
  /** Distance left; negative where they would overlap. */
  readonly distance: number;
  /** Whether it is measured along the spindle or square to the stem's or the spindle's axis. */
  readonly measured: 'along-spindle' | 'radially';
}

/** What is clear and what is not. */
export interface SweepClearance {
  /** Least distance from the plane of the sweep to the head's face that clears everything. */
  readonly leastReach: number;
  /** All distances at the reach given, the smallest first. */
  readonly clearances: readonly Clearance[];
  /** What touches first, or null if nothing overlaps. */
  readonly firstCollision: string | null;
  /**
   * Polar angle up to which the nose may cut before it meets the stem; beyond it a fillet of the nose's
   * radius must stay. Null without a stem.
   */
  readonly stemLimitDeg: number | null;
}

/**
 * Whether the head and the tool clear ball, stem, obstacles or the rim of a socket, and how far the
 * tool must stand out of the head.
 *
 * The tool is taken as a square-ended bar, so against obstacles the distance may be too small by up to the
 * nose radius. Check by hand, with the spindle stopped and out of gear, before cutting.
 * @throws GeneratrixError for refused arguments; `impossible-geometry` for a spindle that misses the opening.
 * @example
 * ```ts
 * import { sweepClearance } from 'generatrix/sphere';
 * const target = { part: 'ball-on-stem', diameter: 50, stemDiameter: 25 } as const;
 * sweepClearance({ target, headDiameter: 60 }).leastReach.toFixed(4); // => '18.5295'
 * sweepClearance({ target, headDiameter: 60, reach: 15 }).firstCollision; // => 'head-ball'
 * sweepClearance({ target, headDiameter: 60, reach: 25 }).firstCollision; // => null
 * ```
 */
export function sweepClearance(options: SweepClearanceOptions): SweepClearance {
  const given = read<Stated, 'obstacles'>(options, CLEARANCE);
  const cut = cutOf(given);
  const head = given.headDiameter / 2;
  const zone = given.target && zoneOf(given.target);
  const plane = centreRadius(cut) * Math.cos(cut.half);
  const parts = cut.side === 'ball' ? aroundBall(given, cut, zone, head) : inSocket(given, cut, zone, head);
  const leastReach = Math.max(0, ...parts.head.map(({ needed }) => needed - plane));
  const reach = given.reach ?? leastReach;
  const clearances = [
    ...parts.head.map(
      ({ between, needed }): Clearance => ({ between, distance: plane + reach - needed, measured: 'along-spindle' }),
    ),
    ...parts.tool,
  ].sort((a, b) => a.distance - b.distance);
  // Rounding at the very reach that just clears is no collision.
  const dust = 1e-12 * cut.radius;
  const first = clearances.find(({ distance }) => distance < -dust);
  const result = { leastReach, clearances, firstCollision: first?.between ?? null, stemLimitDeg: stemLimit(cut, zone) };
  return sound(result, 'headDiameter');
}

type Stated = StatedCut & Pick<SweepClearanceOptions, 'headDiameter' | 'reach' | 'toolWidth' | 'obstacles'>;
type Given = Filled<Stated, 'obstacles'>;
const OBSTACLE: Fields<Obstacle> = { name: text(60), diameter: positive, height: anywhere };
const CLEARANCE: Fields<Stated, 'obstacles'> = {
  ...CUT,
  headDiameter: positive,
  reach: optional(nonNegative),
  toolWidth: optional(nonNegative),
  obstacles: defaulted(array(object(OBSTACLE)), []),
};

/** What the head needs (as a distance of its face from the sphere's centre) and what the tool has. */
interface Parts {
  readonly head: readonly { readonly between: string; readonly needed: number }[];
  readonly tool: readonly Clearance[];
}

function aroundBall(given: Given, cut: ReadCut, zone: Zone | undefined, head: number): Parts {
  const { radius, noseRadius, tilt, half } = cut;
  const width = readValue(given.toolWidth ?? noseRadius, number({ min: noseRadius }), 'toolWidth');
  const centres = centreRadius(cut);
  const front = centres * Math.cos(half) - noseRadius;
  const outer = centres * Math.sin(half) + width;
  const needs = [{ between: 'head-ball', needed: radius }];
  const tool: Clearance[] = [];
  for (const { name, diameter, height } of given.obstacles) {
    const toHead = farthest(diameter / 2, height, head, tilt);
    const toTool = farthest(diameter / 2, height, outer, tilt);
    if (toHead !== null) needs.push({ between: `head-${name}`, needed: toHead });
    if (toTool !== null) tool.push({ between: `tool-${name}`, distance: front - toTool, measured: 'along-spindle' });
  }
  if (zone && isOnStem(zone)) {
    tool.push({
      between: 'tool-stem',
      distance: centres * Math.sin(tilt + half) - noseRadius - zone.rims.toDiameter / 2,
      measured: 'radially',
    });
  }
  if (zone?.part === 'ball-between-stems') {
    tool.push({
      between: 'tool-free-stem',
      distance: centres * Math.sin(tilt - half) - noseRadius - zone.rims.fromDiameter / 2,
      measured: 'radially',
    });
    // The free stem stands on the other side: the same seen upside down.
    const needed = farthest(zone.rims.fromDiameter / 2, -zone.rims.fromHeight, head, Math.PI - tilt);
    if (needed !== null) needs.push({ between: 'head-free-stem', needed });
  }
  return { head: needs, tool };
}

/**
 * Greatest distance c along the spindle axis of the places of a cylinder (edge a, end at height z) that lie
 * within j ≤ q of that axis: a linear programme in the plane of the axes, solved at its corners.
 */
function farthest(a: number, end: number, q: number, tilt: number): number | null {
  const [sin, cos] = [Math.sin(tilt), Math.cos(tilt)];
  const limits: readonly (readonly [number, number, number])[] = [
    [1, 0, a],
    [-1, 0, a],
    [0, 1, end],
    [cos, -sin, q],
    [-cos, sin, q],
  ];
  const slack = 1e-12 * (a + Math.abs(end) + q);
  let best: number | null = null;
  limits.forEach(([ax, az, ab], index) => {
    for (const [bx, bz, bb] of limits.slice(index + 1)) {
      const determinant = ax * bz - az * bx;
      if (Math.abs(determinant) < 1e-15) continue;
      const [x, z] = [(ab * bz - az * bb) / determinant, (ax * bb - ab * bx) / determinant];
      const c = x * sin + z * cos;
      const within = limits.every(([lx, lz, lb]) => lx * x + lz * z <= lb + slack);
      if (within && (best === null || c > best)) best = c;
    }
  });
  return best;
}

function inSocket(given: Given, cut: ReadCut, zone: Zone | undefined, head: number): Parts {
  const { obstacles, toolWidth } = given;
  if (obstacles.length > 0) return refuse('contradiction', 'obstacles', obstacles, 'must be left out for a socket');
  if (toolWidth !== undefined) return refuse('contradiction', 'toolWidth', toolWidth, 'must be left out for a socket');
  const { radius, noseRadius, tilt, half } = cut;
  const opening = zone === undefined ? tilt + half : zone.to;
  const [sin, cos] = [Math.sin(tilt), Math.cos(tilt)];
  if (tilt >= Math.PI / 2 || tilt >= opening) {
    return refuse('impossible-geometry', cut.said, degrees(tilt), 'must let the spindle in by the opening');
  }
  // The line of the face crosses the sphere at the angles tilt ± opening from the spindle axis: the farther
  // one is as wide as anything can be that enters.
  const widest = radius * Math.sin(Math.min(Math.PI, tilt + opening));
  const face = radius * Math.cos(opening);
  const enters = head <= widest;
  // The head stands on the other side of its face than at a ball: all signs turn.
  const limit = enters ? Math.sqrt((radius - head) * (radius + head)) : (face - head * sin) / cos;
  const plane = centreRadius(cut) * Math.cos(half);
  return {
    head: [{ between: enters ? 'head-socket' : 'head-rim', needed: 2 * plane - limit }],
    tool: [
      {
        between: 'tool-rim',
        distance: widest - (centreRadius(cut) * Math.sin(half) + noseRadius),
        measured: 'radially',
      },
    ],
  };
}

/** The nose touches sphere and stem where sin φ = (d/2 + n)/(R + n). */
function stemLimit(cut: ReadCut, zone: Zone | undefined): number | null {
  if (!zone || !isOnStem(zone)) return null;
  return degrees(nosePath({ ...zone, radius: cut.radius }, cut.noseRadius).to);
}
