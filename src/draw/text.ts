/**
 * Words and numbers on the page: how wide a text may come out, where to break or shorten it, and how finely values are
 * told. Without a browser widths are estimates: those of a wide sans-serif face, so that narrower ones leave air.
 */
import { tell } from '../core/words.js';
import { clean } from './svg.js';
import { TEXT_SIZE } from './theme.js';

/** Height of one line of text, pixels. */
export const LINE = 20;

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
function shortened(text: string, room: number, size: number): string {
  if (textWidth(text, size) <= room) return text;
  let [kept, sum] = ['', textWidth('…', size)];
  for (const character of text) {
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

/** How a figure tells its numbers. */
export interface Writer {
  /** A length with its unit. */
  readonly length: (value: number) => string;
  /** A small length: three significant digits, and never fewer decimals than a length. */
  readonly small: (value: number) => string;
  /** An angle in degrees. */
  readonly angle: (value: number) => string;
  /** What a dial should read and its nearest graduation; `step` is one graduation. */
  readonly dial: (exact: number, nearest: number, step?: number) => Readings;
  /** The same of a scale in degrees. */
  readonly swivel: (exact: number, nearest: number, step?: number) => Readings;
}

/** Readings of a scale, told. */
export interface Readings {
  readonly exact: string;
  readonly nearest: string;
  /** Tells how far they differ. */
  readonly difference: (error: number) => string;
}

/** Tells lengths with a number of decimals and a unit, angles with one decimal more. */
export function writer(unit: string, stated: number | undefined): Writer {
  const decimals = stated ?? (unit === 'in' ? 4 : 3);
  const finest = (step: number | undefined, otherwise: number): number =>
    stated === undefined && step !== undefined ? decimalsOf(step) : otherwise;
  return {
    length: (value) => withDecimals(value, decimals, unit),
    small: (value) => withDecimals(value, Math.max(decimals, significant(value)), unit),
    angle: (value) => withDecimals(value, (stated ?? 3) + 1, '°'),
    dial: (exact, nearest, step) => readings(exact, nearest, unit, finest(step, decimals), step && 2),
    swivel: (exact, nearest, step) => readings(exact, nearest, '°', finest(step, (stated ?? 3) + 1), step && 2),
  };
}

/**
 * A graduation with its decimals, and the exact reading so much finer that two digits of the difference show: two
 * decimals at most where the graduations are known, else one.
 */
export function readings(exact: number, nearest: number, unit: string, decimals: number, more = 1): Readings {
  const finer = Math.max(decimals, Math.min(decimals + more, significant(exact - nearest, 2)));
  return {
    exact: withDecimals(exact, finer, unit),
    nearest: withDecimals(nearest, decimals, unit),
    difference: (error) => withDecimals(error, finer, unit),
  };
}

/** A number with fixed decimals, and its unit. */
export function withDecimals(value: number, decimals: number, unit = ''): string {
  return tell(value, { unit, limit: 10 ** (1 - decimals) });
}

/** Decimals that show so many significant digits of a number, three if left out, and no more than make sense. */
export function significant(value: number, digits = 3): number {
  return value === 0 ? 0 : Math.min(12, Math.max(0, digits - 1 - Math.floor(Math.log10(Math.abs(value)))));
}

/** Decimals of a graduation as it is written: 0.05 has two; three significant digits where it would be endless. */
export function decimalsOf(step: number): number {
  const written = /^\d+(?:\.(\d{1,6}))?$/.exec(String(step));
  return written ? (written[1] ?? '').length : significant(step);
}
