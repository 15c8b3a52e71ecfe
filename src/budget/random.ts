/**
 * Random numbers that do not depend on how a run is cut up. Every input of every block of trials has a stream of
 * its own, started from the seed, the number of the block and the name of the input: whoever draws the block gets
 * the same numbers, and changing one input leaves the draws of the others alone.
 *
 * Generator: xoroshiro128+ (D. Blackman, S. Vigna, Scrambled linear pseudorandom number generators, ACM TOMS 47,
 * 2021), of period 2^128 - 1; streams start at places so scattered that two meeting within a run is out of reach.
 * Normal numbers: ziggurat of 256 layers (G. Marsaglia, W. W. Tsang, J. Stat. Software 5(8), 2000) with the layer and
 * the place in it taken from different bits (J. A. Doornik, An improved ziggurat method, 2005).
 * Gamma numbers: G. Marsaglia, W. W. Tsang, A simple method for generating gamma variables, ACM TOMS 26, 2000.
 */
import { uniformFloat64 } from 'pure-rand/distribution/uniformFloat64';
import { xoroshiro128plusFromState } from 'pure-rand/generator/xoroshiro128plus';
import type { RandomGenerator } from 'pure-rand/types/RandomGenerator';

/** A source of random numbers. */
export type Stream = RandomGenerator;

/** The stream of one input in one block of trials. */
export function streamOf(seed: number, block: number, name: string): Stream {
  // Fractions of the golden ratio, pi, e and the square root of 2: four words that differ.
  const state = [0x9e3779b9, 0x243f6a88, 0xb7e15162, 0x6a09e667];
  const absorb = (word: number): void => {
    for (let i = 0; i < 4; i++) {
      state[i] = scramble((state[i] as number) ^ word) + (state[(i + 3) % 4] as number);
    }
  };
  absorb(seed);
  absorb(seed / 0x100000000);
  absorb(block);
  absorb(name.length);
  for (let i = 0; i < name.length; i++) absorb(name.charCodeAt(i));
  return xoroshiro128plusFromState(state.map(scramble));
}

/** One to one on 32-bit words, each bit of the result depending on all (A. Appleby, MurmurHash3, public domain). */
function scramble(word: number): number {
  let x = word | 0;
  x = Math.imul(x ^ (x >>> 16), 0x85ebca6b);
  x = Math.imul(x ^ (x >>> 13), 0xc2b2ae35);
  return x ^ (x >>> 16);
}

/** 0 included, 1 not. */
export const uniform: (stream: Stream) => number = uniformFloat64;

/** Exponential of mean 1: the logarithm never meets 0, for `uniform` never gives 1. */
export function exponential(stream: Stream): number {
  return -Math.log(1 - uniformFloat64(stream));
}

const LAYERS = 256;
/**
 * Where the tail begins, so that 256 layers of one area close at the top: the solution of the closing condition,
 * found at 40 digits and rounded; and that area, R exp(-R²/2) plus the tail beyond R.
 */
const R = 3.654152885361009;
const AREA = 0.004928673233974655;

interface Ziggurat {
  /** Half width of layer i; layer 0 holds the tail. */
  readonly width: Float64Array;
  /** The curve exp(-x²/2) at those widths. */
  readonly height: Float64Array;
}

let built: Ziggurat | undefined;

/** Built when first needed, so that nothing happens on import. */
function ziggurat(): Ziggurat {
  if (built) return built;
  const density = (x: number): number => Math.exp((-x * x) / 2);
  const width = new Float64Array(LAYERS + 1);
  width[0] = AREA / density(R);
  width[1] = R;
  for (let i = 2; i < LAYERS; i++) {
    const below = width[i - 1] as number;
    width[i] = Math.sqrt(-2 * Math.log(AREA / below + density(below)));
  }
  built = { width, height: width.map(density) };
  return built;
}

/** Standard normal numbers into the first `count` places of `out`. */
export function fillNormal(stream: Stream, out: Float64Array, count: number): void {
  const { width, height } = ziggurat();
  for (let i = 0; i < count; i++) out[i] = normalWith(stream, width, height);
}

/** One standard normal number. */
export function normal(stream: Stream): number {
  const { width, height } = ziggurat();
  return normalWith(stream, width, height);
}

function normalWith(stream: Stream, width: Float64Array, height: Float64Array): number {
  for (;;) {
    const first = stream.next();
    const layer = first >>> 24;
    // 24 signed bits of the first word and 27 of the second: a multiple of 2^-50 from -1 to 1.
    const place = (((first << 8) >> 8) * 0x8000000 + (stream.next() & 0x7ffffff)) * 2 ** -50;
    const x = place * (width[layer] as number);
    if (Math.abs(x) < (width[layer + 1] as number)) return x;
    if (layer === 0) return place < 0 ? -tail(stream) : tail(stream);
    const low = height[layer] as number;
    if (low + uniformFloat64(stream) * ((height[layer + 1] as number) - low) < Math.exp((-x * x) / 2)) return x;
  }
}

/** A normal number known to lie beyond R (G. Marsaglia, Technometrics 6, 1964). */
function tail(stream: Stream): number {
  for (;;) {
    const beyond = exponential(stream) / R;
    if (2 * exponential(stream) > beyond * beyond) return R + beyond;
  }
}

/** One gamma number of scale 1. */
export function gamma(stream: Stream, shape: number): number {
  if (shape < 1) return gamma(stream, shape + 1) * (1 - uniformFloat64(stream)) ** (1 / shape);
  const d = shape - 1 / 3;
  const c = 1 / Math.sqrt(9 * d);
  for (;;) {
    const x = normal(stream);
    const root = 1 + c * x;
    if (root <= 0) continue;
    const v = root * root * root;
    if (Math.log(1 - uniformFloat64(stream)) < 0.5 * x * x + d * (1 - v + Math.log(v))) return d * v;
  }
}
