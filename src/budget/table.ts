/**
 * A budget as a table for people: rounded as the guides ask (rounding.ts), aligned, as rows of text and as Markdown.
 */
import {
  anyNumber,
  array,
  defaulted,
  type Fields,
  later,
  nonNegative,
  nullable,
  number,
  part,
  type Reader,
  read,
  text,
  whole,
} from '../core/read.js';
import type { Budget, BudgetRow } from './first-order.js';
import { type ByInput, quantityKind, readByName } from './functions.js';
import { placed, placesFor, rounded } from './rounding.js';

/** What to write as a table, and how. */
export interface BudgetTableOptions {
  /** A budget, as `budget` gives it. */
  readonly budget: Budget;
  /**
   * Unit of lengths, as text: `mm`. Angles are in degrees, temperatures in what `temperature` says.
   * @defaultValue none is written
   */
  readonly length?: string;
  /** Unit of temperatures, as text. @defaultValue '°C' */
  readonly temperature?: string;
  /** Unit of plain numbers, by input name; `result` stands for the result. @defaultValue none is written */
  readonly units?: ByInput<string, string>;
  /** Digits of uncertainties, 1 to 6. @defaultValue 2 */
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
 * @throws GeneratrixError `unknown-option`, `wrong-kind` or `out-of-range`.
 * @example
 * ```ts
 * import { budget, budgetTable } from 'generatrix/budget';
 * const result = budget({
 *   model: ({ height, length }) => height / length,
 *   inputs: { height: { value: 10, plusMinus: 0.01 }, length: { value: 100, standardUncertainty: 0.02 } },
 * });
 * budgetTable({ budget: result }).summary; // => '0.100000 ± 0.000120 (k = 1.960, 95 %), standard uncertainty 0.000061'
 * ```
 */
export function budgetTable(options: BudgetTableOptions): BudgetTable {
  const { budget: result, digits, length, temperature, units: named } = read(options, OPTIONS);
  const names = [...result.rows.map(({ name }) => name), 'result'];
  const units = readByName(named, UNIT, names, 'units');
  const byKind = { length, temperature, angleDeg: '°', ratio: '', number: '' };
  const unit = (name: string, kind: BudgetRow['kind']): string => units.get(name) ?? byKind[kind];
  const { uncertainty: guard } = rounded(0, result.standardUncertainty, digits + 1);
  const rows = result.rows.map((row) => cells(row, digits, guard, unit(row.name, row.kind)));
  const summary = summarise(result, digits, unit('result', result.result.kind));
  return { columns: [...COLUMNS], rows, summary, markdown: `${grid(rows)}\n\n${plain(summary)}\n` };
}

type Told = Pick<Budget, 'value' | 'standardUncertainty' | 'expandedUncertainty' | 'coverageFactor' | 'coverage'> & {
  readonly result: Pick<Budget['result'], 'kind'>;
  readonly rows: readonly Omit<BudgetRow, 'sensitivityError'>[];
};
type Read = Omit<BudgetTableOptions, 'budget'> & { readonly budget: Told };

const UNIT = text(40);
const OPTIONS: Fields<Read, 'length' | 'temperature' | 'units' | 'digits'> = {
  budget: part<Told>({
    value: anyNumber,
    standardUncertainty: nonNegative,
    expandedUncertainty: nonNegative,
    coverageFactor: nonNegative,
    coverage: number({ min: 0, max: 1 }),
    result: part({ kind: quantityKind }),
    rows: array(
      part<Told['rows'][number]>({
        name: text(500),
        meaning: text(500),
        kind: quantityKind,
        estimate: anyNumber,
        standardUncertainty: nonNegative,
        distribution: text(40) as unknown as Reader<BudgetRow['distribution']>,
        degreesOfFreedom: nullable(nonNegative),
        sensitivity: anyNumber,
        contribution: nonNegative,
        share: number({ min: -1e9, max: 1e9 }),
      }),
    ),
  }),
  length: defaulted(UNIT, ''),
  temperature: defaulted(UNIT, '°C'),
  units: defaulted(later(), {}),
  digits: defaulted(whole({ min: 1, max: 6 }), 2),
};

function cells(row: Told['rows'][number], digits: number, guard: string, unit: string): readonly string[] {
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
    guard.includes('e') ? short(row.contribution, digits) : placed(row.contribution, places),
    `${(row.share * 100).toFixed(1)} %`.replace('-0.0', '0.0'),
  ];
}

/** A number in so many digits, in powers of ten where that is shorter. */
const short = (x: number, digits: number): string => String(Number(x.toPrecision(digits)));

function summarise(result: Told, digits: number, unit: string): string {
  const { value, standardUncertainty, expandedUncertainty, coverageFactor, coverage } = result;
  // The expanded uncertainty goes to the same place as the standard one, so that value and both line up.
  const u = rounded(value, standardUncertainty, digits);
  const places = u.uncertainty.split('.')[1]?.length ?? 0;
  const expanded =
    standardUncertainty === 0 || u.uncertainty.includes('e')
      ? rounded(0, expandedUncertainty, digits).uncertainty
      : placed(expandedUncertainty, places || placesFor(Number(u.uncertainty), digits));
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
