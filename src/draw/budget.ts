/**
 * An error budget as bars: one for each input's contribution to the standard uncertainty, all on one scale that
 * begins at zero. Words stand above their bar and values at the end of that line, so that any wording fits.
 */

import type { Budget } from '../budget/first-order.js';
import { list, options, text, whole } from '../core/checks.js';
import { field, record } from './field.js';
import { COMMON, type FigureOptions, readCommon } from './options.js';
import { type Block, key, page, remarks } from './page.js';
import { MARGIN, marks } from './scale.js';
import { type Element, element, label, line } from './svg.js';
import { broken, decimal, LINE, significant, textWidth } from './text.js';

/** What {@link budgetFigure} needs. */
export interface BudgetFigureOptions extends FigureOptions {
  /** The budget, as `budget` gives it. */
  readonly budget: Budget;
  /** How many bars at most, the largest first; 12 if left out. */
  readonly most?: number;
  /** Unit of the result, where it is no length in `unit` and no angle: of a function of your own. */
  readonly resultUnit?: string;
}

/**
 * Bars of the contributions to a result's standard uncertainty, with value and expanded uncertainty.
 *
 * @param figure - The budget, the unit of lengths in it, and looks.
 * @returns The figure as SVG text.
 * @throws GeneratrixError for a budget that is not complete.
 * @example
 * ```ts
 * import { budget, budgetFigure } from 'generatrix';
 * const svg = budgetFigure({
 *   budget: budget({
 *     model: ({ far, near }) => far - near,
 *     inputs: { far: { value: 90, plusMinus: 0.02 }, near: { value: 50, plusMinus: 0.01 } },
 *   }),
 *   unit: 'mm',
 * });
 * svg.match(/data-part="contribution"/g)?.length; // => 2
 * ```
 */
export function budgetFigure(figure: BudgetFigureOptions): string {
  const given = options(figure, 'figure', ['budget', 'unit'], ['most', 'resultUnit', ...COMMON]);
  const common = readCommon(given);
  const { width } = common;
  const result = record(given['budget'], 'budget');
  const { kind, meaning: said } = record(result['result'], 'budget.result');
  const unit =
    given['resultUnit'] === undefined ? unitOf(kind, common.unit) : ` ${text(given['resultUnit'], 'resultUnit', 12)}`;
  const rows = list(result['rows'], 'budget.rows', 1).map((row, i) => readRow(row, `budget.rows[${i}]`));
  const shown = rows.slice(0, whole(given['most'] ?? 12, 'most', { min: 1, max: 100 }));
  const rest = rows.length - shown.length;
  const [value, u, k, expanded] = [
    field(result, 'budget', 'value'),
    field(result, 'budget', 'standardUncertainty', { min: 0 }),
    field(result, 'budget', 'coverageFactor'),
    field(result, 'budget', 'expandedUncertainty', { min: 0 }),
  ];
  const digits = Math.max(1, significant(expanded));
  const withUnit = (amount: number, decimals: number): string => `${decimal(amount, decimals)}${unit}`;
  const coverage = field(result, 'budget', 'coverage', { min: 0, max: 1 });
  const meaning = text(said, 'budget.result.meaning', 500);
  const summary =
    `${shown.length} of ${rows.length} inputs, the largest contribution first. ` +
    `Result ${withUnit(value, digits)}, expanded uncertainty ${withUnit(expanded, digits)}.`;
  return page(common, meaning === '' ? 'Where the uncertainty comes from' : `Uncertainty: ${meaning}`, summary, [
    bars(shown, width, unit),
    ...(rest > 0
      ? [remarks([`${rest} smaller ${rest === 1 ? 'contribution is' : 'contributions are'} not drawn.`], width)]
      : []),
    key(
      [
        { meaning: 'Result', value: withUnit(value, digits) },
        { symbol: 'u', meaning: 'Combined standard uncertainty', value: withUnit(u, significant(u)) },
        { symbol: 'k', meaning: `Coverage factor for ${decimal(100 * coverage, 1)} %`, value: decimal(k, 2) },
        { symbol: 'U', meaning: 'Expanded uncertainty, k u', value: withUnit(expanded, significant(expanded)) },
      ],
      width,
    ),
  ]);
}

interface Bar {
  readonly words: string;
  readonly contribution: number;
}

function readRow(row: unknown, parameter: string): Bar {
  const { name, meaning } = record(row, parameter);
  const [said, called] = [text(meaning, `${parameter}.meaning`, 500), text(name, `${parameter}.name`, 500)];
  return {
    words: said === '' ? called : `${called}: ${said}`,
    contribution: field(row, parameter, 'contribution', { min: 0 }),
  };
}

function bars(rows: readonly Bar[], width: number, unit: string): Block {
  const most = Math.max(...rows.map(({ contribution }) => contribution));
  const room = width - 2 * MARGIN;
  const long = (contribution: number): number => (most > 0 ? (contribution / most) * room : 0);
  const axis = most > 0 ? marks(0, most, Math.max(2, Math.floor(room / 130))) : [];
  const strips: Element[] = [];
  let bottom = 4;
  for (const { words, contribution } of rows) {
    const amount = `${decimal(contribution, significant(contribution))}${unit}`;
    const lines = broken(words, room - textWidth(amount) - 12, undefined, 3);
    const high = lines.length * LINE;
    strips.push(
      element('rect', { class: 'gx-paper', x: MARGIN - 1, y: bottom, width: room + 2, height: high }),
      ...lines.map((part, i) => label('gx-meaning', [MARGIN, bottom + 14 + i * LINE], part)),
      label('gx-value', [width - MARGIN, bottom + 14], amount, 'end'),
      element('rect', {
        class: 'gx-bar',
        'data-part': 'contribution',
        x: MARGIN,
        y: bottom + high + 1,
        width: long(contribution),
        height: 12,
      }),
    );
    bottom += high + 21;
  }
  const upright = (value: number, look: string): Element =>
    line('mark', look, [MARGIN + long(value), 2], [MARGIN + long(value), bottom + 4]);
  const content = [...axis.map(({ value }) => upright(value, 'gx-grid')), upright(0, 'gx-mark'), ...strips];
  let free = -Infinity;
  for (const { value, text: words } of axis) {
    const half = textWidth(words) / 2;
    const x = Math.min(Math.max(MARGIN + long(value), MARGIN + half), width - MARGIN - half);
    if (x - half < free) continue;
    free = x + half + 8;
    content.push(label('gx-note', [x, bottom + 18], words, 'middle'));
  }
  return { height: bottom + 26, content };
}

/** The unit of a kind of quantity, with the blank before it. */
function unitOf(kind: unknown, unit: string): string {
  if (kind === 'length') return ` ${unit}`;
  return kind === 'angleDeg' ? '°' : '';
}
