/**
 * Fits through points against reference solutions that are known by construction:
 *
 * - exact points;
 * - least squares: noise along the normals, made orthogonal to every change that a parameter can bring.
 *   The shape that the points were made from is then the least-squares solution itself (the null-space
 *   method by which national laboratories make reference data for fitting software);
 * - minimum zone: points at ± w in such an order that no small movement helps, all others inside;
 * - the stated uncertainties against the scatter of many simulated fits.
 */

import { coneThroughPoints, type Point, sphereThroughPoints } from 'generatrix/measure';
import { Matrix, SingularValueDecomposition } from 'ml-matrix';
import { uniformFloat64 } from 'pure-rand/distribution/uniformFloat64';
import { xoroshiro128plus } from 'pure-rand/generator/xoroshiro128plus';
import { describe, expect, it } from 'vitest';

const generator = xoroshiro128plus(20);
const random = (from = 0, to = 1): number => from + (to - from) * uniformFloat64(generator);
/** Standard normal by Box and Muller. */
const normal = (): number => Math.sqrt(-2 * Math.log(1 - random())) * Math.cos(2 * Math.PI * random());

/** Noise that no combination of the columns can explain. */
function unexplained(columns: readonly (readonly number[])[], noise: readonly number[]): number[] {
  const J = new Matrix(columns as number[][]);
  const e = Matrix.columnVector(noise as number[]);
  const fit = new SingularValueDecomposition(J, { autoTranspose: true }).solve(e);
  return Matrix.sub(e, J.mmul(fit)).to1DArray();
}

/** Directions on a cap about the pole, evenly in area. */
const onCap = (count: number, capDeg: number): Point[] =>
  Array.from({ length: count }, (_, i) => {
    const cos = 1 - (1 - Math.cos((capDeg * Math.PI) / 180)) * ((i + 0.5) / count);
    const turn = i * Math.PI * (3 - Math.sqrt(5));
    const sin = Math.sqrt(1 - cos * cos);
    return [sin * Math.cos(turn), sin * Math.sin(turn), cos];
  });

const CENTRE: Point = [3, -2, 7];
const place = (n: Point, r: number): Point => [CENTRE[0] + r * n[0], CENTRE[1] + r * n[1], CENTRE[2] + r * n[2]];

describe('sphere', () => {
  it.each([180, 90, 20])('exact points on a cap of %d° give the sphere to rounding times the condition', (cap) => {
    const { leastSquares, minimumZone } = sphereThroughPoints({ points: onCap(40, cap).map((n) => place(n, 25)) });
    const tolerance = 1e-15 * 30 * leastSquares.condition;
    for (const fit of [leastSquares, minimumZone]) {
      expect(Math.abs(fit.radius - 25)).toBeLessThan(tolerance);
      for (const k of [0, 1, 2] as const) expect(Math.abs(fit.centre[k] - CENTRE[k])).toBeLessThan(tolerance);
      expect(fit.formDeviation).toBeLessThan(1e-13);
    }
  });

  it.each([180, 60, 15])('is the known least-squares solution of noisy points on a cap of %d°', (cap) => {
    const directions = onCap(60, cap);
    const noise = unexplained(
      directions.map((n) => [...n, 1]),
      directions.map(() => 0.01 * normal()),
    );
    const points = directions.map((n, i) => place(n, 25 + (noise[i] ?? 0)));
    const { leastSquares } = sphereThroughPoints({ points });
    const tolerance = 1e-14 * 30 * leastSquares.condition ** 2;
    expect(Math.abs(leastSquares.radius - 25)).toBeLessThan(tolerance);
    for (const k of [0, 1, 2] as const) expect(Math.abs(leastSquares.centre[k] - CENTRE[k])).toBeLessThan(tolerance);
    expect(leastSquares.residuals[7]).toBeCloseTo(noise[7] ?? 0, 9);
  });

  it('is the known minimum zone: six contacts that alternate, all else inside', () => {
    // The poles of a coordinate cross at + w, and four points of a tetrahedron at - w, hold the centre from
    // every side; the rest lies within the zone.
    const w = 0.02;
    const t = 1 / Math.sqrt(3);
    const outer: Point[] = [
      [1, 0, 0],
      [-1, 0, 0],
      [0, 1, 0],
      [0, -1, 0],
      [0, 0, 1],
      [0, 0, -1],
    ];
    const inner: Point[] = [
      [t, t, t],
      [t, -t, -t],
      [-t, t, -t],
      [-t, -t, t],
    ];
    const points = [
      ...outer.map((n) => place(n, 25 + w)),
      ...inner.map((n) => place(n, 25 - w)),
      ...onCap(50, 180).map((n) => place(n, 25 + 0.9 * random(-w, w))),
    ];
    const { minimumZone, leastSquares } = sphereThroughPoints({ points });
    expect(minimumZone.radius).toBeCloseTo(25, 12);
    for (const k of [0, 1, 2] as const) expect(minimumZone.centre[k]).toBeCloseTo(CENTRE[k], 12);
    expect(minimumZone.formDeviation).toBeCloseTo(2 * w, 12);
    expect(minimumZone.provenWithin).toBeLessThan(1e-13);
    expect(Math.max(...minimumZone.contacts)).toBeLessThan(10);
    expect(leastSquares.formDeviation).toBeGreaterThan(minimumZone.formDeviation);
  });

  it('no sphere nearby has a narrower zone (random search about the answer)', () => {
    for (let round = 0; round < 20; round++) {
      const points = onCap(30, random(30, 180)).map((n) => place(n, 25 + random(-0.01, 0.01)));
      const { minimumZone } = sphereThroughPoints({ points });
      expect(minimumZone.provenWithin).toBeLessThan(1e-6 * minimumZone.formDeviation);
      for (let i = 0; i < 2000; i++) {
        const size = 10 ** random(-6, -1);
        const c = minimumZone.centre.map((value) => value + size * normal());
        const d = points.map((p) => Math.hypot(...p.map((value, k) => value - (c[k] ?? 0))));
        expect(Math.max(...d) - Math.min(...d)).toBeGreaterThan(minimumZone.formDeviation * (1 - 1e-6));
      }
    }
  });

  it('on the axis, the centre stays on the axis', () => {
    const points = onCap(30, 70).map(([x, y, z]) => [25 * x, 25 * y, 25 * z - 4] as const);
    const { leastSquares, minimumZone } = sphereThroughPoints({ points, centre: 'on-axis' });
    for (const { centre, radius } of [leastSquares, minimumZone]) {
      expect(centre.slice(0, 2)).toEqual([0, 0]);
      expect(centre[2]).toBeCloseTo(-4, 12);
      expect(radius).toBeCloseTo(25, 12);
    }
  });

  it.each([180, 30])('states the uncertainty that simulated fits scatter by, on a cap of %d°', (cap) => {
    const u = 0.002;
    const directions = onCap(25, cap);
    const fits = Array.from({ length: 500 }, () =>
      sphereThroughPoints({ points: directions.map((n) => place(n, 25 + u * normal())), standardUncertainty: u }),
    );
    const spread = (values: readonly number[]): number => {
      const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
      return Math.sqrt(values.reduce((sum, value) => sum + (value - mean) ** 2, 0) / (values.length - 1));
    };
    // 500 fits know their standard deviation to 1/sqrt(1000) = 3.2 %; 12 % is nearly four of these.
    const stated = fits[0]?.leastSquares.standardUncertainty;
    expect(Math.abs(spread(fits.map((f) => f.leastSquares.radius)) / (stated?.radius ?? 0) - 1)).toBeLessThan(0.12);
  });

  it('says so where a small cap determines the sphere poorly', () => {
    const { notes, leastSquares } = sphereThroughPoints({ points: onCap(30, 2).map((n) => place(n, 25)) });
    expect(notes.map(({ code }) => code)).toEqual(['points-poorly-spread']);
    expect(leastSquares.condition).toBeGreaterThan(1e3);
    expect(sphereThroughPoints({ points: onCap(30, 90).map((n) => place(n, 25)) }).notes).toEqual([]);
  });
});

describe('cone', () => {
  const tilt = 0.1;
  /** A point of the cone about an axis tilted in the xz plane, and the outward normal there. */
  const onCone = (alphaDeg: number, along: number, turn: number): { point: Point; normal: Point; rho: number } => {
    const [sin, cos] = [Math.sin((alphaDeg * Math.PI) / 180), Math.cos((alphaDeg * Math.PI) / 180)];
    const rho = 10 + (along * sin) / cos;
    const turned = ([x, y, z]: Point): Point => [
      x * Math.cos(tilt) + z * Math.sin(tilt),
      y,
      z * Math.cos(tilt) - x * Math.sin(tilt),
    ];
    const [px, py, pz] = turned([rho * Math.cos(turn), rho * Math.sin(turn), along]);
    return { point: [px + 3, py - 2, pz + 7], normal: turned([cos * Math.cos(turn), cos * Math.sin(turn), -sin]), rho };
  };
  const grid = Array.from({ length: 48 }, (_, i) => ({
    along: -15 + 10 * (i % 4),
    turn: (2 * Math.PI * i) / 48 + 0.1,
  }));

  it.each([1.5, 8, 30])('exact points give half angle %d° and its axis', (alphaDeg) => {
    const points = grid.map(({ along, turn }) => onCone(alphaDeg, along, turn).point);
    const { leastSquares, minimumZone } = coneThroughPoints({ points });
    for (const fit of [leastSquares, minimumZone]) {
      expect(fit.halfAngleDeg).toBeCloseTo(alphaDeg, 11);
      expect(fit.axisDirection[0]).toBeCloseTo(Math.sin(tilt), 12);
      expect(fit.formDeviation).toBeLessThan(1e-12);
      expect(fit.diameter).toBeCloseTo(20, 11); // along = 0 is the middle of the points
    }
  });

  it('turns the axis towards the large end', () => {
    const points = grid.map(({ along, turn }) => onCone(8, along, turn).point);
    const { leastSquares } = coneThroughPoints({ points, roughAxis: [0, 0, -2] });
    expect(leastSquares.halfAngleDeg).toBeCloseTo(8, 11);
    expect(leastSquares.axisDirection[2]).toBeCloseTo(Math.cos(tilt), 12);
  });

  it('is the known least-squares solution of noisy points', () => {
    const made = grid.map(({ along, turn }) => ({ ...onCone(8, along, turn), along, turn }));
    // Changes of the distance with a shift (2), a tilt (2), the angle and the offset of the side, by hand.
    const [sin, cos] = [Math.sin((8 * Math.PI) / 180), Math.cos((8 * Math.PI) / 180)];
    const columns = made.map(({ along, turn, rho }) => {
      const arm = along * cos + rho * sin;
      return [Math.cos(turn), Math.sin(turn), arm * Math.cos(turn), arm * Math.sin(turn), arm, 1].map((v, k) =>
        k < 2 ? v * cos : v,
      );
    });
    const noise = unexplained(
      columns,
      made.map(() => 0.01 * normal()),
    );
    const points = made.map(
      ({ point, normal: n }, i) => point.map((v, k) => v + (noise[i] ?? 0) * (n[k] ?? 0)) as unknown as Point,
    );
    const { leastSquares, minimumZone } = coneThroughPoints({ points });
    expect(leastSquares.halfAngleDeg).toBeCloseTo(8, 9);
    expect(leastSquares.rootMeanSquare).toBeCloseTo(Math.sqrt(noise.reduce((sum, e) => sum + e * e, 0) / 48), 11);
    expect(minimumZone.formDeviation).toBeLessThan(leastSquares.formDeviation);
    expect(minimumZone.provenWithin).toBeLessThan(1e-6 * minimumZone.formDeviation);
  });

  it('states the uncertainty that simulated fits scatter by', () => {
    const u = 0.002;
    const made = grid.map(({ along, turn }) => onCone(8, along, turn));
    const fits = Array.from({ length: 200 }, () => {
      const points = made.map(({ point, normal: n }) => {
        const e = u * normal();
        return point.map((v, k) => v + e * (n[k] ?? 0)) as unknown as Point;
      });
      return coneThroughPoints({ points, standardUncertainty: u }).leastSquares;
    });
    for (const key of ['halfAngleDeg', 'diameter'] as const) {
      const truth = key === 'diameter' ? 20 : 8;
      const rms = Math.sqrt(fits.reduce((sum, fit) => sum + (fit[key] - truth) ** 2, 0) / fits.length);
      // 200 fits know their standard deviation to 1/sqrt(400) = 5 %; 19 % is nearly four of these.
      expect(Math.abs(rms / (fits[0]?.standardUncertainty[key] ?? 0) - 1)).toBeLessThan(0.19);
    }
  });
});

const square: Point[] = [
  [1, 0, 0],
  [-1, 0, 0],
  [0, 1, 0],
  [0, -1, 0],
];
it.each<[string, () => unknown]>([
  ['out-of-range', () => sphereThroughPoints({ points: square })],
  ['impossible-geometry', () => sphereThroughPoints({ points: [...square, [0.6, 0.8, 0], [0.8, 0.6, 0]] })],
  ['impossible-geometry', () => sphereThroughPoints({ points: new Array(6).fill([1, 1, 1]) })],
  ['not-finite', () => sphereThroughPoints({ points: [...square, [0, 0, Number.NaN]] })],
  ['wrong-kind', () => sphereThroughPoints({ points: [...square, [0, 0] as never] })],
  ['wrong-kind', () => sphereThroughPoints({ points: 3 as never })],
  ['out-of-range', () => sphereThroughPoints({ points: [...square, [0, 0, 1]], standardUncertainty: 0 })],
  ['out-of-range', () => sphereThroughPoints({ points: [...square, [0, 0, 1]], centre: 'fixed' as never })],
  ['out-of-range', () => coneThroughPoints({ points: square })],
  ['out-of-range', () => coneThroughPoints({ points: onCap(10, 90), roughAxis: [0, 0, 0] })],
  ['impossible-geometry', () => coneThroughPoints({ points: new Array(9).fill([1, 1, 1]) })],
])('refuses with %s', (code, call) => {
  expect(call).toThrow(expect.objectContaining({ name: 'GeneratrixError', code }));
});

it('takes more points than a function takes arguments, and finds the zone that some of them were made to bear', () => {
  // ± w by turns in eight directions of a cube hold centre and radius from all sides; the rest lies inside.
  const [w, t] = [0.02, 1 / Math.sqrt(3)];
  const corners = [-t, t].flatMap((x) => [-t, t].flatMap((y) => [-t, t].map((z): Point => [x, y, z])));
  const points = [
    ...corners.map((n) => place(n, 25 + w * Math.sign(n[0] * n[1] * n[2]))),
    ...onCap(130_000, 180).map((n, i) => place(n, 25 + (i % 2 === 0 ? 0.5 : -0.5) * w)),
  ];
  const { minimumZone, leastSquares } = sphereThroughPoints({ points });
  expect(minimumZone.radius).toBeCloseTo(25, 12);
  expect(minimumZone.formDeviation).toBeCloseTo(2 * w, 12);
  expect(leastSquares.residuals.length).toBe(points.length);
});

it.each<[string, string, () => unknown]>([
  ['wrong-kind', 'points[0]', () => sphereThroughPoints({ points: new Array(6) })],
  ['wrong-kind', 'points[4]', () => sphereThroughPoints({ points: [...square, [0, 0] as never] })],
  ['not-finite', 'points[4][2]', () => sphereThroughPoints({ points: [...square, [0, 0, Number.NaN]] })],
  ['out-of-range', 'points[4][0]', () => sphereThroughPoints({ points: [...square, [1e200, 0, 1]] })],
  ['out-of-range', 'points', () => sphereThroughPoints({ points: square })],
  ['unknown-option', 'center', () => sphereThroughPoints({ points: square, center: 'free' } as never)],
  ['out-of-range', 'roughAxis', () => coneThroughPoints({ points: onCap(10, 90), roughAxis: [0, 0, 0] })],
  ['out-of-range', 'roughHalfAngleDeg', () => coneThroughPoints({ points: onCap(10, 90), roughHalfAngleDeg: 90 })],
  ['missing-option', 'points', () => coneThroughPoints({} as never)],
])('refuses with %s at %s', (code, parameter, call) => {
  expect(call).toThrow(expect.objectContaining({ name: 'GeneratrixError', code, parameter }));
});
