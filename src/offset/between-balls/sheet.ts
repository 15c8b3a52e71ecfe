/** A taper on work between balls, as a person meets it: the order of work, the drawing, the cautions, what it cuts. */
import { unmarked } from '../../core/dial.js';
import { sinDeg } from '../../core/trigonometry.js';
import { plusMinus, say } from '../../core/words.js';
import { amount, told, toldHeld, wayTold } from '../../method/action-words.js';
import type { Action, Amount, Indicate, Measure, Secure } from '../../method/actions.js';
import type { MethodSheet, Planned } from '../../method/method.js';
import { withErrors } from '../../method/model-inputs.js';
import { step } from '../../method/steps.js';
import { besideShoulder, CAUTIONS, cautions } from '../cautions.js';
import { lieOf } from '../cone-plan.js';
import { STANDS_FOR } from '../set-over/expected.js';
import { setoverFigure } from '../set-over/figure.js';
import {
  ALONG_BLANK,
  BROUGHT_UP,
  changeStep,
  endless,
  type Moved,
  readBy,
  restoreStep,
  SLIDING,
  setSteps,
  touchOffAt,
  zeroStep,
} from '../set-over/steps.js';
import { setoverModel } from '../set-over/surface.js';
import { name } from '../step-words.js';
import { type Cutting, clamp, cuttingOf, inOrder, measuredShort, onCylinder } from '../taper-steps.js';
import { ballCentresCorrection } from './correction.js';
import { seatOf } from './machine.js';
import { type BallCentresMethod, pivotsOf } from './method.js';
import { ballCentresSurface } from './surface.js';

/** Sentences of its own steps, by code. */
const WORDS = {
  balls: (values: { hold: Secure; clamp: readonly Secure[]; over: Measure; centreDistance: Amount }): string => {
    const { over, centreDistance } = values;
    const [headstock, tailstock] = (over.sizes ?? []).map(told) as [string, string];
    return say`Take the work out and put the boring head into the tailstock. Put the balls, ${headstock} at the headstock and ${tailstock} at the tailstock, into their clean, greased holes. Over both balls the work must measure ${toldHeld(over.must)}: then their centres stand ${told(centreDistance)} apart. Hold the work between them.`;
  },
  'level-head': ({
    level,
    rollDeg,
  }: {
    ease: readonly Secure[];
    level: Indicate;
    after: readonly Action[];
    rollDeg: number;
  }): string =>
    say`Turn the head until its slide moves level, ${plusMinus(rollDeg, '°')}: ease the barrel, and with an indicator, plunger upright, find the top of the blank beside the tailstock; with the head moved by ${told(level.travel)} ${wayTold(level.way)} the top must stand at the same height within ${told({ ...level.needle, value: level.needle.limit ?? 0 })}. Until it does, turn the ${name(level.adjust ?? '')}. Then clamp it, and bring the barrel up and clamp it.`,
} as const;

function moved({ machine, means }: Planned<BallCentresMethod>): Moved {
  return {
    what: 'tailstock-head',
    how: readBy(means, "the ball's holder"),
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
    const { headstockEnd } = cutting.part;
    const over: Measure = {
      do: 'measure',
      what: 'over both balls',
      with: 'a micrometer or a rule',
      sizes: [amount(headstockBall, unit), amount(tailstockBall, unit)],
      must: amount(lengthOverBalls, unit, limit),
    };
    const level: Indicate = {
      do: 'indicate',
      on: 'carriage',
      against: 'top of the work',
      control: 'tailstock-head',
      travel: amount(settings.offset, unit, settings.offset / 10),
      way: headstockEnd === 'large' ? 'operator' : 'away-from-operator',
      needle: amount(0, unit, settings.offset * sinDeg(rollDeg)),
      sense: 'still',
      adjust: 'shank',
    };
    const own = [
      step(
        WORDS,
        'prepare',
        'balls',
        {
          clamp: [clamp('barrel', 'unclamp'), clamp('work', 'take-out'), clamp('tailstock-head', 'put-back')],
          over,
          hold: { do: 'hold', what: 'work', by: 'balls' },
          centreDistance: amount(centreDistance, unit, limit),
        },
        { uses: 'ballCentreDistance' },
      ),
      step(WORDS, 'prepare', 'level-head', {
        ease: [clamp('barrel', 'ease'), clamp('tailstock-head', 'unclamp')],
        level,
        after: [clamp('shank'), BROUGHT_UP, clamp('barrel')],
        rollDeg,
      }),
      zeroStep(cutting, moved(planned), work.measuring.diameter),
      ...setSteps(cutting, settings, moved(planned), setover),
      onCylinder(cutting, ALONG_BLANK, { on: 'carriage', against: 'work', adjust: 'tailstock-head' }),
    ];
    const order = inOrder(planned, cutting, own, correction(planned, cutting), SLIDING);
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
