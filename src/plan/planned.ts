/**
 * A method of a plan as its sheet needs it. A plan may come from a file: what follows from its job is worked out
 * again, and only what was simulated is taken from it, after a check.
 */
import { refuse } from '../core/errors.js';
import {
  array,
  below,
  choice,
  type Fields,
  flag,
  number,
  object,
  optional,
  type Reader,
  read,
  readValue,
  text,
  whole,
} from '../core/read.js';
import type { Expectation, ExpectedError, ToleranceOf } from '../method/expect.js';
import type { Machines, Method, MethodSheet, MethodTypes, Planned } from '../method/method.js';
import { chosenMeans } from '../method/set-by.js';
import { METHODS, type MethodName } from './methods.js';
import { job, type PreparedJob, prepared } from './read-job.js';
import type { Plan } from './result.js';
import { sheetOf } from './sheets.js';
import { QUANTITIES } from './words.js';

/** Which method of a plan is meant. */
export interface PlannedOptions {
  /** A plan as `planJob` gives it. */
  readonly plan: Plan;
  /** A position in the plan's `methods`. @defaultValue the best one */
  readonly method?: number;
}

/** An object that is looked at key by key. */
export function anyObject<T>(): Reader<T> {
  const allowed = { kind: 'object', phrase: 'must be an object' } as const;
  return {
    allowed,
    read: (value, { faults }) => {
      if (typeof value === 'object' && value !== null && !Array.isArray(value)) return value as T;
      faults.push({ code: 'wrong-kind', path: '', value, allowed });
      return undefined as T;
    },
  };
}

/** Fields of {@link PlannedOptions}, for the functions that take more than these. */
export const PLANNED: Fields<PlannedOptions> = { plan: anyObject<Plan>(), method: optional(whole({ min: 0 })) };

const ERROR: Fields<ExpectedError> = {
  error: number(),
  low: number(),
  high: number(),
  probability: number({ min: 0, max: 1 }),
};

/** What was simulated of a tolerance. */
type Simulated = Pick<Expectation, 'quantity' | 'tolerance' | 'first' | 'corrected'> & { readonly ruledBy: string };

const SIMULATED: Fields<Simulated> = {
  quantity: choice(...(Object.keys(QUANTITIES) as ToleranceOf[])),
  tolerance: number({ above: 0 }),
  first: object(ERROR),
  corrected: object(ERROR),
  ruledBy: text(),
};

interface Outcome {
  readonly method: MethodName;
  readonly machine: string;
  readonly tries: number;
  readonly probability: number;
  readonly meets: boolean;
}

const OUTCOME: Fields<Outcome> = {
  method: choice(...METHODS.map(({ name }) => name)) as Reader<MethodName>,
  machine: text(),
  tries: whole({ min: 1, max: 2 }),
  probability: number({ min: 0, max: 1 }),
  meets: flag,
};

/** A method of a plan with its sheet, and what was simulated. */
export interface Chosen {
  readonly ready: PreparedJob;
  readonly method: Method<MethodTypes>;
  readonly sheet: MethodSheet<MethodTypes>;
  readonly planned: Planned<MethodTypes>;
  readonly simulated: readonly Simulated[];
}

/** A method of a plan that can be done. */
export function chosen({ plan, method = plan.best ?? undefined }: PlannedOptions): Chosen {
  const entries = readValue(plan.methods, array(anyObject<Partial<Record<string, unknown>>>()), 'plan.methods');
  const ready = prepared(readValue(plan.job, job, 'plan.job'));
  if (method !== undefined) readValue(method, whole({ min: 0, max: entries.length - 1 }), 'method');
  const entry = method === undefined ? undefined : entries[method];
  if (!entry?.['settings']) {
    return refuse('beyond-machine', 'method', method, 'must be one that reaches; see the limits of each method');
  }
  const at = `plan.methods[${method}]`;
  const {
    method: name,
    machine: machineName,
    ...promise
  } = readValue(
    {
      method: entry['method'],
      machine: entry['machine'],
      tries: entry['tries'],
      probability: entry['probability'],
      meets: entry['meets'],
    },
    object(OUTCOME),
    at,
  );
  const simulated = readValue(entry['expectations'], array(anyObject<Expectation>()), `${at}.expectations`).map(
    ({ quantity, tolerance, first, corrected, limitedBy }, i) =>
      readValue(
        { quantity, tolerance, first, corrected, ruledBy: limitedBy?.meaning },
        object(SIMULATED),
        `${at}.expectations[${i}]`,
      ),
  );
  const used = METHODS.find((one) => one.name === name);
  const machine = (used && ready.machines[used.on].find((one) => one.name === machineName)) as
    | (Machines['lathes'] & Machines['mills'])
    | undefined;
  if (!used || used.kind !== ready.work.part.kind || !machine || !used.has(machine)) {
    return refuse(
      'contradiction',
      `${at}.machine`,
      machineName,
      'must be a machine of the job with what the method needs',
    );
  }
  const { work, means } = chosenMeans(used, { ...ready.work, trials: 0 }, machine);
  const { settings, limits } = below(`${at}.settings`, () => {
    const set = used.settings(work, machine);
    const more = used.limitsOfSettings(set, work, machine);
    return { settings: set, limits: [...used.limits(work, machine), ...more] };
  });
  const expectations = simulated as unknown as readonly Expectation[];
  const planned = { work, machine, settings, limits, means, expectations, ...promise };
  return { ready, method: used, sheet: sheetOf(name), planned, simulated };
}

/** The same from a call's own options. */
export function chosenOf(options: PlannedOptions): Chosen {
  return chosen(read(options, PLANNED));
}
