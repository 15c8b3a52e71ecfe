/**
 * A sphere by steps of plain turning and facing (a ball) or boring (a socket): the tool stops where its
 * corner touches the sphere, and the corners between the steps are left to be blended by hand.
 *
 * With a round corner of radius n the corner's centre stops on the radius R + n (ball) or R - n
 * (socket). A step then clears everything within n of the quadrant that its centre has run over, so the
 * corner left between two steps is a square edge, or an edge on one or both of the fillets.
 * With a square corner all edges are equally high when the squares of the radii turned grow evenly:
 * over a whole quarter in N steps R (sqrt(1 + 1/N) - 1) is left on a ball, R (1 - sqrt(1 - 1/N)) in a socket.
 * Heights are along the work axis from the sphere's centre, positive towards the pole. Radians inside.
 * Derived here; proved in tests/sphere/steps.test.ts against the cleared regions themselves.
 */
import { nonNegative, options, positive, whole } from '../core/checks.js';
import { refuse } from '../core/errors.js';
import { fits } from './cut.js';
import { centreRadius, type NoseOnSphere, ridgeHeight } from './scallop.js';
import { degrees, readTarget, type SphereTarget, type Zone } from './target.js';

/** One step: turn, face or bore to these two stops. */
export interface SphereStep {
  /** From which end the tool works: a ball past its widest place is stepped from both ends. */
  readonly from: 'free-end' | 'far-end';
  /** Polar angle where the tool's corner touches the sphere, from the free end's pole. */
  readonly polarAngleDeg: number;
  /** Diameter to turn or to bore. */
  readonly diameter: number;
  /** Height of the shoulder or of the bore's end, from the sphere's centre. */
  readonly height: number;
  /** The same from the free end of the ball, or down from the face of the socket. */
  readonly depth: number;
  /** Distance of the centre of the tool's corner from the work axis. */
  readonly centreRadius: number;
  /** Height of the centre of the tool's corner. */
  readonly centreHeight: number;
}

/** A sphere cut by steps. */
export interface SphereSteps {
  /** The highest edge left, square to the sphere. */
  readonly leftover: number;
  /** The steps, from each end towards the widest place. */
  readonly steps: readonly SphereStep[];
}

/** What {@link sphereSteps} needs: either `steps` or `leftover`. */
export interface SphereStepsInput {
  /** The part that is wanted. */
  readonly target: SphereTarget;
  /** Radius of the tool's corner. Default 0: a square corner. */
  readonly noseRadius?: number;
  /** Number of steps between the ends of the surface, 1 to 2000; a ball stepped from both ends needs 2. */
  readonly steps?: number;
  /** Height of edge that must not be exceeded. */
  readonly leftover?: number;
}

/** More steps than this nobody turns by hand. */
const MOST_STEPS = 2000;

/** A stretch that is stepped in one direction: polar angles from its own pole, at most 90 degrees. */
interface Stretch {
  readonly from: SphereStep['from'];
  readonly start: number;
  readonly end: number;
}

/**
 * The table of positions that cuts a sphere by steps, all edges left as evenly high as can be.
 *
 * @param input - Part, tool corner, and the number of steps or the height allowed.
 * @returns The steps and the highest edge that they leave.
 * @throws GeneratrixError `impossible-geometry` for a socket deeper than half a sphere, `out-of-range`
 * where more than 2000 steps would be needed, `contradiction` or `missing-option` for both or none of steps and leftover.
 * @example
 * ```ts
 * import { sphereSteps } from 'generatrix/sphere';
 * const dome = { part: 'cap', radius: 20, height: 20 } as const;
 * const { leftover, steps } = sphereSteps({ target: dome, steps: 4 });
 * leftover.toFixed(4); // => '2.3607'
 * steps.map(({ diameter }) => diameter.toFixed(2)); // => ['0.00', '20.00', '28.28', '34.64', '40.00']
 * steps.map(({ depth }) => depth.toFixed(2)); // => ['0.00', '2.68', '5.86', '10.00', '20.00']
 * ```
 */
export function sphereSteps(input: SphereStepsInput): SphereSteps {
  const given = options(input, 'input', ['target'], ['noseRadius', 'steps', 'leftover']);
  const zone = readTarget(given['target'] as SphereTarget);
  const noseRadius = nonNegative(given['noseRadius'] ?? 0, 'input.noseRadius');
  fits(zone.side, zone.radius, noseRadius, 'input.noseRadius');
  const nose = { side: zone.side, radius: zone.radius, noseRadius };
  const stretches = stretchesOf(zone, nose);
  const most = allowedLeftover(given, nose, stretches);
  const runs = stretches.map((stretch) => evenRun(nose, stretch, run(nose, stretch, most).length - 1));
  return {
    leftover: Math.max(...runs.map(({ height }) => height)),
    steps: runs.flatMap(({ angles }, index) => table(zone, nose, stretches[index] as Stretch, angles)),
  };
}

/** What is stepped from the free end, and on a ball past its widest place also from the far end. */
function stretchesOf(zone: Zone, nose: NoseOnSphere): readonly Stretch[] {
  const { fromDiameter, fromHeight, toDiameter, toHeight } = zone.rims;
  const { noseRadius } = nose;
  const centres = centreRadius(nose);
  if (zone.side === 'socket') {
    if (toHeight < 0) {
      return refuse('impossible-geometry', 'input.target', -toHeight, 'must be at most half a sphere for plain boring');
    }
    return [{ from: 'free-end', start: 0, end: Math.acos(Math.max(0, (toHeight - noseRadius) / centres)) }];
  }
  // The corner of the first step turns the stem, or faces the free end, and touches the sphere.
  const beside = (diameter: number): number => Math.asin(Math.min(1, (diameter / 2 + noseRadius) / centres));
  const start =
    zone.part === 'ball-between-stems'
      ? beside(fromDiameter)
      : zone.from === 0
        ? 0
        : Math.acos(Math.min(1, (fromHeight + noseRadius) / centres));
  const end = beside(toDiameter);
  if (toHeight >= 0) return [{ from: 'free-end', start, end }];
  return [
    { from: 'free-end', start, end: Math.PI / 2 },
    { from: 'far-end', start: end, end: Math.PI / 2 },
  ];
}

/** The height that all edges may have: as given, or the least that the number of steps can reach. */
function allowedLeftover(
  given: Readonly<Record<string, unknown>>,
  nose: NoseOnSphere,
  stretches: readonly Stretch[],
): number {
  if ((given['steps'] === undefined) === (given['leftover'] === undefined)) {
    const code = given['steps'] === undefined ? 'missing-option' : 'contradiction';
    return refuse(code, 'input', Object.keys(given), 'must give either steps or leftover');
  }
  const needed = (height: number): number =>
    stretches.reduce((sum, stretch) => sum + run(nose, stretch, height).length - 1, 0);
  if (given['leftover'] !== undefined) {
    const height = positive(given['leftover'], 'input.leftover');
    return needed(height) <= MOST_STEPS
      ? height
      : refuse('out-of-range', 'input.leftover', height, `must be reached in at most ${MOST_STEPS} steps`);
  }
  const steps = whole(given['steps'], 'input.steps', { min: stretches.length, max: MOST_STEPS });
  let [low, high] = [0, nose.radius];
  while (needed(high) > steps) high *= 2;
  for (let turn = 0; turn < 60; turn++) {
    const middle = (low + high) / 2;
    if (needed(middle) > steps) low = middle;
    else high = middle;
  }
  return high;
}

/** Angles of the stops, each as far on as the height allows, up to the end or to one step more than `most`. */
function run(nose: NoseOnSphere, { start, end }: Stretch, height: number, most = MOST_STEPS): number[] {
  const angles = [start];
  let angle = start;
  while (angle < end && angles.length <= most + 1) {
    angle = edgeHeight(nose, angle, end) <= height ? end : next(nose, angle, end, height);
    angles.push(angle);
  }
  return angles;
}

/** The same number of stops with all edges equally high. */
function evenRun(nose: NoseOnSphere, stretch: Stretch, count: number): { height: number; angles: readonly number[] } {
  let [low, high] = [0, Math.max(edgeHeight(nose, stretch.start, stretch.end), Number.MIN_VALUE)];
  for (let turn = 0; turn < 60; turn++) {
    const middle = (low + high) / 2;
    if (run(nose, stretch, middle, count).length - 1 > count) low = middle;
    else high = middle;
  }
  const angles = run(nose, stretch, high, count);
  const heights = angles.slice(1).map((angle, index) => edgeHeight(nose, angles[index] as number, angle));
  return { height: Math.max(0, ...heights), angles };
}

/** The stop after `angle` that leaves an edge of this height. */
function next(nose: NoseOnSphere, angle: number, end: number, height: number): number {
  const share = height / nose.radius;
  if (nose.noseRadius === 0) {
    const grown = Math.sin(angle) ** 2 + share * (nose.side === 'ball' ? 2 + share : 2 - share);
    return Math.min(end, Math.asin(Math.sqrt(Math.min(1, grown))));
  }
  let [low, high] = [angle, end];
  for (let turn = 0; turn < 60; turn++) {
    const middle = (low + high) / 2;
    if (edgeHeight(nose, angle, middle) <= height) low = middle;
    else high = middle;
  }
  return high;
}

/** Height of the edge between the steps that stop at two angles, first < second ≤ 90°. */
function edgeHeight(nose: NoseOnSphere, first: number, second: number): number {
  const { side, radius, noseRadius: n } = nose;
  const out = side === 'ball' ? 1 : -1;
  const centres = centreRadius(nose);
  const stop = (angle: number): { x: number; z: number } => ({
    x: centres * Math.sin(angle),
    z: centres * Math.cos(angle),
  });
  // `wide` makes the edge's cylinder, `flat` its plane: on a ball the second and the first, in a socket the other way.
  const [wide, flat] = side === 'ball' ? [stop(second), stop(first)] : [stop(first), stop(second)];
  const square = { x: wide.x - out * n, z: flat.z - out * n };
  const onFlatFillet = out * (flat.x - square.x) > 0;
  const onWideFillet = out * (wide.z - square.z) > 0;
  const arc = (past: number): number => Math.sqrt(Math.max(0, (n - past) * (n + past)));
  const edge = onFlatFillet
    ? { x: square.x, z: flat.z - out * arc(flat.x - square.x) }
    : onWideFillet
      ? { x: wide.x - out * arc(wide.z - square.z), z: square.z }
      : square;
  const alone = onFlatFillet ? out * (edge.z - wide.z) >= 0 : !onWideFillet || out * (edge.x - flat.x) >= 0;
  if (alone) return out * (Math.hypot(edge.x, edge.z) - radius);
  if (onFlatFillet && onWideFillet) {
    const other = { x: wide.x - out * arc(wide.z - square.z), z: square.z };
    if (out * (other.x - flat.x) >= 0) return out * (Math.hypot(other.x, other.z) - radius);
  }
  return ridgeHeight(nose, Math.sin((second - first) / 2));
}

function table(zone: Zone, nose: NoseOnSphere, { from }: Stretch, angles: readonly number[]): SphereStep[] {
  const out = nose.side === 'ball' ? 1 : -1;
  const { fromHeight, toHeight } = zone.rims;
  const side = from === 'free-end' ? 1 : -1;
  const centres = centreRadius(nose);
  const shift = out * nose.noseRadius;
  return angles.flatMap((angle, index) => {
    const quarter = angle === Math.PI / 2;
    const [sin, cos] = [quarter ? 1 : Math.sin(angle), quarter ? 0 : Math.cos(angle)];
    // A socket's last stop may lie in its face, and the widest place of a ball is turned once.
    const height = side * (centres * cos - shift) + 0;
    const isFace = nose.side === 'socket' && index === angles.length - 1 && height <= toHeight * (1 + 1e-14);
    if (isFace || (from === 'far-end' && quarter)) return [];
    return [
      {
        from,
        polarAngleDeg: from === 'free-end' ? degrees(angle) : degrees(Math.PI - angle),
        diameter: 2 * Math.max(0, centres * sin - shift),
        height,
        depth: Math.abs(nose.side === 'ball' ? fromHeight - height : height - toHeight),
        centreRadius: centres * sin,
        centreHeight: side * centres * cos + 0,
      },
    ];
  });
}
