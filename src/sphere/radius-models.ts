/**
 * Radius and form of spheres as functions of what was set, and how far each is off, for the methods that cut
 * the whole surface in one movement: tilted sweep and swivelling tool. Radius and form as sphere-fit.ts
 * defines them. Errors that act alike with either sign enter by their size, evenly spread from 0 to their
 * limit: the same distribution, and smooth where the size itself is not.
 */
import { type Arithmetic, frozen, type Model, type Quantity } from '../budget/model.js';
import { swivelModel } from './swivel-tool/index.js';
import { ballDistanceModel, ballSweepModel, sweepFormModel } from './tilted-sweep/models.js';

type Side = 'ball' | 'socket';

const SKEW: Quantity = { kind: 'length', meaning: 'distance at which the two axes pass each other, of either sign' };
const FORM: Quantity = { kind: 'length', meaning: 'form deviation: largest less smallest radius about one centre' };

function radiusOf(side: Side): Quantity {
  return { kind: 'length', meaning: `radius of the ${side}` };
}

/** The mean of sin t over equal steps of cos t: equal areas along the path. */
const MEAN_SINE = Math.PI / 4;

/**
 * With a skew e the path lies at d² = h² + r² + e² ∓ 2 r |e| sin t from the point where the axes pass each
 * other, t from one end of the sweep: the skew makes a ball smaller and a socket larger.
 */
function skewed<T>(
  a: Arithmetic<T>,
  side: Side,
  { path, sweepRadius, skewSize }: { readonly path: T; readonly sweepRadius: T; readonly skewSize: T },
  sine: number,
): T {
  const lost = a.multiply(a.constant((side === 'ball' ? -2 : 2) * sine), a.multiply(sweepRadius, skewSize));
  return a.sqrt(a.add(a.add(a.square(path), a.square(skewSize)), lost));
}

/** Radius with the tip set over the centre of the work but for a miss. */
export function poleRadiusModel(side: Side): Model<'tiltDeg' | 'sweepRadius' | 'miss' | 'skewSize'> {
  const { tiltDeg, sweepRadius, miss } = ballSweepModel.inputs;
  return {
    name: `${side}-at-pole`,
    result: radiusOf(side),
    inputs: { tiltDeg, sweepRadius, miss, skewSize: SKEW },
    evaluate: (a, { skewSize, ...set }) => {
      const path = ballSweepModel.evaluate(a, { ...set, noseRadius: a.constant(0) });
      return skewed(a, side, { path, sweepRadius: set.sweepRadius, skewSize }, MEAN_SINE);
    },
  };
}

/** Radius with the sweep's distance set by measurement; a miss shifts it by miss / sin α. */
export function distanceRadiusModel(side: Side): Model<'tiltDeg' | 'sweepRadius' | 'distance' | 'miss' | 'skewSize'> {
  const { sweepRadius, distance } = ballDistanceModel.inputs;
  const { tiltDeg, miss } = ballSweepModel.inputs;
  return {
    name: `${side}-at-distance`,
    result: radiusOf(side),
    inputs: { tiltDeg, sweepRadius, distance, miss, skewSize: SKEW },
    evaluate: (a, { skewSize, ...set }) => skewed(a, side, { ...pathOf(a, set), skewSize }, MEAN_SINE),
  };
}

function pathOf<T>(
  a: Arithmetic<T>,
  set: Readonly<Record<'tiltDeg' | 'sweepRadius' | 'distance' | 'miss', T>>,
): { readonly path: T; readonly sweepRadius: T } {
  const { sweepRadius } = set;
  const distance = a.add(set.distance, a.divide(set.miss, a.sinDeg(set.tiltDeg)));
  const path = ballDistanceModel.evaluate(a, { sweepRadius, distance, noseRadius: a.constant(0) });
  return { path, sweepRadius };
}

/**
 * Radius after a correction that made the measured radius right: sweep and distance were changed by the
 * amounts found. The skew is where it was. At the place measured it acts by `sine`, over the whole
 * surface by the mean: that difference no measurement of one radius shows.
 */
export function correctedRadiusModel(
  side: Side,
  sine: number,
): Model<'tiltDeg' | 'sweepRadius' | 'distance' | 'miss' | 'skewSize' | 'measuredAcross' | 'measuredAlong'> {
  const first = distanceRadiusModel(side);
  return {
    ...first,
    name: `${side}-corrected`,
    inputs: {
      ...first.inputs,
      measuredAcross: { kind: 'length', meaning: 'error of the radius found from that of a diameter' },
      measuredAlong: { kind: 'length', meaning: 'error of the radius found from that of a height' },
    },
    evaluate: (a, { skewSize, measuredAcross, measuredAlong, ...set }) => {
      const at = { ...pathOf(a, set), skewSize };
      const seen = a.subtract(skewed(a, side, at, sine), at.path);
      const whole = a.subtract(skewed(a, side, at, MEAN_SINE), seen);
      return a.add(whole, a.add(measuredAcross, measuredAlong));
    },
  };
}

/** Form of a skew sweep: the real difference, which no correction of size removes. */
export function skewFormModel(side: Side): Model<'sweepRadius' | 'distance' | 'skewSize'> {
  const { sweepRadius, distance } = sweepFormModel.inputs;
  return {
    name: `${side}-skew-form`,
    result: FORM,
    inputs: { sweepRadius, distance, skewSize: SKEW },
    evaluate: (a, { sweepRadius: r, distance: h, skewSize }) =>
      // That model is exact for a ball and a skew above 0; a socket is the same with both signs turned.
      side === 'ball'
        ? sweepFormModel.evaluate(a, { sweepRadius: r, distance: h, skew: skewSize })
        : a.negate(sweepFormModel.evaluate(a, { sweepRadius: r, distance: h, skew: a.negate(skewSize) })),
  };
}

/** Radius that a swivelling tool cuts; `effect` is the mean of the swing's sine over the surface, as the fit takes it. */
export function swivelRadiusModel(side: Side, effect: number): Model<'swivelRadius' | 'centreOffset' | 'centreHeight'> {
  const { swivelRadius, centreOffset, centreHeight } = swivelModel.inputs;
  return {
    name: `${side}-by-swivel`,
    result: radiusOf(side),
    inputs: { swivelRadius, centreOffset, centreHeight },
    evaluate: (a, { swivelRadius: s, centreOffset: e, centreHeight: v }) =>
      // d² = s² + e² + v² + 2 e s sin θ.
      a.sqrt(
        a.add(
          a.add(a.square(s), a.square(v)),
          a.add(a.square(e), a.multiply(a.constant(2 * effect), a.multiply(e, s))),
        ),
      ),
  };
}

/** Form that a swivelling tool cuts: `effect` per unit of offset. */
export function swivelFormModel(effect: number): Model<'offsetSize'> {
  return {
    name: 'swivel-form',
    result: FORM,
    inputs: { offsetSize: { kind: 'length', meaning: 'swivel centre off the work axis, to either side' } },
    evaluate: (a, { offsetSize }) => a.multiply(a.constant(effect), offsetSize),
  };
}

/** A linear stand-in for stepped spheres, for the budget: what each kind of error does to the radius. */
export function stepRadiusModel(
  side: Side,
  radius: number,
  by: Readonly<Record<'zero' | 'across' | 'along', number>>,
): Model<'zero' | 'turned' | 'across' | 'along'> {
  return {
    name: `${side}-by-steps`,
    result: radiusOf(side),
    inputs: {
      zero: { kind: 'length', meaning: 'zero of the slide across the work axis' },
      turned: { kind: 'length', meaning: 'centre off the work axis, which is turned from the slides' },
      across: { kind: 'length', meaning: 'stops across the work axis' },
      along: { kind: 'length', meaning: 'stops along the work axis' },
    },
    evaluate: (a, { zero, turned, across, along }) =>
      a.add(
        a.add(a.constant(radius), a.multiply(a.constant(by.zero), a.add(zero, turned))),
        a.add(a.multiply(a.constant(by.across), across), a.multiply(a.constant(by.along), along)),
      ),
  };
}

/** The same for the form: the ridge left, and how far the positions spread it. */
export const stepFormModel: Model<'leftover' | 'spread'> = /* @__PURE__ */ frozen({
  name: 'form-by-steps',
  result: FORM,
  inputs: {
    leftover: { kind: 'length', meaning: 'ridge that exact positions leave' },
    spread: { kind: 'length', meaning: 'positions of the slides at the single stops' },
  },
  evaluate: (a, { leftover, spread }) => a.add(leftover, spread),
});
