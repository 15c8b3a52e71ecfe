/**
 * A budget as a table for people: rounded as the guides ask, aligned, as rows of text and as Markdown.
 * Source: JCGM 100:2008, 7.2.6: two digits of the uncertainty, the value rounded to the same place.
 */
import { Decimal } from 'decimal.js';
import { nonNegative, number, options, text, whole } from '../core/checks.js';
import type { Budget, BudgetRow } from './first-order.js';

/** A value and its uncertainty as text. */
export interface RoundedResult {
  /** Value, rounded to the place of the uncertainty's last digit. */
  readonly value: string;
  /** Uncertainty, in the digits asked for. */
  readonly uncertainty: string;
}

/**
 * Rounds an uncertainty to two digits and its value to the same place (JCGM 100, 7.2.6), halves away from zero.
 * A value known exactly keeps its digits.
 *
 * @param result - `value`, `uncertainty` and, if other than 2, the `digits` of the uncertainty.
 * @returns Both as text, in powers of ten where the last digit stands more than nine places from the point.
 * @throws {@link GeneratrixError} `missing-option`, `unknown-option`, `wrong-kind`, `not-finite` or `out-of-range`.
 *
 * @example
 * ```ts
 * import { roundResult } from 'generatrix/budget';
 * roundResult({ value: 25.0166, uncertainty: 0.00349 }); // => { value: '25.0166', uncertainty: '0.0035' }
 * roundResult({ value: 1234.5, uncertainty: 0.096 }); // => { value: '1234.500', uncertainty: '0.096' }
 * roundResult({ value: 98765, uncertainty: 1234 }); // => { value: '98800', uncertainty: '1200' }
 * ```
 */
export function roundResult(result: {
  /** Value. */
  readonly value: number;
  /** Uncertainty, 0 or more. */
  readonly uncertainty: number;
  /** Digits of the uncertainty, 2 by default. */
  readonly digits?: number;
}): RoundedResult {
  const given = options(result, 'result', ['value', 'uncertainty'], ['digits']);
  const value = number(given['value'], 'result.value');
  const uncertainty = nonNegative(given['uncertainty'], 'result.uncertainty');
  return rounded(value, uncertainty, whole(given['digits'] ?? 2, 'result.digits', { min: 1, max: 15 }));
}

function rounded(value: number, uncertainty: number, digits: number): RoundedResult {
  if (uncertainty === 0) return { value: String(value), uncertainty: '0' };
  // The decimal that a number prints as is what its reader takes it for: 0.125 with a half to round up.
  const u = new Decimal(uncertainty).toSignificantDigits(digits, Decimal.ROUND_HALF_UP);
  const places = digits - 1 - u.e;
  return { value: placed(new Decimal(value), places), uncertainty: placed(u, places) };
}

/** Text with this many decimal places, fewer than none standing for tens, hundreds and so on. */
function placed(x: Decimal, places: number): string {
  const step = new Decimal(10).pow(-places);
  const near = x.div(step).toDecimalPlaces(0, Decimal.ROUND_HALF_UP).times(step);
  if (near.isZero()) return new Decimal(0).toFixed(Math.abs(places) > 9 ? 0 : Math.max(0, places));
  return Math.abs(places) > 9 ? near.toExponential(Math.max(0, near.e + places)) : near.toFixed(Math.max(0, places));
}

/** How to write a table. */
export interface BudgetTableOptions {
  /** Unit of lengths, as text: `mm`. Angles are in degrees, temperatures in what `temperature` says. */
  readonly length?: string;
  /** Unit of temperatures, as text, `°C` by default. */
  readonly temperature?: string;
  /** Unit of plain numbers, by input name; `result` stands for the result. */
  readonly units?: Readonly<Record<string, string>>;
  /** Digits of uncertainties, 2 by default. */
  readonly digits?: number;
}

/** A budget for people. */
export interface BudgetTable {
  /** Headings of the columns. */
  readonly columns: readonly string[];
  /** One row per input, in the budget's order, as text. */
  readonly rows: readonly (readonly string[])[];
  /** The result in one line. */
  readonly summary: string;
  /** Table and summary as Markdown, columns aligned; whatever text came from the caller is escaped. */
  readonly markdown: string;
}

const COLUMNS = [
  'Input',
  'Meaning',
  'Estimate',
  'Standard uncertainty',
  'Unit',
  'Distribution',
  'Degrees of freedom',
  'Sensitivity',
  'Contribution',
  'Share',
] as const;

/** Columns that hold numbers and stand to the right. */
const NUMBERS = new Set([2, 3, 6, 7, 8, 9]);

/**
 * Writes a budget as a table. Standard uncertainties are given with two digits and estimates rounded to match;
 * sensitivities with three digits; contributions to the place of the combined uncertainty's second digit and one
 * guard digit beyond, so that they still add up.
 *
 * @param result - A budget.
 * @param options - Units and digits; see {@link BudgetTableOptions}.
 * @returns The table as rows and as Markdown.
 * @throws {@link GeneratrixError} `unknown-option`, `wrong-kind` or `out-of-range`.
 *
 * @example
 * ```ts
 * import { budget, budgetTable } from 'generatrix/budget';
 * const result = budget({
 *   model: ({ height, length }) => height / length,
 *   inputs: { height: { value: 10, plusMinus: 0.01 }, length: { value: 100, standardUncertainty: 0.02 } },
 * });
 * budgetTable(result).summary; // => '0.100000 ± 0.000120 (k = 1.960, 95 %), standard uncertainty 0.000061'
 * ```
 */
export function budgetTable(result: Budget, options: BudgetTableOptions = {}): BudgetTable {
  const { digits, unit } = readTable(options, result);
  const { uncertainty: guard } = rounded(0, result.standardUncertainty, digits + 1);
  const rows = result.rows.map((row) => cells(row, digits, guard, unit(row.name, row.kind)));
  const ofResult = unit('result', result.result.kind);
  const summary = summarise(result, digits, ofResult);
  return { columns: COLUMNS, rows, summary, markdown: `${grid(rows)}\n\n${plain(summary)}\n` };
}

function readTable(
  given: BudgetTableOptions,
  result: Budget,
): { readonly digits: number; readonly unit: (name: string, kind: BudgetRow['kind']) => string } {
  options(given, 'options', [], ['length', 'temperature', 'units', 'digits']);
  const names = [...result.rows.map(({ name }) => name), 'result'];
  const units = options(given.units ?? {}, 'units', [], names);
  for (const name of Object.keys(units)) text(units[name], `units.${name}`, 40);
  const byKind: Readonly<Record<BudgetRow['kind'], string>> = {
    length: text(given.length ?? '', 'length', 40),
    temperature: text(given.temperature ?? '°C', 'temperature', 40),
    angleDeg: '°',
    ratio: '',
    number: '',
  };
  return {
    digits: whole(given.digits ?? 2, 'digits', { min: 1, max: 6 }),
    unit: (name, kind) => (units[name] as string | undefined) ?? byKind[kind],
  };
}

function cells(row: BudgetRow, digits: number, guard: string, unit: string): readonly string[] {
  const { value, uncertainty } = rounded(row.estimate, row.standardUncertainty, digits);
  const places = guard.includes('e') ? 0 : (guard.split('.')[1]?.length ?? 0);
  return [
    row.name,
    row.meaning,
    value,
    uncertainty,
    unit,
    row.distribution,
    row.degreesOfFreedom === null ? '∞' : short(row.degreesOfFreedom, 3),
    short(row.sensitivity, 3),
    guard.includes('e') ? short(row.contribution, digits) : placed(new Decimal(row.contribution), places),
    `${(row.share * 100).toFixed(1)} %`.replace('-0.0', '0.0'),
  ];
}

/** A number in so many digits, in powers of ten where that is shorter. */
const short = (x: number, digits: number): string => String(Number(x.toPrecision(digits)));

function summarise(result: Budget, digits: number, unit: string): string {
  const { value, standardUncertainty, expandedUncertainty, coverageFactor, coverage } = result;
  // The expanded uncertainty goes to the same place as the standard one, so that value and both line up.
  const u = rounded(value, standardUncertainty, digits);
  const places = u.uncertainty.split('.')[1]?.length ?? 0;
  const expanded =
    standardUncertainty === 0 || u.uncertainty.includes('e')
      ? rounded(0, expandedUncertainty, digits).uncertainty
      : placed(new Decimal(expandedUncertainty), places || digits - 1 - new Decimal(u.uncertainty).e);
  const tail = unit === '' ? '' : ` ${unit}`;
  const percent = String(Number((coverage * 100).toPrecision(4)));
  return (
    `${u.value}${tail} ± ${expanded}${tail} (k = ${coverageFactor.toFixed(3)}, ${percent} %), ` +
    `standard uncertainty ${u.uncertainty}${tail}`
  );
}

/** Markdown table with every column as wide as its widest cell. */
function grid(rows: readonly (readonly string[])[]): string {
  const lines = [COLUMNS, ...rows].map((cells) => cells.map(plain));
  const width = COLUMNS.map((_, i) => Math.max(3, ...lines.map((cells) => [...(cells[i] as string)].length)));
  const line = (cells: readonly string[]): string => `| ${cells.join(' | ')} |`;
  const pad = (cell: string, i: number): string => {
    const room = ' '.repeat((width[i] as number) - [...cell].length);
    return NUMBERS.has(i) ? room + cell : cell + room;
  };
  const rule = width.map((w, i) => (NUMBERS.has(i) ? `${'-'.repeat(w - 1)}:` : '-'.repeat(w)));
  const [head, ...body] = lines.map((cells) => line(cells.map(pad)));
  return [head, line(rule), ...body].join('\n');
}

/** Text that Markdown shows as it is: no markup, no HTML, no further column or line. */
function plain(cell: string): string {
  return cell
    .replace(/\s+/g, ' ')
    .replace(/[\\`*_{}[\]()#+!|~$]/g, '\\$&')
    .replace(/&/g, '&amp;')
    .replace(/</g, '&lt;')
    .replace(/>/g, '&gt;');
}
