/** Sheets of tapers, obeyed on the virtual lathe. */
import { describe, expect, it } from 'vitest';
import { EXACT } from './lathe.js';
import { cut, exactly, sheetOf, taperKinds } from './taper-kinds.js';
import { meant } from './turner.js';

const KINDS = taperKinds();

describe('in an exact shop', () => {
  it.each(KINDS.map((kind) => [kind.name, kind] as const))('%s comes out as drawn', (_name, kind) => {
    const { good, why, allowed } = exactly(kind);
    expect([good, why]).toEqual([true, '']);
    // Digits that allowed anything would prove nothing: 0.01 mm, or as much in inches.
    expect(allowed).toBeLessThan(kind.job.unit === 'mm' ? 0.01 : 0.01 / 25.4);
  });
});

/** One of each method, side and end. */
const SOME = KINDS.filter(({ name }) => /mm$/.test(name) && !/from-across|diameter|per-foot/.test(name));

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
