/** Where the parts of a figure really are, from its written coordinates alone. */
import type { Document, Element } from '@xmldom/xmldom';
import { elements, value } from './parsed.js';

/** A rectangle: left, top, right, bottom. */
export type Box = readonly [left: number, top: number, right: number, bottom: number];

/** The smallest rectangle about points. */
const about = (points: readonly (readonly [number, number])[]): Box => {
  const [xs, ys] = [points.map(([x]) => x), points.map(([, y]) => y)];
  return [Math.min(...xs), Math.min(...ys), Math.max(...xs), Math.max(...ys)];
};

/** Points of a path of lines and circular arcs; an arc's centre as in SVG 1.1, F.6.5. */
function pathPoints(d: string): readonly (readonly [number, number])[] {
  const points: [number, number][] = [];
  for (const [, command, numbers = ''] of d.matchAll(/([MLAZ])([^MLAZ]*)/g)) {
    const n = numbers.match(/-?[\d.]+(?:e[+-]?\d+)?/g)?.map(Number) ?? [];
    const [x, y] = [n.at(-2) ?? 0, n.at(-1) ?? 0];
    if (command === 'Z') continue;
    if (command === 'A') {
      const [x1, y1] = points.at(-1) as [number, number];
      const half = Math.hypot(x - x1, y - y1) / 2;
      const r = Math.max(n[0] as number, half);
      const sign = n[3] === n[4] ? -1 : 1;
      const off = half === 0 ? 0 : (sign * Math.sqrt(r * r - half * half)) / half;
      const [cx, cy] = [(x1 + x) / 2 - (off * (y - y1)) / 2, (y1 + y) / 2 + (off * (x - x1)) / 2];
      const from = Math.atan2(y1 - cy, x1 - cx);
      const turn = Math.atan2(y - cy, x - cx) - from;
      const span = n[4] === 1 ? (turn + 2 * Math.PI) % (2 * Math.PI) : (turn - 2 * Math.PI) % (2 * Math.PI);
      for (let i = 1; i < 90; i++) {
        points.push([cx + r * Math.cos(from + (span * i) / 90), cy + r * Math.sin(from + (span * i) / 90)]);
      }
    }
    points.push([x, y]);
  }
  return points;
}

/** The rectangle that an element takes; undefined for text and for what draws nothing. */
export function boxOf(element: Element): Box | undefined {
  const of = (name: string): number => value(element, name);
  switch (element.tagName) {
    case 'line':
      return about([
        [of('x1'), of('y1')],
        [of('x2'), of('y2')],
      ]);
    case 'circle':
      return [of('cx') - of('r'), of('cy') - of('r'), of('cx') + of('r'), of('cy') + of('r')];
    case 'rect':
      return [of('x'), of('y'), of('x') + of('width'), of('y') + of('height')];
    case 'path':
      return about(pathPoints(element.getAttribute('d') ?? ''));
    default:
      return undefined;
  }
}

/** The strips of a figure: their elements and how high they are. */
export function strips(figure: Document): readonly { readonly height: number; readonly parts: readonly Element[] }[] {
  const groups = elements(figure).filter(({ tagName }) => tagName === 'g');
  const tops = groups.map((group) => Number(/[\d.]+(?=\))/.exec(group.getAttribute('transform') ?? '')?.[0]));
  const end = value(figure.documentElement as Element, 'height');
  return groups.map((group, i) => ({
    height: (tops[i + 1] ?? end) - (tops[i] as number),
    parts: Array.from(group.getElementsByTagName('*')),
  }));
}
