/**
 * A sphere by a tilted sweep, as a person meets it: the order of work, the drawing, the cautions, what it cuts. Sides and
 * directions are those of the mill's frame in docs/conventions.md. Tilt and sweep are proved before the tip is
 * placed, since both would undo it.
 */
import { perMovement } from '../../core/dial.js';
import { cosDeg, sinDeg, toRadians } from '../../core/trigonometry.js';
import type { MethodSheet, Planned } from '../../method/method.js';
import { type Step, step } from '../../method/steps.js';
import { CAUTIONS, cautions } from '../cautions.js';
import { type Cutting, cuttingOf, inOrder } from '../sphere-steps.js';
import { sweepDiagnosis } from './diagnosis.js';
import { sweepFigure } from './figure.js';
import type { TiltedSweepMethod } from './method.js';
import { feedOf, placing, stock } from './placing.js';
import { sweepSurface } from './surface.js';
import { trial } from './trial.js';
import { WORDS } from './words.js';

/** Travel of the quill over which an indicator proves the tilt, in millimetres: within most quills. */
const QUILL_MM = 50;

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
  figure: ({ work, settings }, looks) =>
    sweepFigure({ target: work.part.target, result: settings.settable, unit: work.unit, ...looks }),
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
  const { work, machine, settings } = planned;
  const { unit, ball } = cutting;
  const { tilt, dial } = settings;
  const { headTiltDeg, skew, sweepRadius } = work.setting;
  const readingDeg = tilt.settableReadingDeg;
  const travel = unit === 'mm' ? QUILL_MM : QUILL_MM / 25;
  // Along the face that the quill leans to least the needle hardly tells one tilt from another.
  const upright = Math.abs(readingDeg) <= 45;
  const across = travel * sinDeg(Math.abs(readingDeg));
  const down = travel * cosDeg(readingDeg);
  const limit = (upright ? down : across) * toRadians(headTiltDeg);
  const headDial = machine.boringHead.dial;
  return [
    step(WORDS, 'prepare', 'axes-meet', { unit, table: machine.table, skew }),
    ...(ball ? [stock(planned, cutting)] : []),
    step(
      WORDS,
      'set',
      'tilt',
      { readingDeg, exactReadingDeg: tilt.readingDeg, limitDeg: headTiltDeg, stepDeg: machine.headTilt.stepDeg },
      { uses: 'sweepSettings' },
    ),
    step(WORDS, 'set', 'indicator', {
      unit,
      face: upright ? 'upright' : 'level',
      travel,
      needle: upright ? across : down,
      limit,
    }),
    step(
      WORDS,
      'set',
      'sweep',
      {
        unit,
        reading: dial.settableReading,
        exactReading: dial.reading,
        tipDiameter: 2 * dial.settableValue,
        limit: sweepRadius,
        readingLimit: perMovement(headDial.reads) * sweepRadius,
        dialStep: headDial.step,
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
