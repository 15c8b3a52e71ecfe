/**
 * How a thing is set decides the plan: a shop described better is never predicted worse, at random; and examples
 * worked out by hand. The plans of a pair are simulated with the same draws, so that what is compared differs by less
 * than independent runs would: the share of parts that meet in one but not in the other scatters by at most
 * sqrt((p(1 - q) + q(1 - p))/n) (as if independent), of which five are allowed.
 */
import fc from 'fast-check';
import { type Job, type Lathe, type MethodPlan, type Mill, type Plan, planJob, planSteps, type Shop } from 'generatrix';
import { describe, expect, it } from 'vitest';

const RAD = Math.PI / 180;
const TRIALS = 2000;

const allowance = (p: number, q: number): number =>
  5 * Math.sqrt(Math.max(p * (1 - q) + q * (1 - p), 1 / TRIALS) / TRIALS);

type Change = (job: Job) => Job;

const onLathe =
  (change: (lathe: Lathe) => Partial<Lathe>): Change =>
  (job) => ({ ...job, lathes: (job.lathes ?? []).map((lathe) => ({ ...lathe, ...change(lathe) })) });
const onMill =
  (change: (mill: Mill) => Partial<Mill>): Change =>
  (job) => ({ ...job, mills: (job.mills ?? []).map((mill) => ({ ...mill, ...change(mill) })) });
const inShop =
  (change: (shop: Shop) => Shop): Change =>
  (job) => ({ ...job, shop: { ...job.shop, ...change(job.shop ?? {}) } });
const finer = (step: number | undefined, factor: number, first: number): number => (step ?? first) * factor;

/** Whatever tells more of a machine or makes something on it finer or longer; the factor is below 1. */
const MACHINE: Readonly<Record<string, (factor: number) => Change>> = {
  'slide scale': (f) =>
    onLathe(({ topSlide }) =>
      topSlide
        ? { topSlide: { ...topSlide, scale: { reads: 'from-axis', stepDeg: finer(topSlide.scale?.stepDeg, f, 1) } } }
        : {},
    ),
  'slide travel': (f) =>
    onLathe(({ topSlide }) => (topSlide ? { topSlide: { ...topSlide, travel: topSlide.travel / f } } : {})),
  'bar scale': (f) =>
    onLathe(({ guideBar }) =>
      guideBar
        ? { guideBar: { ...guideBar, scale: { ...guideBar.scale, step: finer(guideBar.scale.step, f, 0.5) } } }
        : {},
    ),
  'bar travel': (f) =>
    onLathe(({ guideBar }) => (guideBar ? { guideBar: { ...guideBar, travel: guideBar.travel / f } } : {})),
  'tailstock dial': (f) =>
    onLathe(({ tailstock }) =>
      tailstock
        ? { tailstock: { ...tailstock, dial: { reads: 'diameter', step: finer(tailstock.dial?.step, f, 0.2) } } }
        : {},
    ),
  'head scale': (f) =>
    onMill(({ headTilt }) => ({ headTilt: { ...headTilt, stepDeg: finer(headTilt.stepDeg, f, 2) } })),
  'boring head dial': (f) =>
    onMill(({ boringHead }) =>
      boringHead
        ? { boringHead: { ...boringHead, dial: { reads: 'diameter', step: finer(boringHead.dial.step, f, 0.1) } } }
        : {},
    ),
};

/** The same of the shop. */
const SHOP: Readonly<Record<string, (factor: number) => Change>> = {
  'an indicator': (f) =>
    inShop(({ indicators = [] }) => ({ indicators: [...indicators, { resolution: 0.02 * f, range: 10 }] })),
  'finer indicators': (f) =>
    inShop(({ indicators = [] }) => ({
      indicators: indicators.map(({ resolution, range }) => ({ resolution: resolution * f, range: range / f })),
    })),
  'a sine bar': (f) => inShop(({ sineBars = [] }) => ({ sineBars: [...sineBars, { length: 100 / f }] })),
  'finer estimates': (f) => inShop(({ estimatedParts = 4 }) => ({ estimatedParts: Math.min(20, estimatedParts / f) })),
  'smaller limits': (f) => (job) => ({
    ...job,
    setting: Object.fromEntries(
      Object.entries(job.setting ?? {}).map(([key, limit]) => [key, key === 'resettingFraction' ? limit : limit * f]),
    ),
    measuring: { diameter: 0.01 * f, length: 0.05 * f },
  }),
};

const SETTING = {
  formToolDeg: 0.2,
  centreDistance: 0.5,
  toolHeight: 0.1,
  touchOff: 0.02,
  headstockPlanDeg: 0.005,
  headstockUprightDeg: 0.01,
  sweepRadius: 0.02,
  miss: 0.03,
  skew: 0.03,
  position: 0.02,
  resettingFraction: 0.2,
};

const between = (min: number, max: number): fc.Arbitrary<number> => fc.double({ min, max, noNaN: true });
const SHOPS: fc.Arbitrary<Shop> = fc.record({
  indicators: fc.array(fc.record({ resolution: between(0.002, 0.02), range: between(1, 20) }), { maxLength: 1 }),
  sineBars: fc.array(fc.record({ length: between(100, 250) }), { maxLength: 1 }),
  estimatedParts: between(1, 5),
});
/** Limits that a job states win: some jobs state one. */
const STATED = fc.record({ topSlideDeg: between(0.005, 0.2), setover: between(0.01, 0.1) }, { requiredKeys: [] });

const TAPERS: fc.Arbitrary<Job> = fc
  .record({
    halfAngleDeg: fc.oneof(between(0.4, 3), between(3, 50)),
    largeDiameter: between(20, 80),
    part: between(0.1, 0.8),
    tight: between(0.01, 0.1),
    shop: SHOPS,
    stated: STATED,
  })
  .map(({ halfAngleDeg, largeDiameter, part, tight, shop, stated }) => {
    const length = Math.min(80, (part * largeDiameter) / (2 * Math.tan(halfAngleDeg * RAD)));
    return {
      title: 'spigot',
      unit: 'mm',
      part: {
        kind: 'taper',
        taper: { halfAngleDeg },
        side: 'outside',
        largeDiameter,
        length,
        workLength: length + 100,
        largeEndAt: length + 50,
        headstockEnd: 'small',
        centreHoles: true,
        tolerance: { smallDiameter: tight },
      },
      lathes: [
        {
          name: 'lathe',
          centreDistance: 1000,
          topSlide: { travel: 1.1 * (length / Math.cos(halfAngleDeg * RAD)) },
          guideBar: { travel: 100, scale: { by: 'half-angle' }, largestHalfAngleDeg: 15 },
          tailstock: { setover: 30 },
        },
      ],
      shop,
      setting: { ...SETTING, ...stated },
      measuring: { diameter: 0.01, length: 0.05 },
    };
  });

const SPHERES: fc.Arbitrary<Job> = fc
  .record({
    diameter: between(20, 80),
    stem: between(0.2, 0.9),
    table: fc.constantFrom('flat' as const, 'upright' as const),
    tight: between(0.01, 0.1),
    shop: SHOPS,
  })
  .map(({ diameter, stem, table, tight, shop }) => ({
    title: 'knob',
    unit: 'mm',
    part: {
      kind: 'sphere',
      target: { part: 'ball-on-stem', diameter, stemDiameter: stem * diameter },
      tolerance: { radius: tight, form: 3 * tight },
    },
    mills: [{ name: 'mill', table, headTilt: { largestDeg: 90 }, boringHead: { dial: { reads: 'diameter' } } }],
    shop,
    setting: SETTING,
    measuring: { diameter: 0.01, length: 0.05 },
  }));

const planned = (job: Job): Plan => planJob(job, { trials: TRIALS });
const rank = ({ methods }: Plan, method: string): number => methods.findIndex((one) => one.method === method);

/** A method in a shop that is described better. */
function noWorse(a: MethodPlan, b: MethodPlan, what: string): void {
  expect(a.reaches && !b.reaches, what).toBe(false);
  if (!a.reaches) return;
  // Exactly: what is set is set as well, and changed as well.
  expect(b.means?.limit ?? 0, what).toBeLessThanOrEqual((a.means?.limit ?? 0) * (1 + 1e-12));
  expect(b.means?.change ?? 0, what).toBeLessThanOrEqual((a.means?.change ?? 0) * (1 + 1e-12));
  a.expectations.forEach((before, i) => {
    for (const when of ['first', 'corrected'] as const) {
      const [p, q] = [before[when].probability, b.expectations[i]?.[when].probability ?? 0];
      expect(q, `${what}: ${before.quantity}, ${when}`).toBeGreaterThanOrEqual(p - allowance(p, q));
    }
  });
  // As many tries as before, or fewer: then the promise is that of fewer.
  const room = allowance(a.probability, b.probability);
  if (a.meets) expect(b.probability, what).toBeGreaterThanOrEqual(0.95 - room);
  if (a.tries <= b.tries) expect(b.probability, what).toBeGreaterThanOrEqual(a.probability - room);
}

function holds(jobs: fc.Arbitrary<Job>, seed: number): void {
  const all = Object.entries({ ...MACHINE, ...SHOP });
  const change = fc.record({ which: fc.nat(all.length - 1), factor: between(0.2, 0.9) });
  fc.assert(
    fc.property(jobs, fc.array(change, { minLength: 4, maxLength: 4 }), (start, changes) => {
      let job = start;
      let before = planned(job);
      for (const { which, factor } of changes) {
        const [name, better] = all[which] as (typeof all)[number];
        job = better(factor)(job);
        const after = planned(job);
        for (const a of before.methods) {
          const b = after.methods.find(({ method }) => method === a.method) as MethodPlan;
          noWorse(a, b, `${name} ${factor}: ${a.method}`);
          // What is told of one machine's one control leaves the others as they are: its method does not fall behind.
          if (name in MACHINE && b.probability >= a.probability && b.tries <= a.tries) {
            const moved = after.methods
              .filter((one) => one.method !== a.method)
              .some((one) => {
                const old = before.methods.find(({ method }) => method === one.method);
                return JSON.stringify(old) !== JSON.stringify(one);
              });
            if (!moved) expect(rank(after, a.method), name).toBeLessThanOrEqual(rank(before, a.method));
          }
        }
        // Whoever could be promised a part still is, but for parts at the very edge.
        const [best, was] = [after.methods[0], before.methods[0]];
        if (was?.meets) expect(best?.probability).toBeGreaterThanOrEqual(0.95 - allowance(0.95, 0.95));
        before = after;
      }
    }),
    { seed, numRuns: 40 },
  );
}

describe('a shop described better is never predicted worse', () => {
  it('for tapers', () => holds(TAPERS, 20_261_125), 60_000);
  it('for spheres on a mill', () => holds(SPHERES, 20_261_126), 60_000);
});

/** Probability that two even errors, ± a and ± b, stay within a limit that their sum passes by less than twice the smaller. */
const two = (a: number, b: number, limit: number): number => 1 - Math.max(0, a + b - limit) ** 2 / (4 * a * b);
/** The same for three, less than twice the least beyond the limit: the corner cut off a box. */
const three = (a: number, b: number, c: number, limit: number): number =>
  1 - Math.max(0, a + b + c - limit) ** 3 / (24 * a * b * c);

const of = ({ methods }: Plan, method: MethodPlan['method']): MethodPlan =>
  methods.find((one) => one.method === method) as MethodPlan;

/** 20,000 parts scatter by at most 0.0035; five of these, and what the tool's height adds. */
const CLOSE = 0.02;

describe('a nose of 1 inch at 5/8 per foot, 2 long, ± 0.0015 on the small end, held in a chuck', () => {
  const slide = { travel: 3.5 };
  const scale = { reads: 'from-axis', stepDeg: 1 } as const;
  const plan = (topSlide: Lathe['topSlide'] & object, rest: Partial<Job> = {}): MethodPlan =>
    of(
      planJob({
        title: 'nose',
        unit: 'in',
        part: {
          kind: 'taper',
          taper: { perFoot: 0.625 },
          side: 'outside',
          largeDiameter: 1,
          length: 2,
          workLength: 6,
          largeEndAt: 4,
          headstockEnd: 'small',
          centreHoles: false,
          tolerance: { smallDiameter: 0.0015 },
        },
        lathes: [{ name: 'lathe', centreDistance: 24, topSlide }],
        ...rest,
      }),
      'top-slide',
    );

  // tan α = 5/8/24, α = 1.4918°. An indicator by half thousandths shows ± 0.00025 and errs by ± 0.0005; over 3.5 in
  // of the slide (set to 0.02 mm, which does nothing at 1.5°): 0.000323/3.5 = 9.22e-5; 2° askew adds 5e-6 twice:
  // 9.25e-5 · √3 = 1.60e-4 rad, 0.0092°. Over 2 in of taper the diameter answers by 4 · 1.60e-4 = ± 0.00064;
  // the large end is touched off to ± 0.001: together within 0.0015 with 1 - 0.00014²/(4 · 0.00064 · 0.001) = 99.2 %.
  const byNeedle = two(4 * 1.6e-4, 0.001, 0.0015);

  it('is set by an indicator, scale or not', () => {
    const [without, withScale] = [plan(slide), plan({ ...slide, scale })];
    expect(byNeedle).toBeCloseTo(0.992, 3);
    for (const one of [without, withScale]) {
      expect([one.means?.code, one.meets, one.tries]).toEqual(['indicator', true, 1]);
      expect((one.means?.limit ?? 0) * RAD).toBeCloseTo(1.6e-4, 6);
      expect(Math.abs(one.probability - byNeedle)).toBeLessThan(CLOSE);
    }
    // The scale only brings it nearer beforehand.
    const { near: _near, ...means } = without.means as NonNullable<typeof without.means>;
    expect(withScale).toEqual({ ...without, means: expect.objectContaining(means) });
    expect(withScale.means?.message).toBe('by an indicator over 3.5 in: ± 0.0092°');
  });

  it('without an indicator by the scale, estimated between its marks: a machinist would not promise it', () => {
    // A quarter of a degree is seen, ± 1/8°; marks and zero ± 2′ each: sqrt(7.5² + 2² + 2²) = 8.0′ = 2.33e-3 rad,
    // ± 0.0093 on the diameter, evenly; the touching off hardly changes how much of that lies within 0.0015: 16 %.
    const { means, meets, expectations } = plan({ ...slide, scale }, { shop: { indicators: [] } });
    expect([means?.code, meets]).toEqual(['scale', false]);
    expect((means?.limit ?? 0) * 60).toBeCloseTo(Math.sqrt(7.5 ** 2 + 8), 6);
    expect(Math.abs((expectations[0]?.first.probability ?? 0) - 0.0015 / 0.0093)).toBeLessThan(CLOSE);
  });

  it('takes a limit that the job states, whatever the shop has', () => {
    // ± 0.005° is 8.7e-5 rad, ± 0.00035 on the diameter; the headstock's ± 0.005° counts as much again.
    const stated = plan({ ...slide, scale }, { setting: { topSlideDeg: 0.005 } });
    expect([stated.means?.code, stated.means?.limit]).toEqual(['stated', 0.005]);
    const per = 4 * 0.005 * RAD;
    expect(Math.abs(stated.probability - three(per, per, 0.001, 0.0015))).toBeLessThan(CLOSE);
  });
});

describe('other parts in the chuck, a slide of 80 with a scale of 1°', () => {
  const plan = (part: Partial<Job['part']>, shop?: Shop): Plan =>
    planJob({
      title: 'socket or nose',
      unit: 'mm',
      part: {
        kind: 'taper',
        side: 'inside',
        workLength: 120,
        largeEndAt: 100,
        headstockEnd: 'small',
        centreHoles: false,
        ...part,
      } as Job['part'],
      lathes: [
        { name: 'lathe', centreDistance: 500, topSlide: { travel: 80, scale: { reads: 'from-axis', stepDeg: 1 } } },
      ],
      ...(shop && { shop }),
    });

  it('a bore 1 : 10, 40 deep, ± 0.02: what is touched off rules, not the slide', () => {
    // 0.0112/√3/80 = 8.1e-5, askew 2 · 1e-5: ± 1.42e-4 rad, ± 0.0114 on the diameter beside ± 0.02 of touching off.
    const bore = of(
      plan({ taper: { oneIn: 10 }, largeDiameter: 30, length: 40, tolerance: { smallDiameter: 0.02 } } as never),
      'top-slide',
    );
    expect(bore.means?.code).toBe('indicator');
    expect((bore.means?.limit ?? 0) * RAD).toBeCloseTo(1.42e-4, 6);
    expect(Math.abs(bore.probability - two(0.0114, 0.02, 0.02))).toBeLessThan(CLOSE);
    expect(bore.expectations[0]?.limitedBy.input).toBe('touchOffError');
  });

  it('a socket Morse 2, ± 0.012° on the half angle: always', () => {
    // 1.4307°: ± 1.40e-4 rad = ± 0.0080°.
    const socket = of(
      plan({
        taper: { standard: 'morse-2' },
        largeDiameter: 17.78,
        length: 60,
        tolerance: { halfAngleDeg: 0.012 },
      } as never),
      'top-slide',
    );
    expect(socket.means?.limit).toBeCloseTo(0.008, 3);
    expect([socket.meets, socket.tries]).toEqual([true, 1]);
    expect(socket.probability).toBeGreaterThan(0.999);
  });

  it('a nose 7 : 24, ± 0.012°: by the needle as well, by a sine bar better, and the steps go by it', () => {
    const nose = {
      side: 'outside',
      taper: { oneIn: 24 / 7 },
      largeDiameter: 44.45,
      length: 65,
      tolerance: { halfAngleDeg: 0.012 },
    } as never;
    const needle = plan(nose);
    expect(of(needle, 'top-slide').means?.code).toBe('indicator');
    expect([of(needle, 'top-slide').meets, of(needle, 'top-slide').tries]).toEqual([true, 1]);
    const codes = (all: Plan): string[] => planSteps({ plan: all }).map(({ code }) => code);
    expect(codes(needle)).toContain('indicator');
    expect(codes(needle)).not.toContain('sine-bar');
    // 100 sin 8.2971° = 14.431.
    const bar = plan(nose, { sineBars: [{ length: 100 }] });
    expect(of(bar, 'top-slide').means?.code).toBe('sine-bar');
    expect(of(bar, 'top-slide').means?.limit ?? 1).toBeLessThan((of(needle, 'top-slide').means?.limit ?? 0) / 2);
    expect(codes(bar)).not.toContain('indicator');
    expect(planSteps({ plan: bar }).find(({ code }) => code === 'sine-bar')?.text).toContain(
      '14.431 mm of gauge blocks',
    );
  });
});

describe('a guide bar against the tailstock set over: 1 : 20 over 100 of a work of 300', () => {
  // The bar by an indicator over its 200: 0.00646/200 = 3.23e-5, askew 5e-6 twice: ± 5.7e-5 rad, 2 · 100 · 5.7e-5 =
  // ± 0.0114 on the diameter; touching off ± 0.02. The tailstock by the same indicator, ± 0.0112 with its zero ± 0.01:
  // ± 0.015, of which 2 · 100/300 reach the diameter, ± 0.010; and 300 taken with a rule, ± 0.5: 2 · 100 · 0.025 ·
  // 0.5/300 = ± 0.0083. So a machinist takes the bar: fewer things to be wrong, and no long work hung between centres.
  const plan = (smallDiameter: number, scale: object): Plan =>
    planJob({
      title: 'long taper',
      unit: 'mm',
      part: {
        kind: 'taper',
        taper: { oneIn: 20 },
        side: 'outside',
        largeDiameter: 30,
        length: 100,
        workLength: 300,
        largeEndAt: 200,
        headstockEnd: 'small',
        centreHoles: true,
        tolerance: { smallDiameter },
      },
      lathes: [
        {
          name: 'lathe',
          centreDistance: 500,
          guideBar: { travel: 200, scale: { by: 'per-foot', ...scale }, largestHalfAngleDeg: 10 },
          tailstock: { setover: 15 },
        },
      ],
      setting: { centreDistance: 0.5 },
    });
  const [bar, over] = [
    (limit: number) => two(0.0114, 0.02, limit),
    (limit: number) => three(0.01, 0.0083, 0.02, limit),
  ];

  it.each([{}, { step: 1 / 16 }])('the bar comes first, whatever its scale: %o', (scale) => {
    for (const limit of [0.03, 0.0255]) {
      const both = plan(limit, scale);
      expect(both.methods[0]?.method).toBe('guide-bar');
      expect(Math.abs((of(both, 'guide-bar').expectations[0]?.first.probability ?? 0) - bar(limit))).toBeLessThan(
        CLOSE,
      );
      expect(Math.abs((of(both, 'set-over').expectations[0]?.first.probability ?? 0) - over(limit))).toBeLessThan(
        CLOSE,
      );
      expect(bar(limit)).toBeGreaterThan(over(limit));
    }
    // ± 0.0255 can be promised of the bar, not of the set-over.
    expect([bar(0.0255) > 0.95, over(0.0255) > 0.95]).toEqual([true, false]);
  });
});

describe('a head to tilt', () => {
  // A ball on a stem of s D leans by asin(s)/2 from level with the table upright, by as much less than 90° with it flat.
  const plan = (stem: number, table: Mill['table'], shop: Shop, stepDeg?: number): MethodPlan =>
    of(
      planJob(
        {
          title: 'knob',
          unit: 'mm',
          part: {
            kind: 'sphere',
            target: { part: 'ball-on-stem', diameter: 40, stemDiameter: 40 * stem },
            tolerance: { radius: 0.05 },
          },
          mills: [
            {
              name: 'mill',
              table,
              headTilt: { largestDeg: 90, ...(stepDeg !== undefined && { stepDeg }) },
              boringHead: { dial: { reads: 'diameter' } },
            },
          ],
          shop,
        },
        { trials: 1000 },
      ),
      'tilted-sweep',
    );

  it('goes by the face that the needle is not blind on, near 0° as near 90°', () => {
    // 0.1 leans by 2.87°: along the quill over 50, 0.00648/50/cos 2.87° = 1.298e-4; 2° askew adds 0.91e-5 and
    // 1.02e-5: 1.305e-4 · √3 = 2.26e-4 rad = 0.01295°.
    for (const [table, code] of [
      ['upright', 'indicator'],
      ['flat', 'indicator-on-face'],
    ] as const) {
      const { means } = plan(0.1, table, {}, 1);
      expect([means?.code, means?.values['travel']]).toEqual([code, 50]);
      expect(means?.limit).toBeCloseTo(0.01295, 5);
    }
  });

  it('by a sine bar where neither sees much, and never worse than a fine scale', () => {
    // 1 leans by 45°: 10 of the plunger are spent on 14 of the quill, 3.6 minutes and more.
    const steep = 0.9999;
    const needle = plan(steep, 'upright', {});
    expect(needle.means?.limit ?? 0).toBeGreaterThan(0.1);
    expect(plan(steep, 'upright', { sineBars: [{ length: 100 }] }).means?.code).toBe('sine-bar');
    // Twelfths of a degree, seen to a quarter: 0.625′, with 2′ and 2′: 2.9′ = 0.048°.
    const vernier = plan(steep, 'upright', {}, 1 / 12);
    expect(vernier.means?.code).toBe('scale');
    expect(vernier.means?.limit).toBeCloseTo(0.048, 3);
  });
});

it('by trial: two diameters 50 apart along the flank, ± 0.005 each, ± 0.02 apart, and a change to 0.005 in 100', () => {
  const next = ((state: number) => () => {
    state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0;
    return state / 2 ** 31 - 1;
  })(7);
  // Minutes to two digits, from a separate simulation of two million draws (JCGM 101:2008, 7).
  for (const [deg, minutes] of [
    [1.5, 0.17],
    [15, 0.27],
    [45, 0.58],
    [60, 0.7],
  ] as const) {
    const length = 50 * Math.cos(deg * RAD);
    const move = 0.005 / 100 / RAD;
    const { expectations } = of(
      planJob({
        title: 'trial',
        unit: 'mm',
        part: {
          kind: 'taper',
          taper: { halfAngleDeg: deg },
          side: 'outside',
          largeDiameter: 150,
          length,
          workLength: 200,
          largeEndAt: 150,
          headstockEnd: 'small',
          centreHoles: false,
          tolerance: { halfAngleDeg: 1 },
        },
        lathes: [{ name: 'lathe', centreDistance: 500, topSlide: { travel: 60 } }],
        setting: {
          ...SETTING,
          touchOff: 0,
          toolHeight: 0,
          headstockPlanDeg: 0,
          headstockUprightDeg: 0,
          topSlideDeg: 5 * move,
          resettingFraction: 0.2,
        },
        measuring: { diameter: 0.005, length: 0.02 },
      }),
      'top-slide',
    );
    const errors = Array.from({ length: 50_000 }, () => {
      const [large, apart] = [0.005 * next() - 0.005 * next(), 0.02 * next()];
      const found = Math.atan((2 * length * Math.tan(deg * RAD) + large) / 2 / (length + apart)) / RAD;
      return deg - found + move * next();
    });
    const deviation = Math.sqrt(errors.reduce((sum, error) => sum + error * error, 0) / errors.length);
    // Half a unit of the last digit, and what 50,000 draws scatter.
    expect(Math.abs(60 * deviation - minutes)).toBeLessThan(0.005 + 0.01 * minutes);
    // 95 of 100 lie within 0.95 √3 = 1.65 standard deviations if one even error rules, within 1.96 if many do.
    const { low, high } = expectations[0]?.corrected ?? { low: 0, high: 0 };
    expect((high - low) / 2 / deviation).toBeGreaterThan(1.63);
    expect((high - low) / 2 / deviation).toBeLessThan(2);
  }
});
