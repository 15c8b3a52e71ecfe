/** Sheets spoiled one word or number at a time: what a printer's devil might do. */
import type { Action, WorkStep } from 'generatrix';
import { opposite } from './person.js';

/** A sheet with one thing wrong. */
export interface Spoiled {
  /** Step, action and what was done to it: `set-over/set/reading x 1.05`. */
  readonly what: string;
  readonly sheet: readonly WorkStep[];
}

type Bag = Record<string, unknown>;

const SWAPPED: Readonly<Record<string, string>> = {
  in: 'out',
  out: 'in',
  still: 'in',
  'too-small': 'too-large',
  'too-large': 'too-small',
  steep: 'flat',
  flat: 'steep',
  'large-end': 'small-end',
  'small-end': 'large-end',
  'lower-mark': 'upper-mark',
  'upper-mark': 'lower-mark',
  'headstock-face': 'tailstock-face',
};
const WAYS = ['way', 'deeper', 'side'];
const WORDS = ['sense', 'off', 'is', 'atLargeEnd', 'atSmallEnd', 'at', 'less', 'from', 'what', 'on'];

/** Every sheet with one number, direction, sense, place, order or action changed. */
export function spoiled(sheet: readonly WorkStep[]): readonly Spoiled[] {
  const result: Spoiled[] = [];
  const flat = sheet.flatMap((step, s) => step.actions.map((action, a) => ({ step, s, a, action })));
  const withActions = (s: number, change: (actions: Bag[]) => void): readonly WorkStep[] =>
    sheet.map((step, i) => {
      if (i !== s) return step;
      const actions = structuredClone(step.actions) as unknown as Bag[];
      change(actions);
      return { ...step, actions: actions as unknown as readonly Action[] };
    });
  const add = (what: string, changed: readonly WorkStep[]): void => void result.push({ what, sheet: changed });
  flat.forEach(({ step, s, a, action }, n) => {
    const name = `${step.code}/${action.do}${'what' in action ? `-${action.what}` : 'control' in action ? `-${action.control}` : ''}`;
    for (const [key, value] of Object.entries(action) as [string, unknown][]) {
      const put = (changed: unknown): readonly WorkStep[] =>
        withActions(s, (actions) => void Object.assign(actions[a] as Bag, { [key]: changed }));
      if (typeof value === 'object' && value !== null && 'value' in value && typeof value.value === 'number') {
        const factor = action.do === 'correct' || action.do === 'count' ? 2 : 1.05;
        add(`${name}/${key} x ${factor}`, put({ ...value, value: value.value === 0 ? 0.7 : value.value * factor }));
      } else if (typeof value === 'string' && WAYS.includes(key)) {
        add(`${name}/${key} reversed`, put(opposite(value as Parameters<typeof opposite>[0])));
      } else if (typeof value === 'string' && WORDS.includes(key) && SWAPPED[value]) {
        add(`${name}/${key} swapped`, put(SWAPPED[value]));
      } else if (Array.isArray(value)) {
        value.forEach((one: { value: number }, i) => {
          add(
            `${name}/${key}.${i} x 1.05`,
            put(value.map((old, j) => (j === i ? { ...one, value: one.value * 1.05 } : old))),
          );
        });
      }
    }
    add(
      `${name} dropped`,
      withActions(s, (actions) => void actions.splice(a, 1)),
    );
    const next = flat[n + 1];
    if (!next) return;
    const swapped =
      next.s === s
        ? withActions(s, (actions) => void actions.splice(a, 2, actions[a + 1] as Bag, actions[a] as Bag))
        : sheet.map((one, i) =>
            i === s
              ? { ...one, actions: [...one.actions.slice(0, -1), next.action] }
              : i === next.s
                ? { ...one, actions: [action, ...one.actions.slice(1)] }
                : one,
          );
    add(`${name} after ${next.action.do}`, swapped);
  });
  return result;
}
