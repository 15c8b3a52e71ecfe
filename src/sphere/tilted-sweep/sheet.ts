/**
 * A sphere by a tilted sweep, as a person meets it: the order of work, the drawing, the cautions, what it cuts. Sides and
 * directions are those of the mill's frame in docs/conventions.md. Tilt and sweep are proved before the tip is
 * placed, since both would undo it.
 */
import { perMovement } from '../../core/dial.js';
import { cosDeg, sinDeg, toDegrees, toRadians } from '../../core/trigonometry.js';
import { fifth, rate } from '../../method/action-words.js';
import type { Correct, Indicate, Secure } from '../../method/actions.js';
import type { MethodSheet, Planned } from '../../method/method.js';
import { type Step, step } from '../../method/steps.js';
import { CAUTIONS, cautions } from '../cautions.js';
import { type Cutting, cuttingOf, inOrder } from '../sphere-steps.js';
import { sweepDiagnosis } from './diagnosis.js';
import { sweepFigure } from './figure.js';
import { QUILL_TRAVEL, type TiltedSweepMethod } from './method.js';
import { feedOf, placing, stock } from './placing.js';
import { sweepSurface } from './surface.js';
import { trial } from './trial.js';
import { WORDS } from './words.js';

export const tiltedSweepSheet: MethodSheet<TiltedSweepMethod> = {
  name: 'tilted-sweep',
  title: 'tilted boring head over a turning table',
  work: (planned) => {
    const cutting = cuttingOf(planned);
    const feed = feedOf(cutting);
    return inOrder(planned, cutting, [
      ...setUp(planned, cutting),
      placing(planned, cutting, feed),
      step(WORDS, 'check', 'clear-sweep', {
        spindle: { do: 'clear', control: 'spindle' },
        table: { do: 'clear', control: 'rotary-table' },
      }),
      ...trial(planned, cutting, feed),
    ]);
  },
  figure: ({ work, machine, settings }, looks) => {
    const { dial: _dial, ...head } = machine.boringHead;
    return sweepFigure({
      target: work.part.target,
      result: settings.settable,
      table: machine.table,
      head,
      unit: work.unit,
      ...looks,
    });
  },
  cautions: () => cautions(['head-off-balance', 'head-tilt-clamp', 'open-sweep', 'table-lock'], CAUTIONS),
  surface: ({ part }, _machine, { settable }, { headTiltDeg = 0, sweepRadius = 0, miss = 0, skew = 0 }) =>
    sweepSurface({
      target: part.target,
      sweep: {
        ...settable.sweep,
        tiltDeg: settable.sweep.tiltDeg + headTiltDeg,
        sweepRadius: settable.sweep.sweepRadius + sweepRadius,
        miss,
        skew,
      },
    }),
  correction: ({ part, setting }, _machine, { settable: { sweep } }, { trials }) => {
    const { headTiltDeg, sweepRadius, miss, position, skew } = setting;
    // A tip that misses the centre moves the crossing of the axes along the spindle.
    const distance = miss / sinDeg(sweep.tiltDeg) + position;
    const standard = (limit: number): number => limit / Math.sqrt(3);
    const uncertainties = {
      tiltDeg: standard(headTiltDeg),
      sweepRadius: standard(sweepRadius),
      distance: standard(distance),
      skew: standard(skew),
    };
    return sweepDiagnosis({ target: part.target, sweep, uncertainties, trials });
  },
};

function setUp(planned: Planned<TiltedSweepMethod>, cutting: Cutting): readonly Step<keyof typeof WORDS>[] {
  const { work, machine, settings, means } = planned;
  const { unit, ball, per } = cutting;
  const { tilt, dial } = settings;
  const { skew, sweepRadius } = work.setting;
  const times = perMovement(machine.boringHead.dial.reads);
  const [unlock, lock] = around('boring-head');
  return [
    step(WORDS, 'prepare', 'axes-meet', {
      hold: { do: 'clamp', what: 'rotary-table', way: machine.table === 'flat' ? 'up' : 'right' },
      plane: { do: 'zero', control: 'saddle', where: 'axes-in-one-plane', reads: { value: 0, unit, limit: skew } },
      lock: { do: 'lock', what: 'saddle' },
    }),
    ...(ball ? [stock(planned, cutting)] : []),
    step(
      WORDS,
      'set',
      'tilt',
      {
        head: {
          do: 'set',
          control: 'head',
          reading: { value: Math.abs(tilt.readingDeg), unit: '°', limit: means?.near ?? 0 },
          way: tilt.readingDeg < 0 ? 'anticlockwise' : 'clockwise',
        },
        lock: { do: 'lock', what: 'head' },
      },
      { uses: 'sweepSettings' },
    ),
    ...finely(planned, cutting),
    step(
      WORDS,
      'set',
      'sweep',
      {
        set: {
          do: 'set',
          control: 'boring-head',
          reading: { value: dial.reading, unit, limit: times * sweepRadius },
          from: 'below',
        },
        lock,
      },
      { uses: 'sweepSettings' },
    ),
    step(
      WORDS,
      'set',
      'test-ring',
      {
        cut: ball ? 'turn' : 'bore',
        ring: {
          do: 'measure',
          what: 'ring',
          must: { value: 2 * dial.settableValue, unit, limit: 2 * sweepRadius },
        },
        unlock,
        again: {
          do: 'correct',
          measured: 'ring',
          off: 'too-large',
          per: { value: per, unit },
          control: 'boring-head',
          by: { value: (per * times) / 2, unit },
          way: 'close',
        },
        lock,
      },
      { uses: 'testRing' },
    ),
  ];
}

function around(what: Secure['what']): readonly [unlock: Secure, lock: Secure] {
  return [
    { do: 'unlock', what },
    { do: 'lock', what },
  ];
}

/** Setting the tilt as finely as its means does: by the needle along a face, or by a sine bar; else the scale was all. */
function finely(
  { work, settings, means }: Planned<TiltedSweepMethod>,
  { unit, per }: Cutting,
): readonly Step<'indicator' | 'sine-bar'>[] {
  const { code, values } = means ?? {};
  const { readingDeg } = settings.tilt;
  const angleDeg = Math.abs(readingDeg);
  const { travel = QUILL_TRAVEL[unit], resolution, bar = 0, blocks = 0, still = 0 } = values ?? {};
  const [unlock, lock] = around('head');
  const [more, less] =
    readingDeg < 0 ? (['anticlockwise', 'clockwise'] as const) : (['clockwise', 'anticlockwise'] as const);
  const indicate = (against: string, needle: number, limit: number, sense: Indicate['sense']): Indicate => ({
    do: 'indicate',
    on: 'quill',
    against,
    control: 'quill',
    travel: { value: travel, unit },
    way: 'forward',
    needle: { value: needle, unit, limit, step: resolution && fifth(resolution) },
    sense,
  });
  const turn = (off: Correct['off'], slope: number, way: Correct['way']): Correct => ({
    do: 'correct',
    measured: 'needle',
    off,
    per: { value: per, unit },
    control: 'head',
    by: rate(60 * toDegrees(per / slope), 'minutes of arc'),
    way,
  });
  if (code === 'sine-bar') {
    const onBar = angleDeg > 45;
    // A square leans to the side of its lower roller; along the bar itself the quill rises to that of its upper one.
    const way = readingDeg > 0 === onBar ? 'right' : 'left';
    const actions = {
      bar: { do: 'provide', what: 'sine-bar', size: { value: bar, unit } },
      blocks: {
        do: 'provide',
        what: 'gauge-blocks',
        size: { value: blocks, unit, step: unit === 'mm' ? 0.001 : 0.0001 },
        way,
      },
      needle: indicate(onBar ? 'sine-bar' : 'square-on-sine-bar', 0, still, 'still'),
      unlock,
      // Pushed in, the quill leans on the square, or stands too upright over the bar.
      again: turn('too-large', travel, onBar ? more : 'anticlockwise'),
      lock,
    } as const;
    return [step(WORDS, 'set', 'sine-bar', actions, { uses: 'sineBarSettings' })];
  }
  if (code === 'scale' || code === 'by-eye') return [];
  // Along the face that the quill leans to least the needle hardly tells one tilt from another.
  const upright = code === 'stated' ? angleDeg <= 45 : code === 'indicator';
  const [across, down] = [travel * sinDeg(angleDeg), travel * cosDeg(angleDeg)];
  const slope = upright ? down : across;
  const limit = resolution === undefined ? slope * toRadians(work.setting.headTiltDeg) : resolution / 2;
  const sense = !upright || readingDeg > 0 ? 'in' : readingDeg < 0 ? 'out' : 'still';
  const needle = indicate(upright ? 'square-on-left' : 'level-face', upright ? across : down, limit, sense);
  const again =
    sense === 'still' ? turn('too-large', slope, 'anticlockwise') : turn('too-small', slope, upright ? more : less);
  return [step(WORDS, 'set', 'indicator', { needle, unlock, again, lock })];
}
