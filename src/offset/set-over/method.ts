/** A taper with the tailstock set over and the work on plain centres, as one method of cutting. */
import { perMovement, unmarked } from '../../core/dial.js';
import { range } from '../../method/limits.js';
import type { Method, MethodTypes } from '../../method/method.js';
import { sourcesOf } from '../../method/model-inputs.js';
import { slopeOf } from '../../taper/taper.js';
import type { TaperCaution } from '../cautions.js';
import { betweenCentres, shoulders, tiltsTo, travels } from '../limits.js';
import type { MeasuredTaper } from '../measured.js';
import type { TaperPart, TaperWork } from '../part.js';
import type { SharedStep } from '../step-words.js';
import type { setoverCorrection } from './correction.js';
import {
  ANGLES_AGREE_WITHIN_DEG,
  errorsFit,
  offsetMeansOf,
  plainPivots,
  STANDS_FOR,
  setoverExpectations,
} from './expected.js';
import { SETOVER_EQUIPMENT, type SetoverEquipment, type Tailstock } from './machine.js';
import { type SetoverSettings, setoverSettings } from './settings.js';
import { setoverModel, type setoverSurface } from './surface.js';

/** The types of this method. */
export interface SetoverMethod extends MethodTypes {
  readonly name: 'set-over';
  readonly part: TaperPart;
  readonly on: 'lathes';
  readonly equipment: SetoverEquipment;
  readonly needs: { readonly tailstock: Tailstock };
  readonly settings: SetoverSettings;
  readonly surface: ReturnType<typeof setoverSurface>;
  readonly measured: MeasuredTaper;
  readonly correction: ReturnType<typeof setoverCorrection>;
  readonly limit: 'bed' | 'errors' | 'centres' | 'side' | 'offset' | 'tilt' | 'shoulder';
  readonly step: 'length' | 'set-over' | 'follow-up' | 'set-over-again' | 'zero' | 'restore' | SharedStep;
  readonly caution: TaperCaution;
}

/** Largest tilt of the work on plain centres, where the lathe states none. */
const PLAIN_CENTRE_TILT_DEG = 3;

const AT_THE_FACES =
  'no holes are stated: the work is taken to turn at its faces, though on plain centres it turns some tenths or millimetres inside them';
const GROUND = 'common practice, no source: a centre drill and a ground centre of one nominal angle';
const BEARS_ON_EDGES = 'common practice, no source: beyond this plain centres bear on their edges only';

export const setOver: Method<SetoverMethod> = {
  name: 'set-over',
  kind: 'taper',
  on: 'lathes',
  ease: 3,
  equipment: SETOVER_EQUIPMENT,
  has: (lathe): lathe is typeof lathe & { readonly tailstock: Tailstock } => lathe.tailstock !== undefined,
  missing: (name) => `the tailstock of ${name} cannot be set over`,
  // A tailstock moves on its ways: nothing rolls it out of level.
  sources: sourcesOf(setoverModel, STANDS_FOR).filter((name) => name !== 'rollDeg'),
  setBy: {
    source: 'setover',
    atHand: (work, { tailstock: { dial } }) => offsetMeansOf(work, plainPivots(work).centreDistance, dial),
  },
  assumes: ({ largestCentreTiltDeg }, { centreHole }) => [
    ...(largestCentreTiltDeg === undefined
      ? [{ key: 'largestCentreTiltDeg', value: PLAIN_CENTRE_TILT_DEG, reason: BEARS_ON_EDGES }]
      : []),
    ...(!centreHole
      ? [{ key: 'centreHole', of: 'part', value: 0, reason: AT_THE_FACES } as const]
      : centreHole.anglesAgreeWithinDeg === undefined
        ? [
            {
              key: 'centreHole.anglesAgreeWithinDeg',
              of: 'part',
              value: ANGLES_AGREE_WITHIN_DEG,
              reason: GROUND,
            } as const,
          ]
        : []),
  ],
  limits: (work, lathe) => {
    const { setover, dial } = lathe.tailstock;
    const { part, unit } = work;
    const { sin, halfAngleDeg } = slopeOf(part.taper);
    const pivots = plainPivots(work);
    const offset = pivots.centreDistance * sin;
    const reading = perMovement(dial?.reads ?? 'radius') * offset;
    return [
      ...betweenCentres(work, lathe),
      ...(pivots.centreDistance > 0
        ? []
        : [
            {
              code: 'centres' as const,
              message: 'the centre holes are too deep for the length of the piece',
              met: false,
            },
          ]),
      ...errorsFit(level(work), pivots),
      travels('offset', ['the tailstock sets over', 'the work needs'], offset, setover, unit),
      ...range('offset', "the tailstock's dial", reading, dial ?? {}, unit),
      tiltsTo(
        'tilt',
        'plain centres bear a tilt of',
        halfAngleDeg,
        Math.min(lathe.largestCentreTiltDeg ?? PLAIN_CENTRE_TILT_DEG, pivots.steepestDeg),
      ),
      ...shoulders(work, lathe),
    ];
  },
  settings: (work, { tailstock: { setover, dial } }) =>
    setoverSettings({
      taper: work.part.taper,
      centreDistance: plainPivots(work).centreDistance,
      travel: setover,
      length: work.part.length,
      ...(dial && { dial: unmarked(dial) }),
    }),
  limitsOfSettings: () => [],
  expected: (work, _lathe, settings, means) => setoverExpectations(level(work), settings, plainPivots(work), means),
};

function level(work: TaperWork): TaperWork {
  return { ...work, setting: { ...work.setting, rollDeg: 0 } };
}
