/**
 * SVG as a tree of plain elements and the one place where it becomes text. Whatever is text or an
 * attribute's value is escaped here, so that no label can bring markup of its own; characters that XML
 * does not allow are replaced. Coordinates are CSS pixels, rounded to hundredths.
 */
import { refuse } from '../core/errors.js';
import { type Look, painted } from './theme.js';

/** Elements that the figures use; none of them can load or run anything. */
export type Tag = 'svg' | 'title' | 'desc' | 'style' | 'g' | 'line' | 'path' | 'rect' | 'circle' | 'text';

/** An element, ready to be written. */
export interface Element {
  readonly tag: Tag;
  /** What its class looks like is added when it is written. */
  readonly attributes: Readonly<Record<string, string | number | undefined>>;
  readonly children: readonly (Element | string)[];
  /** Points of the page between which it lies; of text none. */
  readonly reach?: readonly Point[];
}

/** A point of the page. */
export type Point = readonly [x: number, y: number];

/** An element. Attributes that are undefined are left out. */
export function element(
  tag: Tag,
  attributes: Element['attributes'] = {},
  ...children: readonly (Element | string)[]
): Element {
  return { tag, attributes, children };
}

/** A straight line; `part` names what it stands for. */
export function line(part: string, look: Look, [x1, y1]: Point, [x2, y2]: Point): Element {
  return {
    ...element('line', { class: look, 'data-part': part, x1, y1, x2, y2 }),
    reach: [
      [x1, y1],
      [x2, y2],
    ],
  };
}

/** A line through points, closed if it is an outline. */
export function outline(part: string, look: Look, points: readonly Point[], closed = true): Element {
  const d = points.map(([x, y], i) => `${i === 0 ? 'M' : 'L'}${rounded(x)} ${rounded(y)}`).join('');
  return { ...element('path', { class: look, 'data-part': part, d: closed ? `${d}Z` : d }), reach: points };
}

/** A rectangle. */
export function box(part: string, look: Look, [x, y]: Point, width: number, height: number): Element {
  const made = element('rect', { class: look, 'data-part': part, x, y, width, height });
  return {
    ...made,
    reach: [
      [x, y],
      [x + width, y + height],
    ],
  };
}

/** A circle. */
export function disc(part: string, look: Look, [cx, cy]: Point, r: number): Element {
  const made = element('circle', { class: look, 'data-part': part, cx, cy, r });
  return {
    ...made,
    reach: [
      [cx - r, cy - r],
      [cx + r, cy + r],
    ],
  };
}

/** The part of a circle about a point of the page from one angle to another, degrees, 0 to the right, 90 up. */
export function arc(part: string, look: Look, centre: Point, r: number, fromDeg: number, toDeg: number): Element {
  return arcs(part, look, centre, r, [[fromDeg, toDeg]]);
}

/** Several parts of one circle. */
export function arcs(
  part: string,
  look: Look,
  [x, y]: Point,
  r: number,
  spans: readonly (readonly [fromDeg: number, toDeg: number])[],
): Element {
  const at = (deg: number): Point => [x + r * Math.cos((deg * Math.PI) / 180), y - r * Math.sin((deg * Math.PI) / 180)];
  const said = (deg: number): string => at(deg).map(rounded).join(' ');
  const reach: Point[] = [];
  const d = spans.map(([from, to]) => {
    const [large, way] = [Math.abs(to - from) > 180 ? 1 : 0, to > from ? 0 : 1];
    const [low, high] = [Math.min(from, to), Math.max(from, to)];
    reach.push(at(from), at(to));
    for (let deg = 90 * Math.ceil(low / 90); deg < high; deg += 90) reach.push(at(deg));
    return `M${said(from)}A${rounded(r)} ${rounded(r)} 0 ${large} ${way} ${said(to)}`;
  });
  return { ...element('path', { class: look, 'data-part': part, d: d.join('') }), reach };
}

/** A dimension line from one point to another with an arrow at each end, or a plain line where it is short. */
export function dimension(part: string, from: Point, to: Point): readonly Element[] {
  const length = Math.hypot(to[0] - from[0], to[1] - from[1]);
  const main = line(part, 'gx-dimension', from, to);
  if (length < 14) return [main];
  const [ux, uy] = [(to[0] - from[0]) / length, (to[1] - from[1]) / length];
  const head = ([x, y]: Point, way: number): Element => {
    const [bx, by] = [x + way * 6 * ux, y + way * 6 * uy];
    return outline(`${part}-arrow`, 'gx-tool', [
      [x, y],
      [bx - 2 * uy, by + 2 * ux],
      [bx + 2 * uy, by - 2 * ux],
    ]);
  };
  return [main, head(from, 1), head(to, -1)];
}

/** Text whose place is given by its baseline. */
export function label(look: Look, [x, y]: Point, words: string, anchor: 'start' | 'middle' | 'end' = 'start'): Element {
  return element('text', { class: look, x, y, 'text-anchor': anchor === 'start' ? undefined : anchor }, words);
}

/** The text of an element and all within it. */
export function write({ tag, attributes, children }: Element): string {
  const written = Object.entries({ ...attributes, ...painted(String(attributes['class'])) })
    .filter(([, value]) => value !== undefined)
    .map(([name, value]) => ` ${name}="${escaped(typeof value === 'number' ? rounded(value) : String(value))}"`)
    .join('');
  const inner = children.map((child) => (typeof child === 'string' ? escaped(child) : write(child))).join('');
  return inner === '' ? `<${tag}${written}/>` : `<${tag}${written}>${inner}</${tag}>`;
}

/** A coordinate with at most two decimals and no minus before zero; sizes that leave no place on the page are refused. */
export function rounded(value: number): string {
  if (!Number.isFinite(value))
    return refuse('not-representable', '', value, 'must have sizes that can be drawn together');
  return String(Number(value.toFixed(2)) + 0);
}

/** Characters that could mark up, and how XML and HTML write them. */
export const ENTITIES: Readonly<Record<string, string>> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
  "'": '&#39;',
};

/** Text that cannot mark up, for XML and HTML. */
export function escaped(text: string): string {
  return clean(text).replace(/[&<>"']/g, (character) => ENTITIES[character] as string);
}

/**
 * Text without what XML does not allow (XML 1.0, 2.2: controls, lone surrogates, U+FFFE, U+FFFF), only stands for
 * such (U+FFFD) or turns the direction of writing (Unicode's Bidi_Control): a box instead; a blank for each white space.
 */
export function clean(text: string): string {
  return text.replace(/\s/gu, ' ').replace(/[\p{Cc}\p{Cs}\p{Bidi_Control}\uFFFD-\uFFFF]/gu, '□');
}
