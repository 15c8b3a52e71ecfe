/** Seeded numbers and a one-dimensional search for the brute force of this folder. */

/** A repeatable source of numbers from 0 to 1 for sampled cases (linear congruential, Numerical Recipes constants). */
export function uniform(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return state / 2 ** 32;
  };
}

/** Place and value of the largest value of a unimodal function, by golden section. */
export function golden(f: (x: number) => number, from: number, to: number): { x: number; value: number } {
  const share = (Math.sqrt(5) - 1) / 2;
  let [a, b] = [from, to];
  let [c, d] = [b - share * (b - a), a + share * (b - a)];
  let [fc, fd] = [f(c), f(d)];
  for (let turn = 0; turn < 90; turn++) {
    if (fc > fd) {
      [b, d, fd] = [d, c, fc];
      c = b - share * (b - a);
      fc = f(c);
    } else {
      [a, c, fc] = [c, d, fd];
      d = a + share * (b - a);
      fd = f(d);
    }
  }
  return fc > fd ? { x: c, value: fc } : { x: d, value: fd };
}
