/**
 * A tool above or below centre height, whichever way the taper is cut: its straight path then passes the work's
 * axis at that height and cuts a hyperboloid instead of a cone. Work in a chuck may also lie out of line with the bed.
 */
import { plainArithmetic } from '../../budget/arithmetic.js';
import { frozen, type Model } from '../../budget/model.js';
import { anyNumber, type Fields, read } from '../../core/read.js';
import { slopeOf, type Taper, taper } from '../../taper/taper.js';
import {
  CHUCKED,
  CHUCKED_INPUTS,
  type ChuckedError,
  type CutInput,
  chuckedPath,
  type EitherEnd,
  type HeadstockOptions,
  type SizedEnd,
  SMALL_DIAMETER,
  type StraightCut,
  type StraightCutOptions,
  sizedCut,
  smallDiameter,
  straightCut,
} from '../straight-cut.js';
import { acute } from '../swivel.js';

/** The path that a tool off centre height follows. */
export interface ToolHeightPath extends StraightCutOptions, HeadstockOptions {
  /** The taper that the tool's path is set to, against the bed. */
  readonly taper: Taper;
  /** How far the tool's tip stands above the axis of the work; negative below. The sign changes nothing on level work. */
  readonly toolHeight: number;
}

/** What {@link toolHeightSurface} needs. */
export type ToolHeightOptions = SizedEnd & ToolHeightPath;

const OPTIONS: Fields<EitherEnd & HeadstockOptions & ToolHeightPath, Exclude<ChuckedError, 'toolHeight'>> = {
  ...CHUCKED,
  taper,
  toolHeight: anyNumber,
};

/**
 * What a tool off centre height cuts: a hyperboloid whose waist is the height, between the end that
 * was touched off to size and an end that is not to size.
 *
 * The small end comes out too large if the large end was sized, 2·sqrt(x₁² + y²) with
 * x₁ = sqrt((D/2)² - y²) - L tan α; the large end too small if the small end was. The same for every
 * way to cut a taper, so long as the tool's path is straight and level with the axis.
 * @throws GeneratrixError `out-of-range` for a height beyond the sized end's radius, `impossible-geometry` if
 * the path would run past the axis.
 * @example
 * ```ts
 * import { toolHeightSurface } from 'generatrix';
 * const cut = toolHeightSurface({ taper: { oneIn: 10 }, length: 100, largeDiameter: 30, toolHeight: 1 });
 * cut.smallDiameter.toFixed(4); // => '20.0333'
 * cut.heightError.toFixed(4); // => '0.0333'
 * cut.hollow.toFixed(5); // => '0.00168'
 * ```
 */
export function toolHeightSurface(options: ToolHeightOptions): StraightCut {
  const given = read(options, OPTIONS);
  const { tan, halfAngleDeg } = slopeOf(given.taper);
  acute(halfAngleDeg + given.headstockPlanDeg, 'headstockPlanDeg');
  return straightCut(chuckedPath(plainArithmetic, tan, given), tan, sizedCut(given));
}

/**
 * The diameter at the small end of a taper cut by a straight, level path at any angle, with the tool at a height:
 * `toolHeightSurface` as a model.
 */
export const toolHeightModel: Model<'halfAngleDeg' | CutInput, ChuckedError> = /* @__PURE__ */ frozen({
  name: 'tool-height',
  result: SMALL_DIAMETER,
  inputs: { halfAngleDeg: { kind: 'angleDeg', meaning: 'angle of the path from the bed' }, ...CHUCKED_INPUTS },
  evaluate: (a, inputs) => {
    return smallDiameter(a, chuckedPath(a, a.tanDeg(inputs.halfAngleDeg), inputs), inputs);
  },
});
