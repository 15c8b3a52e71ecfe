/** A sphere by a swivelling tool, as a person meets it: the order of work, the drawing, the cautions, what it cuts. */
import { rate } from '../../method/action-words.js';
import type { Amount, Correct, Feed, Measure, Provide, SetReading } from '../../method/actions.js';
import type { MethodSheet, Planned } from '../../method/method.js';
import { type Step, step } from '../../method/steps.js';
import { CAUTIONS, cautions } from '../cautions.js';
import { meridianFigure } from '../meridian-figure.js';
import { shapeOf } from '../part.js';
import { type Cutting, cuttingOf, depthOf, inOrder } from '../sphere-steps.js';
import { drilled } from '../table-steps.js';
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

/** Cut at a time, on the radius: common practice, no source. */
const EACH_MM = 0.25;

/** Leaning towards the axis, a micrometer finds this part less of the centre's offset. */
const LEAN = 1 - Math.SQRT1_2;

function own(planned: Planned<SwivelToolMethod>, cutting: Cutting): readonly Step<keyof typeof WORDS>[] {
  const { work, settings } = planned;
  const { unit, shape, ball, leave, per } = cutting;
  const { swivelRadius, swingFromDeg, swingToDeg } = settings;
  const { swivelRadius: limit, swivelOffset, toolHeight } = work.setting;
  const { diameter: doubt, length: lengthDoubt } = work.measuring;
  const length = (value: number, within?: number): Amount => ({
    value,
    unit,
    ...(within !== undefined && { limit: within }),
  });
  const trialRadius = swivelRadius + (ball ? leave : -leave);
  const aslant = ball && shape.fromDeg <= 45 && shape.toDeg >= 135;
  const across = shape.toDeg > 90 ? 2 * (shape.radius + 2 * leave) : shape.toDiameter;
  const faceStock = ball && shape.fromDeg === 0 ? 2 * leave : 0;
  const provide = (what: string, value: number, at?: number): Provide => ({
    do: 'provide',
    what,
    size: length(value, lengthDoubt),
    ...(at !== undefined && { at: length(at, lengthDoubt) }),
  });
  const stems = shape.part === 'ball-between-stems';
  const hole = ball ? undefined : drilled(cutting);
  const shortens = ball ? 'close' : 'open';
  const feed = (to: number, from?: number): Feed => ({
    do: 'feed',
    control: 'swivel-tool',
    way: shortens,
    ...(from !== undefined && { from: length(from, lengthDoubt) }),
    each: length(unit === 'mm' ? EACH_MM : EACH_MM / 25),
    to: length(to, limit),
  });
  // Where the farthest edge of the stock lies from the centre, or the nearest of a drilled socket.
  const first = ball
    ? Math.hypot(across / 2, stems ? 0 : shape.fromHeight + faceStock)
    : Math.hypot(hole ? hole.size.value / 2 : 0, shape.toHeight);
  const correct = (measured: string, control: Correct['control'], by: number, way: Correct['way']): Correct => ({
    do: 'correct',
    measured,
    off: 'too-large',
    per: length(per),
    control,
    by: rate(by, unit),
    way,
  });
  const lock = { do: 'lock', what: 'cross-slide' } as const;
  const unlock = { do: 'unlock', what: 'cross-slide' } as const;
  const way = ball ? 'tailstock' : 'headstock';
  const stop = (control: SetReading['control'], deg: number): SetReading => ({
    do: 'set',
    control,
    reading: { value: deg, unit: '°', limit: 0.1 },
    way,
  });
  const diameter: Measure = { do: 'measure', what: 'diameter', must: length(2 * (shape.radius + leave), doubt) };
  return [
    ...(ball
      ? [
          step(WORDS, 'prepare', 'stock', {
            stock: provide('stock', across),
            ...(faceStock > 0 && { face: provide('face-stock', faceStock) }),
            ...(stems && {
              freeStem: provide('free-stem', shape.fromDiameter, shape.fromHeight),
              stem: provide('stem', shape.toDiameter, Math.abs(shape.toHeight)),
            }),
          }),
        ]
      : []),
    step(WORDS, 'prepare', 'tool-height', {
      height: { do: 'zero', control: 'tool', where: 'axis-height', reads: length(0, toolHeight) },
    }),
    step(WORDS, 'set', 'swivel-centre', {
      centre: { do: 'zero', control: 'cross-slide', where: 'swivel-under-axis', reads: length(0, swivelOffset) },
      lock,
    }),
    step(WORDS, 'set', 'indicator', {
      needle: {
        do: 'indicate',
        on: 'swivel-tool',
        against: 'cylinder',
        control: 'swivel-tool',
        travel: { value: 180, unit: '°' },
        way: 'away-from-operator',
        needle: length(0, 2 * swivelOffset),
        sense: 'still',
      },
      unlock,
      // Off to the operator's side the swivel's far side comes nearer to the cylinder by twice that.
      again: correct('needle', 'cross-slide', per / 2, 'away-from-operator'),
      lock,
    }),
    step(
      WORDS,
      'set',
      'swivel-radius',
      { set: { do: 'set', control: 'swivel-tool', reading: length(trialRadius, limit) } },
      { uses: 'swivelSettings' },
    ),
    placing(),
    ...(hole ? [step(WORDS, 'set', 'drill', { hole })] : []),
    step(
      WORDS,
      'set',
      'stops',
      { first: stop('first-stop', swingFromDeg), last: stop('last-stop', swingToDeg) },
      { uses: 'swivelSettings' },
    ),
    step(WORDS, 'check', 'clear-sweep', { tool: { do: 'clear', control: 'swivel-tool' } }),
    step(WORDS, 'trial-cut', 'rough', { feed: feed(trialRadius, first) }),
    ...measuring(),
    step(WORDS, 'finish', 'swing-to-size', { feed: feed(swivelRadius) }),
  ];

  /** The carriage, from touching with the tip at the trial's radius. */
  function placing(): Step<'place-at-pole' | 'place-at-shoulder'> {
    const { position } = work.setting;
    // How far the centre lies behind what is touched: in a ball's raw face, or out of a socket's.
    const touching = ball ? trialRadius : -trialRadius;
    const wanted = ball ? shape.fromHeight + faceStock : -shape.toHeight;
    const on = stems ? shape.fromHeight : wanted - touching;
    const values: Parameters<(typeof WORDS)['place-at-pole']>[0] = {
      turn: { do: 'turn', control: 'swivel-tool', way: stems ? 'operator' : way },
      touch: { do: 'touch', on: stems ? 'shoulder' : 'end-face', control: 'carriage', way: 'headstock' },
      zero: { do: 'zero', control: 'carriage', where: 'touching', reads: length(0) },
      draw: { do: 'withdraw', control: 'carriage', way: 'tailstock' },
      set: {
        do: 'set',
        control: 'carriage',
        reading: length(Math.abs(on), position),
        way: on < 0 ? 'tailstock' : 'headstock',
      },
      lock: { do: 'lock', what: 'carriage' },
    };
    return step(WORDS, 'set', stems ? 'place-at-shoulder' : 'place-at-pole', values, { uses: 'swivelSettings' });
  }

  function measuring(): readonly Step<keyof typeof WORDS>[] {
    const uses = { uses: 'swivelCorrection' };
    const size = correct('diameter', 'swivel-tool', per / 2, 'close');
    if (aslant) {
      const leaning: Measure = { ...diameter, what: 'aslant' };
      const difference = {
        do: 'reckon',
        what: 'difference',
        rule: 'across-less-aslant',
        must: length(0, 2 * doubt),
      } as const;
      // Larger across, the centre stands off to the tool's side, by so much is the radius smaller than it seems.
      const off = per / 2 / LEAN;
      const centre = correct('difference', 'cross-slide', off, 'away-from-operator');
      const radius = correct('difference', 'swivel-tool', off, 'open');
      return [
        step(WORDS, 'measure', 'size-aslant', { diameter, aslant: leaning, difference }),
        step(WORDS, 'correct', 'radius-and-centre', { size, unlock, centre, lock, radius }, uses),
      ];
    }
    if (ball && shape.toDeg > 90) {
      return [
        step(WORDS, 'measure', 'size', { diameter }),
        step(WORDS, 'correct', 'radius-and-centre', { size }, uses),
      ];
    }
    // A dome ends where it meets its body, a socket in its face.
    const base = shape.toDiameter / 2;
    const deep = ball ? trialRadius - Math.sqrt((trialRadius - base) * (trialRadius + base)) : depthOf(shape) - leave;
    const chord = 2 * Math.sqrt(deep * (2 * trialRadius - deep));
    const slope = chord / 2 / deep;
    const radiusDoubt = (slope / 2) * doubt + Math.abs((1 - slope * slope) / 2) * lengthDoubt;
    return [
      step(WORDS, 'measure', 'size-and-depth', {
        depth: { do: 'measure', what: ball ? 'height' : 'depth', must: length(deep, lengthDoubt) },
        diameter: { do: 'measure', what: ball ? 'base' : 'opening', must: length(chord, doubt) },
        radius: { do: 'reckon', what: 'radius', rule: 'chord-and-height', must: length(trialRadius, radiusDoubt) },
      }),
      step(WORDS, 'correct', 'radius-and-centre', { size: correct('radius', 'swivel-tool', per, 'close') }, uses),
    ];
  }
}
