/**
 * What an error budget needs of a sweep. All models are smooth in every input, so that first order holds:
 * the size, the tip's passage at the pole (half the pip) and the departure from a sphere are three results,
 * since skew acts on the last alone and the other errors on the first two alone. The functions that the models
 * are made of are the ones by which `sweepSurface` and `sweepSettings` calculate.
 */
import { type Arithmetic, type ErrorQuantity, frozen, type Model, type Quantity } from '../../budget/model.js';

const TILT: Quantity = { kind: 'angleDeg', meaning: 'angle between the spindle axis and the work axis' };
const SWEEP: Quantity = { kind: 'length', meaning: "radius of the sweep, of the tip or the nose's centre" };
const DISTANCE: Quantity = { kind: 'length', meaning: "distance of the sweep's plane from the sphere's centre" };
const MISS: ErrorQuantity = { kind: 'length', meaning: 'sideways error in the plane of the two axes', isError: true };
const SKEW: ErrorQuantity = {
  kind: 'length',
  meaning: 'distance at which the two axes pass each other',
  isError: true,
};
const NOSE: Quantity = { kind: 'length', meaning: "radius of the tool's nose" };

/** Inputs of a model in which the tip is set over the centre of the work, but for its error `miss`. */
export type SweepAtPoleInput = 'tiltDeg' | 'sweepRadius' | 'noseRadius';
/** Inputs of a model in which the sweep's distance is set by measurement. */
export type SweepAtDistanceInput = 'sweepRadius' | 'distance' | 'noseRadius';

/** Distance of a sweep whose tip is set over the centre of the work but for a miss: (r cos α + miss) / sin α. */
export function distanceOverPole<T>(a: Arithmetic<T>, sweepRadius: T, tiltDeg: T, miss: T): T {
  return a.divide(a.add(a.multiply(sweepRadius, a.cosDeg(tiltDeg)), miss), a.sinDeg(tiltDeg));
}

/** Radius of the sphere that a sweep cuts: R² = h² + r², less the nose on a ball, plus it in a socket. */
export function cutRadius<T>(a: Arithmetic<T>, side: 'ball' | 'socket', sweepRadius: T, distance: T, nose: T): T {
  const path = length(a, distance, sweepRadius);
  return side === 'ball' ? a.subtract(path, nose) : a.add(path, nose);
}

/** Where the tip passes the pole, in the plane of the axes: h sin α - r cos α, positive short of the pole. */
function tipAtPole<T>(a: Arithmetic<T>, sweepRadius: T, distance: T, tiltDeg: T): T {
  return a.subtract(a.multiply(distance, a.sinDeg(tiltDeg)), a.multiply(sweepRadius, a.cosDeg(tiltDeg)));
}

/**
 * Distance of the sweep's ends from where the axes pass, less the distance half-way: about r e / R. `skew` above
 * 0 gives a ball, whose middle is too small, below 0 a socket.
 */
export function skewDeparture<T>(a: Arithmetic<T>, sweepRadius: T, distance: T, skew: T): T {
  const ends = a.add(length2(a, distance, sweepRadius), a.square(skew));
  const middle = a.add(a.square(distance), a.square(a.subtract(sweepRadius, skew)));
  // A difference of squares over a sum of roots keeps the digits of a small skew.
  const difference = a.multiply(a.constant(2), a.multiply(sweepRadius, skew));
  return a.divide(difference, a.add(a.sqrt(ends), a.sqrt(middle)));
}

function throughPole(name: string, side: 'ball' | 'socket'): Model<SweepAtPoleInput, 'miss'> {
  return frozen({
    name,
    result: { kind: 'length', meaning: `radius of the ${side} with the tip set over the centre of the work` },
    inputs: { tiltDeg: TILT, sweepRadius: SWEEP, miss: MISS, noseRadius: NOSE },
    evaluate: (a, { tiltDeg, sweepRadius, miss, noseRadius }) =>
      cutRadius(a, side, sweepRadius, distanceOverPole(a, sweepRadius, tiltDeg, miss), noseRadius),
  });
}

function atDistance(name: string, side: 'ball' | 'socket'): Model<SweepAtDistanceInput> {
  return frozen({
    name,
    result: { kind: 'length', meaning: `radius of the ${side} with the sweep's distance set by measurement` },
    inputs: { sweepRadius: SWEEP, distance: DISTANCE, noseRadius: NOSE },
    evaluate: (a, { sweepRadius, distance, noseRadius }) => cutRadius(a, side, sweepRadius, distance, noseRadius),
  });
}

/** Radius of a ball cut with the tip set over the centre of the work: R = r / sin α, less the nose. */
export const ballSweepModel: Model<SweepAtPoleInput, 'miss'> = /* @__PURE__ */ throughPole('ball-sweep', 'ball');

/** Radius of a socket cut with the tip set over the centre of the work: R = r / sin α, plus the nose. */
export const socketSweepModel: Model<SweepAtPoleInput, 'miss'> = /* @__PURE__ */ throughPole('socket-sweep', 'socket');

/** Radius of a ball cut with the sweep's distance set by measurement: R² = h² + r², less the nose. */
export const ballDistanceModel: Model<SweepAtDistanceInput> = /* @__PURE__ */ atDistance('ball-distance', 'ball');

/** Radius of a socket cut with the sweep's distance set by measurement: R² = h² + r², plus the nose. */
export const socketDistanceModel: Model<SweepAtDistanceInput> = /* @__PURE__ */ atDistance('socket-distance', 'socket');

/**
 * Where the tip passes the pole, in the plane of the axes: h sin α - r cos α + miss. Positive: short of the
 * pole; negative: past it. The pip's diameter is twice its size (with skew e, 2 sqrt(miss² + e²)).
 */
export const sweepPoleModel: Model<'tiltDeg' | 'sweepRadius' | 'distance', 'miss'> = /* @__PURE__ */ frozen({
  name: 'sweep-pole',
  result: { kind: 'length', meaning: 'place where the tip passes the pole, positive short of it' },
  inputs: { tiltDeg: TILT, sweepRadius: SWEEP, distance: DISTANCE, miss: MISS },
  evaluate: (a, { tiltDeg, sweepRadius, distance, miss }) => a.add(tipAtPole(a, sweepRadius, distance, tiltDeg), miss),
});

/**
 * How much the surface half-way round the sweep departs from the sphere through its ends: by about r e / R.
 * Exact for a ball and a skew above 0. Signed as the skew, so that first order holds at no skew; to the part the
 * sign does not matter: a ball is too small there, a socket too large.
 */
export const sweepFormModel: Model<'sweepRadius' | 'distance', 'skew'> = /* @__PURE__ */ frozen({
  name: 'sweep-form',
  result: { kind: 'length', meaning: 'difference between largest and smallest radius, signed as the skew' },
  inputs: { sweepRadius: SWEEP, distance: DISTANCE, skew: SKEW },
  evaluate: (a, { sweepRadius, distance, skew }) => skewDeparture(a, sweepRadius, distance, skew),
});

function length2<T>(a: Arithmetic<T>, x: T, y: T): T {
  return a.add(a.square(x), a.square(y));
}

function length<T>(a: Arithmetic<T>, x: T, y: T): T {
  return a.sqrt(length2(a, x, y));
}
