/** A sphere by a swivelling tool, as a person meets it: the order of work, the drawing, the cautions, what it cuts. */
import type { MethodSheet, Planned } from '../../method/method.js';
import { type Step, step } from '../../method/steps.js';
import { CAUTIONS, cautions } from '../cautions.js';
import { meridianFigure } from '../meridian-figure.js';
import { shapeOf } from '../part.js';
import { type Cutting, cuttingOf, inOrder } from '../sphere-steps.js';
import { swivelCorrection } from './correction.js';
import type { SwivelToolMethod } from './method.js';
import { swivelSurface } from './surface.js';
import { WORDS } from './words.js';

export const swivelToolSheet: MethodSheet<SwivelToolMethod> = {
  name: 'swivel-tool',
  title: 'swivelling tool',
  work: (planned) => {
    const cutting = cuttingOf(planned);
    return inOrder(planned, cutting, own(planned, cutting));
  },
  figure: ({ work, settings }, looks) =>
    meridianFigure({
      target: work.part.target,
      title: 'Tool swivelled about the centre of the sphere',
      seen: 'lathe',
      swing: settings,
      unit: work.unit,
      ...looks,
    }),
  cautions: () => cautions(['swivel-swing'], CAUTIONS),
  surface: (_work, _machine, settings, { swivelRadius = 0, swivelOffset = 0, toolHeight = 0 }) =>
    swivelSurface({
      swingFromDeg: settings.swingFromDeg,
      swingToDeg: settings.swingToDeg,
      swivelRadius: settings.swivelRadius + swivelRadius,
      centreOffset: swivelOffset,
      centreHeight: toolHeight,
    }),
  correction: (work, _machine, _settings, diameters) =>
    swivelCorrection({ radius: shapeOf(work).radius, ...diameters }),
};

function own({ work, settings }: Planned<SwivelToolMethod>, cutting: Cutting): readonly Step<keyof typeof WORDS>[] {
  const { unit, shape, ball, leave, per } = cutting;
  const { swivelRadius, swingFromDeg, swingToDeg } = settings;
  const { swivelRadius: limit, swivelOffset, toolHeight } = work.setting;
  const diameterLimit = work.measuring.diameter;
  const trialRadius = swivelRadius + (ball ? leave : -leave);
  const aslant = ball && shape.fromDeg <= 45 && shape.toDeg >= 135;
  const size = { radius: shape.radius, diameterAcross: 2 * shape.radius + per };
  const { changeRadius } = swivelCorrection({ ...size, diameterLeaning: 2 * shape.radius + per });
  const { moveCentre } = swivelCorrection({ ...size, diameterLeaning: 2 * shape.radius });
  const what = ball ? 'the diameter' : 'opening and depth';
  return [
    step(WORDS, 'prepare', 'tool-height', { unit, toolHeight }),
    step(
      WORDS,
      'set',
      'swivel-centre',
      { unit, swivelOffset, centreFromPole: swivelRadius, limit },
      { uses: 'swivelSettings' },
    ),
    step(
      WORDS,
      'set',
      'swivel-radius',
      { unit, trialRadius, swivelRadius, limit, swingFromDeg, swingToDeg },
      { uses: 'swivelSettings' },
    ),
    step(WORDS, 'check', 'indicator', { unit, limit: 2 * swivelOffset }),
    step(WORDS, 'check', 'clear-sweep', {}),
    step(WORDS, 'trial-cut', 'rough', { unit, radius: trialRadius, leave, limit }),
    aslant
      ? step(WORDS, 'measure', 'size-aslant', { unit, diameter: 2 * trialRadius, diameterLimit })
      : step(WORDS, 'measure', 'size', { unit, what, radius: trialRadius, diameterLimit }),
    step(
      WORDS,
      'correct',
      'radius-and-centre',
      { unit, per, changeRadius, moveCentre: aslant ? moveCentre : undefined },
      { uses: 'swivelCorrection' },
    ),
  ];
}
