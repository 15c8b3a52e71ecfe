/** Where a hand or a machine can come to harm: what holds for every method, then what the method and the part bring along. */
import { GENERAL } from '../method/cautions.js';
import type { Caution as AnyCaution } from '../method/steps.js';
import type { AnyMethod } from './methods.js';
import { type Chosen, chosenOf, type PlannedOptions } from './planned.js';

/** Code of a caution. */
export type CautionCode = keyof typeof GENERAL | AnyMethod['caution'];

/** One caution. */
export type Caution = AnyCaution<CautionCode>;

/**
 * Cautions for the work by one method of a plan.
 * @returns Cautions, the general ones first.
 * @throws GeneratrixError `beyond-machine` for a method that cannot reach, or a plan in which none does.
 * @example
 * ```ts
 * import { planCautions, planJob } from 'generatrix';
 * const plan = planJob({
 *   title: 'knob',
 *   unit: 'mm',
 *   part: { kind: 'sphere', target: { part: 'ball-on-stem', diameter: 40, stemDiameter: 16 }, tolerance: { radius: 0.2 } },
 *   lathes: [{ name: 'bench lathe', centreDistance: 500, swivelTool: { smallestRadius: 5, largestRadius: 40 } }],
 * });
 * planCautions({ plan }).at(-1)?.code; // => 'swivel-swing'
 * ```
 */
export function planCautions(options: PlannedOptions): readonly Caution[] {
  return cautionsOf(chosenOf(options));
}

/** The same for a method that was chosen. */
export function cautionsOf({ sheet, planned }: Chosen): readonly Caution[] {
  const general = Object.entries(GENERAL).map(([code, message]) => ({ code: code as keyof typeof GENERAL, message }));
  return [...general, ...(sheet.cautions(planned) as readonly Caution[])];
}
