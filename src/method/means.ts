/**
 * Means of setting an angle or a set-over, each declared once: what the shop has in, how well that sets out. Limits
 * hold either way and are taken as evenly spread, u = limit/√3; contributions are added as variances (JCGM 100:2008,
 * 4.3.7 and 5.1.2), each with the derivative of the relation that is set:
 *
 * * a scale of division g, estimated to 1/k of it: ± g/(2k), beside the errors of its marks and of its zero;
 * * an indicator over a travel t: s = t sin α along the guide itself, t tan α along the bed, t cos α along the guide
 *   on a face that the guide leans away from. Each is blind where its derivative vanishes;
 * * a sine bar of length L on blocks H, sin α = H/L, along which an indicator must stand still over t;
 * * a master of the very angle, along which an indicator must stand still.
 *
 * An indicator η off square shows s / cos η: one-sided, ½η² of s too much to be taken for s. With η evenly spread up
 * to a limit its mean is η²/6 of s, its standard uncertainty η²/(3√5). A needle that stands still knows no such error.
 */
import { cosDeg, sinDeg, toDegrees, toRadians } from '../core/trigonometry.js';
import { plusMinus, say, tell } from '../core/words.js';
import { slopeOf } from '../taper/taper.js';
import type { FilledShop, Indicator, Master, SineBar } from './shop.js';
import { roundBelow, sentence } from './steps.js';

/** Code of a means of setting. */
export type MeansCode = keyof typeof WORDS;

/** By what something is set, and how well. */
export interface Means {
  /** Stable code: `scale`, `indicator`, `sine-bar`, … */
  readonly code: MeansCode;
  /** One sentence. */
  readonly message: string;
  /** Limit of what is so set, plus or minus: degrees of an angle, the job's unit of a length. */
  readonly limit: number;
  /** The same for a change of it, after a trial. */
  readonly change: number;
  /** The same of bringing it near before, by scale, dial or eye. */
  readonly near: number;
  /** Its numbers: `travel` and `needle` of an indicator, `length` and `blocks` of a sine bar, … */
  readonly values: Readonly<Record<string, number>>;
}

/** How well a means sets, in radians or in lengths: standard uncertainties, and the mean of a one-sided error. */
export interface Uncertain {
  readonly uncertainty: number;
  readonly bias: number;
  /** Standard uncertainty of a change. */
  readonly change: number;
}

export const ROOT3: number = Math.sqrt(3);

/** By a scale: half an estimated part, marks and zero; a change has the first twice. */
export function byScale(division: number, parts: number, marks: number, zero: number): Uncertain {
  const read = division / 2 / parts;
  return { uncertainty: Math.hypot(read, marks, zero) / ROOT3, bias: 0, change: (Math.SQRT2 * read) / ROOT3 };
}

/** How an indicator meets the angle: along the guide itself, along the bed, along the guide on a face across. */
export type Along = 'guide' | 'bed' | 'face';

/** What the needle does for each unit of travel, and how fast that changes with the angle. */
function needleRate(angleDeg: number, along: Along): { readonly rate: number; readonly slope: number } {
  const [sin, cos] = [sinDeg(angleDeg), cosDeg(angleDeg)];
  if (along === 'guide') return { rate: sin, slope: cos };
  return along === 'bed' ? { rate: sin / cos, slope: 1 / (cos * cos) } : { rate: cos, slope: sin };
}

/** By an indicator over at most a travel that is set to a limit. */
export function byIndicator(
  angleDeg: number,
  along: Along,
  most: number,
  { resolution, range, limit, outOfSquareDeg }: Required<Indicator>,
  travelLimit: number,
): Uncertain & { readonly travel: number; readonly needle: number } {
  const { rate, slope } = needleRate(angleDeg, along);
  const travel = roundBelow(Math.min(most, range / rate));
  const [read, error] = [resolution / 2 / ROOT3, limit / ROOT3];
  const placed = (rate * travelLimit) / ROOT3;
  const turned = toRadians(outOfSquareDeg) ** 2;
  const perTurn = rate / slope;
  return {
    uncertainty: Math.hypot(Math.hypot(read, error, placed) / (travel * slope), (turned / 3 / Math.sqrt(5)) * perTurn),
    bias: ((along === 'face' ? 1 : -1) * turned * perTurn) / 6,
    // The indicator's own error and its lean are the same before and after.
    change: (Math.SQRT2 * Math.hypot(read, placed)) / (travel * slope),
    travel,
    needle: travel * rate,
  };
}

/** By a sine bar and blocks, a needle that stands still within ± `still` over a travel, on a base known to an angle. */
export function bySineBar(
  angleDeg: number,
  { length, limit, blockLimit }: Required<SineBar>,
  still: number,
  travel: number,
  base: number,
): Uncertain {
  const [sin, cos] = [sinDeg(angleDeg), cosDeg(angleDeg)];
  const blocks = blockLimit / ROOT3 / (length * cos);
  const needle = (Math.SQRT2 * still) / ROOT3 / travel;
  return {
    uncertainty: Math.hypot(blocks, (sin * limit) / ROOT3 / (length * cos), needle, base / ROOT3),
    bias: 0,
    change: Math.SQRT2 * Math.hypot(blocks, needle),
  };
}

/** From a master, likewise, between centres in line to an angle. */
export function byMaster(limitDeg: number, still: number, travel: number, centres: number): Uncertain {
  const needle = (Math.SQRT2 * still) / ROOT3 / travel;
  return {
    uncertainty: Math.hypot(toRadians(limitDeg) / ROOT3, needle, centres / ROOT3),
    bias: 0,
    change: Math.SQRT2 * needle,
  };
}

/** Sentences by code. */
const WORDS = {
  stated: ({ limit, unit }: Told): string => say`set ${plusMinus(limit, unit)}, as the job states`,
  scale: ({ limit, unit }: Told): string => say`by its scale, estimated between marks: ${plusMinus(limit, unit)}`,
  dial: ({ limit, unit }: Told): string => say`by its dial, estimated between marks: ${plusMinus(limit, unit)}`,
  indicator: ({ limit, unit, travel, length }: Told & { travel: number; length: string }): string =>
    say`by an indicator over ${tell(travel, { unit: length })}: ${plusMinus(limit, unit)}`,
  'indicator-on-face': ({ limit, unit, travel, length }: Told & { travel: number; length: string }): string =>
    say`by an indicator over ${tell(travel, { unit: length })} on a face: ${plusMinus(limit, unit)}`,
  'sine-bar': ({ limit, unit, bar, blocks, length }: Told & { bar: number; blocks: number; length: string }): string =>
    say`by a sine bar of ${tell(bar, { unit: length })} on ${tell(blocks, { unit: length })} of blocks: ${plusMinus(limit, unit)}`,
  master: ({ limit, unit }: Told): string => say`from a master of the same taper: ${plusMinus(limit, unit)}`,
  'indicator-on-barrel': ({ limit, unit }: Told): string =>
    say`by an indicator that is moved as far: ${plusMinus(limit, unit)}`,
  blocks: ({ limit, unit }: Told): string => say`by gauge blocks before an indicator: ${plusMinus(limit, unit)}`,
  'by-eye': ({ limit, unit }: Told): string => say`by protractor or rule, then by trial: ${plusMinus(limit, unit)}`,
} as const;

interface Told {
  readonly limit: number;
  readonly unit: string;
}

export function means<C extends MeansCode>(
  code: C,
  { uncertainty, bias, change }: Uncertain,
  values: Omit<Parameters<(typeof WORDS)[C]>[0], 'limit'> & Readonly<Record<string, number | string>>,
): Means {
  // Evenly spread limits with the same mean square about what is aimed at.
  const limit = ROOT3 * Math.hypot(uncertainty, bias);
  const all = { ...values, limit } as unknown as Parameters<(typeof WORDS)[C]>[0];
  const numbers = Object.entries(values).filter((entry): entry is [string, number] => typeof entry[1] === 'number');
  return {
    code,
    message: sentence(WORDS, code, all),
    limit,
    change: ROOT3 * change,
    near: limit,
    values: Object.fromEntries(numbers),
  };
}

/** Usual limits, in millimetres or radians: common practice, no source. A travel by the dial of its slide, lost motion taken up. */
const TRAVEL_MM = 0.02;
/** Marks and zero of a swivel scale: two minutes each. */
const MARK_DEG = 2 / 60;
/** A needle that stands still is seen to a fifth of a division. */
const STILL = 1 / 5;
/** A sine bar lies along the bed as well as an indicator shows over 100 mm; centres are in line over 150. */
const BASE = 0.005 / 100;
const CENTRES = 0.01 / 150;
/** Screw of a tailstock or head, lost motion taken up. */
const SCREW_MM = 0.02;

/** An angle to set, and what the machine has for it. */
interface ToSet {
  readonly angleDeg: number;
  /** Travel over which an indicator can be watched, along what. */
  readonly travel: number;
  readonly along: readonly Along[];
  /** One division of its scale, as an angle in degrees; none without a scale that is graduated. */
  readonly divisionDeg?: number | undefined;
}

/** The shop, and its unit of length. */
interface InShop {
  readonly unit: 'mm' | 'in';
  readonly shop: FilledShop;
}

/** The means at hand for an angle. */
export function angleMeans({ angleDeg, travel, along, divisionDeg }: ToSet, { unit, shop }: InShop): readonly Means[] {
  const small = unit === 'mm' ? 1 : 1 / 25.4;
  const told = { unit: '°', length: unit };
  const { indicators, sineBars, masters, estimatedParts } = shop;
  const inDegrees = ({ uncertainty, bias, change }: Uncertain): Uncertain => ({
    uncertainty: toDegrees(uncertainty),
    bias: toDegrees(bias),
    change: toDegrees(change),
  });
  const found: Means[] = [];
  if (divisionDeg !== undefined) {
    // Its zero is where the finest indicator stands still along a true cylinder; without one, where it is marked.
    const still = indicators.length === 0 ? 0 : STILL * Math.min(...indicators.map(({ resolution }) => resolution));
    const by = byScale(divisionDeg, estimatedParts, MARK_DEG, MARK_DEG);
    found.push(means('scale', by, { ...told, ...(still > 0 && { still, travel }) }));
  }
  for (const indicator of indicators) {
    const still = STILL * indicator.resolution;
    for (const way of along) {
      const by = byIndicator(angleDeg, way, travel, indicator, TRAVEL_MM * small);
      const values = { ...told, travel: by.travel, needle: by.needle, resolution: indicator.resolution };
      found.push(means(way === 'face' ? 'indicator-on-face' : 'indicator', inDegrees(by), values));
    }
    for (const bar of sineBars) {
      // Steeper than 45° the bar lies across instead.
      const least = Math.min(angleDeg, 90 - angleDeg);
      const by = bySineBar(least, bar, still, Math.min(travel, bar.length), BASE);
      const values = {
        ...told,
        bar: bar.length,
        blocks: bar.length * sinDeg(least),
        barDeg: least,
        still,
        across: angleDeg > 45 ? 1 : 0,
      };
      found.push(means('sine-bar', inDegrees(by), { ...values, travel: Math.min(travel, bar.length) }));
    }
    for (const master of masters.filter((one) => isOf(one, angleDeg))) {
      const by = byMaster(master.limitDeg, still, Math.min(travel, master.length), CENTRES);
      found.push(means('master', inDegrees(by), { ...told, still, travel: Math.min(travel, master.length) }));
    }
  }
  return found;
}

/** A master is of the angle if it is so within its own limit. */
function isOf({ taper, limitDeg }: Master, angleDeg: number): boolean {
  return Math.abs(slopeOf(taper).halfAngleDeg - angleDeg) <= Math.max(limitDeg, 1e-9);
}

/** The means at hand for moving a pivot sideways from its zero, which is found to a limit; the division is on the radius. */
export function offsetMeans(
  offset: number,
  division: number | undefined,
  zero: number,
  { unit, shop }: InShop,
): readonly Means[] {
  const small = unit === 'mm' ? 1 : 1 / 25.4;
  const found: Means[] = [];
  if (division !== undefined) {
    found.push(means('dial', byScale(division, shop.estimatedParts, SCREW_MM * small, zero), { unit }));
  }
  for (const { resolution, range, limit } of shop.indicators) {
    const read = resolution / 2;
    // A way longer than the plunger's is made of several.
    const legs = Math.max(1, Math.ceil(offset / range - 1e-9));
    const change = (Math.SQRT2 * read) / ROOT3;
    const values = { unit, resolution, legs };
    const moved = (Math.sqrt(legs) * Math.hypot(read, limit)) / ROOT3;
    found.push(means('indicator-on-barrel', { uncertainty: Math.hypot(moved, zero / ROOT3), bias: 0, change }, values));
    for (const { blockLimit } of shop.sineBars) {
      const still = (STILL * resolution) / ROOT3;
      const uncertainty = Math.hypot(Math.SQRT2 * still, blockLimit / ROOT3, zero / ROOT3);
      const again = Math.hypot(Math.SQRT2 * still, blockLimit / ROOT3);
      found.push(means('blocks', { uncertainty, bias: 0, change: again }, { unit, blocks: offset }));
    }
  }
  return found;
}
