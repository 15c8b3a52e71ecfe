/** What a plan says: every method with its limits, its predicted error and its reasons, best first. */
import type { Note } from '../core/words.js';
import type { Expectation } from '../method/expect.js';
import type { Limit } from '../method/limits.js';
import type { Means } from '../method/means.js';
import type { MethodTypes } from '../method/method.js';
import type { Job } from './job.js';
import type { AnyMethod, MethodName } from './methods.js';

/** What a limit of a plan is about: `equipment` that is not there, the set-up's own refusal, or what the methods name. */
export type LimitCode = AnyMethod['limit'] | 'equipment' | 'set-up';

/** Code of a plan's reasons: a tolerance met or missed, a limit not met, or a note of the settings. */
export type ReasonCode = 'meets-tolerance' | 'misses-tolerance' | `limit-${LimitCode}` | SettingsNoteCode;

type SettingsNoteCode = AnyMethod['settings'] extends infer S
  ? S extends { readonly notes: readonly Note<infer C>[] }
    ? C
    : never
  : never;

/** One method on one machine; narrows on `method`. */
export type MethodPlan = AnyMethod extends infer T ? (T extends MethodTypes ? MethodPlanOf<T> : never) : never;

/** A method of known types on one machine. */
export interface MethodPlanOf<T extends MethodTypes> {
  /** The method. */
  readonly method: T['name'];
  /** Name of the machine. */
  readonly machine: string;
  /** Whether every limit is met. */
  readonly reaches: boolean;
  /** Whether every tolerance is met after `tries`, with a probability of the coverage asked for. */
  readonly meets: boolean;
  /** Probability that the part meets every tolerance at once after `tries`; 0 if it cannot reach. */
  readonly probability: number;
  /** Trial cuts, the finished one included, that the plan promises to need. */
  readonly tries: number;
  /** Ease: 1 is the easiest set-up. */
  readonly ease: number;
  /** What the method must be able to do here. */
  readonly limits: readonly Limit<T['limit'] | 'equipment' | 'set-up'>[];
  /** Settings on the machine's own scales, as the set-up's own settings function gives them; null if it cannot reach. */
  readonly settings: T['settings'] | null;
  /** By what its own setting is made, with its limit; null where nothing is chosen, or if it cannot reach. */
  readonly means: Means | null;
  /** What is expected of each tolerance; empty if it cannot reach. */
  readonly expectations: readonly Expectation[];
  /** Why it stands where it stands, and what to know. */
  readonly reasons: readonly Note<ReasonCode>[];
}

/** A value that the job left out and the plan assumed. */
export interface Assumption {
  /** Path in the job. */
  readonly path: string;
  /** The value assumed. */
  readonly value: number;
  /** Why this value. */
  readonly reason: string;
}

/** A change that would make a method reach. */
export interface NeededChange {
  /** The method that it would make possible. */
  readonly method: MethodName;
  /** The machine. */
  readonly machine: string;
  /** What falls short. */
  readonly limits: readonly Limit<LimitCode>[];
  /**
   * By how much at worst: what is needed less what there is, as a fraction of the larger of the two. Null where that is
   * no number (no such equipment); such changes come last.
   */
  readonly shortBy: number | null;
}

/** The answer to a job. */
export interface Plan {
  /** The job, as read. */
  readonly job: Job;
  /** What was assumed. */
  readonly assumptions: readonly Assumption[];
  /** Every method on every machine, best first: those that meet the tolerance by ease, then those that reach, surest first. */
  readonly methods: readonly MethodPlan[];
  /** Position in `methods` of the one to use; null if none reaches. */
  readonly best: number | null;
  /** If none reaches: what would have to change, smallest first. */
  readonly changes: readonly NeededChange[];
}
