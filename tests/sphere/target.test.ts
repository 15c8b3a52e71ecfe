import { Decimal } from 'decimal.js';
import fc from 'fast-check';
import { type SphereTarget, sphereShape } from 'generatrix/sphere';
import { describe, expect, it } from 'vitest';

const D = Decimal.clone({ precision: 50 });

describe('a sphere as the drawing gives it', () => {
  it('has the sagitta of the general formula, with 50 digits as the judge', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 1, max: 1000, noNaN: true }),
        fc.double({ min: 1e-3, max: 1.99, noNaN: true }),
        (r, k) => {
          const openingDiameter = r * k;
          const { toHeight, toDiameter } = sphereShape({ part: 'socket', radius: r, openingDiameter });
          const height = new D(r).pow(2).minus(new D(openingDiameter).div(2).pow(2)).sqrt();
          // Judged against the radius; an opening near the diameter passes its own rounding on tenfold at most.
          expect(Math.abs(toHeight - height.toNumber()) / r).toBeLessThan(4e-15);
          expect(Math.abs(toDiameter / openingDiameter - 1)).toBeLessThan(2e-15);
        },
      ),
      { seed: 3 },
    );
  });

  it('states a socket the same by any two of size, opening and depth', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.01, max: 1e4, noNaN: true }),
        fc.double({ min: 0.02, max: 0.99, noNaN: true }),
        (r, k) => {
          const depth = r * k;
          const one = sphereShape({ part: 'socket', radius: r, depth });
          const two = sphereShape({ part: 'socket', diameter: 2 * r, openingDiameter: one.toDiameter });
          const three = sphereShape({ part: 'socket', openingDiameter: one.toDiameter, depth });
          expect(one.radius - one.toHeight).toBeCloseTo(depth, -Math.log10(r * 1e-13));
          // The depth is lost from the opening as the opening nears the diameter: condition (R/height)².
          for (const other of [two, three])
            expect(Math.abs(other.toDeg / one.toDeg - 1)).toBeLessThan(1e-12 / (1 - k) ** 2);
          expect(Math.abs(three.radius / r - 1)).toBeLessThan(1e-12);
        },
      ),
      { seed: 3 },
    );
  });

  it('keeps the digits of a tiny stem', () => {
    const shape = sphereShape({ part: 'ball-on-stem', radius: 1, stemDiameter: 1e-9 });
    expect(Math.abs(shape.toDiameter / 1e-9 - 1)).toBeLessThan(1e-15);
    expect(
      sphereShape({ part: 'ball-between-stems', radius: 1, stemDiameter: 0.5, freeStemDiameter: 1e-9 }).fromDiameter,
    ).toBeCloseTo(1e-9, 22);
  });

  it.each<[SphereTarget, string]>([
    [{ part: 'ball-on-stem', radius: 10, stemDiameter: 20 }, 'out-of-range'],
    [{ part: 'ball-on-stem', stemDiameter: 20 } as unknown as SphereTarget, 'missing-option'],
    [{ part: 'ball-on-stem', radius: 10, diameter: 20, stemDiameter: 5 }, 'contradiction'],
    [{ part: 'ball-on-stem', radius: 10, stemDiameter: 5, flatDiameter: 2 } as SphereTarget, 'unknown-option'],
    [{ part: 'socket', radius: 10, openingDiameter: 21 }, 'out-of-range'],
    [{ part: 'socket', radius: 10, depth: 16 }, 'impossible-geometry'],
    [{ part: 'socket', radius: 10 }, 'missing-option'],
    [{ part: 'socket', radius: 10, depth: 5, openingDiameter: 10 }, 'contradiction'],
    [{ part: 'cap', radius: 10, height: 20 }, 'out-of-range'],
    [{ part: 'cap', baseDiameter: 1e-300, height: 1e300 }, 'not-representable'],
    [{ part: 'cap', baseDiameter: 1e300, height: 1e-300 }, 'not-representable'],
    [{ part: 'egg' } as unknown as SphereTarget, 'out-of-range'],
    [undefined as unknown as SphereTarget, 'wrong-kind'],
    [{ part: 'cap', radius: Number.NaN, height: 2 }, 'not-finite'],
  ])('refuses %j with %s', (target, code) => {
    expect(() => sphereShape(target)).toThrow(expect.objectContaining({ code }));
  });
});
