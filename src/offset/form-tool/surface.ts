/**
 * The surface that a form tool's straight edge leaves, and the same as a model for an error budget. Angles in degrees
 * from the axis of the work, lengths in any one unit.
 *
 * Every point of an edge fed towards the axis at its own height cuts deepest where the feed stops: the surface is the
 * edge, standing there, revolved about the axis, and so that of a straight path along the edge. Set at α in plan and
 * tipped out of level by τ about its level normal, the edge runs along cos τ (-sin α, 0, cos α) + sin τ (0, 1, 0): per
 * unit of length along the axis it nears the axis by tan α still, and comes higher by tan τ / cos α.
 */
import { plainArithmetic } from '../../budget/arithmetic.js';
import { type Arithmetic, frozen, type Model } from '../../budget/model.js';
import { defaulted, type Fields, number, read } from '../../core/read.js';
import { tanDeg } from '../../core/trigonometry.js';
import {
  CUT,
  CUT_INPUTS,
  type CutError,
  type CutInput,
  type EitherEnd,
  type SizedEnd,
  SMALL_DIAMETER,
  type StraightCut,
  type StraightCutOptions,
  type StraightPath,
  sizedCut,
  smallDiameter,
  straightCut,
} from '../straight-cut.js';
import { acute } from '../swivel.js';

/** How the edge of a form tool is set, and what is wrong with that. */
export interface FormToolSet {
  /** Angle from the axis to which the edge was set. */
  readonly angleDeg: number;
  /**
   * True angle of the edge from the axis, seen in plan, minus the one that it was set to.
   *
   * @defaultValue 0
   */
  readonly angleErrorDeg?: number;
  /**
   * How far the edge is tipped out of level: positive if it rises towards the small end. The tool's height is then that
   * of the edge at the end touched off.
   *
   * @defaultValue 0
   */
  readonly tipDeg?: number;
}

/** What {@link formToolSurface} needs. */
export type FormToolSurfaceOptions = SizedEnd & StraightCutOptions & FormToolSet;

/** The errors of a form tool's edge, 0 where they are left out. */
export type FormToolError = 'angleErrorDeg' | 'tipDeg' | CutError;

const angle = number({ above: -90, below: 90 });

const OPTIONS: Fields<FormToolSet & EitherEnd, FormToolError> = {
  angleDeg: angle,
  angleErrorDeg: defaulted(angle, 0),
  tipDeg: defaulted(angle, 0),
  ...CUT,
};

/** The edge, seen from the work. */
function edge<T>(
  a: Arithmetic<T>,
  given: Readonly<Record<'angleDeg' | 'angleErrorDeg' | 'tipDeg' | 'toolHeight', T>>,
): StraightPath<T> {
  const real = a.add(given.angleDeg, given.angleErrorDeg);
  return { tan: a.tanDeg(real), height: given.toolHeight, rise: a.divide(a.tanDeg(given.tipDeg), a.cosDeg(real)) };
}

/**
 * The surface that a form tool leaves as it is really set: a cone, or a hyperboloid if the edge is off centre height or
 * out of level. Rates are compared with the angle that the edge was set to.
 *
 * @param options - Angle, length, the diameter at the end where the tool is brought to size, and the errors.
 * @throws GeneratrixError `out-of-range` for an angle of 90° or more, `impossible-geometry` for an edge that
 * runs past the axis.
 * @example
 * ```ts
 * import { formToolSurface } from 'generatrix';
 * const cut = formToolSurface({ angleDeg: 30, tipDeg: 2, toolHeight: 0.2, length: 5, largeDiameter: 20 });
 * cut.surface.kind; // => 'hyperboloid'
 * cut.heightError.toFixed(4); // => '0.0187'
 * ```
 */
export function formToolSurface(options: FormToolSurfaceOptions): StraightCut {
  const given = read(options, OPTIONS);
  acute(given.angleDeg + given.angleErrorDeg, 'angleErrorDeg');
  return straightCut(edge(plainArithmetic, given), tanDeg(given.angleDeg), sizedCut(given));
}

/** The diameter at the small end of a taper cut by a form tool's edge: `formToolSurface` as a model. */
export const formToolModel: Model<'angleDeg' | CutInput, FormToolError> = /* @__PURE__ */ frozen({
  name: 'form-tool',
  result: SMALL_DIAMETER,
  inputs: {
    angleDeg: { kind: 'angleDeg', meaning: 'angle from the axis to which the edge is set' },
    angleErrorDeg: { kind: 'angleDeg', meaning: 'true angle of the edge minus the one it was set to', isError: true },
    tipDeg: { kind: 'angleDeg', meaning: 'tip of the edge out of level', isError: true },
    ...CUT_INPUTS,
  },
  evaluate: (a, inputs) => smallDiameter(a, edge(a, inputs), inputs),
});
