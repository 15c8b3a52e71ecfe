/** A short taper with a form tool, as a person meets it: the order of work, the drawing, the cautions, what it cuts. */
import { plusMinus, say, tell } from '../../core/words.js';
import { amount, told, wayTold } from '../../method/action-words.js';
import type { Correct, Indicate, Secure, SetReading, Stop } from '../../method/actions.js';
import type { MethodSheet, Planned } from '../../method/method.js';
import { withErrors } from '../../method/model-inputs.js';
import { type Step, step } from '../../method/steps.js';
import { besideShoulder, CAUTIONS, cautions } from '../cautions.js';
import { lieOf } from '../cone-plan.js';
import { needleTold, place, swungWay } from '../step-words.js';
import { type Cutting, clamp, cuttingOf, inOrder, measuredShort } from '../taper-steps.js';
import { turned, turning } from '../turning.js';
import { formToolCorrection } from './correction.js';
import { formToolFigure } from './figure.js';
import { type FormToolMethod, STANDS_FOR } from './method.js';
import { formToolModel, formToolSurface } from './surface.js';

/** Sentences of its own steps, by code. */
const WORDS = {
  edge: ({ unit, edgeInCut, width }: { unit: string; edgeInCut: number; width: number }): string =>
    say`The taper takes ${tell(edgeInCut, { unit })} of the tool's ${tell(width, { unit })} of edge; let the rest stand out beyond the taper where nothing stands in its way. Stone the edge straight and sharp: whatever is wrong with it is cut into the work. Clamp tool and carriage hard, with as little overhang as can be.`,
  'edge-angle': ({ set, fromFaceDeg }: { set: SetReading; clamp: Secure; fromFaceDeg: number }): string => {
    const across = tell(fromFaceDeg, { unit: '°', limit: set.reading.limit ?? 0 });
    const leans = set.way === 'anticlockwise' ? 'headstock' : 'tailstock';
    return say`Set the edge to ${told(set.reading)} from the axis of the work, ${plusMinus(set.reading.limit ?? 0, '°')}, with a protractor (${across} from a face square to it), swung ${wayTold(set.way ?? 'clockwise')} seen from above, so that it stands farther from the axis towards the ${leans}; level along its whole length. Clamp it lightly.`;
  },
  'edge-place': ({ stop }: { stop: Stop; lock: Secure }): string =>
    say`Bring the carriage to where the end of the edge that leads stands at the ${place(stop.at)}, the rest of it beyond the small end, and lock it to the bed.`,
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
  'edge-indicator': (values: { indicate: Indicate; unit: string; indicatorOnCylinder: number }): string => {
    const { indicate, unit, indicatorOnCylinder } = values;
    const onCylinder = tell(indicatorOnCylinder, { unit, limit: indicate.needle.limit ?? 0 });
    return say`Stand an indicator on the bed or in the still spindle, its plunger on the edge, level, square to the axis and at its height. While the carriage goes ${told(indicate.travel)} ${wayTold(indicate.way)} the plunger must be pushed in by ${needleTold(indicate)}; if it comes out, the edge leans the wrong way. Until it does, tap the tool round; clamp it, and read again. (Carried by a slide that runs parallel to the edge, an indicator shows ${onCylinder} along a true cylinder over the same travel of the slide.)`;
  },
  'turn-edge': ({ correct, unit, length }: { correct: Correct; unit: string; length: number }): string =>
    turned(correct, 'edge', say`over ${tell(length, { unit })}`),
} as const;

/** Its own caution: common practice, no source. */
const OWN = {
  'wide-edge': [
    'A wide edge can chatter, dig in, or bend and climb the work: slow spindle, light steady feed, back out at any chatter.',
    'rough',
  ],
} as const;

export const formToolSheet: MethodSheet<FormToolMethod> = {
  name: 'form-tool',
  title: 'form tool fed straight in',
  work: (planned) => {
    const cutting = cuttingOf(planned);
    return inOrder(planned, cutting, own(planned, cutting), correction(cutting), { control: 'cross-slide' });
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
  const set: SetReading = {
    do: 'set',
    control: 'tool',
    reading: amount(slope.halfAngleDeg, '°', limitDeg),
    way: swungWay(part.headstockEnd),
  };
  const indicate: Indicate = {
    do: 'indicate',
    on: 'bed',
    against: 'edge',
    control: 'carriage',
    travel: amount(part.length, unit),
    // From the axis' side: the end of the edge that is nearer to the axis comes up to it.
    way: part.headstockEnd === 'large' ? 'headstock' : 'tailstock',
    needle: amount(settings.indicatorOnEdge, unit, tolerance / 2),
    sense: 'in',
    adjust: 'tool',
  };
  return [
    step(WORDS, 'prepare', 'edge', { unit, edgeInCut, width: machine.formTool.width }, uses),
    step(WORDS, 'set', 'edge-angle', { set, clamp: clamp('tool'), fromFaceDeg }, uses),
    step(WORDS, 'set', 'infeed', { unit, squareInfeed, normalInfeed, normalShift, limit: touchOff / 2 }, uses),
    step(WORDS, 'check', 'edge-indicator', { indicate, unit, indicatorOnCylinder }, uses),
    step(WORDS, 'check', 'edge-place', {
      stop: { do: 'stop', control: 'carriage', at: 'large-end' },
      lock: clamp('carriage', 'lock'),
    }),
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
  const correct = turning(cutting, 'tool', changeMinutes, {
    needle: amount(indicatorOnEdge, unit, per / 10),
    over: amount(travel, unit),
  });
  const values = { correct, unit, length, changeDeg };
  return step(WORDS, 'correct', 'turn-edge', values, { uses: 'formToolCorrection' });
}
