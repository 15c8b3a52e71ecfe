/** Touching the tool off again after work was set over anew: where, and how far the tool must follow. */
import { choice, nonNegative, object, optional, positive, type Reader } from '../../core/read.js';

/** Where the tool stands on the work when it is touched off again. */
export interface TouchOffPlace {
  /** Distance of the place from the pivot in the headstock, along the work. */
  readonly fromPivot: number;
  /** Diameter of the work there. */
  readonly diameter: number;
  /** Which end of the taper lies towards the headstock. @defaultValue `large` */
  readonly headstockEnd?: 'large' | 'small';
}

/** Reads where the tool is touched off again. */
export const place: Reader<TouchOffPlace> = object<TouchOffPlace>({
  fromPivot: nonNegative,
  diameter: positive,
  headstockEnd: optional(choice('large', 'small')),
});

/**
 * The work turns about the headstock pivot while the tool stays in its line at c = ρ cos α + z sin α
 * from the pivot; solved for ρ at both angles, with the cosines' difference by their sines'.
 */
export function radiusChange(
  { fromPivot, diameter, headstockEnd = 'large' }: TouchOffPlace,
  old: number,
  next: number,
): number {
  const cosine = (s: number): number => Math.sqrt((1 - s) * (1 + s));
  const towards = headstockEnd === 'large' ? -fromPivot : fromPivot;
  const tilting = ((diameter / 2) * (old + next)) / (cosine(old) + cosine(next));
  return ((next - old) * (towards + tilting)) / cosine(next);
}
