/** A taper with the guide bar, as a person meets it: the order of work, the drawing, the cautions, what it cuts. */
import { unmarked } from '../../core/dial.js';
import { toRadians } from '../../core/trigonometry.js';
import { plusMinus, say, tell } from '../../core/words.js';
import type { MethodSheet, Planned } from '../../method/method.js';
import { withErrors } from '../../method/model-inputs.js';
import { type Step, step } from '../../method/steps.js';
import { besideShoulder, CAUTIONS, cautions } from '../cautions.js';
import { lieOf } from '../cone-plan.js';
import { leaning } from '../step-words.js';
import {
  byStanding,
  type Cutting,
  cuttingOf,
  inOrder,
  measuredShort,
  onCylinder,
  setsByNeedle,
} from '../taper-steps.js';
import { toolHeightModel } from '../tool-height/surface.js';
import { guideBarCorrection } from './correction.js';
import { guideBarFigure } from './figure.js';
import { type GuideBarMethod, STANDS_FOR } from './method.js';
import { guideBarSurface } from './surface.js';

/** Sentences of its own steps, by code. */
const WORDS = {
  'free-cross-feed': (_none: object): string =>
    'Free the cross slide from its screw, so that the bar alone moves it, and set the top slide square to the bed: from now on it gives the depth, and what it is fed comes off the radius.',
  'clear-travel': ({ unit, length, crossTravel }: { unit: string; length: number; crossTravel: number }): string =>
    say`Clamp the bar to the bed so that the slider stays on it over the taper's ${tell(length, { unit })} and the run before it; over them the cross slide moves ${tell(crossTravel, { unit })}. With the power off try the whole way by hand, and take up the play of the slider before each cut by starting well outside the work.`,
  bar: (values: {
    by: string;
    reading: number;
    halfAngleDeg: number;
    limit: number;
    limitDeg: number;
    leans: string;
  }): string => {
    const { by, reading, limit, leans } = values;
    return say`Set the bar to ${tell(reading, { unit: by, limit })}, ${plusMinus(limit, by)}, ${leans}. Clamp both ends.`;
  },
  'turn-bar': (values: {
    unit: string;
    by: string;
    per: number;
    length: number;
    changeMinutes: number;
    changeDeg: number;
    changeReading: number;
  }): string => {
    const { unit, by, per, length, changeMinutes, changeReading } = values;
    const turned = tell(changeMinutes, { unit: 'minutes of arc', limit: changeMinutes / 10 });
    const onScale = tell(changeReading, { unit: by, limit: changeReading / 10 });
    return say`For every ${tell(per, { unit })} that the difference is too small over ${tell(length, { unit })}, turn the bar ${turned} steeper, which changes its reading by ${onScale}. Too large: as much flatter. Come to the reading from the same side as before.`;
  },
} as const;

export const guideBarSheet: MethodSheet<GuideBarMethod> = {
  name: 'guide-bar',
  title: 'guide bar',
  work: (planned) => {
    const cutting = cuttingOf(planned);
    return inOrder(planned, cutting, own(planned, cutting), correction(planned, cutting), 'no');
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
  const standing = byStanding(cutting, means, 'carriage');
  return [
    step(WORDS, 'prepare', 'free-cross-feed', {}),
    step(WORDS, 'prepare', 'clear-travel', { unit, length: part.length, crossTravel: settings.crossTravel }),
    ...standing.filter(({ kind }) => kind === 'prepare'),
    step(
      WORDS,
      'set',
      'bar',
      {
        by: scaleUnit(planned),
        reading: settings.reading,
        halfAngleDeg: slope.halfAngleDeg,
        limit: limitDeg * perDegree,
        limitDeg,
        leans: leaning(part.headstockEnd),
      },
      { uses: 'guideBarSettings' },
    ),
    ...standing.filter(({ kind }) => kind === 'set'),
    ...(setsByNeedle(means) ? [onCylinder(cutting, onto, means)] : []),
  ];
}

function correction(planned: Planned<GuideBarMethod>, cutting: Cutting): Step<'turn-bar'> {
  const { settings, machine } = planned;
  const { part, unit, per, judging } = cutting;
  const { step: _step, from: _from, to: _to, ...scale } = machine.guideBar.scale;
  const change = guideBarCorrection({
    taper: part.taper,
    reading: settings.settableReading,
    scale,
    ...measuredShort(cutting),
  });
  return step(
    WORDS,
    'correct',
    'turn-bar',
    {
      unit,
      by: scaleUnit(planned),
      per,
      length: judging.distance,
      changeMinutes: change.changeMinutes,
      changeDeg: change.changeDeg,
      changeReading: change.reading - settings.settableReading,
    },
    { uses: 'guideBarCorrection' },
  );
}
