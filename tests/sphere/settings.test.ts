import fc from 'fast-check';
import { type SphereTarget, sphereShape, sweepSettings } from 'generatrix/sphere';
import { describe, expect, it } from 'vitest';
import { revolved, sweepPoints } from './space.js';

const sin = (deg: number): number => Math.sin((deg / 180) * Math.PI);
const cos = (deg: number): number => Math.cos((deg / 180) * Math.PI);

/** Every kind of part, of any size, from slight to nearly full spheres. */
const anyTarget = fc
  .record({
    kind: fc.constantFrom('ball-on-stem', 'ball-between-stems', 'ball-end', 'cap', 'socket'),
    radius: fc.double({ min: 0.1, max: 500, noNaN: true }),
    a: fc.double({ min: 0.02, max: 0.98, noNaN: true }),
    b: fc.double({ min: 0.02, max: 0.98, noNaN: true }),
  })
  .map(({ kind, radius, a, b }): SphereTarget => {
    const stemDiameter = 2 * radius * a;
    if (kind === 'ball-on-stem') return { part: kind, radius, stemDiameter };
    if (kind === 'ball-between-stems') return { part: kind, radius, stemDiameter, freeStemDiameter: 2 * radius * b };
    if (kind === 'ball-end') return { part: kind, radius, stemDiameter, flatDiameter: 2 * radius * b };
    return kind === 'cap'
      ? { part: kind, radius, height: radius * 2 * a }
      : { part: 'socket', radius, depth: 1.5 * radius * a };
  });

describe('published relations of the tilted sweep', () => {
  // No published numeric example of a tilted sweep was found: the relations are published, the numbers ours;
  // that the settings cut the sphere is proved in space below.
  it('are the handbook rule for milling a ball on a stem: sin 2A = d/(2R), r = R cos A', () => {
    // The rule as machinists' handbooks print it (seen in a secondary source; A is the complement of the tilt).
    for (const [R, d] of [
      [25, 25],
      [0.5, 0.375],
      [10, 3],
      [40, 79],
    ] as const) {
      const A = (Math.asin(d / (2 * R)) / 2 / Math.PI) * 180;
      const set = sweepSettings({ target: { part: 'ball-on-stem', radius: R, stemDiameter: d } });
      expect(set.sweep.tiltDeg).toBeCloseTo(90 - A, 12);
      expect(set.sweep.sweepRadius / (R * cos(A))).toBeCloseTo(1, 14);
      expect(set.headTiltTableUprightDeg).toBeCloseTo(A, 12);
    }
  });

  it('are the curve generator of optical shops: sin θ = D/(2(R ± r))', () => {
    // A. R. Hilton, Chalcogenide Glasses for Infrared Optics, section 5.2, p. 121: θ = asin(W/2R), W the
    // diameter of the working edge; with a rounded edge the centre of the nose runs on R + r for a convex
    // surface and on R - r for a concave one (Cutting Tool Engineering, March 2013, vol. 65 no. 3).
    for (const [R, working, r] of [
      [100, 40, 0],
      [62.5, 50, 2],
      [12, 8, 0.4],
    ] as const) {
      for (const [part, sign] of [
        ['cap', 1],
        ['socket', -1],
      ] as const) {
        const opening = R; // any dome up to twice the tilt is covered
        const target: SphereTarget =
          part === 'cap'
            ? { part, radius: R, height: R * (1 - cos(((2 * Math.asin(working / 2 / (R + r))) / Math.PI) * 180)) }
            : { part, radius: R, openingDiameter: Math.min(opening, working) };
        const set = sweepSettings({ target, noseRadius: r, fixedSweepDiameter: working });
        expect(sin(set.sweep.tiltDeg)).toBeCloseTo(working / (2 * (R + sign * r)), 12);
        expect(set.radius / R).toBeCloseTo(1, 14);
        expect(set.coverage.freeEnd.state).toBe('meets');
      }
    }
  });

  it('are the chord from the bottom to the rim of a socket', () => {
    // Common practice, no source: the cutter's diameter spans from the bottom of the bowl to its rim.
    const set = sweepSettings({ target: { part: 'socket', openingDiameter: 48, depth: 12 } });
    expect(set.sweepDiameter).toBeCloseTo(Math.hypot(24, 12), 13);
  });
});

describe('settings, judged by points on the sweep in space', () => {
  it('cut the wanted sphere from end to end, whatever the part', () => {
    fc.assert(
      fc.property(anyTarget, (target) => {
        const { sweep, sweepDiameter, coverage, radiusError } = sweepSettings({ target });
        const shape = sphereShape(target);
        const cut = revolved(sweepPoints(sweep, 720));
        // 1e-13: some dozen roundings of numbers the size of R.
        const off = cut.map(([rho, z]) => Math.abs(Math.hypot(rho, z) / shape.radius - 1));
        expect(Math.max(...off)).toBeLessThan(1e-13);
        const heights = cut.map(([, z]) => z);
        expect(Math.abs(Math.max(...heights) - shape.fromHeight) / shape.radius).toBeLessThan(1e-13);
        expect(Math.abs(Math.min(...heights) - shape.toHeight) / shape.radius).toBeLessThan(1e-13);
        expect(sweepDiameter).toBe(2 * sweep.sweepRadius);
        expect(Math.abs(radiusError) / shape.radius).toBeLessThan(1e-14);
        expect([coverage.freeEnd.state, coverage.farEnd.state]).toEqual(['meets', 'meets']);
      }),
    );
  });

  it('with a nose radius, touch the sphere at one place of the nose', () => {
    fc.assert(
      fc.property(anyTarget, fc.double({ min: 0.01, max: 0.3, noNaN: true }), (target, k) => {
        const { radius } = sphereShape(target);
        const noseRadius = k * radius;
        const sign = target.part === 'socket' ? -1 : 1;
        let set: ReturnType<typeof sweepSettings>;
        try {
          set = sweepSettings({ target, noseRadius });
        } catch (error) {
          // A nose wider than its own sweep has no tip inside it.
          expect(error).toMatchObject({ code: 'impossible-geometry', parameter: 'noseRadius' });
          return;
        }
        const off = revolved(sweepPoints(set.sweep, 90)).map(([rho, z]) =>
          Math.abs((Math.hypot(rho, z) - sign * noseRadius) / radius - 1),
        );
        expect(Math.max(...off)).toBeLessThan(1e-13);
        expect(set.tipDiameter).toBeCloseTo(set.sweepDiameter - sign * 2 * noseRadius, 9);
        expect(set.coverage.farEnd.state).toBe('meets');
      }),
    );
  });

  it('with a nose stop where it touches a stem, and leave the stem as it is', () => {
    fc.assert(
      fc.property(anyTarget, fc.double({ min: 0.01, max: 0.5, noNaN: true }), (target, k) => {
        fc.pre(target.part.startsWith('ball'));
        const { radius, fromDiameter, toDiameter } = sphereShape(target);
        const noseRadius = k * radius;
        const { sweep, coverage } = sweepSettings({ target, noseRadius });
        expect(coverage.farEnd.state).toBe('meets');
        const path = revolved(sweepPoints(sweep, 720));
        const nearest = (places: typeof path): number => Math.min(...places.map(([rho]) => rho)) - noseRadius;
        const below = path.filter(([, z]) => z < 0);
        if (below.length > 0) expect(Math.abs(nearest(below) - toDiameter / 2) / radius).toBeLessThan(1e-13);
        if (target.part !== 'ball-between-stems') return;
        const above = path.filter(([, z]) => z > 0);
        expect(coverage.freeEnd.state).toBe('meets');
        if (above.length > 0) expect(Math.abs(nearest(above) - fromDiameter / 2) / radius).toBeLessThan(1e-13);
      }),
    );
  });

  it('do not change with the unit', () => {
    fc.assert(
      fc.property(anyTarget, (target) => {
        const scaled = Object.fromEntries(
          Object.entries(target).map(([key, value]) => [key, typeof value === 'number' ? value * 25.4 : value]),
        ) as unknown as SphereTarget;
        const [inch, mm] = [sweepSettings({ target }), sweepSettings({ target: scaled })];
        expect(mm.sweep.tiltDeg / inch.sweep.tiltDeg).toBeCloseTo(1, 12);
        expect(mm.sweep.sweepRadius / inch.sweep.sweepRadius / 25.4).toBeCloseTo(1, 12);
      }),
    );
  });
});

describe('what is fixed', () => {
  const ball = { part: 'ball-on-stem', radius: 25, stemDiameter: 25 } as const; // tilt 75

  it('a smaller tilt through the pole leaves the stem end uncut, a larger one cuts into the stem', () => {
    const less = sweepSettings({ target: ball, fixedTiltDeg: 70 });
    expect(less.coverage).toMatchObject({ freeEnd: { state: 'meets' }, farEnd: { state: 'not-reached' } });
    expect(less.coverage.farEnd.diameter).toBeCloseTo(50 * sin(140), 12);
    expect(less.coverage.farEnd.leftAlongAxis).toBeCloseTo(25 * (cos(140) - cos(150)), 12);
    expect(less.notes.map(({ code }) => code)).toEqual(['far-end-uncut']);
    const more = sweepSettings({ target: ball, fixedTiltDeg: 80 });
    expect(more.coverage.farEnd.state).toBe('undercut');
    expect(more.coverage.farEnd.excessDiameter).toBeCloseTo(50 * sin(160) - 25, 12);
    expect(more.notes.map(({ code }) => code)).toEqual(['stem-undercut']);
  });

  it('a larger sweep in a socket runs out over the rim, which does no harm', () => {
    const set = sweepSettings({ target: { part: 'socket', radius: 30, depth: 12 }, fixedSweepDiameter: 40 });
    expect(set.coverage).toMatchObject({ freeEnd: { state: 'meets' }, farEnd: { state: 'runs-out' } });
    expect(set.notes).toEqual([]);
  });

  it('over a flat the sweep may pass anywhere; between stems it stays between them', () => {
    const end = { part: 'ball-end', radius: 20, stemDiameter: 20, flatDiameter: 16 } as const;
    for (const fixedTiltDeg of [66, 80, 86]) {
      const { coverage } = sweepSettings({ target: end, fixedTiltDeg });
      expect([coverage.freeEnd.state, coverage.farEnd.state]).toEqual(['runs-out', 'meets']);
    }
    expect(sweepSettings({ target: end, fixedTiltDeg: 60 }).coverage.freeEnd.state).toBe('past-pole');
    expect(sweepSettings({ target: end, fixedSweepDiameter: 36 }).coverage.farEnd.state).toBe('meets');
    const between = { part: 'ball-between-stems', radius: 20, stemDiameter: 20, freeStemDiameter: 16 } as const;
    expect(sweepSettings({ target: between, fixedTiltDeg: 80 }).coverage).toMatchObject({
      freeEnd: { state: 'meets' },
      farEnd: { state: 'not-reached' },
    });
    expect(() => sweepSettings({ target: between, fixedTiltDeg: 5 })).toThrow(
      /must lie between 23\.578\d* and (150|149\.9999)/,
    );
  });

  it('tilt and sweep both fixed leave the distance to make the size', () => {
    const set = sweepSettings({ target: ball, fixedTiltDeg: 75, fixedSweepDiameter: 49 });
    expect(set.radius).toBeCloseTo(25, 13);
    expect(set.coverage.freeEnd.state).toBe('past-pole');
    expect(set.coverage.farEnd.state).toBe('undercut');
  });
});

describe('on the machine', () => {
  const target = { part: 'ball-on-stem', diameter: 50, stemDiameter: 25 } as const;

  it('puts tilt and tip on the scales and says what the graduations cut', () => {
    const head = { table: 'upright', tiltStepDeg: 0.5, dial: { reads: 'diameter', step: 0.05 } } as const;
    const set = sweepSettings({ target: { part: 'ball-on-stem', diameter: 50, stemDiameter: 24 }, head });
    expect(set.tilt.settableReadingDeg).toBe(14.5);
    expect(set.dial.settableReading).toBeCloseTo(48.45, 12);
    const { sweep, radius, radiusError } = set.settable;
    expect(radius).toBeCloseTo(24.225 / sin(75.5), 12);
    expect(radiusError).toBeCloseTo(24.225 / sin(75.5) - 25, 12);
    expect(sweep.tiltDeg).toBe(75.5);
    expect(set.settable.coverage.freeEnd.state).toBe('meets');
    // At size instead: the sweep of that radius on the true sphere misses the pole by |α - β|.
    const half = (Math.asin(24.225 / 25) / Math.PI) * 180;
    expect(set.settablePipAtSize).toBeCloseTo(50 * Math.abs(sin(75.5 - half)), 10);
    expect(set.notes.map(({ code }) => code)).toEqual(['scales-rounded']);
  });

  it('refuses a tilt beyond the head and names the nearest, which then works', () => {
    expect(() => sweepSettings({ target, head: { largestTiltDeg: 60 } })).toThrow(
      /head\.largestTiltDeg: .*nearest is fixedTiltDeg 60.* cuts the sphere from a diameter of \S+ to one of 43\.30/,
    );
    const set = sweepSettings({ target, head: { largestTiltDeg: 60 }, fixedTiltDeg: 60 });
    expect(set.coverage.farEnd.diameter).toBeCloseTo(50 * sin(120), 12);
    // Table upright: the work's axis lies level, and the same angle is 15 degrees of head tilt.
    expect(sweepSettings({ target, head: { largestTiltDeg: 60, table: 'upright' } }).tilt.readingDeg).toBeCloseTo(
      15,
      12,
    );
    expect(() =>
      sweepSettings({
        target: { part: 'socket', radius: 50, depth: 2 },
        head: { largestTiltDeg: 45, table: 'upright' },
      }),
    ).toThrow(/nearest is fixedTiltDeg 45/);
  });

  it('refuses a sweep beyond the head and names the nearest, which then works', () => {
    const head = { dial: { reads: 'diameter', to: 40 } } as const;
    expect(() => sweepSettings({ target, head })).toThrow(/head\.dial: .*nearest is fixedSweepDiameter 40/);
    const set = sweepSettings({ target, head, fixedSweepDiameter: 40 });
    expect(set.dial.settableReading).toBeCloseTo(40, 12);
    expect(set.radius).toBeCloseTo(25, 12);
    expect(() => sweepSettings({ target, head: { dial: { reads: 'radius', from: 30 } } })).toThrow(
      /no sweep of this head/,
    );
  });

  it.each<[Parameters<typeof sweepSettings>[0], string]>([
    [{ target, fixedTiltDeg: 0 }, 'out-of-range'],
    [{ target, fixedTiltDeg: 90 }, 'out-of-range'],
    [{ target, fixedSweepDiameter: 51 }, 'impossible-geometry'],
    [{ target, noseRadius: -1 }, 'out-of-range'],
    [{ target, head: { tiltStepDeg: 0 } }, 'out-of-range'],
    [{ target, head: { tiltStepDeg: 200 } }, 'beyond-machine'],
    [{ target: { part: 'socket', radius: 5, depth: 2 }, noseRadius: 5 }, 'impossible-geometry'],
    [{ target: { part: 'cap', radius: 5, height: 0.1 }, noseRadius: 4.9 }, 'impossible-geometry'],
    [{ target, nose: 1 } as never, 'unknown-option'],
    [{} as never, 'missing-option'],
  ])('refuses %j with %s', (input, code) => {
    expect(() => sweepSettings(input)).toThrow(expect.objectContaining({ name: 'GeneratrixError', code }));
  });
});
