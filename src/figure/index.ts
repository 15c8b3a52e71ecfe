/**
 * Drawings of results as SVG text: set-ups, surfaces, budgets, readings. Nothing is computed here that a
 * result does not hold; all that a figure adds is the scale of the page.
 *
 * @module figure
 */

export { type BallSeatFigureOptions, ballSeatFigure } from './ball-seat.js';
export { type BudgetFigureOptions, budgetFigure } from './budget.js';
export { type DepartureFigureOptions, type DeparturePoint, departureFigure, type WantedShape } from './departure.js';
export { type DialFigureOptions, dialFigure } from './dial.js';
export { type GuideBarFigureOptions, guideBarFigure } from './guide-bar.js';
export { type SetoverFigureOptions, setoverFigure, type TaperedWork } from './setover.js';
export type { FigureOptions } from './sheet.js';
export { type SweepFigureOptions, sweepFigure } from './sweep.js';
export { type TopSlideFigureOptions, topSlideFigure } from './top-slide.js';
