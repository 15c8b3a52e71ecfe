/** What a plan says: every method with its limits, its predicted error and its reasons, best first. */
import type { Budget } from '../budget/first-order.js';
import type { Note } from '../core/notes.js';
import type { Job } from './job.js';

/** A way to cut the part. */
export type Method =
  | 'top-slide'
  | 'guide-bar'
  | 'set-over'
  | 'ball-centres'
  | 'tilted-sweep'
  | 'swivel-tool'
  | 'steps'
  | 'ball-cutter';

/** One thing that a method must be able to do on a machine. */
export interface Limit {
  /** Stable code: `travel`, `angle`, `offset`, `tilt`, `shoulder`, `centres`, `sweep`, `equipment`, … */
  readonly code: string;
  /** One sentence, with its numbers. */
  readonly message: string;
  /** What the job needs; left out where it is not a number. */
  readonly needed?: number;
  /** What the machine has; left out where it is not a number. */
  readonly available?: number;
  /** Whether it is enough. */
  readonly met: boolean;
}

/** An expected error. */
export interface ExpectedError {
  /** Mean error. */
  readonly error: number;
  /** Lower end of the interval that holds the error with the job's coverage. */
  readonly low: number;
  /** Upper end of that interval. */
  readonly high: number;
  /** Probability that the error lies within the tolerance. */
  readonly probability: number;
}

/** The input that limits a result most. */
export interface RulingInput {
  /** Its name. */
  readonly input: string;
  /** What it is. */
  readonly meaning: string;
  /** Expanded uncertainty of the result. */
  readonly halfWidth: number;
  /** What would be left of that if this input were held twice as well. */
  readonly ifHalved: number;
}

/** What is expected of one toleranced quantity. */
export interface Expectation {
  /** `small-diameter`, `half-angle`, `radius`, `form`. */
  readonly quantity: string;
  /** Its tolerance, plus or minus (form: from 0). */
  readonly tolerance: number;
  /** Error of the first cut, before any correction. */
  readonly first: ExpectedError;
  /** The same after one correction from a measured trial cut. */
  readonly corrected: ExpectedError;
  /** Budget of the first cut. */
  readonly budget: Budget;
  /** What limits it most at the first cut. */
  readonly limitedBy: RulingInput;
  /** What limits it most after one correction; null where first order cannot tell. */
  readonly correctedLimitedBy: RulingInput | null;
}

/** One method on one machine. */
export interface MethodPlan {
  /** The method. */
  readonly method: Method;
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
  readonly limits: readonly Limit[];
  /** Settings on the machine's own scales, as the set-up's own settings function gives them; null if it cannot reach. */
  readonly settings: Readonly<Record<string, unknown>> | null;
  /** What is expected of each tolerance; empty if it cannot reach. */
  readonly expectations: readonly Expectation[];
  /** Why it stands where it stands, and what to know. */
  readonly reasons: readonly Note[];
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
  readonly method: Method;
  /** The machine. */
  readonly machine: string;
  /** What falls short. */
  readonly limits: readonly Limit[];
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
