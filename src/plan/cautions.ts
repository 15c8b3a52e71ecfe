/**
 * Where a hand or a machine can come to harm, by method and by what the plan found. The usual cautions of
 * the trade (common practice, no source), in our own words: they remind, they do not teach. The machine's
 * manual, the rules of the place and people who are trained for it come first.
 */
import type { ReadJob } from './read-job.js';
import type { Method, MethodPlan, Plan } from './result.js';
import { chosen } from './steps.js';

/** One caution. */
export interface Caution {
  /** Stable code, for programs: `guards`, `driver-dog`, `ball-heat`, … */
  readonly code: string;
  /** What can happen, and what to do. */
  readonly message: string;
}

type Applies = (method: Method, plan: MethodPlan, job: ReadJob) => boolean;

const always: Applies = () => true;
const by =
  (...methods: readonly Method[]): Applies =>
  (method) =>
    methods.includes(method);
const millMethods = by('tilted-sweep', 'ball-cutter');

/** Every caution and when it applies, in the order of reading. */
const CAUTIONS: readonly (readonly [code: string, applies: Applies, message: string])[] = [
  [
    'authority',
    always,
    'The manual of the machine, the rules of the workshop and the people trained for this machine come before this sheet. Whoever is not trained for it works under supervision or not at all.',
  ],
  [
    'guards',
    always,
    'Guards in place, eye protection on; no gloves, rings, loose sleeves or open hair near anything that turns.',
  ],
  [
    'try-by-hand',
    always,
    'Try every swing and travel by hand with the power switched off and locked, over the whole range, before the first cut.',
  ],
  [
    'stopped-to-measure',
    always,
    'Set, read and measure only with the spindle stopped, the tool drawn back and the key out of the chuck. New sizes deserve a cold part: hot work burns and measures wrong.',
  ],
  ['swarf', always, 'Swarf cuts and burns: clear it with a hook or a brush and the spindle stopped, never by hand.'],
  [
    'work-pulls-out',
    always,
    'Hold enough of the stock: a side load far from the chuck or clamp can lever it out. Support long work at its free end, and take light cuts.',
  ],
  [
    'driver-dog',
    by('set-over', 'ball-centres'),
    'The dog swings askew when the work is set over: its tail must move freely in the driver through a whole turn and must not pry the work off its centres. Turn it by hand first; cover the dog.',
  ],
  [
    'tailstock-clamp',
    by('set-over', 'ball-centres'),
    'A tailstock that slips lets the work fly out. Clamp body, cross adjustment and barrel before the spindle starts; check them again after the first cut.',
  ],
  [
    'centre-heat',
    by('set-over'),
    'Askew centres bear on little of their seat. Grease them well, go slowly, stop often to ease and feel them: heat lengthens the work, seizes the point and can tear it off.',
  ],
  [
    'ball-heat',
    by('ball-centres'),
    'A ball that does not turn rubs in its seat. Keep it greased, go slowly, stop often to feel it: heat lengthens the work and forces the balls, a dry ball galls and lets go.',
  ],
  [
    'head-off-axis',
    by('ball-centres'),
    'The boring head in the tailstock stands still: see that its shank cannot turn in the barrel under the load from the side, and that its slide is locked.',
  ],
  [
    'holder-contact',
    (method, { settings }) =>
      method === 'ball-centres' && ('headstockLimit' in (settings ?? {}) || 'tailstockLimit' in (settings ?? {})),
    'What holds the ball stands close to the face of the work when it lies askew: look for daylight all round while turning by hand.',
  ],
  [
    'slide-overhang',
    by('top-slide'),
    'A top slide wound far out is weak and may run off its screw or into the chuck. Keep to its travel, and look where its far end goes.',
  ],
  [
    'slide-clamp',
    by('top-slide', 'guide-bar'),
    'A swivel that is only lightly clamped turns under load and digs the tool in: tighten it fully before cutting, and read again afterwards.',
  ],
  [
    'shoulder-near',
    (method, { limits }) =>
      by('top-slide', 'guide-bar', 'set-over', 'ball-centres')(method, {} as MethodPlan, {} as ReadJob) &&
      limits.some(({ code }) => code === 'shoulder'),
    'A shoulder stands beside the taper: set a stop, and end each cut by hand. Tool, post and slide come close to it while it turns.',
  ],
  [
    'inside',
    (_method, _plan, { part }) => part.kind === 'taper' && part.side === 'inside',
    'Inside a bore the cut cannot be seen and swarf packs: never reach in with a finger, cloth or file while it turns; clear the bore with the spindle stopped.',
  ],
  [
    'head-off-balance',
    by('tilted-sweep'),
    'A boring head that is opened wide is out of balance: stay well below its greatest speed, start low, and stop at the first trembling. Tool and set screws must be tight.',
  ],
  [
    'head-tilt-clamp',
    millMethods,
    'A tilted head is heavy: hold it before its clamps are loosened, lock all of them again, and try by hand that nothing can move before the spindle starts.',
  ],
  [
    'open-sweep',
    by('tilted-sweep'),
    'The tool sweeps a wide circle and comes round unseen behind the work: keep hands, clamps and the table handle outside it. Turn the work by hand or slow feed only, from outside the sweep.',
  ],
  [
    'table-lock',
    millMethods,
    'Lock every slide that does not have to move; a rotary table is turned against the cut, never so that the cutter can draw it along.',
  ],
  [
    'swivel-swing',
    by('swivel-tool'),
    'The swinging tool can dig in where it meets the stem: set its stops first, take light cuts, and keep both hands on its lever.',
  ],
  [
    'blending',
    by('steps', 'ball-cutter'),
    'Blending by file or abrasive cloth at a turning chuck catches hands: a file with a handle, no cloth wrapped round the work or a finger, sleeves tight, guard in place where it can be.',
  ],
];

/**
 * Cautions for the work by one method of a plan.
 *
 * @param input - `plan` as {@link planJob} gives it; `method`, a position in its `methods`, the best one if left out.
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
export function planCautions(input: { readonly plan: Plan; readonly method?: number }): readonly Caution[] {
  const { job, method } = chosen(input);
  return CAUTIONS.filter(([, applies]) => applies(method.method, method, job)).map(([code, , message]) => ({
    code,
    message,
  }));
}
