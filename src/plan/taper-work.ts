/**
 * The order of work for a taper on a lathe, by top slide, guide bar, set-over or work between balls.
 *
 * What must hold is the difference of the end diameters over the length: it answers to the angle alone,
 * so setting, checking and correcting go by it, and the size is touched off last. An indicator moved by t
 * along the axis against a true cylinder shows t tan α where the cutting motion is tilted by α; half the
 * tolerance of the difference either way is then its own tolerance.
 */
import type { Dial } from '../core/dial.js';
import { cosDeg, sinDeg, toRadians } from '../core/trigonometry.js';
import { type BallCentresSettings, ballCentresCorrection } from '../offset/between-balls/index.js';
import { type GuideBarSettings, guideBarCorrection } from '../offset/guide-bar/index.js';
import { type SetoverCorrection, setoverCorrection } from '../offset/set-over/correction.js';
import type { SetoverSettings } from '../offset/set-over/settings.js';
import { type TopSlideSettings, topSlideCorrection } from '../offset/top-slide/index.js';
import { topSlideFromMaster } from '../offset/top-slide/master.js';
import { readTaper, type Slope } from '../taper/taper.js';
import type { Lathe, TaperPart } from './job.js';
import type { Step, StepsOf } from './steps.js';
import { plain, reading, roundedUp, told, within } from './told.js';

/** Steps of a taper method. */
export function taperWork(of: StepsOf): readonly Step[] {
  const cut = readCut(of);
  const { own, correction } = OWN[of.method.method as keyof typeof OWN](cut);
  return [...holding(cut), ...own, ...trial(cut), { kind: 'correct', ...correction }, again(cut), ...finish(cut)];
}

const OWN = { 'top-slide': topSlide, 'guide-bar': guideBar, 'set-over': setOver, 'ball-centres': ballCentres };

/** What all steps speak of. */
interface Cut extends StepsOf {
  readonly part: TaperPart;
  readonly lathe: Lathe;
  readonly slope: Slope;
  readonly outside: boolean;
  readonly small: number;
  /** Tolerance of the difference of the end diameters over the length. */
  readonly tolerance: number;
  /** What the trial leaves on the diameter, the large diameter it leaves, and the length that it then has. */
  readonly leave: number;
  readonly trialLarge: number;
  readonly trialLength: number;
  /** The error for which a correction is told. */
  readonly per: number;
}

/** What a method adds: its settings and checks, and what to change for a measured error. */
interface Own {
  readonly own: readonly Step[];
  readonly correction: Omit<Step, 'kind'>;
}

/** Left on the diameter for the finishing cuts, in millimetres: common practice, no source. */
const FINISHING_MM = 0.2;

function readCut(of: StepsOf): Cut {
  const { job, method, unit } = of;
  const part = job.part as TaperPart;
  const slope = readTaper(part.taper);
  const { largeDiameter, length } = part;
  const outside = part.side === 'outside';
  const { smallDiameter = Infinity, halfAngleDeg } = part.tolerance;
  const tolerance = Math.min(
    smallDiameter,
    halfAngleDeg === undefined ? Infinity : overLength(halfAngleDeg, slope, length),
  );
  // The trial must hold the finished taper whatever its error, and still leave a cut to take.
  const worst = method.expectations.map(({ quantity, first }) => {
    const error = Math.max(Math.abs(first.low), Math.abs(first.high));
    return quantity === 'half-angle' ? (2 * length * toRadians(error)) / slope.cos ** 2 : error;
  });
  const wanted = roundedUp(Math.max(0, ...worst) + (unit === 'mm' ? FINISHING_MM : FINISHING_MM / 25.4));
  // Without stock over the large end the trial runs out before it; half the length must be left to measure.
  const stock = outside ? Math.max(0, (part.stockDiameter ?? largeDiameter) - largeDiameter) : Infinity;
  const leave = Math.min(wanted, Math.max(stock, length * slope.tan));
  const short = Math.max(0, leave - stock) / 2 / slope.tan;
  return {
    ...of,
    part,
    lathe: job.lathes.find(({ name }) => name === method.machine) as Lathe,
    slope,
    outside,
    small: largeDiameter - 2 * length * slope.tan,
    tolerance,
    leave,
    trialLarge: largeDiameter + (outside ? Math.min(leave, stock) : -leave),
    trialLength: length - short,
    per: unit === 'mm' ? 0.01 : 0.001,
  };
}

/** What an angle is worth on the difference of the diameters, on the side where it is worth less: 2ℓ (tan α - tan(α - δ)). */
function overLength(deltaDeg: number, { cos, halfAngleDeg }: Slope, length: number): number {
  const delta = Math.min(deltaDeg, 45);
  return (2 * length * sinDeg(delta)) / cos / cosDeg(halfAngleDeg - delta);
}

function holding({ part, job, unit, method }: Cut): readonly Step[] {
  const between = method.method === 'set-over' || method.method === 'ball-centres';
  const { workLength } = part;
  const { toolHeight } = job.setting;
  return [
    {
      kind: 'prepare',
      code: 'hold-work',
      text: between
        ? `Turn the blank, ${plain(workLength)} ${unit} long, to a true cylinder between centres in line: it serves to check the setting.`
        : `Hold the work, ${plain(workLength)} ${unit} long, so that the whole taper can be reached; headstock and tailstock in line, the work running true.`,
      values: { workLength },
    },
    {
      kind: 'prepare',
      code: 'tool-height',
      text: `Bring the tip of the tool to the height of the work's axis, ${within(toolHeight)} ${unit}: off that height it cuts no true cone.`,
      values: { toolHeight },
    },
  ];
}

function topSlide(cut: Cut): Own {
  const { part, slope, job, unit, lathe, tolerance, per, trialLength } = cut;
  const settings = cut.method.settings as unknown as TopSlideSettings;
  const { travelNeeded, readingDeg, settableReadingDeg, indicatorOnSlide } = settings;
  const limit = job.setting.topSlideDeg;
  const scale = lathe.topSlide?.scale;
  const travel = part.length;
  const master = {
    master: 'cylinder',
    taper: part.taper,
    travel,
    length: part.length,
    differenceTolerance: tolerance,
  } as const;
  const { needle, needleFrom, needleTo } = topSlideFromMaster(master);
  const change = topSlideCorrection({
    taper: part.taper,
    ...measuredShort(cut),
    indicatorTravel: travel,
  });
  return {
    own: [
      {
        kind: 'prepare',
        code: 'clear-travel',
        text: `With the power off run the slide by hand over its way, ${plain(travelNeeded)} ${unit}: it must reach both ends of the taper, and nothing may touch work, shoulder or chuck.`,
        values: { travelNeeded },
      },
      {
        kind: 'set',
        code: 'angle',
        text: `Swing the top slide so that its scale reads ${reading(settableReadingDeg, scale?.stepDeg, limit)}°${exact(readingDeg, settableReadingDeg, '°')}, ${within(limit)}°, ${leaning(part)}. Clamp it lightly.`,
        values: {
          readingDeg: settableReadingDeg,
          exactReadingDeg: readingDeg,
          halfAngleDeg: slope.halfAngleDeg,
          limitDeg: limit,
        },
        uses: 'topSlideSettings',
      },
      {
        kind: 'check',
        code: 'indicator',
        text: `Put a true cylinder in place of the work and an indicator on the slide, its plunger level, square to the axis and at its height. Over ${plain(travel)} ${unit} of the slide it must move by ${told(needle, tolerance / 2)} ${unit}, from ${told(needleFrom, tolerance / 2)} to ${told(needleTo, tolerance / 2)}, always fed in the same direction. Turn the spindle half a turn and take the mean. Tap the slide round, clamp it, and read again. (An indicator standing still against the slide's own edge shows ${told(indicatorOnSlide, tolerance / 2)} over the same travel of the carriage.)`,
        values: { travel, needle, needleFrom, needleTo, indicatorOnSlide },
        uses: 'topSlideFromMaster',
      },
    ],
    correction: {
      code: 'turn-slide',
      text: `For every ${per} ${unit} that the difference is too small over ${plain(trialLength)} ${unit}, turn the slide ${told(change.changeMinutes, 0.1)}' steeper: the indicator on the slide then moves ${told(change.indicatorOnCylinder, per / 10)} ${unit} more over ${plain(travel)} ${unit}. Too large: as much flatter.`,
      values: {
        per,
        changeMinutes: change.changeMinutes,
        changeDeg: change.changeDeg,
        indicator: change.indicatorOnCylinder,
        travel,
      },
      uses: 'topSlideCorrection',
    },
  };
}

function guideBar(cut: Cut): Own {
  const { part, slope, job, unit, lathe, tolerance, per, trialLength } = cut;
  const settings = cut.method.settings as unknown as GuideBarSettings;
  const { crossTravel } = settings;
  const limitDeg = job.setting.guideBarDeg;
  const { step, from: _from, to: _to, ...scale } = lathe.guideBar?.scale ?? { by: 'half-angle' };
  // One graduation in degrees is worth what turning by it does to the reading.
  const perDegree = (2 * part.length * toRadians(1)) / slope.cos ** 2 / settings.diameterPerReading;
  const limit = limitDeg * perDegree;
  const by = {
    'half-angle': '°',
    'included-angle': '° (included angle)',
    'per-foot': ' in per foot',
    offset: ` ${unit}`,
  }[scale.by];
  const change = guideBarCorrection({
    taper: part.taper,
    reading: settings.settableReading,
    scale,
    ...measuredShort(cut),
  });
  const changeReading = change.reading - settings.settableReading;
  return {
    own: [
      {
        kind: 'prepare',
        code: 'clear-travel',
        text: `Clamp the bar to the bed so that the slider stays on it over the taper's ${plain(part.length)} ${unit} and the run before it; over them the cross slide moves ${plain(crossTravel)} ${unit}. With the power off try the whole way by hand.`,
        values: { length: part.length, crossTravel },
      },
      {
        kind: 'set',
        code: 'bar',
        text: `Set the bar to ${reading(settings.settableReading, step, limit)}${by}${exact(settings.reading, settings.settableReading, by)}, ${within(limit)}${by}, ${leaning(part)}. Clamp both ends.`,
        values: {
          reading: settings.settableReading,
          exactReading: settings.reading,
          halfAngleDeg: slope.halfAngleDeg,
          limit,
          limitDeg,
        },
        uses: 'guideBarSettings',
      },
      onCylinder(cut, `an indicator on the cross slide, which the bar moves`, tolerance),
    ],
    correction: {
      code: 'turn-bar',
      text: `For every ${per} ${unit} that the difference is too small over ${plain(trialLength)} ${unit}, turn the bar ${told(change.changeMinutes, 0.1)}' steeper, which changes its reading by ${told(changeReading, changeReading / 10)}${by}. Too large: as much flatter. Come to the reading from the same side as before.`,
      values: { per, changeMinutes: change.changeMinutes, changeDeg: change.changeDeg, changeReading },
      uses: 'guideBarCorrection',
    },
  };
}

function setOver(cut: Cut): Own {
  const { part, job, unit, lathe } = cut;
  const settings = cut.method.settings as unknown as SetoverSettings;
  const { setover, centreDistance } = job.setting;
  const dial = lathe.tailstock?.dial;
  const change = setoverCorrection({
    taper: part.taper,
    centreDistance: part.workLength,
    trials: [{ reading: settings.settableReading, ...measuredShort(cut) }],
    dial: endless(dial),
    touchOffPlace: touchOffPlace(part),
  });
  return {
    own: [
      {
        kind: 'prepare',
        code: 'length',
        text: `Clean and grease both centre holes. The points that bear must stand ${plain(part.workLength)} ${unit} apart, ${within(centreDistance)} ${unit}: measure the work.`,
        values: { centreDistance: part.workLength, limit: centreDistance },
      },
      {
        kind: 'set',
        code: 'set-over',
        text: `Loosen the tailstock and set it over by ${told(settings.settableValue, setover)} ${unit}, ${within(setover)} ${unit}, ${towards(part)}${dialText(settings, dial, setover)}. Read the movement on an indicator against the tailstock's barrel, moving always towards the set-over, never back. Clamp the tailstock to the bed and read again.`,
        values: setoverValues(settings, setover),
        uses: 'setoverSettings',
      },
      swung(settings, unit),
      onCylinder(cut, 'an indicator on the carriage', cut.tolerance),
    ],
    correction: setoverChange(cut, settings, change, { dial, what: 'tailstock', uses: 'setoverCorrection' }),
  };
}

function ballCentres(cut: Cut): Own {
  const { part, job, unit, lathe } = cut;
  const settings = cut.method.settings as unknown as BallCentresSettings;
  const { setover, centreDistance, rollDeg } = job.setting;
  const balls = lathe.ballCentres as NonNullable<Lathe['ballCentres']>;
  const { headstock, tailstock, dial } = balls;
  const lengthOverBalls = settings.centreDistance + (headstock.ballDiameter + tailstock.ballDiameter) / 2;
  const change = ballCentresCorrection({
    headstock,
    tailstock,
    faceLength: part.workLength,
    taper: part.taper,
    trials: [{ reading: settings.settableReading, ...measuredShort(cut) }],
    dial: endless(dial),
    touchOffPlace: touchOffPlace(part, settings.headstockSeat?.protrusion),
  });
  return {
    own: [
      {
        kind: 'prepare',
        code: 'balls',
        text: `Put the balls, ${plain(headstock.ballDiameter)} ${unit} at the headstock and ${plain(tailstock.ballDiameter)} ${unit} at the tailstock, into their clean, greased holes. Over both balls the work must measure ${told(lengthOverBalls, centreDistance)} ${unit}, ${within(centreDistance)} ${unit}: then their centres stand ${told(settings.centreDistance, centreDistance)} ${unit} apart.`,
        values: { lengthOverBalls, centreDistance: settings.centreDistance, limit: centreDistance },
        uses: 'ballCentreDistance',
      },
      {
        kind: 'prepare',
        code: 'level-head',
        text: `Put the boring head into the tailstock and turn it until its slide moves level, ${within(rollDeg)}°: an indicator under the head must not rise or fall as the slide is moved. With the head at its zero the work must lie in line with the bed.`,
        values: { rollDeg },
      },
      {
        kind: 'set',
        code: 'set-over',
        text: `Set the head over by ${told(settings.settableValue, setover)} ${unit}, ${within(setover)} ${unit}, ${towards(part)}${dialText(settings, dial, setover)}. Come up to the reading from below, never back; lock the head's slide and read again.`,
        values: setoverValues(settings, setover),
        uses: 'ballCentresSettings',
      },
      swung(settings, unit),
      onCylinder(cut, 'an indicator on the carriage', cut.tolerance),
    ],
    correction: setoverChange(cut, settings, change, { dial, what: 'boring head', uses: 'ballCentresCorrection' }),
  };
}

function setoverValues(settings: SetoverSettings, limit: number): Step['values'] {
  const { settableValue, settableReading, reading: exactReading } = settings;
  return { offset: settableValue, exactOffset: settings.offset, reading: settableReading, exactReading, limit };
}

/** Work that is set over shortens along the bed. */
function swung({ tailstockAdvance, tiltDeg }: SetoverSettings, unit: string): Step {
  return {
    kind: 'set',
    code: 'follow-up',
    text: `The work now stands ${told(tiltDeg, 0.1)}° askew and reaches ${told(tailstockAdvance, tailstockAdvance)} ${unit} less far along the bed: bring the barrel up until it turns without play and without force, and clamp the barrel.`,
    values: { tailstockAdvance, tiltDeg },
  };
}

function setoverChange(
  { per, unit, trialLength }: Cut,
  settings: SetoverSettings,
  change: SetoverCorrection,
  { dial, what, uses }: { readonly dial: Dial | undefined; readonly what: string; readonly uses: string },
): Omit<Step, 'kind'> {
  const changeReading = change.reading - settings.settableReading;
  const changeOffset = change.settableValue - settings.settableValue;
  const toolMove = change.toolMove ?? 0;
  const onDial = dial ? ` (${told(changeReading, changeReading / 10)} on the dial)` : '';
  return {
    code: 'set-over-again',
    text: `For every ${per} ${unit} that the difference is too small over ${plain(trialLength)} ${unit}, set the ${what} over ${told(changeOffset, changeOffset / 10)} ${unit} more${onDial}; the tool then has to ${toolMove >= 0 ? 'move in' : 'draw back'} by ${told(Math.abs(toolMove), per / 10)} ${unit} to touch the large end again. Too large: as much the other way, and then come back to the reading from below.`,
    values: { per, changeOffset, changeReading, toolMove },
    uses,
  };
}

/** The check that all motions along the bed share: over a travel t along the axis the needle shows t tan α. */
function onCylinder({ part, slope, unit, method }: Cut, indicator: string, tolerance: number): Step {
  const travel = part.length;
  const needle = travel * slope.tan;
  const half = tolerance / 2;
  const cylinder =
    method.method === 'guide-bar' ? 'Put a true cylinder in place of the work and' : 'Along the cylindrical blank run';
  return {
    kind: 'check',
    code: 'indicator',
    text: `${cylinder} ${indicator}, its plunger level, square to the bed and at the height of the axis. Over ${plain(travel)} ${unit} of the carriage it must move by ${told(needle, half)} ${unit}, from ${told(needle - half, half)} to ${told(needle + half, half)}, always fed in the same direction. Turn the work half a turn and take the mean.`,
    values: { travel, needle, needleFrom: needle - half, needleTo: needle + half },
  };
}

function trial({ part, outside, unit, job, leave, trialLarge, trialLength, slope, tolerance }: Cut): readonly Step[] {
  const whole = trialLength === part.length;
  const { touchOff } = job.setting;
  const { diameter, length } = job.measuring;
  const difference = 2 * trialLength * slope.tan;
  const limit = (tolerance * trialLength) / part.length;
  const size = whole
    ? `until the large end measures ${told(trialLarge, touchOff)} ${unit}, which leaves ${plain(leave)} ${unit} on the diameter`
    : `until the taper runs out ${plain(trialLength)} ${unit} from its small end, which leaves ${plain(leave)} ${unit} on the diameter`;
  const how = outside
    ? 'with a micrometer at two marks, or over two equal rollers raised on blocks'
    : 'with two balls of known size and a depth gauge, or with a bore gauge at two known depths';
  return [
    {
      kind: 'trial-cut',
      code: 'rough',
      text: `${outside ? 'Turn' : 'Bore'} the taper in light cuts ${size}. Take the last cut twice without moving the tool in, and run in from the same side each time so that all lost motion is taken up.`,
      values: { leave, largeDiameter: trialLarge, length: trialLength },
    },
    {
      kind: 'measure',
      code: 'difference',
      text: `Stop the spindle, clean the work and let it cool. Measure two diameters ${plain(trialLength)} ${unit} apart along the axis, ${within(length)} ${unit}, ${how}, each ${within(diameter)} ${unit}: they must differ by ${told(difference, limit)} ${unit}, ${within(limit)} ${unit}.`,
      values: { distance: trialLength, difference, limit, diameterLimit: diameter, distanceLimit: length },
    },
  ];
}

function again({ method, part, slope, unit, job }: Cut): Step {
  const { tries, probability, meets } = method;
  const { diameter, length } = job.measuring;
  const chance =
    probability > 0.999 ? 'more than 99.9 %' : `${told((100 * Math.floor(1000 * probability)) / 1000, 1)} %`;
  const measuring = 2 * diameter + 2 * slope.tan * length;
  const promise = meets
    ? tries === 1
      ? `By the plan the first setting already holds with a probability of ${chance}`
      : `By the plan one correction is enough with a probability of ${chance}; if it takes more, look for what moves: guide, clamp, tool or work`
    : `By the plan the tolerance is met with a probability of ${chance} only, after one correction made by the scale: go by the indicator, and expect to repeat it`;
  return {
    kind: 'correct',
    code: 'again',
    text: `${promise}. Leave alone what measuring may be off by, ${within(measuring)} ${unit} at worst. After every correction repeat trial cut and measurement.`,
    values: { tries, probability, measuring, length: part.length },
  };
}

function finish({ part, outside, unit, slope, small, per, job, tolerance }: Cut): readonly Step[] {
  const { touchOff } = job.setting;
  const { largeDiameter, length } = part;
  const advance = per / 2 / slope.tan;
  return [
    {
      kind: 'finish',
      code: 'touch-off',
      text: `Touch off again and finish the large end to ${told(largeDiameter, touchOff)} ${unit}, ${within(touchOff)} ${unit}. A gauge still has ${told(advance, advance / 10)} ${unit} to go along the axis for every ${per} ${unit} ${outside ? 'left on' : 'missing from'} the diameter. Finish in one cut without stopping the feed.`,
      values: { largeDiameter, limit: touchOff, per, advance },
    },
    {
      kind: 'finish',
      code: 'final-check',
      text: `Break the edges and measure cold: large end ${told(largeDiameter, touchOff)} ${unit}, small end ${told(small, tolerance)} ${unit}, over ${plain(length)} ${unit}; the difference ${told(largeDiameter - small, tolerance)} ${unit}, ${within(tolerance)} ${unit}. Prove the form with marking blue in a gauge or the mating part: it must bear over the whole length.`,
      values: { largeDiameter, smallDiameter: small, length, difference: largeDiameter - small, limit: tolerance },
    },
  ];
}

/** The finished taper over the length of the trial, its small end too large by the error that is told. */
function measuredShort({ part, slope, trialLength, per }: Cut): {
  readonly largeDiameter: number;
  readonly smallDiameter: number;
  readonly length: number;
} {
  const { largeDiameter } = part;
  return { largeDiameter, smallDiameter: largeDiameter - 2 * trialLength * slope.tan + per, length: trialLength };
}

/** The dial alone: a change is told without rounding, and may lead anywhere. */
function endless(dial: Dial | undefined): Dial {
  return { reads: dial?.reads ?? 'radius' };
}

function touchOffPlace(
  part: TaperPart,
  protrusion = 0,
): { fromPivot: number; diameter: number; headstockEnd: 'large' | 'small' } {
  const fromPivot = Math.max(0, part.largeEndAt + protrusion);
  return { fromPivot, diameter: part.largeDiameter, headstockEnd: part.headstockEnd };
}

function exact(wanted: number, settable: number, unit: string): string {
  return wanted === settable ? '' : ` (exactly ${plain(wanted)}${unit})`;
}

/** Which way a guide is swung. */
function leaning({ headstockEnd }: TaperPart): string {
  return `so that the tool draws away from the axis towards the ${headstockEnd === 'large' ? 'headstock' : 'tailstock'}`;
}

/** Which way the work is swung. */
function towards({ headstockEnd }: TaperPart): string {
  return headstockEnd === 'large' ? 'towards the tool' : 'away from the tool';
}

function dialText(
  { settableReading, reading: wanted }: SetoverSettings,
  dial: Dial | undefined,
  limit: number,
): string {
  if (!dial) return '';
  const onDiameter = dial.reads === 'diameter' ? ', which counts on the diameter' : '';
  return `: ${reading(settableReading, dial.step, limit)} on its dial${onDiameter}${exact(wanted, settableReading, '')}`;
}
