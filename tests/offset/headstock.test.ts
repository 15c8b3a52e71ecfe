/**
 * A headstock out of line with the bed: what a tool that runs level along the bed cuts on work in its chuck, and that
 * work between centres does not know of it. The judge turns the spindle's axis in space, at 60 digits.
 */
import type { Decimal } from 'decimal.js';
import fc from 'fast-check';
import {
  guideBarModel,
  guideBarSurface,
  type StraightCut,
  setoverSurface,
  toolHeightModel,
  toolHeightSurface,
  topSlideModel,
  topSlideSurface,
} from 'generatrix';
import { describe, expect, it } from 'vitest';
import { dualArithmetic, plainArithmetic, variable } from '../../src/budget/arithmetic.js';
import { lineRadiusAt } from '../../src/revolve/line-meridian.js';
import { refusal } from '../oracle/refusal.js';
import { runs } from '../oracle/seed.js';
import { D, exact } from '../reference/exact.js';
import { bruteHollow } from './brute-path.js';

type Point = readonly [Decimal, Decimal, Decimal];

const dot = (a: Point, b: Point): Decimal => a[0].times(b[0]).plus(a[1].times(b[1])).plus(a[2].times(b[2]));
const cross = (a: Point, b: Point): Point => [
  a[1].times(b[2]).minus(a[2].times(b[1])),
  a[2].times(b[0]).minus(a[0].times(b[2])),
  a[0].times(b[1]).minus(a[1].times(b[0])),
];
const along = (a: Point, step: Decimal, b: Point): Point => [
  a[0].plus(step.times(b[0])),
  a[1].plus(step.times(b[1])),
  a[2].plus(step.times(b[2])),
];
const size = (a: Point): Decimal => dot(a, a).sqrt();
const radians = (deg: number): Decimal => exact(deg).times(D.acos(-1)).div(180);

/** A direction of the spindle carried round with it: upright about x, z towards y; then in plan about y, z towards x. */
function spindle(planDeg: number, uprightDeg: number, [x, y, z]: readonly [number, number, number]): Point {
  const [p, u] = [radians(planDeg), radians(uprightDeg)];
  const up = u.cos().times(y).plus(u.sin().times(z));
  const on = u.cos().times(z).minus(u.sin().times(y));
  return [p.cos().times(x).plus(p.sin().times(on)), up, p.cos().times(on).minus(p.sin().times(x))];
}

interface Set {
  readonly bedAngleDeg: number;
  readonly planDeg: number;
  readonly uprightDeg: number;
  readonly toolHeight: number;
}

/** The tool's line on the bed, touched off to a radius where it stands square across from the start of the axis. */
function onTheBed({ bedAngleDeg, planDeg, uprightDeg, toolHeight }: Set, radius: number) {
  const [across, up, axis] = [
    spindle(planDeg, uprightDeg, [1, 0, 0]),
    spindle(planDeg, uprightDeg, [0, 1, 0]),
    spindle(planDeg, uprightDeg, [0, 0, 1]),
  ];
  const [h, angle] = [exact(toolHeight), radians(bedAngleDeg)];
  const way: Point = [angle.sin().negated(), new D(0), angle.cos()];
  const origin: Point = [new D(0), new D(0), new D(0)];
  const start = along(along(origin, exact(radius).pow(2).minus(h.pow(2)).sqrt(), across), h, up);
  /** Radius that the revolving work has where the tool passes a place on its axis. */
  const radiusAt = (z: Decimal): Decimal =>
    size(cross(along(start, z.minus(dot(start, axis)).div(dot(way, axis)), way), axis));
  const both = cross(way, axis);
  const square = dot(both, both);
  const waist = dot(start, both).abs().div(square.sqrt());
  // The foot, on the axis, of the common perpendicular of the two lines.
  const waistZ = dot(cross(start, way), both).negated().div(square);
  return { radiusAt, waist, waistZ };
}

const relative = (found: number, wanted: Decimal): number => exact(found).minus(wanted).div(wanted).abs().toNumber();
const between = (min: number, max: number) => fc.double({ min, max, noNaN: true });

const cases = fc
  .record({
    bedAngleDeg: between(0.5, 50),
    planDeg: between(-0.4, 20),
    uprightDeg: between(-10, 10),
    largeDiameter: between(1, 500),
    share: between(0.01, 0.8),
    off: between(-0.3, 0.3),
  })
  .map(({ share, off, largeDiameter, ...set }) => {
    const fall = (share * largeDiameter) / 2;
    const tan = Math.tan(((set.bedAngleDeg + set.planDeg) / 180) * Math.PI);
    return {
      set: { ...set, toolHeight: off * (largeDiameter / 2 - fall) },
      largeDiameter,
      length: (fall / tan) * Math.cos((set.uprightDeg / 180) * Math.PI),
    };
  });

/** The same cut by all who cut so: the angle against the bed is set, the spindle out of line with it. */
function surfaces(
  { bedAngleDeg, planDeg, uprightDeg, toolHeight }: Set,
  cut: { readonly length: number } & ({ readonly largeDiameter: number } | { readonly smallDiameter: number }),
): readonly StraightCut[] {
  const chucked = { ...cut, toolHeight, headstockPlanDeg: planDeg, headstockUprightDeg: uprightDeg } as const;
  return [
    topSlideSurface({ readingDeg: bedAngleDeg, ...chucked }),
    guideBarSurface({ reading: bedAngleDeg, ...chucked }),
    toolHeightSurface({ taper: { halfAngleDeg: bedAngleDeg }, ...chucked }),
  ];
}

describe('work in a chuck', () => {
  it('is cut as points on the tool path in space cut it, revolved about the spindle', () => {
    fc.assert(
      fc.property(cases, ({ set, largeDiameter, length }) => {
        const real = onTheBed(set, largeDiameter / 2);
        const wanted = real.radiusAt(exact(length)).times(2);
        const hollow = bruteHollow((z) => real.radiusAt(exact(z)).toNumber(), length);
        for (const cut of surfaces(set, { largeDiameter, length })) {
          expect(relative(cut.smallDiameter, wanted)).toBeLessThan(1e-13);
          for (const part of [0, 0.3, 0.7, 1]) {
            const radius = real.radiusAt(exact(part * length));
            expect(relative(lineRadiusAt(cut.surface, part * length), radius)).toBeLessThan(1e-12);
          }
          expect(Math.abs(cut.hollow - hollow)).toBeLessThan(1e-13 * largeDiameter);
          expect(cut.cuts.rate * length).toBeCloseTo(largeDiameter - wanted.toNumber(), 9);
        }
      }),
      { numRuns: runs(25, 10) },
    );
  });

  it('is a hyperboloid about the nearest points of two skew lines', () => {
    fc.assert(
      fc.property(
        cases.filter(({ set }) => Math.abs(set.uprightDeg) > 0.01),
        ({ set, largeDiameter, length }) => {
          const real = onTheBed(set, largeDiameter / 2);
          for (const { surface } of surfaces(set, { largeDiameter, length })) {
            if (surface.kind !== 'hyperboloid') throw new Error(surface.kind);
            // A waist is a difference of two products, each as large as the radius.
            expect(exact(surface.waist).minus(real.waist).abs().toNumber()).toBeLessThan(1e-14 * largeDiameter);
            expect(relative(surface.waistZ, real.waistZ)).toBeLessThan(1e-12);
          }
        },
      ),
      { numRuns: runs(200, 40) },
    );
  });

  it('is the same whichever end was touched off, at the height that the tool has there', () => {
    fc.assert(
      fc.property(cases, ({ set, largeDiameter, length }) => {
        const climbs = -length * Math.tan((set.uprightDeg / 180) * Math.PI);
        for (const { smallDiameter, hollow } of surfaces(set, { largeDiameter, length })) {
          const there = { ...set, toolHeight: set.toolHeight + climbs };
          // The tool must reach the small end for that: the height there is below its radius.
          if (Math.abs(there.toolHeight) > 0.99 * (smallDiameter / 2)) continue;
          for (const back of surfaces(there, { smallDiameter, length })) {
            expect(Math.abs(back.largeDiameter / largeDiameter - 1)).toBeLessThan(1e-12);
            expect(Math.abs(back.hollow - hollow)).toBeLessThan(1e-12 * largeDiameter);
          }
        }
      }),
      { numRuns: 200 },
    );
  });

  it('turned in plan alone is work at another half angle; turned upright alone, a hollow cone', () => {
    const cut = { length: 60, largeDiameter: 40 } as const;
    const plan = topSlideSurface({ readingDeg: 5, headstockPlanDeg: 0.25, ...cut });
    expect(plan.surface.kind).toBe('cone');
    expect(plan.smallDiameter).toBeCloseTo(40 - 120 * Math.tan((5.25 / 180) * Math.PI), 12);
    expect(plan.heightError).toBe(0);
    const upright = topSlideSurface({ readingDeg: 5, headstockUprightDeg: 1, ...cut });
    expect(upright.surface.kind).toBe('hyperboloid');
    expect(upright.hollow).toBeGreaterThan(0);
    // Along the axis the tool climbs against the work by 60 tan 1°, and nears it by tan 5°/cos 1°.
    const [x, y] = [20 - (60 * Math.tan(Math.PI / 36)) / Math.cos(Math.PI / 180), 60 * Math.tan(Math.PI / 180)];
    expect(upright.smallDiameter).toBeCloseTo(2 * Math.hypot(x, y), 12);
    expect(upright.heightError).toBeCloseTo(2 * (Math.hypot(x, y) - x), 12);
    // A tool as far above at the large end comes down to the axis: nearer to the straight cone.
    expect(topSlideSurface({ readingDeg: 5, headstockUprightDeg: 1, toolHeight: y, ...cut }).heightError).toBeLessThan(
      0,
    );
  });

  it('is the same as a model, derivatives included', () => {
    const cut = { largeDiameter: 40, length: 60, toolHeight: 1.5, touchOffError: 0.1 };
    const lie = { headstockPlanDeg: 0.3, headstockUprightDeg: -0.4 };
    const offset = 250 * Math.sin(Math.PI / 15);
    const { smallDiameter } = topSlideSurface({ readingDeg: 12, zeroErrorDeg: 0.2, ...cut, ...lie });
    const scale = { by: 'offset', radius: 250, radiusAlong: 'bar' } as const;
    const bar = guideBarSurface({ reading: offset, scale, zeroErrorDeg: 0.2, ...cut, ...lie });
    expect(bar.smallDiameter).toBeCloseTo(smallDiameter, 12);
    const slides = { angleDeg: 12, zeroErrorDeg: 0.2, ...cut, ...lie };
    expect(topSlideModel.evaluate(plainArithmetic, slides)).toBeCloseTo(smallDiameter, 13);
    const bars = { offset, radius: 250, zeroErrorDeg: 0.2, ...cut, ...lie };
    expect(guideBarModel.evaluate(plainArithmetic, bars)).toBeCloseTo(smallDiameter, 12);
    const at = { halfAngleDeg: 12.2, ...cut, ...lie };
    expect(toolHeightModel.evaluate(plainArithmetic, at)).toBeCloseTo(smallDiameter, 12);
    // Slopes against the judge, by differences at 60 digits.
    const real = (change: Partial<Set>): Decimal => {
      const set = { bedAngleDeg: 12.2, planDeg: 0.3, uprightDeg: -0.4, toolHeight: 1.5, ...change };
      return onTheBed(set, 20.05).radiusAt(exact(60)).times(2);
    };
    const step = 2 ** -30;
    const dual = dualArithmetic(plainArithmetic);
    const names = Object.keys(at) as (keyof typeof at)[];
    const { partials } = toolHeightModel.evaluate(
      dual,
      Object.fromEntries(names.map((name, i) => [name, variable(plainArithmetic, at[name], i)])) as Record<
        keyof typeof at,
        ReturnType<typeof dual.constant>
      >,
    );
    for (const [name, key] of [
      ['headstockPlanDeg', 'planDeg'],
      ['headstockUprightDeg', 'uprightDeg'],
    ] as const) {
      const slope = real({ [key]: at[name] + step })
        .minus(real({ [key]: at[name] - step }))
        .div(2 * step);
      expect(partials[names.indexOf(name)]).toBeCloseTo(slope.toNumber(), 11);
    }
  });

  it.each<[string, () => unknown]>([
    [
      'out-of-range headstockPlanDeg',
      () => topSlideSurface({ readingDeg: 5, length: 1, largeDiameter: 9, headstockPlanDeg: 85 }),
    ],
    [
      'out-of-range headstockPlanDeg',
      () => guideBarSurface({ reading: 5, length: 1, largeDiameter: 9, headstockPlanDeg: 85 }),
    ],
    [
      'out-of-range headstockPlanDeg',
      () =>
        toolHeightSurface({ taper: { oneIn: 1 }, toolHeight: 0, length: 1, largeDiameter: 9, headstockPlanDeg: 64 }),
    ],
    [
      'out-of-range headstockUprightDeg',
      () => topSlideSurface({ readingDeg: 5, length: 1, largeDiameter: 9, headstockUprightDeg: 90 }),
    ],
    [
      'not-finite headstockUprightDeg',
      () => topSlideSurface({ readingDeg: 5, length: 1, largeDiameter: 9, headstockUprightDeg: Number.NaN }),
    ],
    [
      'impossible-geometry length',
      () => topSlideSurface({ readingDeg: 5, length: 70, largeDiameter: 20, headstockPlanDeg: 5 }),
    ],
    [
      'unknown-option headstockPlanDeg',
      () =>
        setoverSurface({ offset: 5, centreDistance: 200, length: 9, largeDiameter: 9, headstockPlanDeg: 1 } as never),
    ],
  ])('%s', (wanted, call) => {
    expect(refusal(call)).toBe(wanted);
  });
});

describe('work between centres', () => {
  it('does not know where the spindle looks, only where its centre stands: what set-over calls zero and roll', () => {
    fc.assert(
      fc.property(
        between(1, 9),
        between(-0.5, 0.5),
        between(-0.5, 0.5),
        between(0, 300),
        between(-0.5, 0.5),
        (offset, planDeg, uprightDeg, behind, y) => {
          const [length, fromPivot, radius, centreDistance] = [60, 40, 15, 200];
          // The headstock turned about a place behind its centre, which goes where the spindle looks.
          const look = spindle(planDeg, uprightDeg, [0, 0, 1]).map(Number) as [number, number, number];
          const pivot = [behind * look[0], behind * look[1], behind * (look[2] - 1)] as const;
          // The other centre stays aside; the tailstock slides along the bed until the work is between them.
          const [ax, ay] = [offset - pivot[0], 0 - pivot[1]];
          const axis = [ax, ay, Math.sqrt(centreDistance ** 2 - ax ** 2 - ay ** 2)].map(
            (it) => it / centreDistance,
          ) as [number, number, number];
          if (ax <= 0) return;
          /** Radius that a tool at x, y on the bed cuts at a distance from the centre along the work. */
          const cut = (x: number, at: number): number => {
            const [dx, dy] = [x - pivot[0], y - pivot[1]];
            const dz = (at - dx * axis[0] - dy * axis[1]) / axis[2];
            return Math.sqrt(dx * dx + dy * dy + dz * dz - at * at);
          };
          let [low, high] = [fromPivot * axis[0] + pivot[0], 100];
          for (let i = 0; i < 100; i++) {
            const middle = (low + high) / 2;
            if (cut(middle, fromPivot) < radius) low = middle;
            else high = middle;
          }
          const zeroError = Math.hypot(ax, ay) - offset;
          const { smallDiameter } = setoverSurface({
            offset,
            zeroError,
            rollDeg: (Math.atan2(ay, ax) * 180) / Math.PI,
            toolHeight: y - pivot[1],
            centreDistance,
            fromPivot,
            length,
            largeDiameter: 2 * radius,
          });
          expect(smallDiameter / 2 / cut(low, fromPivot + length)).toBeCloseTo(1, 12);
          // Turned about the centre itself nothing has moved, whichever way the spindle looks.
          if (behind === 0) expect([zeroError, ay]).toEqual([0, 0]);
        },
      ),
      { numRuns: runs(500, 150), examples: [[5, 0.5, 0.5, 0, 0.2]] },
    );
  });
});
