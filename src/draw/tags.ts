/** Short tags beside their places in a drawing, none over another; their meanings stand in the key below it. */
import { disc, type Element, label, line, type Point } from './svg.js';
import { textWidth } from './text.js';

/** A tag for a place in a drawing. */
export interface Tag {
  readonly text: string;
  readonly at: Point;
  /** Direction in which the tag would best stand from its place, degrees, 0 to the right, 90 up. */
  readonly towards: number;
  /** Whether a leader joins the tag to its place. */
  readonly leader?: boolean;
  /** `gx-name` for the name of a thing. @defaultValue `gx-tag`, a symbol of the key */
  readonly look?: 'gx-tag' | 'gx-name';
}

const TURNS = [0, 30, -30, 60, -60, 90, -90, 135, -135, 180];

/** Places tags beside their places so that none meets another or leaves the drawing. */
export function tags(wanted: readonly Tag[], width: number, height: number): readonly Element[] {
  const taken: { readonly left: number; readonly right: number; readonly top: number; readonly bottom: number }[] = [];
  const placed: Element[] = [];
  for (const { text: words, at, towards, leader = false, look = 'gx-tag' } of wanted) {
    const half = textWidth(words) / 2;
    for (const [far, turn] of TRIALS) {
      const angle = ((towards + turn) * Math.PI) / 180;
      const reach = leader ? far + 8 : far;
      const x = at[0] + Math.cos(angle) * (reach + half);
      const y = at[1] - Math.sin(angle) * (reach + 8);
      const box = { left: x - half - 2, right: x + half + 2, top: y - 10, bottom: y + 10 };
      const inside = box.left >= 4 && box.right <= width - 4 && box.top >= 0 && box.bottom <= height;
      const free = taken.every(
        (other) =>
          box.right <= other.left || box.left >= other.right || box.bottom <= other.top || box.top >= other.bottom,
      );
      if (!inside || !free) continue;
      taken.push(box);
      if (leader) {
        const end: Point = [x - Math.cos(angle) * (half + 1), y + Math.sin(angle) * 8];
        placed.push(line('leader', 'gx-leader', at, end), disc('leader-end', 'gx-tool', at, 1.8));
      }
      placed.push(label(look, [x, y + 4.5], words, 'middle'));
      break;
    }
  }
  return placed;
}

/** Nearest first, and at each distance the wanted direction first. */
const TRIALS = [4, 10, 18, 28, 42, 60, 90].flatMap((far) => TURNS.map((turn) => [far, turn] as const));
