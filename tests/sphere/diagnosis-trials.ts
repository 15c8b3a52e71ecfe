/**
 * Trials of the diagnosis: settings with random errors, the part taken from points in space, read with random
 * errors, diagnosed. Counts how often the stated 95 % intervals hold the truth.
 */
import {
  type SphereMeasurement,
  type SphereTarget,
  type Sweep,
  sweepDiagnosis,
  sweepSettings,
} from 'generatrix/sphere';
import { uniformFloat64 } from 'pure-rand/distribution/uniformFloat64';
import { xoroshiro128plus } from 'pure-rand/generator/xoroshiro128plus';
import { revolved, sweepPoints } from './space.js';

/** Seeded normal numbers by the polar method of Marsaglia (SIAM Review 6, 1964). */
function normals(seed: number): () => number {
  const generator = xoroshiro128plus(seed);
  const uniform = (): number => uniformFloat64(generator) * 2 - 1;
  return () => {
    for (;;) {
      const [a, b] = [uniform(), uniform()];
      const s = a * a + b * b;
      if (s > 0 && s < 1) return a * Math.sqrt((-2 * Math.log(s)) / s);
    }
  };
}

/** What a person would read on the part, taken from points in space: no formula of the library. */
export function measure(
  sweep: Sweep,
  target: SphereTarget,
): (kind: SphereMeasurement['kind'], height?: number, place?: number) => number {
  const skew = sweep.skew ?? 0;
  const socket = target.part === 'socket';
  const all = sweepPoints({ ...sweep, skew } as Required<Sweep>, 1440);
  const both = revolved(all);
  const top = both.reduce((best, p) => (p[1] > best[1] ? p : best));
  const bottom = both.reduce((best, p) => (p[1] < best[1] ? p : best));
  // The half that the part keeps: for a ball the one towards the work's axis, for a socket the one away from it.
  const kept = revolved(all.filter(([, y]) => (socket === skew >= 0 ? y >= skew : y <= skew))).sort(
    (a, b) => a[1] - b[1],
  );
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
    })[kind]();
}

export const uncertainties = { tiltDeg: 0.4, sweepRadius: 0.1, distance: 0.3, skew: 0.08 };
const jobs: readonly { target: SphereTarget; kinds: readonly (readonly [SphereMeasurement['kind'], number])[] }[] = [
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
  const normal = normals(seed);
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
      return kind === 'diameter-at' ? { kind, height, value, uncertainty } : { kind, value, uncertainty };
    });
    const { causes } = sweepDiagnosis({
      target,
      sweep,
      uncertainties: { ...uncertainties, place: 0.2 },
      measurements,
    });
    for (const cause of ['tiltDeg', 'sweepRadius', 'distance', 'skew'] as const) {
      const { low, high } = causes[cause];
      if (truth[cause] >= low && truth[cause] <= high) hits[cause] = (hits[cause] ?? 0) + 1;
    }
  }
  return hits;
}
