/** A taper with the top slide, as a person meets it: the order of work, the drawing, the cautions, what it cuts. */
import { unmarked } from '../../core/dial.js';
import { plusMinus, say, tell } from '../../core/words.js';
import type { Looks, MethodSheet, Planned } from '../../method/method.js';
import { withErrors } from '../../method/model-inputs.js';
import { type Step, step } from '../../method/steps.js';
import { besideShoulder, CAUTIONS, cautions } from '../cautions.js';
import { lieOf } from '../cone-plan.js';
import { inMinutes, leaning, needleTold, smallEndTowards } from '../step-words.js';
import {
  byStanding,
  type Cutting,
  cuttingOf,
  indicatorTravel,
  inOrder,
  measuredShort,
  needleSetting,
  setsByNeedle,
} from '../taper-steps.js';
import { topSlideCorrection } from './correction.js';
import { topSlideFigure } from './figure.js';
import { topSlideFromMaster } from './master.js';
import { STANDS_FOR, type TopSlideMethod } from './method.js';
import { topSlideModel, topSlideSurface } from './surface.js';

interface Check {
  readonly unit: string;
  readonly travel: number;
  readonly needle: number;
  readonly needleFrom: number;
  readonly needleTo: number;
  readonly indicatorOnSlide: number;
  readonly towards: string;
}

/** Sentences of its own steps, by code. */
const WORDS = {
  'lock-carriage': (_none: object): string =>
    'Bring the carriage to where the slide reaches both ends of the taper, and lock it to the bed; it stays locked until the taper is finished, and the slide alone feeds.',
  'clear-travel': ({ unit, travelNeeded }: { unit: string; travelNeeded: number }): string =>
    say`With the power off run the slide by hand over its way, ${tell(travelNeeded, { unit })}: it must reach both ends of the taper, as swung, and nothing may touch work, shoulder or chuck.`,
  angle: (values: { readingDeg: number; halfAngleDeg: number; limitDeg: number; leans: string }): string => {
    const { readingDeg, halfAngleDeg, limitDeg, leans } = values;
    const told = tell(readingDeg, { unit: '°', limit: limitDeg });
    return say`Swing the top slide so that its scale reads ${told}, a half angle of ${inMinutes(halfAngleDeg)}, ${plusMinus(limitDeg, '°')}, ${leans}. Clamp it lightly.`;
  },
  indicator: ({ unit, travel, needle, needleFrom, needleTo, indicatorOnSlide, towards }: Check): string => {
    const told = needleTold(unit, needleFrom, needleTo);
    return say`Put a true cylinder in place of the work and an indicator on the slide, its plunger level, on the operator's side, square to the axis and at its height. While the slide goes ${tell(travel, { unit })} towards the ${towards} the plunger must be pushed in by ${told(needle)}, from ${told(needleFrom)} to ${told(needleTo)}; if it comes out, the slide is swung the wrong way. Always feed in the same direction. Turn the spindle half a turn and take the mean. Tap the slide round, clamp it, and read again. (An indicator standing still against the slide's own edge shows ${told(indicatorOnSlide)} over the same travel of the carriage, before that is locked.)`;
  },
  'turn-slide': (values: {
    unit: string;
    per: number;
    length: number;
    changeMinutes: number;
    changeDeg: number;
    indicator: number;
    travel: number;
  }): string => {
    const { unit, per, length, changeMinutes, indicator, travel } = values;
    const turned = tell(changeMinutes, { unit: 'minutes of arc', limit: changeMinutes / 10 });
    return say`For every ${tell(per, { unit })} that the difference is too small over ${tell(length, { unit })}, turn the slide ${turned} steeper: the indicator on the slide then moves ${tell(indicator, { unit, limit: per / 10 })} more over ${tell(travel, { unit })}. Too large: as much flatter.`;
  },
} as const;

export const topSlideSheet: MethodSheet<TopSlideMethod> = {
  name: 'top-slide',
  title: 'top slide swung to the half angle',
  work: (planned) => {
    const cutting = cuttingOf(planned);
    return inOrder(planned, cutting, own(planned, cutting), correction(cutting), 'no');
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
  const set = needleSetting(means);
  const travel = set?.travel ?? indicatorTravel(cutting, slope.tan);
  const { needle, needleFrom, needleTo } = topSlideFromMaster({
    master: 'cylinder',
    taper: part.taper,
    travel,
    length: part.length,
    differenceTolerance: needleTolerance,
  });
  const standing = byStanding(cutting, means, 'top-slide');
  return [
    step(WORDS, 'prepare', 'lock-carriage', {}),
    step(WORDS, 'prepare', 'clear-travel', { unit, travelNeeded }),
    ...standing.filter(({ kind }) => kind === 'prepare'),
    step(
      WORDS,
      'set',
      'angle',
      {
        readingDeg,
        halfAngleDeg: slope.halfAngleDeg,
        limitDeg: means?.near ?? 0,
        leans: leaning(part.headstockEnd),
      },
      { uses: 'topSlideSettings' },
    ),
    ...standing.filter(({ kind }) => kind === 'set'),
    ...(setsByNeedle(means)
      ? [
          step(
            WORDS,
            'check',
            'indicator',
            {
              unit,
              travel,
              needle,
              needleFrom: set ? needle - set.half : needleFrom,
              needleTo: set ? needle + set.half : needleTo,
              indicatorOnSlide: travel * slope.tan,
              towards: smallEndTowards(part.headstockEnd),
            },
            { uses: 'topSlideFromMaster' },
          ),
        ]
      : []),
  ];
}

function correction(cutting: Cutting): Step<'turn-slide'> {
  const { part, unit, per, judging, slope } = cutting;
  const travel = indicatorTravel(cutting, slope.tan);
  const { changeMinutes, changeDeg, indicatorOnCylinder } = topSlideCorrection({
    taper: part.taper,
    ...measuredShort(cutting),
    indicatorTravel: travel,
  });
  const values = {
    unit,
    per,
    length: judging.distance,
    changeMinutes,
    changeDeg,
    indicator: indicatorOnCylinder,
    travel,
  };
  return step(WORDS, 'correct', 'turn-slide', values, { uses: 'topSlideCorrection' });
}
