/** Small numerical tools that the kernel's files share. */

/** sqrt(x² + y²) for lengths that the boundary has let through; closer to the truth than Math.hypot. */
export function length2(x: number, y: number): number {
  return Math.sqrt(x * x + y * y);
}

/** The root of f between a and b, where it has opposite signs, to the last bit: plain bisection. */
export function rootBetween(f: (t: number) => number, a: number, b: number): number {
  const rising = f(b) > 0;
  let low = a;
  let high = b;
  for (;;) {
    const middle = low + (high - low) / 2;
    if (middle <= low || middle >= high) return middle;
    if (f(middle) > 0 === rising) high = middle;
    else low = middle;
  }
}

/**
 * Every root of a function of period 2π that is smooth enough for 128 samples to see its changes of
 * sign. A trigonometric polynomial of degree 2 has at most four; a pair that falls between two samples
 * belongs to a bump too small to hold an extreme of its integral.
 */
export function rootsAround(f: (t: number) => number): number[] {
  const step = (2 * Math.PI) / 128;
  const roots: number[] = [];
  // Symmetric set-ups have their roots at round places; starting beside them keeps those between samples.
  let t = -0.0123;
  let before = f(t);
  for (let i = 1; i <= 128; i++) {
    const next = step * i - 0.0123;
    const here = f(next);
    if (here === 0 || before > 0 !== here > 0) roots.push(rootBetween(f, t, next));
    t = next;
    before = here;
  }
  return roots;
}
