/**
 * A taper between its ends seen from above, for the figures of slides and bars: large end on the left, the operator
 * below. Where the taper would be too slender to see, it is drawn steeper by a round factor.
 */

import { tell } from '../core/words.js';
import { roundDown, roundUp, type View, viewOf } from '../draw/scale.js';
import { dimension, type Element, line, outline, type Point } from '../draw/svg.js';
import type { Tag } from '../draw/tags.js';

/** A taper laid on the page. */
export interface ConePlan {
  readonly view: View;
  readonly at: (x: number, y: number) => Point;
  /** Radii as drawn. */
  readonly large: number;
  readonly small: number;
  /** Drawn angle, degrees. */
  readonly drawnDeg: number;
  readonly factor: number;
  /** The statement of the scale. */
  readonly scale: string;
}

/** Least change of the radius along the taper that can be read, pixels. */
const VISIBLE = 18;

/** Lays a taper of a length, a mean diameter and a slope on the page; `below` and `above` leave room for machine parts, as parts of the length. */
export function conePlan(
  { length, mean, tan }: { readonly length: number; readonly mean: number; readonly tan: number },
  room: { readonly below: number; readonly above: number },
  width: number,
): ConePlan {
  const bounds = (radius: number) => ({
    left: -0.2 * length,
    right: 1.12 * length,
    bottom: -radius - room.below * length,
    top: radius + room.above * length,
  });
  const tall = 380;
  const first = viewOf(bounds(mean / 2 + (length * tan) / 2), width, tall, 34).scale;
  const wanted = roundUp(VISIBLE / (length * tan * first));
  const steepest = Math.min(0.3, (0.7 * mean) / length) / tan;
  const factor = wanted <= steepest ? wanted : Math.max(1, steepest > 1 ? roundDown(steepest) : 1);
  const rise = (length * tan * factor) / 2;
  const view = viewOf(bounds(mean / 2 + rise), width, tall, 34);
  return {
    view,
    at: view.at,
    large: mean / 2 + rise,
    small: Math.max(0, mean / 2 - rise),
    drawnDeg: (Math.atan(tan * factor) * 180) / Math.PI,
    factor,
    scale:
      factor === 1
        ? 'Drawn to scale; the slides are schematic.'
        : `Slope and taper are drawn ${tell(factor)} times too large; lengths and the mean diameter are to scale.`,
  };
}

/** The work with its chuck, the cut and the tool. */
export function coneWork({ at, large, small }: ConePlan, length: number): readonly Element[] {
  const stub = -0.12 * length;
  const [a, b] = [at(0, -large), at(length, -small)];
  const [x, y] = [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2];
  const chuck = large * 1.12;
  return [
    outline('chuck', 'gx-machine', [
      at(-0.2 * length, chuck),
      at(stub, chuck),
      at(stub, -chuck),
      at(-0.2 * length, -chuck),
    ]),
    outline('work', 'gx-work', [
      at(stub, large),
      at(0, large),
      at(length, small),
      at(length, -small),
      at(0, -large),
      at(stub, -large),
    ]),
    line('work-axis', 'gx-axis', at(-0.24 * length, 0), at(1.12 * length, 0)),
    line('large-diameter', 'gx-dimension', at(0, -large), at(0, large)),
    line('small-diameter', 'gx-dimension', at(length, -small), at(length, small)),
    line('tool-path', 'gx-cut', a, b),
    outline('tool', 'gx-tool', [
      [x, y],
      [x - 6, y + 14],
      [x + 6, y + 14],
    ]),
    line('extension', 'gx-leader', at(0, large), [at(0, 0)[0], at(0, large)[1] - 20]),
    line('extension', 'gx-leader', at(length, small), [at(length, 0)[0], at(0, large)[1] - 20]),
    ...dimension('length', [at(0, 0)[0], at(0, large)[1] - 16], [at(length, 0)[0], at(0, large)[1] - 16]),
  ];
}

/** The tags of the work. */
export function coneTags({ at, large, small }: ConePlan, length: number): readonly Tag[] {
  return [
    { text: 'ℓ', at: [at(length / 2, 0)[0], at(0, large)[1] - 16], towards: 90 },
    { text: 'D', at: at(0, large / 2), towards: 0 },
    { text: 'd', at: at(length, small / 2), towards: 0 },
  ];
}
