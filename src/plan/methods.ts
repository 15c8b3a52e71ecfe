/** What a method module hands to the plan: limits, settings and expectations of one method on one machine. */
import type { Note } from '../core/notes.js';
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
