/**
 * A sphere by plain turning at many stops and blending by hand, as one method of cutting: it needs a table, and a file.
 *
 * The stops lie on a circle in the level plane of the slides. A spindle out of line with the bed turns that circle
 * against the work's axis, and a circle turned about its centre is the same sphere: what counts is how far the axis
 * passes beside the centre. The zero across is touched off at the free end, z along the axis from the centre; turned
 * in plan by ψ from there, the axis passes it by z sin ψ, which acts as an error of the zero does. Turned upright by
 * υ it passes z sin υ below, (z sin υ)²/2R on the radius: left out, as the height of the tool is.
 */
import { sinDeg } from '../../core/trigonometry.js';
import { say, tell } from '../../core/words.js';
import type { Method, MethodTypes } from '../../method/method.js';
import type { SourceName } from '../../method/sources.js';
import { errorsFit } from '../limits.js';
import { type SpherePart, type SphereWork, shapeOf } from '../part.js';
import type { SharedStep } from '../step-words.js';
import { ridgeOf, type steppedCorrection, steppedExpectations, type steppedSurface, tableLimit } from '../stepped.js';
import type { WORDS } from '../table-steps.js';
import { SLIDES_EQUIPMENT, type Slides, type SlidesEquipment } from './machine.js';
import { type SphereSteps, sphereSteps } from './settings.js';
import type { TURNING_WORDS } from './words.js';

/** Times the sphere's radius. */
const MOST_NOSE = 1e6;

/** The types of this method. */
export interface StepsMethod extends MethodTypes {
  readonly name: 'steps';
  readonly part: SpherePart;
  readonly on: 'lathes';
  readonly equipment: SlidesEquipment;
  readonly needs: { readonly slides: Slides };
  readonly settings: SphereSteps;
  readonly surface: ReturnType<typeof steppedSurface>;
  /** Diameter of the widest place that was cut. */
  readonly measured: {
    /** Diameter of the widest place that was cut. */
    readonly diameter: number;
  };
  readonly correction: ReturnType<typeof steppedCorrection>;
  readonly limit: 'errors' | 'nose' | 'steps';
  readonly step: keyof typeof WORDS | keyof typeof TURNING_WORDS | SharedStep;
  readonly caution: 'blending';
}

const ACTING: readonly SourceName[] = ['touchOff', 'position', 'headstockPlanDeg'];

/** How far the work's axis passes beside the sphere's centre, turned by an angle where the zero is touched off. */
export function beside(work: SphereWork, turnedDeg: number): number {
  return touchedAt(work) * sinDeg(turnedDeg);
}

/** Height at which the zero across is touched off. */
function touchedAt(work: SphereWork): number {
  const { side, fromHeight, toHeight } = shapeOf(work);
  return side === 'ball' ? fromHeight : toHeight;
}

/** The same for a limit, either way. */
function mostBeside(work: SphereWork): number {
  return Math.abs(beside(work, Math.min(90, work.setting.headstockPlanDeg)));
}

export const steps: Method<StepsMethod> = {
  name: 'steps',
  kind: 'sphere',
  on: 'lathes',
  ease: 4,
  equipment: SLIDES_EQUIPMENT,
  has: (lathe): lathe is typeof lathe & { readonly slides: Slides } => lathe.slides !== undefined,
  missing: (name) => `the slides of ${name} are not described`,
  sources: ACTING,
  setBy: null,
  assumes: () => [],
  limits: (work, { slides: { noseRadius } }) => {
    const { side, radius } = shapeOf(work);
    // A corner far larger than a ball touches it on its flat alone; in a socket it must fit.
    const largest = side === 'socket' ? radius : MOST_NOSE * radius;
    const fits = side === 'socket' ? noseRadius < largest : noseRadius <= largest;
    if (fits) return [errorsFit(work, ACTING, mostBeside(work))];
    const message = say`the tool's corner has a radius of ${tell(noseRadius)}, it must be less than ${tell(largest)}`;
    return [{ code: 'nose', message, needed: largest, available: noseRadius, met: false }];
  },
  settings: (work, { slides: { noseRadius } }) =>
    sphereSteps({ target: work.part.target, noseRadius, leftover: ridgeOf(work) }),
  limitsOfSettings: ({ steps: table }, work) => [tableLimit(table.length, ridgeOf(work))],
  expected: (work, { slides: { noseRadius, step } }, settings) =>
    steppedExpectations(work, {
      anglesDeg: anglesOf(settings),
      leftover: settings.leftover,
      noseRadius,
      shouldered: true,
      zero: work.setting.touchOff / 2,
      turned: mostBeside(work),
      touched: touchedAt(work),
      step,
    }),
};

/** Polar angles of the places from the pole on. */
export function anglesOf({ steps: table }: SphereSteps): readonly number[] {
  return table.map(({ polarAngleDeg }) => polarAngleDeg).sort((a, b) => a - b);
}
