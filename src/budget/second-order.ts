/**
 * Terms of second order of the law of propagation: what counts where sensitivities vanish.
 * Source: JCGM 100:2008, note to 5.1.2: Σᵢ Σⱼ (½ fᵢⱼ² + fᵢ fᵢⱼⱼ) uᵢ² uⱼ², for independent, normal inputs.
 */
import type { Derivatives } from './derivatives.js';
import type { Estimated } from './differences.js';

/** What the terms of second order add. */
export interface SecondOrder {
  /** Standard uncertainty with the terms of second order. */
  readonly standardUncertainty: number;
  /** How far the result's mean lies from the value at the estimates: ½ Σ fᵢᵢ uᵢ². */
  readonly meanShift: number;
  /** The terms, the largest first; those that vanish are left out. */
  readonly terms: readonly {
    /** The two inputs, or one of them twice. */
    readonly between: readonly [string, string];
    /** What the term adds to the variance; it can be negative. */
    readonly variance: number;
  }[];
}

/** Terms may be off by this part of the variance. */
const CERTIFIED = 1e-3;

/** The terms of second order, null where they do not exist or cannot be vouched for. */
export function secondOrder(
  d: Derivatives,
  names: readonly string[],
  u: readonly number[],
  combined: number,
): SecondOrder | null {
  const uncertain = [...u.keys()].filter((i) => u[i] !== 0);
  const pairs = new Map<string, { between: [string, string]; variance: number }>();
  let shift = 0;
  let added = 0;
  let error = 0;
  for (const j of uncertain) {
    const { second, third } = d.higher(j);
    shift += ((second[j] as Estimated).value * (u[j] as number) ** 2) / 2;
    for (const i of uncertain) {
      const [fi, fij, fijj] = [d.first[i], second[i], third[i]] as [Estimated, Estimated, Estimated];
      const scale = ((u[i] as number) * (u[j] as number)) ** 2;
      const variance = (fij.value ** 2 / 2 + fi.value * fijj.value) * scale;
      added += variance;
      error +=
        (Math.abs(fij.value) * fij.error + Math.abs(fi.value) * fijj.error + Math.abs(fijj.value) * fi.error) * scale;
      const [a, b] = i < j ? [i, j] : [j, i];
      const key = `${a} ${b}`;
      const known = pairs.get(key) ?? { between: [names[a] as string, names[b] as string], variance: 0 };
      known.variance += variance;
      pairs.set(key, known);
    }
  }
  const total = combined * combined + added;
  if (!(total >= 0 && total < Infinity && error <= CERTIFIED * total)) return null;
  return {
    standardUncertainty: Math.sqrt(total),
    meanShift: shift,
    terms: [...pairs.values()]
      .filter(({ variance }) => variance !== 0)
      .sort((a, b) => Math.abs(b.variance) - Math.abs(a.variance)),
  };
}
