/**
 * The one way every function takes a taper: an object with one key that says how it is stated, or a result that
 * states one. Terms follow ISO 3040: rate of taper C = (D - d)/L = 2 tan(half angle), also written 1 : x.
 */
import { type Pair, plus, quotient, squareRoot, sum, times } from '../core/double-double.js';
import { refuse } from '../core/errors.js';
import {
  type Fields,
  nonNegative,
  number,
  object,
  optional,
  positive,
  type Reader,
  readValue,
  vouched,
} from '../core/read.js';
import { angleDegOf, sineCosineDeg } from '../core/trigonometry.js';
import { type StandardTaperName, standardName, standardStatement } from './standard-values.js';

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
      readonly standard: StandardTaperName;
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

/** Every key of every way of stating a taper. */
type Stated = { readonly [K in KeyOf<Taper>]?: Extract<Taper, Readonly<Record<K, unknown>>>[K] };

/** The keys of all members of a union. */
export type KeyOf<U> = U extends unknown ? keyof U : never;

const STATED: Fields<Stated> = {
  perSide: optional(positive),
  rate: optional(positive),
  perInch: optional(positive),
  perFoot: optional(positive),
  percent: optional(positive),
  mmPer100mm: optional(positive),
  oneIn: optional(positive),
  includedAngleDeg: optional(number({ above: 0, below: 180 })),
  halfAngleDeg: optional(number({ above: 0, below: 90 })),
  standard: optional(standardName),
  largeDiameter: optional(positive),
  smallDiameter: optional(nonNegative),
  length: optional(positive),
};

/** The three keys of a taper that is stated by two diameters and their distance: the first stands for them. */
const SIZES = ['largeDiameter', 'smallDiameter', 'length'] as const;

/**
 * How far two statements of one taper may differ, relative to the tangent: more than any rounding of
 * doubles adds up to, less than any that is done by hand.
 */
const AGREEMENT = 1e-9;

/**
 * Reads a taper however it is stated, and refuses what is none. Stated twice, both must agree within 1e-9 of the
 * tangent, and the first key counts. Results that state a taper have both `rate` and `halfAngleDeg`: what has both
 * is such a result, and whatever else it tells is passed over.
 */
export const taper: Reader<Taper> = vouched(
  inOrder(object(STATED)),
  checkStatements,
) as Reader<unknown> as Reader<Taper>;

function inOrder({ allowed, read }: Reader<Stated>): Reader<Stated> {
  return {
    allowed,
    read: (value, reading) => {
      if (isResult(value)) return read({ rate: value.rate, halfAngleDeg: value.halfAngleDeg }, reading);
      const found = read(value, reading);
      if (reading.faults.length > 0 || Object.keys(found).length === 1) return found;
      const given: Record<string, unknown> = {};
      for (const key of Object.keys(value as Stated)) if (key in found) given[key] = found[key as keyof Stated];
      return given;
    },
  };
}

/** Tangent, sine, cosine and angle of a taper that was read. */
export function slopeOf(given: Taper): Slope {
  const ratio = ratioOf(given);
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

/** A taper that was read, without rounding it, as far as that is possible. */
export function ratioOf(given: Taper): Ratio {
  return ratioBy((Object.keys(given) as (keyof Stated)[]).find(isWay) as keyof Stated, given);
}

function isResult(value: unknown): value is Stated {
  const given = (value ?? {}) as Stated;
  return given.rate !== undefined && given.halfAngleDeg !== undefined;
}

/** Whether a key is a way of its own to state a taper: the first of the three sizes stands for them. */
function isWay(key: keyof Stated): boolean {
  return key !== 'smallDiameter' && key !== 'length';
}

/** What is wrong with a taper whose keys are right one by one. */
function checkStatements(given: Stated): void {
  if (SIZES.some((key) => given[key] !== undefined)) checkSizes(given);
  let first: keyof Stated | undefined;
  let tan = 0;
  for (const way of Object.keys(given) as (keyof Stated)[]) {
    if (!isWay(way)) continue;
    const stated = tangentBy(way, given);
    if (first) {
      const off = stated / tan - 1;
      if (Math.abs(off) <= AGREEMENT) continue;
      const differ = `${way} is ${off > 0 ? 'steeper' : 'slower'} by ${percent(off)} than ${first}`;
      refuse('contradiction', way, given[way], `must agree with the rest; ${differ}`);
    }
    if (!(stated > 0 && stated < Infinity)) {
      refuse('not-representable', way, given[way], 'must give a tangent within the range of floating-point numbers');
    }
    first = way;
    tan = stated;
  }
  if (!first) refuse('missing-option', '', given, taper.allowed);
}

function checkSizes(given: Stated): void {
  for (const key of SIZES) {
    if (given[key] === undefined)
      refuse('missing-option', key, undefined, { ...STATED[key].allowed, phrase: 'must be given' });
  }
  const { largeDiameter = 0, smallDiameter = 0 } = given;
  if (smallDiameter >= largeDiameter) readValue(smallDiameter, number({ min: 0, below: largeDiameter }), SIZES[1]);
}

function tangentBy(way: keyof Stated, given: Stated): number {
  const { opposite, adjacent } = ratioBy(way, given);
  return opposite[0] / adjacent[0];
}

function percent(part: number): string {
  return `${Number((100 * Math.abs(part)).toPrecision(3))} %`;
}

/** One of the ways in which a taper is stated. */
function ratioBy(way: keyof Stated, given: Stated): Ratio {
  switch (way) {
    case 'largeDiameter': {
      const { largeDiameter = 0, smallDiameter = 0, length = 0 } = given;
      return { opposite: sum(largeDiameter, -smallDiameter), adjacent: [2 * length, 0] };
    }
    case 'standard': {
      const { statement, value } = standardStatement(given.standard as StandardTaperName);
      return ratioBy(statement, { [statement]: Number(value) });
    }
    case 'includedAngleDeg':
      return byHalfAngle((given.includedAngleDeg as number) / 2);
    case 'halfAngleDeg':
      return byHalfAngle(given.halfAngleDeg as number);
    case 'oneIn':
      return { opposite: [1, 0], adjacent: [2 * (given.oneIn as number), 0] };
    default:
      return { opposite: [given[way] as number, 0], adjacent: [TANGENTS[way as keyof typeof TANGENTS], 0] };
  }
}

function byHalfAngle(halfAngleDeg: number): Ratio {
  const { sin, cos } = sineCosineDeg(halfAngleDeg);
  return { opposite: sin, adjacent: cos, halfAngleDeg };
}
