/**
 * One page for the shop wall, from a plan: settings, part, machine, order of work with blanks for what is read and
 * each caution beside its step, expected error, what was assumed, general cautions. Markdown, or HTML that needs
 * nothing else. Whatever text a user gave is escaped in both.
 */
import { refuse } from '../core/errors.js';
import { array, choice, defaulted, type Fields, object, optional, read, text, vouched } from '../core/read.js';
import { type Note, say, tell } from '../core/words.js';
import { isOwnFigure } from '../draw/own.js';
import { isOneSided, type ToleranceOf } from '../method/expect.js';
import { isSource, SOURCES } from '../method/sources.js';
import { describeTaper } from '../offset/part.js';
import { describeSphere } from '../sphere/part.js';
import { cautionsOf } from './cautions.js';
import { escaped, row, stepLines } from './markdown.js';
import { type Chosen, chosen, PLANNED, type PlannedOptions } from './planned.js';
import type { Assumption } from './result.js';
import type { SheetContent, SheetFigure } from './sheet-content.js';
import { sheetHtml } from './sheet-html.js';
import { inShort, rule, sheetSteps } from './sheet-steps.js';
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
  /** Paper on which HTML is printed. @defaultValue `a4` */
  readonly paper?: 'a4' | 'letter';
}

/** A figure gets into the page as it is, so it must be one that this library drew. */
const FIGURE = vouched(object<SheetFigure>({ title: text(), svg: text(1_000_000) }), ({ svg }) => {
  if (!isOwnFigure(svg.trim())) refuse('unreadable', 'svg', svg, 'must be a figure of this library, unchanged');
});

const OPTIONS: Fields<ShopSheetOptions, 'paper'> = {
  ...PLANNED,
  figures: optional(array(FIGURE, 0, 20)),
  format: choice('markdown', 'html'),
  paper: defaulted(choice('a4', 'letter'), 'a4'),
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
  const { format, paper, figures = [], ...which } = read<ShopSheetOptions, 'paper'>(options, OPTIONS);
  const of = chosen(which);
  const { ready, sheet, planned, simulated } = of;
  const { unit, part, coverage } = ready.work;
  const work = sheet.work(planned);
  const { steps, general } = sheetSteps(work, cautionsOf(of));
  const content: SheetContent = {
    title: ready.job.title.trim() || 'Untitled part',
    facts: [
      ['Part', part.kind === 'taper' ? describeTaper(part, unit) : describeSphere(part, unit)],
      ['Method', say`${sheet.title}, on ${planned.machine.name}`],
      ['Units', say`${unit === 'mm' ? 'millimetres' : 'inches'}, degrees`],
    ],
    settings: [...work.flatMap(inShort), ...notesOf(planned.settings)],
    steps,
    expected: expected(simulated, coverage),
    cautions: general.map(({ message }) => message),
    assumed: assumedHere(of).map((one) => assumption(one, unit)),
    figures: figures.map(({ title, svg }) => ({ title, svg: svg.trim() })),
  };
  return format === 'html' ? sheetHtml(content, paper) : sheetMarkdown(content);
}

/** What the settings note beside their numbers. */
function notesOf(settings: { readonly notes?: readonly Note[] }): readonly string[] {
  return (settings.notes ?? []).map(({ message }) => message);
}

/** What was assumed that this method on this machine rests on. */
function assumedHere({ ready, method, planned }: Chosen): readonly Assumption[] {
  const at = ready.machines[method.on].findIndex(({ name }) => name === planned.machine.name);
  const own = `${method.on}[${at}].`;
  const keys = method
    .assumes(planned.machine, planned.work.part)
    .map(({ key, of }) => (of === undefined ? own + key : `${of}.${key}`));
  return ready.assumptions.filter(({ path }) => {
    const [group, name = ''] = path.split('.');
    const bySomething = planned.means !== null && name === method.setBy?.source;
    if (group === 'setting' && isSource(name)) return method.sources.includes(name) && !bySomething;
    return !/^(?:lathes|mills|part)\b/.test(path) || keys.includes(path);
  });
}

/** What is meant by values that are no limits of a source. */
const MEANT: Readonly<Record<string, string>> = {
  coverage: 'share of the parts that the intervals hold',
  'setting.resettingFraction': 'error of a change as a part of that of setting afresh',
  'shop.indicators[0].resolution': 'one division of an indicator',
  'shop.indicators[0].range': 'range of an indicator',
  'shop.estimatedParts': 'parts of a division told apart by eye',
  largestCentreTiltDeg: 'largest tilt on plain centres, degrees',
  centreHole: 'pivots of plain centres below the faces by',
  anglesAgreeWithinDeg: 'angles of centre and hole agree within, degrees',
};

/** A value with its meaning; the plan holds the reasons. */
function assumption({ path, value }: Assumption, unit: string): string {
  const [group, name = ''] = path.split('.');
  if (group === 'setting' && isSource(name)) {
    const { kind, meaning } = SOURCES[name];
    return say`${meaning} ± ${tell(value, { unit: kind === 'angleDeg' ? '°' : unit })}`;
  }
  if (group === 'measuring') return say`a ${name} as measured ± ${tell(value, { unit })}`;
  return say`${MEANT[path] ?? MEANT[path.split('.').at(-1) ?? ''] ?? path} ${tell(value)}`;
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
    '## Settings',
    '',
    ...settings.map((one) => `- ${escaped(one)}`),
    '',
    ...facts.map(([name, value]) => `- **${name}:** ${escaped(value)}`),
    '',
    '## Order of work',
    '',
    ...steps.flatMap((one, i) => [
      ...stepLines(one, i),
      ...one.blanks.map(
        ({ what, passes, otherwise }) => `   - ${escaped(what)}: \\_\\_\\_\\_\\_\\_${escaped(rule(passes, otherwise))}`,
      ),
      ...one.cautions.map((caution) => `   - **Caution.** ${escaped(caution)}`),
    ]),
    '',
    '## Expected error',
    '',
    row(table.columns),
    row(table.columns.map(() => '---')),
    ...table.rows.map((cells) => row(cells.map(escaped))),
    '',
    ...(assumed.length === 0 ? [ASSUMED.none] : [ASSUMED.some, '', ...assumed.map((one) => `- ${escaped(one)}`)]),
    '',
    '## Cautions',
    '',
    ...cautions.map((one) => `- ${escaped(one)}`),
    '',
    ...(figures.length === 0 ? [] : ['## Drawings', '', ...figures.map((figure) => `- ${escaped(figure.title)}`), '']),
  ].join('\n');
}
