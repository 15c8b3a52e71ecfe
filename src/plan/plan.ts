/** Which method: every method on every machine of a job, tried, ranked and reasoned. */
import { leastTrials } from '../budget/monte-carlo.js';
import { GeneratrixError } from '../core/errors.js';
import { defaulted, type Fields, read, whole } from '../core/read.js';
import { type Note, note } from '../core/words.js';
import type { Expectation } from '../method/expect.js';
import type { Limit } from '../method/limits.js';
import type { Machines, Method, MethodTypes, Work } from '../method/method.js';
import { chosenMeans } from '../method/set-by.js';
import type { Job } from './job.js';
import { METHODS } from './methods.js';
import { jobOf, type PreparedJob, prepared } from './read-job.js';
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
  const { trials } = read(options, OPTIONS);
  const given = jobOf(job);
  if ('errors' in given) throw given.errors[0];
  const ready = prepared(given.value);
  // The ends of a wide interval take more trials to tell than the user may have asked for.
  const work: Work<Job['part']> = { ...ready.work, trials: Math.max(trials, leastTrials(ready.work.coverage)) };
  const plans = METHODS.filter(({ kind }) => kind === work.part.kind)
    .flatMap((method) => onEach(method, work, ready.machines))
    .sort(better);
  const reachable = plans.findIndex(({ reaches }) => reaches);
  return {
    job: ready.job,
    assumptions: ready.assumptions,
    methods: plans,
    best: reachable < 0 ? null : reachable,
    changes: reachable < 0 ? plans.map(neededChange).sort(smaller) : [],
  };
}

/** A method on every machine of its kind. */
function onEach(
  method: Method<MethodTypes>,
  work: Work<Job['part']>,
  machines: PreparedJob['machines'],
): readonly MethodPlan[] {
  return machines[method.on].map((machine) => onOne(method, work, machine as Machines[typeof method.on]) as MethodPlan);
}

/** A method on one machine: limits first, then settings, then what to expect of them. */
function onOne<T extends MethodTypes>(
  method: Method<T>,
  shop: Work<T['part']>,
  machine: Machines[T['on']],
): MethodPlanOf<T> {
  const { coverage } = shop;
  const cannot = (limits: MethodPlanOf<T>['limits']): MethodPlanOf<T> =>
    judged(
      method,
      machine.name,
      { limits, settings: null, means: null, expectations: [], chance: NO_CHANCE },
      coverage,
    );
  if (!method.has(machine)) return cannot([{ code: 'equipment', message: method.missing(machine.name), met: false }]);
  const { work, means } = chosenMeans(method, shop, machine);
  const before = method.limits(work, machine);
  if (!before.every(({ met }) => met)) return cannot(before);
  const settings = attempt(() => method.settings(work, machine));
  if ('refusal' in settings) return cannot([...before, { code: 'set-up', message: settings.refusal, met: false }]);
  const limits = [...before, ...method.limitsOfSettings(settings.found, work, machine)];
  if (!limits.every(({ met }) => met)) return cannot(limits);
  const expected = method.expected(work, machine, settings.found, means);
  return judged(method, machine.name, { limits, settings: settings.found, means, ...expected }, coverage);
}

const NO_CHANCE = { first: 0, corrected: 0 };

/** A set-up's own word that this machine or this part is beyond it; any other refusal is a fault of ours and not to hide. */
function attempt<T>(set: () => T): { readonly found: T } | { readonly refusal: string } {
  try {
    return { found: set() };
  } catch (error) {
    const itsOwn =
      error instanceof GeneratrixError && (error.code === 'beyond-machine' || error.code === 'impossible-geometry');
    if (!itsOwn) throw error;
    return { refusal: error.message };
  }
}

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
