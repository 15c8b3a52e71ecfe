/**
 * Words and numbers on the page: how wide a text may come out, where to break or shorten it, and how
 * values are written. Without a browser widths are estimates: those of a wide sans-serif face, so that
 * narrower ones leave air.
 */

import { clean } from './svg.js';
import { TEXT_SIZE } from './theme.js';

/** Height of one line of text, pixels. */
export const LINE = 19;

/** Widths in parts of the type size. */
function widthOf(character: string): number {
  if ("ijl.,:;'|!I ()[]ft".includes(character)) return 0.41;
  if ('mwMW%@—'.includes(character)) return 1.05;
  if (character >= '\u1100') return '\u2000' <= character && character < '\u2e80' ? 0.9 : 1.15;
  if (/\p{Lu}/u.test(character) || character >= '\u0250') return 0.8;
  return 0.66;
}

/** How wide a text may be, pixels. */
export function textWidth(text: string, size: number = TEXT_SIZE): number {
  let sum = 0;
  for (const character of text) sum += widthOf(character);
  return sum * size;
}

/** Text that is no wider than the room, shortened with an ellipsis if it must be. */
function shortened(text: string, room: number, size: number = TEXT_SIZE): string {
  const words = clean(text);
  if (textWidth(words, size) <= room) return words;
  let [kept, sum] = ['', textWidth('…', size)];
  for (const character of words) {
    sum += widthOf(character) * size;
    if (sum > room) break;
    kept += character;
  }
  return `${kept.trimEnd()}…`;
}

/** Text broken at blanks into lines that are no wider than the room, at most `most` of them. */
export function broken(text: string, room: number, size: number = TEXT_SIZE, most = 6): readonly string[] {
  const lines: string[] = [];
  for (const word of clean(text)
    .split(/ +/)
    .filter((part) => part !== '')) {
    const last = lines.at(-1);
    const joined = last === undefined ? word : `${last} ${word}`;
    if (last !== undefined && textWidth(joined, size) <= room) lines[lines.length - 1] = joined;
    else lines.push(word);
  }
  const kept = lines.length > most ? [...lines.slice(0, most - 1), lines.slice(most - 1).join(' ')] : lines;
  return kept.map((words) => shortened(words, room, size));
}

/** How a figure writes its numbers. */
export interface Writer {
  /** A length with its unit. */
  readonly length: (value: number) => string;
  /** A small length: three significant digits, and never fewer decimals than a length. */
  readonly small: (value: number) => string;
  /** An angle in degrees. */
  readonly angle: (value: number) => string;
}

/** Writes lengths with a number of decimals and a unit, angles with one decimal more. */
export function writer(unit: string, decimals: number): Writer {
  const lengthOf = (value: number, digits: number): string => `${decimal(value, digits)} ${unit}`.trimEnd();
  return {
    length: (value) => lengthOf(value, decimals),
    small: (value) => lengthOf(value, Math.max(decimals, significant(value))),
    angle: (value) => `${decimal(value, Math.min(decimals + 1, 12))}°`,
  };
}

/** A number with fixed decimals, in powers of ten where that would be endless, without minus before zero. */
export function decimal(value: number, decimals: number): string {
  if (Math.abs(value) >= 1e15) return value.toExponential(6);
  const text = value.toFixed(decimals);
  return Number(text) === 0 ? text.replace('-', '') : text;
}

/** Decimals that show three significant digits of a small number. */
export function significant(value: number): number {
  return value === 0 ? 0 : Math.min(12, Math.max(0, 2 - Math.floor(Math.log10(Math.abs(value)))));
}
