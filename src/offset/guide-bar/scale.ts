/**
 * The scales of a guide bar: half or included angle, taper per foot, or the offset at a radius from
 * the pivot. Each as reading of an angle, angle of a reading, sensitivity and the usual shop rule.
 */
import { checkMarks, type Graduation } from '../../core/dial.js';
import { refuse } from '../../core/errors.js';
import { anyNumber, choice, type Fields, object, optional, positive, type Reader, vouched } from '../../core/read.js';
import { asinDeg, atanDeg, cosDeg, sinDeg, tanDeg, toRadians } from '../../core/trigonometry.js';
import { angleRule, type ShopRule, taperCut } from '../taper-cut.js';

/** By what a guide bar is set, and how that scale is graduated. */
export interface GuideBarScale {
  /**
   * `half-angle` or `included-angle` in degrees; `per-foot`, inches of diameter per foot of length;
   * `offset`, how far the bar is set over at a radius from its pivot.
   */
  readonly by: 'half-angle' | 'included-angle' | 'per-foot' | 'offset';
  /** Distance from the pivot at which an offset is read. @defaultValue none: needed by `offset`, which alone has it */
  readonly radius?: number;
  /**
   * Along what the radius is taken: `bar`, a mark on the bar, whose offset is ϱ sin α; `bed`, a scale
   * standing square across the bed, where it is ϱ tan α.
   * @defaultValue none: needed by `offset`, which alone has it
   */
  readonly radiusAlong?: 'bar' | 'bed';
  /** One graduation. @defaultValue none: any reading can be set */
  readonly step?: number;
  /** Least reading that can be set. @defaultValue no limit */
  readonly from?: number;
  /** Largest reading that can be set. @defaultValue no limit */
  readonly to?: number;
}

const SCALE: Fields<GuideBarScale> = {
  by: choice('half-angle', 'included-angle', 'per-foot', 'offset'),
  radius: optional(positive),
  radiusAlong: optional(choice('bar', 'bed')),
  step: optional(positive),
  from: optional(anyNumber),
  to: optional(anyNumber),
};

/** Reads a guide bar's scale whose keys and marks make sense. */
export const guideBarScale: Reader<GuideBarScale> = vouched(object(SCALE), (scale) => {
  checkMarks(scale, ['step', 'from', 'to']);
  for (const key of ['radius', 'radiusAlong'] as const) {
    const value = scale[key];
    if (scale.by === 'offset' && value === undefined) refuse('missing-option', key, value, 'must be given with offset');
    if (scale.by !== 'offset' && value !== undefined) refuse('contradiction', key, value, 'belongs to offset only');
  }
});

/** The scale of a bar of which nothing is stated. */
export const PLAIN_SCALE: GuideBarScale = { by: 'half-angle' };

/** What a scale does: reading of an angle, angle of a reading, d tan/d reading, and the shop rule. */
export interface BarScale {
  readonly graduation: Graduation;
  readonly reading: (angleDeg: number) => number;
  readonly angleDeg: (reading: number) => number;
  readonly tanPerReading: (angleDeg: number) => number;
  readonly rule: (tan: number) => ShopRule | undefined;
}

const none = (): undefined => undefined;

/** What a scale that was read does. */
export function barScale({ by, radius = 0, radiusAlong, step, from, to }: GuideBarScale): BarScale {
  const graduation: Graduation = { step, from, to };
  if (by === 'per-foot') {
    return {
      graduation,
      reading: (angle) => 24 * tanDeg(angle),
      angleDeg: (reading) => atanDeg(reading / 24),
      tanPerReading: () => 1 / 24,
      rule: none,
    };
  }
  if (by === 'offset') return { graduation, ...(radiusAlong === 'bed' ? bedScale(radius) : markScale(radius)) };
  const times = by === 'half-angle' ? 1 : 2;
  return {
    graduation,
    reading: (angle) => times * angle,
    angleDeg: (reading) => reading / times,
    tanPerReading: (angle) => toRadians(1) / times / cosDeg(angle) ** 2,
    rule: (tan) => {
      const rule = angleRule(tan);
      return rule && { value: times * rule.value, cuts: rule.cuts };
    },
  };
}

/** A scale that stands square across the bed. */
function bedScale(radius: number): Omit<BarScale, 'graduation'> {
  return {
    reading: (angle) => radius * tanDeg(angle),
    angleDeg: (reading) => atanDeg(reading / radius),
    tanPerReading: () => 1 / radius,
    rule: none,
  };
}

/** A mark on the bar. */
function markScale(radius: number): Omit<BarScale, 'graduation'> {
  return {
    reading: (angle) => radius * sinDeg(angle),
    // Beyond the radius there is no angle: refused as one of 90°.
    angleDeg: (reading) => (Math.abs(reading) < radius ? asinDeg(reading / radius) : 90),
    tanPerReading: (angle) => 1 / radius / cosDeg(angle) ** 3,
    // The rule sets ϱ tan α, so the sine that is cut is the tangent.
    rule: (tan) =>
      tan < 1 ? { value: radius * tan, cuts: taperCut(tan / Math.sqrt((1 - tan) * (1 + tan)), tan) } : undefined,
  };
}
