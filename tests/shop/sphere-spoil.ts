/**
 * Sheets spoilt in one place at a time, and obeyed: each number, way and sense, each action left out or done before its
 * neighbour. A spoiling comes out if a person cannot go on, a measure does not pass where all is exact, or the part is
 * worse, in the exact shop or in one that is a little off.
 */
import type { Action, Amount, Way, WorkStep } from 'generatrix';
import { worst } from './part.js';
import { MEANT, Mishap, opposite } from './person.js';
import { type Kind, NO_SHOP_ERRORS, type ShopErrors, sheetOf } from './sphere-kinds.js';

/** One spoiling of a sheet. */
interface Spoiling {
  /** Code of the step, what its action does to what, how it was spoilt. */
  readonly name: string;
  readonly sheet: readonly WorkStep[];
}

type Loose = Readonly<Record<string, unknown>>;

function isAmount(value: unknown): value is Amount {
  return typeof value === 'object' && value !== null && 'unit' in value;
}

/** The same action with one thing in it changed. */
function changed(action: Action): readonly (readonly [how: string, action: Action])[] {
  const found: (readonly [string, Action])[] = [];
  const add = (how: string, more: Loose): void => {
    found.push([how, { ...action, ...more } as unknown as Action]);
  };
  for (const [key, value] of Object.entries(action as unknown as Loose)) {
    if (isAmount(value)) {
      // What is 0 is shifted, what is not is scaled.
      const other = value.value === 0 ? (value.unit === 'in' ? 0.02 : 0.5) : value.value * 1.1;
      add(`${key} changed`, { [key]: { ...value, value: other } });
    } else if (key === 'way') add('way reversed', { way: opposite(value as Way) });
    else if (key === 'sense') add('sense swapped', { sense: value === 'in' ? 'out' : 'in' });
    else if (key === 'off') add('off swapped', { off: value === 'too-large' ? 'too-small' : 'too-large' });
    else if (key === 'from' && value === 'below') add('from above', { from: 'above' });
    else if (key === 'ways' && Array.isArray(value)) {
      const [first, second] = value as [Way, Way];
      add('first way reversed', { ways: [opposite(first), second] });
      add('second way reversed', { ways: [first, opposite(second)] });
    }
  }
  return found;
}

/** Every spoiling of a sheet. */
function spoilings(sheet: readonly WorkStep[]): readonly Spoiling[] {
  const found: Spoiling[] = [];
  const put = (at: number, actions: readonly Action[], how: string): void => {
    found.push({
      name: how,
      sheet: sheet.map((step, i) => (i === at ? { ...step, actions } : step)),
    });
  };
  sheet.forEach(({ code, actions }, at) => {
    actions.forEach((action, i) => {
      const about = action as unknown as Loose;
      const what = about['control'] ?? about['what'] ?? '';
      const name = (how: string): string => `${code}: ${action.do} ${what}: ${how}`;
      for (const [how, other] of changed(action))
        put(at, [...actions.slice(0, i), other, ...actions.slice(i + 1)], name(how));
      put(at, [...actions.slice(0, i), ...actions.slice(i + 1)], name('left out'));
      const next = actions[i + 1];
      if (next) put(at, [...actions.slice(0, i), next, action, ...actions.slice(i + 2)], name('after its neighbour'));
    });
    const after = sheet[at + 1];
    if (after) {
      const swapped = [...sheet.slice(0, at), after, sheet[at] as WorkStep, ...sheet.slice(at + 2)];
      found.push({ name: `${code}: step after ${after.code}`, sheet: swapped });
    }
  });
  return found;
}

/** A shop that is a little off, the same way each time: what corrections are for. Lengths in millimetres. */
function offBy(size: number): ShopErrors {
  return {
    ...NO_SHOP_ERRORS,
    nearTiltDeg: () => 0.3,
    headTiltDeg: () => 0.4,
    sweepRadius: () => 0.04 * size,
    miss: () => 0.2 * size,
    swivelRadius: () => 0.08 * size,
    swivelOffset: () => 0.3 * size,
    touchOff: () => 0.2 * size,
  };
}

/** The spoilings that nobody notices and that give as good a part. */
export function survivors(kind: Kind): { readonly tried: number; readonly survived: readonly string[] } {
  const sheet = sheetOf(kind);
  const size = kind.job.unit === 'mm' ? 1 : 1 / 25.4;
  const shops = [NO_SHOP_ERRORS, offBy(size)];
  const outcome = (obeyed: readonly WorkStep[], errors: ShopErrors): number => {
    let noticed = false;
    const verdict = kind.cut(obeyed, errors, {
      tries: 2,
      number: MEANT,
      seen: (_what, value, must) => {
        if (Math.abs(value - must.value) > (must.limit ?? 0) + 1e-9) noticed = true;
      },
    });
    return noticed && errors === NO_SHOP_ERRORS ? Number.POSITIVE_INFINITY : worst(verdict);
  };
  const plain = shops.map((errors) => outcome(sheet, errors));
  const all = spoilings(sheet);
  const survived = all.filter((one) =>
    shops.every((errors, i) => {
      try {
        // Worse by more than a tenth of the least tolerance, 0.05 mm.
        return outcome(one.sheet, errors) <= (plain[i] as number) + 0.005 * size;
      } catch (error) {
        if (error instanceof Mishap) return false;
        throw error;
      }
    }),
  );
  return { tried: all.length, survived: survived.map(({ name }) => name) };
}
