/**
 * A person at a machine: reads the actions of a sheet in their order and does what they say, sees dials, needles and
 * instruments, knows nothing else. What machine it is the bench says.
 */
import type { Action, Amount, Control, Follow, Measure, StepTable, Way, WorkStep } from 'generatrix';

type Do<D extends Action['do']> = Extract<Action, { readonly do: D }>;

/** A machine as a person meets it. What cannot be done is thrown as an {@link Mishap}. */
export interface Bench {
  readonly secure: (
    action: Do<'hold' | 'clamp' | 'unclamp' | 'lock' | 'unlock' | 'take-out' | 'put-back' | 'ease'>,
  ) => void;
  readonly provide: (action: Do<'provide'>) => void;
  readonly turn: (action: Do<'turn'>) => void;
  readonly zero: (action: Do<'zero'>) => void;
  readonly set: (action: Do<'set'>) => void;
  readonly move: (action: Do<'move'>) => void;
  readonly withdraw: (action: Do<'withdraw'>) => void;
  readonly clear: (action: Do<'clear'>) => void;
  readonly feed: (action: Do<'feed'>) => void;
  readonly follow: (action: Follow, table: StepTable) => void;
  readonly touch: (action: Do<'touch'>) => void;
  /** What the needle goes in while the control travels; out is negative. */
  readonly needle: (action: Do<'indicate'>) => number;
  readonly measure: (action: Measure) => number;
  /** Sets a control anew by so much, after measuring. */
  readonly change: (control: Control, by: Amount, way: Way) => void;
}

/** Something that no careful person lets happen: the tool digs in, a locked slide is forced, a place is not found. */
export class Mishap extends Error {}

const OPPOSITE: Readonly<Record<Way, Way>> = Object.fromEntries(
  [
    ['headstock', 'tailstock'],
    ['operator', 'away-from-operator'],
    ['left', 'right'],
    ['up', 'down'],
    ['clockwise', 'anticlockwise'],
    ['to-axis', 'from-axis'],
    ['forward', 'back'],
    ['open', 'close'],
    ['steeper', 'flatter'],
  ].flatMap(([a, b]) => [
    [a, b],
    [b, a],
  ]),
) as Record<Way, Way>;

/** The other way. */
export function opposite(way: Way): Way {
  return OPPOSITE[way];
}

/** How the sheet is obeyed. */
export interface Manner {
  /** How many times the part may be tried: one more than it may be corrected. */
  readonly tries: number;
  /** The number that a person takes from an amount: as it is printed, or as it is meant. */
  readonly number: (amount: Amount, step: WorkStep) => number;
  /** Told of everything that is measured, and of what it must be. */
  readonly seen?: (what: string, value: number, must: Amount) => void;
}

/** Numbers as they are meant, no digit lost. */
export const MEANT: Manner['number'] = ({ value }) => value;

/** Obeys a sheet. */
export function obey(sheet: readonly WorkStep[], bench: Bench, { tries, number, seen }: Manner): void {
  /** What was found: too large by so much, and whether it passes. */
  const found = new Map<string, { readonly off: number; readonly passes: boolean }>();
  const sizes = new Map<string, number>();
  let [tried, corrected, here] = [1, false, false];

  const run = (from: number, to: number): void => {
    for (let at = from; at <= to; at++) {
      const step = sheet[at] as WorkStep;
      here = false;
      if (idle(step)) continue;
      for (const action of step.actions) perform(action, step, at);
    }
  };

  /** Whether all passes that a step would mend, or nothing more may be mended. */
  function idle({ kind, actions }: WorkStep): boolean {
    const mends = actions.filter((action) => action.do === 'correct');
    if (kind !== 'correct' || mends.length === 0) return false;
    return tried >= tries || mends.every(({ measured }) => found.get(measured)?.passes);
  }

  function judge(what: string, value: number, must: Amount, step: WorkStep): void {
    seen?.(what, value, must);
    const off = value - number(must, step);
    // What is read off a graduation or reckoned is no finer than this.
    const passes = Math.abs(off) <= (must.limit ?? 0) * (1 + 1e-9) + 1e-12;
    found.set(what, { off, passes });
  }

  function perform(action: Action, step: WorkStep, at: number): void {
    const read = (amount: Amount): Amount => ({ ...amount, value: number(amount, step) });
    switch (action.do) {
      case 'provide':
        bench.provide({ ...action, size: read(action.size), ...(action.at && { at: read(action.at) }) });
        break;
      case 'turn':
        bench.turn(action);
        break;
      case 'zero':
        bench.zero({ ...action, ...(action.reads && { reads: read(action.reads) }) });
        break;
      case 'set':
        bench.set({ ...action, reading: read(action.reading) });
        break;
      case 'move':
        bench.move({ ...action, by: read(action.by) });
        break;
      case 'withdraw':
        bench.withdraw(action);
        break;
      case 'clear':
        bench.clear(action);
        break;
      case 'feed': {
        const { from, each, to, until, ...rest } = action;
        bench.feed({
          ...rest,
          ...(from && { from: read(from) }),
          ...(each && { each: read(each) }),
          ...(to && { to: read(to) }),
          ...(until && { until: read(until) }),
        });
        break;
      }
      case 'follow': {
        const table = sheet.find(({ code }) => code === action.table)?.table;
        if (!table) throw new Mishap(`no table ${action.table}`);
        bench.follow({ ...action, ...(action.shift && { shift: read(action.shift) }) }, table);
        break;
      }
      case 'touch':
        bench.touch(action);
        break;
      case 'indicate': {
        const went = bench.needle({ ...action, travel: read(action.travel) });
        judge('needle', action.sense === 'out' ? -went : went, action.needle, step);
        break;
      }
      case 'measure': {
        const value = bench.measure(action);
        sizes.set(action.what, value);
        judge(action.what, value, action.must, step);
        break;
      }
      case 'reckon': {
        if (action.rule === 'across-less-aslant') {
          judge(action.what, (sizes.get('diameter') ?? 0) - (sizes.get('aslant') ?? 0), action.must, step);
          break;
        }
        const [chord, height] = [sizes.get('base') ?? sizes.get('opening'), sizes.get('height') ?? sizes.get('depth')];
        if (chord === undefined || height === undefined) throw new Mishap('nothing to reckon from');
        judge(action.what, (chord * chord) / (8 * height) + height / 2, action.must, step);
        break;
      }
      case 'correct': {
        const measured = found.get(action.measured);
        if (!measured) throw new Mishap(`${action.measured} was not measured`);
        if (measured.passes) return;
        const times = (action.off === 'too-large' ? measured.off : -measured.off) / number(action.per, step);
        const way = times < 0 ? opposite(action.way) : action.way;
        if (step.kind === 'correct') [corrected, here] = [true, true];
        bench.change(action.control, { ...action.by, value: Math.abs(times) * number(action.by, step) }, way);
        return;
      }
      case 'repeat': {
        const [from, to] = [action.from, action.to].map((code) => sheet.findIndex((one) => one.code === code));
        if (from === undefined || to === undefined || from < 0 || to < from) throw new Mishap('nothing to repeat');
        if (to < at) {
          if (here) run(from, to);
        } else if (corrected && tried < tries) {
          // The trial again, with what follows it.
          tried++;
          corrected = false;
          run(from, at);
        }
        break;
      }
      case 'mark':
      case 'lay':
      case 'stop':
      case 'count':
      case 'blue':
        throw new Mishap(`nobody does ${action.do} here`);
      default:
        bench.secure(action);
        break;
    }
  }

  run(0, sheet.length - 1);
}

/** A number as the sentences of its step print it: what is not printed cannot be obeyed. */
export function printed(amount: Amount, step: WorkStep): number {
  const { value } = amount;
  if (value === 0) return 0;
  let best = Number.NaN;
  for (const [token] of step.text.matchAll(/\d+(?:\.\d+)?/g)) {
    const digit = 10 ** -(token.split('.')[1]?.length ?? 0);
    const off = Math.abs(Number(token) - value);
    if (off <= digit * 0.5000001 && !(off >= Math.abs(best - value))) best = Number(token);
  }
  if (Number.isNaN(best)) throw new Mishap(`${value} ${amount.unit} is not in: ${step.text}`);
  return best;
}
