/** The frame of a drawing as docs/conventions.md tells it: two small axes with the names that a person at the machine uses. */
import type { Block } from './page.js';
import { MARGIN } from './scale.js';
import { type Element, label, line, outline, type Point } from './svg.js';
import { LINE, textWidth } from './text.js';

/** How each drawing is seen, and what lies where on its page. */
const FRAMES = {
  lathe: { left: 'headstock', right: 'tailstock', across: 'operator', way: 1, seen: 'seen from above' },
  mill: { left: 'left', right: 'right', across: 'up', way: -1, seen: 'seen from the front' },
} as const;

/** From where a drawing is seen. */
export type FrameName = keyof typeof FRAMES;

const ARM = 26;

/** A strip with the axes of a frame. */
export function frame(name: FrameName, width: number): Block {
  const { left, right, across, way, seen } = FRAMES[name];
  const height = LINE + 22;
  const x = MARGIN + textWidth(left) + 4 + ARM;
  const y = way > 0 ? 12 : height - 12;
  const arrow = (part: string, [ux, uy]: Point): readonly Element[] => {
    const [px, py]: Point = [x + ARM * ux, y + ARM * uy];
    const [bx, by] = [px - 7 * ux, py - 7 * uy];
    return [
      line(`frame-${part}`, 'gx-mark', [x, y], [px, py]),
      outline(`frame-${part}-arrow`, 'gx-ink', [
        [px, py],
        [bx - 3 * uy, by + 3 * ux],
        [bx + 3 * uy, by - 3 * ux],
      ]),
    ];
  };
  const end = x + ARM + 4;
  const fits = end + textWidth(right) + 16 + textWidth(seen) + MARGIN <= width;
  return {
    height,
    content: [
      ...arrow('left', [-1, 0]),
      ...arrow('right', [1, 0]),
      ...arrow('across', [0, way]),
      label('gx-meaning', [MARGIN, y + 5], left),
      label('gx-meaning', [end, y + 5], right),
      label('gx-meaning', [x + 7, y + way * ARM + (way > 0 ? 2 : 8)], across),
      ...(fits ? [label('gx-note', [width - MARGIN, y + 5], seen, 'end')] : []),
    ],
  };
}
