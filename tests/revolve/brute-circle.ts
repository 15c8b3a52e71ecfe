/**
 * Brute force for revolved circles, sharing nothing with the library: the circle is built in space by
 * turning points with rotation matrices, revolved by taking distances from the z axis, and searched with
 * a golden section. Also the seeded random set-ups.
 */
import { xoroshiro128plus } from 'pure-rand/generator/xoroshiro128plus';

export interface Setup {
  readonly tiltDeg: number;
  readonly sweepRadius: number;
  readonly distance: number;
  readonly skew: number;
}

/** A point of the sweep, t in radians: a flat circle lifted to h, tilted about y, moved along y. */
export function pointInSpace(
  { tiltDeg, sweepRadius: radius, distance, skew }: Setup,
  t: number,
): [number, number, number] {
  // In the head's own frame the axis is z. t counts from the direction that tilts down towards -z.
  const head = [radius * Math.cos(t), radius * Math.sin(t), distance] as const;
  const tilt = (tiltDeg * Math.PI) / 180;
  const x = Math.cos(tilt) * head[0] + Math.sin(tilt) * head[2];
  const z = -Math.sin(tilt) * head[0] + Math.cos(tilt) * head[2];
  return [x, head[1] + skew, z];
}

/** The point after the work has turned by psi: any such point lies on the surface. */
export function turned([x, y, z]: readonly [number, number, number], psi: number): [number, number, number] {
  return [x * Math.cos(psi) - y * Math.sin(psi), x * Math.sin(psi) + y * Math.cos(psi), z];
}

/** Least value of f over one period, by sampling and golden section around every sampled low. */
export function leastAround(f: (t: number) => number, samples = 720): number {
  const step = (2 * Math.PI) / samples;
  const values = Array.from({ length: samples }, (_, i) => f(i * step));
  let least = Math.min(...values);
  for (let i = 0; i < samples; i++) {
    const [before, here, after] = [-1, 0, 1].map((d) => values[(i + d + samples) % samples] as number);
    if ((here as number) <= (before as number) && (here as number) <= (after as number)) {
      least = Math.min(least, goldenLeast(f, (i - 1) * step, (i + 1) * step));
    }
  }
  return least;
}

function goldenLeast(f: (t: number) => number, a: number, b: number): number {
  const golden = (Math.sqrt(5) - 1) / 2;
  let [low, high] = [a, b];
  let [c, d] = [high - golden * (high - low), low + golden * (high - low)];
  let [fc, fd] = [f(c), f(d)];
  for (let i = 0; i < 80; i++) {
    if (fc < fd) {
      [high, d, fd] = [d, c, fc];
      c = high - golden * (high - low);
      fc = f(c);
    } else {
      [low, c, fc] = [c, d, fd];
      d = low + golden * (high - low);
      fd = f(d);
    }
  }
  return Math.min(fc, fd);
}

/** Uniform numbers from a seed. */
export function randomFrom(seed: number): (low: number, high: number) => number {
  const generator = xoroshiro128plus(seed);
  return (low, high) => low + ((generator.next() >>> 0) / 2 ** 32) * (high - low);
}

/**
 * A set-up as shops have them and beyond: tilts from 1° to 179°, sweeps and distances over four decades of
 * ratio, either sign of both, and a skew that is none in a quarter of the cases and else tiny to large.
 */
export function randomSetup(random: (low: number, high: number) => number): Setup {
  const radius = 10 ** random(-1, 3);
  const sign = (): number => (random(0, 1) < 0.5 ? -1 : 1);
  const skewed = random(0, 1) < 0.75;
  return {
    tiltDeg: random(1, 179),
    sweepRadius: radius,
    distance: sign() * radius * 10 ** random(-2, 2),
    skew: skewed ? sign() * radius * 10 ** random(-6, 1) : 0,
  };
}
