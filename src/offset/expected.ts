/**
 * What to expect of a taper's small diameter and half angle: at the first cut, and after one correction from two
 * measured diameters. Lengths in the job's unit, angles in degrees.
 */
import type { Arithmetic, Model, Quantity } from '../budget/model.js';
import { type ExpectationInput, type Expected, expectAll, type Limited } from '../method/expect.js';
import { type AnyModel, type StandsFor, withLimits } from '../method/model-inputs.js';
import { type Slope, slopeOf } from '../taper/taper.js';
import { smallDiameterOf, type TaperWork } from './part.js';

/**
 * A taper that runs out to a point has no small end to measure: it is judged where its diameter is this part of
 * the large one.
 */
const LEAST_DIAMETER = 0.05;

/** What every cut takes; the model's other inputs are its own. */
type Common = 'largeDiameter' | 'length' | 'touchOffError' | 'toolHeight';

/** What a measurement before a correction adds. */
type Measured = 'measuredLarge' | 'measuredSmall' | 'measuredLength';

/** A cut to judge: the model of its small diameter, and what is set. */
export interface TaperCutting<I extends string> {
  readonly model: AnyModel<I | Common>;
  /** What is set, but for what every cut takes. */
  readonly values: { readonly [K in Exclude<I, Common>]?: number };
  /** Which error source an input stands for, where the names differ. */
  readonly standsFor: StandsFor<I>;
  /** Limits of what is set again for the correction; everything else is then as measured. */
  readonly again: { readonly [K in I]?: number };
}

/** The large end is touched off. */
export const TOUCHED_OFF = { touchOffError: 'touchOff' } as const;

/** Expectations of small diameter and half angle, as far as the part has tolerances for them. */
export function taperExpectations<I extends string>(work: TaperWork, cut: TaperCutting<I>): Expected {
  const { part, setting, measuring, coverage, trials } = work;
  const slope = slopeOf(part.taper);
  const short = smallDiameterOf(part) < LEAST_DIAMETER * part.largeDiameter;
  const length = short ? ((1 - LEAST_DIAMETER) * part.largeDiameter) / (2 * slope.tan) : part.length;
  const model = cut.model as unknown as Model;
  const values = { largeDiameter: part.largeDiameter, length, ...cut.values };
  const inputs = withLimits(model, values, setting, { ...TOUCHED_OFF, ...cut.standsFor });
  const moved = cut.again as Readonly<Record<string, number>>;
  const misread: Limited<Measured> = {
    measuredLarge: { value: 0, plusMinus: measuring.diameter },
    measuredSmall: { value: 0, plusMinus: measuring.diameter },
    measuredLength: { value: 0, plusMinus: measuring.length },
  };
  const corrected: Limited = {
    ...Object.fromEntries(
      Object.entries(inputs).map(([name, { value, plusMinus }]) => [
        name,
        { value, plusMinus: moved[name] ?? (name === 'touchOffError' ? plusMinus : 0) },
      ]),
    ),
    ...misread,
  };
  const again = measured(model, slope);
  const judged = (
    quantity: ExpectationInput['quantity'],
    tolerance: number | undefined,
    wanted: number,
    of: (model: Model) => Model,
  ): readonly ExpectationInput[] =>
    tolerance === undefined
      ? []
      : [
          {
            quantity,
            tolerance,
            wanted,
            first: { model: of(model), inputs },
            corrected: { model: of(again), inputs: corrected },
            coverage,
            trials,
          },
        ];
  return expectAll([
    ...judged('small-diameter', part.tolerance.smallDiameter, part.largeDiameter - 2 * length * slope.tan, (it) => it),
    ...judged('half-angle', part.tolerance.halfAngleDeg, slope.halfAngleDeg, angleOf),
  ]);
}

/** The small diameter after a correction that trusted the measurement of two diameters and their distance. */
function measured(model: Model, { tan }: Slope): Model {
  const errors: Readonly<Record<Measured, Quantity>> = {
    measuredLarge: { kind: 'length', meaning: 'error of measuring the large diameter' },
    measuredSmall: { kind: 'length', meaning: 'error of measuring the small diameter' },
    measuredLength: { kind: 'length', meaning: 'error of measuring their distance' },
  };
  return {
    ...model,
    inputs: { ...model.inputs, ...errors },
    evaluate: <T>(a: Arithmetic<T>, x: Readonly<Record<string, T>>): T => {
      const of = (name: Measured): T => x[name] as T;
      const diameters = a.subtract(of('measuredLarge'), of('measuredSmall'));
      return a.add(a.add(model.evaluate(a, x), diameters), a.multiply(a.constant(2 * tan), of('measuredLength')));
    },
  };
}

/** The half angle that two end diameters make. */
function angleOf(model: Model): Model {
  return {
    ...model,
    result: { kind: 'angleDeg', meaning: 'half angle between the end diameters' },
    evaluate: <T>(a: Arithmetic<T>, x: Readonly<Record<string, T>>): T => {
      const of = (name: Common): T => x[name] as T;
      const large = a.add(of('largeDiameter'), of('touchOffError'));
      const drop = a.subtract(large, model.evaluate(a, x));
      return a.atanDeg(a.divide(drop, a.multiply(a.constant(2), of('length'))));
    },
  };
}
