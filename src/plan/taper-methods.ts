/**
 * The four ways to a taper on a lathe, tried on a job: top slide, guide bar, set-over between centres,
 * boring head with the work between balls.
 */

import { fromScale } from '../core/dial.js';
import { inWords } from '../core/notes.js';
import { seatOf } from '../offset/between-balls/ball-seat.js';
import { ballCentresSettings } from '../offset/between-balls/index.js';
import { guideBarSettings } from '../offset/guide-bar/index.js';
import { barScale } from '../offset/guide-bar/scale.js';
import { setoverSettings } from '../offset/set-over/settings.js';
import { setoverModel } from '../offset/set-over/surface.js';
import { toolHeightModel } from '../offset/tool-height/surface.js';
import { topSlideModel, topSlideSettings } from '../offset/top-slide/index.js';
import { readTaper } from '../taper/taper.js';
import type { Expected } from './expect.js';
import type { Lathe, TaperPart } from './job.js';
import { attempt, cannot, type Head, limit, type Methods, missing, range, type Trial } from './methods.js';
import { PLAIN_CENTRE_TILT_DEG } from './read-job.js';
import type { Limit } from './result.js';
import { expectations, straight } from './taper-expectations.js';
import { ballTilt, betweenCentres, onBed, shoulders, slideNose, type Work } from './taper-limits.js';

/** Tries every taper method on every lathe of the job. */
export const taperMethods: Methods = (job, trials) => {
  const part = job.part as TaperPart;
  const slope = readTaper(part.taper);
  const smallDiameter = Math.max(0, part.largeDiameter - 2 * part.length * slope.tan);
  const work: Work = { job, part, unit: job.job.unit, slope, smallDiameter, trials };
  return job.lathes.flatMap((lathe) => [
    topSlide(work, lathe),
    guideBar(work, lathe),
    setOver(work, lathe),
    ballCentres(work, lathe),
  ]);
};

/** First the settings, then what to expect of them. */
function tried<S extends { readonly notes: Trial['notes'] }>(
  head: Head,
  limits: readonly Limit[],
  set: () => S,
  expected: (settings: S) => Expected,
): Trial {
  return attempt(head, limits, () => {
    const settings = set();
    return { settings, expectations: expected(settings) };
  });
}

function topSlide(work: Work, lathe: Lathe): Trial {
  const { part, slope, job, unit } = work;
  const slide = lathe.topSlide;
  const head = { method: 'top-slide', machine: lathe.name, ease: 1 } as const;
  if (!slide) return cannot(head, [missing(`${lathe.name} has no top slide that swivels`)]);
  const { scale, travel } = slide;
  const side = part.length / slope.cos;
  const limits = [
    onBed(work, lathe),
    ...(scale
      ? range(
          'angle',
          "the slide's scale",
          fromScale(slope.halfAngleDeg, scale),
          { from: scale.fromDeg, to: scale.toDeg },
          '°',
        )
      : []),
    limit(
      'travel',
      `the slide travels ${inWords(travel)} ${unit}, the taper's side is ${inWords(side)} ${unit} long`,
      side,
      travel,
    ),
    ...shoulders(work, lathe),
    ...slideNose(work, lathe),
  ];
  const { topSlideDeg, resettingFraction } = job.setting;
  return tried(
    head,
    limits,
    () => topSlideSettings({ taper: part.taper, length: part.length, travel, ...(scale ? { scale } : {}) }),
    ({ settableAngleDeg }) =>
      expectations(work, {
        model: topSlideModel,
        inputs: {
          ...straight(work),
          angleDeg: { value: settableAngleDeg, plusMinus: 0 },
          zeroErrorDeg: { value: 0, plusMinus: topSlideDeg },
        },
        again: { zeroErrorDeg: Math.max(topSlideDeg * resettingFraction, (scale?.stepDeg ?? 0) / 2) },
        exact: { angleDeg: slope.halfAngleDeg },
      }),
  );
}

function guideBar(work: Work, lathe: Lathe): Trial {
  const { part, slope, job, unit } = work;
  const bar = lathe.guideBar;
  const head = { method: 'guide-bar', machine: lathe.name, ease: 2 } as const;
  if (!bar) return cannot(head, [missing(`${lathe.name} has no guide bar`)]);
  const { scale, travel, largestHalfAngleDeg } = bar;
  const { reading, graduation } = barScale(scale);
  const mark = scale.by === 'per-foot' ? '' : scale.by === 'offset' ? ` ${unit}` : '°';
  const limits = [
    onBed(work, lathe),
    limit(
      'angle',
      `the bar swings ${inWords(largestHalfAngleDeg)}°, the half angle is ${inWords(slope.halfAngleDeg)}°`,
      slope.halfAngleDeg,
      largestHalfAngleDeg,
    ),
    ...range('angle', "the bar's scale", reading(slope.halfAngleDeg), graduation, mark),
    limit(
      'travel',
      `the bar guides ${inWords(travel)} ${unit}, the taper is ${inWords(part.length)} ${unit} long`,
      part.length,
      travel,
    ),
    ...shoulders(work, lathe),
  ];
  const { guideBarDeg, resettingFraction } = job.setting;
  return tried(
    head,
    limits,
    () => guideBarSettings({ taper: part.taper, length: part.length, scale, travel }),
    ({ cuts }) => {
      const roundingDeg = Math.abs(cuts.halfAngleDeg - slope.halfAngleDeg);
      return expectations(work, {
        model: toolHeightModel,
        inputs: { ...straight(work), halfAngleDeg: { value: cuts.halfAngleDeg, plusMinus: guideBarDeg } },
        again: { halfAngleDeg: Math.max(guideBarDeg * resettingFraction, roundingDeg) },
        exact: { halfAngleDeg: slope.halfAngleDeg },
      });
    },
  );
}

function setOver(work: Work, lathe: Lathe): Trial {
  const { part, slope, unit } = work;
  const { tailstock } = lathe;
  const head = { method: 'set-over', machine: lathe.name, ease: 3 } as const;
  if (!tailstock) return cannot(head, [missing(`the tailstock of ${lathe.name} cannot be set over`)]);
  const { setover, dial } = tailstock;
  const tilt = lathe.largestCentreTiltDeg ?? PLAIN_CENTRE_TILT_DEG;
  const offset = part.workLength * slope.sin;
  const times = dial?.reads === 'diameter' ? 2 : 1;
  const limits = [
    ...betweenCentres(work, lathe),
    limit(
      'offset',
      `the tailstock sets over ${inWords(setover)} ${unit}, the work needs ${inWords(offset)} ${unit}`,
      offset,
      setover,
    ),
    ...range('offset', "the tailstock's dial", times * offset, dial ?? {}, ` ${unit}`),
    limit(
      'tilt',
      `plain centres bear a tilt of ${inWords(tilt)}°, the half angle is ${inWords(slope.halfAngleDeg)}°`,
      slope.halfAngleDeg,
      tilt,
    ),
    ...shoulders(work, lathe),
  ];
  return tried(
    head,
    limits,
    () =>
      setoverSettings({
        taper: part.taper,
        centreDistance: part.workLength,
        travel: setover,
        length: part.length,
        ...(dial ? { dial } : {}),
      }),
    ({ settableValue }) =>
      setoverExpectations(work, {
        settable: settableValue,
        exact: offset,
        centreDistance: part.workLength,
        pivot: 0,
        rollDeg: 0,
        step: (dial?.step ?? 0) / times,
      }),
  );
}

function ballCentres(work: Work, lathe: Lathe): Trial {
  const { part, slope, job, unit } = work;
  const balls = lathe.ballCentres;
  const head = { method: 'ball-centres', machine: lathe.name, ease: 4 } as const;
  if (!balls) return cannot(head, [missing(`${lathe.name} has no boring head for the tailstock with balls`)]);
  const { headstock, tailstock, dial, offset: travel } = balls;
  const [pivot, far] = [seatOf(headstock).protrusion, seatOf(tailstock).protrusion];
  const centreDistance = pivot + part.workLength + far;
  const offset = centreDistance * slope.sin;
  const times = dial?.reads === 'diameter' ? 2 : 1;
  const limits = [
    ...betweenCentres(work, lathe),
    { code: 'balls', message: "the balls' centres must stay apart", met: centreDistance > 0 },
    limit(
      'offset',
      `the boring head offsets ${inWords(travel)} ${unit}, the work needs ${inWords(offset)} ${unit}`,
      offset,
      travel,
    ),
    ...range('offset', "the boring head's dial", times * offset, dial ?? {}, ` ${unit}`),
    ...ballTilt(headstock, pivot, 'headstock', work),
    ...ballTilt(tailstock, far, 'tailstock', work),
    ...shoulders(work, lathe),
  ];
  return tried(
    head,
    limits,
    () =>
      ballCentresSettings({
        headstock,
        tailstock,
        faceLength: part.workLength,
        taper: part.taper,
        travel,
        length: part.length,
        ...(dial ? { dial } : {}),
      }),
    ({ settableValue }) =>
      setoverExpectations(work, {
        settable: settableValue,
        exact: offset,
        centreDistance,
        pivot,
        rollDeg: job.setting.rollDeg,
        step: (dial?.step ?? 0) / times,
      }),
  );
}

/** Set-over in either form. */
interface Setover {
  /** The set-over that the nearest graduation gives. */
  readonly settable: number;
  /** The exact one. */
  readonly exact: number;
  readonly centreDistance: number;
  /** How far the headstock pivot stands outside the face of the work. */
  readonly pivot: number;
  readonly rollDeg: number;
  /** One graduation of the dial, as a movement. */
  readonly step: number;
}

/** Errors of offset, distance and level: the same model for plain centres and balls. */
function setoverExpectations(work: Work, set: Setover): Expected {
  const { part, job } = work;
  const { setover, centreDistance: length, resettingFraction } = job.setting;
  // The model counts along the taper from its large end: the pivot lies behind it, or before it.
  const distance = part.largeEndAt + set.pivot;
  return expectations(work, {
    model: setoverModel,
    inputs: {
      ...straight(work),
      offset: { value: set.settable, plusMinus: 0 },
      zeroError: { value: 0, plusMinus: setover },
      centreDistance: { value: set.centreDistance, plusMinus: Math.min(length, set.centreDistance / 2) },
      rollDeg: { value: 0, plusMinus: set.rollDeg },
      fromPivot: { value: part.headstockEnd === 'large' ? distance : -distance, plusMinus: 0 },
    },
    again: { zeroError: Math.max(setover * resettingFraction, set.step / 2) },
    exact: { offset: set.exact },
  });
}
