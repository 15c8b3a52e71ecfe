/** Spheres cut at many places, by steps or by passes of a ball-ended cutter: what the two methods share. */
import { leastTrials } from '../budget/monte-carlo.js';
import { sinDeg, toRadians } from '../core/trigonometry.js';
import { say, tell } from '../core/words.js';
import type { Expected } from '../method/expect.js';
import { type Limit, limit } from '../method/limits.js';
import { type Cuts, error, gaugeFor, sphereExpectations } from './expected.js';
import { type SphereWork, shapeOf } from './part.js';
import { stepEndModel, stepFormModel, stepRadiusModel } from './radius-models.js';
import { type End, type Parts, type Ridged, simulateSteps, stepSensitivities } from './stop-errors.js';
import { dot, formOf, sphereFit } from './zone-fit.js';

/** A table of positions longer than this nobody sets by hand: common practice, no source. */
const MOST_PLACES = 200;

/** Ridges may take this part of the form tolerance (of the radius's, if none is given); positions need the rest. */
const RIDGE_SHARE = 0.5;

/** Ridge that may be left. */
export function ridgeOf({ part: { tolerance } }: SphereWork): number {
  return RIDGE_SHARE * (tolerance.form ?? tolerance.radius);
}

/** Nobody sets a table without end. */
export function tableLimit(count: number, leftover: number): Limit<'steps'> {
  const words = say`ridges of at most ${tell(leftover)} need ${tell(count)} positions, more than ${tell(MOST_PLACES)} nobody sets by hand`;
  return limit('steps', words, count, MOST_PLACES);
}

/** What is cut at its places. */
export interface SteppedCut extends Ridged {
  /** Polar angles where the tool touches. */
  readonly anglesDeg: readonly number[];
  /** Limit of the zero across the axis. */
  readonly zero: number;
  /** Limit of how far a work axis turned from the slides passes beside the sphere's centre; 0 where left out. */
  readonly turned?: number;
  /** Height at which the zero across is touched off, about which such an axis turns; the sphere's centre if left out. */
  readonly touched?: number;
  /** One graduation of the dials; 0 where there is none. */
  readonly step: number;
}

/** Radius and form, by simulated parts: no model of a few inputs gives the width of such a surface. */
export function steppedExpectations(given: SphereWork, cut: SteppedCut): Expected {
  // Every part draws hundreds of errors: a quarter of the parts takes longer than all of another method.
  const trials = Math.max(Math.ceil(given.trials / 4), leastTrials(given.coverage));
  const work = { ...given, trials };
  const { setting, measuring } = work;
  const shape = shapeOf(work);
  const { side, radius } = shape;
  const { leftover, touched = 0, turned = 0, zero } = cut;
  // Stops lie on graduations where a dial has them.
  const position = Math.max(setting.position, cut.step / 2);
  const angles = cut.anglesDeg.map(toRadians);
  const limits = { position, zero, moved: zero * setting.resettingFraction, turned, ...measuring };
  const end = (height: number, diameter: number, faced: boolean): End => ({
    along: faced ? (2 * height) / diameter : 0,
    turned: touched === 0 ? 1 : (touched - height) / touched,
  });
  const ends = {
    free: end(shape.fromHeight, shape.fromDiameter, shape.part === 'ball-end'),
    far: end(shape.toHeight, shape.toDiameter, side === 'socket'),
  };
  const gauge = gaugeFor(work);
  const { first, corrected } = simulateSteps({ ...cut, side, radius, angles, gauge, limits, ends }, trials);
  const mean = first.form.reduce((sum, value) => sum + value, 0) / trials;
  const deviation = Math.sqrt(first.form.reduce((sum, value) => sum + (value - mean) ** 2, 0) / trials);
  const inputs = { zero: error(zero), turned: error(turned), across: error(position), along: error(position) };
  const run = (values: Parts, which: keyof Parts): { readonly values: Float64Array } => ({ values: values[which] });
  const atEnd = (which: 'free' | 'far', diameter: number): Cuts => {
    const off = (values: Parts): { readonly values: Float64Array } => ({
      values: values[which].map((error) => diameter + error),
    });
    const model = stepEndModel(diameter, ends[which].along);
    return { first: { model, inputs, ...off(first) }, corrected: off(corrected) };
  };
  return sphereExpectations(work, {
    radius: {
      first: { model: stepRadiusModel(side, radius, stepSensitivities(angles)), inputs, ...run(first, 'radius') },
      corrected: run(corrected, 'radius'),
    },
    form: {
      first: {
        model: stepFormModel,
        inputs: {
          leftover: { value: leftover, plusMinus: 0 },
          spread: { value: mean - leftover, plusMinus: Math.sqrt(3) * deviation },
        },
        ...run(first, 'form'),
      },
      corrected: run(corrected, 'form'),
    },
    // A round corner or a ball end beside the axis leaves no pip but a dent of its own.
    ...(shape.fromDeg > 0 && { freeEnd: atEnd('free', shape.fromDiameter) }),
    farEnd: atEnd('far', shape.toDiameter),
  });
}

/** A surface cut at many places, with a common error across the axis. */
export interface SteppedSurface {
  /** Radius of the least-squares sphere through the places that the tool touches, its centre on the axis. */
  readonly radius: number;
  /** Width between two spheres about that centre that hold the places and the ridges between them. */
  readonly formDeviation: number;
}

/** The surface that is cut where every place lies off by `across` from the axis. */
export function steppedSurface(
  work: SphereWork,
  anglesDeg: readonly number[],
  leftover: number,
  across: number,
): SteppedSurface {
  const { radius } = shapeOf(work);
  const angles = anglesDeg.map(toRadians);
  const fit = sphereFit(angles);
  const departures = angles.map(
    (angle) => Math.hypot(radius * Math.sin(angle) + across, radius * Math.cos(angle)) - radius,
  );
  return { radius: radius + dot(fit.radius, departures), formDeviation: formOf(fit, departures) + leftover };
}

/** What to change after a trial: where the zero of the slide across the axis belongs. */
export interface SteppedCorrection {
  /** Movement of the zero away from the axis. */
  readonly zeroChange: number;
}

/** From the diameter at the widest place that was cut: measured, and as it should be. */
export function steppedCorrection(measuredDiameter: number, wantedDiameter: number): SteppedCorrection {
  return { zeroChange: (wantedDiameter - measuredDiameter) / 2 };
}

/** Diameter at the widest of the places. */
export function widest(work: SphereWork, anglesDeg: readonly number[]): number {
  return 2 * shapeOf(work).radius * Math.max(...anglesDeg.map(sinDeg));
}
