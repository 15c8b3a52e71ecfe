/**
 * Taper jobs whose limits and ranking are worked out by hand here, from plane geometry alone: the numbers in the
 * comments can be checked with a pocket calculator.
 */
import { type Job, type Lathe, type MethodPlan, type Plan, planJob, type TaperPart } from 'generatrix';
import { describe, expect, it } from 'vitest';

const RAD = Math.PI / 180;

const PART: TaperPart = {
  kind: 'taper',
  taper: { halfAngleDeg: 5 },
  side: 'outside',
  largeDiameter: 40,
  length: 60,
  workLength: 300,
  largeEndAt: 200,
  headstockEnd: 'small',
  centreHoles: true,
  tolerance: { smallDiameter: 0.2 },
};

/** A seat in which the ball's centre stands in the end face: 10 mm ball, 60° hole of 20/√3 mm: (10 - m cos 30°)/1 = 0. */
const BALL = { ballDiameter: 10, mouthDiameter: 10 / Math.cos(30 * RAD), holeAngleDeg: 60 };

const LATHE: Lathe = {
  name: 'gap-bed lathe',
  centreDistance: 750,
  topSlide: { travel: 100 },
  guideBar: { travel: 250, scale: { by: 'half-angle' }, largestHalfAngleDeg: 10 },
  tailstock: { setover: 12 },
  ballCentres: { offset: 30, headstock: BALL, tailstock: BALL },
};

const plan = (part: Partial<TaperPart>, lathe: Partial<Lathe>, rest: Partial<Job> = {}): Plan =>
  planJob(
    { title: 'rudder pin', unit: 'mm', part: { ...PART, ...part }, lathes: [{ ...LATHE, ...lathe }], ...rest },
    { trials: 2000 },
  );

const of = ({ methods }: Plan, method: MethodPlan['method']): MethodPlan =>
  methods.find((one) => one.method === method) as MethodPlan;

/** Codes and numbers of the reasons why a method cannot do the job. */
const reasons = (all: Plan, method: MethodPlan['method']): unknown[] => {
  const { reaches, settings, probability, reasons } = of(all, method);
  expect({ reaches, settings, probability }).toEqual({ reaches: false, settings: null, probability: 0 });
  return reasons.map(({ code, values }) => [code, values]);
};
/** Last digits differ where a product is taken in another order. */
const near = (value: number): unknown => expect.closeTo(value, 9);

describe('a shoulder blocks the top slide', () => {
  // A flange of 90 mm stands 20 mm beyond the large end. The slide, swung by 5°, has its foremost point 45 mm ahead of
  // the tip and 15 mm back from it. With the tip at the large end (radius 20) that point stands
  // 45 cos 5° - 15 sin 5° = 44.829 - 1.307 = 43.521 beyond the end, and
  // 20 + 45 sin 5° + 15 cos 5° = 20 + 3.922 + 14.943 = 38.865 from the axis: inside the flange's 45. 43.5 > 20.
  const shoulders = [{ at: 'large', diameter: 90, gap: 20 }] as const;
  const nose = { ahead: 45, back: 15 };
  const beyond = 45 * Math.cos(5 * RAD) - 15 * Math.sin(5 * RAD);

  it('names the shoulder, with both numbers', () => {
    const blocked = plan({ shoulders }, { topSlide: { travel: 100, nose } });
    expect(beyond).toBeCloseTo(43.521, 3);
    expect(reasons(blocked, 'top-slide')).toEqual([['limit-shoulder', { needed: near(beyond), available: 20 }]]);
    expect(of(blocked, 'top-slide').reasons[0]?.message).toBe(
      "the slide's nose runs 43.521 mm beyond the taper, the shoulder at the large end stands 20 mm beyond it",
    );
    // The guide bar is the next easiest that reaches; the set-over would be 300 sin 5° = 26.15 > 12 at 5° > 3°.
    expect(blocked.methods.map(({ method, reaches }) => [method, reaches])).toEqual([
      ['guide-bar', true],
      ['ball-centres', true],
      ['form-tool', false],
      ['top-slide', false],
      ['set-over', false],
    ]);
    expect(blocked.best).toBe(0);
  });

  it('passes outside a flange that is lower than the nose stands, 77.7 mm here', () => {
    const radius = 20 + 45 * Math.sin(5 * RAD) + 15 * Math.cos(5 * RAD);
    const reach = (diameter: number): boolean =>
      of(plan({ shoulders: [{ at: 'large', diameter, gap: 20 }] }, { topSlide: { travel: 100, nose } }), 'top-slide')
        .reaches;
    expect([2 * radius - 0.01, 2 * radius + 0.01].map(reach)).toEqual([true, false]);
  });

  it('runs farther ahead, and lower, at the small end', () => {
    // Small end: radius 20 - 60 tan 5° = 14.751. 45 cos 5° + 15 sin 5° = 46.136 ahead;
    // 14.751 - 3.922 + 14.943 = 25.772 from the axis, so a flange of 52 mm is in the way.
    const ahead = 45 * Math.cos(5 * RAD) + 15 * Math.sin(5 * RAD);
    const at = (gap: number): Plan =>
      plan({ shoulders: [{ at: 'small', diameter: 52, gap }] }, { topSlide: { travel: 100, nose } });
    expect(reasons(at(46.1), 'top-slide')).toEqual([['limit-shoulder', { needed: near(ahead), available: 46.1 }]]);
    expect(of(at(46.2), 'top-slide').reaches).toBe(true);
  });

  it('stands in the way of every method if it is the tool post that meets it', () => {
    // The flange rises (90 - 40)/2 = 25 over the large end, the tool reaches 18: the post, 22 to each side, needs 22 > 20.
    const blocked = plan({ shoulders }, { toolPost: { halfWidth: 22, toolReach: 18 } });
    for (const method of ['top-slide', 'guide-bar', 'ball-centres'] as const) {
      expect(reasons(blocked, method)).toEqual([['limit-shoulder', { needed: 22, available: 20 }]]);
    }
    expect(of(plan({ shoulders }, { toolPost: { halfWidth: 22, toolReach: 25 } }), 'guide-bar').reaches).toBe(true);
  });
});

describe("the top slide's travel is too short", () => {
  it('needs the length of the side, not of the axis', () => {
    // 60 / cos 5° = 60.229: a slide of 60.2 is too short although the taper is only 60 long.
    const side = 60 / Math.cos(5 * RAD);
    const short = plan({}, { topSlide: { travel: 60.2 } });
    expect(reasons(short, 'top-slide')).toEqual([['limit-travel', { needed: near(side), available: 60.2 }]]);
    expect(of(plan({}, { topSlide: { travel: 60.24 } }), 'top-slide').reaches).toBe(true);
    expect(short.methods[short.best as number]?.method).toBe('guide-bar');
  });
});

describe('plain centres tilt too far', () => {
  it('compares the half angle with the 3° assumed, and says that it is assumed', () => {
    // 300 sin 5° = 26.147 fits a tailstock of 30; the tilt of 5° does not fit plain centres.
    const tilted = plan({}, { tailstock: { setover: 30 } });
    expect(reasons(tilted, 'set-over')).toEqual([['limit-tilt', { needed: near(5), available: 3 }]]);
    expect(tilted.assumptions).toContainEqual(
      expect.objectContaining({ path: 'lathes[0].largestCentreTiltDeg', value: 3 }),
    );
    const allowed = plan({}, { tailstock: { setover: 30 }, largestCentreTiltDeg: 5.5 });
    expect(of(allowed, 'set-over').reaches).toBe(true);
    expect(allowed.assumptions.map(({ path }) => path)).not.toContain('lathes[0].largestCentreTiltDeg');
  });

  it('gives both reasons where the tailstock does not move that far either', () => {
    const offset = 300 * Math.sin(5 * RAD);
    expect(reasons(plan({}, {}), 'set-over')).toEqual([
      ['limit-offset', { needed: near(offset), available: 12 }],
      ['limit-tilt', { needed: near(5), available: 3 }],
    ]);
  });

  it('lets balls tilt until the holder touches', () => {
    // The ball's centre lies in the work's face, so the edge of a holder 20 wide whose face lies 0.8 behind the centre
    // comes down on the work's face, 60 wide, at atan(0.8 / 10) = 4.574°.
    const holder = { faceDistance: 0.8, faceDiameter: 20 };
    const end = { ...BALL, faceDiameter: 60, holder };
    const limit = Math.atan(0.8 / 10) / RAD;
    const blocked = plan({}, { ballCentres: { offset: 30, headstock: end, tailstock: BALL } });
    expect(limit).toBeCloseTo(4.574, 3);
    const [reason] = of(blocked, 'ball-centres').reasons;
    expect(reason?.code).toBe('limit-tilt');
    expect(reason?.values['needed']).toBeCloseTo(5, 9);
    expect(reason?.values['available']).toBeCloseTo(limit, 6);
  });
});

describe('scales and dials end', () => {
  it.each([
    // 24 tan 5° = 2.0997 inches per foot; 250 sin 5° = 21.789 and 250 tan 5° = 21.872 at a radius of 250.
    [{ by: 'per-foot', to: 2 }, 24 * Math.tan(5 * RAD), 2],
    [{ by: 'included-angle', to: 9 }, 10, 9],
    [{ by: 'offset', radius: 250, radiusAlong: 'bar', to: 20 }, 250 * Math.sin(5 * RAD), 20],
    [{ by: 'offset', radius: 250, radiusAlong: 'bed', to: 21.8 }, 250 * Math.tan(5 * RAD), 21.8],
    [{ by: 'half-angle', from: 6 }, 5, 6],
  ] as const)('guide bar %j', (scale, needed, available) => {
    const bar = { travel: 250, scale, largestHalfAngleDeg: 10 };
    expect(reasons(plan({}, { guideBar: bar }), 'guide-bar')).toEqual([
      ['limit-angle', { needed: near(needed), available }],
    ]);
  });

  it('a slide that reads from across needs 85°; a dial on the diameter twice the offset', () => {
    const slide = { travel: 100, scale: { reads: 'from-across', toDeg: 60 } } as const;
    expect(reasons(plan({}, { topSlide: slide }), 'top-slide')).toEqual([
      ['limit-angle', { needed: near(85), available: 60 }],
    ]);
    const dial = { reads: 'diameter', to: 50 } as const;
    const balls = { offset: 30, dial, headstock: BALL, tailstock: BALL };
    expect(reasons(plan({}, { ballCentres: balls }), 'ball-centres')).toEqual([
      ['limit-offset', { needed: near(2 * 300 * Math.sin(5 * RAD)), available: 50 }],
    ]);
  });
});

describe('ranking', () => {
  // The diameter over 60 mm answers the slide's angle by 2 · 60 / cos² 5° · π/180 = 2.1104 mm per degree.
  const perDegree = (2 * 60 * RAD) / Math.cos(5 * RAD) ** 2;
  const exact = {
    topSlideDeg: 0,
    guideBarDeg: 0,
    toolHeight: 0,
    touchOff: 0,
    headstockPlanDeg: 0,
    headstockUprightDeg: 0,
    resettingFraction: 1,
  };
  const only = { tailstock: { setover: 0.1 }, ballCentres: { offset: 0.1, headstock: BALL, tailstock: BALL } };

  it('puts what meets the tolerance before what is easier', () => {
    // Slide ±0.2°: ±0.422 mm, evenly spread; within ±0.2 mm with 0.2/0.422 = 47 %. Bar ±0.05°: ±0.106 mm, always.
    const { methods, best } = plan({}, only, {
      setting: { ...exact, topSlideDeg: 0.2, guideBarDeg: 0.05 },
      measuring: { diameter: 0.5 },
    });
    expect(best).toBe(0);
    const [bar, slide] = methods as [MethodPlan, MethodPlan];
    expect([bar.method, bar.meets, bar.tries, bar.probability]).toEqual(['guide-bar', true, 1, 1]);
    expect([slide.method, slide.meets]).toEqual(['top-slide', false]);
    // 2000 trials: a standard deviation of √(0.47 · 0.53 / 2000) = 0.011; five of them.
    expect(slide.probability).toBeCloseTo(0.2 / (0.2 * perDegree), 1);
    expect(Math.abs(slide.probability - 1 / perDegree)).toBeLessThan(0.056);
    const first = slide.expectations[0]?.first;
    // The interval of 95 % of an even spread is 0.95 of its limits.
    expect(first?.high).toBeCloseTo(0.95 * 0.2 * perDegree, 2);
    expect(first?.low).toBeCloseTo(-0.95 * 0.2 * perDegree, 2);
    expect(slide.reasons[0]?.code).toBe('misses-tolerance');
  });

  it('goes by ease where several meet it, whoever is surer', () => {
    const { methods } = plan({}, only, { setting: { ...exact, topSlideDeg: 0.09, guideBarDeg: 0.001 } });
    expect(methods.slice(0, 2).map(({ method, meets }) => [method, meets])).toEqual([
      ['top-slide', true],
      ['guide-bar', true],
    ]);
  });

  it('promises a correction only where it helps', () => {
    // ±0.2° at first; set again ten times as well (±0.02°: ±0.042 mm) after measuring both ends to ±0.01 mm.
    const setting = { ...exact, topSlideDeg: 0.2, resettingFraction: 0.1 };
    const helped = of(plan({}, {}, { setting, measuring: { diameter: 0.01, length: 0 } }), 'top-slide');
    expect([helped.tries, helped.meets]).toEqual([2, true]);
    expect(helped.expectations[0]?.correctedLimitedBy?.input).toBe('zeroErrorDeg');
    // ±1 mm of measuring spoils what was better before.
    const spoilt = of(plan({}, {}, { setting, measuring: { diameter: 1, length: 0 } }), 'top-slide');
    expect([spoilt.tries, spoilt.meets]).toEqual([1, false]);
    expect(spoilt.expectations[0]?.correctedLimitedBy?.input).toMatch(/^measured(Large|Small)$/);
    expect(spoilt.reasons[0]?.message).toContain('after the first cut');
  });

  it('a lathe centre, a taper to a point, is a top slide job', () => {
    const point = { largeDiameter: 20, smallDiameter: 0, length: 10 / Math.tan(30 * RAD) };
    const { methods, best } = plan(
      { taper: point, largeDiameter: 20, length: point.length, tolerance: { halfAngleDeg: 0.2 } },
      { topSlide: { travel: 50 } },
    );
    expect(best).toBe(0);
    expect([methods[0]?.method, methods[0]?.meets]).toEqual(['top-slide', true]);
  });
});

describe('none can', () => {
  it('says what would have to change, the smallest change first', () => {
    // Top slide: 60.229 of side against 50: short by 1 - 50/60.229 = 17 %. Guide bar: 60 against 55, 8 %.
    // Set-over: 26.147 against 12 (54 %), tilt 5 against 3 (40 %): at worst 54 %. No balls here: no number.
    const none = plan(
      {},
      {
        topSlide: { travel: 50 },
        guideBar: { ...LATHE.guideBar, travel: 55 } as NonNullable<Lathe['guideBar']>,
        ballCentres: undefined as never,
      },
    );
    expect(none.best).toBeNull();
    expect(
      none.changes.map(({ method, limits, shortBy }) => [method, limits.map(({ code }) => code), shortBy]),
    ).toEqual([
      ['guide-bar', ['travel'], near(1 - 55 / 60)],
      ['top-slide', ['travel'], near(1 - (50 * Math.cos(5 * RAD)) / 60)],
      ['set-over', ['offset', 'tilt'], near(1 - 12 / (300 * Math.sin(5 * RAD)))],
      ['form-tool', ['equipment'], null],
      ['ball-centres', ['equipment'], null],
    ]);
    expect(plan({}, {}).changes).toEqual([]);
  });

  it('cannot bore between centres, nor hang a piece without centre holes', () => {
    for (const method of ['set-over', 'ball-centres'] as const) {
      const codes = (part: Partial<TaperPart>): string[] =>
        of(plan(part, { tailstock: { setover: 30 }, largestCentreTiltDeg: 6 }), method).reasons.map(({ code }) => code);
      expect(codes({ side: 'inside' })).toEqual(['limit-side']);
      expect(codes({ centreHoles: false })).toEqual(['limit-centres']);
      expect(codes({ workLength: 800, taper: { halfAngleDeg: 0.5 } })).toEqual(['limit-bed']);
    }
  });
});

it('an inch is 25.4 mm, and nothing else changes', () => {
  const LENGTHS =
    /^(travel|centreDistance|setover|offset|ahead|back|halfWidth|toolReach|step|from|to|gap|diameter|.*Diameter|length|workLength|largeEndAt|faceDistance|depth|toolHeight|touchOff)$/;
  const inInches = (value: unknown, key = ''): unknown => {
    if (typeof value === 'number') return LENGTHS.test(key) ? value / 25.4 : value;
    if (Array.isArray(value)) return value.map((item) => inInches(item));
    if (typeof value !== 'object' || value === null) return value;
    return Object.fromEntries(Object.entries(value).map(([name, item]) => [name, inInches(item, name)]));
  };
  const setting = {
    topSlideDeg: 0.1,
    guideBarDeg: 0.05,
    setover: 0.05,
    centreDistance: 0.5,
    toolHeight: 0.1,
    rollDeg: 1,
    touchOff: 0.02,
  };
  const job: Job = {
    title: 'rudder pin',
    unit: 'mm',
    part: {
      ...PART,
      shoulders: [{ at: 'large', diameter: 44, gap: 3 }],
      tolerance: { smallDiameter: 0.1, halfAngleDeg: 0.05 },
    },
    lathes: [{ ...LATHE, toolPost: { halfWidth: 20, toolReach: 25 } }],
    setting,
    measuring: { diameter: 0.01, length: 0.05 },
  };
  const [mm, inch] = [
    planJob(job, { trials: 2000 }),
    planJob({ ...(inInches(job) as Job), unit: 'in' }, { trials: 2000 }),
  ];
  expect(inch.best).toBe(mm.best);
  for (const [i, method] of mm.methods.entries()) {
    const other = inch.methods[i] as MethodPlan;
    expect([other.method, other.reaches, other.meets, other.tries]).toEqual([
      method.method,
      method.reaches,
      method.meets,
      method.tries,
    ]);
    // Only a trial within rounding of a tolerance could fall on the other side: none, or one in 2000.
    expect(Math.abs(other.probability - method.probability)).toBeLessThan(0.001);
    expect(other.reasons.map(({ code }) => code)).toEqual(method.reasons.map(({ code }) => code));
    for (const [k, expectation] of method.expectations.entries()) {
      const twin = other.expectations[k];
      const unit = expectation.quantity === 'half-angle' ? 1 : 25.4;
      for (const end of ['low', 'high', 'error'] as const) {
        expect((twin?.corrected[end] as number) * unit).toBeCloseTo(expectation.corrected[end], 9);
        expect((twin?.first[end] as number) * unit).toBeCloseTo(expectation.first[end], 9);
      }
    }
  }
  // What is assumed is round in the job's unit: a micrometer of 0.0005 in.
  const { assumptions } = planJob({ ...(inInches(job) as Job), unit: 'in', measuring: {} }, { trials: 2000 });
  expect(assumptions.find(({ path }) => path === 'measuring.diameter')?.value).toBe(0.0005);
});

it('assumes aloud only what the part and the machines have a use for', () => {
  const slideOnly = [{ name: 'gap-bed lathe', centreDistance: 750, topSlide: { travel: 100 } }];
  const job: Job = { title: 'rudder pin', unit: 'mm', part: PART, lathes: slideOnly };
  const paths = planJob(job, { trials: 2000 }).assumptions.map(({ path }) => path);
  // The slide is set by the best means at hand, and the indicator is what is assumed.
  expect(paths).toContain('shop.indicators[0].resolution');
  for (const key of [
    'topSlideDeg',
    'guideBarDeg',
    'setover',
    'rollDeg',
    'headTiltDeg',
    'skew',
    'swivelRadius',
    'position',
  ]) {
    expect(paths).not.toContain(`setting.${key}`);
  }
  expect(paths).not.toContain('lathes[0].largestCentreTiltDeg');
});
