import fc from 'fast-check';
import { circleMeridian, circlePoint, revolveCircle } from 'generatrix';
import { describe, expect, it } from 'vitest';
import { runs, seeded } from '../oracle/seed.js';
import { randomFrom, randomSetup } from './brute-circle.js';
import { errorsOf } from './circle-cases.js';

const setups = fc.integer({ min: 1, max: 2 ** 31 - 1 }).map((seed) => randomSetup(randomFrom(seed)));

describe('a revolved circle', () => {
  // 1e-12 is what the library promises; `npm run check:circles` tries 10,000.
  it('agrees with brute force in space for random set-ups', () => {
    const random = randomFrom(seeded(20240611));
    const worst: Record<string, number> = {};
    for (let i = 0; i < runs(1000, 200); i++) {
      for (const [name, error] of Object.entries(errorsOf(random))) {
        worst[name] = Math.max(worst[name] ?? 0, Math.abs(error));
      }
    }
    expect(Object.keys(worst).length).toBe(26);
    for (const [name, error] of Object.entries(worst)) expect(error, name).toBeLessThan(1e-12);
  });

  it('has a torus, a face and a ring as its special cases', () => {
    const upright = (skew: number) => revolveCircle({ tiltDeg: 90, sweepRadius: 3, distance: 0, skew });
    expect(upright(5)).toMatchObject({ kind: 'torus', majorRadius: 5, minorRadius: 3, form: 'ring', nearestToAxis: 2 });
    expect(upright(-3)).toMatchObject({ kind: 'torus', form: 'horn', nearestToAxis: 0, farthestFromAxis: 6 });
    // A horn torus comes into its middle along the axis.
    expect(upright(-3)).toMatchObject({ polarFromDeg: 0, polarToDeg: 180 });
    expect(upright(1)).toMatchObject({ kind: 'torus', form: 'spindle', pipRadius: 1, nearestToAxis: 0 });
    expect(upright(0)).toMatchObject({ kind: 'sphere', sphereRadius: 3, polarFromDeg: 0, polarToDeg: 180 });
    expect(revolveCircle({ tiltDeg: 90, sweepRadius: 3, distance: 1, skew: 5 }).kind).toBe('skew-sweep');
    const face = revolveCircle({ tiltDeg: 180, sweepRadius: 3, distance: 4, skew: 5 });
    expect(face).toMatchObject({ kind: 'face', zMin: -4, zMax: -4, nearestToAxis: 2, farthestFromAxis: 8 });
  });

  it('is a ring, never a sphere, when the axes coincide', () => {
    fc.assert(
      fc.property(setups, fc.constantFrom(0, 180), (setup, tiltDeg) => {
        const ring = revolveCircle({ ...setup, tiltDeg, skew: 0 });
        expect(ring).toMatchObject({
          kind: 'ring',
          nearestToAxis: setup.sweepRadius,
          farthestFromAxis: setup.sweepRadius,
        });
        const query = { sweep: { ...setup, tiltDeg }, side: 'ball' } as const;
        expect(() => circleMeridian({ ...query, z: 0 })).toThrow('tiltDeg');
        expect(() => circlePoint({ ...query, turnDeg: 0 })).toThrow('tiltDeg');
      }),
    );
  });

  it('refuses what is no sweep', () => {
    const good = { tiltDeg: 30, sweepRadius: 3, distance: 4 };
    expect(() => revolveCircle({ ...good, sweepRadius: 0 })).toThrow('sweepRadius');
    expect(() => revolveCircle({ ...good, tiltDeg: -1 })).toThrow('tiltDeg');
    expect(() => revolveCircle({ ...good, distance: Number.NaN })).toThrow('distance');
    expect(() => revolveCircle({ ...good, skew: 1e101 })).toThrow('skew');
    expect(() => revolveCircle({ ...good, tilt: 30 } as typeof good)).toThrow('tilt:');
  });
});

describe('properties', () => {
  it('a skew that vanishes leaves the sphere, off by at most the skew', () => {
    fc.assert(
      fc.property(setups, fc.double({ min: 0.05, max: 0.95, noNaN: true }), (setup, part) => {
        const sphere = revolveCircle({ ...setup, skew: 0 });
        const skew = 1e-9 * setup.sweepRadius;
        const surface = revolveCircle({ ...setup, skew });
        const z = surface.zMin + part * (surface.zMax - surface.zMin);
        const exact = circleMeridian({ sweep: { ...setup, skew: 0 }, z, side: 'ball' }).radius;
        for (const side of ['ball', 'socket'] as const) {
          const { radius: rho } = circleMeridian({ sweep: { ...setup, skew }, z, side });
          const radial = Math.sqrt(rho * rho + z * z) - Math.sqrt(exact * exact + z * z);
          // ρ² + z² changes by at most 2 r e + e²; the rest is rounding.
          expect(Math.abs(radial)).toBeLessThanOrEqual(skew * 1.001 + 1e-13 * sphere.farthestFromFoot);
        }
        expect(surface.polarFromDeg).toBeCloseTo(sphere.polarFromDeg, 4);
      }),
    );
  });

  it('mirrored skew, and the opposite direction of the head axis, give the same surface', () => {
    fc.assert(
      fc.property(setups, (setup) => {
        const plain = revolveCircle(setup);
        const others = [
          { ...setup, skew: -setup.skew },
          { ...setup, tiltDeg: 180 - setup.tiltDeg, distance: -setup.distance },
        ].map(revolveCircle);
        for (const other of others) {
          for (const [key, value] of Object.entries(plain)) {
            if (typeof value !== 'number') continue;
            const size = key.endsWith('Deg') ? 180 : plain.farthestFromFoot;
            const got = other[key as 'zMin'];
            // β belongs to the direction of the axis, and turns with it.
            if (key === 'halfWidthDeg') continue;
            expect(Math.abs(got - value), key).toBeLessThanOrEqual(1e-14 * size);
          }
        }
      }),
    );
  });

  it('scales: lengths by the factor, angles not at all', () => {
    fc.assert(
      fc.property(setups, fc.constantFrom(2 ** -40, 0.5, 1024, 2 ** 60), (setup, factor) => {
        const scaled = revolveCircle({
          tiltDeg: setup.tiltDeg,
          sweepRadius: setup.sweepRadius * factor,
          distance: setup.distance * factor,
          skew: setup.skew * factor,
        });
        // Powers of two scale without rounding, so the digits must be the same.
        for (const [key, value] of Object.entries(revolveCircle(setup))) {
          if (typeof value === 'number') {
            expect(scaled[key as 'zMin'], key).toBe(key.endsWith('Deg') ? value : value * factor);
          }
        }
      }),
    );
  });

  it('reaches the pole exactly when the tilt equals the half-width, and then R = r / sin(tilt)', () => {
    fc.assert(
      fc.property(fc.double({ min: 1, max: 89, noNaN: true }), (tiltDeg) => {
        const sin = Math.sin((tiltDeg * Math.PI) / 180);
        const distance = Math.cos((tiltDeg * Math.PI) / 180) * 50;
        const ball = revolveCircle({ tiltDeg, sweepRadius: 50 * sin, distance });
        expect(ball.kind === 'sphere' && ball.sphereRadius).toBeCloseTo(50, 12);
        expect(ball.pipRadius).toBeLessThan(50 * 1e-15);
        expect(ball.polarToDeg).toBeCloseTo(2 * tiltDeg, 11);
      }),
    );
  });
});

describe('the branch that a part keeps', () => {
  const sweep = { tiltDeg: 40, sweepRadius: 10, distance: 12, skew: -0.5 };
  const z = 10;
  const at = (side: 'ball' | 'socket', fromDeg: number, toDeg: number) =>
    circleMeridian({ sweep, z, side, arc: { fromDeg, toDeg } });

  it('is the one of less stock on a ball, of more room in a socket, cut all round', () => {
    const ball = circleMeridian({ sweep, z, side: 'ball' });
    const socket = circleMeridian({ sweep, z, side: 'socket' });
    expect([ball.branch, socket.branch]).toEqual(['inner', 'outer']);
    expect(socket.radius).toBeGreaterThan(ball.radius);
    expect(ball.turnDeg + socket.turnDeg).toBeCloseTo(360, 12);
    expect(at('ball', -90, 270)).toEqual(ball);
  });

  it('is the only one that a half sweep reaches, and none where the tool does not cut', () => {
    // Skew towards -y: there the sweep passes outside, at +y inside.
    expect([at('ball', 0, 180).branch, at('socket', 0, 180).branch]).toEqual(['inner', 'inner']);
    expect([at('ball', 180, 360).branch, at('socket', -180, 0).branch]).toEqual(['outer', 'outer']);
    expect(() => at('ball', 0, 1)).toThrow('arc: ');
    expect(() => at('ball', 10, 5)).toThrow('arc.toDeg');
    expect(() => circleMeridian({ sweep, z: 100, side: 'ball' })).toThrow('z: ');
  });
});
