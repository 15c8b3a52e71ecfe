/**
 * Drawings of results as SVG text: set-ups, surfaces, budgets, readings. Nothing is computed here that a
 * result does not hold; all that a figure adds is the scale of the page.
 *
 * @module figure
 */

export { type BudgetFigureOptions, budgetFigure } from './budget.js';
export { type SetoverFigureOptions, setoverFigure, type TaperedWork } from './setover.js';
export type { FigureOptions } from './sheet.js';
