/**
 * Predictions against machinings. Of 2000 parts cut in space with all settings off by their own errors, evenly
 * spread between the stated limits, the stated 95 % interval must hold 93 to 97 %; by chance alone 95 % of
 * 2000 scatter by 0.5 %, of the short run's fewer parts by more. The share that meets its tolerance must be the one
 * promised, at the first cut and after a correction from measurements that are themselves off: 4 standard deviations
 * are allowed.
 */
import { describe, expect, it } from 'vitest';
import { type Job, type MethodName, type MethodPlan, planJob } from '../../src/plan/index.js';
import { type SphereTarget, sphereShape, sweepCorrection, swivelCorrection } from '../../src/sphere/index.js';
import { runs } from '../oracle/seed.js';
import {
  across,
  aslant,
  type Corner,
  errors,
  type Lie,
  openingAndDepth,
  type Place,
  setOverRadius,
  sphereThrough,
  steppedPlaces,
  straightRadius,
  sweepPlaces,
  swivelPlaces,
  turnedAt,
  type Within,
} from './machinings.js';

const PARTS = runs(2000, 500);

/** One part as first cut and after one correction, by quantity. */
type Machining = Readonly<Record<string, readonly [first: number, corrected: number]>>;

const setting = {
  topSlideDeg: 0.1,
  guideBarDeg: 0.05,
  formToolDeg: 0.2,
  setover: 0.05,
  centreDistance: 0.5,
  toolHeight: 0.4,
  rollDeg: 2,
  touchOff: 0.02,
  headstockPlanDeg: 0.03,
  headstockUprightDeg: 0.05,
  headTiltDeg: 0.1,
  sweepRadius: 0.02,
  miss: 0.05,
  skew: 0.05,
  swivelRadius: 0.05,
  swivelOffset: 0.05,
  position: 0.02,
  resettingFraction: 0.2,
};
const EQUIPMENT = [
  'topSlide',
  'guideBar',
  'formTool',
  'tailstock',
  'ballCentres',
  'swivelTool',
  'slides',
  'boringHead',
  'ballCutters',
];
const measuring = { diameter: 0.01, length: 0.05 };

/** A headstock as it may stand. */
function lies(within: Within): Lie {
  return { planDeg: within(setting.headstockPlanDeg), uprightDeg: within(setting.headstockUprightDeg) };
}

/** Judges so many machinings by what the plan said. */
function judge(plan: MethodPlan, wanted: Readonly<Record<string, number>>, cut: (within: Within) => Machining): void {
  expect(plan.reaches).toBe(true);
  const within = errors(20_261);
  const parts = Array.from({ length: PARTS }, () => cut(within));
  const share = (meets: (part: Machining) => boolean): number => parts.filter(meets).length / PARTS;
  const slack = (p: number): number => 4 * Math.sqrt(Math.max(p * (1 - p), 1 / PARTS) / PARTS);
  // 0.02 with 2000 parts: 4.1 standard deviations of the share, as many with fewer.
  const scatter = 0.02 * Math.sqrt(2000 / PARTS);
  for (const { quantity, tolerance, first, corrected } of plan.expectations) {
    [first, corrected].forEach((said, when) => {
      const error = (part: Machining): number =>
        (part[quantity]?.[when] ?? Number.NaN) - (wanted[quantity] ?? Number.NaN);
      const held = share((part) => error(part) >= said.low && error(part) <= said.high);
      expect(held, `${plan.method} ${quantity} ${when}: interval`).toBeGreaterThanOrEqual(0.95 - scatter);
      expect(held, `${plan.method} ${quantity} ${when}: interval`).toBeLessThanOrEqual(0.95 + scatter);
      const met = share((part) => Math.abs(error(part)) <= tolerance);
      expect(
        Math.abs(met - said.probability),
        `${plan.method} ${quantity} ${when}: promise ${said.probability}, kept ${met}`,
      ).toBeLessThanOrEqual(slack(said.probability));
    });
  }
  // All tolerances at once, in as many cuts as promised.
  const last = plan.tries - 1;
  const good = share((part) =>
    plan.expectations.every(
      ({ quantity, tolerance }) =>
        Math.abs((part[quantity]?.[last] ?? Number.NaN) - (wanted[quantity] ?? Number.NaN)) <= tolerance,
    ),
  );
  expect(good, `${plan.method}: all in ${plan.tries}`).toBeGreaterThanOrEqual(
    plan.probability - slack(plan.probability),
  );
}

/** The plan of one method; machines are cut down to what it needs, for the sake of time. */
function planOf(job: Job, method: MethodName, equipment: string): MethodPlan {
  const bare = <T extends object>(machine: T): T =>
    Object.fromEntries(
      Object.entries(machine).filter(
        ([key, value]) => key === equipment || !EQUIPMENT.includes(key) || value === undefined,
      ),
    ) as T;
  const only = { ...job, lathes: (job.lathes ?? []).map(bare), mills: (job.mills ?? []).map(bare) };
  const found = planJob(only).methods.find((plan) => plan.method === method);
  if (!found) throw new Error(`no plan for ${method}`);
  return found;
}

describe('tapers', () => {
  const [large, length, workLength, largeEndAt] = [30, 60, 200, 120];
  const halfAngle = Math.atan(1 / 40);
  const small = large - 2 * length * Math.tan(halfAngle);
  const wanted = { 'small-diameter': small, 'half-angle': (halfAngle * 180) / Math.PI };
  const job: Job = {
    title: 'taper spigot',
    unit: 'mm',
    part: {
      kind: 'taper',
      taper: { oneIn: 20 },
      side: 'outside',
      largeDiameter: large,
      length,
      workLength,
      largeEndAt,
      headstockEnd: 'small',
      centreHoles: true,
      tolerance: { smallDiameter: 0.03, halfAngleDeg: 0.012 },
    },
    lathes: [
      {
        name: 'lathe',
        centreDistance: 500,
        topSlide: { travel: 80 },
        formTool: { width: 65, largestWidth: 62 },
        guideBar: { travel: 300, scale: { by: 'half-angle' }, largestHalfAngleDeg: 10 },
        tailstock: { setover: 12 },
        ballCentres: {
          offset: 12,
          headstock: { ballDiameter: 8, mouthDiameter: 10, holeAngleDeg: 60 },
          tailstock: { ballDiameter: 8, mouthDiameter: 10, holeAngleDeg: 60 },
        },
      },
    ],
    setting,
    measuring,
  };

  /** The half angle that the end diameters make, in radians. */
  const between = (d: number, D: number, apart = length): number => Math.atan((D - d) / 2 / apart);

  /** Two cuts: `cut` gives the small diameter for a change of the half angle asked for, in radians, and a diameter touched off. */
  function twice(within: Within, cut: (change: number, start: number) => number): Machining {
    const touched = (): number => large + within(setting.touchOff);
    const start = touched();
    const first = cut(0, start);
    const found = between(
      first + within(measuring.diameter),
      start + within(measuring.diameter),
      length + within(measuring.length),
    );
    const again = touched();
    const second = cut(halfAngle - found, again);
    const angles = [between(first, start), between(second, again)].map((rad) => (rad * 180) / Math.PI) as [
      number,
      number,
    ];
    return { 'small-diameter': [first, second], 'half-angle': angles };
  }

  it.each([
    ['top-slide', 'topSlide', setting.topSlideDeg],
    ['guide-bar', 'guideBar', setting.guideBarDeg],
    ['form-tool', 'formTool', setting.formToolDeg],
  ] as const)('%s', (method, equipment, limit) => {
    judge(planOf(job, method, equipment), wanted, (within) => {
      const height = within(setting.toolHeight);
      // A form tool's edge is set by a protractor from a face of the work itself, wherever the spindle looks.
      const lie = method === 'form-tool' ? { planDeg: 0, uprightDeg: 0 } : lies(within);
      let angle = (halfAngle * 180) / Math.PI + within(limit);
      return twice(within, (change, start) => {
        if (change !== 0) angle += (change * 180) / Math.PI + within(limit * setting.resettingFraction);
        return 2 * straightRadius(angle, height, start / 2, length, lie);
      });
    });
  });

  it.each([
    ['set-over', 'tailstock', 0],
    ['ball-centres', 'ballCentres', setting.rollDeg],
  ] as const)('%s', (method, equipment, roll) => {
    const plan = planOf(job, method, equipment);
    const { centreDistance = workLength, offset } = plan.settings as { centreDistance?: number; offset: number };
    expect(Math.asin(offset / centreDistance)).toBeCloseTo(halfAngle, 12);
    judge(plan, wanted, (within) => {
      let set = offset + within(setting.setover);
      const stays = {
        centreDistance: centreDistance + within(setting.centreDistance),
        rollDeg: within(roll),
        toolHeight: within(setting.toolHeight),
        towards: -1 as const,
      };
      return twice(within, (change, start) => {
        if (change !== 0)
          set +=
            centreDistance * Math.sin(change) * Math.cos(halfAngle) +
            within(setting.setover * setting.resettingFraction);
        const touched = { at: largeEndAt, radius: start / 2 };
        return 2 * setOverRadius({ ...stays, offset: set }, touched, largeEndAt - length);
      });
    });
  });
});

describe('spheres', () => {
  const ball: SphereTarget = { part: 'ball-on-stem', diameter: 50, stemDiameter: 25 };
  const socket: SphereTarget = { part: 'socket', radius: 30, depth: 20 };
  const jobFor = (target: SphereTarget, tolerance: { radius: number; form: number }): Job => ({
    title: 'ball or socket',
    unit: 'mm',
    part: { kind: 'sphere', target, tolerance },
    lathes: [
      {
        name: 'lathe',
        centreDistance: 500,
        swivelTool: { smallestRadius: 5, largestRadius: 60 },
        slides: { step: 0.02, noseRadius: 2 },
      },
    ],
    mills: [
      {
        name: 'mill',
        table: 'flat',
        headTilt: { largestDeg: 90 },
        boringHead: { dial: { reads: 'diameter' } },
        ballCutters: [10],
      },
    ],
    setting,
    measuring,
  });

  /** The radius as it is measured: across a ball, from opening and depth of a socket. */
  function measured(places: readonly Place[], target: SphereTarget, within: Within): number {
    if (target === ball) return (across(places) + within(measuring.diameter)) / 2;
    const { opening, depth } = openingAndDepth(places, sphereShape(target).toHeight);
    const [s, t] = [(opening + within(measuring.diameter)) / 2, depth + within(measuring.length)];
    return (s * s + t * t) / (2 * t);
  }

  it.each([
    [ball, { radius: 0.03, form: 0.04 }],
    [socket, { radius: 0.06, form: 0.03 }],
  ])('tilted sweep of %o', (target, tolerance) => {
    const plan = planOf(jobFor(target, tolerance), 'tilted-sweep', 'boringHead');
    const { side, radius } = sphereShape(target);
    const { sweep } = plan.settings as { sweep: { tiltDeg: number; sweepRadius: number; distance: number } };
    judge(plan, { radius, form: 0 }, (within) => {
      const tiltDeg = sweep.tiltDeg + within(setting.headTiltDeg);
      const sweepRadius = sweep.sweepRadius + within(setting.sweepRadius);
      // The tip set over the centre but for a miss.
      const set = {
        tiltDeg,
        sweepRadius,
        distance: sweepRadius / Math.tan((tiltDeg / 180) * Math.PI),
        miss: within(setting.miss),
        skew: within(setting.skew),
      };
      const places = sweepPlaces(set, side);
      const change = sweepCorrection({ target, sweep, measuredDiameter: 2 * measured(places, target, within) });
      const again = sweepPlaces(
        {
          ...set,
          sweepRadius: sweepRadius + change.sweepRadiusChange + within(setting.sweepRadius * setting.resettingFraction),
          miss: set.miss + change.sidewaysChange + within(setting.miss * setting.resettingFraction),
        },
        side,
      );
      const [first, second] = [sphereThrough(places), sphereThrough(again)];
      return { radius: [first.radius, second.radius], form: [first.form, second.form] };
    });
  });

  it.each([
    [ball, { radius: 0.05, form: 0.03 }],
    [socket, { radius: 0.08, form: 0.015 }],
  ])('swivelling tool on %o', (target, tolerance) => {
    const plan = planOf(jobFor(target, tolerance), 'swivel-tool', 'swivelTool');
    const { radius, fromDeg, toDeg } = sphereShape(target);
    judge(plan, { radius, form: 0 }, (within) => {
      const [swing, offset, height] = [
        radius + within(setting.swivelRadius),
        within(setting.swivelOffset),
        within(setting.toolHeight),
      ];
      const lie = lies(within);
      const cut = (r: number, e: number): Place[] => swivelPlaces(r, e, height, fromDeg, toDeg, lie);
      const places = cut(swing, offset);
      const change =
        target === ball
          ? swivelCorrection({
              radius,
              diameterAcross: across(places) + within(measuring.diameter),
              diameterLeaning: aslant(places) + within(measuring.diameter),
            })
          : { moveCentre: null, changeRadius: radius - measured(places, target, within) };
      const again = cut(
        swing + change.changeRadius + within(setting.swivelRadius * setting.resettingFraction),
        change.moveCentre === null
          ? offset
          : offset + change.moveCentre + within(setting.swivelOffset * setting.resettingFraction),
      );
      const [first, second] = [sphereThrough(places), sphereThrough(again)];
      return { radius: [first.radius, second.radius], form: [first.form, second.form] };
    });
  });

  /** A stop of a table: where the centre of the nose should stand. */
  interface Stop {
    readonly polarAngleDeg: number;
    readonly centreRadius: number;
    readonly centreHeight: number;
    readonly from?: string;
  }

  it.each([
    ['steps', ball, 2, setting.touchOff / 2, { radius: 0.012, form: 0.1 }],
    ['ball-cutter', ball, 5, setting.miss, { radius: 0.03, form: 0.1 }],
    ['ball-cutter', socket, 5, setting.miss, { radius: 0.06, form: 0.08 }],
  ] as const)('%s on %o', (method, target, nose, zeroLimit, tolerance) => {
    const plan = planOf(jobFor(target, tolerance), method, method === 'steps' ? 'slides' : 'ballCutters');
    const { side, radius, toDeg } = sphereShape(target);
    const { steps, passes } = plan.settings as { steps?: readonly Stop[]; passes?: readonly Stop[] };
    const stops = [...(steps ?? passes ?? [])].sort((a, b) => a.polarAngleDeg - b.polarAngleDeg);
    expect(stops.length).toBeGreaterThan(10);
    judge(plan, { radius, form: 0 }, (within) => {
      // On the lathe the zero across is touched off at the free end: there the spindle's axis is where it should be.
      const lie = method === 'steps' ? lies(within) : { planDeg: 0, uprightDeg: 0 };
      const cut = (offset: number): { touched: Place[]; ridges: Place[] } => {
        const corners = stops.map(
          ({ polarAngleDeg, centreRadius, centreHeight, from }): Corner => ({
            ...turnedAt(radius, lie, [
              centreRadius + offset + within(setting.position),
              centreHeight + within(setting.position),
            ]),
            polar: (polarAngleDeg / 180) * Math.PI,
            clears: from === undefined ? 0 : polarAngleDeg === 90 ? 2 : from === 'free-end' ? 1 : -1,
          }),
        );
        return steppedPlaces(corners, nose, side);
      };
      const offset = within(zeroLimit);
      const one = cut(offset);
      const widest = one.touched.reduce((a, b) => (Math.abs(a.z) < Math.abs(b.z) ? a : b));
      const found =
        target === ball
          ? Math.hypot(widest.rho, widest.z) + within(measuring.diameter / 2) - radius
          : measured(one.touched, target, within) - radius;
      // The zero of the slide across is moved so that the radius measured comes right.
      const perUnit = target === ball ? 1 : 1 / Math.tan((toDeg / 360) * Math.PI);
      const two = cut(offset - found / perUnit + within(zeroLimit * setting.resettingFraction));
      const [first, second] = [sphereThrough(one.touched, one.ridges), sphereThrough(two.touched, two.ridges)];
      return { radius: [first.radius, second.radius], form: [first.form, second.form] };
    });
  });
});
