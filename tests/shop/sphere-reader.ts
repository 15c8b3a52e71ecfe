/**
 * Reads the sentences of a sphere's sheet as somebody does who knows English and no program: orders with their control,
 * way and amount, all other numbers, what is too large or too small, what the needle does, what is touched. It is
 * compared with the step's actions both ways: nothing may be held that is not said, nothing said that is not held.
 */
import type { Action, Amount, WorkStep } from 'generatrix';
import { numbersIn, type Token } from './reader.js';

const UNIT = '(?:mm|in|°|minutes of arc)';
const N = `(\\d+(?:\\.\\d+)?) ${UNIT}`;

/** What a phrase orders: control and way, or control and what is done to it. */
type Phrase = readonly [pattern: string, ...orders: string[]];

/** Phrases; each may stand in a sentence more than once. */
const PHRASES: readonly Phrase[] = [
  ['move the table to the left', 'table left'],
  ['move the table to the right', 'table right'],
  ['raise the table', 'knee up'],
  ['lower the table', 'knee down'],
  ['feed along the spindle', 'quill forward'],
  [`feed ${N} further than to zero`, 'quill forward'],
  [`feed ${N} less far than to zero`, 'quill back'],
  [`while the quill goes ${N} down`, 'quill forward'],
  ['draw the tool back along the spindle', 'quill back'],
  ['turn the head clockwise', 'head clockwise'],
  ['turn the head anticlockwise', 'head anticlockwise'],
  ['upper end to the right: clockwise seen from the front', 'head clockwise'],
  ['upper end to the left: anticlockwise seen from the front', 'head anticlockwise'],
  ['open the sweep', 'boring-head open'],
  ['close the sweep', 'boring-head close'],
  ['coming up from below', 'boring-head below'],
  ["lengthen the swivel's radius", 'swivel-tool open'],
  ["shorten the swivel's radius", 'swivel-tool close'],
  ['move the carriage towards the headstock', 'carriage headstock'],
  ['move the carriage towards the tailstock', 'carriage tailstock'],
  ['past zero, towards the headstock', 'carriage headstock'],
  ['short of zero, towards the tailstock', 'carriage tailstock'],
  ['move the cross slide towards you', 'cross-slide operator'],
  ['move the cross slide away from you', 'cross-slide away-from-operator'],
  ['free end up', 'rotary-table up'],
  ['free end on the right seen from the front', 'rotary-table right'],
  ['nearest the free end, the highest of its circle', 'spindle up'],
  ['nearest the free end, the one farthest to the right on its circle', 'spindle right'],
  ['deepest in the work, the lowest of its circle', 'spindle down'],
  ['deepest in the work, the one farthest to the left on its circle', 'spindle left'],
  ['into line with the axis, on the side towards the tailstock', 'swivel-tool tailstock'],
  ['into line with the axis, on the side towards the headstock', 'swivel-tool headstock'],
  ['square to the axis, on your side', 'swivel-tool operator'],
  ['through 180° from your side of the cylinder to the far one', 'swivel-tool away-from-operator'],
  ['counted from the axis on the side of the tailstock', 'first-stop tailstock', 'last-stop tailstock'],
  ['counted from the axis on the side of the headstock', 'first-stop headstock', 'last-stop headstock'],
  ['under its left roller', 'gauge-blocks left'],
  ['under its right roller', 'gauge-blocks right'],
  ['short of the centre, to the right of it', 'pip right'],
  ['short of the centre, to the left of it', 'pip left'],
  ['short of the centre, above it', 'pip up'],
  ['short of the centre, below it', 'pip down'],
  ['added to each', 'shift from-axis'],
  ['taken from each', 'shift to-axis'],
  ['nearer to the axis than the table says', 'positions to-axis'],
  ['farther from the axis than the table says', 'positions from-axis'],
  ['each cut running towards the headstock', 'running headstock'],
  ['each cut running towards the tailstock', 'running tailstock'],
  ["lock the table's movement to left and right", 'table lock'],
  ["free the table's movement to left and right", 'table unlock'],
  ["lock the table's movement to and from you", 'saddle lock'],
  ["free the table's movement to and from you", 'saddle unlock'],
  ["lock the table's height", 'knee lock'],
  ["free the table's height", 'knee unlock'],
  ["lock the spindle's feed", 'quill lock'],
  ["free the spindle's feed", 'quill unlock'],
  ['(?<!spindle and )clamp the head', 'head lock'],
  ['loosen its clamps', 'head unlock'],
  ["tighten the boring head's slide", 'boring-head lock'],
  ["loosen the boring head's slide", 'boring-head unlock'],
  ['lock the carriage', 'carriage lock'],
  ['free the carriage', 'carriage unlock'],
  ['lock the cross slide', 'cross-slide lock'],
  ['free the cross slide', 'cross-slide unlock'],
  ['against a level block on the table, its plunger upright', 'against level-face'],
  ['against the upright side of a square that stands on its left, its plunger level', 'against square-on-left'],
  ['down along the top of the bar, its plunger square to it', 'against sine-bar'],
  ['down along the upright side of a square that stands on the bar, on its left', 'against square-on-sine-bar'],
  ['with a true cylinder in the spindle', 'against cylinder'],
  ['must be pushed in by', 'needle in'],
  ['must come out by', 'needle out'],
  ['must stand still|must read the same', 'needle still'],
];

/** What is said of something measured for which a change is told. */
const OFF: readonly Phrase[] = [
  [`for every ${N} that [a-z ]*(?:larger|wider|too large|moves more|pushed in)`, 'too-large'],
  [`for every ${N} that [a-z ]*(?:smaller|narrower|too small|moves less|comes out)`, 'too-small'],
];

/** The other way round, which must be told of the opposite. */
const OTHERWISE: readonly Phrase[] = [
  ['(?:larger|wider|too large|more): as much (?:the other way|farther from it)', 'too-small'],
  ['(?:smaller|narrower|too small|less): as much (?:the other way|farther from it)', 'too-large'],
  ['the other way: as much back', 'too-large', 'too-small'],
];

/** Where a cutter cuts, and so which way the first column of its table counts. */
const CUTS: readonly Phrase[] = [
  ['cut on the right of the work only, where the shank leans away from it', 'right'],
  ['cut above the work only, in the plane of its axis', 'up'],
  ['the cutter enters along the work axis', 'right', 'up'],
];

/** Things touched. */
const TOUCHED: readonly Phrase[] = [
  ['touch(?:es)? the end face', 'end-face'],
  ['touch(?:es)? the shoulder', 'shoulder'],
  ['touch(?:es)? the stem', 'free-stem'],
  ['touch(?:es)? a turned diameter', 'turned-diameter'],
];

const PATTERNS = new Map(
  [...PHRASES, ...OFF, ...OTHERWISE, ...CUTS, ...TOUCHED].map(([pattern]) => [
    pattern,
    // An amount behind it belongs to it.
    new RegExp(`(?<![a-z])(?:${pattern})(?![a-z])(?: by ${N})?`, 'gi'),
  ]),
);

/** All that phrases of a text say, each as often as it stands there, with its amount. */
function found(text: string, phrases: readonly Phrase[]): readonly { order: string; amount: string | undefined }[] {
  return phrases.flatMap(([pattern, ...orders]) =>
    [...text.matchAll(PATTERNS.get(pattern) as RegExp)].flatMap((match) =>
      orders.map((order) => ({ order, amount: match.slice(1).find((one) => one !== undefined) })),
    ),
  );
}

function said(text: string, phrases: readonly Phrase[]): readonly string[] {
  return found(text, phrases).map(({ order }) => order);
}

/** The same of actions. */
function heldBy(action: Action): readonly string[] {
  switch (action.do) {
    case 'lock':
    case 'unlock':
      return [`${action.what} ${action.do}`];
    case 'indicate':
      return [`${action.control} ${action.way}`, `against ${action.against}`, `needle ${action.sense}`];
    case 'measure':
    case 'provide':
      return action.way ? [`${action.what} ${action.way}`] : [];
    case 'follow':
      return [...(action.way ? [`shift ${action.way}`] : []), ...(action.towards ? [`running ${action.towards}`] : [])];
    case 'set':
      return [
        // Upright a head leans to no side.
        ...(action.way && !(action.control === 'head' && action.reading.value === 0)
          ? [`${action.control} ${action.way}`]
          : []),
        ...(action.from ? [`${action.control} ${action.from}`] : []),
      ];
    case 'correct':
      return [`${action.way.endsWith('-axis') ? 'positions' : action.control} ${action.way}`];
    default: {
      const { what, control = what, way } = action as { what?: string; control?: string; way?: string };
      return way ? [`${control} ${way}`] : [];
    }
  }
}

/** Numbers of a step's actions and of its table. */
interface Wanted {
  readonly name: string;
  readonly value: number;
  readonly unit: string;
  /** Half of the last digit that may be told, at most. */
  readonly half: number;
  /** Only a number that may stand there: it is told in words, or decides nothing but the digits. */
  readonly optional: boolean;
}

/** Amounts whose limit is there for the digits alone. */
const DIGITS_ONLY = /^(?:provide|follow|count|feed)|^set boring-head/;

function amountsOf({ actions, table }: WorkStep): readonly Wanted[] {
  const found: Wanted[] = [];
  const add = (name: string, { value, unit, limit = 0, step = 0 }: Amount, rough: boolean): void => {
    const size = Math.abs(value);
    const half = Math.max((rough ? 0.051 : 0.006) * size, 0.051 * limit, 0.51 * step);
    found.push({ name, value: size, unit, half, optional: value === 0 });
    const one = limit > 0 && !DIGITS_ONLY.test(name);
    if (limit > 0) found.push({ name: `${name} ±`, value: limit, unit, half: 0.051 * limit, optional: !one });
  };
  for (const action of actions) {
    const { control, what } = action as { control?: string; what?: string };
    for (const [key, value] of Object.entries(action))
      if (typeof value === 'object' && value !== null && 'unit' in value)
        add(`${action.do} ${control ?? what} ${key}`, value as Amount, action.do === 'correct');
  }
  if (table && table.limit > 0) {
    const unit = found.find((one) => one.unit !== '°')?.unit ?? '';
    found.push({ name: 'table ±', value: table.limit, unit, half: 0.051 * table.limit, optional: false });
  }
  return found;
}

function tells({ text, unit }: Token, wanted: Wanted): boolean {
  const digit = 10 ** -(text.split('.')[1]?.length ?? 0);
  const off = Math.abs(Number(text) - wanted.value);
  const plain = off <= 1e-9 * wanted.value;
  return unit === wanted.unit && (plain || (off <= 0.56 * digit && 0.5 * digit <= wanted.half));
}

/** Numbers that are no setting: a rule of arithmetic, a chance that is read by itself, an angle that belongs to the way of measuring. */
const OTHER = /\d+(\.\d+)? %|by 8 times|leaning 45°|The stock stated, \d+(\.\d+)? (mm|in)/g;

/** What is said and not held, held and not said, one entry each. */
function differences(what: string, texts: readonly string[], actions: readonly string[]): readonly string[] {
  const names = new Set([...texts, ...actions]);
  const count = (list: readonly string[], name: string): number => list.filter((one) => one === name).length;
  return [...names].flatMap((name) => {
    const [s, h] = [count(texts, name), count(actions, name)];
    return s === h ? [] : [`${what} ${name}: said ${s}, held ${h}`];
  });
}

/** What text and actions of a step of a sphere's sheet do not have in common. */
export function misread(step: WorkStep, sheet: readonly WorkStep[]): readonly string[] {
  const { text, actions } = step;
  const wrong: string[] = [];
  wrong.push(...differences('order', said(text, PHRASES), actions.flatMap(heldBy)));
  wrong.push(
    ...differences(
      'touch',
      said(text, TOUCHED),
      actions.flatMap((action) => (action.do === 'touch' ? [action.on] : [])),
    ),
  );
  const offs = (list: readonly string[]): readonly string[] => [...new Set(list)];
  const corrects = actions.filter((action) => action.do === 'correct');
  const aside = /stands (.*?) the pip's middle, (.*?) by/.exec(text);
  if (aside) {
    // The tip goes the other way than the table: over the pip's middle when the work comes to it.
    const side = { 'to the right of': 'right', 'to the left of': 'left', above: 'up', below: 'down' }[aside[1] ?? ''];
    if (!corrects.some(({ way }) => way === side)) wrong.push(`no correction for a tip ${aside[1]}`);
  } else {
    const held = offs(corrects.map(({ off }) => off));
    wrong.push(...differences('off', offs(said(text, OFF)), held));
    if (!held.every((off) => said(text, OTHERWISE).includes(off))) wrong.push('nothing said of the opposite');
    const turns = found(text, OTHERWISE).filter(({ order }) => held.includes(order));
    if (turns.length !== found(text, OFF).length) wrong.push('not every opposite is told');
  }

  const follow = sheet.flatMap(({ actions: all }) => all).find((action) => action.do === 'follow');
  if (step.code === 'tilt-cutter' && !said(text, CUTS).includes(follow?.ways[0] ?? '')) wrong.push('where it cuts');
  const { probability } = step.values;
  if (probability !== undefined && !chanceTold(text, probability)) wrong.push(`probability ${probability}`);

  const tokens = numbersIn(text.replace(OTHER, ''));
  const wanted = amountsOf(step);
  for (const one of wanted)
    if (!one.optional && !tokens.some((token) => tells(token, one))) wrong.push(`${one.name} ${one.value} ${one.unit}`);
  for (const token of tokens)
    if (!wanted.some((one) => tells(token, one))) wrong.push(`nothing holds ${token.text} ${token.unit}`);
  const names: readonly (readonly [readonly Phrase[], RegExp])[] = [
    [PHRASES, / (?:by|travel)$/],
    [OFF, / per$/],
  ];
  for (const [phrases, name] of names) {
    for (const { order, amount } of found(text, phrases)) {
      if (amount === undefined) continue;
      const ones = actions.filter((action) =>
        phrases === OFF ? action.do === 'correct' && action.off === order : heldBy(action).includes(order),
      );
      const amounts = ones
        .flatMap((action) => amountsOf({ ...step, actions: [action] }))
        .filter((one) => name.test(one.name));
      if (!amounts.some((one) => tells({ text: amount, unit: one.unit }, one))) wrong.push(`${order} by ${amount}`);
    }
  }
  return wrong;
}

/** Whether a chance is told to a tenth of a hundredth, no larger than it is. */
function chanceTold(text: string, probability: number): boolean {
  const [, bound, told] = /probability of (more than )?([\d.]+) %/.exec(text) ?? [];
  const percent = 100 * probability;
  if (bound === undefined) return Number(told) <= percent + 1e-9 && Number(told) >= percent - 0.1 - 1e-9;
  return told === '99.9' && percent > 99.9;
}
