import { Decimal } from 'decimal.js';
import fc from 'fast-check';
import {
  ballCutterSteps,
  type SphereTarget,
  sphereShape,
  sphereSteps,
  sweepCorrection,
  sweepSettings,
  sweepSurface,
  swivelSettings,
} from 'generatrix/sphere';
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
    );
  });

  it('keeps the digits of a tiny stem', () => {
    const shape = sphereShape({ part: 'ball-on-stem', radius: 1, stemDiameter: 1e-9 });
    expect(Math.abs(shape.toDiameter / 1e-9 - 1)).toBeLessThan(1e-15);
    expect(
      sphereShape({ part: 'ball-between-stems', radius: 1, stemDiameter: 0.5, freeStemDiameter: 1e-9 }).fromDiameter,
    ).toBeCloseTo(1e-9, 22);
  });

  it.each<[unknown, string, string]>([
    [{ part: 'ball-on-stem', radius: 10, stemDiameter: 20 }, 'out-of-range', 'target.stemDiameter'],
    [{ part: 'ball-on-stem', stemDiameter: 20 }, 'missing-option', 'target.diameter'],
    [{ part: 'ball-on-stem', radius: 10, diameter: 20, stemDiameter: 5 }, 'contradiction', 'target.diameter'],
    [{ part: 'ball-on-stem', radius: 10, stemDiameter: 5, flatDiameter: 2 }, 'unknown-option', 'target.flatDiameter'],
    [{ part: 'ball-on-stem', diameter: 5e-324, stemDiameter: 1 }, 'not-representable', 'target.diameter'],
    [{ part: 'ball-between-stems', radius: 10, stemDiameter: 5 }, 'missing-option', 'target.freeStemDiameter'],
    [{ part: 'ball-end', radius: 10, stemDiameter: 5, flatDiameter: 21 }, 'out-of-range', 'target.flatDiameter'],
    [{ part: 'socket', radius: 10, openingDiameter: 21 }, 'out-of-range', 'target.openingDiameter'],
    [{ part: 'socket', radius: 10, depth: 16 }, 'impossible-geometry', 'target.depth'],
    [{ part: 'socket', radius: 10 }, 'missing-option', 'target'],
    [{ part: 'socket', radius: 10, depth: 5, openingDiameter: 10 }, 'contradiction', 'target.depth'],
    [{ part: 'cap', radius: 10, height: 20 }, 'out-of-range', 'target.height'],
    [{ part: 'cap', baseDiameter: 1e-300, height: 1e300 }, 'not-representable', 'target.height'],
    [{ part: 'cap', baseDiameter: 1e300, height: 1e-300 }, 'not-representable', 'target.height'],
    [{ part: 'cap', radius: Number.NaN, height: 2 }, 'not-finite', 'target.radius'],
    [{ part: 'egg' }, 'out-of-range', 'target.part'],
    [{ radius: 3 }, 'missing-option', 'target.part'],
    [null, 'wrong-kind', 'target'],
  ])('refuses %j with %s at %s, the same in each function', (given, code, parameter) => {
    const target = given as SphereTarget;
    const sweep = { tiltDeg: 60, sweepRadius: 1, distance: 1 };
    for (const call of [
      () => sweepSettings({ target }),
      () => sweepSurface({ target, sweep }),
      () => sphereSteps({ target, steps: 4 }),
      () => ballCutterSteps({ target, cutterRadius: 1, steps: 4 }),
      () => swivelSettings({ target }),
      () => sweepCorrection({ target, sweep, measuredDiameter: 3 }),
    ]) {
      expect(call).toThrow(expect.objectContaining({ code, parameter }));
    }
  });

  it('tells the kinds of part as data', () => {
    const choices = ['ball-on-stem', 'ball-between-stems', 'ball-end', 'cap', 'socket'];
    expect(() => sphereShape({ part: 'ball' } as unknown as SphereTarget)).toThrow(
      expect.objectContaining({ parameter: 'part', allowed: expect.objectContaining({ kind: 'choice', choices }) }),
    );
  });
});
