/**
 * The law of propagation of uncertainty: a result's standard uncertainty from those of its inputs, row by row.
 * Source: JCGM 100:2008, clause 5 (5.1.2 with its note on second order, 5.2 for correlation), 6.2 and 6.3, annex G.
 */
import { refuse } from '../core/errors.js';
import {
  choice,
  defaulted,
  either,
  type Fields,
  flag,
  later,
  number,
  object,
  optional,
  positive,
  type Reader,
  read,
  representable,
  text,
} from '../core/read.js';
import { type Note, note } from '../core/words.js';
import { convolvedInterval } from './convolution.js';
import { type Correlations, readCorrelations } from './correlation.js';
import { type Derivatives, derivatives } from './derivatives.js';
import type { Estimated } from './differences.js';
import { effectiveDegreesOfFreedom, freedomIgnored } from './freedom.js';
import {
  type BudgetFunction,
  type ByInput,
  budgetFunction,
  type Inputs,
  quantityOf,
  readByName,
  readInputs,
} from './functions.js';
import type { Distribution, NamedInput } from './known.js';
import type { Quantity } from './model.js';
import { linearity, meanOff, notStudent } from './remarks.js';
import { type SecondOrder, secondOrder } from './second-order.js';
import { factorFor, studentBelow } from './student.js';
import { FIRST_ORDER, type FirstOrderNoteCode } from './words.js';

/** What a budget is made from. */
export interface BudgetOptions<Name extends string = string, ErrorName extends string = never> {
  /** A model of the library, or any pure function of named numbers that works in full precision, of 300 inputs at most. */
  readonly model: BudgetFunction<Name, ErrorName>;
  /** What is known of each input, by name. */
  readonly inputs: Inputs<Name, ErrorName>;
  /** Correlations between inputs. @defaultValue none: all are independent */
  readonly correlations?: Correlations;
  /** Coverage probability of the expanded uncertainty, or a fixed coverage factor. @defaultValue 0.95 */
  readonly coverage?:
    | number
    | {
        /** The coverage factor k. */
        readonly factor: number;
      };
  /**
   * What becomes of effective degrees of freedom that are no whole number, before t is taken: `down` to the next
   * whole number (JCGM 100, G.4.1 and its example H.1), which errs on the safe side; `none` takes t at the number itself, as whoever
   * interpolates in table G.2 does (18.98 degrees of freedom give t = 2.09, rounded down 2.10).
   * @defaultValue 'down'
   */
  readonly degreesOfFreedomRounding?: 'down' | 'none';
  /**
   * What the result is taken to be distributed like. `student`: Student's t (JCGM 100, annex G), whatever the inputs are.
   * `convolution`: what the distributions of the inputs give together (JCGM 101, 5.3), exact to 1e-4 of the
   * standard uncertainty for a linear function of independent inputs (to 1 % with one degree of freedom); gamma inputs are refused, and a coverage of more than 0.9999 is.
   * @defaultValue 'student'
   */
  readonly resultDistribution?: 'student' | 'convolution';
  /**
   * Adds the terms of second order to the combined standard uncertainty, and the shift of the mean to the value
   * (JCGM 100, note to 5.1.2; the mean of the same series is ½ Σ fᵢᵢ uᵢ² off).
   * @defaultValue false
   */
  readonly includeSecondOrder?: boolean;
  /**
   * One phrase for an input by name: for a function of your own, or to override a model's.
   * @defaultValue those of the model
   */
  readonly meanings?: ByInput<Name | ErrorName, string>;
}

/** One input's part in a budget. */
export interface BudgetRow {
  /** Name of the input. */
  readonly name: string;
  /** One phrase that says what it is; empty where nothing is known. */
  readonly meaning: string;
  /** Kind of unit. */
  readonly kind: Quantity['kind'];
  /** Best estimate. */
  readonly estimate: number;
  /** Standard uncertainty of the estimate. */
  readonly standardUncertainty: number;
  /** Kind of distribution. */
  readonly distribution: Distribution['kind'];
  /** Degrees of freedom; null: infinitely many. */
  readonly degreesOfFreedom: number | null;
  /** Sensitivity coefficient: derivative of the result by this input. */
  readonly sensitivity: number;
  /** How far off it may be: 0 where it is exact to rounding. */
  readonly sensitivityError: number;
  /** Contribution to the result's standard uncertainty, without sign. */
  readonly contribution: number;
  /** Part of the result's variance, correlation included (then it may be negative); all parts sum to 1. */
  readonly share: number;
}

/** A result with its uncertainty and where it comes from. */
export interface Budget {
  /** What the result is. */
  readonly result: Quantity;
  /** Value of the function at the estimates, with the shift of the mean where second order is included. */
  readonly value: number;
  /** Combined standard uncertainty. */
  readonly standardUncertainty: number;
  /** Effective degrees of freedom by Welch and Satterthwaite, not rounded; null: infinitely many. */
  readonly degreesOfFreedom: number | null;
  /** Coverage probability of the interval. */
  readonly coverage: number;
  /** Coverage factor k, from Student's t or, of a convolution, U over the standard uncertainty. */
  readonly coverageFactor: number;
  /** Degrees of freedom that t was taken at; null: the normal distribution, or a convolution. */
  readonly coverageDegreesOfFreedom: number | null;
  /** Expanded uncertainty U = k u; of a convolution the larger distance from the value to an end of the interval. */
  readonly expandedUncertainty: number;
  /** Coverage interval; of a convolution the probabilistically symmetric one, JCGM 101, 3.15. */
  readonly interval: {
    /** Value less expanded uncertainty, or the lower end of the convolution. */
    readonly low: number;
    /** Value plus expanded uncertainty, or the upper end of the convolution. */
    readonly high: number;
  };
  /** Every input, the largest contribution first. */
  readonly rows: readonly BudgetRow[];
  /** Terms of second order; null where they are not known (see the notes). */
  readonly secondOrder: SecondOrder | null;
  /** How the sensitivity coefficients were found. */
  readonly derivatives: 'exact' | 'numerical';
  /** Remarks. */
  readonly notes: readonly Note<FirstOrderNoteCode>[];
}

/** Most inputs for numerical terms of second order: they take 200 evaluations for each pair. */
const MOST_FOR_SECOND_ORDER = 30;
/** Numerical derivatives may blur the combined uncertainty by this part of it, no more. */
const CERTIFIED = 1e-6;

/**
 * Error budget of first order. Derivatives of the library's models are exact to rounding; those of a function of
 * your own are extrapolated differences with a stated error, and refused where they cannot be vouched for.
 *
 * "First order" takes the function for a plane over the range of its inputs. Where it is not, the notes say so
 * (`not-linear`, `second-order-matters`, `mean-shifted`), and Monte Carlo gives the answer. Where the inputs' shapes
 * make more or less of the interval than it says (`one-input-rules`, `interval-beyond-limits`), `resultDistribution:
 * 'convolution'` gives the interval that they really have.
 * @throws GeneratrixError `missing-option`, `unknown-option`, `wrong-kind`, `not-finite`, `out-of-range` or
 * `contradiction` for options that cannot be read; `not-representable` where the function has no value;
 * `out-of-range` where it has no derivative; `not-converged` where numerical derivatives cannot be vouched for.
 * @example
 * ```ts
 * import { budget } from 'generatrix/budget';
 * // A plug of 40 mm measured over two readings of a length, on a scale that is right to 0.02 mm.
 * const { value, standardUncertainty, rows } = budget({
 *   model: ({ far, near }) => far - near,
 *   inputs: {
 *     far: { value: 90, plusMinus: 0.02 },
 *     near: { readings: [50.01, 50.03, 49.99, 50.01] },
 *   },
 * });
 * value.toFixed(3); // => '39.990'
 * standardUncertainty.toFixed(4); // => '0.0141'
 * rows.map(({ name }) => name); // => ['far', 'near']
 * // One limit rules: t takes more than is possible, the convolution does not.
 * const inputs = { bar: { value: 0, plusMinus: 1 }, pin: { value: 0, plusMinus: 0.1 } };
 * const byStudent = budget({ model: ({ bar, pin }) => bar + pin, inputs });
 * byStudent.notes.map(({ code }) => code); // => ['one-input-rules', 'interval-beyond-limits']
 * byStudent.expandedUncertainty.toFixed(3); // => '1.137'
 * const { interval } = budget({ model: ({ bar, pin }) => bar + pin, inputs, resultDistribution: 'convolution' });
 * interval.high.toFixed(3); // => '0.959'
 * ```
 */
export function budget<Name extends string, ErrorName extends string = never>(
  options: BudgetOptions<Name, ErrorName>,
): Budget {
  const given = read<BudgetOptions, Defaults>(options, OPTIONS);
  const { model, includeSecondOrder } = given;
  const inputs = readInputs(model, given.inputs);
  const names = inputs.map(({ name }) => name);
  const meanings = readByName(given.meanings, text(), names, 'meanings');
  const r = readCorrelations(given.correlations, names);
  const d = derivatives(model, inputs);

  const u = inputs.map(({ standardUncertainty }) => standardUncertainty);
  const parts = inputs.map((_, i) => (d.first[i] as Estimated).value * (u[i] as number));
  const covariances = parts.map((a, i) => parts.reduce((sum, b, j) => sum + a * b * (r[i]?.[j] as number), 0));
  const firstOrder = Math.sqrt(
    Math.max(
      0,
      covariances.reduce((sum, part) => sum + part, 0),
    ),
  );
  const independent = r.every((row, i) => row.every((value, j) => value === 0 || i === j || u[i] === 0 || u[j] === 0));

  const notes: Note<FirstOrderNoteCode>[] = [];
  const few = d.kind === 'exact' || names.length <= MOST_FOR_SECOND_ORDER;
  const second = independent && few ? secondOrder(d, names, u, firstOrder) : null;
  if (!second) notes.push(note(FIRST_ORDER, independent ? 'second-order-unknown' : 'second-order-correlated', {}));
  certify(d, inputs, Math.max(firstOrder, second?.standardUncertainty ?? 0));
  if (includeSecondOrder && !second) {
    const phrase = 'must be left out: the terms of second order are not known here';
    refuse('not-converged', 'includeSecondOrder', true, phrase);
  }
  const combined = includeSecondOrder && second ? second.standardUncertainty : firstOrder;
  const standardUncertainty = representable(combined, 'inputs');
  const value = representable(d.value + (includeSecondOrder && second ? second.meanShift : 0), 'inputs') + 0;
  notes.push(...linearity(model, d, inputs, firstOrder, second));

  const { effective, mixed } = effectiveDegreesOfFreedom(inputs, parts, r, firstOrder);
  if (mixed) notes.push(mixed);
  const down = given.degreesOfFreedomRounding === 'down';
  const used = effective !== null && down ? Math.floor(effective * (1 + 1e-12)) : effective;
  const wanted = given.coverage;
  const sensitivities = d.first.map(({ value: c }) => c);
  const away = convolvedAway(given, inputs, sensitivities, independent);
  const byStudent = typeof wanted === 'number' ? factorFor(wanted, used) : wanted.factor;
  const expanded = away ? Math.max(-away.low, away.high) : byStudent * standardUncertainty;
  const expandedUncertainty = representable(expanded, 'inputs');
  if (!includeSecondOrder) notes.push(...meanOff(second, firstOrder));
  const ignored = away ? freedomIgnored(inputs) : 0;
  if (ignored > 0) notes.push(note(FIRST_ORDER, 'degrees-of-freedom-ignored', { inputs: ignored }));
  if (!away) notes.push(...notStudent(inputs, sensitivities, standardUncertainty, expandedUncertainty));

  const rows = inputs.map((input, i): BudgetRow => {
    const { value: sensitivity, error: sensitivityError } = d.first[i] as Estimated;
    const quantity = quantityOf(model, input.name);
    return {
      name: input.name,
      meaning: meanings.get(input.name) ?? quantity?.meaning ?? '',
      kind: quantity?.kind ?? 'number',
      estimate: input.estimate,
      standardUncertainty: input.standardUncertainty,
      distribution: input.distribution.kind,
      degreesOfFreedom: input.degreesOfFreedom,
      sensitivity: sensitivity + 0, // -0 becomes 0
      sensitivityError,
      contribution: Math.abs(parts[i] as number),
      share: firstOrder === 0 ? 0 : (covariances[i] as number) / firstOrder / firstOrder + 0,
    };
  });
  return {
    result: typeof model === 'function' ? { kind: 'number', meaning: '' } : { ...model.result },
    value,
    standardUncertainty,
    degreesOfFreedom: effective,
    coverage: typeof wanted === 'number' ? wanted : 1 - 2 * studentBelow(-wanted.factor, used),
    coverageFactor: away && standardUncertainty > 0 ? expandedUncertainty / standardUncertainty : byStudent,
    coverageDegreesOfFreedom: away ? null : used,
    expandedUncertainty,
    interval: {
      low: representable(value + (away?.low ?? -expandedUncertainty), 'inputs'),
      high: representable(value + (away?.high ?? expandedUncertainty), 'inputs'),
    },
    rows: rows.sort((a, b) => b.contribution - a.contribution),
    secondOrder: second,
    derivatives: d.kind,
    notes,
  };
}

/** Reads a coverage probability or a fixed factor. */
export const coverage: Reader<Required<BudgetOptions>['coverage']> = either(
  (given) => typeof given === 'object',
  object<{ readonly factor: number }>({ factor: positive }),
  number({ above: 0, below: 1 }),
);

/** Ends of the interval by convolution, about the value; null where it is not wanted. */
function convolvedAway(
  given: Pick<BudgetOptions, 'resultDistribution' | 'includeSecondOrder' | 'coverage'>,
  inputs: readonly NamedInput[],
  sensitivities: readonly number[],
  independent: boolean,
): ReturnType<typeof convolvedInterval> | null {
  if (given.resultDistribution !== 'convolution') return null;
  const { coverage: wanted } = given;
  const parameter = 'resultDistribution';
  if (typeof wanted !== 'number') return refuse('contradiction', parameter, 'convolution', 'goes with a probability');
  if (wanted > 0.9999) refuse('out-of-range', 'coverage', wanted, 'must be at most 0.9999 for a convolution');
  if (!independent) refuse('contradiction', parameter, 'convolution', 'goes with independent inputs');
  if (given.includeSecondOrder) refuse('contradiction', parameter, 'convolution', 'goes with first order alone');
  return convolvedInterval(inputs, sensitivities, wanted);
}

type Defaults = 'resultDistribution' | 'coverage' | 'degreesOfFreedomRounding' | 'includeSecondOrder' | 'meanings';
const OPTIONS: Fields<BudgetOptions, Defaults> = {
  model: budgetFunction,
  inputs: later(),
  correlations: optional(later()),
  coverage: defaulted(coverage, 0.95),
  degreesOfFreedomRounding: defaulted(choice('down', 'none'), 'down'),
  resultDistribution: defaulted(choice('student', 'convolution'), 'student'),
  includeSecondOrder: defaulted(flag, false),
  meanings: defaulted(later(), {}),
};

/** Refuses derivatives that do not exist, and numerical ones whose errors would show in the result. */
function certify(d: Derivatives, inputs: readonly NamedInput[], combined: number): void {
  for (const [i, { name, standardUncertainty }] of inputs.entries()) {
    const { value, error } = d.first[i] as Estimated;
    if (!Number.isFinite(value)) {
      refuse('out-of-range', `inputs.${name}`, value, 'must not stand where the function has no derivative');
    }
    // Below 2^-40 of the value a blur cannot be seen in any result.
    const blur = error * standardUncertainty;
    if (blur > CERTIFIED * combined && blur > 2 ** -40 * Math.abs(d.value)) {
      const phrase =
        'must have a derivative that differences can vouch for; a corner, a jump or a rounding nearby: use Monte Carlo';
      refuse('not-converged', `inputs.${name}`, error, phrase);
    }
  }
}
