/**
 * Which method: every method on every machine of a job, tried, ranked and reasoned.
 */
import { leastTrials } from '../budget/monte-carlo.js';
import { options, whole } from '../core/checks.js';
import type { Note } from '../core/notes.js';
import type { Job } from './job.js';
import type { Methods, Trial } from './methods.js';
import { readJob, within } from './read-job.js';
import type { Expectation, Limit, MethodPlan, NeededChange, Plan } from './result.js';
import { sphereMethods } from './sphere-methods.js';
import { taperMethods } from './taper-methods.js';

/**
 * Plans a job: which methods can do it, which is best and why, what to set, how far off it may be.
 *
 * @param job - The part, the machines, and how well things can be set and measured.
 * @param settings - `trials`, simulated parts per expectation: 1000 to 1,000,000, default 20,000; raised where the
 * coverage asked for needs more.
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
export function planJob(job: Job, settings: { readonly trials?: number } = {}): Plan {
  options(settings, 'settings', [], ['trials']);
  const trials = whole(settings.trials ?? 20_000, 'settings.trials', { min: 1000, max: 1_000_000 });
  const read = readJob(job);
  const methods: Methods = read.part.kind === 'taper' ? taperMethods : sphereMethods;
  // The ends of a wide interval take more trials to tell than the user may have asked for.
  const tried = within('job.part', () => methods(read, Math.max(trials, leastTrials(read.coverage))));
  const plans = tried.map((trial) => judge(trial, read.coverage)).sort(better);
  const reachable = plans.findIndex(({ reaches }) => reaches);
  return {
    job: read.job,
    assumptions: read.assumptions,
    methods: plans,
    best: reachable < 0 ? null : reachable,
    changes: reachable < 0 ? plans.map(neededChange).sort(smaller) : [],
  };
}

/** Meets the tolerance first, then reaches; by ease among those that meet it, else the surest first. */
function better(a: MethodPlan, b: MethodPlan): number {
  return (
    Number(b.meets) - Number(a.meets) ||
    Number(b.reaches) - Number(a.reaches) ||
    (a.meets ? a.ease - b.ease : 0) ||
    b.probability - a.probability ||
    a.ease - b.ease
  );
}

function judge(trial: Trial, coverage: number): MethodPlan {
  const { method, machine, ease, limits, settings, expectations } = trial;
  const reaches = settings !== null && limits.every(({ met }) => met);
  const first = reaches ? trial.chance.first : 0;
  const corrected = reaches ? trial.chance.corrected : 0;
  // A correction that would make it worse is not promised.
  const tries = first >= coverage || first >= corrected ? 1 : 2;
  const probability = tries === 1 ? first : corrected;
  const meets = reaches && probability >= coverage;
  return {
    method,
    machine,
    reaches,
    meets,
    probability,
    tries,
    ease,
    limits,
    settings,
    expectations,
    reasons: [...reasons(limits, expectations, { reaches, tries, coverage }), ...trial.notes],
  };
}

function reasons(
  limits: readonly Limit[],
  expectations: readonly Expectation[],
  { reaches, tries, coverage }: { readonly reaches: boolean; readonly tries: number; readonly coverage: number },
): readonly Note[] {
  if (!reaches) {
    return limits
      .filter(({ met }) => !met)
      .map(({ code, message, needed, available }) => ({
        code: `limit-${code}`,
        message,
        values: { ...(needed === undefined ? {} : { needed }), ...(available === undefined ? {} : { available }) },
      }));
  }
  return expectations.map(({ quantity, tolerance, first, corrected, limitedBy, correctedLimitedBy }) => {
    const [{ probability }, ruling, when] =
      tries === 1 ? [first, limitedBy, 'the first cut'] : [corrected, correctedLimitedBy, 'one correction'];
    return {
      code: probability >= coverage ? 'meets-tolerance' : 'misses-tolerance',
      message: `${quantity}: within its tolerance with a probability of ${(100 * probability).toFixed(1)} % after ${when}${ruling?.meaning ? `; ${ruling.meaning} limits it most` : ''}.`,
      values: { tolerance, first: first.probability, corrected: corrected.probability },
    };
  });
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
