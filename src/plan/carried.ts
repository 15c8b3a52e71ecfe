/** A method of a plan carried on: what its settings really cut with given errors, what to change after a trial, its drawing. */
import { below, type Fields, number, object, optional, type Reader, read } from '../core/read.js';
import { FIGURE, type FigureOptions } from '../draw/options.js';
import type { Looks } from '../method/method.js';
import { SOURCE_NAMES, type SourceErrors } from '../method/sources.js';
import type { AnyMethod } from './methods.js';
import { anyObject, chosen, PLANNED, type PlannedOptions } from './planned.js';

/** What {@link planSurface} needs. */
export interface PlanSurfaceOptions extends PlannedOptions {
  /** Errors by their source, with their sign; angles in degrees. @defaultValue none */
  readonly errors?: SourceErrors;
}

const ERRORS: Reader<SourceErrors> = object(
  Object.fromEntries(SOURCE_NAMES.map((name) => [name, optional(number())])) as unknown as Fields<SourceErrors>,
);

const SURFACE: Fields<PlanSurfaceOptions> = { ...PLANNED, errors: optional(ERRORS) };

/**
 * The surface that the settings of a plan really cut, errors included: what the method's own `…Surface` function gives.
 * @returns The surface; what it holds depends on the method.
 * @throws GeneratrixError `beyond-machine` for a method that cannot reach; what the set-up's surface function throws.
 * @example
 * ```ts
 * import { planJob, planSurface } from 'generatrix';
 * const plan = planJob({
 *   title: 'sluice spindle',
 *   unit: 'mm',
 *   part: {
 *     kind: 'taper', taper: { oneIn: 20 }, side: 'outside', largeDiameter: 24, length: 60,
 *     workLength: 180, largeEndAt: 100, headstockEnd: 'small', centreHoles: true, tolerance: { smallDiameter: 0.05 },
 *   },
 *   lathes: [{ name: 'bench lathe', centreDistance: 500, topSlide: { travel: 75 } }],
 * });
 * const cut = planSurface({ plan, errors: { topSlideDeg: 0.1, toolHeight: 0.2 } });
 * 'smallDiameter' in cut && cut.smallDiameter.toFixed(3); // => '20.791'
 * ```
 */
export function planSurface(options: PlanSurfaceOptions): AnySurface {
  const { errors = {}, ...which } = read(options, SURFACE);
  const { sheet, planned } = chosen(which);
  const { work, machine, settings } = planned;
  return below('errors', () => sheet.surface(work, machine, settings, errors)) as AnySurface;
}

/** What the surface functions of the methods give. */
export type AnySurface = AnyMethod['surface'];

/** What {@link planCorrection} needs. */
export interface PlanCorrectionOptions extends PlannedOptions {
  /** What was measured on the trial, as the method's own `…Correction` function takes it. */
  readonly measured: AnyMethod['measured'];
}

const CORRECTION: Fields<PlanCorrectionOptions> = { ...PLANNED, measured: anyObject() };

/**
 * What to change after a measured trial cut with the settings of a plan.
 * @returns What the method's own correction function gives.
 * @throws GeneratrixError `beyond-machine` for a method that cannot reach; what the correction function throws.
 * @example
 * ```ts
 * import { planCorrection, planJob } from 'generatrix';
 * const plan = planJob({
 *   title: 'sluice spindle',
 *   unit: 'mm',
 *   part: {
 *     kind: 'taper', taper: { oneIn: 20 }, side: 'outside', largeDiameter: 24, length: 60,
 *     workLength: 180, largeEndAt: 100, headstockEnd: 'small', centreHoles: true, tolerance: { smallDiameter: 0.05 },
 *   },
 *   lathes: [{ name: 'bench lathe', centreDistance: 500, topSlide: { travel: 75 } }],
 * });
 * const change = planCorrection({ plan, measured: { largeDiameter: 24, smallDiameter: 21.02, length: 60 } });
 * 'changeMinutes' in change && change.changeMinutes.toFixed(2); // => '0.57'
 * ```
 */
export function planCorrection(options: PlanCorrectionOptions): AnyCorrection {
  const { measured, ...which } = read(options, CORRECTION);
  const { sheet, planned } = chosen(which);
  const { work, machine, settings } = planned;
  return below('measured', () => sheet.correction(work, machine, settings, measured)) as AnyCorrection;
}

/** What the correction functions of the methods give. */
export type AnyCorrection = AnyMethod['correction'];

/** What {@link planFigure} needs. */
export interface PlanFigureOptions extends PlannedOptions, Pick<FigureOptions, 'title' | 'width' | 'theme' | 'brief'> {}

const PLAN_FIGURE: Fields<PlanFigureOptions, 'width' | 'theme' | 'brief'> = {
  ...PLANNED,
  title: FIGURE.title,
  width: FIGURE.width,
  theme: FIGURE.theme,
  brief: FIGURE.brief,
};

/**
 * The drawing of the set-up for a method of a plan.
 * @returns SVG text, such as `shopSheet` takes.
 * @throws GeneratrixError `beyond-machine` for a method that cannot reach.
 * @example
 * ```ts
 * import { planFigure, planJob } from 'generatrix';
 * const plan = planJob({
 *   title: 'knob',
 *   unit: 'mm',
 *   part: { kind: 'sphere', target: { part: 'ball-on-stem', diameter: 40, stemDiameter: 16 }, tolerance: { radius: 0.2 } },
 *   lathes: [{ name: 'bench lathe', centreDistance: 500, swivelTool: { smallestRadius: 5, largestRadius: 40 } }],
 * });
 * planFigure({ plan }).startsWith('<svg '); // => true
 * ```
 */
export function planFigure(options: PlanFigureOptions): string {
  const { plan, method, title, width, theme, brief } = read(options, PLAN_FIGURE);
  const { sheet, planned } = chosen(method === undefined ? { plan } : { plan, method });
  const looks: Looks = { width, theme, brief, ...(title !== undefined && { title }) };
  return sheet.figure(planned, looks);
}
