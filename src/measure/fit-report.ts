/** What the fits through points have in common: options, form, proof, uncertainty, and a word on poorly spread points. */
import { refuse } from '../core/errors.js';
import { dot, extremes } from '../core/linear.js';
import { sound } from '../core/read.js';
import { type Note, note } from '../core/words.js';
import { type LeastSquares, leastSquares, minimumZone, type Shape } from './fit.js';
import type { Columns, Point } from './points.js';
import { SENTENCES } from './words.js';

/** Measured points, and how well each is known. */
export interface ThroughPointsOptions {
  /** The points as [x, y, z], in any order. */
  readonly points: readonly Point[];
  /**
   * Standard uncertainty of a point's distance from the surface.
   * @defaultValue taken from the scatter of the points about the fit
   */
  readonly standardUncertainty?: number;
}

/** What every fit says of its form. */
export interface FitForm {
  /** Root mean square of the distances from the fitted surface. */
  readonly rootMeanSquare: number;
  /** Largest distance outside less largest inside: the form deviation seen from this fit. */
  readonly formDeviation: number;
  /** Signed distance of each point, in order; positive outside. */
  readonly residuals: readonly number[];
}

/** What a minimum-zone fit adds: its proof. */
export interface ZoneProof {
  /** Indices of the points that the zone rests on. */
  readonly contacts: readonly number[];
  /** Width of the zone less the width that no shape nearby can undercut, as the contacts prove. */
  readonly provenWithin: number;
}

/** How well a least-squares fit is known; `U` are the standard uncertainties of the fitted sizes. */
export interface FitUncertainty<U> {
  /** Standard uncertainties: of one point, that the others rest on, and of the fitted sizes. */
  readonly standardUncertainty: U & {
    /** Of one point's distance from the surface. */
    readonly point: number;
  };
  /** Degrees of freedom, if the uncertainty of a point was taken from the points' own scatter. */
  readonly degreesOfFreedom?: number;
  /** How many times the scatter the worst-determined combination is off: digits lost to poorly spread points. */
  readonly condition: number;
}

/** A surface `S` through points. */
export interface ThroughPoints<S, U> {
  /** Least squares. */
  readonly leastSquares: S & FitForm & FitUncertainty<U>;
  /** Minimum zone: its `formDeviation` is the form deviation in the sense of the standards. */
  readonly minimumZone: S & FitForm & ZoneProof;
  /** Says when the points determine the surface poorly. */
  readonly notes: readonly Note<'points-poorly-spread'>[];
}

/** Beyond this condition nothing but rounding is left of sixteen digits. */
const HOPELESS = 1e12;

/** Refuses points that leave a parameter free. */
export function checkDetermined(condition: number, { x }: Columns): void {
  if (!(condition < HOPELESS)) {
    refuse('impossible-geometry', 'points', x.length, 'must determine the shape: these leave a part of it free');
  }
}

/**
 * Both fits of a shape, from a start. `told` puts a shape in the caller's terms; `uncertainty` makes the standard
 * uncertainties of its sizes from that of one point and the fit.
 */
export function bothFits<Fitted, S, U>(
  shape: Shape<Fitted>,
  points: Columns,
  start: Fitted,
  unknowns: number,
  known: number | undefined,
  told: (fitted: Fitted) => S,
  uncertainty: (ofPoint: number, fit: LeastSquares<Fitted>) => U,
): ThroughPoints<S, U> {
  const count = points.x.length;
  const fit = leastSquares(shape, points, start);
  const { condition, residuals } = fit;
  checkDetermined(condition, points);
  const zone =
    count > unknowns
      ? minimumZone(shape, points, fit.shape)
      : { shape: fit.shape, residuals, contacts: [...points.x.keys()], gap: 0 };
  const freedom = count - unknowns;
  const ofPoint = known ?? Math.sqrt(dot(residuals, residuals) / freedom);
  const sure = { standardUncertainty: { ...uncertainty(ofPoint, fit), point: ofPoint }, condition };
  return {
    leastSquares: {
      ...sound(told(fit.shape), 'points'),
      ...formOf(residuals),
      ...sound(known === undefined ? { ...sure, degreesOfFreedom: freedom } : sure, 'points'),
    },
    minimumZone: {
      ...sound(told(zone.shape), 'points'),
      ...formOf(zone.residuals),
      contacts: zone.contacts,
      provenWithin: zone.gap,
    },
    // Three digits lost are worth a word.
    notes:
      condition < 1e3
        ? []
        : [note(SENTENCES, 'points-poorly-spread', { condition, digitsLost: Math.log10(condition) })],
  };
}

/** What residuals say of the form. */
function formOf(residuals: Float64Array): FitForm {
  const [least, greatest] = extremes(residuals);
  const rootMeanSquare = sound(Math.sqrt(dot(residuals, residuals) / residuals.length), 'points');
  // With a finite mean square each residual is finite; + 0 leaves no -0.
  return {
    rootMeanSquare,
    formDeviation: greatest - least,
    residuals: Array.from(residuals.map((value) => value + 0)),
  };
}
