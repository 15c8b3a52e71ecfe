/**
 * Drawings of results as SVG text: set-ups, surfaces, budgets, readings. Nothing is computed here that a
 * result does not hold; all that a figure adds is the scale of the page.
 *
 * @module figure
 */

export { type BudgetFigureOptions, budgetFigure } from '../draw/budget.js';
export {
  type DepartureFigureOptions,
  type DeparturePoint,
  departureFigure,
  type WantedShape,
} from '../draw/departure.js';
export { type DialFigureOptions, dialFigure } from '../draw/dial.js';
export type { FigureOptions } from '../draw/options.js';
export type { TaperedWork } from '../draw/work.js';
export { type BallSeatFigureOptions, ballSeatFigure } from './ball-seat.js';
export type { ConeLie } from './cone-plan.js';
export { type GuideBarFigureOptions, guideBarFigure } from './guide-bar.js';
export { type BothEnds, type SetoverFigureOptions, setoverFigure } from './setover.js';
export { type SweepFigureOptions, sweepFigure } from './sweep.js';
export { type TopSlideFigureOptions, topSlideFigure } from './top-slide.js';
