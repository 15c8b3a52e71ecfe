/**
 * Worst case: the smallest and the largest result that inputs within their limits can give, inside the limits as
 * well as at them. For a model of the library no result lies beyond the bounds, rounding included, and one that passes a
 * pole has none and is refused; a function of one's own is searched, and a search can miss a narrow peak.
 */
import { refuse } from '../core/errors.js';
import { type Fields, later, optional, positive, read, representable } from '../core/read.js';
import { type Note, note } from '../core/words.js';
import { branchAndBound } from './branch.js';
import { valueAt } from './derivatives.js';
import { type BudgetFunction, budgetFunction, byName, type Inputs, readInputs } from './functions.js';
import type { NamedInput } from './known.js';
import { type Box, climb, corners, type Found, middle, search } from './search.js';
import { EXTREMES } from './words.js';

/** What to find the worst case of. */
export interface WorstCaseOptions<Name extends string = string, ErrorName extends string = never> {
  /** A model, or a pure function of named inputs. */
  readonly model: BudgetFunction<Name, ErrorName>;
  /** What is known of each input, by name. */
  readonly inputs: Inputs<Name, ErrorName>;
  /**
   * For inputs that have no limits, such as normal ones: how many standard uncertainties either way count as their
   * limits.
   * @defaultValue none: such inputs are refused, for they have no worst case
   */
  readonly standardUncertainties?: number;
}

/** One end of what is possible. */
export interface Extreme {
  /** The result there, which was reached. */
  readonly value: number;
  /** Nothing lies beyond this; null where that is not certain. */
  readonly bound: number | null;
  /** The inputs that give it. */
  readonly at: Readonly<Record<string, number>>;
  /** Whether each input stands at one of its limits. */
  readonly atCorner: boolean;
}

/** The worst case both ways. */
export interface WorstCase {
  /** Smallest result. */
  readonly lowest: Extreme;
  /** Largest result. */
  readonly highest: Extreme;
  /** `certified`: no result lies beyond the bounds. `searched`: none was found beyond the values. */
  readonly certainty: 'certified' | 'searched';
  /** Whether looking at the corners of the limits alone would have found both ends. */
  readonly cornersSuffice: boolean;
  /** How far the bounds lie beyond the values reached, the larger of both ends; null for a search. */
  readonly gap: number | null;
  /** Remarks: a search, a gap that is left. */
  readonly notes: readonly Note<'searched' | 'bounds-not-reached'>[];
}

/** Ends are found to this part of the range between them; the bounds stay certain whatever it is. */
const PRECISION = 1e-6;

/**
 * True extremes of a result over the limits of its inputs.
 * @throws GeneratrixError for options that are none; `out-of-range` for inputs without limits;
 * `not-representable` where the function was found to have no finite value within the limits, or may grow beyond any.
 * @example
 * ```ts
 * import { worstCase } from 'generatrix/budget';
 * // A swing through the middle: the largest value lies at neither limit.
 * const swing = worstCase({ model: ({ angle }) => Math.cos(angle), inputs: { angle: { from: -0.2, to: 0.3 } } });
 * swing.highest.value; // => 1
 * swing.cornersSuffice; // => false
 * swing.certainty; // => 'searched'
 * worstCase({ model: ({ a }) => a, inputs: { a: { value: 0, standardUncertainty: 1 } } }); // throws out-of-range
 * ```
 */
export function worstCase<Name extends string, ErrorName extends string = never>(
  options: WorstCaseOptions<Name, ErrorName>,
): WorstCase {
  const given = read<WorstCaseOptions>(options, OPTIONS);
  const { model } = given;
  const inputs = readInputs(model, given.inputs);
  const box = inputs.map((input) => limitsOf(input, given.standardUncertainties));
  const named = <T>(at: readonly T[]): Record<string, T> => byName(inputs, (_, i) => at[i] as T);
  const f = (at: readonly number[]): number => valueAt(model, named(at));

  const start = middle(box);
  const centre = f(start);
  const rise = (sign: 1 | -1): number =>
    climb((at) => sign * f(at), box, { at: start, value: sign * centre }, 1e-3).value - sign * centre;
  const bounded = (sign: 1 | -1): Found & { readonly bound: number | null } => {
    if (typeof model === 'function') return { ...search((at) => sign * f(at), box), bound: null };
    // Where the range is next to nothing, some units in the last place of the value itself must do.
    const tolerance = Math.max(PRECISION * (rise(1) + rise(-1)), 64 * Number.EPSILON * Math.abs(centre));
    return branchAndBound((arithmetic, at) => model.evaluate(arithmetic, named(at)), box, sign, tolerance);
  };
  const end = (sign: 1 | -1): Extreme => {
    const { at, bound } = bounded(sign);
    return {
      value: representable(f(at), 'model'),
      bound: bound === null ? null : representable(sign * bound, 'model'),
      at: named(at),
      atCorner: at.every((x, i) => x === box[i]?.low || x === box[i]?.high),
    };
  };

  const [lowest, highest] = [end(-1), end(1)];
  const range = highest.value - lowest.value;
  const beyond = ({ bound, value }: Extreme): number => Math.abs((bound as number) - value);
  const gap = lowest.bound === null ? null : Math.max(beyond(lowest), beyond(highest));
  return {
    lowest,
    highest,
    certainty: gap === null ? 'searched' : 'certified',
    cornersSuffice: (lowest.atCorner && highest.atCorner) || cornersReach(f, box, lowest.value, highest.value),
    gap,
    notes: notesOn(gap, range, inputs.length),
  };
}

const OPTIONS: Fields<WorstCaseOptions> = {
  model: budgetFunction,
  inputs: later(),
  standardUncertainties: optional(positive),
};

function limitsOf({ name, limits, estimate, standardUncertainty }: NamedInput, factor?: number): Box[number] {
  if (limits) return { low: limits.from, high: limits.to };
  const path = `inputs.${name}`;
  if (factor === undefined) {
    return refuse('out-of-range', path, null, 'must have limits, or `standardUncertainties` must be given');
  }
  const away = factor * standardUncertainty;
  return { low: representable(estimate - away, path), high: representable(estimate + away, path) };
}

/** Whether corners give the same ends, to rounding: an input without influence may stand anywhere. */
function cornersReach(f: (at: readonly number[]) => number, box: Box, lowest: number, highest: number): boolean {
  const values = corners(box).map(f);
  const slack = 16 * Number.EPSILON * Math.max(Math.abs(lowest), Math.abs(highest));
  return Math.min(...values) <= lowest + slack && Math.max(...values) >= highest - slack;
}

function notesOn(gap: number | null, range: number, inputs: number): WorstCase['notes'] {
  if (gap === null) return [note(EXTREMES, 'searched', { inputs })];
  return gap > 10 * PRECISION * range && gap > 0 ? [note(EXTREMES, 'bounds-not-reached', { gap, range })] : [];
}
