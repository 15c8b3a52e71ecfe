/** A straight tool path as points in space, revolved about z: no closed form of the surface is used. */

/** Radius and place of a point once the work has turned under it. */
function revolved([x, y, z]: readonly [number, number, number]): { radius: number; z: number } {
  return { radius: Math.hypot(x, y), z };
}

/**
 * A path that falls towards the axis at an angle, at a height, and cuts a radius at z = 0; the radius
 * at a distance z from there. The start is found by bisection on the radius.
 */
export function brutePath(angleRad: number, height: number, startRadius: number): (z: number) => number {
  let [low, high] = [0, startRadius];
  for (let i = 0; i < 200; i++) {
    const middle = (low + high) / 2;
    if (revolved([middle, height, 0]).radius < startRadius) low = middle;
    else high = middle;
  }
  return (z) => {
    const travel = z / Math.cos(angleRad);
    return revolved([high - travel * Math.sin(angleRad), height, travel * Math.cos(angleRad)]).radius;
  };
}

/** How far a curve lies below its chord at most: dense samples, then golden-section search. */
export function bruteHollow(radiusAt: (z: number) => number, length: number): number {
  const [start, end] = [radiusAt(0), radiusAt(length)];
  const below = (z: number): number => start + ((end - start) * z) / length - radiusAt(z);
  let [best, most] = [0, below(0)];
  for (let i = 1; i <= 400; i++) {
    const found = below((length * i) / 400);
    if (found > most) [best, most] = [(length * i) / 400, found];
  }
  let [low, high] = [Math.max(0, best - length / 400), Math.min(length, best + length / 400)];
  // To 1e-10 of the length: at a smooth crest the square of that is lost.
  for (let i = 0; i < 40; i++) {
    const [a, b] = [low + (high - low) * 0.381966, low + (high - low) * 0.618034];
    if (below(a) > below(b)) high = b;
    else low = a;
  }
  return below((low + high) / 2);
}
