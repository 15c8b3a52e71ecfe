/**
 * Drawing values of inputs from their distributions, many at a time into arrays that are used again.
 * Source: JCGM 101:2008, table 1 and 6.4 (the clause stands at each distribution).
 */
import { refuse } from '../core/errors.js';
import { choleskyFactor, linked } from './correlation.js';
import type { Distribution, NamedInput } from './known.js';
import { exponential, fillNormal, gamma, normal, type Stream, streamOf, uniform } from './random.js';

/** Writes `count` draws to the front of `out`. */
type Draw = (stream: Stream, out: Float64Array, count: number) => void;

/** Draws one block: a column for each input, in the order in which the inputs were given. */
export type DrawBlock = (seed: number, block: number, columns: readonly Float64Array[], count: number) => void;

/** How to draw from a distribution. */
export function drawFrom(distribution: Distribution): Draw {
  switch (distribution.kind) {
    case 'constant':
      return (_stream, out, count) => out.fill(distribution.value, 0, count);
    case 'normal': {
      const { mean, standardDeviation } = distribution; // 6.4.7
      return (stream, out, count) => {
        fillNormal(stream, out, count);
        for (let i = 0; i < count; i++) out[i] = mean + standardDeviation * (out[i] as number);
      };
    }
    case 'rectangular': {
      const { from, to } = distribution; // 6.4.2
      const width = to - from;
      return each((stream) => from + width * uniform(stream));
    }
    case 'triangular':
    case 'trapezoidal': {
      const { from, to } = distribution; // 6.4.4 and 6.4.5: the sum of two rectangular ones
      const top = 'topRatio' in distribution ? distribution.topRatio : 0;
      const [wide, narrow] = [((to - from) / 2) * (1 + top), ((to - from) / 2) * (1 - top)];
      return each((stream) => from + wide * uniform(stream) + narrow * uniform(stream));
    }
    case 'curvilinear-trapezoid': {
      const { from, to, inexactness } = distribution; // 6.4.3: limits drawn first, one as far out as the other
      return each((stream) => {
        const low = from + inexactness * (2 * uniform(stream) - 1);
        return low + (from + to - 2 * low) * uniform(stream);
      });
    }
    case 'arcsine': {
      const [middle, half] = [distribution.from / 2 + distribution.to / 2, distribution.to / 2 - distribution.from / 2];
      return each((stream) => middle + half * Math.sin(2 * Math.PI * uniform(stream))); // 6.4.6
    }
    case 't': {
      const { location, scale, degreesOfFreedom } = distribution; // 6.4.9
      return each((stream) => location + scale * normal(stream) * stretch(stream, degreesOfFreedom));
    }
    case 'exponential': {
      const { mean } = distribution; // 6.4.10
      return each((stream) => mean * exponential(stream));
    }
    case 'gamma': {
      const { shape } = distribution; // 6.4.11
      return each((stream) => gamma(stream, shape));
    }
  }
}

/** √(ν/χ²): what makes a normal number one of Student's t. */
function stretch(stream: Stream, degreesOfFreedom: number): number {
  return Math.sqrt(degreesOfFreedom / (2 * gamma(stream, degreesOfFreedom / 2)));
}

function each(one: (stream: Stream) => number): Draw {
  return (stream, out, count) => {
    for (let i = 0; i < count; i++) out[i] = one(stream);
  };
}

/**
 * How to draw all inputs together. Correlated inputs are drawn from a multivariate normal distribution (6.4.8);
 * inputs of t distribution and equal degrees of freedom, such as readings taken together, from a multivariate t.
 * Correlation between inputs of other shapes does not say how they go together, and is refused.
 */
export function drawTogether(inputs: readonly NamedInput[], correlations: readonly (readonly number[])[]): DrawBlock {
  // A constant goes with nothing.
  const varies = inputs.map(({ distribution }) => distribution.kind !== 'constant');
  const matrix = correlations.map((row, i) => row.map((value, j) => (varies[i] && varies[j] ? value : 0)));
  const draws = linked(matrix).map((group): DrawBlock => {
    if (group.length > 1) return drawLinked(inputs, matrix, group);
    const column = group[0] as number;
    const { name, distribution } = inputs[column] as NamedInput;
    const draw = drawFrom(distribution);
    return (seed, block, columns, count) => draw(streamOf(seed, block, name), columns[column] as Float64Array, count);
  });
  return (seed, block, columns, count) => {
    for (const draw of draws) draw(seed, block, columns, count);
  };
}

/** One of the inputs that are drawn together. */
interface Member {
  readonly name: string;
  readonly column: number;
  readonly mean: number;
  readonly scale: number;
  /** Degrees of freedom, 0 for a normal distribution. */
  readonly freedom: number;
}

function memberOf({ name, distribution }: NamedInput, column: number): Member {
  if (distribution.kind === 'normal') {
    return { name, column, mean: distribution.mean, scale: distribution.standardDeviation, freedom: 0 };
  }
  if (distribution.kind === 't') {
    const { location: mean, scale, degreesOfFreedom: freedom } = distribution;
    return { name, column, mean, scale, freedom };
  }
  const phrase = `must join normal or t inputs; this one is ${distribution.kind}`;
  return refuse('out-of-range', 'correlations', name, phrase);
}

function drawLinked(
  inputs: readonly NamedInput[],
  correlations: readonly (readonly number[])[],
  group: readonly number[],
): DrawBlock {
  const members = group.map((column) => memberOf(inputs[column] as NamedInput, column));
  const first = members[0] as Member;
  const odd = members.find(({ freedom }) => freedom !== first.freedom);
  if (odd) {
    const phrase = `must join inputs of the same degrees of freedom as ${first.name}`;
    return refuse('out-of-range', 'correlations', odd.name, phrase);
  }
  const factor = choleskyFactor(group.map((i) => group.map((j) => correlations[i]?.[j] as number))) ?? [];

  return (seed, block, columns, count) => {
    const outs = group.map((column) => columns[column] as Float64Array);
    for (const [k, out] of outs.entries()) fillNormal(streamOf(seed, block, (members[k] as Member).name), out, count);
    // From the last row up, for row k needs the untouched columns 0 to k.
    for (let k = members.length - 1; k >= 0; k--) {
      const out = outs[k] as Float64Array;
      const row = factor[k] as number[];
      for (let i = 0; i < count; i++) out[i] = (out[i] as number) * (row[k] as number);
      for (let j = 0; j < k; j++) {
        const [other, weight] = [outs[j] as Float64Array, row[j] as number];
        for (let i = 0; i < count; i++) out[i] = (out[i] as number) + weight * (other[i] as number);
      }
    }
    const shared = first.freedom > 0 ? streamOf(seed, block, members.map(({ name }) => name).join('\n')) : undefined;
    for (let i = 0; i < count; i++) {
      const size = shared ? stretch(shared, first.freedom) : 1;
      for (const { column, mean, scale } of members) {
        const out = columns[column] as Float64Array;
        out[i] = mean + scale * size * (out[i] as number);
      }
    }
  };
}
