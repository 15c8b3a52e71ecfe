/**
 * Plug and ring: how far a plug goes in, what that says of its diameter, and where two cones of
 * slightly different taper bear on each other.
 */
import type { Model } from '../budget/model.js';
import { number, options, positive } from '../core/checks.js';
import { readTaper, type Taper } from '../taper/taper.js';

/**
 * How much larger a plug is than its gauge from how far short of the mark it stops: Δd = C Δz.
 *
 * @param request - The taper, and the stand-off: distance that the plug stands out further than it
 * should (negative if it goes in too far).
 * @returns Diameter of the plug less that of the gauge; positive: remove this much.
 * @throws GeneratrixError for a taper or a distance that is none.
 * @example
 * ```ts
 * import { diameterFromStandOff } from 'generatrix';
 * diameterFromStandOff({ taper: { oneIn: 20 }, standOff: 5 }); // => 0.25
 * ```
 */
export function diameterFromStandOff(request: { readonly taper: Taper; readonly standOff: number }): number {
  options(request, 'request', ['taper', 'standOff']);
  return 2 * readTaper(request.taper).tan * number(request.standOff, 'standOff');
}

/**
 * How far a plug moves into its ring for a change of diameter: Δz = Δd / C.
 *
 * @param request - The taper and the diameter to be removed (negative: the plug comes out).
 * @returns Axial movement.
 * @throws GeneratrixError for a taper or a diameter that is none.
 * @example
 * ```ts
 * import { advanceFromDiameter } from 'generatrix';
 * advanceFromDiameter({ taper: { oneIn: 20 }, removed: 0.25 }); // => 5
 * ```
 */
export function advanceFromDiameter(request: { readonly taper: Taper; readonly removed: number }): number {
  options(request, 'request', ['taper', 'removed']);
  return number(request.removed, 'removed') / (2 * readTaper(request.taper).tan);
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

/**
 * Contact of a plug in a ring of slightly different taper.
 *
 * @param request - Taper of plug and ring, axial length over which they engage, and the thickness of the
 * marking film (0 if left out), which hides gaps smaller than itself.
 * @returns Which end bears, and the gap at the other.
 * @throws GeneratrixError for a taper or a length out of range.
 * @example
 * ```ts
 * import { coneContact } from 'generatrix';
 * coneContact({ plug: { oneIn: 20 }, ring: { oneIn: 25 }, length: 50 }).bearsAt; // => 'large-end'
 * ```
 */
export function coneContact(request: {
  readonly plug: Taper;
  readonly ring: Taper;
  readonly length: number;
  readonly filmThickness?: number;
}): ConeContact {
  options(request, 'request', ['plug', 'ring', 'length'], ['filmThickness']);
  const plug = readTaper(request.plug, 'plug');
  const ring = readTaper(request.ring, 'ring');
  const length = positive(request.length, 'length');
  const film = number(request.filmThickness ?? 0, 'filmThickness', { min: 0 });
  const steeper = plug.tan - ring.tan;
  const radialGap = Math.abs(steeper) * length;
  const normalGap = radialGap * ring.cos;
  return {
    bearsAt: steeper === 0 ? 'all' : steeper > 0 ? 'large-end' : 'small-end',
    diametralGap: 2 * radialGap,
    normalGap,
    halfAngleDifferenceDeg: plug.halfAngleDeg - ring.halfAngleDeg,
    markedLength: normalGap <= film ? length : (length * film) / normalGap,
  };
}

/** How much larger a plug is than its gauge, from its stand-off and the rate of taper. */
export const diameterFromStandOffModel: Model<'rate' | 'standOff'> = {
  name: 'diameter-from-stand-off',
  result: { kind: 'length', meaning: 'diameter of the plug less that of the gauge' },
  inputs: {
    rate: { kind: 'ratio', meaning: 'rate of taper' },
    standOff: { kind: 'length', meaning: 'distance that the plug stands out further than it should' },
  },
  evaluate: (a, { rate, standOff }) => a.multiply(rate, standOff),
};
