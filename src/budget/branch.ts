/**
 * The largest value of a model over a box, with a bound that is certain: branch and bound over intervals.
 *
 * A box is bounded by interval arithmetic. Where the function is certainly continuous over the box its derivatives say
 * more: the mean value form f(c) + Σ fᵢ'(X)(Xᵢ - cᵢ) bounds it; where a derivative keeps its sign the box shrinks to a
 * face; where the matrix of second derivatives is certainly negative definite the function is concave, and the tangent
 * plane at its summit bounds it. Across a pole none of that holds: the slope of a tangent is positive on both sides.
 * What cannot be settled is cut in two.
 * Source: E. Hansen, G. W. Walster, Global Optimization Using Interval Analysis, 2nd ed. 2004.
 */
import { type Dual, dualArithmetic, plainArithmetic, variable } from './arithmetic.js';
import { type Interval, intervalArithmetic, watchedArithmetic } from './interval.js';
import type { Arithmetic } from './model.js';
import { type Box, climb, type Found, middle } from './search.js';

/** What is known of the largest value. */
export interface Bounded extends Found {
  /** No value in the box is above this. */
  readonly bound: number;
}

/** Boxes looked at before the search ends with the gap that is left: fewer with many inputs, of which each box takes the square. */
const mostBoxes = (inputs: number): number => Math.round(20_000 / Math.max(1, (inputs / 4) ** 2));

/** A bound of the function over a box, and of its derivatives. */
interface Enclosure {
  readonly value: Interval;
  readonly slopes: readonly Interval[];
}

const first = dualArithmetic(intervalArithmetic);
const second = dualArithmetic(first);
const NOTHING: Interval = { low: 0, high: 0 };
const ANYTHING: Interval = { low: -Infinity, high: Infinity };

/** The function over any arithmetic, its inputs by place. */
export type Evaluate = <T>(arithmetic: Arithmetic<T>, at: readonly T[]) => T;

/** Largest value of `sign` times the function over the box, known to `tolerance`, unless boxes run out. */
export function branchAndBound(evaluate: Evaluate, box: Box, sign: 1 | -1, tolerance: number): Bounded {
  const f = (at: readonly number[]): number => sign * evaluate(plainArithmetic, at);
  // What is continuous over all of the box is so over every part of it.
  const everywhere = isContinuousOver(evaluate, box);
  const isContinuous = (inner: Box): boolean => everywhere || isContinuousOver(evaluate, inner);
  const enclose = (inner: Box): Enclosure => {
    if (!isContinuous(inner)) {
      return { value: times(sign, evaluate(intervalArithmetic, inner)), slopes: inner.map(() => ANYTHING) };
    }
    const variables = inner.map((x, i) => variable(intervalArithmetic, x, i));
    const { value, partials } = evaluate(first, variables);
    return { value: times(sign, value), slopes: inner.map((_, i) => times(sign, partials[i] ?? NOTHING)) };
  };

  let best: Found = { at: middle(box), value: f(middle(box)) };
  const improve = (found: Found): void => {
    // A value that is no number is kept, for the caller to refuse.
    if (found.value > best.value || Number.isNaN(found.value)) best = found;
  };
  let settled = -Infinity;
  let open: { readonly box: Box; readonly bound: number }[] = [{ box, bound: Infinity }];
  // Where no bound can be had for one box, none can be had at all.
  const goesOn = (): boolean => open.length > 0 && settled < Infinity && !Number.isNaN(best.value);
  for (let looked = 0; goesOn() && looked < mostBoxes(box.length); ) {
    const next: typeof open = [];
    for (const { box: outer, bound: known } of open) {
      if (known <= best.value + tolerance) {
        settled = Math.max(settled, known);
        continue;
      }
      looked++;
      const inner = towardsFaces(outer, enclose);
      const { value, slopes } = enclose(inner);
      const centre = middle(inner);
      improve({ at: centre, value: f(centre) });
      const mean = tangent(enclose(centre.map(point)).value, slopes, inner, centre);
      let bound = Math.min(known, value.high, mean);
      if (bound > best.value + tolerance && isContinuous(inner) && isConcave(evaluate, inner, sign)) {
        const summit = climb(f, inner, { at: centre, value: f(centre) });
        improve(summit);
        const there = enclose(summit.at.map(point));
        bound = Math.min(bound, tangent(there.value, there.slopes, inner, summit.at));
      }
      if (bound <= best.value + tolerance || !canBeCut(inner)) settled = Math.max(settled, bound);
      else next.push(...halves(inner, slopes).map((half) => ({ box: half, bound })));
    }
    open = next;
  }
  return { ...best, bound: open.reduce((most, { bound }) => Math.max(most, bound), Math.max(settled, best.value)) };
}

const point = (x: number): Interval => ({ low: x, high: x });
const times = (sign: 1 | -1, x: Interval): Interval => (sign === 1 ? x : { low: -x.high, high: -x.low });

/** Whether the function certainly has a value everywhere in the box, and no jump. */
function isContinuousOver(evaluate: Evaluate, box: Box): boolean {
  let sure = true;
  evaluate(
    watchedArithmetic(() => {
      sure = false;
    }),
    box,
  );
  return sure;
}

/** Goes to the face where the function is largest, as long as some derivative keeps its sign. */
function towardsFaces(box: Box, enclose: (box: Box) => Enclosure): Box {
  for (let inner = box; ; ) {
    const { slopes } = enclose(inner);
    const faces = inner.map((x, i) => {
      const { low, high } = slopes[i] as Interval;
      return low >= 0 ? point(x.high) : high <= 0 ? point(x.low) : x;
    });
    if (faces.every((x, i) => x.low === inner[i]?.low && x.high === inner[i]?.high)) return inner;
    inner = faces;
  }
}

/** Upper bound from the value at a point and the slopes: of the box (mean value form) or, if concave, of the point. */
function tangent(value: Interval, slopes: readonly Interval[], box: Box, at: readonly number[]): number {
  return box.reduce((sum: Interval, { low, high }, i) => {
    const away = intervalArithmetic.subtract({ low, high }, point(at[i] as number));
    return intervalArithmetic.add(sum, intervalArithmetic.multiply(slopes[i] as Interval, away));
  }, value).high;
}

/**
 * Whether the function is certainly concave over the box: the matrix of second derivatives, scaled by the widths of
 * the box, has a negative diagonal that outweighs the rest of each row (S. Gershgorin, 1931).
 */
function isConcave(evaluate: Evaluate, box: Box, sign: 1 | -1): boolean {
  const variables = box.map((x, i): Dual<Dual<Interval>> => variable(first, variable(intervalArithmetic, x, i), i));
  const { partials } = evaluate(second, variables);
  return box.every(({ low, high }, i) => {
    if (low === high) return true;
    let sum = 0;
    for (const [j, other] of box.entries()) {
      const term = times(sign, partials[i]?.partials[j] ?? NOTHING);
      const width = other.high - other.low;
      if (width > 0) sum += width * (i === j ? term.high : Math.max(Math.abs(term.low), Math.abs(term.high)));
    }
    return sum < 0;
  });
}

function canBeCut(box: Box): boolean {
  return middle(box).some((centre, i) => (box[i] as Interval).low < centre && centre < (box[i] as Interval).high);
}

/** Cuts a box across the variable that changes the function most. */
function halves(box: Box, slopes: readonly Interval[]): readonly Box[] {
  const effect = box.map(({ low, high }, i) => {
    const { low: l, high: h } = slopes[i] as Interval;
    return high > low ? Math.min(Math.max(-l, h, 0), Number.MAX_VALUE) * (high - low) : -1;
  });
  const cut = effect.indexOf(Math.max(...effect));
  const across = middle(box)[cut] as number;
  const half = (from: number, to: number): Box => box.map((x, i) => (i === cut ? { low: from, high: to } : x));
  const { low, high } = box[cut] as Interval;
  return [half(low, across), half(across, high)];
}
