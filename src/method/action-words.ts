/** Actions as parts of sentences: their numbers as they are told, their ways as the person at the machine sees them. */
import { plusMinus, say, tell } from '../core/words.js';
import type { Amount, Control, Secure, Way } from './actions.js';

/** A number of an action with its unit. */
export function told({ value, unit, limit = 0, step }: Amount): string {
  return tell(value, { unit, limit, step });
}

/** How well it must be held. */
export function held({ unit, limit = 0 }: Amount): string {
  return plusMinus(limit, unit);
}

/** The same where something else than its limit decides the digits: two that count. */
export function rate(value: number, unit: string): Amount {
  const size = Math.abs(value);
  if (!(size > 0)) return { value: 0, unit };
  const places = Math.max(0, 1 - Math.floor(Math.log10(size) + 1e-9));
  return { value: size, unit, step: Number(`1e-${places}`) };
}

/** The last place to which a needle is told: a fifth of its division. */
export function fifth(resolution: number): number {
  return Number((resolution / 5).toPrecision(2));
}

/** What a control does for a mill's sweep or a lathe's slide when it is moved one way. */
const MOVED: Partial<Record<Control, Partial<Record<Way, string>>>> = {
  table: { left: 'move the table to the left', right: 'move the table to the right' },
  knee: { up: 'raise the table', down: 'lower the table' },
  quill: { forward: 'feed along the spindle', back: 'draw the tool back along the spindle' },
  head: { clockwise: 'turn the head clockwise', anticlockwise: 'turn the head anticlockwise' },
  'boring-head': { open: 'open the sweep', close: 'close the sweep' },
  'swivel-tool': { open: "lengthen the swivel's radius", close: "shorten the swivel's radius" },
  carriage: {
    headstock: 'move the carriage towards the headstock',
    tailstock: 'move the carriage towards the tailstock',
  },
  'cross-slide': {
    operator: 'move the cross slide towards you',
    'away-from-operator': 'move the cross slide away from you',
  },
};

/** How a control is moved, as an order. */
export function moving({
  control = 'tool',
  way = 'forward',
}: {
  readonly control?: Control;
  readonly way?: Way;
}): string {
  return MOVED[control]?.[way] ?? say`move the ${control} ${way}`;
}

/** An amount; without a limit, or without a graduation, where none is given. */
export function amount(value: number, unit: string, limit?: number, step?: number): Amount {
  const result: { -readonly [K in keyof Amount]: Amount[K] } = { value: value + 0, unit };
  if (limit !== undefined) result.limit = limit;
  if (step !== undefined) result.step = step;
  return result;
}

/** A band for a reading: two digits, rounded down, so that no more is accepted than there is. */
export function band({ limit = 0, unit }: Amount): string {
  if (limit === 0) return plusMinus(0, unit);
  const step = 10 ** (Math.floor(Math.log10(limit)) - 1);
  return plusMinus(Math.floor(limit / step + 1e-9) * step, unit);
}

/** An amount in words, and how well it is held. */
export function toldHeld(given: Amount): string {
  return say`${told(given)}, ${plusMinus(given.limit ?? 0, given.unit)}`;
}

const WAYS: Readonly<Record<Way, string>> = {
  headstock: 'towards the headstock',
  tailstock: 'towards the tailstock',
  operator: 'towards the operator',
  'away-from-operator': 'away from the operator',
  left: 'to the left',
  right: 'to the right',
  up: 'up',
  down: 'down',
  clockwise: 'clockwise',
  anticlockwise: 'anticlockwise',
  'to-axis': 'towards the axis',
  'from-axis': 'away from the axis',
  forward: 'forward',
  back: 'back',
  open: 'open',
  close: 'closed',
  steeper: 'steeper',
  flatter: 'flatter',
};

/** A way in words. */
export function wayTold(way: Way): string {
  return WAYS[way];
}

const HELD: Partial<Record<Control, readonly [lock: string, unlock: string]>> = {
  table: ["lock the table's movement to left and right", "free the table's movement to left and right"],
  saddle: ["lock the table's movement to and from you", "free the table's movement to and from you"],
  knee: ["lock the table's height", "free the table's height"],
  quill: ["lock the spindle's feed", "free the spindle's feed"],
  head: ['clamp the head', 'hold the head and loosen its clamps'],
  'boring-head': ["tighten the boring head's slide", "loosen the boring head's slide"],
  carriage: ['lock the carriage', 'free the carriage'],
  'cross-slide': ['lock the cross slide', 'free the cross slide'],
};

/** How a control is locked or freed, as an order. */
export function locking({ do: how, what }: Secure): string {
  const words = HELD[what];
  return words ? words[how === 'unlock' ? 1 : 0] : say`${how} the ${what}`;
}
