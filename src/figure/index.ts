/**
 * Drawings of results as SVG text: set-ups, surfaces, budgets, readings. Nothing is computed here that a
 * result does not hold; all that a figure adds is the scale of the page.
 * @module figure
 */

export { type BudgetFigureOptions, budgetFigure } from '../draw/budget.js';
export * from '../draw/departure.js';
export { type DialFigureOptions, dialFigure } from '../draw/dial.js';
export type { FigureOptions } from '../draw/options.js';
export type { TaperedWork } from '../draw/work.js';
export { type BallSeatFigureOptions, ballSeatFigure } from '../offset/between-balls/figure.js';
export type { ConeFigureOptions, ConeLie } from '../offset/cone-plan.js';
export { type FormToolFigureOptions, formToolFigure } from '../offset/form-tool/figure.js';
export { type GuideBarFigureOptions, guideBarFigure } from '../offset/guide-bar/figure.js';
export { type BothEnds, type SetoverFigureOptions, setoverFigure } from '../offset/set-over/figure.js';
export { type TopSlideFigureOptions, topSlideFigure } from '../offset/top-slide/figure.js';
export { type SweepFigureOptions, sweepFigure } from '../sphere/tilted-sweep/figure.js';
