/**
 * The scales of a guide bar: half or included angle, taper per foot, or the offset at a radius from
 * the pivot. Each as reading of an angle, angle of a reading, sensitivity and the usual shop rule.
 */
import { choice, options, positive } from '../core/checks.js';
import { type Graduation, readGraduation } from '../core/dial.js';
import { refuse } from '../core/errors.js';
import { asinDeg, atanDeg, cosDeg, sinDeg, tanDeg } from '../core/trigonometry.js';
import { angleRule, type ShopRule, taperCut } from './cuts.js';

/** By what a guide bar is set, and how that scale is graduated. */
export interface GuideBarScale {
  /**
   * `half-angle` or `included-angle` in degrees; `per-foot`, inches of diameter per foot of length;
   * `offset`, how far the bar is set over at a radius from its pivot.
   */
  readonly by: 'half-angle' | 'included-angle' | 'per-foot' | 'offset';
  /** Distance from the pivot at which an offset is read; needed by `offset` only. */
  readonly radius?: number;
  /**
   * Along what the radius is taken: `bar`, a mark on the bar, whose offset is ϱ sin α; `bed`, a scale
   * standing square across the bed, where it is ϱ tan α. Needed by `offset` only.
   */
  readonly radiusAlong?: 'bar' | 'bed';
  /** One graduation. Left out: any reading can be set. */
  readonly step?: number;
  /** Least reading that can be set. Left out: no limit. */
  readonly from?: number;
  /** Largest reading that can be set. Left out: no limit. */
  readonly to?: number;
}

/** A checked scale: reading of an angle, angle of a reading, slope d tan/d reading, and the shop rule. */
export interface BarScale {
  readonly graduation: Graduation;
  readonly reading: (angleDeg: number) => number;
  readonly angleDeg: (reading: number) => number;
  readonly slope: (angleDeg: number) => number;
  readonly rule: (tan: number) => ShopRule | undefined;
}

const RADIANS = Math.PI / 180;

/** Checks a guide bar's scale. */
export function readBarScale(value: unknown): BarScale {
  const given = options(
    value ?? { by: 'half-angle' },
    'scale',
    ['by'],
    ['radius', 'radiusAlong', 'step', 'from', 'to'],
  );
  const by = choice(given['by'], 'scale.by', ['half-angle', 'included-angle', 'per-foot', 'offset']);
  const graduation = readGraduation(given, 'scale');
  if (by === 'offset') return { graduation, ...offsetScale(given) };
  for (const key of ['radius', 'radiusAlong']) {
    if (given[key] !== undefined) return refuse('contradiction', `scale.${key}`, given[key], 'belongs to offset only');
  }
  if (by === 'per-foot') {
    return {
      graduation,
      reading: (angle) => 24 * tanDeg(angle),
      angleDeg: (reading) => atanDeg(reading / 24),
      slope: () => 1 / 24,
      rule: () => undefined,
    };
  }
  const times = by === 'half-angle' ? 1 : 2;
  return {
    graduation,
    reading: (angle) => times * angle,
    angleDeg: (reading) => reading / times,
    slope: (angle) => RADIANS / times / cosDeg(angle) ** 2,
    rule: (tan) => {
      const rule = angleRule(tan);
      return rule && { ...rule, value: times * rule.value };
    },
  };
}

function offsetScale(given: Readonly<Record<string, unknown>>): Omit<BarScale, 'graduation'> {
  const { radius: r, radiusAlong } = options(given, 'scale', ['by', 'radius', 'radiusAlong'], ['step', 'from', 'to']);
  const radius = positive(r, 'scale.radius');
  if (choice(radiusAlong, 'scale.radiusAlong', ['bar', 'bed']) === 'bed') {
    return {
      reading: (angle) => radius * tanDeg(angle),
      angleDeg: (reading) => atanDeg(reading / radius),
      slope: () => 1 / radius,
      rule: () => undefined,
    };
  }
  return {
    reading: (angle) => radius * sinDeg(angle),
    // Beyond the radius there is no angle: refused as one of 90°.
    angleDeg: (reading) => (Math.abs(reading) < radius ? asinDeg(reading / radius) : 90),
    slope: (angle) => 1 / radius / cosDeg(angle) ** 3,
    // The rule sets ϱ tan α, so the sine that is cut is the tangent.
    rule: (tan) =>
      tan < 1 ? { value: radius * tan, cuts: taperCut(tan / Math.sqrt((1 - tan) * (1 + tan)), tan) } : undefined,
  };
}
