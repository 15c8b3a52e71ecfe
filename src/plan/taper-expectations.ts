/**
 * What to expect of a taper's small diameter and half angle: at the first cut, and after one correction from two
 * measured diameters. Lengths in the job's unit, angles in degrees.
 */
import type { Arithmetic, Model, Quantity } from '../budget/model.js';
import type { Slope } from '../taper/taper.js';
import { type ExpectationInput, type Expected, expectAll, type Limited } from './expect.js';
import type { Work } from './taper-limits.js';

/**
 * A taper that runs out to a point has no small end to measure: it is judged where its diameter is this part of
 * the large one.
 */
const LEAST_DIAMETER = 0.05;

/** What every cut has: touched off at the large end, tool at some height. */
export function straight({ part, slope, smallDiameter, job }: Work): Limited {
  const short = smallDiameter < LEAST_DIAMETER * part.largeDiameter;
  const length = short ? ((1 - LEAST_DIAMETER) * part.largeDiameter) / (2 * slope.tan) : part.length;
  return {
    largeDiameter: { value: part.largeDiameter, plusMinus: job.setting.touchOff },
    length: { value: length, plusMinus: 0 },
    toolHeight: { value: 0, plusMinus: job.setting.toolHeight },
  };
}

/** A model with what it is given: the first cut, and what is set again for a correction. */
export interface Cut {
  /** The small diameter. */
  readonly model: Model;
  /** The settings at the first cut, {@link straight} among them. */
  readonly inputs: Limited;
  /** Limits of what is set again for the correction; everything else is then as measured. */
  readonly again: Readonly<Record<string, number>>;
  /** Settings that the correction aims at, where the first cut's graduation was not exact. */
  readonly exact: Readonly<Record<string, number>>;
}

/** Expectations of small diameter and half angle, as far as the part has tolerances for them. */
export function expectations({ part, slope, job, trials }: Work, { model, ...cut }: Cut): Expected {
  const { inputs } = cut;
  const { diameter, length } = job.measuring;
  const corrected: Limited = {
    ...Object.fromEntries(
      Object.entries(inputs).map(([name, { value, plusMinus }]) => [
        name,
        { value: cut.exact[name] ?? value, plusMinus: cut.again[name] ?? (name === 'largeDiameter' ? plusMinus : 0) },
      ]),
    ),
    measuredLarge: { value: 0, plusMinus: diameter },
    measuredSmall: { value: 0, plusMinus: diameter },
    measuredLength: { value: 0, plusMinus: length },
  };
  const again = measured(model, slope);
  const judged = (
    quantity: string,
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
            coverage: job.coverage,
            trials,
          },
        ];
  const small = part.largeDiameter - 2 * (inputs['length']?.value ?? part.length) * slope.tan;
  return expectAll([
    ...judged('small-diameter', part.tolerance.smallDiameter, small, (same) => same),
    ...judged('half-angle', part.tolerance.halfAngleDeg, slope.halfAngleDeg, angleOf),
  ]);
}

/** The small diameter after a correction that trusted the measurement of two diameters and their distance. */
function measured(model: Model, { tan }: Slope): Model {
  const error = (meaning: string): Quantity => ({ kind: 'length', meaning });
  return {
    ...model,
    inputs: {
      ...model.inputs,
      measuredLarge: error('error of measuring the large diameter'),
      measuredSmall: error('error of measuring the small diameter'),
      measuredLength: error('error of measuring their distance'),
    },
    evaluate: <T>(a: Arithmetic<T>, x: Readonly<Record<string, T>>): T => {
      const of = (name: string): T => x[name] as T;
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
      const drop = a.subtract(x['largeDiameter'] as T, model.evaluate(a, x));
      return a.atanDeg(a.divide(drop, a.multiply(a.constant(2), x['length'] as T)));
    },
  };
}
