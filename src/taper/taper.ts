/**
 * The one way every function takes a taper: an object with one key that says how it is stated.
 * Terms follow ISO 3040: rate of taper C = (D - d)/L = 2 tan(half angle), also written 1 : x.
 */
import { number, options, positive, text } from '../core/checks.js';
import { type Pair, plus, quotient, squareRoot, sum, times } from '../core/double-double.js';
import { refuse } from '../core/errors.js';
import { angleDegOf, sineCosineDeg } from '../core/trigonometry.js';
import { standardStatement } from './standard-values.js';

/** A taper, stated in any one of these ways. */
export type Taper =
  | {
      /** Rate of taper C = (D - d)/L, a plain ratio. */
      readonly rate: number;
    }
  | {
      /** x of the ratio 1 : x. */
      readonly oneIn: number;
    }
  | {
      /** Inches of diameter per foot of length: 12 C. */
      readonly perFoot: number;
    }
  | {
      /** Inches of diameter per inch of length: the same number as the rate. */
      readonly perInch: number;
    }
  | {
      /** Change of radius per unit of length: the tangent of the half angle. */
      readonly perSide: number;
    }
  | {
      /** 100 C. */
      readonly percent: number;
    }
  | {
      /** Millimetres of diameter per 100 mm of length: the same number as percent. */
      readonly mmPer100mm: number;
    }
  | {
      /** Cone angle, between opposite sides, in degrees. */
      readonly includedAngleDeg: number;
    }
  | {
      /** Half the cone angle: between side and axis, in degrees. */
      readonly halfAngleDeg: number;
    }
  | {
      /** Diameter at the large end. */
      readonly largeDiameter: number;
      /** Diameter at the small end; 0 for a point. */
      readonly smallDiameter: number;
      /** Axial distance between the two diameters. */
      readonly length: number;
    }
  | {
      /** Name of a standard taper: `morse-3`, `brown-sharpe-7`, `jarno-6`, `jacobs-33`, `steep-7-24-40`, `luer`, … */
      readonly standard: string;
    };

/** A taper reduced to what calculations need; every field has its full digits. */
export interface Slope {
  /** Tangent of the half angle: change of radius per unit of length along the axis. */
  readonly tan: number;
  /** Sine of the half angle. */
  readonly sin: number;
  /** Cosine of the half angle. */
  readonly cos: number;
  /** Half angle in degrees. */
  readonly halfAngleDeg: number;
}

/** The tangent of the half angle before any rounding: opposite / adjacent. */
export interface Ratio {
  readonly opposite: Pair;
  readonly adjacent: Pair;
  /** The half angle, where the taper was stated by an angle. */
  readonly halfAngleDeg?: number;
}

/** The statements by a plain ratio, as multiples of the tangent of the half angle. */
export const TANGENTS = { perSide: 1, rate: 2, perInch: 2, perFoot: 24, percent: 200, mmPer100mm: 200 } as const;

/** The three keys of a taper that is stated by two diameters and their distance. */
const SIZES = ['largeDiameter', 'smallDiameter', 'length'] as const;

/**
 * How far two statements of one taper may differ, relative to the tangent: more than any rounding of
 * doubles adds up to, less than any that is done by hand.
 */
const AGREEMENT = 1e-9;

/**
 * Reads a taper however it is stated, and refuses what is none. Stated twice, both must agree within
 * 1e-9 of the tangent, and the first key counts.
 */
export function readTaper(taper: Taper, parameter = 'taper'): Slope {
  const ratio = readRatio(taper, parameter);
  const { opposite, adjacent } = ratio;
  const steep = opposite[0] > adjacent[0];
  const [less, more] = steep ? [adjacent, opposite] : [opposite, adjacent];
  const small = quotient(less, more);
  const hypotenuse = squareRoot(plus([1, 0], times(small, small)));
  const minor = quotient(small, hypotenuse)[0];
  const major = quotient([1, 0], hypotenuse)[0];
  return {
    tan: quotient(opposite, adjacent)[0],
    sin: steep ? major : minor,
    cos: steep ? minor : major,
    halfAngleDeg: halfAngleDegOf(ratio),
  };
}

/** The half angle in degrees. */
export function halfAngleDegOf({ opposite, adjacent, halfAngleDeg }: Ratio): number {
  return halfAngleDeg ?? angleDegOf(opposite, adjacent)[0];
}

/** Reads a taper without rounding it, as far as that is possible. */
export function readRatio(taper: Taper, parameter: string): Ratio {
  const known = [...Object.keys(TANGENTS), 'oneIn', 'includedAngleDeg', 'halfAngleDeg', 'standard', ...SIZES];
  const given = options(taper, parameter, [], known);
  const keys = Object.keys(given).filter((key) => given[key] !== undefined);
  const sizesAt = keys.findIndex(isSize);
  if (sizesAt >= 0) options(taper, parameter, SIZES, known);
  const [first, ...others] = keys
    .filter((key, at) => at === sizesAt || !isSize(key))
    .map((key) => ({ key, ratio: statement(key, given, parameter) }));
  if (!first) return refuse('missing-option', parameter, taper, `must hold one of ${known.join(', ')}`);
  for (const { key, ratio } of others) {
    const off = tangentOf(ratio) / tangentOf(first.ratio) - 1;
    if (Math.abs(off) > AGREEMENT) {
      const differ = `${key} is ${off > 0 ? 'steeper' : 'slower'} by ${percent(off)} than ${first.key}`;
      return refuse('contradiction', `${parameter}.${key}`, given[key], `must agree with the rest; ${differ}`);
    }
  }
  return first.ratio;
}

function tangentOf({ opposite, adjacent }: Ratio): number {
  return opposite[0] / adjacent[0];
}

function isSize(key: string): boolean {
  return SIZES.some((size) => size === key);
}

function percent(part: number): string {
  return `${Number((100 * Math.abs(part)).toPrecision(3))} %`;
}

/** One way of stating a taper, checked. */
function statement(key: string, given: Readonly<Record<string, unknown>>, parameter: string): Ratio {
  const path = `${parameter}.${key}`;
  const value = given[key];
  const ratio = isSize(key)
    ? bySizes(given, parameter)
    : key === 'standard'
      ? byName(text(value, path), path)
      : key === 'includedAngleDeg'
        ? byHalfAngle(number(value, path, { above: 0, below: 180 }) / 2)
        : key === 'halfAngleDeg'
          ? byHalfAngle(number(value, path, { above: 0, below: 90 }))
          : byNumber(key, positive(value, path));
  const tan = tangentOf(ratio);
  return tan > 0 && tan < Infinity
    ? ratio
    : refuse('not-representable', path, value, 'must give a tangent within the range of floating-point numbers');
}

function bySizes(given: Readonly<Record<string, unknown>>, parameter: string): Ratio {
  const large = positive(given['largeDiameter'], `${parameter}.largeDiameter`);
  const small = number(given['smallDiameter'], `${parameter}.smallDiameter`, { min: 0, below: large });
  const length = positive(given['length'], `${parameter}.length`);
  return { opposite: sum(large, -small), adjacent: [2 * length, 0] };
}

function byHalfAngle(halfAngleDeg: number): Ratio {
  const { sin, cos } = sineCosineDeg(halfAngleDeg);
  return { opposite: sin, adjacent: cos, halfAngleDeg };
}

function byNumber(key: string, value: number): Ratio {
  if (key === 'oneIn') return { opposite: [1, 0], adjacent: [2 * value, 0] };
  return { opposite: [value, 0], adjacent: [TANGENTS[key as keyof typeof TANGENTS], 0] };
}

function byName(name: string, path: string): Ratio {
  const { statement: key, value } = standardStatement(name, path);
  return byNumber(key, Number(value));
}
