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
import { refuse } from '../../core/errors.js';
import { defaulted, type Fields, nonNegative, optional, positive, read, sound, whole } from '../../core/read.js';
import { say, tell } from '../../core/words.js';
import { exactlyOne } from '../either.js';
import { centreRadius, type NoseOnSphere, noseOnSphere } from '../scallop.js';
import { degrees, type SphereTarget, sphereTarget, type Zone, zoneOf } from '../target.js';
import { edgeHeight } from './edge.js';

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
export interface SphereStepsOptions {
  /** The part that is wanted. */
  readonly target: SphereTarget;
  /**
   * Radius of the tool's corner, less than a socket's radius, at most a million times a ball's.
   * @defaultValue 0: a square corner.
   */
  readonly noseRadius?: number;
  /**
   * Number of steps between the ends of the surface, 1 to 2000; a ball stepped from both ends needs 2.
   * @defaultValue As many as `leftover` needs.
   */
  readonly steps?: number;
  /** Height of edge that must not be exceeded. @defaultValue The least that the number of steps can reach. */
  readonly leftover?: number;
}

/** More steps than this nobody turns by hand. */
const MOST_STEPS = 2000;

const OPTIONS: Fields<SphereStepsOptions, 'noseRadius'> = {
  target: sphereTarget,
  noseRadius: defaulted(nonNegative, 0),
  steps: optional(whole({ min: 1, max: MOST_STEPS })),
  leftover: optional(positive),
};

/** A stretch that is stepped in one direction: polar angles from its own pole, at most 90 degrees. */
interface Stretch {
  readonly from: SphereStep['from'];
  readonly start: number;
  readonly end: number;
}

/**
 * The table of positions that cuts a sphere by steps, all edges left as evenly high as can be.
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
export function sphereSteps(options: SphereStepsOptions): SphereSteps {
  const given = read(options, OPTIONS);
  exactlyOne(given, 'steps', 'leftover');
  const zone = zoneOf(given.target);
  const nose = noseOnSphere(zone.side, zone.radius, given.noseRadius, 'noseRadius');
  const stretches = stretchesOf(zone, nose);
  const counts = given.steps === undefined ? needed(given, nose, stretches) : shared(given.steps, nose, stretches);
  const runs = stretches.map((stretch, index) => evenRun(nose, stretch, counts[index] as number));
  return sound({
    leftover: Math.max(...runs.map(({ height }) => height)),
    steps: runs.flatMap(({ angles }, index) => table(zone, nose, stretches[index] as Stretch, angles)),
  });
}

/** What is stepped from the free end, and on a ball past its widest place also from the far end. */
function stretchesOf(zone: Zone, nose: NoseOnSphere): readonly Stretch[] {
  const { fromDiameter, fromHeight, toDiameter, toHeight } = zone.rims;
  const { noseRadius } = nose;
  const centres = centreRadius(nose);
  if (zone.side === 'socket') {
    if (toHeight < 0) {
      return refuse('impossible-geometry', 'target', -toHeight, 'must be at most half a sphere for plain boring');
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

/** The fewest steps of each stretch that keep to a height. */
function needed(
  { leftover = Infinity }: SphereStepsOptions,
  nose: NoseOnSphere,
  stretches: readonly Stretch[],
): readonly number[] {
  const counts = stretches.map(({ start, end }) => {
    let [angle, count] = [start, 0];
    while (angle < end && count <= MOST_STEPS) {
      angle = next(nose, angle, end, leftover);
      count++;
    }
    return count;
  });
  if (counts.reduce((sum, count) => sum + count, 0) <= MOST_STEPS) return counts;
  return refuse('beyond-machine', 'leftover', leftover, say`must be reached in at most ${tell(MOST_STEPS)} steps`);
}

/** So many steps shared among the stretches that the highest edge is as low as can be. */
function shared(steps: number, nose: NoseOnSphere, stretches: readonly Stretch[]): readonly number[] {
  const [free, far] = stretches as [Stretch, Stretch | undefined];
  if (far === undefined) return [steps];
  if (steps < 2) {
    const phrase = 'must be at least 2: this ball is stepped from both ends';
    return refuse('out-of-range', 'steps', steps, { kind: 'number', min: 2, max: MOST_STEPS, whole: true, phrase });
  }
  const heights = (count: number): readonly [number, number] => [
    evenRun(nose, free, count).height,
    evenRun(nose, far, steps - count).height,
  ];
  // The more steps one has, the lower its edges and the higher the other's: the best share is where they cross.
  let [few, many] = [1, steps - 1];
  while (few < many) {
    const middle = Math.floor((few + many) / 2);
    const [atFree, atFar] = heights(middle);
    if (atFree <= atFar) many = middle;
    else few = middle + 1;
  }
  const best = few > 1 && Math.max(...heights(few - 1)) < Math.max(...heights(few)) ? few - 1 : few;
  return [best, steps - best];
}

/** So many stops of a stretch with all edges equally high: the height is where the last edge is like the others. */
function evenRun(
  nose: NoseOnSphere,
  { start, end }: Stretch,
  count: number,
): { readonly height: number; readonly angles: readonly number[] } {
  const stops = (height: number): number[] => {
    const angles = [start];
    while (angles.length < count) angles.push(next(nose, angles[angles.length - 1] as number, end, height));
    return angles;
  };
  const single = edgeHeight(nose, start, end);
  const height = risingRoot((h) => h - edgeHeight(nose, stops(h)[count - 1] as number, end), 0, single, -single, 0);
  const angles = [...stops(height), end];
  const heights = angles.slice(1).map((angle, index) => edgeHeight(nose, angles[index] as number, angle));
  return { height: Math.max(0, ...heights), angles };
}

/** The stop after `angle` that leaves an edge of this height, or the end if that leaves none higher. */
function next(nose: NoseOnSphere, angle: number, end: number, height: number): number {
  if (edgeHeight(nose, angle, end) <= height) return end;
  if (nose.noseRadius > 0)
    return risingRoot((to) => edgeHeight(nose, angle, to) - height, angle, end, -height, 1e-14 * height);
  const share = height / nose.radius;
  const grown = Math.sin(angle) ** 2 + share * (nose.side === 'ball' ? 2 + share : 2 - share);
  return Math.min(end, Math.asin(Math.sqrt(Math.min(1, grown))));
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

/** Where a rising function, `atA` at a and above 0 at b, is 0, give or take `enough`: false position, the Illinois way (Dowell, Jarratt 1971). */
function risingRoot(f: (x: number) => number, a: number, b: number, atA: number, enough: number): number {
  let [low, high, atLow, atHigh, last] = [a, b, atA, f(b), 0];
  let root = high;
  for (let turn = 0; turn < 100; turn++) {
    const cut = low - (atLow / (atHigh - atLow)) * (high - low);
    if (!(cut > low && cut < high)) break;
    root = cut;
    const value = f(cut);
    if (Math.abs(value) <= enough) break;
    const now = value > 0 ? 1 : -1;
    if (now > 0) {
      [high, atHigh] = [cut, value];
      if (last === now) atLow /= 2;
    } else {
      [low, atLow] = [cut, value];
      if (last === now) atHigh /= 2;
    }
    last = now;
  }
  return root;
}
