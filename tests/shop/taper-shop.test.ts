/** Sheets of tapers, obeyed on the virtual lathe. */
import { describe, expect, it } from 'vitest';
import { runs } from '../oracle/seed.js';
import { EXACT } from './lathe.js';
import { cut, exactly, sheetOf, taperKinds } from './taper-kinds.js';
import { off, really, tighter } from './taper-real.js';
import { meant } from './turner.js';

const KINDS = taperKinds();

/** All in the long run, and by the command; every fifth in the short one, which meets every method, side, end and unit. */
const EACH = KINDS.filter((_, i) => i % runs(1, 5) === 0);

describe('in an exact shop', () => {
  it.each(EACH.map((kind) => [kind.name, kind] as const))('%s comes out as drawn', (_name, kind) => {
    const { good, why, allowed } = exactly(kind);
    expect([good, why]).toEqual([true, '']);
    // Digits that allowed anything would prove nothing: 0.01 mm, or as much in inches.
    expect(allowed).toBeLessThan(kind.job.unit === 'mm' ? 0.01 : 0.01 / 25.4);
  });
});

/** One of each method, side and end. */
const SOME = KINDS.filter(({ name }) => /mm$/.test(name) && !/from-across|diameter|per-foot/.test(name)).filter(
  (_, i) => i % runs(1, 3) === 0,
);

describe('a first setting that is off', () => {
  it.each(SOME.map((kind) => [kind.name, kind] as const))('%s is mended by one correction', (_name, kind) => {
    const sheet = sheetOf(kind).filter(({ kind: is }) => is !== 'check');
    // What stays as it was set: the needle's steps left out, the guide off by 0.06°, the set-over by 0.2.
    for (const way of [-1, 1]) {
      const hidden = { ...EXACT, angleDeg: () => 0.06 * way, offset: () => 0.2 * way };
      const checks = sheetOf(kind).filter(({ kind: is }) => is === 'check');
      const setting = sheet.flatMap((step) =>
        step.kind === 'trial-cut'
          ? [...checks.map((one) => ({ ...one, actions: one.actions.filter((a) => a.do !== 'indicate') })), step]
          : [step],
      );
      const run = (tries: number) =>
        cut(kind, setting, hidden, { tries, number: meant, strict: tries > 1, zeal: 1e-6 });
      const [first, second, third] = [run(1), run(2), run(3)];
      expect(Math.abs(first.small)).toBeGreaterThan(0.01);
      // What is told for each hundredth is linear; what is left is of second order: of an angle off by 0.06 in 1.4, or
      // of the depth of balls, which goes with its square.
      expect(Math.abs(second.small)).toBeLessThan(0.05 * Math.abs(first.small));
      expect(Math.abs(third.small)).toBeLessThan(3e-3 * Math.abs(first.small));
      expect([second.gouged, third.gouged]).toEqual([false, false]);
      expect(second.form).toBeLessThan(1e-9);
    }
  });
});

describe('in a shop where everything is off by what the job states', () => {
  const parts = 40;

  it.each(EACH.map((kind) => [kind.name, kind] as const))('as many parts of %s are good as promised', (_name, kind) => {
    const made = really(tighter(kind, kind.job.unit === 'mm' ? 0.02 : 0.0008), parts, 11);
    expect([made.gouged, made.mishaps]).toEqual([0, []]);
    // Of all kinds none beyond four standard errors; a part in forty where nothing should fail. More may be good than
    // promised: what passes is left alone, and balls and blue tell more than two diameters.
    expect(off(made, parts)).toBeGreaterThan(-4);
  });
});
