/**
 * Reads the sentences of a sphere's sheet as somebody does who knows English and no program: orders with their control,
 * way and amount, all other numbers, what is too large or too small, what the needle does, what is touched. It is
 * compared with the step's actions both ways: nothing may be held that is not said, nothing said that is not held.
 */
import type { Action, Amount, WorkStep } from 'generatrix';
import { numbersIn, type Token } from './reader.js';
import { CUTS, found, OFF, OTHERWISE, PHRASES, type Phrase, said, TOUCHED } from './sphere-phrases.js';

/** What an action orders, in the words that phrases stand for. */
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

/** Whether the heads of a table say which way its second column counts, and whether the first holds diameters. */
function headed({ table, actions }: WorkStep, sheet: readonly WorkStep[]): boolean {
  const follow = actions.find((action) => action.do === 'follow');
  if (!table || !follow) return !table;
  const [across = '', along = ''] = table.columns;
  const held = sheet.flatMap((step) => step.actions).find(({ do: done }) => done === 'clamp');
  const up = held?.do === 'clamp' && held.way === 'up';
  const counted = /^Depth from the (?:free end|face)$/.test(along)
    ? 'headstock'
    : / towards the free end$/.test(along)
      ? (up && 'up') || 'right'
      : / towards the bottom$/.test(along) && ((up && 'down') || 'left');
  return (across === 'Diameter') === (follow.on === 'diameter') && follow.ways[1] === counted;
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
  if (!headed(step, sheet)) wrong.push(`columns ${step.table?.columns}`);
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
