/** Small numerical tools that the kernel's files share. */

/** sqrt(x² + y²) for lengths that the boundary has let through; closer to the truth than Math.hypot. */
export function length2(x: number, y: number): number {
  return Math.sqrt(x * x + y * y);
}

/** The root of f between a and b, where it has opposite signs, to the last bit: plain bisection. */
export function rootBetween(f: (t: number) => number, a: number, b: number): number {
  const atEnd = f(b);
  if (atEnd === 0) return b; // no sign to tell rising from falling by
  const rising = atEnd > 0;
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

/** Place of the least value of f between a and b, where it has a single dip: golden section. */
export function leastBetween(f: (t: number) => number, a: number, b: number): number {
  const golden = (Math.sqrt(5) - 1) / 2;
  let low = a;
  let high = b;
  let left = high - golden * (high - low);
  let right = low + golden * (high - low);
  let atLeft = f(left);
  let atRight = f(right);
  // 60 rounds shrink the bracket by 1e-12; near its dip f changes with the square of that.
  for (let round = 0; round < 60; round++) {
    if (atLeft < atRight) {
      high = right;
      right = left;
      atRight = atLeft;
      left = high - golden * (high - low);
      atLeft = f(left);
    } else {
      low = left;
      left = right;
      atLeft = atRight;
      right = low + golden * (high - low);
      atRight = f(right);
    }
  }
  return atLeft < atRight ? left : right;
}

/** Places of all dips of f on a stretch that show at `steps` even samples, ends among them. */
export function dips(f: (t: number) => number, from: number, to: number, steps: number): number[] {
  const place = (i: number): number => from + ((to - from) * i) / steps;
  const values = Array.from({ length: steps + 1 }, (_, i) => f(place(i)));
  const found: number[] = [];
  values.forEach((value, i) => {
    const before = values[i - 1] ?? Infinity;
    const after = values[i + 1] ?? Infinity;
    if (value > before || value > after) return;
    const inner = leastBetween(f, place(Math.max(0, i - 1)), place(Math.min(steps, i + 1)));
    found.push(f(inner) < value ? inner : place(i));
  });
  return found;
}
