/**
 * A figure as a stack of blocks: heading, drawing, key, remarks. Each block owns its strip of the page, so
 * that text of one can never meet text of another. Within a drawing short tags are placed by
 * `tags`; their meanings and values stand in the key below.
 */

import type { Filled } from '../core/read.js';
import type { FigureOptions, Looks } from './options.js';
import { MARGIN } from './scale.js';
import { type Element, element, label, line, rounded, write } from './svg.js';
import { broken, LINE, textWidth } from './text.js';
import { HEADING_SIZE, type Look, STYLE, TEXT } from './theme.js';

/** One strip of the page. */
export interface Block {
  readonly height: number;
  /** Its elements, the strip's top at 0. */
  readonly content: readonly Element[];
  /** What stands there in a brief figure, if it is something else. */
  readonly brief?: Block;
}

/** A figure: title for the reader and for those who cannot see it, a description, and strips. */
export function page(
  { title, width, theme, brief }: Filled<FigureOptions, Looks>,
  drawn: string,
  description: string,
  blocks: readonly Block[],
): string {
  const heading = title ?? drawn;
  const all = [headingBlock(heading, width), ...blocks.map((block) => (brief && block.brief) || block)];
  const groups: Element[] = [];
  let top = 8;
  for (const { height, content } of all) {
    groups.push(element('g', { transform: `translate(0 ${rounded(top)})` }, ...content));
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
        viewBox: `0 0 ${rounded(width)} ${height}`,
        ...TEXT,
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
  const tagged = rows.filter(({ symbol }) => symbol !== undefined);
  return tagged.length === 0 ? keyBlock(rows, width) : { ...keyBlock(rows, width), brief: keyBlock(tagged, width) };
}

function keyBlock(rows: readonly KeyRow[], width: number): Block {
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
export function remarks(sentences: readonly string[], width: number, look: Look = 'gx-note'): Block {
  const lines = sentences.flatMap((sentence) => broken(sentence, width - 2 * MARGIN, undefined, 8));
  return {
    height: lines.length * LINE + 4,
    content: lines.map((words, i) => label(look, [MARGIN, LINE * (i + 1) - 4], words)),
  };
}

/** 32 bits of FNV-1a: tells figures apart, no more is asked of it. */
function hash(words: string): string {
  let state = 0x811c9dc5;
  for (const character of words) state = Math.imul(state ^ (character.codePointAt(0) as number), 0x01000193);
  return (state >>> 0).toString(16).padStart(8, '0');
}
