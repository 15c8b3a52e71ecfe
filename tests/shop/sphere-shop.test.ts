/** Sheets of spheres, obeyed in the virtual shop. */
import { planJob, planSteps, type SetReading, type SphereTarget } from 'generatrix';
import { describe, expect, it } from 'vitest';
import { type Verdict, worst } from './part.js';
import { MEANT } from './person.js';
import { exactly, type Kind, NO_SHOP_ERRORS, sheetOf, sphereKinds } from './sphere-kinds.js';
import { reallySphere } from './sphere-real.js';
import { off } from './taper-real.js';

const KINDS = sphereKinds();

function kind(name: string): Kind {
  const found = KINDS.find((one) => one.name === name);
  if (!found) throw new Error(`no kind ${name}`);
  return found;
}

describe('an exact shop', () => {
  it.each(KINDS.map((one) => [one.name, one] as const))('makes %s as drawn', (_name, one) => {
    const { meant, printed, allowed, good } = exactly(one);
    expect({ good, meant, printed, allowed }).toMatchObject({ good: true });
    // Digits that allowed anything would prove nothing: 0.01 mm, or as much in inches.
    expect(allowed).toBeLessThan(one.job.unit === 'mm' ? 0.01 : 0.01 / 25.4);
  });

  it.each(KINDS.map((one) => [one.name, one] as const))('shows at every measure of %s what it must', (_name, one) => {
    let measured = 0;
    one.cut(sheetOf(one), NO_SHOP_ERRORS, {
      tries: 1,
      number: MEANT,
      seen: (what, value, must) => {
        measured++;
        // A dome's height and base are read where it really ends, its radius is reckoned from both.
        expect([what, value]).toEqual([what, expect.closeTo(must.value, 7)]);
      },
    });
    expect(measured).toBeGreaterThan(2);
  });
});

describe('passes of a ball-ended cutter round a ball, table flat', () => {
  const one = kind('ball-cutter ball-on-stem flat mm');
  const sheet = sheetOf(one);
  const tilted = (change: (set: SetReading) => SetReading): (() => Verdict) => {
    const other = sheet.map((step) => ({
      ...step,
      actions: step.actions.map((action) => (action.do === 'set' ? change(action) : action)),
    }));
    return () => one.cut(other, NO_SHOP_ERRORS, { tries: 1, number: MEANT });
  };

  it('leave the ball as the shank leans away from it, and would cut in otherwise', () => {
    expect(tilted((set) => set)().gouge).toBeLessThan(1e-9);
    const reading = (value: number) => (set: SetReading) => ({ ...set, reading: { ...set.reading, value } });
    expect(tilted(reading(0))).toThrow('the shank');
    expect(tilted(reading(30))).toThrow('the shank');
    expect(tilted((set) => ({ ...set, way: 'anticlockwise' }))).toThrow('the shank');
  });
});

describe('a mill that is set a little wrong', () => {
  const TILTS = [
    { tilt: 0.095, miss: 0.05 },
    { tilt: -0.095, miss: 0.04 },
    { tilt: 0.05, miss: -0.05 },
    { tilt: -0.095, miss: -0.05 },
  ];

  it.each(['flat', 'upright'])('brings a ball on a stem to size by one correction, table %s', (table) => {
    const one = kind(`tilted-sweep ball-on-stem ${table} mm`);
    const sheet = sheetOf(one);
    for (const { tilt, miss } of TILTS) {
      const errors = { ...NO_SHOP_ERRORS, headTiltDeg: () => tilt, miss: () => miss };
      const first = one.cut(sheet, errors, { tries: 1, number: MEANT });
      const second = one.cut(sheet, errors, { tries: 2, number: MEANT });
      expect(Math.abs(first.size) + first.pip).toBeGreaterThan(0.04);
      // What is linear in the sheet is so to a hundredth of what was off.
      expect(Math.abs(second.size)).toBeLessThan(0.004);
      expect(second.pip).toBeLessThan(0.007);
    }
  });

  it.each(['flat', 'upright'])('is tilted again for domes and sockets, table %s', (table) => {
    for (const part of ['cap', 'socket']) {
      const one = kind(`tilted-sweep ${part} ${table} mm`);
      const errors = { ...NO_SHOP_ERRORS, headTiltDeg: () => 0.095 };
      const first = one.cut(sheetOf(one), errors, { tries: 1, number: MEANT });
      const second = one.cut(sheetOf(one), errors, { tries: 2, number: MEANT });
      expect(Math.abs(first.size)).toBeGreaterThan(0.09);
      expect(Math.abs(second.size)).toBeLessThan(Math.abs(first.size) / 50);
    }
  });
});

describe('what a sheet of a tilted sweep no longer says', () => {
  it('nothing is moved for the pip that is there by design', () => {
    const sheet = sheetOf(kind('tilted-sweep ball-on-stem flat mm'));
    const pip = sheet.find(({ code }) => code === 'pip');
    expect(pip?.text).toContain('move nothing for it');
    // Only the sweep and the end of its feed are changed, by what the pip differs.
    const controls = pip?.actions.flatMap((action) => (action.do === 'correct' ? [action.control] : []));
    expect(controls).toEqual(['boring-head', 'quill']);
  });

  it('no position lies farther away than the part is large, between equal stems', () => {
    const target: SphereTarget = { part: 'ball-between-stems', diameter: 32, freeStemDiameter: 14, stemDiameter: 14 };
    const given = kind('tilted-sweep ball-between-stems upright mm').job;
    const plan = planJob({ ...given, part: { ...given.part, target } as typeof given.part }, { trials: 1000 });
    const text = planSteps({ plan, method: plan.methods.findIndex((tried) => tried.method === 'tilted-sweep') })
      .map((one) => one.text)
      .join(' ');
    for (const [number] of text.matchAll(/\d+(\.\d+)?/g)) expect(Number(number)).toBeLessThan(100);
  });

  it('the head is tilted to the side that the stems ask for', () => {
    const given = kind('tilted-sweep ball-between-stems upright mm').job;
    const sides = [
      [18, 12],
      [12, 18],
    ].map(([freeStemDiameter = 0, stemDiameter = 0]) => {
      const target: SphereTarget = { part: 'ball-between-stems', diameter: 32, freeStemDiameter, stemDiameter };
      const plan = planJob({ ...given, part: { ...given.part, target } as typeof given.part }, { trials: 1000 });
      const found = planSteps({ plan, method: plan.methods.findIndex((tried) => tried.method === 'tilted-sweep') })
        .find(({ code }) => code === 'tilt')
        ?.actions.find((action) => action.do === 'set');
      return found?.do === 'set' ? found.way : undefined;
    });
    expect(new Set(sides)).toEqual(new Set(['clockwise', 'anticlockwise']));
  });

  it('is as good without an error as the drawing', () => {
    const one = kind('tilted-sweep socket upright in');
    expect(worst(one.cut(sheetOf(one), NO_SHOP_ERRORS, { tries: 2, number: MEANT }))).toBeLessThan(1e-9);
  });
});

describe('in a shop where everything is off by what the job states', () => {
  const parts = 40;

  it.each(['tilted-sweep ball-on-stem flat mm', 'tilted-sweep socket upright mm', 'swivel-tool socket mm'])(
    'as many parts of %s are good as promised',
    (name) => {
      const made = reallySphere(kind(name), parts, 11);
      expect([made.gouged, made.mishaps]).toEqual([0, []]);
      // Four standard errors of the binomial, either way; a part in forty where nothing should fail.
      expect(Math.abs(off(made, parts))).toBeLessThan(4);
    },
  );
});
