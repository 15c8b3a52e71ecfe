/** What a method must be able to do on a machine, as data with its numbers. */
import { say, tell } from '../core/words.js';

/** One thing that a method must be able to do on a machine. */
export interface Limit<Code extends string = string> {
  /** Stable code: `travel`, `angle`, `offset`, … */
  readonly code: Code;
  /** One sentence, with its numbers. */
  readonly message: string;
  /** What the job needs; left out where it is not a number. */
  readonly needed?: number;
  /** What the machine has; left out where it is not a number. */
  readonly available?: number;
  /** Whether it is enough. */
  readonly met: boolean;
}

/** A limit told with its numbers; what was computed to fit exactly may be off by a few units in the last place. */
export function limit<C extends string>(code: C, message: string, needed: number, available: number): Limit<C> {
  return {
    code,
    message,
    // A need beyond all numbers is told in words only.
    ...(Number.isFinite(needed) && { needed: needed + 0 }),
    ...(Number.isFinite(available) && { available: available + 0 }),
    met: needed - available <= 1e-14 * Math.abs(needed),
  };
}

/** The limits of a scale or dial: what it must read lies between its ends, as far as they are stated. */
export function range<C extends string>(
  code: C,
  what: string,
  reading: number,
  { from, to }: { readonly from?: number | undefined; readonly to?: number | undefined },
  unit: string,
): readonly Limit<C>[] {
  const told = (value: number): string => tell(value, { unit });
  const needs = say`must read ${told(reading)}`;
  if (from !== undefined && reading < from - 1e-14 * Math.abs(reading)) {
    const message = say`${what} starts at ${told(from)} and ${needs}`;
    return [{ code, message, needed: reading, available: from, met: false }];
  }
  return to === undefined ? [] : [limit(code, say`${what} ends at ${told(to)} and ${needs}`, reading, to)];
}
