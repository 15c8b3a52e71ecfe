/**
 * Which methods can do a job, how well, what to set.
 *
 * @module plan
 */

export { type Caution, planCautions } from './cautions.js';
export type {
  CentreBall,
  Job,
  Lathe,
  MeasuringLimits,
  Mill,
  SettingLimits,
  Shoulder,
  SpherePart,
  TaperPart,
} from './job.js';
export { planJob } from './plan.js';
export type {
  Assumption,
  Expectation,
  ExpectedError,
  Limit,
  Method,
  MethodPlan,
  NeededChange,
  Plan,
  RulingInput,
} from './result.js';
export { type SheetFigure, type ShopSheetInput, shopSheet } from './sheet.js';
export { planSteps, type StepTable, stepsMarkdown, type WorkStep } from './steps.js';
