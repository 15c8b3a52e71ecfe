/** What a person can measure on a ball or a socket. Lengths in the caller's unit. */
import {
  anyNumber,
  byTag,
  choice,
  type Fields,
  nonNegative,
  object,
  optional,
  positive,
  type Reader,
} from '../../core/read.js';
import type { Zone } from '../target.js';

/** A length read on the part, with its standard uncertainty. */
export interface Reading {
  /** What was read. */
  readonly value: number;
  /** Standard uncertainty of the reading, above 0. */
  readonly uncertainty: number;
}

/**
 * Measurements of lengths: `largest-diameter` over the equator of a ball; `pip-diameter`, 0 if none is seen;
 * `end-diameter` where the cut ends at the stem or the rim; `cut-length` along the axis from where the cut begins to
 * where it ends; `opening-diameter` of a socket; `depth`, of a socket or of a dome's base below the place where the cut
 * begins; `radius` by gauge or spherometer, half-way between largest and smallest; `out-of-round`, the largest less the
 * smallest radius, as a ring gauge wandering over the surface shows it.
 */
export type SphereLength =
  | 'largest-diameter'
  | 'pip-diameter'
  | 'end-diameter'
  | 'cut-length'
  | 'opening-diameter'
  | 'depth'
  | 'radius'
  | 'out-of-round';

/** A measurement on the part, or of the tip against the part. */
export type SphereMeasurement =
  | ({
      /** What was measured. */
      readonly kind: SphereLength;
    } & Reading)
  | ({
      /** What was measured: a diameter at a place along the axis. */
      readonly kind: 'diameter-at';
      /** Height of the place over where the sphere's centre should be, positive towards the free end. */
      readonly height: number;
    } & Reading)
  | ({
      /**
       * The tip turned by hand to half-way between its ends, on either side of the plane of the axes: how much farther
       * from the work's axis it passes on the side of +y than on that of -y, by feeler or by the table's dial. Either
       * sign: it tells on which side the axes pass each other. Seen with the free end up and the spindle's upper end
       * leaning to the right, +y is away from you.
       */
      readonly kind: 'tip-side-to-side';
    } & Reading)
  | {
      /** The tip turned by hand to its place nearest the pole: short of the work's axis, or past it. */
      readonly kind: 'tip-at-pole';
      /** What was seen. */
      readonly value: 'not-reached' | 'past-pole';
      /** How far from the axis the tip must be for the eye to be as sure as one standard deviation is, above 0. */
      readonly uncertainty: number;
    };

/** Any kind of measurement. */
export type SphereMeasurementKind = SphereMeasurement['kind'];

/** What can be measured, and how well. */
export interface SphereInstrument {
  /** What is measured. */
  readonly kind: SphereMeasurementKind;
  /** Standard uncertainty of the reading. */
  readonly uncertainty: number;
  /** Height of the place, only of `diameter-at`. */
  readonly height?: number;
}

const LENGTHS = Object.keys({
  'largest-diameter': 0,
  'pip-diameter': 0,
  'end-diameter': 0,
  'cut-length': 0,
  'opening-diameter': 0,
  depth: 0,
  radius: 0,
  'out-of-round': 0,
} satisfies Record<SphereLength, 0>) as readonly SphereLength[];

const LENGTH: Fields<Extract<SphereMeasurement, { readonly kind: SphereLength }>> = {
  kind: choice(...LENGTHS),
  value: nonNegative,
  uncertainty: positive,
};

/** Reads one measurement. */
export const measurement: Reader<SphereMeasurement> = byTag<SphereMeasurement, 'kind'>('kind', {
  ...(Object.fromEntries(LENGTHS.map((kind) => [kind, LENGTH])) as Record<SphereLength, never>),
  'diameter-at': { ...LENGTH, kind: choice('diameter-at'), height: anyNumber },
  'tip-side-to-side': { kind: choice('tip-side-to-side'), value: anyNumber, uncertainty: positive },
  'tip-at-pole': { kind: choice('tip-at-pole'), value: choice('not-reached', 'past-pole'), uncertainty: positive },
});

/** All kinds but the one that needs a place of its own. */
export const KINDS: readonly Exclude<SphereMeasurementKind, 'diameter-at'>[] = [
  ...LENGTHS,
  'tip-side-to-side',
  'tip-at-pole',
];

/** Reads what can be measured. */
export const instrument: Reader<SphereInstrument> = object<SphereInstrument>({
  kind: choice(...KINDS, 'diameter-at'),
  uncertainty: positive,
  height: optional(anyNumber),
});

/** Why a part does not have a measurement; undefined if it has. */
export function missingOn({ side, part, to, from }: Zone, kind: SphereMeasurementKind): string | undefined {
  if (side === 'ball' && (kind === 'opening-diameter' || (kind === 'depth' && part !== 'cap'))) {
    return 'must be one that a ball has';
  }
  if (kind === 'largest-diameter' && (side === 'socket' || to <= Math.PI / 2)) {
    return 'must be left out: the surface does not reach its equator';
  }
  return kind === 'tip-at-pole' && from > 0 ? 'must be left out: the sweep need not reach the pole' : undefined;
}
