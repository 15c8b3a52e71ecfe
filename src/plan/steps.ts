/**
 * The order of work for a method of a plan, every number in it: what to prepare, set and check, the trial
 * cut, what to measure, how the settings follow from the measurement, and the finish. Lengths in the job's
 * unit, angles in degrees. Each number comes from the set-up's own settings or correction function, which
 * the step names; texts round, `values` do not.
 */
import {
  array,
  choice,
  type Fields,
  later,
  number,
  object,
  optional,
  readValue,
  record,
  statedAt,
  text,
} from '../core/read.js';
import type { Step, StepTable } from '../method/steps.js';
import { stepLines } from './markdown.js';
import type { AnyMethod } from './methods.js';
import { chosenOf, type PlannedOptions } from './planned.js';

/** Code of a step. */
export type StepCode = AnyMethod['step'];

/** One step of the work. */
export interface WorkStep<Code extends string = StepCode> extends Step<Code> {
  /** Unit of the lengths. */
  readonly unit: 'mm' | 'in';
}

/**
 * The steps of the work by one method of a plan.
 * @returns The steps in the order of work. Text and numbers only: cautions are {@link planCautions}'s.
 * @throws GeneratrixError `beyond-machine` for a method that cannot reach, or a plan in which none does.
 * @example
 * ```ts
 * import { planJob, planSteps } from 'generatrix';
 * const plan = planJob({
 *   title: 'sluice spindle',
 *   unit: 'mm',
 *   part: {
 *     kind: 'taper', taper: { oneIn: 20 }, side: 'outside', largeDiameter: 24, length: 60,
 *     workLength: 180, largeEndAt: 100, headstockEnd: 'small', centreHoles: true, tolerance: { smallDiameter: 0.05 },
 *   },
 *   lathes: [{ name: 'bench lathe', centreDistance: 500, topSlide: { travel: 75 } }],
 * });
 * const check = planSteps({ plan }).find(({ code }) => code === 'indicator');
 * check?.kind; // => 'check'
 * const [action] = check?.actions ?? [];
 * action?.do === 'indicate' && action.needle.value.toFixed(4); // => '1.8744'
 * ```
 */
export function planSteps(options: PlannedOptions): readonly WorkStep[] {
  const { sheet, planned } = chosenOf(options);
  const { unit } = planned.work;
  // What a set-up's own function refuses here follows from the job.
  const steps = statedAt(
    () => 'plan.job',
    () => sheet.work(planned),
  );
  return steps.map((step) => ({ ...step, code: step.code as StepCode, unit }));
}

const TABLE: Fields<StepTable> = { columns: array(text()), rows: array(array(number())), limit: number({ min: 0 }) };

/** A step as it may come from a file. */
const STEP: Fields<WorkStep<string>> = {
  kind: choice('prepare', 'set', 'check', 'trial-cut', 'measure', 'correct', 'finish'),
  code: text(),
  text: text(5000),
  // Handed on unread: a table of words has no use for them.
  actions: array(later()),
  values: record(number()),
  unit: choice('mm', 'in'),
  uses: optional(text()),
  table: optional(object(TABLE)),
};

/**
 * Steps as Markdown: a numbered list, each item headed by what it is for, tables of positions below it.
 * @param steps - Steps as {@link planSteps} gives them; paths of refusals start with `steps`.
 * @returns Markdown, ending in a line break.
 * @throws GeneratrixError `wrong-kind` or `out-of-range` for what is no list of steps.
 * @example
 * ```ts
 * import { stepsMarkdown } from 'generatrix';
 * const text = 'Swing the slide to 5.0°.';
 * const step = { kind: 'set', code: 'angle', text, actions: [], values: {}, unit: 'mm' } as const;
 * stepsMarkdown([step]); // => '1. **Set.** Swing the slide to 5.0°.\n'
 * ```
 */
export function stepsMarkdown(steps: readonly WorkStep<string>[]): string {
  const lines = readValue(steps, array(object(STEP)), 'steps').flatMap(stepLines);
  return lines.map((line) => `${line}\n`).join('');
}
