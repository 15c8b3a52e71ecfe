/**
 * Sheets of tapers obeyed by a person who knows nothing else: numbers, directions and order are taken from the
 * sentences and carried out in plain geometry of this file's own. x points to the operator, z to the tailstock.
 */
import fc from 'fast-check';
import { type Job, type MethodName, type Plan, planJob, planSteps, type TaperPart, type WorkStep } from 'generatrix';
import { describe, expect, it } from 'vitest';
import { runs } from '../oracle/seed.js';
import { numberOf } from './step-numbers.js';
import { taperJob } from './taper-jobs.js';

const METHODS = ['top-slide', 'guide-bar', 'set-over', 'ball-centres'] as const;
/** 1 : 20, 24 to 21 over 60. */
const tan = 1 / 40;
const alpha = Math.atan(tan);
const tolerance = 0.04;
const SMALL_AT_HEADSTOCK = { headstockEnd: 'small', largeEndAt: 100 } as const;
const BORE = { side: 'inside', headstockEnd: 'small', largeEndAt: 180 } as const;
const STEEP: Partial<TaperPart> = { taper: { includedAngleDeg: 60 }, length: 12 };

/** One plan for all methods and words of a job. */
const plans = new Map<string, Plan>();

function sheet(method: MethodName, part: Partial<TaperPart> = {}, more: Partial<Job> = {}): readonly WorkStep[] {
  const job = { ...taperJob(part), ...more };
  const key = JSON.stringify(job);
  const plan = plans.get(key) ?? planJob(job, { trials: 1000 });
  plans.set(key, plan);
  return planSteps({ plan, method: plan.methods.findIndex((tried) => tried.method === method) });
}

function of(steps: readonly WorkStep[], code: string): { text: string; v: (name: string) => number } {
  const found = steps.find((one) => one.code === code);
  if (!found) throw new Error(`no step ${code}`);
  return { text: found.text, v: (name) => numberOf(found, name) };
}

const said = (text: string, pattern: RegExp): string => pattern.exec(text)?.[1] ?? '';
const number = (text: string, pattern: RegExp): number => Number.parseFloat(said(text, pattern));

function bisect(f: (x: number) => number, low: number, high: number): number {
  let [a, b] = [low, high];
  for (let i = 0; i < 200; i++) {
    const middle = (a + b) / 2;
    if (f(a) < 0 === f(middle) < 0) a = middle;
    else b = middle;
  }
  return (a + b) / 2;
}

describe('a tolerance is spent once', () => {
  const steps = sheet('set-over');
  const last = of(steps, 'final-check').text;
  const ends = of(steps, 'ends').text;
  const [lower, upper] = [number(ends, /lower mark ([\d.]+)/), number(ends, /upper mark ([\d.]+)/)];
  const [atUpper, atUpperLimit] = [number(last, /cold: ([\d.]+)/), number(last, /± ([\d.]+) mm, at the upper/)];
  const [atLower, atLowerLimit] = [number(last, /and ([\d.]+) mm, ±/), number(last, /± ([\d.]+) mm, at the lower/)];
  const accepted = (measuredUpper: number, measuredLower: number): boolean =>
    Math.abs(measuredUpper - atUpper) <= atUpperLimit && Math.abs(measuredLower - atLower) <= atLowerLimit;

  it('what the finished part is accepted by, the plan accepts, whatever measuring and marking do', () => {
    const error = (most: number) => fc.double({ min: -most, max: most, noNaN: true });
    const many = runs(20_000, 4000);
    let passed = 0;
    fc.assert(
      fc.property(
        fc.tuple(error(0.06), error(0.06), error(0.0081), error(0.0081), error(0.047), error(0.047)),
        ([large, small, byUpper, byLower, place, distance]) => {
          const diameter = (z: number): number => 21 + small + ((3 + large - small) / 60) * z;
          const ok = accepted(diameter(upper + place + distance) + byUpper, diameter(lower + place) + byLower);
          if (ok) passed++;
          // 1e-4: the place of a mark errs on the taper as it came out, at most a twentieth off the nominal one.
          expect(!ok || Math.abs(small) <= tolerance + 1e-4).toBe(true);
        },
      ),
      { numRuns: many },
    );
    expect(passed).toBeGreaterThan(many / 20);
  });

  it('refuses a large end at its limit with a difference that is itself within the whole tolerance', () => {
    const diameter = (z: number): number => 21.07 + (2.95 / 60) * z;
    expect(accepted(diameter(upper), diameter(lower))).toBe(false);
    expect(accepted(21 + upper / 20, 21 + lower / 20)).toBe(true);
  });

  it('a trial within its band, touched off within its limit, is a good part', () => {
    const { text } = of(steps, 'difference');
    const [difference, band] = [number(text, /larger by ([\d.]+)/), number(text, /larger by [\d.]+ mm, ± ([\d.]+)/)];
    for (const off of [-band, band]) {
      const rate = (difference + off) / (upper - lower);
      for (const touched of [-atUpperLimit, atUpperLimit]) {
        const small = atUpper + touched - rate * upper;
        expect(Math.abs(small - 21)).toBeLessThan(tolerance);
      }
    }
    // The needle leaves half of that.
    const check = of(steps, 'indicator');
    const needle = (check.v('needleTo') - check.v('needle')) / check.v('travel');
    expect(2 * needle * (upper - lower)).toBeLessThan(0.51 * band + 1e-3);
  });

  it('says when measuring cannot prove it, and what would', () => {
    const loose = of(sheet('top-slide'), 'difference').text;
    expect(loose).not.toContain('cannot prove');
    const part = { tolerance: { halfAngleDeg: 0.008 } };
    const { text } = of(sheet('top-slide', part), 'difference');
    expect(text).toContain('cannot prove the tolerance');
    const better = {
      diameter: number(text, /a diameter to ± ([\d.]+)/) * 0.95,
      length: number(text, /a distance to ± ([\d.]+)/) * 0.95,
    };
    expect(of(sheet('top-slide', part, { measuring: better }), 'difference').text).not.toContain('cannot prove');
    const rough = { ...(taperJob().setting ?? {}), touchOff: 0.05 };
    const spent = of(sheet('top-slide', {}, { setting: rough }), 'difference').text;
    expect(spent).toContain('the large end must first be touched off more closely');
  });
});

describe.each(METHODS)('directions of %s', (method) => {
  it.each([{}, SMALL_AT_HEADSTOCK])('lead to the taper of the drawing %j', (part) => {
    const steps = sheet(method, part);
    const ends = of(steps, 'ends').text;
    const [large, small] = [number(ends, /large end ([\d.]+)/), number(ends, /small end ([\d.]+)/)];
    const check = of(steps, 'indicator').text;
    const travel = number(check, /goes ([\d.]+) mm/) * (/goes [\d.]+ mm towards the tailstock/.test(check) ? 1 : -1);
    expect(check).toContain('the plunger must be pushed in');
    const shown = number(check, /pushed in by ([\d.]+)/);
    const setting = steps.find(({ kind }) => kind === 'set')?.text ?? '';
    if (method === 'set-over' || method === 'ball-centres') {
      const offset = number(setting, /over by ([\d.]+)/) * (setting.includes('towards the operator') ? 1 : -1);
      expect(setting).toContain(offset > 0 ? 'towards the operator' : 'away from the operator');
      const lean = Math.asin(offset / (method === 'set-over' ? 180 : 186));
      // The near side of a tilted cylinder, and the distance from a path along the bed to the tilted axis.
      const side = (z: number): number => z * Math.tan(lean) + 12.5 / Math.cos(lean);
      expect(side(50 + travel) - side(50)).toBeCloseTo(shown, 2);
      const cut = (z: number): number => (20 - z * Math.tan(lean)) * Math.cos(lean);
      expect(cut(large)).toBeGreaterThan(cut(small));
    } else {
      const out = said(setting, /to the operator's side, as it goes towards the (\w+)/) === 'tailstock' ? 1 : -1;
      const path = (z: number): number => 20 + out * z * tan;
      // What is carried along the path comes nearer to a true cylinder by what the plunger is pushed in.
      expect(path(50) - path(50 + travel)).toBeCloseTo(shown, 2);
      expect(path(large)).toBeGreaterThan(path(small));
    }
  });
});

describe('the order of work', () => {
  const codes = (method: MethodName, part: Partial<TaperPart> = {}): readonly string[] =>
    sheet(method, part).map(({ code }) => code);

  it.each([
    ['top-slide', {}, ['ends', 'lock-carriage', 'angle', 'indicator', 'rough', 'difference', 'blue', 'touch-off']],
    ['top-slide', BORE, ['drill', 'lock-carriage', 'angle', 'rough', 'ball-depths', 'blue', 'touch-off']],
    ['guide-bar', {}, ['free-cross-feed', 'clear-travel', 'bar', 'indicator', 'rough', 'blue', 'final-check']],
    ['set-over', {}, ['turn-blank', 'zero', 'set-over', 'follow-up', 'indicator', 'rough', 'blue', 'restore']],
    ['ball-centres', {}, ['turn-blank', 'level-head', 'zero', 'set-over', 'follow-up', 'rough', 'blue', 'restore']],
  ] as const)('of %s %j', (method, part, wanted) => {
    const places = wanted.map((code) => codes(method, part).indexOf(code));
    expect(places).not.toContain(-1);
    expect(places).toEqual([...places].sort((a, b) => a - b));
  });

  it.each(['set-over', 'ball-centres'] as const)(
    '%s: the barrel is eased before anything moves, and the zero is noted',
    (method) => {
      const steps = sheet(method);
      const { text } = of(steps, 'set-over');
      const whole = steps.map((one) => one.text).join(' ');
      expect(whole.indexOf('ease')).toBeGreaterThan(-1);
      expect(whole.indexOf('ease')).toBeLessThan(whole.indexOf(text));
      // A dial whose zero is anywhere: noted where the work lies in line, and added.
      const noted = 1.37;
      expect(of(steps, 'zero').text).toContain('added to every reading that follows');
      expect(text).toContain('the noted reading and');
      const more = number(text, /noted reading and ([\d.]+)/);
      const moved = (noted + more - noted) / (text.includes('counts on the diameter') ? 2 : 1);
      expect(moved / (method === 'set-over' ? 180 : 186)).toBeCloseTo(Math.sin(alpha), 4);
      expect(of(steps, 'restore').text).toContain('back to the noted reading');
    },
  );

  it.each([{}, SMALL_AT_HEADSTOCK])('after setting over again the tool goes the way that it is told %j', (part) => {
    const steps = sheet('set-over', part);
    const { text, v } = of(steps, 'set-over-again');
    const ends = of(steps, 'ends');
    const towards = 'headstockEnd' in part ? -1 : 1;
    // A ring of the work about its pivot in the headstock: its near side, before and after.
    const mark = ends.v('smallAt') - towards * ends.v('farMarkAt');
    const near = (offset: number): number => {
      const lean = (towards * offset) / 180;
      return mark * lean + (of(steps, 'touch-off').v('markDiameter') / 2) * Math.sqrt(1 - lean * lean);
    };
    const offset = of(steps, 'set-over').v('offset');
    const outwards = near(offset + v('changeOffset')) - near(offset);
    expect(text).toContain(outwards > 0 ? 'has to draw back' : 'has to move in');
    expect(Math.abs(v('toolMove'))).toBeCloseTo(Math.abs(outwards), 4);
  });
});

describe('what is measured, for this part', () => {
  it.each([{}, BORE])('blue at the wrong end tells which way to turn %j', (part) => {
    const { text } = of(sheet('top-slide', part), 'blue');
    const inside = 'side' in part;
    // A plug and a ring over one length, pushed together until they touch: at which end is the gap closed?
    const plug = (half: number) => (z: number) => 10 + z * Math.tan(half);
    const touches = (plugHalf: number, ringHalf: number): 'small' | 'large' => {
      const gap = (z: number): number => plug(ringHalf)(z) - plug(plugHalf)(z);
      return gap(0) < gap(40) ? 'small' : 'large';
    };
    const flat = inside ? touches(alpha, alpha - 1e-3) : touches(alpha - 1e-3, alpha);
    expect(said(text, new RegExp(`${flat} end only (?:say )?that (?:the taper|it) is too (\\w+)`))).toBe('flat');
    const steep = flat === 'large' ? 'small' : 'large';
    expect(said(text, new RegExp(`${steep} end only (?:say )?that (?:the taper|it) is too (\\w+)`))).toBe('steep');
  });

  it('two balls in the bore lie as deep as is told', () => {
    const { text } = of(sheet('top-slide', BORE), 'ball-depths');
    const [small, large] = [number(text, /a ball of ([\d.]+)/), number(text, /one of ([\d.]+)/)];
    /** Depth of a ball's top below a mouth: where its distance from a side that narrows is its radius. */
    const top = (ball: number, half: number, mouth: number): number => {
      const room = (centre: number): number => (mouth / 2 - centre * Math.tan(half)) * Math.cos(half) - ball / 2;
      return bisect(room, -20, 200) - ball / 2;
    };
    const deeper = (half: number, mouth: number): number => top(small, half, mouth) - top(large, half, mouth);
    for (const mouth of [23.4, 24]) expect(deeper(alpha, mouth)).toBeCloseTo(number(text, /must lie ([\d.]+)/), 2);
    const [step, counts] = [
      number(text, /every ([\d.]+) mm that it lies deeper/),
      number(text, /too small by ([\d.]+)/),
    ];
    const flatter = Math.atan(tan - counts / 2 / 45);
    expect(deeper(flatter, 23.5) - deeper(alpha, 23.5)).toBeCloseTo(step, 2);
  });

  it.each([
    ['along', STEEP],
    ['square to', { taper: { includedAngleDeg: 100 }, length: 8 }],
  ] as const)('a steep side comes level on the sine bar, the axis %s the bar', (how, part) => {
    const { text } = of(sheet('top-slide', part), 'on-sine-bar');
    expect(text).toContain(`its axis ${how} the bar`);
    const half = how === 'along' ? Math.PI / 6 : (50 * Math.PI) / 180;
    const bar = Math.asin(number(text, /with ([\d.]+) mm of gauge/) / number(text, /sine bar of ([\d.]+)/));
    /** Direction of the side, towards the large end, in the plane of the bar: level if its height does not change. */
    const rise = (angle: number): number => {
      const axis = how === 'along' ? -bar : bar - Math.PI / 2;
      return Math.sin(axis + angle);
    };
    expect(rise(half)).toBeCloseTo(0, 5);
    const [step, counts] = [
      number(text, /every ([\d.]+) mm that the side falls/),
      number(text, /too small by ([\d.]+)/),
    ];
    const over = number(text, /diameters over ([\d.]+)/);
    const flatter = Math.atan(Math.tan(half) - counts / 2 / over);
    expect(-rise(flatter) * number(text, /still over ([\d.]+)/)).toBeCloseTo(step, 4);
  });

  it('a plug that ends the work measures over its rollers what is told', () => {
    const { text } = of(sheet('set-over', { largeEndAt: 120 }), 'over-rollers');
    const roller = number(text, /rollers of ([\d.]+)/);
    const over = (height: number): number => {
      const y = height + roller / 2;
      // The roller's centre stands its radius off the side, measured square to it.
      const gap = (x: number): number => (x - 10.5 - y * tan) * Math.cos(alpha) - roller / 2;
      return 2 * bisect(gap, 0, 100) + roller;
    };
    expect(over(0)).toBeCloseTo(number(text, /measures ([\d.]+)/), 2);
    expect(over(number(text, /blocks of ([\d.]+)/))).toBeCloseTo(number(text, /and ([\d.]+) mm with both/), 2);
    expect(sheet('set-over').some(({ code }) => code === 'over-rollers')).toBe(false);
  });

  it('nothing steep is measured with a micrometer, and no needle is sent beyond its range', () => {
    for (const part of [STEEP, { ...STEEP, ...BORE }]) {
      const steps = sheet('top-slide', part);
      const measure = steps.filter(({ kind }) => kind === 'measure').map(({ text }) => text);
      expect(measure.join(' ')).not.toContain('with a micrometer');
      expect(of(steps, 'indicator').v('needle')).toBeLessThan(8);
    }
  });
});

it('an inch sheet is as fine as a shop, and says minutes of arc', () => {
  const part: TaperPart = {
    ...taperJob().part,
    ...{ largeDiameter: 1, length: 2.4, workLength: 7, largeEndAt: 1, stockDiameter: 1.1 },
    ...{ taper: { perFoot: 0.625 }, tolerance: { smallDiameter: 0.004 } },
  } as TaperPart;
  const scale = { by: 'per-foot', step: 0.1 } as const;
  const lathe = { name: 'lathe', centreDistance: 20, topSlide: { travel: 3 }, tailstock: { setover: 1 } };
  const lathes = [{ ...lathe, guideBar: { travel: 8, scale, largestHalfAngleDeg: 10 } }];
  const plan = planJob({ title: 't', unit: 'in', part, lathes }, { trials: 1000 });
  for (const [method, { settings }] of plan.methods.entries()) {
    if (!settings) continue;
    const text = planSteps({ plan, method })
      .map((one) => one.text)
      .join('\n');
    expect(text).not.toMatch(/′|\d\.\d{6}|in in\b| mm/);
    expect(text).toMatch(/minutes of arc|set the tailstock over/);
  }
});
