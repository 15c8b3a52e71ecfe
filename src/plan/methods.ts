/** What a method module hands to the plan: limits, settings and expectations of one method on one machine. */
import { GeneratrixError } from '../core/errors.js';
import { inWords, type Note } from '../core/notes.js';
import type { Expected } from './expect.js';
import type { ReadJob } from './read-job.js';
import type { Expectation, Limit, Method } from './result.js';

/** One method on one machine, tried on a job. */
export interface Trial {
  readonly method: Method;
  readonly machine: string;
  /** 1 is the easiest set-up. */
  readonly ease: number;
  readonly limits: readonly Limit[];
  /** Settings, or null if a limit is not met. */
  readonly settings: Readonly<Record<string, unknown>> | null;
  readonly expectations: readonly Expectation[];
  /** Probability of meeting all tolerances at once; 0 if a limit is not met. */
  readonly chance: Expected['chance'];
  readonly notes: readonly Note[];
}

/** Tries a kind of method on every machine of a job. */
export type Methods = (job: ReadJob, trials: number) => readonly Trial[];

/** A limit told with its numbers; what was computed to fit exactly may be off by a few units in the last place. */
export function limit(code: string, message: string, needed: number, available: number): Limit {
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
export function range(
  code: string,
  what: string,
  reading: number,
  { from, to }: { readonly from?: number | undefined; readonly to?: number | undefined },
  unit: string,
): readonly Limit[] {
  const needs = `must read ${inWords(reading)}${unit}`;
  if (from !== undefined && reading < from - 1e-14 * Math.abs(reading)) {
    const message = `${what} starts at ${inWords(from)}${unit} and ${needs}`;
    return [{ code, message, needed: reading, available: from, met: false }];
  }
  return to === undefined ? [] : [limit(code, `${what} ends at ${inWords(to)}${unit} and ${needs}`, reading, to)];
}

/** Equipment that the machine does not have. */
export function missing(message: string): Limit {
  return { code: 'equipment', message, met: false };
}

/** What a trial starts from. */
export type Head = Pick<Trial, 'method' | 'machine' | 'ease'>;

/** A method that falls short. */
export function cannot(head: Head, limits: readonly Limit[]): Trial {
  return { ...head, limits, settings: null, expectations: [], chance: { first: 0, corrected: 0 }, notes: [] };
}

/** Settings and expectations if every limit is met; a set-up's own refusal becomes a limit that is not. */
export function attempt(
  head: Head,
  limits: readonly Limit[],
  set: () => {
    readonly settings: object & { readonly notes?: Trial['notes'] };
    readonly expectations: Expected;
  },
): Trial {
  if (!limits.every(({ met }) => met)) return cannot(head, limits);
  try {
    const { settings, expectations: found } = set();
    return {
      ...head,
      limits,
      settings: settings as unknown as Record<string, unknown>,
      ...found,
      notes: settings.notes ?? [],
    };
  } catch (error) {
    return cannot(head, [...limits, refused(error)]);
  }
}

/** A set-up's own refusal as a limit; any other error is not ours to hide. */
export function refused(error: unknown): Limit {
  if (!(error instanceof GeneratrixError)) throw error;
  return { code: 'set-up', message: error.message, met: false };
}
