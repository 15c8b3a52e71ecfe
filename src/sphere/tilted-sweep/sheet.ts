/** A sphere by a tilted sweep, as a person meets it: the order of work, the drawing, the cautions. */
import { perMovement } from '../../core/dial.js';
import { cosDeg, sinDeg, toRadians } from '../../core/trigonometry.js';
import type { MethodSheet, Planned } from '../../method/method.js';
import { type Step, step } from '../../method/steps.js';
import { CAUTIONS, cautions } from '../cautions.js';
import { type Cutting, cuttingOf, depthOf, inOrder } from '../sphere-steps.js';
import { sweepCorrection } from './correction.js';
import { sweepFigure } from './figure.js';
import type { TiltedSweepMethod } from './method.js';
import { sweepPosition } from './position.js';
import { socketTiltCorrection } from './socket-tilt.js';
import { WORDS } from './words.js';

/** Travel of the quill over which an indicator proves the tilt, in millimetres: within most quills. */
const QUILL_MM = 50;

export const tiltedSweepSheet: MethodSheet<TiltedSweepMethod> = {
  name: 'tilted-sweep',
  title: 'tilted boring head over a turning table',
  work: (planned) => {
    const cutting = cuttingOf(planned);
    return inOrder(planned, cutting, [...setUp(planned, cutting), ...trial(planned, cutting)]);
  },
  figure: ({ work, settings }, looks) =>
    sweepFigure({ target: work.part.target, result: settings.settable, unit: work.unit, ...looks }),
  cautions: () => cautions(['head-off-balance', 'head-tilt-clamp', 'open-sweep', 'table-lock'], CAUTIONS),
};

type Own = readonly Step<keyof typeof WORDS>[];

function setUp({ work, machine, settings }: Planned<TiltedSweepMethod>, { unit, part, shape, ball }: Cutting): Own {
  const { tilt, dial, settable, tipDiameter } = settings;
  const { headTiltDeg, skew, sweepRadius, miss, position } = work.setting;
  const travel = unit === 'mm' ? QUILL_MM : QUILL_MM / 25;
  const limit = travel * Math.abs(cosDeg(tilt.readingDeg)) * toRadians(headTiltDeg);
  const headDial = machine.boringHead.dial;
  const at = sweepPosition({ target: part.target, sweep: settable.sweep });
  const { feedFromTouch, spindleAtFace, centreFromFace } = at;
  return [
    step(WORDS, 'prepare', 'axes-meet', { unit, table: machine.table === 'upright' ? 'level' : 'upright', skew }),
    step(
      WORDS,
      'set',
      'tilt',
      {
        readingDeg: tilt.settableReadingDeg,
        exactReadingDeg: tilt.readingDeg,
        limitDeg: headTiltDeg,
        stepDeg: machine.headTilt.stepDeg,
      },
      { uses: 'sweepSettings' },
    ),
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
    shape.fromDeg === 0
      ? step(WORDS, 'set', 'place-at-pole', { unit, feedFromTouch, miss, position }, { uses: 'sweepPosition' })
      : step(WORDS, 'set', 'place', { unit, spindleAtFace, centreFromFace, miss, position }, { uses: 'sweepPosition' }),
    step(WORDS, 'check', 'indicator', { unit, travel, needle: travel * Math.abs(sinDeg(tilt.readingDeg)), limit }),
    step(
      WORDS,
      'check',
      'test-ring',
      { unit, turns: ball ? 'turn' : 'bore', tipDiameter, limit: 2 * sweepRadius },
      { uses: 'testRing' },
    ),
    step(WORDS, 'check', 'clear-sweep', {}),
  ];
}

/** Past its widest place a ball is fed along the spindle, a socket opened by the head; all else along the work's axis. */
function trial({ work, settings: { settable } }: Planned<TiltedSweepMethod>, cutting: Cutting): Own {
  const { part, shape, ball, unit, per, leave } = cutting;
  const { sweepRadius, distance } = settable.sweep;
  const { radius } = settable;
  const { diameter: diameterLimit, length: depthLimit } = work.measuring;
  if (ball && shape.toDeg > 90) {
    const left = Math.sqrt((radius + leave - sweepRadius) * (radius + leave + sweepRadius)) - distance;
    const diameter = 2 * (radius + leave);
    const { sweepRadiusChange, distanceChange } = sweepCorrection({
      target: part.target,
      sweep: settable.sweep,
      measuredDiameter: 2 * (shape.radius + per),
    });
    return [
      step(WORDS, 'trial-cut', 'rough-along-spindle', { unit, left, leave, diameter, limit: diameterLimit, per }),
      step(WORDS, 'measure', 'size', { unit, diameter, diameterLimit }),
      step(
        WORDS,
        'correct',
        'sweep-and-distance',
        { unit, per, sweepRadiusChange, distanceChange },
        { uses: 'sweepCorrection' },
      ),
    ];
  }
  const whole = depthOf(shape);
  const deep = !ball && shape.toDeg > 90;
  const depth = deep ? whole : whole - leave;
  const chord = (size: number): number => 2 * Math.sqrt(depth * (2 * size - depth));
  const diameter = deep ? 2 * (radius - leave) : chord(radius);
  const { tiltChangeDeg } = socketTiltCorrection({
    radius: shape.radius,
    sweepRadius,
    openingDiameter: chord(shape.radius + per),
    depth,
  });
  const where = ball ? 'where the dome ends' : 'of the opening';
  return [
    deep
      ? step(WORDS, 'trial-cut', 'rough-deep', { unit, leave })
      : step(WORDS, 'trial-cut', 'rough-along-work', { unit, depth, leave, limit: depthLimit }),
    step(WORDS, 'measure', 'size-and-depth', { unit, where, depth, diameter, diameterLimit, depthLimit }),
    step(WORDS, 'correct', 'tilt-again', { unit, per, tiltChangeDeg }, { uses: 'socketTiltCorrection' }),
  ];
}
