/** A taper with the top slide swung to the half angle, as one method of cutting. */
import { fromScale, unmarked } from '../../core/dial.js';
import { say, tell } from '../../core/words.js';
import { type Limit, limit, range } from '../../method/limits.js';
import { angleMeans } from '../../method/means.js';
import type { LatheBase, Method, MethodTypes } from '../../method/method.js';
import { type StandsFor, sourcesOf } from '../../method/model-inputs.js';
import { slopeOf } from '../../taper/taper.js';
import type { TaperCaution } from '../cautions.js';
import { TOUCHED_OFF, taperExpectations } from '../expected.js';
import { diameterAt, meets, onBed, shoulders, travels } from '../limits.js';
import type { MeasuredTaper } from '../measured.js';
import type { TaperPart, TaperWork } from '../part.js';
import type { SharedStep } from '../step-words.js';
import type { topSlideCorrection } from './correction.js';
import { TOP_SLIDE_EQUIPMENT, type TopSlide, type TopSlideEquipment } from './machine.js';
import { type TopSlideSettings, topSlideSettings } from './settings.js';
import { topSlideModel, type topSlideSurface } from './surface.js';

/** The types of this method. */
export interface TopSlideMethod extends MethodTypes {
  readonly name: 'top-slide';
  readonly part: TaperPart;
  readonly on: 'lathes';
  readonly equipment: TopSlideEquipment;
  readonly needs: { readonly topSlide: TopSlide };
  readonly settings: TopSlideSettings;
  readonly surface: ReturnType<typeof topSlideSurface>;
  readonly measured: MeasuredTaper;
  readonly correction: ReturnType<typeof topSlideCorrection>;
  readonly limit: 'bed' | 'errors' | 'angle' | 'travel' | 'shoulder';
  readonly step: 'angle' | 'lock-carriage' | 'clear-travel' | 'turn-slide' | SharedStep;
  readonly caution: TaperCaution;
}

/** The scale's zero is the error that the slide's limit speaks of. */
export const STANDS_FOR: StandsFor<keyof typeof topSlideModel.inputs> = { ...TOUCHED_OFF, zeroErrorDeg: 'topSlideDeg' };

export const topSlide: Method<TopSlideMethod> = {
  name: 'top-slide',
  kind: 'taper',
  on: 'lathes',
  ease: 1,
  equipment: TOP_SLIDE_EQUIPMENT,
  has: (lathe): lathe is typeof lathe & { readonly topSlide: TopSlide } => lathe.topSlide !== undefined,
  missing: (name) => `${name} has no top slide that swivels`,
  sources: sourcesOf(topSlideModel, STANDS_FOR),
  setBy: {
    source: 'topSlideDeg',
    indicated: 'headstockPlanDeg',
    atHand: (work, { topSlide: { travel, scale } }) => {
      const { halfAngleDeg: angleDeg } = slopeOf(work.part.taper);
      return angleMeans({ angleDeg, travel, along: ['guide'], divisionDeg: scale?.stepDeg }, work);
    },
  },
  assumes: () => [],
  limits: (work, lathe) => {
    const { travel, scale } = lathe.topSlide;
    const { cos, halfAngleDeg } = slopeOf(work.part.taper);
    const ends = { from: scale?.fromDeg, to: scale?.toDeg };
    return [
      onBed(work, lathe),
      meets(work),
      ...(scale ? range('angle', "the slide's scale", fromScale(halfAngleDeg, scale), ends, '°') : []),
      travels('travel', ['the slide travels', "the taper's side is"], work.part.length / cos, travel, work.unit),
      ...shoulders(work, lathe),
      ...noseClears(work, lathe),
    ];
  },
  settings: ({ part }, { topSlide: { travel, scale } }) =>
    topSlideSettings({ taper: part.taper, length: part.length, travel, ...(scale && { scale: unmarked(scale) }) }),
  limitsOfSettings: () => [],
  expected: (work, _lathe, { halfAngleDeg }, means) =>
    taperExpectations(work, {
      model: topSlideModel,
      values: { angleDeg: halfAngleDeg },
      standsFor: STANDS_FOR,
      again: { zeroErrorDeg: means?.change ?? 0 },
    }),
};

/**
 * The swung top slide's nose runs ahead of the tip. At the end of the taper towards a shoulder it stands
 * beyond the taper by ahead cos α ∓ back sin α, and back from the side by ahead sin α ± back cos α.
 */
function noseClears(
  { part, unit }: TaperWork,
  { topSlide: { nose } }: LatheBase & TopSlideMethod['needs'],
): readonly Limit<'shoulder'>[] {
  if (!nose || part.side === 'inside') return [];
  const { ahead, back } = nose;
  const { sin, cos } = slopeOf(part.taper);
  return (part.shoulders ?? []).map(({ at, diameter, gap }) => {
    const opening = at === 'large' ? 1 : -1;
    const beyond = ahead * cos - opening * back * sin;
    const radius = diameterAt(part, at) / 2 + opening * ahead * sin + back * cos;
    if (radius >= diameter / 2) {
      return limit(
        'shoulder',
        say`the slide's nose passes outside the shoulder at the ${at} end`,
        diameter / 2,
        radius,
      );
    }
    const [runs, stands] = [tell(beyond, { unit }), tell(gap, { unit })];
    return limit(
      'shoulder',
      say`the slide's nose runs ${runs} beyond the taper, the shoulder at the ${at} end stands ${stands} beyond it`,
      beyond,
      gap,
    );
  });
}
