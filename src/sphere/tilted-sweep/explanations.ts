/**
 * From weighted points to explanations and to the measurement that would help most. Where the points of the tip's
 * place at the pole, or of the skew, fall into two heaps, each heap is an explanation of its own, since the mean of two
 * heaps is neither. What is left after a change, of radius, tip at the pole and skew, is what a further reading should
 * lessen: its outcomes are drawn from the points themselves, and for each the points are weighed again (J. O. Berger,
 * Statistical Decision Theory, 1985: expected value of sample information). Lengths as in the points.
 */
import { normals } from '../../budget/posterior.js';
import { normalBelow } from '../../budget/student.js';
import { type ReadMeasurement, shortOfPole, type TrialSweep } from './predictions.js';

type Vector = readonly number[];

/** Weighted points: sweeps as they may stand now, and the unknowns that they come from. */
export interface Cloud {
  readonly points: readonly Vector[];
  readonly sweeps: readonly TrialSweep[];
  /** Sum to 1. */
  readonly weights: Vector;
}

/** One heap of points. */
export interface Heap {
  readonly probability: number;
  /** Mean of the unknowns. */
  readonly mean: Vector;
  /** How far short of the pole the tip is on average, and the standard deviation of that. */
  readonly short: Spread;
  /** Which points are in it. */
  readonly members: Vector;
}

interface Spread {
  readonly value: number;
  readonly uncertainty: number;
}

/** What a further reading would do. */
export interface Prospect {
  readonly candidate: ReadMeasurement;
  /** Root of the mean squares of what is left of radius, tip at the pole and skew: as it is, and with the reading. */
  readonly errorNow: number;
  readonly errorThen: number;
  /** What it would read by each heap. */
  readonly predictions: readonly Spread[];
}

/** Heaps less probable than this are not told. */
const RARE = 0.01;
/**
 * Two halves are heaps of their own if they are so many of their standard deviations apart. The halves of one normal
 * heap are 2.65 apart, of an even one 3.5; two normal ones have a valley of a third between them at 4.
 */
const APART = 3.8;
/** A reading is worth proposing if it leaves at most this share. */
const WORTH = 0.8;
/** Points and outcomes by which readings are compared. */
const TRIED = 240;
const OUTCOMES = 40;

/** The heaps, the most probable first. */
export function heaps({ points, sweeps, weights }: Cloud): readonly Heap[] {
  const short = sweeps.map(shortOfPole);
  const [atPole, across] = [short, sweeps.map(({ skew }) => skew)].map((values) => cut(values, weights));
  const groups: number[][] = [[], [], [], []];
  for (let i = 0; i < points.length; i++) {
    const past = (short[i] as number) < (atPole ?? -Infinity) ? 2 : 0;
    groups[past + ((sweeps[i] as TrialSweep).skew < (across ?? -Infinity) ? 1 : 0)]?.push(i);
  }
  return groups
    .flatMap((members): Heap[] => {
      const probability = members.reduce((whole, i) => whole + (weights[i] as number), 0);
      if (!(probability >= RARE)) return [];
      const mean = (points[0] as Vector).map((_, j) => spread(members, weights, (i) => points[i]?.[j] as number).value);
      return [{ probability, mean, short: spread(members, weights, (i) => short[i] as number), members }];
    })
    .sort((a, b) => b.probability - a.probability);
}

/** Where the values fall into two heaps: the cut with the largest variance between its sides (N. Otsu, 1979). */
function cut(values: Vector, weights: Vector): number | undefined {
  const order = [...values.keys()].sort((a, b) => (values[a] as number) - (values[b] as number));
  const all = spread(order, weights, (i) => values[i] as number);
  let [share, moment] = [0, 0];
  let best: { readonly between: number; readonly apart: number; readonly at: number } | undefined;
  for (const [place, i] of order.entries()) {
    share += weights[i] as number;
    moment += (weights[i] as number) * ((values[i] as number) - all.value);
    if (share < RARE) continue;
    if (!(share <= 1 - RARE)) break;
    const apart = -moment / (share * (1 - share));
    const between = share * (1 - share) * apart * apart;
    if (between <= (best?.between ?? 0)) continue;
    best = { between, apart, at: ((values[i] as number) + (values[order[place + 1] as number] as number)) / 2 };
  }
  if (!best) return undefined;
  const within = Math.max(0, all.uncertainty ** 2 - best.between);
  return best.apart > APART * Math.sqrt(within) ? best.at : undefined;
}

/** The further reading that leaves least, if any leaves markedly less. */
export function prospect(
  cloud: Cloud,
  found: readonly Heap[],
  candidates: readonly ReadMeasurement[],
): Prospect | undefined {
  const { sweeps, weights } = cloud;
  const tried = drawn(cloud, found);
  const now = leftOver(
    tried,
    tried.map(() => 1),
  );
  let best: { readonly candidate: ReadMeasurement; readonly left: number } | undefined;
  for (const candidate of candidates) {
    const { kind, uncertainty, predict } = candidate;
    const readings = tried.map(({ sweep }) => predict(sweep));
    let left = 0;
    if (kind === 'tip-at-pole') {
      for (const side of [1, -1]) {
        const likely = readings.map((value) => normalBelow((side * value) / uncertainty));
        left += leftOver(tried, likely) * (likely.reduce((a, b) => a + b, 0) / TRIED);
      }
    } else {
      for (let outcome = 0; outcome < OUTCOMES; outcome++) {
        const seen =
          (readings[Math.floor(((outcome + 0.5) / OUTCOMES) * TRIED)] as number) +
          uncertainty * (normals(outcome, 1)[0] as number);
        left +=
          leftOver(
            tried,
            readings.map((value) => Math.exp(-(((value - seen) / uncertainty) ** 2) / 2)),
          ) / OUTCOMES;
      }
    }
    if (left < (best?.left ?? WORTH * WORTH * now)) best = { candidate, left };
  }
  if (!best) return undefined;
  const { candidate, left } = best;
  const predictions = found.map(({ members }) => {
    const one = spread(members, weights, (i) => candidate.predict(sweeps[i] as TrialSweep));
    return { value: one.value, uncertainty: Math.hypot(one.uncertainty, candidate.uncertainty) };
  });
  return { candidate, errorNow: Math.sqrt(now), errorThen: Math.sqrt(left), predictions };
}

/** A sweep as likely as others, and the heap that it belongs to. */
interface Drawn {
  readonly sweep: TrialSweep;
  readonly heap: number;
}

/** So many sweeps of equal weight. */
function drawn({ sweeps, weights }: Cloud, found: readonly Heap[]): readonly Drawn[] {
  const chosen: Drawn[] = [];
  const whole = found.reduce((sum, { probability }) => sum + probability, 0);
  let passed = 0;
  for (const [heap, { members }] of found.entries()) {
    for (const i of members) {
      passed += ((weights[i] as number) / whole) * TRIED;
      while (chosen.length + 0.5 < passed) chosen.push({ sweep: sweeps[i] as TrialSweep, heap });
    }
  }
  return chosen;
}

/** Mean square of what is left if the mean of the most probable heap is changed away. */
function leftOver(tried: readonly Drawn[], weights: Vector): number {
  const shares = [0, 0, 0, 0];
  for (const [k, { heap }] of tried.entries()) shares[heap] = (shares[heap] as number) + (weights[k] as number);
  const likely = shares.indexOf(Math.max(...shares));
  const [share, whole] = [shares[likely] as number, shares.reduce((a, b) => a + b, 0)];
  if (!(whole > 0)) return 0;
  let left = 0;
  for (const size of SIZES) {
    let [mean, square] = [0, 0];
    for (const [k, { sweep, heap }] of tried.entries()) {
      if (heap === likely) mean += ((weights[k] as number) / share) * size(sweep);
    }
    for (const [k, { sweep }] of tried.entries()) square += (weights[k] as number) * (size(sweep) - mean) ** 2;
    left += square / whole;
  }
  return left;
}

/** What makes a part good: radius, tip at the pole, skew. */
const SIZES: readonly ((sweep: TrialSweep) => number)[] = [
  ({ radius, distance }) => Math.sqrt(radius * radius + distance * distance),
  shortOfPole,
  ({ skew }) => skew,
];

function spread(members: Vector, weights: Vector, value: (i: number) => number): Spread {
  let [whole, mean, square] = [0, 0, 0];
  for (const i of members) whole += weights[i] as number;
  for (const i of members) mean += ((weights[i] as number) / whole) * value(i);
  for (const i of members) square += ((weights[i] as number) / whole) * (value(i) - mean) ** 2;
  return { value: mean, uncertainty: Math.sqrt(square) };
}
