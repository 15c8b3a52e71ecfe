/**
 * Reads a job: refuses what makes no sense with the path to the field, and fills in what was left out
 * with stated assumptions. Numbers may be written as text in a job file: `"5/8"`, `"32,5"`, `"1 1/4 in"`.
 */
import { type ErrorData, GeneratrixError, refuse } from '../core/errors.js';
import { parseLength } from '../core/length-text.js';
import {
  array,
  byTag,
  choice,
  type Fields,
  nonNegative,
  number,
  object,
  optional,
  positive,
  type Reader,
  type ReadResult,
  readAll,
  text,
  vouched,
} from '../core/read.js';
import type { LatheBase, Machines, MillBase, Work } from '../method/method.js';
import { ASSUMED_SHOP, filledShop, SHOP } from '../method/shop.js';
import { SOURCE_NAMES, SOURCES, type SourceName } from '../method/sources.js';
import { type TaperPart, taperPart } from '../offset/part.js';
import { type SpherePart, spherePart } from '../sphere/part.js';
import { judgedEnds } from '../sphere/tolerance.js';
import type { Job, Lathe, MeasuringLimits, Mill, SettingLimits } from './job.js';
import { METHODS, type Part } from './methods.js';
import type { Assumption } from './result.js';

/** A job with nothing left open. */
export interface PreparedJob {
  readonly job: Job;
  readonly machines: { readonly lathes: readonly Lathe[]; readonly mills: readonly Mill[] };
  /** The part in its shop, but for the number of simulated parts. */
  readonly work: Omit<Work<Part>, 'trials'>;
  readonly assumptions: readonly Assumption[];
}

const LATHE: Fields<LatheBase> = {
  name: text(),
  centreDistance: positive,
  toolPost: optional(object<NonNullable<LatheBase['toolPost']>>({ halfWidth: positive, toolReach: positive })),
};

const MILL: Fields<MillBase> = {
  name: text(),
  table: choice('flat', 'upright'),
  headTilt: object<MillBase['headTilt']>({ largestDeg: number({ above: 0, max: 90 }), stepDeg: optional(positive) }),
};

/** The readers of a machine's own fields and of what every method may want of it. */
function withEquipment<T>(base: object, on: keyof Machines): Reader<T> {
  const wanted = METHODS.filter((method) => method.on === on).map(({ equipment }) => equipment);
  return object(Object.assign({}, base, ...wanted) as Fields<T>);
}

/** How far an angle may be off: beyond that nothing was set. */
const aside = number({ min: 0, max: 45 });

const SETTING = Object.fromEntries([
  ...SOURCE_NAMES.map((name) => [name, optional(SOURCES[name].kind === 'angleDeg' ? aside : nonNegative)] as const),
  ['resettingFraction', optional(nonNegative)] as const,
]) as unknown as Fields<SettingLimits>;

/** Nobody measures as badly as this; squares of it are still numbers. */
const measuringLimit = number({ min: 0, max: 1e6 });
const MEASURING: Fields<MeasuringLimits> = { diameter: optional(measuringLimit), length: optional(measuringLimit) };

/** Machines of one kind: more nobody chooses from, and each costs a plan its time. */
const MOST_MACHINES = 50;

const JOB: Fields<Job> = {
  title: text(),
  unit: choice('mm', 'in'),
  part: byTag<TaperPart | SpherePart, 'kind'>('kind', { taper: taperPart, sphere: spherePart }),
  lathes: optional(array(withEquipment<Lathe>(LATHE, 'lathes'), 0, MOST_MACHINES)),
  mills: optional(array(withEquipment<Mill>(MILL, 'mills'), 0, MOST_MACHINES)),
  shop: optional(object(SHOP)),
  setting: optional(object(SETTING)),
  measuring: optional(object(MEASURING)),
  coverage: optional(number({ min: 0.5, max: 0.9999 })),
};

/** Reads a job that can be. */
export const job: Reader<Job> = vouched(object(JOB), ({ part, lathes = [], mills = [] }) => {
  const kinds = new Set(METHODS.filter(({ kind }) => kind === part.kind).map(({ on }) => on));
  const there = { lathes: lathes.length, mills: mills.length };
  if ([...kinds].some((kind) => there[kind] > 0)) return;
  const [first = 'lathes', ...others] = kinds;
  refuse(
    'missing-option',
    first,
    undefined,
    `must name a machine${others.map((kind) => `, here or in ${kind}`).join('')}`,
  );
});

/**
 * Reads a job, such as one that was imported from a file: what is wrong with it, all at once. Numbers may be written as
 * text: `"5/8"`, `"32,5"`, `"1 1/4 in"`.
 * @param value - Anything.
 * @returns The job with numbers for all text, or everything that is wrong with it, 100 errors at most.
 * @example
 * ```ts
 * import { readJob } from 'generatrix';
 * const read = readJob({ title: 'knob', unit: 'inch', part: { kind: 'sphere', target: { part: 'ball' } } });
 * 'errors' in read && read.errors.map(({ parameter }) => parameter); // => ['unit', 'part.target.part', 'part.tolerance']
 * ```
 */
export function readJob(value: unknown): JobResult {
  const read = jobOf(value);
  return 'errors' in read ? { errors: read.errors.map((error) => error.toJSON()) } : read;
}

/** A job that was read, or everything that is wrong with it, as plain data. */
export type JobResult =
  | {
      /** The job, with numbers for all text. */
      readonly value: Job;
    }
  | {
      /** What is wrong, in the order of the fields. */
      readonly errors: readonly ErrorData[];
    };

/** The same, the errors ready to be thrown. */
export function jobOf(value: unknown): ReadResult<Job> {
  const unit = (value as { readonly unit?: unknown } | null | undefined)?.unit === 'in' ? 'in' : 'mm';
  return readAll(value, job, (written) => {
    try {
      return parseLength(written, { unit });
    } catch (error) {
      if (error instanceof GeneratrixError) return undefined;
      throw error;
    }
  });
}

/** A job that was read, with assumptions for what was left out. */
export function prepared(given: Job): PreparedJob {
  const { part, unit, lathes = [], mills = [], coverage = DEFAULT_COVERAGE } = given;
  const machines = { lathes, mills };
  const assumptions: Assumption[] = [];
  const assume = (path: string, stated: number | undefined, instead: number, reason: string, told = true): number => {
    if (stated === undefined && told) assumptions.push({ path, value: instead, reason });
    return stated ?? instead;
  };
  assume('coverage', given.coverage, DEFAULT_COVERAGE, `${COMMON}: intervals that hold 95 of 100 parts`);
  const setting = {} as Record<SourceName | 'resettingFraction', number>;
  const used = usedSources(given, machines);
  const stated = SOURCE_NAMES.filter((name) => given.setting?.[name] !== undefined);
  for (const name of SOURCE_NAMES) {
    const source = SOURCES[name];
    const instead = unit === 'in' && 'assumedInches' in source ? source.assumedInches : source.assumed;
    // An assumption that nothing rests on is noise.
    setting[name] = assume(`setting.${name}`, given.setting?.[name], instead, source.reason, used.has(name));
  }
  const { indicator, estimatedParts } = { ...ASSUMED_SHOP, ...ASSUMED_SHOP[unit] };
  const byMeans = equipped(given, machines).some(({ method }) => method.setBy && !stated.includes(method.setBy.source));
  if (byMeans && given.shop?.indicators === undefined) {
    for (const key of ['resolution', 'range'] as const) {
      assumptions.push({
        path: `shop.indicators[0].${key}`,
        value: indicator[key],
        reason: `${COMMON}: a shop has a dial indicator`,
      });
    }
  }
  assume(
    'shop.estimatedParts',
    given.shop?.estimatedParts,
    estimatedParts,
    `${COMMON}: a quarter of a division is seen`,
    byMeans,
  );
  const [fraction, why] = RESETTING;
  setting.resettingFraction = assume('setting.resettingFraction', given.setting?.resettingFraction, fraction, why);
  const measuring = { diameter: 0, length: 0 };
  for (const name of ['diameter', 'length'] as const) {
    const [millimetres, inches, reason] = MEASURED[name];
    const instead = unit === 'in' ? inches : millimetres;
    measuring[name] = assume(`measuring.${name}`, given.measuring?.[name], instead, reason);
  }
  const { pip, freeEnd, farEnd } = part.kind === 'sphere' ? judgedEnds(part, unit) : {};
  for (const end of [pip, freeEnd, farEnd]) {
    if (end?.assumed !== undefined) assume(`part.tolerance.${end.key}`, undefined, end.tolerance, end.assumed);
  }
  for (const { method, machine, path } of equipped(given, machines)) {
    for (const { key, of = path, value: instead, reason } of method.assumes(machine, part)) {
      assumptions.push({ path: `${of}.${key}`, value: instead, reason });
    }
  }
  return {
    job: given,
    machines,
    work: { part, unit, setting, stated, shop: filledShop(given.shop ?? {}, unit), measuring, coverage },
    assumptions,
  };
}

const DEFAULT_COVERAGE = 0.95;

const COMMON = 'common practice, no source';

const RESETTING = [
  0.2,
  `${COMMON}: a change read on an indicator is five times as sure as a setting read on a scale`,
] as const;

/** Assumed limits of measuring in millimetres and in inches, and why. */
const MEASURED = {
  diameter: [0.01, 0.0005, `${COMMON}: a micrometer`],
  length: [0.05, 0.002, `${COMMON}: a calliper or a dial`],
} as const;

/** The methods for the part on each machine that has what they need. */
function equipped(
  { part }: Job,
  machines: PreparedJob['machines'],
): readonly { method: (typeof METHODS)[number]; machine: LatheBase & MillBase; path: string }[] {
  return METHODS.filter(({ kind }) => kind === part.kind).flatMap((method) =>
    machines[method.on].flatMap((machine, i) => {
      const any = machine as LatheBase & MillBase;
      return method.has(any) ? [{ method, machine: any, path: `${method.on}[${i}]` }] : [];
    }),
  );
}

function usedSources(given: Job, machines: PreparedJob['machines']): ReadonlySet<SourceName> {
  // What is set by means takes their limit.
  return new Set(
    equipped(given, machines).flatMap(({ method }) => method.sources.filter((name) => name !== method.setBy?.source)),
  );
}
