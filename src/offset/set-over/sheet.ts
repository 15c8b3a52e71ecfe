/**
 * A taper on plain centres with the tailstock set over, as a person meets it: the order of work, the drawing, the
 * cautions, what it cuts.
 */
import { unmarked } from '../../core/dial.js';
import { plusMinus, say, tell } from '../../core/words.js';
import type { MethodSheet, Planned } from '../../method/method.js';
import { withErrors } from '../../method/model-inputs.js';
import { step } from '../../method/steps.js';
import { besideShoulder, CAUTIONS, cautions } from '../cautions.js';
import { lieOf } from '../cone-plan.js';
import { type Cutting, cuttingOf, inOrder, measuredShort, onCylinder } from '../taper-steps.js';
import { setoverCorrection } from './correction.js';
import { plainPivots, STANDS_FOR } from './expected.js';
import { setoverFigure } from './figure.js';
import type { SetoverMethod } from './method.js';
import {
  ALONG_BLANK,
  changeStep,
  endless,
  type Moved,
  readBy,
  restoreStep,
  SLIDING,
  setSteps,
  touchOffAt,
  zeroStep,
} from './steps.js';
import { setoverModel, setoverSurface } from './surface.js';

/** Sentences of its own steps, by code. */
const WORDS = {
  length: (values: { unit: string; centreDistance: number; workLength: number; limit: number }): string => {
    const { unit, centreDistance, workLength, limit } = values;
    const turns =
      centreDistance === workLength
        ? ''
        : say` In its holes it turns about two points ${tell(centreDistance, { unit, limit })} apart.`;
    return say`Clean and grease both centre holes. The work must be ${tell(workLength, { unit })} long, ${plusMinus(limit, unit)}: measure it.${turns}`;
  },
} as const;

function moved({ machine, means }: Planned<SetoverMethod>): Moved {
  return {
    what: 'tailstock',
    how: readBy(means, "the tailstock's barrel"),
    dial: machine.tailstock.dial,
    uses: ['setoverSettings', 'setoverCorrection'],
  };
}

export const setOverSheet: MethodSheet<SetoverMethod> = {
  name: 'set-over',
  title: 'work set over between centres',
  work: (planned) => {
    const { work, settings } = planned;
    const { setover, centreDistance: limit } = work.setting;
    const { centreDistance } = plainPivots(work);
    const cutting = cuttingOf(planned);
    const { unit, part } = cutting;
    const own = [
      step(WORDS, 'prepare', 'length', { unit, centreDistance, workLength: part.workLength, limit }),
      zeroStep(cutting, moved(planned), work.measuring.diameter),
      ...setSteps(cutting, settings, moved(planned), setover),
      onCylinder(cutting, ALONG_BLANK, { on: 'carriage', against: 'work', adjust: 'tailstock' }),
    ];
    const order = inOrder(planned, cutting, own, correction(planned, cutting), SLIDING);
    return [...order, restoreStep(cutting, moved(planned), work.measuring.diameter)];
  },
  figure: (planned, looks) => {
    const { headstockEnd, largeEndAt, length } = planned.work.part;
    const { centreDistance, protrusion } = plainPivots(planned.work);
    const { side: _outside, ...lie } = lieOf(planned);
    return setoverFigure({
      settings: planned.settings,
      centreDistance,
      fromPivot: Math.max(0, (headstockEnd === 'large' ? largeEndAt : largeEndAt - length) + protrusion),
      ...lie,
      ...looks,
    });
  },
  cautions: ({ work, limits }) =>
    cautions(['driver-dog', 'tailstock-clamp', 'centre-heat', ...besideShoulder(work.part, limits)], CAUTIONS),
  surface: (work, _machine, { settableValue }, errors) => {
    const { part } = work;
    const { centreDistance, protrusion } = plainPivots(work);
    return setoverSurface({
      offset: settableValue,
      length: part.length,
      headstockEnd: part.headstockEnd,
      fromPivot: Math.max(0, part.largeEndAt + protrusion),
      ...withErrors(setoverModel, errors, STANDS_FOR),
      centreDistance,
      largeDiameter: part.largeDiameter,
    });
  },
  correction: (work, { tailstock: { dial } }, { settableReading }, measured) =>
    setoverCorrection({
      taper: work.part.taper,
      centreDistance: plainPivots(work).centreDistance,
      trials: [{ reading: settableReading, ...measured }],
      ...(dial && { dial: unmarked(dial) }),
    }),
};

function correction(planned: Planned<SetoverMethod>, cutting: Cutting): ReturnType<typeof changeStep> {
  const { settings } = planned;
  const how = moved(planned);
  const change = setoverCorrection({
    taper: cutting.part.taper,
    centreDistance: plainPivots(planned.work).centreDistance,
    trials: [{ reading: settings.settableReading, ...measuredShort(cutting) }],
    dial: endless(how.dial),
    touchOffPlace: touchOffAt(cutting, plainPivots(planned.work).protrusion),
  });
  return changeStep(cutting, settings, change, how);
}
