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

/** Place and value of the largest of a function with one hump between a and b, by golden section. */
export function highest(f: (z: Decimal) => Decimal, a: Decimal, b: Decimal): readonly [Decimal, Decimal] {
  const ratio = new D(5).sqrt().minus(1).div(2);
  let [low, high] = [a, b];
  for (let i = 0; i < 60; i++) {
    const step = high.minus(low).times(ratio);
    const [left, right] = [high.minus(step), low.plus(step)];
    if (f(left).greaterThan(f(right))) high = right;
    else low = left;
  }
  return [low, f(low)];
}
