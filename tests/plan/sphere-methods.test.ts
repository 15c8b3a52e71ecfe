/** Sphere jobs where one limit decides; each number is worked out by hand beside it. */
import { describe, expect, it } from 'vitest';
import { type Job, type Mill, planJob, planSurface, type SphereTarget } from '../../src/index.js';
import { sphereThrough, turnedAt } from './machinings.js';

const mill: Mill = {
  name: 'knee mill',
  table: 'flat',
  headTilt: { largestDeg: 45 },
  boringHead: { dial: { reads: 'diameter', from: 10, to: 100 } },
};

function job(target: SphereTarget, over: Partial<Job> = {}): Job {
  return {
    title: 'capstan knob',
    unit: 'mm',
    part: { kind: 'sphere', target, tolerance: { radius: 0.1, form: 0.1 } },
    mills: [mill],
    ...over,
  };
}

/** Needed and available of one limit of the tilted sweep on the first mill. */
function limitOf(
  given: Job,
  code: string,
): readonly [needed: number | undefined, available: number | undefined, met: boolean] {
  const sweep = planJob(given, { trials: 1000 }).methods.find(({ method }) => method === 'tilted-sweep');
  const found = sweep?.limits.find((limit) => limit.code === code);
  if (!found) throw new Error(`no limit ${code}`);
  return [found.needed, found.available, found.met];
}

describe('a ball on a stem, 50 mm on 25 mm', () => {
  const ball: SphereTarget = { part: 'ball-on-stem', diameter: 50, stemDiameter: 25 };
  // The stem begins at a polar angle of 180° - asin(12.5/25) = 150°: tilt and angular radius of the sweep are 75°.

  it('needs more tilt than the head has with the table flat', () => {
    const plan = planJob(job(ball), { trials: 1000 });
    expect(plan.best).toBeNull();
    const sweep = plan.methods.find(({ method }) => method === 'tilted-sweep');
    expect(sweep?.reaches).toBe(false);
    expect(sweep?.probability).toBe(0);
    expect(sweep?.settings).toBeNull();
    expect(sweep?.reasons.map(({ code }) => code)).toEqual(['limit-tilt']);
    expect(sweep?.reasons[0]?.values).toEqual({ needed: expect.closeTo(75, 9), available: 45 });
    // The nearest way out is the head: 1 - 45/75 = 2/5 of what it needs is missing. No cutter is a lack without a number, and comes last.
    expect(plan.changes.map(({ method }) => method)).toEqual(['tilted-sweep', 'ball-cutter']);
    expect(plan.changes.map(({ shortBy }) => shortBy)).toEqual([expect.closeTo(0.4, 9), null]);
  });

  it('is reached with the table upright: 90° - 75° = 15°', () => {
    const upright = { ...mill, name: 'table upright', table: 'upright' as const };
    const plan = planJob(job(ball, { mills: [mill, upright] }), { trials: 1000 });
    const best = plan.methods[plan.best ?? -1];
    expect([best?.method, best?.machine, best?.meets]).toEqual(['tilted-sweep', 'table upright', true]);
    expect(best?.limits.find(({ code }) => code === 'tilt')?.needed).toBeCloseTo(15, 9);
  });

  it('needs a larger sweep than the head has: 50 sin 75° = 48.296 mm', () => {
    const small: Mill = { ...mill, table: 'upright', boringHead: { dial: { reads: 'diameter', to: 40 } } };
    const [needed, available, met] = limitOf(job(ball, { mills: [small] }), 'sweep');
    expect([needed, available, met]).toEqual([expect.closeTo(48.2963, 4), 40, false]);
    // On a dial that reads the radius the same is 24.148 of 20.
    const onRadius: Mill = { ...small, boringHead: { dial: { reads: 'radius', to: 20 } } };
    expect(limitOf(job(ball, { mills: [onRadius] }), 'sweep')).toEqual([expect.closeTo(24.1481, 4), 20, false]);
  });

  it('needs the tool to reach 25 - 25 cos 75° = 18.530 mm before a body wider than the ball', () => {
    const head = (toolReach: number): Mill => ({
      ...mill,
      table: 'upright',
      boringHead: { dial: { reads: 'diameter' }, bodyRadius: 30, toolReach },
    });
    expect(limitOf(job(ball, { mills: [head(18)] }), 'clearance')).toEqual([expect.closeTo(18.5295, 4), 18, false]);
    expect(limitOf(job(ball, { mills: [head(19)] }), 'clearance')).toEqual([expect.closeTo(18.5295, 4), 19, true]);
  });

  it('is past the widest place for a ball-ended cutter under an upright spindle', () => {
    // A cutter of 5 mm radius touches ball and stem where sin = (12.5 + 5)/(25 + 5): 180° - 35.685° = 144.315°.
    const cutters = (largestDeg: number): Mill => ({
      name: 'mill',
      table: 'flat',
      headTilt: { largestDeg },
      ballCutters: [10],
    });
    const tried = (largestDeg: number) =>
      planJob(job(ball, { mills: [cutters(largestDeg)] }), { trials: 1000 }).methods;
    const reach = tried(45).find(({ method }) => method === 'ball-cutter');
    expect(reach?.reasons[0]?.values).toEqual({ needed: expect.closeTo(54.3147, 4), available: 45 });
    expect(tried(60).find(({ method }) => method === 'ball-cutter')?.reaches).toBe(true);
  });
});

describe('a socket of 30 mm radius, 6 mm deep', () => {
  const socket: SphereTarget = { part: 'socket', radius: 30, depth: 6 };
  // The rim lies at a polar angle of acos((30 - 6)/30) = 36.870°: tilt 18.435°, sweep 60 sin 18.435° = 18.974 mm.

  it('is reached, with the table flat only', () => {
    expect(limitOf(job(socket), 'tilt')).toEqual([expect.closeTo(18.4349, 4), 45, true]);
    const upright = job(socket, { mills: [{ ...mill, table: 'upright' }] });
    expect(limitOf(upright, 'tilt')).toEqual([expect.closeTo(71.5651, 4), 45, false]);
  });

  it('needs a smaller sweep than the head has', () => {
    const large: Mill = { ...mill, boringHead: { dial: { reads: 'diameter', from: 25, to: 100 } } };
    const given = job(socket, { mills: [large] });
    expect(limitOf(given, 'sweep')).toEqual([expect.closeTo(18.9737, 4), 25, false]);
    // 1 - 18.974/25 = 24.1 % too large.
    expect(planJob(given, { trials: 1000 }).changes[0]?.shortBy).toBeCloseTo(0.24105, 5);
  });

  it('takes no cutter as large as itself', () => {
    const given = (ballCutters: readonly number[]): Job =>
      job(socket, { mills: [{ name: 'mill', table: 'flat', headTilt: { largestDeg: 45 }, ballCutters }] });
    const tried = (cutters: readonly number[]) =>
      planJob(given(cutters), { trials: 1000 }).methods.find(({ method }) => method === 'ball-cutter');
    expect(tried([60])?.reasons[0]?.code).toBe('limit-cutter');
    expect(tried([60, 8])?.reaches).toBe(true);
  });
});

describe('a lathe', () => {
  const ball: SphereTarget = { part: 'ball-on-stem', diameter: 50, stemDiameter: 25 };
  const lathe = {
    name: 'lathe',
    centreDistance: 500,
    swivelTool: { smallestRadius: 5, largestRadius: 20 },
    slides: { step: 0.02, noseRadius: 2 },
  };

  it('swings too small a radius, but steps remain', () => {
    const plan = planJob(job(ball, { lathes: [lathe], mills: [] }), { trials: 1000 });
    expect(plan.methods.map(({ method }) => method)).toEqual(['steps', 'swivel-tool']);
    expect(plan.methods[1]?.reasons[0]?.values).toEqual({ needed: 25, available: 20 });
    const large = { ...lathe, swivelTool: { smallestRadius: 26, largestRadius: 60 } };
    const other = planJob(job(ball, { lathes: [large], mills: [] }), { trials: 1000 });
    expect(other.methods[1]?.reasons[0]?.values).toEqual({ needed: 25, available: 26 });
  });

  it('swings no socket deeper than half a sphere', () => {
    const wide = { ...lathe, swivelTool: { smallestRadius: 5, largestRadius: 60 } };
    // The rim of a socket 1.25 R deep lies at acos(-0.25) = 104.478°.
    const plan = planJob(job({ part: 'socket', radius: 40, depth: 50 }, { lathes: [wide], mills: [] }), {
      trials: 1000,
    });
    const swivel = plan.methods.find(({ method }) => method === 'swivel-tool');
    expect(swivel?.reasons.map(({ code }) => code)).toEqual(['limit-swing']);
    expect(swivel?.reasons[0]?.values).toEqual({ needed: expect.closeTo(104.4775, 4), available: 90 });
    expect(plan.best).toBeNull();
  });

  it('is asked for more places than anybody sets by hand', () => {
    const fine: Job = {
      ...job(ball, { lathes: [lathe], mills: [] }),
      part: { kind: 'sphere', target: ball, tolerance: { radius: 0.01, form: 0.002 } },
    };
    const steps = planJob(fine, { trials: 1000 }).methods.find(({ method }) => method === 'steps');
    const limit = steps?.limits.find(({ met }) => !met);
    expect([limit?.code, limit?.available, limit?.met]).toEqual(['steps', 200, false]);
    // Ridges of s²/(8 n) (1 + n/R) = 0.001 lie s = 0.12172 apart: 2.618 rad of 25 mm in steps of that are 537; square ends add a few.
    expect(Math.abs((limit?.needed ?? 0) / 537 - 1)).toBeLessThan(0.03);
  });

  it('ranks what meets the tolerance by ease: swing, sweep, cutter, steps', () => {
    const wide = { ...lathe, swivelTool: { smallestRadius: 5, largestRadius: 60 } };
    const all: Job = {
      ...job(ball, { lathes: [wide], mills: [{ ...mill, table: 'upright', ballCutters: [10] }] }),
      part: { kind: 'sphere', target: ball, tolerance: { radius: 0.2, form: 0.2 } },
    };
    const plan = planJob(all, { trials: 1000 });
    expect(plan.methods.map(({ method, meets }) => [method, meets])).toEqual([
      ['swivel-tool', true],
      ['tilted-sweep', true],
      ['ball-cutter', true],
      ['steps', true],
    ]);
    // Skew limits ±0.5: the form, r e / R = 0.97 e, takes the sweep out of the front row and no correction helps.
    const skew = planJob({ ...all, setting: { skew: 0.5 } }, { trials: 1000 });
    const sweep = skew.methods.find(({ method }) => method === 'tilted-sweep');
    const form = sweep?.expectations.find(({ quantity }) => quantity === 'form');
    expect(sweep?.meets).toBe(false);
    expect(form?.limitedBy.input).toBe('skewSize');
    expect(form?.corrected).toEqual(form?.first);
    // 0.97 |e| of an even spread to 0.5 is below 0.2 in 0.2/0.483 = 41 %; 2000 trials scatter by 1.1 %.
    expect(Math.abs((form?.first.probability ?? 0) - 0.414)).toBeLessThan(0.06);
  });
});

describe('reasons', () => {
  const limits = (given: Job, method = 'tilted-sweep') =>
    planJob(given, { trials: 1000 }).methods.find((tried) => tried.method === method)?.limits ?? [];

  it('say what the table clamped the other way would need, where the head reaches that', () => {
    const ball: SphereTarget = { part: 'ball-on-stem', radius: 16, stemDiameter: 14 };
    // asin(14/32)/2 = 12.97 degrees from upright.
    const message = limits(job(ball)).find(({ code }) => code === 'tilt')?.message ?? '';
    expect(message).toMatch(
      /with the table flat this part needs 77\.0\d+°, with the table upright it needs 12\.97\d*°/,
    );
    const little = { ...mill, headTilt: { largestDeg: 10 } };
    const none = limits(job(ball, { mills: [little] })).find(({ code }) => code === 'tilt')?.message;
    expect(none).not.toContain('with the table upright');
  });

  it('keep a straight tool out of a socket past half a sphere', () => {
    const clearance = (depth: number) =>
      limits(job({ part: 'socket', radius: 15, depth })).find(({ code }) => code === 'clearance');
    // The rim of a socket 20 deep lies at acos(-1/3) = 109.471 degrees; the opening is 2 sqrt(15² - 5²) = 28.284.
    expect(clearance(20)).toMatchObject({ needed: expect.closeTo(109.4712, 4), available: 90, met: false });
    expect(clearance(15)).toBeUndefined();
    // A bar on the bottom of the sweep, square to the spindle's circle, against the rim: points of both in the plane.
    const rim = (109.4712 * Math.PI) / 180;
    const bar = (depthDeg: number): boolean => {
      const [tilt, edge] = [depthDeg / 2, depthDeg];
      // Beside the spindle's axis: the tip, and the rim on the far side of the work's axis.
      return 15 * Math.sin(tilt) > 15 * Math.sin(edge + tilt);
    };
    expect([bar(rim), bar(Math.PI / 2 - 0.01)]).toEqual([true, false]);
  });

  it('ask for stock as wide as the part', () => {
    const stock = (target: SphereTarget, stockDiameter: number, method = 'tilted-sweep') => {
      const given = job(target, { mills: [{ ...mill, ballCutters: [10] }] });
      return limits({ ...given, part: { ...given.part, stockDiameter } as Job['part'] }, method).find(
        ({ code }) => code === 'stock',
      );
    };
    const ball: SphereTarget = { part: 'ball-on-stem', radius: 16, stemDiameter: 14 };
    expect(stock(ball, 20)).toMatchObject({ needed: 32, available: 20, met: false });
    expect(stock(ball, 20, 'ball-cutter')).toMatchObject({ needed: 32, available: 20, met: false });
    expect(stock(ball, 32)?.met).toBe(true);
    // A dome of radius 200 and base 60 needs only its base, a socket only its opening: 2 sqrt(25² - 17²) = 36.66.
    expect(stock({ part: 'cap', radius: 200, baseDiameter: 60 }, 60)?.met).toBe(true);
    expect(stock({ part: 'socket', radius: 25, depth: 8 }, 36)).toMatchObject({
      needed: expect.closeTo(36.6606, 4),
      met: false,
    });
  });
});

describe('a headstock out of line with the bed', () => {
  const target: SphereTarget = { part: 'ball-on-stem', diameter: 50, stemDiameter: 25 };
  const lathe = { name: 'lathe', centreDistance: 500 };
  const turning = job(target, { mills: [], lathes: [{ ...lathe, slides: { step: 0.02, noseRadius: 2 } }] });
  const plan = planJob(turning, { trials: 1000 });
  const best = plan.methods.find(({ method }) => method === 'steps');
  const { leftover, steps } = (best?.settings ?? {}) as {
    leftover: number;
    steps: readonly { centreRadius: number; centreHeight: number }[];
  };
  /** Sphere through the centres of the tool's corner as the work sees them, its axis turned about a height; less the corner. */
  const inSpace = (planDeg: number, uprightDeg: number, height: number): { radius: number; form: number } => {
    const places = steps.map(({ centreRadius, centreHeight }) => ({
      ...turnedAt(height, { planDeg, uprightDeg }, [centreRadius, centreHeight]),
      weight: 1,
    }));
    const { radius, form } = sphereThrough(places.map((place) => ({ ...place, rho: Math.abs(place.rho) })));
    return { radius: radius - 2, form };
  };

  it('leaves a sphere stepped about its centre what it is, however the axis looks', () => {
    for (const [planDeg, uprightDeg] of [
      [3, 0],
      [0, 5],
      [-2, 4],
    ] as const) {
      const { radius, form } = inSpace(planDeg, uprightDeg, 0);
      expect(radius).toBeCloseTo(25, 12);
      expect(form).toBeLessThan(1e-12);
    }
  });

  it('turned in plan from the free end, moves the centre off the axis as an error of the zero does', () => {
    // 25 sin 0.02° = 0.0087 mm; what is left out is of the order of its square over the radius, 3e-6, and times the turn.
    for (const headstockPlanDeg of [0.02, -0.02]) {
      const cut = planSurface({ plan, method: plan.methods.indexOf(best as never), errors: { headstockPlanDeg } });
      const { radius, form } = inSpace(headstockPlanDeg, 0, 25);
      if (!('radius' in cut && 'formDeviation' in cut)) throw new Error('no steps');
      expect(Math.abs(cut.radius - 25)).toBeGreaterThan(0.005);
      expect(Math.abs(cut.radius - radius)).toBeLessThan(1e-5);
      expect(Math.abs(cut.formDeviation - leftover - form)).toBeLessThan(1e-5);
    }
    // Upright it moves by as much, at right angles to the cut: less than 0.0087²/50 on the radius.
    expect(Math.abs(inSpace(0, 0.02, 25).radius - 25)).toBeLessThan(1.6e-6);
  });

  it('is assumed where it acts, and only there', () => {
    const assumed = (given: Job): readonly string[] =>
      planJob(given, { trials: 1000 })
        .assumptions.map(({ path }) => path)
        .filter((path) => path.includes('headstock'));
    const [inPlan, upright] = ['setting.headstockPlanDeg', 'setting.headstockUprightDeg'];
    expect(assumed(turning)).toEqual([inPlan]);
    const swivelTool = { smallestRadius: 5, largestRadius: 60 };
    // A swing turned about its own centre is the same sphere, but the pole and the stem are missed.
    expect(assumed(job(target, { lathes: [{ ...lathe, swivelTool }] }))).toEqual([inPlan, upright]);
    const taper = (equipment: object): readonly string[] =>
      assumed({
        title: 'taper spigot',
        unit: 'mm',
        part: {
          kind: 'taper',
          taper: { oneIn: 20 },
          side: 'outside',
          largeDiameter: 30,
          length: 60,
          workLength: 200,
          largeEndAt: 120,
          headstockEnd: 'small',
          centreHoles: true,
          tolerance: { smallDiameter: 0.05 },
        },
        lathes: [{ ...lathe, ...equipment }],
      });
    expect(taper({ topSlide: { travel: 80 } })).toEqual([inPlan, upright]);
    const guideBar = { travel: 300, scale: { by: 'half-angle' }, largestHalfAngleDeg: 10 };
    expect(taper({ guideBar })).toEqual([inPlan, upright]);
    expect(taper({ tailstock: { setover: 12 } })).toEqual([]);
    const ball = { ballDiameter: 8, mouthDiameter: 10, holeAngleDeg: 60 };
    expect(taper({ ballCentres: { offset: 12, headstock: ball, tailstock: ball } })).toEqual([]);
  });
});
