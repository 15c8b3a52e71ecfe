/**
 * The order of work for a method of a plan, every number in it: what to prepare, set and check, the trial
 * cut, what to measure, how the settings follow from the measurement, and the finish. Lengths in the job's
 * unit, angles in degrees. Each number comes from the set-up's own settings or correction function, which
 * the step names; texts round, `values` do not.
 */
import { list, options, whole } from '../core/checks.js';
import { refuse } from '../core/errors.js';
import { type ReadJob, readJob } from './read-job.js';
import type { MethodPlan, Plan } from './result.js';
import { sphereWork } from './sphere-work.js';
import { taperWork } from './taper-work.js';
import { told } from './told.js';

/** One step of the work. */
export interface WorkStep {
  /** What it is for. */
  readonly kind: 'prepare' | 'set' | 'check' | 'trial-cut' | 'measure' | 'correct' | 'finish';
  /** Stable code, for programs: `tool-height`, `indicator`, `touch-off`, … */
  readonly code: string;
  /** What to do, in sentences. */
  readonly text: string;
  /** The numbers that the text speaks of, not rounded; angles end in `Deg`. */
  readonly values: Readonly<Record<string, number>>;
  /** Unit of the lengths. */
  readonly unit: 'mm' | 'in';
  /** Function of the library that gives these numbers, and others when something else was measured. */
  readonly uses?: string;
  /** Positions one after the other, where the work has many. */
  readonly table?: StepTable;
}

/** Positions one after the other. */
export interface StepTable {
  /** What the columns hold. */
  readonly columns: readonly string[];
  /** The positions, in the order of work. */
  readonly rows: readonly (readonly number[])[];
  /** Limit within which they are held, for the number of digits; 0 where there is none. */
  readonly limit: number;
}

/** What a method's own file gets to write its steps from. */
export interface StepsOf {
  readonly job: ReadJob;
  readonly method: MethodPlan;
  readonly unit: 'mm' | 'in';
}

/** A step before the unit is added. */
export type Step = Omit<WorkStep, 'unit'>;

/**
 * The steps of the work by one method of a plan.
 *
 * @param input - `plan` as {@link planJob} gives it; `method`, a position in its `methods`, the best one if left out.
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
 * check?.values['needle']?.toFixed(4); // => '1.4995'
 * ```
 */
export function planSteps(input: { readonly plan: Plan; readonly method?: number }): readonly WorkStep[] {
  const { job, method } = chosen(input);
  const unit = job.job.unit;
  const steps = (job.part.kind === 'taper' ? taperWork : sphereWork)({ job, method, unit });
  return steps.map((step) => ({ ...step, unit }));
}

/** A method of a plan that can be done, and the plan's job read again with its assumptions. */
export function chosen(input: { readonly plan: Plan; readonly method?: number }): {
  readonly job: ReadJob;
  readonly method: MethodPlan;
} {
  const { plan } = input;
  options(input, 'input', ['plan'], ['method']);
  const methods = list((plan as Plan | null | undefined)?.methods, 'plan.methods') as readonly MethodPlan[];
  const position =
    input.method === undefined ? plan.best : whole(input.method, 'method', { min: 0, max: methods.length - 1 });
  const method = position === null ? undefined : methods[position];
  if (!method?.settings) {
    return refuse('beyond-machine', 'method', position, 'must be one that reaches; see the limits of each method');
  }
  return { job: readJob(plan.job), method };
}

/**
 * Steps as Markdown: a numbered list, each item headed by what it is for, tables of positions below it.
 *
 * @param steps - Steps as {@link planSteps} gives them.
 * @returns Markdown, ending in a line break.
 * @example
 * ```ts
 * import { stepsMarkdown } from 'generatrix';
 * const text = 'Swing the slide to 5.0°.';
 * const step = { kind: 'set', code: 'angle', text, values: { readingDeg: 5 }, unit: 'mm' } as const;
 * stepsMarkdown([step]); // => '1. **Set.** Swing the slide to 5.0°.\n'
 * ```
 */
export function stepsMarkdown(steps: readonly WorkStep[]): string {
  return steps.map((step, i) => `${i + 1}. **${KINDS[step.kind]}.** ${step.text}\n${tableMarkdown(step)}`).join('');
}

/** What each kind of step is called. */
export const KINDS: Readonly<Record<WorkStep['kind'], string>> = {
  prepare: 'Prepare',
  set: 'Set',
  check: 'Check',
  'trial-cut': 'Trial cut',
  measure: 'Measure',
  correct: 'Correct',
  finish: 'Finish',
};

/** The cells of a table as text, numbered from 1. */
export function tableCells({ rows, limit }: StepTable): readonly (readonly string[])[] {
  return rows.map((row, i) => [String(i + 1), ...row.map((value) => told(value, limit))]);
}

function tableMarkdown({ table }: WorkStep): string {
  if (!table) return '';
  const line = (cells: readonly string[]): string => `   | ${cells.join(' | ')} |\n`;
  const head = ['No.', ...table.columns];
  return `\n${line(head)}${line(head.map(() => '---:'))}${tableCells(table).map(line).join('')}\n`;
}
