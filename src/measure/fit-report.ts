/** What the fits through points report alike: form, proof, uncertainty, and a word on poorly spread points. */
import { representable } from '../core/checks.js';
import { refuse } from '../core/errors.js';
import type { Note } from '../core/notes.js';
import type { Point } from './fit.js';

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

/** Standard uncertainties of a least-squares fit. */
export interface FitUncertainty {
  /** Standard uncertainty of one point that the others rest on. */
  readonly ofPoint: number;
  /** Degrees of freedom, if it was taken from the points' own scatter. */
  readonly degreesOfFreedom?: number;
  /** How many times the scatter the worst-determined combination is off: digits lost to poorly spread points. */
  readonly condition: number;
}

/** Beyond this condition nothing but rounding is left of sixteen digits. */
const HOPELESS = 1e12;

/** Refuses points that leave a parameter free. */
export function checkDetermined(condition: number, points: readonly Point[]): void {
  if (!(condition < HOPELESS)) {
    refuse('impossible-geometry', 'points', points, 'must determine the shape: these leave a part of it free');
  }
}

/** Standard deviation of a point from the scatter about a fit. */
export function scatter(residuals: readonly number[], unknowns: number): number {
  return Math.sqrt(residuals.reduce((sum, value) => sum + value * value, 0) / (residuals.length - unknowns));
}

/** What residuals say of the form. */
export function form(residuals: readonly number[]): FitForm {
  const rootMeanSquare = Math.sqrt(residuals.reduce((sum, value) => sum + value * value, 0) / residuals.length);
  return {
    rootMeanSquare: representable(rootMeanSquare, 'points'),
    formDeviation: Math.max(...residuals) - Math.min(...residuals),
    residuals,
  };
}

/** Three digits lost are worth a word. */
export function spreadNotes(condition: number): readonly Note[] {
  if (condition < 1e3) return [];
  return [
    {
      code: 'points-poorly-spread',
      message: 'The points cover too little of the surface: some combination of the parameters is poorly determined.',
      values: { condition, digitsLost: Math.log10(condition) },
    },
  ];
}
