/**
 * The straight line through trial cuts: sin α = (S + S₀)/L, where S is the set-over that the dial
 * shows, S₀ its zero error and L the distance of the pivots. With L known the trials give S₀; without
 * it, two or more different settings give both, by weighted least squares. Everything is kept about
 * the weighted mean of the trials, where the two unknowns are uncorrelated.
 */

/** One trial. */
export interface TrialPoint {
  /** Set-over shown by the dial, on the radius. */
  readonly offset: number;
  /** Sine of the measured half angle. */
  readonly sine: number;
  /** Standard uncertainty of the sine; a relative size is enough if residuals set the scale. */
  readonly sineUncertainty: number;
}

/** What is known besides the trials. */
export interface FitOptions {
  /** The distance of the pivots and its standard uncertainty, if known. */
  readonly known?: { readonly length: number; readonly uncertainty: number } | undefined;
  /** Standard uncertainty of an offset as set. */
  readonly offsetUncertainty: number;
  /** Whether the uncertainties are true sizes, or relative ones that the residuals must scale. */
  readonly basis: 'stated' | 'residuals';
}

/** The fitted line, about the weighted mean of the trials. */
export interface TrialFit {
  /** Distance of the pivots, known or fitted. */
  readonly length: number;
  /** Weighted mean of the offsets. */
  readonly meanOffset: number;
  /** Weighted mean of the sines. */
  readonly meanSine: number;
  /** Variance of the line at the mean, as an offset; none if nothing tells the scale. */
  readonly meanVariance?: number;
  /** Variance of the length. */
  readonly lengthVariance?: number;
  /** Trials beyond the number of unknowns. */
  readonly redundancy: number;
  /** Weighted sum of squared residuals over the redundancy: about 1 if stated uncertainties are true. */
  readonly spread?: number;
}

/** Fits the line. The trials must hold two different offsets, or the length must be known. */
export function fitTrials(trials: readonly TrialPoint[], { known, offsetUncertainty, basis }: FitOptions): TrialFit {
  // The dial is set to a reading and the true offset scatters about it, so least squares on the reading
  // is unbiased, and the scatter counts as one of the sine, 1/L times as large; L has to be found first.
  let fit = { ...line(trials, known?.length, 0), slopeVariance: 0 };
  for (let round = 0; round < 20; round++) {
    const before = fit.slope;
    fit = line(trials, known?.length, fit.slope * offsetUncertainty);
    if (offsetUncertainty === 0 || Math.abs(fit.slope - before) <= 1e-15 * Math.abs(before)) break;
  }
  const { slope, meanOffset, meanSine, meanSineVariance, slopeVariance, squares } = fit;
  const length = known?.length ?? 1 / slope;
  const redundancy = trials.length - (known ? 1 : 2);
  const spread = redundancy > 0 ? squares / redundancy : undefined;
  const scale = basis === 'stated' ? 1 : spread;
  const position = { length, meanOffset, meanSine, redundancy, ...(spread === undefined ? {} : { spread }) };
  if (scale === undefined) return position;
  return {
    ...position,
    meanVariance: scale * meanSineVariance * length * length,
    // d L = L² d(1/L), squared last: L⁴ alone would overflow first.
    lengthVariance: (known ? known.uncertainty : Math.sqrt(scale * slopeVariance) * length * length) ** 2,
  };
}

/** The dial's offset at which the line has this sine, and its variance. */
export function offsetFor(fit: TrialFit, sine: number): { readonly offset: number; readonly variance?: number } {
  const lever = sine - fit.meanSine;
  const offset = fit.meanOffset + fit.length * lever;
  if (fit.meanVariance === undefined || fit.lengthVariance === undefined) return { offset };
  return { offset, variance: fit.meanVariance + lever * lever * fit.lengthVariance };
}

/** Weighted least squares of the sine on the offset; the slope is 1/L if L is known. */
function line(
  trials: readonly TrialPoint[],
  length: number | undefined,
  extra: number,
): {
  slope: number;
  meanOffset: number;
  meanSine: number;
  meanSineVariance: number;
  slopeVariance: number;
  squares: number;
} {
  const weighted = trials.map((trial) => ({ ...trial, weight: 1 / (trial.sineUncertainty ** 2 + extra ** 2) }));
  const total = (term: (trial: (typeof weighted)[number]) => number): number =>
    weighted.reduce((sum, trial) => sum + trial.weight * term(trial), 0);
  const weight = total(() => 1);
  const meanOffset = total(({ offset }) => offset) / weight;
  const meanSine = total(({ sine }) => sine) / weight;
  const square = total(({ offset }) => (offset - meanOffset) ** 2);
  const slope =
    length === undefined ? total(({ offset, sine }) => (offset - meanOffset) * (sine - meanSine)) / square : 1 / length;
  const squares = total(({ offset, sine }) => (sine - meanSine - slope * (offset - meanOffset)) ** 2);
  return { slope, meanOffset, meanSine, meanSineVariance: 1 / weight, slopeVariance: 1 / square, squares };
}
