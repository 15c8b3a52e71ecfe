/**
 * The inverse of a budget: from the tolerance of the result back to how well each setting must be held.
 *
 * With sensitivities cᵢ and tolerances tᵢ the result stays within T if Σ|cᵢ|tᵢ ≤ T (worst case) or, for
 * independent errors, √Σcᵢ²tᵢ² ≤ T (root sum square). Least cost, where holding tᵢ costs kᵢ/tᵢ: the minimum of
 * Σkᵢ/tᵢ on that boundary has kᵢ/tᵢ² = λ|cᵢ|, so tᵢ ∝ √(kᵢ/|cᵢ|), for the worst case and kᵢ/tᵢ² = 2λcᵢ²tᵢ, so
 * tᵢ ∝ ∛(kᵢ/cᵢ²), for the root sum square (Lagrange's multiplier).
 */
import { refuse } from '../core/errors.js';
import { choice, type Fields, later, optional, positive, read, representable } from '../core/read.js';
import { type Note, note } from '../core/words.js';
import { derivatives, valueAt } from './derivatives.js';
import type { Estimated } from './differences.js';
import {
  type BudgetFunction,
  type ByInput,
  budgetFunction,
  byName,
  type Inputs,
  readByName,
  readInputs,
} from './functions.js';
import type { NamedInput } from './known.js';
import { ALLOCATION } from './words.js';

/** What to share out, and how. */
export interface AllocationOptions<Name extends string = string, ErrorName extends string = never> {
  /** A model of the library, or any pure function of named numbers. */
  readonly model: BudgetFunction<Name, ErrorName>;
  /** The settings to be allocated as plain numbers; inputs stated in any other way keep their uncertainty. */
  readonly inputs: Inputs<Name, ErrorName>;
  /** Tolerance of the result: it may be off by this much either way. */
  readonly tolerance: number;
  /**
   * `equal-share`: every setting contributes as much as any other. `equal-ratio`: tolerances in given ratios.
   * `least-cost`: the tolerances that cost least together, where each costs its cost over its tolerance.
   */
  readonly method: 'equal-share' | 'equal-ratio' | 'least-cost';
  /** How errors add up: to the worst case, or as independent ones by the root of the sum of their squares. */
  readonly combination: 'worst-case' | 'root-sum-square';
  /** Least cost only: cost of holding each setting to a tolerance of 1. @defaultValue 1 each */
  readonly costs?: ByInput<Name | ErrorName, number>;
  /** Equal ratio only: size of each tolerance against the others. @defaultValue the settings' own sizes */
  readonly ratios?: ByInput<Name | ErrorName, number>;
  /** Graduations that settings are made on: none can be held closer than half of its step. @defaultValue none */
  readonly steps?: ByInput<Name | ErrorName, number>;
}

/** What one setting is allowed. */
export interface AllocatedSetting {
  /** Name of the setting. */
  readonly name: string;
  /** Where it is set. */
  readonly estimate: number;
  /** Derivative of the result by it. */
  readonly sensitivity: number;
  /** How far it may be off either way; null: any error, as the result does not feel it in first order. */
  readonly tolerance: number | null;
  /** True where the machine's graduation, not the sharing, sets the tolerance. */
  readonly atGraduation: boolean;
  /** What it adds to the result's tolerance. */
  readonly contribution: number;
  /** Its part of the whole; all parts, those of the other inputs included, sum to 1. */
  readonly share: number;
}

/** A tolerance shared out. */
export interface Allocation {
  /** Tolerance of the result that was shared out. */
  readonly tolerance: number;
  /** The settings, in the order of the inputs. */
  readonly settings: readonly AllocatedSetting[];
  /** What the inputs of known uncertainty use up of the tolerance. */
  readonly used: number;
  /** Cost of the settings together, Σ cost over tolerance. */
  readonly cost: number;
  /** What halving the tolerance of one input, alone, would leave of the result's; what pays most comes first. */
  readonly improvements: readonly {
    /** Name of the input. */
    readonly name: string;
    /** Tolerance of the result then. */
    readonly tolerance: number;
  }[];
  /** Remarks: `not-linear` where the extreme settings take the result elsewhere than first order says. */
  readonly notes: readonly Note<'not-linear'>[];
}

/** One input on its way to a tolerance. */
interface Part {
  readonly input: NamedInput;
  /** Whether it is a setting that gets its tolerance here. */
  readonly open: boolean;
  readonly sensitivity: number;
  /** Tolerance, null until it is known. */
  readonly tolerance: number | null;
  readonly weight: number;
  readonly floor: number;
  readonly cost: number;
}

/**
 * Shares the tolerance of a result out to the settings that make it. In first order, as a budget is: with the
 * tolerances as rectangular limits, {@link budget} gives back √3 times its standard uncertainty as the tolerance
 * for the root sum square, and the sum of √3 times its contributions for the worst case. Inputs that keep their
 * uncertainty count with √3 times their standard uncertainty, in the worst case with their limits.
 * @throws GeneratrixError `beyond-machine` where known inputs and graduations alone use up the tolerance,
 * `out-of-range` where no setting moves the result or an input has no limits for a worst case, and the codes of
 * {@link budget} for options that cannot be read.
 * @example
 * ```ts
 * import { allocate } from 'generatrix/budget';
 * // A set-over of 5 mm on 200 mm: how well must both be held for a sine good to 0.0001?
 * const { settings } = allocate({
 *   model: ({ offset, length }) => offset / length,
 *   inputs: { offset: 5, length: 200 },
 *   tolerance: 0.0001,
 *   method: 'equal-share',
 *   combination: 'worst-case',
 * });
 * settings.map(({ name, tolerance }) => `${name} ${tolerance?.toFixed(3)}`); // => ['offset 0.010', 'length 0.400']
 * ```
 */
export function allocate<Name extends string, ErrorName extends string = never>(
  options: AllocationOptions<Name, ErrorName>,
): Allocation {
  const given = read<AllocationOptions>(options, OPTIONS);
  const { model, tolerance } = given;
  const worst = given.combination === 'worst-case';
  const { share, measure } = rules(worst);
  const parts = shareOut(partsOf(given, worst), tolerance, worst);
  const contributions = parts.map(contribution);
  const total = measure(contributions);
  const settings = parts.filter(({ open }) => open);
  return {
    tolerance,
    settings: settings.map((part) => ({
      name: part.input.name,
      estimate: part.input.estimate,
      sensitivity: part.sensitivity,
      tolerance: part.tolerance === null ? null : representable(part.tolerance, 'tolerance'),
      atGraduation: part.tolerance === part.floor,
      contribution: contribution(part),
      share: total === 0 ? 0 : share(contribution(part) / total),
    })),
    used: measure(parts.filter(({ open }) => !open).map(contribution)),
    cost: representable(
      settings.reduce((sum, { tolerance: held, cost }) => (held === null ? sum : sum + cost / held), 0),
      'tolerance',
    ),
    improvements: parts
      .map(({ input: { name } }, i) => ({
        name,
        tolerance: measure(contributions.map((c, j) => (i === j ? c / 2 : c))),
      }))
      .sort((a, b) => a.tolerance - b.tolerance),
    notes: linearity(model, parts),
  };
}

const contribution = ({ sensitivity, tolerance }: Part): number => Math.abs(sensitivity) * (tolerance ?? 0);

/** How contributions add up, and what part of the whole one of them is. */
function rules(worst: boolean): { measure: (x: readonly number[]) => number; share: (part: number) => number } {
  return worst
    ? { measure: (x) => x.reduce((sum, value) => sum + value, 0), share: (part) => part }
    : { measure: (x) => Math.sqrt(x.reduce((sum, value) => sum + value * value, 0)), share: (part) => part * part };
}

/**
 * Gives every open setting its tolerance: in proportion to its weight, but no less than its floor. What a floor
 * takes beyond its part is missing for the others, so those once at their floor stay there.
 */
function shareOut(parts: readonly Part[], tolerance: number, worst: boolean): readonly Part[] {
  const { measure } = rules(worst);
  for (let settled = parts; ; ) {
    const open = settled.filter((part) => part.tolerance === null && part.weight < Infinity);
    const used = measure(settled.map(contribution));
    const rest = worst ? tolerance - used : Math.sqrt(Math.max(0, (tolerance - used) * (tolerance + used)));
    const unit = measure(open.map((part) => Math.abs(part.sensitivity) * part.weight));
    if (!(rest > 0 && unit > 0)) {
      const phrase = `must be greater than ${used}, which known inputs and graduations use up alone`;
      return refuse('beyond-machine', 'tolerance', tolerance, phrase);
    }
    const offered = new Map(open.map((part) => [part, (rest / unit) * part.weight]));
    const isShort = (part: Part): boolean => (offered.get(part) ?? Infinity) < part.floor;
    const short = open.some(isShort);
    const given = (part: Part): number | null => {
      if (!short) return offered.get(part) ?? part.tolerance;
      return isShort(part) ? part.floor : part.tolerance;
    };
    settled = settled.map((part) => ({ ...part, tolerance: given(part) }));
    if (!short) return settled;
  }
}

const OPTIONS: Fields<AllocationOptions> = {
  model: budgetFunction,
  inputs: later(),
  tolerance: positive,
  method: choice('equal-share', 'equal-ratio', 'least-cost'),
  combination: choice('worst-case', 'root-sum-square'),
  costs: optional(later()),
  ratios: optional(later()),
  steps: optional(later()),
};

function partsOf(options: AllocationOptions, worst: boolean): readonly Part[] {
  const { model, method } = options;
  const inputs = readInputs(model, options.inputs);
  const stated = new Map(Object.entries(options.inputs));
  const names = inputs.map(({ name }) => name).filter((name) => typeof stated.get(name) === 'number');
  if (names.length === 0) refuse('missing-option', 'inputs', options.inputs, 'must hold a setting as a plain number');
  const table = (key: 'costs' | 'ratios' | 'steps', owner = method): ReadonlyMap<string, number> => {
    const given = options[key];
    if (given === undefined) return new Map();
    if (method !== owner) refuse('contradiction', key, method, `goes with the method ${owner}`);
    return readByName(given, positive, names, key);
  };
  const [costs, ratios, steps] = [table('costs', 'least-cost'), table('ratios', 'equal-ratio'), table('steps')];

  const { first, value } = derivatives(model, inputs);
  const parts = inputs.map((input, i): Part => {
    const { name, estimate } = input;
    const sensitivity = sensitivityOf(input, first[i] as Estimated, value);
    const size = Math.abs(sensitivity);
    const cost = costs.get(name) ?? 1;
    if (!names.includes(name)) {
      return { input, open: false, sensitivity, tolerance: halfWidth(input, worst), weight: 0, floor: 0, cost };
    }
    const weight = {
      'equal-share': 1 / size,
      'equal-ratio': ratios.get(name) ?? Math.abs(estimate),
      'least-cost': worst ? Math.sqrt(cost / size) : Math.cbrt(cost / size / size),
    }[method];
    if (weight === 0) refuse('missing-option', `ratios.${name}`, undefined, 'must be given for a setting of 0');
    return { input, open: true, sensitivity, tolerance: null, weight, floor: (steps.get(name) ?? 0) / 2, cost };
  });
  if (parts.every(({ open, sensitivity }) => !open || sensitivity === 0)) {
    refuse('out-of-range', 'inputs', names.join(', '), 'must hold a setting that moves the result in first order');
  }
  return parts;
}

/** A sensitivity good to 1e-9, or 0 where none can be told from rounding. */
function sensitivityOf({ name, estimate }: NamedInput, { value: c, error }: Estimated, result: number): number {
  if (!Number.isFinite(c)) {
    return refuse('out-of-range', `inputs.${name}`, c, 'must not stand where the function has no derivative');
  }
  if (error <= 1e-9 * Math.abs(c)) return c;
  if (Math.abs(c) <= error && error * Math.abs(estimate) <= 1e-10 * Math.abs(result)) return 0;
  return refuse('not-converged', `inputs.${name}`, error, 'must have a derivative that differences can vouch for');
}

/** What an input that is not allocated may be off: half its width, or the rectangle of the same spread. */
function halfWidth({ name, limits, standardUncertainty }: NamedInput, worst: boolean): number {
  if (!worst) return Math.sqrt(3) * standardUncertainty;
  return limits ? (limits.to - limits.from) / 2 : refuse('out-of-range', `inputs.${name}`, limits, 'must have limits');
}

/** Compares the worst corner of the allocated box with what first order says of it. */
function linearity(model: BudgetFunction, parts: readonly Part[]): readonly Note<'not-linear'>[] {
  const inputs = parts.map(({ input }) => input);
  const at = (way: number): number => {
    const off = parts.map(({ sensitivity, tolerance }) => way * Math.sign(sensitivity) * (tolerance ?? 0));
    return valueAt(
      model,
      byName(inputs, ({ estimate }, i) => estimate + (off[i] as number)),
    );
  };
  const expected = parts.reduce((sum, part) => sum + contribution(part), 0);
  let found = Infinity;
  try {
    found = Math.max(at(1) - at(0), at(0) - at(-1));
  } catch {
    // The corner lies outside the function's domain: as far from linear as can be.
  }
  if (Math.abs(found - expected) <= 0.01 * expected) return [];
  const values = found < Infinity ? { firstOrder: expected, found } : { firstOrder: expected };
  return [note(ALLOCATION, 'not-linear', values)];
}
