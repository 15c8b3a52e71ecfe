/** A taper with the guide bar, as a person meets it: the order of work, the drawing, the cautions, what it cuts. */
import { unmarked } from '../../core/dial.js';
import { toRadians } from '../../core/trigonometry.js';
import { plusMinus, say, tell } from '../../core/words.js';
import { amount, told, wayTold } from '../../method/action-words.js';
import type { Correct, Move, Secure, SetReading } from '../../method/actions.js';
import type { MethodSheet, Planned } from '../../method/method.js';
import { withErrors } from '../../method/model-inputs.js';
import { type Step, step } from '../../method/steps.js';
import { besideShoulder, CAUTIONS, cautions } from '../cautions.js';
import { lieOf } from '../cone-plan.js';
import { leaning, swungWay } from '../step-words.js';
import {
  backToZero,
  byStanding,
  type Cut,
  type Cutting,
  clamp,
  cutsTo,
  cuttingOf,
  inOrder,
  measuredShort,
  onCylinder,
  setsByNeedle,
} from '../taper-steps.js';
import { toolHeightModel } from '../tool-height/surface.js';
import { turned, turning } from '../turning.js';
import { guideBarCorrection } from './correction.js';
import { guideBarFigure } from './figure.js';
import { type GuideBarMethod, STANDS_FOR } from './method.js';
import { guideBarSurface } from './surface.js';

/** Sentences of its own steps, by code. */
const WORDS = {
  'free-cross-feed': ({ square }: { free: Secure; square: SetReading; clamp: Secure }): string =>
    say`Free the cross slide from its screw, so that the bar alone moves it, and set the top slide square to the bed, ${told(square.reading)} from it, and clamp it: from now on it gives the depth, and what it is fed comes off the radius.`,
  'clear-travel': ({
    move,
    unit,
    crossTravel,
  }: {
    clamp: Secure;
    move: Move;
    unit: string;
    crossTravel: number;
  }): string =>
    say`Clamp the bar's bracket to the bed so that the slider stays on the bar over the taper's ${told(move.by)} and the run before it; over them the cross slide moves ${tell(crossTravel, { unit })}. With the power off try the whole way by hand, ${wayTold(move.way)}, and take up the play of the slider before each cut by starting outside the taper.`,
  bar: ({ set }: { set: SetReading; clamp: Secure; halfAngleDeg: number; limitDeg: number }): string =>
    say`Set the bar to ${told(set.reading)}, ${plusMinus(set.reading.limit ?? 0, set.reading.unit)}, ${leaning(set.way)}. Clamp both ends.`,
  'turn-bar': ({ correct, unit, length }: { correct: Correct; unit: string; length: number }): string =>
    turned(correct, 'bar', say`over ${tell(length, { unit })}`),
} as const;

/** The carriage feeds, the top slide gives the depth. */
const CUT: Cut = { control: 'carriage', depth: 'top-slide' };

export const guideBarSheet: MethodSheet<GuideBarMethod> = {
  name: 'guide-bar',
  title: 'guide bar',
  work: (planned) => {
    const cutting = cuttingOf(planned);
    const order = inOrder(planned, cutting, own(planned, cutting), correction(planned, cutting), CUT);
    return [...order, backToZero(cutting, planned.work, 'guide-bar', amount(0, scaleUnit(planned)))];
  },
  figure: (planned, looks) =>
    guideBarFigure({
      settings: planned.settings,
      ...lieOf(planned),
      scaleUnit: scaleUnit(planned),
      ...looks,
    }),
  cautions: ({ work, limits }) => cautions(['slide-clamp', ...besideShoulder(work.part, limits)], CAUTIONS),
  surface: ({ part }, { guideBar: { scale } }, { settableReading }, errors) => {
    const { halfAngleDeg: zeroErrorDeg = 0, ...others } = withErrors(toolHeightModel, errors, STANDS_FOR);
    return guideBarSurface({
      reading: settableReading,
      scale,
      length: part.length,
      zeroErrorDeg,
      ...others,
      largeDiameter: part.largeDiameter,
    });
  },
  correction: ({ part: { taper } }, { guideBar: { scale } }, { settableReading }, measured) =>
    guideBarCorrection({ taper, reading: settableReading, scale: unmarked(scale), ...measured }),
};

/** What the bar's scale counts. */
function scaleUnit({ machine, work }: Planned<GuideBarMethod>): string {
  const units = { 'half-angle': '°', 'included-angle': '°', 'per-foot': 'in per foot', offset: work.unit };
  return units[machine.guideBar.scale.by];
}

function own(planned: Planned<GuideBarMethod>, cutting: Cutting): readonly Step<GuideBarMethod['step']>[] {
  const { settings, means } = planned;
  const { part, slope, unit } = cutting;
  const limitDeg = means?.near ?? 0;
  // One degree is worth what turning by it does to the reading.
  const perDegree = (2 * part.length * toRadians(1)) / slope.cos ** 2 / settings.diameterPerReading;
  const onto = 'Put a true cylinder in place of the work and an indicator on the cross slide, which the bar moves';
  const set: SetReading = {
    do: 'set',
    control: 'guide-bar',
    reading: amount(settings.reading, scaleUnit(planned), limitDeg * perDegree),
    way: swungWay(part.headstockEnd),
  };
  const carried = { on: 'cross-slide', against: 'cylinder', adjust: 'guide-bar' } as const;
  const standing = byStanding(cutting, means, 'carriage');
  return [
    step(WORDS, 'prepare', 'free-cross-feed', {
      free: clamp('cross-slide', 'unlock'),
      square: { do: 'set', control: 'top-slide', reading: amount(90, '°') },
      clamp: clamp('top-slide'),
    }),
    step(WORDS, 'prepare', 'clear-travel', {
      clamp: clamp('bracket'),
      move: { do: 'move', control: 'carriage', by: amount(part.length, unit), way: cutsTo(part).way },
      unit,
      crossTravel: settings.crossTravel,
    }),
    ...standing.filter(({ kind }) => kind === 'prepare'),
    step(
      WORDS,
      'set',
      'bar',
      { set, clamp: clamp('guide-bar'), halfAngleDeg: slope.halfAngleDeg, limitDeg },
      { uses: 'guideBarSettings' },
    ),
    ...standing.filter(({ kind }) => kind === 'set'),
    ...(setsByNeedle(means) ? [onCylinder(cutting, onto, carried, means)] : []),
  ];
}

function correction(planned: Planned<GuideBarMethod>, cutting: Cutting): Step<'turn-bar'> {
  const { settings, machine } = planned;
  const { part, unit, judging } = cutting;
  const { step: _step, from: _from, to: _to, ...scale } = machine.guideBar.scale;
  const change = guideBarCorrection({
    taper: part.taper,
    reading: settings.settableReading,
    scale,
    ...measuredShort(cutting),
  });
  const onScale = change.reading - settings.settableReading;
  const correct = turning(cutting, 'guide-bar', change.changeMinutes, {
    reading: amount(onScale, scaleUnit(planned), Math.abs(onScale) / 10),
  });
  const values = { correct, unit, length: judging.distance, changeDeg: change.changeDeg };
  return step(WORDS, 'correct', 'turn-bar', values, { uses: 'guideBarCorrection' });
}
