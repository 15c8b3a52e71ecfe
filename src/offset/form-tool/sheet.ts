/** A short taper with a form tool, as a person meets it: the order of work, the drawing, the cautions, what it cuts. */
import { plusMinus, say, tell } from '../../core/words.js';
import type { MethodSheet, Planned } from '../../method/method.js';
import { withErrors } from '../../method/model-inputs.js';
import { type Step, step } from '../../method/steps.js';
import { besideShoulder, CAUTIONS, cautions } from '../cautions.js';
import { lieOf } from '../cone-plan.js';
import { type Cutting, cuttingOf, inOrder, measuredShort } from '../taper-steps.js';
import { formToolCorrection } from './correction.js';
import { formToolFigure } from './figure.js';
import { type FormToolMethod, STANDS_FOR } from './method.js';
import { formToolModel, formToolSurface } from './surface.js';

/** Sentences of its own steps, by code. */
const WORDS = {
  edge: ({ unit, edgeInCut, width }: { unit: string; edgeInCut: number; width: number }): string =>
    say`The taper takes ${tell(edgeInCut, { unit })} of the tool's ${tell(width, { unit })} of edge; let the rest stand out beyond the taper where nothing stands in its way. Stone the edge straight and sharp: whatever is wrong with it is cut into the work. Clamp tool and carriage hard, with as little overhang as can be.`,
  'edge-angle': (values: { halfAngleDeg: number; fromFaceDeg: number; limitDeg: number; leans: string }): string => {
    const { halfAngleDeg, fromFaceDeg, limitDeg, leans } = values;
    const told = (deg: number): string => tell(deg, { unit: '°', limit: limitDeg });
    return say`Set the edge to ${told(halfAngleDeg)} from the axis of the work, ${plusMinus(limitDeg, '°')}, with a protractor (${told(fromFaceDeg)} from a face square to it), ${leans}; level along its whole length. Clamp it lightly.`;
  },
  infeed: (values: {
    unit: string;
    squareInfeed: number;
    normalInfeed: number;
    normalShift: number;
    limit: number;
  }): string => {
    const { unit, limit } = values;
    const told = (value: number): string => tell(value, { unit, limit });
    return say`Fed straight in, square to the axis, the edge goes ${told(values.squareInfeed)} in from first touching the blank to size; twice that is off the diameter. Should it chatter, go slower, or feed it by a slide along its own normal: ${told(values.normalInfeed)}, which takes it ${told(values.normalShift)} along the axis towards the large end.`;
  },
  'edge-indicator': (values: {
    unit: string;
    travel: number;
    needle: number;
    needleFrom: number;
    needleTo: number;
    indicatorOnCylinder: number;
  }): string => {
    const { unit, travel, needle, needleFrom, needleTo, indicatorOnCylinder } = values;
    const limit = (needleTo - needleFrom) / 2;
    const told = (value: number): string => tell(value, { unit, limit });
    return say`Stand an indicator on the bed or in the still spindle, its plunger on the edge, level, square to the axis and at its height. Over ${tell(travel, { unit })} of the carriage it must move by ${told(needle)}, from ${told(needleFrom)} to ${told(needleTo)}. Tap the tool round, clamp it, and read again. (Carried by a slide that runs parallel to the edge, an indicator shows ${told(indicatorOnCylinder)} along a true cylinder over the same travel of the slide.)`;
  },
  'turn-edge': (values: {
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
    return say`For every ${tell(per, { unit })} that the difference is too small over ${tell(length, { unit })}, turn the edge ${turned} steeper: the indicator on it then moves ${tell(indicator, { unit, limit: per / 10 })} more over ${tell(travel, { unit })}. Too large: as much flatter.`;
  },
} as const;

/** Its own caution: common practice, no source. */
const OWN = {
  'wide-edge':
    'A wide edge bites along all its length at once: it can chatter, dig in, or bend and climb the work. Slow spindle, light and steady feed; back out at the first chatter, never dwell.',
} as const;

export const formToolSheet: MethodSheet<FormToolMethod> = {
  name: 'form-tool',
  title: 'form tool fed straight in',
  work: (planned) => {
    const cutting = cuttingOf(planned);
    return inOrder(planned, cutting, own(planned, cutting), correction(cutting), 'no');
  },
  figure: (planned, looks) =>
    formToolFigure({
      settings: planned.settings,
      ...lieOf(planned),
      ...looks,
    }),
  cautions: ({ work, limits }) => [
    ...cautions(['wide-edge'], OWN),
    ...cautions(['slide-clamp', ...besideShoulder(work.part, limits)], CAUTIONS),
  ],
  surface: ({ part: { length, largeDiameter } }, _lathe, { halfAngleDeg }, errors) =>
    formToolSurface({
      angleDeg: halfAngleDeg,
      length,
      ...withErrors(formToolModel, errors, STANDS_FOR),
      largeDiameter,
    }),
  correction: ({ part: { taper } }, _lathe, _settings, measured) => formToolCorrection({ taper, ...measured }),
};

function own(
  { work, machine, settings }: Planned<FormToolMethod>,
  { part, slope, needleTolerance: tolerance, unit }: Cutting,
): readonly Step<FormToolMethod['step']>[] {
  const { edgeInCut, fromFaceDeg, squareInfeed, normalInfeed, normalShift, indicatorOnCylinder } = settings;
  const { formToolDeg: limitDeg, touchOff } = work.setting;
  const uses = { uses: 'formToolSettings' };
  const [travel, needle] = [part.length, settings.indicatorOnEdge];
  const [needleFrom, needleTo] = [needle - tolerance / 2, needle + tolerance / 2];
  const leans = say`so that it stands farther from the axis towards the ${part.headstockEnd === 'large' ? 'headstock' : 'tailstock'}`;
  const angle = { halfAngleDeg: slope.halfAngleDeg, fromFaceDeg, limitDeg, leans };
  return [
    step(WORDS, 'prepare', 'edge', { unit, edgeInCut, width: machine.formTool.width }, uses),
    step(WORDS, 'set', 'edge-angle', angle, uses),
    step(WORDS, 'set', 'infeed', { unit, squareInfeed, normalInfeed, normalShift, limit: touchOff / 2 }, uses),
    step(WORDS, 'check', 'edge-indicator', { unit, travel, needle, needleFrom, needleTo, indicatorOnCylinder }, uses),
  ];
}

function correction(cutting: Cutting): Step<'turn-edge'> {
  const { part, unit, per, judging } = cutting;
  const length = judging.distance;
  const travel = part.length;
  const { changeMinutes, changeDeg, indicatorOnEdge } = formToolCorrection({
    taper: part.taper,
    ...measuredShort(cutting),
    indicatorTravel: travel,
  });
  const values = { unit, per, length, changeMinutes, changeDeg, indicator: indicatorOnEdge, travel };
  return step(WORDS, 'correct', 'turn-edge', values, { uses: 'formToolCorrection' });
}
