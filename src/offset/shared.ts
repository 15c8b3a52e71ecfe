/** What the ways to cut a taper share in public: types of what they take and give. */
export type { MeasuredTaper, MeasuringUncertainty } from './measured.js';
export type {
  ChuckedError,
  CutError,
  CutInput,
  HeadstockOptions,
  SizedEnd,
  StraightCut,
  StraightCutOptions,
} from './straight-cut.js';
export type { AngleChange } from './swivel.js';
export type { ShopRule, TaperCut } from './taper-cut.js';
export type { OffsetNote, OffsetNoteCode } from './words.js';
