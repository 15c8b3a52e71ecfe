/**
 * Plug and ring: how far a plug goes in, what that says of its diameter, and where two cones of
 * slightly different taper bear on each other. Lengths in any one unit, angles in degrees. Source: C = 2 tan α
 * (ISO 3040) and elementary geometry.
 */
import { type Algebra, frozen, type Model, plainAlgebra } from '../budget/model.js';
import { anyNumber, defaulted, type Fields, nonNegative, positive, read, sound } from '../core/read.js';
import { slopeOf, type Taper, taper } from '../taper/taper.js';

/** A plug that stops short of its mark. */
export interface DiameterFromStandOffOptions {
  /** The taper, stated in any way. */
  readonly taper: Taper;
  /** Distance that the plug stands out further than it should; negative if it goes in too far. */
  readonly standOff: number;
}

const STAND_OFF: Fields<DiameterFromStandOffOptions> = { taper, standOff: anyNumber };

/**
 * How much larger a plug is than its gauge from how far short of the mark it stops: Δd = C Δz.
 * @returns Diameter of the plug less that of the gauge; positive: remove this much.
 * @throws GeneratrixError for a taper or a distance that is none.
 * @example
 * ```ts
 * import { diameterFromStandOff } from 'generatrix';
 * diameterFromStandOff({ taper: { oneIn: 20 }, standOff: 5 }); // => 0.25
 * ```
 */
export function diameterFromStandOff(options: DiameterFromStandOffOptions): number {
  const { taper, standOff } = read(options, STAND_OFF);
  return sound(diameterOf(plainAlgebra, { rate: 2 * slopeOf(taper).tan, standOff }), 'standOff');
}

function diameterOf<T>(a: Algebra<T>, { rate, standOff }: Readonly<Record<'rate' | 'standOff', T>>): T {
  return a.multiply(rate, standOff);
}

/** How much larger a plug is than its gauge, from its stand-off and the rate of taper. */
export const diameterFromStandOffModel: Model<'rate' | 'standOff'> = /* @__PURE__ */ frozen({
  name: 'diameter-from-stand-off',
  result: { kind: 'length', meaning: 'diameter of the plug less that of the gauge' },
  inputs: {
    rate: { kind: 'ratio', meaning: 'rate of taper' },
    standOff: { kind: 'length', meaning: 'distance that the plug stands out further than it should' },
  },
  evaluate: diameterOf,
});

/** What is taken off a plug. */
export interface AdvanceFromDiameterOptions {
  /** The taper, stated in any way. */
  readonly taper: Taper;
  /** What is removed of the diameter; negative: the plug comes out. */
  readonly removed: number;
}

const ADVANCE: Fields<AdvanceFromDiameterOptions> = { taper, removed: anyNumber };

/**
 * How far a plug moves into its ring for a change of diameter: Δz = Δd / C.
 * @throws GeneratrixError for a taper or a diameter that is none.
 * @example
 * ```ts
 * import { advanceFromDiameter } from 'generatrix';
 * advanceFromDiameter({ taper: { oneIn: 20 }, removed: 0.25 }); // => 5
 * ```
 */
export function advanceFromDiameter(options: AdvanceFromDiameterOptions): number {
  const { taper, removed } = read(options, ADVANCE);
  return sound(removed / (2 * slopeOf(taper).tan), 'removed');
}

/** A plug in a ring. */
export interface ConeContactOptions {
  /** Taper of the plug, stated in any way. */
  readonly plug: Taper;
  /** Taper of the ring, stated in any way. */
  readonly ring: Taper;
  /** Length over which they engage, along the axis. */
  readonly length: number;
  /** Thickness of the marking film, which hides gaps smaller than itself. @defaultValue 0 */
  readonly filmThickness?: number;
}

/** Where two cones bear. */
export interface ConeContact {
  /** The end that bears and shows the marking blue; `all` if the tapers are equal. */
  readonly bearsAt: 'large-end' | 'small-end' | 'all';
  /** Gap at the other end, on the diameter, measured square to the axis. */
  readonly diametralGap: number;
  /** The same gap measured square to the side of the ring. */
  readonly normalGap: number;
  /** Half angle of the plug less that of the ring, in degrees. */
  readonly halfAngleDifferenceDeg: number;
  /** Length from the bearing end over which a film of the given thickness still transfers, at most the engaged length. */
  readonly markedLength: number;
}

const CONTACT: Fields<ConeContactOptions, 'filmThickness'> = {
  plug: taper,
  ring: taper,
  length: positive,
  filmThickness: defaulted(nonNegative, 0),
};

/**
 * Contact of a plug in a ring of slightly different taper.
 * @throws GeneratrixError for a taper or a length out of range.
 * @example
 * ```ts
 * import { coneContact } from 'generatrix';
 * coneContact({ plug: { oneIn: 20 }, ring: { oneIn: 25 }, length: 50 }).bearsAt; // => 'large-end'
 * ```
 */
export function coneContact(options: ConeContactOptions): ConeContact {
  const { plug: stated, ring: around, length, filmThickness } = read(options, CONTACT);
  const [plug, ring] = [slopeOf(stated), slopeOf(around)];
  const steeper = plug.tan - ring.tan;
  const radialGap = Math.abs(steeper) * length;
  const normalGap = radialGap * ring.cos;
  const contact: ConeContact = {
    bearsAt: steeper === 0 ? 'all' : steeper > 0 ? 'large-end' : 'small-end',
    diametralGap: 2 * radialGap,
    normalGap,
    halfAngleDifferenceDeg: plug.halfAngleDeg - ring.halfAngleDeg,
    markedLength: normalGap <= filmThickness ? length : length * (filmThickness / normalGap),
  };
  return sound(contact, 'length');
}
