/** A taper on work between balls, as a person meets it: the order of work, the drawing, the cautions, what it cuts. */
import { unmarked } from '../../core/dial.js';
import { sinDeg } from '../../core/trigonometry.js';
import { plusMinus, say, tell } from '../../core/words.js';
import type { MethodSheet, Planned } from '../../method/method.js';
import { withErrors } from '../../method/model-inputs.js';
import { step } from '../../method/steps.js';
import { besideShoulder, CAUTIONS, cautions } from '../cautions.js';
import { lieOf } from '../cone-plan.js';
import { STANDS_FOR } from '../set-over/expected.js';
import { setoverFigure } from '../set-over/figure.js';
import {
  changeStep,
  endless,
  type Moved,
  readBy,
  restoreStep,
  setSteps,
  touchOffAt,
  zeroStep,
} from '../set-over/steps.js';
import { setoverModel } from '../set-over/surface.js';
import { type Cutting, cuttingOf, inOrder, measuredShort, onCylinder } from '../taper-steps.js';
import { ballCentresCorrection } from './correction.js';
import { seatOf } from './machine.js';
import { type BallCentresMethod, pivotsOf } from './method.js';
import { ballCentresSurface } from './surface.js';

interface Balls {
  readonly unit: string;
  readonly headstockBall: number;
  readonly tailstockBall: number;
  readonly lengthOverBalls: number;
  readonly centreDistance: number;
  readonly limit: number;
}

/** Sentences of its own steps, by code. */
const WORDS = {
  balls: ({ unit, headstockBall, tailstockBall, lengthOverBalls, centreDistance, limit }: Balls): string => {
    const [over, apart] = [tell(lengthOverBalls, { unit, limit }), tell(centreDistance, { unit, limit })];
    return say`Put the balls, ${tell(headstockBall, { unit })} at the headstock and ${tell(tailstockBall, { unit })} at the tailstock, into their clean, greased holes. Over both balls the work must measure ${over}, ${plusMinus(limit, unit)}: then their centres stand ${apart} apart.`;
  },
  'level-head': ({
    unit,
    rollDeg,
    offset,
    rise,
  }: {
    unit: string;
    rollDeg: number;
    offset: number;
    rise: number;
  }): string =>
    say`Put the boring head into the tailstock and turn it until its slide moves level, ${plusMinus(rollDeg, '°')}: with an indicator, plunger upright, find the top of the blank beside the tailstock; with the head moved by ${tell(offset, { unit, limit: offset / 10 })} the top must stand at the same height within ${tell(rise, { unit, limit: rise })}. Then clamp the shank.`,
} as const;

function moved({ machine, means }: Planned<BallCentresMethod>): Moved {
  return {
    what: 'boring head',
    how: 'Then set the head over',
    afterwards: say`${readBy(means, "the ball's holder")} Lock the head's slide and read again.`,
    dial: machine.ballCentres.dial,
    uses: ['ballCentresSettings', 'ballCentresCorrection'],
  };
}

export const ballCentresSheet: MethodSheet<BallCentresMethod> = {
  name: 'ball-centres',
  title: 'work set over between balls, by a boring head in the tailstock',
  work: (planned) => {
    const { work, settings, machine } = planned;
    const { setover, centreDistance: limit, rollDeg } = work.setting;
    const cutting = cuttingOf(planned);
    const { unit } = cutting;
    const { centreDistance } = settings;
    const headstockBall = machine.ballCentres.headstock.ballDiameter;
    const tailstockBall = machine.ballCentres.tailstock.ballDiameter;
    const lengthOverBalls = centreDistance + (headstockBall + tailstockBall) / 2;
    const balls = { unit, headstockBall, tailstockBall, lengthOverBalls, centreDistance, limit };
    const own = [
      step(WORDS, 'prepare', 'balls', balls, { uses: 'ballCentreDistance' }),
      step(WORDS, 'prepare', 'level-head', {
        unit,
        rollDeg,
        offset: settings.offset,
        rise: settings.offset * sinDeg(rollDeg),
      }),
      zeroStep(cutting, moved(planned), work.measuring.diameter),
      ...setSteps(cutting, settings, moved(planned), setover),
      onCylinder(cutting, 'Along the cylindrical blank run an indicator on the carriage'),
    ];
    const order = inOrder(planned, cutting, own, correction(planned, cutting), 'yes');
    return [...order, restoreStep(cutting, moved(planned), work.measuring.diameter)];
  },
  figure: (planned, looks) => {
    const { headstockEnd, largeEndAt, length } = planned.work.part;
    const { side: _outside, ...lie } = lieOf(planned);
    const { headstock, tailstock } = planned.machine.ballCentres;
    const nearEnd = headstockEnd === 'large' ? largeEndAt : largeEndAt - length;
    return setoverFigure({
      settings: planned.settings,
      fromPivot: Math.max(0, nearEnd + seatOf(headstock).protrusion),
      balls: { headstock: headstock.ballDiameter, tailstock: tailstock.ballDiameter },
      ...lie,
      ...looks,
    });
  },
  cautions: ({ work, limits, settings }) => {
    const near = settings.notes.some(({ code }) => code.endsWith('tilt-near-limit'));
    return cautions(
      [
        'driver-dog',
        'tailstock-clamp',
        'ball-heat',
        'head-off-axis',
        ...(near ? (['holder-contact'] as const) : []),
        ...besideShoulder(work.part, limits),
      ],
      CAUTIONS,
    );
  },
  surface: ({ part }, { ballCentres: balls }, { settableValue }, errors) =>
    ballCentresSurface({
      headstock: balls.headstock,
      tailstock: balls.tailstock,
      offset: settableValue,
      length: part.length,
      headstockEnd: part.headstockEnd,
      fromPivot: part.largeEndAt + pivotsOf(part, balls).protrusion,
      ...withErrors(setoverModel, errors, STANDS_FOR),
      faceLength: part.workLength,
      largeDiameter: part.largeDiameter,
    }),
  correction: ({ part }, { ballCentres: { headstock, tailstock, dial } }, { settableReading }, measured) =>
    ballCentresCorrection({
      headstock,
      tailstock,
      faceLength: part.workLength,
      taper: part.taper,
      trials: [{ reading: settableReading, ...measured }],
      ...(dial && { dial: unmarked(dial) }),
    }),
};

function correction(planned: Planned<BallCentresMethod>, cutting: Cutting): ReturnType<typeof changeStep> {
  const { settings, machine } = planned;
  const { headstock, tailstock } = machine.ballCentres;
  const how = moved(planned);
  const change = ballCentresCorrection({
    headstock,
    tailstock,
    faceLength: cutting.part.workLength,
    taper: cutting.part.taper,
    trials: [{ reading: settings.settableReading, ...measuredShort(cutting) }],
    dial: endless(how.dial),
    touchOffPlace: touchOffAt(cutting, seatOf(headstock).protrusion),
  });
  return changeStep(cutting, settings, change, how);
}
