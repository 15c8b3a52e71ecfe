/** A taper with the tool led by a guide bar, as one method of cutting. */
import { unmarked } from '../../core/dial.js';
import { toDegrees } from '../../core/trigonometry.js';
import { range } from '../../method/limits.js';
import { angleMeans } from '../../method/means.js';
import type { Method, MethodTypes } from '../../method/method.js';
import { type StandsFor, sourcesOf } from '../../method/model-inputs.js';
import { slopeOf } from '../../taper/taper.js';
import type { TaperCaution } from '../cautions.js';
import { TOUCHED_OFF, taperExpectations } from '../expected.js';
import { meets, onBed, shoulders, tiltsTo, travels } from '../limits.js';
import type { MeasuredTaper } from '../measured.js';
import type { TaperPart } from '../part.js';
import type { SharedStep } from '../step-words.js';
import { toolHeightModel } from '../tool-height/surface.js';
import type { guideBarCorrection } from './correction.js';
import { GUIDE_BAR_EQUIPMENT, type GuideBar, type GuideBarEquipment } from './machine.js';
import { barScale } from './scale.js';
import { type GuideBarSettings, guideBarSettings } from './settings.js';
import type { guideBarSurface } from './surface.js';

/** The types of this method. */
export interface GuideBarMethod extends MethodTypes {
  readonly name: 'guide-bar';
  readonly part: TaperPart;
  readonly on: 'lathes';
  readonly equipment: GuideBarEquipment;
  readonly needs: { readonly guideBar: GuideBar };
  readonly settings: GuideBarSettings;
  readonly surface: ReturnType<typeof guideBarSurface>;
  readonly measured: MeasuredTaper;
  readonly correction: ReturnType<typeof guideBarCorrection>;
  readonly limit: 'bed' | 'errors' | 'angle' | 'travel' | 'shoulder';
  readonly step: 'bar' | 'free-cross-feed' | 'clear-travel' | 'turn-bar' | SharedStep;
  readonly caution: TaperCaution;
}

/** The bar's angle is off by what its limit says. */
export const STANDS_FOR: StandsFor<keyof typeof toolHeightModel.inputs> = {
  ...TOUCHED_OFF,
  halfAngleDeg: 'guideBarDeg',
};

export const guideBar: Method<GuideBarMethod> = {
  name: 'guide-bar',
  kind: 'taper',
  on: 'lathes',
  ease: 2,
  equipment: GUIDE_BAR_EQUIPMENT,
  has: (lathe): lathe is typeof lathe & { readonly guideBar: GuideBar } => lathe.guideBar !== undefined,
  missing: (name) => `${name} has no guide bar`,
  sources: sourcesOf(toolHeightModel, STANDS_FOR),
  setBy: {
    source: 'guideBarDeg',
    indicated: 'headstockPlanDeg',
    atHand: (work, { guideBar: { travel, scale } }) => {
      const { halfAngleDeg: angleDeg, cos } = slopeOf(work.part.taper);
      const perReading = toDegrees(barScale(scale).tanPerReading(angleDeg) * cos ** 2);
      const divisionDeg = scale.step === undefined ? undefined : scale.step * perReading;
      return angleMeans({ angleDeg, travel, along: ['bed'], divisionDeg }, work);
    },
  },
  assumes: () => [],
  limits: (work, lathe) => {
    const { scale, travel, largestHalfAngleDeg } = lathe.guideBar;
    const { halfAngleDeg } = slopeOf(work.part.taper);
    const { reading, graduation } = barScale(scale);
    const mark = { 'half-angle': '°', 'included-angle': '°', 'per-foot': '', offset: work.unit }[scale.by];
    return [
      onBed(work, lathe),
      meets(work),
      tiltsTo('angle', 'the bar swings', halfAngleDeg, largestHalfAngleDeg),
      ...range('angle', "the bar's scale", reading(halfAngleDeg), graduation, mark),
      travels('travel', ['the bar guides', 'the taper is'], work.part.length, travel, work.unit),
      ...shoulders(work, lathe),
    ];
  },
  settings: ({ part: { taper, length } }, { guideBar: { scale, travel } }) =>
    guideBarSettings({ taper, length, scale: unmarked(scale), travel }),
  limitsOfSettings: () => [],
  expected: (work, _machine, { halfAngleDeg }, means) =>
    taperExpectations(work, {
      model: toolHeightModel,
      values: { halfAngleDeg },
      standsFor: STANDS_FOR,
      again: { halfAngleDeg: means?.change ?? 0 },
    }),
};
