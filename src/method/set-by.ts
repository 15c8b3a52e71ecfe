/** By which means a method's own setting is made: the best at hand, or what the job states. */
import { type Means, type MeansCode, means, ROOT3 } from './means.js';
import type { Machines, Method, MethodTypes, Work } from './method.js';
import { SOURCES } from './sources.js';

const ROUGH: readonly MeansCode[] = ['stated', 'scale', 'dial', 'by-eye'];

/**
 * The best means at hand, and the work with its limit. A limit that the job states wins, whatever the shop has. A
 * change is made by whichever means makes it best.
 */
export function chosenMeans<T extends MethodTypes>(
  { setBy }: Pick<Method<T>, 'setBy'>,
  work: Work<T['part']>,
  machine: Machines[T['on']] & T['equipment'] & T['needs'],
): { readonly work: Work<T['part']>; readonly means: Means | null } {
  if (!setBy) return { work, means: null };
  const { source, indicated, atHand } = setBy;
  const { setting, stated, shop, unit } = work;
  const limit = setting[source];
  const told = { unit: SOURCES[source].kind === 'angleDeg' ? '°' : unit };
  const given = { uncertainty: limit / ROOT3, bias: 0, change: (limit * setting.resettingFraction) / ROOT3 };
  const all = stated.includes(source)
    ? [means('stated', given, told)]
    : [...atHand(work, machine), means('by-eye', given, told)];
  const best = all.reduce((a, b) => (b.limit < a.limit ? b : a));
  const change = Math.min(...all.map((one) => one.change));
  const near = Math.min(...all.filter(({ code }) => ROUGH.includes(code)).map((one) => one.limit));
  const found = indicated && shop.indicators.length > 0 && best.code !== 'stated' ? { [indicated]: 0 } : {};
  return {
    work: { ...work, setting: { ...setting, [source]: best.limit, ...found } },
    means: { ...best, change, near },
  };
}
