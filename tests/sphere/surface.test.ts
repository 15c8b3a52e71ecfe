import fc from 'fast-check';
import { type SphereTarget, type Sweep, sweepSettings, sweepSurface } from 'generatrix/sphere';
import { describe, expect, it } from 'vitest';
import { runs } from '../oracle/seed.js';
import { revolved, sweepPoints } from './space.js';

const ball = { part: 'ball-on-stem', radius: 20, stemDiameter: 20 } as const; // tilt 75, sweep 19.32, distance 5.18
const socket = { part: 'socket', radius: 20, depth: 8 } as const; // tilt 26.57

const unit = fc.double({ min: -1, max: 1, noNaN: true });
/** A sweep in any mis-set state, not so far off that it stops to be a ball. */
const anySweep = fc.record({ tilt: unit, r: unit, h: unit, e: unit, x: unit }).map(
  ({ tilt, r, h, e, x }): Sweep => ({
    tiltDeg: 60 + 25 * tilt,
    sweepRadius: 18 + 2 * r,
    distance: 8 + 3 * h,
    skew: 0.5 * e,
    miss: 0.5 * x,
  }),
);

describe('the surface of a sweep, judged by points in space', () => {
  it('has the radii, the pip, the coverage and the centre of the swept points', () => {
    fc.assert(
      fc.property(anySweep, fc.constantFrom<SphereTarget>(ball, socket), (sweep, target) => {
        const cut = sweepSurface({ target, sweep });
        // Heights from where the axes meet: the spindle axis followed back to x = 0.
        const points = revolved(sweepPoints(sweep as Required<Sweep>, 3600)).map(
          ([rho, z]) => [rho, z - cut.centreShift] as const,
        );
        const top = points.reduce((best, p) => (p[1] > best[1] ? p : best));
        const bottom = points.reduce((best, p) => (p[1] < best[1] ? p : best));
        expect(cut.coverage.freeEnd.height).toBeCloseTo(top[1], 3);
        // Both ends of the sweep lie at t = 0 and 180 degrees, which are sampled exactly.
        const reach = points.map(([rho, z]) => Math.hypot(rho, z));
        const kept = target.part === 'socket' ? Math.max(...reach) : Math.min(...reach);
        expect(target.part === 'socket' ? cut.largestRadius : cut.smallestRadius).toBeCloseTo(kept, 10);
        expect(target.part === 'socket' ? cut.smallestRadius : cut.largestRadius).toBeCloseTo(Math.hypot(...top), 10);
        expect(Math.hypot(...bottom)).toBeCloseTo(Math.hypot(...top), 10);
        if ((sweep.skew ?? 0) === 0) expect(cut.coverage.freeEnd.diameter).toBeCloseTo(2 * top[0], 10);
      }),
      { numRuns: runs(60, 25) },
    );
  });

  it('stays exactly a sphere whatever is wrong in the plane of the axes', () => {
    fc.assert(
      fc.property(anySweep, (sweep) => {
        const flat = { ...sweep, skew: 0 };
        const cut = sweepSurface({ target: ball, sweep: flat });
        for (const [rho, z] of revolved(sweepPoints(flat as Required<Sweep>, 90))) {
          expect(Math.hypot(rho, z - cut.centreShift) / cut.radius).toBeCloseTo(1, 13);
        }
        expect([cut.smallestRadius, cut.largestRadius, cut.minimumZone.formDeviation]).toEqual([
          cut.radius,
          cut.radius,
          0,
        ]);
      }),
    );
  });

  it('comes to the sphere as skew vanishes, and does not see the sign of skew', () => {
    fc.assert(
      fc.property(anySweep, fc.double({ min: 1e-9, max: 1e-3, noNaN: true }), (sweep, skew) => {
        const [plus, minus, none] = [skew, -skew, 0].map((e) =>
          sweepSurface({ target: ball, sweep: { ...sweep, skew: e } }),
        );
        expect(minus).toEqual({ ...plus, notes: minus?.notes });
        // Out of round by r e / R at most, so no radius is farther off than e.
        expect(Math.abs((plus?.radius ?? 0) - (none?.radius ?? 0))).toBeLessThan(skew);
        expect(plus?.minimumZone.formDeviation).toBeLessThan(skew);
        expect(plus?.minimumZone.formDeviation).toBeGreaterThan(0);
      }),
      { numRuns: runs(30, 12) },
    );
  });

  it('has the form error that a search over centres finds in the swept points', () => {
    const sweep = { tiltDeg: 75, sweepRadius: 19.3, distance: 5.2, skew: 0.3 };
    // A ball keeps the half of the sweep that lies nearer to the work's axis.
    const kept = sweepPoints(sweep, 20000).filter(([, y]) => y < 0.3);
    const points = revolved(kept);
    const zone = (centre: number): number => {
      let [least, most] = [Infinity, 0];
      for (const [rho, z] of points) {
        const reach = Math.hypot(rho, z - centre);
        least = Math.min(least, reach);
        most = Math.max(most, reach);
      }
      return most - least;
    };
    const searched = Math.min(...Array.from({ length: 401 }, (_, i) => zone((i - 200) / 1000)));
    const cut = sweepSurface({ target: ball, sweep });
    // The search steps the centre by 1/1000, which the zone of some 0.2 follows one for one at worst.
    expect(Math.abs(cut.minimumZone.formDeviation / searched - 1)).toBeLessThan(0.005);
    expect(cut.minimumZone.formDeviation).toBeLessThan(cut.largestRadius - cut.smallestRadius);
  });

  it('does not change with the unit', () => {
    const at = (k: number) =>
      sweepSurface({
        target: { ...ball, radius: 20 * k, stemDiameter: 20 * k },
        sweep: { tiltDeg: 74, sweepRadius: 19 * k, distance: 5 * k, skew: 0.1 * k, miss: 0.2 * k, noseRadius: k },
      });
    const [inch, mm] = [at(1), at(25.4)];
    for (const key of ['radius', 'smallestRadius', 'largestRadius', 'pipDiameter', 'centreShift'] as const) {
      expect(mm[key] / inch[key] / 25.4).toBeCloseTo(1, 12);
    }
    expect(mm.coverage.fromDeg).toBeCloseTo(inch.coverage.fromDeg, 12);
  });

  it('changes with the settings as the sensitivities say', () => {
    const base = { tiltDeg: 70, sweepRadius: 19, distance: 6, miss: 0, skew: 0 };
    const { sensitivities: by } = sweepSurface({ target: ball, sweep: base });
    const slope = (key: keyof typeof base, result: (sweep: Sweep) => number, step: number): number =>
      (result({ ...base, [key]: base[key] + step }) - result({ ...base, [key]: base[key] - step })) / (2 * step);
    const radius = (sweep: Sweep): number => sweepSurface({ target: ball, sweep }).radius;
    // Two-sided differences of step 1e-4 are good to about 1e-8.
    for (const key of ['sweepRadius', 'distance', 'miss'] as const)
      expect(by.radius[key]).toBeCloseTo(slope(key, radius, 1e-4), 7);
    expect(slope('tiltDeg', radius, 1e-4)).toBeCloseTo(0, 9);
    // This sweep stops short of the pole, so half the pip is the miss itself.
    const miss = (sweep: Sweep): number => {
      const { freeEnd } = sweepSurface({ target: ball, sweep }).coverage;
      return ((freeEnd.state === 'past-pole' ? -1 : 1) * freeEnd.diameter) / 2;
    };
    for (const key of ['tiltDeg', 'sweepRadius', 'distance', 'miss'] as const)
      expect(by.poleMiss[key]).toBeCloseTo(slope(key, miss, 1e-4), 7);
    const through = (sweep: Sweep): number =>
      radius({ ...sweep, distance: sweep.sweepRadius / Math.tan((sweep.tiltDeg / 180) * Math.PI) });
    const pole = { ...base, distance: 19 / Math.tan((70 / 180) * Math.PI) };
    const byPole = sweepSurface({ target: ball, sweep: pole }).sensitivities.radiusThroughPole;
    for (const key of ['tiltDeg', 'sweepRadius'] as const)
      expect(byPole[key]).toBeCloseTo(slope(key, through, 1e-4), 7);
    const form = sweepSurface({ target: ball, sweep: { ...base, skew: 1e-5 } });
    expect((form.largestRadius - form.smallestRadius) / 1e-5).toBeCloseTo(by.formDeviation.skew, 5);
  });

  it('tells a sweep too large from one too small by the pip and by where the cut ends', () => {
    const large = sweepSurface({
      target: ball,
      sweep: { tiltDeg: 75, sweepRadius: 19.6, distance: Math.sqrt(400 - 19.6 ** 2) },
    });
    expect(large.coverage).toMatchObject({ freeEnd: { state: 'past-pole' }, farEnd: { state: 'undercut' } });
    expect(large.notes.map(({ code }) => code)).toEqual(['free-end-uncut', 'stem-undercut']);
    const small = sweepSurface({
      target: ball,
      sweep: { tiltDeg: 75, sweepRadius: 19, distance: Math.sqrt(400 - 361) },
    });
    expect(small.coverage).toMatchObject({ freeEnd: { state: 'not-reached' }, farEnd: { state: 'not-reached' } });
    expect(small.pipDiameter).toBeGreaterThan(0);
  });

  it('counts the ends of the sweep, so that no least-squares form is narrower than the minimum zone', () => {
    const target = { part: 'ball-on-stem', diameter: 32, stemDiameter: 14 } as const;
    const { sweep } = sweepSettings({ target });
    const { leastSquares, minimumZone } = sweepSurface({ target, sweep: { ...sweep, skew: 0.08 } });
    // By the closed form of a whole sweep: 2 r e over the sum of the distances at its ends and half-way.
    const [h, r, e] = [sweep.distance, sweep.sweepRadius, 0.08];
    const zone = (2 * r * e) / (Math.hypot(h, r, e) + Math.hypot(h, r - e));
    expect(minimumZone.formDeviation / zone).toBeCloseTo(1, 12);
    expect(leastSquares.formDeviation).toBeGreaterThan(zone);
    expect(leastSquares.rootMeanSquare).toBeLessThan(minimumZone.rootMeanSquare);
    fc.assert(
      fc.property(anySweep, fc.constantFrom<SphereTarget>(ball, socket), (given, part) => {
        const cut = sweepSurface({ target: part, sweep: { ...given, skew: (given.skew ?? 0) + 0.6 } });
        expect(cut.leastSquares.formDeviation).toBeGreaterThanOrEqual(cut.minimumZone.formDeviation);
      }),
      { numRuns: runs(40, 15) },
    );
  });

  it('converges on shallow domes with skew, as mirrors and lenses have them', () => {
    for (const radius of [1e3, 2e3, 1e5, 1e6]) {
      const target = { part: 'cap', radius, baseDiameter: 60 } as const;
      const { sweep } = sweepSettings({ target });
      const cut = sweepSurface({ target, sweep: { ...sweep, skew: 0.01 } });
      // r e / R, to first order in e / r.
      expect(cut.minimumZone.formDeviation / ((0.01 * sweep.sweepRadius) / radius)).toBeCloseTo(1, 3);
    }
  });

  it('with nose and skew comes to the sphere as the skew vanishes', () => {
    const { sweep } = sweepSettings({ target: ball, noseRadius: 0.8 });
    for (const skew of [1e-2, 1e-4, 1e-6]) {
      const cut = sweepSurface({ target: ball, sweep: { ...sweep, skew } });
      expect(Math.abs(cut.radius - 20)).toBeLessThan(skew);
      expect(cut.minimumZone.formDeviation).toBeLessThan(1.1 * skew);
      expect(cut.minimumZone.formDeviation).toBeGreaterThan(0.8 * skew);
    }
  });

  it('says what a nose that runs on leaves of a stem', () => {
    const cut = (diameter: number, stemDiameter: number, noseRadius: number, skew = 0) => {
      const target = { part: 'ball-on-stem', diameter, stemDiameter } as const;
      // As if the nose could reach the stem's own circle: tilt half of 180° - asin(d/D).
      const alpha = (Math.PI - Math.asin(stemDiameter / diameter)) / 2;
      const path = diameter / 2 + noseRadius;
      const sweep = {
        tiltDeg: (alpha * 180) / Math.PI,
        sweepRadius: path * Math.sin(alpha),
        distance: path * Math.cos(alpha),
      };
      const places = revolved(sweepPoints({ ...sweep, skew }, 72000)).filter(([, z]) => z < 0);
      const left = 2 * Math.max(0, Math.min(...places.map(([rho]) => rho)) - noseRadius);
      return { left, ...sweepSurface({ target, sweep: { ...sweep, noseRadius, skew } }) };
    };
    const cuts = [cut(32, 14, 0.8), cut(32, 14, 0.8, 0.3), cut(50, 25, 2)];
    expect(cuts[0]?.left).toBeCloseTo(13.1, 9);
    for (const { left, notes, coverage } of cuts) {
      expect(coverage.farEnd.state).toBe('undercut');
      // Points 5 arc minutes apart meet a lowest place to the square of that.
      expect(Math.abs((coverage.farEnd.stemLeft ?? 0) - left)).toBeLessThan(1e-6);
      const note = notes.find(({ code }) => code === 'stem-undercut');
      expect(note?.values).toMatchObject({ stemLeft: coverage.farEnd.stemLeft });
    }
    const severed = cut(6, 3, 3);
    expect(severed.left).toBeCloseTo(0, 12);
    expect(severed.notes[0]).toMatchObject({ code: 'stem-severed', values: { stemLeft: 0 } });
  });

  it.each<[Sweep, string]>([
    [{ tiltDeg: 0, sweepRadius: 1, distance: 1 }, 'out-of-range'],
    [{ tiltDeg: 180, sweepRadius: 1, distance: 1 }, 'out-of-range'],
    [{ tiltDeg: 40, sweepRadius: 0, distance: 1 }, 'out-of-range'],
    [{ tiltDeg: 40, sweepRadius: 1, distance: Number.POSITIVE_INFINITY }, 'not-finite'],
    [{ tiltDeg: 40, sweepRadius: 1, distance: 1, noseRadius: 2 }, 'impossible-geometry'],
    [{ tiltDeg: 40, sweepRadius: 1, distance: 1, lean: 2 } as Sweep, 'unknown-option'],
  ])('refuses %j with %s', (sweep, code) => {
    expect(() => sweepSurface({ target: ball, sweep })).toThrow(expect.objectContaining({ code }));
  });
});
