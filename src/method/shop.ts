/** What a shop has to set things with, as a job states it; what is left out is assumed, and the plan says so. */
import { array, type Fields, number, object, optional, positive } from '../core/read.js';
import { type Taper, taper } from '../taper/taper.js';

/** A dial indicator. */
export interface Indicator {
  /** One division. */
  readonly resolution: number;
  /** How far its plunger goes. */
  readonly range: number;
  /** Limit of its error over the range, plus or minus; one division if left out. */
  readonly limit?: number;
  /** How far off square its plunger may stand, in degrees; 2 if left out. */
  readonly outOfSquareDeg?: number;
}

/** A sine bar with gauge blocks. */
export interface SineBar {
  /** Distance of its rollers. */
  readonly length: number;
  /** Limit of that distance, plus or minus; 0.002 mm or 0.0001 in if left out. */
  readonly limit?: number;
  /** Limit of a stack of blocks, plus or minus; 0.001 mm or 0.00005 in if left out. */
  readonly blockLimit?: number;
}

/** A master: a true taper with centre holes, of the very angle that is wanted. */
export interface Master {
  /** Its taper. */
  readonly taper: Taper;
  /** Length of its flank that an indicator can follow. */
  readonly length: number;
  /** Limit of its half angle, plus or minus, in degrees. */
  readonly limitDeg: number;
}

/** What the shop has to set things with. */
export interface Shop {
  /** Dial indicators; `[]` if there is none. Left out: one that reads 0.01 mm over 10 mm, or 0.0005 in over 0.4 in. */
  readonly indicators?: readonly Indicator[];
  /** Sine bars with gauge blocks; none if left out. */
  readonly sineBars?: readonly SineBar[];
  /** Masters; none if left out. */
  readonly masters?: readonly Master[];
  /** Into how many parts a division of a scale or dial is estimated by eye, 1 to 20; 4 if left out. */
  readonly estimatedParts?: number;
}

/** A shop with nothing left open. */
export interface FilledShop {
  readonly indicators: readonly Required<Indicator>[];
  readonly sineBars: readonly Required<SineBar>[];
  readonly masters: readonly Master[];
  readonly estimatedParts: number;
}

const INDICATOR: Fields<Indicator> = {
  resolution: positive,
  range: positive,
  limit: optional(number({ min: 0 })),
  outOfSquareDeg: optional(number({ min: 0, max: 30 })),
};
const SINE_BAR: Fields<SineBar> = {
  length: positive,
  limit: optional(number({ min: 0 })),
  blockLimit: optional(number({ min: 0 })),
};
const MASTER: Fields<Master> = { taper, length: positive, limitDeg: number({ min: 0, max: 45 }) };

/** More of one kind nobody chooses from. */
const MOST = 20;

/** Reads a shop. */
export const SHOP: Fields<Shop> = {
  indicators: optional(array(object(INDICATOR), 0, MOST)),
  sineBars: optional(array(object(SINE_BAR), 0, MOST)),
  masters: optional(array(object(MASTER), 0, MOST)),
  estimatedParts: optional(number({ min: 1, max: 20 })),
};

/** What a shop has if it does not say, and how good it is: common practice, no source. */
export const ASSUMED_SHOP = {
  mm: { indicator: { resolution: 0.01, range: 10 }, bar: 0.002, blocks: 0.001 },
  in: { indicator: { resolution: 0.0005, range: 0.4 }, bar: 0.0001, blocks: 0.00005 },
  outOfSquareDeg: 2,
  estimatedParts: 4,
} as const;

/** A shop with its own limits, or what is usual. */
export function filledShop(
  { indicators, sineBars = [], masters = [], estimatedParts = ASSUMED_SHOP.estimatedParts }: Shop,
  unit: 'mm' | 'in',
): FilledShop {
  const usual = ASSUMED_SHOP[unit];
  return {
    indicators: (indicators ?? [usual.indicator]).map(
      ({ resolution, range, limit = resolution, outOfSquareDeg = ASSUMED_SHOP.outOfSquareDeg }: Indicator) => ({
        resolution,
        range,
        limit,
        outOfSquareDeg,
      }),
    ),
    sineBars: sineBars.map(({ length, limit = usual.bar, blockLimit = usual.blocks }) => ({
      length,
      limit,
      blockLimit,
    })),
    masters,
    estimatedParts,
  };
}
