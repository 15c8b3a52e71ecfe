/**
 * A sphere by a tilted sweep, as a person meets it: the order of work, the drawing, the cautions, what it cuts. Sides and
 * directions are those of the mill's frame in docs/conventions.md. Tilt and sweep are proved before the tip is
 * placed, since both would undo it.
 */
import { perMovement } from '../../core/dial.js';
import { cosDeg, sinDeg, toRadians } from '../../core/trigonometry.js';
import type { Indicate } from '../../method/actions.js';
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
      step(WORDS, 'check', 'clear-sweep', {}),
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
  correction: ({ part, setting }, _machine, { settable: { sweep } }, { measurements }) => {
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
    return sweepDiagnosis({ target: part.target, sweep, uncertainties, measurements });
  },
};

function setUp(planned: Planned<TiltedSweepMethod>, cutting: Cutting): readonly Step<keyof typeof WORDS>[] {
  const { work, machine, settings, means } = planned;
  const { unit, ball } = cutting;
  const { tilt, dial } = settings;
  const { skew, sweepRadius } = work.setting;
  const { readingDeg } = tilt;
  const headDial = machine.boringHead.dial;
  return [
    step(WORDS, 'prepare', 'axes-meet', { unit, table: machine.table, skew }),
    ...(ball ? [stock(planned, cutting)] : []),
    step(WORDS, 'set', 'tilt', { readingDeg, limitDeg: means?.near ?? 0 }, { uses: 'sweepSettings' }),
    ...finely(planned, cutting),
    step(
      WORDS,
      'set',
      'sweep',
      {
        unit,
        reading: dial.reading,
        tipDiameter: 2 * dial.settableValue,
        limit: sweepRadius,
        readingLimit: perMovement(headDial.reads) * sweepRadius,
      },
      { uses: 'sweepSettings' },
    ),
    step(
      WORDS,
      'set',
      'test-ring',
      { unit, turns: ball ? 'turn' : 'bore', tipDiameter: 2 * dial.settableValue, limit: 2 * sweepRadius },
      { uses: 'testRing' },
    ),
  ];
}

/** Setting the tilt as finely as its means does: by the needle along a face, or by a sine bar; else the scale was all. */
function finely(
  { work, settings, means }: Planned<TiltedSweepMethod>,
  { unit }: Cutting,
): readonly Step<'indicator' | 'sine-bar'>[] {
  const { code, values } = means ?? {};
  const { readingDeg } = settings.tilt;
  const angleDeg = Math.abs(readingDeg);
  const { travel = QUILL_TRAVEL[unit], resolution, bar = 0, blocks = 0, still = 0 } = values ?? {};
  if (code === 'sine-bar') {
    const along = angleDeg <= 45 ? 'square' : 'bar';
    const check: Indicate = {
      do: 'indicate',
      on: 'quill',
      against: along,
      control: 'quill',
      travel: { value: travel, unit },
      way: 'down',
      needle: { value: 0, unit, limit: still },
      sense: 'still',
    };
    // A square leans to the side of its lower roller; along the bar itself the quill rises to that of its upper one.
    const roller = readingDeg > 0 === (along === 'bar') ? 'right' : 'left';
    return [step(WORDS, 'set', 'sine-bar', { unit, bar, blocks, along, roller, check }, { uses: 'sineBarSettings' })];
  }
  if (code === 'scale' || code === 'by-eye') return [];
  // Along the face that the quill leans to least the needle hardly tells one tilt from another.
  const upright = code === 'stated' ? angleDeg <= 45 : code === 'indicator';
  const [across, down] = [travel * sinDeg(angleDeg), travel * cosDeg(angleDeg)];
  const limit =
    resolution === undefined ? (upright ? down : across) * toRadians(work.setting.headTiltDeg) : resolution / 2;
  const needle = upright ? across : down;
  return [step(WORDS, 'set', 'indicator', { unit, face: upright ? 'upright' : 'level', travel, needle, limit })];
}
