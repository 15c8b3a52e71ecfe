/** What a lathe must be able to do for a taper: its bed, its travel, and what stands in the way of the tool post. */
import { say, tell } from '../core/words.js';
import { type Limit, limit } from '../method/limits.js';
import type { LatheBase } from '../method/method.js';
import { smallDiameterOf, type TaperPart, type TaperWork } from './part.js';

/** The bed must be long enough for the piece. */
export function onBed({ part, unit }: TaperWork, lathe: LatheBase): Limit<'bed'> {
  const [needs, has] = [part.workLength, lathe.centreDistance];
  const [needed, there] = [tell(needs, { unit }), tell(has, { unit })];
  return limit('bed', say`the bed takes ${there} between centres, the piece is ${needed} long`, needs, has);
}

/** Work set over hangs between two points: outside only, and it needs its centre holes. */
export function betweenCentres(work: TaperWork, lathe: LatheBase): readonly Limit<'bed' | 'centres' | 'side'>[] {
  const { centreHoles, side } = work.part;
  return [
    onBed(work, lathe),
    { code: 'centres', message: 'the piece needs centre holes at both ends', met: centreHoles },
    { code: 'side', message: 'work between centres is cut outside only', met: side === 'outside' },
  ];
}

/** A half angle that a guide or a hold allows; `what` says which, with its own angle. */
export function tiltsTo<C extends string>(code: C, what: string, halfAngleDeg: number, largestDeg: number): Limit<C> {
  const [needed, there] = [tell(halfAngleDeg, { unit: '°' }), tell(largestDeg, { unit: '°' })];
  return limit(code, say`${what} ${there}, the half angle is ${needed}`, halfAngleDeg, largestDeg);
}

/** A travel that a slide, a bar or a head has; `what` says which, `needs` what needs it. */
export function travels<C extends string>(
  code: C,
  [what, needs]: readonly [what: string, needs: string],
  needed: number,
  available: number,
  unit: string,
): Limit<C> {
  const message = say`${what} ${tell(available, { unit })}, ${needs} ${tell(needed, { unit })}`;
  return limit(code, message, needed, available);
}

/** The tool post stands beside the tip: it must clear a shoulder at either end of the taper. */
export function shoulders({ part, unit }: TaperWork, { toolPost }: LatheBase): readonly Limit<'shoulder'>[] {
  if (!toolPost || part.side === 'inside') return [];
  const { halfWidth, toolReach } = toolPost;
  return (part.shoulders ?? []).map(({ at, diameter, gap }) => {
    const rise = (diameter - diameterAt(part, at)) / 2;
    return rise <= toolReach
      ? travels('shoulder', ['the tool reaches past the post', "the shoulder's rise is"], rise, toolReach, unit)
      : limit(
          'shoulder',
          say`the post stands ${tell(halfWidth, { unit })} to each side of the tip, the shoulder at the ${at} end ${tell(gap, { unit })} beyond the taper`,
          halfWidth,
          gap,
        );
  });
}

/**
 * The tool must still meet the large end when it stands as far off the axis as the stated limits let it; `lift` is
 * how far off it may come by other ways than its own height. Beyond that no part comes out at all.
 */
export function meets({ part, unit, setting }: TaperWork, lift = 0): Limit<'errors'> {
  const off = setting.toolHeight + lift;
  const radius = Math.max(0, part.largeDiameter - setting.touchOff) / 2;
  const [needed, there] = [tell(off, { unit }), tell(radius, { unit })];
  return {
    ...limit('errors', say`the tool may stand ${needed} off the axis, the large end reaches ${there}`, off, radius),
    met: off < radius,
  };
}

/** Diameter of the taper at one of its ends. */
export function diameterAt(part: TaperPart, end: 'large' | 'small'): number {
  return end === 'large' ? part.largeDiameter : smallDiameterOf(part);
}
