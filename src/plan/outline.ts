/** What can be said of a job at once: the limits of every method on every machine, and what to set. */
import { GeneratrixError } from '../core/errors.js';
import type { Machines, Method, MethodTypes, Work } from '../method/method.js';
import { chosenMeans } from '../method/set-by.js';
import type { Job } from './job.js';
import { METHODS } from './methods.js';
import { jobOf, type PreparedJob, prepared } from './read-job.js';
import type { MethodPlan, MethodPlanOf, Plan } from './result.js';

/** One method on one machine before anything is simulated; narrows on `method`. */
export type MethodOutline = MethodPlan extends infer P
  ? P extends MethodPlan
    ? Pick<P, 'method' | 'machine' | 'reaches' | 'ease' | 'limits' | 'settings' | 'means'>
    : never
  : never;

/** What {@link outlineJob} gives. */
export interface Outline extends Pick<Plan, 'job' | 'assumptions'> {
  /** Every method on every machine: those that reach first, by ease. */
  readonly methods: readonly MethodOutline[];
}

/**
 * What every method can do and what to set, without the simulation that a plan takes its time for: a page can draw from it
 * while the plan is made.
 * @param job - The part, the machines, and how well things can be set and measured.
 * @throws GeneratrixError for a job that makes no sense, with the path to the field.
 * @example
 * ```ts
 * import { outlineJob } from 'generatrix';
 * const { methods } = outlineJob({
 *   title: 'sluice spindle',
 *   unit: 'mm',
 *   part: {
 *     kind: 'taper', taper: { oneIn: 20 }, side: 'outside', largeDiameter: 24, length: 60,
 *     workLength: 180, largeEndAt: 100, headstockEnd: 'small', centreHoles: true, tolerance: { smallDiameter: 0.05 },
 *   },
 *   lathes: [{ name: 'bench lathe', centreDistance: 500, topSlide: { travel: 75 } }],
 * });
 * const [first] = methods;
 * first?.method === 'top-slide' && first.settings?.halfAngleDeg.toFixed(4); // => '1.4321'
 * ```
 */
export function outlineJob(job: Job): Outline {
  const { ready, tried } = tryAll(job);
  const methods = tried.map(({ method: { name, ease }, machine, outline }) => {
    const { limits, settings, means } = outline;
    return {
      method: name,
      machine: machine.name,
      reaches: settings !== null,
      ease,
      limits,
      settings,
      means,
    } as MethodOutline;
  });
  methods.sort((a, b) => Number(b.reaches) - Number(a.reaches) || a.ease - b.ease);
  return { job: ready.job, assumptions: ready.assumptions, methods };
}

/** A method tried on a machine. */
export interface Tried<T extends MethodTypes = MethodTypes> {
  readonly method: Method<T>;
  readonly machine: Machines[T['on']];
  readonly outline: Pick<MethodPlanOf<T>, 'limits' | 'settings' | 'means'> & {
    /** The shop as this method's means make it. */
    readonly work: Work<T['part']>;
  };
}

/** Every method on every machine of a job. */
export function tryAll(job: Job): { readonly ready: PreparedJob; readonly tried: readonly Tried[] } {
  const given = jobOf(job);
  if ('errors' in given) throw given.errors[0];
  const ready = prepared(given.value);
  const work: Work<Job['part']> = { ...ready.work, trials: 0 };
  const tried = METHODS.filter(({ kind }) => kind === work.part.kind).flatMap((method) =>
    ready.machines[method.on].map((one) => {
      const machine = one as Machines[typeof method.on];
      return { method, machine, outline: tryOn(method, work, machine) };
    }),
  );
  return { ready, tried };
}

/** A method on one machine: limits first, then settings. */
function tryOn<T extends MethodTypes>(
  method: Method<T>,
  shop: Work<T['part']>,
  machine: Machines[T['on']],
): Tried<T>['outline'] {
  const cannot = (limits: Tried<T>['outline']['limits']): Tried<T>['outline'] => ({
    limits,
    settings: null,
    means: null,
    work: shop,
  });
  if (!method.has(machine)) return cannot([{ code: 'equipment', message: method.missing(machine.name), met: false }]);
  const { work, means } = chosenMeans(method, shop, machine);
  const before = method.limits(work, machine);
  if (!before.every(({ met }) => met)) return cannot(before);
  const settings = attempt(() => method.settings(work, machine));
  if ('refusal' in settings) return cannot([...before, { code: 'set-up', message: settings.refusal, met: false }]);
  const limits = [...before, ...method.limitsOfSettings(settings.found, work, machine)];
  if (!limits.every(({ met }) => met)) return cannot(limits);
  return { limits, settings: settings.found, means, work };
}

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
