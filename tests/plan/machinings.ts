/**
 * Parts cut in space with every setting off by its own error: paths of points, revolved about the work axis by
 * taking distances from it. Shares no formula with the plan; only what to set comes from the library.
 */
import { uniformFloat64 } from 'pure-rand/distribution/uniformFloat64';
import { xoroshiro128plus } from 'pure-rand/generator/xoroshiro128plus';

/** Evenly spread numbers within plus or minus a limit. */
export type Within = (limit: number) => number;

/** A seeded source of errors. */
export function errors(seed: number): Within {
  const generator = xoroshiro128plus(seed);
  return (limit) => (2 * uniformFloat64(generator) - 1) * limit;
}

/** How the spindle's axis looks against the bed. */
export interface Lie {
  readonly planDeg: number;
  readonly uprightDeg: number;
}

type Point = readonly [number, number, number];

/** A point of the bed as work sees it whose axis, through the origin, was raised and then turned in plan. */
function asTheWorkSees([x, y, z]: Point, { planDeg, uprightDeg }: Lie): Point {
  const [p, u] = [(planDeg / 180) * Math.PI, (uprightDeg / 180) * Math.PI];
  const aside = x * Math.cos(p) - z * Math.sin(p);
  const on = x * Math.sin(p) + z * Math.cos(p);
  return [aside, y * Math.cos(u) - on * Math.sin(u), on * Math.cos(u) + y * Math.sin(u)];
}

/** A place of the slides as work sees it whose axis was turned about its point at a height. */
export function turnedAt(height: number, lie: Lie, [rho, z]: readonly [number, number]): { rho: number; z: number } {
  const [x, y, on] = asTheWorkSees([rho, 0, z - height], lie);
  return { rho: (x < 0 ? -1 : 1) * Math.hypot(x, y), z: on + height };
}

/** A point of the meridian: distance from the work axis, height along it, and how much surface it stands for. */
export interface Place {
  readonly rho: number;
  readonly z: number;
  readonly weight: number;
}

/** Where an increasing function passes zero. */
function zero(f: (x: number) => number, low: number, high: number, turns = 60): number {
  let [a, b] = [low, high];
  for (let i = 0; i < turns; i++) {
    const middle = (a + b) / 2;
    if (f(middle) < 0) a = middle;
    else b = middle;
  }
  return (a + b) / 2;
}

/** Least-squares sphere with its centre on the axis, by Newton's steps; and the width of the surface about that centre. */
export function sphereThrough(places: readonly Place[], more: readonly Place[] = []): { radius: number; form: number } {
  let [radius, centre] = [0, 0];
  const distance = ({ rho, z }: Place): number => Math.hypot(rho, z - centre);
  for (let turn = 0; turn < 6; turn++) {
    let [w, wd, wc, wcc, wcd] = [0, 0, 0, 0, 0];
    for (const place of places) {
      const d = distance(place);
      const c = (place.z - centre) / d;
      w += place.weight;
      wd += place.weight * d;
      wc += place.weight * c;
      wcc += place.weight * c * c;
      wcd += place.weight * c * d;
    }
    const shift = (wcd - (wc * wd) / w) / (wcc - (wc * wc) / w);
    radius = (wd - shift * wc) / w;
    centre += shift;
  }
  const all = [...places, ...more].map(distance);
  return { radius, form: Math.max(...all) - Math.min(...all) };
}

/** A sweep as it stands: tilted about y, its centre moved along y by the skew and along x by the miss. */
export interface Sweep {
  readonly tiltDeg: number;
  readonly sweepRadius: number;
  readonly distance: number;
  readonly miss: number;
  readonly skew: number;
}

/** The meridian that a sweep leaves: of its two halves a ball keeps the inner one, a socket the outer. */
export function sweepPlaces({ tiltDeg, sweepRadius, distance, miss, skew }: Sweep, side: 'ball' | 'socket'): Place[] {
  const [sin, cos] = [Math.sin((tiltDeg / 180) * Math.PI), Math.cos((tiltDeg / 180) * Math.PI)];
  const half = (turn: number): Place[] =>
    Array.from({ length: 201 }, (_, i): Place => {
      const t = (turn * Math.PI * i) / 200;
      const [u, v] = [sweepRadius * Math.cos(t), sweepRadius * Math.sin(t) + skew];
      const [x, y, z] = [cos * u + sin * distance + miss, v, cos * distance - sin * u];
      return { rho: Math.hypot(x, y), z, weight: Math.abs(Math.sin(t)) };
    });
  const [one, other] = [half(1), half(-1)];
  const inner = (one[100] as Place).rho < (other[100] as Place).rho;
  return inner === (side === 'ball') ? one : other;
}

/**
 * What a tip leaves: of a pip, where it passes the free end in the plane of the axes; of a stem, the nearest that it
 * comes to the work axis on its far half; of a rim, the place at its far end. And the height of its free end.
 */
export function sweepEnds(set: Sweep): Readonly<Record<'pip' | 'stem' | 'rim' | 'deepest', number>> {
  const [sin, cos] = [Math.sin((set.tiltDeg / 180) * Math.PI), Math.cos((set.tiltDeg / 180) * Math.PI)];
  const at = (t: number): readonly [rho: number, z: number] => {
    const [u, v] = [set.sweepRadius * Math.cos(t), set.sweepRadius * Math.sin(t) + set.skew];
    return [Math.hypot(cos * u + sin * set.distance + set.miss, v), cos * set.distance - sin * u];
  };
  const far = Array.from({ length: 401 }, (_, i) => at(((i - 200) / 200) * 0.1)[0]);
  const [pip, deepest] = at(Math.PI);
  return { pip: 2 * pip, stem: 2 * Math.min(...far), rim: 2 * at(0)[0], deepest };
}

/** A place of a swing, as the work sees it. */
export function swivelPlace(
  radius: number,
  offset: number,
  height: number,
  swing: number,
  lie: Lie,
): readonly [aside: number, low: number, on: number] {
  const [x, y, on] = asTheWorkSees([offset + radius * Math.sin(swing), height, radius * Math.cos(swing)], lie);
  return [x, y, on];
}

/** What a tool leaves that swivels about an upright axis off the work's, its tip off height, the work's axis out of line. */
export function swivelPlaces(
  radius: number,
  offset: number,
  height: number,
  fromDeg: number,
  toDeg: number,
  lie: Lie,
): Place[] {
  // Past the work axis the tip is in the air of its own cut.
  const crossing = Math.sqrt(1 - (Math.min(0, offset) / radius) ** 2);
  const [from, to] = [Math.min(crossing, Math.cos((fromDeg / 180) * Math.PI)), Math.cos((toDeg / 180) * Math.PI)];
  return Array.from({ length: 201 }, (_, i) => {
    const z = from + ((to - from) * i) / 200;
    const [x, y, on] = asTheWorkSees([offset + radius * Math.sqrt(1 - z * z), height, radius * z], lie);
    return { rho: Math.hypot(x, y), z: on, weight: 1 };
  });
}

/** Largest diameter across the axis. */
export function across(places: readonly Place[]): number {
  return 2 * Math.max(...places.map(({ rho }) => rho));
}

/** What a micrometer shows that leans by 45 degrees in a plane of the axis. */
export function aslant(places: readonly Place[]): number {
  const reach = (way: number): number => Math.max(...places.map(({ rho, z }) => (rho + way * z) * Math.SQRT1_2));
  return reach(1) + reach(-1);
}

/** Opening in a face at a height, or where the surface ends short of it, and depth under that. */
export function openingAndDepth(places: readonly Place[], wanted: number): { opening: number; depth: number } {
  const sorted = [...places].sort((a, b) => a.z - b.z);
  const face = Math.max(wanted, (sorted[0] as Place).z);
  const after = sorted.findIndex(({ z }) => z >= face);
  const at = Math.min(sorted.length - 1, Math.max(1, after));
  const [a, b] = [sorted[at - 1] as Place, sorted[at] as Place];
  const rho = a.rho + ((b.rho - a.rho) * (face - a.z)) / (b.z - a.z);
  return { opening: 2 * rho, depth: (sorted.at(-1) as Place).z - face };
}

/** The corner of a tool as it stood for one cut. */
export interface Corner {
  readonly rho: number;
  readonly z: number;
  /** Polar angle at which it should touch. */
  readonly polar: number;
  /** Clears all that is wider and higher than itself (1), lower (-1), both (2: the widest place), or only itself (0). */
  readonly clears: 2 | 1 | -1 | 0;
}

/** Distance from the origin at which a ray meets what a corner of radius `nose` cleared; none is Infinity. */
function meets({ rho, z, clears }: Corner, nose: number, ray: number, side: 'ball' | 'socket'): number {
  const flip = clears === -1 || (clears === 2 && ray > Math.PI / 2) ? -1 : 1;
  const [s, c, h] = [Math.sin(ray), flip * Math.cos(ray), flip * z];
  const along = rho * s + h * c;
  const root = along * along - (rho * rho + h * h - nose * nose);
  if (side === 'socket') return root < 0 ? -Infinity : along + Math.sqrt(root);
  if (clears !== 0) {
    const flat = (h - nose) / c;
    if (c > 0 && flat * s >= rho) return flat;
    const wall = (rho - nose) / s;
    if (s > 0 && wall * c >= h) return wall;
  }
  return root < 0 ? Infinity : along - Math.sqrt(root);
}

/** The touched places and the ridges between them. Corners in the order of their polar angles. */
export function steppedPlaces(
  corners: readonly Corner[],
  nose: number,
  side: 'ball' | 'socket',
): { touched: Place[]; ridges: Place[] } {
  const place = (d: number, ray: number): Place => ({ rho: d * Math.sin(ray), z: d * Math.cos(ray), weight: 1 });
  const touched = corners.map((corner) => place(meets(corner, nose, corner.polar, side), corner.polar));
  const out = side === 'ball' ? 1 : -1;
  const ridges = corners.slice(1).map((next, i) => {
    const here = corners[i] as Corner;
    // What one corner leaves grows from where it touches to where the next one's takes over.
    const lead = (ray: number): number => out * (meets(here, nose, ray, side) - meets(next, nose, ray, side));
    // To a millionth of the way between two stops, some 1e-7 of their distance.
    const ray = zero(lead, here.polar, next.polar, 20);
    return place(out * Math.min(out * meets(here, nose, ray, side), out * meets(next, nose, ray, side)), ray);
  });
  return { touched, ridges };
}

/** Work between two pivots, one set over, under a tool that runs along the bed at a height. */
export interface SetOver {
  readonly offset: number;
  readonly centreDistance: number;
  readonly rollDeg: number;
  readonly toolHeight: number;
  /** 1: the tailstock's end goes towards the tool; -1: away from it. */
  readonly towards: 1 | -1;
}

/** Radius at one place of work set over, the tool touched off to a radius at another; distances from the headstock pivot. */
export function setOverRadius(set: SetOver, touched: { at: number; radius: number }, at: number): number {
  const { offset, centreDistance, rollDeg, toolHeight: y, towards } = set;
  const roll = (rollDeg / 180) * Math.PI;
  const axis = [
    (towards * offset * Math.cos(roll)) / centreDistance,
    (offset * Math.sin(roll)) / centreDistance,
    Math.sqrt(1 - (offset / centreDistance) ** 2),
  ] as const;
  const radius = (x: number, z: number): number => {
    const t = (z - x * axis[0] - y * axis[1]) / axis[2];
    return Math.sqrt(x * x + y * y + t * t - z * z);
  };
  const middle = (touched.at * axis[0]) / axis[2];
  const x = zero((value) => radius(value, touched.at) - touched.radius, middle, middle + 2 * touched.radius);
  return radius(x, at);
}

/** Radius a length on along work in a chuck, cut from a radius touched off, at a height, by a tool that runs level at an angle to the bed. */
export function straightRadius(angleDeg: number, height: number, start: number, length: number, lie: Lie): number {
  const x = zero((value) => Math.hypot(value, height) - start, 0, start);
  const angle = (angleDeg / 180) * Math.PI;
  const way = asTheWorkSees([-Math.sin(angle), 0, Math.cos(angle)], lie);
  const travel = length / way[2];
  return Math.hypot(x + travel * way[0], height + travel * way[1]);
}
