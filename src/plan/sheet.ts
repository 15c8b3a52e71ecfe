/**
 * One page for the shop wall, from a plan: part, machine, settings, checks, order of work, expected error,
 * cautions. Markdown, or HTML that needs nothing else. Whatever text a user gave is escaped in both.
 */
import { refuse } from '../core/errors.js';
import { array, choice, type Fields, object, optional, read, text, vouched } from '../core/read.js';
import { type Note, say, tell } from '../core/words.js';
import { isOwnFigure } from '../draw/own.js';
import { isOneSided, type ToleranceOf } from '../method/expect.js';
import type { Step } from '../method/steps.js';
import { describeTaper } from '../offset/part.js';
import { describeSphere } from '../sphere/part.js';
import { cautionsOf } from './cautions.js';
import { escaped, row, stepLines } from './markdown.js';
import { type Chosen, chosen, PLANNED, type PlannedOptions } from './planned.js';
import type { Assumption } from './result.js';
import type { SheetContent, SheetFigure } from './sheet-content.js';
import { sheetHtml } from './sheet-html.js';
import { ASSUMED } from './words.js';

/** What {@link shopSheet} needs. */
export interface ShopSheetOptions extends PlannedOptions {
  /**
   * Drawings for the sheet, as SVG text from this library. Markdown only lists their titles.
   *
   * @defaultValue none
   */
  readonly figures?: readonly SheetFigure[];
  /** What to write. */
  readonly format: 'markdown' | 'html';
}

/** A figure gets into the page as it is, so it must be one that this library drew. */
const FIGURE = vouched(object<SheetFigure>({ title: text(), svg: text(1_000_000) }), ({ svg }) => {
  if (!isOwnFigure(svg.trim())) refuse('unreadable', 'svg', svg, 'must be a figure of this library, unchanged');
});

const OPTIONS: Fields<ShopSheetOptions> = {
  ...PLANNED,
  figures: optional(array(FIGURE, 0, 20)),
  format: choice('markdown', 'html'),
};

const QUANTITIES: Readonly<Record<ToleranceOf, string>> = {
  'small-diameter': 'Small diameter',
  'half-angle': 'Half angle, degrees',
  radius: 'Radius',
  form: 'Form',
  'pip-diameter': 'Pip',
  'stem-diameter': 'Stem diameter',
  'free-stem-diameter': 'Free stem diameter',
  'flat-diameter': 'Flat diameter',
  'base-diameter': 'Base diameter',
  'opening-diameter': 'Opening diameter',
};

/**
 * One page for the shop wall.
 *
 * @param options - The plan, the method, drawings, and the format.
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
export function shopSheet(options: ShopSheetOptions): string {
  const { format, figures = [], ...which } = read(options, OPTIONS);
  const of = chosen(which);
  const { ready, sheet, planned, simulated } = of;
  const { unit, part, coverage } = ready.work;
  const steps = sheet.work(planned) as SheetContent['steps'];
  const content: SheetContent = {
    title: ready.job.title.trim() || 'Untitled part',
    facts: [
      ['Part', part.kind === 'taper' ? describeTaper(part, unit) : describeSphere(part, unit)],
      ['Method', sheet.title],
      ['Machine', planned.machine.name],
      ['Unit', say`lengths in ${unit}, angles in degrees`],
    ],
    settings: [...steps.filter(({ kind }) => kind === 'set').map(inShort), ...notesOf(planned.settings)],
    steps,
    expected: expected(simulated, coverage),
    cautions: cautionsOf(of),
    assumed: ready.assumptions.map(assumption),
    figures: figures.map(({ title, svg }) => ({ title, svg: svg.trim() })),
  };
  return format === 'html' ? sheetHtml(content) : sheetMarkdown(content);
}

/** The first sentence of a step: what to set, to which reading. */
function inShort({ text }: Pick<Step, 'text'>): string {
  return text.split(/(?<=\.) /)[0] as string;
}

/** What the settings note beside their numbers. */
function notesOf(settings: { readonly notes?: readonly Note[] }): readonly string[] {
  return (settings.notes ?? []).map(({ message }) => message);
}

function assumption({ path, value, reason }: Assumption): string {
  return say`${path} ${tell(value)}: ${reason}`;
}

function expected(simulated: Chosen['simulated'], coverage: number): SheetContent['expected'] {
  const percent = tell(100 * coverage, { unit: '%' });
  return {
    columns: ['Quantity', 'Tolerance', say`First cut, ${percent}`, say`Corrected, ${percent}`, 'First cut ruled by'],
    rows: simulated.map(({ quantity, tolerance, first, corrected, ruledBy }) => {
      const told = (value: number): string => tell(value, { limit: tolerance / 10 });
      return [
        QUANTITIES[quantity],
        isOneSided(quantity) ? tell(tolerance) : say`± ${tell(tolerance)}`,
        ...[first, corrected].map(({ low, high }) => say`${told(low)} to ${told(high)}`),
        ruledBy,
      ];
    }),
  };
}

function sheetMarkdown(content: SheetContent): string {
  const { title, facts, settings, steps, expected: table, cautions, assumed, figures } = content;
  return [
    `# ${escaped(title)}`,
    '',
    ...facts.map(([name, value]) => `- **${name}:** ${escaped(value)}`),
    '',
    '## Settings',
    '',
    ...settings.map((one) => `- ${escaped(one)}`),
    '',
    '## Cautions',
    '',
    ...cautions.map(({ message }) => `- ${escaped(message)}`),
    '',
    '## Order of work',
    '',
    ...steps.flatMap(stepLines),
    '',
    '## Expected error',
    '',
    row(table.columns),
    row(table.columns.map(() => '---')),
    ...table.rows.map((cells) => row(cells.map(escaped))),
    '',
    ...(assumed.length === 0 ? [ASSUMED.none] : [ASSUMED.some, '', ...assumed.map((one) => `- ${escaped(one)}`)]),
    '',
    ...(figures.length === 0 ? [] : ['## Drawings', '', ...figures.map((figure) => `- ${escaped(figure.title)}`), '']),
  ].join('\n');
}
