/** Text and tables as Markdown. Whatever a user gave is escaped: no label can bring markup of its own. */
import { tell } from '../core/words.js';
import { clean } from '../draw/svg.js';
import type { Step, StepKind, StepTable } from '../method/steps.js';

/** What each kind of step is called. */
export const KINDS: Readonly<Record<StepKind, string>> = {
  prepare: 'Prepare',
  set: 'Set',
  check: 'Check',
  'trial-cut': 'Trial cut',
  measure: 'Measure',
  correct: 'Correct',
  finish: 'Finish',
};

/**
 * Text on one line: everything that could mark up is escaped. Some readers make links of addresses
 * that stand in plain text, after escapes are gone: a word joiner (U+2060), which is not seen, keeps them apart.
 */
export function escaped(value: string): string {
  return clean(value)
    .replace(/ +/g, ' ')
    .replace(/:(?=\/\/)|\bwww(?=\.)|@/gi, '$&\u2060')
    .replace(/[\\`*_{}[\]<>#+!|~&^$@]|[:.](?=[\p{L}\u2060])|^[-=]|(?<=^\d+)[.)]/gu, '\\$&');
}

/** One row of a table. */
export function row(cells: readonly string[]): string {
  return `| ${cells.join(' | ')} |`;
}

/** The cells of a table as text, numbered from 1. */
export function tableCells({ rows, limit }: StepTable): readonly (readonly string[])[] {
  return rows.map((cells, i) => [String(i + 1), ...cells.map((value) => tell(value, { limit }))]);
}

/** A step of a numbered list, with its table below it. */
export function stepLines({ kind, text, table }: Pick<Step, 'kind' | 'text' | 'table'>, i: number): readonly string[] {
  const line = `${i + 1}. **${KINDS[kind]}.** ${escaped(text)}`;
  if (!table) return [line];
  const head = ['No.', ...table.columns.map(escaped)];
  const indented = (cells: readonly string[]): string => `   ${row(cells)}`;
  return [line, '', indented(head), indented(head.map(() => '---:')), ...tableCells(table).map(indented), ''];
}
