/** What a method module hands to the plan: limits, settings and expectations of one method on one machine. */
import { GeneratrixError } from '../core/errors.js';
import type { Note } from '../core/notes.js';
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

/** A limit told with its numbers. */
export function limit(code: string, message: string, needed: number, available: number): Limit {
  return { code, message, needed, available, met: needed <= available };
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

/** A number in a sentence: six digits are plenty there. */
export function show(value: number): string {
  return String(Number(value.toPrecision(6)));
}
