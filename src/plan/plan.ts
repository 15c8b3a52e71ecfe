/** Which method: every method on every machine of a job, tried, ranked and reasoned. */
import { drain, LONG_RUN, type LongRun, leastTrials, pace } from '../budget/monte-carlo.js';
import { defaulted, type Fields, read, whole } from '../core/read.js';
import { type Note, note } from '../core/words.js';
import type { Expectation } from '../method/expect.js';
import type { Limit } from '../method/limits.js';
import type { Method, MethodTypes } from '../method/method.js';
import type { Job } from './job.js';
import { type Tried, tryAll } from './outline.js';
import type { LimitCode, MethodPlan, MethodPlanOf, NeededChange, Plan, ReasonCode } from './result.js';
import { WORDS } from './words.js';

/** How {@link planJob} shall plan. */
export interface PlanOptions {
  /**
   * Simulated parts per expectation, 1000 to 1,000,000; raised where the coverage asked for needs more.
   * @defaultValue 10000
   */
  readonly trials?: number;
}

const OPTIONS: Fields<PlanOptions, 'trials'> = { trials: defaulted(whole({ min: 1000, max: 1_000_000 }), 10_000) };
const LONG: Fields<PlanOptions & LongRun, 'trials'> = { ...OPTIONS, ...LONG_RUN };

/**
 * Plans a job: which methods can do it, which is best and why, what to set, how far off it may be.
 * @param job - The part, the machines, and how well things can be set and measured.
 * @param options - How many parts to simulate.
 * @returns Every method with its limits, settings and expectations, best first.
 * @throws GeneratrixError for a job that makes no sense, with the path to the field.
 * @example
 * ```ts
 * import { planJob } from 'generatrix';
 * const plan = planJob({
 *   title: 'sluice spindle',
 *   unit: 'mm',
 *   part: {
 *     kind: 'taper', taper: { oneIn: 20 }, side: 'outside', largeDiameter: 24, length: 60,
 *     workLength: 180, largeEndAt: 100, headstockEnd: 'small', centreHoles: true, tolerance: { smallDiameter: 0.05 },
 *   },
 *   lathes: [{ name: 'bench lathe', centreDistance: 500, topSlide: { travel: 75 } }],
 * });
 * plan.methods[0]?.method; // => 'top-slide'
 * ```
 */
export function planJob(job: Job, options: PlanOptions = {}): Plan {
  return drain(plans(job, read(options, OPTIONS)));
}

/**
 * The same as {@link planJob}, method by method with pauses between, so that the page or the server stays alive.
 * @param job - As of {@link planJob}.
 * @param options - As of {@link planJob}, with `signal` and `progress`, which counts methods on machines.
 * @returns The same plan.
 * @throws GeneratrixError as {@link planJob}, and `aborted`.
 * @example
 * ```ts
 * import { planJob, planJobAsync } from 'generatrix';
 * const job = {
 *   title: 'knob',
 *   unit: 'mm',
 *   part: { kind: 'sphere', target: { part: 'ball-on-stem', diameter: 40, stemDiameter: 16 }, tolerance: { radius: 0.2 } },
 *   lathes: [{ name: 'bench lathe', centreDistance: 500, swivelTool: { smallestRadius: 5, largestRadius: 40 } }],
 * } as const;
 * (await planJobAsync(job)).methods[0]?.probability === planJob(job).methods[0]?.probability; // => true
 * ```
 */
export async function planJobAsync(job: Job, options: PlanOptions & LongRun = {}): Promise<Plan> {
  const given = read(options, LONG);
  return pace(plans(job, given), Number.MAX_SAFE_INTEGER, given);
}

/** Plans method by method; yields how many are done. */
function* plans(job: Job, options: Required<Pick<PlanOptions, 'trials'>>): Generator<number, Plan> {
  const { ready, tried } = tryAll(job);
  // The ends of a wide interval take more trials to tell than the user may have asked for.
  const trials = Math.max(options.trials, leastTrials(ready.work.coverage));
  const methods: MethodPlan[] = [];
  for (const one of tried) {
    methods.push(simulated(one, trials) as MethodPlan);
    yield methods.length;
  }
  methods.sort(better);
  const reachable = methods.findIndex(({ reaches }) => reaches);
  return {
    job: ready.job,
    assumptions: ready.assumptions,
    methods,
    best: reachable < 0 ? null : reachable,
    changes: reachable < 0 ? methods.map(neededChange).sort(smaller) : [],
  };
}

/** What to expect of a method on a machine, if it reaches. */
function simulated<T extends MethodTypes>({ method, machine, outline }: Tried<T>, trials: number): MethodPlanOf<T> {
  const { limits, settings, means } = outline;
  const work = { ...outline.work, trials };
  const expected =
    settings === null
      ? { expectations: [], chance: NO_CHANCE }
      : method.expected(work, machine as Parameters<typeof method.expected>[1], settings, means);
  return judged(method, machine.name, { limits, settings, means, ...expected }, work.coverage);
}

const NO_CHANCE = { first: 0, corrected: 0 };

/** Meets the tolerance first, then reaches; by ease and then by tries among those that meet it, else the surest first. */
function better(a: MethodPlan, b: MethodPlan): number {
  return (
    Number(b.meets) - Number(a.meets) ||
    Number(b.reaches) - Number(a.reaches) ||
    (a.meets ? a.ease - b.ease || a.tries - b.tries : 0) ||
    b.probability - a.probability ||
    a.ease - b.ease
  );
}

function judged<T extends MethodTypes>(
  { name, ease }: Method<T>,
  machine: string,
  found: Pick<MethodPlanOf<T>, 'limits' | 'settings' | 'means' | 'expectations'> & {
    readonly chance: typeof NO_CHANCE;
  },
  coverage: number,
): MethodPlanOf<T> {
  const { limits, settings, means, expectations, chance } = found;
  const reaches = settings !== null;
  const { first, corrected } = chance;
  // A correction that would make it worse is not promised.
  const tries = first >= coverage || first >= corrected ? 1 : 2;
  const probability = tries === 1 ? first : corrected;
  const notes = (settings as { readonly notes?: readonly Note<ReasonCode>[] } | null)?.notes ?? [];
  return {
    method: name,
    machine,
    reaches,
    meets: reaches && probability >= coverage,
    probability,
    tries,
    ease,
    limits,
    settings,
    means,
    expectations,
    reasons: [...(reaches ? expectations.map((one) => outlook(one, tries, coverage)) : shortfalls(limits)), ...notes],
  };
}

function shortfalls(limits: readonly Limit<string>[]): readonly Note<ReasonCode>[] {
  return limits
    .filter(({ met }) => !met)
    .map(({ code, message, needed, available }) => ({
      code: `limit-${code as LimitCode}`,
      message,
      values: { ...(needed !== undefined && { needed }), ...(available !== undefined && { available }) },
    }));
}

function outlook(expectation: Expectation, tries: number, coverage: number): Note<ReasonCode> {
  const { quantity, tolerance, first, corrected, limitedBy, correctedLimitedBy } = expectation;
  const [{ probability }, ruling] = tries === 1 ? [first, limitedBy] : [corrected, correctedLimitedBy];
  const code = probability >= coverage ? 'meets-tolerance' : 'misses-tolerance';
  const { message } = note(WORDS, code, { quantity, probability, tries, ruling: ruling?.meaning ?? '' });
  return { code, message, values: { tolerance, first: first.probability, corrected: corrected.probability } };
}

function neededChange({ method, machine, limits }: MethodPlan): NeededChange {
  const short = limits.filter(({ met }) => !met);
  const by = short.map(({ needed, available }) => {
    if (needed === undefined || available === undefined) return null;
    const scale = Math.max(Math.abs(needed), Math.abs(available));
    return Math.abs(needed / scale - available / scale);
  });
  return { method, machine, limits: short, shortBy: by.includes(null) ? null : Math.max(...(by as number[])) };
}

function smaller(a: NeededChange, b: NeededChange): number {
  return (a.shortBy ?? Infinity) - (b.shortBy ?? Infinity) || a.limits.length - b.limits.length;
}
