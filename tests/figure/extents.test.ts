/** Nothing of a drawing leaves its strip of the page: so none of it can run through title, remarks or key. */
import { describe, expect, it } from 'vitest';
import { gallery } from '../../docs/figures/gallery.js';
import { boxOf, strips } from './extents.js';
import { extremes } from './extremes.js';
import { parsed, value } from './parsed.js';

/** Coordinates are rounded to hundredths of a pixel. */
const ROUNDED = 0.02;

describe.each([280, 480, 2000])('%d px', (width) => {
  it.each(Object.entries({ ...gallery({ width }), ...extremes({ width }) }))('%s', (_, svg) => {
    const outside = strips(parsed(svg)).flatMap(({ height, parts }) =>
      parts
        .map((part) => ({ name: part.getAttribute('data-part'), box: boxOf(part) }))
        .filter(({ box }) => {
          const [left, top, right, bottom] = box ?? [0, 0, 0, 0];
          return !(left >= -ROUNDED && top >= -ROUNDED && right <= width + ROUNDED && bottom <= height + ROUNDED);
        }),
    );
    expect(outside).toEqual([]);
  });
});

it('measures an arc', () => {
  const circle = parsed('<path xmlns="http://www.w3.org/2000/svg" d="M30 10A20 20 0 1 0 50 30"/>').documentElement;
  // By hand: about (30, 30) or (50, 10); the large way round from the first to the second point against the clock.
  expect(circle && boxOf(circle)?.map(Math.round)).toEqual([10, 10, 50, 50]);
  expect(
    circle && value(parsed('<line xmlns="http://www.w3.org/2000/svg" x1="3"/>').documentElement as never, 'x1'),
  ).toBe(3);
});
