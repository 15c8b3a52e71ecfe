/**
 * The surface that work set over between centres is really cut to, and the same as a model for an error budget.
 * Lengths in any one unit, set-overs on the radius.
 *
 * A headstock out of line with the bed does not act: the work turns about the line through its two pivots, whatever
 * axis drives it, and a centre's point or ball that turns about its own place stays there. Where a turned headstock
 * has taken that place, it is part of the zero error (aside) and of the roll (up or down).
 */
import { plainArithmetic } from '../../budget/arithmetic.js';
import { type Arithmetic, type ErrorQuantity, frozen, type Model, type Quantity } from '../../budget/model.js';
import { refuse } from '../../core/errors.js';
import {
  anyNumber,
  choice,
  defaulted,
  type Fields,
  type Filled,
  nonNegative,
  number,
  optional,
  positive,
  read,
} from '../../core/read.js';
import {
  CUT,
  CUT_INPUTS,
  type CutError,
  type CutInput,
  cutRadius,
  type EitherEnd,
  type SizedEnd,
  SMALL_DIAMETER,
  type StraightCut,
  type StraightCutOptions,
  sizedCut,
  smallDiameter,
  straightCut,
} from '../straight-cut.js';
import { diameterShift, rolledPath } from './rolled-work.js';
import { tangentOf } from './settings.js';

/** How work is set over, and what is wrong with that. */
export interface SetoverSet {
  /** The set-over, as a movement. */
  readonly offset: number;
  /** True set-over minus the one stated. @defaultValue 0 */
  readonly zeroError?: number;
  /** True distance of the pivots minus the one stated. @defaultValue 0 */
  readonly centreDistanceError?: number;
  /** How far out of level the set-over goes; positive if the tailstock's pivot stands high. @defaultValue 0 */
  readonly rollDeg?: number;
  /**
   * Distance of the sized end from the headstock pivot, along the work; needed with `rollDeg`.
   * @defaultValue 0, which changes nothing for level work
   */
  readonly fromPivot?: number;
  /** Which end of the taper lies towards the headstock. @defaultValue `large` */
  readonly headstockEnd?: 'large' | 'small';
}

/** What {@link setoverSurface} needs. */
export type SetoverSurfaceOptions = SizedEnd &
  StraightCutOptions &
  SetoverSet & {
    /** Distance of the pivots along the work. */
    readonly centreDistance: number;
  };

/** What of it may be left out, and has a value then. */
export type SetoverDefaults = 'zeroError' | 'centreDistanceError' | 'rollDeg' | 'headstockEnd' | CutError;

/** Readers of how work is set over and cut. */
export const SET: Fields<SetoverSet & EitherEnd, SetoverDefaults> = {
  offset: nonNegative,
  zeroError: defaulted(anyNumber, 0),
  centreDistanceError: defaulted(anyNumber, 0),
  rollDeg: defaulted(number({ min: -90, max: 90 }), 0),
  fromPivot: optional(nonNegative),
  headstockEnd: defaulted(choice('large', 'small'), 'large'),
  ...CUT,
};

const OPTIONS: Fields<SetoverSet & EitherEnd & { readonly centreDistance: number }, SetoverDefaults> = {
  ...SET,
  centreDistance: positive,
};

/** What work that is set over is really cut to. */
export interface SetoverCut extends StraightCut {
  /** Least distance between the tool's line and the work's axis: the waist of the hyperboloid, 0 for a cone. */
  readonly waist: number;
  /** How much larger the sized end comes out if the cross slide is set for level work and a tool on centre, not touched off. */
  readonly diameterShift: number;
}

/**
 * The surface that work set over between centres is really cut to: a cone, or a hyperboloid if the tool is off centre
 * height or the set-over out of level. Rates are compared with the taper of the set-over stated.
 * @throws GeneratrixError `impossible-geometry` if the tool passes clear of the sized end or would run
 * past the axis, or if the zero error turns the taper round.
 * @example
 * ```ts
 * import { setoverSurface } from 'generatrix';
 * const cut = setoverSurface({ offset: 5, centreDistance: 200, length: 100, largeDiameter: 30, fromPivot: 40, rollDeg: 2 });
 * cut.surface.kind; // => 'hyperboloid'
 * cut.waist.toFixed(4); // => '0.5582'
 * cut.heightError.toFixed(5); // => '0.00416'
 * ```
 */
export function setoverSurface(options: SetoverSurfaceOptions): SetoverCut {
  const given = read(options, OPTIONS);
  return cutSetOver(given.centreDistance, given);
}

/** As {@link setoverSurface}, for pivots at a distance. */
export function cutSetOver(centreDistance: number, given: Filled<SetoverSet & EitherEnd, SetoverDefaults>): SetoverCut {
  const { offset, zeroError, centreDistanceError, rollDeg, fromPivot, headstockEnd } = given;
  if (offset >= centreDistance) {
    const phrase = `must be less than the distance of the pivots, ${centreDistance}`;
    return refuse('out-of-range', 'offset', offset, { kind: 'number', min: 0, below: centreDistance, phrase });
  }
  if (centreDistanceError <= -centreDistance) {
    const phrase = `must leave the pivots apart, greater than ${-centreDistance}`;
    return refuse('impossible-geometry', 'centreDistanceError', centreDistanceError, phrase);
  }
  const sine = sineOf(plainArithmetic, centreDistance, given);
  if (!(sine >= 0 && sine < 1)) {
    return refuse('impossible-geometry', 'zeroError', zeroError, 'must leave a set-over from 0 to below L');
  }
  if (rollDeg !== 0 && fromPivot === undefined) {
    return refuse('missing-option', 'fromPivot', undefined, 'must be given with rollDeg');
  }
  const cut = sizedCut(given);
  const towards = headstockEnd === 'large' ? 1 : -1;
  const { radius, toolHeight } = cut;
  const work = { sine, rollDeg, towards, fromPivot: fromPivot ?? 0, radius, toolHeight } as const;
  const { cosine, square, height } = rolledPath(plainArithmetic, work);
  if (square < 0) {
    const phrase = 'must let the tool reach the sized end; it passes clear of it';
    return refuse('impossible-geometry', 'toolHeight', toolHeight, phrase);
  }
  const tan = sine / cosine;
  const straight = straightCut({ tan, height }, tangentOf(offset, centreDistance), cut);
  return {
    surface: straight.surface,
    largeDiameter: straight.largeDiameter,
    smallDiameter: straight.smallDiameter,
    cuts: straight.cuts,
    differenceError: straight.differenceError,
    heightError: straight.heightError,
    hollow: straight.hollow,
    waist: Math.abs(height),
    diameterShift: diameterShift(work, cosine),
    departure: straight.departure,
  };
}

/** Sine of the angle that the work is really turned by. */
function sineOf<T>(
  a: Arithmetic<T>,
  centreDistance: T,
  { offset, zeroError, centreDistanceError }: Readonly<Record<'offset' | 'zeroError' | 'centreDistanceError', T>>,
): T {
  return a.divide(a.add(offset, zeroError), a.add(centreDistance, centreDistanceError));
}

/** What every model of work set over takes. */
export type SetoverInput = CutInput | 'offset' | 'fromPivot';

/** The errors of work set over, 0 where they are left out. */
export type SetoverError = CutError | 'zeroError' | 'centreDistanceError' | 'rollDeg';

/** What the inputs of work set over mean. */
export const SETOVER_INPUTS: Readonly<Record<SetoverInput, Quantity>> & Readonly<Record<SetoverError, ErrorQuantity>> =
  {
    offset: { kind: 'length', meaning: 'set-over that the dial shows, as a movement' },
    fromPivot: { kind: 'length', meaning: 'distance of the large end from the headstock pivot' },
    zeroError: { kind: 'length', meaning: 'true set-over minus the one that the dial shows', isError: true },
    centreDistanceError: { kind: 'length', meaning: 'true distance of the pivots minus the one stated', isError: true },
    rollDeg: { kind: 'angleDeg', meaning: 'how far out of level the set-over goes', isError: true },
    ...CUT_INPUTS,
    toolHeight: { kind: 'length', meaning: 'height of the tool above the headstock pivot', isError: true },
  };

/** The diameter at the small end of work set over, its large end towards the headstock. */
export function setOverDiameter<T>(
  a: Arithmetic<T>,
  centreDistance: T,
  inputs: Readonly<Record<SetoverInput | SetoverError, T>>,
): T {
  const { rollDeg, fromPivot, toolHeight } = inputs;
  const sine = sineOf(a, centreDistance, inputs);
  const radius = cutRadius(a, inputs.largeDiameter, inputs.touchOffError);
  const { cosine, height } = rolledPath(a, { sine, rollDeg, towards: 1, fromPivot, radius, toolHeight });
  return smallDiameter(a, { tan: a.divide(sine, cosine), height }, inputs);
}

/** The diameter at the small end of a taper cut with the tailstock set over: `setoverSurface` as a model. */
export const setoverModel: Model<SetoverInput | 'centreDistance', SetoverError> = /* @__PURE__ */ frozen({
  name: 'setover',
  result: SMALL_DIAMETER,
  inputs: { centreDistance: { kind: 'length', meaning: 'distance of the pivots along the work' }, ...SETOVER_INPUTS },
  evaluate: (a, inputs) => setOverDiameter(a, inputs.centreDistance, inputs),
});
