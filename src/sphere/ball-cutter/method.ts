/** A sphere by passes of a ball-ended cutter, as one method of cutting: it needs a table of positions. */
import { say, tell } from '../../core/words.js';
import { type Limit, limit } from '../../method/limits.js';
import type { Method, MethodTypes, MillBase } from '../../method/method.js';
import type { SourceName } from '../../method/sources.js';
import { errorsFit, stockFits } from '../limits.js';
import { type SpherePart, type SphereWork, shapeOf } from '../part.js';
import type { SharedStep } from '../step-words.js';
import { ridgeOf, type steppedCorrection, steppedExpectations, type steppedSurface, tableLimit } from '../stepped.js';
import type { WORDS } from '../table-steps.js';
import { BALL_CUTTER_EQUIPMENT, type BallCutterEquipment } from './machine.js';
import { type BallCutterSteps, ballCutterSteps } from './settings.js';
import type { CUTTER_WORDS } from './words.js';

/** The types of this method. */
export interface BallCutterMethod extends MethodTypes {
  readonly name: 'ball-cutter';
  readonly part: SpherePart;
  readonly on: 'mills';
  readonly equipment: BallCutterEquipment;
  readonly needs: { readonly ballCutters: readonly number[] };
  readonly settings: BallCutterSteps;
  readonly surface: ReturnType<typeof steppedSurface>;
  /** Diameter of the widest place that was cut. */
  readonly measured: {
    /** Diameter of the widest place that was cut. */
    readonly diameter: number;
  };
  readonly correction: ReturnType<typeof steppedCorrection>;
  readonly limit: 'errors' | 'stock' | 'cutter' | 'reach' | 'tilt' | 'steps';
  readonly step: keyof typeof WORDS | keyof typeof CUTTER_WORDS | SharedStep;
  readonly caution: 'head-tilt-clamp' | 'table-lock' | 'blending';
}

const ACTING: readonly SourceName[] = ['miss', 'position'];

export const ballCutter: Method<BallCutterMethod> = {
  name: 'ball-cutter',
  kind: 'sphere',
  on: 'mills',
  ease: 3,
  equipment: BALL_CUTTER_EQUIPMENT,
  has: (mill): mill is typeof mill & { readonly ballCutters: readonly number[] } =>
    mill.ballCutters !== undefined && mill.ballCutters.length > 0,
  missing: (name) => `${name} has no ball-ended cutter`,
  sources: ACTING,
  setBy: null,
  assumes: () => [],
  limits: (work, { ballCutters }) => {
    if (cutterFor(work, ballCutters) !== undefined) return [errorsFit(work, ACTING), ...stockFits(work)];
    const { radius } = shapeOf(work);
    const smallest = Math.min(...ballCutters) / 2;
    const message = say`the smallest cutter's radius is ${tell(smallest)}, it must be less than the socket's, ${tell(radius)}`;
    return [{ code: 'cutter', message, needed: radius, available: smallest, met: false }];
  },
  settings: (work, { ballCutters }) =>
    ballCutterSteps({
      target: work.part.target,
      cutterRadius: (cutterFor(work, ballCutters) ?? 0) / 2,
      leftover: ridgeOf(work),
    }),
  limitsOfSettings: (settings, work, mill) => {
    return [...reaches(work, settings, mill), tableLimit(settings.passes.length, ridgeOf(work))];
  },
  expected: (work, { ballCutters }, settings) =>
    steppedExpectations(work, {
      anglesDeg: anglesOf(settings),
      leftover: settings.leftover,
      noseRadius: (cutterFor(work, ballCutters) ?? 0) / 2,
      shouldered: false,
      zero: work.setting.miss,
      step: 0,
    }),
};

/** Times the sphere's radius: a ball end so large is a flat. */
const MOST_CUTTER = 1e6;

/** The largest that fits leaves the lowest ridges. It must be smaller than the socket, not as large. */
function cutterFor(work: SphereWork, cutters: readonly number[]): number | undefined {
  const { side, radius } = shapeOf(work);
  return [...cutters]
    .sort((a, b) => b - a)
    .find((diameter) => (side === 'ball' ? diameter < MOST_CUTTER * radius : diameter < 2 * radius));
}

export function anglesOf({ passes }: BallCutterSteps): readonly number[] {
  return passes.map(({ polarAngleDeg }) => polarAngleDeg);
}

/**
 * How far the head is tilted. A ball end cuts where the surface looks within 90° of the cutter's axis. Beside a level
 * work axis an upright cutter reaches all of a ball; along an upright one up to the widest place, and past it by the
 * tilt: what the last pass needs, the limit of setting it, and up to the next graduation. Into a socket it goes along
 * the axis only.
 */
export function cutterTiltDeg(
  side: 'ball' | 'socket',
  settings: BallCutterSteps,
  { table, headTilt: { largestDeg, stepDeg } }: MillBase,
  limitDeg: number,
): number {
  if (side === 'socket') return table === 'flat' ? 0 : 90;
  const past = pastWidest(settings, table);
  if (past === 0) return 0;
  const safe = past + limitDeg;
  return Math.min(largestDeg, stepDeg === undefined ? safe : Math.ceil(safe / stepDeg - 1e-9) * stepDeg);
}

function pastWidest(settings: BallCutterSteps, table: MillBase['table']): number {
  return table === 'upright' ? 0 : Math.max(0, (anglesOf(settings).at(-1) ?? 0) - 90);
}

/** What the cutter can reach. */
function reaches(
  work: SphereWork,
  settings: BallCutterSteps,
  { table, headTilt }: MillBase,
): readonly Limit<'reach' | 'tilt'>[] {
  const { side } = shapeOf(work);
  const told = (deg: number): string => tell(deg, { unit: '°' });
  const tilts = say`the head tilts ${told(headTilt.largestDeg)}`;
  if (side === 'socket') {
    const lastDeg = anglesOf(settings).at(-1) ?? 0;
    const along = table === 'flat' ? 0 : 90;
    const bores = say`a cutter along the axis bores half a sphere, the last pass lies at ${told(lastDeg)}`;
    const lies = say`${tilts}, to lie along the axis it must tilt ${told(along)}`;
    return [limit('reach', bores, lastDeg, 90), limit('tilt', lies, along, headTilt.largestDeg)];
  }
  if (table === 'upright') return [];
  const past = pastWidest(settings, table);
  return [limit('tilt', say`${tilts}, the last pass needs ${told(past)}`, past, headTilt.largestDeg)];
}
