/** Parts of a kind in a real shop: everything off by what the job states. */
import { type MethodPlan, planJob, planSteps } from 'generatrix';
import { uniformFloat64 } from 'pure-rand/distribution/uniformFloat64';
import { xoroshiro128plus } from 'pure-rand/generator/xoroshiro128plus';
import type { Hidden } from './lathe.js';
import { cut, type Kind } from './taper-kinds.js';
import { Mishap, meant } from './turner.js';

/** What came of a kind. */
export interface Real {
  readonly promised: number;
  readonly tries: number;
  readonly share: number;
  readonly gouged: number;
  readonly mishaps: readonly string[];
}

/** The same kind with another tolerance, so that the promise is put to the test. */
export function tighter(kind: Kind, smallDiameter: number): Kind {
  const { part } = kind.job;
  if (part.kind !== 'taper') return kind;
  return { ...kind, job: { ...kind.job, part: { ...part, tolerance: { smallDiameter } } } };
}

/** How far a share lies from what was promised, in standard errors of that many parts. */
export function off({ promised, share }: Pick<Real, 'promised' | 'share'>, parts: number): number {
  return (share - promised) / Math.sqrt(Math.max(promised * (1 - promised), 1 / parts) / parts);
}

/** Cuts parts, and counts the good ones. */
export function really(kind: Kind, parts: number, seed: number): Real {
  const plan = planJob(kind.job);
  const index = plan.methods.findIndex(({ method }) => method === kind.method);
  const of = plan.methods[index] as MethodPlan;
  const sheet = planSteps({ plan, method: index });
  const generator = xoroshiro128plus(seed);
  const within = (limit: number): number => (2 * uniformFloat64(generator) - 1) * limit;
  const { setting = {}, measuring = {} } = kind.job;
  const limit = of.means?.limit ?? setting.formToolDeg ?? 0.2;
  const change = of.means?.change ?? limit * (setting.resettingFraction ?? 0.2);
  const { diameter = 0, length = 0 } = measuring;
  const angled = kind.method !== 'set-over' && kind.method !== 'ball-centres';
  const tolerance = kind.job.part.kind === 'taper' ? (kind.job.part.tolerance.smallDiameter ?? 0) : 0;
  let [good, gouged] = [0, 0];
  const mishaps: string[] = [];
  for (let i = 0; i < parts; i++) {
    const once = within(1);
    const hidden: Hidden = {
      scaleZeroDeg: 0,
      dialZero: within(0.01 * kind.setup.workLength),
      planDeg:
        angled && kind.method !== 'form-tool'
          ? within(of.means && of.means.code !== 'stated' ? 0 : (setting.headstockPlanDeg ?? 0))
          : 0,
      uprightDeg: angled && kind.method !== 'form-tool' ? within(setting.headstockUprightDeg ?? 0) : 0,
      rollDeg: 0,
      // The needle shows an angle that is off by what the means leaves.
      needleDeg: angled ? once * limit : 0,
      centreDistance: within(setting.centreDistance ?? 0),
      toolHeight: within(setting.toolHeight ?? 0),
      angleDeg: () => (angled ? once * limit : 0),
      changeDeg: () => within(change),
      offset: () => (angled ? 0 : once * limit),
      changeOffset: () => within(change),
      touchOff: () => within(setting.touchOff ?? 0),
      diameter: () => within(diameter),
      place: () => within(length),
    };
    try {
      const { small, large, gouged: off } = cut(kind, sheet, hidden, { tries: of.tries, number: meant });
      if (off) gouged++;
      if (!off && Math.abs(small) <= tolerance && Math.abs(large) < 10 * tolerance) good++;
    } catch (error) {
      if (!(error instanceof Mishap)) throw error;
      mishaps.push(error.message);
    }
  }
  return { promised: of.probability, tries: of.tries, share: good / parts, gouged: gouged / parts, mishaps };
}
