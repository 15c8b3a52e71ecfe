/**
 * A figure as a stack of blocks: heading, drawing, key, remarks. Each block owns its strip of the page, so
 * that text of one can never meet text of another. Within a drawing, short tags are placed by
 * {@link tags}; their meanings and values stand in the key below.
 */
import { choice, number, text, whole } from '../core/checks.js';
import { MARGIN } from './scale.js';
import { disc, type Element, element, label, line, type Point, write } from './svg.js';
import { broken, LINE, textWidth, type Writer, writer } from './text.js';
import { HEADING_SIZE, STYLE } from './theme.js';

/** What every figure takes. */
export interface FigureOptions {
  /** The unit of all lengths, as it shall be written: `mm`, `in`. */
  readonly unit: string;
  /** Heading; says what is drawn if left out. */
  readonly title?: string;
  /** Width in pixels, from 280 to 2000; 480 if left out. Text keeps its size: 360 suits a phone, 800 a page. */
  readonly width?: number;
  /** `auto`, the reader's own choice, if left out. */
  readonly theme?: 'auto' | 'light' | 'dark';
  /** Decimals of lengths, 0 to 9; 3 if left out. Angles have one more. */
  readonly decimals?: number;
}

/** The keys of {@link FigureOptions} that may be left out. */
export const COMMON = ['title', 'width', 'theme', 'decimals'] as const;

/** Checked {@link FigureOptions}. */
export interface Common {
  readonly title: string | undefined;
  readonly width: number;
  readonly theme: 'auto' | 'light' | 'dark';
  readonly write: Writer;
  readonly unit: string;
}

/** Checks what every figure takes; the keys were checked before. */
export function readCommon(given: Readonly<Record<string, unknown>>): Common {
  const unit = text(given['unit'], 'unit', 12);
  return {
    unit,
    title: given['title'] === undefined ? undefined : text(given['title'], 'title'),
    width: number(given['width'] ?? 480, 'width', { min: 280, max: 2000 }),
    theme: choice(given['theme'] ?? 'auto', 'theme', ['auto', 'light', 'dark']),
    write: writer(unit, whole(given['decimals'] ?? 3, 'decimals', { min: 0, max: 9 })),
  };
}

/** One strip of the page. */
export interface Block {
  readonly height: number;
  /** Its elements, the strip's top at 0. */
  readonly content: readonly Element[];
}

/** A figure: title for the reader and for those who cannot see it, a description, and strips. */
export function sheet(common: Common, title: string, description: string, blocks: readonly Block[]): string {
  const { width, theme } = common;
  const heading = common.title ?? title;
  const all = [headingBlock(heading, width), ...blocks];
  const groups: Element[] = [];
  let top = 8;
  for (const { height, content } of all) {
    groups.push(element('g', { transform: `translate(0 ${Number(top.toFixed(2))})` }, ...content));
    top += height;
  }
  const height = Math.ceil(top + 8);
  // Names that differ between figures on one page, the same each time for the same figure.
  const name = `gx-${hash(heading + description)}`;
  return `${write(
    element(
      'svg',
      {
        xmlns: 'http://www.w3.org/2000/svg',
        class: `gx gx-${theme}`,
        role: 'img',
        'aria-labelledby': `${name}-title ${name}-desc`,
        width,
        height,
        viewBox: `0 0 ${Number(width.toFixed(2))} ${height}`,
      },
      element('title', { id: `${name}-title` }, heading),
      element('desc', { id: `${name}-desc` }, description),
      element('style', {}, STYLE),
      element('rect', { class: 'gx-paper', width, height }),
      ...groups,
    ),
  )}\n`;
}

function headingBlock(heading: string, width: number): Block {
  const lines = broken(heading, width - 2 * MARGIN, HEADING_SIZE * 1.08, 4);
  return {
    height: lines.length * 21 + 4,
    content: lines.map((words, i) => label('gx-heading', [MARGIN, 18 + 21 * i], words)),
  };
}

/** One line of the key. */
export interface KeyRow {
  /** The tag in the drawing, if it has one. */
  readonly symbol?: string;
  /** What it is. */
  readonly meaning: string;
  /** Its value, with the unit. */
  readonly value: string;
}

/** The key: tag, meaning, value; the value goes below where the page is too narrow. */
export function key(rows: readonly KeyRow[], width: number): Block {
  const content: Element[] = [];
  const column = MARGIN + Math.max(0, ...rows.map(({ symbol = '' }) => (symbol === '' ? 0 : textWidth(symbol) + 10)));
  const room = width - MARGIN - column;
  let y = LINE;
  for (const { symbol, meaning, value } of rows) {
    content.push(line('rule', 'gx-grid', [MARGIN, y - LINE + 4.5], [width - MARGIN, y - LINE + 4.5]));
    if (symbol !== undefined) content.push(label('gx-symbol', [MARGIN, y], symbol));
    const beside = room - textWidth(value) - 12;
    // The value stands on the first line of the meaning, unless that leaves too little room for words.
    const fits = beside >= Math.min(textWidth(meaning), 0.4 * room);
    const lines = broken(meaning, fits ? beside : room);
    const shown = broken(value, room);
    const below = fits ? 0 : lines.length;
    lines.forEach((words, i) => {
      content.push(label('gx-meaning', [column, y + i * LINE], words));
    });
    shown.forEach((words, i) => {
      content.push(label('gx-value', [width - MARGIN, y + (below + i) * LINE], words, 'end'));
    });
    y += Math.max(lines.length, below + shown.length, 1) * LINE + 3;
  }
  return { height: y - LINE + 6, content };
}

/** Remarks, each broken into lines. */
export function remarks(sentences: readonly string[], width: number, look = 'gx-note'): Block {
  const lines = sentences.flatMap((sentence) => broken(sentence, width - 2 * MARGIN, undefined, 8));
  return {
    height: lines.length * LINE + 4,
    content: lines.map((words, i) => label(look, [MARGIN, LINE * (i + 1) - 4], words)),
  };
}

/** A tag for a place in a drawing. */
export interface Tag {
  readonly text: string;
  readonly at: Point;
  /** Direction in which the tag would best stand from its place, degrees, 0 to the right, 90 up. */
  readonly towards: number;
  /** Whether a leader joins the tag to its place. */
  readonly leader?: boolean;
}

const TURNS = [0, 30, -30, 60, -60, 90, -90, 135, -135, 180];

/** Places tags beside their places so that none meets another or leaves the drawing. */
export function tags(wanted: readonly Tag[], width: number, height: number): readonly Element[] {
  const taken: { readonly left: number; readonly right: number; readonly top: number; readonly bottom: number }[] = [];
  const placed: Element[] = [];
  for (const { text: words, at, towards, leader = false } of wanted) {
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
      placed.push(label('gx-tag', [x, y + 4.5], words, 'middle'));
      break;
    }
  }
  return placed;
}

/** Nearest first, and at each distance the wanted direction first. */
const TRIALS = [4, 10, 18, 28, 42, 60, 90].flatMap((far) => TURNS.map((turn) => [far, turn] as const));

/** A dimension line from one point to another with an arrow at each end, or a plain line where it is short. */
export function dimension(part: string, from: Point, to: Point): readonly Element[] {
  const length = Math.hypot(to[0] - from[0], to[1] - from[1]);
  const main = line(part, 'gx-dimension', from, to);
  if (length < 14) return [main];
  const [ux, uy] = [(to[0] - from[0]) / length, (to[1] - from[1]) / length];
  const head = ([x, y]: Point, way: number): Element => {
    const [bx, by] = [x + way * 6 * ux, y + way * 6 * uy];
    const d = `M${num(x)} ${num(y)}L${num(bx - 2 * uy)} ${num(by + 2 * ux)}L${num(bx + 2 * uy)} ${num(by - 2 * ux)}Z`;
    return element('path', { class: 'gx-tool', 'data-part': `${part}-arrow`, d });
  };
  return [main, head(from, 1), head(to, -1)];
}

/** The part of a circle about a point of the page from one angle to another, degrees, 0 to the right, 90 up. */
export function arc(part: string, look: string, [x, y]: Point, r: number, fromDeg: number, toDeg: number): Element {
  const end = (deg: number): Point => [
    x + r * Math.cos((deg * Math.PI) / 180),
    y - r * Math.sin((deg * Math.PI) / 180),
  ];
  const [[x1, y1], [x2, y2]] = [end(fromDeg), end(toDeg)];
  const large = Math.abs(toDeg - fromDeg) > 180 ? 1 : 0;
  const d = `M${num(x1)} ${num(y1)}A${num(r)} ${num(r)} 0 ${large} ${toDeg > fromDeg ? 0 : 1} ${num(x2)} ${num(y2)}`;
  return element('path', { class: look, 'data-part': part, d });
}

const num = (value: number): string => String(Number(value.toFixed(2)) + 0);

/** 32 bits of FNV-1a: tells figures apart, no more is asked of it. */
function hash(words: string): string {
  let state = 0x811c9dc5;
  for (const character of words) state = Math.imul(state ^ (character.codePointAt(0) as number), 0x01000193);
  return (state >>> 0).toString(16).padStart(8, '0');
}
