/** Doubles as decimals, for tests that hold the kernel against the same geometry at 60 digits. */
import { Decimal } from 'decimal.js';

export const D: typeof Decimal = Decimal.clone({ precision: 60 });

/** The very value of a double; Decimal's own constructor takes the shortest decimal that names it. */
export function exact(value: number): Decimal {
  if (value === 0) return new D(0);
  if (Math.abs(value) < 1e-200) return exact(value * 2 ** 600).div(new D(2).pow(600));
  const shift = 52 - Math.floor(Math.log2(Math.abs(value)));
  return new D(value * 2 ** shift).div(new D(2).pow(shift));
}

export type Vector = readonly [number, number, number];

/** Radius at z of the path revolved: where the path crosses the plane z, how far is it from the axis. */
export function exactRadius(point: Vector, direction: Vector, z: Decimal): Decimal {
  const t = z.minus(exact(point[2])).div(exact(direction[2]));
  const x = t.times(exact(direction[0])).plus(exact(point[0]));
  const y = t.times(exact(direction[1])).plus(exact(point[1]));
  return x.times(x).plus(y.times(y)).sqrt();
}

const GOLDEN = new D(5).sqrt().minus(1).div(2);

/** Place and value of the largest of a function with one hump between a and b, by golden section. */
export function highest(f: (z: Decimal) => Decimal, a: Decimal, b: Decimal): readonly [Decimal, Decimal] {
  const at = (z: Decimal) => [z, f(z)] as const;
  let [low, high] = [a, b];
  const step = (): Decimal => high.minus(low).times(GOLDEN);
  let [left, right] = [at(high.minus(step())), at(low.plus(step()))];
  for (let i = 0; i < 60; i++) {
    // The golden section of what is left is the place already looked at.
    if (left[1].greaterThan(right[1])) [high, right, left] = [right[0], left, at(low.plus(right[0].minus(left[0])))];
    else [low, left, right] = [left[0], right, at(high.minus(right[0].minus(left[0])))];
  }
  return left[1].greaterThan(right[1]) ? left : right;
}
