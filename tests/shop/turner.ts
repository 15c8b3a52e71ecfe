/**
 * The person at the lathe: reads the actions of a sheet in their order and does what they say, sees dials, needles and
 * instruments, knows nothing else.
 */
import type { Action, Amount, Blue, Control, Feed, Indicate, Measure, Way, WorkStep } from 'generatrix';
import { opposite } from './person.js';

/** What no careful person lets happen: something is forced, loose, not held, not found, or not to be understood. */
export class Mishap extends Error {}

/** A lathe as a person meets it. */
export interface Lathe {
  readonly secure: (action: Extract<Action, { what: Control }>) => void;
  readonly mark: (action: Extract<Action, { do: 'mark' }>, at: number) => void;
  readonly stop: (action: Extract<Action, { do: 'stop' }>) => void;
  readonly lay: (action: Extract<Action, { do: 'lay' }>) => void;
  readonly touch: (action: Extract<Action, { do: 'touch' }>) => void;
  /** Notes a control's place as its zero. */
  readonly zero: (control: Control) => void;
  readonly set: (control: Control, reading: number, way: Way | undefined) => void;
  readonly move: (control: Control, by: number, way: Way) => void;
  /** Feeds to a diameter; again: just until the cut has cleaned all over. */
  readonly feed: (action: Feed, read: (amount: Amount) => number, again: boolean) => void;
  /** What the needle goes in while the control travels; out is negative. */
  readonly needle: (action: Indicate, travel: number) => number;
  /** Moves what is adjusted a little, by eye. */
  readonly nudge: (control: Control, by: number) => void;
  readonly measure: (action: Measure, sizes: readonly number[]) => number;
  /** At which end a film of blue marks; null where all over. */
  readonly blue: (action: Blue) => 'large' | 'small' | null;
  readonly change: (control: Control, by: number, unit: string, way: Way) => void;
}

/** How a sheet is obeyed. */
export interface Manner {
  /** Trial cuts at most. */
  readonly tries: number;
  /** The number that a person takes from an amount. */
  readonly number: (amount: Amount) => number;
  /** Corrects even what passes: shows how well a correction is told. */
  readonly strict?: boolean;
  /** Goes on to this part of what would pass, wherever something is adjusted or made ready. */
  readonly zeal?: number;
}

/** A number as it is meant. */
export const meant = ({ value }: Amount): number => value;

/** A number in the digits that its limit or its graduation leaves. */
export function printed({ value, unit, limit = 0, step }: Amount): number {
  const decimals = /^\d+(?:\.(\d+))?$/.exec(String(step));
  if (decimals) return Number(value.toFixed((decimals[1] ?? '').length));
  if (limit > 0) return Number(value.toFixed(Math.max(0, 1 - Math.floor(Math.log10(limit) + 1e-9))));
  const finest: Readonly<Record<string, number>> = { mm: 3, in: 4, '°': 4 };
  const told = Number(value.toPrecision(6));
  const places = finest[unit];
  return places !== undefined && Math.abs(told) >= 10 ** (2 - places) ? Number(told.toFixed(places)) : told;
}

/** Obeys a sheet; how many trials it took, and whether everything passed in the end. */
export function obey(
  sheet: readonly WorkStep[],
  lathe: Lathe,
  { tries, number, strict, zeal = 1 }: Manner,
): { tries: number; passed: boolean } {
  const found = new Map<
    string,
    { readonly off: number; readonly passes: boolean; readonly limit?: number | undefined }
  >();
  let [tried, corrected, passed, here, again] = [1, false, true, false, 0];

  const run = (from: number, to: number): void => {
    for (let at = from; at <= to; at++) {
      const step = sheet[at] as WorkStep;
      const mends = step.actions.filter((action) => action.do === 'correct');
      if (step.kind === 'correct' && mends.length > 0) {
        if (tried >= tries || mends.every(({ measured }) => found.get(measured)?.passes && !strict)) continue;
        corrected = true;
      }
      here = false;
      for (const action of step.actions) perform(action, step, at);
    }
  };

  function see(what: string, off: number, limit: number | undefined): boolean {
    const passes = limit === undefined || limit === 0 || Math.abs(off) <= limit * (1 + 1e-9) + 1e-12;
    found.set(what, { off, passes });
    return passes;
  }

  /** Moves what is adjusted until the needle shows what it must: by trying. */
  function adjusted(action: Indicate, must: number, travel: number): void {
    const { adjust } = action;
    const off = (): number => lathe.needle(action, travel) - must;
    let [last, step] = [off(), 1e-3];
    if (Math.abs(last) <= (action.needle.limit ?? 0) * zeal * (1 + 1e-9) + 1e-12) return;
    if (!adjust) throw new Mishap('the needle does not show what it must, and nothing is said for that');
    for (let turn = 0; turn < 40; turn++) {
      lathe.nudge(adjust, step);
      const now = off();
      if (Math.abs(now) < 1e-13) return;
      const slope = (now - last) / step;
      if (!(Math.abs(slope) > 1e-9)) throw new Mishap('the needle does not answer');
      last = now;
      step = -now / slope;
    }
    if (Math.abs(last) > 1e-9) throw new Mishap('the needle cannot be brought there');
  }

  function perform(action: Action, step: WorkStep, at: number): void {
    switch (action.do) {
      case 'mark':
        lathe.mark(action, number(action.at));
        return;
      case 'stop':
        lathe.stop(action);
        return;
      case 'lay':
        lathe.lay(action);
        return;
      case 'touch':
        lathe.touch(action);
        return;
      case 'zero':
        lathe.zero(action.control);
        return;
      case 'set':
        lathe.set(action.control, number(action.reading), action.way);
        return;
      case 'move':
        lathe.move(action.control, number(action.by), action.way);
        return;
      case 'feed':
        lathe.feed(action, number, step.code === 'rough' && tried > 1);
        return;
      case 'indicate': {
        const must = { in: 1, out: -1, still: 0 }[action.sense] * number(action.needle);
        adjusted(action, must, number(action.travel));
        return;
      }
      case 'measure': {
        const off = lathe.measure(action, (action.sizes ?? []).map(number)) - number(action.must);
        const mended = sheet.some(({ actions }) =>
          actions.some((one) => (one.do === 'correct' || one.do === 'count') && one.measured === action.what),
        );
        const { limit } = action.must;
        const passes = see(action.what, off, limit && mended && step.kind === 'prepare' ? limit * zeal : limit);
        if (step.kind === 'finish') passed = passed && passes;
        // What is wrong here must be mended by what follows; if nothing does, a person stops.
        if (!passes && !mended && step.kind !== 'finish') throw new Mishap(`${action.what} does not pass`);
        return;
      }
      case 'count': {
        const measured = found.get(action.measured);
        if (!measured) throw new Mishap(`${action.measured} was not measured`);
        const times = (action.off === 'too-large' ? measured.off : -measured.off) / number(action.per);
        found.set(action.as, {
          off: (action.is === 'too-large' ? times : -times) * number(action.by),
          passes: measured.passes,
        });
        return;
      }
      case 'blue': {
        const marks = lathe.blue(action);
        const says = marks === 'large' ? action.atLargeEnd : action.atSmallEnd;
        const agrees = (): boolean => {
          const off = found.get('difference');
          return !marks || !off || off.passes || (says === 'steep') === off.off > 0;
        };
        // Where they contradict each other the measurement is made again, for it may be off.
        for (let turn = 0; turn < 20 && !agrees(); turn++) run(at - 1, at - 1);
        if (!agrees()) throw new Mishap('blue and measurement contradict each other');
        return;
      }
      case 'correct': {
        const measured = found.get(action.measured);
        if (!measured) throw new Mishap(`${action.measured} was not measured`);
        if (measured.passes && !strict) return;
        const times = (action.off === 'too-large' ? measured.off : -measured.off) / number(action.per);
        const way = times < 0 ? opposite(action.way) : action.way;
        here = true;
        lathe.change(action.control, Math.abs(times) * number(action.by), action.by.unit, way);
        return;
      }
      case 'repeat': {
        const from = sheet.findIndex(({ code }) => code === action.from);
        if (from < 0) throw new Mishap('nothing to repeat');
        if (action.from === step.code) {
          if (here && again++ < 9) run(from, at);
          return;
        }
        if (!corrected || tried >= tries) return;
        tried++;
        corrected = false;
        run(from, at);
        return;
      }
      default:
        if (!('what' in action) || action.do === 'provide' || action.do === 'reckon')
          throw new Mishap(`nothing known of ${action.do}`);
        lathe.secure(action);
        return;
    }
  }

  run(0, sheet.length - 1);
  return { tries: tried, passed };
}
