/**
 * Predictions against machinings. Of 2000 parts cut in space with all settings off by their own errors, evenly
 * spread between the stated limits, the stated 95 % interval must hold 93 to 97 %; by chance alone 95 % of
 * 2000 scatter by 0.5 %, of the short run's fewer parts by more. The share that meets its tolerance must be the one
 * promised, at the first cut and after a correction from measurements that are themselves off: 4 standard deviations
 * are allowed.
 */
import { describe, expect, it } from 'vitest';
import { type Job, type MethodName, type MethodPlan, planJob, planSteps } from '../../src/plan/index.js';
import {
  type SphereTarget,
  socketTiltCorrection,
  sphereShape,
  sweepCorrection,
  swivelCorrection,
} from '../../src/sphere/index.js';
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
  sweepEnds,
  sweepPlaces,
  swivelPlace,
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
function planOf(job: Job, method: MethodName, equipment: string): MethodPlan & { readonly left: () => number } {
  const bare = <T extends object>(machine: T): T =>
    Object.fromEntries(
      Object.entries(machine).filter(
        ([key, value]) => key === equipment || !EQUIPMENT.includes(key) || value === undefined,
      ),
    ) as T;
  const only = { ...job, lathes: (job.lathes ?? []).map(bare), mills: (job.mills ?? []).map(bare) };
  const plan = planJob(only);
  const found = plan.methods.find((one) => one.method === method);
  if (!found) throw new Error(`no plan for ${method}`);
  const left = (): number => {
    const trial = planSteps({ plan, method: plan.methods.indexOf(found) }).find(({ kind }) => kind === 'trial-cut');
    const feed = trial?.actions.find((action) => action.do === 'feed');
    return feed?.to?.value ?? Number.NaN;
  };
  return { ...found, left };
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
    const { fromDeg, toDiameter, fromHeight, toHeight } = sphereShape(target);
    expect(fromDeg).toBe(0);
    const left = plan.left();
    const end = target === ball ? 'stem-diameter' : 'opening-diameter';
    judge(plan, { radius, form: 0, 'pip-diameter': 0, [end]: toDiameter }, (within) => {
      const tiltDeg = sweep.tiltDeg + within(setting.headTiltDeg);
      const sweepRadius = sweep.sweepRadius + within(setting.sweepRadius);
      // The tip set over the centre but for a miss.
      const over = (set: { tiltDeg: number; sweepRadius: number; miss: number }) => ({
        ...set,
        distance: set.sweepRadius / Math.tan((set.tiltDeg / 180) * Math.PI),
      });
      const skew = within(setting.skew);
      const cut = { ...over({ tiltDeg, sweepRadius, miss: within(setting.miss) }), skew };
      const places = sweepPlaces(cut, side);
      let again: typeof cut;
      if (target === ball) {
        // With so much to go the pip shows how far the tip is from the centre, and to which side.
        const trial = { ...cut, distance: cut.distance + left };
        const measuredDiameter = across(sweepPlaces(trial, side)) + within(measuring.diameter);
        const pip = sweepEnds(trial).pip + within(measuring.diameter);
        const { sweepRadiusChange, distanceChange } = sweepCorrection({
          target,
          sweep,
          measuredDiameter,
          pip: { diameter: pip, state: 'not-reached' },
        });
        again = {
          ...trial,
          sweepRadius: sweepRadius + sweepRadiusChange + within(setting.sweepRadius * setting.resettingFraction),
          distance: trial.distance + distanceChange,
          miss: cut.miss + within(setting.miss * setting.resettingFraction),
        };
      } else {
        const { opening, depth } = openingAndDepth(places, toHeight);
        const { tiltChangeDeg } = socketTiltCorrection({
          radius,
          sweepRadius: sweep.sweepRadius,
          openingDiameter: opening + within(measuring.diameter),
          depth: depth + within(measuring.length),
        });
        const anew = tiltDeg + tiltChangeDeg + within(setting.headTiltDeg * setting.resettingFraction);
        again = { ...over({ tiltDeg: anew, sweepRadius, miss: within(setting.miss) }), skew };
      }
      // A socket is fed to its depth from where the tip touched the face at its deepest place.
      const ends = [cut, again].map((one) => {
        const { pip, stem, deepest } = sweepEnds(one);
        if (target === ball) return { pip, end: stem };
        const face = deepest - (fromHeight - toHeight) + within(setting.position);
        return { pip, end: openingAndDepth(sweepPlaces(one, side), face).opening };
      }) as [{ pip: number; end: number }, { pip: number; end: number }];
      const [first, second] = [sphereThrough(places), sphereThrough(sweepPlaces(again, side))];
      return {
        radius: [first.radius, second.radius],
        form: [first.form, second.form],
        'pip-diameter': [ends[0].pip, ends[1].pip],
        [end]: [ends[0].end, ends[1].end],
      };
    });
  });

  type SwivelCut = Readonly<Record<'radius' | 'form' | 'pip' | 'end', number>>;

  it.each([
    [ball, { radius: 0.05, form: 0.03 }],
    [socket, { radius: 0.08, form: 0.015 }],
  ])('swivelling tool on %o', (target, tolerance) => {
    const plan = planOf(jobFor(target, tolerance), 'swivel-tool', 'swivelTool');
    const { radius, fromDeg, toDeg, toHeight, toDiameter } = sphereShape(target);
    const end = target === ball ? 'stem-diameter' : 'opening-diameter';
    judge(plan, { radius, form: 0, 'pip-diameter': 0, [end]: toDiameter }, (within) => {
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
      const settings = [
        [swing, offset],
        [
          swing + change.changeRadius + within(setting.swivelRadius * setting.resettingFraction),
          change.moveCentre === null
            ? offset
            : offset + change.moveCentre + within(setting.swivelOffset * setting.resettingFraction),
        ],
      ] as const;
      const position = within(setting.position);
      const [one, two] = settings.map(([r, e]) => {
        const at = (rad: number): readonly [number, number, number] => swivelPlace(r, e, height, rad, lie);
        const [pole, low] = at(0);
        let last = (toDeg / 180) * Math.PI;
        if (target === socket) {
          // The swing goes on until it is out of the work, through the face.
          let [inside, outside] = [last - 0.2, last + 0.2];
          for (let turn = 0; turn < 40; turn++) {
            last = (inside + outside) / 2;
            if (at(last)[2] > toHeight + position) inside = last;
            else outside = last;
          }
        }
        const [x, y] = at(last);
        // A tip that passes the axis leaves only what stands above or below it.
        return { ...sphereThrough(cut(r, e)), pip: 2 * Math.hypot(Math.max(0, pole), low), end: 2 * Math.hypot(x, y) };
      }) as [SwivelCut, SwivelCut];
      return {
        radius: [one.radius, two.radius],
        form: [one.form, two.form],
        'pip-diameter': [one.pip, two.pip],
        [end]: [one.end, two.end],
      };
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
    const { side, radius, toDeg, toHeight, toDiameter } = sphereShape(target);
    const end = target === ball ? 'stem-diameter' : 'opening-diameter';
    const { steps, passes } = plan.settings as { steps?: readonly Stop[]; passes?: readonly Stop[] };
    const stops = [...(steps ?? passes ?? [])].sort((a, b) => a.polarAngleDeg - b.polarAngleDeg);
    expect(stops.length).toBeGreaterThan(10);
    judge(plan, { radius, form: 0, [end]: toDiameter }, (within) => {
      // On the lathe the zero across is touched off at the free end: there the spindle's axis is where it should be.
      const lie = method === 'steps' ? lies(within) : { planDeg: 0, uprightDeg: 0 };
      const cut = (offset: number): { touched: Place[]; ridges: Place[]; end: number } => {
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
        // The last stop turns the stem, or leaves the opening in the face that the zero along was touched on.
        const { rho, z } = corners.at(-1) as Corner;
        const face = toHeight + within(setting.position);
        const last = target === ball ? rho - nose : rho + Math.sqrt(nose ** 2 - (face - z) ** 2);
        return { ...steppedPlaces(corners, nose, side), end: 2 * last };
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
      return { radius: [first.radius, second.radius], form: [first.form, second.form], [end]: [one.end, two.end] };
    });
  });
});
