import { type Job, type MethodName, type Plan, planJob, planSteps, stepsMarkdown, type WorkStep } from 'generatrix';
import { describe, expect, it } from 'vitest';
import { brutePath } from '../offset/brute-path.js';
import { actionOf, numberOf as value } from './step-numbers.js';
import { taperJob, taperPart } from './taper-jobs.js';

const METHODS = ['top-slide', 'guide-bar', 'form-tool', 'set-over', 'ball-centres'] as const;
const { length, largeDiameter } = taperPart;
/** 1 : 20 by hand: half angle atan(1/40), the diameter falls by 3 over 60. */
const tan = 1 / 40;
const alpha = Math.atan(tan);
const sin = Math.sin(alpha);

const plans = new Map<Job, Plan>();
const usual = taperJob();

function stepsOf(method: MethodName, job: Job = usual): readonly WorkStep[] {
  const plan = plans.get(job) ?? planJob(job, { trials: 2000 });
  plans.set(job, plan);
  return planSteps({ plan, method: plan.methods.findIndex((tried) => tried.method === method) });
}

function step(method: MethodName, code: string, job?: Job): WorkStep {
  const found = stepsOf(method, job).find((one) => one.code === code);
  if (!found) throw new Error(`${method} has no step ${code}`);
  return found;
}

type Point = readonly [x: number, y: number, z: number];

/** Where a plunger that moves along -x at height y and place z meets a cylinder in space: x, by bisection. */
function plunger(z: number, y: number, axis: { through: Point; direction: Point; radius: number }): number {
  const distance = (x: number): number => {
    const to = [x - axis.through[0], y - axis.through[1], z - axis.through[2]] as const;
    const along = to[0] * axis.direction[0] + to[1] * axis.direction[1] + to[2] * axis.direction[2];
    return Math.hypot(...to.map((part, i) => part - along * (axis.direction[i] ?? 0)));
  };
  let [inside, outside] = [axis.through[0] + (axis.direction[0] / axis.direction[2]) * z, 1000];
  for (let i = 0; i < 100; i++) {
    const middle = (inside + outside) / 2;
    if (distance(middle) < axis.radius) inside = middle;
    else outside = middle;
  }
  return outside;
}

/** Difference of the end diameters that a path at an angle to the axis cuts over a length. */
function cutDifference(angleRad: number, over = length): number {
  const radiusAt = brutePath(angleRad, 0, largeDiameter / 2);
  return 2 * (radiusAt(0) - radiusAt(over));
}

describe.each(METHODS)('the steps of %s', (method) => {
  const steps = stepsOf(method);

  it('come in the order of work', () => {
    const order = ['prepare', 'set', 'check', 'trial-cut', 'measure', 'correct', 'finish'];
    const places = steps.map(({ kind }) => order.indexOf(kind));
    expect(places).toEqual([...places].sort((a, b) => a - b));
    expect(new Set(places).size).toBe(order.length);
  });

  it('hold numbers only, and a text that states them', () => {
    for (const { values, text, unit } of steps) {
      expect(Object.values(values).every(Number.isFinite)).toBe(true);
      expect(text).not.toMatch(/NaN|Infinity|undefined|null|e-\d/);
      expect(unit).toBe('mm');
    }
  });

  it('state each limit of setting and measuring in two digits', () => {
    const text = stepsMarkdown(steps);
    const limits = {
      'top-slide': ['± 0.11°'],
      'guide-bar': ['± 0.052°'],
      'form-tool': ['± 0.17°'],
      'set-over': ['± 0.033 mm', '± 0.44 mm'],
      'ball-centres': ['± 0.033 mm', '± 0.44 mm', '± 1.3°'],
    }[method];
    for (const limit of [...limits, '± 0.12 mm', '± 0.015 mm', '± 0.0081 mm', '± 0.047 mm']) {
      expect(text).toContain(limit);
    }
  });

  it('measure and finish the sizes of the drawing', () => {
    const measured = steps.find(({ code }) => code === 'difference');
    // A round distance, clear of both edges: of 60, 45 from 7.5 to 52.5. 1 : 20 of that is 2.25.
    expect(measured?.values).toMatchObject({ distance: 45, diameterLimit: 0.0081, distanceLimit: 0.047 });
    expect(value(step(method, 'ends'), 'markAt')).toBe(7.5);
    expect(value(measured as WorkStep, 'difference')).toBeCloseTo(2.25, 12);
    expect(step(method, 'final-check').text).toContain('large end 24.000 mm, small end 21.000 mm');
  });

  it('leave enough on the trial for its own error: a taper off by as much still holds the finished one', () => {
    const plan = planJob(taperJob(), { trials: 2000 });
    const { first } = plan.methods.find((tried) => tried.method === method)?.expectations[0] ?? {};
    const leave = value(step(method, 'rough'), 'leave');
    expect(leave).toBeGreaterThan(Math.max(-(first?.low ?? 0), first?.high ?? 0));
    // The upper mark lies 7.5 from the large end: 1 : 20 of that is 0.375.
    expect(value(step(method, 'rough'), 'markDiameter')).toBeCloseTo(24 - 0.375 + leave, 12);
  });

  it('is a numbered list in Markdown', () => {
    const lines = stepsMarkdown(steps).trimEnd().split('\n');
    expect(lines).toHaveLength(steps.length);
    lines.forEach((line, i) => {
      expect(line).toMatch(new RegExp(`^${i + 1}\\. \\*\\*[A-Z][a-z ]+\\.\\*\\* \\S`));
    });
  });
});

describe('the top slide', () => {
  it('moves an indicator along a true cylinder in space as the check says', () => {
    const check = step('top-slide', 'indicator');
    const axis = { through: [0, 0, 0], direction: [0, 0, 1], radius: 15 } as const;
    /** The indicator rides on the slide: its own base moves too, and it shows what it is pushed in or out. */
    const shown = (angle: number, travel: number): number => {
      const base = (t: number): number => 100 - t * Math.sin(angle);
      return base(0) - plunger(0, 0, axis) - (base(travel) - plunger(travel * Math.cos(angle), 0, axis));
    };
    expect(value(check, 'travel')).toBe(length);
    expect(value(check, 'needle')).toBeCloseTo(shown(alpha, length), 10);
    // A slide whose needle stands at the ends of the range cuts half of what the trial may be off by between the marks.
    const room = value(step('top-slide', 'difference'), 'limit') / 2;
    const edges: number[] = [];
    for (const [name, error] of [
      ['needleFrom', -room],
      ['needleTo', room],
    ] as const) {
      let [low, high] = [0, 0.2];
      for (let i = 0; i < 100; i++) {
        const middle = (low + high) / 2;
        if (shown(middle, length) < value(check, name)) low = middle;
        else high = middle;
      }
      // The band is as wide on either side as it is on the narrower one; a sine bends by 1e-7 over it.
      const off = Math.abs(cutDifference(low, 45) - 2.25);
      expect(off).toBeLessThan(Math.abs(error) + 1e-9);
      expect(off).toBeCloseTo(Math.abs(error), 6);
      edges.push(Math.abs(error) - off);
    }
    expect(Math.min(...edges)).toBeCloseTo(0, 9);
  });

  it('is set to the exact angle, told as finely as it is set', () => {
    const set = step('top-slide', 'angle');
    expect(value(set, 'readingDeg')).toBeCloseTo((alpha * 180) / Math.PI, 12);
    expect(set.text).toContain(
      'reads 1.43°, a half angle of 1° 25.9 minutes, ± 0.11°, anticlockwise seen from above, so that',
    );
    expect(set.text).toContain("away from the axis, to the operator's side, as it goes towards the headstock");
    expect(step('top-slide', 'angle', taperJob({ headstockEnd: 'small', largeEndAt: 100 })).text).toContain(
      "away from the axis, to the operator's side, as it goes towards the tailstock",
    );
  });

  it('is turned until the difference is right', () => {
    const turn = step('top-slide', 'turn-slide');
    const { values } = turn;
    const change = ((values['changeDeg'] ?? 0) * Math.PI) / 180;
    expect(value(turn, 'per')).toBe(0.01);
    expect(actionOf(turn, 'correct')).toMatchObject({ off: 'too-small', way: 'steeper' });
    expect(cutDifference(alpha - change, 45)).toBeCloseTo(2.25 - 0.01, 9);
    expect(value(turn, 'indicator')).toBeCloseTo(length * (sin - Math.sin(alpha - change)), 12);
  });
});

describe('the guide bar', () => {
  it('moves an indicator along a true cylinder in space as the check says', () => {
    const check = step('guide-bar', 'indicator');
    const axis = { through: [0, 0, 0], direction: [0, 0, 1], radius: 15 } as const;
    const base = (z: number): number => 100 - z * tan;
    const shown = base(0) - plunger(0, 0, axis) - (base(length) - plunger(length, 0, axis));
    expect(value(check, 'needle')).toBeCloseTo(shown, 10);
    const room = value(step('guide-bar', 'difference'), 'limit') / 2;
    expect(cutDifference(Math.atan(value(check, 'needleTo') / length), 45)).toBeCloseTo(2.25 + room, 9);
    expect(cutDifference(Math.atan(value(check, 'needleFrom') / length), 45)).toBeCloseTo(2.25 - room, 9);
  });

  it.each([
    [{ by: 'half-angle' } as const, (a: number) => (a * 180) / Math.PI],
    [{ by: 'included-angle' } as const, (a: number) => (a * 360) / Math.PI],
    [{ by: 'per-foot' } as const, (a: number) => 24 * Math.tan(a)],
    [{ by: 'offset', radius: 300, radiusAlong: 'bar' } as const, (a: number) => 300 * Math.sin(a)],
    [{ by: 'offset', radius: 300, radiusAlong: 'bed' } as const, (a: number) => 300 * Math.tan(a)],
  ])('is set and corrected on its own scale %j', (scale, readingOf) => {
    const job = taperJob();
    const lathes = (job.lathes ?? []).map((lathe) => ({
      ...lathe,
      guideBar: { travel: 200, scale, largestHalfAngleDeg: 10 },
    }));
    const set = step('guide-bar', 'bar', { ...job, lathes });
    expect(value(set, 'reading')).toBeCloseTo(readingOf(alpha), 10);
    // The limit of the angle as the reading shows it: half the reading's change over twice the limit.
    const delta = (0.052 * Math.PI) / 180;
    const limit = (readingOf(alpha + delta) - readingOf(alpha - delta)) / 2;
    expect(value(set, 'limit') / limit).toBeCloseTo(1, 5);
    const turn = step('guide-bar', 'turn-bar', { ...job, lathes });
    const trial = Math.atan((2.25 - 0.01) / 2 / 45);
    // The scale read the wanted angle when the trial was cut: its zero is off by what the trial lacks.
    expect(value(turn, 'changeReading')).toBeCloseTo(readingOf(alpha + (alpha - trial)) - readingOf(alpha), 9);
  });
});

describe('the form tool', () => {
  it('moves an indicator on its edge as points of the edge do', () => {
    const check = step('form-tool', 'edge-indicator');
    /** The plunger stands still at z = 0 while the edge, which runs through the origin, goes by: bisection along it. */
    const shown = (angle: number): number => {
      let [low, high] = [0, 2 * length];
      for (let i = 0; i < 100; i++) {
        const along = (low + high) / 2;
        if (along * Math.cos(angle) < length) low = along;
        else high = along;
      }
      return high * Math.sin(angle);
    };
    expect(value(check, 'needle')).toBeCloseTo(shown(alpha), 10);
    const room = value(step('form-tool', 'difference'), 'limit') / 2;
    expect(cutDifference(Math.atan(value(check, 'needleTo') / length), 45)).toBeCloseTo(2.25 + room, 9);
    expect(cutDifference(Math.atan(value(check, 'needleFrom') / length), 45)).toBeCloseTo(2.25 - room, 9);
  });

  it('is set to the half angle, and goes in as far as stock and taper say', () => {
    const set = step('form-tool', 'edge-angle');
    expect(set.text).toContain('to 1.43° from the axis of the work, ± 0.17°, with a protractor (88.57° from a face');
    expect(set.text).toContain('farther from the axis towards the headstock');
    // 25 of stock down to 21 at the small end: 2 on the radius.
    expect(value(step('form-tool', 'infeed'), 'squareInfeed')).toBeCloseTo(2, 12);
    expect(value(step('form-tool', 'infeed', taperJob({ side: 'inside' })), 'squareInfeed')).toBeCloseTo(1.5, 12);
    expect(value(step('form-tool', 'edge'), 'edgeInCut')).toBeCloseTo(Math.hypot(60, 1.5), 12);
  });

  it('is turned until the difference is right', () => {
    const turn = step('form-tool', 'turn-edge');
    const { values } = turn;
    const change = ((values['changeDeg'] ?? 0) * Math.PI) / 180;
    expect(cutDifference(alpha - change, 45)).toBeCloseTo(2.25 - 0.01, 9);
    expect(value(turn, 'indicator')).toBeCloseTo(length * (tan - Math.tan(alpha - change)), 12);
  });
});

describe.each(['set-over', 'ball-centres'] as const)('work set over: %s', (method) => {
  const pivots = method === 'set-over' ? 180 : 186;

  it('is set on the dial', () => {
    const set = step(method, 'set-over');
    const times = method === 'set-over' ? 1 : 2;
    expect(value(set, 'offset')).toBeCloseTo(pivots * sin, 10);
    expect(value(set, 'reading')).toBeCloseTo(times * pivots * sin, 10);
    expect(set.text).toContain('towards the operator');
    expect(actionOf(set, 'set')?.way).toBe('operator');
    expect(step(method, 'set-over', taperJob({ headstockEnd: 'small', largeEndAt: 100 })).text).toContain(
      'away from the operator',
    );
    const follow = value(step(method, 'follow-up'), 'tailstockAdvance');
    expect(follow).toBeCloseTo(pivots - Math.sqrt(pivots ** 2 - value(set, 'offset') ** 2), 10);
  });

  it('moves an indicator on the carriage along the tilted blank in space as the check says', () => {
    const check = step(method, 'indicator');
    const blank = (angle: number) =>
      ({ through: [0, 0, 0], direction: [Math.sin(angle), 0, Math.cos(angle)], radius: 12.5 }) as const;
    const shown = (angle: number): number => plunger(length + 40, 0, blank(angle)) - plunger(40, 0, blank(angle));
    expect(value(check, 'needle')).toBeCloseTo(shown(alpha), 9);
    const room = value(step(method, 'difference'), 'limit') / 2;
    expect(value(check, 'needleTo')).toBeCloseTo(shown(Math.atan((2.25 + room) / 2 / 45)), 9);
    expect(value(check, 'needleFrom')).toBeCloseTo(shown(Math.atan((2.25 - room) / 2 / 45)), 9);
  });

  it('is set over again until the difference is right', () => {
    const again = step(method, 'set-over-again');
    const offset = value(again, 'changeOffset');
    const before = Math.asin(sin - offset / pivots);
    expect(cutDifference(before, 45)).toBeCloseTo(2.25 - 0.01, 9);
    expect(value(again, 'changeReading')).toBeCloseTo((method === 'set-over' ? 1 : 2) * offset, 12);
  });
});

describe('planSteps', () => {
  it('shortens the trial where there is no stock over the large end', () => {
    const job = taperJob({ stockDiameter: 24 });
    const { values } = step('set-over', 'rough', job);
    // What is left on the diameter is where the taper runs out: 1 : 20.
    expect(values['length']).toBeCloseTo(60 - 20 * (values['leave'] ?? 0), 10);
    const measured = step('set-over', 'difference', job);
    const distance = value(measured, 'distance');
    expect(value(measured, 'difference')).toBeCloseTo(distance / 20, 10);
    expect(distance + 2 * value(step('set-over', 'ends', job), 'markAt')).toBeLessThan(values['length'] ?? 0);
  });

  it('bores an inside taper smaller first', () => {
    const rough = step('top-slide', 'rough', taperJob({ side: 'inside' }));
    expect(value(rough, 'markDiameter')).toBeCloseTo(24 - 0.375 - value(rough, 'leave'), 10);
    expect(rough.text).toMatch(/Bore /);
  });

  it('holds an angle tolerance on the side where it is worth less', () => {
    const check = step('top-slide', 'final-check', taperJob({ tolerance: { halfAngleDeg: 0.05 } }));
    const delta = (0.05 * Math.PI) / 180;
    // What two diameters and their distance may be measured wrong by is taken from it.
    const measuring = 2 * 0.0081 + 2 * tan * 0.047;
    const room = 2 * 45 * (tan - Math.tan(alpha - delta)) - measuring;
    expect(value(check, 'differenceLimit')).toBeCloseTo(room, 10);
    // No tolerance of its own.
    expect(actionOf(check, 'measure', 1)?.must.limit).toBeUndefined();
  });

  it('takes the best method unless told, and refuses one that cannot reach', () => {
    const job = taperJob({ side: 'inside' });
    const plan = planJob(job, { trials: 2000 });
    expect(planSteps({ plan })).toEqual(planSteps({ plan, method: plan.best ?? 99 }));
    const method = plan.methods.findIndex((tried) => tried.method === 'set-over');
    expect(() => planSteps({ plan, method })).toThrow(expect.objectContaining({ code: 'beyond-machine' }));
    expect(() => planSteps({ plan: { ...plan, best: null } })).toThrow(
      expect.objectContaining({ code: 'beyond-machine' }),
    );
    expect(() => planSteps({ plan, method: 7 })).toThrow(expect.objectContaining({ code: 'out-of-range' }));
  });
});
