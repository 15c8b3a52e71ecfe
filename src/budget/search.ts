/**
 * The largest value of a function of numbers over a box, by trying: nothing is known of the function but what it
 * gives, so what is found is reached, and may be exceeded elsewhere.
 */
import { streamOf, uniform } from './random.js';

/** Limits of each variable. */
export type Box = readonly { readonly low: number; readonly high: number }[];

/** A point and the function's value there. */
export interface Found {
  /** The point. */
  readonly at: readonly number[];
  /** The value. */
  readonly value: number;
}

/** The middle of a box. */
export const middle = (box: Box): number[] => box.map(({ low, high }) => (low === high ? low : low / 2 + high / 2));

type PointFunction = (at: readonly number[]) => number;

/** All corners of a box; one alone where it has no width. At most 2^12: beyond, those that alternate least. */
export function corners(box: Box): readonly (readonly number[])[] {
  const free = box.flatMap(({ low, high }, i) => (low < high ? [i] : []));
  return Array.from({ length: 2 ** Math.min(free.length, 12) }, (_, code) =>
    box.map(({ low, high }, i) => (Math.floor(code / 2 ** free.indexOf(i)) % 2 === 1 ? high : low)),
  );
}

/** Climbs from a point by steps along the axes, halved when none leads up (compass search), down to `finest` of the width. */
export function climb(f: PointFunction, box: Box, start: Found, finest = 1e-9): Found {
  const at = [...start.at];
  let best = start.value;
  for (let step = 0.25; step > finest; ) {
    let moved = false;
    for (const [i, { low, high }] of box.entries()) {
      const before = at[i] as number;
      for (const way of [step, -step]) {
        const next = Math.min(high, Math.max(low, before + way * (high - low)));
        if (next === before) continue;
        at[i] = next;
        const value = f(at);
        if (value > best) {
          best = value;
          moved = true;
          break;
        }
        at[i] = before;
      }
    }
    if (!moved) step /= 2;
  }
  return { at, value: best };
}

/** Random starts for each variable; the best of them, and the best corners, are climbed from. */
const STARTS = 64;
const CLIMBS = 12;

/** The largest value that corners and climbs from many starts find. */
export function search(f: PointFunction, box: Box): Found {
  const stream = streamOf(1, 0, 'search');
  const scattered = Array.from({ length: STARTS * box.length }, () =>
    box.map(({ low, high }) => low + (high - low) * uniform(stream)),
  );
  const ranked = (points: readonly (readonly number[])[]): Found[] =>
    points
      .map((at) => ({ at, value: f(at) }))
      .sort((a, b) => b.value - a.value)
      .slice(0, CLIMBS);
  return [...ranked(corners(box)), ...ranked([middle(box), ...scattered])]
    .map((start) => climb(f, box, start))
    .reduce((a, b) => (b.value > a.value ? b : a));
}
