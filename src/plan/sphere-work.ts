/**
 * The order of work for a sphere, by tilted sweep, swivelling tool, steps or ball-ended cutter. The trial is
 * larger than the finished ball, or a smaller or shallower socket, by what the settings may be off and a cut
 * to finish; the correction goes by the radius that was measured on it.
 */
import { cosDeg, sinDeg, toRadians } from '../core/trigonometry.js';
import type { BallCutterSteps } from '../sphere/ball-cutter/settings.js';
import type { SphereSteps } from '../sphere/steps/settings.js';
import { type SwivelSettings, swivelCorrection } from '../sphere/swivel-tool/index.js';
import { type SphereShape, sphereShape } from '../sphere/target.js';
import { sweepCorrection } from '../sphere/tilted-sweep/correction.js';
import { sweepPosition } from '../sphere/tilted-sweep/position.js';
import type { SweepSettings } from '../sphere/tilted-sweep/settings.js';
import { socketTiltCorrection } from '../sphere/tilted-sweep/socket-tilt.js';
import type { SpherePart } from './job.js';
import type { Step, StepsOf } from './steps.js';
import { plain, reading, roundedUp, told, within } from './told.js';

/** Steps of a sphere method. */
export function sphereWork(of: StepsOf): readonly Step[] {
  const cut = readCut(of);
  const own = OWN[of.method.method as keyof typeof OWN](cut);
  const isLast = ({ kind }: Step): boolean => kind === 'finish';
  return [...own.filter((step) => !isLast(step)), again(cut), ...own.filter(isLast), finish(cut)];
}

const OWN = { 'tilted-sweep': tiltedSweep, 'swivel-tool': swivelTool, steps: byTable, 'ball-cutter': byTable };

interface Cut extends StepsOf {
  readonly part: SpherePart;
  readonly shape: SphereShape;
  readonly ball: boolean;
  /** What the trial leaves on the radius. */
  readonly leave: number;
  /** The error for which a correction is told. */
  readonly per: number;
}

/** Left on the radius for the finishing cut, in millimetres: common practice, no source. */
const FINISHING_MM = 0.1;

function readCut(of: StepsOf): Cut {
  const { job, method, unit } = of;
  const part = job.part as SpherePart;
  const shape = sphereShape(part.target);
  const worst = method.expectations
    .filter(({ quantity }) => quantity === 'radius')
    .map(({ first }) => Math.max(Math.abs(first.low), Math.abs(first.high)));
  const finishing = unit === 'mm' ? FINISHING_MM : FINISHING_MM / 25.4;
  // A tenth of the size at most: a trial must still resemble the part.
  const leave = Math.min(roundedUp(Math.max(0, ...worst) + finishing), depthOf(shape) / 10);
  return { ...of, part, shape, ball: shape.side === 'ball', leave, per: unit === 'mm' ? 0.01 : 0.001 };
}

/** Length of the surface along the axis. */
function depthOf({ fromHeight, toHeight }: SphereShape): number {
  return Math.abs(fromHeight - toHeight);
}

/** Travel of the quill over which an indicator proves the tilt, in millimetres: within most quills. */
const QUILL_MM = 50;

function tiltedSweep(cut: Cut): readonly Step[] {
  const { job, unit, part, shape, ball, leave, method } = cut;
  const settings = method.settings as unknown as SweepSettings;
  const { tilt, dial, settable, tipDiameter } = settings;
  const { headTiltDeg, skew, sweepRadius, miss, position } = job.setting;
  const mill = job.mills.find(({ name }) => name === method.machine);
  const travel = unit === 'mm' ? QUILL_MM : QUILL_MM / 25;
  const needle = travel * Math.abs(sinDeg(tilt.readingDeg));
  const needleLimit = travel * Math.abs(cosDeg(tilt.readingDeg)) * toRadians(headTiltDeg);
  const headDial = mill?.boringHead?.dial;
  const times = headDial?.reads === 'diameter' ? 2 : 1;
  const at = sweepPosition({ target: part.target, sweep: settable.sweep });
  const atPole = shape.fromDeg === 0;
  return [
    {
      kind: 'prepare',
      code: 'axes-meet',
      text: `Clamp the rotary table with its axis ${mill?.table === 'upright' ? 'level' : 'upright'}, the work running true on it. Bring the table's axis and the spindle's into one plane, ${within(skew)} ${unit}, by an indicator in the spindle before the head is tilted: only where the two axes meet is the cut a sphere.`,
      values: { skew },
    },
    {
      kind: 'set',
      code: 'tilt',
      text: `Tilt the head to ${reading(Math.abs(tilt.settableReadingDeg), mill?.headTilt.stepDeg, headTiltDeg)}° from upright${tilt.settableReadingDeg === tilt.readingDeg ? '' : ` (exactly ${plain(Math.abs(tilt.readingDeg))}°)`}, ${within(headTiltDeg)}°, and clamp it.`,
      values: { readingDeg: tilt.settableReadingDeg, exactReadingDeg: tilt.readingDeg, limitDeg: headTiltDeg },
      uses: 'sweepSettings',
    },
    {
      kind: 'set',
      code: 'sweep',
      text: `Set the boring head to ${reading(dial.settableReading, headDial?.step, times * sweepRadius)} ${unit} on its dial, coming up from below: the tip then turns on a circle of ${told(2 * dial.settableValue, 2 * sweepRadius)} ${unit} across.`,
      values: {
        reading: dial.settableReading,
        exactReading: dial.reading,
        tipDiameter: 2 * dial.settableValue,
        limit: sweepRadius,
      },
      uses: 'sweepSettings',
    },
    {
      kind: 'set',
      code: 'place',
      text: atPole
        ? `Set the tip at its lowest over the centre of the slowly turned work, ${within(miss)} ${unit}: a centre mark must neither widen nor keep a ring. Touch the end face there: ${at.feedFromTouch <= position ? 'the pole will lie in it' : `from it the sphere lies ${told(at.feedFromTouch, position)} ${unit} deep along the work's axis`}.`
        : `Bring the spindle's axis to ${told(at.spindleAtFace, miss)} ${unit} from the work's axis at the level of the free end, ${within(miss)} ${unit}; the sphere's centre lies ${told(Math.abs(at.centreFromFace), position)} ${unit} from that face, ${within(position)} ${unit}.`,
      values: {
        feedFromTouch: at.feedFromTouch,
        spindleAtFace: at.spindleAtFace,
        centreFromFace: at.centreFromFace,
        miss,
        position,
      },
      uses: 'sweepPosition',
    },
    {
      kind: 'check',
      code: 'indicator',
      text: `Run an indicator on the quill along an upright square: over ${plain(travel)} ${unit} of the quill it must move by ${told(needle, needleLimit)} ${unit}, ${within(needleLimit)} ${unit}.`,
      values: { travel, needle, limit: needleLimit },
    },
    {
      kind: 'check',
      code: 'test-ring',
      text: `Let the same tool ${ball ? 'turn' : 'bore'} a test ring about the spindle's axis: it must measure ${told(tipDiameter, 2 * sweepRadius)} ${unit}, ${within(2 * sweepRadius)} ${unit}. What it is off goes onto the dial.`,
      values: { tipDiameter, limit: 2 * sweepRadius },
      uses: 'testRing',
    },
    {
      kind: 'check',
      code: 'clear-sweep',
      text: 'With the power off turn the spindle by hand through a whole turn, and the work too: head, tool and clamps must clear work and table everywhere.',
      values: {},
    },
    ...sweepTrial(cut, settings, leave),
  ];
}

/** Past its widest place a ball is fed along the spindle, a socket opened by the head; all else along the work's axis. */
function sweepTrial(
  { part, shape, ball, unit, per, job }: Cut,
  { settable }: SweepSettings,
  leave: number,
): readonly Step[] {
  const { sweepRadius, distance } = settable.sweep;
  const { radius } = settable;
  const { diameter, length } = job.measuring;
  if (ball && shape.toDeg > 90) {
    const left = Math.sqrt((radius + leave - sweepRadius) * (radius + leave + sweepRadius)) - distance;
    const change = sweepCorrection({
      target: part.target,
      sweep: settable.sweep,
      measuredDiameter: 2 * (shape.radius + per),
    });
    return [
      {
        kind: 'trial-cut',
        code: 'rough',
        text: `Turning the work slowly, feed along the spindle in small steps until ${told(left, per)} ${unit} are left to go: the ball then measures ${told(2 * (radius + leave), diameter)} ${unit}.`,
        values: { left, radius: radius + leave, leave },
      },
      {
        kind: 'measure',
        code: 'size',
        text: `Stop spindle and table. Measure the ball at its widest place, ${within(diameter)} ${unit}, at several places round, and the pip at the free end.`,
        values: { diameter: 2 * (radius + leave), diameterLimit: diameter },
      },
      {
        kind: 'correct',
        code: 'sweep-and-distance',
        text: `A pip of a given diameter: the tip misses the centre by half of it; move the table by that much. For every ${per} ${unit} that the finished radius would be too large, ${move(change.sweepRadiusChange, unit, 'open', 'close', 'the sweep')} on the radius and ${move(change.distanceChange, unit, 'raise', 'lower', 'the spindle')} along its axis. Too small: as much the other way.`,
        values: { per, sweepRadiusChange: change.sweepRadiusChange, distanceChange: change.distanceChange },
        uses: 'sweepCorrection',
      },
    ];
  }
  const whole = depthOf(shape);
  const deep = !ball && shape.toDeg > 90;
  const depth = deep ? whole : whole - leave;
  const chord = (size: number): number => 2 * Math.sqrt(depth * (2 * size - depth));
  const across = deep ? 2 * (radius - leave) : chord(radius);
  const change = socketTiltCorrection({
    radius: shape.radius,
    sweepRadius,
    openingDiameter: chord(shape.radius + per),
    depth,
  });
  const rim = ball ? 'where the dome ends' : 'of the opening';
  return [
    {
      kind: 'trial-cut',
      code: 'rough',
      text: deep
        ? `Turning the work slowly, sink the socket with the sweep closed and the spindle lowered in proportion, so that its radius is ${plain(leave)} ${unit} short.`
        : `Turning the work slowly, feed along its axis in small steps until the cut is ${told(depth, length)} ${unit} deep: ${plain(leave)} ${unit} are left.`,
      values: { depth, leave },
    },
    {
      kind: 'measure',
      code: 'size',
      text: `Stop spindle and table. Measure the diameter ${rim}, ${within(diameter)} ${unit}, and the depth, ${within(length)} ${unit}: at a depth of ${told(depth, length)} ${unit} it must be ${told(across, diameter)} ${unit}. Look for a pip in the middle.`,
      values: { depth, diameter: across, diameterLimit: diameter, depthLimit: length },
    },
    {
      kind: 'correct',
      code: 'tilt-again',
      text: `A pip of a given diameter: the tip misses the centre by half of it; move the table by that much. For every ${per} ${unit} that the radius found from diameter and depth is too large, tilt the head so that the angle between the two axes grows by ${told(60 * change.tiltChangeDeg, 0.1)}', with the tip over the centre again. Too small: as much less.`,
      values: { per, tiltChangeDeg: change.tiltChangeDeg },
      uses: 'socketTiltCorrection',
    },
  ];
}

function move(change: number, unit: string, more: string, less: string, what: string): string {
  return `${change > 0 ? more : less} ${what} by ${told(Math.abs(change), Math.abs(change))} ${unit}`;
}

function swivelTool(cut: Cut): readonly Step[] {
  const { job, unit, shape, ball, leave, per, method } = cut;
  const { swivelRadius, swingFromDeg, swingToDeg } = method.settings as unknown as SwivelSettings;
  const { swivelRadius: limit, swivelOffset, toolHeight } = job.setting;
  const { diameter } = job.measuring;
  const trial = swivelRadius + (ball ? leave : -leave);
  const aslant = ball && shape.fromDeg <= 45 && shape.toDeg >= 135;
  const size = { radius: shape.radius, diameterAcross: 2 * shape.radius + per };
  const larger = swivelCorrection({ ...size, diameterLeaning: 2 * shape.radius + per });
  const wider = swivelCorrection({ ...size, diameterLeaning: 2 * shape.radius });
  return [
    {
      kind: 'prepare',
      code: 'tool-height',
      text: `Bring the tip of the tool to the height of the work's axis, ${within(toolHeight)} ${unit}.`,
      values: { toolHeight },
    },
    {
      kind: 'set',
      code: 'swivel-centre',
      text: `Set the swivel's centre under the work's axis, ${within(swivelOffset)} ${unit}, and ${told(swivelRadius, limit)} ${unit} from where the pole will be.`,
      values: { swivelOffset, centreFromPole: swivelRadius },
      uses: 'swivelSettings',
    },
    {
      kind: 'set',
      code: 'swivel-radius',
      text: `For the trial set the tip ${told(trial, limit)} ${unit} from the swivel's centre (finished: ${told(swivelRadius, limit)} ${unit}), ${within(limit)} ${unit}. Swing from ${told(swingFromDeg, 1)}° to ${told(swingToDeg, 1)}° from the axis at the free end; set stops there.`,
      values: { trialRadius: trial, swivelRadius, limit, swingFromDeg, swingToDeg },
      uses: 'swivelSettings',
    },
    {
      kind: 'check',
      code: 'indicator',
      text: `Put a true cylinder in the spindle and an indicator on the swivel. Swung from one side of the cylinder to the other it must read the same, to ${told(2 * swivelOffset, 2 * swivelOffset)} ${unit}: half the difference is how far the centre is off.`,
      values: { limit: 2 * swivelOffset },
    },
    {
      kind: 'check',
      code: 'clear-sweep',
      text: 'With the power off swing the tool by hand from stop to stop: it must clear chuck, stem and slide.',
      values: {},
    },
    {
      kind: 'trial-cut',
      code: 'rough',
      text: `Swing by hand in light cuts until the trial radius of ${told(trial, limit)} ${unit} is cut all over: ${plain(leave)} ${unit} are left.`,
      values: { radius: trial, leave },
    },
    {
      kind: 'measure',
      code: 'size',
      text: aslant
        ? `Stop the spindle. Measure the ball across at its widest place and with the micrometer leaning 45° to the axis, each ${within(diameter)} ${unit}: both must be ${told(2 * trial, diameter)} ${unit}.`
        : `Stop the spindle. Measure ${ball ? 'the diameter' : 'opening and depth'}, ${within(diameter)} ${unit}: the radius must be ${told(trial, diameter)} ${unit}.`,
      values: { diameter: 2 * trial, diameterLimit: diameter },
    },
    {
      kind: 'correct',
      code: 'radius-and-centre',
      text: `For every ${per} ${unit} that the diameter is too large change the swivel's radius by ${told(larger.changeRadius, per / 10)} ${unit}.${aslant ? ` For every ${per} ${unit} that it is larger across than leaning move the swivel's centre by ${told(wider.moveCentre, per / 10)} ${unit} (minus: away from the tool's side), and measure again.` : ''}`,
      values: { per, changeRadius: larger.changeRadius, ...(aslant && { moveCentre: wider.moveCentre }) },
      uses: 'swivelCorrection',
    },
  ];
}

/** By steps of plain turning, or by passes of a ball-ended cutter: a table of positions. */
function byTable(cut: Cut): readonly Step[] {
  const { job, unit, ball, leave, per, method } = cut;
  const turned = method.method === 'steps';
  const { position, touchOff, miss } = job.setting;
  const { diameter } = job.measuring;
  const settings = method.settings as unknown as SphereSteps & BallCutterSteps;
  const zero = turned ? touchOff : 2 * miss;
  const table = turned
    ? {
        columns: ['Diameter', ball ? 'Depth from the free end' : 'Depth from the face'],
        rows: settings.steps.map((one) => [one.diameter, one.depth]),
        limit: position,
      }
    : {
        columns: ['Cutter centre from the axis', 'Cutter tip above the sphere centre'],
        rows: settings.passes.map((one) => [one.centreRadius, one.tipHeight]),
        limit: position,
      };
  const [pass] = settings.passes ?? [];
  const cutter = pass ? 2 * Math.abs(pass.tipHeight - pass.centreHeight) : 0;
  return [
    {
      kind: 'prepare',
      code: 'hold-work',
      text: turned
        ? "Hold the work true, its end faced; the corner of the tool as round as the job states, at the height of the work's axis."
        : `Hold the work true on the rotary table and fit the ball-ended cutter of ${plain(cutter)} ${unit}.`,
      values: turned ? {} : { cutterDiameter: cutter },
    },
    {
      kind: 'set',
      code: 'zero',
      text: turned
        ? `Touch off on a turned diameter, ${within(touchOff)} ${unit}, and on the end face; set both dials to zero there and come to every stop from the same side.`
        : `Bring the spindle's axis over the table's, ${within(miss)} ${unit}, and touch off the end face; set both dials to zero there and come to every position from the same side.`,
      values: { limit: turned ? touchOff : miss },
    },
    {
      kind: 'check',
      code: 'clear-sweep',
      text: 'With the power off go to the first and the last position by hand: nothing but the cutting edge may touch.',
      values: { positions: table.rows.length },
    },
    {
      kind: 'trial-cut',
      code: 'rough',
      text: `Cut at all positions with ${plain(leave)} ${unit} ${ball ? 'added to' : 'taken from'} each distance from the axis.`,
      values: { leave },
    },
    {
      kind: 'measure',
      code: 'size',
      text: `Stop the spindle. Measure the widest place that was cut, ${within(diameter)} ${unit}: it must stand ${plain(2 * leave)} ${unit} ${ball ? 'over' : 'under'} its diameter.`,
      values: { over: (ball ? 2 : -2) * leave, diameterLimit: diameter },
    },
    {
      kind: 'correct',
      code: 'zero-again',
      text: `For every ${per} ${unit} that the diameter is too large move the zero across the axis ${ball ? 'in' : 'back'} by ${plain(per / 2)} ${unit}; its limit was ${within(zero)} ${unit} on the diameter.`,
      values: { per, zeroChange: -per / 2, limit: zero },
    },
    {
      kind: 'finish',
      code: 'positions',
      text: `Cut at these positions, each ${within(position)} ${unit}. Ridges of ${told(settings.leftover, settings.leftover)} ${unit} are left to blend.`,
      values: { leftover: settings.leftover, position },
      uses: turned ? 'sphereSteps' : 'ballCutterSteps',
      table,
    },
  ];
}

function again({ method }: Cut): Step {
  const { tries, probability, meets } = method;
  const chance = probability > 0.999 ? 'more than 99.9 %' : `${Math.floor(1000 * probability) / 10} %`;
  const correction = tries === 1 ? 'without a correction' : 'after one correction';
  const promise = meets ? `is met ${correction}` : 'is met by one correction';
  return {
    kind: 'correct',
    code: 'again',
    text: `Repeat trial cut and measurement after every correction. By the plan the tolerance ${promise} with a probability of ${chance}${meets ? '' : ' only: expect to repeat it'}.`,
    values: { tries, probability },
  };
}

function finish({ part, shape, unit, job }: Cut): Step {
  const { radius, form } = part.tolerance;
  const { diameter } = job.measuring;
  return {
    kind: 'finish',
    code: 'final-check',
    text: `Finish to size and measure cold: radius ${told(shape.radius, radius)} ${unit}, ${within(radius)} ${unit}${form === undefined ? '' : `; form within ${told(form, form)} ${unit}`}. Measure in several directions, each ${within(diameter)} ${unit}, and prove the form with a ring of sharp edge and marking blue: it must bear all round wherever it is laid.`,
    values: { radius: shape.radius, limit: radius, ...(form !== undefined && { form }) },
  };
}
