/**
 * Error budgets of any model.
 * @module budget
 */

export {
  type AdaptiveOptions,
  type AdaptiveResult,
  adaptiveMonteCarlo,
  adaptiveMonteCarloAsync,
  type Validation,
  type ValidationOptions,
  validateFirstOrder,
} from './adaptive.js';
export { type AllocatedSetting, type Allocation, type AllocationOptions, allocate } from './allocation.js';
export { type ComparedResult, type Comparison, type ComparisonOptions, compareResults } from './compare.js';
export {
  type Conformity,
  type ConformityOptions,
  conformity,
  type ProductionOptions,
  type ProductionRisks,
  productionRisks,
  type SpecificationLimits,
} from './conformity.js';
export { type Correlation, type CorrelationMatrix, type Correlations, correlationsOfReadings } from './correlation.js';
export type { CoverageInterval, Moments } from './coverage.js';
export { type Budget, type BudgetOptions, type BudgetRow, budget } from './first-order.js';
export type { BudgetFunction, ByInput, Inputs } from './functions.js';
export type { BoundedShape, Input, Spread } from './inputs.js';
export type { Distribution } from './known.js';
export type { Arithmetic, ErrorQuantity, Model, Quantity } from './model.js';
export {
  type LongRun,
  type MonteCarloJob,
  type MonteCarloOptions,
  type MonteCarloPart,
  type MonteCarloPartOptions,
  type MonteCarloResult,
  mergeMonteCarlo,
  monteCarlo,
  monteCarloAsync,
  monteCarloPart,
} from './monte-carlo.js';
export { type RoundedResult, type RoundResultOptions, roundResult } from './rounding.js';
export type { SecondOrder } from './second-order.js';
export { type CoverageOptions, coverageFactor } from './student.js';
export { type BudgetTable, type BudgetTableOptions, budgetTable } from './table.js';
export { atTemperature, type LengthOf, type TemperatureInput, type TemperatureOptions } from './temperature.js';
export type { BatchFunction, MonteCarloModel } from './trials.js';
export type { BudgetNoteCode, FirstOrderNoteCode } from './words.js';
export { type Extreme, type WorstCase, type WorstCaseOptions, worstCase } from './worst-case.js';
