/** Which spoiled sheets still do what they should, in shops where one thing after the other is wrong. */
import { EXACT, type Hidden } from './lathe.js';
import { spoiled } from './spoil.js';
import { cut, type Kind, sheetOf } from './taper-kinds.js';
import { Mishap, meant } from './turner.js';

interface Shop {
  readonly hidden: Hidden;
  readonly tries: number;
}

/** An angle that puts the small end off by three tolerances, in degrees. */
function wrongDeg({ setup: { drawing } }: Kind, tolerance: number): number {
  const length = Math.abs(drawing.largeAt - drawing.smallAt);
  const tan = (drawing.largeDiameter - drawing.smallDiameter) / 2 / length;
  return (((3 * tolerance) / 2 / length / (1 + tan * tan)) * 180) / Math.PI;
}

/** Nothing wrong; the setting; the needle, so that only the trial shows it; the last touching off, which must be rejected. */
function shopsOf(angle: number): readonly Shop[] {
  const wrong = [-1, 1].flatMap((way): Shop[] => [
    {
      hidden: { ...EXACT, dialZero: 0.3, scaleZeroDeg: 0.1, angleDeg: () => angle * way, offset: () => 0.2 * way },
      tries: 1,
    },
    { hidden: { ...EXACT, needleDeg: angle * way, angleDeg: () => angle * way, offset: () => 0.2 * way }, tries: 2 },
    { hidden: { ...EXACT, touchOff: () => 0.15 * way }, tries: 1 },
  ]);
  return [{ hidden: EXACT, tries: 1 }, ...wrong];
}

/** What survives of a kind, and of how many. */
export function survivors(kind: Kind): {
  readonly all: number;
  readonly left: readonly string[];
  readonly shops: number;
} {
  const tolerance = kind.job.part.kind === 'taper' ? (kind.job.part.tolerance.smallDiameter ?? 0) : 0;
  /** Good and accepted, bad and rejected, or stopped before; what must not be is a bad part that is accepted. */
  const outcome = (sheet: Parameters<typeof cut>[1], { hidden, tries }: Shop): string => {
    try {
      const { worst, gouged, left, passed } = cut(kind, sheet, hidden, { tries, number: meant, zeal: 1e-3 });
      if (worst <= tolerance && !gouged) return passed && left < 1e-4 ? 'good' : 'rejected';
      return passed ? 'bad' : 'rejected';
    } catch (error) {
      if (error instanceof Mishap) return 'stopped';
      throw error;
    }
  };
  const sheet = sheetOf(kind);
  const shops = shopsOf(wrongDeg(kind, tolerance))
    .map((shop) => ({ shop, is: outcome(sheet, shop) }))
    .filter(({ is }) => is === 'good' || is === 'rejected');
  const sheets = spoiled(sheet);
  const left = sheets.filter((one) => shops.every(({ shop, is }) => outcome(one.sheet, shop) === is));
  return { all: sheets.length, left: left.map(({ what }) => what), shops: shops.length };
}
