/**
 * Trials of the diagnosis: settings with random errors, the part taken from points in space, read with random
 * errors, diagnosed. Counts how often the stated 95 % intervals hold the truth, and how many parts become good when
 * a person changes as the diagnosis recommends.
 */
import {
  type SphereMeasurement,
  type SphereMeasurementKind,
  type SphereTarget,
  type Sweep,
  type SweepTrial,
  sphereShape,
  sweepDiagnosis,
  sweepSettings,
} from 'generatrix/sphere';
import { uniformFloat64 } from 'pure-rand/distribution/uniformFloat64';
import { xoroshiro128plus } from 'pure-rand/generator/xoroshiro128plus';
import { golden } from './search.js';
import { revolved, sweepPoints } from './space.js';

/** Seeded even numbers between -1 and 1, and normal ones by the polar method of Marsaglia (SIAM Review 6, 1964). */
function random(seed: number): { readonly even: () => number; readonly normal: () => number } {
  const generator = xoroshiro128plus(seed);
  // Neighbouring seeds begin alike.
  for (let i = 0; i < 20; i++) uniformFloat64(generator);
  const even = (): number => uniformFloat64(generator) * 2 - 1;
  const normal = (): number => {
    for (;;) {
      const [a, b] = [even(), even()];
      const s = a * a + b * b;
      if (s > 0 && s < 1) return a * Math.sqrt((-2 * Math.log(s)) / s);
    }
  };
  return { even, normal };
}

/** The kinds that are read as a length. */
export type Length = Exclude<SphereMeasurementKind, 'tip-at-pole'>;

/** The half of a sweep that the part keeps: for a ball the one towards the work's axis, for a socket the one away. */
function keptOf(sweep: Sweep, target: SphereTarget): (readonly [rho: number, z: number])[] {
  const skew = sweep.skew ?? 0;
  const socket = target.part === 'socket';
  const all = sweepPoints({ ...sweep, skew } as Required<Sweep>, 1440);
  return revolved(all.filter(([, y]) => (socket === skew >= 0 ? y >= skew : y <= skew)));
}

/** What a person would read on the part, taken from points in space: no formula of the library. */
export function measure(sweep: Sweep, target: SphereTarget): (kind: Length, height?: number, place?: number) => number {
  const skew = sweep.skew ?? 0;
  const all = sweepPoints({ ...sweep, skew } as Required<Sweep>, 1440);
  const both = revolved(all);
  const top = both.reduce((best, p) => (p[1] > best[1] ? p : best));
  const bottom = both.reduce((best, p) => (p[1] < best[1] ? p : best));
  const kept = keptOf(sweep, target).sort((a, b) => a[1] - b[1]);
  const reach = kept.map(([rho, z]) => Math.hypot(rho, z));
  const at = (height: number): number => {
    // Beyond its end the sweep, fed in along the axis, leaves a hole of the end's diameter.
    const z = Math.min(top[1], Math.max(bottom[1], height));
    const above = Math.max(
      1,
      kept.findIndex((p) => p[1] >= z),
    );
    const [[rhoA, zA], [rhoB, zB]] = [kept[above - 1] ?? [0, 0], kept[above] ?? [0, 0]];
    // Linear in rho² between neighbours, which is exact on a sphere but for z².
    const part = (z - zA) / (zB - zA);
    const square = (1 - part) * (rhoA ** 2 + zA ** 2) + part * (rhoB ** 2 + zB ** 2) - z * z;
    return 2 * Math.sqrt(Math.max(0, square));
  };
  return (kind, height = 0, place = 0) =>
    ({
      'largest-diameter': () => at(0),
      'diameter-at': () => at(height - place),
      'opening-diameter': () => at(height - place),
      depth: () => top[1] + place - height,
      'pip-diameter': () => 2 * top[0],
      'end-diameter': () => 2 * bottom[0],
      'cut-length': () => top[1] - bottom[1],
      'out-of-round': () => Math.max(...reach) - Math.min(...reach),
      radius: () => (Math.max(...reach) + Math.min(...reach)) / 2,
      // A quarter and three quarters round: half-way between the ends.
      'tip-side-to-side': () => (both[360]?.[0] as number) - (both[1080]?.[0] as number),
    })[kind]();
}

/** Which side of the work's axis the tip passes: positive short of it. */
export function tipAtPole(sweep: Sweep): number {
  return sweepPoints(sweep as Required<Sweep>, 1440).reduce((best, p) => (p[2] > best[2] ? p : best))[0];
}

/** Radius and form of the minimum zone about a centre on the axis, and the pip. */
function judged(sweep: Sweep, target: SphereTarget): { radius: number; form: number; pip: number } {
  const kept = keptOf(sweep, target);
  const zone = (centre: number): readonly [number, number] => {
    const reach = kept.map(([rho, z]) => Math.hypot(rho, z - centre));
    return [Math.min(...reach), Math.max(...reach)];
  };
  const form = (centre: number): number => zone(centre)[1] - zone(centre)[0];
  const [low, high] = zone(golden((centre) => -form(centre), -1, 1).x);
  return { radius: (low + high) / 2, form: high - low, pip: measure(sweep, target)('pip-diameter') };
}

export const uncertainties = { tiltDeg: 0.4, sweepRadius: 0.1, distance: 0.3, skew: 0.08 };
const jobs: readonly { target: SphereTarget; kinds: readonly (readonly [Length, number])[] }[] = [
  {
    target: { part: 'ball-on-stem', radius: 20, stemDiameter: 20 },
    kinds: [
      ['largest-diameter', 0.01],
      ['pip-diameter', 0.05],
      ['end-diameter', 0.1],
      ['cut-length', 0.05],
      ['out-of-round', 0.005],
    ],
  },
  {
    target: { part: 'ball-on-stem', radius: 20, stemDiameter: 20 },
    kinds: [
      ['largest-diameter', 0.01],
      ['pip-diameter', 0.05],
    ],
  },
  {
    target: { part: 'socket', radius: 20, depth: 10 },
    kinds: [
      ['opening-diameter', 0.02],
      ['depth', 0.02],
      ['pip-diameter', 0.05],
    ],
  },
  {
    target: { part: 'ball-on-stem', radius: 20, stemDiameter: 26 },
    kinds: [
      ['diameter-at', 0.02],
      ['largest-diameter', 0.01],
      ['end-diameter', 0.1],
      ['out-of-round', 0.01],
    ],
  },
];

/** How many of so many trials hold the true error of each setting. */
export function diagnosisTrials(trials: number, seed = 20260): Readonly<Record<string, number>> {
  const { normal } = random(seed);
  const hits: Record<string, number> = {};
  for (let trial = 0; trial < trials; trial++) {
    const { target, kinds } = jobs[trial % jobs.length] as (typeof jobs)[number];
    const { sweep } = sweepSettings({ target });
    const truth = {
      tiltDeg: uncertainties.tiltDeg * normal(),
      sweepRadius: uncertainties.sweepRadius * normal(),
      distance: uncertainties.distance * normal(),
      skew: Math.abs(uncertainties.skew * normal()),
    };
    const place = 0.2 * normal();
    const read = measure(
      {
        tiltDeg: sweep.tiltDeg + truth.tiltDeg,
        sweepRadius: sweep.sweepRadius + truth.sweepRadius,
        distance: sweep.distance + truth.distance,
        skew: trial % 8 < 4 ? truth.skew : -truth.skew,
      },
      target,
    );
    const height = target.part === 'socket' ? 10 : 8;
    const measurements = kinds.map(([kind, uncertainty]): SphereMeasurement => {
      const value = Math.max(0, read(kind, height, place) + uncertainty * normal());
      return { kind, value, uncertainty, ...(kind === 'diameter-at' && { height }) } as SphereMeasurement;
    });
    const { causes } = sweepDiagnosis({
      target,
      sweep,
      uncertainties: { ...uncertainties, place: 0.2 },
      trials: [{ measurements }],
    });
    for (const cause of ['tiltDeg', 'sweepRadius', 'distance', 'skew'] as const) {
      const { low, high } = causes[cause];
      if (truth[cause] >= low && truth[cause] <= high) hits[cause] = (hits[cause] ?? 0) + 1;
    }
  }
  return hits;
}

/** Limits within which the settings are made, and within which they are changed: dial and indicator. */
export const LIMITS = { tiltDeg: 0.7, sweepRadius: 0.17, distance: 0.5, skew: 0.14, place: 0.35 };
export const CHANGE_LIMITS = { tiltDeg: 0.02, sweepRadius: 0.01, distance: 0.01, skew: 0.01, place: 0 };
/**
 * Limits of ordinary instruments: micrometer, depth gauge, caliper on edges, indicator, feeler; for pip and tip a loupe
 * with a graticule, since a pip that may be 0.1 can't be judged by caliper.
 */
export const INSTRUMENT_LIMITS: Readonly<Record<SphereMeasurementKind, number>> = {
  'largest-diameter': 0.01,
  'diameter-at': 0.03,
  'opening-diameter': 0.03,
  depth: 0.02,
  'pip-diameter': 0.02,
  'end-diameter': 0.1,
  'cut-length': 0.05,
  radius: 0.03,
  'out-of-round': 0.01,
  'tip-side-to-side': 0.03,
  'tip-at-pole': 0.03,
};
const SETTINGS = ['tiltDeg', 'sweepRadius', 'distance', 'skew', 'place'] as const;
type Settings = Record<(typeof SETTINGS)[number], number>;
const settings = (of: (setting: keyof Settings) => number): Settings =>
  Object.fromEntries(SETTINGS.map((setting) => [setting, of(setting)])) as Settings;
/** Limits of evenly spread errors have this many standard uncertainties (JCGM 100, 4.3.7). */
const PER_STANDARD = Math.sqrt(3);
export const GOOD = { radius: 0.05, form: 0.03, pip: 0.1 };

/** What became of a part. */
export interface Worked {
  readonly target: SphereTarget;
  /** The try that was good; 0 if none of three was. */
  readonly good: number;
  /** What the person was told to measure beyond the first readings. */
  readonly asked: number;
  readonly cuts: readonly ReturnType<typeof judged>[];
}

/** A mis-set part, read, changed as recommended and read again, up to three cuts. */
export function work(seed: number): Worked {
  const { even, normal } = random(seed);
  const between = (low: number, high: number): number => low + ((high - low) * (even() + 1)) / 2;
  const radius = between(10, 30);
  const socket = even() > 0;
  const target: SphereTarget = socket
    ? { part: 'socket', radius, depth: radius * between(0.4, 0.95) }
    : { part: 'ball-on-stem', radius, stemDiameter: radius * between(0.6, 1.6) };
  const { sweep } = sweepSettings({ target });
  const rim = sphereShape(target).toHeight;
  let at = settings((setting) => LIMITS[setting] * even());
  const ordinary: readonly Length[] = socket
    ? ['opening-diameter', 'depth', 'pip-diameter']
    : ['largest-diameter', 'pip-diameter', ...(even() > 0 ? ['end-diameter' as const] : [])];
  const trials: SweepTrial[] = [];
  const cuts: ReturnType<typeof judged>[] = [];
  let changes: Partial<Settings> | undefined;
  let asked = 0;
  for (let cut = 1; cut <= 3; cut++) {
    const real = {
      tiltDeg: sweep.tiltDeg + at.tiltDeg,
      sweepRadius: sweep.sweepRadius + at.sweepRadius,
      distance: sweep.distance + at.distance,
      skew: at.skew,
    };
    const result = judged(real, target);
    cuts.push(result);
    if (Math.abs(result.radius - radius) <= GOOD.radius && result.form <= GOOD.form && result.pip <= GOOD.pip) {
      return { target, good: cut, asked, cuts };
    }
    const read = measure(real, target);
    const seen = (kind: SphereMeasurementKind, height = rim): SphereMeasurement => {
      const uncertainty = INSTRUMENT_LIMITS[kind] / PER_STANDARD;
      if (kind === 'tip-at-pole') {
        return { kind, value: tipAtPole(real) + uncertainty * normal() > 0 ? 'not-reached' : 'past-pole', uncertainty };
      }
      const value = read(kind, height, at.place) + INSTRUMENT_LIMITS[kind] * even();
      const shown = kind === 'tip-side-to-side' ? value : Math.max(0, value);
      return { kind, value: shown, uncertainty, ...(kind === 'diameter-at' && { height }) } as SphereMeasurement;
    };
    const measurements = ordinary.map((kind) => seen(kind));
    const diagnosed = (): ReturnType<typeof sweepDiagnosis> =>
      sweepDiagnosis({
        target,
        sweep,
        uncertainties: settings((setting) => LIMITS[setting] / PER_STANDARD),
        changeUncertainties: settings((setting) => CHANGE_LIMITS[setting] / PER_STANDARD),
        instruments: Object.entries(INSTRUMENT_LIMITS)
          .filter(([kind]) => kind !== 'diameter-at' && (kind !== 'opening-diameter' || socket))
          .filter(([kind]) => (kind !== 'largest-diameter' || !socket) && (kind !== 'depth' || socket))
          .map(([kind, limit]) => ({ kind: kind as SphereMeasurementKind, uncertainty: limit / PER_STANDARD })),
        trials: [...trials, { ...(changes && { changes }), measurements }],
      });
    let found = diagnosed();
    while (found.next) {
      measurements.push(seen(found.next.kind, found.next.height));
      asked++;
      found = diagnosed();
    }
    trials.push({ ...(changes && { changes }), measurements });
    changes = found.recommended.changes;
    const told = changes;
    at = settings((setting) => at[setting] + (told[setting] ?? 0) + CHANGE_LIMITS[setting] * even());
  }
  return { target, good: 0, asked, cuts };
}
