/** A taper on work between balls, set over by a boring head in the tailstock, as one method of cutting. */
import { perMovement, unmarked } from '../../core/dial.js';
import { say } from '../../core/words.js';
import { type Limit, range } from '../../method/limits.js';
import type { Method, MethodTypes } from '../../method/method.js';
import { sourcesOf } from '../../method/model-inputs.js';
import { slopeOf } from '../../taper/taper.js';
import type { TaperCaution } from '../cautions.js';
import { betweenCentres, shoulders, tiltsTo, travels } from '../limits.js';
import type { MeasuredTaper } from '../measured.js';
import type { TaperPart } from '../part.js';
import { errorsFit, offsetMeansOf, type Pivots, STANDS_FOR, setoverExpectations } from '../set-over/expected.js';
import { setoverModel } from '../set-over/surface.js';
import type { SharedStep } from '../step-words.js';
import type { ballCentresCorrection } from './correction.js';
import {
  BALL_CENTRES_EQUIPMENT,
  type BallCentres,
  type BallCentresEquipment,
  type CentreBall,
  seatOf,
} from './machine.js';
import { type BallCentresSettings, ballCentresSettings } from './settings.js';
import type { ballCentresSurface } from './surface.js';
import { tiltLimit } from './tilt-limit.js';

/** The types of this method. */
export interface BallCentresMethod extends MethodTypes {
  readonly name: 'ball-centres';
  readonly part: TaperPart;
  readonly on: 'lathes';
  readonly equipment: BallCentresEquipment;
  readonly needs: { readonly ballCentres: BallCentres };
  readonly settings: BallCentresSettings;
  readonly surface: ReturnType<typeof ballCentresSurface>;
  readonly measured: MeasuredTaper;
  readonly correction: ReturnType<typeof ballCentresCorrection>;
  readonly limit: 'bed' | 'errors' | 'centres' | 'side' | 'balls' | 'offset' | 'tilt' | 'shoulder';
  readonly step: 'balls' | 'level-head' | 'set-over' | 'follow-up' | 'set-over-again' | 'zero' | 'restore' | SharedStep;
  readonly caution: TaperCaution;
}

export const ballCentres: Method<BallCentresMethod> = {
  name: 'ball-centres',
  kind: 'taper',
  on: 'lathes',
  ease: 4,
  equipment: BALL_CENTRES_EQUIPMENT,
  has: (lathe): lathe is typeof lathe & { readonly ballCentres: BallCentres } => lathe.ballCentres !== undefined,
  missing: (name) => `${name} has no boring head for the tailstock with balls`,
  sources: sourcesOf(setoverModel, STANDS_FOR),
  setBy: {
    source: 'setover',
    atHand: (work, { ballCentres }) =>
      offsetMeansOf(work, pivotsOf(work.part, ballCentres).centreDistance, ballCentres.dial),
  },
  assumes: () => [],
  limits: (work, lathe) => {
    const { headstock, tailstock, dial, offset: travel } = lathe.ballCentres;
    const { part, unit } = work;
    const { sin, halfAngleDeg } = slopeOf(part.taper);
    const { centreDistance } = pivotsOf(part, lathe.ballCentres);
    const offset = centreDistance * sin;
    const reading = perMovement(dial?.reads ?? 'radius') * offset;
    return [
      ...betweenCentres(work, lathe),
      ...errorsFit(work, pivotsOf(part, lathe.ballCentres)),
      { code: 'balls', message: "the balls' centres must stay apart", met: centreDistance > 0 },
      travels('offset', ['the boring head offsets', 'the work needs'], offset, travel, unit),
      ...range('offset', "the boring head's dial", reading, dial ?? {}, unit),
      ...ballTilts(headstock, 'headstock', halfAngleDeg),
      ...ballTilts(tailstock, 'tailstock', halfAngleDeg),
      ...shoulders(work, lathe),
    ];
  },
  settings: ({ part }, { ballCentres: { headstock, tailstock, dial, offset: travel } }) =>
    ballCentresSettings({
      headstock,
      tailstock,
      faceLength: part.workLength,
      taper: part.taper,
      travel,
      length: part.length,
      ...(dial && { dial: unmarked(dial) }),
    }),
  limitsOfSettings: () => [],
  expected: (work, { ballCentres: balls }, settings, means) =>
    setoverExpectations(work, settings, pivotsOf(work.part, balls), means),
};

export function pivotsOf({ workLength }: TaperPart, { headstock, tailstock }: BallCentres): Pivots {
  const { protrusion } = seatOf(headstock);
  return { protrusion, centreDistance: protrusion + workLength + seatOf(tailstock).protrusion };
}

/** How far the work may tilt on a ball before it touches what holds the ball. */
function ballTilts(end: CentreBall, name: string, halfAngleDeg: number): readonly Limit<'tilt'>[] {
  const { holder, faceDiameter, mouthDiameter, holeAngleDeg = 60 } = end;
  if (!holder || faceDiameter === undefined) return [];
  const { protrusion } = seatOf(end);
  const { tiltLimitDeg } = tiltLimit({ holder, work: { protrusion, faceDiameter, mouthDiameter, holeAngleDeg } });
  return [
    tiltsTo('tilt', say`the work touches the holder of the ${name} ball at a tilt of`, halfAngleDeg, tiltLimitDeg),
  ];
}
