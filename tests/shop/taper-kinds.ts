/** Kinds of jobs for tapers: every method, outside and inside, either end, millimetres and inches, steep and shallow. */
import { type Job, type MethodName, planJob, planSteps, type TaperPart, type WorkStep } from 'generatrix';
import { EXACT, type Hidden, lathe, type Setup } from './lathe.js';
import type { Verdict } from './turned-part.js';
import { type Manner, meant, obey, printed } from './turner.js';

/** A kind of job, and the lathe that stands for it. */
export interface Kind {
  readonly name: string;
  readonly method: MethodName;
  readonly job: Job;
  readonly setup: Setup;
}

type Unit = 'mm' | 'in';

const size = (unit: Unit, mm: number): number => (unit === 'mm' ? mm : Math.round((mm / 25.4) * 1000) / 1000);

/** A limit as an inch shop has it, to a tenth of a thousandth. */
const limit = (unit: Unit, mm: number): number => (unit === 'mm' ? mm : Math.round((mm / 25.4) * 10000) / 10000);

function partOf(
  unit: Unit,
  side: TaperPart['side'],
  headstockEnd: TaperPart['headstockEnd'],
  steep: boolean,
): TaperPart {
  const [length, workLength] = [size(unit, steep ? 12 : 60), size(unit, 180)];
  // A bore is open at the tailstock.
  const outer = side === 'inside' ? workLength : size(unit, 120);
  return {
    kind: 'taper',
    taper: steep ? { includedAngleDeg: 60 } : { oneIn: 20 },
    side,
    largeDiameter: size(unit, 24),
    length,
    workLength,
    largeEndAt: headstockEnd === 'small' ? outer : outer - length,
    headstockEnd,
    centreHoles: true,
    ...(side === 'outside' && { stockDiameter: size(unit, 25) }),
    tolerance: { smallDiameter: limit(unit, 0.05) },
  };
}

/** Half angle of a part by hand. */
const slopeOf = (part: TaperPart): number => ('oneIn' in part.taper ? 1 / 40 : Math.tan(Math.PI / 6));

function setupOf(part: TaperPart, more: Partial<Setup>, stopAt?: number): Setup {
  const {
    largeEndAt: largeAt,
    length,
    headstockEnd,
    largeDiameter,
    side,
    workLength,
    stockDiameter = largeDiameter,
  } = part;
  const smallAt = largeAt + (headstockEnd === 'large' ? length : -length);
  return {
    drawing: {
      side,
      largeAt,
      smallAt,
      largeDiameter,
      smallDiameter: largeDiameter - 2 * length * slopeOf(part),
      stopAt: stopAt ?? (side === 'outside' ? largeAt : Math.min(largeAt, smallAt)),
    },
    workLength,
    stockDiameter,
    shoulders: (part.shoulders ?? []).map(({ at, gap, diameter }) => ({
      at: at === 'large' ? largeAt + Math.sign(largeAt - smallAt) * gap : smallAt + Math.sign(smallAt - largeAt) * gap,
      diameter,
    })),
    slideAcross: false,
    barAngle: (reading) => (reading * Math.PI) / 180,
    times: 1,
    protrusion: 0,
    balls: [0, 0],
    edge: 0,
    // 3 µm, or as much of an inch.
    film: stockDiameter > 5 ? 0.003 : 0.003 / 25.4,
    slideTravel: 1000,
    ...more,
  };
}

/** The job of a kind: the lathe has what the method needs, and no more. */
function jobOf(unit: Unit, part: TaperPart, machine: object, setting: Job['setting'] = {}): Job {
  return {
    title: 'part',
    unit,
    part,
    lathes: [{ name: 'lathe', centreDistance: size(unit, 500), ...machine }],
    setting: {
      touchOff: limit(unit, 0.01),
      toolHeight: limit(unit, 0.05),
      headstockPlanDeg: 0.002,
      headstockUprightDeg: 0.002,
      ...setting,
    },
    measuring: { diameter: limit(unit, 0.005), length: limit(unit, 0.02) },
  };
}

/** Every kind. */
export function taperKinds(): readonly Kind[] {
  const kinds: Kind[] = [];
  for (const unit of ['mm', 'in'] as const) {
    for (const end of ['large', 'small'] as const) {
      for (const side of ['outside', 'inside'] as const) {
        for (const steep of [false, true]) {
          const part = partOf(unit, side, end, steep);
          const what = `${side} ${end}-end-at-headstock ${steep ? 'steep' : 'shallow'} ${unit}`;
          for (const scale of ['from-axis', 'from-across', null] as const) {
            const topSlide = { travel: size(unit, 90), ...(scale && { scale: { reads: scale, stepDeg: 0.5 } }) };
            kinds.push({
              name: `top-slide ${scale ?? 'no-scale'} ${what}`,
              method: 'top-slide',
              job: jobOf(unit, part, { topSlide }, scale ? {} : { topSlideDeg: 0.02 }),
              setup: setupOf(part, { slideAcross: scale === 'from-across', slideTravel: size(unit, 90) }),
            });
          }
          if (steep) {
            kinds.push({
              name: `form-tool ${what}`,
              method: 'form-tool',
              job: jobOf(unit, part, { formTool: { width: size(unit, 16), largestWidth: size(unit, 20) } }),
              setup: setupOf(part, { edge: size(unit, 16) }, part.largeEndAt),
            });
            continue;
          }
          const shoulders = [{ at: 'small', diameter: size(unit, 34), gap: size(unit, 14) } as const];
          const stepped = side === 'outside' ? { ...part, shoulders } : part;
          for (const by of ['half-angle', 'per-foot'] as const) {
            const scale = { by, step: by === 'half-angle' ? 0.1 : 1 / 32 };
            kinds.push({
              name: `guide-bar ${by} ${what}`,
              method: 'guide-bar',
              job: jobOf(unit, stepped, {
                guideBar: { travel: size(unit, 300), scale, largestHalfAngleDeg: 10 },
                toolPost: { halfWidth: size(unit, 10), toolReach: size(unit, 20) },
              }),
              setup: setupOf(stepped, {
                barAngle: (reading) => (by === 'half-angle' ? (reading * Math.PI) / 180 : Math.atan(reading / 24)),
                post: { halfWidth: size(unit, 10), toolReach: size(unit, 20) },
              }),
            });
          }
          if (side === 'inside') continue;
          for (const dial of ['radius', 'diameter', null] as const) {
            const onDial = dial && { dial: { reads: dial, step: size(unit, 0.05) } };
            const times = dial === 'diameter' ? 2 : 1;
            kinds.push({
              name: `set-over ${dial ?? 'no-dial'} ${what}`,
              method: 'set-over',
              job: jobOf(
                unit,
                part,
                { tailstock: { setover: size(unit, 12), ...onDial } },
                { centreDistance: limit(unit, 0.1) },
              ),
              setup: setupOf(part, { times }),
            });
            const [ball, mouth] = [size(unit, 10), size(unit, 8)];
            const end_ = { ballDiameter: ball, mouthDiameter: mouth };
            kinds.push({
              name: `ball-centres ${dial ?? 'no-dial'} ${what}`,
              method: 'ball-centres',
              job: jobOf(
                unit,
                part,
                { ballCentres: { offset: size(unit, 12), ...onDial, headstock: end_, tailstock: end_ } },
                { centreDistance: limit(unit, 0.1) },
              ),
              // A ball in a hole of 60°: it touches where the cone's normal passes its centre, or at the mouth.
              setup: setupOf(part, { times, protrusion: seat(ball, mouth), balls: [ball, ball] }),
            });
          }
        }
      }
    }
  }
  return kinds;
}

/** How far a ball's centre stands out of a hole of 60°: on the cone it is half of its distance from the apex, ball/2 / sin 30°. */
function seat(ball: number, mouth: number): number {
  const [r, m] = [ball / 2, mouth / 2];
  const touching = r * Math.cos(Math.PI / 6);
  if (touching > m) return Math.sqrt(r * r - m * m);
  return r / Math.sin(Math.PI / 6) - m / Math.tan(Math.PI / 6);
}

/** The sheet of a kind. */
export function sheetOf({ job, method }: Kind): readonly WorkStep[] {
  const plan = planJob(job, { trials: 1000 });
  return planSteps({ plan, method: plan.methods.findIndex((one) => one.method === method) });
}

/** What came of a sheet. */
export interface Outcome extends Verdict {
  /** Greatest error of a diameter, or of the form. */
  readonly worst: number;
  /** How far the guide was left out of line. */
  readonly left: number;
  readonly tries: number;
  readonly passed: boolean;
}

/** Obeys a sheet. */
export function cut(kind: Kind, sheet: readonly WorkStep[], hidden: Hidden, manner: Manner): Outcome {
  const bench = lathe(kind.setup, hidden);
  const done = obey(sheet, bench, manner);
  const verdict = bench.verdict();
  const worst = Math.max(Math.abs(verdict.large), Math.abs(verdict.small), verdict.form, Math.abs(verdict.end));
  return { ...verdict, ...done, worst, left: bench.left() };
}

/** The digit in which an amount is printed. */
function halfDigit(value: number, again: (value: number) => number): number {
  // The least change that is sure to change what is printed.
  let low = Math.abs(value) * 1e-12 + 1e-12;
  const first = again(value);
  while (again(value + low) === first && again(value - low) === first && low < Math.abs(value) + 1) low *= 1.3;
  return Math.max(low, Math.abs(first - value));
}

/** Calls back for every amount of a sheet, and gives the sheet with that one changed. */
function eachAmount(
  sheet: readonly WorkStep[],
  use: (
    amount: { value: number; unit: string; limit?: number; step?: number },
    changed: (value: number) => WorkStep[],
    path: string,
  ) => void,
): void {
  const walk = (node: unknown, path: readonly (string | number)[]): void => {
    if (typeof node !== 'object' || node === null) return;
    const one = node as { value?: unknown; unit?: unknown };
    if (typeof one.value === 'number' && typeof one.unit === 'string') {
      const changed = (value: number): WorkStep[] => {
        const copy = structuredClone(sheet) as WorkStep[];
        let at: unknown = copy;
        for (const key of path) at = (at as Record<string | number, unknown>)[key];
        (at as { value: number }).value = value;
        return copy;
      };
      use(node as { value: number; unit: string }, changed, path.join('.'));
      return;
    }
    for (const [key, child] of Object.entries(node)) walk(child, [...path, Array.isArray(node) ? Number(key) : key]);
  };
  for (const [i, step] of sheet.entries()) walk(step.actions, [i, 'actions']);
}

/** A kind in the exact shop: numbers as meant, numbers as printed, and what their digits allow. */
export function exactly(kind: Kind): { meant: number; printed: number; allowed: number; good: boolean; why: string } {
  const sheet = sheetOf(kind);
  const scale = kind.setup.workLength;
  try {
    const ideal = cut(kind, sheet, EXACT, { tries: 1, number: meant, zeal: 1e-6 });
    const told = cut(kind, sheet, EXACT, { tries: 1, number: printed, zeal: 1e-6 });
    let allowed = 0;
    eachAmount(sheet, (amount, changed) => {
      const half = halfDigit(amount.value, (value) => printed({ ...amount, value }));
      const off = [half, -half].map((by) => {
        try {
          return cut(kind, changed(amount.value + by), EXACT, { tries: 1, number: meant, zeal: 1e-6 }).worst;
        } catch {
          return 0;
        }
      });
      allowed += Math.max(...off) - ideal.worst;
    });
    const good =
      ideal.worst < 1e-8 * scale &&
      ideal.left < 1e-9 &&
      told.worst <= allowed + 1e-9 * scale &&
      !told.gouged &&
      !ideal.gouged &&
      ideal.passed &&
      told.passed;
    return {
      meant: ideal.worst,
      printed: told.worst,
      allowed,
      good,
      why: `${ideal.gouged ? 'gouged ' : ''}${ideal.passed ? '' : 'not accepted '}${ideal.left < 1e-9 ? '' : `left ${ideal.left}`}`,
    };
  } catch (error) {
    return { meant: Number.NaN, printed: Number.NaN, allowed: 0, good: false, why: String(error) };
  }
}
