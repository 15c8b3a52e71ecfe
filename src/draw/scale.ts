/** From lengths of the part to pixels of the page, round numbers for exaggerations, and marks for an axis. */
import { ticks } from 'd3-array';
import type { Point } from './svg.js';
import { withDecimals } from './text.js';

/** A rectangle in lengths of the part, y upwards. */
export interface Bounds {
  readonly left: number;
  readonly right: number;
  readonly bottom: number;
  readonly top: number;
}

/** A map of the part onto the page, alike in both directions. */
export interface View {
  /** Pixels for one unit of length. */
  readonly scale: number;
  /** Height that is taken, pixels. */
  readonly height: number;
  /** From the part (y up) to the page (y down), the drawing's top at 0. */
  readonly at: (x: number, y: number) => Point;
}

/** Room beside a drawing, pixels. */
export const MARGIN = 16;

/** The largest view of a rectangle within a width and a height, with `room` pixels free all round. */
export function viewOf({ left, right, bottom, top }: Bounds, width: number, tallest: number, room = 24): View {
  const scale = Math.min(
    (width - 2 * (MARGIN + room)) / (right - left || 1),
    (tallest - 2 * room) / (top - bottom || 1),
  );
  const [middle, height] = [(left + right) / 2, (top - bottom) * scale + 2 * room];
  return { scale, height, at: (x, y) => [width / 2 + (x - middle) * scale, room + (top - y) * scale] };
}

/** The smallest of 1, 2, 5, 10, … that is at least the value. */
export function roundUp(value: number): number {
  if (!(value > 1)) return 1;
  const power = 10 ** Math.floor(Math.log10(value));
  return ([1, 2, 5, 10].find((step) => step * power >= value * (1 - 1e-9)) as number) * power;
}

/** The largest of …, 1, 2, 5, 10, … that is at most the value. */
export function roundDown(value: number): number {
  const power = 10 ** Math.floor(Math.log10(value));
  return ([5, 2, 1].find((step) => step * power <= value * (1 + 1e-9)) ?? 1) * power;
}

/** About `count` round values from low to high, with the decimals that they need. */
export function marks(
  low: number,
  high: number,
  count: number,
): readonly { readonly value: number; readonly text: string }[] {
  const values = ticks(low, high, count);
  const step = values.length > 1 ? (values[1] as number) - (values[0] as number) : 1;
  const decimals = Math.min(12, Math.max(0, -Math.floor(Math.log10(step) + 1e-9)));
  return values.map((value) => ({ value, text: withDecimals(value, decimals) }));
}
