/**
 * Radius and form of spheres as functions of what was set, and how far each is off; of a tilted sweep the form alone.
 * Radius and form as zone-fit.ts defines them. Errors that act alike with either sign enter by their size, evenly spread from 0 to their
 * limit: the same distribution, and smooth where the size itself is not.
 */
import { frozen, type Model, type Quantity } from '../budget/model.js';
import { swivelModel } from './swivel-tool/index.js';
import { sweepFormModel } from './tilted-sweep/models.js';

type Side = 'ball' | 'socket';

const SKEW: Quantity = { kind: 'length', meaning: 'distance at which the two axes pass each other, of either sign' };
const FORM: Quantity = { kind: 'length', meaning: 'form deviation: largest less smallest radius about one centre' };

function radiusOf(side: Side): Quantity {
  return { kind: 'length', meaning: `radius of the ${side}` };
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

/** A place at which a swivelling tool's surface ends: its swing, or the face that cuts it, and heights over the centre. */
export interface SwivelEnd {
  /** Diameter wanted there; 0 for a pip. */
  readonly diameter: number;
  readonly height: number;
  /** Whether a face at that height cuts the surface; else the tool turns the end. */
  readonly faced: boolean;
}

type SwivelEndInput =
  | 'swivelRadius'
  | 'centreOffset'
  | 'centreHeight'
  | 'position'
  | 'headstockPlanDeg'
  | 'headstockUprightDeg';

/**
 * Diameter at which the surface of a swivelling tool ends. Seen from work whose axis is turned about the sphere's centre
 * a place at a height z stands z sin ψ nearer to it, and z sin υ lower. A tool that passes the axis leaves no more of a
 * pip than its height; `smooth` is a stand-in of a pip for the budget.
 */
export function swivelEndModel(radius: number, end: SwivelEnd, smooth: boolean): Model<SwivelEndInput> {
  const { swivelRadius, centreOffset, centreHeight } = swivelModel.inputs;
  const sine = end.diameter / 2 / radius;
  return {
    name: 'end-by-swivel',
    result: { kind: 'length', meaning: 'diameter at which the surface ends' },
    inputs: {
      swivelRadius,
      centreOffset,
      centreHeight,
      position: { kind: 'length', meaning: 'error of the place along the work axis' },
      headstockPlanDeg: { kind: 'angleDeg', meaning: "spindle's axis turned in plan against the bed" },
      headstockUprightDeg: { kind: 'angleDeg', meaning: "spindle's axis turned upright against the bed" },
    },
    evaluate: (a, { swivelRadius: s, centreOffset: e, centreHeight: v, position, ...turned }) => {
      const height = a.constant(end.height);
      const face = a.add(height, position);
      const square = a.subtract(a.square(s), a.square(face));
      const half = a.constant(0.5);
      const chord = end.faced
        ? a.sqrt(a.multiply(half, a.add(square, a.abs(square))))
        : a.multiply(a.constant(sine), s);
      const aside = a.subtract(a.add(chord, e), a.multiply(height, a.sinDeg(turned.headstockPlanDeg)));
      const low = a.subtract(v, a.multiply(height, a.sinDeg(turned.headstockUprightDeg)));
      const two = a.constant(2);
      if (end.diameter === 0 && smooth) return a.multiply(two, a.add(aside, low));
      const over = end.diameter === 0 ? a.multiply(half, a.add(aside, a.abs(aside))) : aside;
      return a.multiply(two, a.sqrt(a.add(a.square(over), a.square(low))));
    },
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

/** The same for a diameter at which the surface ends; `slope` is what a unit along the axis does to its radius. */
export function stepEndModel(diameter: number, slope: number): Model<'zero' | 'turned' | 'across' | 'along'> {
  return {
    ...stepRadiusModel('ball', diameter, { zero: 2, across: 2, along: 2 * slope }),
    name: 'end-by-steps',
    result: { kind: 'length', meaning: 'diameter at which the surface ends' },
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
