/** Sizes as a drawing would state them. */
import { formatFraction } from './length-text.js';
import { say, tell } from './words.js';

/** A size for a description: inches with their fraction where they are exactly one. */
export function sizeTold(size: number, unit: 'mm' | 'in'): string {
  const told = tell(size, { unit });
  if (unit === 'mm' || !(Math.abs(size) < 1e6) || Number.isInteger(size)) return told;
  const { text, remainder } = formatFraction(size);
  return remainder === 0 ? say`${told} (${text})` : told;
}
