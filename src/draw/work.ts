/** The taper within a piece of work, as drawings of it need it. */
import { refuse } from '../core/errors.js';
import { type Fields, nonNegative, number, object, positive, type Reader, vouched } from '../core/read.js';

/** The taper within a piece of work. */
export interface TaperedWork {
  /** Diameter of the taper's large end. */
  readonly largeDiameter: number;
  /** Diameter of its small end. */
  readonly smallDiameter: number;
  /** Axial length of the taper. */
  readonly length: number;
}

const WORK: Fields<TaperedWork> = { largeDiameter: positive, smallDiameter: nonNegative, length: positive };

/** Reads a taper. */
export const work: Reader<TaperedWork> = vouched(object(WORK), ({ largeDiameter, smallDiameter }) => {
  if (smallDiameter < largeDiameter) return;
  refuse('out-of-range', 'smallDiameter', smallDiameter, number({ min: 0, below: largeDiameter }).allowed);
});
