/** A taper on work between balls, as a person meets it: the order of work, the drawing, the cautions. */
import { plusMinus, say, tell } from '../../core/words.js';
import type { MethodSheet, Planned } from '../../method/method.js';
import { step } from '../../method/steps.js';
import { besideShoulder, CAUTIONS, cautions } from '../cautions.js';
import { setoverFigure } from '../set-over/figure.js';
import { changeStep, endless, type Moved, setSteps, touchOffAt } from '../set-over/steps.js';
import { type Cutting, cuttingOf, drawn, inOrder, measuredShort, onCylinder } from '../taper-steps.js';
import { ballCentresCorrection } from './correction.js';
import { seatOf } from './machine.js';
import type { BallCentresMethod } from './method.js';

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
  'level-head': ({ rollDeg }: { rollDeg: number }): string =>
    say`Put the boring head into the tailstock and turn it until its slide moves level, ${plusMinus(rollDeg, '°')}: an indicator under the head must not rise or fall as the slide is moved. With the head at its zero the work must lie in line with the bed.`,
} as const;

function moved({ machine }: Planned<BallCentresMethod>): Moved {
  return {
    what: 'boring head',
    how: 'Set the head over',
    afterwards: "Come up to the reading from below, never back; lock the head's slide and read again.",
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
      step(WORDS, 'prepare', 'level-head', { rollDeg }),
      ...setSteps(cutting, settings, moved(planned), setover),
      onCylinder(cutting, 'Along the cylindrical blank run an indicator on the carriage'),
    ];
    return inOrder(planned, cutting, own, correction(planned, cutting), 'yes');
  },
  figure: (planned, looks) => {
    const cutting = cuttingOf(planned);
    const { headstockEnd, largeEndAt, length } = cutting.part;
    const { headstock, tailstock } = planned.machine.ballCentres;
    const nearEnd = headstockEnd === 'large' ? largeEndAt : largeEndAt - length;
    return setoverFigure({
      settings: planned.settings,
      work: drawn(cutting),
      headstockEnd,
      fromPivot: Math.max(0, nearEnd + seatOf(headstock).protrusion),
      balls: { headstock: headstock.ballDiameter, tailstock: tailstock.ballDiameter },
      unit: cutting.unit,
      ...looks,
    });
  },
  cautions: ({ work, limits, machine, settings }) => {
    const held = machine.ballCentres.headstock.holder ?? machine.ballCentres.tailstock.holder;
    return cautions(
      [
        'driver-dog',
        'tailstock-clamp',
        'ball-heat',
        'head-off-axis',
        ...(held && settings.tiltDeg > 0 ? (['holder-contact'] as const) : []),
        ...besideShoulder(work.part, limits),
      ],
      CAUTIONS,
    );
  },
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
