/**
 * Where a budget's interval may hold the truth more or less often than it says: what is told beside it, as notes.
 * Sources: EA-4/02, S9.14 (from memory: one contribution rules where all others together come to 0.3 of it at most); JCGM 100:2008,
 * G.2 (a distribution near the normal one is taken for granted); JCGM 101:2008, 6.4.9.2 (variance of t).
 */
import { type Note, note } from '../core/words.js';
import { type Derivatives, valueAt } from './derivatives.js';
import type { Estimated } from './differences.js';
import { type BudgetFunction, byName } from './functions.js';
import type { NamedInput } from './known.js';
import type { SecondOrder } from './second-order.js';
import { FIRST_ORDER, type FirstOrderNoteCode } from './words.js';

/** Least share of the variance that rules: all others together come to 0.3 of it at most. */
const RULES = 1 / (1 + 0.3 ** 2);
/**
 * A mean that lies this part of u off takes 1 % from a coverage of 95 %: at a shift of δ u the tails beyond ± 1.96 u
 * grow by 1.96 φ(1.96) δ² = 0.115 δ².
 */
const SHIFTED = 0.3;

type Notes = Note<FirstOrderNoteCode>[];

/** A note that names an input, which is no number and stands in its sentence alone. */
function named(
  code: 'not-linear' | 'one-input-rules' | 'few-degrees-of-freedom',
  name: string,
  values: Readonly<Record<string, number>>,
): Notes[number] {
  return { code, message: FIRST_ORDER[code]({ name }), values };
}

/** Says where the function is no plane over the range of its inputs. */
export function linearity(
  model: BudgetFunction,
  d: Derivatives,
  inputs: readonly NamedInput[],
  combined: number,
  second: SecondOrder | null,
): Notes {
  const notes: Notes = [];
  if (second && second.standardUncertainty > 0 && Math.abs(second.standardUncertainty - combined) > 0.05 * combined) {
    const values = { firstOrder: combined, secondOrder: second.standardUncertainty };
    notes.push(note(FIRST_ORDER, combined === 0 ? 'first-order-vanishes' : 'second-order-matters', values));
  }
  for (const [i, { name, standardUncertainty: u }] of inputs.entries()) {
    if (u === 0) continue;
    const tangent = (d.first[i] as Estimated).value * u;
    const secant = secantOver(model, inputs, i, u);
    if (secant === null || Math.abs(secant - tangent) > 0.1 * Math.max(combined, Math.abs(secant) * 1e-6)) {
      const values = { tangent: Math.abs(tangent), ...(secant === null ? {} : { secant: Math.abs(secant) }) };
      notes.push(named('not-linear', name, values));
    }
  }
  return notes;
}

/** Says that the mean lies off the value about which the interval stands. */
export function meanOff(second: SecondOrder | null, combined: number): Notes {
  if (!second || Math.abs(second.meanShift) <= SHIFTED * combined) return [];
  return [note(FIRST_ORDER, 'mean-shifted', { meanShift: second.meanShift, standardUncertainty: combined })];
}

/** Says where Student's t is not what the result is distributed like. */
export function notStudent(
  inputs: readonly NamedInput[],
  sensitivities: readonly number[],
  combined: number,
  expanded: number,
): Notes {
  const notes: Notes = [];
  let [below, above] = [0, 0];
  for (const [i, input] of inputs.entries()) {
    const c = sensitivities[i] as number;
    if (c === 0 || input.standardUncertainty === 0) continue;
    const { kind } = input.distribution;
    // Beyond 1 it is correlation that takes from the whole.
    const share = ((c * input.standardUncertainty) / combined) ** 2;
    if (kind !== 'normal' && kind !== 't' && kind !== 'gamma' && share >= RULES && share <= 1 + 1e-9) {
      notes.push(named('one-input-rules', input.name, { share }));
    }
    if (kind === 't' && (input.degreesOfFreedom as number) <= 2) {
      notes.push(named('few-degrees-of-freedom', input.name, { degreesOfFreedom: input.degreesOfFreedom as number }));
    }
    const positive = kind === 'exponential' || kind === 'gamma';
    const { from, to } = input.limits ?? { from: positive ? 0 : -Infinity, to: Infinity };
    const ends = [c * (from - input.estimate), c * (to - input.estimate)];
    below -= Math.min(...ends);
    above += Math.max(...ends);
  }
  const slack = 1 + 1e-9;
  if (below > 0 && (expanded > below * slack || expanded > above * slack)) {
    const values = { expandedUncertainty: expanded, possible: Math.min(below, above) };
    notes.push(note(FIRST_ORDER, 'interval-beyond-limits', values));
  }
  return notes;
}

/** Half the change of the result while one input goes from estimate - u to estimate + u; null outside the domain. */
function secantOver(model: BudgetFunction, inputs: readonly NamedInput[], i: number, u: number): number | null {
  const shifted = (by: number): number =>
    valueAt(
      model,
      byName(inputs, ({ estimate }, j) => (i === j ? estimate + by : estimate)),
    );
  try {
    return (shifted(u) - shifted(-u)) / 2;
  } catch {
    return null;
  }
}
