/** Kinds of jobs for spheres: every method, every kind of part, table flat and upright, millimetres and inches. */
import { type Job, type MethodName, planJob, planSteps, type SphereTarget, type WorkStep } from 'generatrix';
import { type Mill, type MillErrors, mill, NO_ERRORS } from './mill.js';
import { type Verdict, worst } from './part.js';
import { type Manner, MEANT, obey, printed } from './person.js';
import { type LatheErrors, NO_LATHE_ERRORS, type SphereLathe, sphereLathe } from './sphere-lathe.js';

/** Errors of either machine. */
export type ShopErrors = MillErrors & LatheErrors;
export const NO_SHOP_ERRORS: ShopErrors = { ...NO_LATHE_ERRORS, ...NO_ERRORS };

/** A kind of job. */
export interface Kind {
  readonly name: string;
  readonly method: MethodName;
  readonly job: Job;
  readonly target: SphereTarget;
  /** The machine that it is cut on. */
  readonly bench: (errors: ShopErrors) => Mill | SphereLathe;
  /** Obeys a sheet of this kind. */
  readonly cut: (sheet: readonly WorkStep[], errors: ShopErrors, manner: Manner) => Verdict;
}

/** Parts in millimetres; a mill's table and a lathe's chuck hold them all alike. */
const PARTS: readonly SphereTarget[] = [
  { part: 'ball-on-stem', diameter: 32, stemDiameter: 14 },
  { part: 'ball-between-stems', diameter: 32, freeStemDiameter: 10, stemDiameter: 14 },
  { part: 'ball-end', diameter: 50, stemDiameter: 16, flatDiameter: 8 },
  { part: 'cap', radius: 40, baseDiameter: 50 },
  { part: 'socket', radius: 25, depth: 8 },
];

const SIZES = [
  'diameter',
  'radius',
  'stemDiameter',
  'freeStemDiameter',
  'flatDiameter',
  'baseDiameter',
  'depth',
] as const;

/** The same part as a drawing in inches would have it, to thousandths. */
function inInches(target: SphereTarget): SphereTarget {
  const sizes = target as Readonly<Record<string, unknown>>;
  const changed = SIZES.flatMap((name) => {
    const size = sizes[name];
    return typeof size === 'number' ? [[name, Math.round((size / 25.4) * 1000) / 1000]] : [];
  });
  return { ...target, ...Object.fromEntries(changed) } as SphereTarget;
}

/** Heads and dials without graduations: what is wanted can be set. */
function jobOf(target: SphereTarget, unit: 'mm' | 'in', table: 'flat' | 'upright', method: MethodName): Job {
  const size = unit === 'mm' ? 1 : 1 / 25.4;
  return {
    title: target.part,
    unit,
    part: { kind: 'sphere', target, tolerance: { radius: 0.05 * size, form: 0.08 * size } },
    ...machines(method, unit, table),
    measuring: { diameter: 0.005 * size, length: 0.005 * size },
  };
}

/** A machine with nothing but what one method needs, for the sake of time. */
function machines(method: MethodName, unit: 'mm' | 'in', table: 'flat' | 'upright'): Pick<Job, 'mills' | 'lathes'> {
  const size = unit === 'mm' ? 1 : 1 / 25.4;
  const mill = { name: 'mill', table, headTilt: { largestDeg: 90 } };
  const lathe = { name: 'lathe', centreDistance: 500 * size };
  switch (method) {
    case 'tilted-sweep':
      return { mills: [{ ...mill, boringHead: { dial: { reads: table === 'flat' ? 'diameter' : 'radius' } } }] };
    case 'ball-cutter':
      return { mills: [{ ...mill, ballCutters: [unit === 'mm' ? 10 : 0.375] }] };
    case 'swivel-tool':
      return { lathes: [{ ...lathe, swivelTool: { smallestRadius: 2 * size, largestRadius: 80 * size } }] };
    default:
      return { lathes: [{ ...lathe, slides: { step: 0.001 * size, noseRadius: unit === 'mm' ? 3 : 0.125 } }] };
  }
}

const METHODS = ['tilted-sweep', 'ball-cutter', 'swivel-tool', 'steps'] as const;

/** Every kind. */
export function sphereKinds(): readonly Kind[] {
  return (['mm', 'in'] as const).flatMap((unit) =>
    PARTS.map((part) => (unit === 'mm' ? part : inInches(part))).flatMap((target) =>
      METHODS.flatMap((method) => {
        const lathe = method === 'swivel-tool' || method === 'steps';
        return (lathe ? (['flat'] as const) : (['flat', 'upright'] as const)).map((table): Kind => {
          const dial = table === 'flat' ? 'diameter' : 'radius';
          const bench = (errors: ShopErrors) =>
            lathe ? sphereLathe(target, unit, errors) : mill({ target, unit, dial }, errors);
          return {
            name: `${method} ${target.part}${lathe ? '' : ` ${table}`} ${unit}`,
            method,
            job: jobOf(target, unit, table, method),
            target,
            bench,
            cut: (sheet, errors, manner) => {
              const at = bench(errors);
              obey(sheet, at, manner);
              return at.verdict();
            },
          };
        });
      }),
    ),
  );
}

const SHEETS = new Map<string, readonly WorkStep[]>();

/** The sheet of a kind. */
export function sheetOf({ name, job, method }: Kind): readonly WorkStep[] {
  const known = SHEETS.get(name);
  if (known) return known;
  const plan = planJob(job, { trials: 1000 });
  const sheet = planSteps({ plan, method: plan.methods.findIndex((tried) => tried.method === method) });
  SHEETS.set(name, sheet);
  return sheet;
}

/** How a kind's sheet came out in the exact shop. */
export interface Exact {
  readonly name: string;
  /** The worst deviation, numbers as they are meant and as they are printed. */
  readonly meant: number;
  readonly printed: number;
  /** What half a unit of each printed number's last digit may do. */
  readonly allowed: number;
  readonly good: boolean;
}

/** Obeys a sheet in the exact shop; 1e-9 of the size is what rounding of plain numbers leaves after some hundred sums. */
export function exactly(kind: Kind): Exact {
  const sheet = sheetOf(kind);
  const cut = (number: Manner['number']): Verdict => kind.cut(sheet, NO_SHOP_ERRORS, { tries: 1, number });
  const meant = worst(cut(MEANT));
  const asPrinted = worst(cut(printed));
  const size = Math.max(...Object.values(kind.target).filter((value) => typeof value === 'number'));
  const allowed = slack(cut) + 1e-9 * size;
  const good = meant <= 1e-8 * size && asPrinted <= allowed;
  return { name: kind.name, meant, printed: asPrinted, allowed, good };
}

/** Each printed number moved by what its last digit leaves open, one after the other, and the effects summed. */
function slack(cut: (number: Manner['number']) => Verdict): number {
  const plain = cut(MEANT);
  const amounts = new Set<object>();
  cut((amount, step) => {
    if (amount.value !== 0 && printed(amount, step) !== amount.value) amounts.add(amount);
    return amount.value;
  });
  let sum = 0;
  for (const one of amounts) {
    const moved = cut((amount, step) => (amount === one ? printed(amount, step) : amount.value));
    sum += Math.max(...(Object.keys(plain) as (keyof Verdict)[]).map((name) => Math.abs(moved[name] - plain[name])));
  }
  return 1.01 * sum;
}
