/**
 * The cut along a straight guide that is swivelled by a scale, a top slide or a guide bar: one path for both. Lengths
 * in any one unit, angles in degrees from the axis of the work.
 */
import { plainArithmetic } from '../budget/arithmetic.js';
import type { Arithmetic } from '../budget/model.js';
import type { Filled } from '../core/read.js';
import { tanDeg } from '../core/trigonometry.js';
import {
  type ChuckedError,
  chuckedPath,
  type EitherEnd,
  type HeadstockOptions,
  type StraightCut,
  type StraightPath,
  sizedCut,
  straightCut,
} from './straight-cut.js';
import { acute } from './swivel.js';

/** The errors of such a cut. */
export type SwivelledError = 'zeroErrorDeg' | ChuckedError;

/** The path of the tool, seen from the work, for an angle that the scale shows. */
export function swivelledPath<T>(
  a: Arithmetic<T>,
  shownDeg: T,
  errors: Readonly<Record<SwivelledError, T>>,
): StraightPath<T> {
  return chuckedPath(a, a.tanDeg(a.add(shownDeg, errors.zeroErrorDeg)), errors);
}

/** What is cut with that path; rates are compared with the taper that the scale shows. */
export function swivelledCut(
  shownDeg: number,
  given: Filled<EitherEnd & HeadstockOptions & { readonly zeroErrorDeg?: number }, SwivelledError>,
): StraightCut {
  const fromBed = acute(shownDeg + given.zeroErrorDeg, 'zeroErrorDeg');
  acute(fromBed + given.headstockPlanDeg, 'headstockPlanDeg');
  return straightCut(swivelledPath(plainArithmetic, shownDeg, given), tanDeg(shownDeg), sizedCut(given));
}
