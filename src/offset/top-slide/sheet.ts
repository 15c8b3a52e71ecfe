/** A taper with the top slide, as a person meets it: the order of work, the drawing, the cautions, what it cuts. */
import { unmarked } from '../../core/dial.js';
import { plusMinus, say, tell } from '../../core/words.js';
import { amount, told, wayTold } from '../../method/action-words.js';
import type { Amount, Correct, Indicate, Move, Secure, SetReading } from '../../method/actions.js';
import type { Looks, MethodSheet, Planned } from '../../method/method.js';
import { withErrors } from '../../method/model-inputs.js';
import { type Step, step } from '../../method/steps.js';
import { besideShoulder, CAUTIONS, cautions } from '../cautions.js';
import { lieOf } from '../cone-plan.js';
import { inMinutes, leaning, needleTold, smallEndTowards, swungWay } from '../step-words.js';
import {
  backToZero,
  byStanding,
  type Cut,
  type Cutting,
  clamp,
  cutsTo,
  cuttingOf,
  indicatorTravel,
  inOrder,
  measuredShort,
  needleSetting,
  setsByNeedle,
} from '../taper-steps.js';
import { turned, turning } from '../turning.js';
import { topSlideCorrection } from './correction.js';
import { topSlideFigure } from './figure.js';
import { topSlideFromMaster } from './master.js';
import { STANDS_FOR, type TopSlideMethod } from './method.js';
import { topSlideModel, topSlideSurface } from './surface.js';

/** Sentences of its own steps, by code. */
const WORDS = {
  'lock-carriage': (_: { lock: Secure }): string =>
    'Bring the carriage to where the slide reaches both ends of the taper, and lock it to the bed; it stays locked until the taper is finished, and the slide alone feeds.',
  'clear-travel': ({ move }: { move: Move }): string =>
    say`With the power off run the slide by hand over its way, ${told(move.by)} ${wayTold(move.way)}: it must reach both ends of the taper, as swung, and nothing may touch work, shoulder or chuck.`,
  angle: ({ set, halfAngleDeg }: { set: SetReading; clamp: Secure; halfAngleDeg: number }): string =>
    say`Swing the top slide so that its scale reads ${told(set.reading)}, a half angle of ${inMinutes(halfAngleDeg)}, ${plusMinus(set.reading.limit ?? 0, '°')}, ${leaning(set.way)}. Clamp it lightly.`,
  indicator: ({ indicate, unit, onEdge }: { indicate: Indicate; unit: string; onEdge: number }): string => {
    const edge = tell(onEdge, { unit, limit: indicate.needle.limit ?? 0 });
    return say`Put a true cylinder in place of the work and an indicator on the slide, its plunger level, on the operator's side, square to the axis and at its height. While the slide goes ${told(indicate.travel)} ${wayTold(indicate.way)} the plunger must be pushed in by ${needleTold(indicate)}; if it comes out, the slide is swung the wrong way. Always feed in the same direction. Turn the spindle half a turn and take the mean. Until it does, tap the slide round; clamp it, and read again. (An indicator standing still against the slide's own edge shows ${edge} over the same travel of the carriage, before that is locked.)`;
  },
  'turn-slide': ({ correct, unit, length }: { correct: Correct; unit: string; length: number }): string =>
    turned(correct, 'slide', say`over ${tell(length, { unit })}`),
} as const;

/** The slide feeds, the cross slide gives the depth. */
const CUT: Cut = { control: 'top-slide', depth: 'cross-slide' };

export const topSlideSheet: MethodSheet<TopSlideMethod> = {
  name: 'top-slide',
  title: 'top slide swung to the half angle',
  work: (planned) => {
    const cutting = cuttingOf(planned);
    const order = inOrder(planned, cutting, own(planned, cutting), correction(planned, cutting), CUT);
    return [...order, backToZero(cutting, planned.work, 'top-slide', alongBed(planned.machine))];
  },
  figure: (planned: Planned<TopSlideMethod>, looks: Looks) =>
    topSlideFigure({
      settings: planned.settings,
      ...lieOf(planned),
      ...(planned.machine.topSlide.nose && { nose: planned.machine.topSlide.nose }),
      ...looks,
    }),
  cautions: ({ work, limits }) =>
    cautions(['slide-overhang', 'slide-clamp', ...besideShoulder(work.part, limits)], CAUTIONS),
  surface: ({ part }, { topSlide: { scale } }, { settableReadingDeg }, errors) =>
    topSlideSurface({
      readingDeg: settableReadingDeg,
      length: part.length,
      ...(scale && { scale }),
      ...withErrors(topSlideModel, errors, STANDS_FOR),
      largeDiameter: part.largeDiameter,
    }),
  correction: ({ part }, { topSlide: { scale } }, { settableReadingDeg }, measured) =>
    topSlideCorrection({
      taper: part.taper,
      readingDeg: settableReadingDeg,
      ...(scale && { scale: unmarked(scale) }),
      ...measured,
    }),
};

function own({ means, settings }: Planned<TopSlideMethod>, cutting: Cutting): readonly Step<TopSlideMethod['step']>[] {
  const { part, slope, needleTolerance, unit } = cutting;
  const { travelNeeded, readingDeg } = settings;
  const byNeedle = needleSetting(means);
  const travel = byNeedle?.travel ?? indicatorTravel(cutting, slope.tan);
  const { needle, needleFrom, needleTo } = topSlideFromMaster({
    master: 'cylinder',
    taper: part.taper,
    travel,
    length: part.length,
    differenceTolerance: needleTolerance,
  });
  const slide = 'top-slide';
  const set: SetReading = {
    do: 'set',
    control: slide,
    reading: amount(readingDeg, '°', means?.near ?? 0),
    way: swungWay(part.headstockEnd),
  };
  const indicate: Indicate = {
    do: 'indicate',
    on: slide,
    against: 'cylinder',
    control: slide,
    travel: amount(travel, unit),
    way: smallEndTowards(part.headstockEnd),
    needle: amount(needle, unit, byNeedle?.half ?? Math.min(needleTo - needle, needle - needleFrom), byNeedle?.fifth),
    sense: 'in',
    adjust: slide,
  };
  const uses = { uses: 'topSlideFromMaster' };
  const standing = byStanding(cutting, means, slide);
  return [
    step(WORDS, 'prepare', 'lock-carriage', { lock: clamp('carriage', 'lock') }),
    ...standing.filter(({ kind }) => kind === 'prepare'),
    step(
      WORDS,
      'set',
      'angle',
      { set, clamp: clamp(slide), halfAngleDeg: slope.halfAngleDeg },
      { uses: 'topSlideSettings' },
    ),
    ...standing.filter(({ kind }) => kind === 'set'),
    ...(setsByNeedle(means)
      ? [step(WORDS, 'check', 'indicator', { indicate, unit, onEdge: travel * slope.tan }, uses)]
      : []),
    step(WORDS, 'check', 'clear-travel', {
      move: { do: 'move', control: slide, by: amount(travelNeeded, unit), way: cutsTo(part).way },
    }),
  ];
}

function correction({ work }: Planned<TopSlideMethod>, cutting: Cutting): Step<'turn-slide'> {
  const { part, unit, per, judging, slope } = cutting;
  const travel = indicatorTravel(cutting, slope.tan);
  const { changeMinutes, changeDeg, indicatorOnCylinder } = topSlideCorrection({
    taper: part.taper,
    ...measuredShort(cutting),
    indicatorTravel: travel,
  });
  const shown = { needle: amount(indicatorOnCylinder, unit, per / 10), over: amount(travel, unit) };
  const correct = turning(cutting, 'top-slide', changeMinutes, work.shop.indicators.length > 0 ? shown : {});
  const values = { correct, unit, length: judging.distance, changeDeg };
  return step(WORDS, 'correct', 'turn-slide', values, { uses: 'topSlideCorrection' });
}

/** The reading at which the slide runs along the bed. */
function alongBed({ topSlide: { scale } }: Planned<TopSlideMethod>['machine']): Amount {
  return amount(scale?.reads === 'from-across' ? 90 : 0, '°');
}
