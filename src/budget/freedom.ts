/** Effective degrees of freedom of a combined standard uncertainty: Welch and Satterthwaite, JCGM 100:2008, G.4. */
import { type Note, note } from '../core/words.js';
import { linked } from './correlation.js';
import type { NamedInput } from './known.js';
import { FIRST_ORDER } from './words.js';

/**
 * ν = u⁴ / Σ(uᵢ⁴/νᵢ). The formula holds for independent contributions: inputs that are correlated with each
 * other are first joined into one contribution. From readings taken together they have the same degrees of
 * freedom, and the joint contribution has them too; otherwise the fewest are taken, and a note says so.
 */
export function effectiveDegreesOfFreedom(
  inputs: readonly NamedInput[],
  parts: readonly number[],
  r: readonly (readonly number[])[],
  combined: number,
): { readonly effective: number | null; readonly mixed: Note<'degrees-of-freedom-mixed'> | null } {
  let mixed: Note<'degrees-of-freedom-mixed'> | null = null;
  let sum = 0;
  for (const group of linked(r)) {
    const freedoms = group.map((i) => inputs[i]?.degreesOfFreedom ?? Infinity);
    const fewest = Math.min(...freedoms);
    const most = Math.max(...freedoms);
    if (fewest === Infinity || combined === 0) continue;
    if (fewest < most) {
      mixed = note(FIRST_ORDER, 'degrees-of-freedom-mixed', most < Infinity ? { fewest, most } : { fewest });
    }
    let variance = 0;
    for (const i of group) {
      for (const j of group) variance += (parts[i] as number) * (parts[j] as number) * (r[i]?.[j] as number);
    }
    // Divided by the whole first, so that no fourth power leaves the range of numbers.
    sum += (variance / combined / combined) ** 2 / fewest;
  }
  return { effective: sum > 0 && 1 / sum < Infinity ? 1 / sum : null, mixed };
}

/** How many inputs state degrees of freedom of their limits: Welch and Satterthwaite count them, no distribution does. */
export function freedomIgnored(inputs: readonly NamedInput[]): number {
  return inputs.filter(({ limits, degreesOfFreedom }) => limits !== null && degreesOfFreedom !== null).length;
}
