/**
 * Which methods can do a job, how well, what to set.
 * @module plan
 */

export type {
  Action,
  Amount,
  Blue,
  Clear,
  Control,
  Correct,
  Count,
  Feed,
  Follow,
  Indicate,
  Lay,
  MarkPlace,
  Measure,
  Move,
  Place,
  Provide,
  Reckon,
  Repeat,
  Secure,
  SetReading,
  Stop,
  Touch,
  Turn,
  Way,
  Withdraw,
  Zero,
} from '../method/actions.js';
export type { Expectation, ExpectedError, RulingInput, ToleranceOf } from '../method/expect.js';
export type { Limit } from '../method/limits.js';
export type { Means, MeansCode } from '../method/means.js';
export type { MethodTypes } from '../method/method.js';
export type { Indicator, Master, Shop, SineBar } from '../method/shop.js';
export type { SourceErrors, SourceName } from '../method/sources.js';
export type { StepKind, StepTable } from '../method/steps.js';
export type { BallCentres, CentreBall } from '../offset/between-balls/machine.js';
export type { FormTool } from '../offset/form-tool/machine.js';
export type { GuideBar } from '../offset/guide-bar/machine.js';
export type { PartCentreHole, Shoulder, TaperPart, TaperTolerance } from '../offset/part.js';
export type { Tailstock } from '../offset/set-over/machine.js';
export type { SlideNose, TopSlide } from '../offset/top-slide/machine.js';
export type { SpherePart } from '../sphere/part.js';
export type { SteppedCorrection, SteppedSurface } from '../sphere/stepped.js';
export type { Slides } from '../sphere/steps/machine.js';
export type { SwivelTool } from '../sphere/swivel-tool/machine.js';
export type { BoringHead } from '../sphere/tilted-sweep/machine.js';
export type { SphereTolerance } from '../sphere/tolerance.js';
export * from './carried.js';
export { type Caution, type CautionCode, planCautions } from './cautions.js';
export type { Job, Lathe, MeasuringLimits, Mill, SettingLimits } from './job.js';
export type { MethodName, Part } from './methods.js';
export { type MethodOutline, type Outline, outlineJob } from './outline.js';
export { type PlanOptions, planJob, planJobAsync } from './plan.js';
export type { PlannedOptions } from './planned.js';
export { type JobResult, readJob } from './read-job.js';
export type { Assumption, LimitCode, MethodPlan, MethodPlanOf, NeededChange, Plan, ReasonCode } from './result.js';
export { type ShopSheetOptions, shopSheet } from './sheet.js';
export type { SheetFigure } from './sheet-content.js';
export { planSteps, type StepCode, stepsMarkdown, type WorkStep } from './steps.js';
