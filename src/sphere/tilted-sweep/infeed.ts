/**
 * From stock to size with a tilted sweep. Feeding along the spindle keeps the point where the axes meet and
 * changes the radius, R² = r² + (h ± s)² for the path; feeding along the work axis moves that point and keeps
 * the radius. The stock is a cylinder about the work axis with a flat end. Distances s are what is left to
 * feed until size. Heights are along the work axis from the finished sphere's centre, positive towards the
 * pole. Radians inside. Derived here; proved in tests/sphere/infeed.test.ts by points in space.
 */
import { refuse } from '../../core/errors.js';
import {
  anyNumber,
  choice,
  type Fields,
  number,
  optional,
  positive,
  read,
  readValue,
  sound,
  whole,
} from '../../core/read.js';
import { leastBetween, rootBetween } from '../../revolve/solve.js';
import { exactlyOne } from '../either.js';
import { centreRadius } from '../scallop.js';
import { degrees, radians, zoneOf } from '../target.js';
import { CUT, cutOf, type ReadCut, type SphereCut, type StatedCut } from './cut.js';

/** What {@link sphereInfeed} needs: either `passes` or `perPass`. */
export type SphereInfeedOptions = SphereCut & {
  /** `spindle`: the boring head's quill moves. `work`: the table moves along the work axis. */
  readonly feed: 'spindle' | 'work';
  /** Diameter of the stock. For a socket it may be left out: a face wider than the sweep. */
  readonly stockDiameter?: number;
  /** Height of the stock's flat end. Default: the pole of a ball, the opening of a socket. */
  readonly stockEndHeight?: number;
  /** Number of passes, 1 to 1000. */
  readonly passes?: number;
  /** Largest distance to feed at a time. */
  readonly perPass?: number;
  /** Angle by which the work turns during one sweep; with a nose radius it gives the chip thickness. */
  readonly workPerSweepDeg?: number;
};

/** Where the tool first meets the stock. */
export interface FirstContact {
  /** Distance left to feed when it does; 0 if the stock is nowhere larger than the finished part. */
  readonly distance: number;
  /** What it meets; `nothing` if the tool only reaches size without cutting. */
  readonly place: 'end-face' | 'edge' | 'side' | 'nothing';
  /** Diameter at which it meets the stock. */
  readonly diameter: number;
  /** Height at which it meets the stock. */
  readonly height: number;
}

/** One pass. */
export interface InfeedPass {
  /** Distance left to feed after it. */
  readonly distance: number;
  /** Radius of the sphere that this position cuts. */
  readonly radius: number;
  /** Height of that sphere's centre. */
  readonly centreHeight: number;
  /**
   * Largest thickness of the layer between this position's sphere and the last one's; 0 where the sphere does
   * not grow into the work, as at the start of a deep socket fed along the spindle.
   */
  readonly layer: number;
  /** Polar angle at which the layer is thickest, from this sphere's centre; null where it is even all over. */
  readonly layerPolarAngleDeg: number | null;
  /** Diameter still uncut in the middle. */
  readonly coreDiameter: number;
  /** Largest thickness of a chip, half-way round the sweep; null without nose radius or angle per sweep. */
  readonly chipThickness: number | null;
}

/** An infeed from first contact to size. */
export interface SphereInfeed {
  /** Where the tool first meets the stock. */
  readonly firstContact: FirstContact;
  /** Distance fed at each pass. */
  readonly perPass: number;
  /** The passes; the last is at size. */
  readonly passes: readonly InfeedPass[];
}

interface Stock {
  readonly radius: number;
  readonly end: number;
}

interface Contact {
  readonly distance: number;
  readonly beside: number;
  readonly beyond: number;
  readonly rho: number;
  readonly z: number;
}

/**
 * The infeed from first contact to size: passes, the radius at each, layers and chips.
 * @throws GeneratrixError `impossible-geometry` where the feed would cut into the finished part: along the
 * work axis past half a sphere, or along the spindle through the rim of a deep socket.
 * @example
 * ```ts
 * import { sphereInfeed } from 'generatrix/sphere';
 * const bowl = { part: 'socket', radius: 30, depth: 15 } as const;
 * const { firstContact, passes } = sphereInfeed({ target: bowl, feed: 'work', passes: 3 });
 * firstContact.distance.toFixed(6); // => '15.000000'
 * passes.map(({ radius }) => radius.toFixed(6)); // => ['30.000000', '30.000000', '30.000000']
 * sphereInfeed({ target: bowl, feed: 'spindle', passes: 3 }).passes[0]?.radius.toFixed(3); // => '20.817'
 * ```
 */
export function sphereInfeed(options: SphereInfeedOptions): SphereInfeed {
  const given = read<Stated>(options, INFEED);
  const cut = cutOf(given);
  const { feed, workPerSweepDeg } = given;
  const turn = workPerSweepDeg === undefined ? undefined : radians(workPerSweepDeg);
  const stock = stockOf(given, cut);
  refuseFeed(cut, feed);
  const contact = firstContact(cut, feed, stock);
  const centres = centreRadius(cut);
  if (feed === 'spindle' && cut.side === 'socket' && contact.distance > 2 * centres * Math.cos(cut.half)) {
    return refuse('impossible-geometry', 'feed', feed, 'would cut away the rim of so deep a socket');
  }
  const count = divide(given, contact.distance);
  const perPass = contact.distance / count;
  const distances = Array.from({ length: count }, (_, index) => perPass * (count - 1 - index));
  const result: SphereInfeed = {
    firstContact: describeContact(cut, stock, contact),
    perPass,
    passes: distances.map((distance) => pass(cut, feed, distance, perPass, turn)),
  };
  return sound(result, 'stockDiameter');
}

type Stated = StatedCut &
  Pick<SphereInfeedOptions, 'feed' | 'stockDiameter' | 'stockEndHeight' | 'passes' | 'perPass' | 'workPerSweepDeg'>;
const INFEED: Fields<Stated> = {
  ...CUT,
  feed: choice('spindle', 'work'),
  stockDiameter: optional(positive),
  stockEndHeight: optional(anyNumber),
  passes: optional(whole({ min: 1, max: 1000 })),
  perPass: optional(positive),
  workPerSweepDeg: optional(number({ above: 0, max: 180 })),
};

function stockOf({ stockDiameter, stockEndHeight, target }: Stated, cut: ReadCut): Stock {
  if (stockDiameter === undefined && cut.side === 'ball') {
    return refuse('missing-option', 'stockDiameter', undefined, 'must be given for a ball');
  }
  const rim = target ? zoneOf(target).rims.toHeight : cut.radius * Math.cos(cut.tilt + cut.half);
  const limits = number({ min: -10 * cut.radius, max: 10 * cut.radius });
  return {
    radius: stockDiameter === undefined ? Number.POSITIVE_INFINITY : stockDiameter / 2,
    end: readValue(stockEndHeight ?? (cut.side === 'ball' ? cut.radius : rim), limits, 'stockEndHeight'),
  };
}

function refuseFeed(cut: ReadCut, feed: 'spindle' | 'work'): void {
  // From the rounding of the angles a half sphere may come out a hair deeper.
  if (feed === 'work' && cut.tilt + cut.half > Math.PI / 2 + 1e-12) {
    refuse('impossible-geometry', 'feed', feed, 'must be spindle: past half a sphere this cuts into the part');
  }
  if (cut.tilt > Math.PI / 2) {
    const allowed = 'must need a tilt of at most 90 degrees for an infeed';
    refuse('out-of-range', cut.said, degrees(cut.tilt), allowed);
  }
}

function divide(given: Stated, distance: number): number {
  exactlyOne(given, 'passes', 'perPass');
  const { passes, perPass: most } = given;
  if (most === undefined) return passes as number;
  const count = Math.max(1, Math.ceil((distance / most) * (1 - 1e-14)));
  return count <= 1000
    ? count
    : refuse('out-of-range', 'perPass', most, 'must divide the feed into at most 1000 passes');
}

/** Where a place of the nose-centre circle stands with s left to feed, and how far it is from the stock. */
function station(cut: ReadCut, feed: 'spindle' | 'work', stock: Stock, t: number, s: number): Contact {
  const out = cut.side === 'ball' ? 1 : -1;
  const centres = centreRadius(cut);
  const [r, h] = [centres * Math.sin(cut.half), centres * Math.cos(cut.half)];
  const [sin, cos] = [Math.sin(cut.tilt), Math.cos(cut.tilt)];
  const along = feed === 'spindle' ? h + out * s : h;
  const rho = Math.hypot(along * sin + r * Math.cos(t) * cos, r * Math.sin(t));
  const z = along * cos - r * Math.cos(t) * sin + (feed === 'work' ? out * s : 0);
  return { distance: s, rho, z, beside: rho - stock.radius, beyond: out * (z - stock.end) };
}

/** The largest distance left at which any place of the sweep touches the stock: the stock is convex, so along a line one stretch is inside. */
function firstContact(cut: ReadCut, feed: 'spindle' | 'work', stock: Stock): Contact {
  const wide = Number.isFinite(stock.radius) ? stock.radius : 0;
  const farthest = 4 * (wide + Math.abs(stock.end) + centreRadius(cut) + cut.noseRadius);
  const gap = (t: number, s: number): number => {
    const { beside, beyond } = station(cut, feed, stock, t, s);
    // Inside, the depth below the nearer face: so that a search for the least has a slope to follow.
    return beside > 0 && beyond > 0 ? Math.hypot(beside, beyond) : Math.max(beside, beyond);
  };
  const touches = (t: number): number => {
    const inside = leastOf((s) => gap(t, s), 0, farthest);
    if (gap(t, inside) > cut.noseRadius) return 0;
    return rootBetween((s) => gap(t, s) - cut.noseRadius, inside, farthest);
  };
  const places = 180;
  let best = 0;
  let most = -1;
  for (let k = 0; k <= places; k++) {
    const s = touches((k * Math.PI) / places);
    if (s > most) [best, most] = [k, s];
  }
  const [low, high] = [Math.max(0, best - 1), Math.min(places, best + 1)].map((k) => (k * Math.PI) / places) as [
    number,
    number,
  ];
  const refined = leastOf((t) => -touches(t), low, high);
  const t = touches(refined) > most ? refined : (best * Math.PI) / places;
  return station(cut, feed, stock, t, touches(t));
}

/** Place of the least value of a function with one valley, which may lie at an end. */
function leastOf(f: (x: number) => number, from: number, to: number): number {
  return [from, to].reduce((best, x) => (f(x) <= f(best) ? x : best), leastBetween(f, from, to));
}

function describeContact(cut: ReadCut, stock: Stock, { distance, beside, beyond, rho, z }: Contact): FirstContact {
  // A millionth of the radius decides only the name of the place.
  const near = -1e-6 * cut.radius;
  const place =
    distance === 0 ? 'nothing' : beside > near && beyond > near ? 'edge' : beyond > near ? 'end-face' : 'side';
  return {
    distance,
    place,
    diameter: 2 * Math.min(rho, stock.radius),
    height: cut.side === 'ball' ? Math.min(z, stock.end) : Math.max(z, stock.end),
  };
}

function pass(
  cut: ReadCut,
  feed: 'spindle' | 'work',
  distance: number,
  perPass: number,
  turn: number | undefined,
): InfeedPass {
  const { side, noseRadius: n, tilt, half } = cut;
  const out = side === 'ball' ? 1 : -1;
  const centres = centreRadius(cut);
  const [r, h] = [centres * Math.sin(half), centres * Math.cos(half)];
  if (feed === 'work') {
    const layerAt = (polar: number): number => {
      const across = perPass * Math.sin(polar);
      const root = Math.sqrt(Math.max(0, (cut.radius - across) * (cut.radius + across)));
      return perPass * Math.cos(polar) - (out * across * across) / (cut.radius + root);
    };
    const pole = Math.abs(tilt - half);
    const halfWay = Math.acos(Math.cos(tilt) * Math.cos(half));
    return {
      distance,
      radius: cut.radius,
      centreHeight: out * distance + 0,
      layer: layerAt(pole),
      layerPolarAngleDeg: degrees(pole),
      coreDiameter: 2 * cut.radius * Math.sin(pole),
      chipThickness: chip(cut, cut.radius, layerAt(halfWay), turn),
    };
  }
  const along = h + out * distance;
  const path = Math.hypot(along, r);
  const radius = distance === 0 ? cut.radius : path - out * n;
  const before = along + out * perPass;
  // (A² - B²) / (A + B), so that thin layers keep their digits.
  const layer = Math.max(0, (out * (before - along) * (before + along)) / (Math.hypot(before, r) + path));
  return {
    distance,
    radius,
    centreHeight: 0,
    layer,
    layerPolarAngleDeg: null,
    coreDiameter: 2 * radius * Math.abs(Math.sin(tilt - Math.atan2(r, along))),
    chipThickness: chip(cut, radius, layer, turn),
  };
}

/**
 * The thickest place of a chip: at the corner K where the last pass of the nose meets the layer's outside,
 * n - |K - c| with c the nose's centre. Half-way round the sweep both passes lie in one plane with the
 * sphere's centre, 2δ apart, sin δ = sin α sin(Δ/2); there the passes are farthest apart.
 */
function chip(cut: ReadCut, radius: number, layer: number, turn: number | undefined): number | null {
  const { side, noseRadius: n, tilt } = cut;
  if (turn === undefined || n === 0) return null;
  // Above the nose the tool's flank is straight, and a chip is no thicker there.
  const depth = Math.min(layer, n);
  const C = centreRadius({ side, radius, noseRadius: n });
  const K = side === 'ball' ? radius + depth : radius - depth;
  const apart = 2 * Math.asin(Math.sin(tilt) * Math.sin(turn / 2));
  // cos ε = (C² + K² - n²) / (2 C K), as a half-angle; |C - K| = n - depth.
  const lead = 2 * Math.asin(Math.min(1, Math.sqrt((depth * (2 * n - depth)) / (4 * C * K))));
  if (apart >= lead) return depth;
  const sine = Math.sin((lead - apart) / 2);
  return n - Math.sqrt((n - depth) ** 2 + 4 * C * K * sine * sine);
}
