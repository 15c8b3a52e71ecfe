/**
 * An error budget as bars: one for each input's contribution to the standard uncertainty, all on one scale that
 * begins at zero. Words stand above their bar and values at the end of that line, so that any wording fits.
 */

import type { Budget, BudgetRow } from '../budget/first-order.js';
import { quantityKind } from '../budget/functions.js';
import {
  anyNumber,
  array,
  defaulted,
  type Fields,
  nonNegative,
  number,
  optional,
  read,
  text,
  whole,
} from '../core/read.js';
import { FIGURE, type FigureOptions, type Looks, part } from './options.js';
import { type Block, key, page, remarks } from './page.js';
import { MARGIN, marks } from './scale.js';
import { box, type Element, label, line } from './svg.js';
import { broken, LINE, significant, textWidth, withDecimals } from './text.js';
import type { Look } from './theme.js';

/** What {@link budgetFigure} needs. */
export interface BudgetFigureOptions extends FigureOptions {
  /** The budget, as `budget` gives it. */
  readonly budget: Budget;
  /** How many bars at most, from 1 to 100, the largest first. @defaultValue 12 */
  readonly most?: number;
  /** Unit of the result, where it is no length in `unit` and no angle: of a function of your own. */
  readonly resultUnit?: string;
}

type Bar = Pick<BudgetRow, 'name' | 'meaning' | 'contribution'>;
type Drawn = Omit<BudgetFigureOptions, 'budget'> & {
  readonly budget: Pick<
    Budget,
    'result' | 'value' | 'standardUncertainty' | 'coverage' | 'coverageFactor' | 'expandedUncertainty'
  > & { readonly rows: readonly Bar[] };
};

const FIELDS: Fields<Drawn, Looks | 'most'> = {
  ...FIGURE,
  budget: part({
    result: part({ kind: quantityKind, meaning: text(500) }),
    value: anyNumber,
    standardUncertainty: nonNegative,
    coverage: number({ min: 0, max: 1 }),
    coverageFactor: anyNumber,
    expandedUncertainty: nonNegative,
    rows: array(part<Bar>({ name: text(500), meaning: text(500), contribution: nonNegative }), 1),
  }),
  most: defaulted(whole({ min: 1, max: 100 }), 12),
  resultUnit: optional(text(12)),
};

/**
 * Bars of the contributions to a result's standard uncertainty, with value and expanded uncertainty.
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
  const given = read<Drawn, Looks | 'most'>(figure, FIELDS);
  const { width, most } = given;
  const {
    result,
    rows,
    value,
    standardUncertainty: u,
    coverage,
    coverageFactor: k,
    expandedUncertainty,
  } = given.budget;
  const unit = given.resultUnit ?? (result.kind === 'length' ? given.unit : result.kind === 'angleDeg' ? '°' : '');
  const told = (amount: number, decimals = significant(amount)): string => withDecimals(amount, decimals, unit);
  const expanded = told(expandedUncertainty);
  const size = told(value, Math.max(1, significant(expandedUncertainty)));
  const rest = Math.max(0, rows.length - most);
  return page(
    given,
    result.meaning === '' ? 'Where the uncertainty comes from' : `Uncertainty: ${result.meaning}`,
    `${rows.length - rest} of ${rows.length} inputs, the largest contribution first. ` +
      `Result ${size}, expanded uncertainty ${expanded}.`,
    [
      bars(rows.slice(0, most), width, told),
      ...(rest > 0
        ? [remarks([`${rest} smaller ${rest === 1 ? 'contribution is' : 'contributions are'} not drawn.`], width)]
        : []),
      key(
        [
          { meaning: 'Result', value: size },
          { symbol: 'u', meaning: 'Combined standard uncertainty', value: told(u) },
          {
            symbol: 'k',
            meaning: `Coverage factor for ${withDecimals(100 * coverage, 1)} %`,
            value: withDecimals(k, 2),
          },
          { symbol: 'U', meaning: 'Expanded uncertainty, k u', value: expanded },
        ],
        width,
      ),
    ],
  );
}

function bars(rows: readonly Bar[], width: number, told: (amount: number) => string): Block {
  const most = Math.max(...rows.map(({ contribution }) => contribution));
  const room = width - 2 * MARGIN;
  const long = (contribution: number): number => (most > 0 ? (contribution / most) * room : 0);
  const axis = most > 0 ? marks(0, most, Math.max(2, Math.floor(room / 130))) : [];
  const strips: Element[] = [];
  let bottom = 4;
  for (const { name, meaning, contribution } of rows) {
    const amount = told(contribution);
    const lines = broken(meaning === '' ? name : `${name}: ${meaning}`, room - textWidth(amount) - 12, undefined, 3);
    const high = lines.length * LINE;
    strips.push(
      box('behind-words', 'gx-paper', [MARGIN - 1, bottom], room + 2, high),
      ...lines.map((part, i) => label('gx-meaning', [MARGIN, bottom + 14 + i * LINE], part)),
      label('gx-value', [width - MARGIN, bottom + 14], amount, 'end'),
      box('contribution', 'gx-bar', [MARGIN, bottom + high + 1], long(contribution), 12),
    );
    bottom += high + 21;
  }
  const upright = (value: number, look: Look): Element =>
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
