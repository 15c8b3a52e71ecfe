/**
 * One page for the shop wall, from a plan: part, machine, settings, checks, order of work, expected error,
 * cautions. Markdown, or HTML that needs nothing else. Whatever text a user gave is escaped in both.
 */
import { choice, list, options, text } from '../core/checks.js';
import { refuse } from '../core/errors.js';
import { isOwnFigure } from '../draw/own.js';
import { clean } from '../draw/svg.js';
import { readTaper } from '../taper/taper.js';
import { type Caution, planCautions } from './cautions.js';
import type { Expectation, Plan } from './result.js';
import { sheetHtml } from './sheet-html.js';
import { chosen, KINDS, planSteps, tableCells, type WorkStep } from './steps.js';
import { plain, told } from './told.js';

/** What {@link shopSheet} needs. */
export interface ShopSheetInput {
  /** A plan as {@link planJob} gives it. */
  readonly plan: Plan;
  /** Position of the method in the plan's `methods`; the best one if left out. */
  readonly method?: number;
  /** Drawings for the sheet, as SVG text from this library. Markdown only lists their titles. */
  readonly figures?: readonly SheetFigure[];
  /** What to write. */
  readonly format: 'markdown' | 'html';
}

/** A drawing for a sheet. */
export interface SheetFigure {
  /** What it shows. */
  readonly title: string;
  /**
   * A figure of this library as its functions give it; any other is refused. It prints 80 mm wide: drawn with a `width`
   * of 300, its type comes out 3.5 mm high.
   */
  readonly svg: string;
}

/** What stands on a sheet, before it is written; texts are not yet escaped. */
export interface SheetContent {
  readonly title: string;
  readonly facts: readonly (readonly [name: string, value: string])[];
  readonly steps: readonly WorkStep[];
  readonly expected: { readonly columns: readonly string[]; readonly rows: readonly (readonly string[])[] };
  readonly cautions: readonly Caution[];
  readonly assumed: string;
  readonly figures: readonly SheetFigure[];
}

const METHODS = {
  'top-slide': 'top slide swung to the half angle',
  'guide-bar': 'guide bar',
  'set-over': 'work set over between centres',
  'ball-centres': 'work set over between balls, by a boring head in the tailstock',
  'tilted-sweep': 'tilted boring head over a turning table',
  'swivel-tool': 'swivelling tool',
  steps: 'steps, blended by hand',
  'ball-cutter': 'ball-ended cutter, pass by pass',
} as const;

const QUANTITIES: Readonly<Record<string, string>> = {
  'small-diameter': 'Small diameter',
  'half-angle': 'Half angle, degrees',
  radius: 'Radius',
  form: 'Form',
};

/**
 * One page for the shop wall.
 *
 * @param input - The plan, the method, drawings, and the format.
 * @returns Markdown, or a whole HTML page with its style and drawings inside.
 * @throws GeneratrixError `beyond-machine` for a method that cannot reach, `unreadable` for a figure that this
 * library did not draw.
 * @example
 * ```ts
 * import { planJob, shopSheet } from 'generatrix';
 * const plan = planJob({
 *   title: 'knob <8>',
 *   unit: 'mm',
 *   part: { kind: 'sphere', target: { part: 'ball-on-stem', diameter: 40, stemDiameter: 16 }, tolerance: { radius: 0.2 } },
 *   lathes: [{ name: 'bench lathe', centreDistance: 500, swivelTool: { smallestRadius: 5, largestRadius: 40 } }],
 * });
 * shopSheet({ plan, format: 'markdown' }).split('\n')[0]; // => '# knob \\<8\\>'
 * shopSheet({ plan, format: 'html' }).includes('<h1>knob &lt;8&gt;</h1>'); // => true
 * ```
 */
export function shopSheet(input: ShopSheetInput): string {
  options(input, 'input', ['plan', 'format'], ['method', 'figures']);
  const format = choice(input.format, 'format', ['markdown', 'html']);
  const figures = list(input.figures ?? [], 'figures').map(readFigure);
  const which = { plan: input.plan, ...(input.method !== undefined && { method: input.method }) };
  const { job, method } = chosen(which);
  const { unit, title } = job.job;
  const content: SheetContent = {
    title: title.trim() || 'Untitled part',
    facts: [
      ['Part', partText(job)],
      ['Method', METHODS[method.method]],
      ['Machine', method.machine],
      ['Unit', `lengths in ${unit}, angles in degrees`],
    ],
    steps: planSteps(which),
    expected: expected(method.expectations, job.coverage),
    cautions: planCautions(which),
    assumed:
      job.assumptions.length === 0
        ? 'All limits were stated by the job.'
        : `${job.assumptions.length} limits were assumed, not stated by the job: they are the plan's, and should be checked here.`,
    figures,
  };
  return format === 'html' ? sheetHtml(content) : sheetMarkdown(content);
}

function partText({ part, job }: ReturnType<typeof chosen>['job']): string {
  const { unit } = job;
  if (part.kind === 'sphere') {
    const { part: kind, ...sizes } = part.target;
    const words = Object.entries(sizes).map(([name, value]) => `${spaced(name)} ${plain(value)} ${unit}`);
    return `${kind.replaceAll('-', ' ')}: ${words.join(', ')}`;
  }
  const { side, largeDiameter, length, workLength, headstockEnd } = part;
  const { tan, halfAngleDeg } = readTaper(part.taper);
  const small = largeDiameter - 2 * length * tan;
  return `${side} taper 1 : ${plain(1 / (2 * tan))}, half angle ${plain(halfAngleDeg)}°, from ${plain(largeDiameter)} to ${plain(small)} ${unit} in diameter over ${plain(length)} ${unit} on work ${plain(workLength)} ${unit} long, ${headstockEnd} end to the headstock`;
}

function spaced(name: string): string {
  return name.replace(/[A-Z]/g, (letter) => ` ${letter.toLowerCase()}`);
}

function expected(expectations: readonly Expectation[], coverage: number): SheetContent['expected'] {
  return {
    columns: [
      'Quantity',
      'Tolerance',
      `First cut, ${plain(100 * coverage)} %`,
      `Corrected, ${plain(100 * coverage)} %`,
      'Ruled by',
    ],
    rows: expectations.map(({ quantity, tolerance, first, corrected, limitedBy }) => [
      QUANTITIES[quantity] ?? quantity,
      quantity === 'form' ? plain(tolerance) : `± ${plain(tolerance)}`,
      ...[first, corrected].map(({ low, high }) => `${told(low, tolerance / 10)} to ${told(high, tolerance / 10)}`),
      limitedBy.meaning,
    ]),
  };
}

/** A figure gets into the page as it is, so it must be one that this library drew. */
function readFigure(value: unknown, i: number): SheetFigure {
  const at = `figures[${i}]`;
  const given = options(value, at, ['title', 'svg']);
  const title = text(given['title'], `${at}.title`);
  const svg = text(given['svg'], `${at}.svg`, 1_000_000).trim();
  return isOwnFigure(svg)
    ? { title, svg }
    : refuse('unreadable', `${at}.svg`, svg, 'must be a figure of this library, unchanged');
}

/**
 * User text on one line of Markdown: everything that could mark up is escaped. Some readers make links of addresses
 * that stand in plain text, after escapes are gone: a word joiner (U+2060), which is not seen, keeps them apart.
 */
function escaped(value: string): string {
  return clean(value)
    .replace(/ +/g, ' ')
    .replace(/:(?=\/\/)|\bwww(?=\.)|@/gi, '$&\u2060')
    .replace(/[\\`*_{}[\]<>#+!|~&^$@]|[:.](?=[\p{L}\u2060])|^[-=]|(?<=^\d+)[.)]/gu, '\\$&');
}

function sheetMarkdown({ title, facts, steps, expected: table, cautions, assumed, figures }: SheetContent): string {
  const row = (cells: readonly string[]): string => `| ${cells.join(' | ')} |`;
  const stepLines = steps.flatMap((step, i) => {
    const positions = step.table
      ? [
          '',
          `   ${row(['No.', ...step.table.columns])}`,
          `   ${row(['---:', ...step.table.columns.map(() => '---:')])}`,
          ...tableCells(step.table).map((cells) => `   ${row(cells)}`),
          '',
        ]
      : [];
    return [`${i + 1}. **${KINDS[step.kind]}.** ${step.text}`, ...positions];
  });
  return [
    `# ${escaped(title)}`,
    '',
    ...facts.map(([name, value]) => `- **${name}:** ${escaped(value)}`),
    '',
    '## Cautions',
    '',
    ...cautions.map(({ message }) => `- ${message}`),
    '',
    '## Order of work',
    '',
    ...stepLines,
    '',
    '## Expected error',
    '',
    row(table.columns),
    row(table.columns.map(() => '---')),
    ...table.rows.map((cells) => row(cells.map(escaped))),
    '',
    assumed,
    '',
    ...(figures.length === 0 ? [] : ['## Drawings', '', ...figures.map((figure) => `- ${escaped(figure.title)}`), '']),
  ].join('\n');
}
