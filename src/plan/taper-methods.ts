/**
 * The four ways to a taper on a lathe, tried on a job: top slide, guide bar, set-over between centres,
 * boring head with the work between balls.
 */
import type { Arithmetic, Model, Quantity } from '../budget/model.js';
import { fromScale } from '../core/dial.js';
import { ballCentreDistance, ballCentresSettings } from '../offset/ball-centres.js';
import { guideBarSettings } from '../offset/guide-bar.js';
import { setoverSettings } from '../offset/setover.js';
import { setoverModel } from '../offset/setover-models.js';
import { toolHeightModel, topSlideModel } from '../offset/straight-models.js';
import { topSlideSettings } from '../offset/top-slide.js';
import { readTaper, type Slope } from '../taper/taper.js';
import { type ExpectationInput, type Expected, expectAll, type Limited } from './expect.js';
import type { Lathe, TaperPart } from './job.js';
import { attempt, cannot, limit, type Methods, missing, show, type Trial } from './methods.js';
import { PLAIN_CENTRE_TILT_DEG, type ReadJob } from './read-job.js';
import type { Limit } from './result.js';

/** Tries every taper method on every lathe of the job. */
export const taperMethods: Methods = (job, trials) => {
  const part = job.part as TaperPart;
  const work = { job, part, slope: readTaper(part.taper), trials };
  return job.lathes.flatMap((lathe) => [
    topSlide(work, lathe),
    guideBar(work, lathe),
    setOver(work, lathe),
    ballCentres(work, lathe),
  ]);
};

interface Work {
  readonly job: ReadJob;
  readonly part: TaperPart;
  readonly slope: Slope;
  readonly trials: number;
}

function topSlide(work: Work, lathe: Lathe): Trial {
  const { part, slope, job } = work;
  const slide = lathe.topSlide;
  const head = { method: 'top-slide', machine: lathe.name, ease: 1 } as const;
  if (!slide) return cannot(head, [missing(`${lathe.name} has no top slide that swivels`)]);
  const { scale } = slide;
  const reading = scale ? fromScale(slope.halfAngleDeg, scale) : slope.halfAngleDeg;
  const limits = [
    ...onBed(part, lathe),
    ...scaleLimits(reading, scale?.fromDeg, scale?.toDeg),
    limit(
      'travel',
      `the slide travels ${slide.travel}, the taper's side is ${show(part.length / slope.cos)} long`,
      part.length / slope.cos,
      slide.travel,
    ),
    ...shoulders(part, slope, lathe),
    ...(slide.nose ? slideNose(part, slope, slide.nose) : []),
  ];
  return attempt(head, limits, () => {
    const settings = topSlideSettings({
      taper: part.taper,
      length: part.length,
      travel: slide.travel,
      ...(scale ? { scale } : {}),
    });
    const step = scale?.stepDeg ?? 0;
    return {
      settings,
      expectations: expectations(
        work,
        topSlideModel,
        {
          ...straight(work),
          angleDeg: { value: settings.settableAngleDeg, plusMinus: 0 },
          zeroErrorDeg: { value: 0, plusMinus: job.setting.topSlideDeg },
        },
        { zeroErrorDeg: Math.max(job.setting.topSlideDeg * job.setting.resettingFraction, step / 2) },
        { angleDeg: slope.halfAngleDeg },
      ),
    };
  });
}

function guideBar(work: Work, lathe: Lathe): Trial {
  const { part, slope, job } = work;
  const bar = lathe.guideBar;
  const head = { method: 'guide-bar', machine: lathe.name, ease: 2 } as const;
  if (!bar) return cannot(head, [missing(`${lathe.name} has no guide bar`)]);
  const limits = [
    ...onBed(part, lathe),
    limit(
      'angle',
      `the bar swings ${bar.largestHalfAngleDeg}°, the half angle is ${show(slope.halfAngleDeg)}°`,
      slope.halfAngleDeg,
      bar.largestHalfAngleDeg,
    ),
    limit('travel', `the bar guides ${bar.travel}, the taper is ${part.length} long`, part.length, bar.travel),
    ...shoulders(part, slope, lathe),
  ];
  return attempt(head, limits, () => {
    const settings = guideBarSettings({ taper: part.taper, length: part.length, scale: bar.scale, travel: bar.travel });
    const { guideBarDeg, resettingFraction } = job.setting;
    const roundingDeg = Math.abs(settings.cuts.halfAngleDeg - slope.halfAngleDeg);
    return {
      settings,
      expectations: expectations(
        work,
        toolHeightModel,
        {
          ...straight(work),
          halfAngleDeg: { value: settings.cuts.halfAngleDeg, plusMinus: guideBarDeg },
        },
        { halfAngleDeg: Math.max(guideBarDeg * resettingFraction, roundingDeg) },
        { halfAngleDeg: slope.halfAngleDeg },
      ),
    };
  });
}

function setOver(work: Work, lathe: Lathe): Trial {
  const { part, slope } = work;
  const { tailstock } = lathe;
  const head = { method: 'set-over', machine: lathe.name, ease: 3 } as const;
  if (!tailstock) return cannot(head, [missing(`the tailstock of ${lathe.name} cannot be set over`)]);
  const tilt = lathe.largestCentreTiltDeg ?? PLAIN_CENTRE_TILT_DEG;
  const offset = part.workLength * slope.sin;
  const limits = [
    ...betweenCentres(part, lathe),
    limit(
      'offset',
      `the tailstock sets over ${tailstock.setover}, the work needs ${show(offset)}`,
      offset,
      tailstock.setover,
    ),
    limit(
      'tilt',
      `plain centres bear a tilt of ${show(tilt)}°, the half angle is ${show(slope.halfAngleDeg)}°`,
      slope.halfAngleDeg,
      tilt,
    ),
    ...shoulders(part, slope, lathe),
  ];
  return attempt(head, limits, () => {
    const settings = setoverSettings({
      taper: part.taper,
      centreDistance: part.workLength,
      travel: tailstock.setover,
      length: part.length,
      ...(tailstock.dial ? { dial: tailstock.dial } : {}),
    });
    const step = tailstock.dial?.step ?? 0;
    return {
      settings,
      expectations: setoverExpectations(work, settings.settableValue, offset, part.workLength, 0, step),
    };
  });
}

function ballCentres(work: Work, lathe: Lathe): Trial {
  const { part, slope, job } = work;
  const balls = lathe.ballCentres;
  const head = { method: 'ball-centres', machine: lathe.name, ease: 4 } as const;
  if (!balls) return cannot(head, [missing(`${lathe.name} has no boring head for the tailstock with balls`)]);
  const between = { headstock: balls.headstock, tailstock: balls.tailstock, faceLength: part.workLength };
  const distance = ballCentreDistance(between).centreDistance;
  const offset = distance * slope.sin;
  const limits = [
    ...betweenCentres(part, lathe),
    limit('offset', `the boring head offsets ${balls.offset}, the work needs ${show(offset)}`, offset, balls.offset),
    ...shoulders(part, slope, lathe),
  ];
  return attempt(head, limits, () => {
    const settings = ballCentresSettings({
      ...between,
      taper: part.taper,
      travel: balls.offset,
      length: part.length,
      ...(balls.dial ? { dial: balls.dial } : {}),
    });
    const step = (balls.dial?.step ?? 0) / (balls.dial?.reads === 'diameter' ? 2 : 1);
    return {
      settings,
      expectations: setoverExpectations(work, settings.settableValue, offset, distance, job.setting.rollDeg, step),
    };
  });
}

/** Set-over in two forms: errors of offset, distance and level, the same model. */
function setoverExpectations(
  work: Work,
  settable: number,
  exact: number,
  centreDistance: number,
  rollDeg: number,
  step: number,
): Expected {
  const { part, job } = work;
  const { setover, centreDistance: length, resettingFraction } = job.setting;
  // The model counts along the taper from its large end: the pivot lies behind it, or before it.
  const distance = part.headstockEnd === 'large' ? part.largeEndAt : -part.largeEndAt;
  return expectations(
    work,
    setoverModel,
    {
      ...straight(work),
      offset: { value: settable, plusMinus: 0 },
      zeroError: { value: 0, plusMinus: setover },
      centreDistance: { value: centreDistance, plusMinus: Math.min(length, centreDistance / 2) },
      rollDeg: { value: 0, plusMinus: rollDeg },
      distance: { value: distance, plusMinus: 0 },
    },
    { zeroError: Math.max(setover * resettingFraction, step / 2) },
    { offset: exact },
  );
}

/** What every cut has: touched off at the large end, tool at some height. */
function straight({ part, job }: Work): Limited {
  return {
    largeDiameter: { value: part.largeDiameter, plusMinus: job.setting.touchOff },
    length: { value: part.length, plusMinus: 0 },
    toolHeight: { value: 0, plusMinus: job.setting.toolHeight },
  };
}

/**
 * Expectations of small diameter and half angle. After a correction only resetting and measuring are left:
 * `again` holds the limits of what is set again, `exact` the settings that the correction aims at.
 */
function expectations(
  { part, slope, job, trials }: Work,
  model: Model,
  inputs: Limited,
  again: Readonly<Record<string, number>>,
  exact: Readonly<Record<string, number>>,
): Expected {
  const { diameter, length } = job.measuring;
  const corrected: Limited = {
    ...Object.fromEntries(
      Object.entries(inputs).map(([name, { value, plusMinus }]) => [
        name,
        { value: exact[name] ?? value, plusMinus: again[name] ?? (name === 'largeDiameter' ? plusMinus : 0) },
      ]),
    ),
    measuredLarge: { value: 0, plusMinus: diameter },
    measuredSmall: { value: 0, plusMinus: diameter },
    measuredLength: { value: 0, plusMinus: length },
  };
  const small = part.largeDiameter - 2 * part.length * slope.tan;
  const common = { coverage: job.coverage, trials };
  const { smallDiameter, halfAngleDeg } = part.tolerance;
  const found: ExpectationInput[] = [];
  if (smallDiameter !== undefined) {
    const first = { model, inputs };
    found.push({
      ...common,
      quantity: 'small-diameter',
      tolerance: smallDiameter,
      wanted: small,
      first,
      corrected: { model: measured(model, slope), inputs: corrected },
    });
  }
  if (halfAngleDeg !== undefined) {
    const first = { model: angleOf(model), inputs };
    found.push({
      ...common,
      quantity: 'half-angle',
      tolerance: halfAngleDeg,
      wanted: slope.halfAngleDeg,
      first,
      corrected: { model: angleOf(measured(model, slope)), inputs: corrected },
    });
  }
  return expectAll(found);
}

/** The small diameter after a correction that trusted the measurement of two diameters and their distance. */
function measured(model: Model, { tan }: Slope): Model {
  const error = (meaning: string): Quantity => ({ kind: 'length', meaning });
  return {
    ...model,
    inputs: {
      ...model.inputs,
      measuredLarge: error('error of measuring the large diameter'),
      measuredSmall: error('error of measuring the small diameter'),
      measuredLength: error('error of measuring their distance'),
    },
    evaluate: <T>(a: Arithmetic<T>, x: Readonly<Record<string, T>>): T => {
      const of = (name: string): T => x[name] as T;
      const diameters = a.subtract(of('measuredLarge'), of('measuredSmall'));
      return a.add(a.add(model.evaluate(a, x), diameters), a.multiply(a.constant(2 * tan), of('measuredLength')));
    },
  };
}

/** The half angle that two end diameters make. */
function angleOf(model: Model): Model {
  return {
    ...model,
    result: { kind: 'angleDeg', meaning: 'half angle between the end diameters' },
    evaluate: <T>(a: Arithmetic<T>, x: Readonly<Record<string, T>>): T => {
      const drop = a.subtract(x['largeDiameter'] as T, model.evaluate(a, x));
      return a.multiply(a.atan(a.divide(drop, a.multiply(a.constant(2), x['length'] as T))), a.constant(180 / Math.PI));
    },
  };
}

/** The bed must be long enough for the piece. */
function onBed(part: TaperPart, lathe: Lathe): readonly Limit[] {
  return [
    limit(
      'bed',
      `the bed takes ${lathe.centreDistance} between centres, the piece is ${part.workLength} long`,
      part.workLength,
      lathe.centreDistance,
    ),
  ];
}

/** Work set over hangs between two points: outside only, and it needs its centre holes. */
function betweenCentres(part: TaperPart, lathe: Lathe): readonly Limit[] {
  return [
    ...onBed(part, lathe),
    { code: 'centres', message: 'the piece needs centre holes at both ends', met: part.centreHoles },
    { code: 'side', message: 'work between centres is cut outside only', met: part.side === 'outside' },
  ];
}

function scaleLimits(readingDeg: number, from = -Infinity, to = Infinity): readonly Limit[] {
  if (readingDeg < from) {
    // Told as distances from the far end, so that needed and available compare as everywhere else.
    return [
      limit('angle', `the scale starts at ${from}°, the reading is ${show(readingDeg)}°`, 90 - readingDeg, 90 - from),
    ];
  }
  return to === Infinity
    ? []
    : [limit('angle', `the scale ends at ${to}°, the reading is ${show(readingDeg)}°`, readingDeg, to)];
}

/** The tool post stands beside the tip: it must clear a shoulder at either end of the taper. */
function shoulders(part: TaperPart, slope: Slope, { toolPost }: Lathe): readonly Limit[] {
  if (!toolPost || part.side === 'inside') return [];
  return (part.shoulders ?? []).map(({ at, diameter, gap }) => {
    const here = at === 'large' ? part.largeDiameter : part.largeDiameter - 2 * part.length * slope.tan;
    const rise = (diameter - here) / 2;
    const clears = rise <= toolPost.toolReach;
    return {
      code: 'shoulder',
      message: clears
        ? `the tool reaches ${toolPost.toolReach} before the post, past the shoulder's ${show(rise)}`
        : `the post is ${toolPost.halfWidth} to each side of the tip, the shoulder at the ${at} end stands ${gap} beyond the taper`,
      needed: clears ? rise : toolPost.halfWidth,
      available: clears ? toolPost.toolReach : gap,
      met: clears || toolPost.halfWidth <= gap,
    };
  });
}

/**
 * The swung top slide's nose runs ahead of the tip. At the end of the taper towards a shoulder it stands
 * beyond the taper by ahead cos α ∓ back sin α, and back from the side by ahead sin α ± back cos α.
 */
function slideNose(
  part: TaperPart,
  { sin, cos, tan }: Slope,
  { ahead, back }: { ahead: number; back: number },
): readonly Limit[] {
  if (part.side === 'inside') return [];
  return (part.shoulders ?? []).map(({ at, diameter, gap }) => {
    const opening = at === 'large' ? 1 : -1;
    const here = at === 'large' ? part.largeDiameter : part.largeDiameter - 2 * part.length * tan;
    const beyond = ahead * cos - opening * back * sin;
    const radius = here / 2 + opening * ahead * sin + back * cos;
    const clears = radius >= diameter / 2;
    return {
      code: 'shoulder',
      message: clears
        ? `the slide's nose passes outside the shoulder at the ${at} end`
        : `the slide's nose runs ${show(beyond)} beyond the taper, the shoulder at the ${at} end stands ${gap} beyond it`,
      needed: clears ? diameter / 2 : beyond,
      available: clears ? radius : gap,
      met: clears || beyond <= gap,
    };
  });
}
